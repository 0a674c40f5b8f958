package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// holdPoints is the table of what must be shown, with room for what was found
// and who signs.
func (a *author) holdPoints(i int) block {
	stage := a.record.Stages[i]
	g := grid{open: true, columns: columnsOf("Hold point", "To be shown", "Found", "Signed, time")}
	add := func(point, shown string) { g.rows = append(g.rows, row(point, shown, "", "")) }
	if i > 0 {
		before := a.record.Stages[i-1]
		add("Stage before", fmt.Sprintf("stage %d, %s, complete and its permit closed", before.Number, before.Name))
	}
	shown := map[string]string{} // what holds from an earlier situation on, by kind
	for k, s := range stage.Situations {
		before := ""
		if k > 0 {
			before = "before " + numbered(stage, k) + ": "
		}
		once := func(kind, point, words string) {
			if shown[kind] != words {
				shown[kind] = words
				add(before+point, words)
			}
		}
		once("age", "Age of the element", fmt.Sprintf("%s d (project day %s) or more", number(s.Age), number(s.Day)))
		for _, q := range strengths(s) {
			once(q.Symbol, "Concrete strength", fmt.Sprintf("%s %s ≥ %s", q.Name, q.Symbol, a.units.safe(q.Value, q.Unit, limits.AtLeast)))
		}
		if tendons := tendonsIn(a.before(i, k)); tendons != "" {
			once("tendons", "Tendons stressed", tendons)
		}
		if marks := groutedIn(a.before(i, k), s.Tendons); len(marks) > 0 {
			add(numbered(stage, k)+": Grouting", "ducts of "+strings.Join(marks, ", ")+" filled, shown by the record of grouting")
		}
	}
	add("Survey", "positions and levels of supports or lift points as listed below")
	return g
}

// leanedOn are the symbols of the strengths of the day that checks are made with.
var leanedOn = []string{"f_ck_t", "f_cm_t"}

// strengths are the strengths that a situation leans on: those of its day, and the
// least values that its checks ask for.
func strengths(s stages.SituationRecord) []formula.Quantity {
	var list []formula.Quantity
	add := func(q formula.Quantity) {
		at := slices.IndexFunc(list, func(p formula.Quantity) bool { return p.Symbol == q.Symbol })
		if at < 0 {
			list = append(list, q)
		} else if q.Value > list[at].Value {
			list[at] = q
		}
	}
	for _, symbol := range leanedOn {
		if q, ok := find(s.Concrete, symbol); ok {
			add(q)
		}
	}
	for _, c := range s.Checks {
		if c.Name == string(limits.StressingStrength) && c.Sense == limits.AtLeast {
			q := c.Limit
			q.Name = c.Name
			add(q)
		}
	}
	return list
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

// groutedIn are the tendons that are bonded now and were not before.
func groutedIn(before, now []stages.TendonForce) []string {
	var marks []string
	for _, t := range now {
		if t.Bonded && !slices.ContainsFunc(before, func(u stages.TendonForce) bool { return u.Mark == t.Mark && u.Bonded }) {
			marks = append(marks, t.Mark)
		}
	}
	return marks
}

// tendonsIn are the tendons that are stressed, and those of them grouted; "" for
// none.
func tendonsIn(tendons []stages.TendonForce) string {
	var stressed, grouted []string
	for _, t := range tendons {
		stressed = append(stressed, t.Mark)
		if t.Bonded {
			grouted = append(grouted, t.Mark)
		}
	}
	switch {
	case len(stressed) == 0:
		return ""
	case len(grouted) == 0:
		return strings.Join(stressed, ", ") + "; none grouted"
	case len(grouted) == len(stressed):
		return strings.Join(stressed, ", ") + "; all grouted"
	}
	return strings.Join(stressed, ", ") + "; grouted: " + strings.Join(grouted, ", ")
}

// moves are the situations of a stage in order with what is done in each.
func (a *author) moves(stage stages.StageRecord) []prose {
	var moves []prose
	for i, s := range stage.Situations {
		t := bold(numbered(stage, i)+" "+s.Name).and(plain, fmt.Sprintf(", age %s d or more, %s", number(s.Age), a.units.words(onWords(s))))
		if s.Until > s.Age {
			t = t.and(plain, fmt.Sprintf("; calculated to age %s d", number(s.Until)))
		}
		moves = append(moves, t)
		for k, event := range s.Events {
			e := words(fmt.Sprintf("step %d: %s", k+1, a.units.words(event.Title)))
			for _, l := range event.Lines {
				e = e.and(plain, "; "+a.units.words(l.Result.Name)+" "+a.units.quantity(l.Result.Value, l.Result.Unit))
			}
			moves = append(moves, e)
		}
	}
	return moves
}

// stops are the conditions under which work stops.
func (a *author) stops(stage stages.StageRecord) []prose {
	stops := []string{
		"a hold point above is not met",
		"a measured reaction lies outside its least and most value",
		"a support or lift point is not where it is listed, or settles",
		"a crack, a sound, a slip of an anchor or a leak of a jack is noticed",
		"the order of moves cannot be kept, or equipment is another than planned",
	}
	if total, ok := a.totalWeight(); ok {
		if least, most, ok := tolerance(stage); ok {
			stops = append([]string{
				"the measured weight is above " + a.units.safe(total.Value*most, total.Unit, limits.AtMost),
				"the measured weight is below " + a.units.safe(total.Value*least, total.Unit, limits.AtLeast),
			}, stops...)
		}
	}
	return pointsOf(stops)
}

func (a *author) totalWeight() (formula.Quantity, bool) {
	for _, group := range a.record.Inputs {
		if q, ok := find(group.Lines, "G"); ok {
			return q, true
		}
	}
	return formula.Quantity{}, false
}
