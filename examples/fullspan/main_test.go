package main

import (
	"bytes"
	"io"
	"math"
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
	require.NoError(t, sheet.WriteMarkdown(&out, record(t)))
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
