package sheet

import (
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// onSite is where an element rests as a crew reads it: supports by their numbers with
// their distance from the end x = 0, groups by the numbers of their supports, and
// equipment; limits of levels are in the form. Where they stand across is in the table of readings.
func (a *author) onSite(s stages.SituationRecord) string {
	var texts []string
	each := a.hookOfAll(s.Supports)
	for i := 0; i < len(s.Supports); {
		if at, n := hangersFrom(s.Supports, i); at == i && n >= 3 {
			texts = append(texts, a.hangerWords(s.Supports, i, n))
			i += n
			continue
		}
		first, set := s.Supports[i], []int{}
		for ; i < len(s.Supports) && alikePlace(s.Supports[i], first); i++ {
			set = append(set, i)
		}
		text := supportNames(set, first.Role) + " at " + a.units.place(first.X)
		if len(texts) == 0 {
			text += " from end x = 0"
		}
		unhooked := first
		unhooked.Hook = nil
		if each == "" {
			text += a.hookWords(first)
		}
		text += a.particulars(unhooked)
		if first.Group != "" {
			text = strings.ReplaceAll(text, "("+groupWords(first.Group)+")", "("+equalised(s.Reactions, first.Group)+")")
		}
		texts = append(texts, text)
	}
	text := "on "
	if suspended(s) {
		text = "suspended from "
	}
	text += strings.Join(texts, "; ") + each
	return text
}

// hookWords are where the slings of a lift point meet, as a rigger measures it; "" for
// none.
func (a *author) hookWords(p stages.Support) string {
	if p.Hook == nil {
		return ""
	}
	text := ", slings to a hook " + a.units.place(p.Hook.Z-p.Z) + " above"
	if math.Abs(p.Hook.X-p.X) > 1e-3 {
		text += " at " + a.units.place(p.Hook.X)
	}
	return text
}

// hookOfAll is where the slings of every lift point meet, if it is as high over each; "" if
// not, or for one.
func (a *author) hookOfAll(supports []stages.Support) string {
	all, sets := "", 0
	for i, p := range supports {
		words := a.hookWords(p)
		if words == "" || all != "" && words != all {
			return ""
		}
		if all = words; i == 0 || !alikePlace(p, supports[i-1]) {
			sets++
		}
	}
	if sets < 2 {
		return ""
	}
	return strings.Replace(all, "a hook", "hooks", 1)
}

// setDownSteps are how the element comes on to the supports of stage i: from what holds it
// before, with the readings of part and of all of the load. None where it stays where it
// is.
func (a *author) setDownSteps(i int) []string {
	s := a.record.Stages[i].Situations[0]
	hooks, empty, still := "hooks or jacks", "hooks or jacks carry no load", "still attached or in place"
	if i > 0 {
		list := a.record.Stages[i-1].Situations
		switch before := list[len(list)-1]; {
		case samePlaces(before, s):
			return nil
		case suspended(before):
			hooks, empty, still = "hooks", "hooks show the lifting gear only", "lifting gear still attached"
		case onJacks(before):
			hooks, empty, still = "jacks", "jacks carry no load", "jacks still in place"
		}
	}
	unit := a.units.in(formula.Newton).unit
	over, slack := "", "Lower until the "
	if carried := a.whileHooksCarry(i); carried != "" {
		over = "While hooks carry: " + carried + ". Over the supports, just clear: level up on the hooks to the levels of this sheet. "
		slack = "Slacken all hooks together, none alone, until the "
	}
	free := ""
	if hooks == "jacks" {
		free = "Take the load on the jacks, linked pair on one circuit, until their lock rings are free; open the rings, never farther than one increment ahead. "
	}
	steps := []string{
		over + free + "Lower in small increments on to all supports; check contact, position and level of each. Stop with ______ " + unit + " left on all " + hooks + " together, " + still +
			"; brace and restrain before slackening. Read supports and " + hooks + ": their sum, ______ " + unit + ", must be within the band of the total.",
		slack + empty + ", " + still + ". Read every support by jack or load cell: total and every share within their bands. " +
			"Out of band: take the load back on the " + hooks + ", at least the ______ " + unit + " above, only then free braces; consult the engineer. Within the bands release the " + hooks + " (braces stay): order ____________, released by ____________.",
		"Where a support cannot be read: write \"not read\"; the engineer signs contact and level of every support in its place.",
	}
	if onJacks(s) {
		return steps[:2] // jacks are read, and what is linked is said before
	}
	return append(steps, a.linkedSteps(s)...)
}

// linkedSteps are what is done with supports that carry equal forces.
func (a *author) linkedSteps(s stages.SituationRecord) []string {
	var steps []string
	seen := map[string]bool{}
	for i, p := range s.Supports {
		if p.Group == "" || seen[p.Group] || i >= len(s.Reactions) {
			continue
		}
		seen[p.Group] = true
		words := equalised(s.Reactions, p.Group)
		if p.Role == stages.Jack {
			steps = append(steps, "Jacks "+words+": one pump, the valves between them open until their lock rings are closed; every other jack on a circuit of its own. Read each: they must agree within the accuracy of the gauges.")
			continue
		}
		steps = append(steps, "Supports "+words+": the equaliser free to move until the element is released from this stage; their readings must agree within the accuracy of the gauges.")
	}
	return steps
}

// samePlaces is true for an element that rests on the same supports in two situations.
func samePlaces(s, other stages.SituationRecord) bool {
	if len(s.Supports) != len(other.Supports) || suspended(s) {
		return false
	}
	for i, p := range s.Supports {
		if q := other.Supports[i]; p.X != q.X || p.Y != q.Y || p.Z != q.Z || p.Role != q.Role {
			return false
		}
	}
	return true
}

// onJacks is true for an element that rests on a jack.
func onJacks(s stages.SituationRecord) bool {
	for _, p := range s.Supports {
		if p.Role == stages.Jack {
			return true
		}
	}
	return false
}
