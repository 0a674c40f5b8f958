package stages

// A girder curved in plan is a straight member between its ends whose sections are
// beside the chord: weight, supports and actions act there, so that torsion at every
// section follows by statics. Internal forces are about the axis of the section
// where it is. The arc is taken as a parabola, which at a length of a tenth of the
// radius is 0.1 % off; bending and torsion of the curved member deform it as if it
// were straight.

// offset is how far the axis is beside the chord at x of the girder (m, + left):
// a curve to the left has its axis to the right of the chord.
func (g Girder) offset(x float64) float64 {
	if g.Radius == 0 {
		return 0
	}
	return -x * (g.Length() - x) / (2 * g.Radius)
}

// curved are parts, given beside the axis, beside the chord.
func (g Girder) curved(parts []part) []part {
	if g.Radius == 0 {
		return parts
	}
	list := make([]part, len(parts))
	for i, p := range parts {
		if p.to == p.from {
			p.y += g.offset(p.x)
			list[i] = p
			continue
		}
		// offset(from + s) = c0 + c1·s + c2·s²
		c := [3]float64{g.offset(p.from), -(g.Length() - 2*p.from) / (2 * g.Radius), 1 / (2 * g.Radius)}
		y := make([]float64, max(len(p.lineY), len(p.line)+2))
		copy(y, p.lineY)
		for k, w := range p.line {
			for n, v := range c {
				y[k+n] += w * v
			}
		}
		p.lineY = y
		p.resultant()
		list[i] = p
	}
	return list
}
