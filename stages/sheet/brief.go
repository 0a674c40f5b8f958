package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// isBrief is true for a stage with brief situations: it is printed as one section, a row
// for each of its moves, kinds of checks and joints.
func isBrief(stage stages.StageRecord) bool {
	return slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool { return s.Brief })
}

// brief is true for a record with such a stage.
func (a *author) brief() bool { return slices.ContainsFunc(a.record.Stages, isBrief) }

// leftOut says what a brief calculation does not print.
const leftOut = "Stages are printed in brief: a row for each move, for each kind of check with the move that governs, and for each joint. Internal forces, stresses and movements are those of the last move of a stage. " +
	"A check is derived where it governs: its stage, of one kind the whole calculation, and where it fails the others of its kind in the stage. All other numbers of every move, and the derivation of every check that fails, are in the record (JSON); a move whose checks are all to be derived here is given Derive (a situation of another stage: Brief false)."

// briefStage is a stage whose situations are brief: its moves with their reactions, the
// elevation after the last one, checks and joints over all moves; then in full what is not
// brief.
func (a *author) briefStage(stage stages.StageRecord) []block {
	last := len(stage.Situations) - 1
	opening := []block{heading{level: 2, words: words(fmt.Sprintf("Stage %d: %s, age %s d", stage.Number, stage.Name, days(stage.Age, math.Round)))}, a.briefFacts(stage)}
	opening = append(opening, a.unanswered(stages.SituationRecord{Unanswered: unionOf(stage, func(s stages.SituationRecord) []string { return s.Unanswered })})...)
	opening = append(opening, drawings{[]figure{a.elevation(stage, last)}})
	blocks := []block{beside{columns: [][]block{opening}}}
	blocks = append(blocks, a.movesTable(stage))
	blocks = append(blocks, a.slings(stage.Situations[last].Reactions)...)
	blocks = append(blocks, a.stressedIn(stage)...)
	blocks = append(blocks, a.briefChecks(stage)...)
	blocks = append(blocks, a.jointsTable(stage)...)
	blocks = append(blocks, a.diagrams(stage, last)...)
	if left := unionOf(stage, func(s stages.SituationRecord) []string { return s.NotChecked }); len(left) > 0 {
		blocks = append(blocks, paragraph{prose{{faint, "Excluded from this stage: " + a.units.words(strings.Join(left, "; ")) + "."}}})
	}
	blocks = append(blocks, a.samePoints()...)
	for i, s := range stage.Situations {
		if !s.Brief {
			facts, rest := a.situation(stage, i)
			blocks = append(append(append(blocks, heading{level: 3, words: words(numbered(stage, i) + " " + s.Name)}), facts...), rest...)
		}
	}
	return blocks
}

// briefFacts are the static system, factors and actions of the moves of a stage, each once
// with the moves that have it where not all do.
func (a *author) briefFacts(stage stages.StageRecord) paragraph {
	first, last := stage.Situations[0], stage.Situations[len(stage.Situations)-1]
	ends := max(last.Age, last.Until)
	text := bold("Age: ").and(plain, fmt.Sprintf("%s d (project day %s), ", fromTo(first.Age, ends), fromTo(first.Day, last.Day+ends-last.Age)))
	for _, fact := range []struct {
		name string
		of   func(stages.SituationRecord) []string
	}{
		{"", func(s stages.SituationRecord) []string { return []string{"weight " + kindOf(s) + ", " + a.system(s)} }},
		{"Level, sharing: ", func(s stages.SituationRecord) []string {
			return []string{a.supportLevels(s.Supports) + "; " + a.sharing(s)}
		}},
		{"Factors: ", func(s stages.SituationRecord) []string {
			return []string{"weight tolerance × " + rangeOf(s.Weight) + ", dynamic × " + rangeOf(s.Dynamic) + a.sourceOf(s.DynamicBy)}
		}},
		{"Actions beside self-weight: ", a.loadsList},
		{"Strength: ", func(s stages.SituationRecord) []string { return []string{a.units.words(s.Basis)} }},
	} {
		text = text.and(strong, fact.name).and(plain, inMoves(stage, fact.of)+". ")
	}
	return paragraph{text}
}

// fromTo are days from one to another.
func fromTo(from, to float64) string {
	if from == to {
		return days(from, math.Round)
	}
	return days(from, math.Round) + " to " + days(to, math.Round)
}

// inMoves are words of the situations of a stage, each once, with the numbers of its moves
// where it is not of all.
func inMoves(stage stages.StageRecord, of func(stages.SituationRecord) []string) string {
	var texts []string
	in := map[string][]int{}
	for i, s := range stage.Situations {
		for _, text := range of(s) {
			if in[text] == nil {
				texts = append(texts, text)
			}
			in[text] = append(in[text], i)
		}
	}
	if len(texts) == 0 {
		return "none"
	}
	for i, text := range texts {
		if moves := in[text]; len(moves) < len(stage.Situations) {
			texts[i] += " (" + movesWords(stage, moves) + ")"
		}
	}
	return strings.Join(texts, "; ")
}

// movesWords are the numbers of moves, counted from 0 and in order: "3.1, 3.4 to 3.8".
func movesWords(stage stages.StageRecord, moves []int) string {
	var texts []string
	for i := 0; i < len(moves); {
		n := i
		for n+1 < len(moves) && moves[n+1] == moves[n]+1 {
			n++
		}
		switch text := numbered(stage, moves[i]); {
		case n == i:
			texts = append(texts, text)
		case n == i+1:
			texts = append(texts, text, numbered(stage, moves[n]))
		default:
			texts = append(texts, text+" to "+numbered(stage, moves[n]))
		}
		i = n + 1
	}
	return strings.Join(texts, ", ")
}

// unionOf are words of the situations of a stage, each once.
func unionOf(stage stages.StageRecord, of func(stages.SituationRecord) []string) []string {
	var all []string
	for _, s := range stage.Situations {
		for _, words := range of(s) {
			if !slices.Contains(all, words) {
				all = append(all, words)
			}
		}
	}
	return all
}

// moveName is the name of a situation without that of its stage.
func moveName(stage stages.StageRecord, i int) string {
	name := stage.Situations[i].Name
	for _, behind := range []string{": ", ", "} {
		if short, ok := strings.CutPrefix(name, stage.Name+behind); ok {
			return short
		}
	}
	return name
}

// movesTable are the moves of a stage in order with day and reactions, the ranges rounded
// outwards.
func (a *author) movesTable(stage stages.StageRecord) block {
	x := a.units.aligned(formula.Metre)
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	g := grid{
		caption: words("Moves in order, with the reactions after each, " + unit + ", ranges rounded outwards: static at rest, characteristic with dynamic factors, ULS with partial factors"),
		columns: columnsOf("", "Move", ">Day", "Support", ">x "+length, ">y "+length, ">nominal", ">static min", ">static max", ">char. min", ">char. max", ">ULS min", ">ULS max"),
	}
	for i, s := range stage.Situations {
		g.keys = append(g.keys, reactionsKey(a.ordinal(stage, i)))
		lead := []string{numbered(stage, i), moveName(stage, i), days(s.Day, math.Round)}
		for k, r := range s.Reactions {
			cells := append(lead, supportName(k, r), x.text(r.X), x.text(r.Y), number(r.Nominal*a.units.in(formula.Newton).factor))
			for _, of := range []stages.Range{r.Static, r.Characteristic, r.Ultimate} {
				least, most := a.forces(of)
				cells = append(cells, least, most)
			}
			g.rows = append(g.rows, row(cells...))
			lead = []string{"", "", ""}
		}
	}
	return g
}

// inFull is true for a situation whose effects along the element are printed: of a stage in
// brief the last one, and any that is not brief.
func inFull(stage stages.StageRecord, i int) bool {
	return !stage.Situations[i].Brief || i == len(stage.Situations)-1
}

// briefStrength is the row of the strengths of a stage in brief: the least that is assumed,
// and the largest that a check requires with its move.
func (a *author) briefStrength(stage stages.StageRecord) []prose {
	assumed, most, at := math.Inf(1), 0.0, 0
	for i, s := range stage.Situations {
		assumed = math.Min(assumed, assumedIn(s))
		if needs := requiredIn(s); needs > most {
			most, at = needs, i
		}
	}
	name, required := fmt.Sprintf("%d %s", stage.Number, stage.Name), none
	if most > 0 {
		name += "; " + numbered(stage, at) + " governs"
		required = a.bare(most, formula.Pascal, limits.AtLeast)
	}
	return row(name, days(stage.Age, math.Round), number(assumed*a.units.in(formula.Pascal).factor), required)
}

// saidBefore is true for notes on movements that stand with a situation before.
func (a *author) saidBefore(notes paragraph) bool {
	text := notes.words.raw()
	before := a.printed["notes on movements"].content
	a.printed["notes on movements"] = repeated{content: text}
	return before == text
}
