package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
)

// stress derives the concrete stress at a point under a corner of factors: the
// increments on their sections, then their sum.
func (d *derivation) stress(point section.Point, c corner) formula.Quantity {
	d.place(point)
	var total sum
	for k, t := range d.s.locked {
		q := d.weightStress(t.system, t.section, fmt.Sprintf("_w%d", k+1))
		total.add(" + ", fmt.Sprintf("γ_w*k_%d*%s", k+1, q.Symbol), d.factor(c.weight),
			formula.Q(fmt.Sprintf("k_%d", k+1), t.coefficient, formula.One, "the weight on these supports comes (+1) or goes (−1)"), q)
	}
	now := d.weightStress(d.s.system, d.s.section, "_w")
	total.add(" + ", "γ_w*δ*"+now.Symbol, d.factor(c.weight), formula.Q("δ", c.dynamic, formula.One, "dynamic factor"), now)
	if d.s.steps > 0 {
		prestress := d.prestressStress()
		total.add(" + ", "r*"+prestress.Symbol, formula.Q("r", c.prestress, formula.One, "factor on the prestress"), prestress)
	}
	if c.other != 0 {
		s := d.section(d.s.section)
		moment := d.given(formula.Q("M_q", d.s.other.Moment(d.at.x), formula.NewtonMetre, "moment of the other loads at x"), formula.Mechanics)
		other := d.bending("σ_q", "stress from the other loads", s, nil, &moment, section.Forces{My: moment.Value}, "_q")
		total.add(" + ", "ψ*σ_q", formula.Q("ψ", c.other, formula.One, "factor on the other loads"), other)
	}
	return d.line(formula.Q("σ_c", 0, formula.Pascal, "concrete stress at the point, tension +"), total.expression(), formula.Mechanics, total.operands...)
}

func (d *derivation) factor(weight float64) formula.Quantity {
	return formula.Q("γ_w", weight, formula.One, "factor on the weight: tolerance and partial factor")
}

// place states the point of the section.
func (d *derivation) place(p section.Point) {
	source := formula.Source{Document: "section outline"}
	d.given(formula.Q("z_v", p.Z, formula.Metre, "level of the point, y = "+fmt.Sprintf("%.3f m", p.Y)), source)
	d.known["y_v"] = formula.Q("y_v", p.Y, formula.Metre, "y of the point")
}

// weightStress is the stress from the weight at factor 1 on one system.
func (d *derivation) weightStress(sys *system, state *sectionState, suffix string) formula.Quantity {
	s := d.section(state)
	moment := d.weightMoment(sys, suffix)
	return d.bending("σ"+suffix, "stress from the weight on "+sys.words(), s, nil, &moment, section.Forces{My: moment.Value}, suffix)
}

// bending is N/A − M·(z − z_s)/I, or its general form where the section or the
// forces are not symmetric.
func (d *derivation) bending(symbol, name string, s sectionLines, normal, moment *formula.Quantity, f section.Forces, suffix string) formula.Quantity {
	var e sum
	if normal != nil {
		e.add("", normal.Symbol+"/A"+s.suffix, *normal, s.area)
	}
	point := d.known["z_v"]
	p := s.properties
	symmetric := math.Abs(p.ProductMoment) < 1e-12*p.SecondMomentY && math.Abs(f.Mz) <= 1e-9*math.Abs(f.My)
	if symmetric {
		e.add(" - ", fmt.Sprintf("%s*(z_v - z%s)/I%s", moment.Symbol, s.suffix, s.suffix), *moment, point, s.level, s.inertia)
		return d.line(formula.Q(symbol, 0, formula.Pascal, name), e.expression(), formula.Mechanics, e.operands...)
	}
	lateral := d.given(formula.Q("M_z"+suffix, f.Mz, formula.NewtonMetre, "lateral moment, + gives tension at −y"), formula.Mechanics)
	across := d.given(formula.Q("y"+s.suffix, p.Centroid.Y, formula.Metre, "y of the centroid"), outline)
	iz := d.given(formula.Q("Iz"+s.suffix, p.SecondMomentZ, formula.MetreToFourth, "second moment about z"), outline)
	iyz := d.given(formula.Q("Iyz"+s.suffix, p.ProductMoment, formula.MetreToFourth, "product moment"), outline)
	e.add(" - ", fmt.Sprintf("((%[1]s*Iz%[2]s - %[3]s*Iyz%[2]s)*(z_v - z%[2]s) + (%[3]s*I%[2]s - %[1]s*Iyz%[2]s)*(y_v - y%[2]s))/(I%[2]s*Iz%[2]s - Iyz%[2]s*Iyz%[2]s)",
		moment.Symbol, s.suffix, lateral.Symbol), *moment, lateral, point, d.known["y_v"], s.level, across, s.inertia, iz, iyz)
	return d.line(formula.Q(symbol, 0, formula.Pascal, name), e.expression(), formula.Mechanics, e.operands...)
}

// prestressStress is the stress from all prestress at factor 1: the forces of
// the tendons at x, less their elastic losses, on the section of each step.
func (d *derivation) prestressStress() formula.Quantity {
	p := d.prestress()
	var total sum
	for _, index := range p.order {
		f := p.bySection[index]
		s := f.section
		normal := d.line(formula.Q("N_P"+s.suffix, 0, formula.Newton, "normal force of the prestress"), f.normal.expression(), formula.Mechanics, f.normal.operands...)
		moment := d.line(formula.Q("M_P"+s.suffix, 0, formula.NewtonMetre, "moment of the prestress"), f.moment.expression(), formula.Mechanics, f.moment.operands...)
		q := d.bending("σ_P"+s.suffix, "stress from the prestress", s, &normal, &moment, f.forces, "_P"+s.suffix)
		total.add(" + ", q.Symbol, q)
	}
	if len(p.order) == 1 {
		return total.operands[0]
	}
	return d.line(formula.Q("σ_P", 0, formula.Pascal, "stress from the prestress on all sections"), total.expression(), formula.Mechanics, total.operands...)
}
