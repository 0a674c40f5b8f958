package sheet

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// stressingTable are the tables that the stressing crew works by: what each step is stressed
// to, and the readings of each tendon.
func (a *author) stressingTable(stage stages.StageRecord) []block {
	var blocks []block
	for i, s := range stage.Situations {
		if len(s.Stressing) == 0 {
			continue
		}
		if len(stage.Situations) > 1 {
			blocks = append(blocks, heading{level: 4, words: words(numbered(stage, i) + " " + s.Name)})
		}
		blocks = append(blocks, part{name: "stressing", blocks: []block{a.jackings(s)}}, part{name: "extensions", blocks: []block{a.extensions(s)}}, paragraph{a.stressingWords(s)})
		if text := a.shape(a.movesBefore(stage, i), s); text != "" {
			blocks = append(blocks, paragraph{bold("Movement: ").and(plain, text)})
		}
		blocks = append(blocks, part{name: "blanks", blocks: []block{form{columns: 3, pairs: [][2]string{
			{"Jack numbers", ""}, {"Gauge numbers", ""}, {"Calibration date", ""}, {"Coil, certificate", ""}, {"E and A of certificate", ""}, {"k", ""}, {"Strands cut, date", ""}, {"Grout by (date)", ""}, {"Engineer accepts", ""},
		}}}})
	}
	return blocks
}

// jackings is a row for each step of stressing, tendons with the same values together.
func (a *author) jackings(s stages.SituationRecord) grid {
	force, mm := a.units.in(formula.Newton).unit, a.shortUnit()
	g := grid{open: true, columns: columnsOf("Step", "Together", "Jacks", ">jacking stress "+a.units.in(formula.Pascal).unit, ">at the anchor "+force, ">gauge "+force+": datum", ">full", ">never above",
		">extension "+mm+", left", ">right", ">both", ">after lock-off", ">draw-in each "+mm, "Pressure: datum, full, never above")}
	var marks []string
	for i, p := range s.Stressing {
		marks = append(marks, p.Mark)
		if i+1 < len(s.Stressing) && alikeStressing(p, s.Stressing[i+1]) {
			continue
		}
		name := strings.Join(marks, " + ")
		if p.How != "stress" {
			name = p.How + " " + name
		}
		cells := []string{fmt.Sprint(p.Step), name, strings.TrimSuffix(strings.TrimPrefix(strings.TrimSuffix(p.Ends, " ends"), "the "), " end"), a.nearest(p.Stress, formula.Pascal), a.nearest(p.Force, formula.Newton), a.nearest(p.Datum, formula.Newton), a.nearest(p.Gauge, formula.Newton), a.greatest(p)}
		cells = append(cells, a.stretch(p.Extends.Left), a.stretch(p.Extends.Right), a.stretch(p.Extends.Left+p.Extends.Right), a.stretch(p.Kept), a.stretch(p.DrawIn), "")
		g.rows, marks = append(g.rows, row(cells...)), nil
	}
	return g
}

// alikeStressing is true for tendons of one step that have the same values.
func alikeStressing(p, q stages.Stressing) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) <= 1e-6*math.Max(math.Abs(x), math.Abs(y)) }
	return p.Step == q.Step && p.How == q.How && p.Ends == q.Ends && p.Given == q.Given && near(p.Force, q.Force) && near(p.Gauge, q.Gauge) && near(p.Limit, q.Limit) && near(p.Area, q.Area) && near(p.Datum, q.Datum) &&
		near(p.Extends.Left, q.Extends.Left) && near(p.Extends.Right, q.Extends.Right) && near(p.Kept, q.Kept) && near(p.DrawIn, q.DrawIn) && near(p.Tolerance, q.Tolerance)
}

// greatest is the greatest force at the gauge: at it the strand at the jack has the
// greatest stress that the standard permits. It is rounded down.
func (a *author) greatest(p stages.Stressing) string {
	if p.Limit == 0 {
		return none
	}
	return a.force(p.Limit*p.Area*p.Gauge/p.Force, limits.AtMost)
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

// permitted is the band of the extension of both ends together, rounded inwards.
func (a *author) permitted(p stages.Stressing) string {
	unit, factor, decimals := a.inSmall()
	both := p.Extends.Left + p.Extends.Right
	switch {
	case both == 0:
		return none
	case p.Tolerance == 0:
		return "____ to ____ " + unit
	}
	scale := math.Pow(10, float64(decimals))
	low, high := up(both*(1-p.Tolerance)*factor*scale)/scale, down(both*(1+p.Tolerance)*factor*scale)/scale
	return trimmed(low, decimals) + " to " + trimmed(high, decimals) + " " + unit
}

// extensions is a row for the readings of each tendon.
func (a *author) extensions(s stages.SituationRecord) grid {
	g := grid{open: true, columns: columnsOf("Step", "Tendon", "Permitted, both ends together", "Extension left", "right", "both ÷ k", "Draw-in left", "right", "Full gauge left", "right", "Locked off, time")}
	for _, p := range s.Stressing {
		left, right := "", ""
		switch p.Ends {
		case "the left end":
			right = none
		case "the right end":
			left = none
		}
		g.rows = append(g.rows, row(fmt.Sprint(p.Step), p.Mark, a.permitted(p), left, right, "", left, right, left, right, ""))
	}
	return g
}

// stressingWords say what the extensions contain and how they are corrected.
func (a *author) stressingWords(s stages.SituationRecord) prose {
	var tails, tolerances, steels, documents []string
	once := func(list *[]string, text string) {
		for _, known := range *list {
			if known == text {
				return
			}
		}
		*list = append(*list, text)
	}
	sum := 0.0
	for _, p := range s.Stressing {
		sum += p.Extends.Left + p.Extends.Right
		once(&tails, a.contents(p))
		if p.Tolerance > 0 {
			once(&tolerances, "± "+rounded(p.Tolerance*100, figures, down)+" %")
		} else {
			once(&tolerances, "by the specification")
		}
		once(&steels, "E "+a.units.quantity(p.Modulus, formula.Pascal)+", A "+a.units.quantity(a.strandArea(p), formula.SquareMetre)+" a strand")
		if p.Given != "" {
			once(&documents, p.Given)
		}
	}
	text := bold("Tolerance ").and(plain, "of one tendon "+strings.Join(tolerances, " or ")+"; of the mean of all ± ____ % by the specification")
	if sum > 0 {
		unit, factor, decimals := a.inSmall()
		text = text.and(plain, fmt.Sprintf(", expected sum of all %s %s, measured ________", trimmed(sum*factor, decimals), unit))
	}
	text = text.and(plain, "; of the draw-in ± ____ "+a.shortUnit()+". Extensions: "+strings.Join(tails, " or ")+". ").and(strong, "Assumed: ").and(plain, strings.Join(steels, "; ")+
		". Correction by certificate: k = (E·A assumed) / (E·A certificate); expect k times the extension listed: compare the measured one ÷ k. The force at the gauge stays as listed whatever the certificate says, and is never above the greatest listed, even to reach the extension. Left is the end x = 0. After lock-off: both ends together, without the strand in the jacks and the draw-in.")
	if len(documents) > 0 {
		text = text.and(plain, " Forces and extensions marked — are as given by "+strings.Join(documents, ", ")+".")
	}
	return text
}

// contents are what extensions and gauge forces of a tendon include, and what they do not.
func (a *author) contents(p stages.Stressing) string {
	text := "from the datum to full"
	if p.Datum == 0 {
		text = "from no force to full, no datum is set"
	}
	if p.Tail > 0 {
		text += ", " + a.units.quantity(p.Tail, formula.Metre) + " of strand in each jack included"
	} else {
		text += ", strand in the jack not included"
	}
	if p.Gauge <= p.Force {
		text += "; gauge forces without friction of jack and anchorage: add it by the calibration"
	}
	return text
}

// strandArea is the area of one strand of a tendon (m²); of the tendon where the record
// does not have it.
func (a *author) strandArea(p stages.Stressing) float64 {
	for _, t := range a.record.Tendons {
		if t.Mark == p.Mark && t.Strands > 0 {
			return p.Area / float64(t.Strands)
		}
	}
	return p.Area
}
