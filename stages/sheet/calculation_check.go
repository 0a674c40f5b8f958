package sheet

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// checks are the table of the checks of a situation.
func (a *author) checks(stage stages.StageRecord, k int) []block {
	s := stage.Situations[k]
	g := grid{
		caption: words("Checks, derived in ").with(checksChapter).and(plain, ": demand and limit as there; margins rounded down, utilisations and what is required up"),
		columns: columnsOf("", "Check", "", ">x "+a.units.in(formula.Metre).unit, "Place", ">Demand", "", ">Limit", ">Margin", ">Util.", "State", ">Requires"),
		strong:  worstOf(s.Checks), checks: true,
	}
	x := a.units.aligned(formula.Metre)
	for i, c := range s.Checks {
		cells := append([]string{letter(i), c.Name, c.LimitState, x.text(c.X), a.placeOf(c)}, a.numbersOf(c)...)
		state := string(c.State)
		if c.State == stages.NotEvaluated {
			state += ": " + a.units.words(c.Note)
		}
		g.rows = append(g.rows, append(row(append(cells, state)...), a.required(c)))
	}
	if len(s.Checks) == 0 {
		return nil
	}
	return []block{g}
}

// excluded is what a situation leaves out beside the exclusions on the first page.
func (a *author) excluded(s stages.SituationRecord, number string) []block {
	if len(s.NotChecked) == 0 {
		return nil
	}
	return a.unless("exclusions", number, []block{paragraph{prose{{faint, "Excluded from this situation: " + a.units.words(strings.Join(s.NotChecked, "; ")) + "."}}}})
}

// placeOf is the place of a check without the x that stands beside it.
func (a *author) placeOf(c stages.Check) string {
	place := strings.Replace(c.Place, fmt.Sprintf(", x = %.3f m", c.X), "", 1)
	if mark := a.wallOf(c); mark != "" {
		place = strings.Replace(place, "wall at", mark+" at", 1)
	}
	return inBrackets.ReplaceAllString(a.units.words(place), "")
}

// inBrackets is a length of the record behind the converted one: a narrow column has no room
// for both.
var inBrackets = regexp.MustCompile(` \(−?[\d.]+ m\)`)

// required is the value that a check needs, as a minimum.
func (a *author) required(c stages.Check) prose {
	if c.Required.Value <= 0 {
		return nil
	}
	return prose{{symbol, a.symbolOf(c.Required)}}.and(plain, " ≥ "+a.units.safe(c.Required.Value, c.Required.Unit, limits.AtLeast))
}

// derivations are those of the checks of all situations.
func (a *author) derivations() []block {
	var blocks []block
	if len(a.record.Sections)+len(a.record.Flows) > 0 {
		blocks = append(blocks, paragraph{words("Section properties and unit stresses of wall sections by number: ").with(sectionChapter).and(plain, ". Lines by number in brackets, each printed once.")})
	}
	blocks = append(blocks, paragraph{words("Results are printed with the digits with which they recompute; a demand and a limit are cut to the safe side and read the same wherever they stand, the sum of a table too. State, margin and utilisation are of the unrounded values; margins are rounded down, utilisations and what is required up.")})
	for _, stage := range a.record.Stages {
		for k, s := range stage.Situations {
			shown := derivedHere(stage, k)
			if slices.Contains(shown, true) {
				blocks = append(blocks, heading{level: 3, words: words(fmt.Sprintf("%s %s, age %s d", numbered(stage, k), s.Name, days(s.Age, math.Round)))})
			}
			for i, c := range s.Checks {
				if !shown[i] {
					continue
				}
				title := words(letter(i) + " " + c.Name + " at x = " + a.units.place(c.X) + a.factorWords(c))
				blocks = append(append(blocks, heading{level: 4, words: title}), a.proof(numbered(stage, k)+" "+letter(i), c)...)
			}
		}
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
	return append(words(string(c.State)+": requires "), a.required(c)...)
}

// comparison is demand against limit, with what the result is conditional on.
func (a *author) comparison(c stages.Check) prose {
	var end prose
	if numeric(c) {
		demand, limit := a.compared(c)
		end = prose{{symbol, a.symbolOf(c.Demand)}}.and(plain, " = "+demand+" "+compare(c.Sense)+" ").
			and(symbol, a.symbolOf(c.Limit)).and(plain, " = "+limit+": ")
	}
	outcome := a.outcome(c)
	outcome[0].kind = strong
	end = append(end, outcome...)
	if numeric(c) || c.Source != (formula.Source{}) { // else nothing was compared with a limit
		end = end.and(plain, a.references.behind(c.Source))
	}
	if c.Condition != "" {
		end = end.and(plain, "; conditional on "+a.units.words(c.Condition))
	}
	if c.Note != "" {
		end = append(end.and(plain, "; "), a.noted(a.units.words(c.Note))...)
	}
	return end
}

// factorWords are the factors under which the demand of a check without a table is
// worst.
func (a *author) factorWords(c stages.Check) string {
	if len(c.Tables) > 0 || len(c.Factors) == 0 {
		return ""
	}
	texts := make([]string, len(c.Factors))
	for i, f := range c.Factors {
		texts[i] = f.Cause + " × " + shortest(f.Value, 0)
	}
	return "; factors: " + strings.Join(texts, ", ")
}
