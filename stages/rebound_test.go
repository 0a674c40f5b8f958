package stages_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// onTwoSupports is how far a beam of a length on its ends goes down at a under 1 N at b, over
// the unit of 1/EI.
func onTwoSupports(length, a, b float64) float64 {
	if a > b {
		a, b = b, a
	}
	c := length - b
	return c * a * (length*length - c*c - a*a) / (6 * length)
}

// sprung is by how much the hangers of a deck of 20 m without other supports change, by
// flexibilities and equilibrium alone: a force acts downwards on the deck and upwards on the
// gantry at one place, and each hanger is set shorter by a length.
func sprung(t testing.TB, deck, gantry, stiffness float64, xs []float64, at, force float64, shorter []float64) []float64 {
	n := len(xs)
	a, b := mat.NewDense(n+2, n+2, nil), mat.NewVecDense(n+2, nil)
	for i, x := range xs {
		for j, y := range xs {
			a.Set(i, j, onTwoSupports(20, x, y)*(1/deck+1/gantry))
		}
		a.Set(i, i, a.At(i, i)+1/stiffness)
		a.Set(i, n, 1)
		a.Set(i, n+1, x)
		a.Set(n, i, 1)
		a.Set(n+1, i, x)
		b.SetVec(i, onTwoSupports(20, x, at)*(1/deck+1/gantry)*force)
		if shorter != nil {
			b.SetVec(i, b.AtVec(i)+shorter[i])
		}
	}
	b.SetVec(n, force)
	b.SetVec(n+1, force*at)
	var z mat.VecDense
	require.NoError(t, z.SolveVec(a, b))
	return z.RawVector().Data[:n]
}

// hungSpan is a span of 20 m on hangers from a gantry at random places, each adjusted to what
// holds the deck level.
func hungSpan(t testing.TB, r *rand.Rand) (xs, forces []float64, on []stages.Support, deck, ei, stiffness float64) {
	for i := range 6 {
		xs = append(xs, 1.2+3.5*float64(i)+0.8*(r.Float64()-0.5))
	}
	forces = continuous(t, 20, xs...)
	for i := range forces {
		forces[i] *= beamWeight
	}
	deck = modulus(t, 8) / 24 // EI of 0.5 × 1 m
	ei, stiffness = deck*math.Exp(2*r.Float64()-1), 2e7*math.Exp(2*r.Float64())
	return xs, forces, stages.Hung(gantry(ei), stages.Elastic(stiffness, hangers(forces, xs...)...)...), deck, ei, stiffness
}

// less is a list without one.
func less[T any](list []T, i int) []T { return append(append([]T{}, list[:i]...), list[i+1:]...) }

// A hanger that goes gives its force to the deck and takes it off the gantry, which springs
// back and loads its neighbours; the sudden loss is as much again. What had gone before it is
// taken off anew with the next.
func TestGantrySpringsBack(t *testing.T) {
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 1))
		xs, forces, on, deck, ei, stiffness := hungSpan(t, r)
		e := beamOf(t, false)
		e.WeightTolerance = loads.PlusMinus(0)
		first := 1 + r.IntN(len(xs)-2)
		second := 1 + r.IntN(len(xs)-3)
		hung := steps{{Name: "hung", Age: 8, Standing: true, Phase: limits.Storing, Supports: on}}
		lost := func(factor float64) []float64 {
			a, err := stages.Plan{hung}.Analyse(e, limits.EN1992{})
			require.NoError(t, err)
			before, err := a.Effects(1, 1)
			require.NoError(t, err)
			one := steps{{Name: "one lost", Age: 8, Standing: true, Phase: limits.Storing, Supports: less(on, first)}}
			if factor > 0 {
				loss, err := before.Loss(first, factor)
				require.NoError(t, err)
				loss.Least, loss.Most = 1, 1
				one[0].Actions = []stages.Action{loss}
			}
			a, err = stages.Plan{hung, one, steps{{Name: "two lost", Age: 8, Standing: true, Phase: limits.Storing, Supports: less(less(on, first), second)}}}.Analyse(e, limits.EN1992{})
			require.NoError(t, err)
			var list []float64
			for stage := 2; stage <= 3; stage++ {
				after, err := a.Effects(stage, 1)
				require.NoError(t, err)
				for _, q := range after.Reactions {
					list = append(list, q.Nominal)
				}
			}
			return list
		}
		left, was := less(xs, first), less(forces, first)
		change := sprung(t, deck, ei, stiffness, left, xs[first], forces[first], nil)
		static, sudden := lost(0), lost(0.7)
		for i := range left {
			require.InDelta(t, was[i]+change[i], static[i], 1e-5*beamWeight, "seed %d, %v without %g m, hanger at %g m", seed, xs, xs[first], left[i])
			require.InDelta(t, was[i]+1.7*change[i], sudden[i], 1e-5*beamWeight, "seed %d, sudden loss at %g m, hanger at %g m", seed, xs[first], left[i])
			was[i] += change[i]
		}
		change = sprung(t, deck, ei, stiffness, less(left, second), left[second], was[second], nil)
		for i, f := range less(was, second) {
			require.InDelta(t, f+change[i], static[len(left)+i], 1e-5*beamWeight, "seed %d, hanger at %g m, second loss", seed, less(left, second)[i])
		}
	}
}

// Hangers that come with a force, adjusted together, bend the gantry under the others, which
// are not adjusted anew.
func TestHangersThatComeBendTheGantry(t *testing.T) {
	for seed := range uint64(8) {
		r := rand.New(rand.NewPCG(seed, 2))
		xs, forces, on, deck, ei, stiffness := hungSpan(t, r)
		e := beamOf(t, false)
		e.WeightTolerance = loads.PlusMinus(0)
		come := 2e3 * (1 + r.Float64())
		places := []float64{(xs[1] + xs[2]) / 2, (xs[3] + xs[4]) / 2}
		fresh := stages.Hung(gantry(ei), stages.Elastic(stiffness, hangers([]float64{come, come}, places...)...)...)
		a, err := stages.Plan{
			steps{{Name: "hung", Age: 8, Standing: true, Phase: limits.Storing, Supports: on}},
			steps{{Name: "two more", Age: 8, Standing: true, Phase: limits.Storing, Supports: append(append([]stages.Support{}, on...), fresh...)}},
		}.Analyse(e, limits.EN1992{})
		require.NoError(t, err)
		after, err := a.Effects(2, 1)
		require.NoError(t, err)
		all, shorter := append(append([]float64{}, xs...), places...), make([]float64, len(xs)+2)
		for i, x := range places {
			shorter[len(xs)+i] = come * (1/stiffness + (onTwoSupports(20, x, places[0])+onTwoSupports(20, x, places[1]))/ei)
		}
		change := sprung(t, deck, ei, stiffness, all, 0, 0, shorter)
		for i, was := range append(forces, 0, 0) {
			require.InDelta(t, was+change[i], after.Reactions[i].Nominal, 1e-5*beamWeight, "seed %d, hanger at %g m of %v", seed, all[i], all)
		}
	}
}

// A hanger whose force is held bends the gantry under the others as it changes.
func TestHeldForceThatChangesBendsTheGantry(t *testing.T) {
	for seed := range uint64(8) {
		r := rand.New(rand.NewPCG(seed, 3))
		xs, forces, on, deck, ei, stiffness := hungSpan(t, r)
		e := beamOf(t, false)
		e.WeightTolerance = loads.PlusMinus(0)
		at, more := 1+r.IntN(len(xs)-2), 8e3*(1+r.Float64())
		on[at].Held = true
		heavier := append([]stages.Support{}, on...)
		heavier[at].Preload += more
		a, err := stages.Plan{
			steps{{Name: "hung", Age: 8, Standing: true, Phase: limits.Storing, Supports: on}},
			steps{{Name: "more", Age: 8, Standing: true, Phase: limits.Storing, Supports: heavier}},
			steps{{Name: "taken off", Age: 8, Standing: true, Phase: limits.Storing, Supports: less(heavier, at)}},
		}.Analyse(e, limits.EN1992{})
		require.NoError(t, err)
		rest, was := less(xs, at), less(forces, at)
		for stage, force := range []float64{-more, forces[at] + more} {
			after, err := a.Effects(2+stage, 1)
			require.NoError(t, err)
			list := after.Reactions
			if stage == 0 {
				require.InDelta(t, forces[at]+more, list[at].Nominal, 1e-6*beamWeight)
				list = less(list, at)
			}
			for i, d := range sprung(t, deck, ei, stiffness, rest, xs[at], force, nil) {
				was[i] += d
				require.InDelta(t, was[i], list[i].Nominal, 1e-5*beamWeight, "seed %d, stage %d, hanger at %g m of %v, held at %g m", seed, 2+stage, rest[i], xs, xs[at])
			}
		}
	}
}

// A loss on a curved girder, where places across are rounded, finds its gantry.
func TestLossOfHangerOfACurvedSpan(t *testing.T) {
	xs, _, on, _, _, _ := hungSpan(t, rand.New(rand.NewPCG(7, 4)))
	for i := range on {
		on[i].Y = 0.1 * math.Sin(xs[i])
	}
	e := beamOf(t, false)
	girder := stages.Girder{Mark: "curved", Radius: 313, Pieces: []stages.Piece{{Element: e}}}
	a, err := stages.Plan{steps{{Name: "hung", Age: 8, Standing: true, Phase: limits.Storing, Supports: on}}}.Analyse(girder, limits.EN1992{})
	require.NoError(t, err)
	before, err := a.Effects(1, 1)
	require.NoError(t, err)
	for i := range on {
		loss, err := before.Loss(i, 1)
		require.NoError(t, err)
		require.Equal(t, on[i].Link, loss.Link)
	}
}
