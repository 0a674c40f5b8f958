package sheet

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// strip is a load over a length: arrows under a line.
type strip struct {
	stages.Load
	words [2]string // mark and size
	level int       // how many strips are below it
}

// Heights of loads over the top, in points.
const (
	stripHeight = 10 * vg.Length(1)
	overStrips  = 6 * vg.Length(1) // of an arrow over the strips
)

// shownAs is how a load is drawn.
type shownAs int

const (
	asArrow shownAs = iota
	asStrip
	asCouple
	asForceAlong
	asWords // it acts across, or rolls: no place of its own
)

func (e *elevationSketch) shown(l stages.Load) shownAs {
	switch {
	case l.Rolls, stages.Direction(l.Direction) == stages.Transverse:
		return asWords
	case stages.Direction(l.Direction) == stages.Along:
		return asForceAlong
	case l.Couple != 0:
		return asCouple
	case l.To-l.From > e.author.record.Length/8 && l.Direction == string(stages.Down):
		return asStrip
	}
	return asArrow
}

// named is a load with its words: parts of the weight, then actions.
type named struct {
	stages.Load
	words [2]string
}

func (e *elevationSketch) named() []named {
	var list []named
	for i, w := range e.author.record.Weights {
		if !e.carried[i] || w.Own && (e.author.site || e.author.manySegments()) {
			continue
		}
		list = append(list, named{w, [2]string{w.Mark, e.author.units.quantity(w.Force, formula.Newton)}})
	}
	for _, l := range e.situation.Loads {
		list = append(list, named{l, [2]string{e.author.units.words(l.Mark), e.author.loadSize(l)}})
	}
	for i := range list {
		if e.author.site {
			list[i].words[1] = ""
		}
	}
	return list
}

// stackStrips puts strips that meet on top of each other.
func (e *elevationSketch) stackStrips() {
	e.stacked = 1
	for _, l := range e.named() {
		if e.shown(l.Load) != asStrip {
			continue
		}
		s := strip{l.Load, l.words, 0}
		for slices.ContainsFunc(e.strips, func(o strip) bool { return o.level == s.level && o.From < s.To && s.From < o.To }) {
			s.level++
		}
		e.strips, e.stacked = append(e.strips, s), max(e.stacked, s.level+1)
	}
}

// tail is the height of the tail of an arrow over the top.
func (e *elevationSketch) tail() vg.Length { return stripHeight*vg.Length(e.stacked) + overStrips }

// paper is x of a place on the paper.
func (e *elevationSketch) paper(x float64) vg.Length { return e.at(x, e.low).X }

// loadTags are the labels of all loads.
func (e *elevationSketch) loadTags() []tag {
	var tags []tag
	for _, l := range e.named() {
		how := e.shown(l.Load)
		if how == asStrip {
			continue
		}
		t := tag{x: e.paper(l.Centre), reach: e.tail(), forms: formsOf(l.words), key: letterOf(len(tags))}
		t.left, t.right = t.x-1, t.x+1
		switch how {
		case asWords:
			t = tag{x: pageWidth / 2, free: true, forms: t.forms, key: t.key}
		case asCouple:
			t.reach, t.left, t.right = 2*coupleRadius+3, t.x-coupleRadius-1, t.x+coupleRadius+1
		case asForceAlong:
			t.x -= vg.Length(math.Copysign(alongLength/2, l.Force))
			t.reach, t.left, t.right = vg.Length(l.Z-e.high)*e.deep, t.x, t.x
		}
		tags = append(tags, t)
	}
	for _, s := range e.strips {
		x := e.stripAnchor(s, tags)
		tags = append(tags, tag{x: x, left: x, right: x, reach: stripHeight * vg.Length(s.level+1), forms: formsOf(s.words), key: letterOf(len(tags))})
	}
	return tags
}

// formsOf are the mark and the size of a load in one line and in two.
func formsOf(words [2]string) [][]string {
	if words[1] == "" {
		return [][]string{{words[0]}}
	}
	return [][]string{{words[0] + " " + words[1]}, {words[0], words[1]}}
}

// stripAnchor is where the label of a strip belongs: its middle, or elsewhere on it where
// another mark stands there.
func (e *elevationSketch) stripAnchor(s strip, tags []tag) vg.Length {
	from, to := e.paper(s.From), e.paper(s.To)
	best, apart := (from+to)/2, vg.Length(-1)
	for _, part := range []vg.Length{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9} {
		x, near := from+part*(to-from), vg.Length(math.Inf(1))
		for _, t := range tags {
			if !t.free {
				near = min(near, vg.Length(math.Abs(float64(x-t.x))))
			}
		}
		if near > 30 {
			return x
		}
		if near > apart {
			best, apart = x, near
		}
	}
	return best
}

// hurdles are all loads and lift lines over the top.
func (e *elevationSketch) hurdles() []hurdle {
	var list []hurdle
	for _, s := range e.strips {
		list = append(list, hurdle{from: e.paper(s.From), to: e.paper(s.To), reach: stripHeight * vg.Length(s.level+1)})
	}
	for _, t := range append(e.loadTags(), e.hookTags()...) {
		if !t.free {
			list = append(list, hurdle{from: t.left, to: t.right, reach: t.reach})
		}
	}
	return list
}

// loads draws all loads without their labels.
func (e *elevationSketch) loads() {
	for _, s := range e.strips {
		e.strip(s)
	}
	for _, l := range e.named() {
		switch e.shown(l.Load) {
		case asArrow:
			tip := e.at(l.Centre, e.high)
			e.force(thick, l.Load, at(tip.X, tip.Y+e.tail()), at(tip.X, tip.Y+0.5))
		case asCouple:
			e.couple(l.Load)
		case asForceAlong:
			tip := e.at(l.Centre, l.Z)
			e.arrow(thick, at(tip.X-vg.Length(math.Copysign(alongLength, l.Force)), tip.Y), tip)
		}
	}
}

// alongLength is the length of the arrow of a force along the element.
const alongLength = 16

// coupleRadius is that of the arrow of a couple.
const coupleRadius = 7

// couple is most of a circle with its sense.
func (e *elevationSketch) couple(l stages.Load) {
	const steps = 12
	centre := e.at(l.Centre, e.high)
	centre.Y += coupleRadius + 2
	around := func(i int) vg.Point {
		angle := math.Copysign(1, l.Couple) * (-0.75 + 1.5*float64(i)/steps) * math.Pi
		return at(centre.X+coupleRadius*vg.Length(math.Sin(-angle)), centre.Y+coupleRadius*vg.Length(math.Cos(angle)))
	}
	points := make([]vg.Point, steps)
	for i := range points {
		points[i] = around(i)
	}
	e.line(thin, points...)
	e.arrow(thin, points[steps-1], around(steps))
}

func (e *elevationSketch) strip(s strip) {
	from, to := e.at(s.From, e.high), e.at(s.To, e.high)
	bottom := from.Y + stripHeight*vg.Length(s.level)
	top := bottom + stripHeight
	e.line(thin, at(from.X, bottom), at(from.X, top), at(to.X, top), at(to.X, bottom))
	const apart, most = 22, 100 // a load that ends far off the paper has no more arrows
	n := max(2, int(min(most, (to.X-from.X)/apart)))
	for i := range n + 1 {
		x := from.X + (to.X-from.X)*vg.Length(i)/vg.Length(n)
		e.force(fine, s.Load, at(x, top), at(x, bottom+0.5))
	}
}

// force is an arrow down to the element, or up from it.
func (e *elevationSketch) force(pen draw.LineStyle, l stages.Load, from, tip vg.Point) {
	if l.Force < 0 {
		from, tip = tip, from
	}
	e.arrow(pen, from, tip)
}
