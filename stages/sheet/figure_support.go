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
	"github.com/tempstage/tempstage/stages/limits"
)

// supports are the places where it rests or hangs, with position and reaction.
func (e *elevationSketch) supports() {
	places := placesOf(e.situation.Reactions)
	for _, place := range places {
		x := e.situation.Reactions[place[0]].X
		foot := e.at(x, e.low)
		if e.hung {
			top := e.at(x, e.high)
			e.arrow(thick, at(top.X, top.Y), at(top.X, e.Max.Y-1))
		} else {
			e.line(thin, foot, at(foot.X-4, foot.Y-8), at(foot.X+4, foot.Y-8), foot)
			e.line(thin, at(foot.X-7, foot.Y-8), at(foot.X+7, foot.Y-8))
		}
		e.caption(at(foot.X, foot.Y-14), fmt.Sprintf("%s at x = %s", supportNames(place, e.hung), e.author.units.quantity(x, formula.Metre)))
		e.caption(at(foot.X, foot.Y-23), e.reactionWords(place))
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

// placesOf are the numbers of the supports at each x.
func placesOf(reactions []stages.Reaction) [][]int {
	var places [][]int
	for i, r := range reactions {
		at := slices.IndexFunc(places, func(p []int) bool { return math.Abs(reactions[p[0]].X-r.X) < 1e-6 })
		if at < 0 {
			places = append(places, []int{i})
		} else {
			places[at] = append(places[at], i)
		}
	}
	return places
}

func supportNames(place []int, hung bool) string {
	names := make([]string, len(place))
	for i, k := range place {
		names[i] = fmt.Sprint(k + 1)
	}
	noun := "support"
	if hung {
		noun = "lift point"
	}
	if len(names) > 1 {
		noun += "s"
	}
	return noun + " " + strings.Join(names, ", ")
}

// reactionWords are the reactions of the supports at one x, each once.
func (e *elevationSketch) reactionWords(place []int) string {
	var texts []string
	for _, k := range place {
		r := e.situation.Reactions[k]
		if t := e.author.safeForce(r.Least, limits.AtMost) + " to " + e.author.safeForce(r.Most, limits.AtLeast); !slices.Contains(texts, t) {
			texts = append(texts, t)
		}
	}
	each := ""
	if len(place) > 1 && len(texts) == 1 {
		each = " each"
	}
	return "R = " + strings.Join(texts, "; ") + " " + e.author.units.in(formula.Newton).unit + each
}
