package answers

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// The range of wind speeds (m/s) and, where no speed is stated, of the factor on the wind.
const (
	leastWind, mostWind = 1.0, 80.0
	mostGusts           = 50.0
)

// LargestWind is the largest wind speed (m/s) of a stage, with averaging time and height of
// the stated winds: every action of the kind Wind grows with the square of the speed. Where
// no wind has a speed it is the factor on all of them. The error wraps [ErrAnswer]: a stage
// without wind, or winds whose speeds cannot be compared.
func LargestWind(c stages.Case) (Answer, error) {
	list, err := situations(c)
	if err != nil {
		return Answer{}, err
	}
	var first *loads.Wind
	winds, unstated := 0, 0
	for _, s := range list {
		for _, act := range s.Actions {
			if act.Kind != stages.Wind {
				continue
			}
			winds++
			switch {
			case act.Wind == nil:
				unstated++
			case first == nil:
				first = act.Wind
			case !first.Comparable(act.Wind.WindSpeed):
				return Answer{}, fmt.Errorf("%w: stage %d: winds of %g s at %g m and of %g s at %g m: must have one averaging time and height", ErrAnswer, c.Stage, first.Averaging, first.Height, act.Wind.Averaging, act.Wind.Height)
			}
		}
	}
	if winds == 0 {
		return Answer{}, fmt.Errorf("%w: stage %d has no action of the kind Wind: must have one, see WindAcross", ErrAnswer, c.Stage)
	}
	if unstated > 0 && first != nil {
		return Answer{}, fmt.Errorf("%w: stage %d: %d of %d winds have no speed: must be all or none", ErrAnswer, c.Stage, unstated, winds)
	}
	if unstated > 0 {
		a, err := Solve(c, Question{
			Asked: "factor on the wind", Sense: Maximum, Low: 0, High: mostGusts,
			Input: altering(c, "γ_wind", formula.One, func(s *stages.Situation, value float64) { blow(s, 0, value) }),
		})
		a.Notes = append(a.Notes, "no wind speed is stated, so no limit in m/s follows")
		return a, err
	}
	a, err := Solve(c, Question{
		Asked: fmt.Sprintf("wind speed, averaged over %g s, at %g m above the ground", first.Averaging, first.Height), Sense: Maximum, Low: leastWind, High: mostWind,
		Input: altering(c, "v", formula.MetrePerSecond, func(s *stages.Situation, value float64) { blow(s, value, 0) }),
	})
	a.Notes = append(a.Notes, "forces grow with the square of the speed")
	return a, err
}

// blow sets the speed (m/s) of every wind that has one, or the factor on those without.
func blow(s *stages.Situation, speed, factor float64) {
	s.Actions = slices.Clone(s.Actions)
	for i := range s.Actions {
		act := &s.Actions[i]
		if act.Kind != stages.Wind {
			continue
		}
		ratio := factor
		if act.Wind != nil {
			wind := *act.Wind
			ratio = speed * speed / (wind.Speed * wind.Speed)
			wind.Speed = speed
			act.Wind = &wind
		}
		act.Loads = act.Loads.Scaled(ratio)
	}
}
