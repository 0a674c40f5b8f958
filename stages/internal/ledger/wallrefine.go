package ledger

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// refineWall narrows the place of the largest value by golden section between the
// neighbours of its node, outside cracked reaches.
func (d *Demand) refineWall(q *WallQuery, cracked [][2]float64, worst *Wall) error {
	l := d.ledger
	for k := range l.grid {
		p := &l.grid[k]
		if worst.X < p.At[0].X || worst.X > p.At[Nodes-1].X {
			continue
		}
		n := 0
		for i, at := range p.At {
			if math.Abs(at.X-worst.X) < math.Abs(p.At[n].X-worst.X) {
				n = i
			}
		}
		a, b := p.At[max(n-1, 0)].X, p.At[min(n+1, Nodes-1)].X
		for _, reach := range cracked {
			if reach[1] <= worst.X {
				a = math.Max(a, reach[1])
			}
			if reach[0] >= worst.X {
				b = math.Min(b, reach[0])
			}
		}
		return d.golden(q, k, p.At[0].Slot([]int{worst.Piece}), a, b, worst)
	}
	return nil
}

// golden looks at a piece between the nodes on the polynomials through them, then at the best
// place itself.
func (d *Demand) golden(q *WallQuery, k, slot int, a, b float64, worst *Wall) error {
	const ratio = 0.6180339887498949
	l, best, failed := d.ledger, Wall{Value: worst.Value}, error(nil)
	p := &l.grid[k]
	if err := d.wallCurves(k, slot); err != nil {
		return err
	}
	if err := l.measureEnds(p, slot); err != nil {
		return err
	}
	value := func(x float64) float64 {
		w, err := d.wallsIn(q, p, slot, x)
		if err != nil {
			failed = err
			return 0
		}
		one := Wall{}
		d.wallCuts(q, p, slot, &d.wall.between, w, d.wall.interpolate(p, x, w.centres()), &one)
		if one.Value > best.Value {
			best = one
		}
		return one.Value
	}
	x1, x2 := b-ratio*(b-a), a+ratio*(b-a)
	v1, v2 := value(x1), value(x2)
	for range 10 {
		if v1 > v2 {
			b, x2, v2 = x2, x1, v1
			x1 = b - ratio*(b-a)
			v1 = value(x1)
		} else {
			a, x1, v1 = x1, x2, v2
			x2 = a + ratio*(b-a)
			v2 = value(x2)
		}
	}
	if failed != nil || !best.Found {
		return failed
	}
	at := l.at(best.X, p, d.situation.Steps)
	of := l.measure(d.situation, at)
	return d.wallAt(q, p, slot, at, &of, worst)
}

// wallCurves keeps the columns of a piece at the nodes of a stretch, about its axis.
func (d *Demand) wallCurves(k, slot int) error {
	p, u := &d.ledger.grid[k], &d.wall
	u.size, u.brief.peaks = 0, false
	for n := range p.At {
		c, err := d.wallColumns(p, slot, &d.ledger.measured(d.situation, k)[n], nil)
		if err != nil {
			return err
		}
		u.layout = c
		u.nodes[n].copy(u)
		var size float64
		u.nodes[n].full, size = d.gather(p, slot, c, u.planes, u.nodes[n].full[:0])
		u.size = math.Max(u.size, lebesgue*size)
	}
	return nil
}

// wallCurve is the columns at one node.
type wallCurve struct {
	planes []Plane
	full   []Plane // see wallBrief
	on     []shears
	bends  [3][]float64
}

func (w *wallCurve) copy(u *wallRoom) {
	w.planes = append(w.planes[:0], u.planes...)
	w.on = slices.Grow(w.on[:0], len(u.on))[:len(u.on)]
	for k := range u.on {
		to, of := &w.on[k], &u.on[k]
		to.vy, to.vz, to.t = append(to.vy[:0], of.vy...), append(to.vz[:0], of.vz...), append(to.t[:0], of.t...)
	}
	for k := range w.bends {
		w.bends[k] = append(w.bends[k][:0], u.bends[k]...)
	}
}

// interpolate makes the columns those at x, by the polynomials through the nodes.
func (u *wallRoom) interpolate(p *Stretch, x float64, centres []section.Point) *Combination {
	clear(u.planes)
	shares := p.Shares(x)
	for n, share := range shares {
		of := &u.nodes[n]
		for j := range u.planes {
			addPlane(&u.planes[j], &of.planes[j], share)
		}
	}
	u.interpolateShears(&shares, centres)
	return u.layout
}

// interpolateShears is interpolate for forces and moments, by the shares of the nodes. Only
// the columns that have shear forces are not zero.
func (u *wallRoom) interpolateShears(shares *Curve, centres []section.Point) {
	for k := range u.on {
		u.on[k].resize(len(u.planes))
	}
	for k := range u.bends {
		clear(u.bends[k])
	}
	for n, share := range shares {
		of := &u.nodes[n]
		for k := range u.bends {
			for j := range u.bends[k] {
				u.bends[k][j] += share * of.bends[k][j]
			}
		}
		for outer := range u.layout.Corners() {
			from := outer * u.layout.columns
			for k := range u.on {
				u.on[k].plus(&of.on[k], share, from, from+u.shearing.columns)
			}
		}
	}
	for k := range centres {
		u.on[k].about(centres[k])
	}
}

// plus adds a multiple of others in some columns.
func (s *shears) plus(of *shears, times float64, from, to int) {
	for j := from; j < to; j++ {
		s.vy[j] += times * of.vy[j]
		s.vz[j] += times * of.vz[j]
		s.t[j] += times * of.t[j]
	}
}
