package redistribution_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/loads"
)

var (
	soon = redistribution.Change{Concrete: deck, Loaded: 28, Changed: 90, Until: 20000}
	// topTendons are cantilever tendons above the centroid, whose number grows
	// towards the fixed ends; some are anchored at the free joint at 60 m.
	topTendons = redistribution.Primary{Breaks: []float64{30, 60, 85}, Moment: func(x float64) float64 {
		switch {
		case x < 30:
			return 900 - 2*x
		case x < 60:
			return 500 * math.Exp(-0.004*(x-30))
		case x < 85:
			return 350
		default:
			return 800
		}
	}}
)

// fixed is a beam of 100 m between fixed ends.
func fixed() beam.Layout {
	return beam.Layout{Length: 100, Stiffness: []beam.Stretch{{BendingStiffness: 1}}, Supports: []beam.Support{{Fixed: true}, {At: 100, Fixed: true}}}
}

func solved(t testing.TB, layout beam.Layout, set loads.Set) *beam.Response {
	t.Helper()
	b, err := beam.New(layout)
	require.NoError(t, err)
	r, err := b.Solve(set)
	require.NoError(t, err)
	return r
}

// arms are cantilevers of 60 and 40 m under 1 N/m that do not touch.
func arms(t testing.TB) (left, right *beam.Response) {
	one := []beam.Stretch{{BendingStiffness: 1}}
	left = solved(t, beam.Layout{Length: 60, Stiffness: one, Supports: []beam.Support{{Fixed: true}}}, loads.Set{Lines: []loads.Line{loads.Uniform(0, 60, 1)}})
	right = solved(t, beam.Layout{Length: 40, Stiffness: one, Supports: []beam.Support{{At: 40, Fixed: true}}}, loads.Set{Lines: []loads.Line{loads.Uniform(0, 40, 1)}})
	return left, right
}

// march is one concrete of one age from the day its load began.
func march(t testing.TB, final beam.Layout, before ...redistribution.Body) *redistribution.Moved {
	t.Helper()
	moved, err := redistribution.Staged{Final: final, Before: before, Loaded: 128, Changed: 190, Until: 20100,
		Parts: []redistribution.Part{{Concrete: deck, Cast: 100, Inertia: 3}}}.March(60)
	require.NoError(t, err)
	return moved
}

// Unequal cantilevers pass no shear before their closure: a hinge would.
func TestFreeJoint(t *testing.T) {
	left, right := arms(t)
	share, err := soon.Stepwise(60)
	require.NoError(t, err)
	monolithic := solved(t, fixed(), loads.Set{Lines: []loads.Line{loads.Uniform(0, 100, 1)}})
	moved := march(t, fixed(), redistribution.Body{Response: left}, redistribution.Body{From: 60, Response: right})
	for x := 1.0; x < 100; x += 7 {
		free := -(60 - x) * (60 - x) / 2
		require.InDelta(t, share.Of(free, monolithic.Moment(x)), moved.Moment(x), 1e-6, "x = %g", x)
	}
	hinged := fixed()
	hinged.Hinges = []float64{60}
	other := march(t, fixed(), redistribution.Body{Response: solved(t, hinged, loads.Set{Lines: []loads.Line{loads.Uniform(0, 100, 1)}})})
	require.Greater(t, math.Abs(moved.Moment(0)-other.Moment(0)), 100.0)
}

// Free cantilevers made continuous: before the change their tendons raise no
// restraint, and creep moves them towards the total moment in the final beam.
func TestPrestressedCantileversMadeContinuous(t *testing.T) {
	share, err := soon.Stepwise(60)
	require.NoError(t, err)
	total, err := redistribution.Restrain(fixed(), topTendons)
	require.NoError(t, err)
	bodies := []redistribution.Body{{To: 60, Primary: topTendons}, {From: 60, Primary: topTendons}}
	moved := march(t, fixed(), bodies...)
	for x := 1.0; x < 100; x += 7 {
		require.InDelta(t, share.Of(topTendons.Moment(x), total.Total(x)), moved.Moment(x), 1e-5, "x = %g", x)
		require.InDelta(t, share.Value*total.Secondary(x), moved.Restraint(x), 1e-5)
	}
	require.Less(t, moved.Restraint(50), -20.0, "tendons at the top bend the cantilevers up; held by the closure, they hog")

	left, right := arms(t)
	weight := march(t, fixed(), redistribution.Body{Response: left}, redistribution.Body{From: 60, Response: right})
	bodies[0].Response, bodies[1].Response = left, right
	both := march(t, fixed(), bodies...)
	for _, x := range []float64{0, 31, 60, 99} {
		require.InDelta(t, weight.Moment(x)+moved.Moment(x), both.Moment(x), 1e-6)
	}
}

// A beam that was indeterminate before: its tendons act with their restraint.
func TestRestrainedBefore(t *testing.T) {
	two := beam.Layout{Length: 100, Stiffness: []beam.Stretch{{BendingStiffness: 1}}, Supports: []beam.Support{{}, {At: 40}, {At: 100}}}
	three := two
	three.Supports = append([]beam.Support{{At: 75}}, two.Supports...)
	old, err := redistribution.Restrain(two, topTendons)
	require.NoError(t, err)
	final, err := redistribution.Restrain(three, topTendons)
	require.NoError(t, err)
	share, err := soon.Stepwise(60)
	require.NoError(t, err)
	moved := march(t, three, redistribution.Body{Primary: old.Primary, Response: old.Response})
	for x := 1.0; x < 100; x += 7 {
		require.InDelta(t, share.Of(old.Total(x), final.Total(x)), moved.Moment(x), 1e-5, "x = %g", x)
	}
}

// A closure younger than the load has no body: the gap carries nothing.
func TestGapBetweenBodies(t *testing.T) {
	bodies := []redistribution.Body{{To: 49, Primary: topTendons}, {From: 51, Primary: topTendons}}
	staged := redistribution.Staged{Final: fixed(), Before: bodies, Loaded: 60, Changed: 100, Until: 5000,
		Parts: []redistribution.Part{{To: 49, Concrete: deck, Inertia: 3}, {To: 51, Concrete: deck, Cast: 90, Inertia: 3}, {Concrete: deck, Inertia: 3}}}
	moved, err := staged.March(40)
	require.NoError(t, err)
	require.InDelta(t, moved.Restraint(50), moved.Moment(50), 1e-12)
	require.InDelta(t, topTendons.Moment(45), moved.Moment(45)-moved.Restraint(45), 1e-6)
	staged.Before = []redistribution.Body{{Primary: topTendons}}
	_, err = staged.March(40)
	require.ErrorContains(t, err, "Parts[1].Cast = 90 d: must be before the load, 60 d, as a Body has up to")
}

func TestBodiesRefuse(t *testing.T) {
	left, right := arms(t)
	good := redistribution.Staged{Final: fixed(), Loaded: 60, Changed: 100, Until: 5000, Parts: []redistribution.Part{{Concrete: deck, Inertia: 3}}}
	step := redistribution.Primary{Moment: func(x float64) float64 { return math.Floor(x / 3) }}
	endless := redistribution.Primary{Moment: func(float64) float64 { return math.Inf(1) }}
	for words, before := range map[string][]redistribution.Body{
		"Staged.Before is empty":                {},
		"Before[1] has neither":                 {{Response: left}, {From: 60}},
		"Before[1] from x = 50 to 90 m":         {{Response: left}, {From: 50, Response: right}},
		"Before[0] from x = -1 to 59 m":         {{From: -1, Response: left}},
		"Before[0] from x = NaN to NaN":         {{From: math.NaN(), Response: left}},
		"Before[0] from x = 70 to 110 m":        {{From: 70, Response: right}},
		"Before[0] from x = 100 to 100 m":       {{From: 100, Primary: topTendons}},
		"Before[0].Response is 60 m long":       {{To: 61, Response: left}},
		"Before[0]: redistribution: the primar": {{Primary: step}},
	} {
		s := good
		s.Before = before
		_, err := s.March(5)
		require.ErrorIs(t, err, redistribution.ErrRedistribution, words)
		require.ErrorContains(t, err, words)
	}
	good.Before = []redistribution.Body{{Primary: endless}}
	_, err := good.March(5)
	require.ErrorContains(t, err, "the primary moment at x = 5.556 m is +Inf N·m: must be below 1e12 N·m")
}
