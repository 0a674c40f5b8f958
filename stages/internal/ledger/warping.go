package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Plane is the stress over a section (Pa): a plane, and in an open section B·ω/Cw
// of warping torsion beside it.
type Plane struct {
	section.Plane
	Warping float64 // B/Cw, Pa/m²
}

// Spot is a point of a section with its ω.
type Spot struct {
	section.Point
	Warping float64 // ω, m²
}

// At is the stress at a spot (Pa).
func (p *Plane) At(s Spot) float64 { return p.Plane.At(s.Point) + p.Warping*s.Warping }

// warped is B/Cw at the nodes of each stretch of a member.
type warped map[int]*warpedAt

type warpedAt struct {
	Curve
	slot int // of the member in the stretch
}

func (w warped) add(of warped) {
	for k, c := range of {
		if w[k] == nil {
			w[k] = &warpedAt{slot: c.slot}
		}
		for n, v := range c.Curve {
			w[k].Curve[n] += v
		}
	}
}

// findOpen says whether warping is to be looked at at all.
func (l *Ledger) findOpen() {
	l.members, l.pulled = map[*State]*member{}, nil
	l.open = slices.ContainsFunc(l.Girder.Pieces, func(p Piece) bool {
		return len(p.At((p.From+p.To)/2).Voids()) == 0
	})
}

// sectorial is the warping of the walls of a piece; false where its section is not
// open.
func (l *Ledger) sectorial(at *PieceAt) (section.Sectorial, bool) {
	if !l.open || len(at.Shape.Voids()) > 0 {
		return section.Sectorial{}, false
	}
	walls, err := l.wallsOf(at)
	if err != nil {
		return section.Sectorial{}, false
	}
	s, err := walls.Warping()
	return s, err == nil
}

// warpCorners gives the corners of open sections their ω.
func (l *Ledger) warpCorners(s *Station) {
	if !l.open {
		return
	}
	for slot := range s.Pieces {
		of, ok := l.sectorial(&s.Pieces[slot])
		if !ok {
			continue
		}
		own := 0
		for i := range s.Corners {
			c := &s.Corners[i]
			if c.Slot != slot {
				continue
			}
			if own < len(of.Corners) {
				c.Warping = of.Corners[own]
			} else { // a point between corners
				c.Warping = of.At(c.At)
			}
			own++
		}
	}
}

// warpField adds the warping by the torque of a field to what is known of a stretch.
func (l *Ledger) warpField(f *fieldOn, k, slots int) {
	m := l.member(f.state)
	if m == nil {
		return
	}
	if f.warps == nil {
		f.warps = m.solve(func(at *memberNode) (torque, bimoment float64) {
			v := f.field.At(at.station.X)
			return v.T + at.centre.Y*v.Vz - at.centre.Z*v.Vy, 0
		})
	}
	c := f.warps[k]
	if c == nil { // beyond the body
		return
	}
	for n, v := range c.Curve {
		f.parts[k][n*slots+c.slot].Plane.Warping += v
	}
}

// stretchAt is the stretch at x (m).
func (l *Ledger) stretchAt(x float64) int {
	k, _ := slices.BinarySearchFunc(l.grid, x, func(p Stretch, x float64) int {
		switch {
		case p.To < x:
			return -1
		case p.From > x:
			return 1
		}
		return 0
	})
	return min(k, len(l.grid)-1)
}

// Warping is the bimoment of a piece at x under stated factors, one for each cause,
// with parts of tendons that have not spread (N·m²), and ω at a point with Cw (m², m⁶);
// ok is false where the section does not warp.
func (l *Ledger) Warping(s *Situation, x float64, piece int, p section.Point, factors []float64, apart []ApartAt) (bimoment, omega, constant float64, ok bool) {
	if !l.open {
		return 0, 0, 0, false
	}
	k := l.stretchAt(x)
	at := l.at(x, &l.grid[k], s.Steps)
	of := l.measure(s, at)
	slot := slices.IndexFunc(at.Pieces, func(p PieceAt) bool { return p.Index == piece })
	if slot < 0 {
		return 0, 0, 0, false
	}
	sectorial, ok := l.sectorial(&at.Pieces[slot])
	if !ok {
		return 0, 0, 0, false
	}
	warping := 0.0
	for g := range s.products {
		warping += s.products[g].under(factors) * of.part(g, slot).Plane.Warping
	}
	for z, tendon := range at.Zoned {
		share := factors[s.Prestress]
		for _, a := range apart {
			if l.leads[a.Tendon] == tendon {
				share *= a.Factor
			}
		}
		warping += share * of.part(len(s.products)+z, slot).Plane.Warping
	}
	return warping * sectorial.Constant, sectorial.At(p), sectorial.Constant, warping != 0
}

// warpBetween gives the parts of a station off the grid the warping of the
// polynomials through the nodes of its stretch.
func (l *Ledger) warpBetween(s *Situation, at *Station, e *effect) {
	if !l.open {
		return
	}
	k := l.stretchAt(at.X)
	p := &l.grid[k]
	data, share := l.measured(s, k), p.Shares(at.X)
	between := func(term, slot int) float64 {
		var c Curve
		for n := range data {
			c[n] = data[n].part(term, slot).Plane.Warping
		}
		return c.Sum(&share)
	}
	for slot := range min(len(at.Pieces), data[0].slots) {
		for term := range s.products {
			e.part(term, slot).Plane.Warping = between(term, slot)
		}
		for z := range p.spreading {
			v := between(len(s.products)+z, slot)
			if len(at.Zoned) == len(p.spreading) {
				e.part(len(s.products)+z, slot).Plane.Warping = v
			} else {
				e.part(0, slot).Plane.Warping += p.At[0].nominal(1+z) * v
			}
		}
	}
}
