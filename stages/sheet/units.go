package sheet

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
)

// Units are the units of a sheet. The Record is in SI whatever the sheet prints.
type Units string

// The units that a sheet can be printed in; an empty Units means SI.
const (
	SI Units = "si" // kN, kN·m, MPa, m, mm, t (1000 kg)
	US Units = "us" // kip, kip·ft, ksi, ft, in, lb
)

// UnitsOf are the units of that name, "si" or "us". The error wraps [ErrSheet].
func UnitsOf(name string) (Units, error) {
	switch u := Units(strings.ToLower(name)); u {
	case "", SI:
		return SI, nil
	case US:
		return US, nil
	}
	return SI, fmt.Errorf("%w: units = %q: must be %q or %q", ErrSheet, name, SI, US)
}

// printed is how a unit is printed: another unit and the factor to it.
type printed struct {
	unit   string
	factor float64
}

// Units of shear stress under unit forces.
const (
	perArea                = formula.PerSquareMetre
	perVolume formula.Unit = "1/m³"
)

// The US customary units in SI, exact by definition.
const (
	foot      = 0.3048              // m
	inch      = 0.0254              // m
	mile      = 5280 * foot         // m
	poundMass = 0.45359237          // kg
	pound     = poundMass * 9.80665 // N
	kip       = 1000 * pound        // N
	ksi       = kip / (inch * inch) // Pa
	kipFoot   = kip * foot          // N·m
	cubicFoot = foot * foot * foot  // m³
	fourFoot  = cubicFoot * foot    // m⁴
	squareIn  = inch * inch         // m²
	squareFt  = foot * foot         // m²
	stiffness = kip * squareFt      // N·m²
	density   = pound / cubicFoot   // N/m³
	small     = 0.1                 // m: a shorter length is printed in mm
	smallArea = small * small       // m²: a smaller area is printed in mm²
	shortUS   = 2 * foot            // m: a shorter length is printed in inches
	areaUS    = squareFt            // m²: a smaller area is printed in square inches
)

// table is what a sheet prints a unit in.
var table = map[Units]map[formula.Unit]printed{
	SI: {
		formula.One: {"", 1}, formula.Metre: {"m", 1}, formula.SquareMetre: {"m²", 1}, formula.CubicMetre: {"m³", 1}, formula.MetreToFourth: {"m⁴", 1}, formula.MetreToSixth: {"m⁶", 1},
		formula.Radian: {"rad", 1}, formula.RadianPerMetre: {"rad/m", 1}, formula.PerRadian: {"1/rad", 1}, formula.PerMetre: {"1/m", 1},
		formula.Newton: {"kN", 1e-3}, formula.NewtonPerMetre: {"kN/m", 1e-3}, formula.NewtonMetre: {"kN·m", 1e-3}, formula.NewtonPerCubic: {"kN/m³", 1e-3},
		formula.NewtonSquareMetre: {"kN·m²", 1e-3}, formula.Pascal: {"MPa", 1e-6}, formula.Day: {"d", 1}, formula.Kilogram: {"t", 1e-3}, formula.MetrePerSecond: {"m/s", 1}, formula.Second: {"s", 1}, formula.Kelvin: {"K", 1},
		formula.NewtonMetrePerRadian: {"kN·m/rad", 1e-3}, formula.SquareMetrePerKilogram: {"m²/t", 1e3}, formula.NewtonPerSquareMetre: {"kN/m²", 1e-3},
		perArea: {"1/m²", 1}, perVolume: {"1/m³", 1},
	},
	US: {
		formula.One: {"", 1}, formula.Metre: {"ft", 1 / foot}, formula.SquareMetre: {"ft²", 1 / squareFt}, formula.CubicMetre: {"ft³", 1 / cubicFoot}, formula.MetreToFourth: {"ft⁴", 1 / fourFoot}, formula.MetreToSixth: {"ft⁶", 1 / (cubicFoot * cubicFoot)},
		formula.Radian: {"rad", 1}, formula.RadianPerMetre: {"rad/ft", foot}, formula.PerRadian: {"1/rad", 1}, formula.PerMetre: {"1/ft", foot},
		formula.Newton: {"kip", 1 / kip}, formula.NewtonPerMetre: {"kip/ft", foot / kip}, formula.NewtonMetre: {"kip·ft", 1 / kipFoot}, formula.NewtonPerCubic: {"lb/ft³", 1 / density},
		formula.NewtonSquareMetre: {"kip·ft²", 1 / stiffness}, formula.Pascal: {"ksi", 1 / ksi}, formula.Day: {"d", 1}, formula.Kilogram: {"lb", 1 / poundMass}, formula.MetrePerSecond: {"mph", 3600 / mile}, formula.Second: {"s", 1}, formula.Kelvin: {"°F", 1.8},
		formula.NewtonMetrePerRadian: {"kip·ft/rad", 1 / kipFoot}, formula.SquareMetrePerKilogram: {"ft²/lb", poundMass / squareFt}, formula.NewtonPerSquareMetre: {"kip/ft²", squareFt / kip},
		perArea: {"1/in²", inch * inch}, perVolume: {"1/(ft·in²)", foot * inch * inch},
	},
}

// short is what small lengths and areas are printed in, and below which value
// in SI.
var short = map[Units]map[formula.Unit]struct {
	printed
	below float64
}{
	SI: {formula.Metre: {printed{"mm", 1e3}, small}, formula.SquareMetre: {printed{"mm²", 1e6}, smallArea}},
	US: {formula.Metre: {printed{"in", 1 / inch}, shortUS}, formula.SquareMetre: {printed{"in²", 1 / squareIn}, areaUS}},
}

// filled is SI for units left out.
func (u Units) filled() Units {
	if u == US {
		return US
	}
	return SI
}

// in is the unit in which columns and axes print a unit; one that the table does
// not know is printed as it stands.
func (u Units) in(unit formula.Unit) printed {
	if p, ok := table[u.filled()][unit]; ok {
		return p
	}
	return printed{string(unit), 1}
}

// of is the unit in which a single value is printed: a smaller one for small
// lengths and areas.
func (u Units) of(value float64, unit formula.Unit) printed {
	if p, ok := short[u.filled()][unit]; ok && value != 0 && math.Abs(value) < p.below {
		return p.printed
	}
	return u.in(unit)
}

// small is the unit of small lengths.
func (u Units) small() string { return short[u.filled()][formula.Metre].unit }

// inSmall is a length in the unit of small lengths, without the unit.
func (u Units) inSmall(value float64) string {
	p := short[u.filled()][formula.Metre].printed
	return p.nearest(value * p.factor)
}

// nearest is a printed value with four figures; a part of an inch has two decimals, for
// less than a hundredth nobody sets out.
func (p printed) nearest(value float64) string {
	if size := math.Abs(value); p.unit == "in" && size >= 0.1 && size < 1 {
		return trimmed(value, 2)
	}
	return number(value)
}

// head is the title of a column: what it holds and its unit.
func (u Units) head(title string, unit formula.Unit) string {
	return strings.TrimSpace(title + " " + u.in(unit).unit)
}

// headed is the title of a column of a symbol.
func (u Units) headed(of string, unit formula.Unit) prose {
	return prose{{symbol, of}}.and(plain, strings.TrimRight(" "+u.in(unit).unit, " "))
}

// place is a coordinate to the millimetre, whatever its size.
func (u Units) place(value float64) string {
	p := u.in(formula.Metre)
	return trimmed(value*p.factor, 3) + " " + p.unit
}

// quantity is a value with its printed unit: four significant figures, or
// coordinates and lengths to the millimetre.
func (u Units) quantity(value float64, unit formula.Unit) string {
	p := u.of(value, unit)
	text := p.nearest(value * p.factor)
	if unit == formula.Metre && p == u.in(unit) {
		text = trimmed(value*p.factor, 3)
	}
	return strings.TrimSpace(text + " " + p.unit)
}

// beside is a value beside what is required of it; one below the last figure of that is 0
// in the same unit.
func (u Units) beside(value float64, required formula.Quantity) string {
	if math.Abs(value) > math.Pow10(-figures)*math.Abs(required.Value) || value != 0 && required.Value == 0 {
		return u.quantity(value, required.Unit)
	}
	return strings.TrimSpace("0 " + u.of(required.Value, required.Unit).unit)
}
