package stages

import (
	"math"
	"reflect"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Drawing is the section at one place: its outlines and walls.
type Drawing struct {
	X        float64           `json:"x"`               // m
	Solids   []section.Outline `json:"solids"`          // outlines of concrete, m
	Voids    []section.Outline `json:"voids"`           // outlines of voids, m
	Centroid section.Point     `json:"centroid"`        // of the gross section, m
	Walls    []Wall            `json:"walls,omitempty"` // where they begin, are thinnest or are cut
}

// drawings are the outlines of a member that begins at x = at: at its left end, wherever its
// section changes, and at its right end unless the section goes on: in a member that is after
// it, or of none in itself.
func drawings(at, length float64, along section.Along, after []section.Shape) []Drawing {
	var list []Drawing
	last := along.At(0)
	for _, x := range append([]float64{0}, along.Breaks()...) {
		if x >= 0 && x < length {
			last = along.At(x)
			list = append(list, drawing(at+x, last))
		}
	}
	end := along.At(length)
	if len(after) == 0 {
		after = []section.Shape{last}
	}
	if !slices.ContainsFunc(after, func(s section.Shape) bool { return sameOutlines(s, end) }) {
		list = append(list, drawing(at+length, end))
	}
	return list
}

// after are the sections with which pieces begin where a piece ends.
func (g Girder) after(p Piece) (list []section.Shape) {
	for _, q := range g.Pieces {
		if math.Abs(q.At-p.To()) <= g.near() {
			list = append(list, q.Element.Section.At(0))
		}
	}
	return list
}

// sameOutlines is true for two sections with the same corners.
func sameOutlines(a, b section.Shape) bool {
	return reflect.DeepEqual(a.Solids(), b.Solids()) && reflect.DeepEqual(a.Voids(), b.Voids())
}

// Wall is a cut across a wall of the section.
type Wall struct {
	From      section.Point `json:"from"` // on one face, m
	To        section.Point `json:"to"`   // on the other face, m
	Thickness float64       `json:"t"`    // between the faces, m
}

// drawing is the section at x with its walls where they are thinnest or begin.
func drawing(x float64, shape section.Shape) Drawing {
	d := Drawing{X: x, Solids: shape.Solids(), Voids: shape.Voids(), Centroid: shape.Properties().Centroid}
	walls, err := shape.Walls()
	if err != nil {
		return d // a section without walls: the checks of walls say so
	}
	for _, c := range walls.Cuts {
		d.Walls = append(d.Walls, Wall{From: c.From, To: c.To, Thickness: c.Thickness()})
	}
	return d
}
