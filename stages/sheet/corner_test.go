package sheet

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// box is a record of a box 6 m wide and 2 m deep with slabs of 0.3 and 0.25 m and webs of
// 0.4 m, about its centroid symmetric.
func box(r *stages.Record) {
	outer := section.Outline{{Y: -3}, {Y: 3}, {Y: 3, Z: 2}, {Y: -3, Z: 2}}
	void := section.Outline{{Y: -2.6, Z: 0.25}, {Y: 2.6, Z: 0.25}, {Y: 2.6, Z: 1.7}, {Y: -2.6, Z: 1.7}}
	wall := func(y0, z0, y1, z1 float64) stages.Wall {
		return stages.Wall{From: section.Point{Y: y0, Z: z0}, To: section.Point{Y: y1, Z: z1}, Thickness: math.Hypot(y1-y0, z1-z0)}
	}
	r.Outlines[0] = stages.Drawing{Solids: []section.Outline{outer}, Voids: []section.Outline{void}, Centroid: section.Point{Z: 1}, Walls: []stages.Wall{
		wall(0, 0, 0, 0.25), wall(0, 1.7, 0, 2), wall(2.5, 1.7, 2.5, 2), wall(2.6, 1, 3, 1), wall(-2.6, 1, -3, 1), wall(2.6, 0.25, 3, 0), wall(0.1, 0, 0.1, 2),
	}}
}

// The corners have the numbers of their coordinates, each at its corner: of the solid
// outside of the concrete, of the void in it.
func TestCornersAreNumbered(t *testing.T) {
	a := passed(t, Settings{}, box)
	f := a.sectionFigures()[0].(drawings).figures[0]
	noCollision(t, f.svg, pageWidth)
	const scale, left, up = 348.0 / 6, 88, 20
	on := func(p section.Point) vg.Point { return at(vgLength(left+(3-p.Y)*scale), vgLength(up+p.Z*scale)) }
	for i, p := range cornersOf(a.record.Outlines[0]) {
		place := middleOf(t, f.svg, fmt.Sprint(i+1))
		corner := on(p)
		require.Less(t, math.Hypot(float64(place.X-corner.X), float64(place.Y-corner.Y)), 18.0, "corner %d", i+1)
		for k, q := range cornersOf(a.record.Outlines[0]) {
			if k != i {
				other := on(q)
				require.Less(t, math.Hypot(float64(place.X-corner.X), float64(place.Y-corner.Y)), math.Hypot(float64(place.X-other.X), float64(place.Y-other.Y)))
			}
		}
		y, z := 3-(float64(place.X)-left)/scale, (float64(place.Y)-up)/scale
		inSolid, inVoid := math.Abs(y) < 3 && z > 0 && z < 2, math.Abs(y) < 2.6 && z > 0.25 && z < 1.7
		require.Equal(t, i >= 4, inVoid, "corner %d", i+1)
		require.Equal(t, i >= 4, inSolid, "corner %d", i+1)
	}
	require.NotContains(t, f.caption, "numbered")
}

// Slabs and webs have their thicknesses, of a symmetric section once.
func TestThicknessesOfWalls(t *testing.T) {
	a := passed(t, Settings{}, box)
	svg := a.sectionFigures()[0].(drawings).figures[0].svg
	boxes := written(t, svg)
	for _, words := range []string{"0.25 m", "0.3 m", "0.4 m", "6 m", "2 m"} {
		require.Len(t, boxes[words], 1, words)
	}
	d := a.record.Outlines[0]
	least, most, _ := extent(d)
	require.Equal(t, []stages.Wall{d.Walls[0], d.Walls[1], d.Walls[3]}, dimensioned(d, least, most), "no other cut of the top slab, web on one side, no cut askew or through all")
	d.Voids[0][0].Y = -2.7 // no longer symmetric: both webs
	require.Equal(t, []stages.Wall{d.Walls[0], d.Walls[1], d.Walls[3], d.Walls[4]}, dimensioned(d, least, most))
}

// A round column of 200 corners has each fourth numbered, and says so.
func TestOfManyCornersSomeAreNumbered(t *testing.T) {
	var round section.Outline
	for i := range 200 {
		angle := 2 * math.Pi * float64(i) / 200
		round = append(round, section.Point{Y: 2 * math.Cos(angle), Z: 2 + 2*math.Sin(angle)})
	}
	a := passed(t, Settings{}, func(r *stages.Record) {
		r.Outlines[0] = stages.Drawing{Solids: []section.Outline{round}, Centroid: section.Point{Z: 2}}
	})
	f := a.sectionFigures()[0].(drawings).figures[0]
	require.Contains(t, f.caption, "Corners 1, 5, 9 … of 200 are numbered.")
	boxes := written(t, f.svg)
	for i := range 200 {
		require.Len(t, boxes[fmt.Sprint(i+1)], map[bool]int{true: 1, false: 0}[i%4 == 0], "corner %d", i+1)
	}
	noCollision(t, f.svg, pageWidth)
	require.Equal(t, []int{1, 1, 2, 4}, []int{everyCorner(8), everyCorner(60), everyCorner(61), everyCorner(200)})
}

func TestPointsInOutlines(t *testing.T) {
	square := []vg.Point{at(0, 0), at(4, 0), at(4, 4), at(0, 4)}
	require.True(t, encloses(square, at(1, 3)))
	require.False(t, encloses(square, at(5, 3)))
	require.False(t, encloses(square, at(-1, 3)))
	require.False(t, encloses(square, at(1, 5)))
}
