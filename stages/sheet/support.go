package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// system is where the element of a situation rests or from what it is suspended,
// and how far that may be out of level, which is rounded down.
func (a *author) system(s stages.SituationRecord) string {
	var texts []string
	for i := 0; i < len(s.Supports); {
		first, ys, n := s.Supports[i], []string{}, 0
		for ; i < len(s.Supports) && alikePlace(s.Supports[i], first); i++ {
			ys, n = append(ys, a.units.place(s.Supports[i].Y)), n+1
		}
		text := fmt.Sprintf("%s at x = %s, y = %s", counted(n, roleOf(first.Role)), a.units.place(first.X), strings.Join(ys, " and "))
		texts = append(texts, text+a.particulars(first))
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
			text += "; " + v.words + a.units.safe(v.value, v.unit, limits.AtMost)
		}
	}
	return text
}

// alikePlace is true for supports that stand in one phrase: all but their y is the same,
// their height, and their friction, which is a hold point.
func alikePlace(s, other stages.Support) bool {
	if (s.Link == nil) != (other.Link == nil) || (s.Hook == nil) != (other.Hook == nil) || s.Hook != nil && *s.Hook != *other.Hook {
		return false
	}
	other.Y, other.Z, other.Friction, other.Link, other.Hook = s.Y, s.Z, s.Friction, s.Link, s.Hook
	return s == other
}

// Words for the sense in which a support acts, and for the directions that it holds,
// where they are not those of its role.
var (
	oneWayWords = map[stages.OneWay]string{stages.Push: ", push only", stages.Pull: ", pull only", stages.PushAndPull: ", push and pull"}
	holdsWords  = map[stages.Holds]string{
		stages.HoldsAlong: ", held along the element", stages.HoldsAcross: ", held across the element",
		stages.HoldsBoth: ", held along and across", stages.HoldsNeither: ", free along and across",
	}
)

// particulars are what the crew has to set at a support beside its place.
func (a *author) particulars(s stages.Support) string {
	text := ""
	if s.Group != "" {
		text += " (" + groupWords(s.Group) + ")"
	}
	if s.Fixed {
		text += " (fixed against rotation)"
	}
	if s.Stiffness > 0 {
		text += ", " + a.units.quantity(s.Stiffness, formula.NewtonPerMetre) + " each"
	}
	if s.RotationalStiffness > 0 {
		text += ", " + a.units.quantity(s.RotationalStiffness, formula.NewtonMetre) + "/rad each"
	}
	switch {
	case s.Level > 0:
		text += ", set " + a.units.quantity(s.Level, formula.Metre) + " above first contact"
	case s.Level < 0:
		text += ", set with a gap of " + a.units.quantity(-s.Level, formula.Metre)
	}
	switch force := a.units.quantity(math.Abs(s.Preload), formula.Newton); {
	case s.Held:
		text += ", force held at " + force + " each"
	case s.Preload != 0:
		text += ", preloaded to " + force + " each"
	}
	text += oneWayWords[s.OneWay] + holdsWords[s.Holds]
	if h := s.Hook; h != nil {
		text += fmt.Sprintf(", slung to the hook at x = %s, y = %s, z = %s", a.units.place(h.X), a.units.place(h.Y), a.units.place(h.Z))
	}
	if s.Link != nil {
		text += ", from a common gantry or girder"
	}
	return text
}

// slings are the forces along inclined slings, which are larger than the vertical
// reactions.
func (a *author) slings(reactions []stages.Reaction) []block {
	var texts, forces []string
	for i, r := range reactions {
		if r.Sling > 0 {
			force := fmt.Sprintf("%s (%s × R)", a.force(r.Sling*r.Characteristic.Most, limits.AtLeast), rounded(r.Sling, figures, up))
			texts, forces = append(texts, fmt.Sprintf("%d: %s", i+1, force)), append(forces, force)
		}
	}
	if len(texts) == 0 {
		return nil
	}
	if same := slices.Compact(forces); len(same) == 1 && len(texts) == len(reactions) && len(texts) > 1 {
		texts = []string{"each " + same[0]}
	}
	return []block{paragraph{bold("Along the slings, max with dynamic factor "+a.units.in(formula.Newton).unit+": ").and(plain, strings.Join(texts, "; ")+".")}}
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
		name += ", equalised (" + r.Group + ")"
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
	return minus(fmt.Sprintf("%.1f", down(r.Share.Least*1000)/10)) + " to " + minus(fmt.Sprintf("%.1f", up(r.Share.Most*1000)/10))
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
