package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// deepeningHalf is a half beam of depth 3.6 to 1.8 m over 30 m whose web keeps
// its slope, so that the centroid moves sideways.
func deepeningHalf(t testing.TB) stages.Element {
	shallow := section.HalfBeam{
		Depth: 1.8, TopWidth: 4.5, RootWidth: 2.6, BottomWidth: 2.2, TopInner: 0.3, BottomInner: 0.4,
		TopSlab: 0.22, BottomSlab: 0.2, WebThickness: 0.3, CantileverRoot: 0.35, CantileverTip: 0.18,
	}
	deep := shallow
	deep.Depth, deep.BottomWidth, deep.BottomInner = 3.6, 1.4, 0.3
	left, err := deep.Shape()
	require.NoError(t, err)
	right, err := shallow.Shape()
	require.NoError(t, err)
	along, err := section.Taper{To: 30, Left: left, Right: right}.Along()
	require.NoError(t, err)
	e := girder(t)
	e.Length, e.Section, e.WeightTolerance, e.Tendons, e.Extra = 30, along, loads.PlusMinus(0.03), nil, nil
	return e
}

// The centre of gravity of a half beam that deepens is ∫A·y dx/∫A dx, by
// Simpson's rule, not the centroid at mid-length, which is 7 mm off.
func TestCentreOfGravityOfATaperedHalfBeam(t *testing.T) {
	e := deepeningHalf(t)
	const strips = 2000
	var volume, first float64
	for i := range strips + 1 {
		weight := []float64{2, 4}[i%2]
		if i == 0 || i == strips {
			weight = 1
		}
		p := e.Section.At(30 * float64(i) / strips).Properties()
		volume += weight * p.Area * 30 / strips / 3
		first += weight * p.Area * p.Centroid.Y * 30 / strips / 3
	}
	mass, err := e.CentreOfGravity()
	require.NoError(t, err)
	require.InEpsilon(t, 25e3*volume, mass.Weight, 1e-12)
	require.InDelta(t, first/volume, mass.Y, 1e-12)
	require.InDelta(t, -0.007, first/volume-e.Section.At(15).Properties().Centroid.Y, 0.001)
}

// With a weight on one side the centre follows by hand.
func TestCentreOfGravityWithExtraWeight(t *testing.T) {
	e := deepeningHalf(t)
	bare, err := e.CentreOfGravity()
	require.NoError(t, err)
	e.Extra = []stages.ExtraWeight{{Mark: "block", From: 2, To: 4, Weight: 90e3, Y: -1.5}}
	mass, err := e.CentreOfGravity()
	require.NoError(t, err)
	require.InEpsilon(t, bare.Weight+90e3, mass.Weight, 1e-12)
	require.InDelta(t, (bare.Weight*bare.Y-90e3*1.5)/(bare.Weight+90e3), mass.Y, 1e-12)
	require.InDelta(t, (bare.Weight*bare.X+90e3*3)/(bare.Weight+90e3), mass.X, 1e-11)
}

// A unit weight in kN/m³ or a density in kg/m³ is refused, light and heavy
// concrete are not.
func TestUnitWeight(t *testing.T) {
	weigh := func(unitWeight float64) (float64, error) {
		e := girder(t)
		e.UnitWeight, e.Extra = unitWeight, nil
		mass, err := e.CentreOfGravity()
		return mass.Weight, err
	}
	usual, err := weigh(0)
	require.NoError(t, err)
	for _, good := range []float64{15e3, 25e3, 40e3} {
		weight, err := weigh(good)
		require.NoError(t, err)
		require.InEpsilon(t, usual*good/25e3, weight, 1e-12)
	}
	for _, bad := range []float64{-1, 25, 2500, math.Nextafter(15e3, 0), math.Nextafter(40e3, 1e6), math.NaN(), math.Inf(1)} {
		_, err := weigh(bad)
		require.ErrorIs(t, err, stages.ErrStage, "%g", bad)
		require.ErrorContains(t, err, "must be 15e3 to 40e3 N/m³ (0 for 25e3)")
	}
	_, err = weigh(25)
	require.EqualError(t, err, "stage: Element.UnitWeight = 25 N/m³: must be 15e3 to 40e3 N/m³ (0 for 25e3); is it in kN/m³ or kg/m³?")
	_, err = weigh(-1)
	require.EqualError(t, err, "stage: Element.UnitWeight = -1 N/m³: must be 15e3 to 40e3 N/m³ (0 for 25e3)")
}
