package sheet

import (
	"math"
	"strconv"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
)

// printed is how a unit is printed: another unit and the factor to it.
type printed struct {
	unit   string
	factor float64
}

// metric is the sheet's units for SI quantities.
var metric = map[formula.Unit]printed{
	formula.One:               {"", 1},
	formula.Metre:             {"m", 1},
	formula.SquareMetre:       {"m²", 1},
	formula.CubicMetre:        {"m³", 1},
	formula.MetreToFourth:     {"m⁴", 1},
	formula.Radian:            {"rad", 1},
	formula.RadianPerMetre:    {"rad/m", 1},
	formula.PerRadian:         {"1/rad", 1},
	formula.Newton:            {"kN", 1e-3},
	formula.NewtonPerMetre:    {"kN/m", 1e-3},
	formula.NewtonMetre:       {"kN·m", 1e-3},
	formula.NewtonPerCubic:    {"kN/m³", 1e-3},
	formula.NewtonSquareMetre: {"kN·m²", 1e-3},
	formula.Pascal:            {"MPa", 1e-6},
	formula.Day:               {"d", 1},
	formula.Kilogram:          {"t", 1e-3},
}

// small are units for lengths and areas too small to be read in metres.
var small = map[formula.Unit]printed{
	formula.Metre:       {"mm", 1e3},
	formula.SquareMetre: {"mm²", 1e6},
}

// below is where the small units begin, in SI.
var below = map[formula.Unit]float64{formula.Metre: 0.1, formula.SquareMetre: 0.01}

// in is the printed unit of a quantity: millimetres for lengths below 0.1 m and
// square millimetres for areas below 0.01 m².
func in(value float64, unit formula.Unit) printed {
	if p, ok := small[unit]; ok && value != 0 && math.Abs(value) < below[unit] {
		return p
	}
	if p, ok := metric[unit]; ok {
		return p
	}
	return printed{string(unit), 1}
}

// number is a value with five significant figures, as an engineer writes it.
func number(value float64) string {
	if value == 0 {
		return "0"
	}
	size := math.Floor(math.Log10(math.Abs(value)))
	if size >= 7 || size < -4 {
		return strings.ReplaceAll(strconv.FormatFloat(value, 'e', 4, 64), "-", "−")
	}
	decimals := max(0, 4-int(size))
	text := strconv.FormatFloat(value, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return strings.Replace(text, "-", "−", 1)
}

// quantity is a value with its printed unit.
func quantity(value float64, unit formula.Unit) string {
	p := in(value, unit)
	return strings.TrimSpace(number(value*p.factor) + " " + p.unit)
}

// fixed is a value in the metric unit with a fixed number of decimals, for
// tables.
func fixed(value float64, unit formula.Unit, decimals int) string {
	text := strconv.FormatFloat(value*metric[unit].factor, 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return strings.Replace(text, "-", "−", 1)
}
