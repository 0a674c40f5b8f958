package sheet

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/stages"
)

// bringers are the kinds of equipment that move over an element which only stands.
var bringers = []stages.EquipmentKind{stages.Gantry, stages.Carrier}

// passing are the movements of a gantry or a carrier over an element that only stands.
func passing(stage stages.StageRecord) (list []string) {
	by := standsBy(stage)
	if has(by, stages.Gantry) {
		list = append(list, "Before each position: legs, anchor bars, brakes and locked trolleys as its row below says, verified and signed: ____________; only then one movement, under one leader. Nobody below the gantry or beside a leg.",
			"A leg lifts off or settles, a trolley, brake or bar is not as its row says, the wind reaches its limit: stop, brakes on, trolleys stay, call the engineer. Going back is a movement of its own, only with a row for it.")
	}
	if has(by, stages.Carrier) {
		list = append(list, "Nothing else on the span. The carrier on its track, not farther off the axis and not faster than stated below, without a stop on the span; nothing follows before it is off.")
	}
	return list
}

// fed is true for an element that rests on what carries one end and hangs by the other.
func fed(s stages.SituationRecord) bool {
	return !suspended(s) && slices.ContainsFunc(s.Supports, func(p stages.Support) bool { return p.Role == stages.LiftPoint })
}

// feeding are the movements of an element that is fed.
func (a *author) feeding(i int) []string {
	return []string{
		a.setDownWords(i, "feeding") + "Lashings of the end that is lifted free, ropes plumb. Take up this end alone in small increments, one signaller, until it is just clear; the other end stays on its supports. Hold ____ min, read; out of its band lower back, call the engineer.",
		"Feed: trolley and what carries the other end start, travel and stop together under one leader, at most ____ m/s, trolley at most ____ mm ahead or behind, ropes plumb; else stop both. Each row below is a position in which all may rest.",
		"Stop: both stop, brakes on, the element stays on the hooks and on what carries it; call the engineer. Back, or on, only to a position of a row.",
	}
}

// passingStops are the conditions under which it stops.
func passingStops(stage stages.StageRecord) (list []string) {
	by := standsBy(stage)
	if has(by, stages.Gantry) {
		list = append(list, "a leg, foot, bar or trolley of the gantry is not as listed, settles or lifts off")
	}
	if has(by, stages.Carrier) {
		list = append(list, "the carrier leaves its track, or stops on the span")
	}
	if has(by, bringers...) {
		list = append(list, "the wind exceeds its limit")
	}
	return list
}

// pictured are the pictures of the positions of a gantry that stands by; none without.
func (a *author) pictured(stage stages.StageRecord) (blocks []block) {
	if !slices.ContainsFunc(standsBy(stage), func(t titled) bool { return t.Kind == stages.Gantry && len(t.Positions) > 0 }) {
		return nil
	}
	for k, s := range stage.Situations {
		for n, f := range s.Figures {
			c := a.recordChart(f)
			if !c.equal {
				continue
			}
			c.title = numbered(stage, k) + " " + a.units.words(f.Title) + ", " + c.title
			of := a.described(figure{name: fmt.Sprintf("%s-site-%d", situationName(stage, k), n+1), svg: c.svg(), caption: f.Title, wide: true})
			blocks = append(blocks, part{name: "drawn pictured", blocks: []block{drawings{[]figure{of}}}})
		}
	}
	return blocks
}
