package sheet

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// unheld are the numbers of the lift points of a stage, from 0, that no equipment holds.
func unheld(stage stages.StageRecord) []int {
	var rest []int
	for _, s := range stage.Situations {
		for i, p := range s.Supports {
			held := func(item stages.EquipmentItem) bool { return slices.Contains(item.Supports, i+1) }
			if p.Role == stages.LiftPoint && !slices.ContainsFunc(s.Equipment, held) && !slices.Contains(rest, i) {
				rest = append(rest, i)
			}
		}
	}
	slices.Sort(rest)
	return rest
}

// anyLifting is the form of cranes or hoists that nobody has named, one in a column; where
// some lift points are held by named equipment, for the others.
func (a *author) anyLifting(rest []int) grid {
	force, length := a.units.in(formula.Newton).unit, a.units.in(formula.Metre).unit
	heads := []string{"Lifting supervisor: strike out what does not apply", "Crane or hoist 1, at supports ______", "Crane or hoist 2, at supports ______"}
	g := grid{open: true}
	if len(rest) > 0 {
		heads[0] = fmt.Sprintf("Lift points %s: strike out what does not apply", numbersOf(rest))
	}
	g.columns = columnsOf(heads...)
	for _, label := range []string{
		"Crane: type, counterweight, boom; radius at pick / slew / set, " + length,
		"Chart or rated − deductions (of what) = derated, " + force + "; gross load, % of it",
		"Outriggers: maximum " + force + ", mat, permissible ground pressure", "Gantry: position, legs, trolleys; anchor bars, number and force",
		"Rigging and anchors: sketch no., WLL, angles, what is equalised",
	} {
		g.rows = append(g.rows, row(label, "", ""))
	}
	return g
}
