package segmental

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
)

// partGroup are parts that have one factor in an extreme, for its derivation.
type partGroup struct {
	number string // the same for what is the same in every check of the pier
	words  string
	marks  []string
	factor float64
	Resultant
	out, in float64 // N·m, about a row: beyond it, inside it, at factor 1
}

// grouped says of a part with which others it stands in a derivation.
func (p Part) grouped() string {
	switch {
	case p.Handled:
		return "segment handled on the " + p.Arm.words()
	case p.Kind != "":
		return fmt.Sprintf("%s, %s", p.Kind, p.Arm.words())
	}
	return "self-weight of the " + p.Arm.words()
}

// groups are the parts of a balance by what they are and their factor; those left out of the
// combination are not there. side is that of the row that the cantilever may turn over.
func (k pierCase) groups(e Extreme, side float64) (list []partGroup) {
	numbers, split, found := map[string]int{}, map[string]int{}, map[string]int{}
	for i, p := range k.balance.Parts {
		words, factor := p.grouped(), e.Factors[i]
		if _, known := numbers[words]; !known {
			numbers[words] = len(numbers) + 1
		}
		if factor == 0 {
			continue
		}
		key := fmt.Sprintf("%s %.12g", words, factor)
		n, known := found[key]
		if !known {
			n, found[key] = len(list), len(list)
			number := fmt.Sprint(numbers[words])
			if split[words] > 0 {
				number += "_" + fmt.Sprint(split[words]+1)
			}
			split[words]++
			list = append(list, partGroup{number: number, words: words, factor: factor})
		}
		g := &list[n]
		g.marks = append(g.marks, p.Mark)
		g.Vertical += p.Force
		g.Along += p.Force * p.Lever
		g.Across += p.Force * p.Across
		about := p.Force * (side*p.Lever - k.Rows/2)
		g.out, g.in = g.out+math.Max(0, about), g.in+math.Max(0, -about)
	}
	return list
}

// named are words and marks of a group.
func (g partGroup) named() string {
	if len(g.marks) > 3 {
		return fmt.Sprintf("%s (%s to %s, %d parts)", g.words, g.marks[0], g.marks[len(g.marks)-1], len(g.marks))
	}
	return fmt.Sprintf("%s (%s)", g.words, strings.Join(g.marks, ", "))
}

// factoredSum derives a sum of groups with their factors, without those of which nothing is in it.
func factoredSum(c *formula.Chain, result formula.Quantity, source formula.Source, list []partGroup, symbol string, of func(partGroup) float64, factor func(partGroup) float64) formula.Quantity {
	var terms []string
	var operands []formula.Quantity
	for _, g := range list {
		if of(g) == 0 {
			continue
		}
		f, q := "f_"+g.number, symbol+"_"+g.number
		terms = append(terms, f+"*"+q)
		operands = append(operands, formula.Q(f, factor(g), formula.One, "factor on "+g.named()), formula.Q(q, of(g), result.Unit, "of "+g.named()+", nominal"))
	}
	if len(terms) == 0 {
		return c.Given(result, formula.Mechanics, "no part in it")
	}
	return c.Derive(result, strings.Join(terms, " + "), source, operands...)
}

// groupFactor is the factor of a group.
func groupFactor(g partGroup) float64 { return g.factor }

// vertical and along derive the resultant of an extreme.
func (k pierCase) vertical(c *formula.Chain, of combination, e Extreme) formula.Quantity {
	return factoredSum(c, pierForce("V", 0, "vertical force on the pier"), of.source, k.groups(e, 1), "V", func(g partGroup) float64 { return g.Vertical }, groupFactor)
}

func (k pierCase) along(c *formula.Chain, of combination, e Extreme) formula.Quantity {
	return factoredSum(c, pierMoment("M", 0, "out-of-balance moment about the pier axis, + right arm down"), of.source, k.groups(e, 1), "M", func(g partGroup) float64 { return g.Along }, groupFactor)
}

func (k pierCase) across(c *formula.Chain, of combination, e Extreme) formula.Quantity {
	return factoredSum(c, pierMoment("M_y", 0, "transverse moment about the pier axis, + left side down"), of.source, k.groups(e, 1), "A", func(g partGroup) float64 { return g.Across }, groupFactor)
}

// turning derives the destabilising and the stabilising moment about a row: a group with a
// negative factor, released, acts upwards and changes sides.
func (k pierCase) turning(c *formula.Chain, of combination, e Extreme, side float64) (over, hold formula.Quantity) {
	list := k.groups(e, side)
	size := func(g partGroup) float64 { return math.Abs(g.factor) }
	over = factoredSum(c, pierMoment("M_dst", 0, "destabilising moment about the row, of what is beyond it"), of.source, list, "D", func(g partGroup) float64 {
		if g.factor < 0 {
			return g.in
		}
		return g.out
	}, size)
	hold = factoredSum(c, pierMoment("M_stb_G", 0, "stabilising moment about the row, of what is inside it"), of.source, list, "S", func(g partGroup) float64 {
		if g.factor < 0 {
			return g.out
		}
		return g.in
	}, size)
	return over, hold
}

// spacing is the distance of the rows.
func (k pierCase) spacing() formula.Quantity {
	return formula.Q("e", k.Rows, formula.Metre, "distance of the rows")
}

// reaction derives the force of a row by statics.
func (k pierCase) reaction(c *formula.Chain, of combination, e Extreme, side float64, symbol, name string) formula.Quantity {
	v, m := k.vertical(c, of, e), k.along(c, of, e)
	expression := "V/2 + M/e"
	if side < 0 {
		expression = "V/2 - M/e"
	}
	return c.Derive(pierForce(symbol, 0, name), expression, formula.Mechanics, v, m, k.spacing())
}

func pierForce(symbol string, value float64, name string) formula.Quantity {
	return formula.Q(symbol, value, formula.Newton, name)
}

func pierMoment(symbol string, value float64, name string) formula.Quantity {
	return formula.Q(symbol, value, formula.NewtonMetre, name)
}
