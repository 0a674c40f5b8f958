package launching_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// unlike are four elastic pads, a wide pair at the first line and a narrow one at the
// second, of different stiffness.
func unlike() []stages.Support {
	wide, narrow := stages.Pads(1.7, 1.5), stages.Pads(1.1, 31)
	return append(stages.Elastic(300e6, wide...), stages.Elastic(120e6, narrow...)...)
}

// torsion is GJ of the span (N·m²) at an age.
func torsion(t *testing.T, age float64) float64 {
	e := span(t)
	j, err := e.Section.At(17).Torsion()
	require.NoError(t, err)
	state, err := e.Concrete.At(age)
	require.NoError(t, err)
	return state.Modulus / 2.4 * j.Constant
}

// A stage's reactions for a level difference of a support are those of the four points, with
// the worst of the four supports out of the plane, also where the pairs are unlike.
func TestOutOfLevelOfAStageIsTheWarpOfFourPoints(t *testing.T) {
	for name, on := range map[string][]stages.Support{"wide pair first": unlike(), "narrow pair first": mirrored(unlike())} {
		store := func(out float64) []stages.Reaction {
			record, err := stages.Plan{stages.Store{Age: 28, On: on, OutOfLevel: out}}.Run(span(t), limits.EN1992{})
			require.NoError(t, err)
			return record.Stages[0].Situations[0].Reactions
		}
		at1, at2 := store(0.0002), store(0.0005)
		f := launching.FourPoints{
			Length: on[2].X - on[0].X, Widths: [2]float64{on[1].Y - on[0].Y, on[3].Y - on[2].Y}, Torsion: torsion(t, 28),
		}
		for i, s := range on {
			f.Stiffness[i], f.Level[i] = s.Stiffness, at1[i].Nominal
		}
		for i := range on {
			most := 0.0
			for support := range on {
				forces, err := f.At(support, 0.0001)
				require.NoError(t, err)
				most = math.Max(most, math.Abs(forces[i]-f.Level[i])/0.0001)
			}
			width := func(r stages.Reaction) float64 { return r.Static.Most - r.Static.Least }
			require.InEpsilon(t, most, (width(at2[i])-width(at1[i]))/2/0.0003, 1e-3, "%s, support %d", name, i+1)
		}
	}
}

// mirrored are supports with their lines changed over along the span of 34 m.
func mirrored(on []stages.Support) []stages.Support {
	list := append([]stages.Support(nil), on[2:]...)
	list = append(list, on[:2]...)
	for i := range list {
		list[i].X = 34 - list[i].X
	}
	return list
}
