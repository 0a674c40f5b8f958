package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages"
)

// What an operation sheet says at its head.
const (
	stop    = "DO NOT PROCEED"
	after   = "PROCEED ONLY AFTER the hold points below are verified and signed"
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
			p.blocks = append(append(p.blocks, refusal(refused)...), a.exclusions(stage)...)
			if held == "" {
				held = fmt.Sprintf("stage %d, %s, precedes this stage and may not go ahead", stage.Number, stage.Name)
			}
		case held != "":
			p.blocks = append(append(p.blocks, refusal([]string{held})...), a.exclusions(stage)...)
		case accidental(stage):
			p.blocks = append(p.blocks, noWork(stage)...)
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

// exclusions are the kinds of what is not checked, in one line; the calculation lists
// them.
func (a *author) exclusions(stage stages.StageRecord) []block {
	if len(a.record.NotChecked)+len(openOf(stage)) == 0 {
		return nil
	}
	return []block{paragraph{bold("Excluded: ").and(plain, "equipment, rigging, jacks, bearings and ground under the reactions given; all that the calculation lists as not checked.")}}
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
	banner := invalid + "."
	if slices.ContainsFunc(checksOf(stage), func(c stages.Check) bool { return c.State == stages.Conditional }) {
		banner = after + ". " + invalid + "."
	}
	blocks := append([]block{alarm{words(banner)}}, a.warning(i, reasons)...)
	if stepping(stage) {
		return append(blocks, a.step(i)...)
	}
	blocks = append(blocks, heading{level: 2, words: words("Hold points: before proceeding sign each, and fill in every blank but readings, acceptance and close-out")}, part{name: "holds", blocks: []block{a.holdPoints(i)}})
	blocks = append(blocks, heading{level: 2, words: words("Sequence of operations: one movement at a time")}, a.sequence(i))
	blocks = append(blocks, a.stressingTable(stage)...)
	switch { // those of a stressing are beside its words
	case a.readBeside(stage):
		blocks = append(blocks, a.readingWords(stage)...)
	case !notRead(stage) || !featuresOf(stage).stresses:
		blocks = append(blocks, heading{level: 2, words: words("Positions, readings and reactions")})
		blocks = append(blocks, a.operationSupports(stage)...)
	}
	blocks = append(blocks, a.toFillIn(stage)...)
	blocks = append(blocks, paragraph{together(a.operationWeight(stage))})
	blocks = append(blocks, heading{level: 2, words: words(stopHeading(a.record.Stages[i]))}, list{points: pointsOf(a.stopsOf(i)), columns: 2})
	blocks = append(blocks, a.exclusions(stage)...)
	return append(blocks, a.signedOff(i))
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
