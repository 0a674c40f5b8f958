package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages"
)

// groutedIn are the tendons that are bonded now and were not before, strands of the bed
// left out.
func (a *author) groutedIn(before, now []stages.TendonForce) []string {
	var marks []string
	for _, t := range now {
		if t.Bonded && !a.tendonOf(t.Mark).Pretensioned && !slices.ContainsFunc(before, func(u stages.TendonForce) bool { return u.Mark == t.Mark && u.Bonded }) {
			marks = append(marks, t.Mark)
		}
	}
	return marks
}

// tendonsIn are the hold point and the tendons that are stressed, and those of them grouted,
// which the record of grouting shows; "" for none. Strands of the bed are not grouted.
func (a *author) tendonsIn(tendons []stages.TendonForce) (point, required string) {
	var stressed, grouted []string
	ducts := 0
	for _, t := range tendons {
		stressed = append(stressed, t.Mark)
		if a.tendonOf(t.Mark).Pretensioned {
			continue
		}
		ducts++
		if t.Bonded {
			grouted = append(grouted, t.Mark)
		}
	}
	point, required = "Tendons stressed", strings.Join(stressed, ", ")
	switch {
	case len(stressed) == 0:
		return "", ""
	case ducts == 0:
		return point, required
	case len(grouted) == 0:
		return point, required + "; none grouted"
	case len(grouted) == len(stressed):
		return "Tendons grouted", required + ", by the record"
	}
	return point, required + "; grouted by the record: " + strings.Join(grouted, ", ")
}
