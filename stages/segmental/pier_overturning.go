package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// turned is a measure: the moment about the row of a side with a factor on the out-of-balance
// moment, over zero where the other row lifts (N·m).
func (k pierCase) turned(factor float64) func(side float64) func(Resultant) float64 {
	return func(side float64) func(Resultant) float64 {
		return func(r Resultant) float64 { return factor*side*r.Along - r.Vertical*k.Rows/2 }
	}
}

// overturning is the check of the moments about a row with the factors of a combination of
// their own, ties of the other row with their capacity.
func (k pierCase) overturning(c combination) ([]ruledCheck, error) {
	if !c.equilibrium {
		return nil, nil
	}
	side, e := k.worst(c, k.turned(1))
	chain := &formula.Chain{}
	over, hold := k.turning(chain, c, e, side)
	note := ""
	if k.Ties != nil {
		hold = chain.Derive(pierMoment("M_stb", 0, "stabilising moment about the row, ties of the other row with their working load limit"), "M_stb_G + γ_T*T_T*e", formula.Mechanics,
			hold, formula.Q("γ_T", c.ties, formula.One, "favourable factor on ties"), k.tiePull(), k.spacing())
	} else {
		need := chain.Derive(pierForce("T_req", 0, "force of ties at the other row that would be needed"), "max(0, (M_dst - M_stb_G)/e)", formula.Mechanics, over, hold, k.spacing())
		if need.Value > 0 {
			note = "; force of ties at the other row that would be needed: " + wholeKilonewtons(need.Value)
		}
	}
	limit := limits.Limit{Kind: limits.Overturning, Name: c.titled("overturning of the cantilever about a row of pier " + k.Mark), LimitState: c.limitState, Sense: limits.AtMost, Source: c.source, Line: formula.Given(hold, c.source)}
	check, err := k.made(limit, over, k.rowWords(side), k.note(c, e)+note, chain)
	return []ruledCheck{{check, linearLimit{c, bothSides(k.turned(1)), c.ties * k.tied() * k.Rows, formula.NewtonMetre}}}, err
}

// factorWords are the definition of the factor: both moments are about the pier axis, not about a row.
const factorWords = "factor on the out-of-balance moment"

// factor is the check of the wanted factor on characteristic actions: without ties the factor
// V·e/2M itself, with ties the force of theirs that it needs.
func (k pierCase) factor(c combination) ([]ruledCheck, error) {
	if !c.characteristic {
		return nil, nil
	}
	wanted := formula.Q("FS_min", k.wanted(), formula.One, "wanted "+factorWords+" about the pier axis, characteristic actions")
	source := pierPractice
	if k.Factor > 0 {
		source = formula.Source{Document: "wanted factor of pier " + k.Mark}
	}
	bound := linearLimit{c, bothSides(k.turned(k.wanted())), k.tied() * k.Rows, formula.NewtonMetre}
	limit := limits.Limit{Kind: limits.Overturning, Name: factorWords + " of pier " + k.Mark + ", V·e/(2·|M|)", LimitState: c.limitState, Source: source}
	if k.Ties == nil {
		if side, at, found := k.leastFactor(c); found {
			check, err := k.factorReached(c, limit, wanted, side, at)
			return []ruledCheck{{check, bound}}, err
		}
	}
	check, err := k.factorTies(c, limit, wanted)
	return []ruledCheck{{check, bound}}, err
}

// factorReached is the check of the factor itself.
func (k pierCase) factorReached(c combination, limit limits.Limit, wanted formula.Quantity, side float64, at Extreme) (stages.OwnCheck, error) {
	chain := &formula.Chain{}
	v, m := k.vertical(chain, c, at), k.along(chain, c, at)
	factor := k.factorAlone(chain, v, m)
	need := chain.Derive(pierForce("T_req", 0, "force of ties at the other row that would be needed for the wanted factor"), "max(0, (FS_min*abs(M) - V*e/2)/e)", formula.Mechanics, wanted, m, v, k.spacing())
	note := k.note(c, at)
	if need.Value > 0 {
		note += "; force of ties at the other row that would be needed: " + wholeKilonewtons(need.Value)
	}
	limit.Sense, limit.Line = limits.AtLeast, formula.Given(chain.Given(wanted, limit.Source, ""), limit.Source)
	return k.made(limit, factor, k.rowWords(side), note, chain)
}

// factorTies is the check of the force of ties that the wanted factor needs, with the factors that
// are reached without and with them.
func (k pierCase) factorTies(c combination, limit limits.Limit, wanted formula.Quantity) (stages.OwnCheck, error) {
	side, e := k.worst(c, k.turned(k.wanted()))
	chain := &formula.Chain{}
	v, m := k.vertical(chain, c, e), k.along(chain, c, e)
	note, source := k.note(c, e), limit.Source
	ties := pierForce("T_T", 0, "ties at the row that lifts: none")
	if k.Ties != nil {
		ties, source = k.tiePull(), formula.Source{Document: k.Ties.Document}
	}
	if math.Abs(e.Along) > turns*math.Abs(e.Vertical)*k.Rows {
		alone := k.factorAlone(chain, v, m)
		note += fmt.Sprintf("; V·e/(2·|M|) = %s", twoDown(alone.Value))
		if k.Ties != nil {
			reached := chain.Derive(formula.Q("FS_T", 0, formula.One, factorWords+" that is reached with the working load limit of the ties at the row that lifts"), "(V*e/2 + T_T*e)/abs(M)", formula.Mechanics, v, k.spacing(), ties, m)
			note += fmt.Sprintf(", with the ties (V·e/2 + T·e)/|M| = %s", twoDown(reached.Value))
		}
	}
	expression := "max(0, (FS_min*M - V*e/2)/e)"
	if side < 0 {
		expression = "max(0, (-FS_min*M - V*e/2)/e)"
	}
	need := chain.Derive(pierForce("T_req", 0, "force of ties at the row that lifts that the wanted factor on M needs"), expression, formula.Mechanics, wanted, m, v, k.spacing())
	limit.Name, limit.Source = "ties for the wanted "+factorWords+" of pier "+k.Mark, source
	limit.Sense, limit.Line, limit.Scale = limits.AtMost, formula.Given(chain.Given(ties, source, ""), source), pierForce("V_scale", math.Abs(e.Vertical)/2, "half of the vertical force")
	return k.made(limit, need, k.rowWords(-side), note, chain)
}

// factorAlone is the factor on the out-of-balance moment without ties.
func (k pierCase) factorAlone(chain *formula.Chain, v, m formula.Quantity) formula.Quantity {
	return chain.Derive(formula.Q("FS", 0, formula.One, factorWords+" at which a row lifts, without ties: both moments about the pier axis"), "V*e/(2*abs(M))", formula.Mechanics, v, k.spacing(), m)
}

// twoDown is a factor in words, rounded down.
func twoDown(v float64) string { return fmt.Sprintf("%.2f", math.Floor(v*100)/100) }

// turns is the share of V·e from which on a moment makes a factor that is a number of use.
const turns = 1e-9

// leastFactor is where V·e/2M is smallest, and about which row: of a ratio of linear sums, by
// Dinkelbach, Management Science 13 (1967) 492-498. It is false where no factor of an
// action makes a moment.
func (k pierCase) leastFactor(c combination) (side float64, least Extreme, found bool) {
	ratio := func(side float64, e Extreme) float64 { return e.Vertical * k.Rows / 2 / (side * e.Along) }
	for _, s := range [2]float64{1, -1} {
		at := k.balance.most(c, func(r Resultant) float64 { return s * r.Along })
		if !(s*at.Along > turns*math.Abs(at.Vertical)*k.Rows) {
			continue
		}
		for range 60 { // every step is a corner with a smaller ratio: a handful
			next := k.balance.most(c, k.turned(ratio(s, at))(s))
			if !(s*next.Along > 0) || ratio(s, next) >= ratio(s, at) {
				break
			}
			at = next
		}
		if !found || ratio(s, at) < ratio(side, least) {
			side, least, found = s, at, true
		}
	}
	return side, least, found
}

// tiePull is what the ties of a row can pull.
func (k pierCase) tiePull() formula.Quantity {
	return pierForce("T_T", k.tied(), "working load limit of the ties of a row together")
}
