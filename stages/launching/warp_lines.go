package launching

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// usualChange is the permissible change of a reaction by a level difference, as a part of
// it: common practice of storing and seating box spans.
const usualChange = 0.05

// worst is the support that may be the least out of the plane of the other three.
func (f FourPoints) worst() (support int, err error) {
	permissible, _, err := f.Permissible(usualChange)
	for i := range permissible {
		if permissible[i] < permissible[support] {
			support = i
		}
	}
	return support, err
}

// held is the check of a stated distance of a support from the plane of the other three (m)
// against that at which the force of one has changed by a part of it.
func (f FourPoints) held(name string, support int, part, out float64) (stages.OwnCheck, error) {
	c := &formula.Chain{}
	limit := f.lines(c, support, part)
	warp := c.Given(formula.Q("d_w", out, formula.Metre, "distance of one support from the plane of the other three, stated"), practice, "")
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: name, LimitState: limits.Serviceability, Sense: limits.AtMost, Source: practice, Line: formula.Given(limit, practice)}, warp)
	return check.Derived(lines...), nil
}

// lines derive the permissible level difference of a support from the change of the force
// of the one that uses it up first.
func (f FourPoints) lines(c *formula.Chain, support int, part float64) formula.Quantity {
	governs := 0
	changes := f.changes(support)
	for i := range changes {
		if f.Level[i]/math.Abs(changes[i]) < f.Level[governs]/math.Abs(changes[governs]) {
			governs = i
		}
	}
	expression, operands := "L_s/GJ", []formula.Quantity{formula.Q("L_s", f.Length, formula.Metre, "between the lines of supports"), formula.Q("GJ", f.Torsion, formula.NewtonSquareMetre, "torsional stiffness of the element")}
	for line, s := range [2]string{"s_1", "s_2"} {
		sum := 0.0
		for _, k := range f.Stiffness[2*line : 2*line+2] {
			if k > 0 {
				sum += 1 / k
			}
		}
		if sum > 0 {
			k := fmt.Sprintf("k_%d", line+1)
			expression += " + 1/(" + k + "*" + s + "*" + s + ")"
			operands = append(operands, formula.Q(k, 1/sum, formula.NewtonPerMetre, "of the two supports of a line one after the other: 1/Σ(1/k)"))
		}
	}
	widths := [2]formula.Quantity{formula.Q("s_1", f.Widths[0], formula.Metre, "between the supports of the first line"), formula.Q("s_2", f.Widths[1], formula.Metre, "between the supports of the second line")}
	torque := c.Derive(formula.Q("K_T", 0, formula.NewtonMetrePerRadian, "couple for a rotation of one line against the other"), "1/("+expression+")", formula.Mechanics, append(operands, used(expression, widths)...)...)
	own, other := widths[support/2], widths[governs/2]
	per := c.Derive(formula.Q("ΔR_d", 0, formula.NewtonPerMetre, "change of the force of the governing support for the level difference"), "K_T/("+own.Symbol+"*"+other.Symbol+")", formula.Mechanics, torque, own, other)
	return c.Derive(formula.Q("d_p", 0, formula.Metre, "permissible distance of one support from the plane of the other three"), "p_R*R_0/ΔR_d", formula.Mechanics,
		formula.Q("p_R", part, formula.One, "permissible change of a reaction, as a part of it"), newtons("R_0", f.Level[governs], "of the governing support with all in one plane"), per)
}

// used are the widths that an expression has.
func used(expression string, widths [2]formula.Quantity) (list []formula.Quantity) {
	for i, s := range [2]string{"s_1", "s_2"} {
		for j := range len(expression) - 2 {
			if expression[j:j+3] == s {
				list = append(list, widths[i])
				break
			}
		}
	}
	return list
}
