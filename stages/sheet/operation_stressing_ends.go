package sheet

import (
	"fmt"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// tendonEnds are the names of both ends of the tendons that are stressed in a situation, and
// at which of them there is a jack.
type tendonEnds struct {
	left, right         string // "x = 0", or "smaller x" where the tendons have their anchors at different places
	atLeft, atRight, at bool   // at: each tendon says where its own anchors are
}

func jackedLeft(p stages.Stressing) bool  { return p.Ends != "the right end" }
func jackedRight(p stages.Stressing) bool { return p.Ends != "the left end" }

// both is true where there are jacks at both ends, of one tendon or of different ones.
func (e tendonEnds) both() bool { return e.atLeft && e.atRight }

// endsOf are the ends of the tendons of a situation.
func (a *author) endsOf(s stages.SituationRecord) tendonEnds {
	e := tendonEnds{left: "smaller x", right: "greater x"}
	var from, to string
	for i, p := range s.Stressing {
		e.atLeft, e.atRight = e.atLeft || jackedLeft(p), e.atRight || jackedRight(p)
		left, right, known := a.anchorsOf(p.Mark)
		if i == 0 {
			from, to = left, right
		}
		e.at = e.at || !known || left != from || right != to
	}
	if !e.at {
		e.left, e.right = "x\u00a0=\u00a0"+from, "x\u00a0=\u00a0"+to
	}
	return e
}

// anchorsOf are the places of both anchors of a tendon; false where the record has no path.
func (a *author) anchorsOf(mark string) (left, right string, known bool) {
	for _, t := range a.record.Tendons {
		if t.Mark == mark && len(t.Points) > 1 {
			return a.end(t.Points[0].X), a.end(t.Points[len(t.Points)-1].X), true
		}
	}
	return "", "", false
}

// end is the place of an end as its name, to 0.1 m or 0.1 ft; that at 0 needs no unit.
func (a *author) end(x float64) string {
	length := a.units.in(formula.Metre)
	if text := trimmed(x*length.factor, 1); text != "0" {
		return text + " " + length.unit
	}
	return "0"
}

// tendonAt is the mark of a tendon, with the places of its anchors where the heads of the
// table do not say them.
func (a *author) tendonAt(e tendonEnds, p stages.Stressing) string {
	if left, right, known := a.anchorsOf(p.Mark); e.at && known {
		return fmt.Sprintf("%s (x\u00a0=\u00a0%s, %s)", p.Mark, left, right)
	}
	return p.Mark
}

// heads are the heads of the columns of the jacked ends, the first under a title.
func (e tendonEnds) heads(title, others string) []string {
	var heads []string
	for _, end := range e.cells(e.left, e.right) {
		heads, title = append(heads, title+end), others
	}
	return heads
}

// cells are values of the jacked ends.
func (e tendonEnds) cells(left, right string) []string {
	switch {
	case e.both():
		return []string{left, right}
	case e.atRight:
		return []string{right}
	}
	return []string{left}
}

// jacked is where the jacks of a tendon are.
func (e tendonEnds) jacked(p stages.Stressing) string {
	switch {
	case jackedLeft(p) && jackedRight(p):
		return "both ends"
	case jackedLeft(p):
		return e.left
	}
	return e.right
}

// asDone are tendons with what is done to them where that is not stressing.
func asDone(p stages.Stressing, marks []string) string {
	name := strings.Join(marks, " + ")
	if p.How != "stress" {
		return p.How + " " + name
	}
	return name
}

// strandsOf is the number of strands or bars of a tendon, the area of steel where the record
// does not have it.
func (a *author) strandsOf(p stages.Stressing) string {
	if t := a.tendonOf(p.Mark); t.Strands > 0 {
		return number(float64(t.Strands))
	}
	return a.units.quantity(p.Area, formula.SquareMetre)
}

// steelOf is what tendons are made of: strands, or strands or bars where one is single.
func (a *author) steelOf(list []stages.Stressing) string {
	for _, p := range list {
		if a.tendonOf(p.Mark).Strands == 1 {
			return "strands or bars"
		}
	}
	return "strands"
}

// tendonOf is the tendon with a mark; nothing where the record has none.
func (a *author) tendonOf(mark string) stages.TendonRecord {
	for _, t := range a.record.Tendons {
		if t.Mark == mark {
			return t
		}
	}
	return stages.TendonRecord{}
}

// mostNamed is how many tendons that are not stressed a sheet names: a cantilever has
// hundreds.
const mostNamed = 16

// notStressed names the tendons of the element that are not stressed in a stage, those
// stressed before apart; "" for none.
func (a *author) notStressed(stage stages.StageRecord) string {
	now, before := map[string]bool{}, map[string]bool{}
	for _, s := range stage.Situations {
		for _, p := range s.Stressing {
			now[p.Mark] = true
		}
	}
	for _, t := range stage.Situations[len(stage.Situations)-1].Tendons {
		before[t.Mark] = true
	}
	var later, earlier []string
	for _, t := range a.record.Tendons {
		switch {
		case now[t.Mark] || t.Pretensioned:
		case before[t.Mark]:
			earlier = append(earlier, t.Mark)
		default:
			later = append(later, t.Mark)
		}
	}
	var list []string
	for _, of := range []struct {
		marks []string
		words string
	}{{later, ""}, {earlier, " (stressed before)"}} {
		if n := len(of.marks); n > mostNamed {
			of.marks = append(of.marks[:mostNamed:mostNamed], fmt.Sprintf("%d others", n-mostNamed))
		}
		if len(of.marks) > 0 {
			list = append(list, strings.Join(of.marks, ", ")+of.words)
		}
	}
	return strings.Join(list, "; ")
}
