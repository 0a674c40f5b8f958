package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// version is a library and a number such as 1.2.1.
var version = regexp.MustCompile(`(numpy|scipy|mpmath|Python from) \d+\.\d+`)

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
	var page map[string]json.RawMessage
	require.NoError(t, json.Unmarshal(out.Bytes(), &page))
	require.Len(t, page, 2)
	require.Contains(t, string(page["caution"]), "a licensed engineer must confirm every result")
	var rows []map[string]any
	require.NoError(t, json.Unmarshal(page["checks"], &rows))
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
	require.True(t, strings.HasPrefix(out.String(), "An aid: a licensed engineer must confirm every result."))
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

var (
	recipe = regexp.MustCompile(`^recipes/[a-z_]+\.py`)
	place  = regexp.MustCompile(`(Table|Fig\.|Example|page|p\.|Annex) [A-Z]?\.?\d|, \d+(\.\d+)+|\([A-Z]*\d*\.?\d+\)`)
	remote = regexp.MustCompile(`(?i)http|www|\.(com|org|net)\b|as quoted|quoted|secondary source|dealer|lecture|memoir|not read`)
)

// faults is what a row leaves open of where its value comes from.
func faults(c Check) error {
	script := recipe.FindString(c.Source)
	if script != "" {
		if _, err := os.Stat(script); err != nil {
			return err
		}
	}
	switch {
	case remote.MatchString(c.Source):
		return fmt.Errorf("source %q must be a book, a standard, a recipe or mechanics", c.Source)
	case c.Kind == Library && script == "":
		return fmt.Errorf("source %q must begin with its recipe", c.Source)
	case c.Kind == Library && !version.MatchString(c.Source):
		return fmt.Errorf("source %q must name the version of the library", c.Source)
	case c.Kind == Published && !place.MatchString(c.Source):
		return fmt.Errorf("source %q must name clause, table, page or equation", c.Source)
	}
	return nil
}

func TestEverySourceCanBeFound(t *testing.T) {
	for _, subject := range subjects() {
		for _, check := range subject.Checks {
			require.NoError(t, faults(check), "%s: %s", subject.Name, check.Name)
		}
	}
}

func TestASourceThatCannotBeFoundIsRefused(t *testing.T) {
	for _, c := range []Check{
		{Kind: Library, Source: "recipes/missing.py: numpy 1.24.2"},
		{Kind: Library, Source: "numpy 1.24.2: ∫f·m²"},
		{Kind: Library, Source: "recipes/trains.py: numpy"},
		{Kind: ClosedForm, Source: "recipes/missing.py"},
		{Kind: Published, Source: "A handbook of beams"},
		{Kind: Published, Source: "A handbook of 2004"},
		{Kind: Published, Source: "www.example.org, Table 3"},
		{Kind: ClosedForm, Source: "formula as on beams.com"},
		{Kind: Recalled, Source: "A book, Table 3, as quoted elsewhere"},
	} {
		require.Error(t, faults(c), c.Source)
	}
	for _, c := range []Check{
		{Kind: Library, Source: "recipes/trains.py: numpy 1.24.2"},
		{Kind: Published, Source: "EN 1992-1-1:2004, Table 3.1"},
		{Kind: Published, Source: "EN 1992-1-1:2004, 5.10.2.2(5)"},
		{Kind: Published, Source: "A journal, May 2021, Table A.1"},
	} {
		require.NoError(t, faults(c), c.Source)
	}
}

// Every recipe must be of use to a row, short, and say what it needs.
func TestEveryRecipeIsUsedAndSaysWhatItNeeds(t *testing.T) {
	used := map[string]bool{"recipes/quads.py": true} // imported by torsion.py
	for _, subject := range subjects() {
		for _, check := range subject.Checks {
			used[recipe.FindString(check.Source)] = true
		}
	}
	scripts, err := filepath.Glob("recipes/*.py")
	require.NoError(t, err)
	for _, script := range scripts {
		text, err := os.ReadFile(script)
		require.NoError(t, err)
		lines := strings.Split(string(text), "\n")
		require.True(t, used[script], script)
		require.LessOrEqual(t, len(lines), 101, script)
		require.True(t, strings.HasPrefix(lines[0], "# "), script)
		require.Regexp(t, version, strings.Join(lines[:5], " "), script)
	}
}

// The README says how many checks there are of each kind.
func TestTheReadmeCountsTheChecks(t *testing.T) {
	count := map[Kind]int{}
	for _, subject := range subjects() {
		for _, check := range subject.Checks {
			count[check.Kind]++
		}
	}
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	require.Zero(t, count[CommonPractice])
	require.Contains(t, strings.Join(strings.Fields(string(text)), " "), fmt.Sprintf(
		"The checks are %d closed forms, %d values of general-purpose libraries, %d published values and %d unconfirmed ones",
		count[ClosedForm], count[Library], count[Published], count[Recalled]))
}
