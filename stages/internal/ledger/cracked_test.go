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

// The cracked reach covers every place that has cracked and goes no farther than to
// the node before; uncracked the whole length is looked at.
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
		require.LessOrEqual(t, cracked[0][0], at, "it begins at an uncracked node")
		require.InDelta(t, 10, cracked[0][1], 1e-6)
		before := 0.0 // the last node that has not cracked
		for _, p := range c.Grid() {
			for _, n := range p.At {
				if n.X <= at {
					before = math.Max(before, n.X)
				}
			}
		}
		require.InDelta(t, before, cracked[0][0], 1e-3*10, "strength %g", strength)
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

// The uncracked reach ends between two nodes, and the search looks from the last one
// that has not cracked to the next: the demand is that at the crack or more, up to
// that at the cracked node. What this costs is logged; breaks every half metre bring
// it within 15 %, and none makes it less than the demand where it cracks.
func TestUncrackedReachEndsAtNodes(t *testing.T) {
	for _, c := range []struct {
		every, most float64 // break every, demand over that at the crack at most
	}{{10, 5}, {2, 2}, {1, 1.4}, {0.5, 1.15}} {
		var breaks []float64
		for x := c.every; x < 9.999; x += c.every {
			breaks = append(breaks, x)
		}
		girder := cantilever(t, breaks...)
		least, most := math.Inf(1), 0.0
		for i := range 50 {
			strength := 2e5 * math.Pow(1.07, float64(i))
			at := cracks(strength)
			if at > 9.9 {
				break
			}
			w, _ := girder.ask(t, strength)
			ratio := w.Value / girder.demand(at)
			least, most = math.Min(least, ratio), math.Max(most, ratio)
			next := 10.0 // the first node that has cracked
			for _, p := range girder.Grid() {
				for _, n := range p.At {
					if n.X > at {
						next = math.Min(next, n.X)
					}
				}
			}
			require.LessOrEqual(t, w.Value, girder.demand(next)*(1+1e-9))
			require.LessOrEqual(t, w.X, next)
		}
		t.Logf("breaks every %g m: demand %.4f to %.4f of that at the crack", c.every, least, most)
		require.Greater(t, least, 0.999)
		require.Less(t, most, c.most)
	}
}

// Beside a reach with a larger demand the search does not look beyond the last
// uncracked node: what it finds is that of all uncracked nodes at least. How much less
// than at the crack it may be is logged; a girder with a cracked reach does not pass
// whatever it is.
func TestUncrackedReachBesideALargerDemand(t *testing.T) {
	const bending = 0.1 // of the cantilever's moment: shear governs
	shape := rectangle(t, crackB, crackH, 0, 0)
	walls, err := shape.Walls()
	require.NoError(t, err)
	lost := 1.0
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
			nodes := 0.0 // at mid-depth
			for _, p := range l.Grid() {
				for _, n := range p.At {
					if n.X < at || n.X > 10 {
						nodes = math.Max(nodes, 1.5*v(n.X)/(crackB*crackH))
					}
				}
			}
			require.GreaterOrEqual(t, w.Value, nodes*(1-1e-9))
			lost = math.Min(lost, w.Value/(1.5*crackQ*at/(crackB*crackH)))
		}
	}
	t.Logf("the demand found is down to %.3f of that where it cracks", lost)
}
