package stages

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// fixing is the question that a fixed support leaves.
var fixing = unanswered{limits.Overturning, "equilibrium: a fixed support carries the element; its fixing must be designed for its moment"}

// fixingAnswered are the questions without that of the fixed supports where a check of
// the operation itself answers it: one of overturning at each of them.
func (r *run) fixingAnswered(s *situation, checks []checked, notChecked []unanswered) []unanswered {
	if s.Check == nil {
		return notChecked
	}
	for _, a := range s.acts {
		for _, p := range a.supports {
			if p.Fixed && !slices.ContainsFunc(checks, func(c checked) bool {
				return c.Kind == limits.Overturning && math.Abs(c.X-p.X) <= r.girder.near()
			}) {
				return notChecked
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(notChecked), func(u unanswered) bool { return u == fixing })
}

// balanceChecks are the equilibrium of every body: restraint of its roll, uplift of
// each support, overturning about every edge of the supports, sliding.
func (r *run) balanceChecks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	for b, a := range s.acts {
		if fixed := slices.ContainsFunc(a.supports, func(p Support) bool { return p.Fixed }); fixed {
			notChecked = append(notChecked, fixing)
			continue
		}
		checks = append(checks, r.rollCheck(s, b)...)
		rolling, not, err := r.rollingChecks(s, b)
		if err != nil {
			return nil, nil, err
		}
		checks, notChecked = append(checks, rolling...), append(notChecked, not...)
		for _, kind := range []limits.Kind{limits.Uplift, limits.Overturning, limits.Sliding} {
			if a.suspended && kind != limits.Uplift || (a.bounded || a.onRowsAlone()) && kind == limits.Uplift {
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

// partsOf are the parts of the weight that a body carries.
func (r *run) partsOf(b *body) []part {
	var parts []part
	for _, w := range r.weightLoads(b) {
		parts = append(parts, w.parts...)
	}
	return parts
}

// pulls are the nominal forces of parts of the weight on a support: upwards on the
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
