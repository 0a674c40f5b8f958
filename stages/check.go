package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// State is the outcome of a check.
type State string

// The four outcomes.
const (
	Pass         State = "pass"          // the margin is not negative
	Fail         State = "fail"          // the margin is negative
	Conditional  State = "conditional"   // passes once the Condition is met
	NotEvaluated State = "not evaluated" // outside the range of the model or the standard; Note says why
)

// Check is one limit in one situation, at its governing place.
type Check struct {
	Kind         limits.Kind      `json:"kind,omitempty"`  // the question; "" for a check of the operation itself
	Name         string           `json:"name"`            // what is limited
	LimitState   string           `json:"ls,omitempty"`    // SLS, ULS, EQU, approval or detailing
	Source       formula.Source   `json:"src,omitzero"`    // standard with edition, and clause
	Demand       formula.Quantity `json:"demand,omitzero"` // in SI
	Limit        formula.Quantity `json:"limit,omitzero"`  // the permissible value, in SI
	Sense        limits.Sense     `json:"sense"`           // whether the demand must be at most or at least the limit
	Margin       float64          `json:"margin"`          // in the unit of Limit; negative when the check fails
	Scale        formula.Quantity `json:"scale,omitzero"`  // divisor of Margin for the utilisation where the limit is zero
	Utilisation  float64          `json:"util"`            // demand/limit, limit/demand for minimum values, 1 − margin/scale where the limit is zero
	State        State            `json:"state"`           // pass, fail, conditional or not evaluated
	X            float64          `json:"x"`               // m from the left end
	Place        string           `json:"place,omitempty"` // point of the section, support or tendon, in words
	Factors      []Factor         `json:"f,omitempty"`     // under which the demand governs
	Condition    string           `json:"cond,omitempty"`  // what must be shown first
	Required     formula.Quantity `json:"req,omitzero"`    // its minimum value; zero without a condition
	Note         string           `json:"note,omitempty"`  // range of the clause, or why it is not evaluated
	derive.Proof                  // tables and lines of the record that derive demand and limit
}

// OwnCheck is a check that a stage makes itself, with what shows it: the Check function of
// a Situation gives it. The record numbers its lines and has its hold point.
type OwnCheck struct {
	Check
	Derivation []formula.Line // that show demand and limit, in order; none for given numbers
	Hold       *Hold          // what must be shown on site before the operation; nil for nothing
}

// Derived is the check as one of a stage's own, with the lines that show its demand and
// limit.
func (c Check) Derived(lines ...formula.Line) OwnCheck {
	return OwnCheck{Check: c, Derivation: lines}
}

// Hold is a value that must be shown on site, signed as a hold point.
type Hold struct {
	Kind     string           // what is shown, in words: "braces fixed"
	Required formula.Quantity // its minimum, or maximum
	AtMost   bool             // Required is a maximum
	Assumed  formula.Quantity // in the calculation; without a symbol: none
}

// checked is a check with what shows its demand, until that is written.
type checked struct {
	Check
	proof prover
	extra []formula.Line    // behind it
	needs []need            // strengths on which it, and those that it stands for, rest
	holds *derive.HoldPoint // what else must be shown for it; nil for none
}

// need is the characteristic cylinder strength of an element (Pa) that a limit asks for.
type need struct {
	piece    int
	strength float64
}

// Factor is a factor of a cause under which a demand governs.
type Factor struct {
	Cause string  `json:"c"` // weight, dynamic, prestress, an action's mark …
	Value float64 `json:"v"`
}

// NewCheck compares a demand with a limit and fills margin, utilisation and state (Pass
// or Fail), for the Check function of a Situation. The demand must be in the unit of the
// limit. A demand, limit or margin that is not finite and a limit without a sense give
// NotEvaluated without numbers.
func NewCheck(limit limits.Limit, demand formula.Quantity) Check {
	c := Check{
		Kind: limit.Kind, Name: limit.Name, LimitState: limit.LimitState, Source: limit.Source, Demand: demand, Limit: limit.Line.Result,
		Sense: limit.Sense, Scale: limit.Scale, Note: limit.Note, State: Pass,
	}
	for _, q := range []formula.Quantity{c.Demand, c.Limit, c.Scale} {
		if !finite(q.Value) {
			return c.without(q.Symbol + " is not a finite number")
		}
	}
	if c.Sense != limits.AtMost && c.Sense != limits.AtLeast {
		return c.without(fmt.Sprintf("the limit has the sense %q: must be %q or %q", c.Sense, limits.AtMost, limits.AtLeast))
	}
	c.Margin, c.Utilisation = c.compared()
	if !finite(c.Margin) {
		return c.without("the margin is not a finite number")
	}
	if c.Margin < 0 {
		c.State = Fail
	}
	return c
}

// without is the check that cannot be made, and why: it has no numbers that could be
// taken for a result.
func (c Check) without(why string) Check {
	c.Demand, c.Limit, c.Scale, c.Margin = formula.Quantity{}, formula.Quantity{}, formula.Quantity{}, 0
	c.State, c.Note = NotEvaluated, why
	if c.Sense != limits.AtLeast {
		c.Sense = limits.AtMost
	}
	return c
}

// compared are margin and utilisation as they follow from demand, limit and scale.
func (c Check) compared() (margin, utilisation float64) {
	over, under := c.Demand.Value, c.Limit.Value
	if c.Sense == limits.AtLeast {
		over, under = under, over
	}
	margin = under - over
	switch {
	case c.Limit.Value == 0 && c.Scale.Value > 0:
		utilisation = 1 - margin/c.Scale.Value
	case under > 0:
		utilisation = over / under
	case margin < 0:
		utilisation = unbounded
	}
	return margin, math.Max(0, math.Min(unbounded, utilisation))
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// unevaluated is a check that could not be made, and why.
func unevaluated(kind limits.Kind, x float64, why string) checked {
	return checked{Check: Check{Kind: kind, Name: string(kind), State: NotEvaluated, Sense: limits.AtMost, X: x, Note: why}}
}

// unbounded replaces a utilisation without a finite value: a minimum is required and the
// demand is zero.
const unbounded = 999

// rank orders states from the worst: not evaluated is worse than conditional.
func (s State) rank() int {
	switch s {
	case Fail:
		return 3
	case NotEvaluated:
		return 2
	case Conditional:
		return 1
	}
	return 0
}

// worse is true when c governs over other: the worse state first, then the
// larger utilisation.
func (c Check) worse(other Check) bool {
	if c.State != other.State {
		return c.State.rank() > other.State.rank()
	}
	return c.Utilisation > other.Utilisation
}

// Effects are the effects of a situation on the girder, for the Check and Draw functions
// of a Situation.
type Effects struct {
	Situation  Situation                                        // as the stage gave it, supports filled in
	OutOfLevel float64                                          // distance of a support from the plane of the other three that acts, m: the largest stated since the element stands on these supports
	Reactions  []Reaction                                       // of each support
	Together   func([]int) (Together, error)                    // what supports of one body, by their numbers from 1, get at once
	Strength   float64                                          // characteristic cylinder strength of the first element that is carried, Pa
	Forces     func(x float64) section.Forces                   // nominal, mean prestress included, about the axis y = z = 0 of the girder, at x (m), at a joint on its right
	Stress     func(x float64) section.Plane                    // plane of concrete stress from the same, on the section properties at each date, at x (m); without warping torsion
	StressWith func(x float64, actions ...string) section.Plane // the same with actions, by their marks, present in full that may be absent
	Moves      func() ([]*Movement, error)                      // of each body in a standing situation; none of another
	Before     func() ([]*Movement, error)                      // of each body of the situation before, on the day of this one and on the supports before, without what this one does; none before the first

	// Ranges are the minimum and maximum of a linear measure of the internal forces, about
	// the axis y = z = 0 of the girder, on the left and on the right of x (m) over all causes
	// under the partial factors of a limit, bounded ways of sharing among them. All tendons
	// count in full.
	Ranges func(x float64, factors limits.Factors, measure func(section.Forces) float64) (left, right Range, err error)

	// Jump is the minimum and maximum of the change of such a measure from the left to the
	// right of x: of what a support puts on the element there.
	Jump func(x float64, factors limits.Factors, measure func(section.Forces) float64) (Range, error)
}
