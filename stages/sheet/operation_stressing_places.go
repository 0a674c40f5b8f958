package sheet

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// Sizes of the sketch of the anchors: its width, printed as it is, and how many marks it has
// room for.
const (
	placesWidth = 198 * vg.Length(1) // 70 mm in points
	mostPlaces  = 24
)

// anchored is a tendon at one of its anchors.
type anchored struct {
	mark string
	at   section.Point
	now  bool // stressed on this sheet
}

// anchorPlaces are sketches of the end faces with the anchors of the tendons of a stage, so
// that the crew finds each by its mark: one where both ends look alike. None where the
// record has no places, or too many of them.
func (a *author) anchorPlaces(stage stages.StageRecord) []block {
	left, right := a.anchorsAt(stage, 0), a.anchorsAt(stage, -1)
	var figures []block
	add := func(list []anchored, at string, x float64) {
		if svg := a.placesSVG(list, "anchors at "+at+", looking along +x", x); svg != "" {
			figures = append(figures, drawings{[]figure{a.described(figure{name: "anchors", wide: true, caption: "Anchors at " + at + ", seen looking along +x: ● stressed on this sheet, ○ not.", svg: svg})}})
		}
	}
	at := a.endsOf(stages.SituationRecord{Stressing: slices.Concat(throughout(stage)...)})
	if slices.EqualFunc(left, right, sameAnchor) {
		add(left, at.left+" and "+at.right, 0)
		return figures
	}
	add(left, at.left, 0)
	add(right, at.right, a.record.Length)
	return figures
}

// sameAnchor is true for anchors at the same place of both end faces.
func sameAnchor(p, q anchored) bool {
	const near = 1e-3 // m: nobody sees less
	return p.mark == q.mark && p.now == q.now && math.Abs(p.at.Y-q.at.Y) < near && math.Abs(p.at.Z-q.at.Z) < near
}

// anchorsAt are the anchors of the first or, with −1, the last point of the tendons' paths;
// tendons that are not stressed on this sheet only where there is room for them.
func (a *author) anchorsAt(stage stages.StageRecord, end int) []anchored {
	now := map[string]bool{}
	for _, s := range stage.Situations {
		for _, p := range s.Stressing {
			now[p.Mark] = true
		}
	}
	var list []anchored
	for _, t := range a.record.Tendons {
		if len(t.Points) == 0 || t.Pretensioned || !now[t.Mark] && len(a.record.Tendons) > mostPlaces {
			continue
		}
		p := t.Points[0]
		if end < 0 {
			p = t.Points[len(t.Points)-1]
		}
		list = append(list, anchored{t.Mark, section.Point{Y: p.Y, Z: p.Z}, now[t.Mark]})
	}
	return list
}

// placesSVG draws the section nearest to x with anchors and their marks; "" where there is
// nothing to draw, or no room for it.
func (a *author) placesSVG(list []anchored, title string, x float64) string {
	if len(list) == 0 || len(list) > mostPlaces || len(a.record.Outlines) == 0 {
		return ""
	}
	d := a.record.Outlines[0]
	for _, other := range a.record.Outlines {
		if math.Abs(other.X-x) < math.Abs(d.X-x) {
			d = other
		}
	}
	least, most, ok := extent(d)
	if !ok {
		return ""
	}
	const side, below, above, tallest, smallest = 6, 3, 9, 66, 24
	wide, deep := vg.Length(most.Y-least.Y), vg.Length(most.Z-least.Z)
	scale := min((placesWidth-2*side)/wide, tallest/deep)
	k := newSketch(placesWidth, max(deep*scale, smallest)+below+above)
	f := frame{scale: scale, y0: most.Y, z0: least.Z, left: (placesWidth - wide*scale) / 2, up: below}
	for _, o := range d.Solids {
		k.fill(pale, f.path(o))
	}
	for _, o := range d.Voids {
		k.fill(white, f.path(o))
	}
	for _, o := range append(slices.Clone(d.Solids), d.Voids...) {
		path := f.path(o)
		k.StrokeLines(thin, append(path, path[0]))
	}
	k.write(at(0, k.Max.Y-1), title, text.XLeft, text.YTop)
	if slices.ContainsFunc(list, func(p anchored) bool { return !p.now }) {
		k.write(at(0, below), "○ not on this sheet", text.XLeft, text.YBottom)
	}
	for _, p := range list {
		k.ring(f.at(p.at), p.now)
	}
	slices.SortStableFunc(list, func(p, q anchored) int { return strings.Compare(p.mark, q.mark) })
	for _, p := range list {
		k.label(f.at(p.at), p.mark)
	}
	return k.done()
}
