package loads_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
)

func ExampleTrapezoid() {
	load := loads.Trapezoid(2, 8, 10e3, 40e3)
	fmt.Printf("%.0f kN at x = %.2f m\n", load.Resultant()/1e3, load.Centre())
	// Output: 150 kN at x = 5.60 m
}

func ExampleDynamic_Range() {
	least, most, err := loads.Dynamic{Most: 1.15}.Range()
	fmt.Println(least, most, err)
	// Output: 1 1.15 <nil>
}

func TestResultantsOfAPolynomialLoad(t *testing.T) {
	// q = 3 s² on 2 m: force 8, first moment about its start 12.
	load := loads.Line{From: 1, To: 3, Intensity: loads.Polynomial{0, 0, 3}}
	require.InDelta(t, 8, load.Resultant(), 1e-12)
	require.InDelta(t, 1+12.0/8, load.Centre(), 1e-12)
	set := loads.Set{
		Lines:   []loads.Line{load},
		Points:  []loads.Point{{At: 4, Force: 5}},
		Couples: []loads.Couple{{At: 2, Moment: 7}},
	}
	require.InDelta(t, 13, set.Total(), 1e-12)
	require.InDelta(t, 8*2.5+20-7, set.FirstMoment(), 1e-12)
	double := set.Scaled(2).And(loads.Set{Points: []loads.Point{{At: 0, Force: 1}}})
	require.InDelta(t, 27, double.Total(), 1e-12)
	require.InDelta(t, 2*(8*2.5+20-7), double.FirstMoment(), 1e-12)
	require.InDelta(t, 12, load.Intensity.At(2), 1e-12)
	require.InDelta(t, 2, loads.Line{From: 1, To: 3}.Centre(), 0)
}

func TestLoadsOffTheMemberAreRefused(t *testing.T) {
	for name, set := range map[string]loads.Set{
		"beyond":     {Points: []loads.Point{{At: 10.01, Force: 1}}},
		"before":     {Couples: []loads.Couple{{At: -0.01, Moment: 1}}},
		"nan place":  {Points: []loads.Point{{At: math.NaN(), Force: 1}}},
		"nan force":  {Points: []loads.Point{{At: 1, Force: math.NaN()}}},
		"inf":        {Lines: []loads.Line{loads.Uniform(0, 1, math.Inf(1))}},
		"line long":  {Lines: []loads.Line{loads.Uniform(0, 11, 1)}},
		"line empty": {Lines: []loads.Line{loads.Uniform(3, 3, 1)}},
		"curved off": {Curvatures: []loads.Curvature{{From: 2, To: 11}}},
		"curved nan": {Curvatures: []loads.Curvature{{From: 2, To: 3, Value: loads.Polynomial{0, math.NaN()}}}},
		"reversed":   {Lines: []loads.Line{loads.Trapezoid(5, 3, 1, 2)}},
	} {
		require.ErrorIs(t, set.Check(10), loads.ErrLoad, name)
	}
	require.NoError(t, loads.Set{Lines: []loads.Line{loads.Uniform(0, 10, 1)}}.Check(10))
}

func TestImposedCurvatureIsScaledAndKept(t *testing.T) {
	bent := loads.Set{Curvatures: []loads.Curvature{{From: 1, To: 3, Value: loads.Polynomial{2, 1}}}}
	both := bent.Scaled(3).And(bent)
	require.Equal(t, []loads.Curvature{
		{From: 1, To: 3, Value: loads.Polynomial{6, 3}},
		{From: 1, To: 3, Value: loads.Polynomial{2, 1}},
	}, both.Curvatures)
	require.Zero(t, both.Total(), "a curvature carries no force")
	require.Zero(t, both.FirstMoment())
}

func TestFactors(t *testing.T) {
	least, most, err := loads.Dynamic{}.Range()
	require.NoError(t, err)
	require.Equal(t, [2]float64{1, 1}, [2]float64{least, most}, "zero means 1")
	least, most, err = loads.PlusMinus(0.03).Range()
	require.NoError(t, err)
	require.InDelta(t, 0.97, least, 1e-15)
	require.InDelta(t, 1.03, most, 1e-15)
	for _, d := range []loads.Dynamic{{Least: 1.1}, {Most: 0.9}, {Least: -1}, {Most: math.NaN()}, {Most: math.Inf(1)}, {Most: 115}, {Most: 1e300}, {Most: 10.001}} {
		_, _, err := d.Range()
		require.ErrorIs(t, err, loads.ErrLoad)
		require.ErrorContains(t, err, "must be 0 ≤ Least ≤ 1 ≤ Most ≤ 10")
	}
	for _, tolerance := range []loads.Tolerance{{Under: 1}, {Over: -0.1}, {Under: math.NaN()}, {Over: math.Inf(1)}, {Under: 3, Over: 3}, {Over: 1e300}, {Over: 20.001}} {
		_, _, err := tolerance.Range()
		require.ErrorIs(t, err, loads.ErrLoad)
		require.ErrorContains(t, err, "must be 0 ≤ Under < 1, 0 ≤ Over ≤ 20 (3 % is 0.03)")
	}
	// Less is Under and more is Over.
	least, most, err = loads.Tolerance{Under: 0.2, Over: 0.1}.Range()
	require.NoError(t, err)
	require.Equal(t, [2]float64{0.8, 1.1}, [2]float64{least, most})
	least, most, err = loads.Tolerance{Over: 20}.Range()
	require.NoError(t, err)
	require.Equal(t, [2]float64{1, 21}, [2]float64{least, most})
	_, most, err = loads.Dynamic{Most: 10}.Range()
	require.NoError(t, err)
	require.Equal(t, 10.0, most)
}
