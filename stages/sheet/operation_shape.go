package sheet

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages"
)

// place is one of the movements of the record.
type place struct{ x, deflection, along float64 } // m

// movesOf are the movements of the first body of a situation.
func movesOf(s stages.SituationRecord) []place {
	column := func(name string) int { return slices.Index(s.Moves.Columns, name) }
	x, up, along, body := column("x"), column("deflection"), column("along"), column("body")
	if x < 0 || up < 0 || along < 0 || body < 0 {
		return nil
	}
	var list []place
	for _, v := range s.Moves.Values {
		if len(v) == len(s.Moves.Columns) && v[body] == 1 {
			list = append(list, place{v[x], v[up], v[along]})
		}
	}
	return list
}

// movesBefore are the movements of the last standing situation before situation k of a
// stage; none at first.
func (a *author) movesBefore(stage stages.StageRecord, k int) []place {
	var last []place
	for _, of := range a.record.Stages {
		for i, s := range of.Situations {
			if of.Number == stage.Number && i == k {
				return last
			}
			if m := movesOf(s); len(m) > 0 {
				last = m
			}
		}
	}
	return last
}

// shape is how the element moves while it is stressed: it rises between its supports or
// at an end, or stays down, and shortens; "" where the record has no movements.
func (a *author) shape(before []place, s stages.SituationRecord) string {
	now := movesOf(s)
	if len(now) == 0 {
		return ""
	}
	top, first, last := highest(now), now[0], now[len(now)-1]
	shortening := first.along - last.along
	text := fmt.Sprintf("highest at x = %s, %s", a.units.place(top.x), a.level(top.deflection))
	if len(before) > 0 {
		text += fmt.Sprintf(" (before %s)", a.level(highest(before).deflection))
		shortening -= before[0].along - before[len(before)-1].along
	}
	text += fmt.Sprintf("; ends %s and %s; shortens by %s; ", a.level(first.deflection), a.level(last.deflection), a.level(math.Max(0, shortening)))
	switch {
	case top.deflection < lifted:
		return text + "stays down on its supports."
	case top.x > first.x+1e-6 && top.x < last.x-1e-6:
		return text + "bears on the supports listed only."
	}
	return text + "an end lifts."
}

// lifted is the least rise that anybody sees (m).
const lifted = 1e-4

// highest is the first of the highest places, to what anybody sees.
func highest(list []place) place {
	top := list[0]
	for _, p := range list {
		if p.deflection > top.deflection+lifted {
			top = p
		}
	}
	return top
}

// level is a movement, + upwards, to 0.1 mm or 0.01 in.
func (a *author) level(value float64) string {
	unit, factor, decimals := a.inSmall()
	return trimmed(value*factor, decimals) + " " + unit
}
