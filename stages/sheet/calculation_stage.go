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

func (a *author) stage(s stages.StageRecord) []block {
	blocks := []block{heading{level: 2, words: words(fmt.Sprintf("Stage %d: %s, age %s d", s.Number, s.Name, days(s.Age, math.Round)))}}
	for i := range s.Situations {
		if len(s.Situations) > 1 {
			blocks = append(blocks, heading{level: 3, words: words(numbered(s, i) + " " + s.Situations[i].Name)})
		}
		blocks = append(blocks, a.situation(s, i)...)
	}
	return blocks
}

func (a *author) situation(stage stages.StageRecord, i int) []block {
	s := stage.Situations[i]
	a.known = maps.Clone(a.inputsKnown)
	until := ""
	if s.Until > s.Age {
		until = fmt.Sprintf(" to %s d", days(s.Until, math.Round))
	}
	blocks := []block{paragraph{words(fmt.Sprintf("Age %s d%s (project day %s), %s, %s.", days(s.Age, math.Round), until, days(s.Day, math.Round), kindOf(s), a.system(s)))}}
	blocks = append(blocks, a.unanswered(s)...)
	number := numbered(stage, i)
	if elevation := a.elevation(stage, i); i == 0 || !a.repeats("elevation", elevation.svg, number) {
		a.printed["elevation"] = repeated{elevation.svg, number}
		blocks = append(blocks, drawings{[]figure{elevation}})
	}
	blocks = append(blocks, a.reactions(s)...)
	blocks = append(blocks, a.state(stage, i))
	blocks = append(blocks, a.diagrams(stage, i)...)
	blocks = append(blocks, a.unless("internal forces and stresses", number, a.stations(stages.StationsOf(s.Stations)))...)
	blocks = append(blocks, a.samePoints()...)
	return append(blocks, a.checks(stage, i)...)
}

// state is what holds in a situation before anything is checked: on the left what
// is given, on the right tendon forces and their losses.
func (a *author) state(stage stages.StageRecord, i int) block {
	s, number := stage.Situations[i], numbered(stage, i)
	left := a.given(s, number)
	forces := a.unless("tendon forces", number, a.tendonForces(s))
	right := append(forces, a.unless("losses", number, a.losses(s))...)
	if chart, ok := a.forceFigure(stage, i); ok && len(forces) > 0 {
		right = append(right, drawings{[]figure{chart}})
	}
	return beside{columns: [][]block{left, right}, long: true}
}

// given are operations on tendons, strength and loads.
func (a *author) given(s stages.SituationRecord, number string) []block {
	var blocks []block
	for _, event := range s.Events {
		blocks = append(blocks, heading{level: 4, words: words("Operation: " + a.units.words(event.Title))})
		if lines := a.lines(a.linesOf(event.Lines)); len(lines) > 0 {
			blocks = append(blocks, calculation{lines: lines})
		}
	}
	strength := []block{heading{level: 4, words: words("Strength from: " + a.units.words(s.Basis))}, calculation{lines: a.lines(a.linesOf(s.Concrete)), running: true}}
	blocks = append(blocks, a.unless("strength", number, strength)...)
	factors := "weight tolerance × " + rangeOf(s.Weight) + ", dynamic × " + rangeOf(s.Dynamic) + "."
	blocks = append(blocks, calculation{lines: []prose{bold("Factors: ").and(plain, factors)}})
	if len(s.Loads) > 0 {
		blocks = append(blocks, calculation{lines: []prose{bold("Actions beside self-weight: ").and(plain, a.loadsWords(s)+".")}})
	}
	return blocks
}

// reactions are those of each support in their three ranges.
func (a *author) reactions(s stages.SituationRecord) []block {
	var all []float64
	for _, r := range s.Reactions {
		all = append(all, r.Nominal, r.Characteristic.Most, r.Ultimate.Most)
	}
	force, x := a.units.aligned(formula.Newton, all...), a.units.aligned(formula.Metre)
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	g := grid{
		caption: words("Reactions " + unit + ": static at rest, characteristic with dynamic factors, ULS with partial factors; share of the total at rest"),
		columns: columnsOf("Support", ">x "+length, ">y "+length, ">nominal", ">static min", ">max", ">share %", ">char. min", ">max", ">ULS min", ">max"),
	}
	for i, r := range s.Reactions {
		g.rows = append(g.rows, row(supportName(i, r), x.text(r.X), x.text(r.Y), force.text(r.Nominal), force.text(r.Static.Least), force.text(r.Static.Most), shareOf(r),
			force.text(r.Characteristic.Least), force.text(r.Characteristic.Most), force.text(r.Ultimate.Least), force.text(r.Ultimate.Most)))
	}
	return append([]block{g}, a.slings(s.Reactions)...)
}

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

func (a *author) stations(stations []stages.Station) []block {
	if len(stations) == 0 {
		return nil
	}
	length := a.units.in(formula.Metre).unit
	g := grid{columns: columnsOf(">x " + length)}
	x := a.units.aligned(formula.Metre)
	for _, at := range stations {
		g.rows = append(g.rows, row(x.text(at.X)))
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
	caption := "Internal forces and stresses: nominal self-weight (w), mean prestress (p), stresses over all service factors, tension +"
	if len(zero) > 0 {
		caption += "; zero throughout: " + strings.Join(zero, "; ")
	}
	g.caption = words(caption)
	return []block{g}
}

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
