package stages_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// onTripod is what a force at x, y gives to two supports at x0 and to the one at x1 on
// the axis, by moments about the line of the pair, then about the axis.
func onTripod(x0, y0, y1, x1, x, y float64) [3]float64 {
	third := (x - x0) / (x1 - x0)
	pair := 1 - third
	right := (y - pair*y0) / (y1 - y0) // y = R0·y0 + R1·y1
	return [3]float64{pair - right, right, third}
}

// Every range of a reaction, by hand on supports that statics answers: weight with its
// tolerance and dynamic factor, whatever is present or absent at its worse end, partial
// factors of each; at rest only what is always there. Thirty plans at random.
func TestReactionsAreTheWorstOfAllTogether(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 8))
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	for range 30 {
		x0, y0, y1, x1 := in(0.2, 4), in(-1.5, -0.5), in(0.4, 1.8), in(8, 11.8)
		under, over, low, high := in(0, 0.15), in(0, 0.2), in(0.7, 1), in(1, 1.4)
		e := block()
		e.WeightTolerance = &loads.Tolerance{Under: under, Over: over}
		own := onTripod(x0, y0, y1, x1, 6, 0)
		var acts []stages.Action
		for i := range 1 + r.IntN(4) {
			a := stages.Action{
				Mark: string(rune('a' + i)), Y: in(-1, 1), Loads: point(in(0.5, 11.5), in(-20e3, 20e3)),
				Kind: []limits.ActionKind{"", stages.Wind, stages.Personnel, stages.Accidental}[r.IntN(4)],
			}
			switch r.IntN(4) {
			case 0:
				a.Least, a.Most = -1, in(0.2, 1)
			case 1:
				a.Least, a.Most = 1, 1
			case 2:
				a.Least, a.Most = in(0.1, 0.6), in(0.7, 1.3)
			}
			acts = append(acts, a)
		}
		on := bracketed([]stages.Support{{X: x0, Y: y0}, {X: x0, Y: y1}, {X: x1}})
		stand := paired(frames(0.4, 2, 10))
		plan := stages.Plan{stages.Store{Age: 28, On: stand}, stages.Haul{Age: 28, On: on, Dynamic: loads.Dynamic{Least: low, Most: high}, Actions: acts}, stages.Store{Age: 28, On: stand}}
		got := effectsOf(t, e, plan, 2)
		for i, p := range got.Reactions {
			w := 120e3 * own[i]
			nominal := w
			static := [2]float64{math.Min((1-under)*w, (1+over)*w), math.Max((1-under)*w, (1+over)*w)}
			char := [2]float64{math.Min((1-under)*low*w, (1+over)*high*w), math.Max((1-under)*low*w, (1+over)*high*w)}
			ultimate := [2]float64{math.Min(char[0], 1.35*char[0]), math.Max(1.35*char[1], char[1])}
			if w < 0 {
				ultimate = [2]float64{1.35 * (1 + over) * high * w, (1 - under) * low * w}
				char = [2]float64{(1 + over) * high * w, (1 - under) * low * w}
				static = [2]float64{(1 + over) * w, (1 - under) * w}
			}
			for _, a := range acts {
				f := a.Loads.Points[0].Force * onTripod(x0, y0, y1, x1, a.Loads.Points[0].At, a.Y)[i]
				least, most := a.Least, a.Most
				if most == 0 {
					most = 1
				}
				factor := 1.5
				if a.Kind == stages.Accidental {
					factor = 1
				}
				helps := 0.0 // what is always there helps with 1
				if least > 0 {
					helps = 1
					nominal += f
					static[0], static[1] = static[0]+math.Min(least*f, most*f), static[1]+math.Max(least*f, most*f)
				}
				char[0], char[1] = char[0]+math.Min(least*f, most*f), char[1]+math.Max(least*f, most*f)
				ends := []float64{least * helps * f, least * factor * f, most * helps * f, most * factor * f}
				down, up := math.Inf(1), math.Inf(-1)
				for _, v := range ends {
					down, up = math.Min(down, v), math.Max(up, v)
				}
				ultimate[0], ultimate[1] = ultimate[0]+down, ultimate[1]+up
			}
			require.InDelta(t, nominal, p.Nominal, 1e-6)
			require.InDelta(t, static[0], p.Static.Least, 1e-6)
			require.InDelta(t, static[1], p.Static.Most, 1e-6)
			require.InDelta(t, char[0], p.Characteristic.Least, 1e-6)
			require.InDelta(t, char[1], p.Characteristic.Most, 1e-6)
			require.InDelta(t, ultimate[0], p.Ultimate.Least, 1e-6)
			require.InDelta(t, ultimate[1], p.Ultimate.Most, 1e-6)
		}
	}
}

// One more percent of tolerance, one more load, a larger dynamic factor: each makes the
// largest reaction larger by as much as statics says, none is lost beside another.
func TestEachSourceOfAReactionCounts(t *testing.T) {
	stand := paired(stages.Pads(0.2, 2, 10))
	of := func(over, most float64, acts ...stages.Action) stages.Reaction {
		e := block()
		e.WeightTolerance = &loads.Tolerance{Over: over}
		plan := stages.Plan{stages.Store{Age: 28, On: stand}, stages.Lift{Age: 28, On: paired(hooks(0.2, 2, 10)), Dynamic: loads.Dynamic{Least: 1, Most: most}, Actions: acts}, stages.Store{Age: 28, On: stand}}
		return effectsOf(t, e, plan, 2).Reactions[0]
	}
	crew := stages.Action{Mark: "crew", Kind: stages.Personnel, Loads: point(2, 3e3)}
	hook := stages.Action{Mark: "hook", Least: 1, Most: 1, Loads: point(2, 2e3)}
	base := of(0, 1)
	require.InDelta(t, 30e3, base.Characteristic.Most, 1e-6)
	for _, c := range []struct {
		got    stages.Reaction
		static float64
		char   float64
	}{
		{of(0.01, 1), 30.3e3, 30.3e3}, {of(0, 1.2), 30e3, 36e3}, {of(0.01, 1.2), 30.3e3, 36.36e3}, {of(0, 1, crew), 30e3, 31.5e3},
		{of(0, 1, hook), 31e3, 31e3}, {of(0.01, 1.2, crew, hook), 31.3e3, 36.36e3 + 2.5e3}, {of(0.01, 1.2, hook, crew), 31.3e3, 36.36e3 + 2.5e3},
	} {
		require.InDelta(t, c.static, c.got.Static.Most, 1e-6)
		require.InDelta(t, c.char, c.got.Characteristic.Most, 1e-6)
	}
	require.InDelta(t, 1.35*36.36e3+1.5*1.5e3+1.5*1e3, of(0.01, 1.2, crew, hook).Ultimate.Most, 1e-6)
}

// The total is what the gauges must add up to: tolerance and what is always there, not
// the dynamic factor nor what may be absent; a share is of the measured total.
func TestTotalAndSharesAreThoseAtRest(t *testing.T) {
	e := block()
	e.WeightTolerance = &loads.Tolerance{Under: 0.1, Over: 0.05}
	acts := []stages.Action{{Mark: "form", Least: 1, Most: 1, Loads: point(2, 12e3)}, {Mark: "crew", Loads: point(9, 3e3)}, {Mark: "rope", Least: 0.5, Most: 1.2, Loads: point(10, 5e3)}}
	stand := paired(frames(0.2, 2, 10))
	r := run(t, e, stages.Plan{stages.Store{Age: 28, On: stand}, stages.Haul{Age: 28, On: paired(frames(0.3, 2, 10)), Dynamic: loads.Dynamic{Least: 0.8, Most: 1.3}, Actions: acts}, stages.Store{Age: 28, On: stand}})
	s := r.Stages[1].Situations[0]
	require.InDelta(t, 0.9*120e3+12e3+2.5e3, s.Total.Least, 1e-6)
	require.InDelta(t, 1.05*120e3+12e3+6e3, s.Total.Most, 1e-6)
	// The left line has half of the weight and all of the form; the right one all of the rope.
	least, most := math.Inf(1), 0.0
	for _, w := range []float64{0.9 * 120e3, 1.05 * 120e3} {
		for _, rope := range []float64{2.5e3, 6e3} {
			share := (w/2 + 12e3) / (w + 12e3 + rope) / 2
			least, most = math.Min(least, share), math.Max(most, share)
		}
	}
	for _, p := range s.Reactions[:2] {
		require.InDelta(t, least, p.Share.Least, 1e-9)
		require.InDelta(t, most, p.Share.Most, 1e-9)
	}
	for _, p := range s.Reactions[2:] {
		require.InDelta(t, 0.5-most, p.Share.Least, 1e-9)
		require.InDelta(t, 0.5-least, p.Share.Most, 1e-9)
	}
}

// The nominal force of a pad is one that it can give: where stressing lifts the element
// off the pads in the middle, they do not pull, and the others carry the weight.
func TestNominalReactionsAreThoseInContact(t *testing.T) {
	e := bare(straight("T", 0, 12, 0, 0.1))
	e.Tendons[0].Strands, e.Tendons[0].Duct = 12, 0.09
	on := stages.Elastic(50e6, stages.At(1, 6, 11)...)
	plan := stages.Plan{stages.Store{Age: 28, On: on, OutOfLevel: 1e-6}, stages.Stress{Age: 29, Jacking: []tendon.Jacking{fromLeft("T")}}}
	s := run(t, e, plan).Stages[1].Situations[0]
	sum := 0.0
	for _, p := range s.Reactions {
		require.GreaterOrEqual(t, p.Nominal, 0.0)
		sum += p.Nominal
	}
	require.Zero(t, s.Reactions[1].Nominal)
	require.InEpsilon(t, 120e3, sum, 1e-9)

	// The internal forces are those of the element on its two ends: 10 kN/m over 10 m with
	// overhangs of 1 m, and the eccentric tendon.
	for _, at := range stages.StationsOf(s.Stations) {
		if at.X == 6 {
			require.InEpsilon(t, 120e3-fromLeft("T").Stress*e.Tendons[0].Area()*0.3, at.Weight.My+at.Prestress.My, 1e-4, "about the centroid")
		}
	}
	effects := effectsOf(t, e, plan, 2)
	require.InEpsilon(t, 120e3, effects.Forces(6).My-fromLeft("T").Stress*e.Tendons[0].Area()*0.1, 1e-3)
	_, err := effects.Moves()
	require.ErrorIs(t, err, stages.ErrStage)
	require.ErrorContains(t, err, "in stressing at age 29 d a support lifts off, so that movements cannot be followed: must be supports that stay in contact")
	require.Equal(t, []string{"not evaluated: a support lifts off, movements cannot be followed"}, s.MoveNotes)
	require.Empty(t, s.Moves.Values)
}

// Supports that share by stiffness receive prestress over its characteristic range, 0.9 to 1.1
// by EN 1992-1-1, 5.10.9, against rated capacities; at its mean for readings and for ULS.
func TestCharacteristicReactionsHaveTheRangeOfPrestress(t *testing.T) {
	e := beamOf(t, false, shallow(9, 0.2))
	e.WeightTolerance = loads.PlusMinus(0)
	on := stages.Elastic(8e7, stages.At(0.5, 7, 19.5)...)
	a, err := stages.Plan{
		steps{{Name: "set down", Age: 9, Standing: true, Phase: limits.Storing, Supports: on, OutOfLevel: 1e-9}},
		steps{{Name: "stressed", Age: 9, Standing: true, Phase: limits.Stressing, Supports: on, Events: []stages.Event{{Jack: &jackT(700e6)[0]}}}},
	}.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	before, err := a.Effects(1, 1)
	require.NoError(t, err)
	after, err := a.Effects(2, 1)
	require.NoError(t, err)
	for i, r := range after.Reactions {
		was := before.Reactions[i].Nominal
		prestress := r.Nominal - was
		require.Greater(t, math.Abs(prestress), 2e3)
		require.InDelta(t, was+math.Min(0.9*prestress, 1.1*prestress), r.Characteristic.Least, 1)
		require.InDelta(t, was+math.Max(0.9*prestress, 1.1*prestress), r.Characteristic.Most, 1)
		require.InDelta(t, r.Nominal, r.Static.Least, 1)
		require.InDelta(t, r.Nominal, r.Static.Most, 1)
		require.InDelta(t, math.Max(was+prestress, 1.35*was+prestress), r.Ultimate.Most, 1)
	}
}
