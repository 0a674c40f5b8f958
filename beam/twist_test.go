package beam_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
)

// A box girder is stored on four supports; one of them is 6 mm low.
func ExampleTwist_Solve() {
	const bearer = 300e6 // N/m
	box := beam.Twist{
		TorsionalStiffness: 90e9,
		Pairs: []beam.Pair{
			{At: 1, Spacing: 4, LeftStiffness: bearer, RightStiffness: bearer, Level: -6e-3},
			{At: 33, Spacing: 4, LeftStiffness: bearer, RightStiffness: bearer},
		},
	}
	reactions, err := box.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range reactions {
		fmt.Printf("%2.0f m: left %+.0f kN, right %+.0f kN\n", r.At, r.Left/1e3, r.Right/1e3)
	}
	// Output:
	//  1 m: left -315 kN, right +315 kN
	// 33 m: left +315 kN, right -315 kN
}

func TestFourPointSupport(t *testing.T) {
	const d, s, length, gj = .006, 4., 32., 9e10
	for name, k := range map[string][4]float64{
		"rigid":   {},
		"springs": {3e8, 3e8, 3e8, 3e8},
		"unlike":  {3e8, 1e8, 2e8, 0},
		"one":     {0, 0, 1e8, 0},
	} {
		sum := 0.0
		for _, k := range k {
			if k > 0 {
				sum += 1 / k
			}
		}
		r, err := beam.Twist{TorsionalStiffness: gj, Pairs: []beam.Pair{
			{At: 1, Spacing: s, LeftStiffness: k[0], RightStiffness: k[1], Level: d},
			{At: 1 + length, Spacing: s, LeftStiffness: k[2], RightStiffness: k[3]},
		}}.Solve()
		require.NoError(t, err, name)
		want := d / (s*s*length/gj + sum)
		for i, got := range []float64{r[0].Left, -r[0].Right, -r[1].Left, r[1].Right} {
			require.InEpsilon(t, want, got, 1e-9, "%s %d: pattern + − − +", name, i)
		}
	}
}

// A torque between two rigid pairs goes to them in inverse proportion to the
// distance; a member that is out of level as a whole is not twisted.
func TestTorqueAndRigidRotation(t *testing.T) {
	twist := beam.Twist{TorsionalStiffness: 1e9, Pairs: []beam.Pair{
		{At: 0, Spacing: 2, Level: .01},
		{At: 3, Spacing: 4, LeftStiffness: 1e-3, RightStiffness: 1e-3, Level: .02, Torque: 100e3},
		{At: 10, Spacing: 2, Level: .01},
	}}
	r, err := twist.Solve()
	require.NoError(t, err)
	require.InDelta(t, -70e3/2, r[0].Left, 1e-2)
	require.InDelta(t, -30e3/2, r[2].Left, 1e-2)
	require.InDelta(t, 0, r[1].Left, 1e-2)
	require.InDelta(t, .005+70e3*3/1e9, r[1].Rotation, 1e-12)
	alone, err := beam.Twist{TorsionalStiffness: 1, Pairs: []beam.Pair{{Spacing: 2, Torque: 8}}}.Solve()
	require.NoError(t, err)
	require.InDelta(t, -4, alone[0].Left, 1e-12)
}

func TestTwistThatCannotBeSolved(t *testing.T) {
	pair := beam.Pair{Spacing: 1}
	for says, twist := range map[string]beam.Twist{
		"TorsionalStiffness = 0 N·m²":    {Pairs: []beam.Pair{pair}},
		"Pairs is empty":                 {TorsionalStiffness: 1},
		"Pairs[0].Spacing = 0 m":         {TorsionalStiffness: 1, Pairs: []beam.Pair{{}}},
		"Pairs[1].At = 0 m":              {TorsionalStiffness: 1, Pairs: []beam.Pair{pair, pair}},
		"Pairs[0].At = NaN m":            {TorsionalStiffness: 1, Pairs: []beam.Pair{{At: math.NaN(), Spacing: 1}}},
		"Pairs[0].Level = +Inf m":        {TorsionalStiffness: 1, Pairs: []beam.Pair{{Level: math.Inf(1), Spacing: 1}}},
		"Pairs[0].Torque = NaN N·m":      {TorsionalStiffness: 1, Pairs: []beam.Pair{{Torque: math.NaN(), Spacing: 1}}},
		"-1 N/m left":                    {TorsionalStiffness: 1, Pairs: []beam.Pair{{LeftStiffness: -1, Spacing: 1}}},
		"NaN N/m right":                  {TorsionalStiffness: 1, Pairs: []beam.Pair{{RightStiffness: math.NaN(), Spacing: 1}}},
		"whose effects float64 can hold": {TorsionalStiffness: 1e308, Pairs: []beam.Pair{{Spacing: 1, Level: 1e308}, {At: 1e-9, Spacing: 1, Level: -1e308}}},
	} {
		_, err := twist.Solve()
		require.ErrorIs(t, err, beam.ErrBeam, says)
		require.ErrorContains(t, err, says)
	}
}
