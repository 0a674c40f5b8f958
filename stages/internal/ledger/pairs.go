package ledger

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Pairs adds pairs of measures of the entries, such as (σ, τ) or (part, total),
// into the columns dst.
func (c *Combination) Pairs(dst []r2.Vec, k int, pairs []r2.Vec) {
	dst = dst[:c.columns]
	clear(dst)
	weights, column := c.weights[k], c.column
	for e, p := range pairs[:c.terms] {
		d := &dst[column[e]]
		d.X += weights[e] * p.X
		d.Y += weights[e] * p.Y
	}
}

// Reach fills r with all totals of the pairs that the inner factors can give,
// one summand for each inner cause; other summands, such as the positions of a
// train, may be added. A group whose parts have factors of their own is the
// hull of its corners: the factors of the parts make a zonotope, and the factor
// of the group spans the hull of that at both of its ends.
func (c *Combination) Reach(r *Reach, sums []r2.Vec) {
	r.Reset(sums[0])
	for i := range c.groups {
		g := &c.groups[i]
		v := sums[g.column]
		if len(g.parts) == 0 {
			r.Segment(r2.Scale(g.least, v), r2.Scale(g.most, v))
			continue
		}
		r.reachParts(g, sums)
		r.corner = r.parts.vertices(r.corner)
		for _, v := range r.corner {
			r.corner = append(r.corner, r2.Scale(g.most, v))
		}
		for j := range r.corner[:len(r.corner)/2] {
			r.corner[j] = r2.Scale(g.least, r.corner[j])
		}
		r.Add(Summand{r.corner})
	}
}

// reachParts is the reach of a group under factor 1.
func (r *Reach) reachParts(g *group, sums []r2.Vec) {
	if r.parts == nil {
		r.parts = &Reach{}
	}
	r.parts.Reset(sums[g.column])
	for j := range g.parts {
		part := &g.parts[j]
		v := sums[part.column]
		r.parts.Segment(r2.Scale(part.least, v), r2.Scale(part.most, v))
	}
}

// Choose writes the value of every cause at the vertex that the last search of r
// found into dst. r must have been filled by Reach with the same sums.
func (c *Combination) Choose(dst []float64, k int, r *Reach, sums []r2.Vec) {
	copy(dst, c.corners[k])
	r.choice = r.Choice(r.choice)
	for i := range c.groups {
		g := &c.groups[i]
		at := r.choice[i]
		if len(g.parts) == 0 {
			dst[g.cause] = g.end(at)
			continue
		}
		r.reachParts(g, sums)
		n := 1 + len(r.parts.rises) + len(r.parts.falls)
		dst[g.cause] = g.end(at / n)
		r.parts.choice = r.parts.choiceAt(r.parts.choice, at%n)
		for j, end := range r.parts.choice {
			dst[g.parts[j].cause] = g.parts[j].end(end)
		}
	}
}

// end is the lower (0) or the upper end of the range.
func (f *factor) end(i int) float64 {
	if i == 0 {
		return f.least
	}
	return f.most
}

// PrincipalTension is the largest σ/2 + √(σ²/4 + τ²) of a point without stress
// across (Pa) over the inner factors, and the pair (σ, τ) that gives it. What
// counts in τ by magnitude (torsion in open walls, |T|·t/J) is given as free,
// one list of sums for each: τ is then |Σ τ| + |Σ free| + …. The value of every
// cause is written to dst unless it is nil.
//
// The principal tension is convex in (σ, τ), so it is largest at a vertex of
// the reach, and even and rising in |τ|, so magnitudes are tried with both signs.
func (c *Combination) PrincipalTension(dst []float64, k int, r *Reach, sums []r2.Vec, free ...[]float64) (float64, r2.Vec) {
	best, where := math.Inf(-1), r2.Vec{}
	for pattern := range 1 << len(free) {
		signed := sums[:c.columns]
		if len(free) > 0 {
			r.signed = append(r.signed[:0], signed...)
			signed = r.signed
			for m, list := range free {
				s := sign(pattern, m)
				for j := range signed {
					signed[j].Y += s * list[j]
				}
			}
		}
		c.Reach(r, signed)
		if value, at := r.Largest(principalTension); value > best {
			best, where = value, at
			if dst != nil {
				c.Choose(dst, k, r, signed)
			}
		}
	}
	where.Y = math.Abs(where.Y)
	return best, where
}

// principalTension of the pair (σ, τ).
func principalTension(p r2.Vec) float64 {
	h := p.X / 2
	return h + math.Sqrt(h*h+p.Y*p.Y)
}

// sign is −1 where the pattern has bit m, otherwise +1.
func sign(pattern, m int) float64 { return 1 - 2*float64(pattern>>m&1) }

// Shear is the largest |τ| over the inner factors (Pa), with what counts by
// magnitude as in PrincipalTension.
func (c *Combination) Shear(dst []float64, k int, r *Reach, sums []float64, free ...[]float64) float64 {
	best := math.Inf(-1)
	for pattern := range 1 << len(free) {
		r.values = append(r.values[:0], sums[:c.columns]...)
		for m, list := range free {
			s := sign(pattern, m)
			for j := range r.values {
				r.values[j] += s * list[j]
			}
		}
		for _, way := range [2]float64{1, -1} {
			if value := way * c.Extreme(r.values, way); value > best {
				best = value
				if dst != nil {
					c.Factors(dst, k, r.values, way)
				}
			}
		}
	}
	return best
}

// Share is the largest (sign +1) or smallest (sign −1) ratio of part to total
// over the inner factors, of sums of (part, total). It is false where the total
// is not positive under all factors. A ratio of linear measures is largest at a
// vertex of their reach.
func (c *Combination) Share(dst []float64, k int, r *Reach, sums []r2.Vec, sign float64) (float64, bool) {
	c.Reach(r, sums)
	if !(r.start.Y > 0) { // the lowest vertex
		return 0, false
	}
	value, _ := r.Largest(func(p r2.Vec) float64 { return sign * p.X / p.Y })
	if dst != nil {
		c.Choose(dst, k, r, sums)
	}
	return sign * value, true
}
