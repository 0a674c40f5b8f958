package section_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// ellipse is a polygon of the ellipse's area with half axes a and b: an affine
// image of a regular one.
func ellipse(t testing.TB, a, b float64, chords int) section.Shape {
	t.Helper()
	step := 2 * math.Pi / float64(chords)
	scale := math.Sqrt(step / math.Sin(step))
	var o section.Outline
	for i := range chords {
		sin, cos := math.Sincos(step * float64(i))
		o = append(o, section.Point{Y: a * scale * cos, Z: b * scale * sin})
	}
	return shapeOf(t, []section.Outline{o})
}

// oblong is Saint-Venant's series for J of a rectangle, short by long.
func oblong(short, long float64) float64 {
	sum := 0.0
	for n := 1.0; n < 60; n += 2 {
		sum += math.Tanh(n*math.Pi*long/(2*short)) / math.Pow(n, 5)
	}
	return long * short * short * short / 3 * (1 - 192/math.Pow(math.Pi, 5)*short/long*sum)
}

func TestChangeBoundsTheErrorOfJ(t *testing.T) {
	height := math.Sqrt(3) / 2
	for name, c := range map[string]struct {
		shape section.Shape
		exact float64
	}{
		"square":             {plain(t, 1, 1), oblong(1, 1)},
		"rectangle 1 × 3":    {plain(t, 3, 1), oblong(1, 3)},
		"rectangle 0.3 × 12": {plain(t, 0.3, 12), oblong(0.3, 12)},
		"triangle":           {polygon(t, 0, 0, 1, 0, 0.5, height), math.Sqrt(3) / 80},
		"triangle with idle corners": {polygon(t, 0, 0, 0.07, 0, 0.5, 0, 1, 0, 0.5, height, 0.25, height/2),
			math.Sqrt(3) / 80}, // √3·a⁴/80
		"ellipse": {ellipse(t, 1, 0.5, 100), math.Pi * 0.125 / 1.25}, // π·a³·b³/(a² + b²)
	} {
		torsion := torsionOf(t, c.shape)
		require.InDelta(t, c.exact, torsion.Constant, torsion.Change*c.exact+1e-9*c.exact, name)
		require.Less(t, torsion.Change, 0.0015, name)
		if name != "ellipse" { // of chords, whose own error is 2e-6
			require.InEpsilon(t, c.exact, torsion.Constant, 1e-4, name)
		}
	}
}

// bulged is the shape with every edge in four pieces that bulge by a millionth of
// it: new corners, that turn by some 1e-5 rad, so that no element spans an edge.
func bulged(t *testing.T, o section.Outline) section.Shape {
	t.Helper()
	var fine section.Outline
	for i, a := range o {
		b := o[(i+1)%len(o)]
		for k, rise := range [4]float64{0, 0.75e-6, 1e-6, 0.75e-6} {
			s := float64(k) / 4
			fine = append(fine, section.Point{Y: a.Y + s*(b.Y-a.Y) + rise*(b.Z-a.Z), Z: a.Z + s*(b.Z-a.Z) - rise*(b.Y-a.Y)})
		}
	}
	return shapeOf(t, []section.Outline{fine})
}

// Edges between gentle corners are divided too: J of a solid polygon is that of
// the same polygon divided finer, within what both say.
func TestEdgesBetweenGentleCornersAreDivided(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 3))
	for i := range 6 {
		n := 7 + random.IntN(7)
		var o section.Outline
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.6*random.Float64()) / float64(n))
			r := 0.85 + 0.3*random.Float64()
			o = append(o, section.Point{Y: 1.6 * r * cos, Z: r * sin})
		}
		drawn, fine := torsionOf(t, shapeOf(t, []section.Outline{o})), torsionOf(t, bulged(t, o))
		// Four bulges of 1e-6 of edges as long as the section add up to 1e-5 of J.
		require.InEpsilon(t, fine.Constant, drawn.Constant, drawn.Change+fine.Change+1e-5, "polygon %d", i)
		require.InEpsilon(t, fine.Constant, drawn.Constant, 3e-4, "polygon %d", i)
	}
	box, err := usual.Shape()
	require.NoError(t, err)
	filled := torsionOf(t, box.Filled())
	require.InEpsilon(t, torsionOf(t, bulged(t, box.Filled().Solids()[0])).Constant, filled.Constant, 1e-4, "filled box")
}

// New keeps corners that lie straight between their neighbours, and the solution
// is without them.
func TestTorsionDoesNotSeeIdleCorners(t *testing.T) {
	open, err := half.Shape()
	require.NoError(t, err)
	o := open.Solids()[0]
	var idle section.Outline
	for i, a := range o {
		b := o[(i+1)%len(o)]
		part := 0.1 + 0.05*float64(i)
		idle = append(idle, a, section.Point{Y: a.Y + part*(b.Y-a.Y), Z: a.Z + part*(b.Z-a.Z)})
	}
	drawn := shapeOf(t, []section.Outline{idle})
	require.Len(t, drawn.Corners(), 2*len(o))
	want, got := torsionOf(t, open), torsionOf(t, drawn)
	require.Equal(t, want.Nodes, got.Nodes)
	require.InEpsilon(t, want.Constant, got.Constant, 1e-9)
	require.InDelta(t, centreOf(t, open, 0.2).Y, centreOf(t, drawn, 0.2).Y, 1e-9)
	ω, with := want.Warping(), got.Warping()
	require.Len(t, with, 2*len(o))
	for i := range ω {
		require.InDelta(t, ω[i], with[2*i], 1e-9, fmt.Sprint("corner ", i))
		low, high := math.Min(ω[i], ω[(i+1)%len(ω)]), math.Max(ω[i], ω[(i+1)%len(ω)])
		require.InDelta(t, (low+high)/2, with[2*i+1], (high-low)/2+0.02, "between those of its neighbours, but for the slab's own")
	}
}
