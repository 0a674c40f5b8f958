package tendon

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
)

// Period is the time from the stressing of a tendon to a later age of the concrete: the
// part of EN 1992-1-1:2004 5.10.6, (5.46), that is the same all along the tendon. It is
// made by [NewPeriod], which checks it; [Period.Losses] has no error.
type Period struct {
	From, To     float64  // ages of the concrete, d
	Modulus      float64  // Ep, Pa
	Shrinkage    float64  // ε_cs of the concrete from From to To, shortening positive
	Creep        float64  // φ(To, From)
	Concrete     float64  // Ecm at 28 d, Pa
	CreepModulus float64  // to which φ is taken to relate: see the function CreepModulus, Pa
	Relaxing     Relaxing // of the steel; its zero value for a steel of unknown class: no relaxation

	elastic, creeping float64 // Ep/Ecm and 0.8·φ·Ep/CreepModulus
}

// NewPeriod is the period between two ages (d) of a concrete for a tendon of the
// modulus Ep (Pa). The error wraps [ErrTendon] or [concrete.ErrConcrete].
func NewPeriod(model concrete.TimeModel, modulus, from, to float64, relaxing Relaxing) (Period, error) {
	p := Period{From: from, To: to, Modulus: modulus, Relaxing: relaxing}
	if concrete.Missing(model) {
		return Period{}, errNoModel
	}
	begin, err := model.Shrinkage(from)
	if err != nil {
		return Period{}, err
	}
	end, err := model.Shrinkage(to)
	if err != nil {
		return Period{}, err
	}
	p.Shrinkage = end.Total - begin.Total
	if p.Creep, err = model.Creep(to, from); err != nil {
		return Period{}, err
	}
	state, err := model.At(28)
	if err != nil {
		return Period{}, err
	}
	p.Concrete = state.Modulus
	if p.CreepModulus, err = CreepModulus(model, from); err != nil {
		return Period{}, err
	}
	return p.prepared()
}

var errNoModel = fmt.Errorf("%w: the concrete is missing: must be a model with its Exposure", ErrTendon)

// prepared fills what follows from the fields.
func (p Period) prepared() (Period, error) {
	err := within("", bound{"modulus of the tendon", p.Modulus, "Pa", 50e9, 300e9},
		bound{"modulus of the concrete at 28 d", p.Concrete, "Pa", 1e9, 200e9}, bound{"modulus of creep", p.CreepModulus, "Pa", 1e9, 200e9},
		bound{"φ", p.Creep, "", 0, 100}, bound{"shrinkage", p.Shrinkage, "", -0.01, 0.01})
	if err != nil {
		return Period{}, err
	}
	p.elastic, p.creeping = p.Modulus/p.Concrete, 0.8*p.Creep*p.Modulus/p.CreepModulus
	return p, nil
}

// CreepModulus is the modulus (Pa) by which (5.46) divides the creep of a stress
// applied at the age loaded (d): Ecm at 28 d (Table 3.1), which is what the
// standard prints although its φ relates to 1.05·Ecm (3.1.4(2)), so that its
// creep strain is 5 % larger than by 3.1.4(3); or the modulus to which the model's
// φ relates, where that is smaller, as Ec at loading is for AASHTO LRFD. The
// larger strain of the two is taken. The error is the model's, or wraps [ErrTendon]
// where there is none.
func CreepModulus(model concrete.TimeModel, loaded float64) (float64, error) {
	if concrete.Missing(model) {
		return 0, errNoModel
	}
	state, err := model.At(28)
	if err != nil {
		return 0, err
	}
	modulus, err := model.CreepModulus(loaded)
	return math.Min(state.Modulus, modulus), err
}

// Place is one section of a tendon over a [Period]; for a tendon without bond, the
// means along its free length, see [Path.Mean].
type Place struct {
	// CreepStrain is the strain (shortening positive) by which the concrete beside
	// the tendon would creep since the tendon was stressed: Σ φ·σ/E over the lasting
	// stresses, each with φ of its own age of loading less what had crept before the
	// tendon was stressed, σ its compression (Pa) and E its [CreepModulus].
	CreepStrain float64
	Stress      float64 // of the tendon, from which it relaxes, Pa
	Stiffening  float64 // by [Stiffening], of all tendons that shorten together
}

// Losses are the time-dependent parts of the loss of stress (Pa) by (5.46) of EN
// 1992-1-1:2004, written with the free creep strain ε_cc of several stresses,
//
//	Δσ = (Ep·ε_cs + 0.8·Δσ_pr + Ep·ε_cc)/(1 + s·Ep/Ecm·(1 + 0.8·φ)), s = Ap/Ac·(1 + Ac·zcp²/Ic),
//
// with φ·Ep/CreepModulus for φ·Ep/Ecm. Confirm against the edition in force.
func (p Period) Losses(at Place) Losses {
	left := 1 / p.divisor(at.Stiffening)
	return Losses{
		Shrinkage: p.Modulus * p.Shrinkage * left, Creep: p.Modulus * at.CreepStrain * left,
		Relaxation: 0.8 * p.Relaxing.Loss(at.Stress) * left,
	}
}

func (p Period) divisor(stiffening float64) float64 { return 1 + stiffening*(p.elastic+p.creeping) }

// Stiffening is s of (5.46) for tendons of the area steel (m²) with their centre
// at a point of a concrete section: the stress of the concrete there per stress of
// the tendons, Ap·(1/Ac + (Iz·z² − 2·Iyz·y·z + Iy·y²)/(Iy·Iz − Iyz²)) with y and z
// from the centroid; Ap/Ac·(1 + Ac·zcp²/Ic) on an axis of symmetry.
func Stiffening(concrete section.Properties, steel float64, at section.Point) float64 {
	y, z := at.Y-concrete.Centroid.Y, at.Z-concrete.Centroid.Z
	iy, iz, iyz := concrete.SecondMomentY, concrete.SecondMomentZ, concrete.ProductMoment
	return steel * (1/concrete.Area + (iz*z*z-2*iyz*y*z+iy*y*y)/(iy*iz-iyz*iyz))
}
