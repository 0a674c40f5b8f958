package sheet

import (
	"fmt"
	"maps"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// checks are the table of the checks of a situation and their derivations.
func (a *author) checks(s stages.SituationRecord) []block {
	g := grid{
		caption: "Checks, each derived below; limits are rounded to the safe side",
		columns: columnsOf("", "Check", "", ">x "+a.units.in(formula.Metre).unit, "Place", ">Demand", "", ">Limit", ">Margin", ">Utilisation", "State"),
		strong:  worstOf(s.Checks),
	}
	x := a.units.aligned(formula.Metre)
	for i, c := range s.Checks {
		cells := []string{letter(i), c.Name, c.LimitState, x.text(c.X), a.units.words(c.Place)}
		if c.State == stages.NotEvaluated {
			cells = append(cells, unknown, "", unknown, unknown, unknown, a.outcome(c)+": "+a.units.words(c.Note))
		} else {
			cells = append(cells, a.demand(c), compare(c.Sense), a.units.safe(c.Limit.Value, c.Limit.Unit, c.Sense), a.units.quantity(c.Margin, c.Limit.Unit), ratio(c), a.outcome(c))
		}
		g.rows = append(g.rows, row(cells...))
	}
	var blocks []block
	if len(s.Checks) > 0 {
		blocks = append(blocks, g)
	}
	set := a.numbers(s.Checks)
	blocks = append(blocks, set.blocks...)
	var lines []prose
	situation := a.passage.known
	for i, c := range s.Checks {
		a.passage.known = maps.Clone(situation) // each check is complete with what stands above all of them
		lines = append(lines, a.check(i, c, set)...)
	}
	a.passage.known = situation
	if len(lines) > 0 {
		blocks = append(blocks, heading{level: 4, words: words("Derivations; a line or number that stands above them with the same value is not repeated")}, calculation{lines: lines, running: true})
	}
	if len(s.NotChecked) > 0 {
		blocks = append(blocks, calculation{lines: []prose{bold("Not checked in this situation: ").and(plain, a.units.words(strings.Join(s.NotChecked, "; "))+".")}})
	}
	return blocks
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

// demand is what is there; a stress of either sign is spelled with C or T.
func (a *author) demand(c stages.Check) string {
	text := a.units.quantity(c.Demand.Value, c.Demand.Unit)
	if c.Name == string(limits.Tension) && c.Demand.Value != 0 {
		text += " " + side(c.Demand.Value)
	}
	return text
}

func compare(sense limits.Sense) string {
	if sense == limits.AtLeast {
		return "≥"
	}
	return "≤"
}

// outcome is the state with what must be shown.
func (a *author) outcome(c stages.Check) string {
	text := string(c.State)
	if c.Required.Value > 0 {
		text += fmt.Sprintf(": show %s ≥ %s", c.Required.Symbol, a.units.safe(c.Required.Value, c.Required.Unit, limits.AtLeast))
	}
	return text
}

// check is the derivation of a check, ending in the comparison.
func (a *author) check(i int, c stages.Check, set numbers) []prose {
	head := bold(letter(i)+" "+c.Name).and(plain, " at x = "+a.units.quantity(c.X, formula.Metre))
	if c.Corner != "" {
		head = head.and(plain, "; "+c.Corner)
	}
	lines := []prose{head}
	a.passage.limits = map[string]limits.Sense{c.Limit.Symbol: c.Sense}
	derived := set.rest(a.passage, i, c.Derivation)
	if len(c.Derivation) == 0 {
		derived = []prose{words("no derivation is given with this check")}
	}
	lines = append(lines, derived...)
	end := prose{{symbol, c.Demand.Symbol}}.and(plain, " = "+a.demand(c)+" "+compare(c.Sense)+" ").
		and(symbol, c.Limit.Symbol).and(plain, " = "+a.units.safe(c.Limit.Value, c.Limit.Unit, c.Sense)+": ").
		and(strong, a.outcome(c)).and(faint, " "+a.references.source(c.Source))
	if c.State == stages.NotEvaluated {
		end = bold(a.outcome(c)).and(faint, " "+a.references.source(c.Source))
	}
	if c.Condition != "" {
		end = end.and(plain, "; "+a.units.words(c.Condition))
	}
	if c.Note != "" {
		end = end.and(faint, "; "+a.units.words(c.Note))
	}
	return append(lines, end)
}
