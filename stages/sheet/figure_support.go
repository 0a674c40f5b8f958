package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// supports draws the places where it rests or hangs, each as what it is.
func (e *elevationSketch) supports() {
	for _, place := range placesOf(e.situation.Reactions) {
		r := e.situation.Reactions[place[0]]
		e.support(e.at(r.X, r.Z), r.Role, e.hook(place[0]), e.at(0, e.high).Y+e.sized(hookHeight, hookHeightSite))
	}
}

// supportTags are the labels of the supports below the element: number, position and
// reaction.
func (e *elevationSketch) supportTags() []tag {
	var tags []tag
	for _, place := range placesOf(e.situation.Reactions) {
		r := e.situation.Reactions[place[0]]
		if r.Role == stages.LiftPoint {
			continue
		}
		t := e.supportTag(place)
		t.x = e.paper(r.X)
		t.reach, t.left, t.right = signHeight-vg.Length(r.Z-e.low)*e.deep, t.x-signHeight/2, t.x+signHeight/2
		tags = append(tags, t)
	}
	return tags
}

// hookTags are the labels of lift points, at the ends of their lift lines.
func (e *elevationSketch) hookTags() []tag {
	var tags []tag
	for _, place := range placesOf(e.situation.Reactions) {
		r := e.situation.Reactions[place[0]]
		if r.Role != stages.LiftPoint {
			continue
		}
		t := e.supportTag(place)
		foot := e.paper(r.X)
		t.x = hookTip(at(foot, vg.Length(r.Z-e.high)*e.deep), e.hook(place[0]), e.sized(hookHeight, hookHeightSite))
		t.reach, t.left, t.right, t.late = e.sized(hookHeight, hookHeightSite), min(foot, t.x)-1, max(foot, t.x)+1, true
		tags = append(tags, t)
	}
	return tags
}

// supportTag are the words for the supports at one place, and their numbers as the key.
func (e *elevationSketch) supportTag(place []int) tag {
	r := e.situation.Reactions[place[0]]
	names := supportNames(place, r.Role)
	x := "at x = " + e.author.units.place(r.X)
	reaction := e.reactionWords(place)
	_, numbers, _ := strings.Cut(names, " ")
	if e.author.site {
		return tag{forms: [][]string{{names + " " + x}, {names, x}}, key: numbers}
	}
	return tag{forms: [][]string{{names + " " + x, reaction}, {names, x, reaction}}, key: numbers}
}

// hookTip is x on the paper of the end of a lift line of a direction at a height.
func hookTip(foot, hook vg.Point, height vg.Length) vg.Length {
	return within(foot.X+(height-foot.Y)*hook.X/hook.Y, 2, pageWidth-2)
}

// signHeight is the height of the sign of a support below its place, in points.
const signHeight = 10 * vg.Length(1)

// hook is the direction of the sling of a support, up where there is none.
func (e *elevationSketch) hook(i int) vg.Point { return hookOf(e.situation, i, e.along, e.deep) }

// hookOf is the direction on the paper of the sling of a support, up where there is none.
func hookOf(s stages.SituationRecord, i int, along, deep vg.Length) vg.Point {
	if i < len(s.Supports) {
		if p := s.Supports[i]; p.Hook != nil && p.Hook.Z > p.Z {
			return at(vg.Length(p.Hook.X-p.X)*along, vg.Length(p.Hook.Z-p.Z)*deep)
		}
	}
	return at(0, 1)
}

// support draws one support at its place: what lifts as an arrow up to a height, what
// carries as a block, a column or a bearing below it.
func (k *sketch) support(p vg.Point, role stages.Role, hook vg.Point, tip vg.Length) {
	box := func(half, top, bottom vg.Length) {
		k.line(thin, at(p.X-half, p.Y-top), at(p.X+half, p.Y-top), at(p.X+half, p.Y-bottom), at(p.X-half, p.Y-bottom), at(p.X-half, p.Y-top))
	}
	switch role {
	case stages.LiftPoint:
		k.ring(p, false)
		k.arrow(thick, p, at(hookTip(p, hook, tip), tip))
	case stages.Tie:
		k.arrow(thick, p, at(p.X, p.Y-9))
	case stages.Bearing:
		k.line(thin, p, at(p.X-4, p.Y-7), at(p.X+4, p.Y-7), p)
		k.line(thin, at(p.X-6, p.Y-9), at(p.X+6, p.Y-9))
	case stages.Jack:
		box(2, 0, 4)
		box(4, 4, 9)
	case stages.Leg:
		box(1.5, 0, 9)
		k.line(thick, at(p.X-5, p.Y-9), at(p.X+5, p.Y-9))
	case stages.Falsework:
		box(5, 0, 9)
		k.line(thin, at(p.X-5, p.Y), at(p.X+5, p.Y-9))
		k.line(thin, at(p.X-5, p.Y-9), at(p.X+5, p.Y))
	default: // a pad
		k.fill(grey, []vg.Point{p.Add(at(-5, 0)), p.Add(at(5, 0)), p.Add(at(5, -5)), p.Add(at(-5, -5))})
		box(5, 0, 5)
	}
}

// placesOf are the numbers of the supports of one kind and level at each x.
func placesOf(reactions []stages.Reaction) [][]int {
	var places [][]int
	for i, r := range reactions {
		at := slices.IndexFunc(places, func(p []int) bool {
			first := reactions[p[0]]
			return math.Abs(first.X-r.X) < 1e-6 && first.Z == r.Z && first.Role == r.Role
		})
		if at < 0 {
			places = append(places, []int{i})
		} else {
			places[at] = append(places[at], i)
		}
	}
	return places
}

func supportNames(place []int, role stages.Role) string {
	names := make([]string, len(place))
	for i, k := range place {
		names[i] = fmt.Sprint(k + 1)
	}
	_, noun, _ := strings.Cut(counted(len(place), roleOf(role)), " ")
	return noun + " " + strings.Join(names, ", ")
}

// reactionWords are the characteristic reactions of the supports at one place, each
// once.
func (e *elevationSketch) reactionWords(place []int) string {
	var texts []string
	for _, k := range place {
		least, most := e.author.forces(e.situation.Reactions[k].Characteristic)
		if t := least + " to " + most; !slices.Contains(texts, t) {
			texts = append(texts, t)
		}
	}
	each := ""
	if len(place) > 1 && len(texts) == 1 {
		each = " each"
	}
	return "R = " + strings.Join(texts, "; ") + " " + e.author.units.in(formula.Newton).unit + each
}
