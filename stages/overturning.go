package stages

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

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
				check.Place = fmt.Sprintf("support line from x = %.3f m, y = %.3f m to x = %.3f m, y = %.3f m", e.from.along, e.from.across-r.girder.offset(e.from.along), e.to.along, e.to.across-r.girder.offset(e.to.along))
				check.proof = &lineProof{lines: []formula.Line{m.destabilising, m.stabilising}}
				kept.keep("", check)
			}
		}
	}
	if len(kept.checks) == 0 {
		return unevaluated(limits.Overturning, a.supports[0].X, "fewer than two supports push: there is no support line to overturn about; the capacity of the ties must be shown"), nil
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
	nominal := limits.NominalHorizontal(weight, known)
	hold += a.anchored(up, e)
	m.destabilising, err = formula.Derive(formula.Q("M_dst", 0, formula.NewtonMetre, "destabilising moment with factored actions"),
		"γ_sup*M_out + M_act + H_nom*h_G_t", limits.NominalSource,
		formula.Q("γ_sup", f.WeightMost, formula.One, "on the unfavourable part of the weight: that beyond the support line"), formula.Q("M_out", over, formula.NewtonMetre, "of the weight beyond the support line, with tolerance and dynamic factor"),
		formula.Q("M_act", actions, formula.NewtonMetre, "of other actions, factored"),
		formula.Q("H_nom", nominal, formula.Newton, "nominal horizontal force: 2.5 % of the weight, or 1 % beside the known horizontal forces"),
		formula.Q("h_G_t", math.Max(0, height), formula.Metre, "height of the centre of gravity above the lower end of the support line along gravity, its rise by roll and gradient included"))
	if err != nil {
		return m, err
	}
	m.stabilising, err = formula.Derive(formula.Q("M_stb", 0, formula.NewtonMetre, "stabilising moment with factored actions"), "γ_inf*M_in", formula.Mechanics,
		formula.Q("γ_inf", f.WeightLeast, formula.One, "on the favourable part of the weight: that inside the support line, and stated ties"), formula.Q("M_in", hold, formula.NewtonMetre, "of the weight inside the support line, with tolerance and dynamic factor, and of ties with their stated force"))
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
