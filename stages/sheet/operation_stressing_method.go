package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages"
)

// tick is a box to tick.
const tick = "□\u00a0"

// methodOf is what the method statement says of the stressing of a stage.
func methodOf(stage stages.StageRecord) stages.StressingMethod { return stage.Situations[0].Method }

// throughout are the jackings of a stage, their steps counted through all its situations.
func throughout(stage stages.StageRecord) [][]stages.Stressing {
	list, before := make([][]stages.Stressing, len(stage.Situations)), 0
	for k, s := range stage.Situations {
		list[k] = slices.Clone(s.Stressing)
		for i := range list[k] {
			list[k][i].Step += before
		}
		if n := len(list[k]); n > 0 {
			before = list[k][n-1].Step
		}
	}
	return list
}

// lockOff is in which order the ends of a step are locked off, and how their wedges are
// seated; boxes to tick for what the system has not stated.
func (a *author) lockOff(list []stages.Stressing, at tendonEnds) string {
	two := slices.DeleteFunc(slices.Clone(list), func(p stages.Stressing) bool { return !jackedLeft(p) || !jackedRight(p) })
	order := told(two, func(p stages.Stressing) string {
		first, other := at.left, at.right
		switch p.LockOff {
		case "":
			return tick + "all ends at once " + tick + "one end first: ________"
		case "all ends at once":
			return p.LockOff
		case "the right end first":
			first, other = other, first
		}
		return "end " + first + " first, the jacks at " + other + " hold"
	})
	wedges := "wedges"
	if a.steelOf(list) != "strands" {
		wedges = "wedges or nuts"
	}
	seating := told(list, func(p stages.Stressing) string {
		if p.Seating == "" {
			return wedges + " " + tick + "power-seated " + tick + "drawn in by the strand (manual of the system)"
		}
		return wedges + " " + p.Seating
	})
	if len(two) == 0 {
		return seating
	}
	return order + ", " + seating
}

// told is what is said of the tendons of a list: once, or where it differs with their marks.
func told(list []stages.Stressing, words func(stages.Stressing) string) string {
	var texts said
	marks := map[string]said{}
	for _, p := range list {
		text := words(p)
		texts.once(text)
		of := marks[text]
		of.once(p.Mark)
		marks[text] = of
	}
	if len(texts) == 1 {
		return texts[0]
	}
	var parts []string
	for _, text := range texts {
		parts = append(parts, strings.Join(marks[text], ", ")+": "+text)
	}
	return strings.Join(parts, ", ")
}

// gaugeUnit is the unit of the pressure gauges; boxes to tick where it is not stated.
func (a *author) gaugeUnit(list []stages.Stressing) string {
	for _, p := range list {
		if p.GaugeUnit == "" || p.GaugeUnit != list[0].GaugeUnit {
			if a.units.filled() == US {
				return tick + "psi " + tick + "bar"
			}
			return tick + "bar " + tick + "MPa"
		}
	}
	return list[0].GaugeUnit
}

// datumWords are the datum, room for one that is not set.
func datumWords(list []stages.Stressing) string {
	if slices.ContainsFunc(list, func(p stages.Stressing) bool { return p.Datum == 0 }) {
		return "datum ____ (none calculated: stated by the engineer)"
	}
	return "datum"
}

// openMethod are what a stressing needs and nobody has stated: a hold point.
func (a *author) openMethod(stage stages.StageRecord) string {
	m, list := methodOf(stage), slices.Concat(throughout(stage)...)
	any := func(is func(stages.Stressing) bool) bool { return slices.ContainsFunc(list, is) }
	var open said
	for _, of := range []struct {
		is   bool
		what string
	}{
		{any(func(p stages.Stressing) bool { return p.LockOff == "" && jackedLeft(p) && jackedRight(p) }), "lock-off"},
		{any(func(p stages.Stressing) bool { return p.Seating == "" }), "seating"},
		{any(func(p stages.Stressing) bool { return p.GaugeUnit == "" }), "gauge unit"},
		{any(func(p stages.Stressing) bool { return p.Datum == 0 }), "datum"},
		{any(func(p stages.Stressing) bool { return !hasFriction(p) }), "forces A"},
		{any(func(p stages.Stressing) bool { return p.Limit == 0 }), "never above"},
		{any(func(p stages.Stressing) bool { return p.Tolerance == 0 }), "tolerance"},
		{notRead(stage) && m.Gap == 0, "gap"},
	} {
		if of.is {
			open.once(of.what)
		}
	}
	return strings.Join(open, ", ")
}

// freeToMove is what must be free before tendons or strands are stressed.
func freeToMove(stage stages.StageRecord) string {
	what := methodOf(stage).Free
	if what == "" {
		what = "____________________ (stated by the engineer)"
	}
	return what + " free"
}

// protection is how tendons are kept until they are grouted.
func protection(m stages.StressingMethod) string {
	if m.Protection == "" {
		return "Protection of the tendons until grouting: ____________________ (specification)."
	}
	return "Protection of the tendons until grouting: " + m.Protection + "."
}

// latest is by when the tendons of a stage are grouted.
func latest(m stages.StressingMethod) string {
	if m.GroutBy == 0 {
		return "at the latest (date) ________ (specification)"
	}
	return "at the latest " + days(m.GroutBy, down) + " d after stressing, (date) ________"
}

// methodWords are what is stated of a stressing in a situation, for the calculation; ""
// for nothing.
func (a *author) methodWords(s stages.SituationRecord) string {
	m, texts := s.Method, said{}
	if m.NotRead {
		texts.once("supports are not read, their gaps are watched, stop at " + a.gap(m))
	}
	if m.Free != "" {
		texts.once("free to move before stressing: " + m.Free)
	}
	if m.Protection != "" {
		texts.once("protection of tendons until grouting: " + m.Protection)
	}
	if m.GroutBy > 0 {
		texts.once("grouting at the latest " + days(m.GroutBy, down) + " d after stressing")
	}
	for _, of := range []struct {
		name string
		word func(stages.Stressing) string
	}{
		{"wedges ", func(p stages.Stressing) string { return p.Seating }},
		{"lock-off of ", func(p stages.Stressing) string { return p.LockOff }},
		{"gauges in ", func(p stages.Stressing) string { return p.GaugeUnit }},
	} {
		for _, p := range s.Stressing {
			if w := of.word(p); w != "" {
				texts.once(of.name + w)
			}
		}
	}
	return strings.Join(texts, "; ")
}
