package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

func effectsOf(t *testing.T, e stages.Subject, plan stages.Plan, stage int) stages.Effects {
	t.Helper()
	a, err := plan.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	effects, err := a.Effects(stage, 1)
	require.NoError(t, err)
	return effects
}

// Wind and braking act at their level above the supports: the linked pair on the
// right takes no torque, so that the wind turns over the left pads alone.
func TestHorizontalActionsByHand(t *testing.T) {
	on := paired(stages.Pads(0.22, 0.7, 11.1))
	for i := range on {
		on[i].Z = -0.1
	}
	wind := stages.Action{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.9, Least: -1, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(1, 9, 700)}}}
	brake := stages.Action{Mark: "brake", Kind: stages.Braking, Direction: stages.Along, Z: 1.3, Least: -0.5, Most: 1, Loads: point(3, 6e3)}
	still := effectsOf(t, block(), stages.Plan{stages.Seat{Age: 28, On: on}}, 1).Reactions
	for i, p := range effectsOf(t, block(), stages.Plan{stages.Seat{Age: 28, On: on, Actions: []stages.Action{wind}}}, 1).Reactions {
		turn := 0.0
		if i < 2 {
			turn = 700 * 8 * (0.9 + 0.1) / 0.44
		}
		require.InDelta(t, still[i].Nominal, p.Nominal, 1e-6)
		require.InDelta(t, p.Nominal, p.Static.Most, 1e-6, "at rest there is no wind")
		require.InDelta(t, still[i].Nominal+turn, p.Characteristic.Most, 1e-6, "support %d", i+1)
		require.InDelta(t, still[i].Nominal-turn, p.Characteristic.Least, 1e-6)
		require.InDelta(t, still[i].Nominal*1.35+1.5*turn, p.Ultimate.Most, 1e-6)
	}
	// A force along +x at 1.4 m above the supports presses the right ones.
	for i, p := range effectsOf(t, block(), stages.Plan{stages.Seat{Age: 28, On: on, Actions: []stages.Action{brake}}}, 1).Reactions {
		press := 6e3 * 1.4 / 10.4 / 2
		least, most := -0.5*press, press
		if i < 2 {
			least, most = -press, 0.5*press
		}
		require.InDelta(t, still[i].Nominal+most, p.Characteristic.Most, 1e-6, "support %d", i+1)
		require.InDelta(t, still[i].Nominal+least, p.Characteristic.Least, 1e-6)
	}
	// To the left, +y, presses the pad at +y.
	wind.Least, wind.Most = 1, 1
	r := effectsOf(t, block(), stages.Plan{stages.Seat{Age: 28, On: on, Actions: []stages.Action{wind}}}, 1).Reactions
	require.InDelta(t, 700*8/0.44*2, r[1].Nominal-r[0].Nominal, 1e-6)
	require.InDelta(t, r[1].Nominal, r[1].Static.Most, 1e-6, "what is always there is there at rest")
}

// A prop that comes touches: it has no force, and the others keep theirs. What
// comes later it shares.
func TestAPropThatComesOnlyTouches(t *testing.T) {
	four := stages.Elastic(80e6, stages.Pads(0.2, 0.7, 11.1)...)
	prop := stages.Elastic(80e6, stages.Support{X: 5.2, Role: stages.Pad})
	crate := stages.Action{Mark: "crate", Least: 1, Most: 1, Loads: point(5.2, 20e3)}
	plan := stages.Plan{
		stages.Store{Age: 28, On: four, OutOfLevel: 0.001}, stages.Store{Name: "propped", Age: 29, On: append(four[:4:4], prop...), OutOfLevel: 0.001},
		stages.Store{Name: "loaded", Age: 30, On: append(four[:4:4], prop...), OutOfLevel: 0.001, Actions: []stages.Action{crate}},
	}
	before, after, loaded := effectsOf(t, block(), plan, 1).Reactions, effectsOf(t, block(), plan, 2).Reactions, effectsOf(t, block(), plan, 3).Reactions
	for i, p := range before {
		require.InDelta(t, p.Nominal, after[i].Nominal, 1e-3, "support %d", i+1)
	}
	require.InDelta(t, 0, after[4].Nominal, 1e-3)
	require.Greater(t, loaded[4].Nominal, 5e3, "of the crate it takes its share")
	require.Less(t, loaded[4].Nominal, 20e3)
	total, moment := 0.0, 0.0
	for _, p := range loaded {
		total, moment = total+p.Nominal, moment+p.Nominal*p.X
	}
	require.InDelta(t, 140e3, total, 1e-3)
	require.InDelta(t, 120e3*6+20e3*5.2, moment, 1e-2)
}

// A prop that goes gives what it carried to those that remain.
func TestAPropThatGoesGivesItsForce(t *testing.T) {
	six := stages.Elastic(80e6, append(stages.Pads(0.2, 0.7, 11.1), stages.Pads(0.2, 5.2)...)...)
	plan := stages.Plan{stages.Store{Age: 28, On: six, OutOfLevel: 1e-5}, stages.Store{Age: 29, On: six[:4], OutOfLevel: 1e-5}}
	before, after := effectsOf(t, block(), plan, 1).Reactions, effectsOf(t, block(), plan, 2).Reactions
	require.Greater(t, before[4].Nominal, 15e3)
	sum, moment := 0.0, 0.0
	for _, p := range after {
		sum, moment = sum+p.Nominal, moment+p.Nominal*p.X
	}
	require.InDelta(t, 120e3, sum, 1e-3)
	require.InDelta(t, 720e3, moment, 1e-2)
	// The four that remain are determinate but for twist: by symmetry across each pair is even.
	require.InDelta(t, after[0].Nominal, after[1].Nominal, 1e-3)
	require.InDelta(t, 120e3*(11.1-6)/10.4/2, after[0].Nominal, 1e-3)
}

// A held support carries its preload and no more; the rest goes to the others by
// statics.
func TestAHeldSupportCarriesItsPreload(t *testing.T) {
	on := append(paired(stages.Pads(0.2, 0.7, 11.1)), stages.Support{X: 4.4, Preload: 18e3, Held: true, Role: stages.Jack})
	for _, p := range effectsOf(t, block(), stages.Plan{stages.Store{Age: 28, On: on}}, 1).Reactions {
		switch p.X {
		case 4.4:
			require.InDelta(t, 18e3, p.Nominal, 1e-6)
			require.InDelta(t, 18e3, p.Static.Most, 1e-6)
			require.InDelta(t, 18e3, p.Characteristic.Least, 1e-6)
		case 0.7:
			require.InDelta(t, (120e3*(11.1-6)-18e3*(11.1-4.4))/10.4/2, p.Nominal, 1e-6)
		default:
			require.InDelta(t, (120e3*(6-0.7)-18e3*(4.4-0.7))/10.4/2, p.Nominal, 1e-6)
		}
	}
}

// A train that rolls over: the most that each support receives is that of its
// influence line, by brute force over the positions.
func TestATrainByBruteForce(t *testing.T) {
	train := loads.Train{Name: "cart", Axles: []loads.Axle{{Force: 22e3}, {Force: 35e3, Behind: 1.7}, {Force: 14e3, Behind: 4.1}}}
	on := paired(stages.Pads(0.2, 0.7, 11.1))
	plan := stages.Plan{stages.Seat{Age: 28, On: on}, stages.Seat{Age: 29, On: on, Actions: []stages.Action{{Mark: "cart", Train: &train, Y: 0.05}}}}
	rest, rolls := effectsOf(t, block(), plan, 1).Reactions, effectsOf(t, block(), plan, 2).Reactions
	influence := func(i int, x float64) float64 {
		left := (11.1 - x) / 10.4
		if i > 1 {
			return (1 - left) / 2
		}
		return left/2 + []float64{-1, 1}[i]*0.05/0.4 // the torque is the left pads' alone
	}
	for i := range on {
		most, least := 0.0, 0.0
		for k := range 40001 {
			sum, at := 0.0, 18.0*float64(k)/40000
			for _, axle := range train.Axles {
				if at -= axle.Behind; at >= 0 && at <= 12 {
					sum += axle.Force * influence(i, at)
				}
			}
			most, least = math.Max(most, sum), math.Min(least, sum)
		}
		require.InDelta(t, rest[i].Nominal, rolls[i].Nominal, 1e-6)
		require.GreaterOrEqual(t, rolls[i].Characteristic.Most, rest[i].Nominal+most-1e-6, "support %d", i+1)
		require.InDelta(t, rest[i].Nominal+most, rolls[i].Characteristic.Most, 20, "support %d: positions every 0.45 mm", i+1)
		require.InDelta(t, rest[i].Nominal+least, rolls[i].Characteristic.Least, 20, "support %d", i+1)
	}
}

// Weight groups: two halves whose weights differ in the same sense are one cause,
// as groups of their own two.
func TestWeightGroups(t *testing.T) {
	girder := func(group string) stages.Girder {
		a, b := segment("A", 5), segment("B", 7)
		a.WeightTolerance, b.WeightTolerance = loads.PlusMinus(0.04), loads.PlusMinus(0.04)
		g := stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Monolithic, a, b)}
		g.Pieces[1].WeightGroup = group
		return g
	}
	plan := stages.Plan{stages.Store{Age: 28, On: []stages.Support{{X: 4, Y: -0.2}, {X: 4, Y: 0.2}, {X: 8.5}}}}
	one, two := effectsOf(t, girder(""), plan, 1).Reactions, effectsOf(t, girder("right"), plan, 1).Reactions
	// About x = 4 m: A has 50 kN at 2.5 m, B 70 kN at 8.5 m.
	a, b := -50e3*1.5/4.5, 70e3*4.5/4.5
	require.InDelta(t, a+b, one[2].Nominal, 1e-6)
	require.InDelta(t, 1.04*(a+b), one[2].Static.Most, 1e-6)
	require.InDelta(t, 0.96*a+1.04*b, two[2].Static.Most, 1e-6)
	require.InDelta(t, 1.04*a+0.96*b, two[2].Static.Least, 1e-6)
	require.Greater(t, two[2].Share.Most, one[2].Share.Most+0.005, "only unlike weights change a share")
	require.InDelta(t, (0.96*a+1.04*b)/(0.96*50e3+1.04*70e3), two[2].Share.Most, 1e-9)
}

// A situation that is not there is named with the number that was asked for.
func TestEffectsOfASituationThatIsNotThere(t *testing.T) {
	a, err := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 2.4, 9.6))}}.Analyse(block(), limits.EN1992{})
	require.NoError(t, err)
	for number, says := range map[int]string{5: "situation 5 of stage 1: must be 1 to 1", 0: "situation 0 of stage 1: must be 1 to 1", -2: "situation -2 of stage 1"} {
		_, err = a.Effects(1, number)
		require.ErrorIs(t, err, stages.ErrStage)
		require.ErrorContains(t, err, says)
	}
	_, err = a.Effects(3, 1)
	require.EqualError(t, err, "stage: stage 3: must be 1 to 1")
}
