package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// hanging is a cantilever of 10 m from its tip at x = 0, a rectangle of 0.3 × 1.5 m
// under q: V = −q·x, M = −q·x²/2. Its principal tension grows along it, at mid-depth
// 1.5·q·x/A; it cracks where 6·M/(b·h²) passes the strength.
type hanging struct {
	*ledger.Ledger
	walls section.Walls
	s     *ledger.Situation
}

const crackB, crackH, crackQ = 0.3, 1.5, 3e4

func cantilever(t *testing.T, breaks ...float64) hanging {
	shape := rectangle(t, crackB, crackH, 0, 0)
	walls, err := shape.Walls()
	require.NoError(t, err)
	l := one(10, shape)
	l.Girder.Breaks = breaks
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	return hanging{l, walls, situation(l, plain(on, &law{func(x float64) section.Forces {
		return section.Forces{Vz: -crackQ * x, My: -crackQ * x * x / 2, T: crackQ * x * walls.ShearCentre.Y}
	}}))}
}

// demand is the largest principal tension of the section at x, by Mohr's circle at the
// ends of every cut.
func (c hanging) demand(x float64) (most float64) {
	for _, cut := range c.walls.Cuts {
		for _, end := range []section.Point{cut.From, cut.To} {
			sigma := crackQ * x * x / 2 * (end.Z - crackH/2) / (crackB * crackH * crackH * crackH / 12)
			most = math.Max(most, sigma/2+math.Hypot(sigma/2, crackQ*x*math.Abs(cut.Z)/cut.Thickness()))
		}
	}
	return most
}

// ask is the worst wall up to a strength, and where the section has cracked.
func (c hanging) ask(t *testing.T, strength float64) (ledger.Wall, [][2]float64) {
	d := demand(t, c.Ledger, c.s, fixed)
	w, cracked, err := d.WorstWall(ledger.WallQuery{Principal: true, Cracked: strength, Filling: func(int) section.Filling { return section.NotGrouted }})
	require.NoError(t, err)
	return w, cracked
}

// cracks is where the cantilever cracks.
func cracks(strength float64) float64 {
	return math.Sqrt(strength * crackB * crackH * crackH / (3 * crackQ))
}

// The cracked reach is what has cracked; uncracked the whole length is looked at.
func TestCrackedReachCoversWhatHasCracked(t *testing.T) {
	c := cantilever(t, 2, 4, 6, 8)
	for i := range 40 {
		strength := 3e5 * math.Pow(1.11, float64(i))
		w, cracked := c.ask(t, strength)
		at := cracks(strength)
		if at > 10 {
			require.Empty(t, cracked)
			require.InDelta(t, 10, w.X, 1e-3)
			require.InEpsilon(t, c.demand(10), w.Value, 1e-3)
			continue
		}
		require.Len(t, cracked, 1, "one reach")
		require.InDelta(t, 10, cracked[0][1], 1e-6)
		require.LessOrEqual(t, cracked[0][0], at, "it begins where nothing has cracked yet")
		require.InDelta(t, at, cracked[0][0], 1e-5, "strength %g", strength)
	}
	w, cracked := c.ask(t, 14e6) // 6·M/(b·h²) = 13.3 MPa at the end
	require.True(t, w.Found)
	require.Empty(t, cracked)
	none, cracked := c.ask(t, -1)
	require.False(t, none.Found, "everything has cracked")
	require.Len(t, cracked, 1)
}

// A stress equal to the strength has not cracked, a hair more has.
func TestCracksAHairBeyondTheStrength(t *testing.T) {
	shape := rectangle(t, 0.3, 1.5, 0, 0)
	l := one(10, shape)
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	s := situation(l, plain(on, level(section.Forces{N: 0.9e6, My: -0.9e6 * 0.75, Vz: 1e5}))) // 2 MPa
	d := demand(t, l, s, fixed)
	for strength, whole := range map[float64]bool{2e6 + 1: true, 2e6 - 1: false} {
		w, cracked, err := d.WorstWall(ledger.WallQuery{Principal: true, Cracked: strength, Filling: func(int) section.Filling { return section.NotGrouted }})
		require.NoError(t, err)
		require.Equal(t, whole, w.Found)
		require.Equal(t, whole, len(cracked) == 0)
	}
	// The shear stress is looked at everywhere, cracked or not.
	w, cracked, err := d.WorstWall(ledger.WallQuery{Cracked: 0, Filling: func(int) section.Filling { return section.NotGrouted }})
	require.NoError(t, err)
	require.True(t, w.Found)
	require.Empty(t, cracked)
}

// The search ends where the section cracks, whatever the grid.
func TestUncrackedReachEndsAtTheCrack(t *testing.T) {
	for _, every := range []float64{10, 2, 1, 0.5} {
		var breaks []float64
		for x := every; x < 9.999; x += every {
			breaks = append(breaks, x)
		}
		girder := cantilever(t, breaks...)
		for i := range 50 {
			strength := 2e5 * math.Pow(1.07, float64(i))
			at := cracks(strength)
			if at > 9.9 {
				break
			}
			w, _ := girder.ask(t, strength)
			require.InEpsilon(t, girder.demand(at), w.Value, 1e-5)
			require.InDelta(t, at, w.X, 1e-4)
		}
	}
}

// Beside a reach with as much demand as well.
func TestUncrackedReachBesideALargerDemand(t *testing.T) {
	const bending = 0.1 // of the cantilever's moment: shear governs
	shape := rectangle(t, crackB, crackH, 0, 0)
	walls, err := shape.Walls()
	require.NoError(t, err)
	for _, at := range []float64{0.8, 1.4, 2.2, 3, 4.5, 7.5} {
		strength := bending * 3 * crackQ * at * at / (crackB * crackH * crackH)
		for _, share := range []float64{0.3, 0.5, 0.7, 0.9, 0.99} {
			l := one(20, shape)
			l.Girder.Breaks = []float64{10}
			on := state(l, 0)
			require.NoError(t, l.MakeGrid())
			v := func(x float64) float64 { // beyond 10 m the same shear everywhere
				if x < 10 {
					return crackQ * x
				}
				return share * crackQ * at
			}
			s := situation(l, plain(on, &law{func(x float64) section.Forces {
				f := section.Forces{Vz: -v(x), T: v(x) * walls.ShearCentre.Y}
				if x < 10 {
					f.My = -bending * crackQ * x * x / 2
				}
				return f
			}}))
			w, cracked := hanging{l, walls, s}.ask(t, strength)
			require.Len(t, cracked, 1)
			require.InEpsilon(t, 1.5*crackQ*at/(crackB*crackH), w.Value, 1e-5)
		}
	}
}
