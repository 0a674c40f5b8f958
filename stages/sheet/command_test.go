package sheet

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// run is a script that ends with these arguments.
func run(record stages.Record, runErr error, args ...string) (status int, stdout, stderr string) {
	var out, err bytes.Buffer
	status = Command(args, &out, &err, record, runErr)
	return status, out.String(), err.String()
}

// Without flags the calculation goes to stdout as Markdown, in SI.
func TestWithoutFlagsTheCalculationIsPrinted(t *testing.T) {
	status, out, err := run(rectangle(), nil)
	require.Equal(t, ExitPass, status)
	require.Empty(t, err)
	require.True(t, strings.HasPrefix(out, "# Temporary stages of element G-3\n"))
	require.Contains(t, out, "| Units | SI: kN, MPa, m, t = 1000 kg |")
	require.NotContains(t, out, "](", "no link to a figure that was not written")
}

// Each flag does what its help says.
func TestFlagsOfTheCommand(t *testing.T) {
	status, out, _ := run(rectangle(), nil, "-units", "us", "-project", "Estuary Link", "-revision", "B2")
	require.Equal(t, ExitPass, status)
	require.Contains(t, out, "| Units | US customary: kip = 1000 lb, ksi, ft, in |")
	require.Contains(t, out, "| Project | Estuary Link |")
	require.Contains(t, out, "| Revision | B2 |")
	status, out, _ = run(rectangle(), nil, "-json")
	require.Equal(t, ExitPass, status)
	back, err := ReadJSON(strings.NewReader(out))
	require.NoError(t, err)
	require.Equal(t, rectangle(), back)
	status, out, text := run(rectangle(), nil, "-help")
	require.Equal(t, ExitInput, status)
	require.Empty(t, out)
	for _, flag := range []string{"-json", "-o folder", "-units", "-project", "-revision"} {
		require.Contains(t, text, "  "+flag)
	}
}

// Wrong input ends with 2, says why on stderr and prints no sheet.
func TestWrongInputPrintsNoSheet(t *testing.T) {
	for says, args := range map[string][]string{
		`argument "more" is not known: must be one of the flags shown by -help`: {"more"}, `units = "ton": must be "si" or "us"`: {"-units", "ton"},
		"flag provided but not defined: -nonsense": {"-nonsense"}, `argument "us"`: {"-json", "us", "-units"},
	} {
		status, out, err := run(rectangle(), nil, args...)
		require.Equal(t, ExitInput, status, says)
		require.Empty(t, out, says)
		require.Contains(t, err, says)
	}
	status, out, err := run(rectangle(), errors.New("field Depth = -1 m: must be positive"), "-json")
	require.Equal(t, ExitInput, status)
	require.Empty(t, out, "a record that comes with an error is not printed")
	require.Equal(t, "field Depth = -1 m: must be positive\n", err)
	status, out, err = run(stages.Record{Element: "G-9"}, nil)
	require.Equal(t, ExitInput, status)
	require.Empty(t, out)
	require.Equal(t, "sheet: the record of \"G-9\" has no stage: must have at least one, or results\n", err)
}

// The status is that of the record whatever is printed.
func TestTheStatusDoesNotDependOnWhatIsPrinted(t *testing.T) {
	bad := rectangle()
	fails(&bad.Stages[1].Situations[0])
	for _, args := range [][]string{nil, {"-json"}, {"-o", t.TempDir()}, {"-units", "us"}} {
		status, out, _ := run(bad, nil, args...)
		require.Equal(t, ExitFail, status)
		require.NotEmpty(t, out, "what fails is printed")
		status, _, _ = run(rectangle(), nil, args...)
		require.Equal(t, ExitPass, status)
	}
}

// A writer that fails at the last byte is an error: a cut sheet is not passed off.
func TestACutSheetIsAnError(t *testing.T) {
	for _, args := range [][]string{nil, {"-json"}, {"-o", t.TempDir()}} {
		var stderr bytes.Buffer
		require.Equal(t, ExitInput, Command(args, failing{}, &stderr, rectangle(), nil))
		require.Contains(t, stderr.String(), "worn out")
	}
	require.ErrorContains(t, WriteOperationHTML(failing{}, rectangle(), Settings{}), "worn out")
}

// Every file has its own content, and the names on stdout are those in the folder.
func TestWhatIsInEachFile(t *testing.T) {
	folder := t.TempDir()
	status, out, _ := run(rectangle(), nil, "-o", folder)
	require.Equal(t, ExitPass, status)
	names := strings.Fields(out)
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Len(t, entries, len(names))
	content := func(name string) string {
		require.Contains(t, names, name)
		data, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		return string(data)
	}
	require.Contains(t, content("G-3-calculation.html"), "<title>Temporary stages of element G-3</title>")
	require.Contains(t, content("G-3-operation.html"), "<title>Operation sheets of element G-3</title>")
	require.True(t, strings.HasPrefix(content("G-3-calculation.md"), "# Temporary stages of element G-3"))
	require.True(t, strings.HasPrefix(content("G-3-operation.md"), "# Operation sheet 1 of 3: store"))
	back, err := ReadJSON(strings.NewReader(content("G-3-record.json")))
	require.NoError(t, err)
	require.Equal(t, rectangle(), back)
	require.True(t, strings.HasPrefix(content("G-3-stage-1-elevation.svg"), "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg "))
	require.Contains(t, content("G-3-operation.md"), "![1 store, depth not to scale; plan seen from above, width not to scale.](G-3-stage-1-positions.svg)")
	require.Contains(t, content("G-3-stage-1-positions.svg"), "<svg ")
	for _, e := range entries {
		info, err := e.Info()
		require.NoError(t, err)
		require.Equal(t, os.FileMode(0o644), info.Mode().Perm(), e.Name())
	}
}

// Figures in columns beside each other are files too, and every link leads to a file.
func TestEveryFigureThatIsLinkedIsAFile(t *testing.T) {
	record := rectangle()
	rich(&record)
	s := &record.Stages[0].Situations[0]
	s.Checks[0].Lines, s.Checks[0].Source, s.HoldPoints = nil, formula.Source{}, s.HoldPoints[1:] // those of rich go with no check
	files, err := filesOf(record, Settings{})
	require.NoError(t, err)
	names := map[string]bool{}
	for _, f := range files {
		require.False(t, names[f.name], "%s twice", f.name)
		names[f.name] = true
	}
	require.True(t, names["G-3-stage-1-tendons.svg"])
	for _, f := range files[:4] {
		if !strings.HasSuffix(f.name, ".md") {
			continue
		}
		for _, link := range strings.Split(f.content, "](")[1:] {
			name, _, _ := strings.Cut(link, ")")
			require.True(t, names[name], name)
		}
	}
}

// Units are known by their names in any case, and nothing else.
func TestNamesOfUnits(t *testing.T) {
	for _, name := range []string{"si", "SI", "us", "Us", ""} {
		status, _, _ := run(rectangle(), nil, "-units", name)
		require.Equal(t, ExitPass, status, name)
	}
	for _, name := range []string{" si", "metric", "us customary"} {
		status, _, _ := run(rectangle(), nil, "-units", name)
		require.Equal(t, ExitInput, status, name)
	}
}

// A record that cannot be printed is refused by every writer with the same words.
func TestARecordThatCannotBePrinted(t *testing.T) {
	for says, spoil := range map[string]func(*stages.Record){
		"has no stage: must have at least one, or results":                        func(r *stages.Record) { r.Stages = nil },
		`stage 2 of the record of "G-3" has no situation: must have at least one`: func(r *stages.Record) { r.Stages[1].Situations = nil },
		"inputs: line 7: must be 1 to 0":                                          func(r *stages.Record) { r.Inputs = []stages.Group{{Title: "inputs", Lines: []int{7}}} },
		"creep: line 7: must be 1 to 0":                                           func(r *stages.Record) { r.Appendix = []stages.Group{{Title: "creep", Lines: []int{7}}} },
		`stage 1 of the record of "G-3", compression: table 1: must be 1 to 0`:    first(func(s *stages.SituationRecord) { s.Checks[0].Tables = []int{1} }),
		`stage 1 of the record of "G-3", strength: line 3: must be 1 to 0`:        first(func(s *stages.SituationRecord) { s.Concrete = []int{3} }),
		`stage 1 of the record of "G-3", stress A: line -1: must be 1 to 0`:       first(func(s *stages.SituationRecord) { s.Events = []stages.Group{{Title: "stress A", Lines: []int{-1}}} }),
	} {
		record := rectangle()
		spoil(&record)
		var out bytes.Buffer
		for _, err := range []error{
			WriteHTML(&out, record, Settings{}), WriteMarkdown(&out, record, Settings{}), WriteOperationHTML(&out, record, Settings{}), WriteOperationMarkdown(&out, record, Settings{}),
		} {
			require.ErrorIs(t, err, ErrSheet)
			require.ErrorContains(t, err, says)
		}
		require.Zero(t, out.Len(), "nothing is written of it")
	}
}
