package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// An L of 1.0 m by 1.5 m whose flange is on the left (y +): seen along +x, left is left.
var ell = section.Outline{{Y: -0.6}, {Y: 0}, {Y: 0, Z: 1}, {Y: 0.4, Z: 1}, {Y: 0.4, Z: 1.5}, {Y: -0.6, Z: 1.5}}

// inSection is a place of a section 1.0 m wide and 1.5 m deep: 150 points for 1.5 m, in
// the middle of 524 points, 20 above the bottom.
func inSection(y, z float64) vgPoint {
	const scale = 150 / 1.5
	return at(vgLength((524-scale)/2+(0.4-y)*scale), vgLength(20+z*scale))
}

func sectionWith(t *testing.T, changes ...func(*stages.Record)) (string, []drawn) {
	a := passed(t, Settings{}, append([]func(*stages.Record){func(r *stages.Record) { r.Outlines[0].Solids = []section.Outline{ell} }}, changes...)...)
	f := a.sectionFigures()[0].(drawings).figures[0]
	return f.svg, drawnIn(t, f.svg)
}

// The section is drawn to scale with y to the left and z up, and a void is white.
func TestTheSectionIsSeenLookingAlongX(t *testing.T) {
	hole := section.Outline{{Y: -0.5, Z: 0.1}, {Y: -0.1, Z: 0.1}, {Y: -0.1, Z: 0.4}}
	_, list := sectionWith(t, func(r *stages.Record) { r.Outlines[0].Voids = []section.Outline{hole} })
	var path, void []vgPoint
	for _, p := range ell {
		path = append(path, inSection(p.Y, p.Z))
	}
	for _, p := range hole {
		void = append(void, inSection(p.Y, p.Z))
	}
	require.Equal(t, 1, count(list, inPale, path...))
	require.Equal(t, 1, count(list, thickPen, append(path, path[0])...))
	require.Equal(t, 1, count(list, inWhite, void...))
	require.Equal(t, 1, count(list, thickPen, append(void, void[0])...))
}

// Width and depth stand at dimension lines of their length, the centroid at its place.
func TestDimensionsOfTheSection(t *testing.T) {
	svg, list := sectionWith(t)
	low, high := inSection(0.4, 0), inSection(-0.6, 1.5)
	require.Equal(t, 1, count(list, thinPen, at(low.X, low.Y-8), at(high.X, low.Y-8)), "width below")
	require.Equal(t, 1, count(list, thinPen, at(low.X-10, low.Y), at(low.X-10, high.Y)), "depth on the left")
	require.InDelta(t, float64(low.X+high.X)/2, float64(middleOf(t, svg, "1 m").X), 0.5)
	require.InDelta(t, float64(low.Y+high.Y)/2, float64(middleOf(t, svg, "1.5 m").Y), 1.5)
	require.Less(t, float64(middleOf(t, svg, "1.5 m").X), float64(low.X))
	c := inSection(-0.1, 0.75)
	require.Equal(t, 1, count(list, chainPen, at(c.X-16, c.Y), at(high.X+12, c.Y)))
	require.Equal(t, 1, count(list, chainPen, at(c.X, c.Y-8), at(c.X, c.Y+8)))
	require.InDelta(t, float64(c.Y), float64(middleOf(t, svg, "centroid z = 0.75 m").Y), 1.5)
}

// Tendons are full dots at mid-length with their marks, open ones at the left end.
func TestTendonsInTheSection(t *testing.T) {
	svg, list := sectionWith(t, func(r *stages.Record) {
		r.Tendons = []stages.TendonRecord{
			{Mark: "A", Points: []stages.PathPoint{{X: 0, Y: 0.2, Z: 1.2}, {X: 10, Y: -0.3, Z: 0.3}, {X: 20, Y: 0.2, Z: 1.2}}},
			{Mark: "B", Points: []stages.PathPoint{{X: 0, Y: -0.5, Z: 0.6}, {X: 20, Y: -0.5, Z: 0.6}}}, {Mark: "none"},
		}
	})
	require.Equal(t, 1, rings(list, inWhite, inSection(0.2, 1.2)), "A at the left end")
	require.Equal(t, 1, rings(list, inBlack, inSection(-0.3, 0.3)), "A at mid-length")
	require.Equal(t, 1, rings(list, inWhite, inSection(-0.5, 0.6)), "B at the left end")
	require.Zero(t, rings(list, inBlack, inSection(-0.5, 0.6)), "B has no point at mid-length")
	require.Contains(t, svg, ">A<")
	require.NotContains(t, svg, ">B<")
}

// The captions name the place of the section and of the dots.
func TestCaptionsOfSections(t *testing.T) {
	names := func(changes ...func(*stages.Record)) (list [][2]string) {
		for _, b := range passed(t, Settings{}, changes...).sectionFigures() {
			f := b.(drawings).figures[0]
			list = append(list, [2]string{f.name, f.caption})
		}
		return list
	}
	require.Equal(t, [][2]string{{"section", "Cross-section at x = 0 m, seen looking along +x, to scale."}}, names())
	two := func(r *stages.Record) {
		r.Outlines = append(r.Outlines, r.Outlines[0])
		r.Outlines[1].X = 12
		r.Tendons = []stages.TendonRecord{{Mark: "A", Points: []stages.PathPoint{{X: 0}, {X: 9}, {X: 12}}}}
	}
	require.Equal(t, [][2]string{
		{"section-1", "Cross-section at x = 0 m, seen looking along +x, to scale. Tendons: ● at x = 9 m, ○ at the left end."},
		{"section-2", "Cross-section at x = 12 m, seen looking along +x, to scale. Tendons: ● at x = 9 m, ○ at the left end."},
	}, names(two))
	require.Empty(t, names(func(r *stages.Record) { r.Outlines[0].Solids = nil }), "nothing to draw")
}

// The place of the dots is the end of a piece that is nearest to mid-length, the first
// of two that are as near.
func TestTheEndOfAPieceNearestToMidLength(t *testing.T) {
	nearest := func(xs ...float64) float64 {
		var points []stages.PathPoint
		for _, x := range xs {
			points = append(points, stages.PathPoint{X: x})
		}
		at, ok := (&author{record: stages.Record{Length: 20, Tendons: []stages.TendonRecord{{Points: points}}}}).nearestMiddle()
		require.Equal(t, len(xs) > 0, ok)
		return at
	}
	require.Equal(t, 9.0, nearest(0, 9, 12, 20))
	require.Equal(t, 8.0, nearest(0, 8, 12, 20))
	require.Equal(t, 20.0, nearest(20))
	require.Zero(t, nearest())
}

// A wide slab is drawn to the width of the page: 348 points for 9.4 m.
func TestAWideSectionFillsTheWidth(t *testing.T) {
	svg, list := sectionWith(t, func(r *stages.Record) {
		r.Outlines[0] = stages.Drawing{Solids: []section.Outline{{{Y: -4.7}, {Y: 4.7}, {Y: 4.7, Z: 1}, {Y: -4.7, Z: 1}}}, Centroid: section.Point{Z: 0.5}}
	})
	require.Equal(t, 1, count(list, inPale, at(436, 20), at(88, 20), at(88, 20+348/9.4), at(436, 20+348/9.4)))
	_, height := sizeOf(t, svg)
	require.InDelta(t, 20+348/9.4+12, height, 0.01)
}

// The leader of a tendon's mark leads to no other tendon: three in a web, 80 mm apart.
func TestMarksOfTendonsLeadToTheirOwn(t *testing.T) {
	svg, list := sectionWith(t, func(r *stages.Record) {
		box(r)
		for i, mark := range []string{"W1L", "W2L", "W3L"} {
			z := 0.15 + 0.08*float64(i)
			r.Tendons = append(r.Tendons, stages.TendonRecord{Mark: mark, Points: []stages.PathPoint{{X: 0, Y: 2.8, Z: 1 + z}, {X: 10, Y: 2.8, Z: z}, {X: 20, Y: 2.8, Z: 1 + z}}})
		}
	})
	noCollision(t, svg, pageWidth)
	var dots []vgPoint
	for _, d := range list {
		if d.ring && d.pen == inBlack {
			dots = append(dots, d.points[0])
		}
	}
	require.Len(t, dots, 3)
	led := 0
	for _, l := range leaders(list) {
		for _, dot := range dots {
			if near(l[0], dot) {
				led++
				for _, other := range dots {
					require.True(t, near(other, dot) || aside(other, l[0], l[1]) > 2.5, "%v leads by %v", l, other)
				}
			}
		}
	}
	require.Positive(t, led)
	require.InDelta(t, 3, aside(at(5, 3), at(0, 0), at(10, 0)), 1e-6)
	require.InDelta(t, 5, aside(at(13, 4), at(0, 0), at(10, 0)), 1e-6)
}
