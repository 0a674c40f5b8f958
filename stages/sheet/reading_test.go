package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// readingRows are the cells of the table of readings of a stage.
func readingRows(t *testing.T, units Units, stage int, changes ...func(*stages.Record)) (rows [][]string, g grid) {
	a := passed(t, Settings{Units: units}, changes...)
	g = a.readings(restingAlike(a.record.Stages[stage])[0]).(grid)
	for _, r := range g.rows {
		var cells []string
		for _, c := range r {
			cells = append(cells, c.raw())
		}
		require.Len(t, cells, len(g.columns))
		rows = append(rows, cells)
	}
	return rows, g
}

// Each support has its place, its ranges in the order of the heads and room to write;
// the last row is the total at rest and stands out.
func TestTheTableOfReadings(t *testing.T) {
	rows, g := readingRows(t, SI, 0)
	var heads []string
	for _, c := range g.columns {
		heads = append(heads, c.title.raw())
	}
	require.Equal(t, []string{"Support", "x m", "y m", "z m", "characteristic, min kN", "max", "ULS, min kN", "max", "static share of total, %", "Measured kN", "Share %"}, heads)
	require.Equal(t, [][]string{
		{"1 pad", "2.000", "−0.500", "0.000", "150", "170", "140", "230", "21.1 to 21.6", "", ""},
		{"2 pad", "2.000", "0.300", "0.000", "151", "171", "141", "231", "21.2 to 21.7", "", ""},
		{"3 pad", "16.000", "−0.100", "0.000", "410", "450", "400", "600", "57.0 to 57.4", "", ""},
		{"static total", "", "", "", "", "", "", "", "727.5 to 772.5 kN", "", ""},
	}, rows)
	require.Equal(t, 4, g.strong)
	require.True(t, g.open)
	require.Equal(t, "1 store", g.caption.raw())
}

// 150 kN / 4.448222 = 33.721 kip down, 170 / 4.448222 = 38.218 up, 772.5 / 4.448222 = 173.665 up.
func TestTheTableOfReadingsInUSUnits(t *testing.T) {
	rows, g := readingRows(t, US, 0)
	require.Equal(t, "characteristic, min kip", g.columns[4].title.raw())
	require.Equal(t, "Measured kip", g.columns[9].title.raw())
	require.Equal(t, []string{"1 pad", "6.562", "−1.640", "0.000", "33.72", "38.22", "31.47", "51.71", "21.1 to 21.6", "", ""}, rows[0])
	require.Equal(t, "163.5 to 173.7 kip", rows[3][8])
}

// A range covers what was found: a minimum is rounded down, also below zero, a maximum
// up.
func TestRangesOfReactionsAreRoundedOutwards(t *testing.T) {
	a := &author{units: SI}
	for _, c := range []struct {
		of          stages.Range
		least, most string
	}{
		{stages.Range{Least: 27.0009e3, Most: 33.0001e3}, "27", "33.01"}, {stages.Range{Least: -27.0001e3, Most: -26.9999e3}, "−27.01", "−26.99"},
		{stages.Range{Least: -0.3e3, Most: 0}, "−0.3", "0"}, {stages.Range{Least: 1234.56e3, Most: 1234.56e3}, "1234", "1235"}, {stages.Range{Least: 12e6, Most: 12.0001e6}, "12000", "12010"},
	} {
		least, most := a.forces(c.of)
		require.Equal(t, []string{c.least, c.most}, []string{least, most})
	}
}

// Shares of the total are rounded outwards to a tenth of a per cent; there is none of a
// bounded reaction, and no range of nothing.
func TestSharesAreRoundedOutwards(t *testing.T) {
	share := func(least, most float64) string {
		return shareOf(stages.Reaction{Share: &stages.Range{Least: least, Most: most}})
	}
	require.Equal(t, "24.3 to 25.0", share(0.24399, 0.24901))
	require.Equal(t, "24.3 to 24.9", share(0.243, 0.249), "what is exact is not widened")
	require.Equal(t, "−0.2 to 0.1", share(-0.0011, 0.0001))
	require.Equal(t, "0.0 to 100.0", share(0, 1))
	require.Equal(t, "bounded", shareOf(stages.Reaction{Bounded: true, Share: &stages.Range{}}))
	require.Equal(t, none, shareOf(stages.Reaction{}))
}

// A bounded reaction has no band to measure by, though its range stands.
func TestABoundedReactionHasNoMeasuringBand(t *testing.T) {
	rows, _ := readingRows(t, SI, 0, first(func(s *stages.SituationRecord) { s.Reactions[2].Bounded, s.Reactions[2].Share = true, nil }))
	require.Equal(t, []string{"3 pad, bounded", "16.000", "−0.100", "0.000", "410", "450", "400", "600", "no measuring band", "", ""}, rows[2])
}

// A support's name says its number, role, group and whether it is bounded.
func TestNamesOfSupports(t *testing.T) {
	require.Equal(t, "1 support", supportName(0, stages.Reaction{}))
	require.Equal(t, "3 jack, equalised: ring A", supportName(2, stages.Reaction{Role: stages.Jack, Group: "ring A"}))
	require.Equal(t, "12 lift point, equalised: blocks, bounded", supportName(11, stages.Reaction{Role: stages.LiftPoint, Group: "blocks", Bounded: true}))
}

// Situations that rest alike share a table with both names; a difference in one
// reaction or in the total parts them.
func TestSituationsThatRestAlikeShareATable(t *testing.T) {
	stage := func(change func(*stages.SituationRecord)) stages.StageRecord {
		r := rectangle()
		s := r.Stages[0].Situations[0]
		s.Reactions = append([]stages.Reaction{}, s.Reactions...)
		s.Name = "later"
		change(&s)
		r.Stages[0].Situations = append(r.Stages[0].Situations, s)
		return r.Stages[0]
	}
	same := restingAlike(stage(func(s *stages.SituationRecord) { share := *s.Reactions[0].Share; s.Reactions[0].Share = &share }))
	require.Len(t, same, 1)
	require.Equal(t, "1.1 store; 1.2 later", same[0].names)
	for name, change := range map[string]func(*stages.SituationRecord){
		"place":          func(s *stages.SituationRecord) { s.Reactions[0].Y = 0.1 },
		"static":         func(s *stages.SituationRecord) { s.Reactions[0].Static.Most++ },
		"characteristic": func(s *stages.SituationRecord) { s.Reactions[0].Characteristic.Least-- },
		"ULS":            func(s *stages.SituationRecord) { s.Reactions[0].Ultimate.Most++ },
		"share":          func(s *stages.SituationRecord) { s.Reactions[0].Share = &stages.Range{Least: 0.2, Most: 0.3} },
		"no share":       func(s *stages.SituationRecord) { s.Reactions[0].Share = nil },
		"sling":          func(s *stages.SituationRecord) { s.Reactions[0].Sling = 1.2 },
		"bounded":        func(s *stages.SituationRecord) { s.Reactions[0].Bounded = true },
		"number":         func(s *stages.SituationRecord) { s.Reactions = s.Reactions[:2] },
		"total":          func(s *stages.SituationRecord) { s.Total.Most++ },
	} {
		require.Len(t, restingAlike(stage(change)), 2, name)
	}
}

// The words under the tables say what each reaction is for, and that both ranges are
// widened by the gauges.
func TestTheUseOfEachReactionIsSaid(t *testing.T) {
	page := operationPages(passed(t, Settings{}))[0]
	for _, words := range []string{
		"x along the element, y to the left looking along +x, z up; reactions + upwards.", "Characteristic: with the dynamic factor, against rated capacities and working load limits.",
		"ULS: for ground, concrete and stacks.", "Static: readings at rest, first the total, then each share of the measured total; both ranges are widened by the accuracy of the gauges, ± ________ .",
		"A bounded reaction has no measuring band: nothing says how the supports share.",
	} {
		require.Contains(t, page, words)
	}
}
