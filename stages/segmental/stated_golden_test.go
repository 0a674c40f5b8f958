package segmental

import (
	"bytes"
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/sheet"
)

// update writes the stored record and its golden sheets anew: go test ./stages/segmental
// -run Golden -update, then read what changed.
var update = flag.Bool("update", false, "write the stored record and the golden sheets of a step anew")

// The operation sheets of a stored record of two steps are what they were, to the last figure.
func TestGoldenSheetsOfSteps(t *testing.T) {
	const path = "testdata/steps.json"
	if *update {
		const n = 2
		d := stepped(t, n)
		b, curve := builtBy(t, d, n, -1)
		require.NoError(t, b.Record.Append(curve.Result()))
		var out bytes.Buffer
		require.NoError(t, sheet.WriteJSON(&out, b.Record))
		require.NoError(t, os.WriteFile(path, out.Bytes(), 0o644))
	}
	file, err := os.Open(path)
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	record, err := sheet.ReadJSON(file)
	require.NoError(t, err)
	for _, units := range []sheet.Units{sheet.SI, sheet.US} {
		var out bytes.Buffer
		require.NoError(t, sheet.WriteOperationMarkdown(&out, record, sheet.Settings{Units: units, Project: "Estuary Link", Revision: "A"}))
		name := "testdata/steps-" + string(units) + ".md"
		if *update {
			require.NoError(t, os.WriteFile(name, out.Bytes(), 0o644))
		}
		golden, err := os.ReadFile(name)
		require.NoError(t, err)
		want, got := strings.Split(string(golden), "\n"), strings.Split(out.String(), "\n")
		require.Equal(t, len(want), len(got), name)
		for i := range want {
			require.Equal(t, want[i], got[i], "%s, line %d", name, i+1)
		}
	}
}
