package sheet

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// drawn are the drawings: the sequence of all stages, then the section with the numbers
// that it is drawn by.
func (a *author) drawn() []block {
	blocks := []block{heading{level: 2, words: words("Drawings")}}
	if f, ok := a.sequenceFigure(); ok {
		blocks = append(blocks, drawings{[]figure{f}})
	}
	blocks = append(blocks, a.sectionFigures()...)
	if a.brief() && len(a.record.Outlines) > mostSections {
		return append(blocks, a.outlinesTable()...)
	}
	for i, d := range a.record.Outlines {
		if slices.ContainsFunc(a.record.Outlines[:i], func(other stages.Drawing) bool { return sameSection(d, other) }) {
			continue
		}
		where := ""
		if len(a.record.Outlines) > 1 {
			where = " at x = " + a.units.place(d.X)
		}
		blocks = append(blocks, beside{columns: [][]block{a.corners(d, where), a.walls(d, where)}})
	}
	if len(blocks) == 1 {
		return nil
	}
	return blocks
}

// sameSection is true for the same outlines at two places.
func sameSection(d, other stages.Drawing) bool {
	d.X, d.Walls = other.X, other.Walls
	return reflect.DeepEqual(d, other)
}

// corners are the coordinates of an outline, its corners numbered as in the figure: those
// of solids first, then those of voids.
func (a *author) corners(d stages.Drawing, where string) []block {
	length := a.units.in(formula.Metre).unit
	g := grid{caption: words("Outline coordinates" + where + ", " + length + ": corners as numbered in ").with(a.sectionKey()), columns: columnsOf("Corner", ">y", ">z", "Corner", ">y", ">z")}
	x := a.units.aligned(formula.Metre)
	var cells [][]string
	add := func(kind string, outlines []section.Outline) {
		for _, o := range outlines {
			for _, p := range o {
				cells = append(cells, []string{fmt.Sprint(len(cells)+1) + kind, x.text(p.Y), x.text(p.Z)})
			}
		}
	}
	add("", d.Solids)
	add(" void", d.Voids)
	half := (len(cells) + 1) / 2
	for i := range half {
		line := slices.Clone(cells[i])
		if i+half < len(cells) {
			line = append(line, cells[i+half]...)
		} else {
			line = append(line, "", "", "")
		}
		g.rows = append(g.rows, row(line...))
	}
	if len(cells) == 0 {
		return nil
	}
	return []block{g}
}

// walls are the thicknesses of the walls, thinnest first: one row for cuts of the same
// thickness, each named by its mid point; cuts that mirror each other share theirs.
func (a *author) walls(d stages.Drawing, where string) []block {
	cuts := slices.Clone(d.Walls)
	slices.SortStableFunc(cuts, func(v, w stages.Wall) int { return int(math.Round((v.Thickness - w.Thickness) * 1e3)) })
	length := a.units.in(formula.Metre).unit
	g := grid{caption: words("Wall thicknesses" + where + ", " + length + ", at the mid points y, z of the wall sections"), columns: columnsOf(">Thickness", "Mid points")}
	x := a.units.aligned(formula.Metre)
	for len(cuts) > 0 {
		n := 1
		for n < len(cuts) && sameLength(cuts[n].Thickness, cuts[0].Thickness) {
			n++
		}
		g.rows = append(g.rows, row(x.text(cuts[0].Thickness), a.midPoints(cuts[:n])))
		cuts = cuts[n:]
	}
	if len(g.rows) == 0 {
		return nil
	}
	return []block{g}
}

// sameLength is true for lengths that are printed alike, to the millimetre.
func sameLength(v, w float64) bool { return math.Round(v*1e3) == math.Round(w*1e3) }

// midPoints are the mid points of cuts: those of two that mirror each other as ±y.
func (a *author) midPoints(cuts []stages.Wall) string {
	x := a.units.aligned(formula.Metre)
	type point struct {
		y, z  float64
		twice bool
	}
	var list []point
	for _, c := range cuts {
		y, z := (c.From.Y+c.To.Y)/2, (c.From.Z+c.To.Z)/2
		i := slices.IndexFunc(list, func(p point) bool { return !p.twice && sameLength(-p.y, y) && sameLength(p.z, z) && !sameLength(y, 0) })
		if i >= 0 {
			list[i].twice = true
			continue
		}
		list = append(list, point{y, z, false})
	}
	texts := make([]string, len(list))
	for i, p := range list {
		y := x.text(p.y)
		if p.twice {
			y = "±" + x.text(math.Abs(p.y))
		}
		texts[i] = y + ", " + x.text(p.z)
	}
	return strings.Join(texts, "; ")
}
