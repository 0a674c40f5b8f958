package ledger_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// rows adds up the rows of a sum at a point: each on its own section, times its factors.
func rows(l *ledger.Ledger, items []ledger.Item, x float64, at section.Point) (sum float64, forces section.Forces) {
	for _, item := range items {
		factor := 1.0
		for _, f := range item.Factor {
			factor *= f
		}
		p := l.Section(x, item.State)
		sum += factor * p.Stress(ledger.About(item.Forces, p.Centroid), at)
		forces = forces.Plus(item.Forces.Times(factor))
	}
	return sum, forces
}

// The rows of a stress add up to it, each with the section on which it came: two
// steps of stressing, grout between them, losses, a tendon let down and weights.
func TestRowsAddUpToTheStress(t *testing.T) {
	rng := rand.New(rand.NewPCG(61, 62))
	for range 10 {
		l := one(20, lopsided(t, 1), straight(t, point{0, 0, 0.2}, point{20, 0.05, 0.5}, 1e-3, 0.06), straight(t, point{0, -0.2, 0.5}, point{20, 0, 0.2}, 1.5e-3, 0.07),
			straight(t, point{0, -0.1, 1}, point{20, -0.1, 1.2}, 0.5e-3, 0.05))
		bare := state(l, 0)
		grouted := &ledger.State{Index: 1, Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true, false, false}, Modulus: ecm}
		alone := &ledger.State{Index: 2, Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true, false, false}, SteelOut: true}
		l.States = append(l.States, grouted, alone)
		jack(l, bare, 1e6, 0, 2)
		jack(l, grouted, 2e6, 1)
		release(l, grouted, 2)
		lasting(l)
		require.NoError(t, l.MakeGrid())
		f, g := some(rng), some(rng)
		s := situation(l, ledger.Entry{State: bare, Field: level(f), Coefficient: 0.7, Inner: 1, Outer: []int{2}}, ledger.Entry{State: grouted, Field: level(g), Coefficient: -1.5, Inner: -1})
		period := over(t, 1.6, 3e-4, tendon.Relaxing{})
		since := []float64{1.2, 0.8, 0.7}
		s.Times = []*ledger.Time{{Since: [][]float64{since, since, nil}, Modulus: []float64{ecm, ecm, ecm}, Days: []float64{50, 30, -1}, Periods: []tendon.Period{period, period, {}}, Concrete: alone}}
		s.Lay()
		factors := []float64{0.9 + 0.2*rng.Float64(), 0.5 + rng.Float64(), 0.8 + rng.Float64()}
		x := 3 + 14*rng.Float64()
		items := l.Items(s, x, factors, nil)
		at := section.Point{Y: rng.Float64() - 0.5, Z: rng.Float64()}
		sum, forces := rows(l, items, x, at)
		require.InDelta(t, l.Plane(s, x, factors).At(at), sum, 1e-3)
		want := l.Forces(s, x, factors)
		require.InDelta(t, want.N, forces.N, 1e-4)
		require.InDelta(t, want.My, forces.My, 1e-4)
		require.InDelta(t, want.T, forces.T, 1e-4)
		// A tendon's rows add up to its force.
		for i := range 3 {
			total := 0.0
			for _, item := range items {
				if item.Tendon == i {
					total += item.Force
					require.Equal(t, -1, item.Entry)
					require.Equal(t, []int{prestress}, item.Causes)
				}
			}
			force, _ := l.TendonForce(s, x, i)
			if i == 0 {
				force += bondedShare(t, l, s, x)
			}
			require.InDelta(t, force, total, 1e-3, "tendon %d", i)
		}
		var names [][]int
		for _, item := range items {
			if item.Tendon < 0 {
				names = append(names, item.Causes)
			}
		}
		require.Equal(t, [][]int{{1, 2}, nil}, names, "inner, then outer causes")
	}
}

// bondedShare is what a grouted tendon lost by steps after its grout: in the
// transformed section, in no row of its own.
func bondedShare(t *testing.T, l *ledger.Ledger, s *ledger.Situation, x float64) float64 {
	t.Helper()
	first, last := &ledger.Situation{Steps: 1}, &ledger.Situation{Steps: s.Steps}
	first.Lay()
	last.Lay()
	before, _ := l.TendonForce(first, x, 0)
	after, _ := l.TendonForce(last, x, 0)
	return before - after
}

// Parts of tendons that have not spread have a factor of their own in their rows.
func TestRowsOfATendonThatHasNotSpread(t *testing.T) {
	l := one(12, rectangle(t, 0.6, 1.6, 0, 0), straight(t, point{0, 0, 0.8}, point{12, 0, 0.8}, 1e-3, 0), straight(t, point{0, 0, 0.3}, point{12, 0, 0.3}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0, 1)
	require.NoError(t, l.MakeGrid())
	items := l.Items(situation(l), 0.5, []float64{1.1}, []ledger.ApartAt{{Tendon: 1, Factor: 0.25}})
	require.Len(t, items, 2)
	require.Equal(t, []float64{1.1}, items[0].Factor)
	require.Equal(t, []float64{1.1, 0.25}, items[1].Factor)
	require.Equal(t, []int{prestress, -1}, items[1].Causes)
	require.InDelta(t, 1e6, items[1].Force, 1e-6)
	require.Empty(t, l.Items(&ledger.Situation{}, 0.5, []float64{1}, nil))
}

// Rows stop at the end of the tendon and of the body.
func TestNoRowsWhereNothingIs(t *testing.T) {
	l := &ledger.Ledger{Girder: ledger.Girder{Length: 10, Pieces: []ledger.Piece{{From: 0, To: 4, Section: rectangle(t, 0.5, 1, 0, 0)}, {From: 4, To: 10, Section: rectangle(t, 0.5, 1, 0, 0)}},
		Tendons: []ledger.Tendon{straight(t, point{0, 0, 0.3}, point{4, 0, 0.3}, 1e-3, 0)}}}
	first := state(l, 0)
	jack(l, first, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	s := situation(l, plain(first, level(section.Forces{My: 1e5})), plain(first, level(section.Forces{})))
	require.Len(t, l.Items(s, 3, []float64{1}, nil), 2)
	require.Empty(t, l.Items(s, 5, []float64{1}, nil))
	force, elastic := l.TendonForce(s, 5, 0)
	require.Zero(t, force)
	require.Zero(t, elastic)
	require.Zero(t, l.Plane(s, 5, []float64{1}))
}
