package sheet

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

func TestNumbersAsAnEngineerWritesThem(t *testing.T) {
	for value, want := range map[float64]string{
		0: "0", 1: "1", 0.97: "0.97", 1.15: "1.15", 27.3591: "27.36", 1960.04: "1960", 15678.6: "15680", -14162.3: "−14160",
		0.184384: "0.1844", 0.00747151: "0.007472", 9.99996: "10", 12345678: "1.235·10^7", 2.5e-7: "2.5·10^−7", math.NaN(): "n/e", math.Inf(1): "n/e", 5e-324: "0",
	} {
		require.Equal(t, want, number(value), "%g", value)
	}
}

func TestQuantitiesInBothUnits(t *testing.T) {
	for _, c := range []struct {
		value  float64
		unit   formula.Unit
		si, us string
	}{
		{28.4663, formula.Metre, "28.466 m", "93.393 ft"},
		{0.006, formula.Metre, "6 mm", "0.24 in"},
		{0.34, formula.Metre, "0.34 m", "13.39 in"},
		{4.3154, formula.SquareMetre, "4.315 m²", "46.45 ft²"},
		{1800e-6, formula.SquareMetre, "1800 mm²", "2.79 in²"},
		{3.2793, formula.MetreToFourth, "3.279 m⁴", "379.9 ft⁴"},
		{3920e3, formula.Newton, "3920 kN", "881.3 kip"},
		{15680e3, formula.NewtonMetre, "15680 kN·m", "11560 kip·ft"},
		{50e6, formula.Pascal, "50 MPa", "7.252 ksi"},
		{25e3, formula.NewtonPerCubic, "25 kN/m³", "159.1 lb/ft³"},
		{107.9e3, formula.NewtonPerMetre, "107.9 kN/m", "7.393 kip/ft"},
		{399740, formula.Kilogram, "399.7 t", "881300 lb"},
		{0.005, formula.RadianPerMetre, "0.005 rad/m", "0.001524 rad/ft"},
		{2.5, formula.Day, "2.5 d", "2.5 d"},
		{0.97, formula.One, "0.97", "0.97"},
		{7, "furlong", "7 furlong", "7 furlong"},
	} {
		require.Equal(t, c.si, SI.quantity(c.value, c.unit))
		require.Equal(t, c.us, US.quantity(c.value, c.unit))
		require.Equal(t, c.si, Units("").quantity(c.value, c.unit), "SI when left out")
	}
}

func TestLimitsAreRoundedToTheSafeSide(t *testing.T) {
	require.Equal(t, "16.41 MPa", SI.safe(16.4154e6, formula.Pascal, limits.AtMost))
	require.Equal(t, "16.42 MPa", SI.safe(16.4154e6, formula.Pascal, limits.AtLeast))
	require.Equal(t, "0.165 m", SI.safe(0.165, formula.Metre, limits.AtMost), "what was put in is printed as it is")
	require.Equal(t, "0.165 m", SI.safe(0.165, formula.Metre, limits.AtLeast))
	require.Equal(t, "−16.42 MPa", SI.safe(-16.4154e6, formula.Pascal, limits.AtMost))
	require.Equal(t, "0 MPa", SI.safe(0, formula.Pascal, limits.AtMost))
	random := rand.New(rand.NewPCG(6, 1))
	for range 5000 {
		value := math.Pow(10, random.Float64()*9-2) * math.Copysign(1, random.Float64()-0.3)
		for _, u := range []Units{SI, US} {
			least, most := read(t, u.safe(value, formula.Newton, limits.AtLeast)), read(t, u.safe(value, formula.Newton, limits.AtMost))
			exact := value * u.in(formula.Newton).factor
			slack := 1e-9 * math.Abs(exact) // noise is 1e-6 of the last of four figures
			require.GreaterOrEqual(t, least, exact-slack)
			require.LessOrEqual(t, most, exact+slack)
			require.InEpsilon(t, exact, least, 1.01e-3)
			require.InEpsilon(t, exact, most, 1.01e-3)
		}
	}
}

// read is the number at the beginning of a printed quantity.
func read(t *testing.T, printed string) float64 {
	digits, _, _ := strings.Cut(strings.ReplaceAll(printed, "−", "-"), " ")
	value, err := strconv.ParseFloat(strings.Replace(digits, "·10^", "e", 1), 64)
	require.NoError(t, err, printed)
	return value
}

func TestColumnsAreAligned(t *testing.T) {
	column := SI.aligned(formula.Newton, 1960e3, 512.4e3, 0)
	require.Equal(t, []string{"1960", "512", "0"}, []string{column.text(1960e3), column.text(512.4e3), column.text(-0.2)})
}

// Numbers of the record are printed with the digits that they were written with, in
// US units with one more.
func TestRoundedNumbersKeepTheirDigits(t *testing.T) {
	for _, c := range []struct {
		value  float64
		unit   formula.Unit
		si, us string
	}{
		{16283000, formula.Pascal, "16.283 MPa", "2.36165 ksi"}, {-5399000, formula.Pascal, "−5.399 MPa", "−0.78306 ksi"}, {0, formula.Newton, "0 kN", "0 kip"},
		{1315.9e-6, formula.SquareMetre, "1315.9 mm²", "2.03965 in²"}, {0.0298681, formula.MetreToFourth, "0.0298681 m⁴", "3.460571 ft⁴"},
		{1.0 / 3, formula.One, "0.3333333333", "0.33333333333"}, {2.5e-9, formula.One, "2.5·10^−9", "2.5·10^−9"}, {1391000, formula.Newton, "1391 kN", "312.71 kip"},
	} {
		require.Equal(t, c.si, SI.exact(c.value, c.unit))
		require.Equal(t, c.us, US.exact(c.value, c.unit))
	}
	require.Equal(t, "1.391", shortest(1.391, 0))
	require.Equal(t, "−14.162", SI.digits(-14162, formula.NewtonMetre, 0))
	require.Equal(t, "−14", SI.digits(-14162, formula.NewtonMetre, 3))
	require.Equal(t, "−10.45", US.digits(-14162, formula.NewtonMetre, 3))
}

func TestWordsInUSUnits(t *testing.T) {
	for text, want := range map[string]string{
		"supports at x = 2.400 m; x = 9.600 m":          "supports at x = 7.874 ft (2.400 m); x = 31.496 ft (9.600 m)",
		"girder, x = 0.000 to 34.000 m":                 "girder, x = 0.000 to 111.549 ft (0.000 to 34.000 m)",
		"mean 46.0 MPa, report 7":                       "mean 6.672 ksi (46.0 MPa), report 7",
		"corner 8, y = −2.150 m":                        "corner 8, y = −7.054 ft (−2.150 m)",
		"x = 1.600 m, y = ±1.900 m":                     "x = 5.249 ft (1.600 m), y = ±6.234 ft (±1.900 m)",
		"24 + 1 kN/m³, 5 mm² and 3 metres stay as read": "24 + 1 kN/m³, 5 mm² and 3 metres stay as read",
		"level above 90 mm":                             "level above 3.54 in (90 mm)",
		"2 m wide":                                      "7 ft (2 m) wide",
		"strength ≥ 28.4 MPa":                           "strength ≥ 4.120 ksi (28.4 MPa)",
		"strength at least 28.4 MPa":                    "strength at least 4.120 ksi (28.4 MPa)",
		"warp ≤ 10 mm":                                  "warp ≤ 0.39 in (10 mm)",
		"level ≥ −2.150 m, level ≤ −2.150 m":            "level ≥ −7.053 ft (−2.150 m), level ≤ −7.054 ft (−2.150 m)",
		"wind of 5 kPa":                                 "wind of 0.00073 ksi (5 kPa)",
		"1,200 kN":                                      "1,200 kN",
		"1 200 kN":                                      "1 200 kN",
		"300 × 400 mm":                                  "300 × 400 mm",
		"1.2, 3.4 and 5.6 m":                            "1.2, 3.4 and 5.6 m",
		"1/3 m":                                         "1/3 m",
		"1 / 3 m":                                       "1 / 3 m",
		"M20 m":                                         "M20 m",
		"1e-05 m":                                       "1e-05 m",
		"1e5 m":                                         "1e5 m",
		"3 - 5 m":                                       "3 - 5 m",
		"C30/37 m":                                      "C30/37 m",
		"5 m2, 5 m^2, 5 m⁻¹ and 5 µm":                   "5 m2, 5 m^2, 5 m⁻¹ and 5 µm",
	} {
		require.Equal(t, want, US.words(text))
		require.Equal(t, text, SI.words(text))
	}
}

func TestUnitsByName(t *testing.T) {
	for name, want := range map[string]Units{"": SI, "si": SI, "SI": SI, "us": US, "US": US} {
		got, err := UnitsOf(name)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	_, err := UnitsOf("imperial")
	require.ErrorIs(t, err, ErrSheet)
	require.ErrorContains(t, err, `"imperial"`)
}

func TestFileNamesOfMarks(t *testing.T) {
	for mark, want := range map[string]string{
		"E-07": "E-07", "S|1 <b>": "S-1--b-a9be9e", "../../etc/x": "etc-x-56da1a", "": "element-e3b0c4", "…": "element-b49358", "C_3": "C_3", strings.Repeat("a", 99): strings.Repeat("a", 60) + "-132844",
		"S-1": "S-1", "S/1": "S-1-ac1175", "S.1": "S-1-dee438", "element": "element",
	} {
		require.Equal(t, want, fileName(mark))
	}
}

func TestExpressionsAreTypeset(t *testing.T) {
	for expression, want := range map[string][2]string{
		"R_w_1*(x - a)/2":    {"R<sub>w,1</sub>·(x − a)/2", "R_w_1·(x − a)/2"},
		"pow(f_ck/1e6, 2/3)": {"(f<sub>ck</sub>/10<sup>6</sup>)<sup>2/3</sup>", "(f_ck/10^(6))^(2/3)"},
		"pow(x, 2) - 8e6":    {"x<sup>2</sup> − 8·10<sup>6</sup>", "x^(2) − 8·10^(6)"},
		"sqrt(a + -b)*pi":    {"√(a + −b)·π", "√(a + −b)·π"},
		"max(a, exp(-μ*θ))":  {"max(a, exp(−μ·θ))", "max(a, exp(−μ·θ))"},
		"a < <b>":            {"a &lt; &lt;b&gt;", "a &lt; &lt;b&gt;"},
	} {
		require.Equal(t, want[0], htmlText(symbolic(expression)))
		require.Equal(t, want[1], markdownText(symbolic(expression)))
	}
}

// A line is its formula, the numbers put in, and the result.
func TestALineShowsTheNumbersPutIn(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	l, err := formula.Derive(formula.Q("q", 0, formula.Pascal, "stress"), "-σ_c*pow(k_t, 2) + sqrt(τ*τ)", formula.Source{Document: "a book", Confirm: true},
		formula.Q("σ_c", -5.4e6, formula.Pascal, ""), formula.Q("k_t", 0.5, formula.One, ""), formula.Q("τ", 3e6, formula.Pascal, ""))
	require.NoError(t, err)
	l.Note = "a remark"
	n := len(a.record.Sources) + 1
	symbols, numbers, result := a.parts(l, SI.exact)
	require.Equal(t, "q = −σ_c·k_t^(2) + √(τ·τ)", markdownText(symbols))
	require.Equal(t, "−(−5.4 MPa)·(0.5)^(2) + √(3 MPa·3 MPa)", markdownText(numbers))
	require.Equal(t, "4.35 MPa", result)
	require.Equal(t, fmt.Sprintf("[%d†]; a remark", n), a.remark(l).raw())
	require.Len(t, a.lines("", []formula.Line{l, l})[0].(grid).rows, 1, "once in a part of the sheet")
	l.Result.Value++
	require.Len(t, a.lines("", []formula.Line{l}), 1, "another value")
	require.Empty(t, a.lines("", []formula.Line{l}))
}

func TestAUtilisationNearOneIsOnItsSide(t *testing.T) {
	for _, c := range []struct {
		value float64
		state stages.State
		want  string
	}{
		{0.26, stages.Pass, "0.26"}, {0.99, stages.Pass, "0.99"}, {0.9436, stages.Pass, "0.95"}, {0.9949, stages.Pass, "0.995"}, {0.995, stages.Pass, "0.995"}, {0.9968, stages.Pass, "0.997"}, {0.999999, stages.Pass, "0.999"},
		{1, stages.Pass, "1.000"}, {1.0000001, stages.Fail, "1.001"}, {1.0031, stages.Fail, "1.004"}, {1.005, stages.Fail, "1.01"}, {1.0051, stages.Fail, "1.01"}, {1.4, stages.Conditional, "1.40"},
		{1.0031, stages.Conditional, "1.003"}, {0, stages.NotEvaluated, "n/e"}, {0, stages.Pass, "0.00"},
	} {
		require.Equal(t, c.want, ratio(stages.Check{Utilisation: c.value, State: c.state, Limit: formula.Quantity{Value: 5}}), "%g", c.value)
	}
	require.Equal(t, "—", ratio(stages.Check{Utilisation: 0.3, State: stages.Pass}), "a limit of zero has a margin only")
}
