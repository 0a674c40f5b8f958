package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// tendons are all that is the same in every stage: paths, stressing, elastic losses.
func (a *author) tendons() []block {
	if len(a.record.Tendons) == 0 {
		return nil
	}
	blocks := []block{heading{level: 2, words: words("Tendons")}}
	blocks = append(append(blocks, a.paths()...), a.stressing()...)
	if a.brief() { // elastic losses are with each stage
		return blocks
	}
	return append(blocks, a.elasticLosses()...)
}

// paths are the tendon paths with the curve of each stretch; two that mirror each other
// in y share their rows.
func (a *author) paths() []block {
	length := a.units.in(formula.Metre).unit
	g := grid{
		caption: words("Paths: the curve is from this point to the next; θ is the sum of angles in space and s the length, both from the left anchor"),
		columns: columnsOf("Tendon", ">x "+length, ">y "+length, ">z "+length, ">θ rad", ">s "+length, "Elevation", "Plan"),
	}
	x := a.units.aligned(formula.Metre)
	mirror := false
	printed := map[int]bool{}
	var blocks []block
	if a.brief() {
		var straight grid
		if straight, printed = a.straightPaths(); len(straight.rows) > 0 {
			blocks = append(blocks, straight)
		}
	}
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
		name := strings.Join(marks, ", ") + kindWords(t)
		for _, p := range t.Points {
			y := x.text(p.Y)
			if paired {
				y = bothSigns(y)
			}
			g.rows = append(g.rows, row(name, x.text(p.X), y, x.text(p.Z), fmt.Sprintf("%.4f", p.Angle), x.text(p.Length), p.Elevation, p.Plan))
		}
	}
	if mirror {
		g.caption = g.caption.and(plain, "; upper sign for the first-named tendon")
	}
	g.dense = true
	if len(g.rows) == 0 && len(blocks) > 0 {
		return blocks
	}
	return append(blocks, g)
}

// kindWords say what is not a tendon in a duct.
func kindWords(t stages.TendonRecord) string {
	switch {
	case t.Pretensioned:
		return ", pretensioned"
	case t.External:
		return ", external"
	}
	return ""
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

// stressing are all jackings in order: stress and force at the jack, draw-in with its reach
// and the force after it, and the extension from datum to full. Tendons jacked one after
// the other with the same numbers share a row.
func (a *author) stressing() []block {
	force, length, stress := a.units.in(formula.Newton).unit, a.units.in(formula.Metre).unit, a.units.in(formula.Pascal).unit
	small := a.units.small()
	g := grid{
		caption: words("Stressing. Gauge: force at the gauge with jack friction, at the datum and full; draw-in at each jacked anchor, its reach along x and the force after lock-off; extension from datum to full"),
		columns: columnsOf("Stage", "Tendons", "Jacked at", ">Stress "+stress, ">Force "+force, ">Gauge at datum "+force, ">Gauge full "+force, ">Draw-in "+small, ">Reach left "+length, ">Reach right "+length, ">After left "+force, ">After right "+force, ">Extension left "+small, ">Extension right "+small),
	}
	for _, stage := range a.record.Stages {
		for i, s := range stage.Situations {
			list := s.Stressing
			for len(list) > 0 {
				n := 1
				for n < len(list) && sameStressing(list[n], list[0]) {
					n++
				}
				g.rows = append(g.rows, a.stressingRow(numbered(stage, i), list[:n]))
				list = list[n:]
			}
		}
	}
	if len(g.rows) == 0 {
		return nil
	}
	return append([]block{g}, a.extensionWords()...)
}

// extensionWords say how the force at the gauge and the extension follow from the rest.
func (a *author) extensionWords() []block {
	var points []string
	for _, stage := range a.record.Stages {
		for _, s := range stage.Situations {
			for _, p := range s.Stressing {
				loss, datum := 1-p.Force/p.Gauge, p.Datum/p.Gauge
				said := fmt.Sprintf("friction of jack and anchor %s %% of the force at the gauge, datum %s %% of full, %s of strand in each jack, tolerance ± %s %%",
					number(100*loss), number(100*datum), a.units.quantity(p.Tail, formula.Metre), number(100*p.Tolerance))
				if p.Tolerance == 0 {
					said = strings.Replace(said, "tolerance ± 0 %", "tolerance by the specification", 1)
				}
				if !slices.Contains(points, said) {
					points = append(points, said)
				}
			}
		}
	}
	return []block{paragraph{a.noted("Gauge = force/(1 − friction). Extension at an end = ∫(σ_x − σ_datum) ds/E_p from the jack to where the tendon does not move, friction included, + strand in the jack × (σ_0 − σ_datum)/E_p; the shortening of the concrete is left out. Values: " + strings.Join(points, "; ") + ".")}}
}

// sameStressing is true for jackings of which no sheet prints two numbers.
func sameStressing(p, q stages.Stressing) bool {
	ends := func(e, f stages.Ends) bool { return alike(e.Left, f.Left) && alike(e.Right, f.Right) }
	return p.How == q.How && p.Ends == q.Ends && p.Given == q.Given && alike(p.Stress, q.Stress) && alike(p.Force, q.Force) && alike(p.Gauge, q.Gauge) && alike(p.Datum, q.Datum) &&
		alike(p.DrawIn, q.DrawIn) && ends(p.Reach, q.Reach) && ends(p.After, q.After) && ends(p.Extends, q.Extends)
}

func (a *author) stressingRow(stage string, list []stages.Stressing) []prose {
	p := list[0]
	marks := make([]string, len(list))
	for i, q := range list {
		marks[i] = q.Mark
	}
	name := strings.Join(marks, ", ")
	if p.How != "stress" {
		name += " (" + p.How + ")"
	}
	if p.Given != "" {
		name += "; force given by " + p.Given // quoted as it stands
	}
	force := func(v float64) string { return number(v * a.units.in(formula.Newton).factor) }
	short := func(v float64) string {
		if v == 0 {
			return none
		}
		return strings.TrimSuffix(a.units.inSmall(v), " "+a.units.small())
	}
	x := a.units.aligned(formula.Metre)
	reach := func(v float64) string {
		if v == 0 {
			return none
		}
		return x.text(v)
	}
	return row(stage, name, strings.ReplaceAll(p.Ends, " ", "\u00a0"), number(p.Stress*a.units.in(formula.Pascal).factor), force(p.Force), force(p.Datum), force(p.Gauge), short(p.DrawIn),
		reach(p.Reach.Left), reach(p.Reach.Right), force(p.After.Left), force(p.After.Right), short(p.Extends.Left), short(p.Extends.Right))
}
