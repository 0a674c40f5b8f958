package ledger

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// PieceAt is a piece where x passes it.
type PieceAt struct {
	Index int
	Shape section.Shape
	Gross section.Properties

	net       section.Properties // less the ducts, once it is known
	netKnown  bool
	crossings *crossings // once they were asked for
}

// Corner is a corner of the outline of a piece.
type Corner struct {
	Slot    int // in Station.Pieces
	At      section.Point
	Warping float64 // ω, m²; 0 where the section is not open
}

// Spot is the place of a corner.
func (c Corner) Spot() Spot { return Spot{c.At, c.Warping} }

// TendonAt is a tendon where x passes it.
type TendonAt struct {
	Here      bool  // x is between its anchors
	kept      int16 // 1 + its first place in Station.Zoned; 0 where its part is not kept apart
	Slot      int   // piece of the station in which it is, or beside which it runs
	At        section.Point
	Direction [3]float64
	Area      float64 // of steel, m²; of pretensioned strands what the concrete grips
	Least     float64 // of pretensioned strands: their force by the long transmission length, over that by the basic one
	Most      float64 // the same by the short one
	grown     bool    // pretensioned: the force grows by bond
}

// Station is everything at one x that does not depend on supports.
type Station struct {
	X       float64
	Pieces  []PieceAt
	Corners []Corner
	States  []section.Properties // of each State; area 0 where its body does not reach
	bodies  []bodyAt             // of several pieces
	holds   []int                // of each State: which part of a term has its forces; −1 where its body does not reach
	Tendons []TendonAt
	Steps   []Prestress // running totals after each step; [0] is before the first
	Zoned   []int       // tendons whose part is kept apart here, of a pair the first

	came []Part  // see cameAt
	in   []int16 // of each tendon: 1 + its slot, 0 where it does not pass
	here []int   // tendons that pass
}

// station is the geometry at x with the sections of every state.
func (l *Ledger) station(x float64) *Station {
	s := l.geometry(x)
	s.States = make([]section.Properties, len(l.States))
	for k, state := range l.States {
		s.States[k] = l.properties(s, state)
	}
	l.bodiesAt(s)
	return s
}

// geometry is the pieces and tendons at x with directions.
func (l *Ledger) geometry(x float64) *Station {
	s := l.outline(x)
	for i := range s.Tendons {
		if at := &s.Tendons[i]; at.Here {
			at.Direction[0], at.Direction[1], at.Direction[2] = l.Girder.Tendons[i].Path.Direction(x)
		}
	}
	return s
}

// outline is the pieces at x and where the tendons are in them.
func (l *Ledger) outline(x float64) *Station {
	s := &Station{X: x, Pieces: make([]PieceAt, 0, 1)}
	for i := range l.Girder.Pieces {
		p := &l.Girder.Pieces[i]
		if x < p.From || x > p.To {
			continue
		}
		at := PieceAt{Index: i, Shape: p.At(x)}
		at.Gross = at.Shape.Properties()
		s.Pieces = append(s.Pieces, at)
	}
	s.Tendons, s.in = make([]TendonAt, len(l.Girder.Tendons)), make([]int16, len(l.Girder.Tendons))
	for i := range l.Girder.Tendons {
		t := &l.Girder.Tendons[i]
		if x < t.Path.From() || x > t.Path.To() {
			continue
		}
		at := &s.Tendons[i]
		at.Here, at.At = true, t.Path.At(x)
		at.Slot = s.slot(t, at.At)
		s.in[i], s.here = int16(at.Slot+1), append(s.here, i)
		at.Area, at.Least, at.Most = t.Area, 1, 1
		if t.Grip != nil {
			at.Area = t.Grip.Area(x)
			at.Least, at.Most = t.Grip.Shares(x)
			at.grown = true
		}
	}
	return s
}

// between is into how many parts each edge of each piece of a station is cut by points
// between its corners: while the force of an anchor spreads, what has reached two
// corners may not have reached what is between them. It is the same along a stretch,
// also where a long edge tapers.
func between(s *Station) [][]int {
	cuts := make([][]int, len(s.Pieces))
	for slot := range s.Pieces {
		for _, o := range edges(s.Pieces[slot].Shape) {
			for i, p := range o {
				q := o[(i+1)%len(o)]
				cuts[slot] = append(cuts[slot], 1+min(3, int(math.Hypot(q.Y-p.Y, q.Z-p.Z)/longEdge)))
			}
		}
	}
	return cuts
}

// corners gives a station the corners of its outlines with their ω, and points between
// them where edges are cut into parts. A constant piece has the same all along.
func (l *Ledger) corners(s *Station, cuts [][]int) {
	known := &l.outer
	if cuts != nil {
		known = &l.refined
	}
	piece := s.Pieces[0].Index
	same := len(s.Pieces) == 1 && l.constant(piece)
	if same && (*known)[piece] != nil {
		s.Corners = (*known)[piece]
		return
	}
	for slot := range s.Pieces {
		corners := s.Pieces[slot].Shape.Corners()
		s.Corners = slices.Grow(s.Corners, len(corners))
		for _, c := range corners {
			s.Corners = append(s.Corners, Corner{Slot: slot, At: c})
		}
	}
	s.addBetween(cuts)
	l.warpCorners(s)
	if !same {
		return
	}
	if *known == nil {
		*known = map[int][]Corner{}
	}
	(*known)[piece] = s.Corners
}

// addBetween adds points between the corners of edges that are cut into parts.
func (s *Station) addBetween(cuts [][]int) {
	for slot, of := range cuts {
		for _, o := range edges(s.Pieces[slot].Shape) {
			if len(of) < len(o) { // corners have changed in number, which is refused
				return
			}
			for i, p := range o {
				q := o[(i+1)%len(o)]
				for k := 1; k < of[i]; k++ {
					t := float64(k) / float64(of[i])
					s.Corners = append(s.Corners, Corner{Slot: slot, At: section.Point{Y: p.Y + t*(q.Y-p.Y), Z: p.Z + t*(q.Z-p.Z)}})
				}
			}
			of = of[len(o):]
		}
	}
}

// edges are the outlines of a shape, solids and voids.
func edges(s section.Shape) []section.Outline { return append(s.Solids(), s.Voids()...) }

// longEdge is the length of an edge from which on points between its corners are
// looked at near anchors (m).
const longEdge = 0.5

// slot is the piece in which a tendon is at the station.
func (s *Station) slot(t *Tendon, at section.Point) int {
	best, clear := 0, math.Inf(-1)
	for i := range s.Pieces {
		if t.Piece >= 0 && s.Pieces[i].Index == t.Piece {
			return i
		}
		if len(s.Pieces) == 1 {
			return 0
		}
		if c := s.Pieces[i].Shape.Clearance(at); c > clear {
			best, clear = i, c
		}
	}
	return best
}
