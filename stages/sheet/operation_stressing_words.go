package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// said are texts, each once.
type said []string

func (list *said) once(text string) {
	if text != "" && !slices.Contains(*list, text) {
		*list = append(*list, text)
	}
}

func (list said) or() string { return strings.Join(list, " or ") }

// stressingWords say how readings are compared, what extensions and gauge forces contain,
// and what is not stressed.
func (a *author) stressingWords(stage stages.StageRecord, s stages.SituationRecord) prose {
	text := a.toleranceWords(s)
	for _, more := range []prose{a.contentsOf(s), a.gaugeWords(s), a.steelWords(s)} {
		text = append(text.and(plain, " "), more...)
	}
	if marks := a.notStressed(stage); marks != "" {
		text = text.and(plain, " ").and(strong, "Not stressed on this sheet: ").and(plain, marks+".")
	}
	return text
}

// toleranceWords are the tolerances of extensions, those that are not known to be filled in.
func (a *author) toleranceWords(s stages.SituationRecord) prose {
	var tolerances said
	at, mm, sum := a.endsOf(s), a.shortUnit(), 0.0
	for _, p := range s.Stressing {
		sum += p.Extends.Left + p.Extends.Right
		if p.Tolerance > 0 {
			tolerances.once("± " + rounded(p.Tolerance*100, figures, down) + " %")
		} else {
			tolerances.once("± ____ %")
		}
	}
	each := "read ÷ k of a tendon "
	if at.both() {
		each = "read ÷ k of each end and of both together "
	}
	text := bold("Limits: ").and(plain, each+tolerances.or()+", the bands above. By the specification: all together ± ____ %")
	if sum > 0 {
		text = text.and(plain, fmt.Sprintf(" of %s %s (read ÷ k, before the last lock-off ________)", a.stretch(sum), mm))
	}
	if at.both() {
		text = text.and(plain, ", difference of the two ends ____ "+mm)
	}
	return text.and(plain, ", draw-in ± ____ "+mm+", gauge at full ± ____ %.")
}

// contentsOf is what the extensions of a situation contain.
func (a *author) contentsOf(s stages.SituationRecord) prose {
	var contents said
	for _, p := range s.Stressing {
		contents.once(a.contents(p))
	}
	return bold("Extension: ").and(plain, contents.or()+"; after lock-off from the same marks, the stretch in the jacks deducted, for the record. k of a coil = (E·A assumed) / (E·A certificate).")
}

// contents are what the extensions of a tendon include, and what they do not.
func (a *author) contents(p stages.Stressing) string {
	text := "from no force to full, no datum is set"
	if p.Datum > 0 {
		text = fmt.Sprintf("from the datum (%s %% of full) to full", rounded(p.Datum/p.Gauge*100, 3, math.Round))
	}
	if p.Tail > 0 {
		return text + ", with " + a.units.quantity(p.Tail, formula.Metre) + " of steel in each jack in it"
	}
	return text + ", without the steel in the jack"
}

// gaugeWords are what the forces of both calibrations contain, and what the greatest comes
// from.
func (a *author) gaugeWords(s stages.SituationRecord) prose {
	var friction, basis, documents said
	for _, p := range s.Stressing {
		if hasFriction(p) {
			friction.once(rounded((1-p.Force/p.Gauge)*100, 3, math.Round) + " % added")
		} else {
			friction.once("forces by the engineer")
		}
		basis.once(a.basisOf(s, p))
		documents.once(p.Given)
	}
	text := bold("Pressure").and(plain, " = force ÷ ("+a.units.in(formula.Newton).unit+" per unit of the gauge). ").and(strong, "Tick for each jack: A ").and(plain, "calibration without friction of jack and anchorage, "+friction.or()+"; ").and(strong, "B ").
		and(plain, "with both: force at the anchor; with one only: forces by the engineer. The force stays as listed whatever k is, more only with the engineer, never above "+basis.or()+", even for the extension.")
	if len(documents) > 0 {
		text = text.and(plain, " Forces and extensions marked — are as given by "+strings.Join(documents, ", ")+".")
	}
	return text
}

// basisOf is the stress and clause of the greatest force at the gauge.
func (a *author) basisOf(s stages.SituationRecord, p stages.Stressing) string {
	if p.Limit == 0 {
		return "____ by the engineer where none is listed"
	}
	text := a.units.safe(p.Limit, formula.Pascal, limits.AtMost)
	for _, c := range s.Checks {
		if c.Kind == limits.JackStress && math.Abs(c.Limit.Value-p.Limit) <= 1e-6*p.Limit {
			return text + ", " + c.Source.Document + " " + c.Source.Place
		}
	}
	return text
}

// steelAssumed are the steel and anchorages that the calculation assumes.
func (a *author) steelAssumed(s stages.SituationRecord) prose {
	var steels, approvals said
	for _, p := range s.Stressing {
		t := a.tendonOf(p.Mark)
		steel := "E " + a.units.quantity(p.Modulus, formula.Pascal) + ", A " + a.units.quantity(a.strandArea(p), formula.SquareMetre) + " each"
		if t.Strand != "" {
			steel = t.Strand + ", " + steel
		}
		steels.once(steel)
		approvals.once(t.Approval)
	}
	text := bold("Assumed: ").and(plain, strings.Join(steels, "; ")+".")
	if len(approvals) > 0 {
		text = text.and(plain, " ").and(strong, "Anchors: ").and(plain, strings.Join(approvals, "; ")+".")
	}
	return text
}

// steelWords are the same with the anchors to watch.
func (a *author) steelWords(s stages.SituationRecord) prose {
	var fixed said
	at, text := a.endsOf(s), a.steelAssumed(s)
	for _, p := range s.Stressing {
		switch {
		case !jackedLeft(p):
			fixed.once(p.Mark + " at " + at.left)
		case !jackedRight(p):
			fixed.once(p.Mark + " at " + at.right)
		}
	}
	if len(fixed) > 0 {
		text = text.and(plain, " ").and(strong, "Anchor without a jack: ").and(plain, strings.Join(fixed, ", ")+", watch it for slip.")
	}
	return text
}

// strandArea is the area of one strand of a tendon (m²); of the tendon where the record
// does not have it.
func (a *author) strandArea(p stages.Stressing) float64 {
	if t := a.tendonOf(p.Mark); t.Strands > 0 {
		return p.Area / float64(t.Strands)
	}
	return p.Area
}
