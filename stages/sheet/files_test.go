package sheet_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/sheet"
)

func TestAStoredRecordIsReadBack(t *testing.T) {
	record := stored(t)
	require.Equal(t, 2, record.Format)
	require.Equal(t, "S-1", record.Element)
	require.Equal(t, stages.Conditional, record.Status())
	require.Len(t, record.Stages, 4)
	require.InDelta(t, 145e3, record.Stages[0].Situations[0].Reactions[0].Nominal, 10e3)
	var out bytes.Buffer
	require.NoError(t, sheet.WriteJSON(&out, record))
	again, err := sheet.ReadJSON(&out)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(record, again, cmpopts.IgnoreUnexported(stages.Check{})))
}

func TestBothSheetsCarryTheFingerprintOfTheRecord(t *testing.T) {
	record := stored(t)
	fingerprint, err := sheet.Fingerprint(record)
	require.NoError(t, err)
	require.Regexp(t, `^[0-9a-f]{4}(-[0-9a-f]{4}){3}$`, fingerprint)
	for _, page := range pages(t, record) {
		require.Contains(t, page, fingerprint)
	}
	record.Stages[0].Situations[0].Reactions[0].Static.Most *= 1 + 1e-15
	other, err := sheet.Fingerprint(record)
	require.NoError(t, err)
	require.NotEqual(t, fingerprint, other)
}

func TestFilesOfARecord(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "made", "on the way")
	record, err := slab(1500e-6)
	require.NoError(t, err)
	names, err := sheet.WriteFiles(folder, record, sheet.Settings{})
	require.NoError(t, err)
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Len(t, entries, len(names), "nothing else is left behind")
	for _, want := range []string{"S-1--b-a9be9e-calculation.html", "S-1--b-a9be9e-calculation.md", "S-1--b-a9be9e-operation.html", "S-1--b-a9be9e-operation.md", "S-1--b-a9be9e-record.json",
		"S-1--b-a9be9e-section.svg", "S-1--b-a9be9e-stage-1-elevation.svg", "S-1--b-a9be9e-stage-1-moment.svg", "S-1--b-a9be9e-stage-1-shear.svg", "S-1--b-a9be9e-stage-2-elevation.svg", "S-1--b-a9be9e-stage-1-top.svg", "S-1--b-a9be9e-stage-1-bottom.svg"} {
		require.Contains(t, names, want)
	}
	markdown, err := os.ReadFile(filepath.Join(folder, "S-1--b-a9be9e-calculation.md"))
	require.NoError(t, err)
	operation, err := os.ReadFile(filepath.Join(folder, "S-1--b-a9be9e-operation.md"))
	require.NoError(t, err)
	for _, name := range names {
		content, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		require.NotEmpty(t, content)
		if strings.HasSuffix(name, ".svg") {
			wellFormed(t, content)
			require.Contains(t, string(markdown)+string(operation), "("+name+")", "the figure is linked")
		}
	}
}

func wellFormed(t *testing.T, content []byte) {
	decoder := xml.NewDecoder(bytes.NewReader(content))
	for {
		_, err := decoder.Token()
		if err == io.EOF {
			return
		}
		require.NoError(t, err)
	}
}

// A folder stands where a file should be put: the rename fails in the middle of
// the writing. What was written is whole, and no part of a file is left.
func TestAnInterruptedWriteLeavesNoHalfFile(t *testing.T) {
	folder := t.TempDir()
	record := stored(t)
	require.NoError(t, os.MkdirAll(filepath.Join(folder, "S-1-operation.html", "inside"), 0o700))
	names, err := sheet.WriteFiles(folder, record, sheet.Settings{})
	require.ErrorIs(t, err, sheet.ErrSheet)
	require.ErrorContains(t, err, "S-1-operation.html")
	require.Equal(t, []string{"S-1-calculation.html", "S-1-calculation.md"}, names)
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var found []string
	for _, e := range entries {
		found = append(found, e.Name())
	}
	require.Equal(t, []string{"S-1-calculation.html", "S-1-calculation.md", "S-1-operation.html"}, found)
	page, err := os.ReadFile(filepath.Join(folder, "S-1-calculation.html"))
	require.NoError(t, err)
	require.True(t, strings.HasSuffix(string(page), "</html>\n"))
}

func TestFoldersThatCannotBe(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, err := sheet.WriteFiles(file, stored(t), sheet.Settings{})
	require.ErrorIs(t, err, sheet.ErrSheet)
	var stderr bytes.Buffer
	require.Equal(t, sheet.ExitInput, sheet.Command([]string{"-o", file}, io.Discard, &stderr, stored(t), nil))
	require.Contains(t, stderr.String(), file)
}

func TestCommandWritesBothSheets(t *testing.T) {
	folder := t.TempDir()
	var stdout, stderr bytes.Buffer
	arguments := []string{"-o", folder, "-units", "us", "-project", "Estuary Link", "-revision", "B"}
	require.Equal(t, sheet.ExitFail, sheet.Command(arguments, &stdout, &stderr, stored(t), nil), stderr.String())
	require.Contains(t, stdout.String(), "S-1-operation.html\n")
	page, err := os.ReadFile(filepath.Join(folder, "S-1-operation.html"))
	require.NoError(t, err)
	require.Contains(t, string(page), "Estuary Link")
	require.Contains(t, string(page), "kip")
	require.Equal(t, sheet.ExitInput, sheet.Command([]string{"-units", "ton"}, &stdout, &stderr, stored(t), nil))
	require.Contains(t, stderr.String(), `units = "ton"`)
	other := t.TempDir()
	require.Equal(t, sheet.ExitInput, sheet.Command([]string{"-o", other}, &stdout, &stderr, stages.Record{}, nil), "an empty record")
	entries, err := os.ReadDir(other)
	require.NoError(t, err)
	require.Empty(t, entries)
}
