package section_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// On an even member the change of normal force is what the unit flows say.
func TestBetweenOnAnEvenMember(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 2))
	for name, shape := range wallShapes(t) {
		walls := wallsOf(t, shape)
		const h = 0.01
		vy, vz, my, mz := 1e5*random.NormFloat64(), 1e6*random.NormFloat64(), 1e6*random.NormFloat64(), 1e6*random.NormFloat64()
		flows, err := walls.Between(section.Change{
			Distance: 2 * h, Before: shape, After: shape,
			From: section.Forces{N: -3e6, My: my - h*vz, Mz: mz - h*vy}, To: section.Forces{N: -3e6, My: my + h*vz, Mz: mz + h*vy},
		})
		require.NoError(t, err)
		require.Len(t, flows, len(walls.Cuts))
		largest := 0.0
		for _, cut := range walls.Cuts {
			largest = math.Max(largest, math.Abs(vy*cut.Y+vz*cut.Z))
		}
		for i, cut := range walls.Cuts {
			require.InDelta(t, vy*cut.Y+vz*cut.Z, flows[i], 1e-6*largest, name)
		}
	}
}

// taperingGirder is an I-girder of thin flanges, web from flange to flange.
func taperingGirder(t testing.TB, depth float64) section.Shape {
	shape, err := section.IGirder{Depth: depth, WebThickness: 0.001,
		Top: section.Flange{Width: 1, Edge: 0.05}, Bottom: section.Flange{Width: 1, Edge: 0.05}}.Shape()
	require.NoError(t, err)
	return shape
}

// With moment and depth growing together the inclined flanges take a part of V
// each: τ = (V − M/z·tan α)/(t·z), z between the flanges and tan α its slope
// (Mörsch; the web's own bending takes 0.5 %).
func TestTaperingGirder(t *testing.T) {
	const slope, depth, h, v, m = 0.1, 2.0, 1e-3, 1e6, 8e6
	walls := wallsOf(t, taperingGirder(t, depth))
	flows := func(slope float64) []float64 {
		q, err := walls.Between(section.Change{
			Distance: 2 * h, Before: taperingGirder(t, depth-slope*h), After: taperingGirder(t, depth+slope*h),
			From: section.Forces{My: m - v*h}, To: section.Forces{My: m + v*h},
		})
		require.NoError(t, err)
		return q
	}
	lever := depth - 0.05
	even, deepening, falling := flows(0), flows(slope), flows(-slope)
	found := false
	for i, cut := range walls.Cuts {
		if math.Abs(cut.From.Z-cut.To.Z) > 1e-9 || math.Abs(cut.From.Z-depth/2) > 0.01 || cut.Thickness() > 0.002 {
			continue
		}
		found = true
		require.InEpsilon(t, v/lever, math.Abs(even[i]), 0.01)
		require.InEpsilon(t, (v-m/lever*slope)/lever, math.Abs(deepening[i]), 0.01)
		require.InEpsilon(t, (v+m/lever*slope)/lever, math.Abs(falling[i]), 0.01)
		require.Positive(t, even[i]*deepening[i])
	}
	require.True(t, found)
}

// taperingBox is a box with unequal upright webs.
func taperingBox(t testing.TB, depth float64) section.Shape {
	shape, err := section.Box{Depth: depth, TopWidth: 6, RootWidth: 4, BottomWidth: 4, TopSlab: 0.25, BottomSlab: 0.2,
		WebThickness: 0.3, LeftWebThickness: 0.4, CantileverRoot: 0.3, CantileverTip: 0.2}.Shape()
	require.NoError(t, err)
	return shape
}

// The webs of a tapering box together pass the change of the normal force above a
// level, found here from the part itself, with normal force and bending both ways.
func TestTaperingBox(t *testing.T) {
	const depth, slope, h, share = 2.5, -0.08, 1e-3, 0.55 // share of the height between the slabs
	before, after := taperingBox(t, depth-slope*h), taperingBox(t, depth+slope*h)
	walls := wallsOf(t, taperingBox(t, depth))
	from := section.Forces{N: -5e6, My: 6e6, Mz: 2e6}
	to := section.Forces{N: -5e6, My: 6e6 + 2*h*1.2e6, Mz: 2e6 - 2*h*4e5}
	// Cuts keep their share of the inner faces, which run from slab to slab; of
	// the outer ones too, so a level cut stays level only on the inner side.
	above := func(shape section.Shape, depth float64, f section.Forces) float64 {
		inner, outer := 0.2+share*(depth-0.45), (0.2+share*(2.5-0.45))/(2.5-0.3)*(depth-0.3)
		plane := shape.Properties().Plane(f)
		part := shape.Above(inner).Force(plane)
		for _, side := range []float64{-1, 1} { // the triangle between the level and the inclined cut
			thick := 0.3
			if side > 0 {
				thick = 0.4
			}
			area := thick * (outer - inner) / 2
			at := section.Point{Y: side * (2 - thick/3), Z: inner + (outer-inner)/3}
			part -= area * plane.At(at)
		}
		return part
	}
	level := 0.2 + share*(depth-0.45)
	shape := taperingBox(t, depth)
	var cuts []section.WallCut
	for i := range shape.Chords(level) {
		cut, err := walls.Across(levelCut(shape, level, i))
		require.NoError(t, err)
		cuts = append(cuts, cut)
	}
	require.Len(t, cuts, 2)
	flows, err := walls.Between(section.Change{Distance: 2 * h, Before: before, After: after, From: from, To: to}, cuts...)
	require.NoError(t, err)
	want := (above(after, depth+slope*h, to) - above(before, depth-slope*h, from)) / (2 * h)
	require.InEpsilon(t, want, flows[0]+flows[1], 1e-6) // upwards, out of what lies below
	require.NotEqual(t, flows[0], flows[1])
}

// A change of the normal force over the area as N/A is needs no shear.
func TestBetweenSpreadsAChangeOfNormalForce(t *testing.T) {
	shape := twoCells(t)
	walls := wallsOf(t, shape)
	flows, err := walls.Between(section.Change{Distance: 0.1, Before: shape, After: shape, From: section.Forces{N: -1e6}, To: section.Forces{N: -2e6}})
	require.NoError(t, err)
	for _, q := range flows {
		require.InDelta(t, 0, q, 1e-6)
	}
}

func TestBetweenRefuses(t *testing.T) {
	shape := hollow(t)
	walls := wallsOf(t, shape)
	good := section.Change{Distance: 0.1, Before: shape, After: shape}
	for words, spoil := range map[string]func(*section.Change){
		"Change.Distance = 0 m":   func(c *section.Change) { c.Distance = 0 },
		"Change.Distance = NaN m": func(c *section.Change) { c.Distance = math.NaN() },
		"Change.Before":           func(c *section.Change) { c.Before = plain(t, 1, 1) },
		"Change.After":            func(c *section.Change) { c.After = section.Shape{} },
		"N = NaN N":               func(c *section.Change) { c.From.N = math.NaN() },
		"My = +Inf N·m":           func(c *section.Change) { c.To.My = math.Inf(1) },
	} {
		c := good
		spoil(&c)
		_, err := walls.Between(c)
		require.ErrorIs(t, err, section.ErrShape)
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must")
	}
	_, err := walls.Between(good, section.WallCut{Cut: section.Cut{From: section.Point{Y: 0.6, Z: 1}}})
	require.ErrorContains(t, err, "must end on the outline")
	_, err = section.Walls{}.Between(good)
	require.ErrorIs(t, err, section.ErrShape)
}
