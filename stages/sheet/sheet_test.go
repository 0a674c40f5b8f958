package sheet_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

// slab is a short calculation: a plain beam lifted at two points.
func slab(bars float64) (stages.Record, error) {
	shape, err := section.New([]section.Outline{{{Y: -0.25, Z: 0}, {Y: 0.25, Z: 0}, {Y: 0.25, Z: 0.8}, {Y: -0.25, Z: 0.8}}}, nil)
	if err != nil {
		return stages.Record{}, err
	}
	e := stages.Element{
		Mark: "S|1 <b>", Length: 12, Section: shape, WeightTolerance: loads.PlusMinus(0),
		Concrete: concrete.EN1992{Fck: 40e6, Cement: concrete.ClassR},
	}
	for _, z := range []float64{0.05, 0.75} {
		e.Bars = append(e.Bars, stages.BondedBars{From: 0, To: 12, At: section.Point{Z: z}, Area: bars})
	}
	return stages.Plan{stages.Store{Age: 5, On: stages.At(2.4, 9.6)}, stages.Lift{Age: 7, On: stages.At(2.4, 9.6)}}.Run(e, limits.EN1992{})
}

func ExampleCommand() {
	record, err := slab(1500e-6)
	status := sheet.Command([]string{"-json"}, io.Discard, os.Stderr, record, err)
	fmt.Println("exit status", status)
	// Output: exit status 0
}

func ExampleWriteMarkdown() {
	file, _ := os.Open("testdata/record-1.json")
	defer func() { _ = file.Close() }()
	record, _ := sheet.ReadJSON(file)
	var out strings.Builder
	err := sheet.WriteMarkdown(&out, record, sheet.Settings{})
	for _, line := range strings.Split(out.String(), "\n") { // a formula, then what it gives in each check of the first situation
		if strings.Contains(line, "M_w = R_w_1") || strings.HasPrefix(line, "| M_w (14)") {
			fmt.Println(line)
			if strings.HasPrefix(line, "|") {
				break
			}
		}
	}
	fmt.Println(err)
	// Output:
	// - **(14)** M_w = R_w_1·(x - x_w_1_0) - g_1·pow(x - a_1, 2)/2 — moment of the weight at x on supports at x = 2.400 m; x = 9.600 m [6]
	// | M_w (14) | kN·m | 36.00 | 36.00 | −28.80 |
	// <nil>
}

func TestJSONReadsBackEqual(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, sheet.WriteJSON(&out, record))
	back, err := sheet.ReadJSON(bytes.NewReader(out.Bytes()))
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(record, back))
	for _, text := range []string{"", "[]", `{"format": 1, "colour": 2}`, strings.Replace(out.String(), `"format": 1`, `"format": 99`, 1)} {
		_, err := sheet.ReadJSON(strings.NewReader(text))
		require.ErrorIs(t, err, sheet.ErrSheet, text)
	}
}

func TestExitStatus(t *testing.T) {
	good, err := slab(1500e-6)
	require.NoError(t, err)
	bad, err := slab(1e-6)
	require.NoError(t, err)
	var stderr bytes.Buffer
	require.Equal(t, sheet.ExitPass, sheet.Command(nil, io.Discard, &stderr, good, nil))
	require.Equal(t, sheet.ExitFail, sheet.Command(nil, io.Discard, &stderr, bad, nil))
	require.Empty(t, stderr.String())
	require.Equal(t, sheet.ExitInput, sheet.Command(nil, io.Discard, &stderr, stages.Record{}, errors.New("wrong depth")))
	require.Contains(t, stderr.String(), "wrong depth")
	require.Equal(t, sheet.ExitInput, sheet.Command([]string{"-nonsense"}, io.Discard, io.Discard, good, nil))
	require.Equal(t, sheet.ExitInput, sheet.Command([]string{"more"}, io.Discard, io.Discard, good, nil))
	require.Equal(t, sheet.ExitInput, sheet.Command(nil, io.Discard, io.Discard, stages.Record{}, nil), "an empty record")
	require.Equal(t, sheet.ExitInput, sheet.Command(nil, full{}, io.Discard, good, nil), "a full disk")
}

// full is a writer that fails.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left") }

func TestTextIsEscaped(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), `S\|1 &lt;b&gt;`)
	require.NotContains(t, out.String(), "<b>")
}

func TestAConditionalStageSaysWhatToShow(t *testing.T) {
	shape, err := section.New([]section.Outline{{{Y: -0.25, Z: 0}, {Y: 0.25, Z: 0}, {Y: 0.25, Z: 0.8}, {Y: -0.25, Z: 0.8}}}, nil)
	require.NoError(t, err)
	e := stages.Element{Mark: "S", Length: 6, Section: shape, WeightTolerance: loads.PlusMinus(0), Concrete: concrete.EN1992{Fck: 40e6, Cement: concrete.ClassR},
		Bars: []stages.BondedBars{{From: 0, To: 6, At: section.Point{Z: 0.05}, Area: 1e-3}, {From: 0, To: 6, At: section.Point{Z: 0.75}, Area: 1e-3}}}
	record, err := stages.Plan{stages.Store{Age: 2, On: stages.At(1.2, 4.8)}}.Run(e, limits.EN1992{})
	require.NoError(t, err)
	var out bytes.Buffer
	require.Equal(t, sheet.ExitFail, sheet.Command(nil, &out, io.Discard, record, nil))
	require.Contains(t, out.String(), "CONDITIONAL: something must be shown first")
	require.Contains(t, out.String(), "conditional: show f_ck_t ≥ ")
}
