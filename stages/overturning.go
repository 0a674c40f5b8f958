package stages

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// Nominal horizontal force on what stands: the larger of these shares of the
// vertical load, the second beside the known horizontal forces. BS 5975:2008,
// 19.2.9.1 (recalled).
const (
	nominalAlone  = 0.025
	nominalBeside = 0.01
)

// nominalSource is where the nominal horizontal force comes from.
var nominalSource = formula.Source{Document: "BS 5975:2008", Place: "19.2.9.1", Confirm: true}

// plan is a point in the horizontal plane: along and across, m.
type plan struct{ along, across float64 }

func (p plan) minus(q plan) plan { return plan{p.along - q.along, p.across - q.across} }

// inPlan is a point of the element seen along gravity.
func inPlan(up r3.Vec, x, y, z float64) plan {
	across, ahead := horizontal(up)
	p := r3.Vec{X: x, Y: y, Z: z}
	return plan{r3.Dot(p, ahead), r3.Dot(p, across)}
}

// edge is a side of the polygon of the supports: what lies inside has a positive
// distance.
type edge struct {
	from, to plan
	level    float64 // of its supports, along up, m
}

// inside is the distance of a point inside the edge (m).
func (e edge) inside(p plan) float64 {
	d := e.to.minus(e.from)
	q := p.minus(e.from)
	return (d.along*q.across - d.across*q.along) / math.Hypot(d.along, d.across)
}

// outward is the direction in which an edge is overturned.
func (e edge) outward() plan {
	d := e.to.minus(e.from)
	l := math.Hypot(d.along, d.across)
	return plan{d.across / l, -d.along / l}
}

// edges are the sides of the hull of the support resultants that push: a linked
// group is one point. Of supports on one line they are the two ends, square to it.
func (a *arrangement) edges(up r3.Vec) []edge {
	type place struct {
		plan
		level float64
	}
	var points []place
	for _, c := range a.columns(nil) {
		if len(c.members) == 0 || a.supports[c.members[0]].sense() < 0 {
			continue
		}
		var p place
		n := float64(len(c.members))
		for _, i := range c.members {
			s := a.supports[i]
			q := inPlan(up, s.X, s.Y, s.Z)
			p.along, p.across = p.along+q.along/n, p.across+q.across/n
			p.level += r3.Dot(r3.Vec{X: s.X, Y: s.Y, Z: s.Z}, up) / n
		}
		points = append(points, p)
	}
	slices.SortFunc(points, func(p, q place) int {
		return cmp.Or(cmp.Compare(p.along, q.along), cmp.Compare(p.across, q.across))
	})
	chain := func(list []place) []place {
		var hull []place
		for _, p := range list {
			for len(hull) > 1 {
				u, v := hull[len(hull)-1].minus(hull[len(hull)-2].plan), p.minus(hull[len(hull)-2].plan)
				if u.along*v.across-u.across*v.along > 1e-9 {
					break
				}
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, p)
		}
		return hull
	}
	if len(points) < 2 {
		return nil
	}
	lower := chain(points)
	slices.Reverse(points)
	upper := chain(points)
	hull := append(lower[:len(lower)-1:len(lower)-1], upper[:len(upper)-1]...)
	if len(hull) == 2 { // on one line
		d := hull[1].minus(hull[0].plan)
		l := math.Hypot(d.along, d.across)
		square := plan{-d.across / l, d.along / l}
		end := func(p place, sign float64) edge {
			return edge{plan{p.along - sign*square.along, p.across - sign*square.across}, plan{p.along + sign*square.along, p.across + sign*square.across}, p.level}
		}
		return []edge{end(hull[0], -1), end(hull[1], 1)}
	}
	var list []edge
	for i, p := range hull {
		q := hull[(i+1)%len(hull)]
		list = append(list, edge{p.plan, q.plan, math.Min(p.level, q.level)})
	}
	return list
}

// overturning is the check of the edge with the least reserve: destabilising
// moment with factored actions against what stabilises.
func (r *run) overturning(s *situation, b int, q limits.Question, limit limits.Limit) (checked, error) {
	f := limit.Factors.Filled()
	a := s.acts[b]
	var kept keeper
	for _, at := range s.positions() {
		for _, up := range a.ups {
			for _, e := range a.edges(up) {
				m, err := r.moments(at, b, up, e, f)
				if err != nil {
					return checked{}, err
				}
				held := limit
				held.Line = m.stabilising
				check := r.finish(s, q, a.body.pieces[0], held, m.destabilising.Result)
				check.X = (e.from.along + e.to.along) / 2
				check.Place = fmt.Sprintf("support line from x = %.3f m, y = %.3f m to x = %.3f m, y = %.3f m", e.from.along, e.from.across, e.to.along, e.to.across)
				check.proof = &lineProof{lines: []formula.Line{m.destabilising, m.stabilising}}
				kept.keep("", check)
			}
		}
	}
	if len(kept.checks) == 0 {
		return unevaluated(limits.Overturning, a.supports[0].X, "fewer than two supports push: no line about which to overturn; the ties must be shown to hold"), nil
	}
	return kept.checks[0], nil
}

// overturned is the moments about an edge.
type overturned struct{ destabilising, stabilising formula.Line }

func (r *run) moments(s *situation, b int, up r3.Vec, e edge, f limits.Factors) (m overturned, err error) {
	a := s.acts[b]
	var over, hold, weight, height float64
	for _, load := range r.weightLoads(a.body) {
		low, high := r.tolerance(load.group)
		low, high = low*s.dynamic[0], high*s.dynamic[1]
		var out, in float64
		for _, p := range load.parts {
			pieces, err := splitBySign(p, func(p part, x float64) (float64, error) {
				y, z := p.lineAt(x)
				return e.inside(inPlan(up, x, y, z)), nil
			})
			if err != nil {
				return m, err
			}
			for _, piece := range pieces {
				lever := e.inside(inPlan(up, piece.x, piece.y, piece.z))
				out += math.Max(0, -piece.force*lever)
				in += math.Max(0, piece.force*lever)
				weight += piece.force
				height += piece.force * (r3.Dot(r3.Vec{X: piece.x, Y: piece.y, Z: piece.z}, up) - e.level)
			}
		}
		factor := low // all of a group's weight at the worse end of its range
		if f.WeightLeast*in-f.WeightMost*out < 0 {
			factor = high
		}
		over, hold = over+factor*out, hold+factor*in
	}
	height /= weight
	actions, known := r.actionMoments(s, b, up, e, f)
	nominal := math.Max(nominalAlone*weight, nominalBeside*weight+known) - known
	hold += a.anchored(up, e)
	m.destabilising, err = formula.Derive(formula.Q("M_dst", 0, formula.NewtonMetre, "destabilising moment with factored actions"),
		"γ_sup*M_out + M_act + H_nom*h_G", nominalSource,
		formula.Q("γ_sup", f.WeightMost, formula.One, "on the weight beyond the support line"), formula.Q("M_out", over, formula.NewtonMetre, "of the weight beyond the support line, with tolerance and dynamic factor"),
		formula.Q("M_act", actions, formula.NewtonMetre, "of other actions, factored"),
		formula.Q("H_nom", nominal, formula.Newton, "nominal horizontal force: 2.5 % of the weight, or 1 % beside the known horizontal forces"),
		formula.Q("h_G", math.Max(0, height), formula.Metre, "height of the centre of gravity above the supports"))
	if err != nil {
		return m, err
	}
	m.stabilising, err = formula.Derive(formula.Q("M_stb", 0, formula.NewtonMetre, "stabilising moment with factored actions"), "γ_inf*M_in", formula.Mechanics,
		formula.Q("γ_inf", f.WeightLeast, formula.One, "on the weight inside, and on stated ties"), formula.Q("M_in", hold, formula.NewtonMetre, "of the weight inside the support line, with tolerance and dynamic factor, and of ties with their stated force"))
	return m, err
}

// anchored is the moment of ties with their stated force about an edge (N·m):
// those that pull down inside it.
func (a *arrangement) anchored(up r3.Vec, e edge) float64 {
	sum := 0.0
	for _, t := range a.supports {
		if t.Role == Tie {
			sum += math.Max(0, math.Abs(t.Preload)*e.inside(inPlan(up, t.X, t.Y, t.Z)))
		}
	}
	return sum
}

// actionMoments are the moment of all other actions about an edge at their worst
// presence, factored (N·m), and the known horizontal force that goes with it (N).
func (r *run) actionMoments(s *situation, b int, up r3.Vec, e edge, f limits.Factors) (moment, horizontalForce float64) {
	out := e.outward()
	for i := range s.current {
		en := &s.current[i]
		if len(en.load.parts) == 0 || !s.acts[b].body.carries(en) {
			continue
		}
		act := r.causes[en.inner].action
		one, push := 0.0, 0.0
		for _, p := range en.load.parts {
			lever := r3.Dot(r3.Vec{X: p.x, Y: p.y, Z: p.z}, up) - e.level
			switch act.Direction {
			case Down:
				one -= p.force * e.inside(inPlan(up, p.x, p.y, p.z))
				one -= p.couple * out.along
			case Transverse:
				one += p.force * out.across * lever
				push += p.force * out.across
			case Along:
				one += p.force * out.along * lever
				push += p.force * out.along
			}
		}
		c := r.ranged(s, en.inner, f)
		moment += math.Max(c.Least*one, c.Most*one)
		horizontalForce += math.Max(0, math.Max(c.Least*push, c.Most*push))
	}
	return moment, horizontalForce
}

// carries is true for an entry that acts on a body, also where it was put on before,
// on supports that have stayed or on a piece that is joined now.
func (b *body) carries(e *entry) bool { return slices.Contains(b.pieces, e.of.body.pieces[0]) }

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
		c := unevaluated(limits.Sliding, a.supports[0].X, "no support holds both horizontal directions; state what they hold")
		return c, nil
	}
	if rubs == 0 {
		c := unevaluated(limits.Sliding, a.supports[0].X, "the supports hold horizontally by other means than friction: their capacity must be shown")
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
	return formula.Derive(formula.Q("H_Rd", 0, formula.Newton, "friction of the supports that rub"), "μ_min/γ_μ*R_rub", frictionSource,
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
	force, err := formula.Derive(formula.Q("H_d", 0, formula.Newton, "horizontal force"), "max(ν_1*W, ν_2*W + H_known)", nominalSource,
		formula.Q("ν_1", nominalAlone, formula.One, "nominal share of the weight"), formula.Q("ν_2", nominalBeside, formula.One, "nominal share beside known horizontal forces"),
		formula.Q("W", weight, formula.Newton, "self-weight"), formula.Q("H_known", known, formula.Newton, "known horizontal forces, factored, the slope of the supports included"))
	if err != nil {
		return nil, err
	}
	carried, err := formula.Derive(formula.Q("H_Rd", 0, formula.Newton, "friction of all supports"), "μ_min/γ_μ*(γ_inf*W_min - R_other)", frictionSource,
		formula.Q("μ_min", friction, formula.One, "minimum coefficient of friction"), onFriction(factor),
		formula.Q("γ_inf", f.WeightLeast, formula.One, "on the favourable weight"), formula.Q("W_min", least, formula.Newton, "minimum weight, dynamic factor included"),
		formula.Q("R_other", lifting, formula.Newton, "uplift of other actions, factored"))
	return []formula.Line{force, carried}, err
}
