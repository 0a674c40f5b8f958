package limits

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// ActionKind is the kind of an action, by which its partial factors are chosen.
type ActionKind string

// The kinds of actions on an element in a temporary stage, besides its weight and
// its prestress.
const (
	Equipment     ActionKind = "equipment"     // carriers, gantries, jacks
	Counterweight ActionKind = "counterweight" // that holds equipment down; its place or weight is less sure than that of the structure
	Wind          ActionKind = "wind"          // on the element and on equipment on it
	Personnel     ActionKind = "personnel"     // working crews with hand tools
	Braking       ActionKind = "braking"       // starting and braking of vehicles
	Temperature   ActionKind = "temperature"   // uniform and differential
	Imposed       ActionKind = "imposed"       // any other load that may be present or absent
	Accidental    ActionKind = "accidental"    // loss of a hanger, collision, dropped load
	Water         ActionKind = "water"         // flow, level, waves
)

// Factors are the partial factors that a limit puts on the actions.
type Factors struct {
	WeightLeast, WeightMost       float64        // on the weight: favourable, unfavourable; 0 means 1
	PrestressLeast, PrestressMost float64        // on the prestress: inferior, superior; 0 means 1
	VariableMost                  float64        // on other loads that may be present or absent; 0 means 1
	Source                        formula.Source // standard with edition, and clause
	Note                          string         // why they are so, where a checker asks; empty: the clause says it
	Actions                       []ActionFactor // for kinds of action with factors of their own; the others have 0 and VariableMost
}

// ActionFactor is the partial factors on one kind of action. A zero is a zero: that
// part of the action is left out.
type ActionFactor struct {
	Kind         ActionKind
	Favourable   float64 // on favourable parts
	Unfavourable float64 // on unfavourable parts
}

// On is the factors on a kind of action: those stated for it, else 0 on favourable and
// VariableMost on unfavourable parts.
func (f Factors) On(kind ActionKind) (favourable, unfavourable float64) {
	for _, a := range f.Actions {
		if a.Kind == kind {
			return a.Favourable, a.Unfavourable
		}
	}
	return 0, f.Filled().VariableMost
}

// Check reports factors that are not finite or whose minimum is above their maximum,
// and a kind that is stated twice; the error wraps ErrLimits.
func (f Factors) Check() error {
	f = f.Filled()
	all := []struct {
		name        string
		least, most float64
	}{{"Weight", f.WeightLeast, f.WeightMost}, {"Prestress", f.PrestressLeast, f.PrestressMost}, {"Variable", 0, f.VariableMost}}
	stated := map[ActionKind]bool{}
	for _, a := range f.Actions {
		if a.Kind == "" || stated[a.Kind] {
			return fmt.Errorf("%w: Factors.Actions: kind %q: must be a kind, each once", ErrLimits, a.Kind)
		}
		stated[a.Kind] = true
		all = append(all, struct {
			name        string
			least, most float64
		}{string(a.Kind), a.Favourable, a.Unfavourable})
	}
	for _, p := range all {
		if !(p.least >= 0 && p.least <= p.most) || math.IsInf(p.most, 0) {
			return fmt.Errorf("%w: Factors on %s: minimum %g, maximum %g: must be finite, 0 ≤ minimum ≤ maximum", ErrLimits, p.name, p.least, p.most)
		}
	}
	return nil
}

// Filled is the same with 1 for each 0, but for Actions.
func (f Factors) Filled() Factors {
	for _, p := range []*float64{&f.WeightLeast, &f.WeightMost, &f.PrestressLeast, &f.PrestressMost, &f.VariableMost} {
		if *p == 0 {
			*p = 1
		}
	}
	return f
}
