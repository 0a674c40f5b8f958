package sheet

import (
	"fmt"
	"strings"

	"github.com/tempstage/tempstage/stages"
)

// stepStressingWords say how the readings of a step are compared and what its forces contain,
// once for all movements.
func (a *author) stepStressingWords(stage stages.StageRecord, all stages.SituationRecord) prose {
	text := a.stepTolerances(stage)
	for _, more := range []prose{a.contentsOf(all), a.gaugeWords(all), a.steelAssumed(all)} {
		text = append(text.and(plain, " "), more...)
	}
	if fixed := a.fixedAnchors(all); fixed != "" {
		text = text.and(plain, " ").and(strong, "Anchors without a jack: ").and(plain, fixed+", watch them for slip.")
	}
	return text.and(plain, " ").and(strong, "All others: ").and(plain, "not touched by this sheet.")
}

// stepTolerances are the tolerances, with the sum of the extensions of each movement.
func (a *author) stepTolerances(stage stages.StageRecord) prose {
	var tolerances said
	var sums []string
	mm, both := a.shortUnit(), false
	for k, list := range throughout(stage) {
		sum := 0.0
		for _, p := range list {
			both = both || jackedLeft(p) && jackedRight(p)
			sum += p.Extends.Left + p.Extends.Right
			if p.Tolerance > 0 {
				tolerances.once("± " + rounded(p.Tolerance*100, figures, down) + " %")
			} else {
				tolerances.once("± ____ %")
			}
		}
		if sum > 0 {
			sums = append(sums, fmt.Sprintf("%s %s %s, read ÷ k ______", numbered(stage, k), a.stretch(sum), mm))
		}
	}
	text := bold("Limits: ").and(plain, "read ÷ k of a row "+tolerances.or()+", the bands above. By the specification: all of a movement together ± ____ % ("+strings.Join(sums, "; ")+")")
	if both {
		text = text.and(plain, ", difference of the two ends ____ "+mm)
	}
	return text.and(plain, ", draw-in ± ____ "+mm+", gauge at full ± ____ %.")
}

// fixedAnchors are the anchors without a jack, those at one place together.
func (a *author) fixedAnchors(s stages.SituationRecord) string {
	var places said
	marks := map[string][]string{}
	for _, p := range s.Stressing {
		left, right, known := a.anchorsOf(p.Mark)
		place := "x = " + right
		if !jackedLeft(p) {
			place = "x = " + left
		}
		if !known || jackedLeft(p) && jackedRight(p) {
			continue
		}
		places.once(place)
		marks[place] = append(marks[place], p.Mark)
	}
	var list []string
	for _, place := range places {
		list = append(list, alikeMarks(marks[place])+" at "+place)
	}
	return strings.Join(list, ", ")
}
