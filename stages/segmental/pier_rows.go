package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// pressed and lifted are measures: the force of a row of a side, and its negative.
func (k pierCase) pressed(side float64) func(Resultant) float64 {
	return func(r Resultant) float64 { return r.Vertical/2 + side*r.Along/k.Rows }
}

func (k pierCase) lifted(side float64) func(Resultant) float64 {
	return func(r Resultant) float64 { return -r.Vertical/2 - side*r.Along/k.Rows }
}

// rated is true for combinations that go against a permissible force or moment: as ties are
// compared in every combination, so is the row that is pressed where they pull.
func (k pierCase) rated(c combination) bool {
	return c.characteristic || c.accident || k.rule == AASHTO || k.Ties != nil
}

// forces is the limit state of forces in a combination: in an accident it is strength, not
// equilibrium.
func (c combination) forces() string {
	if c.accident {
		return limits.Ultimate
	}
	return c.limitState
}

// titled is the name of a check in a combination; that of AASHTO with an accident is strength.
func (c combination) titled(name string) string {
	if c.accident && c.limitState == limits.Equilibrium {
		return name + ", accidental"
	}
	return name
}

// greatest is the check of the largest force of a row, the preload of its ties included.
func (k pierCase) greatest(c combination) ([]ruledCheck, error) {
	if k.Row == 0 || !k.rated(c) {
		return nil, nil
	}
	side, e := k.worst(c, k.pressed)
	chain := &formula.Chain{}
	force := k.reaction(chain, c, e, side, "R", "force of the row by statics")
	preload := 0.0
	if k.Ties != nil {
		preload = float64(k.Ties.Number) * k.Ties.Preload
		force = chain.Derive(pierForce("R_max", 0, "force of the row with the preload of its ties"), "R + n_T*P_T", formula.Mechanics, force, k.tieNumber(), pierForce("P_T", k.Ties.Preload, "preload of each tie"))
	}
	source := formula.Source{Document: k.Document}
	permissible := chain.Given(pierForce("R_perm", k.Row, "permissible force of a row"), source, "")
	limit := limits.Limit{Name: c.titled("force of a row of bearings of pier " + k.Mark), LimitState: c.forces(), Sense: limits.AtMost, Source: source, Line: formula.Given(permissible, source)}
	check, err := k.made(limit, force, k.rowWords(side), k.note(c, e), chain)
	return []ruledCheck{{check, linearLimit{c, bothSides(k.pressed), k.Row - preload, formula.Newton}}}, err
}

// smallest is the check of the smallest force of a row: without ties it must press, with
// ties they pull what is missing.
func (k pierCase) smallest(c combination) ([]ruledCheck, error) {
	side, e := k.worst(c, k.lifted)
	chain := &formula.Chain{}
	force := k.reaction(chain, c, e, side, "R_min", "minimum force of the row by statics")
	if k.Ties == nil {
		limit := limits.Limit{Name: c.titled("uplift at a row of bearings of pier " + k.Mark), LimitState: c.limitState, Sense: limits.AtLeast, Source: c.source,
			Line: formula.Given(pierForce("R_lim", 0, "minimum permissible force of a row"), formula.Mechanics), Scale: pierForce("R_scale", math.Abs(e.Vertical)/2, "half of the vertical force")}
		check, err := k.made(limit, force, k.rowWords(side), k.note(c, e), chain)
		return []ruledCheck{{check, linearLimit{c, bothSides(k.lifted), 0, formula.Newton}}}, err
	}
	tie := chain.Derive(pierForce("F_T", 0, "force in a tie: its preload, or its share of the pull where that is more"), "max(P_T, -R_min/n_T)", formula.Mechanics,
		pierForce("P_T", k.Ties.Preload, "preload of each tie"), force, k.tieNumber())
	check, err := k.tie(c.titled("force in a tie of pier "+k.Mark), c, tie, side, e, chain)
	return []ruledCheck{{check, linearLimit{c, bothSides(k.lifted), k.tied(), formula.Newton}}}, err
}

// tie is the check of the force in a tie.
func (k pierCase) tie(name string, c combination, force formula.Quantity, side float64, e Extreme, chain *formula.Chain) (stages.OwnCheck, error) {
	source := formula.Source{Document: k.Ties.Document}
	capacity := chain.Given(pierForce("WLL_T", k.Ties.Capacity, "working load limit of a tie with its anchorages"), source, "")
	limit := limits.Limit{Name: name, LimitState: c.forces(), Sense: limits.AtMost, Source: source, Line: formula.Given(capacity, source)}
	return k.made(limit, force, k.rowWords(side), k.note(c, e), chain)
}

// tieLost is the check of the ties that remain when one is lost at once: all factors those of
// the characteristic combination. Where no row lifts in it the check says that, and without its
// only tie the row must press.
func (k pierCase) tieLost(c combination) ([]ruledCheck, error) {
	if k.Ties == nil || !c.characteristic {
		return nil, nil
	}
	side, e := k.worst(c, k.lifted)
	chain := &formula.Chain{}
	force := k.reaction(chain, c, e, side, "R_min", "minimum force of the row by statics")
	const lost = "; accidental: one tie lost"
	n, f := float64(k.Ties.Number), k.Ties.sudden()
	bound := linearLimit{c, bothSides(k.lifted), 0, formula.Newton}
	if n > 1 {
		bound.capacity = k.Ties.Capacity * n * (n - 1) / (n - 1 + f)
	}
	if n == 1 || force.Value >= 0 {
		name, note := "one tie lost at pier "+k.Mark+": uplift at its row", k.note(c, e)+lost
		if force.Value >= 0 {
			name, note = "one tie lost at pier "+k.Mark+": no row lifts", note+"; the ties do not pull, those that remain keep their preload"
		}
		limit := limits.Limit{Name: name, LimitState: c.limitState, Sense: limits.AtLeast, Source: formula.Mechanics,
			Line: formula.Given(pierForce("R_lim", 0, "minimum permissible force of a row"), formula.Mechanics), Scale: pierForce("R_scale", math.Abs(e.Vertical)/2, "half of the vertical force")}
		check, err := k.made(limit, force, k.rowWords(side), note, chain)
		return []ruledCheck{{check, bound}}, err
	}
	pull := chain.Derive(pierForce("U", 0, "pull on the ties of the row"), "max(0, -R_min)", formula.Mechanics, force)
	tie := chain.Derive(pierForce("F_T1", 0, "force in each tie that remains: its preload, or the pull with that of the lost one put on at once"), "max(P_T, (U + (f_dyn - 1)*U/n_T)/(n_T - 1))", formula.Mechanics,
		pierForce("P_T", k.Ties.Preload, "preload of each tie"), pull, formula.Q("f_dyn", f, formula.One, "factor on a force that is lost at once"), k.tieNumber())
	check, err := k.tie("one tie lost at pier "+k.Mark+": force in those that remain", c, tie, side, e, chain)
	check.Note += lost
	return []ruledCheck{{check, bound}}, err
}

func (k pierCase) tieNumber() formula.Quantity {
	return formula.Q("n_T", float64(k.Ties.Number), formula.One, fmt.Sprintf("ties at each row of pier %s", k.Mark))
}
