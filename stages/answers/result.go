package answers

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// trialRuns is the source of what the engine gave at a value.
var trialRuns = formula.Source{Document: "analysis of the plan", Place: "re-run at the value"}

// Lines derive the reserve at each end from demand and limit there, and how it follows
// from the sensitivity just beyond. An end of the range that was tried has the first only.
func (a Answer) Lines() ([]formula.Line, error) {
	var c formula.Chain
	number := 0
	for _, i := range a.Intervals {
		for _, e := range []End{i.From, i.To} {
			number++
			e.lines(&c, a, number)
		}
	}
	return c.Lines()
}

func (e End) lines(c *formula.Chain, a Answer, number int) {
	tag := func(symbol string) string { return fmt.Sprintf("%s_%d", symbol, number) }
	note := e.At.Name
	if e.Open {
		note = "end of the range tried"
	}
	x := c.Given(a.quantity(tag("x"), e.Value, a.Asked+", "+a.Symbol), trialRuns, note)
	e.reserve(c, tag, e.At, "ρ", "relative reserve there")
	if e.Open {
		return
	}
	beyond := c.Given(a.quantity(tag("x_b"), e.Beyond, a.Asked+" just beyond"), trialRuns, e.reason())
	e.reserve(c, tag, e.Fails, "ρ_b", "relative reserve just beyond")
	if !e.Jumps && e.Sensitivity != 0 {
		s := c.Given(formula.Q(tag("s"), e.Sensitivity, per(a.Unit), "change of the relative reserve per unit"), trialRuns, "")
		r := c.Given(formula.Q(tag("ρ_x"), e.Reserve, formula.One, "relative reserve at the value"), trialRuns, "")
		c.Derive(formula.Q(tag("ρ_s"), 0, formula.One, "relative reserve just beyond by the sensitivity"), fmt.Sprintf("%s + %s*(%s - %s)", r.Symbol, s.Symbol, beyond.Symbol, x.Symbol), formula.Mechanics, r, s, beyond, x)
	}
}

// reserve derives a relative reserve from demand and limit of a check that has both.
func (e End) reserve(c *formula.Chain, tag func(string) string, of stages.Check, symbol, name string) {
	if of.State == stages.NotEvaluated || of.Limit.Symbol == "" || of.Demand.Symbol == "" {
		return
	}
	demand := c.Given(formula.Q(tag(symbol+"_E"), of.Demand.Value, of.Demand.Unit, of.Name+", demand"), trialRuns, of.Place)
	limit := c.Given(formula.Q(tag(symbol+"_R"), of.Limit.Value, of.Limit.Unit, of.Name+", limit"), of.Source, "")
	over := fmt.Sprintf("max(abs(%s), abs(%s))", demand.Symbol, limit.Symbol)
	operands := []formula.Quantity{limit, demand}
	if of.Limit.Value == 0 && of.Scale.Value > 0 {
		scale := c.Given(formula.Q(tag(symbol+"_S"), of.Scale.Value, of.Scale.Unit, of.Scale.Name), of.Source, "")
		over, operands = scale.Symbol, append(operands, scale)
	} else if of.Limit.Value == 0 && of.Demand.Value == 0 {
		return
	}
	margin := fmt.Sprintf("(%s - %s)", limit.Symbol, demand.Symbol)
	if of.Sense != "" && of.Margin*(of.Limit.Value-of.Demand.Value) < 0 {
		margin = fmt.Sprintf("(%s - %s)", demand.Symbol, limit.Symbol)
	}
	c.Derive(formula.Q(tag(symbol), 0, formula.One, name), margin+"/"+over, formula.Mechanics, operands...)
}

// per is the unit of a change per unit.
func per(u formula.Unit) formula.Unit {
	switch u {
	case formula.Metre:
		return formula.PerMetre
	case formula.One:
		return formula.One
	}
	return "1/(" + u + ")"
}

// Result is the answer as tables for the sheets, behind the stages of a record by
// [stages.Record.Append]; [Answer.Lines] are its derivation, for a record without stages.
func (a Answer) Result() stages.ResultPart {
	table := stages.ValueTable{
		Title: "Where the stage passes, with the governing check beyond each end", RowHead: "end, governing check",
		Columns: []stages.ValueColumn{
			{Name: a.Symbol, Unit: a.Unit, Small: a.Small}, {Name: "relative reserve", Unit: formula.One},
			{Name: a.Symbol + " just beyond", Unit: a.Unit, Small: a.Small}, {Name: "relative reserve just beyond", Unit: formula.One}, {Name: "change of the reserve per unit", Unit: per(a.Unit)},
		},
	}
	for _, i := range a.Intervals {
		for k, e := range []End{i.From, i.To} {
			name := []string{"from", "to"}[k] + ": "
			if e.Open {
				name += "end of the range tried, governing " + e.At.Name
			} else {
				name += e.reason()
			}
			table.RowNames = append(table.RowNames, name)
			table.Rows = append(table.Rows, []float64{e.Value, e.Reserve, e.Beyond, e.Deficit, e.Sensitivity})
		}
	}
	part := stages.ResultPart{Title: fmt.Sprintf("Stage %d: %s", a.Stage, a.Asked), Notes: append([]string{a.Sentence()}, a.Notes...)}
	if len(table.Rows) == 0 {
		table = stages.ValueTable{Title: "Range tried, in which the stage fails", Columns: []stages.ValueColumn{{Name: "from", Unit: a.Unit, Small: a.Small}, {Name: "to", Unit: a.Unit, Small: a.Small}}, Rows: [][]float64{{a.Low, a.High}}}
	}
	part.Tables = []stages.ValueTable{table}
	return part
}
