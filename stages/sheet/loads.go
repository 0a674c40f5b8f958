package sheet

import (
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// loadPlace is what a load is and where it acts: "line load from 2 m to 6 m".
func (a *author) loadPlace(l stages.Load) string {
	text := a.units.words(l.Mark)
	switch {
	case l.Rolls:
		text += ", rolling, at any place of the element"
	case l.To > l.From:
		text += " from " + a.units.place(l.From) + " to " + a.units.place(l.To) + ", resultant at x = " + a.units.place(l.Centre)
	default:
		text += " at x = " + a.units.place(l.Centre)
	}
	if l.Y != 0 {
		text += ", y = " + a.units.place(l.Y)
	}
	return text
}

// senses are the words for a positive force in each direction, a negative one, and one
// that acts both ways.
var senses = map[stages.Direction][3]string{
	stages.Down: {"", " upwards", " down and up"}, stages.Transverse: {" to the left", " to the right", " across"}, stages.Along: {" towards +x", " towards −x", " along"},
}

// loadSize is how large a load is, of either sense; a magnitude is rounded down,
// for the calculation covers no more.
func (a *author) loadSize(l stages.Load) string {
	var texts []string
	if l.Couple == 0 || l.Force != 0 {
		text := a.units.safe(math.Abs(l.Force), formula.Newton, limits.AtMost)
		sense := senses[stages.Direction(l.Direction)]
		switch {
		case l.Presence.Least == -l.Presence.Most && l.Presence.Most > 0:
			text += sense[2]
		case l.Force < 0:
			text += sense[1]
		default:
			text += sense[0]
		}
		switch {
		case l.Rolls && l.To > 0:
			text += " in total, over " + a.units.place(l.To)
		case l.To > l.From:
			text += " in total"
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
	if presence := presenceWords(l); presence != "" {
		return strings.Join(texts, " and ") + ", " + presence
	}
	return strings.Join(texts, " and ")
}

// presenceWords say when an action is there: always, present or absent, both ways, or
// from so many times to so many times; "" for a part of the weight.
func presenceWords(l stages.Load) string {
	switch p := l.Presence; {
	case p == stages.Range{}:
		return ""
	case p == stages.Range{Least: 1, Most: 1}:
		return "always present"
	case p == stages.Range{Most: 1}:
		return "present or absent"
	case p == stages.Range{Least: -1, Most: 1}:
		return "both ways"
	default:
		return "× " + rangeOf(p)
	}
}

// loadsWords are the actions of a situation beside its weight in one line; "none"
// where there are none.
func (a *author) loadsWords(s stages.SituationRecord) string {
	if len(s.Loads) == 0 {
		return "none"
	}
	return strings.Join(a.loadsList(s), "; ")
}

// loadsList are the actions of a situation beside its weight.
func (a *author) loadsList(s stages.SituationRecord) []string {
	texts := make([]string, len(s.Loads))
	for i, l := range s.Loads {
		texts[i] = a.loadPlace(l) + ", " + a.loadSize(l)
		if d := stages.Direction(l.Direction); d == stages.Transverse || d == stages.Along { // its lever
			texts[i] += ", at z = " + a.units.place(l.Z)
		}
	}
	return texts
}
