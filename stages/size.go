package stages

import "fmt"

// The size of a plan: more than any girder or campaign has, so little that a run ends
// within minutes. The work grows with situations times tendons.
const (
	mostTendons  = 400    // of a girder, with its layers of strands
	mostSteps    = 1000   // situations of a plan
	mostPulls    = 40_000 // situations times tendons
	mostExtras   = 10_000 // extra weights of a girder
	mostSupports = 200    // of a situation
	mostActions  = 400    // of a situation, with those that stay
	mostPieces   = 400    // of a girder
)

// atMost is an error for more of something than the limit of a plan.
func atMost(number, most int, of string) error {
	if number > most {
		return fmt.Errorf("%d %s: must be at most %d; take them together, or as several plans", number, of, most)
	}
	return nil
}

// checkSize refuses a girder that is too large.
func (g Girder) checkSize() error {
	extras, tendons := 0, len(g.Tendons)
	for _, p := range g.Pieces {
		extras += len(p.Element.Extra)
		tendons += len(p.Element.Tendons) + len(p.Element.Pretension)
	}
	for _, err := range []error{
		atMost(len(g.Pieces), mostPieces, "pieces"), atMost(tendons, mostTendons, "tendons and layers"), atMost(extras, mostExtras, "extra weights"),
	} {
		if err != nil {
			return fmt.Errorf("%w: girder %s has %w", ErrStage, g.Mark, err)
		}
	}
	return nil
}

// checkSize refuses a situation, the next of the run, that makes the plan too large.
func (r *run) checkSize(s *Situation, staying []Action) error {
	number := len(r.situations) + 1
	for _, err := range []error{
		atMost(number, mostSteps, "situations in the plan"),
		atMost(number*len(r.tendons), mostPulls, "situations times tendons in the plan"),
		atMost(len(s.Supports), mostSupports, "supports"),
		atMost(len(s.Actions)+len(staying), mostActions, "actions"),
	} {
		if err != nil {
			return err
		}
	}
	return nil
}
