package segmental_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// castInward is the deviation of the integration nodes from the ends of stretches, see the
// tests of movements in package stages.
const castInward = 1e-7

// byWeight is the total deflection at x from the pier axis of an arm that is built of
// segments of constant depth without creep: the part of each stage is that of a uniform
// load w from p to q on a cantilever of the stiffness EI, and beyond q its tangent,
//
//	x ≤ p: −w(q − p)·x²(3(p + q)/2 − x)/6EI
//	x ≥ q: −w(3q⁴ − 4p³q + p⁴)/24EI − w(q³ − p³)(x − q)/6EI
func byWeight(n int, x, w, ei float64) (sum float64) {
	p, q := 0.0, castHalf
	for range n + 1 {
		if x <= p+1e-9 {
			sum -= w * (q - p) * x * x * (3*(p+q)/2 - x) / 6 / ei
		} else {
			sum -= w*(3*math.Pow(q, 4)-4*math.Pow(p, 3)*q+math.Pow(p, 4))/24/ei + w*(math.Pow(q, 3)-math.Pow(p, 3))*(x-q)/6/ei
		}
		p, q = q, q+castLength
	}
	return sum
}

// A cantilever built step by step on the tangent of its tip, in closed form.
func TestCastingByWeightInClosedForm(t *testing.T) {
	f := fan{n: 5, depth: level(2), concrete: steady{}}
	a := analysed(t, f.deck(t), f.on(), f.steps(10, 3)...)
	w, ei := castWidth*2*castUnit, steadyModulus*castWidth*8/12
	middle := f.arms() / 2
	m := movedBy(t, a, 5, 2)[0]
	for k := range 6 {
		x := castHalf + castLength*float64(k)
		want := byWeight(5, x, w, ei)
		require.InEpsilon(t, want, m.At(middle+x).Deflection, castInward, "joint %d", k)
		require.InEpsilon(t, want, m.At(middle-x).Deflection, castInward, "joint %d, left", k)
	}
	const l = castHalf + 5*castLength
	require.InEpsilon(t, -w*math.Pow(l, 4)/8/ei, m.At(2*middle).Deflection, castInward, "with one modulus as if it were built at once")
	require.Equal(t, []float64{middle}, m.Datum())
}

// The same with a tendon couple at each stage: tendon k reaches joint k, all at one level;
// each takes (Ep/Ec)·σc from those stressed before. Ducts are holes from the beginning.
func TestCastingWithTendonCouplesInClosedForm(t *testing.T) {
	const n = 5
	with := fan{n: n, depth: level(2), concrete: steady{}, tendons: true}
	steps := with.steps(10, 3)
	for i := range steps {
		steps[i].Moves = steps[i].Moves[:2]
	}
	both := movedBy(t, analysed(t, with.deck(t), with.on(), with.steps(10, 3)...), n, 3)[0]
	weight := movedBy(t, analysed(t, with.deck(t), with.on(), steps...), n, 2)[0]

	const gross = castWidth * 2
	const hole = 2 * math.Pi * castDuct * castDuct / 4  // of a pair
	net := func(ducts int) (area, e, inertia float64) { // region that so many ducts pass
		h := float64(ducts) * hole
		area = gross - h
		z := (-gross*1 + h*0.3) / area
		inertia = castWidth*8/12 + gross*(z+1)*(z+1) - h*(z+0.3)*(z+0.3) - 2*float64(ducts)*math.Pi*math.Pow(castDuct/2, 4)/4
		return area, -0.3 - z, inertia
	}
	const force, ratio, steel = 300e-6 * castStress, 195e9 / steadyModulus, 300e-6
	var curvature [n + 1]float64 // of region r: 0 is the segment on the pier
	for r := range n + 1 {
		passing := n - max(r, 1) + 1
		area, e, inertia := net(passing)
		sum := 0.0 // of the forces
		for j := max(r, 1); j <= n; j++ {
			earlier := float64(j - max(r, 1))
			sum += force - earlier*steel*ratio*force*(1/area+e*e/inertia)
		}
		curvature[r] = sum * e / inertia / steadyModulus // a tendon above the centroid raises the tips
	}
	middle := with.arms() / 2
	for k := 1; k <= n; k++ {
		x, want, p := castHalf+castLength*float64(k), 0.0, 0.0
		for r := range k + 1 {
			q := castHalf + castLength*float64(r)
			want += curvature[r] * (q - p) * (x - (p+q)/2)
			p = q
		}
		got := both.At(middle+x).Deflection - weight.At(middle+x).Deflection
		require.InEpsilon(t, want, got, 2e-7, "joint %d", k)
		require.Positive(t, got)
	}
}

// The same with varying depth against Simpson's rule in each stage, without the engine: the
// weight of stage j bends what stands, beyond it the tangent.
func TestCastingOfVaryingDepthByOwnIntegration(t *testing.T) {
	const n = 4
	depth := func(x float64) float64 { // straight from joint to joint, as the tapers are
		full := func(x float64) float64 { u := 1 - math.Abs(x)/(castHalf+castLength*n); return 1.5 + 2*u*u }
		x = math.Abs(x)
		if x < castHalf {
			return full(castHalf) // both faces of the segment on the pier
		}
		k := math.Min(n-1, math.Floor((x-castHalf)/castLength))
		p := castHalf + castLength*k
		return full(p) + (full(p+castLength)-full(p))*(x-p)/castLength
	}
	f := fan{n: n, depth: depth, concrete: steady{}}
	m := movedBy(t, analysed(t, f.deck(t), f.on(), f.steps(10, 3)...), n, 2)[0]
	simpson := func(a, b float64, of func(float64) float64) float64 {
		const parts = 40
		sum, h := 0.0, (b-a)/parts
		for i := range parts + 1 {
			weight := []float64{2, 4}[i%2]
			if i == 0 || i == parts {
				weight = 1
			}
			sum += weight * h / 3 * of(a+float64(i)*h)
		}
		return sum
	}
	joint := func(k int) float64 { return castHalf + castLength*float64(k) }
	for k := range n + 1 {
		x, want := joint(k), 0.0
		for j := range n + 1 { // weight of stage j, from p to q
			p, q := 0.0, joint(j)
			if j > 0 {
				p = joint(j - 1)
			}
			moment := func(s float64) float64 {
				return simpson(math.Max(s, p), q, func(u float64) float64 { return castWidth * depth(u) * castUnit * (u - s) })
			}
			for i := range j + 1 { // bends segment i
				from, to := 0.0, joint(i)
				if i > 0 {
					from = joint(i - 1)
				}
				want -= simpson(from, math.Min(to, math.Max(from, x)), func(s float64) float64 {
					return (x - s) * moment(s) / (steadyModulus * castWidth * math.Pow(depth(s), 3) / 12)
				})
			}
		}
		require.InEpsilon(t, want, m.At(f.arms()/2+x).Deflection, 2e-7, "joint %d", k)
	}
}
