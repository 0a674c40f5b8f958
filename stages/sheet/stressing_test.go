package sheet

import (
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

// Elastic losses stand after each stressing; a tendon not yet stressed has none.
func TestElasticLossesByStep(t *testing.T) {
	force := func(mark string, loss float64) stages.TendonForce {
		return stages.TendonForce{Mark: mark, Losses: tendon.Losses{Elastic: loss}}
	}
	a := passed(t, Settings{}, func(r *stages.Record) {
		one, two := &r.Stages[0].Situations[0], &r.Stages[1].Situations[0]
		one.Stressing, one.Tendons = []stages.Stressing{{Mark: "A"}}, []stages.TendonForce{force("A", 14.214e6), force("B", 14.214e6)}
		two.Stressing, two.Tendons = []stages.Stressing{{Mark: "C"}}, []stages.TendonForce{force("A", 30.5e6), force("B", 30.5e6), force("C", 0)}
	})
	g := a.elasticLosses()[0].(grid)
	var rows []string
	for _, r := range g.rows {
		rows = append(rows, r[0].raw()+" | "+r[1].raw()+" | "+r[2].raw())
	}
	require.Equal(t, []string{"A, B | 14.21 | 30.50", "C | — | 0.00"}, rows)
	require.Equal(t, "stage 2", g.columns[2].title.raw())
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
	require.Contains(t, page, "**Bonded bars: ")
	require.Contains(t, page, "| 1, x = 0.000 to 12.000 m, y = −0.100 m, z = 0.060 m | 6000 mm² |")
	require.Contains(t, page, "| T1 | 7 | ")
	require.Equal(t, "a b ", commonWords([]string{"a b c", "a b d", "a b cd"}))
	require.Equal(t, "", commonWords([]string{"a", "b"}))
}
