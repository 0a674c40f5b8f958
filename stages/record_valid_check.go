package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// validChecks reports a check that contradicts itself, what shows it, or what must be
// shown for it first.
func (r Record) validChecks(s SituationRecord) error {
	for _, c := range s.Checks {
		err := c.valid()
		if err != nil {
			return err
		}
		switch {
		case !r.on(c.X):
			err = fmt.Errorf("x = %g m: must be on the element, 0 to %g m", c.X, r.Length)
		case r.Has(c.Proof) != nil:
			err = r.Has(c.Proof)
		default:
			err = r.validProof(c)
		}
		if err == nil {
			err = s.validNeed(c)
		}
		if err != nil {
			return fmt.Errorf("check %q: %w", c.Name, err)
		}
	}
	return nil
}

// validProof reports a demand or a limit that is not what the tables and lines under
// the check end in. A check of a stage's own has none.
func (r Record) validProof(c Check) error {
	if c.State == NotEvaluated || len(c.Tables)+len(c.Lines) == 0 {
		return nil
	}
	for _, q := range []formula.Quantity{c.Demand, c.Limit} {
		if q.Symbol != "" && !r.shown(c.Proof, q) {
			return fmt.Errorf("%s = %g %s: must be the result of a line or a table under it", q.Symbol, q.Value, q.Unit)
		}
	}
	return nil
}

// shown is true where a line or the sum of a table is the quantity, to the digits that
// are printed; what is less than a digit needs none. A shear stress has a sense in its
// table, and a tensile stress is the stress σ_c of its table.
func (r Record) shown(p derive.Proof, q formula.Quantity) bool {
	digit, ok := printedTo[q.Unit]
	if !ok {
		digit = 1e-9
	}
	if math.Abs(q.Value) <= digit {
		return true
	}
	is := func(of formula.Quantity) bool {
		value := of.Value
		if q.Symbol == "τ" {
			value = math.Abs(value)
		}
		return (of.Symbol == q.Symbol || q.Symbol == "σ_tens" && of.Symbol == "σ_c") && math.Abs(value-q.Value) <= math.Max(1e-4*math.Abs(q.Value), digit)
	}
	for _, n := range p.Tables {
		if is(r.Tables[n-1].Sum) {
			return true
		}
	}
	for _, n := range p.Lines {
		if line, err := r.Line(n); err == nil && is(line.Result) {
			return true
		}
	}
	return false
}

// printedTo is a unit of the last digit in which tables and lines are printed at least;
// of other units 1e-9.
var printedTo = map[formula.Unit]float64{formula.Pascal: 1e3, formula.Newton: 10, formula.NewtonMetre: 100, formula.Metre: 1e-5}

// validNeed reports a check that passes, or would, on a strength that no hold point asks
// for. What a check of a stage's own is conditional on is printed with it.
func (s SituationRecord) validNeed(c Check) error {
	asks := func(h derive.HoldPoint) bool {
		return h.Required.Symbol == c.Required.Symbol && !h.AtMost && h.Required.Value >= c.Required.Value*(1-agree)
	}
	leans := c.State == Pass || c.State == Conditional && len(c.Tables)+len(c.Lines) > 0
	if leans && c.Required.Value > 0 && !slices.ContainsFunc(s.HoldPoints, asks) {
		return fmt.Errorf("requires %s = %g %s: must have a hold point that asks for as much", c.Required.Symbol, c.Required.Value, c.Required.Unit)
	}
	return nil
}

// strengthKind is the kind of the hold points of concrete strength.
const strengthKind = "strength"

// validHolds reports a hold point that asks for no number, for a check that is not
// there, or for other tests than its strength needs.
func (r Record) validHolds(s SituationRecord) error {
	for i, h := range s.HoldPoints {
		var err error
		switch {
		case !finite(h.Required.Value):
			err = fmt.Errorf("required value = %g: must be finite", h.Required.Value)
		case h.Check < 0 || h.Check > len(s.Checks):
			err = fmt.Errorf("check %d: must be 1 to %d, or 0 for none", h.Check, len(s.Checks))
		case h.Document == nil && !(h.Required.Value > 0) && !h.AtMost:
			err = fmt.Errorf("asks for %g %s: must be above 0, or a document", h.Required.Value, h.Required.Unit)
		case h.Kind == strengthKind && h.Document == nil:
			err = r.validStrength(s, h)
		}
		if err != nil {
			return fmt.Errorf("hold point %d %q: %w", i+1, h.Kind, err)
		}
	}
	return nil
}

// validStrength reports a strength as a test shows it that is not that of its hold
// point, and one assumed that is not that of the calculation.
func (r Record) validStrength(s SituationRecord, h derive.HoldPoint) error {
	near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Abs(b) }
	tested := asTested(h.Required.Value)
	if len(h.Tested) != len(tested) {
		return fmt.Errorf("%d strengths as tested: must be %d", len(h.Tested), len(tested))
	}
	for i, q := range tested {
		if h.Tested[i].Symbol != q.Symbol || !near(h.Tested[i].Value, q.Value) {
			return fmt.Errorf("%s = %g Pa as tested: must be %s = %g Pa", h.Tested[i].Symbol, h.Tested[i].Value, q.Symbol, q.Value)
		}
	}
	if h.Assumed == nil || len(h.Pieces) > 0 || near(h.Assumed.Value, s.Strength) {
		return nil
	}
	const written = 1e-4 // of a line, which has five digits
	if mean := r.meanAt(s); s.Age > 28 && math.Abs(h.Assumed.Value-mean+overCharacteristic) <= written*mean {
		return nil
	}
	return fmt.Errorf("strength assumed = %g Pa: must be %g Pa, that of the situation", h.Assumed.Value, s.Strength)
}

// meanAt is the mean strength in the lines of the strength of a situation (Pa); 0 without.
func (r Record) meanAt(s SituationRecord) float64 {
	for _, n := range s.Concrete {
		if line, err := r.Line(n); err == nil && line.Result.Symbol == "f_cm_t" {
			return line.Result.Value
		}
	}
	return 0
}
