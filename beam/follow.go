package beam

// memberEnds is the influence lines of the moment at both ends of a member,
// inside it.
type memberEnds [2]*laws

// follow rides with each axle and takes in the largest moment under it. While
// no axle reaches a cut, the moment under an axle is one polynomial in the way
// of the train: straight between the moments at the ends of the member, plus
// what the axles within the member give on a simple span.
func (p *passage) follow(ends []memberEnds, bounds *Bounds) {
	for i := 1; i < len(p.arrivals); i++ {
		a, b := p.arrivals[i-1], p.arrivals[i]
		if b.front-a.front > samePlace*p.beam.layout.Length {
			p.followBetween(ends, bounds, a, b)
		}
	}
}

func (p *passage) followBetween(ends []memberEnds, bounds *Bounds, a, b arrival) {
	middle := a.front + (b.front-a.front)/2
	axle := 0
	for axle < len(p.force) {
		x := middle - p.behind[axle]
		if !(x > 0 && x < p.beam.layout.Length) {
			axle++
			continue
		}
		m := p.beam.memberOf(x)
		last := axle + 1
		for last < len(p.force) && middle-p.behind[last] > p.beam.members[m].from {
			last++
		}
		p.followMember(m, ends[m], bounds, axle, last, a, b)
		axle = last
	}
}

// followMember looks at the axles first ≤ k < last, which are in member m.
func (p *passage) followMember(m int, ends memberEnds, bounds *Bounds, first, last int, a, b arrival) {
	low, high := a.front, b.front
	member := &p.beam.members[m]
	length := member.length()
	left, right := p.under(ends[0], low, high), p.under(ends[1], low, high)
	rise := right.plus(left, -1)
	for k := first; k < last; k++ {
		s := low - p.behind[k] - member.from
		moment := left.plus(rise.times(series{c: [wide]float64{s / length, 1 / length}, n: 2}), 1)
		moment = moment.plus(p.simple(k, first, last, s, length), 1)
		slope := moment.derivative()
		var roots [wide]float64
		ways := append(crossings(roots[:0], slope.c[:slope.n], high-low), 0, high-low)
		for _, way := range ways {
			cause := p.cause
			cause.Front = min(max(low+way, a.after()), b.before())
			bounds.include(Peak{Extreme{member.from + s + way, moment.at(way)}, cause})
		}
	}
}

// simple is the moment under axle k on a simple span of the given length under
// the axles first ≤ j < last, as a power series in the way; axle k is at s.
func (p *passage) simple(k, first, last int, s, length float64) series {
	var c [3]float64 // in the place of axle k from the left end
	for j := first; j < last; j++ {
		ahead := p.behind[k] - p.behind[j] // of axle j, m to the right
		c[2] -= p.force[j] / length
		c[1] += p.force[j] * (length - ahead) / length
		if ahead < 0 {
			c[0] += p.force[j] * ahead
		}
	}
	return shifted(c[:], s)
}

// memberOf is the number of the member that holds x, which is no node.
func (b *Beam) memberOf(x float64) int {
	m := 0
	for m < len(b.members)-1 && b.members[m].to <= x {
		m++
	}
	return m
}
