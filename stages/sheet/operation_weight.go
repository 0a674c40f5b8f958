package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// operationWeight is the weight with its basis, and what may be on the element
// beside it in each situation.
func (a *author) operationWeight(stage stages.StageRecord) []prose {
	standing := standsBy(stage)
	return append(bySituation(stage, "Weight", func(s stages.SituationRecord) string {
		m := s.Mass
		if f := featuresOf(stage); (f.stresses || a.stitched(stage) >= 0) && !f.lifts && !f.hauls {
			return fmt.Sprintf("%s (%s) nominal.", a.units.quantity(m.Weight, formula.Newton), a.units.quantity(m.Mass, formula.Kilogram))
		}
		return fmt.Sprintf("%s (%s) calculated, × %s; CoG x = %s, y = %s, z = %s; dynamic × %s.",
			a.units.quantity(m.Weight, formula.Newton), a.units.quantity(m.Mass, formula.Kilogram), coveredRange(s.Weight), a.units.place(m.X), a.units.place(m.Y), a.units.place(m.Z), coveredRange(s.Dynamic))
	}), bySituation(stage, "Other actions", func(s stages.SituationRecord) string { return a.loadList(s, a.windy(stage), standing) })...)
}

// coveredRange is a range of factors that the calculation covers, rounded inwards.
func coveredRange(r stages.Range) string {
	if low, high := rounded(r.Least, figures, up), rounded(r.Most, figures, down); r.Least != r.Most {
		return low + " to " + high
	}
	return number(r.Least)
}

// together are texts in one paragraph.
func together(texts []prose) prose {
	var all prose
	for i, t := range texts {
		if i > 0 {
			all = all.and(plain, " ")
		}
		all = append(all, t...)
	}
	return all
}

// standsBy is the equipment of a stage that holds nothing, and whose form says what it brings.
func standsBy(stage stages.StageRecord) []titled {
	return slices.DeleteFunc(equipmentOf(stage), func(t titled) bool { return len(t.Supports) > 0 || len(t.Facts)+len(t.Positions) == 0 })
}

// loadList are the actions of a situation beside its weight; wind may be named before, and
// what equipment brings that stands by is in its form.
func (a *author) loadList(s stages.SituationRecord, windNamed bool, standing []titled) string {
	if len(s.Loads) == 0 {
		return "none permitted."
	}
	var list []string
	for _, l := range s.Loads {
		if windNamed && isWind(l) {
			continue
		}
		if at := slices.IndexFunc(standing, func(t titled) bool { return strings.Contains(l.Mark, t.Mark) }); at >= 0 {
			if text := "what " + gearName(standing[at].EquipmentItem) + " brings as stated above"; !slices.Contains(list, text) {
				list = append(list, text)
			}
			continue
		}
		text := a.loadPlace(l) + ", " + a.loadSize(l)
		if isWind(l) {
			text = "wind, " + a.windSpeed(l)
			if l.Wind == nil {
				text += ", " + a.loadSize(l)
			}
		}
		list = append(list, text)
	}
	if len(list) == 0 {
		return "wind only."
	}
	return strings.Join(list, "; ") + "; no others permitted."
}

// bySituation are words for each situation of a stage under a name; those that are as in
// the previous situation are left out, and where they change each says from which on.
func bySituation(stage stages.StageRecord, name string, text func(stages.SituationRecord) string) []prose {
	var all []string
	change := false
	for _, s := range stage.Situations {
		all = append(all, text(s))
		change = change || all[0] != all[len(all)-1]
	}
	var printed []prose
	for k, t := range all {
		switch {
		case k > 0 && t == all[k-1]:
		case change:
			printed = append(printed, bold(name+" from "+numbered(stage, k)+" on: ").and(plain, t))
		default:
			printed = append(printed, bold(name+": ").and(plain, t))
		}
	}
	return printed
}
