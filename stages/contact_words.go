package stages

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// contactWords derive what contact adds to the superposed rows of a stress: the change of the
// reaction at each place along the element, kN, from which its internal forces follow by
// statics. Supports that lift off give theirs away.
func (r *run) contactWords(field ledger.Field) string {
	f, ok := field.(*contactField)
	if !ok {
		return "contact under these factors"
	}
	var xs, sums []float64
	for i, q := range f.a.supports {
		change := f.vertical[i] - f.superposed(q)
		if n := len(xs); n > 0 && math.Abs(xs[n-1]-q.X) < rankTolerance {
			sums[n-1] += change
			continue
		}
		xs, sums = append(xs, q.X), append(sums, change)
	}
	var texts []string
	for i, x := range xs {
		if math.Abs(sums[i]) >= leastChange {
			texts = append(texts, fmt.Sprintf("%+.1f kN at x = %.4g m", sums[i]/1e3, x))
		}
	}
	if len(texts) == 0 {
		return "contact under these factors, reactions change by less than 0.05 kN"
	}
	return "contact under these factors, supports push only: reactions change by " + strings.ReplaceAll(strings.Join(texts, ", "), "-", "−")
}

// leastChange is the least change of a reaction that is written down (N): it prints as 0.1 kN.
const leastChange = 50

// superposed is the force of a support as the rows of a stress add it up (N, upwards).
func (f *contactField) superposed(q Support) float64 {
	sum := 0.0
	for i := range f.of.current {
		e := &f.of.current[i]
		force, err := f.run.reactionOf(f.of, e, q)
		if err != nil { // answered before
			continue
		}
		sum += force * e.under(f.factors)
	}
	return sum
}
