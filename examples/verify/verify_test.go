package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

// version is a number such as 1.2.1.
var version = regexp.MustCompile(`\d+\.\d+`)

func TestEveryPublishedCheck(t *testing.T) {
	for _, subject := range subjects() {
		names := map[string]bool{}
		for _, check := range subject.Checks {
			require.False(t, names[check.Name], "%s: %s stands twice", subject.Name, check.Name)
			names[check.Name] = true
			t.Run(subject.Name+"/"+check.Name, func(t *testing.T) {
				require.NotEmpty(t, check.Source)
				require.NotEmpty(t, check.Reason)
				require.NotEmpty(t, check.Unit)
				require.NotEmpty(t, check.Package)
				require.Contains(t, []Kind{ClosedForm, Published, Recalled, Library, CommonPractice}, check.Kind)
				require.False(t, check.Tolerance < 0 || math.IsNaN(check.Tolerance))
				if check.Kind == Library {
					require.Regexp(t, version, check.Source, "the library's version is missing")
				}
				result, err := check.Run(subject.Name)
				require.NoError(t, err)
				if check.Kind == Recalled {
					require.Contains(t, result.Source, unconfirmed)
				}
				require.True(t, result.Pass, "published %g, ours %.12g %s, difference %.3g, tolerance %.3g (%s)",
					result.Published, result.Ours, result.Unit, result.Difference, result.Tolerance, check.Reason)
			})
		}
	}
}

func TestCommandPrintsJSONWithExactlyTheAgreedKeys(t *testing.T) {
	var out bytes.Buffer
	require.Equal(t, 0, run([]string{"-json"}, &out, io.Discard))
	var rows []map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &rows))
	require.NotEmpty(t, rows)
	for _, row := range rows {
		keys := make([]string, 0, len(row))
		for key := range row {
			keys = append(keys, key)
		}
		require.ElementsMatch(t, []string{"subject", "check", "package", "source", "kind", "published",
			"ours", "unit", "tolerance", "difference", "pass"}, keys)
	}
}

func TestCommandPrintsATable(t *testing.T) {
	var out bytes.Buffer
	require.Equal(t, 0, run(nil, &out, io.Discard))
	require.Contains(t, out.String(), "checks, 0 failed")
	require.Equal(t, 2, run([]string{"-nonsense"}, io.Discard, io.Discard))
}

func TestAWrongValueFails(t *testing.T) {
	check := Check{Name: "half", Value: 0.5, Tolerance: 1e-6, Ours: func() (float64, error) { return 0.51, nil }}
	result, err := check.Run("test")
	require.NoError(t, err)
	require.False(t, result.Pass)
	check.Ours = func() (float64, error) { return math.NaN(), nil }
	_, err = check.Run("test")
	require.Error(t, err)
	check.Ours = func() (float64, error) { return 0, errors.New("no") }
	_, err = check.Run("test")
	require.ErrorContains(t, err, "test: half: no")
}
