package derive

import "math"

// CutLine cuts the result of a line (number from 1) to one side of its exact value (SI), at
// its last digit: the result of a demand or a limit is on its safe side wherever it is
// printed. A line that would not recompute is left as it is.
func (l *Lists) CutLine(number int, exact float64, upwards bool) {
	line, err := l.Line(number)
	if err != nil {
		return
	}
	line.Result.Value = cutTo(exact, lastOfResult(line.Result), upwards)
	if CheckLine(line) == nil {
		l.Lines[number-1].Result.Value = line.Result.Value
	}
}

// CutSum cuts the sum of a table (number from 1) to one side of its exact value (SI), by
// magnitude, at its last digit.
func (l *Lists) CutSum(number int, exact float64, upwards bool) {
	if number < 1 || number > len(l.Tables) {
		return
	}
	t := l.Tables[number-1]
	t.Sum.Value = math.Copysign(cutTo(math.Abs(exact), t.SumAt, upwards), t.Sum.Value)
	if Check(t, l.States) == nil {
		l.Tables[number-1].Sum.Value = t.Sum.Value
	}
}

// cutTo is the value with its last digit at 10^last that is not below, or not above it.
func cutTo(value float64, last int, upwards bool) float64 {
	near := Round(value, last)
	noise := 1e-9 * math.Abs(value) // of adding up
	switch {
	case upwards && near < value-noise:
		return Round(near+math.Pow10(last), last)
	case !upwards && near > value+noise:
		return Round(near-math.Pow10(last), last)
	}
	return near
}
