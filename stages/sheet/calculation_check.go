package sheet

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// checks are the table of the checks of a situation; their derivations are kept for
// the appendix.
func (a *author) checks(stage stages.StageRecord, k int) []block {
	s := stage.Situations[k]
	g := grid{
		caption: words("Checks, each derived in the appendix; limits are rounded to the safe side"),
		columns: columnsOf("", "Check", "", ">x "+a.units.in(formula.Metre).unit, "Place", ">Demand", "", ">Limit", ">Margin", ">Utilisation", "State"),
		strong:  worstOf(s.Checks),
	}
	x := a.units.aligned(formula.Metre)
	for i, c := range s.Checks {
		cells := append([]string{letter(i), c.Name, c.LimitState, x.text(c.X), a.units.words(c.Place)}, a.numbersOf(c)...)
		state := a.outcome(c)
		if c.State == stages.NotEvaluated {
			state = state.and(plain, ": "+a.units.words(c.Note))
		}
		g.rows = append(g.rows, append(row(cells...), state))
	}
	var blocks []block
	if len(s.Checks) > 0 {
		blocks = append(blocks, g)
		a.derived = append(a.derived, heading{level: 3, words: words(fmt.Sprintf("%s %s, age %s d", numbered(stage, k), s.Name, days(s.Age, math.Round)))})
		a.derived = append(a.derived, a.derivations(s.Checks, numbered(stage, k))...)
	}
	if len(s.NotChecked) > 0 {
		blocks = append(blocks, paragraph{prose{{faint, "Excluded from this situation: " + a.units.words(strings.Join(s.NotChecked, "; ")) + "."}}})
	}
	return blocks
}

// derivations are the tables and lines of each check; checks without a table of
// their own stand beside each other.
func (a *author) derivations(checks []stages.Check, situation string) []block {
	var blocks []block
	var lines []prose
	for i, c := range checks {
		name, place := letter(i)+" "+c.Name, " at x = "+a.units.place(c.X)
		tables, proof := a.proof(situation+" "+letter(i), c.Proof)
		if len(tables) == 0 {
			lines = append(lines, bold(name).and(plain, place+factorWords(c)))
		} else {
			blocks = append(blocks, calculation{lines: lines, running: true}, heading{level: 4, words: words(name + place)})
			blocks, lines = append(blocks, tables...), nil
		}
		if len(c.Tables)+len(c.Lines) == 0 {
			proof = []prose{words("no derivation is given with this check")}
		}
		lines = append(append(lines, proof...), a.comparison(c))
	}
	return append(blocks, calculation{lines: lines, running: true})
}

// letter names a check of a situation: A, B … Z, A1, B1 …
func letter(i int) string {
	name := string(rune('A' + i%26))
	if i >= 26 {
		name += fmt.Sprint(i / 26)
	}
	return name
}

// worstOf is the number of the governing check in its table; 0 when there is
// none.
func worstOf(checks []stages.Check) int {
	one := stages.Record{Stages: []stages.StageRecord{{Situations: []stages.SituationRecord{{Checks: checks}}}}}
	perStage, _ := one.Governing()
	for i, c := range checks {
		if c.Name == perStage[0].Name && c.X == perStage[0].X && c.Place == perStage[0].Place && c.State == perStage[0].State {
			return i + 1
		}
	}
	return 0
}

// demand is what is there; a stress of either sign is spelled out.
func (a *author) demand(c stages.Check) string {
	if c.Kind == limits.Tension && c.Demand.Value < 0 {
		return a.units.quantity(-c.Demand.Value, c.Demand.Unit) + " compression"
	}
	return a.units.quantity(c.Demand.Value, c.Demand.Unit)
}

func compare(sense limits.Sense) string {
	if sense == limits.AtLeast {
		return "≥"
	}
	return "≤"
}

// outcome is the state with the value that it rests on.
func (a *author) outcome(c stages.Check) prose {
	if c.Required.Value <= 0 {
		return words(string(c.State))
	}
	return words(string(c.State)+": requires ").and(symbol, c.Required.Symbol).and(plain, " ≥ "+a.units.safe(c.Required.Value, c.Required.Unit, limits.AtLeast))
}

// comparison is demand against limit, with what the result is conditional on.
func (a *author) comparison(c stages.Check) prose {
	var end prose
	if numeric(c) {
		end = prose{{symbol, c.Demand.Symbol}}.and(plain, " = "+a.demand(c)+" "+compare(c.Sense)+" ").
			and(symbol, c.Limit.Symbol).and(plain, " = "+a.units.safe(c.Limit.Value, c.Limit.Unit, c.Sense)+": ")
	}
	outcome := a.outcome(c)
	outcome[0].kind = strong
	end = append(end, outcome...)
	if numeric(c) || c.Source != (formula.Source{}) { // else nothing was compared with a limit
		end = end.and(faint, a.references.behind(c.Source))
	}
	if c.Condition != "" {
		end = end.and(plain, "; conditional on "+a.units.words(c.Condition))
	}
	if c.Note != "" {
		end = end.and(faint, "; "+a.units.words(c.Note))
	}
	return end
}
