package ledger_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// boxed is a box of one section with two tendons that spread from their anchors.
func boxed(t *testing.T, rng *rand.Rand) (*ledger.Ledger, *ledger.Situation, []ledger.Cause) {
	shape, err := section.Box{
		Depth: 1.4, TopWidth: 4, RootWidth: 2, BottomWidth: 1.8, TopSlab: 0.2, BottomSlab: 0.2, WebThickness: 0.25, CantileverRoot: 0.25, CantileverTip: 0.15,
	}.Shape()
	require.NoError(t, err)
	l := one(14, shape, straight(t, point{0, 0.8, 0.5}, point{14, 0.8, 0.3 + 0.3*rng.Float64()}, 1e-3, 0.05), straight(t, point{0, -0.8, 0.6}, point{14, -0.8, 0.5}, 1e-3, 0.05))
	on := state(l, 0)
	jack(l, on, 2e6*(0.5+rng.Float64()), 0)
	jack(l, on, 2e6*(0.5+rng.Float64()), 1)
	require.NoError(t, l.MakeGrid())
	var entries []ledger.Entry
	for i := range 4 {
		a, b := some(rng), some(rng)
		f := &law{func(x float64) section.Forces { s := x / 14; return a.Plus(b.Times(s - s*s)) }}
		entries = append(entries, ledger.Entry{State: on, Field: f, Coefficient: 1, Inner: []int{2, 2, -1, 3}[i], Outer: [][]int{{1}, nil, {1}, nil}[i]})
	}
	return l, situation(l, entries...), []ledger.Cause{{Least: 0.9, Most: 1.1, Outer: true}, {Least: 0.85, Most: 1.15, Outer: true}, {Least: 0.97, Most: 1.03}, {Least: 0, Most: 1.35}}
}

// march is a situation in positions: the last field of it is another in each.
func march(t *testing.T, rng *rand.Rand, l *ledger.Ledger, base *ledger.Situation, causes []ledger.Cause, number int, plane bool) (alike, alone []*ledger.Demand) {
	var first *ledger.Situation
	for range number {
		a, b, at := some(rng).Times(3*rng.Float64()), some(rng), 14*rng.Float64()
		if plane {
			a, b = bending(rng)
		}
		field := &law{func(x float64) section.Forces { return a.Times(math.Abs(x-at) / 7).Plus(b) }}
		for _, like := range []bool{true, false} {
			s := &ledger.Situation{Entries: append([]ledger.Entry(nil), base.Entries...), Steps: base.Steps, Prestress: base.Prestress, Times: base.Times}
			last := &s.Entries[len(s.Entries)-1]
			last.Field = field
			if like {
				s.Moves = 1 + last.Inner
			}
			s.Lay()
			if !like {
				alone = append(alone, demand(t, l, s, causes...))
				continue
			}
			if first == nil {
				first = s
			} else {
				s.Like = first
			}
			alike = append(alike, demand(t, l, s, causes...))
		}
	}
	return alike, alone
}

// bending is fields that are multiples of one plane: of a moment alone.
func bending(rng *rand.Rand) (one, other section.Forces) {
	return section.Forces{My: 4e5 * rng.NormFloat64(), Vz: 1e5 * rng.NormFloat64()}, section.Forces{My: 1e5 * rng.NormFloat64()}
}

// What a march finds is what is found position by position, and it is never less.
func TestMarchAgainstEachPosition(t *testing.T) {
	rng := rand.New(rand.NewPCG(131, 132))
	notGrouted := func(int) section.Filling { return section.NotGrouted }
	for round := range 6 {
		for name, lay := range map[string]func(*testing.T, *rand.Rand) (*ledger.Ledger, *ledger.Situation, []ledger.Cause){
			"varying": func(t *testing.T, rng *rand.Rand) (*ledger.Ledger, *ledger.Situation, []ledger.Cause) {
				l, s, causes := tapered(t, rng)
				s.Entries[3].Inner = 4 // an inner cause of its own
				s.Lay()
				return l, s, append(causes, ledger.Cause{Least: -0.2, Most: 1.35})
			},
			"constant": boxed,
		} {
			l, base, causes := lay(t, rng)
			alike, alone := march(t, rng, l, base, causes, 9, round%2 == 1)
			marches := ledger.Marches(alike)
			require.Len(t, marches, 1, name)
			m := marches[0]
			for _, sign := range []float64{1, -1} {
				most := math.Inf(-1)
				for _, d := range alone {
					w, err := d.Extreme(sign, 0, anywhere)
					require.NoError(t, err)
					most = math.Max(most, sign*w.Value)
				}
				w, i, err := m.ExtremeBeyond(math.Inf(-1), sign, 0, anywhere)
				require.NoError(t, err)
				require.InEpsilon(t, most, sign*w.Value, 1e-9, name)
				own, err := alone[i].Extreme(sign, 0, anywhere)
				require.NoError(t, err)
				require.InEpsilon(t, own.Value, w.Value, 1e-9, name)
			}
			for _, principal := range []bool{true, false} {
				for _, strength := range []float64{math.Inf(1), 4e6} {
					q := ledger.WallQuery{Principal: principal, Cracked: strength, Filling: notGrouted}
					most, reaches := 0.0, [][2]float64(nil)
					for _, d := range alone {
						w, cracked, err := d.WorstWall(q)
						require.NoError(t, err)
						most, reaches = math.Max(most, w.Value), append(reaches, cracked...)
					}
					w, _, cracked, err := m.WorstWall(q)
					require.NoError(t, err)
					require.InEpsilon(t, most, w.Value, 1e-9, "%s, principal %t, cracked above %g", name, principal, strength)
					reaches = l.Join(reaches)
					require.Len(t, cracked, len(reaches), name)
					for k := range reaches {
						require.InDelta(t, reaches[k][0], cracked[k][0], 1e-6)
						require.InDelta(t, reaches[k][1], cracked[k][1], 1e-6)
					}
				}
			}
			bars := func(x float64, stress func(section.Point) float64) float64 {
				area := 0.0
				for _, at := range []section.Point{{Y: 0.3, Z: 0.1}, {Y: -0.2, Z: 0.1}, {Y: 0.1, Z: 1}} {
					if x < 11 && stress(at) > 0 {
						area += 1e-3
					}
				}
				return area
			}
			most := 0.0
			for _, d := range alone {
				z, err := d.MostTension(0, bars)
				require.NoError(t, err)
				if z.Found {
					most = math.Max(most, z.Force/z.Bars)
				}
			}
			z, _, err := m.MostTension(0, bars, func(float64, func(section.Point) bool) float64 { return 1e-3 })
			require.NoError(t, err)
			if most > 0 {
				require.InEpsilon(t, most, z.Force/z.Bars, 1e-9, name)
			} else {
				require.False(t, z.Found)
			}
			for k := range l.Grid() {
				low, high, err := m.FibresAt(k, k%ledger.Nodes)
				require.NoError(t, err)
				least, largest := math.Inf(1), math.Inf(-1)
				for _, d := range alone {
					a, b, err := d.FibresAt(k, k%ledger.Nodes)
					require.NoError(t, err)
					least, largest = math.Min(least, a[0]), math.Max(largest, b[1])
				}
				require.InDelta(t, least, low[0], 1e-3)
				require.InDelta(t, largest, high[1], 1e-3)
			}
		}
	}
}
