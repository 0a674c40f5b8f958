package answers

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// Tolerance is a quantity that may be off between two values, each put into the plan by its
// input; 0 is as planned.
type Tolerance struct {
	Name        string       // in words
	Input       stages.Input // symbol, unit and how a deviation is put in
	Least, Most float64      // range of the deviation, Least ≤ 0 ≤ Most, not both 0
}

// WeightWithin is the true weight of all elements, a fraction below and above nominal, in
// place of their weight tolerance.
func WeightWithin(under, over float64) Tolerance {
	return Tolerance{Name: "weight", Least: -under, Most: over, Input: stages.Input{Symbol: "ΔW/W", Unit: formula.One, Set: func(g *stages.Girder, _ *stages.Plan, off float64) error {
		for i := range g.Pieces {
			g.Pieces[i].Element.WeightTolerance = &loads.Tolerance{Under: math.Max(0, -off), Over: math.Max(0, off)}
		}
		return nil
	}}}
}

// PositionWithin is the place along x of the supports at one end of a stage, to both sides (m).
func PositionWithin(stage int, end Ends, off float64) Tolerance {
	name := fmt.Sprintf("position of the supports, %s end, stage %d", end, stage)
	if end == BothEnds {
		name = fmt.Sprintf("position of the supports, all in one sense, stage %d", stage)
	}
	return Tolerance{Name: name, Least: -off, Most: off, Input: stages.Input{Symbol: "Δx", Unit: formula.Metre, Set: func(g *stages.Girder, p *stages.Plan, off float64) error {
		middle := g.Length() / 2
		*p = stages.Altered(*p, stage, func(s *stages.Situation) {
			s.Supports = slices.Clone(s.Supports)
			for i := range s.Supports {
				if x := &s.Supports[i].X; end == BothEnds || *x < middle == (end == LeftEnd) {
					*x += off
				}
			}
		})
		return nil
	}}}
}

// LevelWithin is how much more than planned a support of a stage is out of the plane of the
// other three (m).
func LevelWithin(stage int, more float64) Tolerance {
	return Tolerance{Name: fmt.Sprintf("level difference, stage %d", stage), Most: more, Input: stages.Input{Symbol: "Δd", Unit: formula.Metre, Set: func(_ *stages.Girder, p *stages.Plan, off float64) error {
		*p = stages.Altered(*p, stage, func(s *stages.Situation) { s.OutOfLevel += off })
		return nil
	}}}
}

// PrestressWithin is the stress at all jacks, a fraction to both sides.
func PrestressWithin(off float64) Tolerance {
	return Tolerance{Name: "prestress", Least: -off, Most: off, Input: stages.Input{Symbol: "ΔP/P", Unit: formula.One, Set: func(_ *stages.Girder, p *stages.Plan, off float64) error {
		for n := range *p {
			*p = stages.Altered(*p, n+1, func(s *stages.Situation) { s.Events = pulled(s.Events, 1+off) })
		}
		return nil
	}}}
}

// DynamicWithin is how much more than planned the dynamic factor of the transient situations of
// a stage is at its maximum, and less at its minimum.
func DynamicWithin(stage int, off float64) Tolerance {
	return Tolerance{Name: fmt.Sprintf("dynamic factor, stage %d", stage), Least: -off, Most: off, Input: stages.Input{Symbol: "Δφ", Unit: formula.One, Set: func(_ *stages.Girder, p *stages.Plan, off float64) error {
		*p = stages.Altered(*p, stage, func(s *stages.Situation) {
			least, most, err := s.Dynamic.Range()
			if s.Standing || err != nil {
				return
			}
			if off < 0 {
				least += off
			} else {
				most += off
			}
			s.Dynamic.Least, s.Dynamic.Most = least, most
		})
		return nil
	}}}
}
