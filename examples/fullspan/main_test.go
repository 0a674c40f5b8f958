package main

import (
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

var once = sync.OnceValues(calculate)

func record(t *testing.T) stages.Record {
	r, err := once()
	require.NoError(t, err)
	return r
}

func TestEveryCheckPasses(t *testing.T) {
	r := record(t)
	require.Equal(t, stages.Pass, r.Status())
	require.Len(t, r.Stages, 8)
	for _, stage := range r.Stages {
		for _, s := range stage.Situations {
			require.Empty(t, s.Unanswered, s.Name)
			for _, c := range s.Checks {
				require.Equal(t, stages.Pass, c.State, "%s: %s: %s", s.Name, c.Name, c.Note)
			}
		}
	}
	require.Equal(t, sheet.ExitPass, sheet.Command(nil, io.Discard, io.Discard, r, nil))
}

// A check that leaves a stage is a hole through which a girder falls: which kinds
// each stage has.
func TestEveryStageIsChecked(t *testing.T) {
	always := []limits.Kind{limits.Compression, limits.Tension, limits.TensionSteel, limits.PrincipalTension, limits.WebShear, limits.Uplift}
	stands := append(always, limits.Overturning, limits.Sliding)
	stresses := append(stands, limits.JackStress, limits.LockOffStress, limits.StressingStrength, limits.AnchorSpacing, limits.AnchorEdge, limits.DuctSpacing)
	rolls := append(slices.Clone(stands), limits.Roll) // on what gives way
	want := map[string][]limits.Kind{
		"transfer of prestress": stresses, "lift from the bed by the straddle carrier": always, "store": rolls, "store, at its end": rolls,
		"stressing": append(slices.Clone(stresses), limits.Roll), "grouting": rolls, "lift on to the girder carrier": always, "haul over the finished spans": stands, "hoist by the launching gantry": always, "seat on the bearings": rolls,
	}
	for _, stage := range record(t).Stages {
		for _, s := range stage.Situations {
			found := map[limits.Kind]bool{}
			for _, c := range s.Checks {
				found[c.Kind] = true
			}
			for _, kind := range want[s.Name] {
				require.True(t, found[kind], "%s: %s", s.Name, kind)
			}
			require.Len(t, found, len(want[s.Name]), s.Name)
		}
	}
}

// The linked pair shares equally under every factor, the independent two do not;
// no pair shares in silence.
func TestSupportsShareAsStated(t *testing.T) {
	for _, stage := range record(t).Stages {
		for _, s := range stage.Situations {
			require.Len(t, s.Reactions, 4, s.Name)
			total := 0.0
			for _, r := range s.Reactions {
				total += r.Nominal
				require.False(t, r.Bounded, s.Name)
				require.NotNil(t, r.Share, s.Name)
			}
			require.InEpsilon(t, 4627.6e3, total, 1e-5, s.Name) // 5.0913·25·34 + 2·150 kN
			left, right := s.Reactions[:2], s.Reactions[2:]
			require.InDelta(t, left[0].Nominal, left[1].Nominal, 1, s.Name)
			if s.OutOfLevel > 0 || s.Supports[0].Stiffness > 0 {
				require.Empty(t, right[0].Group, s.Name)
				continue
			}
			require.Equal(t, "right pair", right[0].Group)
			require.Equal(t, right[0].Static, right[1].Static, s.Name)
			require.Greater(t, left[0].Static.Most-left[0].Static.Least, right[0].Static.Most-right[0].Static.Least, "%s: the independent pair carries the torsion", s.Name)
		}
	}
}

func TestTheSheetSaysWhatAReaderNeeds(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record(t), sheet.Settings{}))
	for _, words := range []string{
		"# Temporary stages of element E-07", "Caution", "licensed engineer", "Governing check of each stage", "## Materials and section",
		"## Tendons", "Stage 1: transfer of prestress", "Stage 5: lift on to the girder carrier", "Stage 8: seat on the bearings", "invented report EL-C-0207",
		"right pair", "out of level by 5 mm", "wind, storm", "braking", "shrinkage", "relaxation", "clear distance between ducts",
	} {
		require.Contains(t, out.String(), words)
	}
	require.NotContains(t, out.String(), "NaN")
}

func TestTheRecordReadsBackEqual(t *testing.T) {
	r := record(t)
	var out bytes.Buffer
	require.NoError(t, sheet.WriteJSON(&out, r))
	first := out.String()
	require.LessOrEqual(t, len(first), 300_000, "bytes")
	back, err := sheet.ReadJSON(&out)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(r, back))
	again, err := calculate()
	require.NoError(t, err)
	out.Reset()
	require.NoError(t, sheet.WriteJSON(&out, again))
	require.Equal(t, first, out.String(), "the same input gives the same bytes")
}

// What the figures are drawn from agrees with what the calculation is made with.
func TestFiguresAgreeWithTheInputs(t *testing.T) {
	r := record(t)
	given := map[string]float64{}
	for _, group := range r.Inputs {
		for _, n := range group.Lines {
			line, err := r.Line(n)
			require.NoError(t, err)
			given[line.Result.Symbol] = line.Result.Value
		}
	}
	sum := 0.0
	for _, w := range r.Weights {
		require.True(t, w.From <= w.Centre && w.Centre <= w.To, w.Mark)
		sum += w.Force
	}
	require.InEpsilon(t, given["G"], sum, 1e-4) // lines have five digits
	require.InEpsilon(t, given["z_c"], r.Outlines[0].Centroid.Z, 1e-4)
	require.Empty(t, r.Stages[0].Situations[0].Loads)
	require.Len(t, r.Stages[4].Situations[0].Loads, 1, "wind")
	require.Len(t, r.Stages[5].Situations[0].Loads, 2, "wind and braking")
}

func TestBothSheetsAreWritten(t *testing.T) {
	folder := t.TempDir()
	var names, stderr bytes.Buffer
	require.Equal(t, sheet.ExitPass, sheet.Command([]string{"-o", folder}, &names, &stderr, record(t), nil), stderr.String())
	for _, name := range []string{"E-07-calculation.html", "E-07-operation.html", "E-07-calculation.md", "E-07-operation.md", "E-07-record.json", "E-07-section.svg", "E-07-stage-1-tendons.svg"} {
		require.Contains(t, names.String(), name+"\n")
	}
	for _, name := range strings.Fields(names.String()) {
		content, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		require.NotEmpty(t, content)
		if strings.HasSuffix(name, ".html") || strings.HasSuffix(name, ".svg") {
			var parts struct {
				Inside []byte `xml:",innerxml"`
			}
			require.NoError(t, xml.Unmarshal(content, &parts), name)
			require.NotContains(t, string(content), "NaN", name)
		}
	}
	page, err := os.ReadFile(filepath.Join(folder, "E-07-operation.html"))
	require.NoError(t, err)
	require.Equal(t, 8, strings.Count(string(page), "<h1"), "a page for each stage")
	require.NotContains(t, string(page), "DO NOT PROCEED")
}

// The element never moves without something that holds it: each lift, the haul and the
// seat name what holds every support, and the way from store to carrier is a lift.
func TestWhatHoldsTheGirderIsNamed(t *testing.T) {
	r := record(t)
	want := map[int][]stages.EquipmentKind{1: {stages.StraddleCarrier}, 4: {stages.StraddleCarrier}, 5: {stages.Carrier}, 6: {stages.Gantry}, 7: {stages.Pier, stages.Pier}}
	for i, kinds := range want {
		var found []stages.EquipmentKind
		var held []int
		for _, e := range r.Stages[i].Situations[0].Equipment {
			found, held = append(found, e.Kind), append(held, e.Supports...)
		}
		require.Equal(t, kinds, found, r.Stages[i].Name)
		require.Equal(t, []int{1, 2, 3, 4}, held, r.Stages[i].Name)
	}
	require.Equal(t, string(limits.Lifting), r.Stages[4].Situations[0].Phase)
	require.Equal(t, r.Stages[1].Situations[0].Supports, r.Stages[4].Situations[0].Supports)
	var out bytes.Buffer
	require.NoError(t, sheet.WriteOperationMarkdown(&out, r, sheet.Settings{}))
	require.NotContains(t, out.String(), "strike out what does not apply")
	require.Contains(t, out.String(), "Set down by sheet 6 only.")
}
