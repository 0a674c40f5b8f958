package redistribution_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
)

func spans(lengths ...float64) beam.Layout {
	l := beam.Layout{Stiffness: []beam.Stretch{{BendingStiffness: 2e11}}, Supports: []beam.Support{{At: 0}}}
	for _, span := range lengths {
		l.Length += span
		l.Supports = append(l.Supports, beam.Support{At: l.Length})
	}
	return l
}

func alongDeck(elevation tendon.Curve, friction, wobble float64) tendon.Tendon {
	return tendon.Tendon{Mark: "C", Strand: tendon.Y1860S7x157, Strands: 19, Duct: 0.11, Friction: friction, Wobble: wobble, NoFriction: friction == 0, NoWobble: wobble == 0,
		Elevation: elevation, Plan: tendon.Level(elevation.From(), elevation.To(), 0),
		Approval: tendon.Approval{MeanStrength: 28e6, AnchorSpacing: 0.35, EdgeDistance: 0.2}}
}

func jacked(t testing.TB, tn tendon.Tendon) *tendon.Force {
	f, err := tn.Jack(tendon.Jacking{Tendons: []string{"C"}, Stress: 1395e6, Ends: tendon.BothEnds, DrawIn: 0.006})
	require.NoError(t, err)
	return f
}

// A straight tendon low in a two-span beam lifts it off the middle support,
// which holds it down.
func ExampleRestrain() {
	layout := beam.Layout{Length: 60, Stiffness: []beam.Stretch{{BendingStiffness: 2e11}}, Supports: []beam.Support{{At: 0}, {At: 30}, {At: 60}}}
	const force, level, centroid = 10e6, 0.4, 1.2
	r, err := redistribution.Restrain(layout, redistribution.Primary{Moment: func(x float64) float64 { return force * (level - centroid) }})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("middle support: primary %.0f, secondary %.0f, total %.0f kN·m\n", r.Primary.Moment(30)/1e3, r.Secondary(30)/1e3, r.Total(30)/1e3)
	// Output: middle support: primary -8000, secondary 12000, total 4000 kN·m
}

// The total of a parabolic tendon of constant force is what its upward load does.
func TestTotalIsThatOfTheEquivalentLoad(t *testing.T) {
	random := rand.New(rand.NewSource(5))
	for range 20 {
		a, b := 20+20*random.Float64(), 20+20*random.Float64()
		layout := spans(a, b)
		layout.Stiffness = []beam.Stretch{{To: a * 0.7, BendingStiffness: 1e11 * (1 + random.Float64())}, {BendingStiffness: 3e11}}
		const force = 9e6
		sagA, sagB := random.Float64(), random.Float64()
		primary := redistribution.Primary{Breaks: []float64{a}, Moment: func(x float64) float64 {
			if x < a {
				return -4 * force * sagA * x * (a - x) / (a * a)
			}
			return -4 * force * sagB * (x - a) * (a + b - x) / (b * b)
		}}
		r, err := redistribution.Restrain(layout, primary)
		require.NoError(t, err)
		solver, err := beam.New(layout)
		require.NoError(t, err)
		kink := 4 * force * (sagA/a + sagB/b) // down on the middle support
		whole, err := solver.Solve(loads.Set{
			Lines:  []loads.Line{loads.Uniform(0, a, -8*force*sagA/(a*a)), loads.Uniform(a, a+b, -8*force*sagB/(b*b))},
			Points: []loads.Point{{At: a, Force: kink}}})
		require.NoError(t, err)
		for x := 0.0; x <= a+b; x += (a + b) / 37 {
			require.InDelta(t, whole.Moment(x), r.Total(x), 1e-8*force, "x = %g", x)
			require.InDelta(t, whole.Deflection(x), r.Response.Deflection(x), 1e-9)
		}
	}
}

func TestRestraintOfTendons(t *testing.T) {
	elevation, err := tendon.Smooth(
		tendon.Through{Point: tendon.Point{Ordinate: 1.2}, Slope: -0.12}, tendon.Through{Point: tendon.Point{X: 15, Ordinate: 0.25}},
		tendon.Through{Point: tendon.Point{X: 36, Ordinate: 1.8}}, tendon.Through{Point: tendon.Point{X: 57, Ordinate: 0.25}},
		tendon.Through{Point: tendon.Point{X: 72, Ordinate: 1.2}, Slope: 0.12})
	require.NoError(t, err)
	f := jacked(t, alongDeck(elevation, 0.19, 0.005))
	layout := spans(36, 36)
	layout.Stiffness = []beam.Stretch{{To: 36, BendingAt: func(x float64) float64 { return 2e11 * (1 + x/36) }}, {BendingAt: func(x float64) float64 { return 2e11 * (3 - x/36) }}}
	primary := redistribution.OfTendons([]*tendon.Force{f, f}, func(x float64) float64 { return 1.2 + 0.1*math.Abs(math.Sin(x/20)) }, 20*math.Pi)
	r, err := redistribution.Restrain(layout, primary)
	require.NoError(t, err)
	require.InDelta(t, 0, r.Secondary(0), 1e-6)
	require.InDelta(t, r.Secondary(36)/2, r.Secondary(18), 1, "linear between supports")
	sum := 0.0
	for _, reaction := range r.Response.Reactions {
		sum += reaction.Force
	}
	require.InDelta(t, 0, sum, 1e-3, "reactions of prestress balance")
	// Compatibility at the middle support by fine trapezia.
	whole, size := 0.0, 0.0
	const n = 200000
	for i := range n {
		x := 72 * (float64(i) + 0.5) / n
		unit := 1 - math.Abs(x/36-1)
		stiffness := 2e11 * (2 - math.Abs(x/36-1))
		whole += r.Total(x) * unit / stiffness * 72 / n
		size += math.Abs(r.Total(x)) * unit / stiffness * 72 / n
	}
	require.InDelta(t, 0, whole/size, 1e-7)
}

func TestDeterminateBeamsHaveNoRestraint(t *testing.T) {
	f := jacked(t, alongDeck(tendon.Drape(tendon.Point{Ordinate: 1.6}, 3, tendon.Point{X: 13, Ordinate: 0.3}, 34), 0.19, 0.005))
	layout := spans(34)
	layout.Supports[0].Settlement = 0.01
	r, err := redistribution.Restrain(layout, redistribution.OfTendons([]*tendon.Force{f}, func(float64) float64 { return 1.1 }))
	require.NoError(t, err)
	for x := 0.0; x <= 34; x += 2 {
		require.InDelta(t, 0, r.Secondary(x), 1e-3)
	}
	require.Positive(t, r.Response.Deflection(17), "a low tendon cambers, settlement left out")
}

func TestRestrainRefuses(t *testing.T) {
	_, err := redistribution.Restrain(spans(30), redistribution.Primary{})
	require.ErrorContains(t, err, "Primary.Moment is missing")
	_, err = redistribution.Restrain(spans(30), redistribution.Primary{Moment: func(float64) float64 { return math.NaN() }})
	require.ErrorIs(t, err, redistribution.ErrRedistribution)
	_, err = redistribution.Restrain(spans(30), redistribution.Primary{Moment: func(x float64) float64 { return math.Floor(x / 7.77) }})
	require.ErrorContains(t, err, "is not smooth")
	loose := spans(30)
	loose.Supports[1].Contact = true
	_, err = redistribution.Restrain(loose, redistribution.Primary{Moment: func(float64) float64 { return 1 }})
	require.ErrorIs(t, err, redistribution.ErrRedistribution)
	require.ErrorContains(t, err, "Supports[1] at 30 m can lift off")
	_, err = redistribution.Restrain(beam.Layout{}, redistribution.Primary{Moment: func(float64) float64 { return 1 }})
	require.ErrorIs(t, err, beam.ErrBeam)
}

func BenchmarkRestrain(b *testing.B) {
	f := jacked(b, alongDeck(tendon.Drape(tendon.Point{Ordinate: 1.6}, 3, tendon.Point{X: 13, Ordinate: 0.3}, 34), 0.19, 0.005))
	primary := redistribution.OfTendons([]*tendon.Force{f}, func(float64) float64 { return 1.1 })
	layout := spans(14, 20)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := redistribution.Restrain(layout, primary); err != nil {
			b.Fatal(err)
		}
	}
}
