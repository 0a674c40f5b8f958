package stages

import (
	"reflect"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
)

// remembered is a model of concrete that keeps what it was asked for: the situations
// of a run ask for the same ages again and again.
type remembered struct {
	concrete.Model
	states map[float64]concrete.State
}

// At is the concrete at an age (d).
func (m *remembered) At(age float64) (concrete.State, error) { return kept(m.states, age, m.Model.At) }

// rememberedTime is the same of a model with creep and shrinkage.
type rememberedTime struct {
	concrete.TimeModel
	states    map[float64]concrete.State
	creep     map[[2]float64]float64 // by age and age at loading
	moduli    map[float64]float64
	shrinkage map[float64]concrete.Shrinkage

	creepLines     map[[2]float64][]formula.Line
	shrinkageLines map[float64][]formula.Line
}

func (m *rememberedTime) At(age float64) (concrete.State, error) {
	return kept(m.states, age, m.TimeModel.At)
}

func (m *rememberedTime) Creep(age, loaded float64) (float64, error) {
	return kept(m.creep, [2]float64{age, loaded}, func([2]float64) (float64, error) { return m.TimeModel.Creep(age, loaded) })
}

func (m *rememberedTime) CreepModulus(loaded float64) (float64, error) {
	return kept(m.moduli, loaded, m.TimeModel.CreepModulus)
}

func (m *rememberedTime) Shrinkage(age float64) (concrete.Shrinkage, error) {
	return kept(m.shrinkage, age, m.TimeModel.Shrinkage)
}

func (m *rememberedTime) CreepLines(age, loaded float64) ([]formula.Line, error) {
	return kept(m.creepLines, [2]float64{age, loaded}, func([2]float64) ([]formula.Line, error) { return m.TimeModel.CreepLines(age, loaded) })
}

func (m *rememberedTime) ShrinkageLines(age float64) ([]formula.Line, error) {
	return kept(m.shrinkageLines, age, m.TimeModel.ShrinkageLines)
}

// remember is a model of which nothing is known yet.
func remember(m concrete.TimeModel) *rememberedTime {
	return &rememberedTime{
		TimeModel: m, states: map[float64]concrete.State{}, creep: map[[2]float64]float64{}, moduli: map[float64]float64{},
		shrinkage: map[float64]concrete.Shrinkage{}, creepLines: map[[2]float64][]formula.Line{}, shrinkageLines: map[float64][]formula.Line{},
	}
}

// kept is an answer that is known, or one that is known from now on.
func kept[K comparable, V any](known map[K]V, key K, of func(K) (V, error)) (V, error) {
	if v, ok := known[key]; ok {
		return v, nil
	}
	v, err := of(key)
	if err == nil {
		known[key] = v
	}
	return v, err
}

// mix is the concrete of a piece; pieces of one concrete share it.
type mix struct {
	strength *remembered
	slow     *rememberedTime // nil without creep and shrinkage
}

// mixes are the concretes of all pieces.
func (g Girder) mixes() []mix {
	list := make([]mix, 0, len(g.Pieces))
	for i := range g.Pieces {
		e := &g.Pieces[i].Element
		var of mix
		for _, m := range list {
			if of.strength == nil && reflect.DeepEqual(m.strength.Model, e.Concrete) {
				of.strength = m.strength
			}
			if of.slow == nil && m.slow != nil && reflect.DeepEqual(m.slow.TimeModel, e.LongTerm) {
				of.slow = m.slow
			}
		}
		if of.strength == nil {
			of.strength = &remembered{e.Concrete, map[float64]concrete.State{}}
		}
		if of.slow == nil && e.LongTerm != nil {
			of.slow = remember(e.LongTerm)
		}
		list = append(list, of)
	}
	return list
}
