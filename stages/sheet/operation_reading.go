package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// operationSupports are the places of supports with their reactions and what the
// gauges must show at rest: a table for situations that rest alike.
func (a *author) operationSupports(stage stages.StageRecord) []block {
	var blocks []block
	before, site := "", *a
	site.site = true
	if hung(stage) {
		return a.hungForces(stage)
	}
	drawn := a.unread(stage)
	if drawn {
		blocks = a.pictured(stage)
		drawn = len(blocks) > 0
	}
	for i := range stage.Situations {
		if featuresOf(stage).stresses || drawn || onFalsework(stage) {
			break // the page is for the tables of stressing or of falsework, or the positions of the gantry
		}
		if f := site.elevation(stage, i); f.svg != before {
			before = f.svg
			blocks = append(blocks, part{name: "drawn", blocks: []block{drawings{[]figure{f}}}})
		}
	}
	if notRead(stage) {
		return append(append(blocks, a.gaps(stage)...), paragraph{bold("Supports are not read: ").and(plain, a.gapWords(stage))})
	}
	list := restingAlike(stage)
	if onFalsework(stage) { // on the way the table of the rows, at the end readings
		list = list[len(list)-1:]
	}
	if a.unread(stage) {
		return append(blocks, part{name: "readings alike", blocks: []block{a.bandsTogether(list, false)}}, paragraph{prose{{faint, "The element stays where it stands, its supports are not read. Static: at rest. Char.: with the dynamic factor and all actions, against rated capacities. ULS: for ground and concrete; totals left blank: of the engineer. " + axes}}})
	}
	if !featuresOf(stage).stresses && a.alikeReadings(list) {
		blocks = append(blocks, part{name: "readings alike", blocks: []block{a.bandsTogether(list, true)}})
		for _, same := range standingAlike(list) {
			blocks = append(blocks, part{name: "alike room", blocks: []block{a.roomTogether(same)}})
		}
		return append(blocks, a.readingWords(stage)...)
	}
	for _, of := range list {
		if len(list) == 1 {
			of.names = ""
		}
		blocks = append(append(blocks, part{name: "readings", blocks: []block{a.readings(of, featuresOf(stage))}}), append(a.craneLoads(of.situation), a.slings(of.situation.Reactions)...)...)
	}
	return append(blocks, a.readingWords(stage)...)
}

// readings is the table of the supports of a situation, body by body: the bands of readings
// at rest and room to write; of a lift with gauge and lifting gear, of supports with the
// forces for each use. Stressing needs the bands only.
func (a *author) readings(of resting, f features) block {
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	s, x := of.situation, a.units.aligned(formula.Metre)
	forces := []string{">static min", ">max", ">char. min", ">max", ">ULS min", ">max"}
	room := []string{"Read " + unit, "Share %"}
	switch {
	case suspended(s):
		forces, room = nil, []string{">max", "Gauge no.", "gauge", "− gear", "= net " + unit, "Share %"}
	case f.stressingOnly():
		forces = nil
	}
	nominal := ">of its nominal total, " + unit
	if len(s.Bodies) == 0 {
		nominal = ">of " + a.nominalTotal(s, 0) + " " + unit
	}
	places := []string{">x " + length, ">y " + length, ">z " + length}
	if f.stressingOnly() {
		places = places[:2] // nothing is lifted
	}
	heads := append(append([]string{"Support"}, places...), forces...)
	if len(forces) > 0 {
		heads[0] += ", forces " + unit
	}
	g := grid{open: true, columns: columnsOf(append(append(heads, ">accept if", nominal), room...)...)}
	if of.names != "" {
		g.caption = words(of.names)
	}
	names := supportNumbers(s.Reactions)
	names, s.Reactions = perHook(names, s)
	for k, r := range s.Reactions {
		cells := append([]string{names[k]}, []string{x.text(r.X), x.text(r.Y), x.text(r.Z)}[:len(places)]...)
		if len(forces) > 0 {
			for _, range_ := range []stages.Range{r.Static, r.Characteristic, r.Ultimate} {
				least, most := a.gauged(range_)
				cells = append(cells, least, most)
			}
		}
		cells = append(append(cells, shareBand(r), a.shareForces(s, r)), make([]string, len(room))...)
		if suspended(s) {
			cells[len(cells)-len(room)] = a.gauge(r.Static.Most*(1+gaugeAccuracy), down)
		}
		g.rows = append(g.rows, row(cells...))
		if last := k+1 == len(s.Reactions) || s.Reactions[k+1].Body != r.Body; last && r.Body > 0 && r.Body <= len(s.Bodies) {
			b := s.Bodies[r.Body-1]
			g.rows = append(g.rows, a.totalRow(s, "total of "+strings.Join(b.Elements, ", "), r.Body, b.Total, len(places), len(forces), len(room)))
		}
	}
	if len(s.Bodies) == 0 {
		g.rows = append(g.rows, a.totalRow(s, "total", 0, s.Total, len(places), len(forces), len(room)))
	}
	return g
}

// perHook are the lift points as their gauges read them: those of one hook as one, for a
// crane weighs at its hook.
func perHook(names []string, s stages.SituationRecord) ([]string, []stages.Reaction) {
	var rows []string
	var list []stages.Reaction
	seen := map[int]bool{}
	for k, r := range s.Reactions {
		set := hookSet(s, k)
		if seen[k] {
			continue
		}
		at := slices.IndexFunc(s.Together, func(t stages.Together) bool {
			return slices.EqualFunc(t.Supports, set, func(number, index int) bool { return number == index+1 })
		})
		if len(set) < 2 || at < 0 {
			rows, list = append(rows, names[k]), append(list, r)
			continue
		}
		t, hook, nominal := s.Together[at], s.Supports[k].Hook, 0.0
		for _, i := range set {
			seen[i], nominal = true, nominal+s.Reactions[i].Nominal
		}
		one := stages.Reaction{Body: r.Body, X: hook.X, Y: hook.Y, Z: hook.Z, Role: r.Role, Nominal: nominal, Static: t.Static, Share: t.Share, Characteristic: t.Characteristic, Ultimate: t.Ultimate}
		rows, list = append(rows, "hook of "+numbersOf(set)), append(list, one)
	}
	return rows, list
}

// hookSet are the supports on the hook of one, from 0; none without a hook.
func hookSet(s stages.SituationRecord, k int) (set []int) {
	if k >= len(s.Supports) || s.Supports[k].Hook == nil {
		return nil
	}
	for i, p := range s.Supports {
		if p.Hook != nil && *p.Hook == *s.Supports[k].Hook {
			set = append(set, i)
		}
	}
	return set
}

// totalRow is the row of the total of a body, 0 for the only one.
func (a *author) totalRow(s stages.SituationRecord, name string, body int, r stages.Range, places, forces, room int) []prose {
	cells := append([]string{name}, make([]string, places)...)
	if forces > 0 {
		least, most := a.gauged(r)
		cells = append(cells, least, most)
		if c, ok := characteristicTotal(s, r); ok {
			least, most = a.gauged(c)
		} else {
			least, most = "____", "____"
		}
		cells = append(cells, least, most, "____", "____")
	}
	nominal := ""
	if len(s.Bodies) > 0 {
		nominal = a.nominalTotal(s, body)
	}
	cells = append(append(cells, a.totalBand(r), nominal), make([]string, room)...)
	line := make([]prose, len(cells))
	for i, c := range cells {
		if c != "" {
			line[i] = bold(c)
		}
	}
	return line
}

// What each force of a support is for, and how places are counted.
const (
	whichIs = "Static: at rest. Char.: characteristic, with the dynamic factor and all actions, against rated capacities and working load limits. ULS: for ground, concrete and stacks; totals left blank: of the engineer. "
	axes    = "Reactions + upwards; x along, y to the left looking along +x, z up. End x = 0 points to ______________."
)

// readingWords say what each reaction is for and how readings are compared.
func (a *author) readingWords(stage stages.StageRecord) []block {
	f := featuresOf(stage)
	use := axes
	if slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool { return !suspended(s) }) && !f.stressingOnly() {
		use = whichIs + use
	}
	when := ""
	if f.stressingOnly() {
		when = "after the last step, "
	}
	reserve, most := "", ""
	if slices.ContainsFunc(stage.Situations, suspended) {
		most = ", none above max"
	}
	if states(equipmentOf(stage), "tolerance of CoG") {
		reserve = ", no reserve for CoG"
	}
	read := when + "at rest, first the total, then each share of the measured total. Accept only if the total and every share are within their bands" + most + ". " +
		"Bands include ± 1 % for the gauges" + reserve + "; those used: ± ____ % (must be 1 % or better)."
	if slices.ContainsFunc(stage.Situations, suspended) {
		read = "net = gauge − gear below the gauge. " + capital(read)
	}
	if slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool { return len(s.Bodies) > 0 }) {
		read += " With several bodies, a share is of the total of its own body."
	}
	if slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool {
		return slices.ContainsFunc(s.Reactions, func(r stages.Reaction) bool { return r.Bounded })
	}) {
		read += " A bounded reaction has no measuring band: nothing says how the supports share."
	}
	if f.stressingOnly() { // the sketch says how y runs
		return []block{paragraph{bold("Readings: ").and(plain, read+" End x = 0 points to ____________.")}}
	}
	return []block{paragraph{append(bold("Readings: ").and(plain, read+" "), prose{{faint, use}}...)}}
}

// resting is situations with the same supports and reactions.
type resting struct {
	names     string
	situation stages.SituationRecord
}

// restingAlike are the situations of a stage; those after one another on the same
// supports with the same reactions are one.
func restingAlike(stage stages.StageRecord) []resting {
	var list []resting
	for i, s := range stage.Situations {
		name := numbered(stage, i) + " " + s.Name
		if n := len(list); n > 0 && list[n-1].situation.Total == s.Total && slices.EqualFunc(s.Reactions, list[n-1].situation.Reactions, sameReaction) {
			list[n-1].names += "; " + name
			continue
		}
		list = append(list, resting{name, s})
	}
	return list
}

func sameReaction(r, other stages.Reaction) bool {
	if (r.Share == nil) != (other.Share == nil) || r.Share != nil && *r.Share != *other.Share {
		return false
	}
	r.Share, other.Share = nil, nil
	return r == other
}
