package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/stages"
)

// Type is what a segment is in the deck.
type Type string

// The types.
const (
	Typical  Type = ""             // erected at a tip
	OnPier   Type = "pier segment" // there before the first step
	Closure  Type = "closure"      // cast between two tips, or a tip and a part on falsework
	OnGround Type = "on falsework" // cast or set on falsework, on supports of its own
)

// Segment is one unit of a deck.
type Segment struct {
	Element  stages.Element // mark, length, outline along its own x from its left end, concrete, day of casting, diaphragms
	Type     Type
	Joint    stages.Joint // with the segment on its left; "": epoxied, of a closure and to the right of one poured
	Strength float64      // characteristic cylinder strength below which it is not lifted, Pa, 0 to 100e6; 0: not stated
	Keys     *Keys        // of its left joint; nil: those of the deck
}

// joint is the joint of segment i with the one on its left.
func (d Deck) joint(i int) stages.Joint {
	s := d.Segments[i]
	switch {
	case i == 0:
		return stages.Monolithic
	case s.Joint != "":
		return s.Joint
	case s.Type == Closure || d.Segments[i-1].Type == Closure:
		return stages.Poured
	}
	return stages.Epoxied
}

// jointName is the name of the joint left of segment i, from 1: the marks of the segments
// on both sides, as in the checks of stages.
func (d Deck) jointName(i int) string {
	return d.Segments[i-1].Element.Mark + "/" + d.Segments[i].Element.Mark
}

// at are the places of the left ends of all segments and of the right end of the deck (m).
func (d Deck) at() []float64 {
	list := make([]float64, len(d.Segments)+1)
	for i, s := range d.Segments {
		list[i+1] = list[i] + s.Element.Length
	}
	return list
}

// index is the number of a segment by its mark, from 0.
func (d Deck) index(mark string) (int, error) {
	for i, s := range d.Segments {
		if s.Element.Mark == mark {
			return i, nil
		}
	}
	return 0, fmt.Errorf("segment %q is not in deck %q: must be the mark of a segment", mark, d.Mark)
}

// weight is the nominal weight of a segment and x of its centre of gravity in the deck.
func (d Deck) weight(i int) (stages.Mass, error) {
	m, err := d.Segments[i].Element.CentreOfGravity()
	m.X += d.at()[i]
	return m, err
}
