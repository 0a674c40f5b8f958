package stages

import (
	"fmt"
	"math"
)

// validSupports reports a support that cannot be as it is written.
func (r Record) validSupports(s SituationRecord) error {
	for i, p := range s.Supports {
		name := fmt.Sprintf("support %d", i+1)
		if err := p.check(r.Length); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
	}
	return nil
}

// validEquipment reports equipment that no stage would take.
func (r Record) validEquipment(s SituationRecord) error {
	return checkEquipment(s.Equipment, s.Supports, r.Length)
}

// validReactions are one for each support, at its place, with their ranges the right
// way round.
func (r Record) validReactions(s SituationRecord) error {
	if len(s.Reactions) != len(s.Supports) {
		return fmt.Errorf("%d reactions of %d supports: must be one for each", len(s.Reactions), len(s.Supports))
	}
	if err := validRange("total of the reactions", s.Total, " N"); err != nil {
		return err
	}
	for i, of := range s.Reactions {
		p := s.Supports[i]
		if len(s.Bodies) == 0 && of.Body != 0 {
			return fmt.Errorf("reaction %d of body %d: must be 0, there is one body", i+1, of.Body)
		}
		if !(math.Abs(of.X-p.X) < 1e-6 && math.Abs(of.Y-p.Y) < 1e-6 && math.Abs(of.Z-p.Z) < 1e-6) || of.Role != p.Role {
			return fmt.Errorf("reaction %d of a %s at x = %g m, y = %g m, z = %g m: must be that of the %s at %g, %g, %g m", i+1, of.Role, of.X, of.Y, of.Z, p.Role, p.X, p.Y, p.Z)
		}
		if err := of.valid(); err != nil {
			return fmt.Errorf("reaction %d: %w", i+1, err)
		}
	}
	if err := validTotal(s.Reactions, s.Total); err != nil || len(s.Bodies) == 0 {
		if err == nil {
			err = validShares(s.Reactions, s.Total)
		}
		return err
	}
	return s.validBodies()
}

// validTotal reports a total at rest that the reactions do not cover.
func validTotal(reactions []Reaction, total Range) error {
	var sum Range
	for _, of := range reactions {
		sum.Least, sum.Most = sum.Least+of.Static.Least, sum.Most+of.Static.Most
	}
	if len(reactions) > 0 && !covers(sum, total) {
		return fmt.Errorf("static reactions add up to %g to %g N: must cover the total, %g to %g N", sum.Least, sum.Most, total.Least, total.Most)
	}
	return nil
}

// validBodies are the rules of total and shares for each of several bodies.
func (s SituationRecord) validBodies() error {
	parts := make([][]Reaction, len(s.Bodies))
	for i, of := range s.Reactions {
		if of.Body < 1 || of.Body > len(s.Bodies) {
			return fmt.Errorf("reaction %d of body %d: must be 1 to %d", i+1, of.Body, len(s.Bodies))
		}
		parts[of.Body-1] = append(parts[of.Body-1], of)
	}
	for i, b := range s.Bodies {
		err := validRange("total of the reactions", b.Total, " N")
		if err == nil {
			err = validTotal(parts[i], b.Total)
		}
		if err == nil {
			err = validShares(parts[i], b.Total)
		}
		if err != nil {
			return fmt.Errorf("body %d: %w", i+1, err)
		}
	}
	return nil
}

// covers is true for a range that contains another, but for the rounding of its sums.
func covers(wide, of Range) bool {
	slack := 1e-6 * math.Max(math.Abs(wide.Least), math.Abs(wide.Most))
	return wide.Least <= of.Least+slack && wide.Most >= of.Most-slack
}

// validShares reports shares of the total of a body that do not add up to 1, and a share
// that does not come from its reaction and the total.
func validShares(reactions []Reaction, total Range) error {
	var sum Range
	for _, of := range reactions {
		if of.Share == nil {
			return nil // nothing says how the supports share
		}
		sum.Least, sum.Most = sum.Least+of.Share.Least, sum.Most+of.Share.Most
	}
	slack := shareSlack * float64(len(reactions))
	if len(reactions) > 0 && !(sum.Least <= 1+slack && sum.Most >= 1-slack) {
		return fmt.Errorf("shares of the total add up to %.4g to %.4g: must add up to 1", sum.Least, sum.Most)
	}
	for i, of := range reactions {
		could := shareOf(of.Static, total)
		if !(of.Share.Least >= could.Least-shareSlack && of.Share.Most <= could.Most+shareSlack) {
			return fmt.Errorf("reaction %d: share from %g to %g: must be within %.4g to %.4g, static %g to %g N of the total %g to %g N",
				i+1, of.Share.Least, of.Share.Most, could.Least, could.Most, of.Static.Least, of.Static.Most, total.Least, total.Most)
		}
	}
	return nil
}

// valid reports ranges of a reaction that are the wrong way round.
func (of Reaction) valid() error {
	for _, n := range []struct {
		name string
		Range
	}{{"static", of.Static}, {"characteristic", of.Characteristic}, {"ultimate", of.Ultimate}} {
		if err := validRange(n.name, n.Range, " N"); err != nil {
			return err
		}
	}
	switch {
	case !finite(of.Nominal):
		return fmt.Errorf("nominal = %g N: must be finite", of.Nominal)
	case of.Sling != 0 && !(of.Sling >= 1-1e-9 && finite(of.Sling)):
		return fmt.Errorf("force along the sling = %g of the vertical one: must be at least 1, or 0 without a sling", of.Sling)
	case !covers(of.Characteristic, of.Static):
		return fmt.Errorf("static from %g to %g N: must be within the characteristic ones, %g to %g N", of.Static.Least, of.Static.Most, of.Characteristic.Least, of.Characteristic.Most)
	case of.Share == nil:
		return nil
	case of.Bounded:
		return fmt.Errorf("it is bounded and has a share of the total: must have none, it gives no band to measure by")
	}
	return validRange("share", *of.Share, "")
}

// shareSlack is the part of the total by which a share may be outside: what shares are
// printed to.
const shareSlack = 1e-3

// shareOf is the widest range of a part of a total.
func shareOf(part, total Range) Range {
	wide := Range{Least: math.Inf(1), Most: math.Inf(-1)}
	for _, p := range []float64{part.Least, part.Most} {
		for _, t := range []float64{total.Least, total.Most} {
			wide.Least, wide.Most = math.Min(wide.Least, p/t), math.Max(wide.Most, p/t)
		}
	}
	return wide
}
