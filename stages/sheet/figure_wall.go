package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// wallPlaces are the places of wall sections, each once, in the order of their numbers:
// checks at several x and ages have the same.
func (a *author) wallPlaces() []derive.Wall {
	var places []derive.Wall
	for _, f := range a.record.Flows {
		if f.From != f.To && !slices.ContainsFunc(places, func(w derive.Wall) bool { return sameWall(w, f.Wall) }) {
			places = append(places, f.Wall)
		}
	}
	return places
}

// sameWall is true for cuts through the same points.
func sameWall(w, v derive.Wall) bool { return w.From == v.From && w.To == v.To }

// wallMark names the place of wall section n, counted from 1, as the section figure does:
// WS1; it is empty where the record does not say where it is.
func (a *author) wallMark(n int) string {
	if n < 1 || n > len(a.record.Flows) {
		return ""
	}
	i := slices.IndexFunc(a.wallPlaces(), func(w derive.Wall) bool { return sameWall(w, a.record.Flows[n-1].Wall) })
	if i < 0 {
		return ""
	}
	return fmt.Sprintf("WS%d", i+1)
}

// wallOf is the mark of the wall section of a check, by its table of shear stresses.
func (a *author) wallOf(c stages.Check) string {
	for _, n := range c.Tables {
		if t := a.record.Tables[n-1]; t.By == derive.Shearing {
			return a.wallMark(t.Rows[0].On)
		}
	}
	return ""
}

// markedWall is a wall section in the figure.
type markedWall struct {
	from, to vg.Point
	mark     string
}

func (w markedWall) middle() vg.Point { return at((w.from.X+w.to.X)/2, (w.from.Y+w.to.Y)/2) }

// wallSections are those that cut this outline from face to face, the top one first.
func (a *author) wallSections(f frame, d stages.Drawing) []markedWall {
	var list []markedWall
	for i, w := range a.wallPlaces() {
		if onFace(d, w.From) && onFace(d, w.To) {
			list = append(list, markedWall{f.at(w.From), f.at(w.To), fmt.Sprintf("WS%d", i+1)})
		}
	}
	slices.SortStableFunc(list, func(v, w markedWall) int { return cmp.Compare(w.middle().Y, v.middle().Y) })
	return list
}

// onFace is true for a point on an outline, to twice the millimetre to which it is written.
func onFace(d stages.Drawing, p section.Point) bool {
	const near = 2e-3
	for _, o := range slices.Concat(d.Solids, d.Voids) {
		for i, from := range o {
			to := o[(i+1)%len(o)]
			y, z := to.Y-from.Y, to.Z-from.Z
			t := math.Max(0, math.Min(1, ((p.Y-from.Y)*y+(p.Z-from.Z)*z)/math.Max(1e-12, y*y+z*z)))
			if math.Hypot(from.Y+t*y-p.Y, from.Z+t*z-p.Z) <= near {
				return true
			}
		}
	}
	return false
}

// wallSections draws lines across the walls and writes their marks, those of lines near
// each other together.
func (k *sketch) wallSections(list []markedWall) {
	const near = 9
	for _, w := range list {
		k.line(dotted, w.from, w.to)
	}
	for len(list) > 0 {
		var marks []string
		var rest []markedWall
		last := list[0]
		for _, w := range list {
			m, before := w.middle(), last.middle()
			if math.Hypot(float64(m.X-before.X), float64(m.Y-before.Y)) < near {
				marks, last = append(marks, w.mark), w
			} else {
				rest = append(rest, w)
			}
		}
		first := list[0].middle()
		k.label(at((first.X+last.middle().X)/2, (first.Y+last.middle().Y)/2), strings.Join(marks, ", "))
		list = rest
	}
}
