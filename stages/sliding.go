package stages

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// leastFriction is the smallest coefficient of friction between the surfaces of
// temporary works, taken where a support states none: plain steel on concrete or
// steel, BS 5975:2008, Table 24 (recalled).
const leastFriction = 0.1

// sliding is the check that friction carries the horizontal forces, in sum.
func (r *run) sliding(s *situation, b int, q limits.Question, limit limits.Limit) (checked, error) {
	f := limit.Factors.Filled()
	a := s.acts[b]
	held, rubs := false, 0
	friction := math.Inf(1)
	for _, p := range a.supports {
		held = held || !p.friction() && p.holdsAcross() && p.holdsAlong()
		if p.friction() {
			rubs++
			friction = math.Min(friction, p.leastFriction())
		}
	}
	if rubs == 0 && !held {
		c := unevaluated(limits.Sliding, a.supports[0].X, "no support restrains both horizontal directions; state Holds of the supports")
		return c, nil
	}
	if rubs == 0 {
		c := unevaluated(limits.Sliding, a.supports[0].X, "the supports restrain horizontally by other means than friction: their capacity must be shown")
		return c, nil
	}
	var worst *checked
	for _, up := range a.ups {
		lines, err := r.slide(s, b, up, friction, f, limit.Friction)
		if err == nil && slices.ContainsFunc(a.supports, func(p Support) bool { return !p.friction() && p.sense() >= 0 }) {
			lines[1], err = r.rubbed(s, a, friction, f, limit.Friction)
		}
		if err != nil {
			return checked{}, err
		}
		limit.Line = lines[1]
		check := r.finish(s, q, a.body.pieces[0], limit, lines[0].Result)
		check.X, check.Place = a.supports[0].X, "all supports together"
		check.proof = &lineProof{lines: lines}
		if worst == nil || check.worse(worst.Check) {
			worst = &check
		}
	}
	if worst.State == Fail && held && a.cast != nil { // rows that are without force do not rub, bearings restrain
		return unevaluated(limits.Sliding, a.supports[0].X, "friction of the rows alone does not carry the horizontal force; bearings restrain by other means: their capacity must be shown"), nil
	}
	if d, l := worst.Demand.Value, worst.Limit.Value; worst.State == Pass && d > 0 && l > 0 {
		assumed := formula.Q("μ_min", friction, formula.One, "coefficient of friction assumed")
		worst.holds = &derive.HoldPoint{Kind: "friction", Required: formula.Q("μ_min", friction*d/l, formula.One, "coefficient of friction"), Assumed: &assumed}
	}
	return *worst, nil
}

// rubbed is what friction carries where other supports carry as well: that of the least
// that presses those that rub, with factored actions.
func (r *run) rubbed(s *situation, a *arrangement, friction float64, f limits.Factors, factor formula.Quantity) (formula.Line, error) {
	pressed := Range{Least: math.Inf(1), Most: math.Inf(-1)}
	for _, v := range s.cases {
		var all supportSums
		for i, p := range a.supports {
			if !p.friction() {
				continue
			}
			m, err := r.supportSums(v, a, i)
			if err != nil {
				return formula.Line{}, err
			}
			if all.part == nil {
				all.terms, all.part = m.terms, make([]float64, len(m.part))
			}
			for k, force := range m.part {
				all.part[k] += force
			}
		}
		if err := all.widen(&pressed, r.ranges(s, f)); err != nil {
			return formula.Line{}, err
		}
	}
	return formula.Derive(formula.Q("H_Rd", 0, formula.Newton, "friction of the sliding supports"), "μ_min/γ_μ*R_rub", frictionSource,
		formula.Q("μ_min", friction, formula.One, "minimum coefficient of friction"), onFriction(factor),
		formula.Q("R_rub", math.Max(0, pressed.Least), formula.Newton, "minimum reaction of the supports that rub, factored"))
}

// frictionSource is where the least coefficients of friction come from.
var frictionSource = formula.Source{Document: "BS 5975:2008", Place: "Table 24", Confirm: true}

// onFriction is the partial factor on friction, 1 where a standard states none.
func onFriction(factor formula.Quantity) formula.Quantity {
	if factor.Value == 0 {
		return formula.Q("γ_μ", 1, formula.One, "partial factor on the minimum friction")
	}
	return factor
}

// leastFriction is the stated coefficient, or the least there is.
func (s Support) leastFriction() float64 {
	if s.Friction > 0 {
		return s.Friction
	}
	return leastFriction
}

// slide are the horizontal force and what friction carries.
func (r *run) slide(s *situation, b int, up r3.Vec, friction float64, f limits.Factors, factor formula.Quantity) ([]formula.Line, error) {
	a := s.acts[b]
	weight, least := 0.0, 0.0
	for _, load := range r.weightLoads(a.body) {
		low, _ := r.tolerance(load.group)
		for _, p := range load.parts {
			weight += p.force
			least += low * s.dynamic[0] * p.force
		}
	}
	across, ahead, lifting := 0.0, 0.0, 0.0
	for i := range s.current {
		en := &s.current[i]
		if len(en.load.parts) == 0 || !a.body.carries(en) {
			continue
		}
		act, total := r.causes[en.inner].action, 0.0
		for _, p := range en.load.parts {
			total += p.force
		}
		c := r.ranged(s, en.inner, f)
		push := math.Max(math.Abs(c.Least*total), math.Abs(c.Most*total))
		switch act.Direction {
		case Transverse:
			across += push
		case Along:
			ahead += push
		case Down:
			lifting += math.Max(0, -math.Min(c.Least*total, c.Most*total))
		}
	}
	slope := math.Hypot(up.X, up.Y) / up.Z
	known := math.Hypot(across, ahead) + weight*slope
	force, err := formula.Derive(formula.Q("H_d", 0, formula.Newton, "horizontal force"), "max(ν_1*W, ν_2*W + H_known)", limits.NominalSource,
		formula.Q("ν_1", limits.NominalAlone, formula.One, "nominal share of the weight"), formula.Q("ν_2", limits.NominalBeside, formula.One, "nominal share beside known horizontal forces"),
		formula.Q("W", weight, formula.Newton, "self-weight"), formula.Q("H_known", known, formula.Newton, "known horizontal forces, factored, the slope of the supports included"))
	if err != nil {
		return nil, err
	}
	carried, err := formula.Derive(formula.Q("H_Rd", 0, formula.Newton, "friction of all supports"), "μ_min/γ_μ*(γ_inf*W_min - R_other)", frictionSource,
		formula.Q("μ_min", friction, formula.One, "minimum coefficient of friction"), onFriction(factor),
		formula.Q("γ_inf", f.WeightLeast, formula.One, "on the favourable part of the weight"), formula.Q("W_min", least, formula.Newton, "minimum weight, dynamic factor included"),
		formula.Q("R_other", lifting, formula.Newton, "uplift of other actions, factored"))
	return []formula.Line{force, carried}, err
}
