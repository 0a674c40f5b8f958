package stages

import (
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// Support is a place where the element rests or from which it is suspended. The zero
// value of each field but X is the usual one: rigid, level, by its role.
type Support struct {
	X                   float64 `json:"x"`                  // m, from the left end of the girder, 0 to its length
	Y                   float64 `json:"y,omitempty"`        // m, in the coordinates of the section, within ±50; on the concrete unless it has a Bracket
	Z                   float64 `json:"z,omitempty"`        // m, within ±50; 0 means the soffit for one that pushes; on a face that looks down with at most 0.5 m of packing; a lift point or tie 1 m below to 2 m above the concrete
	Fixed               bool    `json:"fixed,omitempty"`    // restrains all rotations: the support of a cantilever
	RotationalStiffness float64 `json:"kr,omitempty"`       // about y, N·m/rad, 0 to 1e15; 0 free
	Group               string  `json:"group,omitempty"`    // supports of one group carry equal forces (linked jacks, rolling blocks); "" for none
	Role                Role    `json:"role,omitempty"`     // what it is; "": that of the stage
	Stiffness           float64 `json:"k,omitempty"`        // N/m, 1e3 to 1e12; 0 means rigid
	Level               float64 `json:"level,omitempty"`    // m above the level at which it would just touch, within ±0.5; negative: a gap
	OneWay              OneWay  `json:"oneWay,omitempty"`   // in which sense it acts; "": by role
	Holds               Holds   `json:"holds,omitempty"`    // horizontal directions that it restrains; "": by role; must be stated for a bearing
	Preload             float64 `json:"preload,omitempty"`  // force that it has at first, N, within ±1e9, in the sense in which it acts
	Friction            float64 `json:"friction,omitempty"` // minimum coefficient of friction of a support that restrains by it, 0 to 1; 0 means 0.1, plain steel (BS 5975:2008, Table 24, recalled)
	Bracket             bool    `json:"bracket,omitempty"`  // on a frame or bracket fixed to the concrete, which is not checked: at any y and z within ±50 m
	Held                bool    `json:"held,omitempty"`     // its force stays at Preload (a crane holding x kN, a hanger jack)
	MayLift             bool    `json:"mayLift,omitempty"`  // it is meant to lose contact, as a hanger that is lowered until it is slack: not checked for uplift
	Hook                *Hook   `json:"hook,omitempty"`     // of its sling, for a lift point; nil: the force acts along gravity

	// Link is the gantry or girder, stiffness only, on which it shares with others,
	// see [Hung]; nil for none.
	Link *beam.Link `json:"link,omitempty"`
}

// Role is the kind of a support, in the word that the sheets print.
type Role string

// The roles. Pads, jacks, bearings, legs and falsework push; lift points and ties
// pull. Pads, jacks and falsework restrain both horizontal directions by friction; a
// bearing must state its directions; the others restrain none.
const (
	Pad       Role = "pad"        // pushes, restrains by friction
	Jack      Role = "jack"       // pushes, restrains by friction
	Bearing   Role = "bearing"    // pushes, restrains what Holds states
	LiftPoint Role = "lift point" // the element is suspended from it
	Leg       Role = "leg"        // pushes, of a frame or gantry
	Tie       Role = "tie"        // pulls downwards
	Falsework Role = "falsework"  // pushes, restrains by friction
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

// Holds is the horizontal directions that a support restrains.
type Holds string

// The directions.
const (
	HoldsByRole  Holds = ""        // by friction, or none, as its role says
	HoldsAlong   Holds = "along"   // x
	HoldsAcross  Holds = "across"  // y
	HoldsBoth    Holds = "both"    // x and y
	HoldsNeither Holds = "neither" // free to move along x and y
)

// Hook is the place where slings meet: within 50 m of the element along x and across,
// Z within ±200 m, above its lift points.
type Hook struct {
	X float64 `json:"x"` // m, in the coordinates of the element
	Y float64 `json:"y"` // m, in the coordinates of the element
	Z float64 `json:"z"` // m, in the coordinates of the element
}

// At are supports at y = 0 at each x (m). They are for the vertical plane: roll about
// the axis is not evaluated, and an element on them alone does not pass.
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

// Elastic are the supports with the given stiffness each, 1e3 to 1e12 N/m. Where statics
// does not give their forces they share by stiffness, and OutOfLevel must be stated.
func Elastic(stiffness float64, supports ...Support) []Support {
	elastic := make([]Support, len(supports))
	for i, s := range supports {
		s.Stiffness = stiffness
		elastic[i] = s
	}
	return elastic
}

// Slings are the lift points of slings that meet at a hook, as supports of the role
// LiftPoint.
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

// along is +1 where the positive force of a support in [beam.Space] is upwards, −1 where it is
// downwards.
func (s Support) along() float64 {
	if s.sense() < 0 {
		return -1
	}
	return 1
}

// friction is true for a support that restrains horizontally by friction.
func (s Support) friction() bool {
	return s.Holds == HoldsByRole && (s.Role == Pad || s.Role == Jack || s.Role == Falsework)
}

func (s Support) holdsAcross() bool {
	return s.Fixed || s.friction() || s.Holds == HoldsAcross || s.Holds == HoldsBoth
}

func (s Support) holdsAlong() bool {
	return s.Fixed || s.friction() || s.Holds == HoldsAlong || s.Holds == HoldsBoth
}

// axes are those about which a support restrains a rotation.
func (s Support) axes() []r3.Vec {
	switch {
	case s.Fixed:
		return []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}
	case s.RotationalStiffness > 0:
		return []r3.Vec{{Y: 1}}
	}
	return nil
}
