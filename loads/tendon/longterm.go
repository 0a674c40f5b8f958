package tendon

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
)

// Sustained is a tendon in a concrete section under sustained stress from one age to
// another: the data of the time-dependent loss at one section.
type Sustained struct {
	Concrete        concrete.TimeModel // with its Exposure
	From, To        float64            // ages of the concrete, d, 1e-3 to 1e6, From not after To: when the stress began to act, when the loss is asked for
	Area            float64            // Ac of the concrete section, m², 1e-4 to 1e4
	Inertia         float64            // Ic, m⁴, 1e-8 to 1e6
	Distance        float64            // zcp of the tendons from the centroid, m, within ±100
	Stress          float64            // of the concrete beside the tendons under permanent load and prestress, Pa, compression positive, 0, 1e3 to 100e6 or −20e6 to −1e3
	TendonArea      float64            // Ap of all tendons at that level, m², 1e-6 to a fifth of Area
	TendonModulus   float64            // Ep, Pa, 50e9 to 300e9
	TendonStress    float64            // initial stress of the tendons under permanent load, Pa, 0 or 1e6 to 3000e6
	TensileStrength float64            // fpk of the tendons, Pa, 100e6 to 3000e6
	Relaxation      Relaxation         // class of the steel
}

// Losses are the named parts of a loss of stress in a tendon, all in Pa, a loss
// positive.
type Losses struct {
	Friction   float64 `json:"f,omitempty"` // friction and wobble
	DrawIn     float64 `json:"d,omitempty"` // slip of the wedges
	Elastic    float64 `json:"e,omitempty"` // shortening when this tendon and later ones are stressed
	Shrinkage  float64 `json:"s,omitempty"` // of the concrete, as a loss of tendon stress
	Creep      float64 `json:"c,omitempty"` // of the concrete under sustained stress, as a loss of tendon stress
	Relaxation float64 `json:"r,omitempty"` // of the steel at constant length, as far as it acts
}

// Total is the sum of the parts (Pa).
func (l Losses) Total() float64 {
	return l.Friction + l.DrawIn + l.Elastic + l.Shrinkage + l.Creep + l.Relaxation
}

// And is the sum part by part.
func (l Losses) And(other Losses) Losses {
	return Losses{
		l.Friction + other.Friction, l.DrawIn + other.DrawIn, l.Elastic + other.Elastic,
		l.Shrinkage + other.Shrinkage, l.Creep + other.Creep, l.Relaxation + other.Relaxation,
	}
}

// negligible is a stress (Pa) that is the rounding of a difference.
const negligible = 1e-3

func (s Sustained) check() error {
	if concrete.Missing(s.Concrete) {
		return fmt.Errorf("%w: Sustained.Concrete is missing: must be a model with its Exposure", ErrTendon)
	}
	stress := bound{"Stress", s.Stress, "Pa", leastChange, 100e6}
	switch {
	case math.Abs(s.Stress) < negligible:
		stress.value = 0
	case s.Stress < 0:
		stress.least, stress.most = -20e6, -leastChange
	}
	if err := withinOrZero("Sustained.", stress, bound{"TendonStress", s.TendonStress, "Pa", leastSteel, mostSteel}); err != nil {
		return err
	}
	return within("Sustained.",
		bound{"From", s.From, "d", 1e-3, 1e6},
		bound{"To", s.To, "d", s.From, 1e6},
		bound{"Area", s.Area, "m²", 1e-4, 1e4},
		bound{"Inertia", s.Inertia, "m⁴", 1e-8, 1e6},
		bound{"Distance", s.Distance, "m", -100, 100},
		bound{"TendonArea", s.TendonArea, "m²", 1e-6, s.Area / 5},
		bound{"TendonModulus", s.TendonModulus, "Pa", 50e9, 300e9},
	)
}

// stiffening is Ap/Ac·(1 + Ac·zcp²/Ic), as [Stiffening].
func (s Sustained) stiffening() float64 {
	return s.TendonArea * (1/s.Area + s.Distance*s.Distance/s.Inertia)
}

// period is what acts from From to To, and the section it acts on; creep beyond
// the linear range counts as the model has it.
func (s Sustained) period() (p Period, at Place, err error) {
	if err = s.check(); err != nil {
		return p, at, err
	}
	relaxing, err := s.Relaxation.Over(s.To-s.From, s.TensileStrength, s.TendonStress)
	if err != nil {
		return p, at, err
	}
	if p, err = NewPeriod(s.Concrete, s.TendonModulus, s.From, s.To, relaxing); err != nil {
		return p, at, err
	}
	if p.Creep, err = s.Concrete.CreepUnder(s.To, s.From, math.Max(0, s.Stress)); err != nil {
		return p, at, err
	}
	p, err = p.prepared()
	return p, Place{CreepStrain: p.Creep * s.Stress / p.CreepModulus, Stress: s.TendonStress, Stiffening: s.stiffening()}, err
}

// Simplified is the loss from From to To by EN 1992-1-1:2004 5.10.6, (5.46),
// with its three parts: [Period.Losses] for one sustained stress, with creep
// beyond the linear range as the model has it. Valid for bonded tendons at one
// level under sustained load, in the range of the concrete's model and of
// [Relaxation.Loss]; for unbonded tendons put in the mean stress along them.
// Confirm against the edition in force. The error wraps [ErrTendon] or
// [concrete.ErrConcrete].
func (s Sustained) Simplified() (Losses, error) {
	p, at, err := s.period()
	if err != nil {
		return Losses{}, err
	}
	return p.Losses(at), nil
}

// Lines derive the total of [Sustained.Simplified].
func (s Sustained) Lines() ([]formula.Line, error) {
	p, _, err := s.period()
	if err != nil {
		return nil, err
	}
	expression := "(ε_cs*E_p + 0.8*Δσ_pr + E_p/E_cm*φ*σ_cQP)/(1 + E_p/E_cm*A_p/A_c*(1 + A_c/I_c*z_cp*z_cp)*(1 + 0.8*φ))"
	place := "5.10.6, (5.46)"
	operands := []formula.Quantity{
		formula.Q("ε_cs", p.Shrinkage, formula.One, fmt.Sprintf("shrinkage from %g d to %g d", s.From, s.To)),
		formula.Q("E_p", s.TendonModulus, formula.Pascal, "modulus of the tendons"),
		formula.Q("Δσ_pr", p.Relaxing.Loss(s.TendonStress), formula.Pascal, "relaxation, "+s.Relaxation.String()),
		formula.Q("E_cm", p.Concrete, formula.Pascal, "modulus of the concrete"),
		formula.Q("φ", p.Creep, formula.One, fmt.Sprintf("creep coefficient from %g d to %g d", s.From, s.To)),
		formula.Q("σ_cQP", s.Stress, formula.Pascal, "concrete stress beside the tendons"),
		formula.Q("A_p", s.TendonArea, formula.SquareMetre, "area of the tendons"),
		formula.Q("A_c", s.Area, formula.SquareMetre, "area of the concrete"),
		formula.Q("I_c", s.Inertia, formula.MetreToFourth, "second moment of area of the concrete"),
		formula.Q("z_cp", s.Distance, formula.Metre, "tendons from the centroid"),
	}
	if p.CreepModulus < p.Concrete {
		expression = "(ε_cs*E_p + 0.8*Δσ_pr + E_p/E_cφ*φ*σ_cQP)/(1 + A_p/A_c*(1 + A_c/I_c*z_cp*z_cp)*(E_p/E_cm + 0.8*E_p/E_cφ*φ))"
		place += ", creep with the modulus to which φ relates"
		operands = append(operands, formula.Q("E_cφ", p.CreepModulus, formula.Pascal, fmt.Sprintf("modulus to which φ relates, loading at %g d", s.From)))
	}
	line, err := formula.Derive(formula.Q("Δσ_csr", 0, formula.Pascal, "loss by creep, shrinkage and relaxation"), expression,
		formula.Source{Document: "EN 1992-1-1:2004", Place: place, Confirm: true}, operands...)
	return []formula.Line{line}, err
}
