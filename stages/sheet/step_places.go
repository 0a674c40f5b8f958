package sheet

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// stepPlaces are sketches of the end faces of a step with the anchors that are jacked there, and
// what is said of them; one where both faces have their anchors at the same places.
func (a *author) stepPlaces(s stages.SituationRecord) (figures []block, words string) {
	left, from := a.jackedAnchors(s, false)
	right, to := a.jackedAnchors(s, true)
	same := func(p, q anchored) bool {
		const near = 1e-3 // m: nobody sees less
		return math.Abs(p.at.Y-q.at.Y) < near && math.Abs(p.at.Z-q.at.Z) < near
	}
	alike := slices.EqualFunc(left, right, same)
	add := func(list []anchored, name string, x float64) {
		if svg := a.placesSVG(list, "jacked at "+name+", looking along +x", x); svg != "" {
			figures = append(figures, drawings{[]figure{a.described(figure{name: "anchors", wide: true, caption: "Anchors jacked at " + name + ", seen looking along +x.", svg: svg})}})
		}
	}
	add(left, "smaller x", from)
	if !alike {
		add(right, "greater x", to)
	}
	switch {
	case len(figures) == 0:
		return nil, ""
	case alike:
		return figures, " The anchors jacked at greater x are at the same places, in the order of the readings. Seen from outside, they are mirrored."
	}
	return figures, " Seen from outside, the sketch at greater x is mirrored."
}

// jackedAnchors are the anchors that are jacked at one end, and x of the first.
func (a *author) jackedAnchors(s stages.SituationRecord, last bool) (list []anchored, x float64) {
	for _, p := range s.Stressing {
		points := a.tendonOf(p.Mark).Points
		if len(points) == 0 || last && !jackedRight(p) || !last && !jackedLeft(p) {
			continue
		}
		at := points[0]
		if last {
			at = points[len(points)-1]
		}
		if len(list) == 0 {
			x = at.X
		}
		list = append(list, anchored{p.Mark, section.Point{Y: at.Y, Z: at.Z}, true})
	}
	return list, x
}
