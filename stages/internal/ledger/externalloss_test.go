package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// void is a box of 2.4 × 1.8 m with walls of 0.3 m, 20 m long, with an external tendon
// held at its anchors and at a deviator 8 m from the left, and a bonded one below.
func void(t testing.TB) (l *ledger.Ledger, p section.Properties) {
	shape := cell(t, 2.4, 1.8, 0.3)
	free := harped(t, 2e-3, 0, point{0, 0, 1.2}, point{8, 0, 0.5}, point{20, 0, 1.1})
	free.External, free.Held = true, []float64{0, 8, 20}
	return one(20, shape, free, straight(t, point{0, 0, 0.15}, point{20, 0, 0.15}, 1.5e-3, 0)), shape.Properties()
}

// An external tendon is neither a hole nor steel of the section.
func TestExternalTendonIsNoPartOfTheSection(t *testing.T) {
	l, p := void(t)
	l.Girder.Tendons[0].Duct = 0.1
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	require.InDelta(t, p.Area, l.Section(5, on).Area, 1e-12)
	require.InDelta(t, p.SecondMomentY, l.Section(5, on).SecondMomentY, 1e-12)
}

// Stressing a later tendon strains each free length of an external one as a whole: it
// loses Ep/Ecm times the mean of σc·cos² along it, not the stress beside it.
func TestExternalTendonLosesByTheMeanStrain(t *testing.T) {
	l, p := void(t)
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	jack(l, on, 2e6, 1)
	require.NoError(t, l.MakeGrid())
	s := situation(l)
	mean := func(from, to, x float64) float64 { // ordinates at the ends of a straight free length
		e := 0.15 - p.Centroid.Z
		middle := (from+to)/2 - p.Centroid.Z
		stress := 2e6/p.Area + 2e6*e*middle/p.SecondMomentY
		slope := (to - from) / x
		return stress / (1 + slope*slope)
	}
	for _, c := range []struct{ x, want float64 }{{1, mean(1.2, 0.5, 8)}, {4, mean(1.2, 0.5, 8)}, {7.9, mean(1.2, 0.5, 8)}, {8.1, mean(0.5, 1.1, 12)}, {19, mean(0.5, 1.1, 12)}} {
		force, elastic := l.TendonForce(s, c.x, 0)
		require.InDelta(t, ep/ecm*c.want*2e-3, elastic, 1e-2, "at %g", c.x)
		require.InDelta(t, 1e6-elastic, force, 1e-6)
	}
	require.InDelta(t, -(2e6 + (1e6-ep/ecm*mean(1.2, 0.5, 8)*2e-3)*8/math.Hypot(8, 0.7)), l.Forces(s, 4, []float64{1}).N, 1e-2)
}

// A free length may bend where nothing holds it: the mean is along the tendon, not
// along x.
func TestMeanIsAlongTheTendon(t *testing.T) {
	shape := cell(t, 2.4, 1.8, 0.3)
	p := shape.Properties()
	free := harped(t, 2e-3, 0, point{0, 0, 0.9}, point{2, 0, 1.4}, point{20, 0, 0.9})
	free.External, free.Held = true, []float64{0, 20}
	l := one(20, shape, free, straight(t, point{0, 0, 0.15}, point{20, 0, 0.15}, 1.5e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	jack(l, on, 2e6, 1)
	require.NoError(t, l.MakeGrid())
	steep, flat := math.Hypot(2, 0.5), math.Hypot(18, 0.5)
	e := 0.15 - p.Centroid.Z
	stress := 2e6/p.Area + 2e6*e*(1.15-p.Centroid.Z)/p.SecondMomentY // both parts have their middle at 1.15 m
	mean := stress * (steep*(2/steep)*(2/steep) + flat*(18/flat)*(18/flat)) / (steep + flat)
	_, elastic := l.TendonForce(situation(l), 10, 0)
	require.InDelta(t, ep/ecm*mean*2e-3, elastic, 1e-3)
}

// An external tendon creeps with the mean of σc·cos² along its free length as well,
// and shortens with the mean of the stiffening.
func TestExternalTendonLosesByMeansAlongIt(t *testing.T) {
	l, p := void(t)
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	const phi, shrinkage = 1.7, 3e-4
	weight := ledger.Entry{State: on, Field: &law{func(x float64) section.Forces { return section.Forces{My: 1e5 * x * (20 - x) / 20} }}, Coefficient: 1, Inner: -1}
	lasting(l, weight)
	require.NoError(t, l.MakeGrid())
	relaxing, err := tendon.Class2.Over(60, 1860e6, 1500e6)
	require.NoError(t, err)
	s := situation(l, weight)
	s.Times = []*ledger.Time{{Since: [][]float64{{phi, phi}, nil}, Modulus: []float64{ecm, ecm}, Days: []float64{60, -1}, Periods: []tendon.Period{over(t, phi, shrinkage, relaxing), {}}, Concrete: on}}
	s.Lay()
	for _, c := range []struct{ x, from, to, low, high float64 }{{3, 0, 8, 1.2, 0.5}, {15, 8, 20, 0.5, 1.1}} {
		slope := (c.high - c.low) / (c.to - c.from)
		cos := 1 / math.Hypot(1, slope)
		mean := func(f func(x float64) float64) float64 { // by Simpson's rule of many parts
			const n = 400
			sum := 0.0
			for i := range n + 1 {
				w := []float64{2, 4}[i%2]
				if i == 0 || i == n {
					w = 1
				}
				sum += w * f(c.from+(c.to-c.from)*float64(i)/n)
			}
			return sum / (3 * n)
		}
		level := func(x float64) float64 { return c.low + slope*(x-c.from) - p.Centroid.Z }
		creep := mean(func(x float64) float64 {
			e := level(x)
			own := 1e6 * cos * (1/p.Area + e*e/p.SecondMomentY) // the tendon on its own level
			bending := 1e5 * x * (20 - x) / 20 * e / p.SecondMomentY
			return phi * (own + bending) / ecm * cos * cos
		})
		stiff := mean(func(x float64) float64 { return 2e-3 * (1/p.Area + level(x)*level(x)/p.SecondMomentY) })
		divisor := 1 + stiff*ep/ecm*(1+0.8*phi)
		want := (ep*shrinkage + 0.8*relaxed(1e6/2e-3, 1860e6, 60) + ep*creep) / divisor
		got := l.TimeLosses(s, c.x, 0)
		require.InEpsilon(t, want, got.Total(), 1e-6, "at %g", c.x)
		require.InEpsilon(t, ep*creep/divisor, got.Creep, 1e-6)
		require.InEpsilon(t, ep*shrinkage/divisor, got.Shrinkage, 1e-6)
	}
}

// The concrete of each piece strains by its own modulus of the day.
func TestExternalTendonOverTwoConcretes(t *testing.T) {
	shape := cell(t, 2.4, 1.8, 0.3)
	p := shape.Properties()
	e := 0.15 - p.Centroid.Z
	stress := 2e6 * (1/p.Area + e*e/p.SecondMomentY)
	free := straight(t, point{0, 0, 0.15}, point{20, 0, 0.15}, 2e-3, 0)
	free.External, free.Held = true, []float64{0, 20}
	build := func(free ledger.Tendon) (*ledger.Ledger, *ledger.Situation) {
		l := &ledger.Ledger{Girder: ledger.Girder{Length: 20, Pieces: []ledger.Piece{{From: 0, To: 5, Section: shape}, {From: 5, To: 20, Section: shape}},
			Tendons: []ledger.Tendon{free, straight(t, point{0, 0, 0.15}, point{20, 0, 0.15}, 1.5e-3, 0)}}}
		on := state(l, 0, 1)
		jack(l, on, 1e6, 0)
		jack(l, on, 2e6, 1)
		l.Steps[1].Modulus = func(piece int) float64 { return []float64{20e9, 35e9}[piece] }
		require.NoError(t, l.MakeGrid())
		return l, situation(l)
	}
	l, s := build(free)
	_, elastic := l.TendonForce(s, 12, 0)
	require.InDelta(t, ep*stress*(0.25/20e9+0.75/35e9)*2e-3, elastic, 1e-2)
	// A bonded or ducted one beside it loses by the concrete where it is.
	free.External, free.Held = false, nil
	l, s = build(free)
	_, elastic = l.TendonForce(s, 2, 0)
	require.InDelta(t, ep*stress/20e9*2e-3, elastic, 1e-2)
	_, elastic = l.TendonForce(s, 12, 0)
	require.InDelta(t, ep*stress/35e9*2e-3, elastic, 1e-2)
}

// The anchor of an external tendon stands in the void: its force comes to the walls
// at the nearest point of them, and the way there counts.
func TestSpreadOfAnExternalTendon(t *testing.T) {
	l, _ := void(t)
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	// (0, 1.2) is 0.3 m below the deck; then along it to the corner of the void and down the web to the lower corner.
	way := 0.3 + 0.9 + math.Hypot(0.3, 1.5)
	require.InDelta(t, 1.5*way, l.Zones()[0].End, 1e-6)
}
