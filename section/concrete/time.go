package concrete

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// TimeModel is a Model that also gives creep and shrinkage. All times are calendar ages
// of the concrete in days; adjustment for temperature and cement is inside the model.
//
// Creep gives numbers alone, for use in time steps; CreepLines and
// ShrinkageLines derive the same numbers line by line. Every error wraps
// [ErrConcrete].
type TimeModel interface {
	Model
	// Creep is the creep coefficient φ at an age under a stress that has acted
	// since the age loaded: creep strain = φ·σ/CreepModulus(loaded). It is 0 at
	// age = loaded; an earlier age is an error.
	Creep(age, loaded float64) (float64, error)
	// CreepModulus is the modulus (Pa) to which φ relates.
	CreepModulus(loaded float64) (float64, error)
	// CreepUnder is φ for a compressive stress (Pa, a magnitude), larger than
	// Creep where the stress is beyond the model's linear range.
	CreepUnder(age, loaded, stress float64) (float64, error)
	// CreepLines derive φ(age, loaded).
	CreepLines(age, loaded float64) ([]formula.Line, error)
	// Shrinkage is the free strain from casting to an age.
	Shrinkage(age float64) (Shrinkage, error)
	// ShrinkageLines derive the strain at an age.
	ShrinkageLines(age float64) ([]formula.Line, error)
}

// Shrinkage is a free shortening of concrete, positive as shortening.
type Shrinkage struct {
	Total      float64 // m/m
	Drying     float64 // part from drying, 0 in a model that does not part them
	Autogenous float64 // part from hydration, 0 in a model that does not part them
}

// Exposure is the data of the drying of a member.
type Exposure struct {
	Humidity     float64 // relative, of the ambient air, as a fraction: 0.70 for 70 %
	NotionalSize float64 // h0 = 2·Ac/u, m, with u the perimeter that dries; volume to surface is half of it
	DryingFrom   float64 // age at the end of curing, d; 0 means from casting
}

// check reports the first field that is out of range, for a model valid from a humidity
// on.
func (e Exposure) check(driest float64) error {
	return within(
		bound{"Exposure.Humidity", e.Humidity, "", driest, 1, " (70 % is 0.70)"},
		bound{"Exposure.NotionalSize", e.NotionalSize, "m", 0.1, 5, ""},
		bound{"Exposure.DryingFrom", e.DryingFrom, "d", 0, longest, ""},
	)
}

func (e Exposure) humidity() formula.Quantity {
	return formula.Q("RH", e.Humidity, formula.One, "relative humidity")
}

func (e Exposure) size() formula.Quantity {
	return formula.Q("h_0", e.NotionalSize, formula.Metre, "notional size 2·Ac/u")
}

// drying is the time since the end of curing (d), 0 before.
func (e Exposure) drying(age float64) float64 { return math.Max(0, age-e.DryingFrom) }

func (e Exposure) dryingTime(age float64) formula.Quantity {
	return formula.Q("t_d", e.drying(age), formula.Day, fmt.Sprintf("time of drying at %g d", age))
}

func (e Exposure) inputs() []formula.Line {
	if e == (Exposure{}) {
		return nil
	}
	site := formula.Source{Document: "exposure of the member"}
	return []formula.Line{
		formula.Given(e.humidity(), site), formula.Given(e.size(), site),
		formula.Given(formula.Q("t_s", e.DryingFrom, formula.Day, "age at the end of curing"), site),
	}
}

// checkLoading reports ages of loading that no model covers.
func checkLoading(age, loaded float64) error {
	if err := within(bound{"loaded", loaded, "d", leastAge, oldest, ""}); err != nil {
		return err
	}
	if !(age >= loaded && age <= oldest) {
		return fmt.Errorf("%w: age = %g d: must be at least the age at loading, %g d, at most %g d", ErrConcrete, age, loaded, oldest)
	}
	return nil
}

// checkStress refuses a stress that is not a magnitude.
func checkStress(stress float64) error {
	if stress >= 0 && stress < negligible {
		return nil
	}
	return within(bound{"stress", stress, "Pa", leastStress, 1e9, " as a magnitude, or 0"})
}

// underLoad are the operands of every creep function.
func underLoad(age, loaded float64) formula.Quantity {
	return formula.Q("t_l", age-loaded, formula.Day, fmt.Sprintf("time under load, from %g d to %g d", loaded, age))
}

// Compliance is the strain at an age for a unit stress applied at the age
// loaded, 1/State.Modulus + φ/CreepModulus (1/Pa). The elastic part has the secant
// modulus with every model. The fib Model Code 2010, (5.1-61), has the tangent one
// there: with [FIB2010] the elastic part is larger than that by 1/(0.8 +
// 0.2·fcm/88 MPa), up to 18 %, and as in 5.1.7.2 contains the early plastic strain.
// The errors are the model's.
func Compliance(m TimeModel, age, loaded float64) (float64, error) {
	if Missing(m) {
		return 0, errMissing
	}
	state, err := m.At(loaded)
	if err != nil {
		return 0, err
	}
	modulus, err := m.CreepModulus(loaded)
	if err != nil {
		return 0, err
	}
	creep, err := m.Creep(age, loaded)
	return 1/state.Modulus + creep/modulus, err
}
