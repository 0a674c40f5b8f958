package ledger_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// some forces with all six components.
func some(rng *rand.Rand) section.Forces {
	n := func() float64 { return 1e5 * rng.NormFloat64() }
	return section.Forces{N: n(), Vy: n(), Vz: n(), T: n(), My: n(), Mz: n()}
}

// What two entries do together is the sum of what each does, times its coefficient
// and the factors of its causes.
func TestEntriesAddUpUnderTheirFactors(t *testing.T) {
	rng := rand.New(rand.NewPCG(53, 54))
	l := one(10, lopsided(t, 1))
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	for range 50 {
		f, g, h := some(rng), some(rng), some(rng)
		s := situation(l,
			ledger.Entry{State: on, Field: level(f), Coefficient: -2.5, Inner: 1, Outer: []int{2}},
			ledger.Entry{State: on, Field: level(g), Coefficient: 0.4, Inner: 1},
			ledger.Entry{State: on, Field: level(h), Coefficient: 1, Inner: -1, Outer: []int{2, 3}})
		factors := []float64{0.9, 1.3, 0.8, 1.7}
		want := f.Times(-2.5 * 1.3 * 0.8).Plus(g.Times(0.4 * 1.3)).Plus(h.Times(0.8 * 1.7))
		got := l.Forces(s, 4, factors)
		for _, pair := range [][2]float64{{want.N, got.N}, {want.Vy, got.Vy}, {want.Vz, got.Vz}, {want.T, got.T}, {want.My, got.My}, {want.Mz, got.Mz}} {
			require.InDelta(t, pair[0], pair[1], 1e-8)
		}
		p := lopsided(t, 1).Properties()
		plane := p.Plane(ledger.About(want, p.Centroid))
		at := section.Point{Y: rng.Float64(), Z: rng.Float64()}
		require.InDelta(t, plane.At(at), l.Plane(s, 4, factors).At(at), 1e-6)
	}
}

// The order in which entries are written does not matter, nor whether an entry is
// written as two halves.
func TestOrderOfEntriesDoesNotMatter(t *testing.T) {
	rng := rand.New(rand.NewPCG(55, 56))
	l := one(10, lopsided(t, 1.2), straight(t, point{0, 0, 0.3}, point{10, 0, 0.6}, 1e-3, 0.06))
	on := state(l, 0)
	jack(l, on, 1.2e6, 0)
	require.NoError(t, l.MakeGrid())
	causes := []ledger.Cause{{Least: 0.9, Most: 1.1, Outer: true}, {Least: 0.85, Most: 1.15, Outer: true}, {Least: 0.97, Most: 1.03}, {Least: -1, Most: 1}}
	worst := func(entries []ledger.Entry) [2]ledger.Worst {
		d, err := l.Demand(situation(l, entries...), causes)
		require.NoError(t, err)
		up, err := d.Extreme(1, 0, anywhere)
		require.NoError(t, err)
		down, err := d.Extreme(-1, 0, anywhere)
		require.NoError(t, err)
		return [2]ledger.Worst{up, down}
	}
	for range 10 {
		var entries []ledger.Entry
		for i := range 4 {
			a, b := some(rng), some(rng)
			f := &law{func(x float64) section.Forces { return a.Plus(b.Times(x / 10)) }}
			entries = append(entries, ledger.Entry{State: on, Field: f, Coefficient: 1, Inner: []int{2, 3, -1, 2}[i], Outer: [][]int{{1}, nil, {1}, nil}[i]})
		}
		want := worst(entries)
		var other []ledger.Entry
		for i := len(entries) - 1; i >= 0; i-- {
			half := entries[i]
			half.Coefficient = 0.5
			other = append(other, half, half)
		}
		got := worst(other)
		for i := range want {
			require.InEpsilon(t, want[i].Value, got[i].Value, 1e-9)
			require.InDelta(t, want[i].X, got[i].X, 1e-3)
			require.InDeltaSlice(t, want[i].Factors, got[i].Factors, 1e-12)
		}
	}
}

// A girder and its mirror image left to right and top to bottom have the same stress.
func TestMirrorImages(t *testing.T) {
	rng := rand.New(rand.NewPCG(57, 58))
	const length = 12.0
	shape, err := section.New([]section.Outline{{{Y: -0.8}, {Y: 1}, {Y: 1, Z: 1.6}, {Y: -0.8, Z: 1.6}}}, // four walls, all of another thickness
		[]section.Outline{{{Y: -0.55, Z: 0.3}, {Y: 0.8, Z: 0.3}, {Y: 0.8, Z: 1.42}, {Y: -0.55, Z: 1.42}}})
	require.NoError(t, err)
	flipped := shape.Mirrored() // y to −y
	for range 6 {
		a, b := point{0, -0.62, 0.2 + 0.3*rng.Float64()}, point{length, -0.7, 0.3 + 0.3*rng.Float64()}
		f, g := some(rng), some(rng)
		first := one(length, shape, straight(t, a, b, 1e-3, 0.06))
		second := one(length, flipped, straight(t, point{0, -b.y, b.z}, point{length, -a.y, a.z}, 1e-3, 0.06))
		worst := func(l *ledger.Ledger, field ledger.Field) (w [2]ledger.Worst, shear ledger.Wall) {
			on := state(l, 0)
			jack(l, on, 1e6, 0)
			require.NoError(t, l.MakeGrid())
			s := situation(l, ledger.Entry{State: on, Field: field, Coefficient: 1, Inner: 1})
			return [2]ledger.Worst{extreme(t, l, s, 1, ledger.Cause{Least: 0.9, Most: 1.2}), extreme(t, l, s, -1, ledger.Cause{Least: 0.9, Most: 1.2})},
				wall(t, l, s, true, ledger.Cause{Least: 0.9, Most: 1.2})
		}
		one, shear := worst(first, &law{func(x float64) section.Forces { return f.Plus(g.Times(x / length)) }})
		two, mirrored := worst(second, &law{func(x float64) section.Forces {
			q := f.Plus(g.Times((length - x) / length))
			// turned about z by half a turn: y and x change sign, so do Vy·, Vz and the sense of Mz
			return section.Forces{N: q.N, My: q.My, Mz: -q.Mz, Vz: -q.Vz, Vy: q.Vy, T: q.T}
		}})
		for i := range one {
			require.InEpsilon(t, one[i].Value, two[i].Value, 1e-6)
			require.InDelta(t, one[i].X, length-two[i].X, 1e-2)
			require.InDelta(t, one[i].At.Y, -two[i].At.Y, 1e-9)
		}
		require.InEpsilon(t, shear.Value, mirrored.Value, 1e-4)
		require.InDelta(t, shear.Shear, mirrored.Shear, 1e-3*shear.Value)
	}
}

// Ten times all forces are ten times the stress, and lengths twice as large with
// forces four times and moments eight times as large leave it.
func TestScale(t *testing.T) {
	rng := rand.New(rand.NewPCG(59, 60))
	for range 5 {
		f, g := some(rng), some(rng)
		value := func(size, force, moment float64) (ledger.Worst, ledger.Wall) {
			s := func(v float64) float64 { return v * size }
			shape, err := section.New([]section.Outline{{{Y: s(-0.5)}, {Y: s(0.9)}, {Y: s(0.9), Z: s(0.3)}, {Y: s(0.1), Z: s(0.4)}, {Y: s(0.1), Z: s(1.5)}, {Y: s(-0.5), Z: s(1.7)}}}, nil)
			require.NoError(t, err)
			l := one(s(10), shape, straight(t, point{0, 0, s(0.3)}, point{s(10), 0, s(0.5)}, 1e-3*size*size, s(0.06)))
			on := state(l, 0)
			jack(l, on, force*1e6, 0)
			require.NoError(t, l.MakeGrid())
			e := plain(on, &law{func(x float64) section.Forces {
				q := f.Plus(g.Times(x / s(10)))
				return section.Forces{N: force * q.N, Vy: force * q.Vy, Vz: force * q.Vz, T: moment * q.T, My: moment * q.My, Mz: moment * q.Mz}
			}})
			sit := situation(l, e)
			return extreme(t, l, sit, -1), wall(t, l, sit, true)
		}
		base, cut := value(1, 1, 1)
		ten, cutTen := value(1, 10, 10)
		large, cutLarge := value(2, 4, 8)
		require.InEpsilon(t, 10*base.Value, ten.Value, 1e-8)
		require.InEpsilon(t, base.Value, large.Value, 1e-6)
		require.InDelta(t, 2*base.X, large.X, 1e-3)
		require.InEpsilon(t, 10*cut.Value, cutTen.Value, 1e-6)
		require.InEpsilon(t, cut.Value, cutLarge.Value, 1e-5)
	}
}
