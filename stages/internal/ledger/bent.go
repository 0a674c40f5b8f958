package ledger

import "math"

// gaussPlaces and gaussWeights are Gauss's rule of five points on −1 to 1, exact to
// degree 9: a curvature of degree 8 times a lever.
var gaussPlaces, gaussWeights = func() (at, weight [5]float64) {
	a, b := math.Sqrt(5-2*math.Sqrt(10.0/7))/3, math.Sqrt(5+2*math.Sqrt(10.0/7))/3
	u, v := (322+13*math.Sqrt(70))/900, (322-13*math.Sqrt(70))/900
	return [5]float64{-b, -a, 0, a, b}, [5]float64{v, u, 128.0 / 225, u, v}
}()

// integralShares are what the value at each node gives to ∫p and to ∫(1 − τ)·p over a
// piece from −1 to 1.
var integralShares = func() (s [2]Curve) {
	for j := range Nodes {
		var unit Curve
		unit[j] = 1
		for k, t := range gaussPlaces {
			v := gaussWeights[k] * unit.At(t)
			s[0][j] += v
			s[1][j] += v * (1 - t)
		}
	}
	return s
}()

// integrals are ∫p and ∫(end − x)·p over a stretch of length h.
func (c *Curve) integrals(h float64) (slope, value float64) {
	for j, v := range c {
		slope += integralShares[0][j] * v
		value += integralShares[1][j] * v
	}
	return slope * h / 2, value * h * h / 4
}

// Bent is a line whose curvature is a polynomial in each stretch: integrated twice
// without error, its kinks and offsets beside the curvature. It starts at zero
// without slope.
type Bent struct{ pieces []bentPiece }

type bentPiece struct {
	from, to     float64
	curvature    Curve
	value, slope float64 // at from
}

// Kink is a change of slope, and an offset, of a line at one place.
type Kink struct{ X, Slope, Offset float64 }

// Add puts a stretch of the curvature (1/m) behind what is there.
func (b *Bent) Add(from, to float64, curvature *Curve) {
	p := bentPiece{from: from, to: to, curvature: *curvature}
	if n := len(b.pieces); n > 0 {
		last := &b.pieces[n-1]
		h := last.to - last.from
		turn, off := last.curvature.integrals(h)
		p.value, p.slope = last.value+last.slope*h+off, last.slope+turn
	}
	b.pieces = append(b.pieces, p)
}

// Break adds a kink at the left end of the stretch that was added last.
func (b *Bent) Break(k Kink) {
	last := &b.pieces[len(b.pieces)-1]
	last.value += k.Offset
	last.slope += k.Slope
}

// At is the ordinate (m) and the slope at x; beyond the ends the line goes on
// straight. At a kink it is that on the right.
func (b *Bent) At(x float64) (value, slope float64) {
	if len(b.pieces) == 0 {
		return 0, 0
	}
	i := 0
	for i+1 < len(b.pieces) && x >= b.pieces[i+1].from {
		i++
	}
	p := &b.pieces[i]
	s := math.Min(math.Max(x, p.from), p.to) - p.from
	h := p.to - p.from
	for k, g := range gaussPlaces {
		a := s * (1 + g) / 2 // from the left end
		c := gaussWeights[k] * s / 2 * p.curvature.At(2*a/h-1)
		slope += c
		value += c * (s - a)
	}
	slope += p.slope
	value += p.value + p.slope*s + slope*(x-p.from-s)
	return value, slope
}

// Left is the ordinate and the slope just left of the end of the last stretch.
func (b *Bent) Left() (value, slope float64) {
	if len(b.pieces) == 0 {
		return 0, 0
	}
	return b.At(b.pieces[len(b.pieces)-1].to)
}

// Turns are the places (m) where the slope of the line, less that of a straight
// one, changes sign.
func Turns(at func(x float64) (value, slope float64), places []float64) []float64 {
	var list []float64
	for i := 1; i < len(places); i++ {
		a, b := places[i-1], places[i]
		hair := 1e-9 * (b - a)
		_, left := at(a + hair)
		_, right := at(b - hair)
		if left*right >= 0 {
			continue
		}
		for range 50 {
			m := (a + b) / 2
			if _, s := at(m); s*left > 0 {
				a = m
			} else {
				b = m
			}
		}
		list = append(list, (a+b)/2)
	}
	return list
}
