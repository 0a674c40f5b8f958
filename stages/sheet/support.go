package sheet

import (
	"fmt"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// system is where the element of a situation rests or from what it is suspended,
// and how far that may be out of level.
func (a *author) system(s stages.SituationRecord) string {
	var texts []string
	for i := 0; i < len(s.Supports); {
		first, ys, n := s.Supports[i], []string{}, 0
		for ; i < len(s.Supports) && alikePlace(s.Supports[i], first); i++ {
			ys, n = append(ys, a.units.place(s.Supports[i].Y)), n+1
		}
		text := fmt.Sprintf("%s at x = %s, y = %s", counted(n, roleOf(first.Role)), a.units.place(first.X), strings.Join(ys, " and "))
		switch {
		case first.Group != "":
			text += " (" + groupWords(first.Group) + ")"
		case first.Fixed:
			text += " (fixed against rotation)"
		}
		if first.Stiffness > 0 {
			text += ", " + a.units.quantity(first.Stiffness, formula.NewtonPerMetre) + " each"
		}
		texts = append(texts, text)
	}
	text := "on "
	if suspended(s) {
		text = "suspended from "
	}
	text += strings.Join(texts, "; ")
	for _, v := range []struct {
		words string
		value float64
		unit  formula.Unit
	}{{"one support out of level by ", s.OutOfLevel, formula.Metre}, {"roll ±", s.Roll, formula.Radian}, {"gradient ±", s.Gradient, formula.Radian}} {
		if v.value != 0 {
			text += "; " + v.words + a.units.quantity(v.value, v.unit)
		}
	}
	return text
}

// alikePlace is true for supports that stand in one phrase.
func alikePlace(s, other stages.Support) bool {
	return s.X == other.X && s.Role == other.Role && s.Group == other.Group && s.Stiffness == other.Stiffness && s.Fixed == other.Fixed
}

// roleOf is the word for a support.
func roleOf(role stages.Role) string {
	if role == "" {
		return "support"
	}
	return string(role)
}

func counted(n int, noun string) string {
	switch {
	case n == 1:
		return "1 " + noun
	case noun == string(stages.Falsework):
		return fmt.Sprintf("%d falsework supports", n)
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// groupWords say that supports share equally.
func groupWords(group string) string { return "equalised: " + group }

// suspended is true for a situation in which the element hangs.
func suspended(s stages.SituationRecord) bool {
	return len(s.Supports) > 0 && s.Supports[0].Role == stages.LiftPoint
}

// supportName is number, role and group of a support in a table.
func supportName(i int, r stages.Reaction) string {
	name := fmt.Sprintf("%d %s", i+1, roleOf(r.Role))
	if r.Group != "" {
		name += ", " + groupWords(r.Group)
	}
	if r.Bounded {
		name += ", bounded"
	}
	return name
}

// shareOf is the share of the measured total in per cent, rounded outwards to 0.1 %:
// half of that is less than any gauge shows. A bounded reaction has none.
func shareOf(r stages.Reaction) string {
	switch {
	case r.Bounded:
		return "bounded"
	case r.Share == nil:
		return none
	}
	return fmt.Sprintf("%.1f to %.1f", down(r.Share.Least*1000)/10, up(r.Share.Most*1000)/10)
}

// force is a force in the unit of its column, without the unit: a minimum rounded
// down, a maximum rounded up, so that the range covers what was found.
func (a *author) force(value float64, sense limits.Sense) string {
	return strings.TrimSuffix(a.units.safe(value, formula.Newton, sense), " "+a.units.in(formula.Newton).unit)
}

// forces are both ends of a range.
func (a *author) forces(r stages.Range) (least, most string) {
	return a.force(r.Least, limits.AtMost), a.force(r.Most, limits.AtLeast)
}
