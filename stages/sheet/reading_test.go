package sheet

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// readingRows are the cells of the table of readings of a stage.
func readingRows(t *testing.T, units Units, stage int, changes ...func(*stages.Record)) (rows [][]string, g grid) {
	a := passed(t, Settings{Units: units}, changes...)
	g = a.readings(restingAlike(a.record.Stages[stage])[0], featuresOf(a.record.Stages[stage])).(grid)
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

// Each support has its place, its ranges in the order of the heads, its band and room to
// write; the last row is the total at rest. Bands with ± 1 % for the gauges, inwards: share
// 21.1 − 2·0.211·0.789 = 20.77 % up, 21.6 + 2·0.216·0.784 = 21.94 % down; total 727.5 · 0.99
// = 720.2 up, 772.5 · 1.01 = 780.2 down. At the nominal 750 kN: 20.8 % = 156, 21.9 % = 164.25
// down, 20.9 % = 156.75 up, 22 % = 165, 56.6 % = 424.5 up, 57.8 % = 433.5 down.
func TestTheTableOfReadings(t *testing.T) {
	rows, g := readingRows(t, SI, 0)
	var heads []string
	for _, c := range g.columns {
		heads = append(heads, c.title.raw())
	}
	require.Equal(t, []string{"Support, forces kN", "x m", "y m", "z m", "static min", "max", "char. min", "max", "ULS min", "max", "accept if", "of 750 kN", "Read kN", "Share %"}, heads)
	require.Equal(t, [][]string{
		{"1 pad", "2.000", "−0.500", "0.000", "155", "165", "150", "170", "140", "230", "20.8 to 21.9 %", "156 to 164", "", ""},
		{"2 pad", "2.000", "0.300", "0.000", "156", "166", "151", "171", "141", "231", "20.9 to 22.0 %", "157 to 165", "", ""},
		{"3 pad", "16.000", "−0.100", "0.000", "416", "442", "410", "450", "400", "600", "56.6 to 57.8 %", "425 to 433", "", ""},
		{"total", "", "", "", "727", "773", "727", "773", "____", "____", "721 to 780 kN", "", "", ""},
	}, rows)
	require.True(t, g.open)
	require.Equal(t, "1 store", g.caption.raw())
}

// 150 kN / 4.448222 = 33.721 kip down, 170 / 4.448222 = 38.218 up; the total of the band
// 720.225 / 4.448222 = 161.913 up, 780.225 / 4.448222 = 175.401 down.
func TestTheTableOfReadingsInUSUnits(t *testing.T) {
	rows, g := readingRows(t, US, 0)
	require.Equal(t, "char. min", g.columns[6].title.raw())
	require.Equal(t, "of 169 kip", g.columns[11].title.raw())
	require.Equal(t, "Read kip", g.columns[12].title.raw())
	require.Equal(t, []string{"1 pad", "6.562", "−1.640", "0.000", "34.84", "37.1", "33.72", "38.22", "31.47", "51.71", "20.8 to 21.9 %", "35.08 to 36.92", "", ""}, rows[0])
	require.Equal(t, "162 to 175 kip", rows[3][10])
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

// Bands of readings are rounded inwards, never past each other; there is none of a bounded
// reaction, and no range of nothing.
func TestBandsAreRoundedInwards(t *testing.T) {
	for _, c := range []struct {
		least, most float64
		decimals    int
		want        string
	}{
		{24.31, 24.99, 1, "24.4 to 24.9"}, {24.3, 24.9, 1, "24.3 to 24.9"}, {-0.19, 0.19, 1, "−0.1 to 0.1"}, {1234.2, 1236.9, -1, "1235 to 1236"},
		{24.93, 24.97, 1, "24.93 to 24.97"}, {0.4995, 0.5015, 1, "0.5 to 0.5"}, {0, 100, 1, "0.0 to 100.0"}, {-5.09, -5.01, 2, "−5.09 to −5.01"}, {-5.091, -5.009, 2, "−5.09 to −5.01"},
	} {
		require.Equal(t, c.want, inwards(stages.Range{Least: c.least, Most: c.most}, 1, c.decimals))
	}
	share := func(least, most float64) string {
		return shareBand(stages.Reaction{Share: &stages.Range{Least: least, Most: most}})
	}
	require.Equal(t, "49.5 to 50.5 %", share(0.5, 0.5), "one gauge reads 1 % high, the other 1 % low: 50.5 of 100")
	require.Equal(t, "24.7 to 25.3 %", share(0.25, 0.25), "24.626 and 25.376")
	require.Equal(t, "0.0 to 100.0 %", share(0, 1))
	require.Equal(t, "no measuring band", shareBand(stages.Reaction{Bounded: true, Share: &stages.Range{}}))
	require.Equal(t, none, shareBand(stages.Reaction{}))
	a := &author{units: SI}
	require.Equal(t, "3881 to 3959 kN", a.totalBand(stages.Range{Least: 3920e3, Most: 3920e3}))
	require.Equal(t, "−101 to 101 kN", a.totalBand(stages.Range{Least: -100e3, Most: 100e3}), "the gauges widen both ends")
}

// hoisted is a lift of 3,920 kN on two points that share equally, ± 3 %.
func hoisted(r *stages.Record) {
	s := &r.Stages[1].Situations[0]
	s.Mass.Weight, s.Mass.Mass, s.Total = 3920e3, 3920e3/9.80665, stages.Range{Least: 0.97 * 3920e3, Most: 1.03 * 3920e3}
	for i := range s.Reactions {
		s.Reactions[i].Nominal, s.Reactions[i].Static = 1960e3, stages.Range{Least: 0.97 * 1960e3, Most: 1.03 * 1960e3}
		s.Reactions[i].Characteristic, s.Reactions[i].Ultimate = stages.Range{Least: 1700e3, Most: 2300e3}, stages.Range{Least: 1600e3, Most: 3100e3}
	}
}

// printedBand is a band of the printed sheet, and what the crew reads against it.
var printedBand = regexp.MustCompile(`\| \*{0,2}([−\d.]+) to ([−\d.]+) (kN|%)\*{0,2} \|.*\|  \|  \|$`)

// verdict is what a reader of a printed sheet does with readings (kN) of its supports, who
// has nothing else: the words say first the total, then each share.
func verdict(t *testing.T, page string, readings ...float64) string {
	require.Contains(t, page, "first the total, then each share of the measured total. Accept only if the total and every share are within their bands, none above max.")
	var shares, totals [][2]float64
	for _, line := range strings.Split(page, "\n") {
		if m := printedBand.FindStringSubmatch(line); m != nil {
			var ends [2]float64
			for k := range ends {
				v, err := strconv.ParseFloat(strings.Replace(m[k+1], "−", "-", 1), 64)
				require.NoError(t, err)
				ends[k] = v
			}
			if m[3] == "%" {
				shares = append(shares, ends)
			} else {
				totals = append(totals, ends)
			}
		}
	}
	require.Len(t, totals, 1)
	require.Len(t, shares, len(readings))
	sum := 0.0
	for _, v := range readings {
		sum += v
	}
	if sum < totals[0][0] || sum > totals[0][1] {
		return "stop on total"
	}
	for i, v := range readings {
		if share := 100 * v / sum; share < shares[i][0] || share > shares[i][1] {
			return "stop on share"
		}
	}
	return "go on"
}

// The readings of a hoist, read with nothing but the printed sheet at hand.
func TestReadingsAreComparedWithThePrintedSheet(t *testing.T) {
	page := operationPages(passed(t, Settings{}, hoisted))[1]
	require.Equal(t, "stop on share", verdict(t, page, 2200, 1720))
	require.Equal(t, "stop on total", verdict(t, page, 2050, 2050))
	require.Equal(t, "go on", verdict(t, page, 1990, 1960))
	require.Equal(t, "stop on total", verdict(t, page, 1880, 1880), "an element that is too light is another element")
	require.Equal(t, "stop on share", verdict(t, page, 1935, 1985+15))
}

// apart are two bodies in one situation: the pads at x = 2 m carry one, that at 16 m the
// other.
func apart(s *stages.SituationRecord) {
	s.Reactions = append([]stages.Reaction{}, s.Reactions...)
	for i, of := range []struct {
		body  int
		share float64
	}{{1, 0.5}, {1, 0.5}, {2, 1}} {
		s.Reactions[i].Body, s.Reactions[i].Share = of.body, &stages.Range{Least: of.share, Most: of.share}
	}
	s.Bodies = []stages.BodyRecord{{Elements: []string{"L", "M"}, Total: stages.Range{Least: 311e3, Most: 331e3}}, {Elements: []string{"R"}, Total: stages.Range{Least: 416e3, Most: 442e3}}}
}

// With several bodies each has its total behind its own supports: a share is of that one.
func TestReadingsBodyByBody(t *testing.T) {
	rows, _ := readingRows(t, SI, 0, first(apart))
	var names, bands []string
	for _, r := range rows {
		names, bands = append(names, r[0]), append(bands, r[10])
	}
	require.Equal(t, []string{"1 pad", "2 pad", "total of L, M", "3 pad", "total of R"}, names)
	require.Equal(t, []string{"49.5 to 50.5 %", "49.5 to 50.5 %", "308 to 334 kN", "—", "412 to 446 kN"}, bands)
	page := operationPages(passed(t, Settings{}, first(apart)))[0]
	require.Contains(t, page, "With several bodies, a share is of the total of its own body.")
	require.NotContains(t, operationPages(passed(t, Settings{}))[0], "several bodies")
}

// A bounded reaction has no band to measure by, though its range stands.
func TestABoundedReactionHasNoMeasuringBand(t *testing.T) {
	bounded := first(func(s *stages.SituationRecord) { s.Reactions[2].Bounded, s.Reactions[2].Share = true, nil })
	rows, _ := readingRows(t, SI, 0, bounded)
	require.Equal(t, []string{"3 pad, bounded", "16.000", "−0.100", "0.000", "416", "442", "410", "450", "400", "600", "no measuring band", "—", "", ""}, rows[2])
	require.Contains(t, operationPages(passed(t, Settings{}, bounded))[0], "A bounded reaction has no measuring band: nothing says how the supports share.")
}

// A support's name says its number, role, group and whether it is bounded.
func TestNamesOfSupports(t *testing.T) {
	require.Equal(t, "1 support", supportName(0, stages.Reaction{}))
	require.Equal(t, "3 jack, equalised (ring A)", supportName(2, stages.Reaction{Role: stages.Jack, Group: "ring A"}))
	require.Equal(t, "12 lift point, equalised (blocks), bounded", supportName(11, stages.Reaction{Role: stages.LiftPoint, Group: "blocks", Bounded: true}))
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

// The words under the tables say what each reaction is for, that the bands hold for gauges
// of 1 %, and on which side of the hook the dynamic factor is.
func TestTheUseOfEachReactionIsSaid(t *testing.T) {
	pages := operationPages(passed(t, Settings{}, func(r *stages.Record) { r.Stages[1].Situations[0].Dynamic = stages.Range{Least: 0.9, Most: 1.1} }))
	for _, words := range []string{
		"**Readings:** at rest, first the total, then each share of the measured total.", "Bands include ± 1 % for the gauges; those used: ± ____ % (must be 1 % or better).",
		"Static: at rest. Char.: characteristic, with the dynamic factor and all actions, against rated capacities and working load limits. ULS: for ground, concrete and stacks; totals left blank: of the engineer.",
		"Reactions + upwards; x along, y to the left looking along +x, z up. End x = 0 points to ",
	} {
		require.Contains(t, pages[0], words)
	}
	require.Contains(t, pages[1], "**Readings:** net = gauge − gear below the gauge. At rest, first the total,")
	require.Contains(t, pages[1], "| Gauge no. | gauge | − gear | = net kN | Share % |")
	require.NotContains(t, pages[0]+pages[2], "hoisting factor")
}

// Differences of level are most values: 0.01 rad over 14 m are 140 mm, 0.0123 rad over
// 0.8 m are 9.84 mm, rounded down.
func TestDifferencesOfLevelAreRoundedDown(t *testing.T) {
	a := passed(t, Settings{}, first(func(s *stages.SituationRecord) { s.Gradient, s.Roll, s.OutOfLevel = 0.01, 0.0123, 0.00499 }))
	require.Equal(t, [][2]string{
		{"Level difference along, over 14 m, ≤ 140 mm", ""}, {"Level difference across, over 0.8 m, ≤ 9.8 mm", ""}, {"One support out of the plane of the others ≤ 4.9 mm", ""},
	}, a.tilts(a.record.Stages[0].Situations[0], true))
	a.units = US
	require.Equal(t, "Level difference across, over 2.625 ft, ≤ 0.38 in", a.tilts(a.record.Stages[0].Situations[0], true)[1][0])
}
