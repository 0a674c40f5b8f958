package stages

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// valid reports what is wrong with a check: it has no name, a number that is not
// finite, a state or a sense that nobody knows, or it contradicts itself.
func (c Check) valid() error {
	if strings.TrimSpace(c.Name) == "" {
		return fmt.Errorf("a check of %s has no name: must have one", c.Demand.Symbol)
	}
	for _, rule := range []func() error{c.validNumbers, c.validWords, c.validComparison} {
		if err := rule(); err != nil {
			return fmt.Errorf("check %q: %w", c.Name, err)
		}
	}
	return nil
}

// validOwn is valid for a check that a stage made itself: the tables and lines of the
// record are not its own, and it is at a place of the element (length in m).
func (c Check) validOwn(length float64) error {
	if r := (Record{Length: length}); !r.on(c.X) {
		return fmt.Errorf("check %q: x = %g m: must be on the element, 0 to %g m", c.Name, c.X, length)
	}
	if len(c.Tables)+len(c.Lines) > 0 {
		return fmt.Errorf("check %q refers to %d tables and %d lines: must refer to none; the record numbers them", c.Name, len(c.Tables), len(c.Lines))
	}
	return c.valid()
}

func (c Check) validNumbers() error {
	for _, n := range []struct {
		name  string
		value float64
	}{
		{"demand", c.Demand.Value}, {"limit", c.Limit.Value}, {"margin", c.Margin}, {"utilisation", c.Utilisation}, {"scale", c.Scale.Value},
		{"required value", c.Required.Value}, {"x", c.X},
	} {
		if !finite(n.value) {
			return fmt.Errorf("%s = %g: must be finite", n.name, n.value)
		}
	}
	for _, f := range c.Factors {
		if !finite(f.Value) {
			return fmt.Errorf("factor of %s = %g: must be finite", f.Cause, f.Value)
		}
	}
	return nil
}

func (c Check) validWords() error {
	switch {
	case c.State != Pass && c.State != Fail && c.State != Conditional && c.State != NotEvaluated:
		return fmt.Errorf("state %q: must be %q, %q, %q or %q", c.State, Pass, Fail, Conditional, NotEvaluated)
	case c.Sense != limits.AtMost && c.Sense != limits.AtLeast:
		return fmt.Errorf("sense %q: must be %q or %q", c.Sense, limits.AtMost, limits.AtLeast)
	case c.State == Conditional && strings.TrimSpace(c.Condition) == "":
		return fmt.Errorf("conditional without a condition: must say what must be shown first")
	case c.State == NotEvaluated && strings.TrimSpace(c.Note) == "":
		return fmt.Errorf("not evaluated without a note: must say why")
	}
	return nil
}

// agree is the part of a number by which margin and utilisation may differ from what
// demand and limit give: the rounding of a sum in another order.
const agree = 1e-9

// validComparison reports a margin, a utilisation or a state that does not follow from
// demand and limit.
func (c Check) validComparison() error {
	if c.State == NotEvaluated {
		return nil
	}
	if c.Demand == (formula.Quantity{}) && c.Limit == (formula.Quantity{}) {
		return c.validWithout()
	}
	margin, utilisation := c.compared()
	within := agree * math.Max(math.Abs(c.Demand.Value), math.Abs(c.Limit.Value))
	switch {
	case c.Demand.Unit != c.Limit.Unit:
		return fmt.Errorf("demand in %q and limit in %q: must be in one unit", c.Demand.Unit, c.Limit.Unit)
	case !(math.Abs(c.Margin-margin) <= within):
		return fmt.Errorf("margin = %g %s: must be %g %[2]s, demand %[4]g %[5]s %[6]g %[2]s", c.Margin, c.Limit.Unit, margin, c.Demand.Value, c.Sense, c.Limit.Value)
	case !(math.Abs(c.Utilisation-utilisation) <= agree*math.Max(1, utilisation)):
		return fmt.Errorf("utilisation = %g: must be %g by demand %g %s %s %g %[4]s", c.Utilisation, utilisation, c.Demand.Value, c.Limit.Unit, c.Sense, c.Limit.Value)
	case margin < 0 && c.State != Fail:
		return fmt.Errorf("state %q at a margin of %g %s: must be %q", c.State, margin, c.Limit.Unit, Fail)
	case margin > 0 && c.State == Fail:
		return fmt.Errorf("state %q at a margin of %g %s: must be %q or %q", c.State, margin, c.Limit.Unit, Pass, Conditional)
	}
	return nil
}

// validWithout reports a check that compares nothing and yet passes or has numbers: it
// can fail, or wait for a document.
func (c Check) validWithout() error {
	switch {
	case c.State == Pass:
		return fmt.Errorf("passes without a demand and a limit: must compare them")
	case c.Margin != 0 || c.Utilisation != 0:
		return fmt.Errorf("margin = %g and utilisation = %g without a demand and a limit: must be 0", c.Margin, c.Utilisation)
	}
	return nil
}
