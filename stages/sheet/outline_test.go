package sheet

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// boxed has an outline with a void and walls of which two mirror each other.
func boxed(r *stages.Record) {
	r.Outlines = []stages.Drawing{{
		Solids: []section.Outline{{{Y: 1.5}, {Y: 1.5, Z: 1.2345}, {Y: -1.5, Z: 1.2345}, {Y: -1.5}}},
		Voids:  []section.Outline{{{Y: -1, Z: 0.2}, {Y: -1, Z: 1}, {Y: 1, Z: 0.6}}},
		Walls: []stages.Wall{
			{From: section.Point{Y: 1, Z: 0.6}, To: section.Point{Y: 1.5, Z: 0.6}, Thickness: 0.5}, {From: section.Point{Y: -1.5, Z: 0.6}, To: section.Point{Y: -1, Z: 0.6}, Thickness: 0.5000001},
			{From: section.Point{Z: 0}, To: section.Point{Z: 0.2}, Thickness: 0.2},
		},
	}}
}

// Corners are numbered through solids and voids, with the coordinates of the record.
func TestOutlineCoordinates(t *testing.T) {
	for _, change := range []func(*stages.Record){boxed, func(*stages.Record) {}} {
		a := passed(t, Settings{}, change)
		d := a.record.Outlines[0]
		found := map[int][2]float64{}
		for _, r := range a.corners(d, "")[0].(grid).rows {
			for _, at := range []int{0, 3} {
				if number, err := strconv.Atoi(regexp.MustCompile(`^\d+`).FindString(r[at].raw())); err == nil {
					found[number] = [2]float64{read(t, r[at+1].raw()), read(t, r[at+2].raw())}
				}
			}
		}
		number := 0
		for _, o := range append(append([]section.Outline{}, d.Solids...), d.Voids...) {
			for _, p := range o {
				number++
				require.InDelta(t, p.Y, found[number][0], 0.5e-3, "corner %d", number)
				require.InDelta(t, p.Z, found[number][1], 0.5001e-3, "corner %d", number)
			}
		}
		require.Len(t, found, number)
	}
}

// Sections that differ have a table each, one that comes again has none.
func TestEachSectionHasItsCorners(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, boxed, func(r *stages.Record) {
		second, third := r.Outlines[0], r.Outlines[0]
		second.X, third.X = 4, 9
		third.Solids = []section.Outline{{{Y: 1.5}, {Y: 1.5, Z: 1.5}, {Y: -1.5, Z: 1.5}, {Y: -1.5}}}
		r.Outlines = append(r.Outlines, second, third)
	}))
	require.Equal(t, 2, strings.Count(page, ": Outline coordinates at x = "))
	require.Contains(t, page, ": Outline coordinates at x = 0 m, m")
	require.Contains(t, page, ": Outline coordinates at x = 9 m, m")
}

// Each thickness of the record stands once, thinnest first, at the mid points of its
// cuts; those of two cuts that mirror each other stand as one.
func TestWallThicknesses(t *testing.T) {
	a := passed(t, Settings{}, boxed)
	var rows []string
	for _, r := range a.walls(a.record.Outlines[0], "")[0].(grid).rows {
		rows = append(rows, r[0].raw()+" at "+r[1].raw())
	}
	require.Equal(t, []string{"0.200 at 0.000, 0.100", "0.500 at ±1.250, 0.600"}, rows)
	b, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	walls := b.record.Outlines[0].Walls
	require.Greater(t, len(walls), 5)
	page := calculationPage(b)
	for _, w := range walls {
		require.Equal(t, 1, strings.Count(page, fmt.Sprintf("\n| %.3f | ", w.Thickness)+""), "%.4f", w.Thickness)
	}
	require.Nil(t, b.walls(stages.Drawing{}, ""))
}
