package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
)

// scaledCreep is a model whose creep is multiplied by a factor; its shrinkage, strength and
// moduli stay.
type scaledCreep struct {
	concrete.TimeModel
	factor float64
}

// ScaledCreep is a model with all creep times a factor, 0.1 to 3, for a band. The error wraps
// [ErrSegmental].
func ScaledCreep(model concrete.TimeModel, factor float64) (concrete.TimeModel, error) {
	if concrete.Missing(model) {
		return nil, fmt.Errorf("%w: ScaledCreep without a model: must be a model with its Exposure", ErrSegmental)
	}
	if err := within("", bound{"factor of ScaledCreep", factor, "", 0.1, 3}); err != nil {
		return nil, err
	}
	return scaledCreep{model, factor}, nil
}

// Creep is the scaled φ.
func (s scaledCreep) Creep(age, loaded float64) (float64, error) {
	phi, err := s.TimeModel.Creep(age, loaded)
	return s.factor * phi, err
}

// CreepUnder is the scaled φ under a stress.
func (s scaledCreep) CreepUnder(age, loaded, stress float64) (float64, error) {
	phi, err := s.TimeModel.CreepUnder(age, loaded, stress)
	return s.factor * phi, err
}

// CreepLines derive the scaled φ.
func (s scaledCreep) CreepLines(age, loaded float64) ([]formula.Line, error) {
	lines, err := s.TimeModel.CreepLines(age, loaded)
	if err != nil || len(lines) == 0 {
		return lines, err
	}
	of := lines[len(lines)-1].Result
	line, err := formula.Derive(formula.Q("φ_s", 0, formula.One, "creep coefficient, scaled"), "s_φ*"+of.Symbol, closurePractice, s.scale(), of)
	return append(lines, line), err
}

func (s scaledCreep) scale() formula.Quantity {
	return formula.Q("s_φ", s.factor, formula.One, "factor on creep")
}

// Inputs are those of the model, and the factor.
func (s scaledCreep) Inputs() []formula.Line {
	return append(s.TimeModel.Inputs(), formula.Given(s.scale(), closurePractice))
}

// Shown is the model with one more test; creep stays scaled.
func (s scaledCreep) Shown(age, strength float64) concrete.Model {
	shown, ok := s.TimeModel.Shown(age, strength).(concrete.TimeModel)
	if !ok {
		return s.TimeModel.Shown(age, strength)
	}
	return scaledCreep{shown, s.factor}
}

// withCreep is the deck with all creep times a factor.
func (d Deck) withCreep(factor float64) (Deck, error) {
	segments := make([]Segment, len(d.Segments))
	for i, s := range d.Segments {
		segments[i] = s
		if concrete.Missing(s.Element.LongTerm) {
			return d, fmt.Errorf("%w: segment %s: field Element.LongTerm is missing: must be a model of creep and shrinkage, for a band of creep", ErrSegmental, s.Element.Mark)
		}
		model, err := ScaledCreep(s.Element.LongTerm, factor)
		if err != nil {
			return d, err
		}
		segments[i].Element.LongTerm = model
	}
	d.Segments = segments
	return d, nil
}
