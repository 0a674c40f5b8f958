package beam_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
)

func bimomentOf(t testing.TB, w beam.Warping) beam.Bimoment {
	t.Helper()
	b, err := w.Solve()
	require.NoError(t, err)
	return b
}

// Vlasov's cantilever: B = T·sinh k(L−x)/(k·cosh kL), the whole torque is
// carried by warping at the fixed end.
func TestBimomentOfACantileverWithATorqueAtItsEnd(t *testing.T) {
	for _, gj := range []float64{3e5, 2e7, 4e9} {
		const length, ecw, torque = 8.0, 6e7, -40e3
		k := math.Sqrt(gj / ecw)
		b := bimomentOf(t, beam.Warping{Length: length, GJ: gj, ECw: ecw, Left: beam.WarpingRestrained, Torque: torque})
		for _, x := range []float64{0, 0.5, 3, 7.9, 8} {
			// Written with exponentials, so that a stiff member does not overflow.
			want := torque / k * (math.Exp(-k*x) - math.Exp(-k*(2*length-x))) / (1 + math.Exp(-2*k*length))
			got, warping := b.At(x)
			require.InDelta(t, want, got, 1e-9*math.Abs(torque)/k)
			part := (math.Exp(-k*x) + math.Exp(-k*(2*length-x))) / (1 + math.Exp(-2*k*length))
			require.InDelta(t, torque*part, warping, 1e-9*math.Abs(torque))
		}
	}
}

// The other way round the bimoment changes its sign with the torque's way along
// the member.
func TestBimomentOfACantileverToTheLeft(t *testing.T) {
	const length, gj, ecw, torque = 6.0, 5e6, 6e7, 25e3
	right := bimomentOf(t, beam.Warping{Length: length, GJ: gj, ECw: ecw, Left: beam.WarpingRestrained, Torque: torque})
	left := bimomentOf(t, beam.Warping{Length: length, GJ: gj, ECw: ecw, Right: beam.WarpingRestrained, Torque: torque})
	for _, x := range []float64{0, 1, 4, 6} {
		want, torqueWant := right.At(x)
		got, torqueGot := left.At(length - x)
		require.InDelta(t, -want, got, 1e-6)
		require.InDelta(t, torqueWant, torqueGot, 1e-6)
	}
}

// Uniform torque between forks: B = −(m/k²)·(1 − cosh k(L/2−x)/cosh(kL/2)).
func TestBimomentUnderUniformTorqueBetweenForks(t *testing.T) {
	const length, gj, ecw, density = 26.0, 8e7, 3e9, -7e3
	k := math.Sqrt(gj / ecw)
	b := bimomentOf(t, beam.Warping{Length: length, GJ: gj, ECw: ecw, Loads: []beam.TorqueLoad{{From: 0, To: length, Torque: density * length}}})
	for _, x := range []float64{0, 0.4, 5, 13, 20, 26} {
		got, warping := b.At(x)
		require.InDelta(t, -density/k/k*(1-math.Cosh(k*(length/2-x))/math.Cosh(k*length/2)), got, 1e-9*math.Abs(density)/k/k)
		require.InDelta(t, density/k*math.Sinh(k*(length/2-x))/math.Cosh(k*length/2), warping, 1e-9*math.Abs(density)/k)
	}
	// Without torsional stiffness it is bending under m: m·L²/8 at mid-span.
	soft := bimomentOf(t, beam.Warping{Length: length, GJ: 1e-6, ECw: ecw, Loads: []beam.TorqueLoad{{From: 0, To: length, Torque: density * length}}})
	got, _ := soft.At(length / 2)
	require.InEpsilon(t, -density*length*length/8, got, 1e-6)
}

// Central torque between forks: B = −T/(2k)·tanh(kL/2) there.
func TestBimomentUnderATorqueAtMidSpan(t *testing.T) {
	const length, gj, ecw, torque = 12.0, 8e6, 3e8, 50e3
	k := math.Sqrt(gj / ecw)
	b := bimomentOf(t, beam.Warping{Length: length, GJ: gj, ECw: ecw, Loads: []beam.TorqueLoad{{From: 6, To: 6, Torque: torque}}})
	got, warping := b.At(6)
	require.InEpsilon(t, -torque/(2*k)*math.Tanh(k*length/2), got, 1e-12)
	require.InDelta(t, 0, warping, 1e-6, "the mean of ± T/2")
	_, before := b.At(6 - 1e-9)
	_, after := b.At(6 + 1e-9)
	require.InDelta(t, torque/2, before, 1e-3)
	require.InDelta(t, -torque/2, after, 1e-3)
}

// B″ − k²B = m and the ends, on random members by differences.
func TestBimomentFulfilsItsEquation(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 4))
	for range 50 {
		length := 5 + 30*random.Float64()
		w := beam.Warping{Length: length, GJ: 1e7, ECw: math.Pow(10, 7+3*random.Float64()), Torque: 1e5 * random.NormFloat64(),
			Left: beam.WarpingEnd(random.IntN(2)), Right: beam.WarpingEnd(random.IntN(2))}
		for range 4 {
			a, b := random.Float64()*length, random.Float64()*length
			w.Loads = append(w.Loads, beam.TorqueLoad{From: math.Min(a, b), To: math.Max(a, b), Torque: 1e5 * random.NormFloat64()})
		}
		b := bimomentOf(t, w)
		k2, h := w.GJ/w.ECw, 1e-3
		density, torque := func(x float64) float64 {
			m := 0.0
			for _, load := range w.Loads {
				if x > load.From && x < load.To {
					m += load.Torque / (load.To - load.From)
				}
			}
			return m
		}, w.Torque
		for _, load := range w.Loads {
			torque -= load.Torque
		}
		for range 10 {
			x := h + random.Float64()*(length-2*h)
			if density(x-h) != density(x+h) {
				continue
			}
			value, _ := b.At(x)
			_, before := b.At(x - h)
			_, after := b.At(x + h)
			require.InDelta(t, density(x), -(after-before)/(2*h)-k2*value, 1e-4*(math.Abs(density(x))+k2*math.Abs(value)+1e3))
		}
		for i, end := range [2]beam.WarpingEnd{w.Left, w.Right} {
			value, warping := b.At([2]float64{0, length}[i])
			if end == beam.WarpingFree {
				require.InDelta(t, 0, value, 1e-5)
			} else {
				require.InDelta(t, [2]float64{w.Torque, torque}[i], warping, 1e-5, "no twist, so no Saint-Venant shear")
			}
		}
	}
}

func TestBimomentSums(t *testing.T) {
	base := beam.Warping{Length: 10, GJ: 1e7, ECw: 1e8, Left: beam.WarpingRestrained}
	one, two, both, split := base, base, base, base
	one.Loads = []beam.TorqueLoad{{From: 2, To: 7, Torque: 3e4}}
	two.Loads, two.Torque = []beam.TorqueLoad{{From: 4, To: 4, Torque: -1e4}}, 2e4
	both.Loads, both.Torque = append(append([]beam.TorqueLoad{}, one.Loads...), two.Loads...), 2e4
	split.Loads = []beam.TorqueLoad{{From: 2, To: 3, Torque: 6e3}, {From: 3, To: 7, Torque: 24e3}}
	for _, x := range []float64{0, 1, 2.5, 5, 9} {
		a, _ := bimomentOf(t, one).At(x)
		b, _ := bimomentOf(t, two).At(x)
		c, _ := bimomentOf(t, both).At(x)
		d, _ := bimomentOf(t, split).At(x)
		require.InDelta(t, a+b, c, 1e-6)
		require.InDelta(t, a, d, 1e-6)
	}
	// A torque at an end belongs to the support there.
	atEnd := two
	atEnd.Loads = append(append([]beam.TorqueLoad{}, two.Loads...), beam.TorqueLoad{Torque: 9e9}, beam.TorqueLoad{From: 10, To: 10, Torque: 9e9})
	require.Equal(t, bimomentOf(t, two), bimomentOf(t, atEnd))
	// Beyond the ends: that of the end.
	end, _ := bimomentOf(t, one).At(0)
	for _, x := range []float64{-1, math.NaN(), math.Inf(-1)} {
		got, _ := bimomentOf(t, one).At(x)
		require.Equal(t, end, got)
	}
	zero, torque := beam.Bimoment{}.At(1)
	require.Zero(t, zero)
	require.Zero(t, torque)
}

func TestWarpingRefuses(t *testing.T) {
	good := beam.Warping{Length: 10, GJ: 1e7, ECw: 1e8}
	for words, spoil := range map[string]func(*beam.Warping){
		"Warping.Length = 0 m":                 func(w *beam.Warping) { w.Length = 0 },
		"Warping.GJ = NaN N·m²":                func(w *beam.Warping) { w.GJ = math.NaN() },
		"Warping.ECw = +Inf N·m⁴":              func(w *beam.Warping) { w.ECw = math.Inf(1) },
		"Warping.Left = 7":                     func(w *beam.Warping) { w.Left = 7 },
		"Warping.Right = -1":                   func(w *beam.Warping) { w.Right = -1 },
		"Warping.Torque = NaN N·m":             func(w *beam.Warping) { w.Torque = math.NaN() },
		"Warping.Loads[0].Torque = +Inf N·m":   func(w *beam.Warping) { w.Loads = []beam.TorqueLoad{{Torque: math.Inf(1)}} },
		"Warping.Loads[0] from 3 m to 2 m":     func(w *beam.Warping) { w.Loads = []beam.TorqueLoad{{From: 3, To: 2}} },
		"Warping.Loads[0] from -1 m to 2 m":    func(w *beam.Warping) { w.Loads = []beam.TorqueLoad{{From: -1, To: 2}} },
		"Warping.Loads[0] from 0 m to 11 m":    func(w *beam.Warping) { w.Loads = []beam.TorqueLoad{{To: 11}} },
		"Warping.Loads[0] from NaN m to NaN m": func(w *beam.Warping) { w.Loads = []beam.TorqueLoad{{From: math.NaN(), To: math.NaN()}} },
	} {
		w := good
		spoil(&w)
		_, err := w.Solve()
		require.ErrorIs(t, err, beam.ErrBeam)
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must be")
	}
}

func BenchmarkBimoment(b *testing.B) {
	w := beam.Warping{Length: 26, GJ: 8e7, ECw: 3e9, Loads: []beam.TorqueLoad{{To: 26, Torque: 1e5}, {From: 3, To: 3, Torque: 2e4}}}
	b.ReportAllocs()
	for b.Loop() {
		solved, err := w.Solve()
		if err != nil {
			b.Fatal(err)
		}
		solved.At(11)
	}
}
