package sheet

import (
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// together is said of all other loads of a situation.
const together = "may be there or not, together"

// loadPlace is what a load is and where it acts: "line load from 2 m to 6 m".
func (a *author) loadPlace(l stages.Load) string {
	mark := a.units.words(l.Mark)
	if l.To > l.From {
		return mark + " from " + a.units.quantity(l.From, formula.Metre) + " to " + a.units.quantity(l.To, formula.Metre) + ", resultant at x = " + a.units.quantity(l.Centre, formula.Metre)
	}
	return mark + " at x = " + a.units.quantity(l.Centre, formula.Metre)
}

// loadSize is how large a load is, of either sense; a magnitude is rounded down,
// for the calculation covers no more.
func (a *author) loadSize(l stages.Load) string {
	var texts []string
	if l.Couple == 0 || l.Force != 0 {
		text := a.units.safe(math.Abs(l.Force), formula.Newton, limits.AtMost)
		if l.Force < 0 {
			text += " upwards"
		}
		if l.To > l.From {
			text += " in all (spread)"
		}
		texts = append(texts, text)
	}
	if l.Couple != 0 {
		sense := " anticlockwise"
		if l.Couple < 0 {
			sense = " clockwise"
		}
		texts = append(texts, a.units.safe(math.Abs(l.Couple), formula.NewtonMetre, limits.AtMost)+sense)
	}
	return strings.Join(texts, " and ")
}

// otherLoadsWords are the other loads of a situation in one line; "none" where
// there are none.
func (a *author) otherLoadsWords(s stages.SituationRecord) string {
	if len(s.Loads) == 0 {
		return "none"
	}
	texts := make([]string, len(s.Loads))
	for i, l := range s.Loads {
		texts[i] = a.loadPlace(l) + ", " + a.loadSize(l)
	}
	return strings.Join(texts, "; ") + "; " + together
}
