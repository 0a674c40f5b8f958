package sheet

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// references number the sources of a sheet: those of the record keep their numbers,
// others follow as they are met.
type references struct{ sources []formula.Source }

// noReference stands where a source, a document or a report should be named and is not.
const noReference = "no reference given"

// given is a reference as it was given.
func given(reference string) string {
	if strings.TrimSpace(legible(reference)) == "" {
		return noReference
	}
	return reference
}

// numberedDocuments are documents that only their number, the place of the source, tells
// from others.
var numberedDocuments = []string{"technical approval of the post-tensioning system"}

// sourceWords are document and place of a source, with what is missing.
func sourceWords(s formula.Source) string {
	document, place := given(s.Document), strings.TrimSpace(s.Place)
	switch {
	case place != "" && document == noReference:
		return document + ": " + place
	case place == "" && slices.Contains(numberedDocuments, document):
		return document + ", " + noReference
	}
	return strings.TrimSpace(document + " " + place)
}

// behind is the number of a source behind a line or a check.
func (r *references) behind(s formula.Source) string {
	if source := r.source(s); source != noReference {
		return " " + source
	}
	return "; " + noReference
}

// source is the number of a source in brackets. A dagger marks one that is to be
// confirmed.
func (r *references) source(s formula.Source) string {
	if given(s.Document) == noReference && given(s.Place) == noReference {
		return noReference
	}
	at := slices.Index(r.sources, s)
	if at < 0 {
		at = len(r.sources)
		r.sources = append(r.sources, s)
	}
	return fmt.Sprintf("[%d%s]", at+1, dagger(s))
}

func dagger(s formula.Source) string {
	if s.Confirm {
		return "†"
	}
	return ""
}

// part of the appendix under a title of its own.
type chapter struct {
	title  string
	blocks []block
}

// The titles of chapters to which others refer.
const (
	checksChapter  = "Derivation of the checks"
	sectionChapter = "Section properties and wall sections"
)

// appendix is what derives the numbers of the sheet, each once: effects along the element,
// losses, strengths, checks, creep, section properties, symbols and sources.
func (a *author) appendix() []block {
	effects := a.each(func(stage stages.StageRecord, i int) []block {
		return a.unless("internal forces and stresses", numbered(stage, i), a.stations(stages.StationsOf(stage.Situations[i].Stations)))
	})
	moves, losses := a.each(a.moves), a.each(a.lossesAndForces)
	a.known = maps.Clone(a.inputsKnown)
	chapters := []chapter{
		{"Internal forces and stresses", effects}, {"Movements", moves}, {"Losses and forces of tendons", losses},
		{"Concrete strength (what does not change is not repeated)", a.each(a.strengthLines)},
		{checksChapter, append(a.explained(), a.derivations()...)},
		{"Creep, shrinkage and the loss of one tendon (a formula and what does not change is not repeated)", a.groups(a.record.Appendix)},
		{sectionChapter, append(a.sectionStates(), a.cuts()...)},
	}
	sources := a.sources() // first, for the symbols that they mention
	chapters = append(chapters, chapter{"Symbols", a.symbols()}, chapter{"Sources", sources})
	return numberedChapters(slices.DeleteFunc(chapters, func(c chapter) bool { return len(c.blocks) == 0 }))
}

// numberedChapters are the blocks of chapters under their numbers, with numbers for their
// tables; the chapter of checks says where the section properties are.
func numberedChapters(chapters []chapter) []block {
	var blocks []block
	at := slices.IndexFunc(chapters, func(c chapter) bool { return c.title == sectionChapter })
	for i, c := range chapters {
		tables := 0
		numberTables(c.blocks, fmt.Sprintf("A%d.", i+1), &tables)
		blocks = append(blocks, heading{level: 2, words: words(fmt.Sprintf("A%d %s", i+1, c.title))})
		if c.title == checksChapter && at >= 0 {
			blocks = append(blocks, paragraph{words(fmt.Sprintf("Section properties and unit stresses of wall sections by number: A%d. Lines by number in brackets, each printed once.", at+1))})
		}
		blocks = append(blocks, c.blocks...)
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
	left := a.unless("losses", number, a.losses(stage.Situations[i]))
	if chart, ok := a.forceFigure(stage, i); ok && !a.repeats("force along the tendons", chart.svg, number) {
		return []block{beside{columns: [][]block{left, {drawings{[]figure{chart}}}}}}
	}
	return left
}

// strengthLines are how the strength of a situation was got, but for lines that stand with
// one before.
func (a *author) strengthLines(stage stages.StageRecord, i int) []block {
	s := stage.Situations[i]
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

// The relations by which rows of tables recompute, see package derive.
const (
	bendingLaw  = "N/A - ((M_y*I_z - M_z*I_yz)*(z - z_c) + (M_z*I_y - M_y*I_yz)*(y - y_c))/(I_y*I_z - pow(I_yz, 2))"
	shearingLaw = "V_y*τ_Vy + V_z*τ_Vz + T*τ_T"
)

// laws are the relation of a value to its cells, and of the cells of tendons to
// force and path.
func (a *author) laws(value [2]string, tendons ...[2]string) block {
	t := append(prose{{symbol, value[0]}}.and(plain, " = "), symbolic(value[1])...).and(plain, "; of tendons")
	for i, of := range tendons {
		if i > 0 {
			t = t.and(plain, ",")
		}
		t = append(t.and(plain, " ").and(symbol, of[0]).and(plain, " = "), symbolic(of[1])...)
	}
	for _, s := range t {
		if s.kind == symbol {
			a.meanings.use(s.text)
		}
	}
	return paragraph{t.and(plain, ".")}
}

func (a *author) sectionStates() []block {
	if len(a.record.Sections) == 0 {
		return nil
	}
	law := a.laws([2]string{"σ", bendingLaw}, [2]string{"N", "-n*P*cos"}, [2]string{"M_y", "n*P*cos*(z - z_c)"}, [2]string{"M_z", "n*P*cos*(y - y_c)"})
	length, area, fourth := formula.Metre, formula.SquareMetre, formula.MetreToFourth
	t := a.newConstants("Section properties", "Section", constant{"x", length}, constant{"A", area}, constant{"y_c", length}, constant{"z_c", length},
		constant{"I_y", fourth}, constant{"I_z", fourth}, constant{"I_yz", fourth})
	for _, s := range a.record.Sections {
		t.add(s.Number, s.Name, s.X, s.A, s.Y, s.Z, s.Iy, s.Iz, s.Iyz)
	}
	return []block{law, t.grid}
}

func (a *author) cuts() []block {
	if len(a.record.Flows) == 0 {
		return nil
	}
	law := a.laws([2]string{"τ", shearingLaw}, [2]string{"V_y", "n*P*cos_y"}, [2]string{"V_z", "n*P*cos_z"})
	t := a.newConstants("Unit stresses: shear stress of wall sections under unit forces about the shear centre; WS as in the figure of the section", "Wall section",
		constant{"x", formula.Metre}, constant{"τ_Vy", perArea}, constant{"τ_Vz", perArea}, constant{"τ_T", perVolume})
	for _, f := range a.record.Flows {
		t.add(f.Number, strings.TrimPrefix(a.wallMark(f.Number)+": "+a.units.words(f.Name), ": "), f.X, f.Vy, f.Vz, f.T)
	}
	return []block{law, paragraph{a.noted(a.units.words(flowWords))}, t.grid}
}

// constant is a column of a table of what tables of derivations refer to by number.
type constant struct {
	symbol string
	unit   formula.Unit
}

// constants is such a table.
type constants struct {
	grid
	units Units
	of    []constant
}

func (a *author) newConstants(caption, name string, of ...constant) constants {
	t := constants{grid{small: true, caption: words(caption), columns: columnsOf("", name)}, a.units, of}
	for _, c := range of {
		t.columns = append(t.columns, column{a.units.headed(a.symbolOf(formula.Q(c.symbol, 0, c.unit, "")), c.unit), true})
	}
	return t
}

func (t *constants) add(number int, name string, values ...float64) {
	cells := []string{fmt.Sprint(number), name}
	for i, v := range values {
		cells = append(cells, t.units.column(v, t.of[i].unit))
	}
	t.rows = append(t.rows, row(cells...))
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

// sources are the numbered sources.
func (a *author) sources() []block {
	if len(a.references.sources) == 0 {
		return nil
	}
	points := make([]prose, len(a.references.sources))
	for i, s := range a.references.sources {
		points[i] = a.noted(fmt.Sprintf("[%d%s] %s", i+1, dagger(s), sourceWords(s)))
	}
	return []block{list{points: points, columns: 2}}
}
