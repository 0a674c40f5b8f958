package tendon

import (
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// zone is a length on which P = at0·exp(sign·f), f = μ(θ + k·s) from the left.
type zone struct {
	from, to float64
	at0      float64 // N
	sign     float64 // −1 falls to the right, +1 rises to the right
	law      law
	mirror   float64 // x where a draw-in zone ends, for laws that have one
	jack     float64 // force at the jack that set the zone, N, for laws that start from it
}

// force is the force where the exponent is f (N).
func (z zone) force(f float64) float64 { return z.at0 * math.Exp(z.sign*f) }

// law is the formula of a zone.
type law int

const (
	fromLeft    law = iota // friction from the left jack
	fromRight              // friction from the right jack
	leftDrawIn             // inside the draw-in length of the left anchor
	rightDrawIn            // inside the draw-in length of the right anchor
	leftWhole              // friction reversed from the left anchor, whatever was before
	rightWhole
)

// side is the end of a tendon that moves.
type side int

const (
	left  side = 0
	right side = 1
)

// pulled is the curve from a jack at the end: falls away from it.
func (f *Force) pulled(end side, jack float64) zone {
	z := zone{at0: jack, sign: -1, law: fromLeft, jack: jack}
	if end == right {
		z.at0, z.sign, z.law = jack*math.Exp(-f.total), 1, fromRight
	}
	return z
}

// eased is the curve from an anchor that gives way: rises away from it.
func (f *Force) eased(end side, anchor float64) zone {
	z := zone{at0: anchor, sign: 1, law: leftWhole}
	if end == right {
		z.at0, z.sign, z.law = anchor*math.Exp(f.total), -1, rightWhole
	}
	return z
}

// replace puts a curve in place of the zones from an end up to where it meets
// them. Friction reverses with the direction of slip, so a curve that runs
// parallel to a zone never meets it and one that runs against it meets it once.
func (f *Force) replace(zones []zone, end side, by zone, above bool) []zone {
	reach := f.meeting(zones, end, by, above)
	kept := clip(zones, f.Path.From(), reach)
	if end == left {
		kept = clip(zones, reach, f.Path.To())
	}
	by.from, by.to = f.Path.From(), reach
	if end == right {
		by.from, by.to = reach, f.Path.To()
	}
	if by.to <= by.from {
		return zones
	}
	if end == left {
		return append([]zone{by}, kept...)
	}
	return append(kept, by)
}

// meeting is where a curve that starts at an end above (below) the zones meets
// them, the far end if it does not.
func (f *Force) meeting(zones []zone, end side, by zone, above bool) float64 {
	near, far := f.Path.From(), f.Path.To()
	order := 1
	if end == right {
		near, far, order = far, near, -1
	}
	reach := near
	for n := range zones {
		z := zones[n]
		if order < 0 {
			z = zones[len(zones)-1-n]
		}
		a, b := z.from, z.to
		if order < 0 {
			a, b = b, a
		}
		gap := func(x float64) float64 {
			e := f.exponentIn(z, x)
			d := by.force(e) - z.force(e)
			if !above {
				d = -d
			}
			return d
		}
		if gap(a) <= 0 {
			return reach
		}
		if z.sign != by.sign && gap(b) < 0 {
			return f.Path.snapped(crossing(math.Min(a, b), math.Max(a, b), gap))
		}
		reach = b
	}
	return far
}

// clip is the parts of zones between two places.
func clip(zones []zone, from, to float64) []zone {
	kept := make([]zone, 0, len(zones)+1)
	for _, z := range zones {
		z.from, z.to = math.Max(z.from, from), math.Min(z.to, to)
		if z.from < z.to {
			kept = append(kept, z)
		}
	}
	return kept
}

// crossing is where a function passes zero between a and b, where it is known to
// do so; a function that does not is met at the end where it is nearer zero.
func crossing(a, b float64, f func(float64) float64) float64 {
	x, err := formula.Root(a, b, func(x float64) (float64, error) { return f(x), nil })
	if err != nil && math.Abs(f(a)) < math.Abs(f(b)) {
		return a
	}
	if err != nil {
		return b
	}
	return x
}

// snapped is x, or the end of a stretch as near as two ends of pieces may be to
// count as one: curves that meet at a kink do so there, but for rounding.
func (p *Path) snapped(x float64) float64 {
	for i := range p.stretches {
		for _, end := range [...]float64{p.stretches[i].from, p.stretches[i].to} {
			if math.Abs(x-end) <= jumpTolerance {
				return end
			}
		}
	}
	return x
}

// sum is ∫ exp(f) ds and ∫ exp(−f) ds over a whole stretch.
type sum struct{ plus, minus float64 }

func (s sum) of(sign float64) float64 {
	if sign < 0 {
		return s.minus
	}
	return s.plus
}

// accumulate fills the sums of the stretches. They are added up, never
// subtracted: f may range over many powers of e.
func (f *Force) accumulate() {
	f.sums = make([]sum, len(f.Path.stretches))
	for i := range f.sums {
		s := &f.Path.stretches[i]
		f.sums[i] = sum{f.partial(s, 1, s.from, s.to), f.partial(s, -1, s.from, s.to)}
	}
	f.total = f.exponent(f.Path.To())
}

// partial is ∫ exp(sign·f) ds from a to b, both in one stretch.
func (f *Force) partial(s *stretch, sign, a, b float64) float64 {
	mu, k := f.Tendon.Friction, f.Tendon.Wobble
	if s.straight {
		before := s.arc(a)
		length, rate := s.arc(b)-before, sign*mu*k
		start := math.Exp(sign * mu * (s.angle + k*(s.length+before)))
		if math.Abs(rate*length) < 1e-8 { // the linear term of expm1 is all that is left
			return start * length * (1 + rate*length/2)
		}
		return start * math.Expm1(rate*length) / rate
	}
	return integrate(a, b, s.panels, func(x float64) float64 {
		return math.Exp(sign*mu*(s.angle+s.turn(x)+k*(s.length+s.arc(x)))) * s.rate(x)
	})
}

// integral is ∫ exp(sign·f) ds from a to b.
func (f *Force) integral(sign, a, b float64) float64 {
	sum := 0.0
	for i := range f.Path.stretches {
		s := &f.Path.stretches[i]
		low, high := math.Max(a, s.from), math.Min(b, s.to)
		switch {
		case low >= high:
		case low == s.from && high == s.to:
			sum += f.sums[i].of(sign)
		default:
			sum += f.partial(s, sign, low, high)
		}
	}
	return sum
}

// work is ∫P ds of zones from a to b (N·m).
func (f *Force) work(zones []zone, a, b float64) float64 {
	sum := 0.0
	for _, z := range zones {
		if low, high := math.Max(a, z.from), math.Min(b, z.to); low < high {
			sum += z.at0 * f.integral(z.sign, low, high)
		}
	}
	return sum
}
