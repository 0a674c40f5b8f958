package sheet

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages"
)

// chapter is a part of the appendix under a title of its own.
type chapter struct {
	title  string
	blocks []block
}

// The titles of chapters to which others refer.
const (
	effectsChapter = "Internal forces and stresses"
	lossesChapter  = "Losses and forces of tendons"
	checksChapter  = "Derivation of the checks"
	creepChapter   = "Creep, shrinkage and the loss of one tendon (a formula and what does not change is not repeated)"
	sectionChapter = "Section properties and wall sections"
)

// appendix is what derives the numbers of the sheet, each once: effects along the element,
// losses, strengths, checks, creep, section properties, symbols and sources.
func (a *author) appendix() []chapter {
	effects := a.each(func(stage stages.StageRecord, i int) []block {
		if !inFull(stage, i) {
			return nil
		}
		return a.unless("internal forces and stresses", numbered(stage, i), a.stations(stages.StationsOf(stage.Situations[i].Stations), stage.Situations[i].Joints))
	})
	moves, losses := a.each(a.moves), slices.Concat(a.placedWords(), a.each(a.lossesAndForces), a.briefPlaced())
	a.known = maps.Clone(a.inputsKnown)
	chapters := []chapter{
		{effectsChapter, effects}, {"Movements", moves}, {lossesChapter, losses},
		{"Concrete strength (what does not change is not repeated)", append(a.each(a.strengthLines), a.laterStrengths()...)},
		{checksChapter, append(a.explained(), a.derivations()...)},
		{creepChapter, append(a.cameWords(), a.groups(a.record.Appendix)...)},
		{sectionChapter, append(a.sectionStates(), a.cuts()...)},
	}
	sources := a.sources() // first, for the symbols that they mention
	chapters = append(chapters, chapter{"Symbols", a.symbols()}, chapter{"Sources", sources})
	return slices.DeleteFunc(chapters, func(c chapter) bool { return len(c.blocks) == 0 })
}

// chapters are the blocks of chapters under their numbers, with numbers for their tables.
func (n register) chapters(list []chapter) []block {
	var blocks []block
	for i, c := range list {
		tables, name := 0, fmt.Sprintf("A%d", i+1)
		n[c.title] = name
		n.tables(c.blocks, name+".", &tables)
		blocks = append(append(blocks, heading{level: 2, words: words(name + " " + c.title)}), c.blocks...)
	}
	return blocks
}

// each are the blocks of each situation under its name, and what is as before.
func (a *author) each(of func(stages.StageRecord, int) []block) []block {
	var blocks []block
	for _, stage := range a.record.Stages {
		for i, s := range stage.Situations {
			if part := append(of(stage, i), a.samePoints()...); len(part) > 0 {
				blocks = append(append(blocks, heading{level: 3, words: words(numbered(stage, i) + " " + s.Name)}), part...)
			}
		}
	}
	return blocks
}

// lossesAndForces are the losses of the tendons, and beside them their forces along the
// element.
func (a *author) lossesAndForces(stage stages.StageRecord, i int) []block {
	number := numbered(stage, i)
	if stage.Situations[i].Brief { // its losses are with the stage
		return nil
	}
	blocks := a.unless("losses", number, a.losses(stage.Situations[i]))
	if chart, ok := a.forceFigure(stage, i); ok && !a.repeats("force along the tendons", chart.svg, number) {
		blocks = []block{beside{columns: [][]block{blocks, {drawings{[]figure{chart}}}}}}
	}
	return append(blocks, a.placed(stage, i)...)
}

// strengthLines are how the strength of a situation was got, but for lines that stand with
// one before.
func (a *author) strengthLines(stage stages.StageRecord, i int) []block {
	s := stage.Situations[i]
	if s.Brief && a.briefBefore(stage, i) {
		return nil
	}
	return a.lines("Concrete strength at "+days(s.Age, math.Round)+" d", a.linesOf(s.Concrete))
}

// groups are groups of lines under their titles, but for lines that stand with one before;
// a formula is printed once, later only the numbers put in.
func (a *author) groups(groups []stages.Group) []block {
	var blocks []block
	seen := map[string]bool{}
	for _, group := range groups {
		l := a.newLedger(group.Title, asWritten)
		for _, line := range a.fresh(a.linesOf(group.Lines)) {
			l.row(0, line)
			if key := line.Result.Symbol + " = " + line.Expression; line.Expression != "" && seen[key] {
				l.rows[len(l.rows)-1][1] = prose{{symbol, a.symbolOf(line.Result)}}
			} else {
				seen[key] = true
			}
		}
		if lines := l.blocks(); len(lines) > 0 {
			blocks = append(blocks, lines...)
		}
	}
	return blocks
}

// symbols are those that this sheet prints in formulas and tables, each once with its one
// meaning.
func (a *author) symbols() []block {
	var points []prose
	if a.meanings == nil {
		return nil
	}
	for _, m := range *a.meanings { // explanations may mention what is above
		if m.used {
			a.noted(m.explanation())
		}
	}
	for _, m := range *a.meanings {
		if m.used {
			says := a.noted(a.units.words(m.explanation()))
			points = append(points, append(prose{{symbol, m.text()}}.and(plain, a.unitsOf(m)+": "), says...))
		}
	}
	if len(points) == 0 {
		return nil
	}
	return []block{paragraph{words("A stroke tells two meanings of the same letters apart. A number in a formula has its unit with it; powers of an age are of days.")}, list{points: points, columns: 2}}
}

// unitsOf are the units in which this sheet prints a symbol.
func (a *author) unitsOf(m *meaning) string {
	if len(m.units) == 0 {
		return strings.TrimRight(" "+a.units.in(m.unit).unit, " ")
	}
	return strings.TrimRight(" "+strings.Join(m.units, ", "), " ")
}
