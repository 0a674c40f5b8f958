package sheet

import (
	"regexp"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// atAnchors is true for the strength that the anchors need.
func atAnchors(h derive.HoldPoint) bool { return h.Kind == stages.AtAnchors }

// isStrength is true for a strength of concrete: a higher one shows a lower one too.
func isStrength(h derive.HoldPoint) bool { return h.Kind == "strength" || atAnchors(h) }

// ofSpecimen is a required strength on one kind of specimen: each row of the table is
// enough alone.
func (a *author) ofSpecimen(h derive.HoldPoint, specimen string) string {
	var list []string
	for _, q := range append([]formula.Quantity{h.Required}, h.Tested...) {
		if !strings.Contains(q.Name, specimen) {
			continue
		}
		name := "characteristic"
		if count := meanOf.FindStringSubmatch(q.Name); count != nil {
			name = "mean of " + count[1] + " or more"
		}
		list = append(list, name+" "+compare(limits.AtLeast)+" "+a.concrete(q.Value))
	}
	return specimen + ": " + strings.Join(list, ", or ")
}

// specimens are what a strength of concrete asks of each kind of specimen that the record has;
// of none, as the requirement says.
func (a *author) specimens(h derive.HoldPoint) string {
	if len(h.Tested) == 0 {
		_, required, _ := a.holdPoint(h)
		return required
	}
	text := a.ofSpecimen(h, "cylinder")
	if cube := a.ofSpecimen(h, "cube"); strings.Contains(cube, compare(limits.AtLeast)) {
		text += "; or " + cube
	}
	return strings.NewReplacer("characteristic", "char.", " or more", "+", ", or mean", " or mean").Replace(text)
}

// atLeastAsMany is how many specimens a mean of the record is made of: fewer do not show
// it.
func atLeastAsMany(h derive.HoldPoint) string {
	for _, q := range h.Tested {
		if count := meanOf.FindStringSubmatch(q.Name); count != nil {
			return ", at least " + count[1]
		}
	}
	return ""
}

// meanOf is the number of specimens in the name of a mean strength.
var meanOf = regexp.MustCompile(`^mean of (\d+) `)

// strength is a required value, rounded to the safe side.
func (a *author) strength(q formula.Quantity, atMost bool) string {
	sense := limits.AtLeast
	if atMost {
		sense = limits.AtMost
	}
	if q.Unit == formula.Pascal && !atMost {
		return a.units.words(q.Name) + " " + compare(sense) + " " + a.concrete(q.Value)
	}
	return a.units.words(q.Name) + " " + compare(sense) + " " + a.units.safe(q.Value, q.Unit, sense)
}

// concrete is a required strength as a yard reads it: up to the next 0.5 MPa or 0.1 ksi.
func (a *author) concrete(value float64) string {
	unit, steps := a.units.in(formula.Pascal), 2.0
	if a.units.filled() == US {
		steps = 10
	}
	return trimmed(up(value*unit.factor*steps)/steps, 1) + " " + unit.unit
}
