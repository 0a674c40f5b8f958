package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// noSpeed is what is said of a wind without a speed: nobody can read its force.
const noSpeed = "not evaluated: no speed stated"

// isWind is true for an action of wind: by its kind, or by its mark in a record that has
// no kinds.
func isWind(l stages.Load) bool {
	return l.Kind == string(limits.Wind) || l.Kind == "" && strings.Contains(strings.ToLower(l.Mark), "wind")
}

// windSpeed is the speed of a wind as an anemometer is read.
func (a *author) windSpeed(l stages.Load) string {
	if l.Wind == nil {
		return noSpeed
	}
	return a.units.safe(l.Wind.Speed, formula.MetrePerSecond, limits.AtMost) + " (" + l.Wind.Averaged() + " at " + a.above(l.Wind.Height) + ")"
}

// above is a height above the ground, which nobody reads to the millimetre.
func (a *author) above(height float64) string {
	p := a.units.in(formula.Metre)
	return trimmed(height*p.factor, 1) + " " + p.unit
}

// windsOf are the winds of a stage, each once.
func windsOf(stage stages.StageRecord) []stages.Load {
	var list []stages.Load
	for _, s := range stage.Situations {
		for _, l := range s.Loads {
			same := func(o stages.Load) bool {
				return o.Mark == l.Mark && o.Force == l.Force && o.Presence == l.Presence && o.From == l.From && o.To == l.To
			}
			if isWind(l) && !slices.ContainsFunc(list, same) {
				list = append(list, l)
			}
		}
	}
	return list
}

// windOf are the speeds of the winds of a stage as the calculation used them.
func (a *author) windOf(stage stages.StageRecord) string {
	var list []string
	for _, l := range windsOf(stage) {
		if text := a.windSpeed(l); !slices.Contains(list, text) {
			list = append(list, text)
		}
	}
	return strings.Join(list, "; ")
}

// windAsked is a limit of wind with room for what it is a value of.
func (a *author) windAsked() string {
	return "____ " + a.units.in(formula.MetrePerSecond).unit + ", gust / mean, at ____ " + a.units.in(formula.Metre).unit
}

// windHold is what the engineer must state before work in the wind: the limit where the
// calculation has no wind, or none with a speed; "" where it has one.
func (a *author) windHold(stage stages.StageRecord) string {
	if !a.windy(stage) {
		return ""
	}
	winds := windsOf(stage)
	states := "; the engineer: " + a.windAsked()
	if len(winds) == 0 {
		return "none in the calculation" + states
	}
	for _, l := range winds {
		if l.Wind == nil {
			return noSpeed + " for " + a.loadSize(l) + states
		}
	}
	return ""
}

// windy is true for a stage whose sheet asks for the wind limit.
func (a *author) windy(stage stages.StageRecord) bool {
	f := featuresOf(stage)
	return f.lifts || f.hauls || f.builds
}

// windLimit is the wind that the calculation used, which is the upper limit, and room for
// that of the chart; the forms of named equipment have room of their own.
func (a *author) windLimit(stage stages.StageRecord) prose {
	calculation := "the hold point above"
	if wind := a.windOf(stage); wind != "" && a.windHold(stage) == "" {
		calculation = "calculation " + wind
	}
	if items := equipmentOf(stage); has(items, lifting...) || has(items, hauling...) {
		return bold("Wind: ").and(plain, "stop at the smallest of "+calculation+" and the limits of the equipment")
	}
	return bold("Wind: ").and(plain, "stop at the smaller of "+calculation+" and the chart "+a.windAsked()+", parked ______ "+a.units.in(formula.MetrePerSecond).unit+", chart of __________")
}

// whileHooksCarry are the limits of the lift before a set-down, which apply until the
// hooks are empty; "" where nothing hung.
func (a *author) whileHooksCarry(i int) string {
	if i == 0 {
		return ""
	}
	before := a.record.Stages[i-1]
	if !suspended(before.Situations[len(before.Situations)-1]) {
		return ""
	}
	items := equipmentOf(before)
	wind := a.ofEach(items, "wind limit", "wind basis")
	if a.windHold(before) == "" {
		if used := a.windOf(before); !slices.Contains(wind, used) {
			wind = append(wind, "calculation "+used)
		}
	}
	if len(wind) == 0 || a.windHold(before) != "" {
		wind = append(wind, "the engineer's limit "+a.windAsked())
	}
	text := "wind at most the smallest of " + strings.Join(wind, ", ")
	if len(wind) == 1 && !strings.HasPrefix(wind[0], "the engineer") {
		text = "wind at most " + wind[0]
	}
	for _, of := range [][2]string{{"rope out of plumb", "; ropes out of plumb at most "}, {"radius at set", "; radius at set-down at most "}} {
		stated := strings.Join(a.ofEach(items, of[0], ""), ", ")
		if stated == "" && of[0] == "radius at set" && has(items, lifting...) && !has(items, stages.Crane) {
			continue // hoists of a gantry have none
		}
		if stated == "" {
			stated = "______"
		}
		text += of[1] + stated
	}
	return text
}

// ofEach is a fact of each item that states it, with a second one in brackets; those of
// all items alike once, without their marks.
func (a *author) ofEach(items []titled, name, basis string) []string {
	var list, marks []string
	for _, item := range items {
		text, more := "", ""
		for _, f := range item.Facts {
			switch f.Name {
			case name:
				text = a.fact(f)
			case basis:
				more = " (" + a.fact(f) + ")"
			}
		}
		if text != "" {
			list, marks = append(list, text+more), append(marks, gearName(item.EquipmentItem))
		}
	}
	if len(list) > 0 && !slices.ContainsFunc(list, func(text string) bool { return text != list[0] }) {
		return list[:1]
	}
	for k := range list {
		list[k] = marks[k] + " " + list[k]
	}
	return list
}
