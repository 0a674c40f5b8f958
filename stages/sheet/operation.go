package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// What an operation sheet says at its head.
const (
	stop    = "DO NOT PROCEED"
	after   = "PROCEED ONLY AFTER the hold points below are shown and signed"
	invalid = "Not valid until signed below by the responsible engineer"
)

// operations are the sheets for the site: one part for each stage, on pages of its
// own.
func (a *author) operations() document {
	d := document{title: "Operation sheets of element " + a.record.Element, foot: a.foot("Operation sheet"), site: true}
	reasons := make([][]string, len(a.record.Stages)) // of each stage, why it may not go ahead
	for i, stage := range a.record.Stages {
		reasons[i] = a.reasonsOf(stage)
	}
	held := "" // the first stage that may not go ahead
	for i, stage := range a.record.Stages {
		p := part{name: fmt.Sprintf("stage-%d", i+1), foot: a.foot(operationTitle(a.record, i)), blocks: a.operationHead(i)}
		refused := reasons[i]
		if len(refused) == 0 {
			refused = a.setDown(i, reasons)
		}
		switch {
		case len(refused) > 0:
			p.blocks = append(append(p.blocks, refusal(refused)...), a.exclusions()...)
			if held == "" {
				held = fmt.Sprintf("stage %d, %s, precedes this stage and may not go ahead", stage.Number, stage.Name)
			}
		case held != "":
			p.blocks = append(append(p.blocks, refusal([]string{held})...), a.exclusions()...)
		default:
			p.blocks = append(p.blocks, a.operation(i, reasons)...)
		}
		d.blocks = append(d.blocks, p)
	}
	return d
}

func operationTitle(record stages.Record, i int) string {
	return fmt.Sprintf("Operation sheet %d of %d: %s", record.Stages[i].Number, len(record.Stages), record.Stages[i].Name)
}

// transient is true for a stage at whose end the element does not stand.
func transient(stage stages.StageRecord) bool {
	return !stage.Situations[len(stage.Situations)-1].Standing
}

// setDown is why a transient stage may not begin: a stage on the way to where the
// element stands again, or that one, may not go ahead.
func (a *author) setDown(i int, reasons [][]string) []string {
	for k := i; transient(a.record.Stages[k]); k++ {
		if k+1 == len(a.record.Stages) {
			return []string{"no set-down follows in this calculation"}
		}
		if next := a.record.Stages[k+1]; len(reasons[k+1]) > 0 {
			return []string{fmt.Sprintf("the set-down may not go ahead: stage %d, %s", next.Number, next.Name)}
		}
	}
	return nil
}

// warning is a box on the sheet of a stage that may go ahead: the first later stage
// that may not.
func (a *author) warning(i int, reasons [][]string) []block {
	for k := i + 1; k < len(a.record.Stages); k++ {
		if stage := a.record.Stages[k]; len(reasons[k]) > 0 {
			return []block{alarm{words(fmt.Sprintf("WARNING: a later stage may not go ahead: stage %d, %s. Read its sheet before this stage begins.", stage.Number, stage.Name))}}
		}
	}
	return nil
}

// exclusions are what no stage checks, in small type.
func (a *author) exclusions() []block {
	if len(a.record.NotChecked) == 0 {
		return nil
	}
	return []block{paragraph{prose{{faint, "Excluded from every stage: " + a.units.words(strings.Join(a.record.NotChecked, "; ")) + "."}}}}
}

// reasonsOf is why a stage may not go ahead: its checks that fail or are not
// evaluated, questions without an answer, and situations without a check. No limit
// is named.
func (a *author) reasonsOf(stage stages.StageRecord) []string {
	var reasons []string
	say := func(reason string) {
		if !slices.Contains(reasons, reason) {
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
			case stages.Pass, stages.Conditional:
			case stages.Fail:
				say(s.Name + ": " + c.Name + " fails")
			default:
				say(s.Name + ": " + c.Name + " is not evaluated")
			}
		}
	}
	return reasons
}

func (a *author) operationHead(i int) []block {
	return []block{
		heading{level: 1, words: words(operationTitle(a.record, i)), fresh: i > 0},
		form{columns: 3, pairs: [][2]string{
			{"Project", a.settings.Project}, {"Element", a.record.Element}, {"Revision", a.settings.Revision},
			{"Goes with calculation", a.fingerprint}, {"Place, date, time", ""}, {"In charge", ""},
			{"May stop the work", ""}, {"Exclusion zone", ""}, {"Signals", ""},
		}},
		paragraph{prose{{faint, strings.Join(a.record.Caution, " ") + " Valid only together with the calculation of the same fingerprint, checked and approved."}}},
	}
}

func refusal(reasons []string) []block {
	return []block{
		alarm{words(stop)}, list{points: pointsOf(reasons)},
		paragraph{words("No limits are given for this stage. It is to be calculated again when the reasons above are removed.")},
	}
}

func (a *author) operation(i int, reasons [][]string) []block {
	stage := a.record.Stages[i]
	banner := invalid + ". Every check made passes; see exclusions."
	if slices.ContainsFunc(checksOf(stage), func(c stages.Check) bool { return c.State == stages.Conditional }) {
		banner = after + ". " + invalid + "."
	}
	blocks := append([]block{alarm{words(banner)}}, a.warning(i, reasons)...)
	blocks = append(blocks, heading{level: 2, words: words("Hold points: verify and sign each before proceeding")}, a.holdPoints(i))
	blocks = append(blocks, heading{level: 2, words: words("Sequence of operations: one movement at a time")}, list{points: a.sequence(stage)})
	blocks = append(blocks, heading{level: 2, words: words("Positions, readings, and reactions for the design of equipment and temporary supports")})
	blocks = append(blocks, a.operationSupports(stage)...)
	blocks = append(blocks, beside{columns: [][]block{
		append([]block{heading{level: 2, words: words("Weight and centre of gravity (CoG)")}}, a.operationWeight(stage)...),
		{heading{level: 2, words: words("Stop, make safe and consult the engineer if")}, list{points: pointsOf(stops)}},
	}})
	blocks = append(blocks, paragraph{bold("Not determined: ").and(plain, strings.Join(undetermined(stage), "; ")+".")})
	if open := openOf(stage); len(open) > 0 {
		blocks = append(blocks, paragraph{bold("Excluded from this stage: ").and(plain, a.units.words(strings.Join(open, "; "))+".")})
	}
	blocks = append(blocks, a.exclusions()...)
	return append(blocks, form{columns: 3, pairs: [][2]string{
		{"Prepared", ""}, {"Checked", ""}, {"Responsible engineer", ""}, {"Safe state to return to", ""}, {"Closed out, time", ""}, {"Signed", ""},
	}})
}

// undetermined is what the Record does not hold and the site must know.
func undetermined(stage stages.StageRecord) []string {
	list := []string{
		"tolerance of support and lift positions", "permissible wind speed",
		"capacity of slings, lifting gear, jacks and ground",
	}
	if !slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool { return s.OutOfLevel > 0 }) {
		list = append(list, "permissible warp and level difference of the supports")
	}
	return list
}

// openOf are what the situations of a stage leave out, each once.
func openOf(stage stages.StageRecord) []string {
	var open []string
	for _, s := range stage.Situations {
		for _, words := range s.NotChecked {
			if !slices.Contains(open, words) {
				open = append(open, words)
			}
		}
	}
	return open
}

// operationSupports are the places of supports with their reactions and what the
// gauges must show at rest: a table for situations that rest alike.
func (a *author) operationSupports(stage stages.StageRecord) []block {
	var blocks []block
	before := ""
	for i := range stage.Situations {
		if f := a.elevation(stage, i); f.svg != before {
			before = f.svg
			blocks = append(blocks, drawings{[]figure{f}})
		}
	}
	for _, of := range restingAlike(stage) {
		blocks = append(append(blocks, a.readings(of)), a.slings(of.situation.Reactions)...)
	}
	return append(blocks, paragraph{prose{{faint, readingWords}}})
}

func (a *author) readings(of resting) block {
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	x := a.units.aligned(formula.Metre)
	g := grid{open: true, caption: words(of.names), columns: columnsOf("Support", ">x "+length, ">y "+length, ">z "+length,
		">characteristic, min "+unit, ">max", ">ULS, min "+unit, ">max", ">static share of total, %", "Measured "+unit, "Share %")}
	for k, r := range of.situation.Reactions {
		least, most := a.forces(r.Characteristic)
		low, high := a.forces(r.Ultimate)
		share := shareOf(r)
		if r.Bounded {
			share = "no measuring band"
		}
		g.rows = append(g.rows, row(supportName(k, r), x.text(r.X), x.text(r.Y), x.text(r.Z), least, most, low, high, share, "", ""))
	}
	least, most := a.forces(of.situation.Total)
	g.rows = append(g.rows, row("static total", "", "", "", "", "", "", "", least+" to "+most+" "+unit, "", ""))
	g.strong = len(g.rows)
	return g
}

// readingWords say what each reaction is for.
const readingWords = "x along the element, y to the left looking along +x, z up; reactions + upwards. " +
	"Characteristic: with the dynamic factor, against rated capacities and working load limits. ULS: for ground, concrete and stacks. " +
	"Static: readings at rest, first the total, then each share of the measured total; both ranges are widened by the accuracy " +
	"of the gauges, ± ________ . A bounded reaction has no measuring band: nothing says how the supports share."

// resting is situations with the same supports and reactions.
type resting struct {
	names     string
	situation stages.SituationRecord
}

// restingAlike are the situations of a stage; those after one another on the same
// supports with the same reactions are one.
func restingAlike(stage stages.StageRecord) []resting {
	var list []resting
	for i, s := range stage.Situations {
		name := numbered(stage, i) + " " + s.Name
		if n := len(list); n > 0 && list[n-1].situation.Total == s.Total && slices.EqualFunc(s.Reactions, list[n-1].situation.Reactions, sameReaction) {
			list[n-1].names += "; " + name
			continue
		}
		list = append(list, resting{name, s})
	}
	return list
}

func sameReaction(r, other stages.Reaction) bool {
	if (r.Share == nil) != (other.Share == nil) || r.Share != nil && *r.Share != *other.Share {
		return false
	}
	r.Share, other.Share = nil, nil
	return r == other
}
