package launching

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// facts are what an operation sheet states of equipment.
type facts []stages.Fact

func (f *facts) value(name string, v float64, unit formula.Unit, sense limits.Sense) {
	*f = append(*f, stages.Fact{Name: name, Value: v, Unit: unit, Sense: sense})
}

func (f *facts) text(name, words string) { *f = append(*f, stages.Fact{Name: name, Text: words}) }

// item is the gantry on an operation sheet, with what its feet bring in each of some of its
// positions. The wind stands once where it is the same in all.
func (l Launch) item(positions []Position) (stages.EquipmentItem, error) {
	item := stages.EquipmentItem{Mark: l.Gantry.Mark, Kind: stages.Gantry}
	wind := l.Positions[0].Wind
	alike := wind.Speed > 0 && !slices.ContainsFunc(l.Positions, func(p Position) bool { return p.Wind != wind })
	if alike {
		var list facts
		list.value("wind limit", wind.Speed, formula.MetrePerSecond, limits.AtMost)
		list.text("wind basis", wind.words())
		item.Facts = list
	}
	for _, p := range positions {
		at, err := l.stated(p, !alike)
		if err != nil {
			return item, err
		}
		item.Positions = append(item.Positions, stages.EquipmentPosition{Name: p.Name, Facts: at})
	}
	return item, nil
}

// stated is what the crew sets and reads in a position: places along x of the element, of
// trolleys from the rear end of the gantry.
func (l Launch) stated(p Position, wind bool) (list facts, err error) {
	g := l.Gantry
	feet, err := g.Across(p)
	if err != nil {
		return nil, err
	}
	list.value("rear end at x", p.At, formula.Metre, "")
	if p.Roll != 0 {
		list.value("rolls to x", p.At+p.Roll, formula.Metre, "")
		if g.Stiffness != nil && len(p.Hanging) > 0 { // a leg that lands must reach down
			nose, err := g.Nose(p)
			if err != nil {
				return nil, err
			}
			list.value("nose low by", nose, formula.Metre, "")
		}
	}
	for i, t := range p.Trolleys {
		name := g.Trolleys[i].Mark + " from rear"
		if t.Locked {
			name += ", locked"
		}
		list.value(name, t.At, formula.Metre, "")
	}
	var held, barred []string
	for _, leg := range g.Legs {
		i := slices.IndexFunc(feet, func(f Feet) bool { return f.Leg == leg.Mark })
		if i < 0 {
			list.text(leg.Mark+" leg on", "up")
			if slices.ContainsFunc(l.Positions, func(p Position) bool { return p.stand(leg.Mark) >= 0 }) { // in the columns of where it stands
				list.text(leg.Mark+" leg at x", "–")
				list.text("foot char., "+leg.Mark, "–")
			}
			continue
		}
		f := feet[i]
		list.text(f.Leg+" leg on", f.On)
		list.value(f.Leg+" leg at x", f.X, formula.Metre, "")
		list.value("foot char., "+f.Leg, f.Foot.Most, formula.Newton, limits.AtLeast)
		if s := p.Stands[p.stand(f.Leg)]; s.Holds {
			held = append(held, f.Leg)
		}
		if bars := p.Stands[p.stand(f.Leg)].Bars; bars != nil {
			barred = append(barred, fmt.Sprintf("%s: %d of %s", f.Leg, bars.Number, kilonewtons(bars.Preload)))
		}
	}
	list.text("brakes or pins at", or(strings.Join(held, ", "), "none"))
	list.text("anchor bars", or(strings.Join(barred, ", "), "none"))
	if wind && p.Wind.Speed > 0 {
		list.value("wind, "+p.Wind.words(), p.Wind.Speed, formula.MetrePerSecond, limits.AtMost)
	}
	return list, nil
}

// items are the jacks from which the bearings get the element.
func (l LoadTransfer) items() []stages.EquipmentItem {
	if l.From == nil {
		return nil
	}
	item := l.From.items()[0]
	item.Supports = nil // it ends on the bearings
	list := facts{}
	list.text("places", fmt.Sprintf("x = %.4g m and %.4g m, y = %.4g m to %.4g m", l.From.Jacks[0].X, l.From.Jacks[2].X, math.Min(l.From.Jacks[0].Y, l.From.Jacks[2].Y), math.Max(l.From.Jacks[1].Y, l.From.Jacks[3].Y)))
	item.Facts = append(list, slices.DeleteFunc(item.Facts, func(f stages.Fact) bool { return f.Name == "lowered in all" || f.Name == "packing out at a stroke" })...)
	return []stages.EquipmentItem{item}
}

// items are the jacks with their stacks.
func (j JackDown) items() []stages.EquipmentItem {
	var list facts
	a, b := 2*j.Linked-1, 2*j.Linked
	list.text("linked", fmt.Sprintf("%d + %d; others alone", a, b))
	list.value("rated force", j.Jack.Rated, formula.Newton, limits.AtMost)
	list.value("stroke", j.Jack.Stroke, formula.Metre, limits.AtMost)
	list.value("packing out at a stroke", j.Stack.Packing, formula.Metre, limits.AtMost)
	list.value("residual stroke", j.Stack.Spare, formula.Metre, limits.AtLeast)
	list.value("lowered in all", j.Travel, formula.Metre, "")
	list.value("stack height", j.Stack.Height, formula.Metre, limits.AtMost)
	list.value("stack base", j.Stack.Base, formula.Metre, limits.AtLeast)
	if j.Stack.Offset > 0 {
		list.value("eccentricity of the jack", j.Stack.Offset, formula.Metre, limits.AtMost)
	}
	if j.SafetyPacking != nil {
		list.value("packing beside, gap", j.SafetyPacking.Gap, formula.Metre, limits.AtMost)
		list.value("packing beside, capacity", j.SafetyPacking.Capacity, formula.Newton, limits.AtMost)
	}
	list.value("horizontal capacity", j.Jack.Side*j.Jack.Rated, formula.Newton, limits.AtMost)
	if j.Gradient > 0 {
		list.value("difference along", j.Gradient*(j.Jacks[2].X-j.Jacks[0].X), formula.Metre, limits.AtMost)
	}
	if j.Roll > 0 {
		width := math.Min(j.Jacks[1].Y-j.Jacks[0].Y, j.Jacks[3].Y-j.Jacks[2].Y)
		list.value("difference across", j.Roll*width, formula.Metre, limits.AtMost)
	}
	return []stages.EquipmentItem{{Mark: "jacks", Kind: stages.Jacks, Supports: []int{1, 2, 3, 4}, Facts: list}}
}
