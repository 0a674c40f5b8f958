package derive

import "math"

// Side is the side of its exact value to which a number is rounded.
type Side int

// The sides.
const (
	Nearest Side = iota
	Up           // not below
	Down         // not above
)

// Round is a value with its last digit at 10^last, on the side.
func (s Side) Round(value float64, last int) float64 {
	near, noise := Round(value, last), 1e-9*math.Abs(value) // of adding up
	switch {
	case s == Up && near < value-noise:
		return Round(near+math.Pow10(last), last)
	case s == Down && near > value+noise:
		return Round(near-math.Pow10(last), last)
	}
	return near
}

// CutSum cuts the sum of a table (number from 1) to a side of its exact value (SI), by
// magnitude, at its last digit.
func (l *Lists) CutSum(number int, exact float64, side Side) {
	if number < 1 || number > len(l.Tables) {
		return
	}
	t := l.Tables[number-1]
	t.Sum.Value = math.Copysign(side.Round(math.Abs(exact), t.SumAt), t.Sum.Value)
	if Check(t, l.States) == nil {
		l.Tables[number-1].Sum.Value = t.Sum.Value
	}
}
