package stages

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit/constant"

	"github.com/tempstage/tempstage/section/formula"
)

// weightInputs are the parts of the weight and their sum.
func (r *run) weightInputs() lineGroup {
	group := lineGroup{title: "Self-weight, nominal"}
	var sum, first, across, up string
	var operands, along, aside, above []formula.Quantity
	for k, p := range r.parts {
		n := fmt.Sprint("_", k+1)
		name := fmt.Sprintf("%s, x = %.3f to %.3f m", p.mark, p.from, p.to)
		force := formula.Q("G"+n, p.force, formula.Newton, name)
		group.lines = append(group.lines, r.partLine(p, n, force))
		plus := " + "
		if k == 0 {
			plus = ""
		}
		sum, operands = sum+plus+"G"+n, append(operands, force)
		for _, m := range []struct {
			of     *string
			list   *[]formula.Quantity
			symbol string
			value  float64
		}{{&first, &along, "x_G", p.x}, {&across, &aside, "y_G", r.rounded(p.y)}, {&up, &above, "z_G", p.z}} {
			*m.of += plus + "G" + n + "*" + m.symbol + n
			*m.list = append(*m.list, force, formula.Q(m.symbol+n, m.value, formula.Metre, "place of the resultant of "+p.mark))
		}
	}
	weight, err := formula.Derive(formula.Q("G", 0, formula.Newton, "self-weight"), sum, formula.Mechanics, operands...)
	if err != nil {
		return group
	}
	group.lines = append(group.lines, weight)
	add := func(q formula.Quantity, expression string, operands ...formula.Quantity) {
		if line, err := formula.Derive(q, expression, formula.Mechanics, operands...); err == nil {
			group.lines = append(group.lines, line)
		}
	}
	add(formula.Q("m", 0, formula.Kilogram, "mass"), "G/g", weight.Result, formula.Q("g", float64(constant.StandardGravity), formula.One, "standard gravity, m/s²"))
	add(formula.Q("x_G", 0, formula.Metre, "centre of gravity along"), "("+first+")/G", append(along, weight.Result)...)
	add(formula.Q("y_G", 0, formula.Metre, "centre of gravity across"), "("+across+")/G", append(aside, weight.Result)...)
	add(formula.Q("z_G", 0, formula.Metre, "centre of gravity, level"), "("+up+")/G", append(above, weight.Result)...)
	return group
}

// rounded is y without the rounding of a symmetric outline.
func (r *run) rounded(y float64) float64 {
	if math.Abs(y) < 1e-12*r.girder.Length() {
		return 0
	}
	return y
}

// partLine is how the force of a part was got; n is the index of its symbols.
func (r *run) partLine(p part, n string, force formula.Quantity) formula.Line {
	if !p.own {
		return formula.Given(force, formula.Source{Document: "input"})
	}
	line := formula.Given(force, formula.Source{Document: "section outline", Place: "area along x × unit weight"})
	if !p.uniform {
		return line
	}
	unit := r.girder.Pieces[p.piece].Element.unitWeight()
	derived, err := formula.Derive(force, "γ_conc*A_c*L"+n, formula.Mechanics, formula.Q("γ_conc", unit, formula.NewtonPerCubic, "unit weight"),
		formula.Q("A_c", p.line[0]/unit, formula.SquareMetre, "gross area"), formula.Q("L"+n, p.to-p.from, formula.Metre, "length of "+p.mark))
	if err != nil {
		return line
	}
	return derived
}

// outline is the source of a property of the section.
var outline = formula.Source{Document: "section outline", Place: "exact polygon sums"}
