package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// stop is what the permit says of a stage that may not go ahead.
const stop = "DO NOT PROCEED"

// permit is the sheet for the site: one page for each stage.
func (a *author) permit() document {
	d := document{title: "Permit sheets of element " + a.record.Element, foot: a.foot("Permit sheet"), site: true}
	perStage, _ := a.record.Governing()
	held := "" // the first stage that may not go ahead
	for i, stage := range a.record.Stages {
		d.blocks = append(d.blocks, a.permitHead(stage, i > 0)...)
		reasons := a.reasonsOf(stage)
		if len(reasons) > 0 || perStage[i].State != stages.Pass {
			if len(reasons) == 0 {
				reasons = []string{"no check was made of this stage"}
			}
			d.blocks = append(d.blocks, a.refusal(reasons)...)
			if held == "" {
				held = fmt.Sprintf("stage %d, %s, comes first and does not hold", stage.Number, stage.Name)
			}
			continue
		}
		if held != "" {
			d.blocks = append(d.blocks, a.refusal([]string{held})...)
			continue
		}
		d.blocks = append(d.blocks, a.permitBody(i, perStage[i])...)
	}
	return d
}

// reasonsOf is why a stage may not go ahead: its checks that do not pass,
// questions without an answer, and situations without a check. No limit is named.
func (a *author) reasonsOf(stage stages.StageRecord) []string {
	var reasons []string
	seen := map[string]bool{}
	say := func(reason string) {
		if !seen[reason] {
			seen[reason] = true
			reasons = append(reasons, reason)
		}
	}
	for _, s := range stage.Situations {
		if len(s.Checks) == 0 {
			say(s.Name + ": unchecked")
		}
		for _, question := range s.Unanswered {
			say(s.Name + ": unanswered: " + a.units.words(question))
		}
		for _, c := range s.Checks {
			switch c.State {
			case stages.Pass:
			case stages.Conditional:
				say(s.Name + ": " + c.Name + " holds only if something is shown first; the calculation says what")
			case stages.Fail:
				say(s.Name + ": " + c.Name + " fails")
			default:
				say(s.Name + ": " + c.Name + " is not evaluated")
			}
		}
	}
	return reasons
}

func (a *author) permitHead(stage stages.StageRecord, fresh bool) []block {
	title := fmt.Sprintf("Permit sheet %d of %d: %s", stage.Number, len(a.record.Stages), stage.Name)
	return []block{
		heading{level: 1, words: words(title), fresh: fresh},
		form{columns: 3, pairs: [][2]string{
			{"Project", a.settings.Project}, {"Element", a.record.Element}, {"Revision", a.settings.Revision},
			{"Goes with calculation", a.fingerprint}, {"Place, date, time", ""}, {"Person in charge", ""},
		}},
		paragraph{prose{{faint, strings.Join(a.record.Caution, " ") + " Valid only together with the calculation of the same fingerprint, checked and approved."}}},
	}
}

func (a *author) refusal(reasons []string) []block {
	return []block{alarm{words(stop)}, list{points: pointsOf(reasons)}, paragraph{words("No limits are given for this stage. It is to be calculated again when the reasons above are removed.")}}
}

func (a *author) permitBody(i int, governing stages.Check) []block {
	stage := a.record.Stages[i]
	blocks := []block{alarm{words(fmt.Sprintf("Every check made of this stage passes. Governing: %s, utilisation %s", governing.Name, ratio(governing)))}}
	blocks = append(blocks, heading{level: 2, words: words("Hold points: each shown and signed before the next move")}, a.holdPoints(i))
	blocks = append(blocks, heading{level: 2, words: words("Order of moves")}, list{points: a.moves(stage)})
	blocks = append(blocks, heading{level: 2, words: words("Positions and reactions: what equipment and ground must be good for")})
	blocks = append(blocks, a.permitSupports(stage)...)
	blocks = append(blocks, beside{columns: [][]block{
		append([]block{heading{level: 2, words: words("Weight")}}, a.permitWeight(stage)...),
		{heading{level: 2, words: words("Stop, make safe and ask when")}, list{points: a.stops(stage)}},
	}})
	blocks = append(blocks, heading{level: 2, words: words("Not determined")}, list{points: pointsOf(undetermined), columns: 2})
	if open := openOf(stage); len(open) > 0 {
		blocks = append(blocks, paragraph{bold("Not checked in this stage: ").and(plain, a.units.words(strings.Join(open, "; "))+".")})
	}
	return append(blocks, form{columns: 3, pairs: [][2]string{{"Prepared", ""}, {"Checked", ""}, {"Released by", ""}}})
}

// undetermined is what the Record does not hold and the site must know.
var undetermined = []string{
	"not determined: tolerance of support and lift positions",
	"not determined: allowed warp and level difference of the supports",
	"not determined: allowed wind speed",
	"not determined: capacity of slings, lifting gear, jacks and ground",
}

// openOf are the places that the checks of a stage leave out.
func openOf(stage stages.StageRecord) []string {
	var open []string
	seen := map[string]bool{}
	for _, s := range stage.Situations {
		for _, words := range s.NotChecked {
			if !seen[words] {
				seen[words] = true
				open = append(open, words)
			}
		}
	}
	return open
}

func (a *author) permitSupports(stage stages.StageRecord) []block {
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	x := a.units.aligned(formula.Metre)
	g := grid{open: true, columns: columnsOf("Situation", ">Support", ">x from the left end "+length, ">y "+length, ">Least reaction "+unit, ">Most reaction "+unit, "Measured "+unit)}
	for i := 0; i < len(stage.Situations); {
		s, names := stage.Situations[i], ""
		for ; i < len(stage.Situations) && restsAlike(stage.Situations[i], s); i++ {
			names += "; " + numbered(stage, i) + " " + stage.Situations[i].Name
		}
		for k, r := range s.Reactions {
			g.rows = append(g.rows, row(strings.TrimPrefix(names, "; "), fmt.Sprint(k+1), x.text(r.X), x.text(r.Y), a.safeForce(r.Least, limits.AtMost), a.safeForce(r.Most, limits.AtLeast), ""))
		}
	}
	var blocks []block
	before := ""
	for i := range stage.Situations {
		if f := a.elevation(stage, i); f.svg != before {
			before = f.svg
			blocks = append(blocks, drawings{[]figure{f}})
		}
	}
	return append(blocks, g, paragraph{prose{{faint, "x along the element, y to the left looking along +x; reactions upwards, the least rounded down and the most rounded up."}}})
}

// restsAlike is true for situations with the same supports and reactions.
func restsAlike(s, other stages.SituationRecord) bool {
	return s.Phase == other.Phase && s.System == other.System && slices.Equal(s.Reactions, other.Reactions)
}

// safeForce is a force in the unit of its column, without the unit.
func (a *author) safeForce(value float64, sense limits.Sense) string {
	return strings.TrimSuffix(a.units.safe(value, formula.Newton, sense), " "+a.units.in(formula.Newton).unit)
}
