package stages

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// item is a crane as equipment of its situation: drawn with its rope, stated by what its
// chart and its stand say.
func (c MobileCrane) item(supports []Support) (EquipmentItem, error) {
	row, err := c.Chart.At(c.radius())
	if err != nil {
		return EquipmentItem{}, err
	}
	item := EquipmentItem{Mark: c.Mark, Kind: Crane, Supports: c.Supports}
	var x, top float64
	for _, n := range c.Supports {
		p := supports[n-1]
		if p.Hook != nil {
			x, top = x+p.Hook.X/float64(len(c.Supports)), p.Hook.Z
			item.Outline = append(item.Outline, [][2]float64{{p.X, p.Z}, {p.Hook.X, p.Hook.Z}})
			continue
		}
		x, top = x+p.X/float64(len(c.Supports)), p.Z
	}
	const rope = 2.0 // m, as drawn
	item.Outline = append(item.Outline, [][2]float64{{x, top}, {x, top + rope}})
	value := func(name string, v float64, unit formula.Unit, sense limits.Sense) {
		item.Facts = append(item.Facts, Fact{Name: name, Value: v, Unit: unit, Sense: sense})
	}
	text := func(name, words string) {
		if words != "" {
			item.Facts = append(item.Facts, Fact{Name: name, Text: words})
		}
	}
	text("crane", c.Chart.Crane)
	text("configuration", c.Chart.Configuration)
	value("radius at pick", c.Pick, formula.Metre, limits.AtMost)
	if c.Slew > 0 {
		value("radius while slewing", c.Slew, formula.Metre, limits.AtMost)
	}
	value("radius at set-down", c.Set, formula.Metre, limits.AtMost)
	value("chart capacity", row.Load, formula.Newton, limits.AtMost)
	value("at the radius of the chart", row.Radius, formula.Metre, "")
	text("hoisting factor", map[bool]string{true: "in the chart: compare loads at rest", false: "not in the chart: compare loads with the dynamic factor"}[c.Chart.Hoisting])
	value("deduction: hook block", c.HookBlock, formula.Newton, limits.AtLeast)
	value("deduction: rigging", c.Rigging, formula.Newton, limits.AtLeast)
	if c.Plumb > 0 {
		value("rope out of plumb", c.Plumb, formula.Radian, limits.AtMost)
	}
	if c.Chart.Wind > 0 {
		speed := c.Chart.Wind
		value("wind limit of the chart", speed, formula.MetrePerSecond, limits.AtMost)
	}
	if s := c.Stand; s != nil {
		text("mat", fmt.Sprintf("%.2f m × %.2f m", s.Mat.Length, s.Mat.Width))
		value("permissible ground pressure", s.Mat.Ground, formula.Pascal, limits.AtMost)
		text("ground by", s.Report)
	}
	return item, nil
}
