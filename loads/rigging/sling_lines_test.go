package rigging_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/loads/rigging"
)

// Each leg of random slings of one to six legs: its length, angle, least and greatest
// force.
func TestSlingLines(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 6))
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	sets := map[int]int{}
	for range 300 {
		s := rigging.Sling{Hook: r3.Vec{Z: in(6, 9)}, Weight: in(1e4, 1e6), CoG: r3.Vec{X: in(-0.2, 0.2), Y: in(-0.2, 0.2)}, Tilt: 0.1}
		n := 1 + r.IntN(6)
		for i := range n {
			angle := 2*math.Pi*float64(i)/float64(n) + in(-0.2, 0.2)
			s.Legs = append(s.Legs, r3.Vec{X: 3 * math.Cos(angle), Y: 3 * math.Sin(angle), Z: in(0, 1)})
		}
		compareSling(t, s, sets)
	}
	for _, s := range []rigging.Sling{
		{Hook: r3.Vec{Z: 6}, Legs: []r3.Vec{{Z: 1}}, Weight: 400e3}, {Hook: r3.Vec{Z: 6}, Legs: corners(3, 1, 1), Weight: 400e3}, {Hook: r3.Vec{Z: 6}, Legs: corners(3, 1, 1)[:4:4], Weight: 400e3, Sharing: rigging.Equalised},
		{Hook: r3.Vec{X: 0.1, Z: 6}, CoG: r3.Vec{X: 0.1}, Legs: []r3.Vec{{X: -2, Z: 1}, {X: 3, Z: 1}}, Weight: 400e3},
	} {
		compareSling(t, s, sets)
	}
	require.Greater(t, sets[1], 20)
	require.Greater(t, len(sets), 4)
	_, err := rigging.Sling{}.Lines()
	require.ErrorIs(t, err, rigging.ErrRigging)
}

func compareSling(t *testing.T, s rigging.Sling, sets map[int]int) {
	t.Helper()
	got, err := s.Solve()
	lines, wrong := s.Lines()
	if err != nil {
		require.Equal(t, err, wrong)
		return
	}
	sets[got.Sets]++
	by := derived(t, lines, wrong)
	require.InDelta(t, got.Tilt, by["τ"].Result.Value, 1e-12)
	for i, l := range got.Legs {
		n := fmt.Sprint(i + 1)
		gives(t, by, map[string]float64{"l_" + n: l.Length, "β_" + n: l.Angle, "s_" + n: 1 / l.Factor})
		ends := map[string]float64{"F_" + n: l.Force.Most}
		if s.Sharing == rigging.Equalised {
			ends = map[string]float64{"F": l.Force.Most}
		} else if l.Force.Least < l.Force.Most {
			ends = map[string]float64{"F_" + n + "_min": l.Force.Least, "F_" + n + "_max": l.Force.Most}
		}
		for symbol, force := range ends {
			// Three legs are solved by another way than Solve goes: 1e-12 of the weight.
			require.InDelta(t, force, by[symbol].Result.Value, 1e-12*s.Weight, symbol)
		}
	}
}
