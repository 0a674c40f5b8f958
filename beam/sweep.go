package beam

import "math"

// candidate is a position of the train that may be the worst.
type candidate struct {
	value     float64
	front     float64 // m, as it is reported
	at        float64 // m, as it is evaluated
	low, high float64 // the interval of front within which no axle reaches a cut
}

// search keeps the worst candidates of both signs.
type search struct {
	least, most candidate
}

func (s *search) consider(c candidate) {
	if c.value > s.most.value+negligible*math.Abs(s.most.value) {
		s.most = c
	}
	if c.value < s.least.value-negligible*math.Abs(s.least.value) {
		s.least = c
	}
}

// sweep rolls the train over an influence line and returns the exact bounds of
// its effect; the train off the beam counts as zero.
func (p *passage) sweep(l *laws, at float64) Bounds {
	off := candidate{front: p.arrivals[0].order}
	s := search{least: off, most: off}
	if l.cubic {
		p.roll(l, &s)
	} else {
		p.step(l, &s)
	}
	bounds := Bounds{Least: p.peak(l, off, at), Most: p.peak(l, off, at)}
	bounds.widen(Bounds{Least: p.peak(l, s.least, at), Most: p.peak(l, s.most, at)})
	return bounds
}

// peak evaluates a candidate anew, as the sum over the axles.
func (p *passage) peak(l *laws, c candidate, at float64) Peak {
	value := c.value
	if c.high-c.low > samePlace*p.beam.layout.Length {
		law := p.under(l, c.low, c.high)
		value = law.at(c.at - c.low)
	}
	cause := p.cause
	cause.Front = c.front
	return Peak{Extreme{at, value}, cause}
}

// order is the arrivals of the beam's cuts merged with those of the place of
// the influence line.
type order struct {
	passage *passage
	place   float64 // NaN = no place of its own
	next    int     // next arrival at a cut
	axle    int     // next axle at the place
}

func (o *order) take() (arrival, bool) {
	var there arrival
	waiting := o.axle < len(o.passage.behind) && !math.IsNaN(o.place)
	if waiting {
		front := o.place + o.passage.behind[o.axle]
		there = arrival{order: front, front: front, cut: own, axle: o.axle}
	}
	if o.next < len(o.passage.arrivals) && !(waiting && there.order < o.passage.arrivals[o.next].order) {
		o.next++
		return o.passage.arrivals[o.next-1], true
	}
	o.axle++
	return there, waiting
}

// roll carries the effect and its three derivatives from arrival to arrival.
// Rounding grows on the way by about 1e-16 times the cube of the number of
// spans; the worst candidates are evaluated anew.
func (p *passage) roll(l *laws, s *search) {
	var f [4]float64
	arrivals := order{passage: p, place: l.at}
	front := p.arrivals[0].front
	for a, ok := arrivals.take(); ok; a, ok = arrivals.take() {
		way := a.front - front
		turns(&f, way, func(s2 float64) {
			s.consider(candidate{f[0] + s2*(f[1]+s2*(f[2]/2+s2*f[3]/6)), front + s2, front + s2, front, a.front})
		})
		value := f[0] + way*(f[1]+way*(f[2]/2+way*f[3]/6))
		s.consider(candidate{value, a.before(), a.front, front, a.front})
		f[1] += way * (f[2] + way*f[3]/2)
		f[2] += way * f[3]
		f[0] = value
		gain := l.gain(a)
		for k := range f {
			f[k] += p.force[a.axle] * gain[k]
		}
		following := a.front
		if n, ok := arrivals.peek(); ok {
			following = n
		}
		s.consider(candidate{f[0], a.after(), a.front, a.front, following})
		front = a.front
	}
}

// peek is where the front axle is at the next arrival.
func (o order) peek() (float64, bool) {
	a, ok := o.take()
	return a.front, ok
}

// turns yields the stationary points of the cubic with derivatives f inside
// 0 < s < way.
func turns(f *[4]float64, way float64, yield func(float64)) {
	a, b, c := f[3]/2, f[2], f[1] // a·s² + b·s + c = 0
	if a == 0 {
		if s := -c / b; s > 0 && s < way {
			yield(s)
		}
		return
	}
	d := b*b - 4*a*c
	if d < 0 {
		return
	}
	q := -(b + math.Copysign(math.Sqrt(d), b)) / 2
	if s := q / a; s > 0 && s < way {
		yield(s)
	}
	if s := c / q; s > 0 && s < way {
		yield(s)
	}
}

// step sums the laws of the axles anew between any two arrivals: for beams
// whose influence lines are of higher degree.
func (p *passage) step(l *laws, s *search) {
	arrivals := order{passage: p, place: l.at}
	front, value := p.arrivals[0].front, 0.0
	for a, ok := arrivals.take(); ok; a, ok = arrivals.take() {
		if a.front-front > samePlace*p.beam.layout.Length {
			value = p.between(l, s, front, a.front)
		}
		s.consider(candidate{value: value, front: a.before()})
		value += p.force[a.axle] * l.gain(a)[0]
		front = a.front
		s.consider(candidate{value: value, front: a.after()})
	}
}

// gain is what one axle with force 1 adds by arriving.
func (l *laws) gain(a arrival) *[4]float64 {
	if a.cut == own {
		return &l.own
	}
	return &l.step[a.cut]
}

// between considers the turning points inside one interval and returns the
// effect at its end.
func (p *passage) between(l *laws, s *search, low, high float64) float64 {
	law := p.under(l, low, high)
	slope := law.derivative()
	var roots [wide]float64
	for _, way := range crossings(roots[:0], slope.c[:slope.n], high-low) {
		s.consider(candidate{value: law.at(way), front: low + way})
	}
	return law.at(high - low)
}
