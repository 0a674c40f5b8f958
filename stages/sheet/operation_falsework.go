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

// onFalsework is true for a stage whose rows of falsework are stated step by step: the table
// of their forces takes the place of readings, gaps and drawings of every step.
func onFalsework(stage stages.StageRecord) bool {
	return slices.ContainsFunc(stage.Situations, towered)
}

// towered is true for a situation on falsework whose rows are stated.
func towered(s stages.SituationRecord) bool {
	return slices.ContainsFunc(s.Equipment, func(item stages.EquipmentItem) bool { return item.Kind == stages.Towers && len(item.Positions) > 0 })
}

// striking is how rows of falsework come down.
var striking = []string{
	"All towers of a pass together, in equal increments; nobody below the span. After each pass: rows without force in the table are clear of the span, all others tight; read the level at mid-span and at both ends.",
	"Take a row away only when it is clear: no tower is knocked out under load. Keep the order above: a row left too long carries the span as a prop. A row missed: stop, do not lower the next.",
}

// towersOn are the supports of a situation on falsework by kind: where each stands is on the
// drawing of the falsework.
func towersOn(s stages.SituationRecord) string {
	count := map[stages.Role]int{}
	var roles []stages.Role
	for _, p := range s.Supports {
		if count[p.Role] == 0 {
			roles = append(roles, p.Role)
		}
		count[p.Role]++
	}
	var list []string
	for _, role := range roles {
		noun := string(role) + "s"
		if role == stages.Falsework {
			noun = "falsework towers"
		}
		list = append(list, fmt.Sprintf("%d %s", count[role], noun))
	}
	return "on " + strings.Join(list, " and ")
}

// planned is true for a situation that is to be reached: one in which a row is missed is
// calculated in case it happens.
func planned(s stages.SituationRecord) bool {
	return limits.Phase(s.Phase) != limits.Striking || s.Standing
}

// oneTable are the situations of a stage; where tendons are stressed on falsework all its
// steps are in the last of them, so that one table has them all.
func oneTable(stage stages.StageRecord) (list []stages.SituationRecord, numbers [][]stages.Stressing) {
	list, numbers = slices.Clone(stage.Situations), throughout(stage)
	if !onFalsework(stage) {
		return list, numbers
	}
	last := -1
	var all []stages.Stressing
	for i := range list {
		if len(list[i].Stressing) > 0 {
			all, last = append(all, numbers[i]...), i
			list[i].Stressing, numbers[i] = nil, nil
		}
	}
	if last >= 0 {
		list[last].Stressing, numbers[last] = all, all
	}
	return list, numbers
}

// heldFirst are the hold points before a situation. On falsework, where steps follow each
// other on one day, each is verified once, before the first, as the strictest step asks.
func heldFirst(stage stages.StageRecord, k int) (list []derive.HoldPoint) {
	s := stage.Situations[k]
	if !onFalsework(stage) {
		return s.HoldPoints
	}
	for n, of := range stage.Situations {
		if of.Age != s.Age {
			continue
		}
		if n < k {
			return nil
		}
		for _, h := range of.HoldPoints {
			at := slices.IndexFunc(list, func(o derive.HoldPoint) bool {
				return o.Kind == h.Kind && slices.Equal(o.Pieces, h.Pieces) && (o.Document == nil) == (h.Document == nil) && (h.Document == nil || *o.Document == *h.Document)
			})
			switch {
			case at < 0:
				list = append(list, h)
			case h.AtMost && h.Required.Value < list[at].Required.Value, !h.AtMost && h.Required.Value > list[at].Required.Value:
				list[at] = h
			}
		}
	}
	return list
}

// stepsOnFalsework is the stressing of a stage on falsework as one operation of its sequence.
func (a *author) stepsOnFalsework(i int, numbers [][]stages.Stressing) prose {
	stage := a.record.Stages[i]
	first, last, from, to := -1, -1, 0, 0
	for k, list := range numbers {
		if len(list) == 0 {
			continue
		}
		if first < 0 {
			first, from = k, list[0].Step
		}
		last, to = k, list[len(list)-1].Step
	}
	return bold(numbered(stage, first)+" to "+numbered(stage, last)).and(plain, fmt.Sprintf(" stress steps %d to %d of the table, in this order; after each the rows as in the table of their forces.", from, to))
}

// rowsBeside is the table of the forces of rows and bearings of a stressing on falsework: a
// row for each, a column for each step, with its limit.
func (a *author) rowsBeside(stage stages.StageRecord) []block {
	var blocks []block
	for _, item := range equipmentOf(stage) {
		if item.Kind != stages.Towers || len(item.Positions) == 0 {
			continue
		}
		heads := []string{"Row"}
		for _, p := range item.Positions {
			heads = append(heads, ">"+strings.TrimPrefix(p.Name, stage.Name+", "))
		}
		g := grid{columns: columnsOf(heads...)}
		for k, f := range item.Positions[0].Facts {
			cells := []string{f.Name}
			for _, p := range item.Positions {
				cells = append(cells, a.stated(p.Facts, item.Positions[0].Facts[k].Name, formula.Newton))
			}
			g.rows = append(g.rows, row(cells...))
		}
		blocks = append(blocks, paragraph{bold("Rows and bearings (B), nominal, "+a.units.in(formula.Newton).unit).and(plain, designOf(item))}, part{name: "rows", blocks: []block{g}})
	}
	return blocks
}

// rowsAfterEach are the forces of the rows of falsework after each step of a stage, for the
// calculation; none where there is no falsework.
func (a *author) rowsAfterEach(stage stages.StageRecord) (blocks []block) {
	if !onFalsework(stage) {
		return nil
	}
	for _, item := range equipmentOf(stage) {
		if table := a.positions(item); item.Kind == stages.Towers && len(table) > 0 {
			text := " Nominal, of all towers of a row or all bearings of a line B together; none: the row is without force."
			blocks = append(append(blocks, paragraph{bold("Forces of the rows of "+gearName(item.EquipmentItem)+" after each step.").and(plain, text)}), table...)
		}
	}
	return blocks
}

// designOf names the design of falsework; "" where it is not stated.
func designOf(item titled) string {
	for _, f := range item.Facts {
		if f.Name == "document" {
			return " (" + f.Text + ")"
		}
	}
	return ""
}

// rowsWatched says what is watched at rows that are not read.
func (a *author) rowsWatched(stage stages.StageRecord) string {
	return "after each step every row with a force in the table is tight; gap at a row without less than " + a.gap(methodOf(stage)) +
		"; otherwise: no further step, hold, call the engineer. End x = 0 points to ____________."
}

// stressedIn is how many situations have tendons that are stressed.
func stressedIn(numbers [][]stages.Stressing) (n int) {
	for _, list := range numbers {
		if len(list) > 0 {
			n++
		}
	}
	return n
}
