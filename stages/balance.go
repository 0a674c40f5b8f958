package stages

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// balanceChecks are the equilibrium of every body: what holds its roll, uplift of
// each support, overturning about every edge of the supports, sliding.
func (r *run) balanceChecks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	for b, a := range s.acts {
		if fixed := slices.ContainsFunc(a.supports, func(p Support) bool { return p.Fixed }); fixed {
			notChecked = append(notChecked, unanswered{limits.Overturning, "equilibrium: a fixed support holds the element; its anchorage must be designed for its moment"})
			continue
		}
		checks = append(checks, r.rollCheck(s, b)...)
		for _, kind := range []limits.Kind{limits.Uplift, limits.Overturning, limits.Sliding} {
			if a.suspended && kind != limits.Uplift || a.bounded && kind == limits.Uplift {
				continue
			}
			q := r.question(s, kind, a.body.pieces[0])
			answers, not, err := r.ask(q)
			if err != nil {
				return nil, nil, err
			}
			notChecked = append(notChecked, not...)
			for _, limit := range answers {
				check, err := r.balance(s, b, q, limit)
				if err != nil {
					return nil, nil, err
				}
				checks = append(checks, check)
			}
		}
	}
	return checks, notChecked, nil
}

func (r *run) balance(s *situation, b int, q limits.Question, limit limits.Limit) (checked, error) {
	switch q.Kind {
	case limits.Uplift:
		return r.uplift(s, b, q, limit)
	case limits.Overturning:
		return r.overturning(s, b, q, limit)
	}
	return r.sliding(s, b, q, limit)
}

// rollCheck is the check of what holds an element about its axis. A suspended one
// may be free to turn if its roll axis lies above its centre of gravity; one that
// stands may not.
func (r *run) rollCheck(s *situation, b int) []checked {
	a := s.acts[b]
	if a.rollHeld {
		return nil
	}
	c := checked{Check: Check{Kind: limits.Roll, Name: string(limits.Roll), LimitState: limits.Equilibrium, Sense: limits.AtLeast, Source: formula.Mechanics, X: a.supports[0].X}}
	switch {
	case a.suspended:
		return []checked{r.hanging(s, b)}
	case a.onAxis:
		c.State, c.Note = NotEvaluated, "the supports are on one line along the element: they answer the vertical plane only; state the supports across"
	default:
		c.State, c.Note = Fail, "nothing holds the element about its axis: every line of supports acts at one point across; at least one pair must not be linked"
	}
	return []checked{c}
}

// rollAxis is where the axis about which an element turns on lift points that do not
// hold it passes x: the line through the first and the last of the points, hooks and
// middles of linked points at which it hangs. Slings that do not lie side by side turn
// on their lift points, however high their hook is.
func (a *arrangement) rollAxis(x float64) section.Point {
	var first, last r3.Vec
	for n, c := range a.columns(nil) {
		var at r3.Vec
		for _, i := range c.members {
			p := a.supports[i]
			q := r3.Vec{X: p.X, Y: p.Y, Z: p.Z}
			if p.Hook != nil && a.sideBySide(c.members) {
				q = r3.Vec{X: p.Hook.X, Y: p.Hook.Y, Z: p.Hook.Z}
			}
			at = r3.Add(at, r3.Scale(1/float64(len(c.members)), q))
		}
		if n == 0 || at.X < first.X {
			first = at
		}
		if n == 0 || at.X > last.X {
			last = at
		}
	}
	t := 0.0
	if last.X > first.X {
		t = (x - first.X) / (last.X - first.X)
	}
	at := r3.Add(first, r3.Scale(t, r3.Sub(last, first)))
	return section.Point{Y: at.Y, Z: at.Z}
}

// sideBySide is true for lift points of a hook that do not all lie at one y.
func (a *arrangement) sideBySide(members []int) bool {
	return slices.ContainsFunc(members, func(i int) bool {
		return math.Abs(a.supports[i].Y-a.supports[members[0]].Y) > rankTolerance
	})
}

// rolls are the angles about x that an element can have: as stated both ways, and
// for one that hangs free to turn about the angle at which its centre of gravity,
// and with transverse actions the resultant, lies under the roll axis.
func (p *progress) rolls(s *situation, of *body, on []Support, stayed []Action) ([]float64, error) {
	trial := &arrangement{body: of, supports: on}
	free := rankOf(trial.columns(nil)) < 3 && !slices.ContainsFunc(on, func(q Support) bool { return !q.suspends() })
	if !free {
		return bothWays(s.Roll), nil
	}
	mass := massOf(p.run.partsOf(of))
	axis := trial.rollAxis(mass.X)
	hang, err := section.Hang(axis, section.Point{Y: mass.Y, Z: mass.Z})
	if err != nil { // the check of the roll axis fails in words
		return bothWays(s.Roll), nil
	}
	low, turning := 1.0, 0.0
	for _, k := range of.pieces {
		least, _ := p.run.tolerance(p.run.girder.Pieces[k].WeightGroup)
		low = math.Min(low, least)
	}
	for _, a := range append(slices.Clone(stayed), s.Actions...) {
		if a.Direction == Transverse && !slices.Contains(s.Off, a.Mark) {
			least, most := a.presence()
			turning += math.Abs(math.Max(-least, most) * a.Loads.Total() * (a.Z - axis.Z))
		}
	}
	swing := math.Atan2(turning, low*s.dynamic[0]*mass.Weight*math.Hypot(axis.Y-mass.Y, axis.Z-mass.Z))
	if s.Roll+swing == 0 {
		return []float64{hang.Tilt}, nil
	}
	return []float64{hang.Tilt, hang.Tilt - s.Roll - swing, hang.Tilt + s.Roll + swing}, nil
}

// hanging is the check of an element that hangs free to turn: its roll axis, at
// the level of the lift points or of the hooks, above its centre of gravity.
func (r *run) hanging(s *situation, b int) checked {
	a := s.acts[b]
	mass := massOf(r.partsOf(a.body))
	axis := a.rollAxis(mass.X)
	above, err := formula.Derive(formula.Q("h_roll", 0, formula.Metre, "height of the roll axis above the centre of gravity"), "z_axis - z_G", formula.Mechanics,
		formula.Q("z_axis", axis.Z, formula.Metre, "of the roll axis"), formula.Q("z_G", mass.Z, formula.Metre, "of the centre of gravity"))
	if err != nil {
		return unevaluated(limits.Roll, a.supports[0].X, err.Error())
	}
	height := above.Result
	limit := limits.Limit{
		Kind: limits.Roll, Name: string(limits.Roll), LimitState: limits.Equilibrium, Sense: limits.AtLeast, Source: formula.Mechanics,
		Line:  formula.Given(formula.Q("h_min", 0, formula.Metre, "the element turns over below it"), formula.Mechanics),
		Scale: formula.Q("h_scale", math.Max(math.Abs(height.Value), 1), formula.Metre, "height"),
	}
	c := checked{Check: NewCheck(limit, height)}
	c.X, c.Place = a.supports[0].X, fmt.Sprintf("roll axis at %s", pointWords(axis))
	c.proof = &lineProof{lines: []formula.Line{above, limit.Line}}
	if height.Value <= 0 {
		c.State = Fail
		return c
	}
	line, err := formula.Derive(formula.Q("θ_hang", 0, formula.Radian, "angle at which the element hangs"), "(y_axis - y_G)/h_roll", formula.Mechanics,
		formula.Q("y_axis", axis.Y, formula.Metre, "of the roll axis"), formula.Q("y_G", r.rounded(mass.Y), formula.Metre, "of the centre of gravity"), height)
	if err == nil {
		c.proof = &lineProof{lines: []formula.Line{above, line, limit.Line}}
	}
	return c
}

// partsOf are the parts of the weight that a body carries.
func (r *run) partsOf(b *body) []part {
	var parts []part
	for _, w := range r.weightLoads(b) {
		parts = append(parts, w.parts...)
	}
	return parts
}

// pulls are what parts of the weight give to a support, nominal: upwards on the
// element (favourable), and downwards (unfavourable). Each part is split where the
// support's influence changes sign.
func (r *run) pulls(a *arrangement, w *way, support int, parts []part) (favourable, unfavourable float64, err error) {
	key := pulled{&parts[0], support}
	if known, ok := w.pulled[key]; ok {
		return known[0], known[1], nil
	}
	influence, err := r.influence(a, w, support)
	if err != nil {
		return 0, 0, err
	}
	for i := range parts {
		pieces, err := splitBySign(parts[i], influence)
		if err != nil {
			return 0, 0, err
		}
		rest, err := r.given(a, w, &parts[i])
		if err != nil {
			return 0, 0, err
		}
		last := rest[support] // the last piece takes what the others leave of the whole
		for _, piece := range pieces[:len(pieces)-1] {
			v, err := r.carry(a, w, &piece)
			if err != nil {
				return 0, 0, err
			}
			last -= v[support]
			favourable, unfavourable = favourable+math.Max(0, v[support]), unfavourable+math.Max(0, -v[support])
		}
		favourable, unfavourable = favourable+math.Max(0, last), unfavourable+math.Max(0, -last)
	}
	if w.pulled == nil {
		w.pulled = map[pulled][2]float64{}
	}
	w.pulled[key] = [2]float64{favourable, unfavourable}
	return favourable, unfavourable, nil
}

// pulled is the parts that are given to a support.
type pulled struct {
	parts   *part
	support int
}

// lineAt is the line of action of a part at x (m).
func (p part) lineAt(x float64) (y, z float64) {
	if p.to == p.from {
		return p.y, p.z
	}
	at := func(c []float64) float64 {
		sum := 0.0
		for i := len(c) - 1; i >= 0; i-- {
			sum = sum*(x-p.from) + c[i]
		}
		return sum
	}
	if w := at(p.line); w != 0 {
		return at(p.lineY) / w, at(p.lineZ) / w
	}
	return p.y, p.z
}

// splitBySign cuts a part where a function of x along it changes sign: looked for
// at its quarter points, found by halving.
func splitBySign(p part, value func(part, float64) (float64, error)) ([]part, error) {
	if p.to == p.from {
		return []part{p}, nil
	}
	const number = 4
	pieces := []part{p}
	x0 := p.from
	v0, err := value(p, x0)
	if err != nil {
		return nil, err
	}
	for i := range number {
		x1 := p.from + (p.to-p.from)*float64(i+1)/number
		v1, err := value(p, x1)
		if err != nil {
			return nil, err
		}
		root := x1 // where it is zero at a quarter point
		if v0*v1 < 0 {
			if root, err = formula.Root(x0, x1, func(x float64) (float64, error) { return value(p, x) }); err != nil {
				return nil, err
			}
		}
		if v0*v1 < 0 || v1 == 0 {
			last := pieces[len(pieces)-1]
			pieces = append(pieces[:len(pieces)-1], last.cutAt(root)...)
		}
		x0, v0 = x1, v1
	}
	return pieces, nil
}

// uplift is the check of the support with the least reserve: its reaction with
// factored actions against zero.
func (r *run) uplift(s *situation, b int, q limits.Question, limit limits.Limit) (checked, error) {
	f := limit.Factors.Filled()
	a := s.acts[b]
	var worst *checked
	for _, v := range s.cases {
		w := v.ways[a]
		for _, i := range w.set {
			if a.supports[i].Role == Tie || a.supports[i].Held || a.supports[i].sense() == 0 {
				continue
			}
			d, err := r.upliftOf(v, a, i, f)
			if err != nil {
				return checked{}, err
			}
			scaled := limit
			scaled.Scale = formula.Q("R_fav", math.Max(d.favourable, 1), formula.Newton, "reaction from the weight that presses the support")
			check := r.finish(s, q, a.body.pieces[0], scaled, d.demand)
			p := a.supports[i]
			check.X, check.Place = p.X, fmt.Sprintf("%s %d, x = %.3f m, y = %.3f m", p.word(), i+1, p.X, p.Y)
			check.proof = &lineProof{lines: append(d.lines, scaled.Line)}
			if worst == nil || check.worse(worst.Check) {
				worst = &check
			}
		}
	}
	if worst == nil {
		return unevaluated(limits.Uplift, a.supports[0].X, "no support that could lift"), nil
	}
	return *worst, nil
}

// lifted is the least reaction of a support with factored actions.
type lifted struct {
	demand     formula.Quantity
	favourable float64
	lines      []formula.Line
}

func (r *run) upliftOf(v *variant, a *arrangement, i int, f limits.Factors) (lifted, error) {
	var d lifted
	if slices.ContainsFunc(v.current, func(e entry) bool { return e.of != a && e.of.index3(a.supports[i]) >= 0 }) {
		return r.accumulated(v, a, i, f)
	}
	var least, most [2]float64
	w := v.ways[a]
	for _, load := range r.weightLoads(a.body) {
		favourable, unfavourable, err := r.pulls(a, w, i, load.parts)
		if err != nil {
			return d, err
		}
		low, high := r.tolerance(load.group)
		low, high = low*v.dynamic[0], high*v.dynamic[1]
		d.favourable += favourable
		balance, factor := f.WeightLeast*favourable-f.WeightMost*unfavourable, low
		if balance < 0 {
			factor = high
		}
		least[0], most[0] = least[0]+factor*favourable, most[0]+factor*unfavourable
	}
	other, err := r.otherThanWeight(v, a, i, f)
	if err != nil {
		return d, err
	}
	line, err := formula.Derive(formula.Q("R_EQU", 0, formula.Newton, "minimum reaction with factored actions"),
		"γ_inf*R_fav - γ_sup*R_unf - R_other", formula.Mechanics,
		formula.Q("γ_inf", f.WeightLeast, formula.One, "on the favourable part of the weight"), formula.Q("R_fav", least[0], formula.Newton, "favourable part of the reaction, with tolerance and dynamic factor"),
		formula.Q("γ_sup", f.WeightMost, formula.One, "on the unfavourable part of the weight"), formula.Q("R_unf", most[0], formula.Newton, "unfavourable part of the reaction, with tolerance and dynamic factor"),
		formula.Q("R_other", other, formula.Newton, "uplift from other actions, levels and restraint, factored"))
	if err != nil {
		return d, err
	}
	d.demand, d.lines = line.Result, []formula.Line{line}
	return d, nil
}

// accumulated is the least reaction of a support that has kept its force from
// earlier situations: each cause at its worse end, not split within the weight.
func (r *run) accumulated(v *variant, a *arrangement, i int, f limits.Factors) (lifted, error) {
	var d lifted
	m, err := r.supportSums(v, a, i)
	if err != nil {
		return d, err
	}
	of := Range{Least: math.Inf(1), Most: math.Inf(-1)}
	if err := m.widen(&of, r.ranges(v.situation, f)); err != nil {
		return d, err
	}
	d.favourable = m.under(r.nominal(v.situation))
	d.demand = formula.Q("R_EQU", of.Least, formula.Newton, "minimum reaction with factored actions, accumulated over the situations in which it has acted")
	d.lines = []formula.Line{formula.Given(d.demand, formula.Mechanics)}
	return d, nil
}

// otherThanWeight is the uplift of a support (N) from actions, levels, preloads
// and the restraint of prestress, at their worst.
func (r *run) otherThanWeight(v *variant, a *arrangement, i int, f limits.Factors) (float64, error) {
	sum := 0.0
	for k := range v.current {
		e := &v.current[k]
		if e.of != a && e.of.index3(a.supports[i]) < 0 || e.inner >= 0 && r.causes[e.inner].kind == causeWeight {
			continue
		}
		reaction, err := r.reactionOf(v, e, a.supports[i])
		if err != nil {
			return 0, err
		}
		least, most := 1.0, 1.0
		for _, i := range append([]int{e.inner}, e.outer...) {
			if i >= 0 {
				c := r.ranged(v.situation, i, f)
				least, most = min(least*c.Least, least*c.Most, most*c.Least, most*c.Most), max(least*c.Least, least*c.Most, most*c.Least, most*c.Most)
			}
		}
		sum -= math.Min(least*reaction, most*reaction)
	}
	return sum, nil
}

// reactionOf is what an entry gives to a support (N, upwards).
func (r *run) reactionOf(v *variant, e *entry, p Support) (float64, error) {
	i := e.of.index3(p)
	if i < 0 {
		return 0, nil
	}
	answer, err := r.answer(e.of, v.ways[e.of], e.load, e.state)
	if err != nil {
		return 0, err
	}
	return e.coefficient * answer.vertical[i], nil
}
