package stages

import (
	"slices"

	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// demands are a variant under the partial factors of a limit: one, or where
// contact changes one for each corner of the factors. Limits that have the same
// factors share them.
func (r *run) demands(v *variant, limit limits.Limit) ([]demand, error) {
	for i := range v.demands {
		if sameFactors(v.demands[i].factors, limit.Factors) {
			return v.demands[i].list, nil
		}
	}
	causes := r.ranges(v.situation, limit.Factors)
	for i := range v.demands {
		if sameCauses(v.demands[i].causes, causes) {
			return v.demands[i].list, nil
		}
	}
	corners, err := r.contacts(v, causes)
	if err != nil {
		return nil, err
	}
	var list []demand
	if len(corners) == 0 {
		d, err := r.ledger.Demand(v.ledger, causes)
		if err != nil {
			return nil, err
		}
		list = []demand{{d, v}}
	}
	for _, c := range corners {
		fixed := slices.Clone(causes)
		for _, i := range c.reach {
			fixed[i].Least, fixed[i].Most = c.factors[i], c.factors[i]
		}
		of := *v
		of.ledger = v.with(c)
		d, err := r.ledger.Demand(of.ledger, fixed)
		if err != nil {
			return nil, err
		}
		list = append(list, demand{d, &of})
	}
	v.demands = append(v.demands, demandOf{limit.Factors, causes, list})
	return list, nil
}

// march is demands of variants that differ in the position of a train, or one alone.
type march struct {
	*ledger.March
	of []demand // of the situation
}

// marches are the demands of all variants of a situation for a limit.
func (r *run) marches(s *situation, limit limits.Limit) ([]march, error) {
	for i := range s.marches {
		if sameFactors(s.marches[i].factors, limit.Factors) {
			return s.marches[i].list, nil
		}
	}
	causes := r.ranges(s, limit.Factors)
	for i := range s.marches {
		if sameCauses(s.marches[i].causes, causes) {
			return s.marches[i].list, nil
		}
	}
	var all []demand
	var questions []*ledger.Demand
	for _, v := range s.cases {
		demands, err := r.demands(v, limit)
		if err != nil {
			return nil, err
		}
		for _, d := range demands {
			all, questions = append(all, d), append(questions, d.Demand)
		}
	}
	var list []march
	for _, m := range ledger.Marches(questions) {
		list = append(list, march{m, all})
	}
	s.marches = append(s.marches, marchesOf{limit.Factors, causes, list})
	return list, nil
}

// forget lets go of what only the searches for extremes of a situation ask again and again.
func (s *situation) forget() {
	for _, of := range s.marches {
		for _, m := range of.list {
			m.Forget()
		}
	}
}

// marchesOf are marches with the ranges that they were made for.
type marchesOf struct {
	factors limits.Factors
	causes  []ledger.Cause
	list    []march
}

// sameFactors is true for factors that are the same numbers.
func sameFactors(a, b limits.Factors) bool {
	return a.WeightLeast == b.WeightLeast && a.WeightMost == b.WeightMost && a.PrestressLeast == b.PrestressLeast && a.PrestressMost == b.PrestressMost &&
		a.VariableMost == b.VariableMost && slices.Equal(a.Actions, b.Actions)
}

// demand is a question to a variant of a situation.
type demand struct {
	*ledger.Demand
	variant *variant
}

// demandOf are demands with the ranges that they were made for.
type demandOf struct {
	factors limits.Factors
	causes  []ledger.Cause
	list    []demand
}

func sameCauses(a, b []ledger.Cause) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}
