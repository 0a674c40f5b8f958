package beam_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// A taper as one smooth stretch is the limit of many short uniform ones: the
// error of slicing falls with the square of the number of slices.
func TestSlicesConvergeToTheTaper(t *testing.T) {
	const length = 24.
	stiffness := func(x float64) float64 { return 1e10 * math.Pow(1+x/length, 3) }
	layout := plain(length, beam.Support{At: 0, Fixed: true}, beam.Support{At: 15}, beam.Support{At: length})
	set := loads.Set{Lines: []loads.Line{loads.Trapezoid(2, 22, 1e4, 3e4)}, Points: []loads.Point{{At: 9, Force: 2e5}}}
	layout.Stiffness = []beam.Stretch{{BendingAt: stiffness}}
	exact := solved(t, layout, set)
	off := func(slices int) float64 {
		layout.Stiffness = nil
		for i := range slices {
			middle, end := length*(float64(i)+.5)/float64(slices), length*float64(i+1)/float64(slices)
			layout.Stiffness = append(layout.Stiffness, beam.Stretch{To: end, BendingStiffness: stiffness(middle)})
		}
		return math.Abs(solved(t, layout, set).Moment(15)/exact.Moment(15) - 1)
	}
	coarse, fine := off(64), off(256)
	require.Less(t, fine, 1e-5)
	require.InDelta(t, 16, coarse/fine, 1, "four times the slices, a sixteenth of the error")
}

// A constant given as a function is the constant.
func TestConstantFunction(t *testing.T) {
	layout := plain(20, beam.Support{At: 0}, beam.Support{At: 8}, beam.Support{At: 20})
	layout.Stiffness = []beam.Stretch{{BendingStiffness: 2e10, ShearStiffness: 4e8}}
	set := loads.Set{
		Lines:      []loads.Line{loads.Uniform(0, 15, 1e4)},
		Couples:    []loads.Couple{{At: 5, Moment: 1e5}},
		Curvatures: []loads.Curvature{{From: 3, To: 18, Value: loads.Polynomial{1e-4, 1e-5}}},
	}
	want := solved(t, layout, set)
	layout.Stiffness = []beam.Stretch{{
		BendingAt: func(float64) float64 { return 2e10 },
		ShearAt:   func(float64) float64 { return 4e8 },
	}}
	same(t, want, solved(t, layout, set), 1)
	layout.Stiffness = []beam.Stretch{{BendingStiffness: 2e10, ShearAt: func(float64) float64 { return 4e8 }}}
	same(t, want, solved(t, layout, set), 1)
}

// On a simple span shear adds M/GA to the deflection and nothing to the rest.
func TestShearDeformation(t *testing.T) {
	layout := plain(12, beam.Support{At: 0}, beam.Support{At: 12})
	set := loads.Set{Lines: []loads.Line{loads.Uniform(0, 12, 1e4)}}
	rigid := solved(t, layout, set)
	layout.Stiffness[0].ShearStiffness = 3e8
	soft := solved(t, layout, set)
	for _, x := range stations(12) {
		require.InDelta(t, rigid.Moment(x), soft.Moment(x), 1e-7)
		require.InDelta(t, rigid.Deflection(x)-rigid.Moment(x)/3e8, soft.Deflection(x), 1e-13)
		require.InDelta(t, rigid.Slope(x), soft.Slope(x), 1e-13)
	}
	require.InDelta(t, 6, soft.DeflectionRange().Least.At, 1e-6)
}

func TestStiffnessesThatCannotBeUsed(t *testing.T) {
	for says, stretch := range map[string]beam.Stretch{
		"= -8.": {BendingAt: func(x float64) float64 { return x/10 - 8.5 }},
		"BendingAt near 4.": {BendingAt: func(x float64) float64 {
			if x > 4.1 {
				return 2
			}
			return 1
		}},
		"BendingStiffness = 3 N·m²: must be 0":                {BendingStiffness: 3, BendingAt: func(float64) float64 { return 1 }},
		"ShearStiffness = 3 N: must be 0":                     {BendingStiffness: 1, ShearStiffness: 3, ShearAt: func(float64) float64 { return 1 }},
		"ShearStiffness = -3 N":                               {BendingStiffness: 1, ShearStiffness: -3},
		"= NaN N: must be a finite stiffness > 0":             {BendingStiffness: 1, ShearAt: func(float64) float64 { return math.NaN() }},
		"= +Inf N·m²: must be a finite stiffness > 0":         {BendingAt: func(float64) float64 { return math.Inf(1) }},
		"must be a smooth function; end the stretch where it": {BendingAt: func(x float64) float64 { return 1 + math.Abs(x-math.Pi) }},
	} {
		layout := plain(10, beam.Support{At: 0}, beam.Support{At: 10})
		layout.Stiffness = []beam.Stretch{stretch}
		_, err := beam.New(layout)
		require.ErrorIs(t, err, beam.ErrBeam, says)
		require.ErrorContains(t, err, says)
	}
}

// A cantilever segment is three times as deep at the pier as at its tip.
func ExampleStretch_taper() {
	cantilever, err := beam.New(beam.Layout{
		Length: 40,
		Stiffness: []beam.Stretch{{BendingAt: func(x float64) float64 {
			t := 1 - x/40
			depth := 2 + 4*t*t // m
			return 36e9 * 0.6 * depth * depth * depth
		}}},
		Supports: []beam.Support{{At: 0, Fixed: true}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := cantilever.Solve(loads.Set{Points: []loads.Point{{At: 40, Force: 900e3}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("tip %.1f mm\n", r.Deflection(40)*1e3)
	// Output:
	// tip -16.4 mm
}
