package derive

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// digitsOfLine is the number of significant digits of a result; its operands have
// one less at least.
const digitsOfLine = 5

// finestResult is the last digit of results beyond which nobody measures: 10 N,
// 0.1 kN·m, 0.001 MPa, 0.01 mm, 1e-9 of other units. It also keeps the noise of
// a difference that ought to be zero from being written down.
func finestResult(unit formula.Unit) int {
	switch unit {
	case formula.Newton:
		return 1
	case formula.NewtonMetre:
		return 2
	case formula.Pascal:
		return 3
	case formula.Metre:
		return -5
	}
	return -9
}

// lastOfResult is the last digit of a line's result.
func lastOfResult(q formula.Quantity) int {
	if q.Value == 0 {
		return finestResult(q.Unit)
	}
	return max(finestResult(q.Unit), lastOf(q.Value, digitsOfLine))
}

// Rounded is the line in the fewest digits with which it recomputes: the result
// rounded from full precision to five significant digits, but no finer than
// 0.01 kN, 0.1 kN·m, 0.001 MPa or 0.01 mm; its operands to four significant digits
// and as many more as the result needs. The result of a line without an expression keeps
// seven: it is an input, or comes from elsewhere. The error wraps [ErrDerive]: an
// expression that cannot be read, or a value that it does not give.
func Rounded(line formula.Line) (formula.Line, error) { return RoundedTo(line, Nearest) }

// RoundedTo is Rounded with the result on one side of its exact value: a demand or a limit
// is on its safe side wherever it is printed.
func RoundedTo(line formula.Line, side Side) (formula.Line, error) {
	exact := line
	if line.Expression == "" {
		line.Result.Value = Significant(line.Result.Value, digitsOfGiven)
		return line, finite(line)
	}
	if err := finite(line); err != nil {
		return line, err
	}
	last := lastOfResult(line.Result)
	line.Result.Value = side.Round(line.Result.Value, last)
	if len(line.Operands) == 1 && line.Expression == "-"+line.Operands[0].Symbol { // the same number with the other sign
		line.Operands = []formula.Quantity{exact.Operands[0]}
		line.Operands[0].Value = -line.Result.Value
		return line, nil
	}
	lasts := make([]int, len(line.Operands))
	for i, q := range line.Operands {
		lasts[i] = lastOf(q.Value, digitsOfLine-1)
	}
	for {
		line.Operands = make([]formula.Quantity, len(lasts))
		for i, q := range exact.Operands {
			q.Value = Round(q.Value, lasts[i])
			line.Operands[i] = q
		}
		err := CheckLine(line)
		if err == nil {
			return line, nil
		}
		worst := weakest(line, exact, last)
		if worst < 0 {
			return exact, err
		}
		lasts[worst]--
	}
}

// digitsOfGiven is the number of significant digits of an input.
const digitsOfGiven = 7

// weakest is the operand whose rounding changes the result most; −1 where none
// changes it by a fiftieth of its last digit.
func weakest(line, exact formula.Line, last int) int {
	worst, effect := -1, scaled(0.02, last)
	base, err := line.Recompute()
	for i := range line.Operands {
		rounded := line.Operands[i]
		if rounded.Value == exact.Operands[i].Value {
			continue
		}
		line.Operands[i] = exact.Operands[i]
		with, wrong := line.Recompute()
		line.Operands[i] = rounded
		if change := math.Abs(with - base); err != nil || wrong != nil || change > effect {
			worst, effect = i, change
		}
	}
	return worst
}

// CheckLine recomputes a line from its printed digits. The error wraps
// [ErrDerive]: the result, rounded, differs by more than one unit of its last
// digit, or the expression cannot be read.
func CheckLine(line formula.Line) error {
	got, err := line.Recompute()
	if err != nil {
		return fmt.Errorf("%w: %w", ErrDerive, err)
	}
	if last := lastOfResult(line.Result); line.Expression != "" && !within(got, line.Result.Value, last) {
		return fmt.Errorf("%w: %s = %s is %.9g %s from its printed numbers and %.9g as written, last digit 1e%d: must agree",
			ErrDerive, line.Result.Symbol, line.Expression, got, line.Result.Unit, line.Result.Value, last)
	}
	return nil
}

// finite reports a number of a line that is not finite.
func finite(line formula.Line) error {
	for _, q := range append([]formula.Quantity{line.Result}, line.Operands...) {
		if unbounded(q.Value) {
			return fmt.Errorf("%w: %s of the line for %s is %g: must be finite",
				ErrDerive, q.Symbol, line.Result.Symbol, q.Value)
		}
	}
	return nil
}
