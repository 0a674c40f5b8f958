package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// item is the falsework as equipment: its limits, and the forces of its rows and of the lines
// of bearings in a situation.
func (f FalseworkRows) item(e Effects, l lowering, first bool) EquipmentItem {
	item := EquipmentItem{Mark: f.Mark, Kind: Towers, Facts: []Fact{
		{Name: "document", Text: f.Document}, {Name: "limit of a bearing", Value: f.Bearing, Unit: formula.Newton, Sense: limits.AtMost},
	}}
	if first {
		item.Positions = []EquipmentPosition{f.limits()}
	}
	step := EquipmentPosition{Name: e.Situation.Name}
	for i, r := range f.Rows {
		fact := Fact{Name: r.Mark}
		switch sum := total(e, f.towers(i, e)); {
		case math.IsNaN(l[i]):
			fact.Text = "away"
		case sum < withoutForce:
			fact.Text = "none"
		default:
			fact.Value, fact.Unit = sum, formula.Newton
		}
		step.Facts = append(step.Facts, fact)
	}
	for line, x := range f.bearingLines() {
		step.Facts = append(step.Facts, Fact{Name: f.bearingsAt(line), Value: total(e, f.line(x, e)), Unit: formula.Newton})
	}
	item.Positions = append(item.Positions, step)
	for i, r := range f.Rows {
		if !math.IsNaN(l[i]) {
			item.Outline = append(item.Outline, r.outline()...)
		}
	}
	return item
}

// limits is the first row of the table of forces: the working load limit of the towers of
// each row, and of each line of bearings, together.
func (f FalseworkRows) limits() EquipmentPosition {
	p := EquipmentPosition{Name: "limit"}
	for _, r := range f.Rows {
		p.Facts = append(p.Facts, Fact{Name: r.Mark, Value: float64(len(r.Y)) * r.Capacity, Unit: formula.Newton, Sense: limits.AtMost})
	}
	for line, x := range f.bearingLines() {
		n := 0
		for _, b := range f.Bearings {
			if math.Abs(b.X-x) < rowApart {
				n++
			}
		}
		p.Facts = append(p.Facts, Fact{Name: f.bearingsAt(line), Value: float64(n) * f.Bearing, Unit: formula.Newton, Sense: limits.AtMost})
	}
	return p
}

// bearingsAt names a line of bearings, counted along the span.
func (f FalseworkRows) bearingsAt(line int) string { return fmt.Sprintf("B%d", line+1) }

// line are the reactions of a line of bearings.
func (f FalseworkRows) line(x float64, e Effects) (list []int) {
	for i, r := range e.Reactions {
		if r.Role != Falsework && math.Abs(r.X-x) < rowApart {
			list = append(list, i)
		}
	}
	return list
}

// outline is a row in elevation, as drawn.
func (r FalseworkRow) outline() [][][2]float64 {
	const half, high = 0.5, 2.5 // m
	return [][][2]float64{
		{{r.X - half, -high}, {r.X - half, -0.3}, {r.X + half, -0.3}, {r.X + half, -high}}, {{r.X - half, -high}, {r.X + half, -0.3}}, {{r.X - half, -0.3}, {r.X + half, -high}},
	}
}

// figure is the nominal force of each row and line of bearings along the span.
func (f FalseworkRows) figure(e Effects) Figure {
	fig := Figure{Title: "forces of falsework rows and bearings, nominal: " + e.Situation.Name, XUnit: "m", YUnit: "kN"}
	draw := func(name string, x, force float64) {
		fig.Lines = append(fig.Lines, Polyline{Name: name, Points: [][2]float64{{x, 0}, {x, force / 1e3}}})
		fig.Texts = append(fig.Texts, Text{At: [2]float64{x, force / 1e3}, Text: fmt.Sprintf("%.0f", force/1e3)})
	}
	for i, r := range f.Rows {
		if of := f.towers(i, e); len(of) > 0 {
			draw("rows", r.X, total(e, of))
		}
	}
	for _, x := range f.bearingLines() {
		draw("bearings", x, total(e, f.line(x, e)))
	}
	return fig
}
