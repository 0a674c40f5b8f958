package sheet

import (
	"encoding/xml"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// everyFigure are all figures of a record, with the pictures of operations.
func everyFigure(t *testing.T, units Units, record stages.Record) []figure {
	a, err := newAuthor(record, Settings{Units: units})
	require.NoError(t, err)
	list := figuresIn(a.calculation().blocks)
	require.NotEmpty(t, list)
	return list
}

// Each figure says what it shows and carries the caution, whatever the words.
func TestFiguresAreDescribed(t *testing.T) {
	record := rectangle()
	rich(&record)
	record.Caution[0] = "An aid: <b> & \"quoted\"."
	record.Stages[0].Situations[0].Name = "store & <hold>"
	for _, f := range everyFigure(t, SI, record) {
		var svg struct {
			Title string `xml:"title"`
			Desc  string `xml:"desc"`
		}
		require.NoError(t, xml.Unmarshal([]byte(f.svg), &svg), f.name)
		require.Equal(t, "An aid: <b> & \"quoted\".", svg.Desc, f.name)
		caption := f.caption
		if f.equipment != "" {
			caption += " Equipment: pier P1 (1), crane C1."
		}
		require.Equal(t, caption, svg.Title)
	}
	a, err := newAuthor(record, Settings{})
	require.NoError(t, err)
	a.record.Caution = nil
	require.Contains(t, a.description("c", ""), "<title>c</title>\n<desc></desc>")
}

// The elevations of situations that are drawn alike are the same figure to the letter,
// and have the name of the first.
func TestAnElevationDrawnTwiceIsTheSame(t *testing.T) {
	record := rectangle()
	s := record.Stages[0].Situations[0]
	s.Name = "later"
	hung := record.Stages[1].Situations[0]
	record.Stages[0].Situations = append(record.Stages[0].Situations, s, hung, s)
	a, err := newAuthor(record, Settings{})
	require.NoError(t, err)
	var list []figure
	for i := range 4 {
		list = append(list, a.elevation(record.Stages[0], i))
	}
	require.True(t, list[0].svg == list[1].svg)
	require.Contains(t, list[1].svg, "<title>1.1 store,")
	require.Contains(t, list[1].caption, "1.2 later,")
	require.Contains(t, list[2].svg, "<title>1.3 lift,")
	require.Contains(t, list[3].svg, "<title>1.4 later,")
}

// printedWidth is how wide a figure is printed, mm: over the page, or beside another.
func printedWidth(viewBox float64) float64 {
	if viewBox > float64(halfWidth) {
		return 180
	}
	return 87
}

// printedSizes are the sizes of all texts of a figure in print, in points of 1/72 inch.
func printedSizes(t *testing.T, svg string) (sizes []float64) {
	m := regexp.MustCompile(`viewBox="0 0 ([0-9.]+) `).FindStringSubmatch(svg)
	require.NotNil(t, m)
	box, err := strconv.ParseFloat(m[1], 64)
	require.NoError(t, err)
	scale := printedWidth(box) / 25.4 * 72 / box
	for _, f := range regexp.MustCompile(`font-size:([0-9.]+)px`).FindAllStringSubmatch(svg, -1) {
		size, err := strconv.ParseFloat(f[1], 64)
		require.NoError(t, err)
		sizes = append(sizes, size*scale)
	}
	return sizes
}

// All type of all figures is at least 7 points in print.
func TestTypeOfFiguresInPrint(t *testing.T) {
	wide := rectangle()
	rich(&wide)
	n := 0
	for _, record := range []stages.Record{storedRecord(t), wide} {
		for _, units := range []Units{SI, US} {
			for _, f := range everyFigure(t, units, record) {
				for _, size := range printedSizes(t, f.svg) {
					require.GreaterOrEqual(t, size, 7.0, f.name)
					require.LessOrEqual(t, size, 9.0, f.name)
					n++
				}
			}
		}
	}
	require.Greater(t, n, 400)
	require.InDeltaSlice(t, []float64{7.0 * 180 / 25.4 * 72 / 600}, printedSizes(t, `<svg viewBox="0 0 600 10"><text style="font-size:7px">`), 1e-9, "510 points of paper for 600")
}
