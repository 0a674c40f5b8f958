package limits

import (
	"errors"
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
)

// tendon answers the questions about a tendon and its anchors.
func (s EN1992) tendon(q Question) (Limit, error) {
	if q.Tendon == nil {
		return Limit{}, errors.New("field Tendon is missing: must be a tendon")
	}
	t := q.Tendon
	fpk := formula.Q("f_pk", t.Strand.Fpk, formula.Pascal, "tensile strength of the strand")
	fp01k := formula.Q("f_p01k", t.Strand.Fp01k, formula.Pascal, "0.1 % proof stress of the strand")
	approval := formula.Source{Document: "technical approval of the post-tensioning system", Place: t.Approval.Reference}
	limit := Limit{LimitState: Serviceability, Sense: AtMost, Factors: Factors{}.Filled()}
	least := func(symbol string, value float64, unit formula.Unit, name string) {
		limit.LimitState, limit.Sense, limit.Source = Approval, AtLeast, approval
		limit.Line = formula.Given(formula.Q(symbol, value, unit, name), approval)
	}
	var err error
	switch q.Kind {
	case JackStress:
		limit.Source = s.source("5.10.2.1(1), (5.41)")
		limit.Line, err = formula.Derive(formula.Q("σ_p_max", 0, formula.Pascal, "permissible jacking stress"), "min(k_1*f_pk, k_2*f_p01k)", limit.Source,
			formula.Q("k_1", s.JackTensile, formula.One, "share of f_pk"), fpk, formula.Q("k_2", s.JackProof, formula.One, "share of f_p01k"), fp01k)
	case LockOffStress:
		limit.Source = s.source("5.10.3(2), (5.43)")
		limit.Line, err = formula.Derive(formula.Q("σ_pm0_max", 0, formula.Pascal, "permissible stress after lock-off"), "min(k_7*f_pk, k_8*f_p01k)", limit.Source,
			formula.Q("k_7", s.LockOffTensile, formula.One, "share of f_pk"), fpk, formula.Q("k_8", s.LockOffProof, formula.One, "share of f_p01k"), fp01k)
	case StressingStrength:
		least("f_cm0", t.Approval.MeanStrength, formula.Pascal, "mean cylinder strength for full stressing, tendon "+t.Mark)
		limit.LeansOnStrength = true
		limit.Note = "a tendon stressed fully needs the full strength; EN 1992-1-1:2004 5.10.2.2(4) relaxes it only for one tendon stressed in steps"
	case AnchorSpacing:
		least("s_min", t.Approval.AnchorSpacing, formula.Metre, "minimum spacing of anchor centres, tendon "+t.Mark)
	case AnchorEdge:
		least("c_min", t.Approval.EdgeDistance, formula.Metre, "minimum distance of an anchor centre from the edge, tendon "+t.Mark)
	}
	return limit, err
}

// ductSpacing is the least clear distance of two post-tensioning ducts. The least
// values of the figure are recalled: 50 mm and aggregate + 5 mm side by side, 40 mm
// and the aggregate one above the other.
func (s EN1992) ductSpacing(q Question) (Limit, error) {
	if q.Tendon == nil || q.Neighbour == nil {
		return Limit{}, errors.New("field Tendon or Neighbour is missing: must be two tendons")
	}
	for _, t := range []*tendon.Tendon{q.Tendon, q.Neighbour} {
		if !(t.Duct > 0 && t.Duct <= 0.5) {
			return Limit{}, fmt.Errorf("tendon %s: Duct = %g m: must be above 0, at most 0.5 m", t.Mark, t.Duct)
		}
	}
	expression := "max(φ, c_min)"
	least, side, gap := s.DuctBeside, "side by side", 0.005
	if q.Above {
		least, side, gap = s.DuctAbove, "one above the other", 0
	}
	operands := []formula.Quantity{
		formula.Q("φ", math.Max(q.Tendon.Duct, q.Neighbour.Duct), formula.Metre, "outer diameter of the larger duct"),
		formula.Q("c_min", least, formula.Metre, "minimum clear distance "+side),
	}
	if s.Aggregate > 0 {
		expression = "max(φ, c_min, d_g + c_g)"
		operands = append(operands, formula.Q("d_g", s.Aggregate, formula.Metre, "largest aggregate size"), formula.Q("c_g", gap, formula.Metre, "room for it"))
	}
	source := s.source("8.10.1.3, Figure 8.15")
	line, err := formula.Derive(formula.Q("c_duct", 0, formula.Metre, "minimum clear distance between ducts"), expression, source, operands...)
	limit := Limit{LimitState: Detailing, Sense: AtLeast, Source: source, Line: line, Factors: Factors{}.Filled()}
	if s.Aggregate == 0 {
		limit.Note = "the size of the aggregate is not given and not looked at"
	}
	return limit, err
}
