package stages

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// Subject is an Element, or a Girder of several, that is calculated through a plan.
type Subject interface {
	Girder() Girder
}

// Girder is elements that are or become one member: segments end to end, halves and
// a stitch side by side, a deck strip on top.
type Girder struct {
	Mark    string          // its name; must not be empty
	Pieces  []Piece         // 1 to 400, without gaps and overlaps
	Tendons []tendon.Tendon // in the x of the girder, beside those of the elements; they may run through joints
	Radius  float64         // of the axis in plan, m, 0 (straight) or 30 to 1e6, + curves to the left
	Paired  bool            // tendons that mirror each other in symmetric sections and are stressed together spread together from their anchors: each half of the section has its own
}

// Piece is an element in a girder.
type Piece struct {
	Element     Element // its outline in the y and z of the girder; its x from its own left end
	At          float64 // x of its left end in the girder, m, 0 to 10,000
	Later       bool    // not carried at first: an Event adds it
	Joint       Joint   // with the piece on its left
	WeightGroup string  // elements of one group share one weight tolerance; "": that of all
}

// Joint is the joint of an element with the one on its left.
type Joint string

// The joints.
const (
	Monolithic Joint = ""        // none
	Epoxied    Joint = "epoxied" // match-cast, with epoxy
	Dry        Joint = "dry"     // match-cast, without
	Poured     Joint = "poured"  // of concrete or mortar
)

// Girder is the element as a girder of one piece.
func (e Element) Girder() Girder {
	return Girder{Mark: e.Mark, Pieces: []Piece{{Element: e}}}
}

// Girder is the girder itself.
func (g Girder) Girder() Girder { return g }

// EndToEnd are elements end to end along x, with the same joint between all.
func EndToEnd(joint Joint, elements ...Element) []Piece {
	pieces := make([]Piece, len(elements))
	x := 0.0
	for i, e := range elements {
		pieces[i] = Piece{Element: e, At: x, Joint: joint}
		if i == 0 {
			pieces[i].Joint = Monolithic
		}
		x += e.Length
	}
	return pieces
}

// Length is that from x = 0 to the right end of the last element (m).
func (g Girder) Length() float64 {
	length := 0.0
	for i := range g.Pieces {
		length = math.Max(length, g.Pieces[i].At+g.Pieces[i].Element.Length)
	}
	return length
}

// To is x of the right end of the piece (m).
func (p Piece) To() float64 { return p.At + p.Element.Length }

// near is the length (m) below which two places along x are one.
func (g Girder) near() float64 { return 1e-6 * g.Length() }

// snapped is the girder with its pieces moved by less than near so that those that
// meet within it meet exactly: no stretch is left without a piece or with two.
func (g Girder) snapped() Girder {
	near := g.near()
	g.Pieces = slices.Clone(g.Pieces)
	order := make([]*Piece, len(g.Pieces))
	for i := range g.Pieces {
		order[i] = &g.Pieces[i]
	}
	slices.SortStableFunc(order, func(a, b *Piece) int { return cmp.Compare(a.At, b.At) })
	for i, p := range order {
		ends := []float64{0}
		for _, q := range order[:i] {
			ends = append(ends, q.At, q.To())
		}
		for _, x := range ends {
			if math.Abs(p.At-x) <= near {
				p.At = x
			}
		}
	}
	return g
}

// tendons are those of the elements, in the girder's x, then those of the girder,
// and the piece in which each is; −1 for one of the girder.
func (g Girder) tendons() (list []tendon.Tendon, piece []int) {
	for i, p := range g.Pieces {
		for _, t := range p.Element.Tendons {
			if p.At != 0 {
				t.Elevation, t.Plan = t.Elevation.Moved(p.At), t.Plan.Moved(p.At)
			}
			list, piece = append(list, t), append(piece, i)
		}
	}
	for _, t := range g.Tendons {
		list, piece = append(list, t), append(piece, -1)
	}
	return list, piece
}

// check reports the first field that is not as it must be.
func (g Girder) check() error {
	if g.Mark == "" {
		return fmt.Errorf("%w: Mark is empty: must be a name", ErrStage)
	}
	if len(g.Pieces) == 0 {
		return fmt.Errorf("%w: girder %s has no piece: must be at least one", ErrStage, g.Mark)
	}
	if g.Radius != 0 && !(math.Abs(g.Radius) >= 30 && math.Abs(g.Radius) <= 1e6) {
		return fmt.Errorf("%w: Girder.Radius = %g m: must be 0 (straight) or 30 to 1e6 m, + to the left", ErrStage, g.Radius)
	}
	if err := g.checkSize(); err != nil {
		return err
	}
	marks := map[string]bool{}
	for i, p := range g.Pieces {
		if err := p.Element.check(); err != nil {
			return err
		}
		if marks[p.Element.Mark] {
			return fmt.Errorf("%w: girder %s has two pieces %s: must be marks that differ", ErrStage, g.Mark, p.Element.Mark)
		}
		marks[p.Element.Mark] = true
		if !(p.At >= 0 && p.At <= 10000) {
			return fmt.Errorf("%w: Pieces[%d] %s: At = %g m: must be 0 to 10000 m", ErrStage, i, p.Element.Mark, p.At)
		}
	}
	if err := g.checkJoints(); err != nil {
		return err
	}
	return g.checkTendons()
}

// checkJoints refuses gaps, pieces in the same place, and joints where no piece
// ends.
func (g Girder) checkJoints() error {
	near := g.near()
	ends := []float64{0}
	for _, p := range g.Pieces {
		ends = append(ends, p.At, p.To())
	}
	slices.Sort(ends)
	for i := 1; i < len(ends); i++ {
		x := (ends[i-1] + ends[i]) / 2
		if ends[i]-ends[i-1] > near && !slices.ContainsFunc(g.Pieces, func(p Piece) bool { return p.At < x && x < p.To() }) {
			return fmt.Errorf("%w: girder %s has no piece between x = %g and %g m: must be without a gap", ErrStage, g.Mark, ends[i-1], ends[i])
		}
	}
	for i, p := range g.Pieces {
		meets := slices.ContainsFunc(g.Pieces, func(q Piece) bool { return math.Abs(q.To()-p.At) <= near })
		if p.Joint != Monolithic && !meets {
			return fmt.Errorf("%w: Pieces[%d] %s has an %s joint at x = %g m where no piece ends: must be at the end of a piece", ErrStage, i, p.Element.Mark, p.Joint, p.At)
		}
		for j, q := range g.Pieces[:i] {
			from, to := math.Max(p.At, q.At), math.Min(p.To(), q.To())
			if to-from <= near {
				continue
			}
			x := (from + to) / 2
			if overlap(p.Element.Section.At(x-p.At), q.Element.Section.At(x-q.At)) {
				return fmt.Errorf("%w: Pieces[%d] %s and Pieces[%d] %s overlap from x = %g to %g m: must be beside each other", ErrStage, j, q.Element.Mark, i, p.Element.Mark, from, to)
			}
		}
	}
	return nil
}

// overlap is true for outlines that share concrete: a corner of one, or a place just
// inside one of its edges, is inside the other.
func overlap(a, b section.Shape) bool {
	const within = 1e-4 // m
	inside := func(a, b section.Shape) bool {
		for _, o := range a.Solids() {
			for i, p := range o {
				q := o[(i+1)%len(o)]
				if b.Clearance(p) > 1e-6 {
					return true
				}
				long := math.Hypot(q.Y-p.Y, q.Z-p.Z)
				for _, side := range [2]float64{-within, within} {
					at := section.Point{Y: (p.Y+q.Y)/2 - side*(q.Z-p.Z)/long, Z: (p.Z+q.Z)/2 + side*(q.Y-p.Y)/long}
					if a.Clearance(at) > 1e-6 && b.Clearance(at) > 1e-6 {
						return true
					}
				}
			}
		}
		return false
	}
	return inside(a, b) || inside(b, a)
}
