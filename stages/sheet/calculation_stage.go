package sheet

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

func (a *author) stage(s stages.StageRecord) []block {
	blocks := []block{heading{level: 2, words: words(fmt.Sprintf("Stage %d: %s, age %s d", s.Number, s.Name, number(s.Age)))}}
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
	a.passage.forget()
	until := ""
	if s.Until > s.Age {
		until = fmt.Sprintf(" to %s d", number(s.Until))
	}
	kind := "passing, weight not locked in"
	if s.Standing {
		kind = "standing, weight locked in"
	}
	blocks := []block{paragraph{words(fmt.Sprintf("Age %s d%s (project day %s), %s, %s.", number(s.Age), until, number(s.Day), kind, a.units.words(onWords(s))))}}
	blocks = append(blocks, a.unanswered(s)...)
	number := numbered(stage, i)
	if elevation := a.elevation(stage, i); i == 0 || !a.repeats("elevation", elevation.svg, number) {
		a.printed["elevation"] = repeated{elevation.svg, number}
		blocks = append(blocks, drawings{[]figure{elevation}})
	}
	blocks = append(blocks, a.state(stage, i))
	blocks = append(blocks, a.diagrams(stage, i)...)
	blocks = append(blocks, a.unless("effects and stresses", number, a.stations(s))...)
	blocks = append(blocks, a.samePoints()...)
	return append(blocks, a.checks(s)...)
}

// state is what holds in a situation before anything is checked: on the left what
// is given, on the right reactions and tendon forces. The figure of the tendon
// forces stands where there is less.
func (a *author) state(stage stages.StageRecord, i int) block {
	s, number := stage.Situations[i], numbered(stage, i)
	left, right := a.given(s, number), a.reactions(s)
	room := len(left) < 4
	forces := a.unless("tendon forces", number, a.tendonForces(s))
	left = append(left, a.unless("losses", number, a.losses(s))...)
	right = append(right, forces...)
	if chart, ok := a.forceFigure(stage, i); ok && len(forces) > 0 {
		if room {
			left = append(left, drawings{[]figure{chart}})
		} else {
			right = append(right, drawings{[]figure{chart}})
		}
	}
	return beside{columns: [][]block{left, right}, long: true}
}

// given are events, strength and factors.
func (a *author) given(s stages.SituationRecord, number string) []block {
	var blocks []block
	for _, event := range s.Events {
		blocks = append(blocks, heading{level: 4, words: words("Event: " + a.units.words(event.Title))})
		if lines := a.passage.lines(event.Lines); len(lines) > 0 {
			blocks = append(blocks, calculation{lines: lines})
		}
	}
	strength := []block{heading{level: 4, words: words("Strength from: " + a.units.words(s.Basis))}, calculation{lines: a.passage.lines(s.Concrete), running: true}}
	blocks = append(blocks, a.unless("strength", number, strength)...)
	a.passage.know(s.Concrete)
	if lines := a.passage.lines(s.Factors); len(lines) > 0 {
		blocks = append(blocks, heading{level: 4, words: words("Factors and loads")}, calculation{lines: lines, running: true})
	}
	if len(s.Loads) > 0 {
		blocks = append(blocks, paragraph{bold("Other loads: ").and(plain, a.otherLoadsWords(s)+".")})
	}
	return blocks
}

func (a *author) reactions(s stages.SituationRecord) []block {
	var all []float64
	for _, r := range s.Reactions {
		all = append(all, r.AtFactorOne, r.Least, r.Most)
	}
	force, x := a.units.aligned(formula.Newton, all...), a.units.aligned(formula.Metre)
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	g := grid{
		caption: "Reactions, least and most over weight tolerance, dynamic factors and other loads",
		columns: columnsOf(supportHead(s), ">x "+length, ">y "+length, ">Weight × 1 "+unit, ">Least "+unit, ">Most "+unit),
	}
	for i, r := range s.Reactions {
		g.rows = append(g.rows, row(fmt.Sprint(i+1)+groupWords(s, r), x.text(r.X), x.text(r.Y), force.text(r.AtFactorOne), force.text(r.Least), force.text(r.Most)))
	}
	return []block{g}
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
	{"Mz,p", formula.NewtonMetre, func(s stages.Station) float64 { return s.Prestress.Mz }},
}

func (a *author) stations(s stages.SituationRecord) []block {
	if len(s.Stations) == 0 {
		return nil
	}
	length := a.units.in(formula.Metre).unit
	g := grid{columns: columnsOf(">x " + length)}
	x := a.units.aligned(formula.Metre)
	for _, at := range s.Stations {
		g.rows = append(g.rows, row(x.text(at.X)))
	}
	var zero []string
	for _, e := range effects {
		if !a.effectColumn(&g, e, s.Stations) {
			zero = append(zero, e.title)
		}
	}
	a.stressColumns(&g, s.Stations)
	g.caption = "Effects and stresses: weight × 1 (w), mean prestress (p), stresses over all service factors, C compression, T tension"
	if len(zero) > 0 {
		g.caption += "; zero throughout: " + strings.Join(zero, "; ")
	}
	return []block{g}
}

// negligible is a force in N or a moment in N·m that is rounding of the
// computation: effects of an element are many orders larger.
const negligible = 1e-3

// effectColumn adds a column; it says no where all its values are zero.
func (a *author) effectColumn(g *grid, e effect, stations []stages.Station) bool {
	values := make([]float64, len(stations))
	zero := true
	for i, at := range stations {
		values[i] = e.value(at)
		zero = zero && math.Abs(values[i]) <= negligible
	}
	if zero {
		return false
	}
	g.columns = append(g.columns, column{title: a.units.head(e.title, e.unit), right: true})
	format := a.units.aligned(e.unit, values...)
	for i, v := range values {
		g.rows[i] = append(g.rows[i], row(format.text(v))...)
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
	g.columns = append(g.columns, columnsOf(">top, least "+unit, ">most", ">bottom, least "+unit, ">most")...)
	for i, at := range stations {
		if !at.Evaluated {
			g.rows[i] = append(g.rows[i], row("not", "evaluated", "not", "evaluated")...)
			continue
		}
		g.rows[i] = append(g.rows[i], row(format.stress(at.TopLeast), format.stress(at.TopMost), format.stress(at.BottomLeast), format.stress(at.BottomMost))...)
	}
}
