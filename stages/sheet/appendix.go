package sheet

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// references number the sources of a sheet: those of the record keep their numbers,
// others follow as they are met.
type references struct{ sources []formula.Source }

// source is the number of a source in brackets; "" for none. A dagger marks one
// that is to be confirmed.
func (r *references) source(s formula.Source) string {
	if s.Document == "" && s.Place == "" {
		return ""
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
	g := grid{small: true, caption: words("Section states"), columns: columnsOf("", "State")}
	length, fourth := formula.Metre, formula.MetreToFourth
	for _, h := range []struct {
		symbol string
		unit   formula.Unit
	}{{"x", length}, {"A", formula.SquareMetre}, {"y_c", length}, {"z_c", length}, {"I_y", fourth}, {"I_z", fourth}, {"I_yz", fourth}} {
		g.columns = append(g.columns, column{a.units.headed(h.symbol, h.unit), true})
	}
	for _, s := range a.record.Sections {
		cells := []string{fmt.Sprint(s.Number), s.Name}
		for _, v := range []struct {
			value float64
			unit  formula.Unit
		}{{s.X, length}, {s.A, formula.SquareMetre}, {s.Y, length}, {s.Z, length}, {s.Iy, fourth}, {s.Iz, fourth}, {s.Iyz, fourth}} {
			cells = append(cells, a.units.column(v.value, v.unit))
		}
		g.rows = append(g.rows, row(cells...))
	}
	return []block{law, g}
}

func (a *author) cuts() []block {
	if len(a.record.Flows) == 0 {
		return nil
	}
	law := laws([2]string{"τ", shearingLaw}, [2]string{"V_y", "n*P*cos_y"}, [2]string{"V_z", "n*P*cos_z"})
	g := grid{small: true, caption: words("Cuts of walls: shear stress under unit forces about the shear centre"), columns: columnsOf("", "Cut")}
	for _, h := range []struct {
		symbol string
		unit   formula.Unit
	}{{"x", formula.Metre}, {"τ_Vy", perArea}, {"τ_Vz", perArea}, {"τ_T", perVolume}} {
		g.columns = append(g.columns, column{a.units.headed(h.symbol, h.unit), true})
	}
	for _, f := range a.record.Flows {
		g.rows = append(g.rows, row(fmt.Sprint(f.Number), a.units.words(f.Name), a.units.column(f.X, formula.Metre),
			a.units.column(f.Vy, perArea), a.units.column(f.Vz, perArea), a.units.column(f.T, perVolume)))
	}
	return []block{law, g}
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
		mark := dagger(s)
		s.Confirm = false
		points[i] = words(fmt.Sprintf("[%d%s] %s", i+1, mark, s))
	}
	return []block{heading{level: 3, words: words("Sources")}, calculation{lines: points, running: true}}
}
