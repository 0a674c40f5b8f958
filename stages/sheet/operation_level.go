package sheet

import (
	"math"

	"github.com/tempstage/tempstage/stages"
)

// tilts are the differences of level that the calculation covers, rounded down, with room
// for what is measured.
func (a *author) tilts(s stages.SituationRecord) [][2]string {
	var pairs [][2]string
	add := func(words string, difference float64) {
		if difference > 0 {
			unit, factor, decimals := a.inSmall()
			scale := math.Pow(10, float64(decimals))
			pairs = append(pairs, [2]string{words + " ≤ " + trimmed(down(difference*factor*scale)/scale, decimals) + " " + unit, ""})
		}
	}
	along, across := spread(s.Supports)
	add("Level difference along, over "+a.units.place(along)+",", math.Abs(s.Gradient)*along)
	add("Level difference across, over "+a.units.place(across)+",", math.Abs(s.Roll)*across)
	add("One support out of the plane of the others", s.OutOfLevel)
	if len(pairs) == 0 {
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
