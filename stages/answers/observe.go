package answers

import (
	"fmt"

	"github.com/tempstage/tempstage/stages"
)

// situations are those of the stage of a case, as the stage gives them. The error wraps
// [ErrAnswer].
func situations(c stages.Case) ([]stages.Situation, error) {
	if c.Stage < 1 || c.Stage > len(c.Plan) {
		return nil, fmt.Errorf("%w: Case.Stage = %d: must be 1 to %d", ErrAnswer, c.Stage, len(c.Plan))
	}
	var list []stages.Situation
	c.Plan = stages.Altered(c.Plan[:c.Stage], c.Stage, func(s *stages.Situation) { list = append(list, *s) })
	if _, _, err := c.Worst(); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrAnswer, err)
	}
	if len(list) == 0 {
		return nil, fmt.Errorf("%w: stage %d has no situation: must be at least one", ErrAnswer, c.Stage)
	}
	return list, nil
}

// firstSituation is the first of them.
func firstSituation(c stages.Case) (stages.Situation, error) {
	list, err := situations(c)
	if err != nil {
		return stages.Situation{}, err
	}
	return list[0], nil
}
