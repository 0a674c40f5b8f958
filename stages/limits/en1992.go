package limits

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// EN1992 is EN 1992-1-1:2004 in temporary stages. Each field is a nationally determined
// or chosen value; zero means the recommended value named behind it, not checked
// against the printed standard: confirm against the edition and the annex in force.
type EN1992 struct {
	Annex string // national annex, printed on the sheet; "" means recommended values

	Compression            float64 // σc ≤ Compression·fck(t), 5.10.2.2(5): 0 means 0.60
	TensionWithBars        float64 // k of k·fctm(t) where bonded bars are given, EN 1992-2 113.3.2(103): 0 means 1.0
	BarStress              float64 // stress of bonded bars in the tension zone, Pa: 0 means 200e6 (Table 7.2N, 0.2 mm with 16 mm bars)
	ConcreteFactor         float64 // γc, 2.4.2.4: 0 means 1.5
	TensionCoefficient     float64 // αct, 3.1.6(2): 0 means 1.0
	CompressionCoefficient float64 // αcc, 3.1.6(1): 0 means 1.0
	JackTensile            float64 // k1, 5.10.2.1: 0 means 0.8 of fpk
	JackProof              float64 // k2, 5.10.2.1: 0 means 0.9 of fp0.1k
	LockOffTensile         float64 // k7, 5.10.3(2): 0 means 0.75 of fpk
	LockOffProof           float64 // k8, 5.10.3(2): 0 means 0.85 of fp0.1k
	PrestressInferior      float64 // r_inf, 5.10.9: 0 means 0.90 (bonded post-tensioning)
	PrestressSuperior      float64 // r_sup, 5.10.9: 0 means 1.10
	PermanentUltimate      float64 // γG,sup for strength, EN 1990 Table A2.4(B): 0 means 1.35
	VariableUltimate       float64 // γQ for strength, EN 1990 Table A2.4(B): 0 means 1.50
	EquilibriumMost        float64 // γG,sup for equilibrium, EN 1990 Table A2.4(A): 0 means 1.05
	EquilibriumLeast       float64 // γG,inf for equilibrium, EN 1990 Table A2.4(A): 0 means 0.95
	EquilibriumVariable    float64 // γQ for equilibrium, EN 1990 Table A2.4(A): 0 means 1.50

	EquilibriumConstruction  float64 // γQ of construction loads for equilibrium, EN 1990 Table A2.4(A): 0 means 1.35
	EquilibriumCounterweight float64 // γG,inf of a counterweight that is not well defined, EN 1990 Table A2.4(A), note 2: 0 means 0.8
	FrictionFactor           float64 // γμ on the minimum friction against sliding, EN 1337-1:2000, 5.2: 0 means 1.2, steel on concrete; steel on steel 2.0
	DuctBeside               float64 // minimum clear distance of ducts side by side, m, 8.10.1.3, Figure 8.15: 0 means 0.050
	DuctAbove                float64 // minimum clear distance of ducts one above the other, m, 8.10.1.3, Figure 8.15: 0 means 0.040
	Aggregate                float64 // largest aggregate size, m, for clear distances of ducts; 0 where it is not known
}

// filled is the standard with its recommended values in place of zeros, or an
// error for a value that is negative or not finite.
func (s EN1992) filled() (EN1992, error) {
	for _, f := range []struct {
		name  string
		value *float64
		usual float64
	}{
		{"Compression", &s.Compression, 0.60}, {"TensionWithBars", &s.TensionWithBars, 1}, {"BarStress", &s.BarStress, 200e6},
		{"ConcreteFactor", &s.ConcreteFactor, 1.5}, {"TensionCoefficient", &s.TensionCoefficient, 1},
		{"CompressionCoefficient", &s.CompressionCoefficient, 1}, {"JackTensile", &s.JackTensile, 0.8}, {"JackProof", &s.JackProof, 0.9},
		{"LockOffTensile", &s.LockOffTensile, 0.75}, {"LockOffProof", &s.LockOffProof, 0.85},
		{"PrestressInferior", &s.PrestressInferior, 0.90}, {"PrestressSuperior", &s.PrestressSuperior, 1.10},
		{"PermanentUltimate", &s.PermanentUltimate, 1.35}, {"VariableUltimate", &s.VariableUltimate, 1.50},
		{"EquilibriumMost", &s.EquilibriumMost, 1.05}, {"EquilibriumLeast", &s.EquilibriumLeast, 0.95},
		{"EquilibriumVariable", &s.EquilibriumVariable, 1.50}, {"EquilibriumConstruction", &s.EquilibriumConstruction, 1.35},
		{"EquilibriumCounterweight", &s.EquilibriumCounterweight, 0.8},
		{"FrictionFactor", &s.FrictionFactor, 1.2}, {"DuctBeside", &s.DuctBeside, 0.050}, {"DuctAbove", &s.DuctAbove, 0.040},
	} {
		if !(*f.value >= 0) || math.IsInf(*f.value, 0) {
			return s, fmt.Errorf("%w: EN1992.%s = %g: must be finite, not negative; 0 means %g", ErrLimits, f.name, *f.value, f.usual)
		}
		if *f.value == 0 {
			*f.value = f.usual
		}
	}
	for _, f := range []struct {
		name        string
		value       float64
		least, most float64
		unit        string
	}{
		{"Compression", s.Compression, 0, 1, ""}, {"TensionWithBars", s.TensionWithBars, 0, 1.2, ""}, {"BarStress", s.BarStress, 1e6, 600e6, "Pa"},
		{"ConcreteFactor", s.ConcreteFactor, 1, 10, ""}, {"TensionCoefficient", s.TensionCoefficient, 0, 1.2, ""}, {"CompressionCoefficient", s.CompressionCoefficient, 0, 1.2, ""},
		{"JackTensile", s.JackTensile, 0, 1, ""}, {"JackProof", s.JackProof, 0, 1, ""}, {"LockOffTensile", s.LockOffTensile, 0, 1, ""}, {"LockOffProof", s.LockOffProof, 0, 1, ""},
		{"PrestressInferior", s.PrestressInferior, 0, 1, ""}, {"PrestressSuperior", s.PrestressSuperior, 1, 10, ""},
		{"PermanentUltimate", s.PermanentUltimate, 1, 10, ""}, {"VariableUltimate", s.VariableUltimate, 1, 10, ""},
		{"EquilibriumMost", s.EquilibriumMost, 1, 10, ""}, {"EquilibriumLeast", s.EquilibriumLeast, 0, 1, ""}, {"EquilibriumVariable", s.EquilibriumVariable, 1, 10, ""},
		{"EquilibriumConstruction", s.EquilibriumConstruction, 1, 10, ""}, {"EquilibriumCounterweight", s.EquilibriumCounterweight, 0, 1, ""}, {"FrictionFactor", s.FrictionFactor, 1, 10, ""},
		{"DuctBeside", s.DuctBeside, 0.01, 1, "m"}, {"DuctAbove", s.DuctAbove, 0.01, 1, "m"}, {"Aggregate", s.Aggregate, 0, 0.1, "m"},
	} {
		if !(f.value >= f.least && f.value <= f.most) {
			return s, fmt.Errorf("%w: EN1992.%s = %g: must be %g to %g%s", ErrLimits, f.name, f.value, f.least, f.most, formula.Misread(f.value, f.unit, f.least, f.most))
		}
	}
	return s, nil
}

// source is a clause of the standard, annex included.
func (s EN1992) source(place string) formula.Source {
	document := "EN 1992-1-1:2004"
	if s.Annex != "" {
		document += " with " + s.Annex
	}
	return formula.Source{Document: document, Place: place, Confirm: true}
}

func (s EN1992) foreign(document, place string) formula.Source {
	return formula.Source{Document: document, Place: place, Confirm: true}
}

// Limits answers the questions of package stages; the clauses are at the fields.
func (s EN1992) Limits(q Question) ([]Limit, error) {
	s, err := s.filled()
	if err != nil {
		return nil, err
	}
	if err := q.check(); err != nil {
		return nil, err
	}
	var limit Limit
	switch q.Kind {
	case Compression:
		limit, err = s.compression(q)
	case Tension:
		limit, err = s.tension(q)
	case TensionSteel:
		limit, err = s.tensionSteel(q)
	case PrincipalTension:
		limit, err = s.principalTension(q)
	case WebShear:
		limit, err = s.webShear(q)
	case JackStress, LockOffStress, StressingStrength, AnchorSpacing, AnchorEdge:
		limit, err = s.tendon(q)
	case DuctSpacing:
		limit, err = s.ductSpacing(q)
	case Uplift, Overturning, Sliding:
		return named(q.Kind, s.equilibrium(q)...), nil
	default:
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("%w: %s: %w", ErrLimits, q.Kind, err)
	}
	return named(q.Kind, limit), nil
}

// named are limits with what was asked.
func named(kind Kind, limits ...Limit) []Limit {
	for i := range limits {
		limits[i].Kind, limits[i].Name = kind, string(kind)
	}
	return limits
}
