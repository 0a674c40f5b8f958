package sheet

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

func storedRecord(t *testing.T) stages.Record {
	file, err := os.Open("testdata/record-2.json")
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	record, err := ReadJSON(file)
	require.NoError(t, err)
	return record
}

// Every line and every cell of every table of the record stands on the sheet with
// the check that rests on it, in the digits of the record.
func TestNoNumberOfADerivationIsLost(t *testing.T) {
	for _, units := range []Units{SI, US} {
		a, err := newAuthor(storedRecord(t), Settings{Units: units})
		require.NoError(t, err)
		page := renderMarkdown(a.calculation(), "")
		for _, i := range proving(a.record) {
			l, err := a.record.Line(i)
			require.NoError(t, err)
			_, rest, found := strings.Cut(page, fmt.Sprintf("| (%d) | %s", i, escapeMarkdown(a.symbolOf(l.Result))))
			require.True(t, found, "line %d", i)
			line, _, _ := strings.Cut(rest, "\n")
			for _, q := range l.Operands {
				require.Contains(t, line, a.units.exact(q.Value, q.Unit))
			}
			require.Contains(t, line, a.resultOf(i, l))
		}
		for _, table := range a.record.Tables {
			_, rest, found := strings.Cut(page, fmt.Sprintf("**Table A5.%d: %s", table.Number, escapeMarkdown(a.symbolOf(table.Sum))))
			require.True(t, found, "table %d", table.Number)
			rows := strings.Split(rest, "\n")[4:] // behind caption, head and rule
			for k, r := range table.Rows {
				require.True(t, strings.HasPrefix(rows[k], "| "+a.units.words(r.Label)+map[bool]string{true: "; Table M", false: " |"}[r.Of > 0]), rows[k])
				for i, c := range r.Cells {
					if c.Filled {
						require.Contains(t, rows[k], " "+a.units.digits(c.Value, table.Columns[i].Unit, table.Columns[i].Last)+" |")
					}
				}
				for _, f := range r.Factors {
					require.Contains(t, rows[k], f.Symbol+" "+shortest(f.Value, 0))
				}
				require.True(t, strings.HasSuffix(rows[k], "| "+a.units.digits(r.Product, table.Sum.Unit, table.SumAt)+" |"), rows[k])
			}
			require.Contains(t, rows[len(table.Rows)], "**"+a.units.digits(table.Sum.Value, table.Sum.Unit, table.SumAt)+"**")
		}
		for _, s := range a.record.Sections {
			require.Contains(t, page, fmt.Sprintf("| %d | %s | %s | %s |", s.Number, s.Name, a.units.column(s.X, formula.Metre), a.units.column(s.A, formula.SquareMetre)))
		}
		require.Equal(t, 1, strings.Count(page, ": Section properties**"))
		require.Equal(t, 1, strings.Count(page, " Symbols\n"))
		require.Equal(t, 1, strings.Count(page, " Sources\n"))
	}
}

// proving are the numbers of the lines that show checks.
func proving(record stages.Record) []int {
	var list []int
	for _, stage := range record.Stages {
		for _, c := range checksOf(stage) {
			list = append(list, c.Lines...)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// What the SI sheet prints of a table recomputes: the products add up to the sum, which is
// cut to its safe side where it is a demand.
func TestPrintedProductsAddUp(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	require.NotEmpty(t, a.record.Tables)
	for _, table := range a.record.Tables {
		g := a.table(table).(grid)
		product := func(row []prose) float64 { return read(t, row[len(row)-1].raw()) }
		sum := 0.0
		for _, row := range g.rows[:len(g.rows)-1] {
			sum += product(row)
			require.Len(t, row, len(g.columns))
		}
		require.InDelta(t, product(g.rows[len(g.rows)-1]), sum, lastDecimal(g.rows[len(g.rows)-1][len(g.columns)-1].raw())+1e-9, "table %d", table.Number)
		require.Equal(t, len(g.rows), g.strong)
	}
}

// A table or line that a second check rests on is referred to.
func TestWhatIsPrintedIsReferredTo(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	c := a.record.Stages[0].Situations[0].Checks[0]
	blocks := a.proof("1 A", c)
	require.Len(t, blocks, 3, "a table, a ledger, the comparison")
	require.Len(t, blocks[1].(grid).rows, 2)
	blocks = a.proof("2 B", c)
	require.Len(t, blocks, 2)
	require.Len(t, blocks[0].(grid).rows, 3)
	for _, r := range blocks[0].(grid).rows {
		require.Equal(t, "with check 1 A", r[len(r)-1].raw())
	}
}

// A record whose table does not add up, or whose check refers to what is not there,
// is refused.
func TestRecordsThatDoNotRecompute(t *testing.T) {
	for says, spoil := range map[string]func(*stages.Record){
		"must agree":                    func(r *stages.Record) { r.Tables[0].Rows[0].Product += 2e3 },
		"line 1: ":                      func(r *stages.Record) { r.Lines[0].Result.Value *= 1.01 },
		"must be 1 to":                  func(r *stages.Record) { r.Lines[0].Source = 999 },
		"table 999: must be 1 to ":      func(r *stages.Record) { r.Stages[0].Situations[0].Checks[0].Tables = []int{999} },
		"concrete compression: line 0:": func(r *stages.Record) { r.Stages[0].Situations[0].Checks[0].Lines = []int{0} },
	} {
		record := storedRecord(t)
		spoil(&record)
		_, err := newAuthor(record, Settings{})
		require.ErrorIs(t, err, ErrSheet)
		require.ErrorContains(t, err, says)
	}
}

// Tendons share rows only where they mirror each other point by point, and the signs
// of both can be read.
func TestPathsOfMirroredTendons(t *testing.T) {
	path := func(ys ...float64) []stages.PathPoint {
		points := make([]stages.PathPoint, len(ys))
		for i, y := range ys {
			points[i] = stages.PathPoint{X: float64(i), Y: y}
		}
		return points
	}
	a := &author{units: SI, record: stages.Record{Tendons: []stages.TendonRecord{
		{Mark: "A", Points: path(-1, 0, 2)}, {Mark: "B", Points: path(1, 0, -2)}, {Mark: "C", Points: path(1, 0, 2)}, {Mark: "D", Points: path(1, 0, -2)},
	}}}
	g := a.paths()[0].(grid)
	require.Contains(t, g.caption.raw(), "upper sign for the first-named tendon")
	var rows []string
	for _, r := range g.rows {
		rows = append(rows, r[0].raw()+" "+r[2].raw())
	}
	require.Equal(t, []string{"A, B ∓1.000", "A, B 0.000", "A, B ±2.000", "C 1.000", "C 0.000", "C 2.000", "D 1.000", "D 0.000", "D −2.000"}, rows)
	a.record.Tendons = a.record.Tendons[2:]
	require.NotContains(t, a.paths()[0].(grid).caption.raw(), "upper sign")
}

func TestTendonsAreAlikeInForceBondAndLosses(t *testing.T) {
	first := stages.TendonForce{Mark: "A", Left: 1, Middle: 2, Right: 3}
	second, third := first, first
	second.Mark, third.Mark = "B", "C"
	third.Losses.Friction = 5
	require.Len(t, alikeTendons([]stages.TendonForce{first, second, third}), 2)
}
