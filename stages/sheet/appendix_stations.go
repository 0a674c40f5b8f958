package sheet

import (
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// effect is a column of the table of effects.
type effect struct {
	title string
	unit  formula.Unit
	value func(stages.Station) float64
}

var effects = []effect{
	{"My,w", formula.NewtonMetre, func(s stages.Station) float64 { return s.Weight.My }},
	{"Vz,w", formula.Newton, func(s stages.Station) float64 { return s.Weight.Vz }},
	{"T,w", formula.NewtonMetre, func(s stages.Station) float64 { return s.Weight.T }},
	{"N,p", formula.Newton, func(s stages.Station) float64 { return s.Prestress.N }},
	{"My,p", formula.NewtonMetre, func(s stages.Station) float64 { return s.Prestress.My }},
	{"Vz,p", formula.Newton, func(s stages.Station) float64 { return s.Prestress.Vz }},
	{"Mz,w", formula.NewtonMetre, func(s stages.Station) float64 { return s.Weight.Mz }},
	{"Mz,p", formula.NewtonMetre, func(s stages.Station) float64 { return s.Prestress.Mz }},
}

// stations are the effects at the places of a table; those at joints are named.
func (a *author) stations(stations []stages.Station, joints []stages.JointRecord) []block {
	if len(stations) == 0 {
		return nil
	}
	length := a.units.in(formula.Metre).unit
	g := grid{columns: columnsOf(">x " + length)}
	x := a.units.aligned(formula.Metre)
	for _, at := range stations {
		g.rows = append(g.rows, row(x.text(at.X)))
	}
	if len(joints) > 0 {
		g.columns = append(g.columns, columnsOf("Joint")...)
		for i, at := range stations {
			name := ""
			for _, j := range joints {
				if math.Abs(j.X-at.X) < nearJoint {
					name = j.Name
				}
			}
			g.rows[i] = append(g.rows[i], words(name))
		}
	}
	var zero []string
	for _, e := range effects {
		values := make([]float64, len(stations))
		for i, at := range stations {
			values[i] = e.value(at)
		}
		if !a.addColumn(&g, a.units.head(e.title, e.unit), e.unit, values, negligible) {
			zero = append(zero, e.title)
		}
	}
	a.stressColumns(&g, stations)
	caption := "Internal forces and stresses: self-weight and actions always present, e.g. frames, nominal (w), mean prestress (p), bending moments about the centroid of the gross section, stresses over all service factors, tension +"
	if len(zero) > 0 {
		caption += "; zero throughout: " + strings.Join(zero, "; ")
	}
	g.caption = words(caption)
	return []block{g}
}

// nearJoint is a distance to which the x of stations is written, m.
const nearJoint = 1e-3

// negligible is a force in N or a moment in N·m that is rounding of the
// computation: effects of an element are many orders larger.
const negligible = 1e-3

// addColumn adds a column of numbers to a table; it says no where none is larger than
// nothing.
func (a *author) addColumn(g *grid, title string, unit formula.Unit, values []float64, nothing float64) bool {
	if !slices.ContainsFunc(values, func(v float64) bool { return math.Abs(v) > nothing }) {
		return false
	}
	g.columns = append(g.columns, column{words(title), true})
	format := a.units.aligned(unit, values...)
	for i, v := range values {
		g.rows[i] = append(g.rows[i], words(format.text(v)))
	}
	return true
}

func (a *author) stressColumns(g *grid, stations []stages.Station) {
	var all []float64
	for _, at := range stations {
		all = append(all, at.TopLeast, at.TopMost, at.BottomLeast, at.BottomMost)
	}
	format := a.units.aligned(formula.Pascal, all...)
	format.decimals = min(format.decimals, 3)
	unit := a.units.in(formula.Pascal).unit
	g.columns = append(g.columns, columnsOf(">top, min "+unit, ">max", ">bottom, min "+unit, ">max")...)
	for i, at := range stations {
		g.rows[i] = append(g.rows[i], row(format.text(at.TopLeast), format.text(at.TopMost), format.text(at.BottomLeast), format.text(at.BottomMost))...)
	}
}
