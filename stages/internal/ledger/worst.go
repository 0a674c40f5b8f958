package ledger

// Sums adds the values of the entries, one for each term, into the columns dst
// at corner k: each times its outer factors.
func (c *Combination) Sums(dst []float64, k int, values []float64) {
	dst = dst[:c.columns]
	clear(dst)
	weights, column := c.weights[k], c.column
	for e, v := range values[:c.terms] {
		dst[column[e]] += weights[e] * v
	}
}

// Planes adds the stress planes of the entries (Pa, Pa/m) into the columns dst.
func (c *Combination) Planes(dst []Plane, k int, planes []Plane) {
	dst = dst[:c.columns]
	clear(dst)
	weights, column := c.weights[k], c.column
	for e := range planes[:c.terms] {
		p, w, d := &planes[e], weights[e], &dst[column[e]]
		d.Constant += w * p.Constant
		d.SlopeY += w * p.SlopeY
		d.SlopeZ += w * p.SlopeZ
		d.Warping += w * p.Warping
	}
}

// At is the stress of each column at p (Pa).
func (c *Combination) At(dst []float64, planes []Plane, p Spot) {
	for j := range planes[:c.columns] {
		dst[j] = planes[j].At(p)
	}
}

// Extreme is the largest (sign +1) or smallest (sign −1) total of the sums over
// the inner factors: the fixed column and, for each cause, its sum times the
// worse end of its range.
func (c *Combination) Extreme(sums []float64, sign float64) float64 {
	total := sign * sums[0]
	for i := range c.groups {
		g := &c.groups[i]
		if len(g.parts) == 0 {
			total += g.largest(sign * sums[g.column])
			continue
		}
		total += g.worse(sums, sign)
	}
	return sign * total
}

// worse is the larger contribution, times sign, of a group at both of its ends. Parts
// without a sum, as of tendons that have spread, add nothing.
func (g *group) worse(sums []float64, sign float64) float64 {
	v := sign * sums[g.column]
	low, high := g.least*v, g.most*v
	for j := range g.parts {
		part := &g.parts[j]
		if v := sign * sums[part.column]; v != 0 {
			low += part.largest(g.least * v)
			high += part.largest(g.most * v)
		}
	}
	return max(low, high)
}

// Stress is Extreme of the stress at p.
func (c *Combination) Stress(planes []Plane, p Spot, sign float64) float64 {
	total := sign * planes[0].At(p)
	for i := range c.groups {
		g := &c.groups[i]
		v := sign * planes[g.column].At(p)
		if len(g.parts) == 0 {
			total += g.largest(v)
			continue
		}
		low, high := g.least*v, g.most*v
		for j := range g.parts {
			part := &g.parts[j]
			v := sign * planes[part.column].At(p)
			low += part.largest(g.least * v)
			high += part.largest(g.most * v)
		}
		total += max(low, high)
	}
	return sign * total
}

// largest is the larger of v times both ends of the range.
func (f *factor) largest(v float64) float64 {
	if v < 0 {
		return f.least * v
	}
	return f.most * v
}

// worst is the end of the range that makes v times it largest; where v is zero
// it is the upper end.
func (f *factor) worst(v float64) float64 {
	if v < 0 {
		return f.least
	}
	return f.most
}

// with is the largest contribution, times sign, of a group whose factor is r.
func (g *group) with(r float64, sums []float64, sign float64) float64 {
	total := r * sign * sums[g.column]
	for j := range g.parts {
		total += g.parts[j].largest(r * sign * sums[g.parts[j].column])
	}
	return total
}

// Factors writes the value of every cause that gives Extreme at corner k into
// dst, in the order of the causes. A cause that no term has keeps 1.
func (c *Combination) Factors(dst []float64, k int, sums []float64, sign float64) {
	copy(dst, c.corners[k])
	for i := range c.groups {
		g := &c.groups[i]
		r := g.worst(sign * sums[g.column])
		if len(g.parts) > 0 {
			r = g.least // where both ends give the same, as of an outer cause
			if g.with(g.most, sums, sign) > g.with(g.least, sums, sign) {
				r = g.most
			}
		}
		dst[g.cause] = r
		for j := range g.parts {
			part := &g.parts[j]
			dst[part.cause] = part.worst(r * sign * sums[part.column])
		}
	}
}

// Under is the total of the sums under stated factors, one for each cause.
func (c *Combination) Under(sums, factors []float64) float64 {
	total := sums[0]
	for i := range c.groups {
		g := &c.groups[i]
		v := sums[g.column]
		for j := range g.parts {
			v += factors[g.parts[j].cause] * sums[g.parts[j].column]
		}
		total += factors[g.cause] * v
	}
	return total
}
