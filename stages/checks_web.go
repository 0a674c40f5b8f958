package stages

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// web is the elastic shear and principal stress at one level of a section.
type web struct {
	x, level  float64
	ends      [2]section.Point // outer ends of the cut: σx is linear between them
	point     section.Point    // the end with the larger value
	corner    corner
	shear     float64 // τ, Pa, a magnitude
	normal    float64 // σx at point, Pa
	principal float64 // largest principal tension, Pa
	force     float64 // V of the concrete, N
	moment    float64 // first moment of what lies above about the centroid, m³
	width     float64 // net width of the walls, m
	chord     float64 // concrete cut by the level, m
	ducts     int     // that the level cuts
}

// webChecks are principal tension and shear stress in the webs. Both are sought
// at the ends and the middle of each smooth piece, at every level where the
// width changes, at the centroid and at each duct.
func (r *run) webChecks(s *situation) (checks []Check, notChecked []string, err error) {
	if f := r.largestTorsion(s); f > 0 {
		notChecked = append(notChecked, "shear stress from torsion, which acts in this situation")
	}
	for _, kind := range []limits.Kind{limits.PrincipalTension, limits.WebShear} {
		q := r.question(s, kind)
		answers, not, err := r.ask(q)
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		for _, limit := range answers {
			search := webSearch{run: r, situation: s, kind: kind, factors: r.rangesOf(s, limit.Factors), limit: limit.Line.Result.Value}
			if err := search.all(); err != nil {
				return nil, nil, err
			}
			if cracked := search.cracked; len(cracked) > 0 {
				notChecked = append(notChecked, fmt.Sprintf("%s: where the section cracks in bending under the factors of this limit, between x = %.2f and %.2f m", kind, cracked[0], cracked[len(cracked)-1]))
			}
			if !search.found {
				notChecked = append(notChecked, fmt.Sprintf("%s: no uncracked web lies outside the dispersion lengths of the anchors", kind))
				continue
			}
			worst := search.worst
			check, err := r.webCheck(s, q, limit, worst)
			if err != nil {
				return nil, nil, err
			}
			checks = append(checks, check)
		}
	}
	return checks, notChecked, nil
}

// largestTorsion is the largest torsion of weight and prestress at the nodes,
// 0 where it is rounding.
func (r *run) largestTorsion(s *situation) float64 {
	largest, scale := 0.0, 0.0
	for i := range r.grid {
		for _, at := range r.grid[i].at {
			_, prestress := at.prestressIn(s)
			f := s.system.forces(at.x).Plus(prestress)
			largest, scale = math.Max(largest, math.Abs(f.T)), math.Max(scale, math.Abs(f.My))
		}
	}
	if largest < 1e-6*scale {
		return 0
	}
	return largest
}

// webSearch looks for the worst level of a situation.
type webSearch struct {
	*run
	situation *situation
	kind      limits.Kind
	factors   ranges
	limit     float64 // Pa
	worst     web
	found     bool
	cracked   []float64 // places left out of principal tension because the section cracks in bending
}

// value is what the search makes largest.
func (w *webSearch) value(level web) float64 {
	if w.kind == limits.WebShear {
		return level.shear
	}
	return level.principal
}

// all looks at the ends and the middle of each piece.
func (w *webSearch) all() error {
	zones := w.disturbed(w.situation.steps)
	for i := range w.grid {
		p := &w.grid[i]
		if within(p.middle(), zones) {
			continue
		}
		for _, k := range []int{0, nodes / 2, nodes - 1} {
			if err := w.station(p.at[k]); err != nil {
				return err
			}
		}
	}
	return nil
}

// station looks at all levels of a station under every corner of factors.
// Principal tension counts only where the section is uncracked in bending under
// the same factors, which is the reach of the limit.
func (w *webSearch) station(at *station) error {
	b := w.basis(w.situation, at)
	levels, err := w.measured(w.situation, at)
	if err != nil {
		return err
	}
	_, forces := at.prestressIn(w.situation)
	weight, prestress, other := w.situation.system.forces(at.x).Vz, forces.Vz, 0.0
	if w.situation.other != nil {
		other = w.situation.other.Shear(at.x)
	}
	for _, c := range w.factors.all() {
		stress := b.under(c)
		if w.kind == limits.PrincipalTension && at.tensile(stress) > w.limit {
			w.cracked = append(w.cracked, at.x)
			continue
		}
		for _, level := range levels {
			level.corner = c
			level.force = c.weight*c.dynamic*weight + c.prestress*prestress + c.other*other
			level.shear = math.Abs(level.force) * level.moment / (at.gross.SecondMomentY * level.width)
			for _, end := range level.ends {
				level.point, level.normal = end, stress.At(end)
				level.principal = level.normal/2 + math.Hypot(level.normal/2, level.shear)
				if !w.found || w.value(level) > w.value(w.worst) {
					w.worst, w.found = level, true
				}
			}
		}
	}
	return nil
}

// tensile is the largest stress at the corners of the outline.
func (s *station) tensile(stress section.Plane) float64 {
	most := math.Inf(-1)
	for _, c := range s.corners {
		most = math.Max(most, stress.At(c))
	}
	return most
}

// measured are the levels of a station with their geometry, kept for the next
// limit. Grouting only ever adds tendons, so their number says which are grouted.
func (r *run) measured(s *situation, at *station) ([]web, error) {
	if list, ok := at.webs[len(s.grouted)]; ok {
		return list, nil
	}
	var list []web
	for _, level := range r.levels(at) {
		w := web{x: at.x, level: level}
		chords := at.shape.Chords(level)
		if len(chords) == 0 {
			continue
		}
		if err := r.measure(s, at, &w, chords); err != nil {
			return nil, err
		}
		list = append(list, w)
	}
	if at.webs == nil {
		at.webs = map[int][]web{}
	}
	at.webs[len(s.grouted)] = list
	return list, nil
}

// all is every corner of the ranges.
func (f ranges) all() []corner {
	var corners []corner
	for _, w := range distinct(f.weight) {
		for _, d := range distinct(f.dynamic) {
			for _, p := range distinct(f.prestress) {
				corners = append(corners, corner{weight: w, dynamic: d, prestress: p}, corner{w, d, p, f.other})
			}
		}
	}
	return corners
}

func distinct(pair [2]float64) []float64 {
	if pair[0] == pair[1] {
		return pair[:1]
	}
	return pair[:]
}

// levels are where the web is looked at: the centroid, just inside every corner
// level between the extreme fibres, and each duct.
func (r *run) levels(at *station) []float64 {
	low, high := at.gross.Centroid.Z-at.gross.Bottom, at.gross.Centroid.Z+at.gross.Top
	hair := 1e-7 * (high - low)
	levels := []float64{at.gross.Centroid.Z}
	for _, c := range at.corners {
		levels = append(levels, c.Z-hair, c.Z+hair)
	}
	for _, t := range at.tendons {
		if t.here {
			levels = append(levels, t.at.Z)
		}
	}
	sort.Float64s(levels)
	levels = slices.CompactFunc(levels, func(a, b float64) bool { return math.Abs(b-a) < hair/2 })
	return slices.DeleteFunc(levels, func(z float64) bool { return z <= low+hair || z >= high-hair })
}

// measure fills the geometry of a level: width of each wall less its duct
// allowance, first moment, and the outer ends of the cut.
func (r *run) measure(s *situation, at *station, w *web, chords []section.Chord) error {
	for _, c := range chords {
		width := c.To - c.From
		w.chord += width
		for filling, ducts := range r.ducts(s, at, w.level, c) {
			if len(ducts) == 0 {
				continue
			}
			w.ducts += len(ducts)
			net, err := section.WebWidth(width, section.Filling(filling), ducts...)
			if err != nil {
				return fmt.Errorf("web at x = %.3f m, z = %.3f m: %w", at.x, w.level, err)
			}
			width = net
		}
		w.width += width
	}
	above := at.shape.Above(w.level)
	w.moment = math.Abs(above.FirstMomentY - above.Area*at.gross.Centroid.Z)
	w.ends = [2]section.Point{{Y: chords[0].From, Z: w.level}, {Y: chords[len(chords)-1].To, Z: w.level}}
	return nil
}

// ducts are the diameters of the ducts that a level cuts in one wall: those not
// grouted, then those grouted.
func (r *run) ducts(s *situation, at *station, level float64, wall section.Chord) [2][]float64 {
	var diameters [2][]float64
	for i, t := range at.tendons {
		steel := &r.element.Tendons[i]
		if !t.here || math.Abs(t.at.Z-level) > steel.Duct/2 || t.at.Y < wall.From || t.at.Y > wall.To {
			continue
		}
		filling := section.NotGrouted
		if slices.Contains(s.grouted, steel.Mark) {
			filling = section.GroutedMetal
		}
		diameters[filling] = append(diameters[filling], steel.Duct)
	}
	return diameters
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
			if slices.Contains(d.r.steps[b.step+1+i].bonded, d.r.element.Tendons[b.members[0]].Mark) {
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
