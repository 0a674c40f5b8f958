package stages

import (
	"reflect"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// PartialFactors are the factors that the limits of some checks put on the actions.
type PartialFactors struct {
	LimitState string           `json:"ls,omitempty"`   // SLS, ULS, EQU, approval or detailing
	Checks     []limits.Kind    `json:"checks"`         // that have them, in the order in which they were asked first
	Source     formula.Source   `json:"src,omitzero"`   // of the factors: standard with edition, and clause
	Weight     Range            `json:"w"`              // favourable and unfavourable
	Prestress  Range            `json:"p"`              // inferior and superior
	Variable   Range            `json:"v"`              // of an action without factors of its own
	Actions    []FactorsOfAKind `json:"acts,omitempty"` // of kinds with factors of their own
	Note       string           `json:"note,omitempty"` // why they are so
}

// FactorsOfAKind are the factors on one kind of action.
type FactorsOfAKind struct {
	Kind   limits.ActionKind `json:"kind"`
	Factor Range             `json:"f"` // favourable and unfavourable
}

// remember keeps the factors of a limit for the record, once for all checks that
// have them.
func (r *run) remember(limit limits.Limit) {
	f := limit.Factors.Filled()
	of := PartialFactors{LimitState: limit.LimitState, Source: f.Source, Note: f.Note, Weight: Range{Least: f.WeightLeast, Most: f.WeightMost},
		Prestress: Range{Least: f.PrestressLeast, Most: f.PrestressMost}, Variable: Range{Most: f.VariableMost}}
	for _, a := range f.Actions {
		of.Actions = append(of.Actions, FactorsOfAKind{a.Kind, Range{Least: a.Favourable, Most: a.Unfavourable}})
	}
	for i := range r.factors {
		p := &r.factors[i]
		of.Checks = p.Checks
		if !reflect.DeepEqual(of, *p) {
			continue
		}
		if !slices.Contains(p.Checks, limit.Kind) {
			p.Checks = append(p.Checks, limit.Kind)
		}
		return
	}
	of.Checks = []limits.Kind{limit.Kind}
	r.factors = append(r.factors, of)
}
