package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// stepHold is a hold point of a step, with the situations before which it must be shown.
type stepHold struct {
	point, required, assumed string
	pieces                   []string
	before                   []string // numbers of situations; none: before the first
	value                    float64
	atMost                   bool
	age                      float64 // d, of a strength of concrete
}

// stepHolds is the table of what must be shown before a step: what repeats from movement to
// movement stands once, with its strictest value; what stressing needs is on its page.
func (a *author) stepHolds(i int) block {
	stage := a.record.Stages[i]
	t := holdTable{grid: grid{open: true, columns: columnsOf("Hold point", "Requirement", "Assumed", "Result", "Signed, time")}}
	if before := a.workBefore(i); before >= 0 {
		t.add("Previous stage", previous(a.record.Stages[before]), "")
	}
	for k, s := range stage.Situations {
		switch age := fmt.Sprintf("%s d (project day %s) or more", days(s.Age, up), days(s.Day, up)); {
		case k == 0:
			t.add("Age of the element", age, "")
		case s.Age > stage.Situations[k-1].Age:
			t.add("Age, before "+numbered(stage, k), age, "")
		}
	}
	for _, h := range a.heldThrough(stage) {
		if h.point != anchorStrength {
			t.addLong(h)
		}
	}
	if marks := allMarks(a.before(i, 0)); len(marks) > 0 {
		t.add("Tendons, bars stressed", alikeMarks(marks)+a.groutedWords(a.before(i, 0)), "")
	}
	if !featuresOf(stage).stresses && a.releases(i) {
		t.add("Free to move", freeToMove(stage), "")
	}
	if wind := a.windHold(stage); wind != "" {
		t.add("Wind limit", wind, "")
	}
	return t.grid
}

// addLong adds a hold point; what is long in its name stands with the requirement.
func (t *holdTable) addLong(h stepHold) {
	const most = 30
	if name, more, ok := strings.Cut(h.point, ", "); ok && len(h.point) > most {
		h.point, h.required = name, more+"; "+h.required
	}
	t.add(h.name(), h.required, h.assumed)
}

// stressingHolds is the table of what must be shown before tendons of a step are stressed.
func (a *author) stressingHolds(stage stages.StageRecord) block {
	t := holdTable{grid: grid{open: true, columns: columnsOf("Hold point", "Requirement", "Assumed", "Result", "Signed, time")}}
	for _, h := range a.heldThrough(stage) {
		if h.point == anchorStrength {
			t.add(h.name(), h.required, h.assumed)
		}
	}
	t.add("Free to move", freeToMove(stage), "")
	if open := a.openMethod(stage); open != "" {
		t.add("Method of stressing", "on this page, by the engineer: "+open, "")
	}
	return t.grid
}

// anchorStrength is the point of the strength that anchors need.
const anchorStrength = "Strength at anchors"

// name is the point with its pieces and the movements before which it must be shown.
func (h stepHold) name() string {
	text := h.point
	if len(h.pieces) > 0 {
		text += " of " + joinedRuns(h.pieces)
	}
	if len(h.before) > 0 {
		text += ", before " + strings.Join(h.before, ", ")
	}
	return text
}

// heldThrough are the hold points of all situations of a step, those alike as one.
func (a *author) heldThrough(stage stages.StageRecord) (list []stepHold) {
	for k, s := range stage.Situations {
		for _, h := range s.HoldPoints {
			a.takeHold(&list, stage, k, h)
		}
		for _, c := range s.Checks {
			if c.State == stages.Conditional && !documented(s, c) {
				takeOnce(&list, stepHold{point: "Condition", required: a.condition(s, c)})
			}
		}
	}
	return list
}

// takeHold takes up a hold point of situation k: a strength of the same pieces, or a limit of
// the same name, in its strictest value; the same strength of more pieces in one row.
func (a *author) takeHold(list *[]stepHold, stage stages.StageRecord, k int, h derive.HoldPoint) {
	point, required, assumed := a.holdPoint(h)
	before, later := "", stage.Situations[k].Age > stage.Situations[0].Age
	if k > 0 {
		before = numbered(stage, k)
	}
	of := stepHold{point: a.units.words(point), required: required, assumed: assumed, value: h.Required.Value, atMost: h.AtMost}
	if isStrength(h) {
		of.point = map[bool]string{true: anchorStrength, false: "Concrete strength"}[atAnchors(h)]
		of.pieces = slices.Clone(h.Pieces)
		if !atAnchors(h) {
			of.required = a.specimens(h)
			if !later {
				before = "" // tested once a day, before its first movement
			}
			of.age = stage.Situations[k].Age
		}
	}
	for n := range *list {
		o := &(*list)[n]
		if o.point != of.point || isStrength(h) && !atAnchors(h) && (o.age != of.age || !slices.Equal(o.pieces, of.pieces)) || atAnchors(h) && o.required != of.required {
			continue
		}
		switch {
		case atAnchors(h):
			for _, piece := range of.pieces {
				if !slices.Contains(o.pieces, piece) {
					o.pieces = append(o.pieces, piece)
				}
			}
			if before != "" && !slices.Contains(o.before, before) {
				o.before = append(o.before, before)
			}
		case h.Document == nil && (o.atMost && of.value < o.value || !o.atMost && of.value > o.value):
			of.before = o.before
			*o = of
		case h.Document != nil && o.required != of.required:
			continue
		}
		return
	}
	if before != "" {
		of.before = []string{before}
	}
	*list = append(*list, of)
}

// takeOnce takes up a point that is not there yet.
func takeOnce(list *[]stepHold, of stepHold) {
	if !slices.ContainsFunc(*list, func(o stepHold) bool { return o.point == of.point && o.required == of.required }) {
		*list = append(*list, of)
	}
}

// allMarks are the marks of tendons.
func allMarks(tendons []stages.TendonForce) (marks []string) {
	for _, t := range tendons {
		marks = append(marks, t.Mark)
	}
	return marks
}

// groutedWords are which of the tendons that are stressed are grouted.
func (a *author) groutedWords(tendons []stages.TendonForce) string {
	var grouted []string
	for _, t := range tendons {
		if t.Bonded && !a.tendonOf(t.Mark).Pretensioned {
			grouted = append(grouted, t.Mark)
		}
	}
	if len(grouted) == 0 {
		return "; none grouted"
	}
	return "; grouted by the record: " + alikeMarks(grouted)
}
