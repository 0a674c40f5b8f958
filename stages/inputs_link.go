package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/section/formula"
)

// axisInputs is the radius of a girder curved in plan, with the rise of its arc.
func (r *run) axisInputs() []lineGroup {
	if r.girder.Radius == 0 {
		return nil
	}
	radius := formula.Q("R", r.girder.Radius, formula.Metre, "radius of the axis in plan, + curves to the left")
	lines := []formula.Line{formula.Given(radius, formula.Source{Document: "input"})}
	rise, err := formula.Derive(formula.Q("f_arc", 0, formula.Metre, "rise of the arc over the chord between the ends, + where the axis is to the right of the chord"), "L_ch*L_ch/(8*R)", formula.Mechanics,
		formula.Q("L_ch", r.girder.Length(), formula.Metre, "length of the girder"), radius)
	if err == nil {
		lines = append(lines, rise)
	}
	return []lineGroup{{title: axisTitle, lines: lines}}
}

// axisTitle is the heading of the inputs of a curved axis.
const axisTitle = "Axis in plan"

// Curved is true for a record of a girder curved in plan: y is from the axis at each x.
func (r Record) Curved() bool {
	return slices.ContainsFunc(r.Inputs, func(g Group) bool { return g.Title == axisTitle })
}

// linkInputs are the second members on which supports share, each once: they count by their
// stiffness, and every force of their hangers depends on it.
func (r *run) linkInputs() (groups []lineGroup) {
	var known []string
	for _, s := range r.situations {
		for _, p := range s.Supports {
			if p.Link != nil && !slices.Contains(known, p.Link.Name) {
				known = append(known, p.Link.Name)
				groups = append(groups, linkGroup(p.Link))
			}
		}
	}
	return groups
}

// linkGroup is one of them, places in the x of the element.
func linkGroup(l *beam.Link) lineGroup {
	g := lineGroup{title: fmt.Sprintf("Gantry or girder %s, by its stiffness only", l.Name)}
	given := func(symbol string, value float64, unit formula.Unit, name string) {
		g.lines = append(g.lines, formula.Given(formula.Q(symbol, value, unit, name), formula.Source{Document: "input"}))
	}
	given("x_l", l.At, formula.Metre, "left end, in the x of the element")
	given("L_l", l.Length, formula.Metre, "length")
	for i, e := range l.Stiffness {
		from, to, n := 0.0, e.To, ""
		if i > 0 {
			from = l.Stiffness[i-1].To
		}
		if to == 0 {
			to = l.Length
		}
		if len(l.Stiffness) > 1 {
			n = fmt.Sprint(i + 1)
		}
		where := fmt.Sprintf(", x = %g to %g m", tidy(l.At+from), tidy(l.At+to))
		given("EI_l"+n, e.BendingStiffness, formula.NewtonSquareMetre, "bending stiffness"+where)
		if e.ShearStiffness > 0 {
			given("GA_l"+n, e.ShearStiffness, formula.Newton, "shear stiffness"+where)
		}
	}
	for i, s := range l.Supports {
		n := fmt.Sprint(i + 1)
		name := "support"
		if s.Fixed {
			name += ", fixed against rotation"
		}
		given("x_l"+n, tidy(l.At+s.At), formula.Metre, name)
		if s.Stiffness > 0 {
			given("k_l"+n, s.Stiffness, formula.NewtonPerMetre, "stiffness of that support")
		}
		if s.RotationalStiffness > 0 {
			given("kφ_l"+n, s.RotationalStiffness, formula.NewtonMetre, "rotational stiffness of that support, per rad")
		}
	}
	return g
}

// tidy is a place without the rounding of a sum (m).
func tidy(x float64) float64 { return math.Round(x*1e6) / 1e6 }
