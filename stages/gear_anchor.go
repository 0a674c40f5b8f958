package stages

import (
	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// anchor is the check of the lifting anchor with the largest force at the strength of the
// day, with the flattest pull.
func (g Gear) anchor(e Effects, largest, flat slungAt) (OwnCheck, error) {
	check := OwnCheck{Check: Check{Kind: limits.AnchorForce, Name: string(limits.AnchorForce), State: NotEvaluated, Sense: limits.AtMost}}
	strength := e.Strength
	if g.Anchor.Specimen == concrete.Cube {
		var err error
		if strength, err = concrete.CubeFor(strength); err != nil {
			return check, err
		}
	}
	of, err := g.Anchor.Limit(strength, flat.vertical+g.FromAxis, g.Edge)
	if err != nil { // a strength below the maker's table is no wrong input: it fails in words
		check.Note = err.Error()
		return check, nil
	}
	specimen := map[bool]string{true: "cube", false: "cylinder"}[g.Anchor.Specimen == concrete.Cube]
	wll, err := formula.Derive(formula.Q("WLL_anchor", 0, formula.Newton, "working load limit of "+g.Anchor.Mark), "N_table*k_β*k_c", g.Anchor.Source,
		formula.Q("N_table", of.Row.Load, formula.Newton, "of the maker's table at the strength that counts"), formula.Q("k_β", of.Angle.Share, formula.One, "share of the limit by the angle of pull"),
		formula.Q("k_c", of.Edge.Share, formula.One, "share of the limit by the distance from an edge"))
	if err != nil {
		return check, err
	}
	row := formula.Given(formula.Q("f_table", of.Row.Strength, formula.Pascal, "characteristic "+specimen+" strength of the table that counts"), g.Anchor.Source)
	limit := limits.Limit{
		Kind: limits.AnchorForce, Name: string(limits.AnchorForce), LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: g.Anchor.Source, Line: wll,
		Note: "with the reinforcement and the lifting key that the maker asks for; the concrete is not checked beside it",
	}
	check = NewCheck(limit, largest.force.Result).Derived(largest.force, row, wll)
	check.Hold = &Hold{Kind: "lifting anchors", Required: g.needed(largest.force.Result.Value, of, specimen), Assumed: formula.Q("f_anchor", strength, formula.Pascal, "characteristic "+specimen+" strength")}
	return check, nil
}

// needed is the least strength of the maker's table at which an anchor carries a force.
func (g Gear) needed(force float64, of rigging.AnchorLimit, specimen string) formula.Quantity {
	strength := of.Row.Strength
	for i := len(g.Anchor.Loads) - 1; i >= 0; i-- {
		if row := g.Anchor.Loads[i]; row.Load*of.Angle.Share*of.Edge.Share >= force && row.Strength <= strength {
			strength = row.Strength
		}
	}
	return formula.Q("f_anchor_min", strength, formula.Pascal, "characteristic "+specimen+" strength")
}
