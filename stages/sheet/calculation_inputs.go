package sheet

import (
	"fmt"
	"maps"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

func (a *author) inputs() []block {
	blocks := append([]block{heading{level: 2, words: words("Inputs")}}, a.sectionFigures()...)
	blocks = append(blocks, a.groups(a.record.Inputs, false))
	for _, group := range a.record.Inputs { // from here on the inputs are known
		for _, l := range a.linesOf(group.Lines) {
			a.inputsKnown[l.Result.Symbol+" = "+l.Expression] = l.Result.Value
		}
	}
	blocks = append(blocks, a.weights()...)
	return append(blocks, a.paths()...)
}

// groups are groups of lines under their titles; lines are known from one group
// to the next, or each is complete.
func (a *author) groups(groups []stages.Group, known bool) block {
	var lines []prose
	a.known = maps.Clone(a.inputsKnown)
	for _, group := range groups {
		if !known {
			a.known = maps.Clone(a.inputsKnown)
		}
		lines = append(append(lines, bold(a.units.words(group.Title)).and(plain, ":")), a.lines(a.linesOf(group.Lines))...)
	}
	return calculation{lines: lines, running: true}
}

// figureWords say once what the figures of each situation show.
const figureWords = "Figures: M and V from nominal self-weight, from the mean prestress (V its vertical part) and in total; " +
	"stresses minimum and maximum over all service factors with the limits at that age, hatched beyond the limit; " +
	"reactions R characteristic with dynamic factors, minimum to maximum."

func (a *author) weights() []block {
	if len(a.record.Weights) == 0 {
		return nil
	}
	force := a.units.aligned(formula.Newton, forcesOf(a.record.Weights)...)
	x := a.units.aligned(formula.Metre)
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	g := grid{dense: true, caption: words("Self-weight, nominal"), columns: columnsOf("Part", ">from "+length, ">to "+length, ">centre x "+length, ">y "+length, ">z "+length, ">"+unit)}
	for _, w := range a.record.Weights {
		g.rows = append(g.rows, row(w.Mark, x.text(w.From), x.text(w.To), x.text(w.Centre), x.text(w.Y), x.text(w.Z), force.text(w.Force)))
	}
	return []block{g}
}

func forcesOf(loads []stages.Load) []float64 {
	forces := make([]float64, len(loads))
	for i, l := range loads {
		forces[i] = l.Force
	}
	return forces
}

// paths are the tendon paths; two that mirror each other in y share their rows.
func (a *author) paths() []block {
	if len(a.record.Tendons) == 0 {
		return nil
	}
	length := a.units.in(formula.Metre).unit
	g := grid{
		dense:   true,
		caption: words("Tendon paths, ends of segments; θ is the sum of angles in space and s the length, both from the left anchor"),
		columns: columnsOf("Tendon", ">x "+length, ">y "+length, ">z "+length, ">θ rad", ">s "+length),
	}
	x := a.units.aligned(formula.Metre)
	mirror := false
	printed := map[int]bool{}
	for i, t := range a.record.Tendons {
		if printed[i] {
			continue
		}
		marks, paired := []string{t.Mark}, false
		for k := i + 1; k < len(a.record.Tendons); k++ {
			if u := a.record.Tendons[k]; !paired && !printed[k] && mirrored(t, u) {
				marks, paired, printed[k], mirror = append(marks, u.Mark), true, true, true
			}
		}
		for _, p := range t.Points {
			y := x.text(p.Y)
			if paired {
				y = bothSigns(y)
			}
			g.rows = append(g.rows, row(strings.Join(marks, ", "), x.text(p.X), y, x.text(p.Z), fmt.Sprintf("%.4f", p.Angle), x.text(p.Length)))
		}
	}
	if mirror {
		g.caption = g.caption.and(plain, "; upper sign for the first-named tendon")
	}
	return []block{g}
}

// bothSigns is a printed number with the sign of the first of two tendons above
// that of the second.
func bothSigns(y string) string {
	switch {
	case strings.Trim(y, "0.") == "":
		return y
	case strings.HasPrefix(y, "−"):
		return "∓" + strings.TrimPrefix(y, "−")
	}
	return "±" + y
}

// mirrored is true for tendons whose paths are the same, point by point, but for
// the sign of y.
func mirrored(t, u stages.TendonRecord) bool {
	if len(t.Points) != len(u.Points) {
		return false
	}
	for i, p := range t.Points {
		q := u.Points[i]
		q.Y = -q.Y
		if p != q {
			return false
		}
	}
	return true
}
