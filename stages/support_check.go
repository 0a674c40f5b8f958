package stages

import (
	"fmt"
	"math"
	"slices"
)

// check reports the first field that is out of range.
func (s Support) check(length float64) error {
	switch {
	case !(s.X >= 0 && s.X <= length):
		return fmt.Errorf("field X = %g m: must be on the element, 0 to %g m", s.X, length)
	case !(math.Abs(s.Y) <= 50) || !(math.Abs(s.Z) <= 50):
		return fmt.Errorf("field Y = %g m, Z = %g m: must be within ±50 m", s.Y, s.Z)
	case !(s.Stiffness >= 0 && s.Stiffness <= 1e12) || s.Stiffness > 0 && s.Stiffness < 1e3:
		return fmt.Errorf("field Stiffness = %g N/m: must be 0 (rigid) or 1e3 to 1e12 N/m", s.Stiffness)
	case !(s.RotationalStiffness >= 0 && s.RotationalStiffness <= 1e15):
		return fmt.Errorf("field RotationalStiffness = %g N·m/rad: must be 0 to 1e15 N·m/rad", s.RotationalStiffness)
	case !(math.Abs(s.Level) <= 0.5):
		return fmt.Errorf("field Level = %g m: must be within ±0.5 m", s.Level)
	case !(math.Abs(s.Preload) <= 1e9):
		return fmt.Errorf("field Preload = %g N: must be within ±1e9 N", s.Preload)
	case !(s.Friction >= 0 && s.Friction <= 1):
		return fmt.Errorf("field Friction = %g: must be 0 (for 0.1) to 1", s.Friction)
	case s.Hook != nil && s.Role != LiftPoint:
		return fmt.Errorf("field Hook of a %s: must be that of a lift point", s.word())
	case s.Hook != nil && !s.Hook.near(length):
		return fmt.Errorf("field Hook at X = %g m, Y = %g m, Z = %g m: must be within 50 m of the element along and across, Z within ±200 m", s.Hook.X, s.Hook.Y, s.Hook.Z)
	case s.Preload*s.sense() < 0:
		return fmt.Errorf("field Preload = %g N on a %s: must be in the sense in which it acts", s.Preload, s.word())
	}
	if err := s.checkLink(); err != nil {
		return err
	}
	if senses := []OneWay{ByRole, Push, Pull, PushAndPull}; !slices.Contains(senses, s.OneWay) {
		return fmt.Errorf("field OneWay = %q: must be one of %q", s.OneWay, senses)
	}
	if directions := []Holds{HoldsByRole, HoldsAlong, HoldsAcross, HoldsBoth, HoldsNeither}; !slices.Contains(directions, s.Holds) {
		return fmt.Errorf("field Holds = %q: must be one of %q", s.Holds, directions)
	}
	switch s.Role {
	case Pad, Jack, Bearing, LiftPoint, Leg, Tie, Falsework:
	default:
		return fmt.Errorf("field Role = %q: must be one of %q", s.Role, []Role{Pad, Jack, Bearing, LiftPoint, Leg, Tie, Falsework})
	}
	if s.Role == Bearing && s.Holds == HoldsByRole && !s.Fixed {
		return fmt.Errorf("field Holds of a bearing is not stated: must be HoldsAlong, HoldsAcross, HoldsBoth or HoldsNeither")
	}
	return nil
}

// near is true for a hook at a place within the reach of a crane.
func (h *Hook) near(length float64) bool {
	return h.X >= -50 && h.X <= length+50 && math.Abs(h.Y) <= 50 && math.Abs(h.Z) <= 200
}

// word is the support in a word.
func (s Support) word() string {
	if s.Role == "" {
		return "support"
	}
	return string(s.Role)
}

// checkSupports reports the first support that cannot be as described.
func checkSupports(supports []Support, length float64) error {
	if len(supports) == 0 {
		return fmt.Errorf("field On has no support: must be at least two, or one that is Fixed")
	}
	if err := checkLinks(supports); err != nil {
		return err
	}
	groups := map[string]int{}
	for i, s := range supports {
		if err := s.check(length); err != nil {
			return fmt.Errorf("support %d at x = %g m: %w", i+1, s.X, err)
		}
		if s.Group != "" {
			groups[s.Group]++
		}
		for j := range i {
			if o := supports[j]; math.Hypot(s.X-o.X, s.Y-o.Y) < 1e-6*length && s.Z == o.Z && s.Role == o.Role {
				return fmt.Errorf("supports %d and %d are both a %s at x = %g m, y = %g m: must be apart", j+1, i+1, s.word(), s.X, s.Y)
			}
		}
	}
	for _, s := range supports {
		if s.Group != "" && groups[s.Group] == 1 {
			return fmt.Errorf("group %q has one support, at x = %g m: must be at least two that carry equal forces", s.Group, s.X)
		}
	}
	return nil
}
