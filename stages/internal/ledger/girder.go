package ledger

import (
	"math"
	"slices"
	"sort"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// Girder is what the ledger knows of a girder: its pieces and tendons as
// numbers. It was checked before.
type Girder struct {
	Length  float64   // m
	Pieces  []Piece   // in the girder's x
	Tendons []Tendon  // in the girder's x
	Breaks  []float64 // further places where a law along x changes, m
}

// Piece is one precast element in the girder.
type Piece struct {
	From, To float64       // m
	Section  section.Along // in its own x, from 0 at From
}

// At is the outline of the piece at x of the girder (m).
func (p Piece) At(x float64) section.Shape { return p.Section.At(x - p.From) }

// Tendon is a tendon as numbers.
type Tendon struct {
	Path          *tendon.Path
	Area, Modulus float64   // m², Pa
	Duct          float64   // outer diameter, m; 0 for none
	Piece         int       // the piece that it lies in; −1: the one that it passes
	External      bool      // runs in the void: neither a hole nor part of a section
	Held          []float64 // of an external tendon: where the concrete holds it, anchors included, m
	Grip          *Grip     // of pretensioned strands; nil for a tendon
}

// State is the section of a body on a day: the pieces that act as one, ducts as
// holes, bonded steel counted with its modular ratio.
type State struct {
	Index    int
	Pieces   []int     // of the body
	Ratios   []float64 // modulus of each of them over Modulus
	Bonded   []bool    // of each tendon: grouted by then
	Modulus  float64   // reference modulus, Pa
	SteelOut bool      // bonded steel is a hole: the concrete on which its loss acts
}

// Ratio is the modular ratio of a piece; 0 for one that is no part of the body.
func (s *State) Ratio(piece int) float64 {
	for i, p := range s.Pieces {
		if p == piece {
			return s.Ratios[i]
		}
	}
	return 0
}

// PieceAt is a piece where x passes it.
type PieceAt struct {
	Index int
	Shape section.Shape
	Gross section.Properties

	net      section.Properties // less the ducts, once it is known
	netKnown bool
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
	Here      bool // x lies between its anchors
	Slot      int  // piece of the station in which it lies, or beside which it runs
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
	Tendons []TendonAt
	Steps   []Prestress // running totals after each step; [0] is before the first
	Zoned   []int       // tendons whose part is kept apart here

	came []Part  // see cameAt
	in   []int16 // of each tendon: 1 + its slot, 0 where it does not pass

	crossings *crossings
}

// Section is the section of a state at x (m).
func (l *Ledger) Section(x float64, state *State) section.Properties {
	s := l.outlines[x]
	if s == nil {
		s = l.outline(x)
		if l.outlines == nil {
			l.outlines = map[float64]*Station{}
		}
		l.outlines[x] = s
	}
	return l.properties(s, state)
}

// Hold gives a tendon its grip from now on.
func (l *Ledger) Hold(tendon int, grip *Grip) {
	l.Girder.Tendons[tendon].Grip, l.outlines = grip, nil
}

// SectionBreaks are the places where the law of a section along x changes (m):
// ends and breaks of pieces and of tendon paths.
func (l *Ledger) SectionBreaks() []float64 {
	var breaks []float64
	for i := range l.Girder.Pieces {
		p := &l.Girder.Pieces[i]
		breaks = append(breaks, p.From, p.To)
		for _, x := range p.Section.Breaks() {
			breaks = append(breaks, p.From+x)
		}
	}
	for i := range l.Girder.Tendons {
		breaks = append(breaks, l.Girder.Tendons[i].Path.Breaks()...)
	}
	sort.Float64s(breaks)
	return slices.Compact(breaks)
}

// station is the geometry at x with the sections of every state.
func (l *Ledger) station(x float64) *Station {
	s := l.geometry(x)
	s.States = make([]section.Properties, len(l.States))
	for k, state := range l.States {
		s.States[k] = l.properties(s, state)
	}
	return s
}

// geometry is the pieces and tendons at x with corners and directions.
func (l *Ledger) geometry(x float64) *Station {
	s := l.outline(x)
	for slot := range s.Pieces {
		corners := s.Pieces[slot].Shape.Corners()
		s.Corners = slices.Grow(s.Corners, len(corners))
		for _, c := range corners {
			s.Corners = append(s.Corners, Corner{Slot: slot, At: c})
		}
	}
	for i := range s.Tendons {
		if at := &s.Tendons[i]; at.Here {
			at.Direction[0], at.Direction[1], at.Direction[2] = l.Girder.Tendons[i].Path.Direction(x)
		}
	}
	return s
}

// outline is the pieces at x and where the tendons lie in them.
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
		s.in[i] = int16(at.Slot + 1)
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
// corners may not have reached what lies between them. It is the same along a stretch,
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

// slot is the piece in which a tendon lies at the station.
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

// properties is the section of a state at a station, in terms of its reference
// modulus.
func (l *Ledger) properties(s *Station, state *State) section.Properties {
	var list [8]section.Properties
	parts := list[:0]
	for slot := range s.Pieces {
		ratio := state.Ratio(s.Pieces[slot].Index)
		if ratio == 0 {
			continue
		}
		parts = append(parts, scaled(l.withTendons(s, state, slot, ratio), ratio))
	}
	switch len(parts) {
	case 0:
		return section.Properties{}
	case 1:
		return parts[0]
	}
	return together(parts)
}

// withTendons is one piece of a state with its ducts out and its bonded steel. What
// has no bonded steel is the same in every state, and kept.
func (l *Ledger) withTendons(s *Station, state *State, slot int, ratio float64) section.Properties {
	p := &s.Pieces[slot]
	if p.netKnown && !s.bonded(state, slot) {
		return p.net
	}
	list, bonded := l.inclusions[:0], false
	for i := range s.Tendons {
		at, t := &s.Tendons[i], &l.Girder.Tendons[i]
		if !at.Here || at.Slot != slot || t.External || at.Area == 0 {
			continue
		}
		switch {
		case state.Bonded[i] && state.SteelOut:
			list, bonded = append(list, section.Inclusion{At: at.At, Area: at.Area}), true
		case state.Bonded[i]:
			list, bonded = append(list, section.BondedSteel(at.At, at.Area, t.Modulus/(state.Modulus*ratio))), true
		case t.Duct > 0:
			list = append(list, section.Duct(at.At, t.Duct))
		}
	}
	l.inclusions = list
	if bonded {
		return p.Gross.With(list...)
	}
	if !p.netKnown {
		p.net, p.netKnown = p.Gross.With(list...), true
	}
	return p.net
}

// bonded is true where a bonded tendon passes a piece of the station.
func (s *Station) bonded(state *State, slot int) bool {
	for i := range s.Tendons {
		if at := &s.Tendons[i]; at.Here && at.Slot == slot && state.Bonded[i] {
			return true
		}
	}
	return false
}

// scaled is a section counted as often as its modular ratio says.
func scaled(p section.Properties, ratio float64) section.Properties {
	if ratio == 1 {
		return p
	}
	p.Area *= ratio
	p.SecondMomentY *= ratio
	p.SecondMomentZ *= ratio
	p.ProductMoment *= ratio
	return p
}

// together is the sum of sections about their common centroid.
func together(parts []section.Properties) section.Properties {
	var sum section.Properties
	var y, z float64
	for _, p := range parts {
		sum.Area += p.Area
		y += p.Area * p.Centroid.Y
		z += p.Area * p.Centroid.Z
	}
	sum.Centroid = section.Point{Y: y / sum.Area, Z: z / sum.Area}
	for _, p := range parts {
		dy, dz := p.Centroid.Y-sum.Centroid.Y, p.Centroid.Z-sum.Centroid.Z
		sum.SecondMomentY += p.SecondMomentY + p.Area*dz*dz
		sum.SecondMomentZ += p.SecondMomentZ + p.Area*dy*dy
		sum.ProductMoment += p.ProductMoment + p.Area*dy*dz
		sum.Top = math.Max(sum.Top, p.Top+dz)
		sum.Bottom = math.Max(sum.Bottom, p.Bottom-dz)
		sum.Left = math.Max(sum.Left, p.Left+dy)
		sum.Right = math.Max(sum.Right, p.Right-dy)
	}
	return sum
}
