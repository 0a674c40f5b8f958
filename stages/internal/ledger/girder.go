package ledger

import (
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
	Paired  bool      // tendons that mirror each other spread together, see twins.go
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
	Piece         int       // the piece that it is in; −1: the one that it passes
	External      bool      // runs in the void: neither a hole nor part of a section
	Held          []float64 // of an external tendon: where it is fixed to the concrete, anchors included, m
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
