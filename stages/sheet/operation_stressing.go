package sheet

import (
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// stressingTable are the tables that the stressing crew works by: what each step is stressed
// to, its jacks and gauges, and the readings of each tendon.
func (a *author) stressingTable(stage stages.StageRecord) []block {
	var blocks []block
	drawn := false
	list, numbers := oneTable(stage)
	for i, s := range list {
		if len(s.Stressing) == 0 {
			continue
		}
		s.Stressing = numbers[i]
		if len(stage.Situations) > 1 && !onFalsework(stage) {
			blocks = append(blocks, heading{level: 4, words: words(numbered(stage, i) + " " + s.Name)})
		}
		blocks = append(blocks, part{name: "stressing", blocks: []block{a.jackings(s)}})
		blocks = append(blocks, a.jacks(s)...)
		blocks = append(blocks, part{name: "extensions", blocks: []block{a.extensions(s)}})
		text := a.stressingWords(stage, s)
		if moves := a.shape(a.movesBefore(stage, i), s); moves != "" {
			text = text.and(plain, " ").and(strong, "Movement: ").and(plain, moves)
		}
		if gaps := a.gapWords(stage); gaps != "" && !drawn {
			text = text.and(plain, " ").and(strong, "Supports are not read: ").and(plain, gaps)
		}
		places := a.anchorPlaces(stage)
		if len(places) > 0 && !drawn {
			text = text.and(plain, " Seen from outside, the sketch is mirrored at end "+a.endsOf(s).right+".")
		}
		said := []block{paragraph{text}}
		name := "anchors"
		if a.readBeside(stage) {
			name, places = "anchors read", append(places, a.readingsBeside(stage)...)
		}
		if places = append(places, a.gaps(stage)...); !drawn && len(places) > 0 {
			said = []block{part{name: name, blocks: []block{beside{columns: [][]block{said, places}}}}}
		}
		drawn = true
		blocks = append(blocks, said...)
	}
	return blocks
}

// jackings is a row for each step of stressing, tendons with the same values together. The
// forces are those of a gauge whose calibration is without friction, A, and of one whose
// calibration gives the force at the anchor, B.
func (a *author) jackings(s stages.SituationRecord) grid {
	force, mm, at := a.units.in(formula.Newton).unit, a.shortUnit(), a.endsOf(s)
	heads := []string{"Step", "Tendons", capital(a.steelOf(s.Stressing)), "Jacks", ">stress " + a.units.in(formula.Pascal).unit, ">A, " + force + ": datum", ">full", ">never above", ">B, " + force + ": datum", ">full", ">never above"}
	heads = append(heads, at.heads(">extension "+mm+": ", ">")...)
	g := grid{columns: columnsOf(append(heads, ">after lock-off", ">draw-in "+mm+" each end")...)}
	var together []string
	for i, p := range s.Stressing {
		together = append(together, a.tendonAt(at, p))
		if i+1 < len(s.Stressing) && alikeStressing(p, s.Stressing[i+1]) {
			continue
		}
		cells := append([]string{number(float64(p.Step)), asDone(p, together), a.strandsOf(p), at.jacked(p), a.nearest(p.Stress, formula.Pascal)}, append(a.atGauge(p), a.atAnchor(p)...)...)
		cells = append(cells, at.cells(a.stretch(p.Extends.Left), a.stretch(p.Extends.Right))...)
		g.rows, together = append(g.rows, row(append(cells, a.stretch(p.Kept), a.stretch(p.DrawIn))...)), nil
	}
	return g
}

// atGauge are datum, full and never above at a gauge whose calibration is without the
// friction of jack and anchorage; blanks where that friction is not known.
func (a *author) atGauge(p stages.Stressing) []string {
	if !hasFriction(p) {
		return []string{"____", "____", "____"}
	}
	return []string{a.gaugeForce(p.Datum), a.gaugeForce(p.Gauge), a.greatest(p, p.Gauge)}
}

// atAnchor are datum, full and never above as the force in the tendon at the anchor.
func (a *author) atAnchor(p stages.Stressing) []string {
	if p.Gauge == 0 {
		return []string{none, none, none}
	}
	return []string{a.gaugeForce(p.Datum * p.Force / p.Gauge), a.gaugeForce(p.Force), a.greatest(p, p.Force)}
}

// hasFriction is true where friction of jack and anchorage is in the force at the gauge.
func hasFriction(p stages.Stressing) bool { return p.Gauge > p.Force*(1+1e-9) }

// alikeStressing is true for tendons of one step that have the same values.
func alikeStressing(p, q stages.Stressing) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) <= 1e-6*math.Max(math.Abs(x), math.Abs(y)) }
	return p.Step == q.Step && p.How == q.How && p.Ends == q.Ends && p.Given == q.Given && near(p.Force, q.Force) && near(p.Gauge, q.Gauge) && near(p.Limit, q.Limit) && near(p.Area, q.Area) && near(p.Datum, q.Datum) &&
		near(p.Extends.Left, q.Extends.Left) && near(p.Extends.Right, q.Extends.Right) && near(p.Kept, q.Kept) && near(p.DrawIn, q.DrawIn) && near(p.Tolerance, q.Tolerance)
}

// gaugeForce is a force to stress to, to the nearest, without its unit; none for nothing.
func (a *author) gaugeForce(value float64) string {
	if value == 0 {
		return none
	}
	return a.gauge(value, math.Round)
}

// greatest is the greatest force where full is the force given, at the gauge or at the
// anchor: at it the steel at the jack has the greatest stress that the standard permits. It
// is rounded down.
func (a *author) greatest(p stages.Stressing, full float64) string {
	if p.Limit == 0 || p.Force == 0 {
		return none
	}
	return a.gauge(p.Limit*p.Area*full/p.Force, down)
}

// nearest is a value without its unit, to the nearest; none for nothing.
func (a *author) nearest(value float64, unit formula.Unit) string {
	if value == 0 {
		return none
	}
	return number(value * a.units.in(unit).factor)
}

// inSmall is the unit of extensions, a millimetre or an inch, and its decimals: 0.1 mm.
func (a *author) inSmall() (unit string, factor float64, decimals int) {
	if a.units.filled() == US {
		return "in", 1 / inch, 2
	}
	return "mm", 1e3, 1
}

func (a *author) shortUnit() string { unit, _, _ := a.inSmall(); return unit }

// stretch is an extension without its unit, to the nearest; none for nothing.
func (a *author) stretch(value float64) string {
	_, factor, decimals := a.inSmall()
	if value == 0 {
		return none
	}
	return trimmed(value*factor, decimals)
}

// permitted is the band of an extension without its unit, rounded inwards to 1 mm or 0.01
// in; room to write where the specification gives it.
func (a *author) permitted(p stages.Stressing, expected float64) string {
	switch {
	case expected == 0:
		return none
	case p.Tolerance == 0:
		return "____ to ____"
	}
	_, factor, decimals := a.inSmall()
	if a.units.filled() == SI {
		decimals = 0
	}
	return inwards(stages.Range{Least: expected * (1 - p.Tolerance), Most: expected * (1 + p.Tolerance)}, factor, decimals)
}

// extensions is a row for each tendon: what is permitted, and room for the readings and for
// what is compared with the bands, each end ÷ k of the coil.
func (a *author) extensions(s stages.SituationRecord) grid {
	at, mm := a.endsOf(s), a.shortUnit()
	compared := func(title string) []string {
		heads := at.heads(title, "")
		if at.both() {
			heads = append(heads, "both")
		}
		return heads
	}
	heads := append([]string{"Step", "Tendon"}, compared("permitted "+mm+": ")...)
	heads = append(append(append(heads, at.heads("read: ", "")...), "k"), compared("÷ k: ")...)
	heads = append(append(append(append(heads, "after lock-off"), at.heads("draw-in: ", "")...), at.heads("gauge: ", "")...), "lock-off time")
	g := grid{open: true, columns: columnsOf(breakable(heads)...)}
	for _, p := range s.Stressing {
		left, right := "", ""
		if !jackedLeft(p) {
			left = none
		}
		if !jackedRight(p) {
			right = none
		}
		room := at.cells(left, right)
		cells := append([]string{number(float64(p.Step)), a.tendonAt(at, p)}, at.cells(a.permitted(p, p.Extends.Left), a.permitted(p, p.Extends.Right))...)
		if at.both() {
			cells = append(cells, a.permitted(p, p.Extends.Left+p.Extends.Right))
		}
		cells = append(append(append(cells, room...), ""), room...)
		if at.both() {
			cells = append(cells, "")
		}
		cells = append(append(append(append(cells, ""), room...), room...), "")
		g.rows = append(g.rows, row(cells...))
	}
	return g
}

// breakable are heads of narrow columns: the place of an end other than x = 0 may be on two
// lines.
func breakable(heads []string) []string {
	list := slices.Clone(heads)
	for i, head := range heads {
		if !strings.HasSuffix(head, "\u00a00") {
			list[i] = strings.ReplaceAll(head, "\u00a0", " ")
		}
	}
	return list
}
