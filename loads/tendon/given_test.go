package tendon_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
)

var note = formula.Source{Document: "design calculation C-114 rev. B", Place: "table 7"}

// stated is the jacking of tendon D with forces from the designer.
func stated(forces ...tendon.Stated) tendon.Jacking {
	j := step("D", 1400e6, tendon.LeftEnd, 0.006)
	j.Given = &tendon.Given{Source: note, Forces: forces}
	return j
}

// The designer's losses at three places stand in for friction and draw-in.
func ExampleGiven() {
	j := tendon.Jacking{Tendons: []string{"D"}, Stress: 1400e6, Ends: tendon.LeftEnd}
	j.Given = &tendon.Given{
		Source: formula.Source{Document: "design calculation C-114 rev. B", Place: "table 7"},
		Losses: []tendon.Stated{{X: 0, Value: 120e6}, {X: 12, Value: 70e6}, {X: 34, Value: 160e6}},
	}
	f, err := draped().Jack(j)
	if err != nil {
		fmt.Println(err)
		return
	}
	stress, at := f.Largest()
	lines, err := f.Derivation(23, "")
	fmt.Printf("largest %.0f MPa at x = %.0f m; at 23 m %.0f MPa, %v, %v\n", stress/1e6, at, f.At(23)/f.Tendon.Area()/1e6, lines[0].Source, err)
	// Output: largest 1330 MPa at x = 12 m; at 23 m 1285 MPa, design calculation C-114 rev. B table 7, <nil>
}

// A force that is computed, stated back at its own places, is the same force to
// every question that can be asked of it.
func TestAGivenForceAnswersAsTheComputedOne(t *testing.T) {
	tn := external(0.2)
	j := step("X", 1300e6, tendon.LeftEnd, 0)
	computed, err := tn.Jack(j)
	require.NoError(t, err)
	end := math.Nextafter(10, 0)
	j.Given = &tendon.Given{Source: note, Forces: []tendon.Stated{
		{X: 0, Value: computed.At(0)}, {X: 10, Value: computed.At(end)}, {X: 10, Value: computed.At(10)},
		{X: 26, Value: computed.At(25.9)}, {X: 26, Value: computed.At(26)}, {X: 36, Value: computed.At(36)},
	}}
	given, err := tn.Jack(j)
	require.NoError(t, err)
	for x := 0.; x <= 36; x += 0.5 {
		require.InEpsilon(t, computed.At(x), given.At(x), 1e-12, "constant between deviators, right of a kink at it")
		least, most := given.Range(x)
		require.Equal(t, [2]float64{given.At(x), given.At(x)}, [2]float64{least, most})
		require.Equal(t, given.At(x), given.AtJack(x))
	}
	require.Zero(t, given.At(-0.1)+given.At(36.1)+given.AtJack(37))
	want, got := computed.Deviations(), given.Deviations()
	require.Len(t, got, len(want))
	for i := range want {
		require.InEpsilon(t, want[i].Z, got[i].Z, 1e-9)
		require.InDelta(t, want[i].X, got[i].X, 1e-3)
	}
	require.InEpsilon(t, computed.Anchors()[1].Force, given.Anchors()[1].Force, 1e-12)
	require.True(t, given.Anchors()[0].Jacked)
	a, x := computed.Largest()
	b, y := given.Largest()
	require.InEpsilon(t, a, b, 1e-12)
	require.Equal(t, x, y)
	require.Subset(t, given.Breaks(), computed.Path.Breaks())
	require.IsNonDecreasing(t, given.Breaks())
}

// The jack pulls harder than what is stated after lock-off.
func TestAnchorOfAGivenForceKeepsTheJack(t *testing.T) {
	f, err := draped().Jack(stated(tendon.Stated{X: 0, Value: 1.5e6}, tendon.Stated{X: 34, Value: 1.6e6}))
	require.NoError(t, err)
	anchors := f.Anchors()
	require.InEpsilon(t, 1400e6*f.Tendon.Area(), anchors[0].Jacking, 1e-12)
	require.InEpsilon(t, 1.5e6, anchors[0].Force, 1e-12)
	require.InEpsilon(t, 1.6e6, anchors[1].Jacking, 1e-12, "no jack here")
	require.InEpsilon(t, 1.5e6+0.1e6*10/34, f.At(10), 1e-12)
	lines, err := f.Derivation(10, "_D")
	require.NoError(t, err)
	value, err := lines[0].Recompute()
	require.NoError(t, err)
	require.InEpsilon(t, f.At(10), value, 1e-12)
	require.Equal(t, "P_D", lines[0].Result.Symbol)
	kept, err := f.Retained(0.9)
	require.NoError(t, err)
	require.InEpsilon(t, 0.9*f.At(10), kept.At(10), 1e-12)
	perMetre, curvature := f.Radial(12)
	require.InEpsilon(t, f.At(12)*curvature, perMetre, 1e-12)
}

// A later event on a given force must be given too; on a computed one it may.
func TestEventsOfGivenForces(t *testing.T) {
	area := draped().Area()
	given := stated(tendon.Stated{X: 0, Value: 1000e6 * area}, tendon.Stated{X: 34, Value: 950e6 * area})
	f, err := draped().Jack(given)
	require.NoError(t, err)
	for _, event := range []func(tendon.Jacking) (*tendon.Force, error){f.Restress, f.Detension} {
		_, err = event(step("D", 1200e6, tendon.LeftEnd, 0))
		require.ErrorIs(t, err, tendon.ErrTendon)
		require.ErrorContains(t, err, "of a force that is given: must be given as well")
	}
	_, err = f.Elongation(tendon.Measuring{Tolerance: 0.05})
	require.ErrorContains(t, err, "must be given as well")
	more := stated(tendon.Stated{X: 0, Value: 1350e6 * area}, tendon.Stated{X: 34, Value: 1200e6 * area})
	for _, before := range []*tendon.Force{f, jack(t, draped(), tendon.LeftEnd, 0.006)} {
		again, err := before.Restress(more)
		require.NoError(t, err)
		require.InEpsilon(t, 1350e6*area, again.At(0), 1e-12)
	}
	less := stated(tendon.Stated{X: 0, Value: 500e6 * area}, tendon.Stated{X: 34, Value: 800e6 * area})
	less.Stress = 500e6
	down, err := f.Detension(less)
	require.NoError(t, err)
	require.InEpsilon(t, 800e6*area, down.At(34), 1e-12)
	_, err = f.Restress(less)
	require.ErrorContains(t, err, "is below the lift-off force")
	_, err = down.Detension(more)
	require.ErrorContains(t, err, "does not let the anchor down")
}

func TestGivenRefuses(t *testing.T) {
	at := func(x, value float64) tendon.Stated { return tendon.Stated{X: x, Value: value} }
	for words, change := range map[string]func(*tendon.Given){
		"Source.Document is empty":                     func(g *tendon.Given) { g.Source = formula.Source{} },
		"both stated":                                  func(g *tendon.Given) { g.Losses = g.Forces },
		"has 0 places: must be at least 2":             func(g *tendon.Given) { g.Forces = nil },
		"has 1 places":                                 func(g *tendon.Given) { g.Forces = g.Forces[:1] },
		"Forces run from x = 1 to 34 m: must be 0":     func(g *tendon.Given) { g.Forces[0].X = 1 },
		"run from x = 0 to 33 m":                       func(g *tendon.Given) { g.Forces[2].X = 33 },
		"run from x = NaN":                             func(g *tendon.Given) { g.Forces[0].X = math.NaN() },
		"Forces[1] at x = NaN m":                       func(g *tendon.Given) { g.Forces[1].X = math.NaN() },
		"Forces[2] at x = 34 m: must be beyond x = 40": func(g *tendon.Given) { g.Forces[1].X = 40 },
		"Forces[1] at x = 0 m":                         func(g *tendon.Given) { g.Forces[1].X = 0 },
		"Forces[2] at x = 34 m":                        func(g *tendon.Given) { g.Forces[1].X = 34 },
		"Forces[3] at x = 10 m": func(g *tendon.Given) {
			g.Forces = []tendon.Stated{at(0, 1e6), at(10, 1e6), at(10, 1e6), at(10, 1e6), at(34, 1e6)}
		},
		"x = 10 m: Given.Forces[1] = 0 N: must be": func(g *tendon.Given) { g.Forces[1].Value = 0 },
		"Forces[1] = NaN N":                        func(g *tendon.Given) { g.Forces[1].Value = math.NaN() },
		"Forces[1] = 1e+09 N":                      func(g *tendon.Given) { g.Forces[1].Value = 1e9 },
		"Losses[0] = -1 Pa":                        func(g *tendon.Given) { g.Forces, g.Losses = nil, []tendon.Stated{at(0, -1), at(34, 1)} },
		"Losses[1] = 1.4e+09 Pa":                   func(g *tendon.Given) { g.Forces, g.Losses = nil, []tendon.Stated{at(0, 1e6), at(34, 1400e6)} },
	} {
		j := stated(at(0, 1e6), at(10, 1.2e6), at(34, 1e6))
		change(j.Given)
		_, err := draped().Jack(j)
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		require.ErrorContains(t, err, words)
	}
}
