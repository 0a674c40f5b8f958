package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// The hand calculation of the whole example at mid-span and at a lift point, in
// plain arithmetic: no package of the library is called. Forces in kN, lengths
// in m, stresses in MPa (tension +).

// trapezia sums area, first and second moment about z = 0 of a box drawn as
// horizontal strips: widths at the bottom and the top of each strip.
func trapezia(strips [][4]float64) (area, first, second float64) {
	for _, s := range strips {
		z, h, b, t := s[0], s[1], s[2], s[3] // level of the bottom, height, widths
		a := h * (b + t) / 2
		c := z + h*(b+2*t)/(3*(b+t))
		own := h * h * h * (b*b + 4*b*t + t*t) / (36 * (b + t))
		area, first, second = area+a, first+a*c, second+own+a*c*c
	}
	return area, first, second
}

func grossByHand() (area, level, inertia float64) {
	outer := [][4]float64{{0, 1.95, 4.3, 4.9}, {1.95, 0.19, 4.9, 9.0}, {2.14, 0.16, 9.0, 9.0}}
	slope := 0.3 / 1.95
	inner := func(z float64) float64 { return 2 * (2.15 + slope*z - 0.34*math.Sqrt(1+slope*slope)) }
	void := [][4]float64{
		{0.20, 0.15, inner(0.20) - 0.6, inner(0.35)}, // bottom haunches, 0.3 each
		{0.35, 1.60, inner(0.35), inner(1.95)},
		{1.95, 0.15, inner(1.95), inner(2.10) - 1.0}, // top haunches, 0.5 each
	}
	a, s, i := trapezia(outer)
	av, sv, iv := trapezia(void)
	area, first := a-av, s-sv
	level = first / area
	return area, level, i - iv - area*level*level
}

// wire is a pair of tendons, left and right.
type wire struct{ anchor, low float64 }

var wires = []wire{{0.45, 0.14}, {0.83, 0.27}, {1.21, 0.40}, {1.59, 0.53}}

const lean = 0.3 / 1.95 // of the web, y against z

func (w wire) slope() float64 { return (w.anchor - w.low) / (2.5 + 10.5/2) } // at the anchor

func (w wire) level(x float64) float64 {
	switch {
	case x <= 2.5:
		return w.anchor - w.slope()*x
	case x <= 13:
		return w.low + w.slope()*(13-x)*(13-x)/(2*10.5)
	}
	return w.low
}

func (w wire) slopeAt(x float64) float64 {
	switch {
	case x <= 2.5:
		return w.slope()
	case x <= 13:
		return w.slope() * (13 - x) / 10.5
	}
	return 0
}

// turned is the angle from the anchor to x ≤ 17, in the leaning plane of the web.
func (w wire) turned(x float64) float64 {
	k := math.Sqrt(1 + lean*lean)
	return math.Atan(w.slope()*k) - math.Atan(w.slopeAt(x)*k)
}

// along integrates f ds from the anchor to x ≤ 17 by Simpson's rule.
func (w wire) along(x float64, f func(x float64) float64) float64 {
	const n = 4000
	k := math.Sqrt(1 + lean*lean)
	sum := 0.0
	for _, part := range [][2]float64{{0, math.Min(x, 2.5)}, {2.5, math.Min(x, 13)}, {13, x}} {
		if part[1] <= part[0] {
			continue
		}
		h := (part[1] - part[0]) / n
		for i := range n + 1 {
			at := part[0] + h*float64(i)
			weight := float64(2 + 2*(i%2))
			if i == 0 || i == n {
				weight = 1
			}
			sum += weight * h / 3 * f(at) * math.Sqrt(1+w.slopeAt(at)*w.slopeAt(at)*k*k)
		}
	}
	return sum
}

func (w wire) exponent(x, length float64) float64 { return 0.19 * (w.turned(x) + 0.005*length) }

// force is the force of one tendon at x ≤ 17 after friction and draw-in: both
// draw-ins reach mid-span, so the force rises from the anchor and half the
// tendon gives up Ep·Ap·w = 195·1800·6 kN·mm = 2106 kN·m.
func (w wire) force(x float64) float64 {
	length := func(x float64) float64 { return w.along(x, func(float64) float64 { return 1 }) }
	full := length(17)
	// exp(±f) needs s at each x: along the way s grows almost evenly, so it is
	// integrated once and read off by its own formula on each piece.
	s := func(x float64) float64 {
		k2 := w.slope() * w.slope() * (1 + lean*lean)
		arc := func(m float64) float64 { return (m*math.Sqrt(1+m*m) + math.Asinh(m)) / 2 }
		if x <= 2.5 {
			return x * math.Sqrt(1+k2)
		}
		m, c := math.Sqrt(k2), math.Sqrt(k2)/10.5
		if x <= 13 {
			return 2.5*math.Sqrt(1+k2) + (arc(m)-arc(m-c*(x-2.5)))/c
		}
		return 2.5*math.Sqrt(1+k2) + arc(m)/c + x - 13
	}
	if math.Abs(s(17)-full) > 1e-9 {
		return math.NaN()
	}
	jack := 1400 * 1.8
	down := w.along(17, func(x float64) float64 { return math.Exp(-w.exponent(x, s(x))) })
	up := w.along(17, func(x float64) float64 { return math.Exp(w.exponent(x, s(x))) })
	anchor := (jack*down - 2106) / up
	return anchor * math.Exp(w.exponent(x, s(x)))
}

// hand is the section and the tendons at one x.
type hand struct {
	x                    float64
	area, level, inertia float64 // net
	normal, moment       float64 // of the prestress, after elastic losses
	force                [4]float64
}

// stress runs the steps of stressing: pairs in order with Ecm of the day (GPa).
func (h *hand) stress(pairs []int, modulus []float64) {
	for k, i := range pairs {
		w := wires[i]
		cosine := 1 / math.Sqrt(1+w.slopeAt(h.x)*w.slopeAt(h.x)*(1+lean*lean))
		h.force[i] = w.force(h.x)
		n := -2 * h.force[i] * cosine
		m := -n * (w.level(h.x) - h.level)
		h.normal, h.moment = h.normal+n, h.moment+m
		for _, j := range pairs[:k] {
			v := wires[j]
			arm := v.level(h.x) - h.level
			compression := -(n/h.area - m*arm/h.inertia) / 1000 // MPa
			loss := 195 / modulus[k] * compression * 1.8        // kN
			h.force[j] -= loss
			c := 1 / math.Sqrt(1+v.slopeAt(h.x)*v.slopeAt(h.x)*(1+lean*lean))
			h.normal += 2 * loss * c
			h.moment -= 2 * loss * c * arm
		}
	}
}

func newHand(x float64) *hand {
	a, z, i := grossByHand()
	hole := math.Pi * 0.09 * 0.09 / 4
	area, first := a, a*z
	for _, w := range wires {
		area -= 2 * hole
		first -= 2 * hole * w.level(x)
	}
	level := first / area
	inertia := i + a*(z-level)*(z-level)
	for _, w := range wires {
		inertia -= 2 * (hole*(w.level(x)-level)*(w.level(x)-level) + math.Pi*math.Pow(0.09, 4)/64)
	}
	return &hand{x: x, area: area, level: level, inertia: inertia}
}

// at is the stress at level z under a moment of the weight (kN·m) and r times
// the prestress, all on the net section.
func (h *hand) at(z, weight, r float64) float64 {
	arm := z - h.level
	return (r*(h.normal/h.area-h.moment*arm/h.inertia) - weight*arm/h.inertia) / 1000
}

// weightMoment is the moment of the weight at x ≤ 17 on supports at a and 34 − a.
func weightMoment(x, a float64) float64 {
	area, _, _ := grossByHand()
	g := area * 25
	reaction := g*17 + 126
	m := -g*x*x/2 - 16*(x-0.2) - 110*(x-0.8)
	if x > a {
		m += reaction * (x - a)
	}
	return m
}

const (
	ecm28 = 37.2778 // GPa, 22·(58/10)^0.3
	ecm2  = 32.3077 // ·(36/58)^0.3
)

// find is the station of a situation at x.
func find(t *testing.T, r stages.Record, stage, situation int, x float64) stages.Station {
	for _, s := range r.Stages[stage-1].Situations[situation-1].Stations {
		if math.Abs(s.X-x) < 1e-9 {
			return s
		}
	}
	t.Fatalf("stage %d has no station at x = %g", stage, x)
	return stages.Station{}
}

func TestHandCalculation(t *testing.T) {
	r := record(t)
	area, level, inertia := grossByHand()
	given := map[string]float64{}
	for _, group := range r.Inputs {
		for _, line := range group.Lines {
			given[line.Result.Symbol] = line.Result.Value
		}
	}
	require.InEpsilon(t, area, given["A_c"], 1e-9)
	require.InEpsilon(t, level, given["z_c"], 1e-9)
	require.InEpsilon(t, inertia, given["I_c"], 1e-9)
	require.InEpsilon(t, (area*25*34+252)*1e3, given["G"], 1e-9)

	require.InDelta(t, 22*math.Pow(5.8, 0.3), ecm28, 1e-4)
	require.InDelta(t, ecm28*math.Pow(36.0/58, 0.3), ecm2, 1e-3)
	young := []float64{ecm2, ecm2, ecm2}

	// Stage 1, mid-span: transfer on the ends, prestress 0.9 and 1.1, weight ± 3 %.
	mid := newHand(17)
	mid.stress([]int{1, 2, 3}, young)
	m := weightMoment(17, 0)
	s := find(t, r, 1, 1, 17)
	require.InEpsilon(t, m*1e3, s.Weight.My, 1e-6)
	require.InEpsilon(t, mid.normal*1e3, s.Prestress.N, 1e-5)
	require.InEpsilon(t, mid.moment*1e3, s.Prestress.My, 1e-5)
	require.InDelta(t, mid.at(0, 1.03*m, 0.9), s.BottomMost/1e6, 2e-4)
	require.InDelta(t, mid.at(0, 0.97*m, 1.1), s.BottomLeast/1e6, 2e-4)
	require.InDelta(t, r.Stages[0].Situations[0].Tendons[0].Middle/1e3, mid.force[1], 0.02, "W2L")

	// Stage 2, lift point x = 4 m: hogging × 1.03 × 1.1 with prestress 0.9 opens the top.
	lift := newHand(4)
	lift.stress([]int{1, 2, 3}, young)
	h := weightMoment(4, 4)
	s = find(t, r, 2, 1, 4)
	require.InDelta(t, lift.at(2.3, 1.03*1.1*h, 0.9), s.TopMost/1e6, 2e-4)
	require.InDelta(t, lift.at(0, 1.03*1.1*h, 1.1), s.BottomLeast/1e6, 2e-4)
	worst := r.Stages[1].Situations[0].Checks[1]
	require.Equal(t, "concrete tension", worst.Name)
	require.InDelta(t, lift.at(2.3, 1.03*1.1*h, 0.9), worst.Demand.Value/1e6, 2e-4)

	// Stage 6, mid-span: storage on the net section, then the change to the
	// bearings on the transformed one.
	mid = newHand(17)
	mid.stress([]int{1, 2, 3, 0}, append(young, ecm28*math.Pow(math.Exp(0.2*(1-math.Sqrt2)), 0.3)))
	n := 195 / ecm28
	steel := (n - 1) * 1.8e-3
	at, first, it := area, area*level, 0.0
	for _, w := range wires {
		at += 2 * steel
		first += 2 * steel * w.low
	}
	zt := first / at
	it = inertia + area*(level-zt)*(level-zt)
	for _, w := range wires {
		it += 2 * (steel*(w.low-zt)*(w.low-zt) + (n-1)*1.8e-3*1.8e-3/(4*math.Pi))
	}
	store, seat := weightMoment(17, 1.6), weightMoment(17, 0.7)
	bottom := func(weight, r float64) float64 {
		return mid.at(0, weight*store, r) + weight*(seat-store)*zt/it/1000
	}
	s = find(t, r, 6, 1, 17)
	require.InDelta(t, bottom(1.03, 0.9), s.BottomMost/1e6, 2e-4)
	require.InDelta(t, bottom(0.97, 1.1), s.BottomLeast/1e6, 2e-4)
}
