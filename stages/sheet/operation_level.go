package sheet

import (
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// difference is a limit of levels: of one place against another, or where supports are in
// one line a slope.
type difference struct {
	asked string  // in the form
	value float64 // m; of a slope m/m
	slope bool
}

// differences are the differences of level that the calculation covers.
func (a *author) differences(s stages.SituationRecord) []difference {
	var list []difference
	add := func(direction string, angle, over float64) {
		switch angle = math.Abs(angle); {
		case angle > 0 && over > 0:
			list = append(list, difference{"Level difference " + direction + ", over " + a.units.place(over) + ",", angle * over, false})
		case angle > 0:
			list = append(list, difference{"Slope " + direction, angle, true})
		}
	}
	along, across := spread(s.Supports)
	add("along", s.Gradient, along)
	add("across", s.Roll, across)
	if s.OutOfLevel > 0 {
		list = append(list, difference{"One support out of the plane of the others", s.OutOfLevel, false})
	}
	return list
}

// covered is a difference of level rounded down, with its unit.
func (a *author) covered(d difference) string {
	unit, factor, decimals := a.inSmall()
	if d.slope {
		length := a.units.in(formula.Metre)
		unit, factor = unit+"/"+length.unit, factor/length.factor
	}
	scale := math.Pow(10, float64(decimals))
	return trimmed(down(d.value*factor*scale)/scale, decimals) + " " + unit
}

// tilts are the limits of levels with room for what is measured; of supports on which
// something is set, room for them.
func (a *author) tilts(s stages.SituationRecord, set bool) [][2]string {
	var pairs [][2]string
	for _, d := range a.differences(s) {
		pairs = append(pairs, [2]string{d.asked + " ≤ " + a.covered(d), ""})
	}
	if len(pairs) == 0 && set {
		return [][2]string{{"Levels of the supports, permissible difference", ""}}
	}
	return pairs
}

// spread are the distances of the outermost supports along and across (m).
func spread(supports []stages.Support) (along, across float64) {
	if len(supports) == 0 {
		return 0, 0
	}
	least, most := supports[0], supports[0]
	for _, p := range supports {
		least.X, least.Y = math.Min(least.X, p.X), math.Min(least.Y, p.Y)
		most.X, most.Y = math.Max(most.X, p.X), math.Max(most.Y, p.Y)
	}
	return most.X - least.X, most.Y - least.Y
}
