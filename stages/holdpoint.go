package stages

import (
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"math"
)

// strengthShown is a strength that a test must show.
func strengthShown(strength float64) formula.Quantity {
	return formula.Q("f_ck_t", strength, formula.Pascal, "characteristic cylinder strength")
}

// specimensShown is the number of specimens of which a required mean is given: with
// more it is on the safe side.
const specimensShown = 3

// holdPoints are what must be shown before a situation: the strength of each concrete,
// as the largest that a check asks of it, and what else a check rests on.
func (r *run) holdPoints(s *situation, checks []checked) ([]derive.HoldPoint, error) {
	var list []derive.HoldPoint
	alike := r.alike(s)
	for _, pieces := range alike {
		if h, ok := r.strengthPoint(s, pieces, checks); ok {
			if len(alike) > 1 || math.Abs(s.concrete[pieces[0]].Age-s.Age) > 1e-9 { // not those of the age that the situation states
				for _, k := range pieces {
					h.Pieces = append(h.Pieces, r.girder.Pieces[k].Element.Mark)
				}
			}
			list = append(list, h)
		}
	}
	anchors, err := r.anchorPoints(s, checks)
	if err != nil {
		return nil, err
	}
	list = append(list, anchors...)
	for i, c := range checks {
		if c.holds != nil {
			h := *c.holds
			h.Check = i + 1
			list = append(list, h)
		}
	}
	return list, nil
}

// alike are the pieces of a situation, those of the same strength at the same age
// together.
func (r *run) alike(s *situation) [][]int {
	var groups [][]int
next:
	for _, k := range s.carried() {
		for i, g := range groups {
			if a, b := s.concrete[g[0]], s.concrete[k]; a.Age == b.Age && a.Characteristic == b.Characteristic {
				groups[i] = append(groups[i], k)
				continue next
			}
		}
		groups = append(groups, []int{k})
	}
	return groups
}

// strengthPoint is the strength that pieces must show; false where no check rests on it.
func (r *run) strengthPoint(s *situation, pieces []int, checks []checked) (h derive.HoldPoint, ok bool) {
	required := 0.0
	for i, c := range checks {
		if c.State != Pass && c.State != Conditional {
			continue
		}
		for _, n := range c.needs {
			for _, k := range pieces {
				if n.piece == k && n.strength > required {
					required, h.Check = n.strength, i+1
				}
			}
		}
	}
	if required == 0 {
		return h, false
	}
	assumed := formula.Q("f_ck_t", equivalent(r.girder.Pieces[pieces[0]].Element.Concrete, s.concrete[pieces[0]]), formula.Pascal, "characteristic cylinder strength assumed")
	h.Kind, h.Required, h.Tested, h.Assumed = "strength", strengthShown(required), asTested(required), &assumed
	return h, true
}

// equivalent is the characteristic strength that a test would show of a concrete as the
// calculation takes it (Pa): of a model whose tensile strength rises with f_cm(t) after 28 d
// (EN 1992-1-1:2004, 3.1.2(9)), though f_ck(t) stays (3.1.2(5)), that of f_cm(t).
func equivalent(model concrete.Model, c concrete.State) float64 {
	at28, err := model.At(28)
	if c.Age <= 28 || err != nil || c.TensileMean <= at28.TensileMean*(1+1e-12) {
		return c.Characteristic
	}
	return math.Max(c.Characteristic, c.Mean-overCharacteristic)
}

// overCharacteristic is f_cm above f_ck (Pa): EN 1992-1-1:2004, table 3.1.
const overCharacteristic = 8e6

// asTested is a characteristic cylinder strength (Pa) as a yard tests it: on cubes, and
// as a mean. What the strength classes do not reach is left out.
func asTested(strength float64) []formula.Quantity {
	mean := concrete.MeanFor(strength, specimensShown)
	var list []formula.Quantity
	cube := func(symbol string, cylinder float64, name string) {
		if v, err := concrete.CubeFor(cylinder); err == nil {
			list = append(list, formula.Q(symbol, v, formula.Pascal, name))
		}
	}
	cube("f_ck_cube", strength, "characteristic cube")
	list = append(list, formula.Q("f_cm", mean, formula.Pascal, "mean of 3 cylinders"))
	cube("f_cm_cube", mean, "mean of 3 cubes")
	return list
}
