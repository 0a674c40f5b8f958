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
	Pass         State = "pass"
	Fail         State = "fail"
	Conditional  State = "conditional"   // passes once the Condition is met
	NotEvaluated State = "not evaluated" // outside the reach of the model or the standard; Note says why
)

// Check is one limit in one situation, at its worst place.
type Check struct {
	Kind         limits.Kind      `json:"kind,omitempty"`  // what was asked; "" for a check that only one operation knows
	Name         string           `json:"name"`            // what is limited
	LimitState   string           `json:"ls,omitempty"`    // SLS, ULS, EQU, approval or detailing
	Source       formula.Source   `json:"src,omitzero"`    // standard with edition, and clause
	Demand       formula.Quantity `json:"demand,omitzero"` // what is there, in SI
	Limit        formula.Quantity `json:"limit,omitzero"`  // the permissible value, in SI
	Sense        limits.Sense     `json:"sense"`           // on which side of the limit the demand must stay
	Margin       float64          `json:"margin"`          // in the unit of Limit; negative when the limit is broken
	Scale        formula.Quantity `json:"scale,omitzero"`  // what Margin is divided by where the limit is zero
	Utilisation  float64          `json:"util"`            // demand/limit, limit/demand for minimum values, 1 − margin/scale where the limit is zero
	State        State            `json:"state"`           // the outcome
	X            float64          `json:"x"`               // m from the left end
	Place        string           `json:"place,omitempty"` // point of the section, support or tendon, in words
	Factors      []Factor         `json:"f,omitempty"`     // under which the demand is worst
	Condition    string           `json:"cond,omitempty"`  // what must be shown first, in words
	Required     formula.Quantity `json:"req,omitzero"`    // its minimum value; zero without a condition
	Note         string           `json:"note,omitempty"`  // reach of the clause, or why it is not evaluated
	derive.Proof                  // tables and lines of the record that show how demand and limit were got
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

// Factor is a factor of a cause under which a demand is worst.
type Factor struct {
	Cause string  `json:"c"` // weight, dynamic, prestress, an action's mark …
	Value float64 `json:"v"`
}

// NewCheck compares a demand with a limit and fills margin, utilisation and
// state (Pass or Fail). It is what a Situation's own Check function calls. The
// demand is in the unit of the limit; a demand or a limit that is not finite
// gives NotEvaluated.
func NewCheck(limit limits.Limit, demand formula.Quantity) Check {
	c := Check{
		Kind: limit.Kind, Name: limit.Name, LimitState: limit.LimitState, Source: limit.Source, Demand: demand, Limit: limit.Line.Result,
		Sense: limit.Sense, Scale: limit.Scale, Note: limit.Note, State: Pass,
	}
	for _, q := range []*formula.Quantity{&c.Demand, &c.Limit, &c.Scale} {
		if !finite(q.Value) {
			c.State, c.Note = NotEvaluated, q.Symbol+" is not a finite number"
			q.Value = 0
		}
	}
	if c.State == NotEvaluated {
		return c
	}
	c.Margin = c.Limit.Value - demand.Value
	over, under := demand.Value, c.Limit.Value
	if c.Sense == limits.AtLeast {
		c.Margin, over, under = -c.Margin, under, over
	}
	switch {
	case c.Limit.Value == 0 && c.Scale.Value > 0:
		c.Utilisation = 1 - c.Margin/c.Scale.Value
	case under > 0:
		c.Utilisation = over / under
	case c.Margin < 0:
		c.Utilisation = unbounded
	}
	c.Utilisation = math.Max(0, math.Min(unbounded, c.Utilisation))
	if c.Margin < 0 {
		c.State = Fail
	}
	return c
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

// valid reports what is wrong with a check that a stage made itself.
func (c Check) valid() error {
	if !finite(c.Demand.Value, c.Limit.Value, c.Margin, c.Utilisation, c.Scale.Value, c.Required.Value, c.X) {
		return fmt.Errorf("check %q has a number that is not finite: must be finite numbers", c.Name)
	}
	switch c.State {
	case Pass, Fail, Conditional, NotEvaluated:
		return nil
	}
	return fmt.Errorf("check %q has the state %q: must be Pass, Fail, Conditional or NotEvaluated", c.Name, c.State)
}

// unbounded stands for a utilisation without a finite value: a least value is
// asked for and nothing is there.
const unbounded = 999

// rank orders states from the worst: what nobody evaluated is worse than what waits
// for a value to be shown.
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

// Effects is what a situation does to the element, for the checks and figures
// that only one operation knows.
type Effects struct {
	Situation Situation                      // as the stage described it, supports filled in
	Reactions []Reaction                     // of each support
	Forces    func(x float64) section.Forces // nominal, mean prestress included, about the axis y = z = 0 of the girder, at x (m)
	Stress    func(x float64) section.Plane  // plane stress of the concrete from the same, on the section properties of each date: without the stress of warping torsion of an open section
	Moves     func() ([]*Movement, error)    // of each body in a standing situation; none of another
}
