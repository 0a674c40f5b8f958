package stages

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/unit/constant"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// validStages are the stages in order: numbered from 1, no situation before the end of
// the one before it.
func (r Record) validStages() error {
	before := SituationRecord{Day: math.NaN()}
	for i, stage := range r.Stages {
		switch {
		case stage.Number != i+1:
			return fmt.Errorf("stage %d has the number %d: must be %[1]d", i+1, stage.Number)
		case len(stage.Situations) == 0:
			return fmt.Errorf("stage %d has no situation: must have at least one", i+1)
		case stage.Age != stage.Situations[0].Age:
			return fmt.Errorf("stage %d, age = %g d: must be %g d, that of its first situation", i+1, stage.Age, stage.Situations[0].Age)
		}
		for k, s := range stage.Situations {
			err := s.validTimes(before)
			if err == nil {
				err = r.validSituation(s)
			}
			if err != nil {
				return fmt.Errorf("stage %d, situation %d %q: %w", i+1, k+1, s.Name, err)
			}
			before = s
		}
	}
	return nil
}

// validTimes reports ages that run backwards, and a day that does not go with the age.
func (s SituationRecord) validTimes(before SituationRecord) error {
	end := math.Max(before.Age, before.Until)
	switch {
	case !(s.Age > 0 && s.Age <= oldest):
		return fmt.Errorf("age = %g d: must be above 0, at most %g d", s.Age, oldest)
	case s.Age < end:
		return fmt.Errorf("age = %g d: must be at least %g d, when the previous situation ends", s.Age, end)
	case s.Until != 0 && !(s.Until >= s.Age && s.Until <= oldest):
		return fmt.Errorf("until = %g d: must be 0 (at once) or %g to %g d", s.Until, s.Age, oldest)
	case !finite(s.Day):
		return fmt.Errorf("day = %g d: must be finite", s.Day)
	}
	cast := before.Day - before.Age // no number before the first situation
	if off := math.Abs(s.Day - s.Age - cast); off > 1e-6*math.Max(1, math.Abs(s.Day)) {
		return fmt.Errorf("day = %g d at age %g d: must be %g d, cast on day %g", s.Day, s.Age, cast+s.Age, cast)
	}
	return nil
}

// validSituation are the rules of one situation, in the order in which it is printed.
func (r Record) validSituation(s SituationRecord) error {
	for _, rule := range []func(SituationRecord) error{
		r.validState, r.validSupports, r.validEquipment, r.validReactions, r.validRows, r.validJoints, r.validForces, r.validChecks, r.validHolds, r.validReferences, r.validFigures,
	} {
		if err := rule(s); err != nil {
			return err
		}
	}
	return nil
}

// validState reports phase, position, factors and weight that no situation has.
func (r Record) validState(s SituationRecord) error {
	switch {
	case !(s.Strength >= 0) || !finite(s.Strength):
		return fmt.Errorf("strength = %g Pa: must be 0 or more", s.Strength)
	case !(s.Mass.Weight > 0) || !(math.Abs(s.Mass.Mass*gravity/s.Mass.Weight-1) < 1e-4):
		return fmt.Errorf("weight = %g N of the mass %g kg: must be above 0, at g = %g m/s²", s.Mass.Weight, s.Mass.Mass, gravity)
	case !r.on(s.Mass.X) || !(math.Abs(s.Mass.Y) <= widest && math.Abs(s.Mass.Z) <= widest):
		return fmt.Errorf("centre of gravity at x = %g m, y = %g m, z = %g m: must be on the element, 0 to %g m", s.Mass.X, s.Mass.Y, s.Mass.Z, r.Length)
	case !(s.Weight.Least > 0 && s.Weight.Least <= 1+agree && s.Weight.Most >= 1-agree && s.Weight.Most <= mostWeight):
		return fmt.Errorf("factor on the weight from %g to %g: must be above 0, at most %g, with 1 within it", s.Weight.Least, s.Weight.Most, mostWeight)
	}
	position := Situation{Phase: limits.Phase(s.Phase), Standing: s.Standing, Dynamic: loads.Dynamic{Least: s.Dynamic.Least, Most: s.Dynamic.Most}, Roll: s.Roll, Gradient: s.Gradient, OutOfLevel: s.OutOfLevel}
	if err := (&History{}).checkRange(&position); err != nil {
		return err
	}
	if err := s.Method.check(); err != nil {
		return err
	}
	if err := s.Braces.valid(r.Length); err != nil {
		return err
	}
	for i, p := range s.Stressing {
		if err := p.valid(); err != nil {
			return fmt.Errorf("jacking %d of tendon %q: %w", i+1, p.Mark, err)
		}
	}
	for i, e := range s.Steps {
		if err := e.valid(); err != nil {
			return fmt.Errorf("step %d of stressing: %w", i+1, err)
		}
	}
	if err := s.Placed.valid(r); err != nil {
		return fmt.Errorf("forces of tendons where checks govern: %w", err)
	}
	for i, l := range s.Loads {
		if err := r.validLoad(l); err != nil {
			return fmt.Errorf("action %d %q: %w", i+1, l.Mark, err)
		}
	}
	return nil
}

// gravity is the standard acceleration of free fall (m/s²).
const gravity = float64(constant.StandardGravity)

// mostWeight is the largest factor on the weight: loads.Tolerance takes up to 20 times
// the weight above it.
const mostWeight float64 = 21

// validReferences reports a line of events or of the strength that is not there.
func (r Record) validReferences(s SituationRecord) error {
	for _, g := range append(slices.Clone(s.Events), Group{Title: "strength", Lines: s.Concrete}) {
		if err := r.Has(derive.Proof{Lines: g.Lines}); err != nil {
			return fmt.Errorf("%s: %w", g.Title, err)
		}
	}
	return nil
}

func (r Record) validFigures(s SituationRecord) error {
	for i, f := range s.Figures {
		if err := f.valid(); err != nil {
			return fmt.Errorf("figure %d: %w", i+1, err)
		}
	}
	return nil
}
