package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// gantryItem is the gantry with the pairs of hangers that it holds in a situation, on an
// operation sheet.
func (h Hangers) gantryItem(e stages.Effects) stages.EquipmentItem {
	item := stages.EquipmentItem{Mark: h.Gantry.Name, Kind: stages.Gantry}
	for _, k := range h.hung(e) {
		if k >= 0 {
			item.Supports = append(item.Supports, k+1)
		}
	}
	item.Facts = []stages.Fact{
		{Name: "hangers", Text: fmt.Sprintf("pairs of bars, 1 to %d: %s to %s", len(h.List), h.List[0].Mark, h.List[len(h.List)-1].Mark)},
		{Name: "working load limit of a bar", Value: h.Limit, Unit: formula.Newton, Sense: limits.AtMost},
	}
	return item
}

// items are the gantry alone.
func (h Hangers) items(e stages.Effects) []stages.EquipmentItem {
	return []stages.EquipmentItem{h.gantryItem(e)}
}

// forces is the figure of the forces of the pairs along the span.
func (h Hangers) forces(e stages.Effects) []stages.Figure {
	nominal, most := stages.Polyline{Name: "nominal"}, stages.Polyline{Name: "maximum, characteristic"}
	for i, k := range h.hung(e) {
		if k < 0 {
			continue
		}
		nominal.Points = append(nominal.Points, [2]float64{h.List[i].X, e.Reactions[k].Nominal})
		most.Points = append(most.Points, [2]float64{h.List[i].X, e.Reactions[k].Characteristic.Most})
	}
	if len(nominal.Points) == 0 {
		return nil
	}
	return []stages.Figure{{Title: "forces of the pairs of hangers", XUnit: "m", YUnit: "N", Lines: []stages.Polyline{nominal, most}}}
}

// slack are the marks of the pairs without force at rest, nominal.
func (h Hangers) slack(e stages.Effects) (marks []string) {
	for i, k := range h.hung(e) {
		if k >= 0 && e.Reactions[k].Nominal <= 0 {
			marks = append(marks, h.List[i].Mark)
		}
	}
	return marks
}
