package sheet

import (
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// comesOut is the outcome with the strengths that it rests on, and the exclusions beside it.
func (a *author) comesOut() []block {
	left := append([]block{alarm{words("Result: " + a.verdict())}}, a.strengths()...)
	if len(a.record.NotChecked) == 0 {
		return left
	}
	right := []block{heading{level: 4, words: words("Exclusions: not checked here")}, list{points: pointsOf(a.record.NotChecked)}}
	return []block{beside{columns: [][]block{left, right}}}
}

// strengths are the strength that is assumed in each stage and the largest that one of
// its checks requires.
func (a *author) strengths() []block {
	g := grid{caption: words("Characteristic cylinder strength, " + a.units.in(formula.Pascal).unit + ": assumed, and required by the checks of the stage"), columns: columnsOf("Stage", ">Age d", ">assumed", ">required")}
	for _, stage := range a.record.Stages {
		if isBrief(stage) {
			g.rows = append(g.rows, a.briefStrength(stage))
			continue
		}
		for i, s := range stage.Situations {
			required := none
			if most := requiredIn(s); most > 0 {
				required = a.bare(most, formula.Pascal, limits.AtLeast)
			}
			g.rows = append(g.rows, row(numbered(stage, i)+" "+s.Name, days(s.Age, math.Round), number(assumedIn(s)*a.units.in(formula.Pascal).factor), required))
		}
	}
	return []block{g}
}

// requiredIn is the largest characteristic cylinder strength that a check of a situation
// requires, Pa; 0 for none.
func requiredIn(s stages.SituationRecord) float64 {
	most := 0.0
	for _, c := range s.Checks {
		if c.Required.Symbol == "f_ck_t" {
			most = math.Max(most, c.Required.Value)
		}
	}
	return most
}

// bare is a value on the safe side without its unit.
func (a *author) bare(value float64, unit formula.Unit, sense limits.Sense) string {
	return strings.TrimSuffix(a.units.safe(value, unit, sense), " "+a.units.in(unit).unit)
}

// assumedIn is the characteristic strength that the calculation of a situation rests on (Pa):
// after 28 d that of its age, which its hold point states.
func assumedIn(s stages.SituationRecord) float64 {
	for _, h := range s.HoldPoints {
		if h.Kind == "strength" && len(h.Pieces) == 0 && h.Assumed != nil {
			return h.Assumed.Value
		}
	}
	return s.Strength
}
