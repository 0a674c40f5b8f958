package beam

import "math"

// wide holds every law that occurs: M of degree 7 (line load of degree 5)
// times a flexibility of degree 8, integrated twice.
const wide = 18

// series is c[0] + c[1]·s + … + c[n−1]·sⁿ⁻¹.
type series struct {
	c [wide]float64
	n int
}

func (p *series) at(s float64) float64 { return horner(p.c[:p.n], s) }

func horner(c []float64, s float64) float64 {
	sum := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		sum = sum*s + c[i]
	}
	return sum
}

// integral is start + ∫ p ds from 0 to s.
func (p series) integral(start float64) series {
	q := series{n: p.n + 1}
	q.c[0] = start
	for i := range p.n {
		q.c[i+1] = p.c[i] / float64(i+1)
	}
	return q
}

// derivative is dp/ds.
func (p series) derivative() series {
	q := series{n: max(p.n-1, 0)}
	for i := range q.n {
		q.c[i] = p.c[i+1] * float64(i+1)
	}
	return q
}

// scaled is factor·p.
func (p series) scaled(factor float64) series {
	for i := range p.n {
		p.c[i] *= factor
	}
	return p
}

// plus is p + factor·q.
func (p series) plus(q series, factor float64) series {
	p.n = max(p.n, q.n)
	for i := range q.n {
		p.c[i] += factor * q.c[i]
	}
	return p
}

// times is the product of p with a short series.
func (p series) times(q series) series {
	r := series{n: max(p.n+q.n-1, 0)}
	for i := range p.n {
		for j := range q.n {
			r.c[i+j] += p.c[i] * q.c[j]
		}
	}
	return r
}

// shifted is the series of c in s' = s − by.
func shifted(c []float64, by float64) series {
	p := series{n: len(c)}
	copy(p.c[:], c)
	if by == 0 {
		return p
	}
	for i := range p.n - 1 { // Horner's scheme, once for each coefficient
		for j := p.n - 2; j >= i; j-- {
			p.c[j] += by * p.c[j+1]
		}
	}
	return p
}

// crossings appends, in rising order, every place inside 0 < s < h at which
// the series c changes sign. It works down the derivatives: between two
// neighbouring stationary points a polynomial crosses zero at most once.
func crossings(found []float64, c []float64, h float64) []float64 {
	for len(c) > 0 && c[len(c)-1] == 0 {
		c = c[:len(c)-1]
	}
	switch len(c) {
	case 0, 1:
		return found
	case 2:
		if s := -c[0] / c[1]; s > 0 && s < h {
			found = append(found, s)
		}
		return found
	}
	var slope [wide]float64
	for i := 1; i < len(c); i++ {
		slope[i-1] = float64(i) * c[i]
	}
	// The stationary points are read from the tail of found while the zeros,
	// of which there is never one more than has been read, overwrite them.
	first := len(found)
	found = crossings(found, slope[:len(c)-1], h)
	stationary, zeros := len(found), first
	found = append(found, h)
	left, valueLeft := 0.0, c[0]
	for i := first; i <= stationary; i++ {
		right := found[i]
		value := horner(c, right)
		if value == 0 {
			continue
		}
		if valueLeft != 0 && math.Signbit(value) != math.Signbit(valueLeft) {
			found[zeros] = between(c, left, right, valueLeft)
			zeros++
		}
		left, valueLeft = right, value
	}
	return found[:zeros]
}

// between is the one zero of c in left < s < right, where c(left) has the sign
// of valueLeft and c(right) the other: Newton's step while it stays inside the
// bracket and at least halves the step before, else bisection, to the last
// digit.
func between(c []float64, left, right, valueLeft float64) float64 {
	s, step := (left+right)/2, right-left
	for range 200 { // bisection alone needs about 60
		value, slope := 0.0, 0.0
		for i := len(c) - 1; i >= 0; i-- {
			slope = slope*s + value
			value = value*s + c[i]
		}
		if value == 0 {
			return s
		}
		if math.Signbit(value) == math.Signbit(valueLeft) {
			left = s
		} else {
			right = s
		}
		next := s - value/slope
		if !(next > left && next < right && math.Abs(next-s) <= step/2) {
			next = left + (right-left)/2
		}
		step = math.Abs(next - s)
		if step <= 1e-16*math.Abs(s) || next == left || next == right {
			return next
		}
		s = next
	}
	return s
}
