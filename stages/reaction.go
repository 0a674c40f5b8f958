package stages

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// Range is a least and a greatest value.
type Range = derive.Range

// Reaction is the force of one support, along gravity, positive as it carries the
// weight (N), in three ranges, each for its own use.
type Reaction struct {
	X              float64 `json:"x"`              // m
	Y              float64 `json:"y,omitempty"`    // m
	Z              float64 `json:"z,omitempty"`    // m
	Role           Role    `json:"role,omitempty"` // what the support is
	Group          string  `json:"g,omitempty"`    // of equal forces
	Nominal        float64 `json:"n"`              // self-weight and mean prestress; of a bounded one in the first way of sharing
	Static         Range   `json:"s"`              // at rest: weight tolerance, prestress, levels, what is always there; for measuring
	Share          *Range  `json:"p,omitempty"`    // of the measured total, at rest; nil for a bounded reaction: it gives no band to measure by
	Characteristic Range   `json:"c"`              // with dynamic factors and other actions; against rated capacities
	Ultimate       Range   `json:"u"`              // with partial factors for strength; for ground, concrete, stacks
	Sling          float64 `json:"f,omitempty"`    // force along its sling over this vertical force; 0 without a sling
	Bounded        bool    `json:"b,omitempty"`    // nothing says how the supports share: extremes over every statically determinate set
}

// reactions are the forces of the supports of every body.
func (r *run) reactions(s *situation) ([]Reaction, error) {
	ultimate, err := r.strengthFactors(s)
	if err != nil {
		return nil, err
	}
	var list []Reaction
	for _, a := range s.acts {
		for i, p := range a.supports {
			one := Reaction{X: p.X, Y: p.Y - r.girder.offset(p.X), Z: p.Z, Role: p.Role, Group: p.Group, Bounded: a.bounded}
			empty := Range{Least: math.Inf(1), Most: math.Inf(-1)}
			one.Static, one.Characteristic, one.Ultimate = empty, empty, empty
			share := empty
			measured := !a.bounded
			for n, v := range s.cases {
				m, err := r.supportSums(v, a, i)
				if err != nil {
					return nil, err
				}
				if n == 0 {
					one.Nominal = m.under(r.nominal(s))
				}
				for _, of := range v.ways[a].spaces {
					one.Sling = math.Max(one.Sling, of.incline(i, v.ways[a].up))
				}
				list := []struct {
					into   *Range
					causes []ledger.Cause
				}{{&one.Static, r.atRest(s)}, {&one.Characteristic, r.ranges(s, limits.Factors{})}}
				for _, f := range ultimate {
					list = append(list, struct {
						into   *Range
						causes []ledger.Cause
					}{&one.Ultimate, r.ranges(s, f)})
				}
				for _, of := range list {
					if err := r.widen(v, a, i, &m, of.into, of.causes); err != nil {
						return nil, err
					}
				}
				if measured, err = r.shares(v, a, i, &m, &share, measured); err != nil {
					return nil, err
				}
			}
			if measured {
				one.Share = &share
			}
			if a.bounded {
				one.Static, one.Characteristic, one.Ultimate = within(one.Static, p), within(one.Characteristic, p), within(one.Ultimate, p)
			}
			list = append(list, one)
		}
	}
	return list, nil
}

// within leaves of a range what a support can give. A way of sharing that holds under
// some factors is laid out under all: where it would need the support to act against
// its sense, another way holds and the support carries nothing.
func within(r Range, s Support) Range {
	switch sense := s.sense(); {
	case sense > 0:
		return Range{Least: math.Max(0, r.Least), Most: math.Max(0, r.Most)}
	case sense < 0:
		return Range{Least: math.Min(0, r.Least), Most: math.Min(0, r.Most)}
	}
	return r
}

// total is the range of the sum of all reactions at rest (N): of every body, with its
// own tolerance. A contact that opens changes how they share, not their sum.
func (r *run) total(s *situation) (Range, error) {
	causes := r.atRest(s)
	of := Range{Least: math.Inf(1), Most: math.Inf(-1)}
	for _, v := range s.cases {
		var all supportSums
		for _, a := range s.acts {
			m, err := r.supportSums(v, a, 0)
			if err != nil {
				return of, err
			}
			if all.part == nil {
				all.terms, all.part = m.terms, make([]float64, len(m.totals))
			}
			for k, force := range m.totals {
				all.part[k] += force
			}
		}
		if err := all.widen(&of, causes); err != nil {
			return of, err
		}
	}
	return of, nil
}

// strengthFactors are the partial factors for strength of the standard, of each of
// its combinations.
func (r *run) strengthFactors(s *situation) ([]limits.Factors, error) {
	answers, _, err := r.ask(r.question(s, limits.WebShear, s.carried()[0]))
	if err != nil || len(answers) == 0 {
		return []limits.Factors{{}}, err
	}
	var list []limits.Factors
	for _, a := range answers {
		list = append(list, a.Factors)
	}
	return list, nil
}

// atRest are the causes without dynamic factor and without what may be absent.
func (r *run) atRest(s *situation) []ledger.Cause {
	causes := r.ranges(s, limits.Factors{})
	for i, c := range r.causes {
		switch c.kind {
		case causeDynamic:
			causes[i].Least, causes[i].Most = 1, 1
		case causeAction:
			if least, _ := c.action.presence(); least <= 0 {
				causes[i].Least, causes[i].Most = 0, 0
			}
		}
	}
	return causes
}

// supportSums is what every entry gives to a support and to all of its body.
type supportSums struct {
	terms  []ledger.Term
	part   []float64 // N
	totals []float64 // N
}

func (r *run) supportSums(v *variant, a *arrangement, i int) (supportSums, error) {
	var m supportSums
	for k := range v.current {
		e := &v.current[k]
		answer, err := r.answer(e.of, v.ways[e.of], e.load, e.state)
		if err != nil {
			return m, err
		}
		part, total := 0.0, 0.0
		for j, p := range a.supports {
			if at := e.of.index3(p); at >= 0 {
				force := e.coefficient * answer.vertical[at]
				total += force
				if j == i {
					part += force
				}
			}
		}
		m.terms = append(m.terms, ledger.Term{Inner: e.inner, Outer: e.outer})
		m.part, m.totals = append(m.part, part), append(m.totals, total)
	}
	return m, nil
}

// under is the force under stated factors.
func (m *supportSums) under(factors []float64) float64 {
	sum := 0.0
	for k, t := range m.terms {
		f := m.part[k]
		if t.Inner >= 0 {
			f *= factors[t.Inner]
		}
		for _, o := range t.Outer {
			f *= factors[o]
		}
		sum += f
	}
	return sum
}

// widen makes a range cover the force of a support under the causes, with contact
// where it changes.
func (r *run) widen(v *variant, a *arrangement, i int, m *supportSums, of *Range, causes []ledger.Cause) error {
	corners, err := r.contacts(v, causes)
	if err != nil {
		return err
	}
	for _, c := range corners {
		force := m.under(c.factors)
		if vertical := c.vertical[a]; vertical != nil {
			force = vertical[i]
		}
		of.Least, of.Most = math.Min(of.Least, force), math.Max(of.Most, force)
	}
	if len(corners) > 0 {
		return nil
	}
	return m.widen(of, causes)
}

// widen makes a range cover the force under the causes.
func (m *supportSums) widen(of *Range, causes []ledger.Cause) error {
	c, err := ledger.NewCombination(causes, m.terms)
	if err != nil {
		return err
	}
	sums := make([]float64, c.Columns())
	for k := range c.Corners() {
		c.Sums(sums, k, m.part)
		of.Least = math.Min(of.Least, c.Extreme(sums, -1))
		of.Most = math.Max(of.Most, c.Extreme(sums, 1))
	}
	return nil
}

// shares makes a range cover the share of a support in the total at rest, with
// contact where it changes; false where there is no total to share.
func (r *run) shares(v *variant, a *arrangement, i int, m *supportSums, of *Range, so bool) (bool, error) {
	causes := r.atRest(v.situation)
	corners, err := r.contacts(v, causes)
	if err != nil || !so {
		return false, err
	}
	for _, c := range corners {
		vertical, total := c.vertical[a], 0.0
		for _, force := range vertical {
			total += force
		}
		if vertical == nil || !(total > 0) {
			return false, nil
		}
		of.Least, of.Most = math.Min(of.Least, vertical[i]/total), math.Max(of.Most, vertical[i]/total)
	}
	return len(corners) > 0 || m.shares(of, causes), nil
}

// shares makes a range cover the share of the total; false where the total is not
// positive under all factors.
func (m *supportSums) shares(of *Range, causes []ledger.Cause) bool {
	c, err := ledger.NewCombination(causes, m.terms)
	if err != nil {
		return false
	}
	pairs, sums := make([]r2.Vec, len(m.terms)), make([]r2.Vec, c.Columns())
	for i := range pairs {
		pairs[i] = r2.Vec{X: m.part[i], Y: m.totals[i]}
	}
	var reach ledger.Reach
	for k := range c.Corners() {
		c.Pairs(sums, k, pairs)
		low, ok := c.Share(nil, k, &reach, sums, -1)
		high, also := c.Share(nil, k, &reach, sums, 1)
		if !ok || !also {
			return false
		}
		of.Least, of.Most = math.Min(of.Least, low), math.Max(of.Most, high)
	}
	return true
}
