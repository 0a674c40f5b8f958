package answers

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// side is to which side a number is rounded.
type side int

const (
	nearest side = iota
	up
	down
)

// printed is how a unit is written in words: factor, unit, decimals.
func (a Answer) printed() (factor float64, unit string, decimals int) {
	switch {
	case a.Percent:
		return 100, "%", 1
	case a.Small:
		return 1e3, "mm", 1
	case a.Unit == formula.Pascal:
		return 1e-6, "MPa", 1
	case a.Unit == formula.Newton:
		return 1e-3, "kN", 1
	case a.Unit == formula.One:
		return 1, "", 3
	case a.Unit == formula.MetrePerSecond:
		return 1, "m/s", 1
	}
	return 1, string(a.Unit), 2
}

// number is a value in the words' unit without it, rounded to a side.
func (a Answer) number(value float64, to side) string {
	factor, _, decimals := a.printed()
	scale := math.Pow(10, float64(decimals))
	v := value * factor * scale
	// A value that is the printed one within the precision of the proof is not moved by a digit.
	if near := math.Round(v); math.Abs(v-near) > 1e-3 {
		switch to {
		case up:
			v = math.Ceil(v)
		case down:
			v = math.Floor(v)
		}
	}
	return fmt.Sprintf("%.*f", decimals, math.Round(v)/scale+0) // + 0: no minus before zero
}

// words is a value with its unit, rounded to a side.
func (a Answer) words(value float64, to side) string {
	if _, unit, _ := a.printed(); unit != "" {
		return a.number(value, to) + " " + unit
	}
	return a.number(value, to)
}

// span is two values with their unit, rounded inwards; in full where nothing is left.
func (a Answer) span(from, to float64) string {
	low, high := a.number(from, up), a.words(to, down)
	var l, h float64
	fmt.Sscan(low, &l)
	fmt.Sscan(high, &h)
	if l > h || from < to && l == h {
		factor, unit, _ := a.printed()
		return fmt.Sprintf("%.8g to %.8g %s", from*factor, to*factor, unit)
	}
	return low + " to " + high
}
