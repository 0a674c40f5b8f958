package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// look makes a situation on falsework check its rows and bearings and state their forces;
// next are the rows that are taken away after it.
func (f FalseworkRows) look(s *Situation, l lowering, next []string, first bool) {
	s.Check = func(e Effects, _ limits.Standard) ([]OwnCheck, error) { return f.checks(e, l, next) }
	s.Equip = func(e Effects, _ limits.Standard) ([]EquipmentItem, error) {
		return []EquipmentItem{f.item(e, l, first)}, nil
	}
	s.Draw = func(e Effects) []Figure { return []Figure{f.figure(e)} }
}

// checks are those of every row that is there, of the bearings, and the question about what
// is below them.
func (f FalseworkRows) checks(e Effects, l lowering, next []string) (list []OwnCheck, err error) {
	below := 0.0
	for i, r := range f.Rows {
		if math.IsNaN(l[i]) {
			continue
		}
		c, err := f.load(e, i)
		if err != nil {
			return nil, err
		}
		list = append(list, c)
		if slices.Contains(next, r.Mark) {
			free, err := f.free(e, i)
			if err != nil {
				return nil, err
			}
			list = append(list, free)
		}
		for _, k := range f.towers(i, e) {
			below = math.Max(below, e.Reactions[k].Ultimate.Most)
		}
	}
	bearing, err := f.bearing(e)
	if err != nil {
		return nil, err
	}
	list = append(list, bearing)
	if below > 0 {
		c := Check{Kind: limits.LocalForce, Name: string(limits.LocalForce), State: NotEvaluated, Sense: limits.AtMost, X: f.Rows[0].X, Place: "below the towers"}
		c.Note = fmt.Sprintf("foundations and ground below the towers, heads and forms above them: required for %.0f kN on a tower, ultimate", math.Ceil(below/1e3))
		list = append(list, OwnCheck{Check: c})
	}
	return list, nil
}

// without is a force that is none (N): below what any gauge shows.
const withoutForce = 1.0

// load is the check of the tower with the largest force of a row.
func (f FalseworkRows) load(e Effects, row int) (OwnCheck, error) {
	r, towers := f.Rows[row], f.towers(row, e)
	at := f.largest(e, towers)
	most := e.Reactions[at]
	c := &formula.Chain{}
	q := func(symbol string, v float64, name string) formula.Quantity {
		return c.Given(formula.Q(symbol, math.Max(0, v), formula.Newton, name), formula.Mechanics, "")
	}
	q("R_0", most.Nominal, "of the tower, nominal")
	q("R_s", most.Static.Most, "of the tower, static maximum")
	q("R_U", most.Ultimate.Most, "of the tower, ultimate maximum")
	demand := q("R_T", most.Characteristic.Most, "largest force of a tower of the row, characteristic")
	source := f.document()
	limit := limits.Limit{Name: "load on falsework row " + r.Mark, LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: source,
		Line: formula.Given(formula.Q("WLL_T", r.Capacity, formula.Newton, "working load limit of a tower"), source)}
	lines, err := c.Lines()
	if err != nil {
		return OwnCheck{}, err
	}
	check := NewCheck(limit, demand)
	check.X, check.Place = most.X, fmt.Sprintf("row %s, tower at y = %.3f m", r.Mark, most.Y)
	switch {
	case most.Characteristic.Most < withoutForce:
		check.Note = "the row is without force"
	case most.Nominal < withoutForce:
		check.Note = "the row is without force under nominal actions"
	}
	return check.Derived(append(lines, limit.Line)...), nil
}

// largest is the reaction with the largest characteristic force.
func (f FalseworkRows) largest(e Effects, of []int) int {
	at := of[0]
	for _, i := range of[1:] {
		if e.Reactions[i].Characteristic.Most > e.Reactions[at].Characteristic.Most {
			at = i
		}
	}
	return at
}

// free is the check that a row that is taken away next is without force.
func (f FalseworkRows) free(e Effects, row int) (OwnCheck, error) {
	r, towers := f.Rows[row], f.towers(row, e)
	most := e.Reactions[f.largest(e, towers)]
	demand := formula.Q("R_T", math.Max(0, most.Characteristic.Most), formula.Newton, "largest force of a tower of the row, characteristic")
	if demand.Value < withoutForce {
		demand.Value = 0
	}
	limit := limits.Limit{Name: "row " + r.Mark + " free before it is taken away", LimitState: limits.Serviceability, Sense: limits.AtMost, Source: formula.Mechanics,
		Line: formula.Given(formula.Q("R_free", 0, formula.Newton, "a tower that is taken away"), formula.Mechanics), Scale: formula.Q("WLL_T", r.Capacity, formula.Newton, "working load limit of a tower")}
	check := NewCheck(limit, demand)
	check.X, check.Place = most.X, fmt.Sprintf("row %s, tower at y = %.3f m", r.Mark, most.Y)
	return check.Derived(formula.Given(demand, formula.Mechanics)), nil
}

// bearing is the check of the bearing with the largest force.
func (f FalseworkRows) bearing(e Effects) (OwnCheck, error) {
	var of []int
	for i, r := range e.Reactions {
		if r.Role != Falsework {
			of = append(of, i)
		}
	}
	at := f.largest(e, of)
	source := f.document()
	demand := formula.Q("R_B", math.Max(0, e.Reactions[at].Characteristic.Most), formula.Newton, "largest force of a bearing, characteristic")
	limit := limits.Limit{Name: "load on a bearing", LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: source,
		Line: formula.Given(formula.Q("R_Bp", f.Bearing, formula.Newton, "permissible characteristic force of a bearing"), source)}
	check := NewCheck(limit, demand)
	check.X, check.Place = e.Reactions[at].X, fmt.Sprintf("bearing at x = %.3f m, y = %.3f m", e.Reactions[at].X, e.Reactions[at].Y)
	return check.Derived(formula.Given(demand, formula.Mechanics), limit.Line), nil
}
