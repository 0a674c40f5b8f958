package sheet

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// Cuts of a box: two through the web at one place, one just above it, one through the top
// slab, and one that is off the outline.
func cutBox(r *stages.Record) {
	box(r)
	cut := func(n int, x, y0, z0, y1, z1 float64) derive.Flow {
		return derive.NewFlow(n, x, derive.Wall{Name: "a wall", From: section.Point{Y: y0, Z: z0}, To: section.Point{Y: y1, Z: z1}}, 1, 1, 1)
	}
	r.Flows = []derive.Flow{cut(1, 2, -2.6, 1, -3, 1), cut(2, 8, -2.6, 1, -3, 1), cut(3, 8, -2.6, 1.05, -3, 1.05), cut(4, 8, 1, 1.7, 1, 2), cut(5, 8, 1, 1.5, 1, 2)}
}

// Wall sections are drawn in the figure of the section, each once and where it cuts from
// face to face, with the mark by which tables refer to them.
func TestWallSectionsAreDrawn(t *testing.T) {
	a := passed(t, Settings{}, cutBox)
	f := a.sectionFigures()[0].(drawings).figures[0]
	noCollision(t, f.svg, pageWidth)
	boxes := written(t, f.svg)
	require.Len(t, boxes["WS2, WS1"], 1, "near each other, the top one first")
	require.Len(t, boxes["WS3"], 1)
	require.NotContains(t, f.svg, "WS4", "it does not cut this outline")
	require.Contains(t, f.caption, "Dotted: wall sections of the checks")
	require.Equal(t, []string{"WS1", "WS1", "WS2", "WS3", "WS4", "", ""}, []string{a.wallMark(1), a.wallMark(2), a.wallMark(3), a.wallMark(4), a.wallMark(5), a.wallMark(6), a.wallMark(0)})
}

// Every check of a wall and every table of its shear stress names its wall section, which
// is in the figure and in the table of unit stresses.
func TestChecksOfWallsNameTheirWallSection(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	marks, figures := 0, ""
	for _, b := range a.sectionFigures() {
		figures += b.(drawings).figures[0].svg
	}
	page := calculationPage(a)
	for _, stage := range a.record.Stages {
		for _, c := range checksOf(stage) {
			if c.Kind == limits.PrincipalTension && c.State != stages.NotEvaluated {
				mark := a.wallOf(c)
				require.NotEmpty(t, mark, c.Place)
				require.Contains(t, a.placeOf(c), mark+" at y = ")
				require.Contains(t, figures, mark)
				require.Contains(t, page, ", wall section "+mark+", unit stresses ")
				require.Regexp(t, regexp.MustCompile(`\| \d+ \| `+mark+`: wall from y = `), page)
				marks++
			}
		}
	}
	require.Greater(t, marks, 2)
	require.False(t, strings.Contains(page, "| wall at y"))
}
