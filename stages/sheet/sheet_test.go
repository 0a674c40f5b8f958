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
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

// slab is a short calculation: a plain beam stored, lifted at four points of which
// two are equalised, and set down, on supports that differ from side to side.
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
	return stages.Plan{
		stages.Store{Age: 5, On: pads},
		stages.Lift{Age: 7, On: slings, Dynamic: loads.Dynamic{Most: 1.1}},
		stages.Store{Name: "set down", Age: 7.5, On: pads},
	}.Run(e, limits.EN1992{})
}

// pads and slings are supports beside the axis, unlike from side to side.
var (
	pads   = []stages.Support{{X: 2.4, Y: -0.2}, {X: 2.4, Y: 0.15}, {X: 9.6, Y: -0.05}}
	slings = append(stages.Equalised("blocks", stages.Support{X: 2.4, Y: -0.2, Z: 0.8}, stages.Support{X: 2.4, Y: 0.2, Z: 0.8}),
		stages.Support{X: 9.6, Y: -0.2, Z: 0.8}, stages.Support{X: 9.6, Y: 0.15, Z: 0.8})
)

func ExampleCommand() {
	record, err := slab(1500e-6)
	status := sheet.Command([]string{"-json"}, io.Discard, os.Stderr, record, err)
	fmt.Println("exit status", status)
	// Output: exit status 0
}

func ExampleWriteMarkdown() {
	file, _ := os.Open("testdata/record-2.json")
	defer func() { _ = file.Close() }()
	record, _ := sheet.ReadJSON(file)
	var out strings.Builder
	err := sheet.WriteMarkdown(&out, record, sheet.Settings{})
	_, table, _ := strings.Cut(out.String(), "**Table A5.1: ")
	fmt.Println(strings.Join(strings.SplitN(table, "\n", 15)[:14], "\n")) // how a stress adds up, and the lines behind it
	fmt.Println(err)
	// Output:
	// σ_c at y = −0.6000 m, z = 1.6000 m, section properties 1**
	//
	// | Action | n | P kN | cos | y m | z m | N kN | M_y kN·m | M_z kN·m | σ_c MPa | factors | product MPa |
	// |---|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|---:|
	// | weight, reactions applied: supports at x = 0.4, 11.6 m; Table M16 |  |  |  |  |  | 0 | 566 | 0 | −1.438 | γ_w 1.03 | −1.481 |
	// | T1 | 1 | 1261.5 | 1.00000 | −0.1400 | 0.6200 | −1261 | −265 | −10 | −0.255 | r 1.1 | −0.280 |
	// | **sum** |  |  |  |  |  |  |  |  |  |  | **−1.762** |
	//
	// **Lines of check 1 A**
	//
	// |  | Symbol = formula | = numbers | = result | Remark, source |
	// |---|---|---|---|---|
	// | (1) | σ_comp = −σ_c | −(−1.762 MPa) | **1.762 MPa** | [1] |
	// | (2) | σ_c_max = k_c·f_ck_t | 0.6·27.138 MPa | **16.282 MPa** | [2†] |
	// <nil>
}

func TestJSONReadsBackEqual(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, sheet.WriteJSON(&out, record))
	back, err := sheet.ReadJSON(bytes.NewReader(out.Bytes()))
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(record, back, cmpopts.IgnoreUnexported(stages.Check{})))
	for text, says := range map[string]string{
		"": "unexpected end", "[]": "cannot unmarshal", `{"format": 2, "colour": 2}`: "colour", `{"format": 1, "colour": 2}`: "record of format 1: must be format 2; run its calculation again",
		strings.Replace(out.String(), `"format":2`, `"format":99`, 1): "record of format 99: must be format 2",
	} {
		_, err := sheet.ReadJSON(strings.NewReader(text))
		require.ErrorIs(t, err, sheet.ErrSheet, text)
		require.ErrorContains(t, err, says)
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
	record, err := stages.Plan{stages.Store{Age: 2, On: []stages.Support{{X: 1.2, Y: -0.2}, {X: 1.2, Y: 0.15}, {X: 4.8, Y: 0.05}}}}.Run(e, limits.EN1992{})
	require.NoError(t, err)
	var out bytes.Buffer
	require.Equal(t, sheet.ExitFail, sheet.Command(nil, &out, io.Discard, record, nil))
	require.Contains(t, out.String(), "CONDITIONAL on the hold points of the operation sheets")
	require.Contains(t, out.String(), "**conditional: requires** f_ck_t ≥ ")
}
