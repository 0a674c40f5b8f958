package ledger_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// tapered is a girder without symmetry whose width changes, with two tendons that
// cross its anchor zones, and entries with factors of every sort.
func tapered(t testing.TB, rng *rand.Rand) (*ledger.Ledger, *ledger.Situation, []ledger.Cause) {
	along, err := section.Taper{Left: lopsided(t, 1), Right: lopsided(t, 1.2+0.4*rng.Float64()), To: 14}.Along()
	require.NoError(t, err)
	l := one(14, along, straight(t, point{0, 0, 0.2}, point{14, 0, 0.2 + 0.3*rng.Float64()}, 1e-3, 0.05), straight(t, point{3, 0, 0.3}, point{14, 0, 0.7}, 1e-3, 0.05))
	on := state(l, 0)
	jack(l, on, 1e6*(0.5+rng.Float64()), 0)
	jack(l, on, 1e6*(0.5+rng.Float64()), 1)
	require.NoError(t, l.MakeGrid())
	var entries []ledger.Entry
	for i := range 4 {
		a, b, c := some(rng), some(rng), some(rng)
		f := &law{func(x float64) section.Forces { s := x / 14; return a.Plus(b.Times(s)).Plus(c.Times(s * s)) }}
		entries = append(entries, ledger.Entry{State: on, Field: f, Coefficient: 1, Inner: []int{2, 3, -1, 2}[i], Outer: [][]int{{1}, nil, {1}, nil}[i]})
	}
	return l, situation(l, entries...), []ledger.Cause{{Least: 0.9, Most: 1.1, Outer: true}, {Least: 0.85, Most: 1.15, Outer: true}, {Least: 0.97, Most: 1.03}, {Least: -1, Most: 1}}
}

// corners calls f with every corner of the causes.
func corners(causes []ledger.Cause, f func([]float64)) {
	factors := make([]float64, len(causes))
	for choice := range 1 << len(causes) {
		for i, c := range causes {
			factors[i] = c.Least
			if choice>>i&1 == 1 {
				factors[i] = c.Most
			}
		}
		f(factors)
	}
}

// The bound is exceeded by no sample of the stress with all tendons in full, under any
// factors; it is above the value by no more than a billionth of the largest stress.
func TestBoundIsNeverExceededAndNeverWasteful(t *testing.T) {
	rng := rand.New(rand.NewPCG(65, 66))
	for range 6 {
		l, s, causes := tapered(t, rng)
		d := demand(t, l, s, causes...)
		for _, sign := range []float64{1, -1} {
			w, err := d.Extreme(sign, 0, anywhere)
			require.NoError(t, err)
			require.GreaterOrEqual(t, w.Bound, sign*w.Value)
			size := math.Abs(w.Value)
			for i := range 60 {
				x := 14 * (float64(i) + rng.Float64()) / 60
				shape := l.Girder.Pieces[0].At(x)
				corners(causes, func(f []float64) {
					plane := l.Plane(s, x, f)
					for _, c := range shape.Corners() {
						v := sign * plane.At(c)
						size = math.Max(size, math.Abs(v))
						require.LessOrEqual(t, v, w.Bound+1e-9*size, "at %g", x)
					}
				})
			}
			require.LessOrEqual(t, w.Bound, sign*w.Value+1e-8*size)
		}
	}
}

// The factors and the place that are named give the value: by the rows of the sum,
// which know of no search.
func TestWorstIsWhatItsFactorsGive(t *testing.T) {
	rng := rand.New(rand.NewPCG(67, 68))
	apart := 0
	for range 15 {
		l, s, causes := tapered(t, rng)
		d := demand(t, l, s, causes...)
		for _, sign := range []float64{1, -1} {
			w, err := d.Extreme(sign, 0, anywhere)
			require.NoError(t, err)
			sum, _ := rows(l, l.Items(s, w.X, w.Factors, w.Apart), w.X, w.At)
			require.InEpsilon(t, w.Value, sum, 1e-9)
			for i, c := range causes {
				require.True(t, w.Factors[i] == c.Least || w.Factors[i] == c.Most, "an end of its range")
			}
			require.InDelta(t, 0, l.Girder.Pieces[0].At(w.X).Clearance(w.At), 1e-9, "on the outline")
			if len(w.Apart) > 0 {
				apart++
			}
			low, high, err := d.Fibres(w.X)
			require.NoError(t, err)
			if len(w.Apart) == 0 && w.At.Z == 0 {
				require.InEpsilon(t, w.Value, low[map[float64]int{1: 1, -1: 0}[sign]], 1e-9)
			}
			require.LessOrEqual(t, low[0], low[1])
			require.LessOrEqual(t, high[0], high[1])
		}
	}
	require.Positive(t, apart, "some in an anchorage zone")
}

// Fibres at a place are the best of all corners of the factors.
func TestFibresAreTheBestOfAllFactors(t *testing.T) {
	rng := rand.New(rand.NewPCG(69, 70))
	for range 10 {
		l, s, causes := tapered(t, rng)
		d := demand(t, l, s, causes...)
		x := 1 + 12*rng.Float64()
		low, high, err := d.Fibres(x)
		require.NoError(t, err)
		want := [4]float64{math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)}
		shape := l.Girder.Pieces[0].At(x)
		top := 0.0
		for _, c := range shape.Corners() {
			top = math.Max(top, c.Z)
		}
		corners(causes, func(f []float64) {
			plane := l.Plane(s, x, f)
			for _, c := range shape.Corners() {
				v := plane.At(c)
				if c.Z == 0 {
					want[0], want[1] = math.Min(want[0], v), math.Max(want[1], v)
				}
				if c.Z == top {
					want[2], want[3] = math.Min(want[2], v), math.Max(want[3], v)
				}
			}
		})
		require.InDelta(t, want[0], low[0], 1e-3)
		require.InDelta(t, want[1], low[1], 1e-3)
		require.InDelta(t, want[2], high[0], 1e-3)
		require.InDelta(t, want[3], high[1], 1e-3)
	}
}

// Prestress that also multiplies another cause is tried as an outer one: a restraint
// by prestress with a dynamic factor.
func TestPrestressThatMultipliesOthers(t *testing.T) {
	l := one(10, rectangle(t, 0.4, 0.9, 0, 0), straight(t, point{0, 0, 0.3}, point{10, 0, 0.3}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	w := 0.4 * 0.81 / 6
	own := func(z float64) float64 { return -1e6/0.36 - 1e6*(0.3-0.45)*(z-0.45)/(0.4*0.729/12) }
	for _, c := range []struct {
		outer []int
		inner int
		want  float64 // the largest stress at the soffit
	}{
		{[]int{prestress, 1}, -1, math.Max(math.Max(0.9*own(0)+0.9*1.2*2e5/w, 1.1*own(0)+1.1*1.2*2e5/w), 0.9*own(0)+0.9*0.8*2e5/w)},
		{[]int{prestress}, 2, math.Max(0.9*own(0)+0.9*2e5/w, 1.1*own(0)+1.1*2e5/w)},
		{[]int{prestress}, -1, math.Max(0.9*(own(0)+2e5/w), 1.1*(own(0)+2e5/w))},
		{nil, 2, 0.9*own(0) + 2e5/w},
	} {
		s := situation(l, ledger.Entry{State: on, Field: level(section.Forces{My: 2e5}), Coefficient: 1, Inner: c.inner, Outer: c.outer})
		d := demand(t, l, s, ledger.Cause{Least: 0.9, Most: 1.1, Outer: true}, ledger.Cause{Least: 0.8, Most: 1.2, Outer: true}, ledger.Cause{Least: -1, Most: 1})
		low, _, err := d.Fibres(5)
		require.NoError(t, err)
		require.InDelta(t, c.want, low[1], 1, "%v %d", c.outer, c.inner)
	}
}
