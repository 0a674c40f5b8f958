package segmental

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Releases is the change of two piers from the supports of the cantilevers to bearings, to be
// looked at in both orders.
type Releases struct {
	Piers  [2]PierRelease
	Others []stages.Support // that stay throughout
	Day    float64          // of the first release, d
	Days   float64          // to the second, d, 0 to 1000
	Before []Step           // until then, from the beginning
	Middle []Move           // between both releases, on the day of the second: tendons
	After  []Step           // afterwards: tendons, waits
	Places []float64        // x at which moments are compared, m; none: both sides of both piers, the middle of every closure
}

// PierRelease is a pier that is released: its supports before and after.
type PierRelease struct {
	Mark      string
	Temporary []stages.Support // fixed ones of the cantilever
	Bearings  []stages.Support
}

// ReleaseOrder is one order with what governs.
type ReleaseOrder struct {
	First     string         // mark of the pier that is released first
	Governing []stages.Check // of each step from the first release on: the evaluated check with the largest utilisation; zero for none
	Open      []int          // how many checks of that step are not evaluated or are questions without an answer
	Reserve   []float64      // of that step, as Analysis.Margin gives it: −1 where a check is not evaluated
	Moments   [][]float64    // at the places, at the end of that step, N·m, about the centroid of the gross section
	Names     []string       // of these steps
}

// Orders are both orders of release: the plan with each, in full. The error wraps
// [ErrSegmental] or is that of the analysis.
func (r Releases) Orders(d Deck, on []stages.Support, standard limits.Standard) (orders [2]ReleaseOrder, places []float64, err error) {
	if err := r.check(d); err != nil {
		return orders, nil, err
	}
	if places, err = r.places(d); err != nil {
		return orders, nil, err
	}
	for first := range orders {
		if orders[first], err = r.order(d, on, standard, first, places); err != nil {
			return orders, nil, fmt.Errorf("pier %s first: %w", r.Piers[first].Mark, err)
		}
	}
	return orders, places, nil
}

func (r Releases) check(d Deck) error {
	if err := d.check(); err != nil {
		return err
	}
	if err := within("Releases.", bound{"Day", r.Day, "d", -1e6, 1e6}, bound{"Days", r.Days, "d", 0, 1000}); err != nil {
		return err
	}
	for i, p := range r.Piers {
		if p.Mark == "" || len(p.Temporary) == 0 || len(p.Bearings) == 0 || p.Mark == r.Piers[1-i].Mark {
			return fmt.Errorf("%w: field Releases.Piers[%d], %q: must have a mark of its own, Temporary and Bearings", ErrSegmental, i, p.Mark)
		}
	}
	return nil
}

func (r Releases) places(d Deck) ([]float64, error) {
	on := slices.Concat(r.Piers[0].Temporary, r.Piers[1].Temporary)
	return CreepBand{Places: r.Places}.places(d, on, nil)
}

// steps are those of one order.
func (r Releases) steps(first int) []Step {
	a, b := r.Piers[first], r.Piers[1-first]
	one := Step{Name: "release " + a.Mark, Day: r.Day, Moves: []Move{{Do: Support, On: slices.Concat(r.Others, a.Bearings, b.Temporary)}}}
	two := Step{Name: "release " + b.Mark, Day: r.Day + r.Days, Moves: append(slices.Clone(r.Middle), Move{Do: Support, On: slices.Concat(r.Others, a.Bearings, b.Bearings)})}
	return slices.Concat(r.Before, []Step{one, two}, r.After)
}

func (r Releases) order(d Deck, on []stages.Support, standard limits.Standard, first int, places []float64) (ReleaseOrder, error) {
	of, steps := ReleaseOrder{First: r.Piers[first].Mark}, r.steps(first)
	plan, err := d.Plan(on, steps...)
	if err != nil {
		return of, err
	}
	g, err := d.Girder()
	if err != nil {
		return of, err
	}
	a, err := plan.Analyse(g, standard)
	if err != nil {
		return of, err
	}
	record, err := a.Record()
	if err != nil {
		return of, err
	}
	for i := len(r.Before); i < len(steps); i++ {
		_, reserve, err := a.Margin(i + 1)
		if err != nil {
			return of, err
		}
		check, open := governing(record.Stages[i])
		of.Names, of.Governing, of.Open, of.Reserve = append(of.Names, steps[i].title(i)), append(of.Governing, check), append(of.Open, open), append(of.Reserve, reserve)
		e, err := a.Effects(i+1, len(record.Stages[i].Situations))
		if err != nil {
			return of, err
		}
		var moments []float64
		for _, x := range places {
			moments = append(moments, d.momentAt(e, x))
		}
		of.Moments = append(of.Moments, moments)
	}
	return of, nil
}

// governing is the evaluated check of a stage with the largest utilisation, a failing one
// before all others, and how many are open.
func governing(s stages.StageRecord) (worst stages.Check, open int) {
	for _, q := range s.Situations {
		open += len(q.Unanswered)
		for _, c := range q.Checks {
			switch failed, before := c.State == stages.Fail, worst.State == stages.Fail; {
			case c.State == stages.NotEvaluated:
				open++
			case worst.State == "", failed && !before, failed == before && c.Utilisation > worst.Utilisation:
				worst = c
			}
		}
	}
	return worst, open
}

// Tables are the utilisation that governs each step and the moments at its end, the orders side
// by side.
func (r Releases) Tables(orders [2]ReleaseOrder, places []float64) ([]stages.ValueTable, error) {
	if len(orders[0].Governing) == 0 || len(orders[0].Governing) != len(orders[1].Governing) || len(places) == 0 {
		return nil, fmt.Errorf("%w: Releases.Tables of %d and %d steps, %d places: must be the results of Orders", ErrSegmental, len(orders[0].Governing), len(orders[1].Governing), len(places))
	}
	words := [2]string{orders[0].First + " first", orders[1].First + " first"}
	checks := stages.ValueTable{Title: "Order of release: utilisation of the governing evaluated check", Columns: []stages.ValueColumn{{Name: "step", Unit: formula.One}, {Name: words[0], Unit: formula.One}, {Name: words[1], Unit: formula.One}, {Name: "not evaluated, " + words[0], Unit: formula.One}, {Name: "not evaluated, " + words[1], Unit: formula.One}}}
	moments := stages.ValueTable{Title: "Order of release: moments at the end of each step", Columns: []stages.ValueColumn{{Name: "step", Unit: formula.One}, {Name: "x", Unit: formula.Metre}, {Name: words[0], Unit: formula.NewtonMetre}, {Name: words[1], Unit: formula.NewtonMetre}, {Name: "difference", Unit: formula.NewtonMetre}}}
	for i := range orders[0].Governing {
		step := float64(len(r.Before) + i + 1)
		checks.Rows = append(checks.Rows, []float64{step, orders[0].Governing[i].Utilisation, orders[1].Governing[i].Utilisation, float64(orders[0].Open[i]), float64(orders[1].Open[i])})
		for k, x := range places {
			a, b := orders[0].Moments[i][k], orders[1].Moments[i][k]
			moments.Rows = append(moments.Rows, []float64{step, x, a, b, b - a})
		}
	}
	return []stages.ValueTable{checks, moments}, nil
}
