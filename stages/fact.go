package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Fact is a value or a text that an operation sheet states of an item of equipment.
type Fact struct {
	Name  string       `json:"name"`            // e.g. "radius at pick"; unlike all others of the item, at most 80 letters
	Value float64      `json:"value,omitempty"` // in Unit, within ±1e12
	Unit  formula.Unit `json:"unit,omitempty"`  // one of FactUnits; "" for a text
	Sense limits.Sense `json:"sense,omitempty"` // AtMost: not to be exceeded, rounded down; AtLeast: to be provided or allowed for, rounded up; "": to the nearest
	Text  string       `json:"text,omitempty"`  // in place of a value, at most 200 letters
}

// FactUnits are the units of facts.
func FactUnits() []formula.Unit {
	return []formula.Unit{
		formula.One, formula.Metre, formula.SquareMetre, formula.Radian, formula.Newton, formula.NewtonPerMetre, formula.NewtonMetre,
		formula.Pascal, formula.NewtonPerSquareMetre, formula.Day, formula.Kilogram, formula.MetrePerSecond,
	}
}

// checkFacts reports the first of some facts that is not as it must be.
func checkFacts(facts []Fact) error {
	if len(facts) > mostFacts {
		return fmt.Errorf("%d Facts: must be at most %d", len(facts), mostFacts)
	}
	for i, f := range facts {
		err := f.check()
		if err == nil && slices.ContainsFunc(facts[:i], func(o Fact) bool { return o.Name == f.Name }) {
			err = fmt.Errorf("name is that of another fact: must be names that differ")
		}
		if err != nil {
			return fmt.Errorf("in Facts[%d] %q: %w", i, shortened(f.Name), err)
		}
	}
	return nil
}

func (f Fact) check() error {
	if err := wording("name", f.Name, mostFactName); err != nil {
		return err
	}
	switch {
	case f.Unit == "" && (f.Value != 0 || f.Sense != ""):
		return fmt.Errorf("value = %g and sense %q without a unit: must have a unit, %q for a number", f.Value, f.Sense, formula.One)
	case f.Unit == "":
		return wording("text", f.Text, mostFactText)
	case f.Text != "":
		return fmt.Errorf("both a text and a value in %q: must be one of them", f.Unit)
	case !slices.Contains(FactUnits(), f.Unit):
		return fmt.Errorf("unit %q: must be one of %q", shortened(string(f.Unit)), FactUnits())
	case !(math.Abs(f.Value) <= mostFact):
		return fmt.Errorf("value = %g %s: must be within ±%g %[2]s", f.Value, f.Unit, mostFact)
	case f.Sense != "" && f.Sense != limits.AtMost && f.Sense != limits.AtLeast:
		return fmt.Errorf("sense %q: must be %q, %q or empty for the nearest value", shortened(string(f.Sense)), limits.AtMost, limits.AtLeast)
	}
	return nil
}

// wording reports a text that is blank or longer than a sheet has room for.
func wording(name, text string, most int) error {
	if n := utf8.RuneCountInString(text); strings.TrimSpace(text) == "" || n > most || !utf8.ValidString(text) {
		return fmt.Errorf("%s has %d letters: must be 1 to %d in UTF-8, not blank", name, n, most)
	}
	return nil
}
