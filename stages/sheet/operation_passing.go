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
		list = append(list, "Before each position: legs, bars, locked trolleys and wind as its row below says, verified and signed: ____________; only then one movement. Nobody below the gantry or beside a leg that moves; brakes and drives of all legs that move together under one leader.",
			"A leg lifts off or settles, a trolley or a bar is unlike its row, the wind reaches its limit: stop, brakes on, trolleys stay, fix the bars again, call the engineer. Going back is a movement of its own: only as its row says.")
	}
	if has(by, stages.Carrier) {
		list = append(list, "Nothing else on the span. The carrier on its track, not farther off the axis and not faster than stated below, without a stop on the span; no second one before it is off.")
	}
	return list
}

// passingStops are the conditions under which it stops.
func passingStops(stage stages.StageRecord) (list []string) {
	by := standsBy(stage)
	if has(by, stages.Gantry) {
		list = append(list, "a leg, foot, bar or trolley of the gantry is not as listed, settles or lifts off")
	}
	if has(by, stages.Carrier) {
		list = append(list, "the carrier leaves its track, or brakes hard on the span")
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
