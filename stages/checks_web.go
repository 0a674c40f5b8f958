package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// webChecks are principal tension and shear stress in the webs, by V·S/(I·b): for
// sections that are symmetric about the vertical axis and neither sheared sideways
// nor twisted. Elsewhere they are not evaluated.
func (r *run) webChecks(s *situation) (checks []Check, notChecked []string, err error) {
	x, why := r.beyondWebFormula(s)
	for _, kind := range []limits.Kind{limits.PrincipalTension, limits.WebShear} {
		q := r.question(s, kind)
		answers, not, err := r.ask(q)
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		for _, limit := range answers {
			if why != "" {
				checks = append(checks, unevaluated(kind, x, why))
				continue
			}
			more, err := r.webLimit(s, q, limit)
			if err != nil {
				return nil, nil, err
			}
			checks = append(checks, more...)
		}
	}
	return checks, notChecked, nil
}

// webLimit is the check of one limit at its worst place, and what of it could not
// be evaluated.
func (r *run) webLimit(s *situation, q limits.Question, limit limits.Limit) ([]Check, error) {
	search := webSearch{run: r, situation: s, kind: q.Kind, factors: r.rangesOf(s, limit.Factors), limit: limit.Line.Result.Value}
	if err := search.all(); err != nil {
		return nil, err
	}
	var checks []Check
	if search.found {
		check, err := r.webCheck(s, q, limit, search.worst)
		if err != nil {
			return nil, err
		}
		checks = append(checks, check)
	}
	switch {
	case len(search.cracked) > 0:
		checks = append(checks, unevaluated(q.Kind, search.cracked[0][0],
			"where the section cracks in bending under the factors of this limit, "+stretches(search.cracked)+": shear reinforcement or a check of cracked sections is needed"))
	case !search.found:
		checks = append(checks, unevaluated(q.Kind, r.element.Length/2, "no web lies outside the dispersion lengths of the anchors"))
	}
	return checks, nil
}

// stretches are places from and to in words.
func stretches(list [][2]float64) string {
	text := ""
	for i, s := range list {
		if i > 0 {
			text += ", "
		}
		text += fmt.Sprintf("x = %.2f to %.2f m", s[0], s[1])
	}
	return text
}

// beyondWebFormula is where and why V·S/(I·b) does not hold; no words where it
// does.
func (r *run) beyondWebFormula(s *situation) (x float64, why string) {
	shear, moment := 0.0, 0.0
	for i := range r.grid {
		for _, at := range r.grid[i].at {
			f := r.meanForces(s, at)
			shear, moment = math.Max(shear, math.Abs(f.Vz)), math.Max(moment, math.Abs(f.My))
		}
	}
	for i := range r.grid {
		p := &r.grid[i]
		for _, at := range p.at {
			f := r.meanForces(s, at)
			switch {
			case !at.symmetric():
				return at.x, "the section is not symmetric about the vertical axis: shear flow and torsion about the shear centre are needed (package section)"
			case math.Abs(f.Vy) > 1e-3*shear:
				return at.x, "lateral shear acts: shear flow under both shears is needed (package section)"
			case math.Abs(f.T) > 1e-3*moment:
				return at.x, "torsion acts: its shear stress is needed as well (package section)"
			}
		}
	}
	return 0, ""
}

// meanForces are weight and mean prestress at a station.
func (r *run) meanForces(s *situation, at *station) section.Forces {
	_, prestress := at.prestressIn(s)
	return s.system.forces(at.x).Plus(prestress)
}

// symmetric is true when the outline is its own mirror image about the vertical
// axis through its centroid, to a millionth of its size.
func (s *station) symmetric() bool {
	axis, size := s.gross.Centroid.Y, s.gross.Left+s.gross.Right
	for _, c := range s.corners {
		image := section.Point{Y: 2*axis - c.Y, Z: c.Z}
		if !slices.ContainsFunc(s.corners, func(p section.Point) bool {
			return math.Hypot(p.Y-image.Y, p.Z-image.Z) < 1e-6*size
		}) {
			return false
		}
	}
	return true
}

// webCheck writes the check of a level.
func (r *run) webCheck(s *situation, q limits.Question, limit limits.Limit, w web) (Check, error) {
	d := r.newDerivation(s, w.x)
	shear := d.shear(w)
	demand := shear
	if q.Kind == limits.PrincipalTension {
		normal := d.stress(w.point, w.corner)
		demand = d.line(formula.Q("σ_1", 0, formula.Pascal, "principal tension"), "σ_c/2 + sqrt(σ_c*σ_c/4 + τ*τ)", formula.Mechanics, normal, shear)
	}
	if q.Kind == limits.PrincipalTension {
		d.agrees(demand, w.principal)
	} else {
		d.agrees(demand, w.shear)
	}
	if d.err != nil {
		return Check{}, d.err
	}
	check := r.finish(s, q, limit, demand, d.lines)
	check.X, check.Place, check.Corner = w.x, "web, "+pointWords(w.point), w.corner.words()
	return check, nil
}

// shear derives the elastic shear stress of a level on gross second and first
// moments and the net web width.
func (d *derivation) shear(w web) formula.Quantity {
	weight := d.weightShear(d.s.system, "_w")
	var total sum
	total.add("", "γ_w*δ*V_w", d.factor(w.corner.weight), formula.Q("δ", w.corner.dynamic, formula.One, "dynamic factor"), weight)
	if d.s.steps > 0 {
		prestress := d.prestressShear()
		total.add(" + ", "r*V_P", formula.Q("r", w.corner.prestress, formula.One, "factor on the prestress"), prestress)
	}
	if w.corner.other != 0 {
		other := d.given(formula.Q("V_q", d.s.other.Shear(d.at.x), formula.Newton, "shear of the other loads at x"), formula.Mechanics)
		total.add(" + ", "ψ*V_q", formula.Q("ψ", w.corner.other, formula.One, "factor on the other loads"), other)
	}
	force := d.line(formula.Q("V", 0, formula.Newton, "shear on the concrete, inclined tendons included"), total.expression(), formula.Mechanics, total.operands...)
	moment := d.given(formula.Q("S", w.moment, formula.CubicMetre, fmt.Sprintf("first moment of what lies above z = %.3f m about the centroid", w.level)), outline)
	chord := formula.Q("b_c", w.chord, formula.Metre, "concrete cut at this level, both webs")
	ducts := formula.Q("Δb", w.chord-w.width, formula.Metre, fmt.Sprintf("allowance for the %d ducts cut: 1.2 × diameter, 0.5 × when grouted and wider than b/8", w.ducts))
	width := d.line(formula.Q("b_w", 0, formula.Metre, "net width of the webs"), "b_c - Δb",
		formula.Source{Document: "EN 1992-1-1:2004", Place: "6.2.3(6)", Confirm: true}, chord, ducts)
	inertia := d.given(formula.Q("I_c", d.at.gross.SecondMomentY, formula.MetreToFourth, "gross second moment about y"), outline)
	return d.line(formula.Q("τ", 0, formula.Pascal, "web shear stress"), "abs(V)*S/(I_c*b_w)", formula.Mechanics, force, moment, inertia, width)
}

// prestressShear derives the vertical component of the tendons at x.
func (d *derivation) prestressShear() formula.Quantity {
	p := d.prestress()
	var total sum
	for _, b := range p.bundles {
		force := b.force.Symbol
		operands := []formula.Quantity{b.count, b.sine, b.force}
		for i, loss := range b.losses {
			if slices.Contains(d.r.steps[b.lossSteps[i]].bonded, d.r.element.Tendons[b.members[0]].Mark) {
				continue // a bonded tendon's loss is in the transformed section
			}
			force += " - " + loss.Symbol
			operands = append(operands, loss)
		}
		if b.later.Symbol != "" {
			force += " - " + b.later.Symbol
			operands = append(operands, b.later)
		}
		total.add(" + ", fmt.Sprintf("%s*(%s)*%s", b.count.Symbol, force, b.sine.Symbol), operands...)
	}
	return d.line(formula.Q("V_P", 0, formula.Newton, "vertical component of the tendons on the concrete"), total.expression(), formula.Mechanics, total.operands...)
}
