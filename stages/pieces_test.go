package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// plate is an element of a rectangle from y0 to y1 and z0 to z1.
func plate(t testing.TB, mark string, length, y0, y1, z0, z1 float64) stages.Element {
	shape, err := section.New([]section.Outline{{{Y: y0, Z: z0}, {Y: y1, Z: z0}, {Y: y1, Z: z1}, {Y: y0, Z: z1}}}, nil)
	require.NoError(t, err)
	e := segment(mark, length)
	e.Section = shape
	return e
}

// Two elements side by side, of unlike weight: each stands on the supports beneath its
// own outline, and an action acts on the one on which it stands.
func TestElementsSideBySideStandEachOnItsOwn(t *testing.T) {
	left, right := plate(t, "L", 10, 0.1, 1.1, 0, 0.4), plate(t, "R", 10, -0.9, 0, 0, 1)
	g := stages.Girder{Mark: "LR", Pieces: []stages.Piece{{Element: left}, {Element: right}}}
	on := []stages.Support{
		{X: 1, Y: 0.12}, {X: 1, Y: 1}, {X: 9, Y: 0.55}, // left, the first just beside the gap
		{X: 1, Y: -0.8}, {X: 1, Y: -0.02}, {X: 8, Y: -0.4}, // right
	}
	crate := func(y float64) []stages.Action {
		return []stages.Action{{Mark: "crate", Y: y, Least: 1, Most: 1, Loads: point(4, 7e3)}}
	}
	for _, c := range []struct {
		y                  float64
		onLeft, onRight, x float64
	}{{0.6, 7e3, 0, 0}, {0.11, 7e3, 0, 0}, {-0.01, 0, 7e3, 0}, {-0.85, 0, 7e3, 0}} {
		s := effectsOf(t, g, stages.Plan{stages.Seat{Age: 28, On: on, Actions: crate(c.y)}}, 1)
		var sum, moment [2]float64
		for i, p := range s.Reactions {
			sum[i/3], moment[i/3] = sum[i/3]+p.Nominal, moment[i/3]+p.Nominal*p.X
		}
		wl, wr := 1*0.4*25e3*10, 0.9*1*25e3*10
		require.InDelta(t, wl+c.onLeft, sum[0], 1e-6, "crate at y = %g m", c.y)
		require.InDelta(t, wr+c.onRight, sum[1], 1e-6)
		require.InDelta(t, wl*5+c.onLeft*4, moment[0], 1e-5)
		require.InDelta(t, wr*5+c.onRight*4, moment[1], 1e-5)
	}
}

// Two elements end to end that do not act together stand each on its own supports, and
// how each shares is bounded by its own weight.
func TestElementsEndToEndApartStandEachOnItsOwn(t *testing.T) {
	one, two := plate(t, "A", 6, -0.25, 0.25, 0, 0.8), plate(t, "B", 6, -0.25, 0.25, 0, 0.8)
	g := stages.Girder{Mark: "AB", Pieces: []stages.Piece{{Element: one}, {Element: two, At: 6, Later: true}}}
	on := append(stages.Pads(0.2, 0.5, 5.5), stages.Pads(0.2, 6.5, 11.5)...)
	stand := odd{situations: []stages.Situation{{Name: "both", Age: 28, Standing: true, Phase: limits.Storing, Supports: pads(on), Events: []stages.Event{{Add: []string{"B"}}}}}}
	s := effectsOf(t, g, stages.Plan{stand}, 1)
	for _, p := range s.Reactions {
		require.True(t, p.Bounded)
		require.LessOrEqual(t, p.Static.Most, 30e3+1e-6, "half of 60 kN at most on a diagonal")
	}
	require.Len(t, s.Reactions, 8)
}

// Outlines that cross without a corner inside each other share concrete all the same;
// those that share an edge, or touch at a corner, do not.
func TestElementsMustNotShareConcrete(t *testing.T) {
	base := plate(t, "A", 8, -0.5, 0.5, 0, 0.4)
	for _, c := range []struct {
		y0, y1, z0, z1 float64
		ok             bool
	}{
		{-0.2, 0.2, -0.3, 0.7, false},   // a cross: no corner of one lies in the other
		{-0.5, 0.5, 0, 0.4, false},      // the same
		{-0.5, 0.5, 0.1, 0.4, false},    // within it, along three edges
		{-0.2, 0.2, 0.1, 0.3, false},    // within it
		{-0.9, 0.9, -0.5, 0.9, false},   // around it
		{0.49, 0.9, 0, 0.4, false},      // 10 mm over the edge
		{0.5, 0.9, 0, 0.4, true},        // edge to edge
		{0.5, 0.9, 0.4, 0.8, true},      // corner to corner
		{-0.5, 0.5, 0.4, 0.8, true},     // one on top of the other
		{-0.3, 0.9, 0.4, 0.6, true},     // on top, to one side
		{0.6, 0.9, 0, 0.4, true},        // apart
		{0.3, 0.9, 0.399, 0.6, false},   // 1 mm into it
		{-0.9, -0.5, 0.1, 0.3, true},    // beside it
		{-0.9, -0.499, 0.1, 0.3, false}, // 1 mm into it
	} {
		for _, at := range []float64{0, 3, 7.9} {
			g := stages.Girder{Mark: "AB", Pieces: []stages.Piece{{Element: base}, {Element: plate(t, "B", 8, c.y0, c.y1, c.z0, c.z1), At: at, Later: true}}}
			_, err := stages.Plan{stages.Store{Age: 28, On: dunnage(1, 7)}}.Run(g, limits.EN1992{})
			if c.ok {
				require.NoError(t, err, "%+v", c)
				continue
			}
			require.ErrorContains(t, err, "Pieces[0] A and Pieces[1] B overlap", "%+v", c)
		}
	}
}

// What joins must meet what is carried: end to end, or along an edge of the section
// where both are.
func TestWhatIsJoinedMustMeet(t *testing.T) {
	base := plate(t, "A", 8, -0.5, 0.5, 0, 0.4)
	for _, c := range []struct {
		y0, y1, z0, z1, at float64
		ok                 bool
	}{
		{-0.5, 0.5, 0, 0.4, 8, true}, {-0.5, 0.5, 0.4, 0.6, 0, true}, {0.5, 0.9, 0, 0.4, 2, true}, {0.6, 0.9, 0, 0.4, 2, false}, {0.5, 0.9, 0.4, 0.6, 2, false}, {-0.5, 0.5, 0.5, 0.6, 1, false},
	} {
		g := stages.Girder{Mark: "AB", Pieces: []stages.Piece{{Element: base}, {Element: plate(t, "B", 5, c.y0, c.y1, c.z0, c.z1), At: c.at, Later: true}}}
		join := odd{situations: []stages.Situation{{Name: "join", Age: 29, Standing: true, Phase: limits.Seating, Events: []stages.Event{{Add: []string{"B"}, Join: []string{"B"}}}}}}
		_, err := stages.Plan{stages.Store{Age: 28, On: dunnage(0.5, 7.5)}, join}.Run(g, limits.EN1992{})
		if c.ok {
			require.NoError(t, err, "%+v", c)
			continue
		}
		require.ErrorContains(t, err, "in Join: piece B meets no piece that is carried", "%+v", c)
	}
}

// A force along a curved girder acts on the axis beside the chord: it bends the girder
// sideways by the offset of the axis, −x(L − x)/2R.
func TestAForceAlongACurvedGirderBendsItSideways(t *testing.T) {
	const length, radius, force = 30.0, 150.0, 90e3
	e := bar(t, "C", length, -1, 2, 1.5, 50e6)
	for _, r := range []float64{radius, -radius} {
		g := stages.Girder{Mark: "C", Pieces: []stages.Piece{{Element: e}}, Radius: r}
		on := append(stages.Equalised("left", stages.Pads(0.8, 0)...), stages.Pads(0.8, length)...)
		for i := range on {
			on[i].Role, on[i].Holds = stages.Bearing, stages.HoldsAcross
			if i < 2 {
				on[i].Holds = stages.HoldsBoth
			}
		}
		brake := stages.Action{Mark: "brake", Kind: stages.Braking, Direction: stages.Along, Z: 0, Least: 1, Most: 1, Loads: point(24, force)}
		still := effectsOf(t, g, stages.Plan{stages.Seat{Age: 28, On: on}}, 1)
		pushed := effectsOf(t, g, stages.Plan{stages.Seat{Age: 28, On: on, Actions: []stages.Action{brake}}}, 1)
		off := func(x float64) float64 { return -x * (length - x) / (2 * r) }
		for _, x := range []float64{6, 15, 22} {
			a, b := still.Forces(x), pushed.Forces(x)
			require.InDelta(t, force, b.N-a.N, 1e-6, "pulled between its left end and the load")
			// About the axis at x: the push at 24 m acts off(24) − off(x) beside it, less what
			// the supports across give back over the length.
			across := force * off(24) / length
			require.InDelta(t, math.Abs(force*off(x)-across*x), math.Abs(b.Mz-a.Mz), 1e-3*force, "x = %g m", x)
		}
	}
}

// The sum of the pieces carried is the weight on the supports, before and after a piece
// is added; what is added later weighs nothing before.
func TestWhatIsAddedLaterWeighsNothingBefore(t *testing.T) {
	a, b := plate(t, "A", 8, -0.5, 0.5, 0, 0.4), plate(t, "B", 8, -0.5, 0.5, 0.4, 0.6)
	a.WeightTolerance, b.WeightTolerance = loads.PlusMinus(0.02), loads.PlusMinus(0.08)
	g := stages.Girder{Mark: "AB", Pieces: []stages.Piece{{Element: a, WeightGroup: "a"}, {Element: b, Later: true, WeightGroup: "b"}}}
	join := odd{situations: []stages.Situation{{Name: "cast", Age: 29, Standing: true, Phase: limits.Seating, Events: []stages.Event{{Add: []string{"B"}, Join: []string{"B"}}}}}}
	r := run(t, g, stages.Plan{stages.Store{Age: 28, On: dunnage(0.5, 7.5)}, join})
	wa, wb := 0.4*25e3*8, 0.2*25e3*8
	first, second := r.Stages[0].Situations[0], r.Stages[1].Situations[0]
	require.InDelta(t, wa, first.Mass.Weight, 1e-6)
	require.InDelta(t, 1.02*wa, first.Total.Most, 1e-6)
	require.InDelta(t, 0.98*wa/4, first.Reactions[0].Static.Least, 1e-6)
	require.InDelta(t, wa+wb, second.Mass.Weight, 1e-6)
	require.InDelta(t, 1.02*wa+1.08*wb, second.Total.Most, 1e-6)
	require.InDelta(t, 0.98*wa+0.92*wb, second.Total.Least, 1e-6)
	for _, p := range second.Reactions {
		require.InDelta(t, (wa+wb)/4, p.Nominal, 1e-6)
		require.InDelta(t, (1.02*wa+1.08*wb)/4, p.Static.Most, 1e-6)
	}
}
