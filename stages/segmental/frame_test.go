package segmental

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// checkOf is a check of a move by the beginning of its name, from the deck itself.
func checkOf(t *testing.T, b Built, step, move int, name string) stages.Check {
	for _, c := range b.Record.Stages[step-1].Situations[move-1].Checks {
		if strings.HasPrefix(c.Name, name) {
			return c
		}
	}
	t.Fatalf("no check %q in step %d, move %d", name, step, move)
	return stages.Check{}
}

// A frame of 300 kN, front feet 0.5 m and rear feet 5.5 m behind the tip, centre of gravity
// 1.5 m behind it, lifts a segment whose centre of gravity is a distance before the tip: by
// moments about the front feet, and about the rear feet. On the left arm as on the right.
func TestFrameByHand(t *testing.T) {
	d, on, steps := stood(t, 2)
	for i := range d.Frames {
		d.Frames[i].Foot, d.Frames[i].Document = 2e6, "F1"
	}
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	for move, mark := range map[int]string{1: "L2", 3: "R2"} {
		i, err := d.index(mark)
		require.NoError(t, err)
		mass, err := d.weight(i)
		require.NoError(t, err)
		tip := 5.0 // left face of L1, right face of R1 is as far from the pier axis at 8 m
		before := math.Abs(mass.X-8) - (8 - 3)
		if mark == "L2" {
			require.Less(t, mass.X, tip)
		}
		factor := 1.02 * 1.1
		front := (factor*mass.Weight*(before+5.5) + 300e3*4) / 5
		c := checkOf(t, b, 2, move, "front feet of frame F"+map[int]string{1: "1", 3: "2"}[move])
		require.InEpsilon(t, front, c.Demand.Value, 1e-9, mark)
		// Equilibrium: rear feet and front feet carry both; the anchors pull with the factors of EQU.
		rear := (1.35*factor*mass.Weight*(before+0.5) - 0.95*300e3*1) / 5
		bars := checkOf(t, b, 2, move, "rear anchor bars of frame")
		require.InEpsilon(t, math.Max(250e3, rear/4), bars.Demand.Value, 1e-9, mark)
	}
	// With a preload of nothing the pull itself governs, and one lost puts its share on the others.
	for i := range d.Frames {
		d.Frames[i].Anchors = &Anchors{Number: 4, Capacity: 500e3, Document: "F1"}
	}
	b, err = d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	one, lost := checkOf(t, b, 2, 1, "rear anchor bars of frame F1"), stages.Check{}
	for _, c := range b.Record.Stages[1].Situations[0].Checks {
		if strings.HasSuffix(c.Name, "after the loss of one") {
			lost = c
		}
	}
	require.InEpsilon(t, one.Demand.Value*4*1.25/3, lost.Demand.Value, 1e-9)
	mass, err := d.weight(0)
	require.NoError(t, err)
	before := 8 - mass.X - 5
	require.InEpsilon(t, (1.35*1.02*1.1*mass.Weight*(before+0.5)-0.95*300e3)/20, one.Demand.Value, 1e-9)
}

// The wet joint of L2 gets the weight of the segment, with the factors for strength; friction
// takes what the bars press it with, the keys the rest.
func TestWetShearByHand(t *testing.T) {
	d, on, steps := stood(t, 2)
	d.Loads = ArmLoads{}
	d.Keys = &Keys{Number: 20, Force: 60e3, Friction: 0.01, Document: "K1"}
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	c := checkOf(t, b, 2, 2, "shear of joint L2/L1")
	mass, err := d.weight(0)
	require.NoError(t, err)
	e, err := b.Analysis.Effects(2, 2)
	require.NoError(t, err)
	pressed := -e.Forces(3 - 1e-6).N
	require.Greater(t, pressed, 1e6)
	require.InDelta(t, 1.35*1.02*mass.Weight-0.01*pressed, c.Demand.Value, 0.03*pressed*0.01+1, "friction on the smallest compression")
	require.InEpsilon(t, 20*60e3, c.Limit.Value, 1e-12)
	d.Keys = nil
	b, err = d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	require.Equal(t, stages.NotEvaluated, checkOf(t, b, 2, 2, "shear of joint L2/L1").State)
}
