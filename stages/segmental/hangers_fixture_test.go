package segmental_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// What the span of ten blocks of 3.6 m has: 50 kN/m.
const (
	spanLength  = 36.0
	blockWeight = 50e3
	duct        = 0.11
	jackStiff   = 800e6
)

// barStress and tendonForce of what is stressed in tests.
const barStress = 300e6

// low is a straight tendon at y = 0 below the centroid, high one above it.
func straightAt(mark string, z float64) tendon.Tendon {
	t := temporary(mark, spanLength, 0, z)
	t.Duct = duct
	return t
}

// hungBlocks are ten blocks on their hangers: pairs at 0.7 and 2.8 m of each, of 4 m to 6 m.
func hungBlocks(t testing.TB, tendons ...tendon.Tendon) (stages.Girder, segmental.Hangers) {
	var elements []stages.Element
	for i := range 10 {
		e := block(t, fmt.Sprintf("S%d", i+1), spanLength/10)
		e.WeightTolerance = loads.PlusMinus(0)
		for _, z := range []float64{0.08, 1.92} {
			e.Bars = append(e.Bars, stages.BondedBars{To: e.Length, At: section.Point{Y: 0.3, Z: z}, Area: 2000e-6}, stages.BondedBars{To: e.Length, At: section.Point{Y: -0.3, Z: z}, Area: 2000e-6})
		}
		elements = append(elements, e)
	}
	g := segmental.HungSpan("Q", elements...)
	g.Tendons = tendons
	h := segmental.Hangers{Gantry: gantryOf(9e9), Area: 1018e-6, Modulus: 205e9, Limit: 400e3, Spread: 4, Level: 2.4}
	for k, p := range g.Pieces {
		for j, off := range []float64{0.7, 2.8} {
			h.List = append(h.List, segmental.Hanger{Mark: fmt.Sprintf("H%d", 2*k+j+1), X: p.At + off, Length: 4 + 2*(p.At+off)/spanLength})
		}
	}
	return g, h
}

// gantryOf is a gantry over the span, with overhangs.
func gantryOf(stiffness float64) beam.Link {
	return beam.Link{Name: "OG1", At: -9, Layout: beam.Layout{Length: 60, Stiffness: []beam.Stretch{{BendingStiffness: stiffness}}, Supports: []beam.Support{{At: 9}, {At: 45}}}}
}

// ends are jacks on the axis at 0.4 m from both ends, and beside it.
func ends(stiffness float64) []stages.Support {
	list := stages.Elastic(stiffness/2, stages.Pads(0.3, 0.4, spanLength-0.4)...)
	for i := range list {
		list[i].Role = stages.Jack
	}
	return list
}

// pull is a stressing of tendons.
func pull(stress float64, marks ...string) tendon.Jacking {
	return tendon.Jacking{Tendons: marks, Stress: stress, Ends: tendon.LeftEnd}
}

// effectsOf are the effects of a situation of a plan.
func effectsOf(t testing.TB, g stages.Subject, plan stages.Plan, stage, situation int) stages.Effects {
	t.Helper()
	a, err := plan.Analyse(g, limits.EN1992{})
	require.NoError(t, err)
	e, err := a.Effects(stage, situation)
	require.NoError(t, err)
	return e
}

// netInertia is I of a block about its horizontal axis without round ducts at levels z, and
// the level of its centroid.
func netInertia(zs ...float64) (inertia, centroid float64) {
	hole := math.Pi * duct * duct / 4
	area, first := 2.0, 2.0
	for _, z := range zs {
		area, first = area-hole, first-hole*z
	}
	centroid = first / area
	inertia = 8.0/12 + 2*(1-centroid)*(1-centroid)
	for _, z := range zs {
		inertia -= math.Pi*math.Pow(duct, 4)/64 + hole*(z-centroid)*(z-centroid)
	}
	return inertia, centroid
}
