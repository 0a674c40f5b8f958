package limits

import "github.com/tempstage/tempstage/section/formula"

func strength(q Question) formula.Quantity {
	return formula.Q("f_ck_t", q.Concrete.Characteristic, formula.Pascal, "characteristic cylinder strength at the age")
}

func tensileLow(q Question) formula.Quantity {
	return formula.Q("f_ctk05_t", q.Concrete.TensileLow, formula.Pascal, "lower characteristic tensile strength at the age")
}

// serviceFactors are the characteristic values of prestress, 5.10.9.
func (s EN1992) serviceFactors() Factors {
	return Factors{PrestressLeast: s.PrestressInferior, PrestressMost: s.PrestressSuperior, Source: s.source("5.10.9(1), r_inf and r_sup")}.Filled()
}

// ultimateFactors are those of EN 1990 Table A2.4(B) with γP = 1 on the mean
// prestress, 5.10.8(1) and 2.4.2.2(1); an accidental action has 1, Table A2.5. The larger
// factors of 2.4.2.2(2), stability with external prestress, and (3), local effects behind
// anchors, are not for stresses of the whole section.
func (s EN1992) ultimateFactors() Factors {
	return Factors{
		WeightMost: s.PermanentUltimate, VariableMost: s.VariableUltimate, Actions: []ActionFactor{{Accidental, 0, 1}},
		Source: s.foreign("EN 1990:2002", "Table A2.4(B), accidental actions Table A2.5; prestress EN 1992-1-1:2004, 2.4.2.2(1)"),
		Note: "prestress: γP = 1 on its mean value where it is favourable and where it is not, EN 1992-1-1:2004, 5.10.8(1) and 2.4.2.2(1); " +
			"the larger γP of 2.4.2.2(2) is for stability with external prestress, that of 2.4.2.2(3) for local effects: these checks are neither",
	}.Filled()
}

func (s EN1992) compression(q Question) (Limit, error) {
	source := s.source("5.10.2.2(5), (5.42)")
	line, err := formula.Derive(formula.Q("σ_c_max", 0, formula.Pascal, "permissible compression"), "k_c*f_ck_t", source,
		formula.Q("k_c", s.Compression, formula.One, "share of the strength"), strength(q))
	limit := Limit{LimitState: Serviceability, Sense: AtMost, Line: line, Source: source, Factors: s.serviceFactors(), LeansOnStrength: true}
	if q.Phase != Stressing {
		limit.Note = "the clause is for tensioning and release of prestress; here by analogy"
	}
	return limit, err
}

func (s EN1992) tension(q Question) (Limit, error) {
	scale := formula.Q("f_ctm_t", q.Concrete.TensileMean, formula.Pascal, "mean tensile strength at the age")
	limit := Limit{LimitState: Serviceability, Sense: AtMost, Factors: s.serviceFactors(), Scale: scale}
	if !q.Place.Bars {
		limit.Source = s.source("5.10: no tension limit given; zero taken")
		limit.Line = formula.Given(formula.Q("σ_t_max", 0, formula.Pascal, "permissible tension"), limit.Source)
		limit.Note = "no bonded bars are given in the tension zone, so no tension is permissible"
		if q.Place.Joint != "" {
			limit.Note = "no bonded bars cross joint " + q.Place.Joint + ", so no tension is permitted"
		}
		return limit, nil
	}
	limit.Source = s.foreign("EN 1992-2:2005", "113.3.2(103)")
	limit.LeansOnStrength = true
	limit.Note = "the clause is for the quasi-permanent combination during execution; bonded bars must carry the force in the tension zone"
	var err error
	limit.Line, err = formula.Derive(formula.Q("σ_t_max", 0, formula.Pascal, "permissible tension"), "k_t*f_ctm_t", limit.Source,
		formula.Q("k_t", s.TensionWithBars, formula.One, "share of the tensile strength"), scale)
	return limit, err
}

// tensionSteel is asked with the force of the zone; the demand is the steel that
// it needs, which Steel derives.
func (s EN1992) tensionSteel(q Question) (Limit, error) {
	source := s.source("7.3.3(2), Table 7.2N")
	return Limit{
		LimitState: Serviceability, Sense: AtMost, Source: source, Factors: s.serviceFactors(),
		Line:      formula.Given(formula.Q("A_s", q.TensionZone.Bars, formula.SquareMetre, "bonded bars given in the tension zone"), formula.Source{Document: "input"}),
		BarStress: formula.Q("σ_s", s.BarStress, formula.Pascal, "stress of the bars"),
		Note:      "the bars carry the whole force of the tension zone at the stress σ_s",
	}, nil
}

func (s EN1992) principalTension(q Question) (Limit, error) {
	source := s.source("6.2.2(2) and 3.1.6(2), (3.16)")
	line, err := formula.Derive(formula.Q("f_ctd_t", 0, formula.Pascal, "design tensile strength at the age"), "α_ct*f_ctk05_t/γ_c", source,
		formula.Q("α_ct", s.TensionCoefficient, formula.One, "coefficient"), tensileLow(q),
		formula.Q("γ_c", s.ConcreteFactor, formula.One, "partial factor of concrete"))
	return Limit{
		LimitState: Ultimate, Sense: AtMost, Line: line, Source: source, Factors: s.ultimateFactors(), LeansOnStrength: true,
		Note: "for regions uncracked in bending: the principal tension of the elastic stresses is kept below f_ctd_t",
	}, err
}

func (s EN1992) webShear(q Question) (Limit, error) {
	source := s.source("6.2.2(6), (6.5) and (6.6N)")
	line, err := formula.Derive(formula.Q("τ_max", 0, formula.Pascal, "permissible web shear stress"),
		"0.5*0.6*(1 - f_ck_t/250e6)*α_cc*f_ck_t/γ_c", source, strength(q),
		formula.Q("α_cc", s.CompressionCoefficient, formula.One, "coefficient"), formula.Q("γ_c", s.ConcreteFactor, formula.One, "partial factor of concrete"))
	return Limit{
		LimitState: Ultimate, Sense: AtMost, Line: line, Source: source, Factors: s.ultimateFactors(), LeansOnStrength: true,
		Note: "the largest elastic shear stress is compared with the mean stress, shear force by web width and effective depth, that the clause permits",
	}, err
}
