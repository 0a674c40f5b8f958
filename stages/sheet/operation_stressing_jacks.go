package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// jackGroup is the steps of a situation that are stressed to the same forces at the gauge.
type jackGroup struct {
	forces string // datum / full / never above, at the gauge and at the anchor
	steps  []int
	left   [][]string // marks by jack at the left end, a step after the other
	right  [][]string
}

// jackGroups are the steps of a situation by their forces at the gauge.
func (a *author) jackGroups(s stages.SituationRecord) []*jackGroup {
	var groups []*jackGroup
	type count struct{ step, group int }
	left, right := map[count]int{}, map[count]int{}
	for _, p := range s.Stressing {
		forces := strings.Join(append(a.atGauge(p), a.atAnchor(p)...), " / ")
		k := slices.IndexFunc(groups, func(g *jackGroup) bool { return g.forces == forces })
		if k < 0 {
			k, groups = len(groups), append(groups, &jackGroup{forces: forces})
		}
		g, at := groups[k], count{p.Step, k}
		if !slices.Contains(g.steps, p.Step) {
			g.steps = append(g.steps, p.Step)
		}
		if jackedLeft(p) {
			g.left = put(g.left, left[at], p.Mark)
			left[at]++
		}
		if jackedRight(p) {
			g.right = put(g.right, right[at], p.Mark)
			right[at]++
		}
	}
	return groups
}

// put adds a mark to those of jack k, the first is 0.
func put(jacks [][]string, k int, mark string) [][]string {
	if k == len(jacks) {
		jacks = append(jacks, nil)
	}
	jacks[k] = append(jacks[k], mark)
	return jacks
}

// jacks say how many jacks are needed, with a row for each: the tendons and the end that it
// stands on, and for two groups of steps at most in a table, its number, gauge, calibration
// and pressures.
func (a *author) jacks(s stages.SituationRecord) []block {
	blocks := []block{part{name: "coil", blocks: []block{paragraph{a.jacksNeeded(s)}}}}
	groups, at := a.jackGroups(s), a.endsOf(s)
	for len(groups) > 0 {
		n := min(2, len(groups))
		blocks = append(blocks, part{name: "jacks", blocks: []block{a.jackTable(groups[:n], at, a.gaugeUnit(s.Stressing))}})
		groups = groups[n:]
	}
	return blocks
}

func (a *author) jackTable(groups []*jackGroup, at tendonEnds, unit string) grid {
	heads := []string{"Jack at end"}
	lefts, rights, perUnit := 0, 0, unit
	if strings.Contains(unit, tick) {
		perUnit = "unit" // ticked above the table
	}
	for _, g := range groups {
		heads = append(heads, stepNames(g.steps)+": jack / gauge", "calibrated", "tick", a.units.in(formula.Newton).unit+" per "+perUnit, perUnit+": datum / full / never")
		lefts, rights = max(lefts, len(g.left)), max(rights, len(g.right))
	}
	table := grid{open: true, columns: columnsOf(heads...)}
	rows := func(end string, count int, of func(*jackGroup) [][]string) {
		for k := range count {
			var marks []string
			cells := []string{""}
			for _, g := range groups {
				if jacks := of(g); k < len(jacks) {
					marks = append(marks, jacks[k]...)
					cells = append(cells, pairBlank, "", eitherOr, "", threeBlanks)
				} else {
					cells = append(cells, none, none, none, none, none)
				}
			}
			cells[0] = end + ": " + standsOn(marks, k)
			table.rows = append(table.rows, row(cells...))
		}
	}
	rows(at.left, lefts, func(g *jackGroup) [][]string { return g.left })
	rows(at.right, rights, func(g *jackGroup) [][]string { return g.right })
	return table
}

// Room for the numbers of jack and gauge, for which calibration the jack has, and for the
// pressures at datum, at full and never above.
const (
	pairBlank   = "\u2003\u2003\u2003/"
	eitherOr    = "□A\u2002□B"
	threeBlanks = "\u2003\u2003\u2002/\u2003\u2003\u2002/"
)

// standsOn names the tendons on which jack k stands, one after the other.
func standsOn(marks []string, k int) string {
	if len(marks) > 6 {
		return fmt.Sprintf("tendon %d of each step", k+1)
	}
	return strings.Join(marks, ", ")
}

// stepNames are the numbers of steps, runs of more than two from the first to the last.
func stepNames(steps []int) string {
	var list []string
	for i := 0; i < len(steps); {
		k := i
		for k+1 < len(steps) && steps[k+1] == steps[k]+1 {
			k++
		}
		if k-i < 2 {
			list = append(list, fmt.Sprint(steps[i]))
			i++
			continue
		}
		list = append(list, fmt.Sprintf("%d to %d", steps[i], steps[k]))
		i = k + 1
	}
	if len(steps) == 1 {
		return "step " + list[0]
	}
	return "steps " + strings.Join(list, ", ")
}

// jacksNeeded is how many jacks work at once, at which ends, and room for the certificate of
// the steel.
func (a *author) jacksNeeded(s stages.SituationRecord) prose {
	gauges := ""
	if unit := a.gaugeUnit(s.Stressing); strings.Contains(unit, tick) {
		gauges = "gauges in " + unit + "; "
	}
	type ends struct{ left, right int }
	steps := map[int]*ends{}
	var most, sides ends // in one step
	for _, p := range s.Stressing {
		if steps[p.Step] == nil {
			steps[p.Step] = &ends{}
		}
		e := steps[p.Step]
		if jackedLeft(p) {
			e.left++
		}
		if jackedRight(p) {
			e.right++
		}
		if e.left+e.right > most.left+most.right {
			most = *e
		}
		sides.left, sides.right = max(sides.left, e.left), max(sides.right, e.right)
	}
	at := a.endsOf(s)
	where := ""
	switch {
	case sides.right == 0:
		where = " at end " + at.left
	case sides.left == 0:
		where = " at end " + at.right
	case sides.left == sides.right:
		where = fmt.Sprintf(", %d at each end", sides.left)
	default:
		where = fmt.Sprintf(", %d at end %s, %d at end %s", sides.left, at.left, sides.right, at.right)
	}
	return bold(fmt.Sprintf("%s at once%s. Do not start while blank: ", counted(most.left+most.right, "jack"), where)).
		and(plain, gauges+"coils, certificate, E, A, k: 1 _____________ 2 _____________")
}
