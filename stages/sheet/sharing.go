package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// supportLevels are the levels of the supports of a situation.
func (a *author) supportLevels(supports []stages.Support) string {
	var texts []string
	for _, s := range supports {
		text := "at the soffit"
		if s.Z != 0 || s.Role == stages.LiftPoint || s.Role == stages.Tie {
			text = "z = " + a.units.place(s.Z)
		}
		if !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
	}
	return strings.Join(texts, ", ")
}

// sharing says how the supports of a situation share, with the numbers of those that are
// equalised.
func (a *author) sharing(s stages.SituationRecord) string {
	groups, free := map[string][]string{}, 0
	var names, texts []string
	elastic := s.OutOfLevel != 0
	for i, of := range s.Supports {
		elastic = elastic || of.Stiffness > 0 || of.Link != nil || of.Level != 0 || of.Preload != 0 || of.Fixed || of.RotationalStiffness > 0
		if of.Group == "" {
			free++
			continue
		}
		if groups[of.Group] == nil {
			names = append(names, of.Group)
		}
		groups[of.Group] = append(groups[of.Group], fmt.Sprint(i+1))
	}
	for _, name := range names {
		texts = append(texts, strings.Join(groups[name], " + ")+" equalised ("+name+")")
	}
	bounded := slices.ContainsFunc(s.Reactions, func(r stages.Reaction) bool { return r.Bounded })
	switch units := free + len(names); {
	case bounded:
		texts = append(texts, "shares not stated: bounded by every statically determinate set")
	case elastic && units > determinate(s.Supports):
		text := "elastic, by the stiffness of supports and element"
		if s.OutOfLevel != 0 {
			text += ", one support " + a.units.safe(s.OutOfLevel, formula.Metre, limits.AtMost) + " out of level either way"
		}
		texts = append(texts, text)
	default:
		texts = append(texts, "by statics")
	}
	return strings.Join(texts, ", ")
}

// determinate is how many vertical reactions statics gives at most: fewer where all
// supports stand on one line along the element.
func determinate(supports []stages.Support) int {
	if slices.ContainsFunc(supports, func(s stages.Support) bool { return s.Y != supports[0].Y }) {
		return 3
	}
	return 2
}
