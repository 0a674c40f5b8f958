package formula_test

import (
	"fmt"
	"math"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
)

func ExampleDerive() {
	line, err := formula.Derive(
		formula.Q("M", 0, formula.NewtonMetre, "moment at mid-span"), "q*pow(L, 2)/8", formula.Mechanics,
		formula.Q("q", 105e3, formula.NewtonPerMetre, "weight per metre"),
		formula.Q("L", 30, formula.Metre, "span"))
	fmt.Printf("%s = %s = %.1f kN·m, %v\n", line.Result.Symbol, line.Expression, line.Result.Value/1e3, err)
	// Output: M = q*pow(L, 2)/8 = 11812.5 kN·m, <nil>
}

func ExampleLine_Recompute() {
	line := formula.Line{
		Result:     formula.Q("σ", 0, formula.Pascal, "mean stress"),
		Expression: "N/A",
		Operands:   []formula.Quantity{formula.Q("N", -9e6, formula.Newton, "normal force")},
	}
	_, err := line.Recompute()
	fmt.Println(err)
	// Output: expression "N/A" of σ: symbol "A" has no operand
}

func TestRecomputeKnowsItsFunctions(t *testing.T) {
	operands := []formula.Quantity{{Symbol: "a", Value: 3}, {Symbol: "β_1", Value: -2}}
	for expression, want := range map[string]float64{
		"a + β_1*2 - 1/4":             3 - 4 - 0.25,
		"-(a - 1)":                    -2,
		"+a":                          3,
		"sqrt(a*a) + abs(β_1)":        5,
		"exp(ln(a))":                  3,
		"pow(a, 2) + min(a, β_1, 7)":  7,
		"max(a, β_1)":                 3,
		"sin(pi/2) + cos(0) + tan(0)": 2,
		"atan(1)":                     math.Pi / 4,
		"1.5e3":                       1500,
	} {
		got, err := formula.Line{Expression: expression, Operands: operands}.Recompute()
		require.NoError(t, err, expression)
		require.InDelta(t, want, got, 1e-12, expression)
	}
}

func TestRecomputeRefuses(t *testing.T) {
	for _, expression := range []string{
		"a +", "b", "a ^ 2", "!a", "f(a)", "sqrt(a, a)", "pow(a)", "min()", "1/0", "sqrt(0-1)",
		"a.b", "a.f(1)", "func() {}", `"a"`, "ln(b)", "b + a", "a + b", "f(b)",
	} {
		line := formula.Line{Result: formula.Quantity{Symbol: "y"}, Expression: expression,
			Operands: []formula.Quantity{{Symbol: "a", Value: 1}}}
		value, err := line.Recompute()
		require.ErrorIs(t, err, formula.ErrExpression, expression)
		require.Zero(t, value, expression)
	}
}

func TestGivenLineRecomputesToItself(t *testing.T) {
	line := formula.Given(formula.Q("f_ck", 50e6, formula.Pascal, "cylinder strength"), formula.Source{Document: "mix design"})
	value, err := line.Recompute()
	require.NoError(t, err)
	require.Equal(t, 50e6, value)
}

func TestSourceSaysWhatToConfirm(t *testing.T) {
	source := formula.Source{Document: "EN 1992-1-1:2004", Place: "5.10.2.2(5)"}
	require.Equal(t, "EN 1992-1-1:2004 5.10.2.2(5)", source.String())
	source.Confirm = true
	require.Equal(t, "EN 1992-1-1:2004 5.10.2.2(5) (confirm against the edition in force)", source.String())
}

// Expressions are parsed once and shared; past the size of the store they are
// parsed each time, with the same result.
func TestManyExpressionsFromManyGoroutines(t *testing.T) {
	var group sync.WaitGroup
	wrong := make(chan string, 8*3000)
	for worker := range 8 {
		group.Add(1)
		go func() {
			defer group.Done()
			for i := range 3000 {
				line := formula.Line{Expression: fmt.Sprintf("a + %d", i+worker%2*3000), Operands: []formula.Quantity{{Symbol: "a", Value: float64(worker)}}}
				if value, err := line.Recompute(); err != nil || value != float64(worker+i+worker%2*3000) {
					wrong <- line.Expression
				}
			}
		}()
	}
	group.Wait()
	require.Empty(t, wrong)
}
