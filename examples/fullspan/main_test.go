package main

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/sheet"
)

func record(t *testing.T) stages.Record {
	r, err := calculate()
	require.NoError(t, err)
	return r
}

func TestEveryCheckPasses(t *testing.T) {
	r := record(t)
	require.Equal(t, stages.Pass, r.Status())
	require.Len(t, r.Stages, 6)
	require.Equal(t, sheet.ExitPass, sheet.Command(nil, io.Discard, io.Discard, r, nil))
}

func TestTheSheetSaysWhatAReaderNeeds(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record(t), sheet.Settings{}))
	for _, words := range []string{
		"# Temporary stages of element E-07", "Caution", "licensed engineer", "Governing check of each stage", "## Inputs",
		"Tendon paths", "Stage 1: transfer of prestress, age 2 d", "Stage 6: seat on the bearings, age 28 d",
		"invented report EL-C-0207", "Not checked here", "creep, shrinkage and relaxation are left out",
	} {
		require.Contains(t, out.String(), words)
	}
	require.NotContains(t, out.String(), "NaN")
	require.Equal(t, strings.Count(out.String(), "**")%2, 0)
}

func TestTheRecordReadsBackEqual(t *testing.T) {
	r := record(t)
	var out bytes.Buffer
	require.NoError(t, sheet.WriteJSON(&out, r))
	first := out.String()
	back, err := sheet.ReadJSON(&out)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(r, back))
	out.Reset()
	require.NoError(t, sheet.WriteJSON(&out, record(t)))
	require.Equal(t, first, out.String(), "the same input gives the same bytes")
}

// Every expression in the Record is parsed and recomputed from its operands, and
// an operand that is the result of an earlier line of the same derivation has
// that line's value.
func TestEveryLineRecomputes(t *testing.T) {
	count := 0
	check := func(lines []formula.Line) {
		known := map[string]float64{}
		for _, line := range lines {
			value, err := line.Recompute()
			require.NoError(t, err)
			require.InDelta(t, line.Result.Value, value, 1e-12*math.Abs(value), line.Result.Symbol)
			for _, operand := range line.Operands {
				if before, ok := known[operand.Symbol]; ok {
					require.Equal(t, before, operand.Value, "%s in %s", operand.Symbol, line.Result.Symbol)
				}
			}
			known[line.Result.Symbol] = line.Result.Value
			count++
		}
	}
	r := record(t)
	for _, group := range r.Inputs {
		check(group.Lines)
	}
	for _, stage := range r.Stages {
		for _, situation := range stage.Situations {
			check(situation.Concrete)
			check(situation.Factors)
			for _, c := range situation.Checks {
				check(c.Derivation)
				require.NotEmpty(t, c.Derivation, c.Name)
				symbols := map[string]float64{}
				for _, line := range c.Derivation {
					symbols[line.Result.Symbol] = line.Result.Value
				}
				require.Contains(t, symbols, c.Demand.Symbol, c.Name)
				require.Equal(t, symbols[c.Demand.Symbol], c.Demand.Value, c.Name)
				require.Contains(t, symbols, c.Limit.Symbol, c.Name)
				require.Equal(t, symbols[c.Limit.Symbol], c.Limit.Value, c.Name)
			}
		}
	}
	require.Greater(t, count, 500)
}

// What the figures are drawn from agrees with what the calculation is made with.
func TestFiguresAgreeWithTheInputs(t *testing.T) {
	r := record(t)
	given := map[string]float64{}
	for _, group := range r.Inputs {
		for _, line := range group.Lines {
			given[line.Result.Symbol] = line.Result.Value
		}
	}
	sum := 0.0
	for _, w := range r.Weights {
		require.True(t, w.From <= w.Centre && w.Centre <= w.To, w.Mark)
		sum += w.Force
	}
	require.InEpsilon(t, given["G"], sum, 1e-12)
	require.InEpsilon(t, given["z_c"], r.Outlines[0].Centroid.Z, 1e-12)
	require.Empty(t, r.Stages[2].Situations[0].Loads)
}

func TestBothSheetsAreWritten(t *testing.T) {
	folder := t.TempDir()
	var names, stderr bytes.Buffer
	require.Equal(t, sheet.ExitPass, sheet.Command([]string{"-o", folder}, &names, &stderr, record(t), nil), stderr.String())
	for _, name := range []string{"E-07-calculation.html", "E-07-permit.html", "E-07-calculation.md", "E-07-permit.md", "E-07-record.json", "E-07-section.svg", "E-07-stage-1-tendons.svg"} {
		require.Contains(t, names.String(), name+"\n")
		content, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		require.NotEmpty(t, content)
	}
	for _, name := range strings.Fields(names.String()) {
		if strings.HasSuffix(name, ".html") || strings.HasSuffix(name, ".svg") {
			content, err := os.ReadFile(filepath.Join(folder, name))
			require.NoError(t, err)
			var parts struct {
				Inside []byte `xml:",innerxml"`
			}
			require.NoError(t, xml.Unmarshal(content, &parts), name)
			require.NotContains(t, string(content), "NaN", name)
		}
	}
	page, err := os.ReadFile(filepath.Join(folder, "E-07-permit.html"))
	require.NoError(t, err)
	require.Equal(t, 6, strings.Count(string(page), "<h1"), "a page for each stage")
	require.NotContains(t, string(page), "DO NOT PROCEED")
}
