package sheet

import (
	"math"
	"reflect"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Kinds that lift, and kinds that haul.
var (
	lifting = []stages.EquipmentKind{stages.Crane, stages.Gantry, stages.StraddleCarrier, stages.Carrier}
	hauling = []stages.EquipmentKind{stages.Carrier, stages.Trailer}
)

// titled is an item of equipment of a stage with the head of its column.
type titled struct {
	stages.EquipmentItem
	head string
}

// equipmentOf are the items of equipment of a stage, each once; one that changes within
// the stage says from which situation on, one that only moves has all its positions.
func equipmentOf(stage stages.StageRecord) []titled {
	var list []titled
	for k, s := range stage.Situations {
		for _, item := range s.Equipment {
			if slices.ContainsFunc(list, func(t titled) bool { return reflect.DeepEqual(t.EquipmentItem, item) }) {
				continue
			}
			if at := slices.IndexFunc(list, func(t titled) bool { return onlyMoved(t.EquipmentItem, item) }); at >= 0 {
				list[at].Positions = append(slices.Clip(list[at].Positions), item.Positions...)
				continue
			}
			head := gearName(item)
			if len(item.Supports) > 0 {
				head += ", at supports " + itemSupports(item)
			}
			if slices.ContainsFunc(list, func(t titled) bool { return t.Mark == item.Mark }) {
				head += ", from " + numbered(stage, k) + " on"
			}
			list = append(list, titled{item, head})
		}
	}
	return list
}

// onlyMoved is true for an item that differs from one before by its positions only.
func onlyMoved(before, item stages.EquipmentItem) bool {
	before.Outline, before.Positions = item.Outline, item.Positions
	return len(item.Positions) > 0 && reflect.DeepEqual(before, item)
}

// has is true where an item of one of the kinds is named.
func has(items []titled, kinds ...stages.EquipmentKind) bool {
	return slices.ContainsFunc(items, func(t titled) bool { return slices.Contains(kinds, t.Kind) })
}

// equipmentForms are the forms of the equipment of a stage, kind by kind, filled in with
// what is stated of it. Lift points that nobody holds have the form of any crane or hoist.
func (a *author) equipmentForms(stage stages.StageRecord) []block {
	const most = 2 // items in a table
	items := equipmentOf(stage)
	if featuresOf(stage).stresses && onFalsework(stage) {
		items = slices.DeleteFunc(items, func(t titled) bool { return t.Kind == stages.Towers }) // its table is beside the words of the stressing
	}
	var blocks []block
	for _, kind := range stages.EquipmentKinds() {
		var same []titled
		for _, item := range items {
			if item.Kind == kind {
				same = append(same, item)
			}
		}
		if kind == stages.Crane {
			blocks = append(blocks, a.cranesSetUp(same)...)
			continue
		}
		if len(same) == 1 {
			blocks = append(blocks, a.formOfOne(same[0])...)
			continue
		}
		for some := range slices.Chunk(same, most) {
			blocks = append(blocks, part{name: "equipment", blocks: []block{a.formOf(some)}})
			for _, item := range some {
				blocks = append(blocks, a.positions(item)...)
			}
		}
	}
	switch rest := unheld(stage); {
	case featuresOf(stage).lifts && !has(items, lifting...):
		blocks = append(blocks, part{name: "blanks", blocks: []block{a.anyLifting(nil)}})
	case len(rest) > 0:
		blocks = append(blocks, part{name: "blanks", blocks: []block{a.anyLifting(rest)}})
	}
	return blocks
}

// formOfOne is the form of one item, two rows beside one another.
func (a *author) formOfOne(item titled) []block {
	f, head := form{columns: 2}, bold(capital(item.head)+":")
	for _, r := range a.rowsOf([]titled{item}) {
		if text := a.filled(r, item); len(r.facts) == 1 && r.facts[0] == "configuration" && text != "" {
			head = head.and(plain, " "+text) // too long for a cell
			continue
		}
		f.pairs = append(f.pairs, [2]string{a.label(r), a.filled(r, item)})
	}
	return append([]block{paragraph{head}, part{name: "equipment", blocks: []block{f}}}, a.positions(item)...)
}

// formOf is the form of items of one kind beside one another.
func (a *author) formOf(items []titled) grid {
	heads := []string{capital(string(items[0].Kind))}
	for _, item := range items {
		heads = append(heads, item.head)
	}
	g := grid{open: true, columns: columnsOf(heads...)}
	for _, r := range a.rowsOf(items) {
		cells := []string{a.label(r)}
		for _, item := range items {
			cells = append(cells, a.filled(r, item))
		}
		g.rows = append(g.rows, row(cells...))
	}
	return g
}

// rowsOf are the rows of items of one kind: those of its form, then one for each fact that
// the form does not ask for.
func (a *author) rowsOf(items []titled) []asked {
	rows := slices.DeleteFunc(slices.Clone(forms[items[0].Kind]), func(r asked) bool { return !fits(r, items) })
	for _, item := range items {
		for _, f := range item.Facts {
			if !slices.ContainsFunc(rows, func(r asked) bool { return slices.Contains(r.facts, f.Name) }) {
				rows = append(rows, asked{label: capital(a.units.words(f.Name)), facts: []string{f.Name}})
			}
		}
	}
	return rows
}

// fits is true for a row that asks something of items: of their hoists where they hold lift
// points, of their place where no positions are stated.
func fits(r asked, items []titled) bool {
	if states(items, hangersFact) {
		return r.label == askedWind.label || r.label == askedBasis.label
	}
	if items[0].Kind == stages.Pier && len(items[0].Positions) > 0 {
		return false // of a free cantilever: its rows and ties are stated, nothing is set on it
	}
	all := func(is func(titled) bool) bool {
		return !slices.ContainsFunc(items, func(t titled) bool { return !is(t) })
	}
	if slices.Contains(ofHoists, r.label) && all(func(t titled) bool { return t.Kind == stages.Gantry && len(t.Supports) == 0 }) {
		return false
	}
	return !slices.Contains(ofPlace, r.label) || !all(func(t titled) bool { return len(t.Positions) > 0 })
}

// label is what a row asks for, with the unit in which it is written in.
func (a *author) label(r asked) string {
	if r.unit == "" {
		return r.label
	}
	return r.label + ", " + a.units.in(r.unit).unit
}

// filled is what is stated of an item for a row, joined as the label joins it; what is left
// out is a blank, and a row of which nothing is stated is blank.
func (a *author) filled(r asked, item titled) string {
	text, none := "", true
	for i, name := range r.facts {
		if i > 0 {
			text += a.joint(r, i)
		}
		k := slices.IndexFunc(item.Facts, func(f stages.Fact) bool { return f.Name == name })
		if k < 0 {
			text += "____"
			continue
		}
		stated := a.fact(item.Facts[k])
		if f := item.Facts[k]; f.Unit != "" && f.Unit == r.unit {
			stated = strings.TrimSuffix(stated, " "+a.units.in(r.unit).unit)
		}
		text, none = text+stated, false
	}
	if none {
		return ""
	}
	return text
}

// joint is what stands before the i-th fact of a row.
func (a *author) joint(r asked, i int) string {
	var signs []string
	for _, word := range strings.Fields(r.label) {
		if strings.HasSuffix(word, ";") {
			signs = append(signs, "; ")
		}
		if word == "/" || word == "−" || word == "=" || word == "×" {
			signs = append(signs, " "+word+" ")
		}
	}
	if i <= len(signs) {
		return signs[i-1]
	}
	return "; "
}

// sideOf is how a fact is rounded: to the nearest without a sense.
func sideOf(sense limits.Sense) func(float64) float64 {
	if sense == "" {
		return math.Round
	}
	return cutOf(sense)
}

// fact is what is stated, rounded as it must be.
func (a *author) fact(f stages.Fact) string {
	switch {
	case f.Unit == "":
		return a.units.words(f.Text)
	case f.Unit == formula.Radian: // as it is measured on site
		per := map[Units]string{SI: " mm per m", US: " in per 100 ft"}[a.units.filled()]
		return rounded(f.Value*map[Units]float64{SI: 1000, US: 1200}[a.units.filled()], figures, sideOf(f.Sense)) + per
	case f.Sense != "":
		return a.units.safe(f.Value, f.Unit, f.Sense)
	}
	return a.units.quantity(f.Value, f.Unit)
}
