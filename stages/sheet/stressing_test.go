package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
)

// Jackings with the same numbers share a row; each number stands under its head, what is
// not calculated as a dash.
func TestTheTableOfStressing(t *testing.T) {
	pull := func(mark string) stages.Stressing {
		return stages.Stressing{Mark: mark, How: "stress", Ends: "left end", Stress: 1400e6, Force: 1470e3, Gauge: 1515.46e3, Datum: 303.09e3, DrawIn: 0.006, Area: 1050e-6, Modulus: 195e9,
			Reach: stages.Ends{Left: 12.3456}, After: stages.Ends{Left: 1374.77e3, Right: 1390e3}, Extends: stages.Ends{Left: 0.10146}}
	}
	other, down := pull("C"), pull("D")
	other.DrawIn = 0.005
	down.How, down.Given = "let down", "TW-9"
	texts := func(u Units) (rows [][]string) {
		a := passed(t, Settings{Units: u}, first(func(s *stages.SituationRecord) { s.Stressing = []stages.Stressing{pull("A"), pull("B"), other, down} }))
		for _, r := range a.stressing()[0].(grid).rows {
			var cells []string
			for _, c := range r {
				cells = append(cells, c.raw())
			}
			rows = append(rows, cells)
		}
		return rows
	}
	rows := texts(SI)
	require.Len(t, rows, 3)
	require.Equal(t, []string{"1", "A, B", "left\u00a0end", "1400", "1470", "303.1", "1515", "6", "12.346", "—", "1375", "1390", "101.5", "—"}, rows[0][:14])
	require.Equal(t, "5", rows[1][7])
	require.Equal(t, "D (let down); force given by TW-9", rows[2][1])
	require.Equal(t, []string{"0.24", "40.504"}, texts(US)[0][7:9], "6/25.4, 12.3456/0.3048")
	require.Empty(t, passed(t, Settings{}).stressing())
}

// Elastic losses stand with each step for each tendon stressed before it, and as the sum
// after each stage: 10 + 20.5 = 30.5 MPa.
func TestElasticLossesByStep(t *testing.T) {
	force := func(mark string, loss float64) stages.TendonForce {
		return stages.TendonForce{Mark: mark, Losses: tendon.Losses{Elastic: loss}}
	}
	a := passed(t, Settings{}, func(r *stages.Record) {
		one, two := &r.Stages[0].Situations[0], &r.Stages[1].Situations[0]
		one.Steps = []stages.ElasticStep{{Stressed: []string{"A", "B"}}, {Stressed: []string{"D"}, Losses: []stages.ElasticLoss{{Mark: "A", Loss: 10e6}, {Mark: "B", Loss: 10e6}}}}
		one.Tendons = []stages.TendonForce{force("A", 10e6), force("B", 10e6), force("D", 0)}
		two.Steps = []stages.ElasticStep{{Stressed: []string{"C"}, Losses: []stages.ElasticLoss{{Mark: "A", Loss: 20.5e6}, {Mark: "B", Loss: 20.5e6}, {Mark: "D", Loss: 18.25e6}}}}
		two.Tendons = []stages.TendonForce{force("A", 30.5e6), force("B", 30.5e6), force("C", 0), force("D", 18.25e6)}
	})
	g := a.elasticLosses()[0].(grid)
	var rows []string
	for _, r := range g.rows {
		texts := make([]string, len(r))
		for i, cell := range r {
			texts[i] = cell.raw()
		}
		rows = append(rows, strings.Join(texts, " | "))
	}
	require.Equal(t, []string{
		"1 | A, B | — | — | —", "1 | D | 10.00 | — | —", "1 | sum since its own stressing | 10.00 | 0.00 | —",
		"2 | C | 20.50 | 18.25 | —", "2 | sum since its own stressing | 30.50 | 18.25 | 0.00",
	}, rows)
	require.Equal(t, []string{"A, B", "D", "C"}, []string{g.columns[2].title.raw(), g.columns[3].title.raw(), g.columns[4].title.raw()})
	require.Equal(t, strong, g.rows[2][2][0].kind)
	require.Empty(t, passed(t, Settings{}).elasticLosses())
}

// The path names the curve of each stretch.
func TestPathsNameTheirCurves(t *testing.T) {
	a := passed(t, Settings{}, func(r *stages.Record) {
		r.Tendons = []stages.TendonRecord{{Mark: "A", External: true, Points: []stages.PathPoint{{Elevation: "straight", Plan: "circle"}, {X: 4, Elevation: "parabola", Plan: "straight"}, {X: 20}}}}
	})
	page := calculationPage(a)
	require.Contains(t, page, "| A, external | 0.000 | 0.000 | 0.000 | 0.0000 | 0.000 | straight | circle |\n| A, external | 4.000 |")
	require.Contains(t, page, "| parabola | straight |\n| A, external | 20.000 | 0.000 | 0.000 | 0.0000 | 0.000 |  |  |\n")
}

// Groups of the same quantities are one table: the words they share are its caption, and
// what a name has of its own stands with its value.
func TestGroupsOfTheSameQuantities(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	page := calculationPage(a)
	require.Contains(t, page, ": Bonded bars: ")
	require.Contains(t, page, "| 1, x = 0.000 to 12.000 m, y = −0.100 m, z = 0.060 m | 6000 mm² |")
	require.Contains(t, page, "| T1 | 7 | ")
	require.Equal(t, "a b ", commonWords([]string{"a b c", "a b d", "a b cd"}))
	require.Equal(t, "", commonWords([]string{"a", "b"}))
}
