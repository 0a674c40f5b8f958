package limits

import "github.com/tempstage/tempstage/section/formula"

// equilibriumFactors are those of EN 1990 Table A2.4(A): construction loads, as
// equipment, crews and what rolls, have a factor of their own, and so has an
// accidental action: 0 where it has a combination of its own.
func (s EN1992) equilibriumFactors(accidental float64) Factors {
	return Factors{
		Source: s.foreign("EN 1990:2002", "Table A2.4(A), set A"), WeightLeast: s.EquilibriumLeast, WeightMost: s.EquilibriumMost, VariableMost: s.EquilibriumVariable,
		Actions: []ActionFactor{
			{Equipment, 0, s.EquilibriumConstruction}, {Personnel, 0, s.EquilibriumConstruction}, {Braking, 0, s.EquilibriumConstruction},
			{Counterweight, s.EquilibriumCounterweight, s.EquilibriumMost}, {Accidental, 0, accidental},
		},
	}.Filled()
}

// equilibrium is the limits against uplift, overturning and sliding. They are
// geometry and made by the engine; here are their factors.
func (s EN1992) equilibrium(q Question) []Limit {
	limit := Limit{LimitState: Equilibrium, Source: s.foreign("EN 1990:2002", "Table A2.4(A), set A"), Factors: s.equilibriumFactors(1)}
	if q.Accidental {
		limit.Factors = s.equilibriumFactors(0)
	}
	switch q.Kind {
	case Uplift:
		limit.Sense = AtLeast
		limit.Line = formula.Given(formula.Q("R_min", 0, formula.Newton, "minimum permissible reaction"), limit.Source)
	case Overturning:
		limit.Sense = AtMost
	case Sliding:
		limit.Sense = AtMost
		limit.Friction = formula.Q("γ_μ", s.FrictionFactor, formula.One, "partial factor on the minimum friction, EN 1337-1:2000, 5.2")
		limit.Note = "the factor on friction is that of steel on concrete; steel on steel has 2.0"
	}
	if !q.Accidental {
		return []Limit{limit}
	}
	return []Limit{limit, s.accidental(limit)}
}

// accidental is the accidental combination: every factor is 1. The combination
// factors ψ of accompanying actions, which are smaller, are left to the engine's
// ranges of presence.
func (s EN1992) accidental(limit Limit) Limit {
	limit.Source = s.foreign("EN 1990:2002", "6.4.3.3, (6.11b), Table A2.5")
	limit.Factors = Factors{Source: limit.Source, Actions: []ActionFactor{{Counterweight, 1, 1}}}.Filled()
	if limit.Line.Result.Symbol != "" {
		limit.Line.Source = limit.Source
	}
	if limit.Note != "" {
		limit.Note += "; "
	}
	limit.Note += "accidental combination; accompanying variable actions without ψ"
	return limit
}
