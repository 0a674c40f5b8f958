package ledger_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// The three numbers of a strain: curvature about y is M/EI with sagging positive, about
// z likewise, and the strain of the axis.
func TestCurvaturesOfAPlane(t *testing.T) {
	p := section.Properties{Area: 0.6, SecondMomentY: 0.072, SecondMomentZ: 0.0125}
	about, aside, axial := ledger.Curvatures(p.Plane(section.Forces{N: 3, My: 5, Mz: 7}))
	require.InDelta(t, 5/0.072, about, 1e-12)
	require.InDelta(t, 7/0.0125, aside, 1e-12)
	require.InDelta(t, 3/0.6, axial, 1e-12)
}

// moving is a rectangle with two tendons, a weight, and a loss.
func moving(t testing.TB) (*ledger.Ledger, *ledger.Situation, ledger.Entry) {
	l, _ := two(t, 0)
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	jack(l, on, 2e6, 1)
	weight := ledger.Entry{State: on, Field: level(section.Forces{My: 4e5, Mz: 1e4, T: 3e4}), Coefficient: 1.5, Inner: -1}
	lasting(l, weight)
	require.NoError(t, l.MakeGrid())
	s := situation(l)
	period := over(t, 1.6, 3e-4, tendon.Relaxing{})
	since := []float64{1, 1, 1}
	s.Times = []*ledger.Time{{Since: [][]float64{since, since}, Modulus: []float64{ecm, ecm, ecm}, Days: []float64{50, 30}, Periods: []tendon.Period{period, period}, Concrete: on}}
	s.Lay()
	return l, s, weight
}

// Strain of each lasting change: stress × (1/E of its day + creep per stress), the two
// kept apart; what has neither counts nothing.
func TestStrainOfLastingChanges(t *testing.T) {
	l, s, _ := moving(t)
	soft := &ledger.Softness{Elastic: [][]float64{{1 / 25e9, 1 / 28e9, 1 / 30e9}}, Creep: [][]float64{{2 / 30e9, 1.5 / 30e9, 0}}, Situation: s}
	k, _ := stretchOf(t, l, 10)
	iy, iz := 0.5*1.2*1.2*1.2/12, 1.2*0.125/12
	weight := l.StrainAt(soft, []int{2}, k, 4, 0)
	about, aside, axial := ledger.Curvatures(weight.Elastic)
	require.InEpsilon(t, 1.5*4e5/iy/30e9, about, 1e-9)
	require.InEpsilon(t, 1.5*1e4/iz/30e9, aside, 1e-9)
	require.InDelta(t, 1.5*4e5*0.6/iy/30e9, axial, 1e-12, "the soffit z = 0 is below the middle")
	require.Zero(t, weight.Creep)
	require.InEpsilon(t, 1.5*3e4/30e9, weight.Forces.T, 1e-9, "for the twist")
	first := l.StrainAt(soft, []int{0}, k, 4, 0)
	about, _, _ = ledger.Curvatures(first.Elastic)
	require.InEpsilon(t, 1e6*(0.2-0.6)/iy/25e9, about, 1e-9, "a tendon below the middle hogs")
	about, _, _ = ledger.Curvatures(first.Creep)
	require.InEpsilon(t, 2*1e6*(0.2-0.6)/iy/30e9, about, 1e-9)
	require.InEpsilon(t, -1e6*(1/25e9+2/30e9), first.Forces.N, 1e-9, "elastic and creep together")
	// The second step with what it takes from the first tendon.
	lost := ep / ecm * (2e6/0.6 + 2e6*(0.5-0.6)*(0.2-0.6)/iy) * 1e-3
	second := l.StrainAt(soft, []int{1}, k, 4, 0)
	about, _, _ = ledger.Curvatures(second.Elastic)
	require.InEpsilon(t, (2e6*(0.5-0.6)-lost*(0.2-0.6))/iy/28e9, about, 1e-9)
	all := l.StrainAt(soft, []int{0, 1, 2}, k, 4, 0)
	sum := first.Plus(second, 1).Plus(weight, 1)
	require.InEpsilon(t, sum.Elastic.SlopeZ, all.Elastic.SlopeZ, 1e-12)
	require.InEpsilon(t, sum.Creep.SlopeZ, all.Creep.SlopeZ, 1e-12)
	require.InEpsilon(t, sum.Forces.N, all.Forces.N, 1e-12)
	half := first.Plus(second, -0.5)
	require.InEpsilon(t, first.Creep.Constant-0.5*second.Creep.Constant, half.Creep.Constant, 1e-12)
	require.InEpsilon(t, first.Forces.N-0.5*second.Forces.N, half.Forces.N, 1e-12)
	only := *soft
	only.Elastic, only.Creep = [][]float64{{0, 1 / 28e9, 0}}, [][]float64{{1 / 30e9, 0, 0}}
	require.Zero(t, l.StrainAt(&only, []int{2}, k, 4, 0))
	require.NotZero(t, l.StrainAt(&only, []int{1}, k, 4, 0).Elastic)
	require.NotZero(t, l.StrainAt(&only, []int{0}, k, 4, 0).Creep, "creep alone")
}

// The strain of the first lasting changes is that of the list of them, whatever was asked
// before: fewer or more of them, on a day on which they were as soft or softer.
func TestStrainAfterTheFirstChanges(t *testing.T) {
	l, s, _ := moving(t)
	now := &ledger.Softness{Elastic: [][]float64{{1 / 25e9, 1 / 28e9, 1 / 30e9}}, Creep: [][]float64{{0, 0, 0}}, Situation: s}
	later := &ledger.Softness{Elastic: [][]float64{{1 / 25e9, 1 / 28e9, 1 / 30e9}}, Creep: [][]float64{{2 / 30e9, 0, 0}}, Situation: s}
	stiffer := &ledger.Softness{Elastic: [][]float64{{1 / 25e9, 1 / 35e9, 1 / 30e9}}, Creep: [][]float64{{2 / 30e9, 0, 0}}, Situation: s}
	k, _ := stretchOf(t, l, 10)
	for i, c := range []struct {
		by     *ledger.Softness
		number int
	}{{now, 1}, {now, 2}, {now, 3}, {later, 3}, {later, 2}, {stiffer, 3}, {now, 0}, {now, 3}, {later, 1}, {stiffer, 3}} {
		for n := range ledger.Nodes {
			require.Equal(t, l.StrainAt(c.by, []int{0, 1, 2}[:c.number], k, n, 0), l.StrainAfter(c.by, c.number, k, n, 0), "question %d", i)
		}
	}
}

// The losses lengthen the concrete again: each tendon's by its own softness, those
// that count alone.
func TestStrainOfLosses(t *testing.T) {
	l, s, _ := moving(t)
	soft := &ledger.Softness{LossElastic: [][]float64{{1 / 30e9, 1 / 32e9}}, LossCreep: [][]float64{{0.9 / 30e9, 0.5 / 32e9}}, Situation: s}
	k, _ := stretchOf(t, l, 10)
	iy := 0.5 * 1.2 * 1.2 * 1.2 / 12
	all := func(int) bool { return true }
	both := l.LossAt(soft, k, 4, 0, all)
	var elastic, creep, axial float64
	for i, c := range []struct{ area, z, e, creep float64 }{{1e-3, 0.2, 1 / 30e9, 0.9 / 30e9}, {1.5e-3, 0.5, 1 / 32e9, 0.5 / 32e9}} {
		loss := l.TimeLosses(s, 10, i).Total() * c.area
		require.Positive(t, loss)
		elastic -= loss * (c.z - 0.6) / iy * c.e
		creep -= loss * (c.z - 0.6) / iy * c.creep
		axial += loss * (c.e + c.creep)
		alone := l.LossAt(soft, k, 4, 0, func(n int) bool { return n == i })
		about, _, _ := ledger.Curvatures(alone.Elastic)
		require.InEpsilon(t, -loss*(c.z-0.6)/iy*c.e, about, 1e-9, "a loss of a low tendon sags")
	}
	about, _, _ := ledger.Curvatures(both.Elastic)
	require.InEpsilon(t, elastic, about, 1e-9)
	about, _, _ = ledger.Curvatures(both.Creep)
	require.InEpsilon(t, creep, about, 1e-9)
	require.InEpsilon(t, axial, both.Forces.N, 1e-9)
	require.Zero(t, l.LossAt(&ledger.Softness{Situation: &ledger.Situation{}}, k, 4, 0, all), "without times nothing is lost")
}

// Camber of a straight tendon below the middle, P·e·L²/8EI, and sag of a uniform load,
// 5qL⁴/384EI, by the curvatures at the nodes integrated twice.
func TestCamberAndSag(t *testing.T) {
	const length, q = 20.0, 1.5e4
	l, _ := two(t, 0)
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	load := ledger.Entry{State: on, Field: &law{func(x float64) section.Forces { return section.Forces{My: q * x * (length - x) / 2} }}, Coefficient: 1, Inner: -1}
	lasting(l, load)
	require.NoError(t, l.MakeGrid())
	soft := &ledger.Softness{Elastic: [][]float64{{1 / ecm, 1 / ecm}}, Creep: [][]float64{{0, 0}}}
	iy := 0.5 * 1.2 * 1.2 * 1.2 / 12
	line := func(change int) func(x float64) float64 {
		var b ledger.Bent
		for k, p := range l.Grid() {
			var c ledger.Curve
			for n := range c {
				c[n], _, _ = ledger.Curvatures(l.StrainAt(soft, []int{change}, k, n, 0).Elastic)
			}
			b.Add(p.From, p.To, &c)
		}
		end, slope := b.Left()
		require.NotZero(t, slope)
		return func(x float64) float64 { v, _ := b.At(x); return v - end*x/length } // deflection + up: sagging curvature turns up
	}
	require.InEpsilon(t, 1e6*0.4*length*length/(8*ecm*iy), line(0)(length/2), 1e-6, "camber is upwards")
	require.InEpsilon(t, -5*q*length*length*length*length/(384*ecm*iy), line(1)(length/2), 1e-6)
}

// The end of a line and its turns: a kink between two parts belongs to the right of it.
func TestEndsAndKinksOfALine(t *testing.T) {
	var level ledger.Curve
	var b ledger.Bent
	b.Add(0, 2, &level)
	b.Break(ledger.Kink{X: 0, Slope: -0.5, Offset: 1})
	b.Add(2, 5, &level)
	b.Break(ledger.Kink{X: 2, Slope: 0.75, Offset: 0.25})
	v, s := b.At(1)
	require.Equal(t, [2]float64{0.5, -0.5}, [2]float64{v, s})
	v, s = b.At(2)
	require.Equal(t, [2]float64{1 - 2*0.5 + 0.25, 0.25}, [2]float64{v, s}, "at a kink that on the right")
	v, s = b.Left()
	require.Equal(t, [2]float64{0.25 + 3*0.25, 0.25}, [2]float64{v, s})
	require.Empty(t, ledger.Turns(func(float64) (float64, float64) { return 1, 0 }, []float64{0, 1, 2}), "a level line turns nowhere")
	v, s = new(ledger.Bent).Left()
	require.Zero(t, v)
	require.Zero(t, s)
}
