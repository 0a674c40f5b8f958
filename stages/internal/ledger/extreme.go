package ledger

import "math"

// rounding is what rounding can do to a Bernstein coefficient, relative to the
// range: the rows of toControl have absolute sums up to 184, a sum of nine
// products errs by less than nine units of 1.1e-16, and the table as much.
const rounding = 4e-13

// lebesgue is how much larger than the values at the nodes the curve can be at
// most: (2/π)·ln 9 + 1 (Trefethen, Approximation Theory and Approximation
// Practice (2013), theorem 15.2).
const lebesgue = 2.4

// Bound is a value that the curve exceeds nowhere: the largest Bernstein
// coefficient. That is the larger end value itself where the coefficients rise
// or fall throughout; for a parabola it is above the peak by 1/7 of the rise from
// the end to the middle. For rough curves the middle of the range plus 2.4 times
// half the range is less.
func (c *Curve) Bound() float64 {
	b, _ := c.control()
	low, high := c[0], c[0]
	for _, v := range c[1:] {
		low, high = min(low, v), max(high, v)
	}
	bound := min(c[0]+b.largest(), (low+high)/2+lebesgue/2*(high-low))
	return bound + rounding*(high-low) + 4e-16*math.Abs(c[0])
}

// depth is how often a part is halved: its coefficients are then within 4^−depth
// times 200 of its values, relative to the range.
const depth = 28

// part is a stretch of the piece still to be searched.
type part struct {
	control
	from, width float64
}

// Peak is where the curve is largest on −1 to 1, and its value there.
func (c *Curve) Peak() (t, value float64) {
	b, span := c.control()
	best := 0
	for i, v := range c {
		if v > c[best] {
			best = i
		}
	}
	t, _ = b.peak(nodePlaces[best], c[best]-c[0], rounding/2*span)
	return t, c.At(t)
}

// peak is where the polynomial is largest, if that is by more than slack above
// the best value known, at t. Parts whose coefficients stay below the best value
// are dropped, in a part that rises and then falls the only maximum is found from
// the slope, others are halved.
func (b *control) peak(t, best, slack float64) (float64, float64) {
	var stack [depth + 1]part
	stack[0] = part{*b, -1, 2}
	for n := 1; n > 0; {
		p := &stack[n-1]
		if p.largest() <= best+slack {
			n--
			continue
		}
		rises, falls := p.turns()
		switch {
		case rises+falls > 1 && n < len(stack):
			next := &stack[n]
			next.control = p.split()
			p.width /= 2
			next.from, next.width = p.from+p.width, p.width
			if next.control[0] > best {
				best, t = next.control[0], next.from
			}
			n++
		case falls > 0:
			if s, v := p.summit(); v > best {
				best, t = v, p.from+s*p.width
			}
			n--
		default: // monotone, or a single trough: largest at an end, which is known
			n--
		}
	}
	return t, best
}

// summit is the only maximum of a part that rises and then falls, by Newton's
// method on the slope kept between bounds.
func (b *control) summit() (s, value float64) {
	low, high := 0.0, 1.0
	s = 0.5
	for range 60 {
		_, slope, bend := b.at(s)
		switch {
		case slope > 0:
			low = s
		case slope < 0:
			high = s
		default:
			high, low = s, s
		}
		next := s - slope/bend
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-s) < 1e-9 { // the value is flat there: error 1e-18
			s = next
			break
		}
		s = next
	}
	value, _, _ = b.at(s)
	return s, value
}
