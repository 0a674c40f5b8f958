package ledger_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// The worst wall of a box with level tendons is the same where the grid is so fine that
// the places just before the spread of an anchor are near its nodes.
func TestWallsOfABoxOnAFinerGrid(t *testing.T) {
	const length = 12.0
	rng := rand.New(rand.NewPCG(81, 82))
	between := 0
	for range 12 {
		shape := cell(t, 3, 2, 0.25)
		walls, err := shape.Walls()
		require.NoError(t, err)
		peak, torsion, force := 0.5+3*rng.Float64(), 0.4*rng.Float64(), 2e6+4e6*rng.Float64()
		v := func(x float64) float64 { return 1.5e6 * x * math.Pow(1-x/length, length/peak-1) / peak }
		var found []ledger.Wall
		for _, every := range []float64{length, 0.03} {
			l := one(length, shape, straight(t, point{0, 1.1, 1.85}, point{length, 1.1, 1.85}, 1e-3, 0.06), straight(t, point{0, -1.1, 1.85}, point{length, -1.1, 1.85}, 1e-3, 0.06))
			for x := every; x < 5; x += every {
				l.Girder.Breaks = append(l.Girder.Breaks, x)
			}
			on := state(l, 0)
			jack(l, on, force, 0)
			jack(l, on, force, 1)
			require.NoError(t, l.MakeGrid())
			s := situation(l, plain(on, &law{func(x float64) section.Forces {
				return section.Forces{Vz: v(x), T: -v(x)*walls.ShearCentre.Y + torsion*v(x), My: -0.4 * v(x)}
			}}))
			found = append(found, wall(t, l, s, true))
		}
		require.InEpsilon(t, found[1].Value, found[0].Value, 1e-6, "x = %g and %g m", found[0].X, found[1].X)
		if len(found[0].Apart) > 0 {
			between++
		}
	}
	require.Greater(t, between, 3, "the force of a tendon has not reached it")
}
