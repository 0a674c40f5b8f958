package answers

import (
	"errors"
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// altering is an input that changes every situation of the stage of a case.
func altering(c stages.Case, symbol string, unit formula.Unit, change func(s *stages.Situation, value float64)) stages.Input {
	return stages.Input{Symbol: symbol, Unit: unit, Set: func(_ *stages.Girder, p *stages.Plan, value float64) error {
		*p = stages.Altered(*p, c.Stage, func(s *stages.Situation) { change(s, value) })
		return nil
	}}
}

// LargestDynamic is the largest maximum of the dynamic factor on the weight in the
// transient situations of a stage, up to 10; its minimum stays. The error wraps
// [ErrAnswer].
func LargestDynamic(c stages.Case) (Answer, error) {
	list, err := situations(c)
	if err != nil {
		return Answer{}, err
	}
	if !slices.ContainsFunc(list, func(s stages.Situation) bool { return !s.Standing }) {
		return Answer{}, fmt.Errorf("%w: stage %d has no transient situation: a dynamic factor must be that of a lift or a haul", ErrAnswer, c.Stage)
	}
	return Solve(c, Question{
		Asked: "maximum dynamic factor", Sense: Maximum, Low: 1, High: 10,
		Input: altering(c, "φ_dyn", formula.One, func(s *stages.Situation, value float64) {
			if !s.Standing {
				s.Dynamic.Most = value
			}
		}),
	})
}

// mostHeavier is how much above the nominal weight is tried.
const mostHeavier = 2.0

// WeightReserve is how much heavier than nominal the elements may be, as a fraction up to
// 2, in place of the upper weight tolerance; extra weights included, from casting on. The
// error wraps [ErrAnswer].
func WeightReserve(c stages.Case) (Answer, error) {
	a, err := Solve(c, Question{
		Asked: "weight above nominal", Sense: Maximum, Low: 0, High: mostHeavier, Percent: true,
		Input: stages.Input{Symbol: "ΔW/W", Unit: formula.One, Set: func(g *stages.Girder, _ *stages.Plan, over float64) error {
			for i := range g.Pieces {
				if t := g.Pieces[i].Element.WeightTolerance; t != nil { // without it the plan refuses
					g.Pieces[i].Element.WeightTolerance = &loads.Tolerance{Under: t.Under, Over: over}
				}
			}
			return nil
		}},
	})
	a.Notes = append(a.Notes, "the whole element is heavier in one ratio, extra weights included; the lower weight tolerance as stated")
	return a, err
}

// CentreOfGravityReserve is how far along x (m) the centre of gravity of an element may be
// off its calculated place, to either side, up to a twentieth of the length: weight is
// moved from one half to the other, spread evenly over each. The error wraps [ErrAnswer]: a
// girder of several elements too.
func CentreOfGravityReserve(c stages.Case) (Answer, error) {
	if c.Subject == nil {
		return Answer{}, fmt.Errorf("%w: Case.Subject is missing: must be an Element", ErrAnswer)
	}
	pieces := c.Subject.Girder().Pieces
	if len(pieces) != 1 {
		return Answer{}, fmt.Errorf("%w: the girder has %d elements: must be one whose centre of gravity is asked for", ErrAnswer, len(pieces))
	}
	mass, err := pieces[0].Element.CentreOfGravity()
	if err != nil {
		return Answer{}, fmt.Errorf("%w: %w", ErrAnswer, err)
	}
	toward := func(sign float64) stages.Input {
		return stages.Input{Symbol: "e_x", Unit: formula.Metre, Set: func(g *stages.Girder, _ *stages.Plan, off float64) error {
			return shift(&g.Pieces[0].Element, mass, sign*off)
		}}
	}
	a, err := Question{
		Asked: "centre of gravity off along x, to either side", Sense: Maximum, Low: 0, High: pieces[0].Element.Length / 20, Input: toward(1),
	}.worst(c, toward(1), toward(-1))
	a.Notes = append(a.Notes, "the total weight is kept: a part of it is moved from one half of the length to the other, even over each half")
	return a, err
}

// shift moves the centre of gravity of an element along x without a change of its weight:
// the outline is lighter in one ratio, and what it lacks is spread over one half.
func shift(e *stages.Element, mass stages.Mass, off float64) error {
	if off == 0 {
		return nil
	}
	light := *e
	light.Extra = nil
	own, err := light.CentreOfGravity()
	if err != nil {
		return err
	}
	from, to := e.Length/2, e.Length
	if off < 0 {
		from, to = 0, e.Length/2
	}
	// The moved weight acts at the middle of its half: w·(x − x_own) = W·off.
	w := mass.Weight * off / ((from+to)/2 - own.X)
	if !(w > 0 && w < own.Weight) {
		return errors.New("the centre of gravity is beyond what the weight of the outline can shift")
	}
	if e.UnitWeight == 0 {
		e.UnitWeight = 25e3 // that of Element
	}
	e.UnitWeight *= 1 - w/own.Weight
	e.Extra = append(slices.Clone(e.Extra), stages.ExtraWeight{Mark: "weight moved from one half to the other", From: from, To: to, Weight: w, Y: own.Y, Z: own.Z})
	return nil
}

// The range of Situation.OutOfLevel (m) that is tried: 0 is not stated, and nobody levels
// to a tenth of a millimetre.
const leastOutOfLevel, mostOutOfLevel = 1e-4, 0.1

// LargestLevelDifference is how far any one support of a stage may be out of the plane of
// the other three (m), 0.0001 to 0.1, for supports that share by stiffness. The error wraps
// [ErrAnswer].
func LargestLevelDifference(c stages.Case) (Answer, error) {
	return Solve(c, Question{
		Asked: "level difference of a support from the plane of the other three", Sense: Maximum, Low: leastOutOfLevel, High: mostOutOfLevel, Small: true,
		Input: altering(c, "d", formula.Metre, func(s *stages.Situation, value float64) { s.OutOfLevel = value }),
	})
}
