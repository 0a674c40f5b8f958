package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// supports are the places where it rests or hangs, each as what it is, with position
// and reaction.
func (e *elevationSketch) supports() {
	for _, place := range placesOf(e.situation.Reactions) {
		r := e.situation.Reactions[place[0]]
		p := e.at(r.X, r.Z)
		e.support(p, r.Role, e.hook(place[0]))
		e.caption(at(p.X, e.up-15.5), fmt.Sprintf("%s at x = %s", supportNames(place, r.Role), e.author.units.place(r.X)))
		e.caption(at(p.X, e.up-24), e.reactionWords(place))
	}
}

// hook is the direction of the sling of a support, up where there is none.
func (e *elevationSketch) hook(i int) vg.Point {
	if i < len(e.situation.Supports) {
		if s := e.situation.Supports[i]; s.Hook != nil && s.Hook.Z > s.Z {
			return at(vg.Length(s.Hook.X-s.X)*e.along, vg.Length(s.Hook.Z-s.Z)*e.deep)
		}
	}
	return at(0, 1)
}

// support draws one support at its place: what lifts as an arrow up, what carries as
// a block, a column or a bearing below it.
func (e *elevationSketch) support(p vg.Point, role stages.Role, hook vg.Point) {
	box := func(half, top, bottom vg.Length) {
		e.line(thin, at(p.X-half, p.Y-top), at(p.X+half, p.Y-top), at(p.X+half, p.Y-bottom), at(p.X-half, p.Y-bottom), at(p.X-half, p.Y-top))
	}
	switch role {
	case stages.LiftPoint:
		e.ring(p, false)
		rise := e.Max.Y - 1 - p.Y
		e.arrow(thick, p, at(within(p.X+rise*hook.X/hook.Y, 2, e.Max.X-2), p.Y+rise))
	case stages.Tie:
		e.arrow(thick, p, at(p.X, p.Y-9))
	case stages.Bearing:
		e.line(thin, p, at(p.X-4, p.Y-7), at(p.X+4, p.Y-7), p)
		e.line(thin, at(p.X-6, p.Y-9), at(p.X+6, p.Y-9))
	case stages.Jack:
		box(2, 0, 4)
		box(4, 4, 9)
	case stages.Leg:
		box(1.5, 0, 9)
		e.line(thick, at(p.X-5, p.Y-9), at(p.X+5, p.Y-9))
	case stages.Falsework:
		box(5, 0, 9)
		e.line(thin, at(p.X-5, p.Y), at(p.X+5, p.Y-9))
		e.line(thin, at(p.X-5, p.Y-9), at(p.X+5, p.Y))
	default: // a pad
		e.fill(grey, []vg.Point{p.Add(at(-5, 0)), p.Add(at(5, 0)), p.Add(at(5, -5)), p.Add(at(-5, -5))})
		box(5, 0, 5)
	}
}

// caption writes words below a support, or beside it where others stand.
func (e *elevationSketch) caption(p vg.Point, words string) {
	half := lettering(text.XCenter, text.YCenter).Width(words) / 2
	p.X = within(p.X, half+2, pageWidth-half-2)
	if e.hidden(boxOf(lettering(text.XCenter, text.YCenter), p, words)) > 0 {
		e.label(p, words)
		return
	}
	e.write(p, words, text.XCenter, text.YCenter)
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
