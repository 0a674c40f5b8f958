package limits

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// Handling is rules of practice for the lifting and handling of slender elements, where
// EN 1992 has no limit: put it beside a standard with [All]. Each field is a value to be
// agreed; zero means the one named behind it, not checked against the printed source.
type Handling struct {
	RollCracking    float64 // factor against cracking when an element rolls, 1 to 10: 0 means 1.0 (R. F. Mast, PCI Journal, 1989)
	RollOverturning float64 // factor against overturning when it rolls, 1 to 10: 0 means 1.5 (R. F. Mast, PCI Journal, 1989)
	OneCrane        float64 // share of its chart that a crane may use alone, 0.1 to 1: 0 means 1.0
	TwoCranes       float64 // that each of two may use, 0.1 to 1: 0 means 0.75 (BS 7121-1, 25 % less where influences are not evaluated accurately)
	ThreeCranes     float64 // that each of three may use, 0.1 to 1: 0 means 0.75 (Queensland Mobile Crane Code of Practice, 14.3.2, 33 % margin)
	MoreCranes      float64 // that each of four or more may use, 0.1 to 1: 0 means 1/1.5 (Queensland Mobile Crane Code of Practice, 14.3.2, 50 % margin)
}

// Sources of the values of Handling.
var (
	mast       = formula.Source{Document: "R. F. Mast, PCI Journal", Place: "1989, part 1", Confirm: true}
	bs7121     = formula.Source{Document: "BS 7121-1", Place: "lifting by two or more cranes, 25 % less", Confirm: true}
	queensland = formula.Source{Document: "Queensland Mobile Crane Code of Practice", Place: "14.3.2", Confirm: true}
	chart      = formula.Source{Document: "chart of the maker", Place: "as stated"}
	agreed     = formula.Source{Document: "input", Place: "Handling"}
)

// handled is a value of Handling with its source.
type handled struct {
	field       string
	value       float64
	usual       float64
	least, most float64
	source      formula.Source
}

// filled is the value that counts, with its source.
func (h handled) filled() (float64, formula.Source, error) {
	if h.value == 0 {
		return h.usual, h.source, nil
	}
	if !(h.value >= h.least && h.value <= h.most) {
		return 0, h.source, fmt.Errorf("%w: Handling.%s = %g: must be 0 (it means %.3g) or %g to %g", ErrLimits, h.field, h.value, h.usual, h.least, h.most)
	}
	return h.value, agreed, nil
}

// crane is the share of the chart for a number of cranes.
func (h Handling) crane(number int) handled {
	switch {
	case number <= 1:
		return handled{"OneCrane", h.OneCrane, 1, 0.1, 1, chart}
	case number == 2:
		return handled{"TwoCranes", h.TwoCranes, 0.75, 0.1, 1, bs7121}
	case number == 3:
		return handled{"ThreeCranes", h.ThreeCranes, 0.75, 0.1, 1, queensland}
	}
	return handled{"MoreCranes", h.MoreCranes, 1 / 1.5, 0.1, 1, queensland}
}

// check reports the first value out of range, also one that is not asked for.
func (h Handling) check() error {
	for _, v := range []handled{
		h.crane(1), h.crane(2), h.crane(3), h.crane(4),
		{"RollCracking", h.RollCracking, 1, 1, 10, mast}, {"RollOverturning", h.RollOverturning, 1.5, 1, 10, mast},
	} {
		if _, _, err := v.filled(); err != nil {
			return err
		}
	}
	return nil
}

// Limits answers the questions about roll and cranes; no others.
func (h Handling) Limits(q Question) ([]Limit, error) {
	if err := h.check(); err != nil {
		return nil, err
	}
	var of handled
	limit := Limit{LimitState: Equilibrium, Sense: AtLeast}
	var result formula.Quantity
	switch q.Kind {
	case RollCracking:
		of, result = handled{"RollCracking", h.RollCracking, 1, 1, 10, mast}, formula.Q("FS_cr_min", 0, formula.One, "minimum factor against cracking")
		limit.LimitState = Serviceability
	case RollOverturning:
		of, result = handled{"RollOverturning", h.RollOverturning, 1.5, 1, 10, mast}, formula.Q("FS_f_min", 0, formula.One, "minimum factor against overturning")
	case CraneUse:
		if q.Cranes < 0 || q.Cranes > 100 {
			return nil, fmt.Errorf("%w: Question.Cranes = %d: must be 0 to 100", ErrLimits, q.Cranes)
		}
		of, result = h.crane(q.Cranes), formula.Q("n_C", 0, formula.One, "share of the chart that may be used")
		limit.LimitState, limit.Sense = WorkingLoad, AtMost
	default:
		return nil, nil
	}
	var err error
	if result.Value, limit.Source, err = of.filled(); err != nil {
		return nil, err
	}
	limit.Line = formula.Given(result, limit.Source)
	return named(q.Kind, limit), nil
}
