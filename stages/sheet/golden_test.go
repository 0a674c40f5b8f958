package sheet_test

import (
	"bytes"
	"flag"
	"io"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/sheet"
)

// update writes the golden sheets anew: go test ./stages/sheet -run Golden -update,
// then read what changed.
var update = flag.Bool("update", false, "write the golden sheets anew")

// The sheets of the stored record are what they were, to the last figure: each is on the
// side to which it was rounded.
func TestGoldenSheets(t *testing.T) {
	for name, write := range map[string]func(io.Writer, stages.Record, sheet.Settings) error{
		"calculation-2": sheet.WriteMarkdown, "operation-2": sheet.WriteOperationMarkdown,
	} {
		for _, units := range []sheet.Units{sheet.SI, sheet.US} {
			var out bytes.Buffer
			require.NoError(t, write(&out, stored(t), sheet.Settings{Units: units, Project: "Estuary Link", Revision: "A"}))
			path := "testdata/" + name + "-" + string(units) + ".md"
			if *update {
				require.NoError(t, os.WriteFile(path, out.Bytes(), 0o644))
			}
			golden, err := os.ReadFile(path)
			require.NoError(t, err)
			want, got := strings.Split(string(golden), "\n"), strings.Split(out.String(), "\n")
			require.Equal(t, len(want), len(got), path)
			for i := range want {
				require.Equal(t, want[i], got[i], "%s, line %d", path, i+1)
			}
		}
	}
}

// The tables of the HTML hold the numbers of the record.
func TestTablesHoldTheNumbersOfTheRecord(t *testing.T) {
	record := stored(t)
	var out bytes.Buffer
	require.NoError(t, sheet.WriteHTML(&out, record, sheet.Settings{}))
	cells := regexp.MustCompile(`<td class="right">([^<]*)</td>`).FindAllStringSubmatch(out.String(), -1)
	numbers := map[string]bool{}
	for _, c := range cells {
		numbers[c[1]] = true
	}
	s := record.Stages[0].Situations[0]
	require.NotEmpty(t, stages.StationsOf(s.Stations))
	for _, at := range stages.StationsOf(s.Stations) {
		require.True(t, numbers[strconv.FormatFloat(at.X, 'f', 3, 64)], "x = %g", at.X)
	}
	for _, c := range s.Checks {
		if c.Limit.Value == 0 || math.Abs(c.Utilisation-1) < 0.006 {
			continue
		}
		require.True(t, numbers[strconv.FormatFloat(math.Ceil(c.Utilisation*100-1e-9)/100, 'f', 2, 64)], c.Name)
	}
	record.Stages = record.Stages[:1]
	out.Reset()
	require.NoError(t, sheet.WriteHTML(&out, record, sheet.Settings{}))
	require.Equal(t, 7, strings.Count(out.String(), "<svg "), "section, elevation, tendon force, M, V, stress at the top and at the bottom")
}
