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

// permit is the sheet for the site: one part for each stage, on pages of its own.
func (a *author) permit() document {
	d := document{title: "Permit sheets of element " + a.record.Element, foot: a.foot("Permit sheet"), site: true}
	reasons := make([][]string, len(a.record.Stages)) // of each stage, why it may not go ahead
	for i, stage := range a.record.Stages {
		reasons[i] = a.reasonsOf(stage)
	}
	held := "" // the first stage that may not go ahead
	for i, stage := range a.record.Stages {
		p := part{name: fmt.Sprintf("stage-%d", i+1), foot: a.foot(permitTitle(a.record, i)), blocks: a.permitHead(i)}
		refused := reasons[i]
		if len(refused) == 0 {
			refused = a.landing(i, reasons)
		}
		switch {
		case len(refused) > 0:
			p.blocks = append(append(p.blocks, a.refusal(refused)...), a.notCheckedAnywhere()...)
			if held == "" {
				held = fmt.Sprintf("stage %d, %s, comes first and does not hold", stage.Number, stage.Name)
			}
		case held != "":
			p.blocks = append(append(p.blocks, a.refusal([]string{held})...), a.notCheckedAnywhere()...)
		default:
			p.blocks = append(p.blocks, a.permitBody(i, reasons)...)
		}
		d.blocks = append(d.blocks, p)
	}
	return d
}

func permitTitle(record stages.Record, i int) string {
	return fmt.Sprintf("Permit sheet %d of %d: %s", record.Stages[i].Number, len(record.Stages), record.Stages[i].Name)
}

// passing is true for a stage at whose end the element does not stand.
func passing(stage stages.StageRecord) bool {
	return !stage.Situations[len(stage.Situations)-1].Standing
}

// landing is why a passing stage may not begin: a stage on the way to where the
// element stands again, or that one, does not hold.
func (a *author) landing(i int, reasons [][]string) []string {
	if !passing(a.record.Stages[i]) {
		return nil
	}
	for k := i + 1; k < len(a.record.Stages); k++ {
		if stage := a.record.Stages[k]; len(reasons[k]) > 0 {
			return []string{fmt.Sprintf("the landing does not hold: stage %d, %s, may not go ahead", stage.Number, stage.Name)}
		}
		if !passing(a.record.Stages[k]) {
			break
		}
	}
	return nil
}

// warnings are boxes on the permit of a stage that passes: the first later stage
// that does not hold, and an element that the plan leaves in the air.
func (a *author) warnings(i int, reasons [][]string) []block {
	var boxes []block
	stands := !passing(a.record.Stages[i])
	for k := i + 1; k < len(a.record.Stages); k++ {
		stands = stands || !passing(a.record.Stages[k])
	}
	if !stands {
		boxes = append(boxes, alarm{words("WARNING: no landing is in this calculation. It ends with the element not standing.")})
	}
	for k := i + 1; k < len(a.record.Stages); k++ {
		if len(reasons[k]) > 0 {
			stage := a.record.Stages[k]
			return append(boxes, alarm{words(fmt.Sprintf("WARNING: a later stage does not hold: stage %d, %s. Read its permit before this stage begins.", stage.Number, stage.Name))})
		}
	}
	return boxes
}

// notCheckedAnywhere is what no stage checks, in small type.
func (a *author) notCheckedAnywhere() []block {
	if len(a.record.NotChecked) == 0 {
		return nil
	}
	return []block{paragraph{prose{{faint, "Not checked in any stage: " + a.units.words(strings.Join(a.record.NotChecked, "; ")) + "."}}}}
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

func (a *author) permitHead(i int) []block {
	return []block{
		heading{level: 1, words: words(permitTitle(a.record, i)), fresh: i > 0},
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

func (a *author) permitBody(i int, reasons [][]string) []block {
	stage := a.record.Stages[i]
	perStage, _ := a.record.Governing()
	governing := perStage[i]
	blocks := []block{alarm{words(fmt.Sprintf("Every check made passes; not everything is checked, see below. Governing: %s, utilisation %s", governing.Name, ratio(governing)))}}
	blocks = append(blocks, a.warnings(i, reasons)...)
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
	blocks = append(blocks, a.notCheckedAnywhere()...)
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
	g := grid{open: true, columns: columnsOf("Situation", ">"+supportHead(stage.Situations...), ">x from the left end "+length, ">y "+length, ">Least reaction "+unit, ">Most reaction "+unit, "Measured "+unit)}
	for i := 0; i < len(stage.Situations); {
		s, names := stage.Situations[i], ""
		for ; i < len(stage.Situations) && restsAlike(stage.Situations[i], s); i++ {
			names += "; " + numbered(stage, i) + " " + stage.Situations[i].Name
		}
		for k, r := range s.Reactions {
			g.rows = append(g.rows, row(strings.TrimPrefix(names, "; "), fmt.Sprint(k+1)+groupWords(s, r), x.text(r.X), x.text(r.Y), a.safeForce(r.Least, limits.AtMost), a.safeForce(r.Most, limits.AtLeast), ""))
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
