package answers

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// mostTolerances bound the corners of a set: 2^10 runs of the plan.
const mostTolerances = 10

// Corner is a check of a stage under a set of tolerances.
type Corner struct {
	Situation string
	Check     stages.Check // in its worst corner
	Planned   float64      // relative reserve as planned
	Reserve   float64      // relative reserve in the worst corner
	Off       []float64    // deviation of each tolerance there
	Alone     []float64    // loss of relative reserve by each tolerance alone, in its worse sense; not below 0
	Worst     int          // number of the tolerance that costs most alone, from 1; 0 where none costs anything
}

// Tolerances are the checks of the stage of a case, each in the worst corner of a set of
// tolerances: every combination of their ends. Between the ends nothing is tried. Checks are
// in the order of the record, those of one name in one situation as the worst of them. The
// error wraps [ErrAnswer]: a set that is none, a corner that the plan refuses.
func Tolerances(c stages.Case, set ...Tolerance) ([]Corner, error) {
	if err := checkTolerances(c, set); err != nil {
		return nil, err
	}
	nominal := make([]float64, len(set))
	planned, order, err := under(c, set, nominal)
	if err != nil {
		return nil, err
	}
	list := make([]Corner, len(order))
	for i, key := range order {
		list[i] = Corner{Situation: key.situation, Check: planned[key], Planned: capped(planned[key]), Reserve: capped(planned[key]), Off: nominal, Alone: make([]float64, len(set))}
	}
	outcomes, offs, err := corners(c, set)
	if err != nil {
		return nil, err
	}
	for n, off := range offs {
		alone := one(off)
		for i, key := range order {
			check, ok := outcomes[n][key]
			if !ok {
				continue // not asked in this corner: a zone that is not there
			}
			reserve, at := capped(check), &list[i]
			if reserve < at.Reserve {
				at.Check, at.Reserve, at.Off = check, reserve, off
			}
			if alone >= 0 {
				at.Alone[alone] = math.Max(at.Alone[alone], at.Planned-reserve)
			}
		}
	}
	for i := range list {
		for k, loss := range list[i].Alone {
			if loss > 0 && (list[i].Worst == 0 || loss > list[i].Alone[list[i].Worst-1]) {
				list[i].Worst = k + 1
			}
		}
	}
	return list, nil
}

// capped is a relative reserve with a number for what a document covers.
func capped(c stages.Check) float64 { return math.Min(c.Reserve(), unlimited) }

// one is the only deviation that is not zero, −1 where there are none or several.
func one(off []float64) int {
	at := -1
	for i, v := range off {
		if v != 0 && at >= 0 {
			return -1
		} else if v != 0 {
			at = i
		}
	}
	return at
}

// corners are the checks with each tolerance alone and in every combination of ends.
func corners(c stages.Case, set []Tolerance) ([]map[checkKey]stages.Check, [][]float64, error) {
	var offs [][]float64
	known := map[string]bool{}
	add := func(off []float64) {
		if key := fmt.Sprint(off); !known[key] {
			known[key] = true
			offs = append(offs, off)
		}
	}
	for i, t := range set {
		for _, v := range []float64{t.Least, t.Most} {
			off := make([]float64, len(set))
			off[i] = v
			add(off)
		}
	}
	for n := range 1 << len(set) {
		off := make([]float64, len(set))
		for i, t := range set {
			if off[i] = t.Least; n>>i&1 == 1 {
				off[i] = t.Most
			}
		}
		add(off)
	}
	outcomes := make([]map[checkKey]stages.Check, len(offs))
	wrong := make([]error, len(offs))
	each(len(offs), func(i int) { outcomes[i], _, wrong[i] = under(c, set, offs[i]) })
	for _, err := range wrong {
		if err != nil {
			return nil, nil, err
		}
	}
	return outcomes, offs, nil
}

// checkKey names a check of a stage.
type checkKey struct {
	number          int // of the situation
	situation, name string
}

// under is the worst check of each name with deviations, and their order.
func under(c stages.Case, set []Tolerance, off []float64) (map[checkKey]stages.Check, []checkKey, error) {
	for i, t := range set {
		if off[i] == 0 {
			continue
		}
		with, err := c.With(t.Input, off[i])
		if err != nil {
			return nil, nil, fmt.Errorf("%w: %s off by %g %s: %w", ErrAnswer, t.Name, off[i], t.Input.Unit, err)
		}
		c = with
	}
	r, err := c.Plan.Run(c.Subject, c.Standard)
	if err != nil {
		return nil, nil, fmt.Errorf("%w: tolerances off by %v: %w", ErrAnswer, off, err)
	}
	worst := map[checkKey]stages.Check{}
	var order []checkKey
	for i, s := range r.Stages[c.Stage-1].Situations {
		for _, check := range s.Checks {
			key := checkKey{i, s.Name, check.Name}
			known, ok := worst[key]
			if !ok {
				order = append(order, key)
			}
			if !ok || check.Reserve() < known.Reserve() {
				worst[key] = check
			}
		}
	}
	return worst, order, nil
}

// checkTolerances reports the first tolerance that is none.
func checkTolerances(c stages.Case, set []Tolerance) error {
	if c.Stage < 1 || c.Stage > len(c.Plan) {
		return fmt.Errorf("%w: Case.Stage = %d: must be 1 to %d", ErrAnswer, c.Stage, len(c.Plan))
	}
	if len(set) == 0 || len(set) > mostTolerances {
		return fmt.Errorf("%w: %d tolerances: must be 1 to %d", ErrAnswer, len(set), mostTolerances)
	}
	for _, t := range set {
		if !(t.Least <= 0 && t.Most >= 0 && t.Most-t.Least > 0 && t.Most-t.Least <= largest) {
			return fmt.Errorf("%w: tolerance %q from %g to %g: must be from 0 or below to 0 or above, finite, not both 0", ErrAnswer, t.Name, t.Least, t.Most)
		}
	}
	return nil
}

// CornerResult is a table of the checks of a stage in their worst corners, for the sheets;
// names are those of the tolerances, in their order.
func CornerResult(stage int, list []Corner, names ...string) stages.ResultPart {
	table := stages.ValueTable{
		Title: "Relative reserve as planned and in the worst corner, and what each tolerance alone costs", RowHead: "check; what costs most",
		Columns: []stages.ValueColumn{{Name: "as planned", Unit: formula.One}, {Name: "worst corner", Unit: formula.One}},
	}
	for _, n := range names {
		table.Columns = append(table.Columns, stages.ValueColumn{Name: n, Unit: formula.One})
	}
	for _, k := range list {
		name := k.Check.Name
		if k.Worst > 0 && k.Worst <= len(names) {
			name += "; " + names[k.Worst-1]
		}
		row := []float64{k.Planned, k.Reserve}
		for i := range names {
			loss := 0.0
			if i < len(k.Alone) {
				loss = k.Alone[i]
			}
			row = append(row, loss)
		}
		table.RowNames, table.Rows = append(table.RowNames, name), append(table.Rows, row)
	}
	part := stages.ResultPart{Title: fmt.Sprintf("Stage %d: tolerances", stage), Notes: []string{"Every combination of the ends of the tolerances is run; −1 is not evaluated."}}
	if len(table.Rows) > 0 {
		part.Tables = []stages.ValueTable{table}
	}
	return part
}
