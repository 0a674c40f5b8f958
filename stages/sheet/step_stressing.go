package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// stepStressing is the record of the stressing of a step, on a page of its own: what each
// group of tendons is stressed to, jacks and gauges, a row of readings for each jacked end.
func (a *author) stepStressing(i int) []block {
	stage := a.record.Stages[i]
	all := slices.Concat(throughout(stage)...)
	if len(all) == 0 {
		return nil
	}
	one := stages.SituationRecord{Stressing: all, Checks: checksOf(stage)}
	points := a.stressingRules(stage, all)
	points = append(points, words("Bars are accepted before the hoist is eased, tendons before a frame advances: engineer, each movement (signed, time): "+a.acceptances(stage)+". Only then cut "+a.steelOf(all)+", fit grout caps."),
		words(a.groutLater(i)))
	blocks := []block{
		heading{level: 2, words: words("Record of stressing: " + operationTitle(a.record, i)), fresh: true},
		part{name: "holds", blocks: []block{a.stressingHolds(stage)}},
		list{points: points, numbered: true},
		part{name: "stressing", blocks: []block{a.stepJackings(stage)}},
		part{name: "coil", blocks: []block{paragraph{bold(a.jacksAtOnce(stage)+" Do not start while blank: ").and(plain, "gauges in "+a.gaugeUnit(all)+"; coils, certificate, E, A, k: 1 __________ 2 __________")}}},
		part{name: "jacks", blocks: []block{a.stepJacks(one)}},
		part{name: "readends", blocks: []block{a.stepReadings(stage)}},
	}
	said := []block{paragraph{a.stepStressingWords(stage, one)}}
	if places, alike := a.stepPlaces(one); len(places) > 0 {
		said = []block{paragraph{a.stepStressingWords(stage, one).and(plain, alike)}}
		said = []block{part{name: "anchors", blocks: []block{beside{columns: [][]block{said, places}}}}}
	}
	blocks = append(blocks, said...)
	return []block{part{name: "record", blocks: blocks}}
}

// acceptances is room for a signature for each movement in which something is stressed.
func (a *author) acceptances(stage stages.StageRecord) string {
	var list []string
	for k, s := range stage.Situations {
		if len(s.Stressing) > 0 {
			list = append(list, numbered(stage, k)+"\u00a0____________")
		}
	}
	return strings.Join(list, ", ")
}

// jacksAtOnce is how many jacks work at once in each movement.
func (a *author) jacksAtOnce(stage stages.StageRecord) string {
	var list []string
	for k, s := range throughout(stage) {
		jacks := map[int]int{}
		most := 0
		for _, p := range s {
			if jackedLeft(p) {
				jacks[p.Step]++
			}
			if jackedRight(p) {
				jacks[p.Step]++
			}
			most = max(most, jacks[p.Step])
		}
		if most > 0 {
			list = append(list, fmt.Sprintf("%d in %s", most, numbered(stage, k)))
		}
	}
	return "Jacks at once: " + strings.Join(list, ", ") + "."
}

// stepJackings is a row for tendons of a step with the same values.
func (a *author) stepJackings(stage stages.StageRecord) grid {
	force, mm := a.units.in(formula.Newton).unit, a.shortUnit()
	all := throughout(stage)
	g := grid{columns: columnsOf("Step", "Movement, tendons", capital(a.steelOf(slices.Concat(all...))), "Jacks", ">stress "+a.units.in(formula.Pascal).unit, ">A, "+force+": datum", ">full", ">never above",
		">B, "+force+": datum", ">full", ">never above", ">extension "+mm+": smaller x", ">greater x", ">after lock-off", ">draw-in "+mm+" each end")}
	for k, list := range all {
		var before []string // cells of the row before
		var marks []string
		for _, p := range list {
			cells := append([]string{number(float64(p.Step)), "", a.strandsOf(p), a.jacksAt(p), a.nearest(p.Stress, formula.Pascal)}, append(a.atGauge(p), a.atAnchor(p)...)...)
			cells = append(cells, a.stretchAt(jackedLeft(p), p.Extends.Left), a.stretchAt(jackedRight(p), p.Extends.Right), a.stretch(p.Kept), a.stretch(p.DrawIn))
			if !slices.Equal(cells, before) {
				marks, before = nil, slices.Clone(cells)
				g.rows = append(g.rows, nil)
			}
			marks = append(marks, p.Mark)
			cells[1] = numbered(stage, k) + " " + alikeMarks(marks)
			if p.How != "stress" {
				cells[1] = numbered(stage, k) + " " + p.How + " " + alikeMarks(marks)
			}
			g.rows[len(g.rows)-1] = row(cells...)
		}
	}
	return g
}

// stretchAt is an extension at an end with a jack; a dash at one without.
func (a *author) stretchAt(jacked bool, value float64) string {
	if !jacked {
		return none
	}
	return a.stretch(value)
}

// jacksAt is where the jacks of a tendon are: the places of its jacked anchors.
func (a *author) jacksAt(p stages.Stressing) string {
	left, right, known := a.anchorsOf(p.Mark)
	switch {
	case !known:
		return p.Ends
	case jackedLeft(p) && jackedRight(p):
		return "x = " + left + ", " + right
	case jackedLeft(p):
		return "x = " + left
	}
	return "x = " + right
}

// stepJacks is a row for each jack that works at once, for groups of steps with the same
// forces.
func (a *author) stepJacks(s stages.SituationRecord) grid {
	groups := a.jackGroups(s)
	unit := a.gaugeUnit(s.Stressing)
	if strings.Contains(unit, tick) {
		unit = "unit" // ticked above the table
	}
	heads := []string{"Jack"}
	most := 0
	for _, g := range groups {
		heads = append(heads, stepNames(g.steps)+": jack / gauge", "calibrated", "tick", a.units.in(formula.Newton).unit+" per "+unit, unit+": datum / full / never")
		most = max(most, a.jacksOf(g, s))
	}
	table := grid{open: true, columns: columnsOf(heads...)}
	for k := range most {
		cells := []string{fmt.Sprint(k + 1)}
		for _, g := range groups {
			if k < a.jacksOf(g, s) {
				cells = append(cells, pairBlank, "", eitherOr, "", threeBlanks)
			} else {
				cells = append(cells, none, none, none, none, none)
			}
		}
		table.rows = append(table.rows, row(cells...))
	}
	return table
}

// jacksOf is how many jacks a group of steps needs at once.
func (a *author) jacksOf(g *jackGroup, s stages.SituationRecord) int {
	most, count := 0, map[int]int{}
	for _, p := range s.Stressing {
		if !slices.Contains(g.steps, p.Step) {
			continue
		}
		for _, jacked := range []bool{jackedLeft(p), jackedRight(p)} {
			if jacked {
				count[p.Step]++
			}
		}
		most = max(most, count[p.Step])
	}
	return most
}

// stepReadings is a row for each jacked end, and of tendons with jacks at both ends one for
// both together.
func (a *author) stepReadings(stage stages.StageRecord) grid {
	mm := a.shortUnit()
	g := grid{open: true, columns: columnsOf("Step", "Tendon, end", "jack", "permitted "+mm, "read", "k", "÷ k", "after lock-off", "draw-in", "gauge at full", "lock-off time")}
	for _, list := range throughout(stage) {
		for _, p := range list {
			left, right, _ := a.anchorsOf(p.Mark)
			add := func(end string, expected float64, both bool) {
				cells := []string{number(float64(p.Step)), p.Mark + end, "", a.permitted(p, expected), "", "", "", "", "", "", ""}
				if both {
					cells[2], cells[4], cells[5], cells[8], cells[9], cells[10] = none, none, none, none, none, none
				}
				g.rows = append(g.rows, row(cells...))
			}
			two := jackedLeft(p) && jackedRight(p)
			switch {
			case two:
				add(", x = "+left, p.Extends.Left, false)
				add(", x = "+right, p.Extends.Right, false)
				add(", both ends", p.Extends.Left+p.Extends.Right, true)
			case jackedLeft(p):
				add("", p.Extends.Left, false)
			default:
				add("", p.Extends.Right, false)
			}
		}
	}
	return g
}
