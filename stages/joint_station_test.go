package stages_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// pieces is a block of 24 m cut at random places into elements that act together from the
// beginning or are joined, with draped tendons over all.
func pieces(t testing.TB, r *rand.Rand) (stages.Girder, []float64) {
	g := stages.Girder{Mark: "pieces"}
	number := 2 + r.IntN(5)
	cuts := []float64{0}
	for i := 1; i < number; i++ {
		cuts = append(cuts, 24*(float64(i)+0.6*(r.Float64()-0.5))/float64(number))
	}
	if seed := r.IntN(3); seed == 0 { // as eighths of the length: places of the table
		cuts = []float64{0, 3, 6, 12, 18, 21}
	}
	for i, x := range cuts {
		to := 24.0
		if i+1 < len(cuts) {
			to = cuts[i+1]
		}
		e := block()
		e.Mark, e.Length = fmt.Sprint("P", i+1), to-x
		e.Section = rect(t, 0.6+0.4*r.Float64(), 1.2)
		for k := range e.Bars {
			e.Bars[k].To, e.Bars[k].At.Y = e.Length, 0.2
		}
		g.Pieces = append(g.Pieces, stages.Piece{Element: e, At: x, Later: i > 0})
	}
	for i, z := range []float64{0.15, 0.3} {
		elevation := tendon.Drape(tendon.Point{Ordinate: 0.4 + 0.3*float64(i)}, 1.3, tendon.Point{X: 11, Ordinate: z}, 24)
		g.Tendons = append(g.Tendons, tendon.Tendon{Mark: string(rune('A' + i)), Strand: tendon.Y1860S7x157, Strands: 5, Duct: 0.06, Friction: 0.19, Wobble: 0.005, Elevation: elevation, Plan: tendon.Level(0, 24, 0),
			Approval: tendon.Approval{Reference: "invented", MeanStrength: 28e6, AnchorSpacing: 0.2, EdgeDistance: 0.1}})
	}
	return g, cuts[1:]
}

// At a joint a girder has the forces and stresses of its right side: those a hair beside it,
// where nothing jumps the same on both sides; in the functions of a stage, in the table, in the
// forces of tendons.
func TestNothingIsHalvedAtAJoint(t *testing.T) {
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 6))
		g, joints := pieces(t, r)
		first := steps{{Name: "hung", Age: 20, Standing: true, Phase: limits.Storing, Supports: stages.At(0.3, 23.7)}}
		for _, p := range g.Pieces[1:] {
			first[0].Events = append(first[0].Events, stages.Event{Add: []string{p.Element.Mark}, Join: []string{p.Element.Mark}})
		}
		on := steps{{Name: "stressed", Age: 28, Until: 60, Standing: true, Phase: limits.Stressing, Supports: stages.At(0.3, 23.7), Events: []stages.Event{
			{Jack: &tendon.Jacking{Tendons: []string{"A"}, Stress: 1300e6, Ends: tendon.BothEnds, DrawIn: 0.006}},
			{Jack: &tendon.Jacking{Tendons: []string{"B"}, Stress: 1300e6, Ends: tendon.BothEnds, DrawIn: 0.006}},
		}}}
		a, err := stages.Plan{first, on}.Analyse(g, limits.EN1992{})
		require.NoError(t, err, "seed %d", seed)
		e, err := a.Effects(2, 1)
		require.NoError(t, err)
		for _, x := range joints {
			at, beside, before := e.Forces(x), e.Forces(x+2e-6), e.Forces(x-2e-6)
			require.InDelta(t, beside.N, at.N, 1e-5*math.Abs(beside.N), "seed %d, x = %g m", seed, x)
			require.InDelta(t, beside.My, at.My, 1e-5*math.Abs(beside.N), "seed %d, x = %g m", seed, x)
			require.InDelta(t, before.My, at.My, 2e-3*math.Abs(before.N), "seed %d, x = %g m: sections differ, losses hardly", seed, x)
			for _, z := range []float64{0, 1.2} {
				p := section.Point{Z: z}
				require.InDelta(t, e.Stress(x+2e-6).At(p), e.Stress(x).At(p), 500, "seed %d, x = %g m", seed, x)
			}
		}
		record, err := a.Record()
		require.NoError(t, err)
		s := record.Stages[1].Situations[0]
		for i, q := range stages.StationsOf(s.Stations) {
			p := e.Stress(math.Min(q.X+2e-6, 24-1e-6))
			mean := [2]float64{p.At(section.Point{Z: 1.2}), p.At(section.Point{Z: 0})}
			require.LessOrEqual(t, q.TopLeast, mean[0]+2e4, "seed %d, row %d, x = %g m", seed, i, q.X)
			require.GreaterOrEqual(t, q.TopMost, mean[0]-2e4, "seed %d, row %d, x = %g m", seed, i, q.X)
			require.LessOrEqual(t, q.BottomLeast, mean[1]+2e4, "seed %d, row %d, x = %g m", seed, i, q.X)
			require.GreaterOrEqual(t, q.BottomMost, mean[1]-2e4, "seed %d, row %d, x = %g m", seed, i, q.X)
		}
		for _, f := range s.Tendons {
			for k := 1; k+1 < len(f.Along); k++ {
				require.Less(t, math.Abs(f.Along[k+1][1]-f.Along[k][1]), 0.08*f.Along[k][1], "seed %d, %s at x = %g m", seed, f.Mark, f.Along[k][0])
			}
		}
	}
}
