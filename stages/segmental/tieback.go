package segmental

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// TieBack is what ties an anchor inside the deck back to the concrete behind it, on the side
// away from its tendon: bonded reinforcement, and the compression of the concrete there.
type TieBack struct {
	Area     float64 // of the bars of one anchor, fully anchored on both sides of it, m², 0 to 0.1; none cross a match-cast joint: in front of one they do not count
	Yield    float64 // characteristic yield strength of the bars, Pa, 200e6 to 700e6
	Beside   float64 // part of the continuing section within the extended sides of the anchor plate or blister, without the blister, m², 0 to 20; 0: compression does not count
	Document string  // that states them; must not be empty
}

// check reports the first field that is not as it must be.
func (t *TieBack) check(of string) error {
	if t == nil {
		return nil
	}
	if t.Document == "" {
		return fmt.Errorf("%w: field %sDocument is empty: must name the document that states the reinforcement", ErrSegmental, of)
	}
	return within(of, bound{"Area", t.Area, "m²", 0, 0.1}, bound{"Yield", t.Yield, "Pa", 200e6, 700e6}, bound{"Beside", t.Beside, "m²", 0, 20})
}

// tieBackSource is where the part of the force and the stress of the bars come from.
var tieBackSource = formula.Source{Document: "AASHTO LRFD Bridge Design Specifications", Place: "intermediate anchorages, tie-backs", Confirm: true}

const (
	tiedPart   = 0.25  // of the jacking force
	tiedStress = 248e6 // largest stress of the bars, 36 ksi, Pa
)

// tied is the compression that is there at least behind an anchor, with what ties it back.
type tied struct {
	innerAnchor
	compression float64 // minimum, characteristic, at the tendon, Pa
}

// steel is the area of the bars that count.
func (t tied) steel() float64 {
	if t.tie == nil || t.crosses != "" {
		return 0
	}
	return t.tie.Area
}

// spare is what is left of the force that can be tied back, negative where it is too small.
func (t tied) spare() float64 {
	return math.Max(0, t.compression)*t.tie.Beside + t.steel()*math.Min(0.6*t.tie.Yield, tiedStress) - tiedPart*t.force
}

// tieBackChecks are the check of the anchor inside the deck with the smallest reserve, and the
// question about those for which no tie-back is stated: the largest force and where it has the
// least compression.
func (s *state) tieBackChecks(_ Move, g stages.Girder, e stages.Effects, _ limits.Standard) (list []stages.OwnCheck, err error) {
	anchors := s.innerAnchors()
	var stated, open *tied
	count, largest := 0, 0.0
	for _, a := range anchors {
		if a.tie == nil {
			count, largest = count+1, math.Max(largest, a.force)
		}
	}
	for _, a := range anchors {
		if a.tie == nil && a.force < largest*(1-nearly) {
			continue
		}
		t := tied{innerAnchor: a}
		if t.compression, err = leastCompression(g, e, a.x, a.out, a.at); err != nil {
			return nil, err
		}
		switch {
		case a.tie == nil && (open == nil || t.compression < open.compression):
			open = &t
		case a.tie != nil && (stated == nil || t.spare() < stated.spare()):
			stated = &t
		}
	}
	if stated != nil {
		check, err := stated.check()
		if err != nil {
			return nil, err
		}
		list = append(list, check)
	}
	if open != nil {
		list = append(list, open.question(count))
	}
	return list, nil
}

// leastCompression is the minimum compression of the gross section on one side of x at a point
// (Pa), characteristic, over all ranges of the actions.
func leastCompression(g stages.Girder, e stages.Effects, x, side float64, at section.Point) (float64, error) {
	properties := grossBeside(g, x, side).Properties()
	left, right, err := e.Ranges(x, limits.Factors{}, func(f section.Forces) float64 {
		return -properties.Stress(toCentroid(f, properties.Centroid), at)
	})
	if side < 0 {
		return left.Least, err
	}
	return right.Least, err
}

// tiedBound is what the check leaves on the safe side.
const tiedBound = "characteristic, on the gross section; bounded: jacking force; concrete that is joined behind an anchor after stressing receives this force by creep alone"

func (t tied) check() (stages.OwnCheck, error) {
	c := &formula.Chain{}
	source := formula.Source{Document: t.tie.Document}
	demand := c.Derive(formula.Q("T_tb", 0, formula.Newton, "force that must be tied back"), "0.25*P_s", tieBackSource, formula.Q("P_s", t.force, formula.Newton, "jacking force of "+t.mark))
	limit := c.Derive(formula.Q("R_tb", 0, formula.Newton, "compression of the concrete behind the anchor, and bars"), "max(0, f_cb)*A_cb + A_s*min(0.6*f_yk, σ_s_max)", tieBackSource,
		formula.Q("f_cb", t.compression, formula.Pascal, "minimum compression behind the anchor"), formula.Q("A_cb", t.tie.Beside, formula.SquareMetre, "continuing section within the sides of plate or blister"),
		formula.Q("A_s", t.steel(), formula.SquareMetre, "bars that tie the anchor back"), formula.Q("f_yk", t.tie.Yield, formula.Pascal, "yield strength of the bars"), formula.Q("σ_s_max", tiedStress, formula.Pascal, "largest stress of the bars"))
	c.Note(strings.TrimPrefix(t.barsNote(), "; "))
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: "tie-back of the anchor of " + t.mark, LimitState: limits.Serviceability, Sense: limits.AtMost, Source: source, Line: formula.Given(limit, source),
		Scale: formula.Q("P_s", t.force, formula.Newton, "jacking force of "+t.mark)}, demand)
	check.X, check.Place, check.Note = t.x, t.place(), tiedBound+t.barsNote()
	return check.Derived(lines...), nil
}

// barsNote says why bars do not count.
func (t tied) barsNote() string {
	if t.crosses == "" {
		return ""
	}
	return "; no bars cross joint " + t.crosses + " behind it"
}

// question is that about anchors without a stated tie-back.
func (t tied) question(count int) stages.OwnCheck {
	return stages.OwnCheck{Check: stages.Check{Kind: limits.LocalForce, Name: "tie-back of anchors inside the deck", State: stages.NotEvaluated, Sense: limits.AtMost, X: t.x, Place: t.place(),
		Note: fmt.Sprintf("%d anchors without a stated tie-back: required for up to %.0f kN, 0.25 of the jacking force of %s (%s), less the compression of the concrete beside it, there at least %.2f MPa%s; %s",
			count, math.Ceil(tiedPart*t.force/1e3), t.mark, tieBackSource, math.Floor(t.compression/1e4)/100, t.barsNote(), tiedBound)}}
}
