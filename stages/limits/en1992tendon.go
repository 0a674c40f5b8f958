package limits

import (
	"errors"

	"github.com/tempstage/tempstage/section/formula"
)

// tendon answers the questions about a tendon and its anchors.
func (s EN1992) tendon(q Question) (Limit, error) {
	if q.Tendon == nil {
		return Limit{}, errors.New("field Tendon is missing: allowed a tendon")
	}
	t := q.Tendon
	fpk := formula.Q("f_pk", t.Strand.Fpk, formula.Pascal, "tensile strength of the strand")
	fp01k := formula.Q("f_p01k", t.Strand.Fp01k, formula.Pascal, "0.1 % proof stress of the strand")
	approval := formula.Source{Document: "technical approval of the anchorage", Place: t.Approval.Reference}
	limit := Limit{LimitState: Serviceability, Sense: AtMost, Factors: Factors{}.Filled()}
	least := func(symbol string, value float64, unit formula.Unit, name string) {
		limit.LimitState, limit.Sense, limit.Source = Approval, AtLeast, approval
		limit.Line = formula.Given(formula.Q(symbol, value, unit, name), approval)
	}
	var err error
	switch q.Kind {
	case JackStress:
		limit.Source = s.source("5.10.2.1(1), (5.41)")
		limit.Line, err = formula.Derive(formula.Q("σ_p_max", 0, formula.Pascal, "allowed stress at the jack"), "min(k_1*f_pk, k_2*f_p01k)", limit.Source,
			formula.Q("k_1", s.JackTensile, formula.One, "share of f_pk"), fpk, formula.Q("k_2", s.JackProof, formula.One, "share of f_p0.1k"), fp01k)
	case LockOffStress:
		limit.Source = s.source("5.10.3(2), (5.43)")
		limit.Line, err = formula.Derive(formula.Q("σ_pm0_max", 0, formula.Pascal, "allowed stress after locking off"), "min(k_7*f_pk, k_8*f_p01k)", limit.Source,
			formula.Q("k_7", s.LockOffTensile, formula.One, "share of f_pk"), fpk, formula.Q("k_8", s.LockOffProof, formula.One, "share of f_p0.1k"), fp01k)
	case StressingStrength:
		least("f_cm0", t.Approval.MeanStrength, formula.Pascal, "mean cylinder strength for full stressing, tendon "+t.Mark)
		limit.LeansOnStrength = true
		limit.Note = "a tendon stressed fully needs the full strength; EN 1992-1-1:2004 5.10.2.2(4) relaxes it only for one tendon stressed in steps"
	case AnchorSpacing:
		least("s_min", t.Approval.AnchorSpacing, formula.Metre, "least spacing of anchor centres, tendon "+t.Mark)
	case AnchorEdge:
		least("c_min", t.Approval.EdgeDistance, formula.Metre, "least distance of an anchor centre from the edge, tendon "+t.Mark)
	}
	return limit, err
}
