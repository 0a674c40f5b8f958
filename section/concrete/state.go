package concrete

import (
	"errors"
	"fmt"
	"reflect"

	"github.com/tempstage/tempstage/section/formula"
)

// ErrConcrete is wrapped by every error about a concrete, an age or a test that
// is out of range.
var ErrConcrete = errors.New("concrete")

// Model is a published model of concrete, as the stage engine uses it.
type Model interface {
	// At is the concrete at an age (days, > 0). The error wraps ErrConcrete and
	// names the field, its value and what it must be.
	At(age float64) (State, error)
	// Shown is the model with one more test: strength (fck, cylinder, Pa) shown
	// at the age (d), in place of any test at that age and later.
	Shown(age, strength float64) Model
	// Inputs are the data of the model, as lines of the calculation.
	Inputs() []formula.Line
}

// Missing is true where no model is given: nil, or a nil pointer to one.
func Missing(m Model) bool {
	if m == nil {
		return true
	}
	v := reflect.ValueOf(m)
	return v.Kind() == reflect.Pointer && v.IsNil()
}

// errMissing is the error of a model that is not given.
var errMissing = fmt.Errorf("%w: the model is nil: must be a model with its Exposure", ErrConcrete)

// State is a concrete at one age.
type State struct {
	Age            float64 // d
	Characteristic float64 // fck(t), cylinder, Pa
	Mean           float64 // fcm(t), cylinder, Pa
	TensileMean    float64 // fctm(t), Pa
	TensileLow     float64 // fctk,0.05(t), Pa
	Modulus        float64 // Ecm(t), secant, Pa
	NeedsTest      bool    // Characteristic must be shown by a test: no standard gives it at this age
	Basis          string  // of Characteristic, in words
	// Derivation is the lines that give the values above.
	Derivation []formula.Line
}
