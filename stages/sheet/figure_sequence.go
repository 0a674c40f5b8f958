package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// Sizes of the picture of the sequence, in points.
const (
	panelGap    = 14 * vg.Length(1) // between panels beside each other
	panelSide   = 6 * vg.Length(1)  // beside the element, for what is at its ends
	panelAbove  = 16 * vg.Length(1) // lift lines
	panelBelow  = 13 * vg.Length(1) // supports
	panelRow    = 9 * vg.Length(1)  // a row of words
	panelInARow = 3                 // of up to nine; of more, five
	panelLift   = 14 * vg.Length(1) // tip of a lift line over the top
)

// panel is the picture of one situation in the sequence.
type panel struct {
	*sketch
	author      *author
	situation   stages.SituationRecord
	rows        []string
	left, up    vg.Length // of the left end at the lowest level
	along, deep vg.Length
	low, high   float64
}

// sequenceFigure is one picture of all situations in order: number, name and age, the elements
// that are carried, where they rest or hang, and the tendons, those stressed so far bold.
// It says no where there are fewer than two.
func (a *author) sequenceFigure() (figure, bool) {
	panels := a.panels()
	if len(panels) < 2 {
		return figure{}, false
	}
	inARow := panelInARow
	if len(panels) > 9 {
		inARow = 5
	}
	low, high := a.levels()
	width := (pageWidth - panelGap*vg.Length(inARow-1)) / vg.Length(inARow)
	along := (width - 2*panelSide) / vg.Length(math.Max(a.record.Length, 1e-3))
	depth := max(9, min(26, along*vg.Length(high-low)))
	rows := 1
	for i := range panels {
		panels[i].rows = inRows(panels[i].rows[0], width, 4)
		rows = max(rows, len(panels[i].rows))
	}
	each := panelRow*vg.Length(rows) + panelAbove + depth + panelBelow
	k := newSketch(pageWidth, each*vg.Length((len(panels)+inARow-1)/inARow))
	for i := range panels {
		p := &panels[i]
		p.sketch, p.low, p.high, p.along, p.deep = k, low, high, along, depth/vg.Length(high-low)
		corner := at(vg.Length(i%inARow)*(width+panelGap), k.Max.Y-each*vg.Length(i/inARow))
		p.left, p.up = corner.X+panelSide, corner.Y-each+panelBelow
		for r, words := range p.rows {
			k.write(at(corner.X, corner.Y-panelRow*(vg.Length(r)+0.5)), words, text.XLeft, text.YCenter)
		}
		p.draw()
	}
	scale := "length and depth to the same scale"
	if math.Abs(float64(depth/(along*vg.Length(high-low)))-1) > 1e-6 {
		scale = "depth not to scale"
	}
	caption := "Sequence of all stages, " + scale + "."
	if len(a.record.Tendons) > 0 {
		caption += " Tendons: bold stressed, thin not yet stressed."
	}
	if slices.ContainsFunc(panels, func(p panel) bool { return slices.Contains(a.carried(p.situation), false) }) {
		caption += " Dashed: not yet erected."
	}
	return a.described(figure{name: "sequence", wide: true, svg: k.done(), caption: caption}), true
}

func (a *author) panels() []panel {
	var list []panel
	for _, stage := range a.record.Stages {
		for i, s := range stage.Situations {
			if !inFull(stage, i) {
				continue
			}
			words := fmt.Sprintf("%s %s, age %s d", numbered(stage, i), s.Name, days(s.Age, math.Round))
			list = append(list, panel{author: a, situation: s, rows: []string{words}})
		}
	}
	return list
}

// inRows breaks words into rows of a width; what a last row cannot hold is cut, with dots.
func inRows(words string, width vg.Length, most int) []string {
	style := lettering(text.XLeft, text.YCenter)
	var rows []string
	row, fields := "", strings.Fields(words)
	for i, word := range fields {
		switch longer := strings.TrimSpace(row + " " + word); {
		case style.Width(longer) <= width:
			row = longer
		case len(rows) == most-1:
			return append(rows, fitted(style, strings.TrimSpace(row+" "+strings.Join(fields[i:], " ")), width))
		default:
			if row != "" {
				rows = append(rows, fitted(style, row, width))
			}
			row = word
		}
	}
	return append(rows, fitted(style, row, width))
}

func (p *panel) at(x, z float64) vg.Point {
	return at(p.left+vg.Length(x)*p.along, p.up+vg.Length(z-p.low)*p.deep)
}

func (p *panel) draw() {
	for _, part := range p.author.stretches(p.author.carried(p.situation)) {
		outline := p.author.around(part.from, part.to, func(x float64, q section.Point) vg.Point { return p.at(x, q.Z) })
		if len(outline) == 0 {
			outline = []vg.Point{p.at(part.from, p.low), p.at(part.to, p.low), p.at(part.to, p.high), p.at(part.from, p.high), p.at(part.from, p.low)}
		}
		if !part.there {
			p.line(absent, outline...)
			continue
		}
		p.fill(pale, outline[:len(outline)-1])
		p.line(thin, outline...)
	}
	for _, t := range p.author.record.Tendons {
		pen := hairline
		if slices.ContainsFunc(p.situation.Tendons, func(f stages.TendonForce) bool { return f.Mark == t.Mark }) {
			pen = medium
		}
		var points []vg.Point
		for _, q := range t.Points {
			points = append(points, p.at(q.X, q.Z))
		}
		p.line(pen, points...)
	}
	for _, place := range placesOf(p.situation.Reactions) {
		r := p.situation.Reactions[place[0]]
		p.support(p.at(r.X, r.Z), r.Role, hookOf(p.situation, place[0], p.along, p.deep), p.at(0, p.high).Y+panelLift)
	}
}
