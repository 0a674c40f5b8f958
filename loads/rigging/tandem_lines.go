package rigging

import "github.com/tempstage/tempstage/section/formula"

// factored is a weight with the factors that widen it.
type factored struct{ weight, least, most, low, high, plumb formula.Quantity }

func factors(weight, least, most, low, high, plumb float64) factored {
	return factored{
		newtons("W", weight, "weight, nominal"), number("γ_min", least, "factor on the weight by its tolerance, minimum"), number("γ_max", most, "factor on the weight by its tolerance, maximum"),
		number("Φ_min", low, "dynamic factor, minimum"), number("Φ_max", high, "dynamic factor, maximum"), radians("δ", plumb, "deviation of the hoist rope from plumb"),
	}
}

// share appends the lines of a part of the weight: nominal, static and characteristic.
// Behind is what its symbols end in, words what it is of.
func (f factored) share(c *formula.Chain, behind, words string, part, least, most formula.Quantity) (greatest formula.Quantity) {
	c.Derive(newtons("R"+behind, 0, "nominal load of "+words), part.Symbol+"*W", formula.Mechanics, part, f.weight)
	low := c.Derive(newtons("R"+behind+"_min", 0, "minimum static load of "+words), least.Symbol+"*W*γ_min", formula.Mechanics, least, f.weight, f.least)
	high := c.Derive(newtons("R"+behind+"_max", 0, "maximum static load of "+words), most.Symbol+"*W*γ_max", formula.Mechanics, most, f.weight, f.most)
	c.Derive(newtons("F"+behind+"_min", 0, "minimum characteristic load of "+words), low.Symbol+"*Φ_min", formula.Mechanics, low, f.low)
	return c.Derive(newtons("F"+behind+"_max", 0, "maximum characteristic load of "+words), high.Symbol+"*Φ_max", formula.Mechanics, high, f.high)
}

// side appends the line of the side load by a rope out of plumb.
func (f factored) side(c *formula.Chain, behind, words string, greatest formula.Quantity) {
	c.Derive(newtons("H"+behind, 0, "side load of "+words+" by a rope out of plumb"), greatest.Symbol+"*tan(δ)", formula.Mechanics, greatest, f.plumb)
}

// Lines derive what [Tandem.Solve] gives: each result is that of the field of [Shares].
// The error is that of Solve.
func (t Tandem) Lines() ([]formula.Line, error) {
	if _, err := t.Solve(); err != nil {
		return nil, err
	}
	least, most, _ := t.check() // solved without error before
	low, high, _ := t.Dynamic.Range()
	f := factors(t.Weight, least, most, low, high, t.Plumb)
	c := &formula.Chain{}
	first := metres("x_1", t.First, "first hook")
	between := c.Derive(metres("l_12", 0, "distance of the hooks"), "x_2 - x_1", formula.Mechanics, metres("x_2", t.Second, "second hook"), first)
	shift := c.Derive(metres("Δx", 0, "shift of the centre of gravity by end levels and tolerance"), "abs(h_l)*Δh/l_12 + t_G", formula.Mechanics,
		metres("h_l", t.Height, "height of the lift points above the centre of gravity"), metres("Δh", t.EndLevel, "greatest difference of level of the ends"), between,
		metres("t_G", t.CoGTolerance, "tolerance on the centre of gravity"))
	second := c.Derive(number("p_2", 0, "part of the weight on the second hook"), "(x_G - x_1)/l_12", formula.Mechanics, metres("x_G", t.CoG, "centre of gravity"), first, between)
	parts := [2]formula.Quantity{c.Derive(number("p_1", 0, "part of the weight on the first hook"), "1 - p_2", formula.Mechanics, second), second}
	for i, words := range [2]string{"the first crane", "the second crane"} {
		p := parts[i]
		lowest := c.Derive(number(p.Symbol+"_min", 0, "minimum part of the weight on "+words), p.Symbol+" - Δx/l_12", formula.Mechanics, p, shift, between)
		highest := c.Derive(number(p.Symbol+"_max", 0, "maximum part of the weight on "+words), p.Symbol+" + Δx/l_12", formula.Mechanics, p, shift, between)
		behind := of("", i+1)
		f.side(c, behind, words, f.share(c, behind, words, p, lowest, highest))
	}
	return c.Lines()
}
