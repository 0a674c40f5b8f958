package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// later writes the loss by creep, shrinkage and relaxation of each bundle and
// lets it act on the concrete alone.
func (d *derivation) later(p *prestressLines) {
	f := d.s.time
	if f == nil {
		return
	}
	s := d.section(f.concrete)
	for _, b := range p.bundles {
		i := b.members[0]
		if f.days[i] <= 0 {
			continue
		}
		t := d.r.element.Tendons[i]
		mark := "_" + t.Mark
		var creep sum
		for e, phi := range f.since[i] {
			n := fmt.Sprintf("_%d%s", e+1, mark)
			increment := d.r.increments[e]
			plane := d.at.increment(increment)
			creep.add(" + ", fmt.Sprintf("φ%s*σ%s/E_c_%d", n, n, e+1),
				formula.Q("φ"+n, phi, formula.One, fmt.Sprintf("creep since the tendon was stressed, loaded at age %g d", increment.age)),
				formula.Q("σ"+n, -plane.At(d.at.tendons[i].at), formula.Pascal, "compression beside the tendon by "+increment.name),
				formula.Q(fmt.Sprintf("E_c_%d", e+1), f.modulus[e], formula.Pascal, "modulus for the creep of this increment"))
		}
		strain := d.line(formula.Q("ε_cc"+mark, 0, formula.One, "creep strain beside tendons "+b.count.Name[len("tendons "):]+" since they were stressed"), creep.expression(), formula.Mechanics, creep.operands...)
		loss := d.loss(f, i, mark, strain)
		force := d.line(formula.Q("ΔP_csr"+mark, 0, formula.Newton, "the same as a force, one tendon"), "A_p*Δσ_csr"+mark, formula.Mechanics, loss,
			formula.Q("A_p", t.Area(), formula.SquareMetre, "area of the strands"))
		on := p.on(f.concrete, s)
		b.acts(&on.normal, &on.moment, "+", " - ", force, s)
		on.forces = on.forces.Plus(d.forces(b, -force.Value, s))
		b.later = force
	}
}

// loss writes (5.46) of one tendon with the creep strain beside it.
func (d *derivation) loss(f *timeFactors, i int, mark string, strain formula.Quantity) formula.Quantity {
	p, t, gross := f.periods[i], d.r.element.Tendons[i], d.at.gross
	area, at := d.at.stressed(d.r, f, i)
	operands := []formula.Quantity{strain,
		formula.Q("E_p", t.Strand.Modulus, formula.Pascal, "modulus of the strand"),
		formula.Q("Δε_cs"+mark, p.Shrinkage, formula.One, "shrinkage since it was stressed"),
		formula.Q("Δσ_pr"+mark, p.Relaxing.Loss(d.r.forces[i].At(d.at.x)/t.Area()), formula.Pascal, "relaxation at constant length, 3.3.2(7)"),
		formula.Q("φ"+mark, p.Creep, formula.One, "creep coefficient from its stressing"),
		formula.Q("E_cm28", p.Concrete, formula.Pascal, "modulus of the concrete at 28 d"),
		formula.Q("A_p_all"+mark, area, formula.SquareMetre, "area of the tendons stressed with it or before"),
		formula.Q("z_p_all"+mark, at.Z, formula.Metre, "their level"),
		d.known["A_c"], d.known["I_c"], d.known["z_c"],
	}
	aside, creeping, place := "A_c/I_c*pow(z_p_all"+mark+" - z_c, 2)", "E_p/E_cm28", "5.10.6, (5.46), creep of each increment by itself"
	y := at.Y - gross.Centroid.Y
	if math.Abs(y) > 1e-9 || math.Abs(gross.ProductMoment) > 1e-12*gross.SecondMomentY {
		place += ", both axes"
		aside = fmt.Sprintf("A_c*(I_zc*pow(z_p_all%[1]s - z_c, 2) - 2*I_yzc*y_p_all%[1]s*(z_p_all%[1]s - z_c) + I_c*pow(y_p_all%[1]s, 2))/(I_c*I_zc - I_yzc*I_yzc)", mark)
		operands = append(operands, formula.Q("y_p_all"+mark, y, formula.Metre, "their distance to the left of the centroid"),
			formula.Q("I_zc", gross.SecondMomentZ, formula.MetreToFourth, "gross second moment about z"),
			formula.Q("I_yzc", gross.ProductMoment, formula.MetreToFourth, "gross product moment"))
	}
	if p.CreepModulus < p.Concrete {
		place += ", creep with the modulus to which φ relates"
		creeping = "E_p/E_cφ" + mark
		operands = append(operands, formula.Q("E_cφ"+mark, p.CreepModulus, formula.Pascal, "modulus to which φ relates, loading at its stressing"))
	}
	expression := fmt.Sprintf("(E_p*Δε_cs%[1]s + 0.8*Δσ_pr%[1]s + E_p*ε_cc%[1]s)/(1 + A_p_all%[1]s/A_c*(1 + %[2]s)*(E_p/E_cm28 + 0.8*φ%[1]s*%[3]s))", mark, aside, creeping)
	return d.line(formula.Q("Δσ_csr"+mark, 0, formula.Pascal, fmt.Sprintf("loss by creep, shrinkage and relaxation in %g d", f.days[i])), expression,
		formula.Source{Document: "EN 1992-1-1:2004", Place: place, Confirm: true}, operands...)
}
