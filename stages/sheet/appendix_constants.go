package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

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
		if !a.refersTo(derive.Bending, s.Number) {
			continue
		}
		t.add(s.Number, s.Name, s.X, s.A, s.Y, s.Z, s.Iy, s.Iz, s.Iyz)
	}
	return []block{law, t.grid}
}

func (a *author) cuts() []block {
	if len(a.record.Flows) == 0 {
		return nil
	}
	law := a.laws([2]string{"τ", shearingLaw}, [2]string{"V_y", "n*P*cos_y"}, [2]string{"V_z", "n*P*cos_z"})
	t := a.newConstants("Unit stresses: shear stress of wall sections under unit forces about the shear centre; WS as in ", "Wall section",
		constant{"x", formula.Metre}, constant{"τ_Vy", perArea}, constant{"τ_Vz", perArea}, constant{"τ_T", perVolume})
	t.caption = t.caption.with(a.sectionKey())
	for _, f := range a.record.Flows {
		if !a.refersTo(derive.Shearing, f.Number) {
			continue
		}
		t.add(f.Number, strings.TrimPrefix(a.wallMark(f.Number)+": "+a.units.words(f.Name), ": "), f.X, f.Vy, f.Vz, f.T)
	}
	return []block{law, paragraph{append(a.noted(a.units.words(flowWords)), a.signWords()...)}, t.grid}
}

// refersTo is true where a printed table has a row on a section state or a cut; in a
// calculation that is not brief for all.
func (a *author) refersTo(by derive.Relation, number int) bool {
	if !a.brief() {
		return true
	}
	for n := range a.tableAt {
		if t := a.record.Tables[n-1]; t.By == by && slices.ContainsFunc(t.Rows, func(r derive.Row) bool { return r.On == number }) {
			return true
		}
	}
	return false
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
