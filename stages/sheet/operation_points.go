package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// holdPoints is the table of what must be shown, with room for the result and who
// signs.
func (a *author) holdPoints(i int) block {
	stage := a.record.Stages[i]
	t := holdTable{grid: grid{open: true, columns: columnsOf("Hold point", "Requirement", "Assumed", "Result", "Signed, time")}, shown: map[string]string{}, strongest: map[string]float64{}}
	if before := a.workBefore(i); before >= 0 {
		t.add("Previous stage", previous(a.record.Stages[before]), "")
	}
	for k := range stage.Situations {
		a.holdPointsOf(&t, i, k)
	}
	if featuresOf(stage).stresses || a.releases(i) {
		t.add("Free to move", freeToMove(stage), "")
	}
	if featuresOf(stage).lifts && a.fromBed(i) {
		t.add("Free to move", "formwork, hold-downs, shear keys; until then stop at ____ "+a.units.in(formula.Newton).unit, "")
	}
	if open := a.openMethod(stage); open != "" {
		t.add("Method of stressing", "on this sheet, by the engineer: "+open, "")
	}
	if a.stitched(stage) >= 0 {
		t.add("Braces of the halves", "fixed, drawing no. ______; off only as below, by the engineer", "")
	}
	if wind := a.windHold(stage); wind != "" {
		t.add("Wind limit", wind, "")
	}
	if f := featuresOf(stage); f.lifts && (f.stores || !hung(stage)) {
		plan := "street, outriggers, tail swing, exclusion, route, services"
		if items := equipmentOf(stage); has(items, lifting...) && !has(items, stages.Crane) {
			plan = "equipment, its ground, exclusion, route, services"
		}
		t.add("Lifting plan", "plan no. ______ ("+plan+")", "")
	}
	t.add("Survey", "positions and levels as listed below, within ± ____ "+a.units.of(0.01, formula.Metre).unit, "")
	return t.grid
}

// holdTable is a table of hold points with what they have shown so far.
type holdTable struct {
	grid
	shown     map[string]string  // what holds from an earlier situation on, by point
	strongest map[string]float64 // the strength shown so far, Pa, by point
}

func (t *holdTable) add(point, required, assumed string) {
	t.rows = append(t.rows, row(point, required, assumed, "", ""))
}

// holdPointsOf adds what must be shown before situation k of stage i and is not shown
// yet.
func (a *author) holdPointsOf(t *holdTable, i, k int) {
	stage := a.record.Stages[i]
	s, before := stage.Situations[k], ""
	if k > 0 {
		before = "before " + numbered(stage, k) + ": "
	}
	once := func(point, required, assumed string) {
		if t.shown[point] != required {
			t.shown[point] = required
			t.add(before+point, required, assumed)
		}
	}
	once("Age of the element", fmt.Sprintf("%s d (project day %s) or more", days(s.Age, up), days(s.Day, up)), "")
	for _, h := range heldFirst(stage, k) {
		h = strongestOf(stage, k, h)
		point, required, assumed := a.holdPoint(h)
		if s.Braces != nil && h.Kind == bracesFixed {
			required = a.braces(*s.Braces)
		}
		if isStrength(h) && h.Required.Value <= t.strongest[point] {
			continue // a higher strength is shown before
		}
		t.strongest[point] = h.Required.Value
		if k > 0 && h.Kind == "strength" && len(h.Pieces) > 0 { // one row for each concrete
			t.shown[point] = required
			t.add(before+"Concrete strength", strings.Join(h.Pieces, ", ")+": "+a.specimens(h), assumed)
			continue
		}
		once(point, required, assumed)
		if cube := a.ofSpecimen(h, "cube"); h.Kind == "strength" && len(h.Tested) > 0 && strings.Contains(cube, compare(limits.AtLeast)) {
			once("or "+strings.ToLower(point[:1])+point[1:], cube, "")
		}
	}
	for _, c := range s.Checks {
		if c.Kind == limits.StressingStrength && numeric(c) && !slices.ContainsFunc(s.HoldPoints, atAnchors) {
			once("Strength at stressing", a.strength(c.Limit, false), a.units.beside(c.Demand.Value, c.Limit))
		}
		if c.State == stages.Conditional && !documented(s, c) {
			once("Condition", a.condition(s, c), "")
		}
	}
	if point, tendons := a.tendonsIn(a.before(i, k)); tendons != "" && (k == 0 || !towered(s)) {
		once(point, tendons, "")
	}
}

// documented is true for a check that a document answers, which is a hold point; one
// that asks for a value of its own is not answered by it.
func documented(s stages.SituationRecord, c stages.Check) bool {
	return c.Required.Value <= 0 && slices.ContainsFunc(s.HoldPoints, func(h derive.HoldPoint) bool { return h.Document != nil && h.Kind == string(c.Kind) })
}

// condition is what a check is conditional on, with the value it requires unless a hold
// point of the record asks for as much.
func (a *author) condition(s stages.SituationRecord, c stages.Check) string {
	text := a.units.words(c.Condition)
	if text == "" {
		text = "of the check " + c.Name
	}
	asked := func(h derive.HoldPoint) bool {
		return h.Required.Symbol == c.Required.Symbol && !h.AtMost && h.Required.Value >= c.Required.Value
	}
	if c.Required.Value > 0 && !slices.ContainsFunc(s.HoldPoints, asked) {
		text += "; " + a.strength(c.Required, false)
	}
	return text
}

// holdPoint is what the engine asks to be shown: name, requirement and what the
// calculation assumes.
func (a *author) holdPoint(h derive.HoldPoint) (point, required, assumed string) {
	point = capital(h.Kind)
	if h.Assumed != nil {
		assumed = a.units.beside(h.Assumed.Value, h.Required)
		switch {
		case h.AtMost && h.Assumed.Value == h.Required.Value: // no more in the one than in the other
			assumed = a.units.safe(h.Assumed.Value, h.Required.Unit, limits.AtMost)
		case atAnchors(h):
			assumed = "fcm,cyl " + assumed
		case isStrength(h) && len(h.Tested) > 0: // in the row of the cylinders
			assumed = "fck " + assumed
		case isStrength(h):
			assumed = "fck " + assumed + ", cylinder"
		}
	}
	switch d := h.Document; {
	case d != nil:
		return capital(h.Kind), fmt.Sprintf("document %s, revision %s, %s", given(d.Number), given(d.Revision), given(d.Status)), assumed
	case h.Kind == "strength":
		point = "Concrete strength"
	}
	if len(h.Pieces) > 0 {
		point += " of " + strings.Join(h.Pieces, ", ")
	}
	required = a.strength(h.Required, h.AtMost)
	if h.Kind == "friction" && !h.AtMost {
		required = "between element and supports (clean, dry, no oil or ice) " + compare(limits.AtLeast) + " " + a.units.cut(h.Required.Value, h.Required.Unit, 2, limits.AtLeast)
	}
	if h.Kind == "strength" && len(h.Tested) > 0 {
		return point, a.ofSpecimen(h, "cylinder"), assumed
	}
	for _, q := range h.Tested {
		required += ", or " + a.strength(q, h.AtMost)
	}
	if isStrength(h) {
		if atAnchors(h) {
			required = strings.ReplaceAll(required, " strength ", " ")
		}
		required += "; specimens: specification" + atLeastAsMany(h)
	}
	return point, required, assumed
}

// bracesFixed is the kind of the hold point of braces.
const bracesFixed = "braces fixed"

// braces are where the braces of a situation stand, in which order they are fixed, and
// when they go; what is not stated is a blank.
func (a *author) braces(b stages.Bracing) string {
	places := "marks and x, in this order: ______________"
	if len(b.Places) > 0 {
		var list []string
		for _, p := range b.Places {
			list = append(list, a.units.words(p.Mark)+" at x = "+a.units.place(p.X))
		}
		places = "in this order: " + strings.Join(list, ", ")
	}
	until := a.units.words(b.Until)
	if until == "" {
		until = "______________"
	}
	return fmt.Sprintf("%d before the slings are slackened, %s (%s). Removed only when: %s; the engineer signs", b.Number, places, given(b.Document), until)
}

// capital is a word with a capital.
func capital(word string) string {
	r := []rune(word)
	if len(r) == 0 {
		return word
	}
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}

// before are the tendons as situation k of stage i meets them.
func (a *author) before(i, k int) []stages.TendonForce {
	if k > 0 {
		return a.record.Stages[i].Situations[k-1].Tendons
	}
	if i == 0 {
		return nil
	}
	situations := a.record.Stages[i-1].Situations
	return situations[len(situations)-1].Tendons
}
