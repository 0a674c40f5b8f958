package main

import (
	"bytes"
	"errors"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/sheet"
)

func TestForcesAreWhatTheLossesLeave(t *testing.T) {
	r, err := calculate()
	require.NoError(t, err)
	area, jack := r.force.Tendon.Area(), r.force.Jacking.Stress
	for i, s := range r.stations {
		require.InEpsilon(t, jack-s.monthly.Total(), s.atMonth/area, 1e-12)
		require.InEpsilon(t, jack-s.final.Total(), s.end/area, 1e-12)
		require.InEpsilon(t, s.lockOff/area, jack-s.final.Friction-s.final.DrawIn, 1e-9)
		require.True(t, s.jack >= s.lockOff && s.lockOff > s.atMonth && s.atMonth > s.end && s.end > 0)
		for _, part := range []float64{s.final.Friction, s.final.DrawIn, s.final.Elastic, s.final.Shrinkage, s.final.Creep, s.final.Relaxation} {
			require.False(t, part < 0 || math.IsNaN(part))
		}
		mirror := r.stations[len(r.stations)-1-i]
		require.InEpsilon(t, s.end, mirror.end, 1e-9, "the tendon is symmetric")
	}
}

// Friction at the pier by hand: the angles of four parabolas each way.
func TestFrictionAtThePierByHand(t *testing.T) {
	r, err := calculate()
	require.NoError(t, err)
	pier := r.stations[4]
	middle := (0.25-1.30)/7.2 + 0.14/2 // slope half-way down: the mean of both ends gives the drop
	rise := 1.80 / 10.8                // half-way up to the pier
	angle := math.Abs(math.Atan(middle)-math.Atan(-0.14)) + math.Abs(math.Atan(middle)) + 2*math.Atan(rise)
	want, err := tendon.FrictionFactor(0.19, angle, 0.005, r.force.Path.Length(span))
	require.NoError(t, err)
	require.InEpsilon(t, want, pier.jack/r.force.Tendon.Area()/r.force.Jacking.Stress, 1e-9)
	require.Positive(t, r.secondary, "a tendon low in the spans raises a sagging restraint over the pier")
}

// What the program printed before it had a record, by the same calculation.
func TestItPrintsEveryLossByName(t *testing.T) {
	var out bytes.Buffer
	require.Equal(t, sheet.ExitPass, run(nil, &out, io.Discard))
	page := out.String()
	for _, words := range []string{"at the jacks", "after lock-off", "at 28 d", "end of life", "friction", "draw-in", "elastic", "shrinkage", "creep", "relaxation",
		"A licensed engineer must confirm every result before it is used.", "nothing is compared with a limit", "The technical approval of the tendon governs.",
		"| 36.000 | 2291 | 2291 | 2206 | 2031 |", "| 14.400 | 56.7 | 22.5 | 28.51 | 58.35 | 53.66 | 40.39 | 260.1 |", "| 7796 kN·m |",
		"| 0.423 m |", "| 0.467 m |", "| 16.515 m |", "P_end = "} {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "NaN")
	require.Equal(t, 3, strings.Count(page, "\n| 57.600 | "), "a row in each of three tables")
}

// The inputs that a checker needs are on the sheet.
func TestInputsArePrinted(t *testing.T) {
	var out bytes.Buffer
	require.Equal(t, sheet.ExitPass, run(nil, &out, io.Discard))
	for _, words := range []string{"| f_ck | characteristic cylinder strength at 28 d | 50 MPa |", "| RH | relative humidity | 0.75 |", "| A_c | area | 4.315 m² |", "strands Y1860S7-15.7 | 12 |", "| μ | friction | 0.19 1/rad |",
		"(wobble), in μ(θ + k·s) | 0.005 rad/m |", "| l | each span | 36 m |", "| γ_conc | unit weight with reinforcement and epoxy | 26 kN/m³ |", "one after another | 8 |", "| σ_0 | jacking stress | 1440 MPa |", "| w | draw-in at each end | 6 mm |", "| t_0 | age of the concrete at stressing | 7 d |", "| C1 | 14.400 | 0.000 | 0.250 |"} {
		require.Contains(t, out.String(), words)
	}
}

// full is a page that takes nothing.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestAPageThatCannotBeWrittenIsAnError(t *testing.T) {
	var complaint bytes.Buffer
	require.Equal(t, sheet.ExitInput, run(nil, full{}, &complaint))
	require.Contains(t, complaint.String(), "disk full")
}

func TestTheRecordAsJSON(t *testing.T) {
	var out bytes.Buffer
	require.Equal(t, sheet.ExitPass, run([]string{"-json"}, &out, io.Discard))
	record, err := sheet.ReadJSON(&out)
	require.NoError(t, err)
	require.NotEmpty(t, record.Caution)
	require.Empty(t, record.Stages)
	rows := record.Results[0].Tables[0].Rows
	require.Len(t, rows, 9)
	require.InDelta(t, 36, rows[4][0], 1e-9)
	require.Equal(t, sheet.ExitInput, run([]string{"-nonsense"}, io.Discard, io.Discard))
	require.Equal(t, sheet.ExitInput, run([]string{"more"}, io.Discard, io.Discard))
}

// The lines over the pier give what the table says.
func TestLinesAgreeWithTheTable(t *testing.T) {
	r, err := calculate()
	require.NoError(t, err)
	lines, err := r.lines()
	require.NoError(t, err)
	require.InEpsilon(t, r.stations[4].end, lines[len(lines)-1].Result.Value, 1e-9)
}

// The same files as those of every script, but for operation sheets.
func TestFilesOfTheCalculation(t *testing.T) {
	folder := t.TempDir()
	var out bytes.Buffer
	require.Equal(t, sheet.ExitPass, run([]string{"-o", folder}, &out, io.Discard))
	require.Equal(t, []string{"C1-calculation.html", "C1-calculation.md", "C1-record.json", "C1-section.svg", "C1-result-1-figure-1.svg"}, strings.Fields(out.String()))
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Len(t, entries, 5)
}
