package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

func (a *author) stage(s stages.StageRecord) []block {
	if isBrief(s) {
		return a.briefStage(s)
	}
	blocks := []block{heading{level: 2, words: words(fmt.Sprintf("Stage %d: %s, age %s d", s.Number, s.Name, days(s.Age, math.Round)))}}
	for i := range s.Situations {
		if len(s.Situations) > 1 {
			blocks = append(blocks, heading{level: 3, words: words(numbered(s, i) + " " + s.Situations[i].Name)})
		}
		opening, rest := a.situation(s, i)
		blocks = append(append(blocks, opening...), rest...)
		if i == 0 { // heading, facts and picture stay on one page
			kept := len(blocks) - len(rest)
			blocks = append([]block{beside{columns: [][]block{slices.Clone(blocks[:kept])}}}, blocks[kept:]...)
		}
	}
	return append(blocks, a.rowsAfterEach(s)...)
}

// situation is what a checker needs of one: where it stands, what acts, what comes out of
// it: its opening, which ends with the picture, and the rest. What derives it is in the
// appendix.
func (a *author) situation(stage stages.StageRecord, i int) (opening, blocks []block) {
	s, number := stage.Situations[i], numbered(stage, i)
	facts := a.facts(stage, i)
	opening = append([]block{facts}, a.unanswered(s)...)
	if elevation := a.elevation(stage, i); i == 0 || !a.repeats("elevation", elevation.svg, number) {
		a.printed["elevation"] = repeated{elevation.svg, number}
		if elevation.titled {
			opening[0] = paragraph{facts.words.and(plain, " ").with(elevation.name).and(plain, ": actions and reactions.")}
		}
		opening = append(opening, drawings{[]figure{elevation}})
	}
	blocks = a.reactions(s)
	if g, ok := blocks[0].(grid); ok {
		g.key = reactionsKey(a.ordinal(stage, i))
		blocks[0] = g
	}
	blocks = append(blocks, a.state(s, number)...)
	blocks = append(blocks, a.diagrams(stage, i)...)
	excluded := a.excluded(s, number)
	blocks = append(blocks, a.samePoints()...)
	return opening, append(append(blocks, a.checks(stage, i)...), excluded...)
}

// facts are age, static system, factors and actions of a situation.
func (a *author) facts(stage stages.StageRecord, i int) paragraph {
	s, number := stage.Situations[i], numbered(stage, i)
	until := ""
	if s.Until > s.Age {
		until = fmt.Sprintf(" to %s d", days(s.Until, math.Round))
	}
	text := bold("Age: ").and(plain, fmt.Sprintf("%s d%s (project day %s), weight %s, %s. ", days(s.Age, math.Round), until, days(s.Day, math.Round), kindOf(s), a.system(s))).
		and(strong, "Level, sharing: ").and(plain, a.supportLevels(s.Supports)+"; "+a.sharing(s)+". ").
		and(strong, "Factors: ").and(plain, "weight tolerance × "+rangeOf(s.Weight)+", dynamic × "+rangeOf(s.Dynamic)+a.sourceOf(s.DynamicBy)+". ").
		and(strong, "Actions beside self-weight: ").and(plain, a.loadsWords(s)+". ").
		and(strong, "Strength: ").and(plain, a.units.words(s.Basis)+".")
	if method := a.methodWords(s); method != "" && !a.grouts(stage, i) && !a.repeats("method of stressing", method, number) {
		text = text.and(plain, " ").and(strong, "Method of stressing, as stated: ").and(plain, method+".")
	}
	return paragraph{text}
}

// grouts is true for a situation in which tendons are grouted and none stressed.
func (a *author) grouts(stage stages.StageRecord, i int) bool {
	s := stage.Situations[i]
	return len(s.Stressing) == 0 && len(a.groutedIn(a.before(stage.Number-1, i), s.Tendons)) > 0
}

// ofStressing are the symbols of what the table of stressing has for all tendons.
var ofStressing = []string{"σ_0", "w"}

// state is what is done to tendons in a situation, and beside it their forces where they
// changed.
func (a *author) state(s stages.SituationRecord, number string) []block {
	forces := a.unless("tendon forces", number, a.tendonForces(s))
	points := make([]prose, len(s.Events))
	for i, event := range s.Events {
		points[i] = words(a.units.words(event.Title))
		for _, l := range a.linesOf(event.Lines) {
			if len(s.Stressing) == 0 || !slices.Contains(ofStressing, l.Result.Symbol) {
				points[i] = points[i].and(plain, "; "+a.units.words(l.Result.Name)+" ").and(symbol, a.symbolOf(l.Result)).and(plain, " = "+a.units.quantity(l.Result.Value, l.Result.Unit)+a.references.behind(l.Source))
			}
		}
	}
	switch {
	case len(points) == 0:
		return abreast(forces)
	case len(forces) == 0:
		return []block{heading{level: 4, words: words("Stressing and grouting")}, list{points: points}}
	}
	return []block{beside{columns: [][]block{{heading{level: 4, words: words("Stressing and grouting")}, list{points: points}}, forces}}}
}

// abreast are tables that have the width of the page to themselves: of short rows in parts
// beside each other.
func abreast(blocks []block) []block {
	for i, b := range blocks {
		if g, ok := b.(grid); ok && len(g.rows) > 2 {
			g.dense = true
			blocks[i] = g
		}
	}
	return blocks
}

// reactions are those of each support in their three ranges, which are rounded outwards.
func (a *author) reactions(s stages.SituationRecord) []block {
	x := a.units.aligned(formula.Metre)
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	g := grid{
		caption: words("Reactions " + unit + ", ranges rounded outwards: static at rest, characteristic with dynamic factors, ULS with partial factors; share of the total at rest"),
		columns: columnsOf("Support", ">x "+length, ">y "+length, ">nominal", ">static min", ">static max", ">share %", ">char. min", ">char. max", ">ULS min", ">ULS max"),
	}
	if a.record.Curved() {
		g.caption = g.caption.and(plain, "; y from the axis at that x, which is curved in plan")
	}
	for i, r := range s.Reactions {
		cells := []string{supportName(i, r), x.text(r.X), x.text(r.Y), number(r.Nominal * a.units.in(formula.Newton).factor)}
		for _, of := range []stages.Range{r.Static, r.Characteristic, r.Ultimate} {
			least, most := a.forces(of)
			if cells = append(cells, least, most); len(cells) == 6 {
				cells = append(cells, shareOf(r))
			}
		}
		g.rows = append(g.rows, row(cells...))
	}
	return append([]block{g}, a.slings(s.Reactions)...)
}

// ordinal is the number of a situation in the order of the record, from 1.
func (a *author) ordinal(stage stages.StageRecord, i int) int {
	n := i + 1
	for _, s := range a.record.Stages {
		if s.Number < stage.Number {
			n += len(s.Situations)
		}
	}
	return n
}

// sourceOf is where a factor comes from, in brackets; "" for an input.
func (a *author) sourceOf(source formula.Source) string {
	if source == (formula.Source{}) {
		return ""
	}
	return " (" + strings.TrimSpace(source.Document+" "+source.Place) + map[bool]string{true: ", to be confirmed", false: ""}[source.Confirm] + ")"
}
