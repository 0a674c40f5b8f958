package sheet

import (
	"fmt"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

func (a *author) inputs() []block {
	blocks := append([]block{heading{level: 2, words: words("Inputs")}}, a.sectionFigures()...)
	blocks = append(blocks, a.groups(a.record.Inputs, false))
	for _, group := range a.record.Inputs { // from here on the inputs are known
		a.passage.given = append(a.passage.given, group.Lines...)
	}
	blocks = append(blocks, a.weights()...)
	return append(blocks, a.paths()...)
}

// groups are groups of lines under their titles; lines are known from one group
// to the next, or each is complete.
func (a *author) groups(groups []stages.Group, known bool) block {
	var lines []prose
	a.passage.forget()
	for _, group := range groups {
		if !known {
			a.passage.forget()
		}
		lines = append(append(lines, bold(a.units.words(group.Title)).and(plain, ":")), a.passage.lines(group.Lines)...)
	}
	return calculation{lines: lines, running: true}
}

// figureWords say once what the figures of each situation show.
const figureWords = "Figures: M and V from the weight at factor 1, from the mean prestress (V its vertical part) and from both; stresses least and most over all service factors with the limits of that age, hatched on the forbidden side; reactions from least to most."

func (a *author) weights() []block {
	if len(a.record.Weights) == 0 {
		return nil
	}
	force := a.units.aligned(formula.Newton, forcesOf(a.record.Weights)...)
	x := a.units.aligned(formula.Metre)
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	g := grid{dense: true, caption: "Weights at factor 1", columns: columnsOf("Part", ">from "+length, ">to "+length, ">centre "+length, ">"+unit)}
	for _, w := range a.record.Weights {
		g.rows = append(g.rows, row(w.Mark, x.text(w.From), x.text(w.To), x.text(w.Centre), force.text(w.Force)))
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
		caption: "Tendon paths, ends of their pieces; θ is the sum of angles in space and s the length, both from the left anchor",
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
		g.caption += "; of two marks, the upper sign of ± and ∓ is that of the first"
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
