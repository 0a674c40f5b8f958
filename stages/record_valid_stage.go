package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// validStages are the stages in order: numbered from 1, no situation before the end of
// the one before it.
func (r Record) validStages() error {
	if len(r.Stages) == 0 {
		return fmt.Errorf("it has no stage: must have at least one")
	}
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
		return fmt.Errorf("age = %g d: must be at least %g d, when the situation before ends", s.Age, end)
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
		r.validState, r.validSupports, r.validReactions, r.validRows, r.validForces, r.validChecks, r.validHolds, r.validReferences, r.validFigures,
	} {
		if err := rule(s); err != nil {
			return err
		}
	}
	return nil
}

// phases are those of package limits, and none.
var phases = []limits.Phase{"", limits.Stressing, limits.Lifting, limits.Storing, limits.Seating, limits.Hauling}

// validState reports phase, position, factors and weight that no situation has.
func (r Record) validState(s SituationRecord) error {
	switch {
	case !slices.Contains(phases, limits.Phase(s.Phase)):
		return fmt.Errorf("phase %q: must be one of %q", s.Phase, phases[1:])
	case !(s.OutOfLevel >= 0 && s.Roll >= 0 && s.Gradient >= 0) || !finite(s.OutOfLevel, s.Roll, s.Gradient):
		return fmt.Errorf("out of level by %g m, roll %g rad, gradient %g rad: must be 0 or more, both ways", s.OutOfLevel, s.Roll, s.Gradient)
	case !(s.Strength >= 0) || !finite(s.Strength):
		return fmt.Errorf("strength = %g Pa: must be 0 or more", s.Strength)
	case !(s.Mass.Weight > 0 && s.Mass.Mass > 0) || !finite(s.Mass.Weight, s.Mass.Mass):
		return fmt.Errorf("weight = %g N of the mass %g kg: must be above 0", s.Mass.Weight, s.Mass.Mass)
	case !r.on(s.Mass.X) || !finite(s.Mass.Y, s.Mass.Z):
		return fmt.Errorf("centre of gravity at x = %g m: must be on the element, 0 to %g m", s.Mass.X, r.Length)
	case !(s.Weight.Least >= 0 && s.Dynamic.Least >= 0 && s.Dynamic.Least <= 1 && s.Dynamic.Most >= 1):
		return fmt.Errorf("factors on the weight from %g, dynamic from %g to %g: must be 0 or more, 1 within the dynamic ones", s.Weight.Least, s.Dynamic.Least, s.Dynamic.Most)
	}
	for i, l := range s.Loads {
		if err := r.validLoad(l); err != nil {
			return fmt.Errorf("action %d %q: %w", i+1, l.Mark, err)
		}
	}
	if err := validRange("factor on the weight", s.Weight, ""); err != nil {
		return err
	}
	return validRange("dynamic factor", s.Dynamic, "")
}

func (r Record) validChecks(s SituationRecord) error {
	for _, c := range s.Checks {
		if err := c.valid(); err != nil {
			return err
		}
		if err := r.Has(c.Proof); err != nil {
			return fmt.Errorf("check %q: %w", c.Name, err)
		}
	}
	return nil
}

// validHolds reports a hold point that asks for no number, or for a check that is not there.
func (r Record) validHolds(s SituationRecord) error {
	for i, h := range s.HoldPoints {
		values := []float64{h.Required.Value}
		for _, q := range h.Tested {
			values = append(values, q.Value)
		}
		if h.Assumed != nil {
			values = append(values, h.Assumed.Value)
		}
		switch {
		case !finite(values...):
			return fmt.Errorf("hold point %d: a value of it is not finite: must be finite", i+1)
		case h.Check < 0 || h.Check > len(s.Checks):
			return fmt.Errorf("hold point %d: check %d: must be 1 to %d, or 0 for none", i+1, h.Check, len(s.Checks))
		case h.Document == nil && !(h.Required.Value > 0) && !h.AtMost:
			return fmt.Errorf("hold point %d %q asks for %g %s: must be above 0, or a document", i+1, h.Kind, h.Required.Value, h.Required.Unit)
		}
	}
	return nil
}

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
