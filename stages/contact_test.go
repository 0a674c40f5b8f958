package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// threeLines are three elastic supports on the axis.
func threeLines(x0, x1, x2 float64) []stages.Support {
	return stages.Elastic(5e9, stages.At(x0, x1, x2)...)
}

func mostOf(p stages.Reaction) float64  { return p.Characteristic.Most }
func leastOf(p stages.Reaction) float64 { return p.Characteristic.Least }

// A load on the cantilever lifts the girder off the middle line: it stands on the other
// two, by statics, and what has lifted carries nothing, not less.
func TestALoadThatLiftsTheMiddleOff(t *testing.T) {
	for _, c := range []struct{ force, low, high float64 }{{110e3, 1, 1}, {100e3, 0.9, 1.2}, {88e3, 0.8, 1.1}} {
		crate := stages.Action{Mark: "crate", Least: 0, Most: 1, Loads: point(12, c.force)}
		stand := paired(stages.Pads(0.2, 2, 10))
		plan := stages.Plan{stages.Store{Age: 28, On: stand}, stages.Haul{Age: 28, On: threeLines(0.5, 6.5, 9.5), OutOfLevel: 1e-9, Dynamic: loads.Dynamic{Least: c.low, Most: c.high}, Actions: []stages.Action{crate}}, stages.Store{Age: 28, On: stand}}
		on := run(t, block(), plan).Stages[1].Situations[0].Reactions
		require.InDelta(t, 0, leastOf(on[1]), 1e-3, "%+v", c)
		// Over 9 m: the weight is 5.5 m from the left line, the crate 11.5 m.
		require.InDelta(t, (c.high*120e3*5.5+c.force*11.5)/9, mostOf(on[2]), 1, "%+v", c)
		require.InDelta(t, (c.low*120e3*3.5-c.force*2.5)/9, leastOf(on[0]), 1, "%+v", c)
		require.InDelta(t, on[1].Nominal, on[1].Static.Most, 5, "at rest without the crate it carries")
		require.Greater(t, on[1].Nominal, 30e3)
	}
}

// An upward pull beside a line lifts it off in part; the sum of all reactions is the
// weight less the pull, on whatever supports are left.
func TestWhatTouchesCarriesAll(t *testing.T) {
	hoist := stages.Action{Mark: "hoist", Least: 1, Most: 1, Loads: point(1, -40e3)}
	s := run(t, block(), stages.Plan{stages.Store{Age: 28, On: threeLines(1, 7, 11), OutOfLevel: 1e-9, Actions: []stages.Action{hoist}}}).Stages[0].Situations[0]
	sum, moment := 0.0, 0.0
	for _, p := range s.Reactions {
		require.GreaterOrEqual(t, p.Static.Least, -1e-3)
		sum, moment = sum+p.Static.Most, moment+p.Static.Most*p.X
	}
	require.InDelta(t, 80e3, sum, 5)
	require.InDelta(t, 120e3*6-40e3*1, moment, 50)
	require.InDelta(t, 80e3, s.Total.Most, 1e-2)
}

// A pad that stands low by a gap does not touch: the others carry by statics, and it
// bears nothing however often it is asked; a load that closes the gap finds it there.
func TestAPadBelowItsLevelWaits(t *testing.T) {
	on := append(stages.Elastic(60e6, stages.At(1, 11)...), stages.Support{X: 6, Stiffness: 60e6, Level: -0.02})
	for _, force := range []float64{0, 20e3, 900e3} {
		var acts []stages.Action
		if force > 0 {
			acts = append(acts, stages.Action{Mark: "crate", Loads: point(6, force)})
		}
		s := run(t, block(), stages.Plan{stages.Store{Age: 28, On: on, OutOfLevel: 1e-9, Actions: acts}}).Stages[0].Situations[0]
		ends, middle := s.Reactions[0], s.Reactions[2]
		require.InDelta(t, 0, middle.Static.Most, 1e-3, "at rest it only waits")
		require.InDelta(t, 0, middle.Characteristic.Least, 1e-3)
		require.InDelta(t, 60e3, ends.Static.Most, 0.1)
		if force < 1e5 {
			require.InDelta(t, 0, middle.Characteristic.Most, 1e-3, "%g N", force)
			require.InDelta(t, 60e3+force/2, ends.Characteristic.Most, 0.1)
			continue
		}
		// Both ends alike by symmetry: what the middle carries they do not. A simple beam of
		// 10 m sags by F·1000/48EI + 5·w·10⁴/384EI less what its overhangs of 1 m lift, each
		// end spring gives half of what is left to it, the middle one its own force over k.
		carried := middle.Characteristic.Most
		require.InDelta(t, (120e3+force-carried)/2, ends.Characteristic.Most, 1)
		state, err := block().Concrete.At(28)
		require.NoError(t, err)
		ei := state.Modulus * 0.5 * 0.512 / 12
		sag := force*1000/(48*ei) + 5*10e3*1e4/(384*ei) - 10e3*1*1/2*100/(8*ei)
		// Level −0.02: (k of the end springs, flexibility of the beam, k of the middle).
		want := (sag + (120e3+force)/2/60e6 - 0.02) / (1000/(48*ei) + 0.5/60e6 + 1/60e6)
		require.InEpsilon(t, want, carried, 1e-4)
	}
}

// The stresses follow the contact: off the middle line the girder is a simple beam with
// a loaded cantilever, by statics.
func TestStressesFollowTheContact(t *testing.T) {
	const force = 110e3
	e := block()
	e.Bars = nil
	for least, sags := range map[float64]bool{1: false, 0: true} {
		crate := stages.Action{Mark: "crate", Least: least, Most: 1, Loads: point(12, force)}
		s := run(t, e, stages.Plan{stages.Store{Age: 28, On: threeLines(0.5, 6.5, 9.5), OutOfLevel: 1e-9, Actions: []stages.Action{crate}}}).Stages[0].Situations[0]
		hog := force*2.5 + 10e3*2.5*2.5/2 // over 9.5 m, whatever carries on the left
		require.InEpsilon(t, hog/(0.5*0.64/6), check(t, s, limits.Tension).Demand.Value, 1e-6)
		left := (120e3*3.5 - force*2.5) / 9
		require.InDelta(t, left, s.Reactions[0].Characteristic.Least, 1)
		require.InDelta(t, 0, s.Reactions[1].Characteristic.Least, 1e-3)
		require.Equal(t, sags, s.Reactions[1].Characteristic.Most > 30e3, "without the crate it stands on all three")
		// Shear left of 9.5 m: R_left − w·9.5; right of it the crate and the overhang.
		shear := math.Max(1.5*force+1.35*10e3*2.5, 0)
		got := check(t, s, limits.WebShear)
		require.GreaterOrEqual(t, got.Demand.Value, 1.5*shear/0.4*0.999)
		require.Less(t, got.Demand.Value, 1.5*shear/0.4*1.06)
		require.InDelta(t, 9.5, got.X, 0.2)
	}
}
