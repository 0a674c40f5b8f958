package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// item is a crane as equipment of its situation: drawn with its slings and rope, stated by
// its chart, its stand and what the lift gives, in the names of the operation sheet.
func (c MobileCrane) item(e Effects, standard limits.Standard, cranes int) (EquipmentItem, error) {
	row, err := c.Chart.At(c.radius())
	if err != nil {
		return EquipmentItem{}, err
	}
	item := EquipmentItem{Mark: c.Mark, Kind: Crane, Supports: c.Supports, Outline: c.outline(e.Situation.Supports)}
	value := func(name string, v float64, unit formula.Unit, sense limits.Sense) {
		item.Facts = append(item.Facts, Fact{Name: name, Value: v, Unit: unit, Sense: sense})
	}
	text := func(name, words string) {
		if words != "" {
			item.Facts = append(item.Facts, Fact{Name: name, Text: words})
		}
	}
	text("configuration", c.Chart.Crane+", "+c.Chart.Configuration+"; "+c.Chart.Source.Document+map[bool]string{true: ", hoisting factor in it", false: ", without hoisting factor"}[c.Chart.Hoisting])
	value("radius at pick", c.Pick, formula.Metre, limits.AtMost)
	value("radius at slew", c.radius(), formula.Metre, limits.AtMost)
	value("radius at set", c.Set, formula.Metre, limits.AtMost)
	value("chart radius", row.Radius, formula.Metre, limits.AtMost)
	value("chart capacity", row.Load, formula.Newton, limits.AtMost)
	value("deductions", c.HookBlock+c.Rigging, formula.Newton, limits.AtLeast)
	uses, err := c.uses(e, standard, cranes)
	if err != nil {
		return item, err
	}
	use := worstUse(uses)
	if use != nil {
		value("share of chart", use.pick.Part, formula.One, limits.AtMost)
		value("derated capacity", use.Permissible, formula.Newton, limits.AtMost)
		value("gross load", use.Gross, formula.Newton, limits.AtLeast)
		text("utilisation", fmt.Sprintf("%.0f %%", math.Ceil(100*use.Utilisation-1e-9)))
	}
	if s := c.Stand; s != nil {
		if s.Tail > 0 {
			value("tail swing", s.Tail, formula.Metre, limits.AtLeast)
		}
		if use != nil {
			legs, err := c.worstLegs(use.Gross)
			if err != nil {
				return item, err
			}
			value("outrigger maximum", legs.Most(), formula.Newton, limits.AtLeast)
		}
		value("mat length", s.Mat.Length, formula.Metre, limits.AtLeast)
		value("mat width", s.Mat.Width, formula.Metre, limits.AtLeast)
		value("permissible ground pressure", s.Mat.Ground, formula.NewtonPerSquareMetre, limits.AtMost)
	}
	if c.CoG > 0 {
		value("tolerance of CoG", c.CoG, formula.Metre, limits.AtMost)
	}
	wind, err := c.windLimit(e)
	if err != nil {
		return item, err
	}
	if wind.speed > 0 {
		value("wind limit", wind.speed, formula.MetrePerSecond, limits.AtMost)
		text("wind basis", wind.basis)
	}
	if c.Plumb > 0 {
		value("rope out of plumb", c.Plumb, formula.Radian, limits.AtMost)
	}
	return item, nil
}

// rope is the length of rope that is drawn above a hook (m).
const rope = 0.4

// outline are the slings of a crane and its rope.
func (c MobileCrane) outline(supports []Support) (lines [][][2]float64) {
	var x, top float64
	for _, n := range c.Supports {
		p := supports[n-1]
		at, level := p.X, p.Z
		if p.Hook != nil {
			at, level = p.Hook.X, p.Hook.Z
			lines = append(lines, [][2]float64{{p.X, p.Z}, {at, level}})
		}
		x, top = x+at/float64(len(c.Supports)), max(top, level)
	}
	return append(lines, [][2]float64{{x, top}, {x, top + rope}})
}
