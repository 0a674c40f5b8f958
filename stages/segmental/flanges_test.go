package segmental

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A box with upright webs of 0.4 m: 2.5 m beside and 2.1 m on each side between them. With
// l0 = 10 m of these 0.2·2.5 + 1 = 1.5 m and 0.2·2.1 + 1 = 1.42 m count, with l0 = 4 m 0.2·l0.
func TestEffectiveFlangesByHand(t *testing.T) {
	shape, err := section.Box{Depth: 3, TopWidth: 10, RootWidth: 5, BottomWidth: 5, TopSlab: 0.3, BottomSlab: 0.4, WebThickness: 0.4, CantileverRoot: 0.45, CantileverTip: 0.2}.Shape()
	require.NoError(t, err)
	for zero, want := range map[float64][2]float64{10: {2 * (1.5 + 0.4 + 1.42), 2 * (0.4 + 1.42)}, 4: {2 * (0.8 + 0.4 + 0.8), 2 * (0.4 + 0.8)}, 21: {10, 5}} {
		f, err := effectiveFlanges(shape, zero)
		require.NoError(t, err)
		require.InDelta(t, 10, f.full[0], 1e-9)
		require.InDelta(t, 5, f.full[1], 1e-9)
		require.InDeltaSlice(t, want[:], f.effective[:], 1e-9, "l0 = %g m", zero)
		require.Equal(t, zero < 20, f.reduced())
	}
	f, err := effectiveFlanges(shape, 10)
	require.NoError(t, err)
	require.Len(t, f.bands, 4)
	left := 0.0
	for _, b := range f.bands {
		left += b.From.Y + b.To.Y
		if b.From.Y < 0 && b.To.Y > 0 {
			require.InDelta(t, 2*(2.1-1.42), b.To.Y-b.From.Y, 1e-9)
			continue
		}
		require.InDelta(t, 2.5+1.5, math.Min(math.Abs(b.From.Y), math.Abs(b.To.Y)), 1e-9)
	}
	require.InDelta(t, 0, left, 1e-9, "symmetric")
	_, err = effectiveFlanges(shape, 0)
	require.ErrorIs(t, err, section.ErrShape)
}

// plainly is a standard whose limits of tension have no partial factors.
type plainly struct{ limits.EN1992 }

func (s plainly) Limits(q limits.Question) ([]limits.Limit, error) {
	list, err := s.EN1992.Limits(q)
	for i := range list {
		if q.Kind == limits.Tension {
			list[i].Factors = limits.Factors{}
		}
	}
	return list, err
}

// After the first pair an arm is 5 m long, after the second 8 m: N on the full section, the moment on the effective one,
// by hand from the forces of the engine on both sides of the pier. Arms of 14 m have their slabs in
// full: there is no such check.
func TestTensionWithEffectiveFlanges(t *testing.T) {
	d, on, steps := bare(t)
	b, err := d.Build(on, plainly{}, steps...)
	require.NoError(t, err)
	for step, joints := range map[int][]float64{1: {6, 10}, 2: {3, 6, 10, 13}} {
		arm := 2 + 3*float64(step)
		_, e := lastMove(t, b, step)
		worst := math.Inf(-1)
		for _, x := range joints {
			shape := grossBeside(b.Girder, x, math.Copysign(1, x-8))
			f, err := effectiveFlanges(shape, 2*arm)
			require.NoError(t, err)
			part, err := shape.Without(f.bands...)
			require.NoError(t, err)
			full := shape.Properties()
			require.Less(t, part.SecondMomentY, full.SecondMomentY)
			for _, beside := range []float64{-1e-5, 1e-5} {
				forces := e.Forces(x + beside)
				moment := forces.My + forces.N*full.Centroid.Z
				for _, z := range []float64{0, full.Centroid.Z - full.Bottom} {
					worst = math.Max(worst, forces.N/full.Area-moment*(z-part.Centroid.Z)/part.SecondMomentY)
				}
			}
		}
		c := checkOf(t, b, step, len(steps[step-1].Moves), "tension with effective flange width at joint ")
		require.InEpsilon(t, worst, c.Demand.Value, 1e-4)
		require.Equal(t, 0.0, c.Limit.Value)
		require.Contains(t, c.Note, fmt.Sprintf("arm %.2f m", arm))
		require.Empty(t, c.Kind, "a check of its own")
	}

	long, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	for i, arm := range []string{"arm 5.00 m", "arm 8.00 m"} {
		last, _ := lastMove(t, long, i+1)
		n := 0
		for _, c := range last.Checks {
			if strings.HasPrefix(c.Name, "tension with effective") {
				n++
				require.Contains(t, c.Note, arm)
				require.NotEqual(t, stages.NotEvaluated, c.State)
			}
		}
		require.Equal(t, 1, n)
	}
}

func TestNoFlangeCheckWhereSlabsCountInFull(t *testing.T) {
	d := haunched(t, 4)
	d.Piers = []Pier{{Mark: "P1", At: 14, Rows: 3.2}}
	g, err := d.Girder()
	require.NoError(t, err)
	s := d.begin(nil)
	for i := range s.carried {
		s.carried[i], s.joined[i] = true, i > 0
	}
	list, err := s.flangeChecks(Move{Do: Wait}, g, stages.Effects{}, limits.EN1992{})
	require.NoError(t, err)
	require.Empty(t, list)
}
