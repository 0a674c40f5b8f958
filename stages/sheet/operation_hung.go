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

// hangersFact is the fact of a gantry from whose girders a span is suspended: nothing is asked
// of hoists and trolleys.
const hangersFact = "hangers"

// hung is true for a stage in which a span shares hangers on a gantry: at least three
// supports on one second member.
func hung(stage stages.StageRecord) bool {
	return slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool {
		_, n := hangersFrom(s.Supports, 0)
		return n >= 3
	})
}

// hangersFrom are the first supports on a second member, from a place on, that follow one
// another on the same one: where they begin and how many they are.
func hangersFrom(supports []stages.Support, from int) (first, number int) {
	for i := from; i < len(supports); i++ {
		if supports[i].Link == nil {
			if number > 0 {
				return first, number
			}
			continue
		}
		if number == 0 {
			first = i
		}
		number++
	}
	return first, number
}

// hangerWords are hangers that follow one another, in place of each with its stiffness: what
// is set at each is in the table of the gantry.
func (a *author) hangerWords(supports []stages.Support, first, number int) string {
	last := supports[first+number-1]
	text := fmt.Sprintf("hangers %d to %d at %s to %s from %s", first+1, first+number, a.units.place(supports[first].X), a.units.place(last.X), a.units.words(last.Link.Name))
	if slices.ContainsFunc(supports[first:first+number], func(s stages.Support) bool { return s.Level != 0 }) {
		text += ", lowered as in the table below"
	}
	return text
}

// hungMoves are what the crew does with a span on hangers, in order.
func (a *author) hungMoves(i int) []string {
	stage := a.record.Stages[i]
	f := featuresOf(stage)
	switch {
	case f.stores:
		return []string{
			"One segment at a time, in the order of the method statement: take up, level along and across by its own hangers, check that both bars of each pair pull and that the nuts are locked.",
			"When all hang: shorten each pair by the table, from the middle outwards, in increments of at most 5 mm, the neighbours watched; survey the joints before the epoxy.",
		}
	case f.seats && f.jacks:
		return []string{
			"Jacks packed tight and read before the first step. All pairs go down together, none more than 2 mm ahead. After each step stop: read every pair, every jack and the levels; the engineer releases the next step.",
			"A slack pair is not taken up. One that pulls where the table has it slack, or the reverse: stop. Hangers come off only when all are slack and the total is on the jacks, lock rings closed.",
		}
	}
	return nil
}

// hungForces is the table of a span on hangers: how far each is lowered in all and the static
// forces of every support after each situation, with room for what is read.
func (a *author) hungForces(stage stages.StageRecord) []block {
	unit, x := a.units.in(formula.Newton).unit, a.units.aligned(formula.Metre)
	heads := []string{"Support, static " + unit, ">x " + a.units.in(formula.Metre).unit}
	small := a.units.of(0.01, formula.Metre)
	lowered := make([]bool, len(stage.Situations))
	for k, s := range stage.Situations {
		if lowered[k] = slices.ContainsFunc(s.Supports, func(p stages.Support) bool { return p.Link != nil && p.Level != 0 }); lowered[k] {
			heads = append(heads, ">"+numbered(stage, k)+" "+small.unit, ">min", ">max", "read")
			continue
		}
		heads = append(heads, ">"+numbered(stage, k)+" min", ">max", "read")
	}
	g := grid{open: true, columns: columnsOf(append(heads, ">char. max")...)}
	type key struct {
		x, y, z float64
		role    stages.Role
	}
	var order []key
	names := map[key]string{}
	for _, s := range stage.Situations {
		for n, r := range s.Reactions {
			k := key{r.X, r.Y, r.Z, r.Role}
			if _, known := names[k]; !known {
				names[k] = supportName(n, r)
				order = append(order, k)
			}
		}
	}
	for _, k := range order {
		cells, most := []string{names[k], x.text(k.x)}, 0.0
		for n, s := range stage.Situations {
			at := slices.IndexFunc(s.Reactions, func(r stages.Reaction) bool { return key{r.X, r.Y, r.Z, r.Role} == k })
			if lowered[n] {
				cells = append(cells, loweredBy(s, at, small.factor))
			}
			if at < 0 {
				cells = append(cells, "–", "–", "")
				continue
			}
			least, largest := a.gauged(s.Reactions[at].Static)
			cells = append(cells, least, largest, "")
			most = max(most, s.Reactions[at].Characteristic.Most)
		}
		g.rows = append(g.rows, row(append(cells, a.gauge(most, up))...))
	}
	total := []prose{bold("total"), nil}
	for n, s := range stage.Situations {
		if lowered[n] {
			total = append(total, nil)
		}
		least, most := a.gauged(s.Total)
		total = append(total, bold(least), bold(most), nil)
	}
	g.rows = append(g.rows, append(total, nil))
	down := ""
	if slices.Contains(lowered, true) {
		down = small.unit + ": lowered in all by the end of the step. "
	}
	return []block{part{name: "hung", blocks: []block{g}}, paragraph{append(bold("Readings: ").and(plain, down+"At rest, the total, then each; out of the range by more than 1 % of the total: stop. Char.: for working load limits, of a pair. "), prose{{faint, "End x = 0 points to ____________."}}...)}}
}

// loweredBy is how far the support of a reaction is lowered in all, to a tenth of the small unit; a
// dash for one that is no hanger.
func loweredBy(s stages.SituationRecord, at int, factor float64) string {
	if at < 0 || at >= len(s.Supports) || s.Supports[at].Link == nil {
		return "–"
	}
	return fmt.Sprintf("%.1f", -s.Supports[at].Level*factor)
}

// strongestOf is the hold point of a strength that a situation of a stage or a later one of the
// same age asks for, whichever is more: a span that is being lowered is not tested in between.
func strongestOf(stage stages.StageRecord, k int, h derive.HoldPoint) derive.HoldPoint {
	if !isStrength(h) || atAnchors(h) || !hung(stage) {
		return h
	}
	for _, s := range stage.Situations[k+1:] {
		for _, o := range s.HoldPoints {
			if s.Age == stage.Situations[k].Age && o.Kind == h.Kind && slices.Equal(o.Pieces, h.Pieces) && o.Required.Value > h.Required.Value {
				h = o
			}
		}
	}
	return h
}

// accidental is true for a stage of the calculation in which something is lost: no work is
// done by a sheet of it.
func accidental(stage stages.StageRecord) bool {
	return !slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool {
		return s.Standing || !slices.ContainsFunc(s.Loads, func(l stages.Load) bool { return l.Kind == string(limits.Accidental) })
	})
}

// workBefore is the last stage before one in which work is done, −1 for none.
func (a *author) workBefore(i int) int {
	for k := i - 1; k >= 0; k-- {
		if !accidental(a.record.Stages[k]) {
			return k
		}
	}
	return -1
}

// noWork are the blocks of the sheet of an accidental stage.
func noWork(stage stages.StageRecord) []block {
	var names []string
	for _, s := range stage.Situations {
		names = append(names, s.Name)
	}
	return []block{paragraph{words("Accidental situation of the calculation (" + strings.Join(names, "; ") + "): no work is done by this sheet. If it occurs: clear the deck and what is below, stop, and consult the engineer.")}}
}
