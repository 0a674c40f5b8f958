package tendon

import (
	"fmt"
	"math"
)

// lockOff fills the zones: the jacked curves, then the draw-in of each jacked
// end with friction reversed.
func (f *Force) lockOff() error {
	slip := f.Jacking.DrawIn * f.Tendon.Strand.Modulus * f.Tendon.Area() // ∫ΔP ds that locks the wedges
	f.zones = f.jacked
	if slip == 0 {
		return nil
	}
	switch f.Jacking.Ends {
	case LeftEnd:
		return f.slipOneEnd(left, slip)
	case RightEnd:
		return f.slipOneEnd(right, slip)
	}
	fromLeft, wholeLeft := f.reach(left, slip)
	fromRight, wholeRight := f.reach(right, slip)
	if wholeLeft || wholeRight || fromLeft > fromRight {
		return f.slipsMeet(slip)
	}
	drawnLeft, drawnRight := f.drawn(left, fromLeft, slip), f.drawn(right, fromRight, slip)
	f.zones = append([]zone{drawnLeft}, append(clip(f.jacked, fromLeft, fromRight), drawnRight)...)
	return nil
}

// loss is ∫ΔP ds when the draw-in of an end reaches x, where the force does not change.
func (f *Force) loss(end side, x float64) float64 {
	force, e := f.value(f.jacked, x), f.exponent(x)
	if end == left {
		from := f.Path.From()
		return f.work(f.jacked, from, x) - force*math.Exp(-e)*f.integral(1, from, x)
	}
	to := f.Path.To()
	return f.work(f.jacked, x, to) - force*math.Exp(e)*f.integral(-1, x, to)
}

// reach is the x that the draw-in of an end reaches, and whether the whole tendon is
// too short for it. The loss grows with the reach: it is bracketed by the places where
// a law changes, then solved between two of them.
func (f *Force) reach(end side, slip float64) (x float64, whole bool) {
	places := breaks(f.Path, f.jacked)
	if end == right {
		for i, j := 0, len(places)-1; i < j; i, j = i+1, j-1 {
			places[i], places[j] = places[j], places[i]
		}
	}
	for i := 1; i < len(places); i++ {
		if f.loss(end, places[i]) >= slip {
			x := crossing(math.Min(places[i-1], places[i]), math.Max(places[i-1], places[i]), func(x float64) float64 { return f.loss(end, x) - slip })
			return f.Path.snapped(x), false
		}
	}
	return places[len(places)-1], true
}

// drawn is the zone from an end to x that its slip reaches. Where it meets the curve of
// its own jack it is that curve mirrored; a slip that stops at a kink or meets another
// curve has no mirror point.
func (f *Force) drawn(end side, x, slip float64) zone {
	from, to := f.Path.From(), x
	z := zone{from: from, to: to, sign: 1, law: leftWhole, mirror: x}
	own, mirrored := f.jacked[0], leftDrawIn
	if end == right {
		from, to = x, f.Path.To()
		z = zone{from: from, to: to, sign: -1, law: rightWhole, mirror: x}
		own, mirrored = f.jacked[len(f.jacked)-1], rightDrawIn
	}
	z.at0 = (f.work(f.jacked, from, to) - slip) / f.integral(z.sign, from, to)
	z.jack = own.jack
	ofJack := own.law == fromLeft && end == left && own.to >= x || own.law == fromRight && end == right && own.from <= x
	if at := own.at0 * math.Exp(2*own.sign*f.exponent(x)); ofJack && math.Abs(z.at0-at) <= 1e-9*at {
		z.law = mirrored
	}
	return z
}

// slipOneEnd applies the draw-in of the only jacked end; when the whole tendon
// is too short for it the force falls to the far end as well.
func (f *Force) slipOneEnd(end side, slip float64) error {
	x, whole := f.reach(end, slip)
	z := f.drawn(end, x, slip)
	if whole {
		z.law = leftWhole + law(end)
	}
	if z.at0 <= 0 {
		return f.noForceLeft()
	}
	if end == left {
		f.zones = append([]zone{z}, clip(f.jacked, x, f.Path.To())...)
	} else {
		f.zones = append(clip(f.jacked, f.Path.From(), x), z)
	}
	return nil
}

// slipsMeet solves two draw-ins that overlap: the point that does not move parts the
// tendon, each side gives its own slip, and the force is the same from both sides
// there.
func (f *Force) slipsMeet(slip float64) error {
	from, to := f.Path.From(), f.Path.To()
	leftAt := func(x float64) float64 { return (f.work(f.jacked, from, x) - slip) / f.integral(1, from, x) }
	rightAt := func(x float64) float64 { return (f.work(f.jacked, x, to) - slip) / f.integral(-1, x, to) }
	still := f.Path.snapped(crossing(from, to, func(x float64) float64 {
		e := f.exponent(x)
		switch { // all force gone on one side: the still point is on the other
		case x <= from:
			return -1
		case x >= to:
			return 1
		}
		return leftAt(x)*math.Exp(e) - rightAt(x)*math.Exp(-e)
	}))
	f.zones = []zone{
		{from: from, to: still, at0: leftAt(still), sign: 1, law: leftWhole},
		{from: still, to: to, at0: rightAt(still), sign: -1, law: rightWhole},
	}
	if !(f.zones[0].at0 > 0 && f.zones[1].at0 > 0) {
		return f.noForceLeft()
	}
	return nil
}

func (f *Force) noForceLeft() error {
	return fmt.Errorf("%w: tendon %s: Jacking.DrawIn = %g m takes the whole force of a tendon %.4g m long: must be less",
		ErrTendon, f.Tendon.Mark, f.Jacking.DrawIn, f.Path.Length(f.Path.To()))
}
