package tendon

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// lockOff fills the zones: friction curves from the jacked ends, then the
// draw-in of each jacked end.
func (f *Force) lockOff() error {
	from, to := f.Path.From(), f.Path.To()
	jack := f.Jacking.Stress * f.Tendon.Area()
	total := f.exponent(to)
	slip := f.Jacking.DrawIn * f.Tendon.Strand.Modulus * f.Tendon.Area() // ∫ΔP ds that locks the wedges
	left := zone{from: from, to: to, at0: jack, sign: -1, law: fromLeft}
	right := zone{from: from, to: to, at0: jack * math.Exp(-total), sign: 1, law: fromRight}
	switch f.Jacking.Ends {
	case LeftEnd:
		f.zones = []zone{left}
		return f.drawInOneEnd(slip, from, to)
	case RightEnd:
		f.zones = []zone{right}
		return f.drawInOneEnd(slip, from, to)
	}
	meet := crossing(from, to, func(x float64) float64 { return f.exponent(x) - total/2 })
	left.to, right.from = meet, meet
	f.zones = []zone{left, right}
	if slip == 0 {
		return nil
	}
	if f.loss(left, meet) >= slip && f.loss(right, meet) >= slip {
		f.zones = append(f.drawIn(left, slip), f.drawIn(right, slip)...)
		return nil
	}
	return f.drawInsMeet(slip, from, to)
}

// integral is ∫ exp(sign·f) ds from a to b, piece by piece.
func (f *Force) integral(sign, a, b float64) float64 {
	sum := 0.0
	for i := range f.Path.stretches {
		s := &f.Path.stretches[i]
		low, high := math.Max(a, s.from), math.Min(b, s.to)
		if low < high {
			sum += integrate(low, high, func(x float64) float64 {
				angle := s.angle + between(s.tangent(s.from), s.tangent(x))
				return math.Exp(sign*f.Tendon.Friction*(angle+f.Tendon.Wobble*(s.length+s.arc(x)))) * s.rate(x)
			})
		}
	}
	return sum
}

// loss is ∫ΔP ds when the draw-in of the zone's own end is felt up to x: the
// curve is mirrored about its value at x.
func (f *Force) loss(z zone, x float64) float64 {
	mirrored := z.at0 * math.Exp(2*z.sign*f.exponent(x))
	a, b := z.from, x
	if z.law == fromRight {
		a, b = x, z.to
	}
	return z.at0*f.integral(z.sign, a, b) - mirrored*f.integral(-z.sign, a, b)
}

// drawIn splits a friction zone where its end's draw-in ceases to be felt.
func (f *Force) drawIn(z zone, slip float64) []zone {
	if slip == 0 {
		return []zone{z}
	}
	x := crossing(z.from, z.to, func(x float64) float64 { return f.loss(z, x) - slip })
	a, b := z.from, x
	drawn := zone{from: z.from, to: x, sign: -z.sign, law: leftDrawIn, mirror: x}
	if z.law == fromRight {
		a, b = x, z.to
		drawn.from, drawn.to, drawn.law = x, z.to, rightDrawIn
	}
	drawn.at0 = (z.at0*f.integral(z.sign, a, b) - slip) / f.integral(-z.sign, a, b)
	if mirrored := z.at0 * math.Exp(2*z.sign*f.exponent(x)); math.Abs(drawn.at0-mirrored) > 1e-9*mirrored {
		drawn.law = leftWhole + law(z.law-fromLeft) // the slip stops at a kink: no mirror point
	}
	if z.law == fromRight {
		z.to = x
		return []zone{z, drawn}
	}
	z.from = x
	return []zone{drawn, z}
}

// drawInOneEnd applies the draw-in of the only jacked end; when the whole
// tendon is too short for it the force falls to the far end as well.
func (f *Force) drawInOneEnd(slip, from, to float64) error {
	z := f.zones[0]
	far := to
	if z.law == fromRight {
		far = from
	}
	if f.loss(z, far) >= slip {
		f.zones = f.drawIn(z, slip)
		return nil
	}
	at0 := (z.at0*f.integral(z.sign, from, to) - slip) / f.integral(-z.sign, from, to)
	if at0 <= 0 {
		return f.noForceLeft()
	}
	f.zones = []zone{{from: from, to: to, at0: at0, sign: -z.sign, law: leftWhole + law(z.law-fromLeft)}}
	return nil
}

// drawInsMeet solves two draw-ins that are felt beyond the meeting of the
// friction curves: the point that does not move parts the tendon, each side
// gives its own slip, and the force is the same from both sides there.
func (f *Force) drawInsMeet(slip, from, to float64) error {
	before := append([]zone(nil), f.zones...)
	force := func(a, b float64) float64 { // ∫P ds before locking off
		sum := 0.0
		for _, z := range before {
			if low, high := math.Max(a, z.from), math.Min(b, z.to); low < high {
				sum += z.at0 * f.integral(z.sign, low, high)
			}
		}
		return sum
	}
	left := func(x float64) float64 { return (force(from, x) - slip) / f.integral(1, from, x) }
	right := func(x float64) float64 { return (force(x, to) - slip) / f.integral(-1, x, to) }
	still := crossing(from, to, func(x float64) float64 {
		e := f.exponent(x)
		switch { // all force gone on one side: the still point lies on the other
		case x <= from:
			return -1
		case x >= to:
			return 1
		}
		return left(x)*math.Exp(e) - right(x)*math.Exp(-e)
	})
	f.zones = []zone{
		{from: from, to: still, at0: left(still), sign: 1, law: leftWhole},
		{from: still, to: to, at0: right(still), sign: -1, law: rightWhole},
	}
	if f.zones[0].at0 <= 0 || f.zones[1].at0 <= 0 {
		return f.noForceLeft()
	}
	return nil
}

func (f *Force) noForceLeft() error {
	return fmt.Errorf("%w: tendon %s: Jacking.DrawIn = %g m takes the whole force of a tendon %.4g m long: allowed less",
		ErrTendon, f.Tendon.Mark, f.Jacking.DrawIn, f.Path.Length(f.Path.To()))
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
