package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/beam"
)

// Support is a place where the element rests or from which it is suspended.
type Support struct {
	X                   float64 `json:"x"`                  // m, in the coordinates of the section
	Y                   float64 `json:"y,omitempty"`        // m, in the coordinates of the section
	Z                   float64 `json:"z,omitempty"`        // m, in the coordinates of the section
	Fixed               bool    `json:"fixed,omitempty"`    // holds all rotations: the support of a cantilever
	RotationalStiffness float64 `json:"kr,omitempty"`       // about y, N·m/rad
	Group               string  `json:"group,omitempty"`    // supports of one group carry equal forces (linked jacks, rolling blocks); "" for none
	Role                Role    `json:"role,omitempty"`     // what it is; zero: that of the stage
	Stiffness           float64 `json:"k,omitempty"`        // N/m; 0 rigid
	Level               float64 `json:"level,omitempty"`    // m beyond the place where it would just touch; negative: a gap
	OneWay              OneWay  `json:"oneWay,omitempty"`   // zero: by role
	Holds               Holds   `json:"holds,omitempty"`    // which horizontal directions; zero: by role
	Preload             float64 `json:"preload,omitempty"`  // force at which it starts, N
	Friction            float64 `json:"friction,omitempty"` // minimum coefficient of friction of a support that holds by it; 0 means 0.1, plain steel (BS 5975:2008, Table 24, recalled)
	Bracket             bool    `json:"bracket,omitempty"`  // acts on a frame or bracket fixed to the concrete, at any y and z; else it must be on the concrete
	Held                bool    `json:"held,omitempty"`     // its force stays at Preload (a crane holding x kN, a hanger jack)
	Hook                *Hook   `json:"hook,omitempty"`     // where its sling goes; nil: the force acts along gravity

	// Link is the gantry or girder, stiffness only, on which it shares with others,
	// see [Hung]; nil for none.
	Link *beam.Link `json:"link,omitempty"`
}

// Role is what a support is: the sheet's word for it and what it may do.
type Role string

// The roles. Pads, jacks, bearings, legs and falsework push; lift points and ties
// pull. Pads, jacks and falsework hold both horizontal directions by friction; a
// bearing must say which it holds; the others hold none.
const (
	Pad       Role = "pad"
	Jack      Role = "jack"
	Bearing   Role = "bearing"
	LiftPoint Role = "lift point"
	Leg       Role = "leg"
	Tie       Role = "tie"
	Falsework Role = "falsework"
)

// OneWay is in which sense a support can act.
type OneWay string

// The senses.
const (
	ByRole      OneWay = ""     // push or pull as its role says
	Push        OneWay = "push" // upwards on the element only
	Pull        OneWay = "pull" // a lift point: upwards; a tie: downwards, only
	PushAndPull OneWay = "both" // anchored
)

// Holds is which horizontal directions a support holds.
type Holds string

// The directions.
const (
	HoldsByRole  Holds = ""
	HoldsAlong   Holds = "along"
	HoldsAcross  Holds = "across"
	HoldsBoth    Holds = "both"
	HoldsNeither Holds = "neither"
)

// Hook is where slings meet.
type Hook struct {
	X float64 `json:"x"` // m, in the coordinates of the element
	Y float64 `json:"y"` // m, in the coordinates of the element
	Z float64 `json:"z"` // m, in the coordinates of the element
}

// At are supports on the axis of the element at each x (m). They answer the
// vertical plane: an element that stands on them is not evaluated across.
func At(xs ...float64) []Support {
	supports := make([]Support, len(xs))
	for i, x := range xs {
		supports[i] = Support{X: x}
	}
	return supports
}

// Pads are pairs of supports at −y and +y (m) at each x (m).
func Pads(y float64, xs ...float64) []Support {
	supports := make([]Support, 0, 2*len(xs))
	for _, x := range xs {
		supports = append(supports, Support{X: x, Y: -y}, Support{X: x, Y: y})
	}
	return supports
}

// Equalised are the supports stated to carry equal forces, as one group of the
// given name.
func Equalised(group string, supports ...Support) []Support {
	equal := make([]Support, len(supports))
	for i, s := range supports {
		s.Group = group
		equal[i] = s
	}
	return equal
}

// Elastic are the supports with the given stiffness each (N/m).
func Elastic(stiffness float64, supports ...Support) []Support {
	elastic := make([]Support, len(supports))
	for i, s := range supports {
		s.Stiffness = stiffness
		elastic[i] = s
	}
	return elastic
}

// Slings are the lift points of slings that meet at a hook.
func Slings(hook Hook, points ...Support) []Support {
	slung := make([]Support, len(points))
	for i, s := range points {
		s.Hook, s.Role = &hook, LiftPoint
		slung[i] = s
	}
	return slung
}

// as are the supports with a role where none is stated.
func as(role Role, supports []Support) []Support {
	list := make([]Support, len(supports))
	for i, s := range supports {
		if s.Role == "" {
			s.Role = role
		}
		list[i] = s
	}
	return list
}

// suspends is true for a support from which the element hangs.
func (s Support) suspends() bool { return s.Role == LiftPoint }

// sense is +1 for a support that pushes the element upwards only (or lifts it), −1
// for one that only pulls it downwards, 0 for one that does both.
func (s Support) sense() float64 {
	switch {
	case s.OneWay == PushAndPull || s.Fixed:
		return 0
	case s.Role == Tie:
		return -1
	case s.OneWay == Pull && s.Role != LiftPoint:
		return -1
	}
	return 1
}

// friction is true for a support that holds horizontally by friction.
func (s Support) friction() bool {
	return s.Holds == HoldsByRole && (s.Role == Pad || s.Role == Jack || s.Role == Falsework)
}

func (s Support) holdsAcross() bool {
	return s.Fixed || s.friction() || s.Holds == HoldsAcross || s.Holds == HoldsBoth
}

func (s Support) holdsAlong() bool {
	return s.Fixed || s.friction() || s.Holds == HoldsAlong || s.Holds == HoldsBoth
}

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
		return fmt.Errorf("field Role = %q: must be one of the roles of this package", s.Role)
	}
	if s.Role == Bearing && s.Holds == HoldsByRole && !s.Fixed {
		return fmt.Errorf("field Holds of a bearing is not stated: must be HoldsAlong, HoldsAcross, HoldsBoth or HoldsNeither")
	}
	return nil
}

// near is true for a hook at a place where a crane may hold it.
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
		return fmt.Errorf("field On has no support: must be at least two, or one that is fixed")
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
