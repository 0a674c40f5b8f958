package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// standingOn opens the words of a Record for where an element stands or hangs.
const standingOn = "supports at "

// hangs is true for a situation in which the element is lifted.
func hangs(s stages.SituationRecord) bool { return s.Phase == string(limits.Lifting) }

// systemOf is where the element of a situation stands or hangs.
func systemOf(s stages.SituationRecord) string {
	if places, ok := strings.CutPrefix(s.System, standingOn); ok && hangs(s) {
		return "hung from lift points at " + places
	}
	return s.System
}

// onWords are systemOf in a sentence.
func onWords(s stages.SituationRecord) string {
	if words := systemOf(s); words != s.System {
		return words
	}
	return "on " + s.System
}

// supportHead is the head of a column of supports of situations.
func supportHead(situations ...stages.SituationRecord) string {
	standing := slices.ContainsFunc(situations, func(s stages.SituationRecord) bool { return !hangs(s) })
	hung := slices.ContainsFunc(situations, hangs)
	switch {
	case hung && standing:
		return "Support or lift point"
	case hung:
		return "Lift point"
	}
	return "Support"
}

// groupWords name the group that carries equal forces with a support, as the words
// of the system do; "" for none. Those words do not tell y from −y: where groups
// differ there, both are named.
func groupWords(s stages.SituationRecord, r stages.Reaction) string {
	at := fmt.Sprintf("x = %.3f m", r.X)
	if r.Y != 0 {
		at += fmt.Sprintf(", y = ±%.3f m", math.Abs(r.Y))
	}
	var names []string
	for _, place := range strings.Split(strings.TrimPrefix(s.System, standingOn), "; ") {
		if name, ok := strings.CutPrefix(place, at+" (equalised, "); ok {
			names = append(names, strings.TrimSuffix(name, ")"))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return ", group " + strings.Join(names, " or ")
}
