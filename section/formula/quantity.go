package formula

// Unit is the coherent SI unit of a Quantity, written as an engineer writes it;
// stages/sheet prints other units.
type Unit string

// The units of this module.
const (
	One                    Unit = "1"       // pure number
	Metre                  Unit = "m"       // length, coordinate, deflection
	SquareMetre            Unit = "m²"      // area
	CubicMetre             Unit = "m³"      // section modulus, first moment of area, volume
	MetreToFourth          Unit = "m⁴"      // second moment of area
	MetreToSixth           Unit = "m⁶"      // warping constant
	Radian                 Unit = "rad"     // angle
	RadianPerMetre         Unit = "rad/m"   // wobble, curvature
	PerRadian              Unit = "1/rad"   // friction coefficient
	PerMetre               Unit = "1/m"     // shear flow for unit force
	PerSquareMetre         Unit = "1/m²"    // shear flow for unit moment
	Newton                 Unit = "N"       // force
	NewtonPerMetre         Unit = "N/m"     // line load, spring
	NewtonMetre            Unit = "N·m"     // moment, couple
	NewtonPerCubic         Unit = "N/m³"    // weight density
	NewtonSquareMetre      Unit = "N·m²"    // bending stiffness EI, bimoment
	NewtonMetrePerRadian   Unit = "N·m/rad" // roll stiffness
	MetrePerSecond         Unit = "m/s"     // wind speed
	Second                 Unit = "s"       // averaging time of a wind speed
	Kelvin                 Unit = "K"       // difference or change of temperature
	SquareMetrePerKilogram Unit = "m²/kg"   // sail area of a load
	NewtonPerSquareMetre   Unit = "N/m²"    // ground pressure, adhesion
	Pascal                 Unit = "Pa"      // stress, strength, modulus
	Day                    Unit = "d"       // age, day of the project
	Kilogram               Unit = "kg"      // mass
)

// Quantity is a number with its symbol, its unit and its name.
type Quantity struct {
	// Symbol is that of the quantity in expressions, e.g. "σ_c".
	Symbol string `json:"s"`
	// Name is its name in words, e.g. "concrete stress at the soffit".
	Name string `json:"n,omitempty"`
	// Value is the number in SI, in the unit named by Unit; always finite.
	Value float64 `json:"v"`
	// Unit is the coherent SI unit of Value.
	Unit Unit `json:"u,omitempty"`
}

// Q is short for a Quantity: symbol, value in SI, unit and name in words.
func Q(symbol string, value float64, unit Unit, name string) Quantity {
	return Quantity{Symbol: symbol, Name: name, Value: value, Unit: unit}
}
