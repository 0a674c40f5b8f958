package sheet

import (
	"bytes"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// Units that nobody knows are an error at every door; no sheet is printed in others.
func TestUnitsThatAreNotKnownAreRefused(t *testing.T) {
	writers := map[string]func(io.Writer, stages.Record, Settings) error{
		"HTML": WriteHTML, "Markdown": WriteMarkdown, "operation HTML": WriteOperationHTML, "operation Markdown": WriteOperationMarkdown,
		"files": func(_ io.Writer, r stages.Record, s Settings) error {
			_, err := WriteFiles(t.TempDir(), r, s)
			return err
		},
	}
	for name, write := range writers {
		for _, units := range []Units{"imperial", "SI ", "metric", "us customary"} {
			var out bytes.Buffer
			err := write(&out, rectangle(), Settings{Units: units})
			require.ErrorIs(t, err, ErrSheet, name)
			require.EqualError(t, err, `sheet: units = "`+string(units)+`": must be "si" or "us"`, name)
			require.Zero(t, out.Len(), name)
		}
	}
	for _, units := range []Units{"US", "us", "Us"} {
		require.Equal(t, US, passed(t, Settings{Units: units}).units)
	}
	for _, units := range []Units{"", "SI", "si"} {
		require.Equal(t, SI, passed(t, Settings{Units: units}).units)
	}
}

// An argument that would be left out without a word is an error.
func TestArgumentsThatContradictAreRefused(t *testing.T) {
	for _, c := range []struct {
		says string
		args []string
	}{
		{"flag -o is empty: must be a folder\n", []string{"-o", ""}},
		{"flags -o and -json are both given: must be one of them", []string{"-json", "-o", t.TempDir()}},
		{"flag -json is given with -units, -project or -revision: must be without them", []string{"-json", "-units", "us"}},
		{"flag -json is given with", []string{"-json", "-project", "Estuary Link"}},
		{"flag -json is given with", []string{"-revision", "A", "-json"}},
	} {
		status, out, err := run(rectangle(), nil, c.args...)
		require.Equal(t, ExitInput, status, c.says)
		require.Empty(t, out)
		require.Contains(t, err, c.says)
	}
}
