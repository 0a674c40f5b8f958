package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A girder curved in plan under its own weight on two lines that hold torsion: with
// the sections beside the chord, T at any section is what the weight and the
// reactions to its left give about the axis there.
func TestCurvedGirderTwists(t *testing.T) {
	const length, radius = 30.0, 200.0
	e := bar(t, "C", length, -1, 2, 1.5, 50e6)
	straight := stages.Girder{Mark: "C", Pieces: []stages.Piece{{Element: e}}}
	curved := straight
	curved.Radius = radius
	plan := stages.Plan{stages.Seat{Age: 28, On: append(stages.Equalised("left", stages.Pads(0.8, 0)...), stages.Pads(0.8, length)...)}}
	a, err := plan.Analyse(curved, limits.EN1992{})
	require.NoError(t, err)
	seat, err := a.Effects(1, 1)
	require.NoError(t, err)
	w := 2 * 1.5 * 25e3
	// The weight lies to the right of the chord by L²/12R on the mean: the right end,
	// which alone holds torsion, has the whole moment of it.
	off := length * length / (12 * radius)
	require.InDelta(t, w*length*off/0.8, seat.Reactions[2].Nominal-seat.Reactions[3].Nominal, 1e-3)
	require.InDelta(t, -0.8, seat.Reactions[2].Y, 1e-12)
	axis := func(x float64) float64 { return -x * (length - x) / (2 * radius) }
	for _, x := range []float64{3, 12, 27} {
		want := 0.0
		const n = 4000
		for i := range n {
			u := x * (float64(i) + 0.5) / n
			want += w * x / n * (axis(u) - axis(x))
		}
		want -= w * length / 2 * (0 - axis(x))
		require.InDelta(t, want, seat.Forces(x).T, 1e-4*w*length, "x = %g m", x)
		require.InDelta(t, w*x*(length-x)/2, seat.Forces(x).My, 1e-3)
	}
	require.Less(t, math.Abs(seat.Stress(15).At(section.Point{Z: 1.5})+w*length*length/8/(2*1.5*1.5/6)), 1.0)
	curved.Radius = -radius
	other, err := plan.Analyse(curved, limits.EN1992{})
	require.NoError(t, err)
	mirrored, err := other.Effects(1, 1)
	require.NoError(t, err)
	require.InDelta(t, seat.Reactions[2].Nominal, mirrored.Reactions[3].Nominal, 1e-6)
	require.InDelta(t, -seat.Forces(12).T, mirrored.Forces(12).T, 1e-6)
}
