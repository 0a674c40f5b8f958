package sheet

import (
	"cmp"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// stepParts are the segments that a step erects and the frames on the deck beside one another.
func (a *author) stepParts(stage stages.StageRecord) []block {
	segments, frames := stepItems(stage, stages.Erected), stepItems(stage, stages.LiftingFrame)
	var columns [][]block
	if len(segments) > 0 {
		columns = append(columns, []block{a.segmentsGrid(stage, segments)})
	}
	if len(frames) > 0 {
		columns = append(columns, []block{a.framesGrid(frames)})
	}
	if len(columns) == 0 {
		return nil
	}
	return []block{part{name: "parts", blocks: []block{beside{columns: columns}}}}
}

// stepRow is a row of a grid of items: what it is called, and what is stated of an item.
type stepRow struct {
	label string
	of    func(stepItem) string
}

// gridOf has a column for each item and the rows in which something is stated, or asked of
// all.
func gridOf(head string, items []stepItem, rows []stepRow) grid {
	heads := []string{head}
	for _, item := range items {
		heads = append(heads, cmp.Or(item.head, item.mark))
	}
	g := grid{open: true, columns: columnsOf(heads...)}
	for _, r := range rows {
		cells := []string{r.label}
		for _, item := range items {
			text := ""
			if r.of != nil {
				text = r.of(item)
			}
			cells = append(cells, text)
		}
		if r.of == nil || strings.Join(cells[1:], "") != "" {
			g.rows = append(g.rows, row(cells...))
		}
	}
	return g
}

// segmentsGrid are the segments with their weights, bars and the pressure on their joints.
func (a *author) segmentsGrid(stage stages.StageRecord, items []stepItem) grid {
	state := func(name string) func(stepItem) string {
		return func(i stepItem) string { return a.stateOf(i.facts, name) }
	}
	against := func(name string) func(stepItem) string {
		return func(i stepItem) string {
			if a.stateOf(i.facts, name) == "" {
				return ""
			}
			return a.bareFact(i.facts, name) + "; " + compareLeast + a.stateOf(i.facts, name+" required")
		}
	}
	for k, i := range items {
		if joint := a.stateOf(i.facts, "joint"); joint != "" {
			items[k].head = i.mark + ", joint " + joint
		}
	}
	return gridOf("Segment", items, []stepRow{
		{"Weight (from, to)", func(i stepItem) string {
			return a.stateOf(i.facts, "weight") + " (" + a.bareFact(i.facts, "minimum weight") + ", " + a.bareFact(i.facts, "maximum weight") + ")"
		}},
		{"Weighed, " + a.units.in(formula.Newton).unit, nil},
		{"Strength to lift, fck", func(i stepItem) string {
			if s := a.stateOf(i.facts, "strength to lift"); s != "" {
				return compareLeast + s + ", shown ______"
			}
			return ""
		}},
		{"Lifted by; from joint", func(i stepItem) string {
			return a.stateOf(i.facts, "lifted by") + "; CoG " + a.stateOf(i.facts, "CoG from the joint")
		}},
		{"Bars, force, order", func(i stepItem) string { return a.barsWords(stage, i.mark) }},
		{"Mean pressure; limit", against("mean pressure")},
		{"Min pressure; limit", against("minimum pressure")},
		{"Bars out", state("bars released")},
		{"Trial fit; epoxy batch", nil},
		{"Open time; closed at", nil},
	})
}

const compareLeast = "≥ "

// barsWords are the bars that are stressed where a segment is joined, with the force of each.
func (a *author) barsWords(stage stages.StageRecord, segment string) string {
	for _, s := range stage.Situations {
		if len(s.Stressing) == 0 || !slices.Contains(s.Joined, segment) {
			continue
		}
		var marks []string
		order := "together"
		for _, p := range s.Stressing {
			marks = append(marks, p.Mark)
			if p.Step > 1 {
				order = "in the steps of the next page"
			}
		}
		return alikeMarks(marks) + ", " + a.units.quantity(s.Stressing[0].Force, formula.Newton) + " each, " + order
	}
	return ""
}

// framesGrid are the frames on the deck with their anchor bars and the forces of their feet.
func (a *author) framesGrid(items []stepItem) grid {
	lifts := func(name string) func(stepItem) string {
		return func(i stepItem) string {
			for _, p := range i.positions {
				if text := a.stateOf(p.Facts, name); text != "" && a.stateOf(p.Facts, "pull on the anchors") != "" {
					return text
				}
			}
			return ""
		}
	}
	return gridOf("Frame", items, []stepRow{
		{"Stands", func(i stepItem) string {
			var names []string
			for _, p := range i.positions {
				names = append(names, a.units.words(p.Name))
			}
			return strings.Join(names, "; ")
		}},
		{"Feet behind the face", func(i stepItem) string {
			return a.stateOf(i.facts, "front feet behind the face") + "; " + a.stateOf(i.facts, "rear feet behind the face")
		}},
		{"Weight (front, rear)", func(i stepItem) string {
			text := a.stateOf(i.facts, "weight")
			for _, p := range i.positions {
				if a.stateOf(p.Facts, "rear feet") != "" {
					return text + " (" + a.bareFact(p.Facts, "front feet") + ", " + a.bareFact(p.Facts, "rear feet") + ")"
				}
			}
			return text
		}},
		{"Anchor bars; WLL", func(i stepItem) string {
			n := a.countOf(i.facts, "anchor bars")
			if n == "" {
				return ""
			}
			return n + " × " + a.stateOf(i.facts, "anchor preload") + "; " + a.stateOf(i.facts, "anchor capacity")
		}},
		{"Pull, lifting; in a bar", func(i stepItem) string {
			pull, bar := lifts("pull on the anchors")(i), lifts("force of an anchor bar")(i)
			if bar != "" {
				pull += "; " + bar
			}
			return pull
		}},
		{"Front feet, lifting", func(i stepItem) string {
			feet := lifts("front feet")(i)
			if most := a.stateOf(i.facts, "permissible on the front feet"); most != "" && feet != "" {
				feet += " of " + most
			}
			return feet
		}},
		{"Locked by; bars, " + a.units.in(formula.Newton).unit, nil},
	})
}
