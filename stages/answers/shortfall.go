package answers

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// mostShortfall is the largest shortfall that is tried.
const mostShortfall = 0.9

// LargestForceShortfall is the fraction, up to 0.9, by which the stress at every jack may
// stay below that planned, in all stressings up to and with the stage. The error wraps
// [ErrAnswer]: a plan without stressing up to there too.
func LargestForceShortfall(c stages.Case) (Answer, error) {
	pulls := 0
	count := c
	for n := 1; n <= min(c.Stage, len(c.Plan)); n++ {
		count.Plan = stages.Altered(count.Plan, n, func(s *stages.Situation) {
			for _, e := range s.Events {
				if e.Jack != nil {
					pulls++
				}
			}
		})
	}
	if _, err := situations(count); err != nil {
		return Answer{}, err
	}
	if pulls == 0 {
		return Answer{}, fmt.Errorf("%w: no tendon is stressed up to stage %d: must be at least one", ErrAnswer, c.Stage)
	}
	a, err := Solve(c, Question{
		Asked: "force at the jacks below that planned", Sense: Maximum, Low: 0, High: mostShortfall, Percent: true,
		Input: stages.Input{Symbol: "ΔP/P", Unit: formula.One, Set: func(_ *stages.Girder, p *stages.Plan, short float64) error {
			for n := 1; n <= c.Stage; n++ {
				*p = stages.Altered(*p, n, func(s *stages.Situation) { s.Events = pulled(s.Events, 1-short) })
			}
			return nil
		}},
	})
	a.Notes = append(a.Notes, "all tendons stressed by jacks together; draw-in as planned; the range of prestress of the standard acts beside it")
	return a, err
}

// pulled are events with the stress at every jack in a ratio.
func pulled(events []stages.Event, ratio float64) []stages.Event {
	events = slices.Clone(events)
	for i := range events {
		if jack := events[i].Jack; jack != nil {
			j := *jack
			j.Stress *= ratio
			if j.Given != nil {
				given := *j.Given
				given.Forces = slices.Clone(given.Forces)
				for k := range given.Forces {
					given.Forces[k].Value *= ratio
				}
				j.Given = &given
			}
			events[i].Jack = &j
		}
	}
	return events
}
