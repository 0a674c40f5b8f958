package ledger_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

const ep = 195e9 // Pa, of every tendon here

// two is a rectangle of 0.5 × 1.2 m with a tendon at 0.2 m and one at 0.5 m above the
// soffit, on the section without ducts.
func two(t testing.TB, duct float64) (l *ledger.Ledger, at func(force, from, to float64) float64) {
	const b, h = 0.5, 1.2
	l = one(20, rectangle(t, b, h, 0, 0), straight(t, point{0, 0, 0.2}, point{20, 0, 0.2}, 1e-3, duct), straight(t, point{0, 0, 0.5}, point{20, 0, 0.5}, 1.5e-3, duct))
	return l, func(force, from, to float64) float64 { // stress at a level of a force at another one, compression +
		return force/(b*h) + force*(from-h/2)*(to-h/2)/(b*h*h*h/12)
	}
}

// A tendon loses Ep/Ecm·Δσc when the next one is stressed, by the stress at its own
// level; the next one itself loses nothing. The concrete feels the loss.
func TestLossByTheNextTendon(t *testing.T) {
	l, stress := two(t, 0)
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	jack(l, on, 2e6, 1)
	require.NoError(t, l.MakeGrid())
	s := situation(l)
	lost := ep / ecm * stress(2e6, 0.5, 0.2) * 1e-3
	first, elastic := l.TendonForce(s, 10, 0)
	require.InDelta(t, 1e6-lost, first, 1e-3)
	require.InDelta(t, lost, elastic, 1e-3)
	second, elastic := l.TendonForce(s, 10, 1)
	require.InDelta(t, 2e6, second, 1e-3)
	require.Zero(t, elastic)
	require.InDelta(t, -(1e6 - lost + 2e6), l.Forces(s, 10, []float64{1}).N, 1e-3)
	require.InDelta(t, -stress(1e6-lost, 0.2, 0.9)-stress(2e6, 0.5, 0.9), l.Plane(s, 10, []float64{1}).At(section.Point{Z: 0.9}), 1e-3)
	before := &ledger.Situation{Steps: 1}
	before.Lay()
	first, elastic = l.TendonForce(before, 10, 0)
	require.InDelta(t, 1e6, first, 1e-3)
	require.Zero(t, elastic)
	second, _ = l.TendonForce(before, 10, 1)
	require.Zero(t, second, "not stressed yet")
}

// The modulus is that of the day of the later step.
func TestLossByTheModulusOfItsDay(t *testing.T) {
	l, stress := two(t, 0)
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	jack(l, on, 2e6, 1)
	l.Steps[0].Modulus = func(int) float64 { return 20e9 }
	l.Steps[1].Modulus = func(int) float64 { return 33e9 }
	require.NoError(t, l.MakeGrid())
	_, elastic := l.TendonForce(situation(l), 10, 0)
	require.InDelta(t, ep/33e9*stress(2e6, 0.5, 0.2)*1e-3, elastic, 1e-3)
}

// Two tendons stressed together do not shorten each other; one stressed again is
// brought to its new force, and the other one loses by the change alone.
func TestStressedTogetherAndAgain(t *testing.T) {
	l, stress := two(t, 0)
	on := state(l, 0)
	jack(l, on, 1e6, 0, 1)
	jack(l, on, 1.3e6, 0)
	require.NoError(t, l.MakeGrid())
	s := situation(l)
	first, _ := l.TendonForce(s, 10, 0)
	require.InDelta(t, 1.3e6, first, 1e-3)
	second, elastic := l.TendonForce(s, 10, 1)
	lost := ep / ecm * stress(0.3e6, 0.2, 0.5) * 1.5e-3
	require.InDelta(t, 1e6-lost, second, 1e-3)
	require.InDelta(t, lost, elastic, 1e-3)
	require.InDelta(t, -(1.3e6 + 1e6 - lost), l.Forces(s, 10, []float64{1}).N, 1e-3, "a tendon stressed again counts once")
}

// A tendon let down takes all its force out, also what it had lost, and the others gain.
func TestTendonLetDown(t *testing.T) {
	l, stress := two(t, 0)
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	jack(l, on, 2e6, 1)
	release(l, on, 0)
	require.NoError(t, l.MakeGrid())
	s := situation(l)
	left := 1e6 - ep/ecm*stress(2e6, 0.5, 0.2)*1e-3
	first, _ := l.TendonForce(s, 10, 0)
	require.InDelta(t, 0, first, 1e-3)
	gain := ep / ecm * stress(left, 0.2, 0.5) * 1.5e-3
	second, elastic := l.TendonForce(s, 10, 1)
	require.InDelta(t, 2e6+gain, second, 1e-3)
	require.InDelta(t, -gain, elastic, 1e-3)
	require.InDelta(t, -(2e6 + gain), l.Forces(s, 10, []float64{1}).N, 1e-3)
}

// Let down and stressed once more, a tendon is brought to its new force.
func TestTendonStressedAfterItWasLetDown(t *testing.T) {
	l, _ := two(t, 0)
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	release(l, on, 0)
	jack(l, on, 0.8e6, 0)
	require.NoError(t, l.MakeGrid())
	s := situation(l)
	force, elastic := l.TendonForce(s, 10, 0)
	require.InDelta(t, 0.8e6, force, 1e-6)
	require.InDelta(t, 0, elastic, 1e-6)
	require.InDelta(t, -0.8e6, l.Forces(s, 10, []float64{1}).N, 1e-6)
}

// Empty ducts are holes: A and I without 2·π·0.06²/4, about their own centroid.
func TestDuctsAreHoles(t *testing.T) {
	l, _ := two(t, 0.06)
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	hole := 3.141592653589793 * 0.06 * 0.06 / 4
	area := 0.6 - 2*hole
	z := (0.6*0.6 - hole*0.2 - hole*0.5) / area
	own := 3.141592653589793 * 0.06 * 0.06 * 0.06 * 0.06 / 64
	iy := 0.5*1.2*1.2*1.2/12 + 0.6*(0.6-z)*(0.6-z) - 2*own - hole*((0.2-z)*(0.2-z)+(0.5-z)*(0.5-z))
	got := l.Section(10, on)
	require.InDelta(t, area, got.Area, 1e-12)
	require.InDelta(t, z, got.Centroid.Z, 1e-12)
	require.InDelta(t, iy, got.SecondMomentY, 1e-12)
	plane := l.Plane(situation(l), 10, []float64{1})
	require.InDelta(t, -1e6/area-1e6*(0.2-z)*(1.2-z)/iy, plane.At(section.Point{Z: 1.2}), 1e-3)
}

// Grouted, a tendon belongs to the section by (n − 1)·Ap: its loss by the next one is
// its share of the transformed section, and acts on the concrete no second time.
func TestBondedTendonIsPartOfTheSection(t *testing.T) {
	l, _ := two(t, 0)
	bare := state(l, 0)
	grouted := &ledger.State{Index: 1, Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true, false}, Modulus: ecm}
	l.States = append(l.States, grouted)
	jack(l, bare, 1e6, 0)
	jack(l, grouted, 2e6, 1)
	require.NoError(t, l.MakeGrid())
	s := situation(l)
	extra := (ep/ecm - 1) * 1e-3
	area := 0.6 + extra
	z := (0.6*0.6 + extra*0.2) / area
	own := (ep/ecm - 1) * 1e-3 * 1e-3 / (4 * 3.141592653589793)
	iy := 0.5*1.2*1.2*1.2/12 + 0.6*(0.6-z)*(0.6-z) + extra*(0.2-z)*(0.2-z) + own
	require.InDelta(t, area, l.Section(10, grouted).Area, 1e-12)
	require.InDelta(t, iy, l.Section(10, grouted).SecondMomentY, 1e-12)
	stress := func(to float64) float64 { return 2e6/area + 2e6*(0.5-z)*(to-z)/iy }
	first, elastic := l.TendonForce(s, 10, 0)
	require.InDelta(t, ep/ecm*stress(0.2)*1e-3, elastic, 1e-3)
	require.InDelta(t, 1e6-elastic, first, 1e-3)
	plane := l.Plane(s, 10, []float64{1})
	bareAt := 1e6/0.6 + 1e6*(0.2-0.6)*(0.9-0.6)/(0.5*1.2*1.2*1.2/12)
	require.InDelta(t, -bareAt-stress(0.9), plane.At(section.Point{Z: 0.9}), 1e-3)
	// The steel out: a hole of its area, on which a loss acts.
	out := &ledger.State{Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true, false}, SteelOut: true}
	require.InDelta(t, 0.6-1e-3, l.Section(10, out).Area, 1e-12)
	require.InDelta(t, (0.36-0.2e-3)/(0.6-1e-3), l.Section(10, out).Centroid.Z, 1e-12)
}

// The strain of the concrete by later steps makes a tendon longer as well: a lower
// one under a tendon at the top.
func TestTendonGainsWhereTheConcreteIsPulled(t *testing.T) {
	l := one(20, rectangle(t, 0.5, 1.2, 0, 0), straight(t, point{0, 0, 0.1}, point{20, 0, 0.1}, 1e-3, 0), straight(t, point{0, 0, 1.1}, point{20, 0, 1.1}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	jack(l, on, 1e6, 1)
	require.NoError(t, l.MakeGrid())
	// 1/0.6 − 0.5²/0.072 = −1.806 per m²: pulled
	_, elastic := l.TendonForce(situation(l), 10, 0)
	require.InDelta(t, ep/ecm*1e6*(1/0.6-0.25/0.072)*1e-3, elastic, 1e-3)
	require.Negative(t, elastic)
}
