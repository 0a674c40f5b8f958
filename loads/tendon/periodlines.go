package tendon

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// Lines derive the loss at constant length from an initial stress (Pa), see
// [Relaxing.Loss]; none of the zero Relaxing. The error wraps formula.ErrExpression.
func (r Relaxing) Lines(initial float64) ([]formula.Line, error) {
	if r == (Relaxing{}) {
		return nil, nil
	}
	source := func(place string) formula.Source {
		return formula.Source{Document: "EN 1992-1-1:2004", Place: place, Confirm: true}
	}
	stress := formula.Q("σ_pi", initial, formula.Pascal, "stress of the tendon from which it relaxes")
	ratio, err := formula.Derive(formula.Q("κ", 0, formula.One, "share of the tensile strength from which the tendon relaxes, μ of the clause"), "σ_pi/f_pk", source("3.3.2(7)"),
		stress, formula.Q("f_pk", r.fpk, formula.Pascal, "tensile strength"))
	if err != nil {
		return nil, err
	}
	of := relaxations[r.class]
	line, err := formula.Derive(formula.Q("Δσ_pr", 0, formula.Pascal, "relaxation at constant length"),
		fmt.Sprintf("%g*ρ_1000*exp(%g*κ)*pow(t_kh, 0.75*(1 - κ))*1e-5*σ_pi", of.factor, of.rate), source("3.3.2(7), "+of.equation),
		formula.Q("ρ_1000", of.loss, formula.One, "relaxation in % after 1000 h, "+r.class.String()), ratio.Result,
		formula.Q("t_kh", r.kilohours, formula.One, "time since stressing in thousands of hours"), stress)
	return []formula.Line{ratio, line}, err
}

// Lines derive [Period.Losses] at a place: relaxation, the divisor of (5.46), the three
// parts and their sum. The error wraps formula.ErrExpression.
func (p Period) Lines(at Place) ([]formula.Line, error) {
	lines, err := p.Relaxing.Lines(at.Stress)
	if err != nil {
		return nil, err
	}
	relaxed := formula.Q("Δσ_pr", 0, formula.Pascal, "relaxation at constant length")
	if len(lines) > 0 {
		relaxed = lines[len(lines)-1].Result
	}
	source := formula.Source{Document: "EN 1992-1-1:2004", Place: "5.10.6, (5.46)", Confirm: true}
	steel := formula.Q("E_p", p.Modulus, formula.Pascal, "modulus")
	add := func(symbol string, unit formula.Unit, name, expression string, operands ...formula.Quantity) formula.Quantity {
		line, wrong := formula.Derive(formula.Q(symbol, 0, unit, name), expression, source, operands...)
		if err == nil {
			err = wrong
		}
		lines = append(lines, line)
		return line.Result
	}
	divisor := add("D", formula.One, "divisor of the loss: the concrete gives way with the tendons", "1 + α_s*(E_p/E_cm + 0.8*φ*E_p/E_cφ)",
		formula.Q("α_s", at.Stiffening, formula.One, "stress of the concrete beside the tendons for a unit stress of them"), steel,
		formula.Q("E_cm", p.Concrete, formula.Pascal, "modulus of the concrete at 28 d"),
		formula.Q("φ", p.Creep, formula.One, fmt.Sprintf("creep coefficient at age %g d, loaded at %g d", p.To, p.From)),
		formula.Q("E_cφ", p.CreepModulus, formula.Pascal, "modulus by which creep is divided"))
	shrunk := add("Δσ_s", formula.Pascal, "loss by shrinkage", "E_p*ε_cs/D", steel, formula.Q("ε_cs", p.Shrinkage, formula.One, "shrinkage since stressing"), divisor)
	crept := add("Δσ_c", formula.Pascal, "loss by creep", "E_p*ε_cc/D", steel, formula.Q("ε_cc", at.CreepStrain, formula.One, "creep of the concrete beside the tendon since stressing"), divisor)
	steelPart := add("Δσ_r", formula.Pascal, "loss by relaxation", "0.8*Δσ_pr/D", relaxed, divisor)
	add("Δσ_csr", formula.Pascal, "loss by creep, shrinkage and relaxation", "Δσ_s + Δσ_c + Δσ_r", shrunk, crept, steelPart)
	return lines, err
}
