package sheet

import (
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// positions are the positions that an item takes up, a row for each and a column for each
// fact that is stated of one; nothing of an item that stays where it is.
func (a *author) positions(item titled) []block {
	var names []string
	units := map[string]formula.Unit{}
	for _, p := range item.Positions {
		for _, f := range p.Facts {
			if !slices.Contains(names, f.Name) {
				names = append(names, f.Name)
			}
			if f.Unit != "" {
				units[f.Name] = f.Unit
			}
		}
	}
	if len(names) == 0 {
		return nil
	}
	head := "Position of " + gearName(item.EquipmentItem)
	if item.Kind == stages.Towers { // it stays where it is, its rows change their forces
		head = "Nominal force of each row after"
	}
	g := grid{open: true, columns: columnsOf(head)}
	for _, name := range names {
		head := column{title: words(a.units.words(name)), right: units[name] != ""}
		if unit := units[name]; unit != "" && unit != formula.One {
			head.title = head.title.and(plain, ", "+a.units.in(unit).unit)
		}
		g.columns = append(g.columns, head)
	}
	for _, p := range item.Positions {
		cells := []string{a.units.words(p.Name)}
		for _, name := range names {
			cells = append(cells, a.stated(p.Facts, name, units[name]))
		}
		g.rows = append(g.rows, row(cells...))
	}
	return []block{part{name: "positions", blocks: []block{g}}}
}

// stated is a fact in the unit of its column, with its own where that is another; a dash where
// it is not stated.
func (a *author) stated(facts []stages.Fact, name string, unit formula.Unit) string {
	k := slices.IndexFunc(facts, func(f stages.Fact) bool { return f.Name == name })
	switch {
	case k < 0:
		return "–"
	case facts[k].Unit == "" || facts[k].Unit == formula.Radian || facts[k].Unit != unit:
		return a.fact(facts[k])
	}
	f := facts[k]
	return rounded(f.Value*a.units.in(f.Unit).factor, figures, sideOf(f.Sense))
}
