package stages

import (
	"slices"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// AtAnchors is the kind of the hold points of the mean cylinder strength that anchors
// need before their tendons are stressed in full.
const AtAnchors = "strength at anchors"

// anchorPoints are the strengths that the anchors of the tendons stressed in a situation
// need, of each element in which one is: the largest of its anchors. One tendon is the
// worst check; another may need more of a stronger element.
func (r *run) anchorPoints(s *situation, checks []checked) ([]derive.HoldPoint, error) {
	required := make([]float64, len(r.girder.Pieces))
	for _, of := range r.pullsIn(s) {
		if of.how == letDown || r.pretensioned(of.tendon) {
			continue
		}
		for _, k := range r.anchoredIn(s, of.tendon) {
			q := r.question(s, limits.StressingStrength, k)
			q.Tendon = &r.tendons[of.tendon]
			answers, _, err := r.ask(q)
			if err != nil {
				return nil, err
			}
			for _, limit := range answers {
				required[k] = max(required[k], limit.Line.Result.Value)
			}
		}
	}
	check := 1 + slices.IndexFunc(checks, func(c checked) bool { return c.Kind == limits.StressingStrength })
	var list []derive.HoldPoint
	for k, mean := range required {
		if mean == 0 {
			continue
		}
		assumed := s.concrete[k].Mean
		same := slices.IndexFunc(list, func(h derive.HoldPoint) bool { return h.Required.Value == mean && h.Assumed.Value == assumed })
		if same < 0 {
			same, list = len(list), append(list, anchorPoint(mean, assumed, check))
		}
		if len(r.girder.Pieces) > 1 {
			list[same].Pieces = append(list[same].Pieces, r.girder.Pieces[k].Element.Mark)
		}
	}
	return list, nil
}

// anchorPoint is the hold point of a mean cylinder strength (Pa), with what is assumed and
// the number of the check that rests on it.
func anchorPoint(mean, assumed float64, check int) derive.HoldPoint {
	h := derive.HoldPoint{Kind: AtAnchors, Check: check, Required: formula.Q("f_cm_0", mean, formula.Pascal, "mean cylinder strength")}
	if cube, err := concrete.CubeFor(mean); err == nil { // none above the strength classes
		h.Tested = []formula.Quantity{formula.Q("f_cm_0_cube", cube, formula.Pascal, "mean cube strength")}
	}
	q := formula.Q("f_cm_t", assumed, formula.Pascal, "mean cylinder strength assumed")
	h.Assumed = &q
	return h
}

// anchoredIn are the pieces carried in which a tendon has an anchor.
func (r *run) anchoredIn(s *situation, i int) []int {
	var list []int
	for _, k := range s.carried() {
		p, near := r.girder.Pieces[k], r.girder.near()
		if slices.ContainsFunc([]float64{r.paths[i].From(), r.paths[i].To()}, func(x float64) bool { return x >= p.At-near && x <= p.To()+near }) {
			list = append(list, k)
		}
	}
	return list
}
