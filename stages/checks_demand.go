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
	v.demands = append(v.demands, demandOf{causes, list})
	return list, nil
}

// demand is a question to a variant of a situation.
type demand struct {
	*ledger.Demand
	variant *variant
}

// demandOf are demands with the ranges that they were made for.
type demandOf struct {
	causes []ledger.Cause
	list   []demand
}

func sameCauses(a, b []ledger.Cause) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}
