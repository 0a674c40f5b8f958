package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// ClosureWork is a closure from the lock to the first tendons: what holds its two tips
// together while the concrete hardens, and what moves them.
type ClosureWork struct {
	Closure     string // mark of its segment
	Lock        Lock
	Level       float64        // permissible difference of the tips when the lock is fixed, right less left, both carried on to the middle of the closure on their slopes, m, 1e-4 to 0.2
	Angle       float64        // permissible difference of their slopes, rad, 1e-5 to 0.02
	Camber      Tips           // the same of the casting curve at the tips, right less left; zero: the tips were cast in line
	Surveyed    *Tips          // by survey, right less left, in place of what is calculated; nil: not surveyed yet
	Flexibility *Flexibility   // of both tips together; nil: by the sections between the tips and the fixed supports
	Along       Along          // what acts along the deck
	Temperature Temperature    // until tendons act
	Strength    float64        // characteristic cylinder strength of the closure that its first tendons require, Pa, 5e6 to 100e6
	Stressed    float64        // day of the project on which they are stressed, d
	Tensile     float64        // age of the closure from which its mean tensile strength counts, d, 0 to 100; 0: it may not have tension before tendons act
	Source      formula.Source // of the tolerances and of Strength
}

// Tips are differences of two tips, right less left.
type Tips struct {
	Level float64 // m, within ±1
	Angle float64 // of slope, rad, within ±0.1
}

// Lock is the strongback that holds two tips together. Its stiffness is that of its beams with
// their bars; 0 is rigid.
type Lock struct {
	Force             float64 // permissible shear, N, 1e3 to 50e6
	Moment            float64 // permissible moment, N·m, 1e3 to 500e6
	Tension           float64 // permissible force along, N, 0 to 100e6
	Compression       float64 // the same of struts, N, 0 to 100e6
	Stiffness         float64 // against a difference of level, N/m, 0 or 1e5 to 1e12
	RotationStiffness float64 // against a difference of slope, N·m/rad, 0 or 1e5 to 1e14
	AlongStiffness    float64 // along, N/m, 0 or 1e5 to 1e12
	Document          string  // its calculation
}

// Flexibility is how far two tips move against each other by the force and the couple that
// the lock puts on them, at the middle of the closure.
type Flexibility struct {
	Level float64 // difference of level by a shear of 1 N, m/N, above 0
	Angle float64 // difference of slope by a couple of 1 N·m, rad/(N·m), above 0
	Cross float64 // either by the other: of the left arm less the right, 1/N; 0 for arms alike
}

// Along is what acts along the deck between the lock and the first tendons.
type Along struct {
	Stiffness  [2]float64 // longitudinal restraint of the left and the right part (pier, bearings), N/m, 0 or 1e4 to 1e12; 0: none
	Friction   [2]float64 // largest coefficient of friction of bearings on which a part slides, 0 to 0.3; 0: it does not slide
	Wind       float64    // along the deck, on the lock, N, 0 to 50e6
	Shortening float64    // by creep under the prestress of the arms until tendons act, m, 0 to 0.2; shrinkage is added by the models of the concrete
}

// Temperature is the changes from when the lock is fixed until tendons act.
type Temperature struct {
	Colder, Warmer   float64 // change of the mean temperature of the deck, K, 0 to 40
	WarmTop, ColdTop float64 // linear difference between top and bottom, K, 0 to 25
	Expansion        float64 // 1/K, 5e-6 to 15e-6; 0 means 10e-6 (EN 1991-1-5:2003, Table C.1, recalled)
	Source           formula.Source
}

// usualExpansion is that of concrete.
const usualExpansion = 10e-6

func (t Temperature) expansion() float64 {
	if t.Expansion == 0 {
		return usualExpansion
	}
	return t.Expansion
}

// closurePractice is the source of what is common practice and in no standard.
var closurePractice = formula.Source{Document: "common practice, no source", Confirm: true}

// closureChecks are those of a closure that a move pours or closes. One without a work of
// its own is a question for a document.
func (s *state) closureChecks(m Move, g stages.Girder, e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
	if m.Do != Pour && m.Do != Close {
		return nil, nil
	}
	i, err := s.one(m)
	if err != nil {
		return nil, err
	}
	mark := s.deck.Segments[i].Element.Mark
	for _, w := range s.deck.Closures {
		switch {
		case w.Closure != mark:
		case m.Do == Pour:
			return w.PourChecks(g, e)
		default:
			return w.CloseChecks(g, e)
		}
	}
	words := map[Doing]string{Pour: "levels of the tips, lock, temperature", Close: "tension in the closure until its tendons act, its strength"}[m.Do]
	return []stages.OwnCheck{{Check: stages.Check{Kind: limits.LocalForce, Name: "closure " + mark, State: stages.NotEvaluated, Sense: limits.AtMost, X: s.at[i],
		Place: "closure " + mark, Note: words + ": field Deck.Closures has no work of it"}}}, nil
}

// check reports the first field that is not as it must be.
func (w ClosureWork) check(g stages.Girder) error {
	if _, err := w.piece(g); err != nil {
		return err
	}
	return w.within()
}

// within reports the first value that is not in its range.
func (w ClosureWork) within() error {
	of := "ClosureWork " + w.Closure + " "
	l, a, t := w.Lock, w.Along, w.Temperature
	bounds := []bound{{"Level", w.Level, "m", 1e-4, 0.2}, {"Angle", w.Angle, "rad", 1e-5, 0.02}, {"Camber.Level", w.Camber.Level, "m", -1, 1}, {"Camber.Angle", w.Camber.Angle, "rad", -0.1, 0.1},
		{"Lock.Force", l.Force, "N", 1e3, 50e6}, {"Lock.Moment", l.Moment, "N·m", 1e3, 500e6}, {"Lock.Tension", l.Tension, "N", 0, 100e6}, {"Lock.Compression", l.Compression, "N", 0, 100e6},
		{"Lock.Stiffness", orLeast(l.Stiffness, 1e5), "N/m", 1e5, 1e12}, {"Lock.RotationStiffness", orLeast(l.RotationStiffness, 1e5), "N·m/rad", 1e5, 1e14}, {"Lock.AlongStiffness", orLeast(l.AlongStiffness, 1e5), "N/m", 1e5, 1e12},
		{"Along.Wind", a.Wind, "N", 0, 50e6}, {"Along.Shortening", a.Shortening, "m", 0, 0.2},
		{"Temperature.Colder", t.Colder, "K", 0, 40}, {"Temperature.Warmer", t.Warmer, "K", 0, 40}, {"Temperature.WarmTop", t.WarmTop, "K", 0, 25}, {"Temperature.ColdTop", t.ColdTop, "K", 0, 25},
		{"Temperature.Expansion", t.expansion(), "1/K", 5e-6, 15e-6}, {"Strength", w.Strength, "Pa", 5e6, 100e6}, {"Tensile", w.Tensile, "d", 0, 100}, {"Stressed", w.Stressed, "d", -1e6, 1e6}}
	for i := range a.Stiffness {
		bounds = append(bounds, bound{fmt.Sprintf("Along.Stiffness[%d]", i), orLeast(a.Stiffness[i], 1e4), "N/m", 1e4, 1e12}, bound{fmt.Sprintf("Along.Friction[%d]", i), a.Friction[i], "", 0, 0.3})
	}
	if s := w.Surveyed; s != nil {
		bounds = append(bounds, bound{"Surveyed.Level", s.Level, "m", -1, 1}, bound{"Surveyed.Angle", s.Angle, "rad", -0.1, 0.1})
	}
	if f := w.Flexibility; f != nil {
		most := math.Sqrt(math.Max(0, f.Level*f.Angle)) * (1 - 1e-9)
		bounds = append(bounds, bound{"Flexibility.Level", f.Level, "m/N", 1e-15, 1}, bound{"Flexibility.Angle", f.Angle, "rad/(N·m)", 1e-17, 1}, bound{"Flexibility.Cross", f.Cross, "1/N", -most, most})
	}
	if err := within(of, bounds...); err != nil {
		return err
	}
	if w.Source.Document == "" || t.Source.Document == "" || l.Document == "" {
		return fmt.Errorf("%w: closure %s: Source, Temperature.Source or Lock.Document is empty: must each name a document", ErrSegmental, w.Closure)
	}
	return nil
}

// orLeast is v, or least where v is 0, which means something else.
func orLeast(v, least float64) float64 {
	if v == 0 {
		return least
	}
	return v
}

// piece is the closure in the girder.
func (w ClosureWork) piece(g stages.Girder) (stages.Piece, error) {
	for _, p := range g.Pieces {
		if p.Element.Mark == w.Closure {
			return p, nil
		}
	}
	return stages.Piece{}, fmt.Errorf("%w: closure %q is not in girder %q: must be the mark of a segment", ErrSegmental, w.Closure, g.Mark)
}
