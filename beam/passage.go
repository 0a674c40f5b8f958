package beam

import (
	"cmp"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
)

// passage is a train that rolls over a beam one way round.
type passage struct {
	beam     *Beam
	cause    Cause
	force    []float64 // of each axle, N, with the dynamic factor
	behind   []float64 // of each axle, m behind the front one
	cuts     []float64 // both ends of every panel of the beam, m
	arrivals []arrival // of every axle at every cut, in order
}

// arrival is an axle reaching a place where influence lines change their law.
type arrival struct {
	order float64 // by which arrivals are sorted, m
	front float64 // where the front axle is then, m
	cut   int     // number of the cut; own for the place of the influence line
	axle  int
}

// before and after are where the front axle is just before and just after
// the arrival. At the ends of the beam they differ by a hair, so that a peak
// with an axle just off the beam can be told from one with the axle on its end.
func (a arrival) before() float64 { return min(a.front, a.order) }

func (a arrival) after() float64 { return max(a.front, a.order) }

// sameMoment is the way of the train, as a fraction of the beam's and its own
// length, within which arrivals at the ends count as one with others: some
// thousand roundings of the sum of the spacings.
const sameMoment = 1e-11

// own marks the place that belongs to one influence line.
const own = -1

func (b *Beam) passage(t loads.Train, turned bool) *passage {
	p := &passage{beam: b, cause: Cause{Train: t.Name, Turned: turned}}
	behind := 0.0
	for _, a := range t.Axles {
		behind += a.Behind
		p.behind = append(p.behind, behind)
		p.force = append(p.force, a.Force*t.Factor())
	}
	for i := range b.panels {
		p.cuts = append(p.cuts, b.panels[i].from)
	}
	p.cuts = append(p.cuts, b.layout.Length)
	p.arrive()
	return p
}

// arrive lists the arrivals. An axle on the very end of the beam is on it: of
// arrivals at the same moment those that enter come first and those that leave
// come last.
func (p *passage) arrive() {
	p.arrivals = make([]arrival, 0, len(p.cuts)*len(p.force))
	same := sameMoment * (p.beam.layout.Length + p.behind[len(p.behind)-1])
	for cut, x := range p.cuts {
		shift := 0.0
		switch cut {
		case 0:
			shift = -same
		case len(p.cuts) - 1:
			shift = same
		}
		for axle, behind := range p.behind {
			p.arrivals = append(p.arrivals, arrival{order: x + behind + shift, front: x + behind, cut: cut, axle: axle})
		}
	}
	slices.SortFunc(p.arrivals, func(a, b arrival) int { return cmp.Compare(a.order, b.order) })
}

// laws is an influence line as power series between its cuts.
type laws struct {
	place []float64    // left ends of the pieces, and the right end of the beam, m
	law   []series     // of each piece, in s from its left end
	step  [][4]float64 // what the line and its first three derivatives gain at each cut
	own   [4]float64   // what they gain at the place of the line, where that is no cut
	at    float64      // that place, m
	cubic bool         // every law has four terms
}

// laws of the influence line.
func (l *Influence) laws() *laws {
	r := l.response
	n := len(r.pieces)
	out := &laws{
		place: make([]float64, 0, n+1), law: make([]series, 0, n), step: make([][4]float64, 0, n+1),
		at: math.NaN(), cubic: true,
	}
	var before [4]float64
	for i := range r.pieces {
		p := &r.pieces[i]
		law := p.riseLaw().integral(p.start.up)
		for k := range law.n {
			law.c[k] *= l.sign
		}
		out.cubic = out.cubic && law.n <= 4
		out.place, out.law = append(out.place, p.from), append(out.law, law)
		gain := minus(law.derivatives(0), before)
		if i == 0 {
			// Disturbed at the very end: an axle there may be on either side.
			out.disturb(l.sign, p.jump, 0)
			gain = minus(gain, out.own)
		}
		if p.lawStart == 0 {
			out.step = append(out.step, gain)
		} else {
			out.own, out.at = gain, p.from
		}
		before = law.derivatives(p.length())
	}
	length := r.beam.layout.Length
	out.disturb(l.sign, l.last, length)
	out.place = append(out.place, length)
	if out.at == length {
		before = minus(before, minus([4]float64{}, out.own))
	}
	out.step = append(out.step, minus([4]float64{}, before))
	return out
}

// disturb makes a jump at an end of the beam the line's own gain.
func (l *laws) disturb(sign float64, jump state, at float64) {
	if jump.up != 0 || jump.slope != 0 {
		l.own, l.at = [4]float64{sign * jump.up, sign * jump.slope}, at
	}
}

func minus(a, b [4]float64) [4]float64 {
	return [4]float64{a[0] - b[0], a[1] - b[1], a[2] - b[2], a[3] - b[3]}
}

// derivatives is the value at s, and for a cubic its three derivatives too.
func (p *series) derivatives(s float64) [4]float64 {
	c := &p.c
	return [4]float64{
		p.at(s),
		c[1] + s*(2*c[2]+s*3*c[3]),
		2*c[2] + s*6*c[3],
		6 * c[3],
	}
}

// under is the effect of the train as a power series in the way it rolls on
// from low (place of the front axle, m), valid until high: no axle reaches a
// cut between the two.
func (p *passage) under(l *laws, low, high float64) series {
	sum := series{n: 1}
	middle := low + (high-low)/2
	for j, force := range p.force {
		x := middle - p.behind[j]
		if x < 0 || x > l.place[len(l.place)-1] {
			continue
		}
		i, exact := slices.BinarySearch(l.place, x)
		if !exact {
			i--
		}
		i = min(i, len(l.law)-1)
		law := &l.law[i]
		sum.addShifted(law.c[:law.n], low-p.behind[j]-l.place[i], force)
	}
	return sum
}

// addShifted adds factor times the series of c seen from by further right.
func (p *series) addShifted(c []float64, by, factor float64) {
	var moved [wide]float64
	n := copy(moved[:], c)
	for i := range n - 1 {
		for j := n - 2; j >= i; j-- {
			moved[j] += by * moved[j+1]
		}
	}
	p.n = max(p.n, n)
	for i := range n {
		p.c[i] += factor * moved[i]
	}
}
