package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
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
var numberedDocuments = []string{"technical approval of the anchorage"}

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

// appendix is what several situations have in common, each once: creep
// coefficients, section states, cuts of walls, symbols and sources.
func (a *author) appendix() []block {
	var blocks []block
	if len(a.record.Appendix) > 0 {
		blocks = append(blocks, heading{level: 2, words: words("Appendix: creep and shrinkage")}, a.groups(a.record.Appendix, true))
	}
	blocks = append(blocks, heading{level: 2, words: words("Appendix: section states, symbols, sources")})
	blocks = append(blocks, a.sectionStates()...)
	blocks = append(blocks, a.cuts()...)
	return append(blocks, append(a.symbols(), a.sources()...)...)
}

// The relations by which rows of tables recompute, see package derive.
const (
	bendingLaw  = "N/A - ((M_y*I_z - M_z*I_yz)*(z - z_c) + (M_z*I_y - M_y*I_yz)*(y - y_c))/(I_y*I_z - pow(I_yz, 2))"
	shearingLaw = "V_y*τ_Vy + V_z*τ_Vz + T*τ_T"
)

// laws are the relation of a value to its cells, and of the cells of tendons to
// force and path.
func laws(value [2]string, tendons ...[2]string) block {
	t := append(prose{{symbol, value[0]}}.and(plain, " = "), symbolic(value[1])...).and(plain, "; of tendons")
	for i, of := range tendons {
		if i > 0 {
			t = t.and(plain, ",")
		}
		t = append(t.and(plain, " ").and(symbol, of[0]).and(plain, " = "), symbolic(of[1])...)
	}
	return paragraph{t.and(plain, ".")}
}

func (a *author) sectionStates() []block {
	if len(a.record.Sections) == 0 {
		return nil
	}
	law := laws([2]string{"σ", bendingLaw}, [2]string{"N", "-n*P*cos"}, [2]string{"M_y", "n*P*cos*(z - z_c)"}, [2]string{"M_z", "n*P*cos*(y - y_c)"})
	length, area, fourth := formula.Metre, formula.SquareMetre, formula.MetreToFourth
	t := a.newConstants("Section states", "State", constant{"x", length}, constant{"A", area}, constant{"y_c", length}, constant{"z_c", length},
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
	law := laws([2]string{"τ", shearingLaw}, [2]string{"V_y", "n*P*cos_y"}, [2]string{"V_z", "n*P*cos_z"})
	t := a.newConstants("Cuts of walls: shear stress under unit forces about the shear centre", "Cut",
		constant{"x", formula.Metre}, constant{"τ_Vy", perArea}, constant{"τ_Vz", perArea}, constant{"τ_T", perVolume})
	for _, f := range a.record.Flows {
		t.add(f.Number, a.units.words(f.Name), f.X, f.Vy, f.Vz, f.T)
	}
	return []block{law, t.grid}
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
		t.columns = append(t.columns, column{a.units.headed(c.symbol, c.unit), true})
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

// shown are the numbers of the symbols of tables and lines that show checks; those of
// inputs have their meanings beside them.
func (a *author) shown() map[int]bool {
	shown := map[int]bool{}
	for i, l := range a.record.Lines {
		if a.proves(i + 1) {
			shown[l.Result.Symbol] = true
			for _, o := range l.Operands {
				shown[o.Symbol] = true
			}
		}
	}
	for i, s := range a.record.Symbols {
		shown[i+1] = shown[i+1] || s.Unit == formula.One && slices.ContainsFunc(a.record.Tables, func(t derive.Table) bool {
			return slices.ContainsFunc(t.Rows, func(r derive.Row) bool {
				return slices.ContainsFunc(r.Factors, func(f derive.Factor) bool { return f.Symbol == s.Symbol })
			})
		})
	}
	return shown
}

// symbols are those of tables and lines of checks with their meanings.
func (a *author) symbols() []block {
	var lines []prose
	shows := a.shown()
	for i, s := range a.record.Symbols {
		if s.Name != "" && shows[i+1] {
			lines = append(lines, prose{{symbol, s.Symbol}}.and(plain, " "+a.units.in(s.Unit).unit).and(faint, " "+a.units.words(s.Name)))
		}
	}
	if len(lines) == 0 {
		return nil
	}
	return []block{heading{level: 3, words: words("Symbols")},
		paragraph{words("Numbers that stand in a formula itself are in N, m, Pa and days.")}, calculation{lines: lines, running: true}}
}

// sources are the numbered sources.
func (a *author) sources() []block {
	points := make([]prose, len(a.references.sources))
	for i, s := range a.references.sources {
		points[i] = words(fmt.Sprintf("[%d%s] %s", i+1, dagger(s), sourceWords(s)))
	}
	return []block{heading{level: 3, words: words("Sources")}, calculation{lines: points, running: true}}
}
