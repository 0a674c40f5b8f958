package ledger

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// No place between the nodes is passed over by the short bound where it has more than the
// worst, and the bound passes over a place where the worst is far above.
func TestShortBoundBetweenNodes(t *testing.T) {
	shape, err := section.New([]section.Outline{{{Y: -1.5}, {Y: 1.5}, {Y: 1.5, Z: 2}, {Y: -1.5, Z: 2}}},
		[]section.Outline{{{Y: -1.25, Z: 0.25}, {Y: 1.25, Z: 0.25}, {Y: 1.25, Z: 1.75}, {Y: -1.25, Z: 1.75}}})
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(91, 92))
	looked, passed := 0, 0
	for range 6 {
		low, high := section.Point{Y: -1.1, Z: 0.15}, section.Point{Y: 1.2, Z: 1.85}
		l, state := openLedger(t, shape, 12, nil, [2]section.Point{high, high}, [2]section.Point{low, low})
		s := &Situation{Steps: 2, Entries: []Entry{
			{State: state, Coefficient: 1, Inner: 1, Field: randomLaw(rng, 8e5)},
			{State: state, Coefficient: 1, Inner: -1, Field: randomLaw(rng, 4e5)},
		}}
		s.Lay()
		d, err := l.Demand(s, []Cause{{Least: 0.9, Most: 1.1, Outer: true}, {Least: 0.8, Most: 1.3}})
		require.NoError(t, err)
		q := &WallQuery{Principal: true, Cracked: math.Inf(1), filling: make([]section.Filling, 2)}
		for k := range l.grid {
			p := &l.grid[k]
			if len(p.spreading) == 0 {
				continue
			}
			require.True(t, p.level)
			require.NoError(t, l.measureEnds(p, 0))
			places, err := d.wallPlaces(q, p, 0, nil)
			require.NoError(t, err)
			require.NoError(t, d.wallCurves(k, 0))
			for _, place := range places {
				var exact Wall
				require.NoError(t, d.wallBetween(q, p, 0, place, &exact))
				require.True(t, exact.Found)
				w, err := d.wallsIn(q, p, 0, place.x)
				require.NoError(t, err)
				require.True(t, d.brief(q, p, 0, w, d.wall.layout))
				require.False(t, d.belowBetween(p, 0, place, w, &Wall{Found: true, Value: exact.Value * (1 - 1e-7)}), "x = %g m", place.x)
				d.findPeaks(w.centres())
				require.False(t, d.below(w, place.cut, d.wall.layout, w.most(place.cut, &d.wall.brief.peak), &Wall{Found: true, Value: exact.Value * (1 - 1e-7)}), "x = %g m", place.x)
				if looked++; d.belowBetween(p, 0, place, w, &Wall{Found: true, Value: 1.02 * exact.Value}) {
					passed++
				}
			}
		}
	}
	require.Greater(t, looked, 500)
	require.Greater(t, passed, looked/2)
}
