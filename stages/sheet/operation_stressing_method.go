package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// tick is a box to tick.
const tick = "□\u00a0"

// methodOf is what the method statement says of the stressing of a stage.
func methodOf(stage stages.StageRecord) stages.StressingMethod { return stage.Situations[0].Method }

// notRead is true for a stressing, or a release of strands, whose supports have no gauges.
func notRead(stage stages.StageRecord) bool {
	f := featuresOf(stage)
	return methodOf(stage).NotRead && (f.stressingOnly() || f == features{})
}

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
			return tick + "all ends at once " + tick + "one end first: ________ (manual of the system)"
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

// apart is in what the pressures of jacks that work together are compared.
func (a *author) apart(list []stages.Stressing) string {
	if unit := a.gaugeUnit(list); !strings.Contains(unit, tick) {
		return unit
	}
	return "at the gauge"
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
		{any(func(p stages.Stressing) bool { return p.LockOff == "" && jackedLeft(p) && jackedRight(p) }), "order of lock-off"},
		{any(func(p stages.Stressing) bool { return p.Seating == "" }), "seating of the wedges"},
		{any(func(p stages.Stressing) bool { return p.GaugeUnit == "" }), "unit of the gauges"},
		{any(func(p stages.Stressing) bool { return p.Datum == 0 }), "datum"},
		{any(func(p stages.Stressing) bool { return !hasFriction(p) }), "forces A"},
		{any(func(p stages.Stressing) bool { return p.Limit == 0 }), "force never above"},
		{any(func(p stages.Stressing) bool { return p.Tolerance == 0 }), "tolerance of extensions"},
		{notRead(stage) && m.Gap == 0, "gap at a support"},
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

// gap is the gap at a support at which work stops.
func (a *author) gap(m stages.StressingMethod) string {
	unit, factor, decimals := a.inSmall()
	if m.Gap == 0 {
		return "____ " + unit + " (stated by the engineer)"
	}
	return trimmed(cutTo(m.Gap*factor, decimals+1), decimals+1) + " " + unit
}

// cutTo is a value rounded down to so many decimals.
func cutTo(value float64, decimals int) float64 {
	scale := 1.0
	for range decimals {
		scale *= 10
	}
	return down(value*scale) / scale
}

// gaps are the tables of supports that are not read: their places, and room for the gap at
// each after every step of stressing.
func (a *author) gaps(stage stages.StageRecord) []block {
	if !notRead(stage) {
		return nil
	}
	heads := []string{"No.", ">x " + a.units.in(formula.Metre).unit, ">y " + a.units.in(formula.Metre).unit}
	steps := 0
	for _, list := range throughout(stage) {
		for _, p := range list {
			steps = max(steps, p.Step)
		}
	}
	switch {
	case steps == 0:
		heads, steps = append(heads, "after release"), 1
	case steps > mostGaps:
		heads, steps = append(heads, "step ____", "last step"), 2
	default:
		for n := range steps {
			heads = append(heads, fmt.Sprintf("step %d", n+1))
		}
	}
	var blocks []block
	var before []stages.Support
	for _, s := range stage.Situations {
		if before != nil && slices.Equal(before, s.Supports) {
			continue
		}
		before = s.Supports
		g, x := grid{open: true, columns: columnsOf(heads...)}, a.units.aligned(formula.Metre)
		for k, r := range s.Reactions {
			g.rows = append(g.rows, row(append([]string{fmt.Sprint(k + 1), x.text(r.X), x.text(r.Y)}, make([]string, steps)...)...))
		}
		blocks = append(blocks, paragraph{bold("Gap "+a.shortUnit()+" (not read): ").and(plain, kindsOfSupports(s))}, part{name: "gaps", blocks: []block{g}})
	}
	return blocks
}

// kindsOfSupports are the supports of a situation by their numbers and roles, and what else
// is set at each.
func kindsOfSupports(s stages.SituationRecord) string {
	var parts said
	for i := 0; i < len(s.Reactions); {
		first := i
		for i < len(s.Reactions) && s.Reactions[i].Role == s.Reactions[first].Role {
			i++
		}
		numbers := fmt.Sprint(first + 1)
		if i > first+1 {
			numbers += fmt.Sprintf(" to %d", i)
		}
		parts.once(numbers + " " + roleOf(s.Reactions[first].Role))
	}
	for _, name := range supportNumbers(s.Reactions) {
		_, more, _ := strings.Cut(name, ", ")
		parts.once(more)
	}
	return strings.Join(parts, "; ")
}

// mostGaps is of how many steps a sheet has room for the gaps at the supports.
const mostGaps = 6

// gapWords say what is watched at supports that are not read; "" where they are.
func (a *author) gapWords(stage stages.StageRecord) string {
	if !notRead(stage) {
		return ""
	}
	when, then := "after each step", "no further step, hold, call the engineer"
	if !featuresOf(stage).stresses {
		when, then = "after the release", "call the engineer before the element is moved"
	}
	return when + " try the gap at every support with a feeler gauge, off the line of the jacks and strands. " + capital(gapStop(a.gap(methodOf(stage)))) +
		": " + then + ". End x = 0 points to ____________."
}

func gapStop(gap string) string { return "a gap of " + gap + " or more at a support" }

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
