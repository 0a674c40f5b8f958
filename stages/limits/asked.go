package limits

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// check reports the first number that the answer to the question would rest on and that
// cannot be one.
func (q Question) check() error {
	type number struct {
		field       string
		value       float64
		unit        string
		least, most float64
	}
	var numbers []number
	switch q.Kind {
	case Compression, WebShear:
		numbers = []number{{"Concrete.Characteristic", q.Concrete.Characteristic, "Pa", 1e4, 200e6}}
	case Tension:
		numbers = []number{{"Concrete.TensileMean", q.Concrete.TensileMean, "Pa", 1e3, 20e6}}
	case PrincipalTension:
		numbers = []number{{"Concrete.TensileLow", q.Concrete.TensileLow, "Pa", 1e3, 20e6}}
	case TensionSteel:
		numbers = []number{{"TensionZone.Force", q.TensionZone.Force, "N", 0, 1e12}, {"TensionZone.Bars", q.TensionZone.Bars, "m²", 0, 100}}
	case JackStress, LockOffStress:
		if t := q.Tendon; t != nil {
			numbers = []number{{"Tendon.Strand.Fpk", t.Strand.Fpk, "Pa", 100e6, 3000e6}, {"Tendon.Strand.Fp01k", t.Strand.Fp01k, "Pa", 100e6, 3000e6}}
		}
	case StressingStrength, AnchorSpacing, AnchorEdge:
		if t := q.Tendon; t != nil {
			numbers = []number{{"Tendon.Approval.MeanStrength", t.Approval.MeanStrength, "Pa", 1e6, 150e6},
				{"Tendon.Approval.AnchorSpacing", t.Approval.AnchorSpacing, "m", 0.01, 5}, {"Tendon.Approval.EdgeDistance", t.Approval.EdgeDistance, "m", 0.01, 5}}
		}
	}
	for _, n := range numbers {
		if !(n.value >= n.least && n.value <= n.most) {
			return fmt.Errorf("%w: %s: Question.%s = %g %s: must be %g to %g %s%s", ErrLimits, q.Kind, n.field, n.value, n.unit, n.least, n.most, n.unit, formula.Misread(n.value, n.unit, n.least, n.most))
		}
	}
	return nil
}
