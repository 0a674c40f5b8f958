package sheet

import (
	"slices"

	"github.com/tempstage/tempstage/stages"
)

// cranesSetUp are the forms of cranes, each row with room for who has checked it on the
// crane as it is set up; two cranes beside one another, one in two columns.
func (a *author) cranesSetUp(cranes []titled) []block {
	var blocks []block
	for _, item := range alikeConfigured(cranes) {
		if text := a.configured(item); text != "" {
			blocks = append(blocks, paragraph{bold(capital(item.head)+": ").and(plain, text)})
		}
	}
	for some := range slices.Chunk(cranes, 2) {
		if len(some) == 1 {
			blocks = append(blocks, part{name: "equipment setup lone", blocks: []block{a.setUpOfOne(some[0])}})
			continue
		}
		g := grid{open: true, columns: columnsOf("Set-up", some[0].head, "signed", some[1].head, "signed")}
		for _, r := range a.rowsOf(some) {
			g.rows = append(g.rows, row(a.label(r), a.setUp(r, some[0]), "", a.setUp(r, some[1]), ""))
		}
		blocks = append(blocks, part{name: "equipment setup", blocks: []block{g}})
	}
	return blocks
}

// setUpOfOne is the form of one crane in two columns.
func (a *author) setUpOfOne(crane titled) grid {
	g := grid{open: true, columns: columnsOf("Set-up", gearName(crane.EquipmentItem), "signed", "Set-up", "", "signed")}
	rows := a.rowsOf([]titled{crane})
	half := (len(rows) + 1) / 2
	for k := range half {
		cells := []string{a.label(rows[k]), a.setUp(rows[k], crane), "", "", "", ""}
		if k+half < len(rows) {
			cells[3], cells[4] = a.label(rows[k+half]), a.setUp(rows[k+half], crane)
		}
		g.rows = append(g.rows, row(cells...))
	}
	return g
}

// setUp is what is stated of a crane for a row; its configuration stands above.
func (a *author) setUp(r asked, crane titled) string {
	if r.label == configuration {
		return ""
	}
	return a.filled(r, crane)
}

// configured is the configuration of a crane as it is stated; "" for none.
func (a *author) configured(crane titled) string {
	k := slices.IndexFunc(crane.Facts, func(f stages.Fact) bool { return f.Name == "configuration" })
	if k < 0 {
		return ""
	}
	return a.fact(crane.Facts[k])
}

// alikeConfigured are cranes, those of one configuration as one under all their names.
func alikeConfigured(cranes []titled) []titled {
	var list []titled
	text := func(t titled) string {
		for _, f := range t.Facts {
			if f.Name == "configuration" {
				return f.Text
			}
		}
		return ""
	}
	for _, c := range cranes {
		c.head = gearName(c.EquipmentItem)
		k := slices.IndexFunc(list, func(o titled) bool { return text(o) == text(c) })
		if k < 0 {
			list = append(list, c)
			continue
		}
		list[k].head += ", " + c.head
	}
	return list
}
