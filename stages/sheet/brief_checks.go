package sheet

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// ruled is the checks of one kind of a stage: that which governs, and the moves in which one
// fails.
type ruled struct {
	stages.Check
	move, number int // of the one that governs, counted from 0: situation, check in it
	fails        []int
}

// ruledIn are the checks of a stage by their kind, in the order in which they come first.
func ruledIn(stage stages.StageRecord) []ruled {
	var list []ruled
	for i, s := range stage.Situations {
	next:
		for k, c := range s.Checks {
			for n := range list {
				if !list[n].Alike(c) {
					continue
				}
				if c.Governs(list[n].Check) {
					list[n].Check, list[n].move, list[n].number = c, i, k
				}
				list[n].fail(c, i)
				continue next
			}
			list = append(list, ruled{Check: c, move: i, number: k})
			list[len(list)-1].fail(c, i)
		}
	}
	return list
}

// fail keeps the move of a check that fails.
func (r *ruled) fail(c stages.Check, move int) {
	if c.State == stages.Fail && (len(r.fails) == 0 || r.fails[len(r.fails)-1] != move) {
		r.fails = append(r.fails, move)
	}
}

// briefChecks are the checks of a stage: a row for each kind, with the move that governs.
func (a *author) briefChecks(stage stages.StageRecord) []block {
	list := ruledIn(stage)
	if len(list) == 0 {
		return nil
	}
	g := grid{
		caption: words("Checks over the moves of the stage, of each kind the one that governs; derived in ").with(checksChapter).and(plain, " as named: margins rounded down, utilisations and what is required up"),
		columns: columnsOf("Move", "Check", "", ">x "+a.units.in(formula.Metre).unit, "Place", ">Demand", "", ">Limit", ">Margin", ">Util.", "State", ">Requires", "Derived"),
		checks:  true,
	}
	x := a.units.aligned(formula.Metre)
	perStage, _ := stages.Record{Stages: []stages.StageRecord{stage}}.Governing()
	for i, c := range list {
		cells := append([]string{numbered(stage, c.move), c.Name, c.LimitState, x.text(c.X), a.placeOf(c.Check)}, a.numbersOf(c.Check)...)
		if numeric(c.Check) {
			cells[5] = strings.Replace(cells[5], " ", "\u00a0", 1)
		}
		state := string(c.State)
		switch {
		case c.State == stages.NotEvaluated:
			state += ": " + a.units.words(c.Note)
		case len(c.fails) > 1:
			state += " in " + movesWords(stage, c.fails)
		}
		g.rows = append(g.rows, append(append(row(append(cells, state)...), a.required(c.Check)), words(a.derivedAt(stage, c))))
		if g.strong == 0 && c.Alike(perStage[0]) {
			g.strong = i + 1
		}
	}
	return []block{g}
}

// derivedAt is the check under which one is derived, or the one that governs of its kind.
func (a *author) derivedAt(stage stages.StageRecord, c ruled) string {
	if len(c.Tables)+len(c.Lines) > 0 {
		return numbered(stage, c.move) + "\u00a0" + letter(c.number)
	}
	if !numeric(c.Check) {
		return ""
	}
	var of stages.Check
	where := ""
	for _, s := range a.record.Stages {
		for i, situation := range s.Situations {
			for k, d := range situation.Checks {
				if len(d.Tables)+len(d.Lines) > 0 && d.Alike(c.Check) && (where == "" || d.Governs(of)) {
					of, where = d, "as\u00a0"+numbered(s, i)+"\u00a0"+letter(k)
				}
			}
		}
	}
	return where
}

// jointsTable has a line for each joint that acts: the range of the stress on its faces over the moves
// of the stage, and the least margin of tension, each with its move.
func (a *author) jointsTable(stage stages.StageRecord) []block {
	list := jointsOf(stage)
	if len(list) == 0 {
		return nil
	}
	unit := a.units.in(formula.Pascal).unit
	g := grid{
		caption: words("Joints over the moves of the stage: stress of the faces over all service factors, tension +, margin of the check of tension, which near anchors takes any part of a tendon that has not spread, rounded down; each with the move that governs"),
		columns: columnsOf("Joint", ">x "+a.units.in(formula.Metre).unit, ">top min "+unit, "in", ">top max", "in", ">bottom min", "in", ">bottom max", "in", ">margin "+unit, "in"),
	}
	var all []float64
	for _, j := range list {
		for _, e := range j.stress {
			all = append(all, e.value)
		}
	}
	x, stress := a.units.aligned(formula.Metre), a.units.aligned(formula.Pascal, all...)
	for _, j := range list {
		cells := []string{j.name, x.text(j.x)}
		for _, e := range j.stress {
			cells = append(cells, stress.text(e.value), numbered(stage, e.move))
		}
		margin, in := none, ""
		if j.margin.found {
			scale := math.Pow10(3)
			margin, in = minus(fmt.Sprintf("%.3f", down(j.margin.value*a.units.in(formula.Pascal).factor*scale)/scale)), numbered(stage, j.margin.move)
		}
		g.rows = append(g.rows, row(append(cells, margin, in)...))
	}
	return []block{g}
}

// extreme is the smallest or the largest value over the moves of a stage.
type extreme struct {
	value float64
	move  int
	found bool
}

// take keeps a value that is larger by sign.
func (e *extreme) take(value float64, move int, sign float64) {
	if !e.found || sign*value > sign*e.value {
		*e = extreme{value, move, true}
	}
}

// jointOver is a joint over the moves of a stage.
type jointOver struct {
	name   string
	x      float64
	stress [4]extreme // top min, top max, bottom min, bottom max
	margin extreme    // of the tension
}

// jointsOf are the joints that act in a move of a stage, from left to right.
func jointsOf(stage stages.StageRecord) []*jointOver {
	var list []*jointOver
	for i, s := range stage.Situations {
		at := stages.StationsOf(s.Stations)
		n := 0
		for _, j := range s.Joints {
			for n < len(list) && list[n].x < j.X {
				n++
			}
			if n == len(list) || list[n].x != j.X {
				list = append(list[:n], append([]*jointOver{{name: j.Name, x: j.X}}, list[n:]...)...)
			}
			list[n].take(i, j, at)
		}
	}
	return list
}

// take takes the stresses of a move at the joint.
func (o *jointOver) take(move int, j stages.JointRecord, at []stages.Station) {
	for _, s := range at {
		if math.Abs(s.X-j.X) > nearJoint {
			continue
		}
		for k, v := range []float64{s.TopLeast, s.TopMost, s.BottomLeast, s.BottomMost} {
			o.stress[k].take(v, move, [4]float64{-1, 1, -1, 1}[k])
		}
	}
	if j.Checked {
		o.margin.take(j.Margin(), move, -1)
	}
}

// derivedHere says which checks of a situation are printed with their derivation: all, and of
// a brief one those that have it and govern their kind in the stage.
func derivedHere(stage stages.StageRecord, i int) []bool {
	s := stage.Situations[i]
	shown := make([]bool, len(s.Checks))
	for k := range s.Checks {
		shown[k] = !s.Brief
	}
	if s.Brief {
		for _, r := range ruledIn(stage) {
			if r.move == i && len(r.Tables)+len(r.Lines) > 0 {
				shown[r.number] = true
			}
		}
	}
	return shown
}
