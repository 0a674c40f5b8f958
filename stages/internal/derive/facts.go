package derive

import "github.com/tempstage/tempstage/section/formula"

// FormatNumber is the number of the layout of a record that is made of these
// facts: numbers and names, no prose that a sheet would have to read.
const FormatNumber = 2

// Range is a least and a greatest value.
type Range struct {
	Least float64
	Most  float64
}

// NewRange is a range rounded outwards to the digit 10^last, so that what is
// printed covers what was found.
func NewRange(least, most float64, last int) Range {
	return Range{outwards(least, last, -1), outwards(most, last, 1)}
}

// outwards is the next number that ends at the digit 10^last in a direction; a
// millionth of a unit is the noise of the computation and does not reach it.
func outwards(value float64, last int, direction float64) float64 {
	rounded := Round(value, last)
	if (value-rounded)*direction > scaled(1e-6, last) {
		rounded = Round(rounded+direction*scaled(1, last), last)
	}
	return rounded
}

// Support is a place where the element is held, as a sheet draws and lists it.
type Support struct {
	X         float64   `json:"x"`                   // m
	Y         float64   `json:"y"`                   // m
	Z         float64   `json:"z"`                   // m
	Role      string    `json:"role"`                // pad, jack, bearing, lift point, leg, tie, falsework
	Group     string    `json:"group,omitempty"`     // of equal forces
	Fixed     bool      `json:"fixed,omitempty"`     // against rotation
	Kept      bool      `json:"kept,omitempty"`      // stays from the previous situation
	OneWay    string    `json:"oneWay,omitempty"`    // pushes, pulls; none: both
	Holds     []string  `json:"holds,omitempty"`     // vertical, along, across
	Stiffness float64   `json:"stiffness,omitempty"` // N/m; 0 rigid
	Level     float64   `json:"level,omitempty"`     // m
	Preload   float64   `json:"preload,omitempty"`   // N
	Held      bool      `json:"held,omitempty"`      // its force stays at Preload
	Hook      []float64 `json:"hook,omitempty"`      // x, y, z of the hook, m
	Reactions Reactions `json:"reactions"`
}

// Reactions are the ranges of a support's force (N, + as the support carries the
// weight), each for its own use.
type Reactions struct {
	Nominal        float64 `json:"nominal"`            // self-weight, mean prestress
	Static         Range   `json:"static"`             // tolerance, prestress, levels: for measuring
	Share          *Range  `json:"share,omitempty"`    // of the measured total, 1; nil: not to be measured
	Characteristic Range   `json:"characteristic"`     // with dynamic factors: against rated capacities
	Ultimate       *Range  `json:"ultimate,omitempty"` // for ground, concrete, stacks
	Across         *Range  `json:"across,omitempty"`   // horizontal, N
	Along          *Range  `json:"along,omitempty"`    // horizontal, N
	Opens          bool    `json:"opens,omitempty"`    // it may lose contact
}

// Entry is a line of the ledger: a change of stress that stays or passes.
type Entry struct {
	Number  int     `json:"n"`                // from 1, in order of time
	Kind    string  `json:"kind"`             // weight, support, stressing, elastic loss, time loss, level, action …
	Label   string  `json:"l"`                // as tables name it
	Cause   string  `json:"cause"`            // entries of one cause share its factor
	Day     float64 `json:"day"`              // of the project
	Body    int     `json:"body,omitempty"`   // pieces that act as one section; 0 where there is one
	System  int     `json:"system,omitempty"` // set of supports, from 1
	Locked  bool    `json:"locked,omitempty"` // carried forward
	Factors *Range  `json:"f,omitempty"`      // of its cause in this situation; nil: 1
}

// HoldPoint is a requirement to be verified before an operation proceeds.
type HoldPoint struct {
	Kind     string             `json:"kind"`               // strength, friction, document …
	Required formula.Quantity   `json:"required,omitzero"`  // the minimum or maximum value
	AtMost   bool               `json:"atMost,omitempty"`   // Required is a maximum value
	Tested   []formula.Quantity `json:"tested,omitempty"`   // Required as a test shows it: of other specimens, as a mean
	Assumed  *formula.Quantity  `json:"assumed,omitempty"`  // in the calculation
	Pieces   []string           `json:"pieces,omitempty"`   // marks of the elements that it is about; none: all
	Check    int                `json:"check,omitempty"`    // number of the check that rests on it; 0 for none
	Document *Document          `json:"document,omitempty"` // that covers a place or question without an answer
}

// Document is a document by somebody else that answers a question.
type Document struct {
	Number   string `json:"number"`
	Revision string `json:"revision"`
	Status   string `json:"status"`
}

// Body is the pieces that act as one section from a day on.
type Body struct {
	Number int     `json:"n"`
	Pieces []int   `json:"pieces"` // numbers, from 1
	Day    float64 `json:"day"`
}

// Unevaluated is a place or a question without an answer: the stage does not pass.
type Unevaluated struct {
	Question string    `json:"question"`
	Where    *Range    `json:"where,omitempty"` // x, m
	Reason   string    `json:"reason"`
	Document *Document `json:"document,omitempty"`
}
