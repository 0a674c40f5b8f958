package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// notRead is true for a stressing, or a release of strands, whose supports have no gauges.
func notRead(stage stages.StageRecord) bool {
	f := featuresOf(stage)
	return methodOf(stage).NotRead && (f.stressingOnly() || f == features{})
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
	if onFalsework(stage) {
		return a.rowsBeside(stage)
	}
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
		heads = append(heads, "before")
		steps++
		for n := range steps - 1 {
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
	if onFalsework(stage) {
		return a.rowsWatched(stage)
	}
	when, then := "after each step", "no further step, hold, call the engineer"
	if !featuresOf(stage).stresses {
		when, then = "after the release", "call the engineer before the element is moved"
	}
	return when + " try the gap at every support with a feeler gauge, off the line of the jacks and strands. " + capital(gapStop(a.gap(methodOf(stage)))) +
		": " + then + ". End x = 0 points to ____________."
}

func gapStop(gap string) string { return "a gap of " + gap + " or more at a support" }
