package sheet

import (
	"math"
	"strings"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

func (a *author) tendonForces(s stages.SituationRecord) []block {
	if len(s.Tendons) == 0 {
		return nil
	}
	var all []float64
	for _, t := range s.Tendons {
		all = append(all, t.Left, t.Middle, t.Right)
	}
	force, unit := a.units.aligned(formula.Newton, all...), a.units.in(formula.Newton).unit
	g := grid{caption: words("Tendon forces at this stage"), columns: columnsOf("Tendon", ">Left "+unit, ">Middle "+unit, ">Right "+unit, "")}
	for _, alike := range alikeTendons(s.Tendons) {
		t := alike[0]
		bond := "not bonded"
		if t.Bonded {
			bond = "bonded"
		}
		if t.Given != "" {
			bond += "; force given by " + t.Given // quoted as it stands
		}
		g.rows = append(g.rows, row(marksOf(alike), force.text(t.Left), force.text(t.Middle), force.text(t.Right), bond))
	}
	return []block{g}
}

// loss is a part of what a tendon has lost.
type loss struct {
	title string
	value func(tendon.Losses) float64
}

var losses = []loss{
	{"friction", func(l tendon.Losses) float64 { return l.Friction }},
	{"draw-in", func(l tendon.Losses) float64 { return l.DrawIn }},
	{"elastic", func(l tendon.Losses) float64 { return l.Elastic }},
	{"shrinkage", func(l tendon.Losses) float64 { return l.Shrinkage }},
	{"creep", func(l tendon.Losses) float64 { return l.Creep }},
	{"relaxation", func(l tendon.Losses) float64 { return l.Relaxation }},
}

// losses are the parts of what the tendons have lost; parts that none has are
// left out.
func (a *author) losses(s stages.SituationRecord) []block {
	groups := alikeTendons(s.Tendons)
	g := grid{caption: words("Losses at mid-length from jacking force, " + a.units.in(formula.Pascal).unit), columns: columnsOf("Tendon")}
	for _, alike := range groups {
		g.rows = append(g.rows, row(marksOf(alike)))
	}
	for _, part := range losses {
		values := make([]float64, len(groups))
		for i, alike := range groups {
			values[i] = part.value(alike[0].Losses)
		}
		a.addColumn(&g, part.title, formula.Pascal, values, 0)
	}
	if len(g.columns) == 1 {
		return nil
	}
	return []block{g}
}

// alikeTendons groups tendons whose forces, bond and losses are the same.
func alikeTendons(tendons []stages.TendonForce) [][]stages.TendonForce {
	var groups [][]stages.TendonForce
next:
	for _, t := range tendons {
		for i, g := range groups {
			if alike(t.Left, g[0].Left) && alike(t.Middle, g[0].Middle) && alike(t.Right, g[0].Right) && t.Bonded == g[0].Bonded && t.Given == g[0].Given && alikeLosses(t.Losses, g[0].Losses) {
				groups[i] = append(groups[i], t)
				continue next
			}
		}
		groups = append(groups, []stages.TendonForce{t})
	}
	return groups
}

// alikeLosses is true for losses that are the same part by part.
func alikeLosses(l, other tendon.Losses) bool {
	for _, part := range losses {
		if !alike(part.value(l), part.value(other)) {
			return false
		}
	}
	return true
}

// alike is true for numbers that no sheet prints apart: 1e-9 is above the rounding
// of the computation and below the last printed figure.
func alike(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b))
}

func marksOf(tendons []stages.TendonForce) string {
	marks := make([]string, len(tendons))
	for i, t := range tendons {
		marks[i] = t.Mark
	}
	return strings.Join(marks, ", ")
}
