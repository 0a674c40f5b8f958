package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/stages/internal/derive"
)

// ElasticStep is one step of stressing with what it takes from the tendons stressed
// before it, as the concrete shortens.
type ElasticStep struct {
	Stressed []string      `json:"tendons"` // marks of those stressed or let down in this step
	Losses   []ElasticLoss `json:"losses"`  // of the other tendons stressed so far, in the order of the girder
}

// ElasticLoss is the elastic loss of stress of a tendon at its mid-length in one step: Pa,
// a loss positive.
type ElasticLoss struct {
	Mark string  `json:"mark"`
	Loss float64 `json:"loss"`
}

// elasticSteps are the steps of stressing of a situation, in order.
func (r *run) elasticSteps(s *situation) []ElasticStep {
	var list []ElasticStep
	for k := s.from; k < s.steps; k++ {
		of := ElasticStep{Losses: []ElasticLoss{}}
		mine := map[int]bool{}
		for _, i := range r.steps[k].tendons {
			of.Stressed, mine[i] = append(of.Stressed, r.tendons[i].Mark), true
		}
		for i, path := range r.paths {
			if mine[i] || r.forceAt(k, i) == nil {
				continue
			}
			loss := r.ledger.StepLoss(k, r.inside((path.From()+path.To())/2), i)
			of.Losses = append(of.Losses, ElasticLoss{r.tendons[i].Mark, derive.Round(loss, -2)}) // 0.01 Pa
		}
		list = append(list, of)
	}
	return list
}

// valid reports a step without a tendon and a loss that no step makes.
func (e ElasticStep) valid() error {
	if len(e.Stressed) == 0 {
		return fmt.Errorf("it stresses no tendon: must name those of the step")
	}
	for _, l := range e.Losses {
		if l.Mark == "" || !(math.Abs(l.Loss) <= mostElastic) {
			return fmt.Errorf("elastic loss of tendon %q = %g Pa: must have a tendon and be within ±%g Pa", l.Mark, l.Loss, mostElastic)
		}
	}
	return nil
}

// mostElastic is a change of stress that no tendon has from the shortening of concrete (Pa).
const mostElastic float64 = 3000e6
