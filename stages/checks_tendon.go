package stages

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// tendonChecks are those of the tendons that a situation stresses; of each kind the
// governing tendon is printed.
func (r *run) tendonChecks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	var kept keeper
	for _, kind := range []limits.Kind{limits.JackStress, limits.LockOffStress, limits.StressingStrength, limits.AnchorSpacing, limits.AnchorEdge, limits.DuctSpacing} {
		for _, pull := range r.pullsIn(s) {
			i := pull.tendon
			if pull.how == letDown && kind == limits.StressingStrength {
				continue
			}
			if r.pretensioned(i) && kind != limits.JackStress && kind != limits.LockOffStress {
				continue
			}
			piece := r.anchorPiece(s, i)
			q := r.question(s, kind, piece)
			q.Tendon = &r.tendons[i]
			if kind == limits.DuctSpacing {
				if !r.nearestDuct(i, &q) {
					continue
				}
			}
			answers, not, err := r.ask(q)
			if err != nil {
				return nil, nil, err
			}
			notChecked = append(notChecked, not...)
			for n, limit := range answers {
				check, ok, err := r.tendonCheck(s, q, piece, limit, pull)
				if err != nil {
					return nil, nil, err
				}
				if ok {
					kept.keep(fmt.Sprint(kind, n), check)
				}
			}
		}
	}
	return kept.checks, notChecked, nil
}

// anchorPiece is the piece with the lowest strength among those in which a tendon
// is anchored.
func (r *run) anchorPiece(s *situation, i int) int {
	best := -1
	for _, k := range r.anchoredIn(s, i) {
		if best < 0 || s.concrete[k].Mean < s.concrete[best].Mean {
			best = k
		}
	}
	return max(best, 0)
}

// pullsIn are the pulls of a situation, in order.
func (r *run) pullsIn(s *situation) []pull {
	var list []pull
	for _, step := range r.steps[s.from:s.steps] {
		list = append(list, step.pulls...)
	}
	return list
}

// tendonCheck is one check of one tendon; ok is false where there is nothing to
// compare, e.g. the spacing of a single anchor.
func (r *run) tendonCheck(s *situation, q limits.Question, piece int, limit limits.Limit, of pull) (check checked, ok bool, err error) {
	i, f, t := of.tendon, of.force, r.tendons[of.tendon]
	var lines []formula.Line
	var demand formula.Quantity
	given := func(q formula.Quantity, place string) {
		lines = append(lines, formula.Given(q, formula.Source{Document: "input", Place: place}))
	}
	x, place := r.paths[i].From(), "tendon "+t.Mark
	switch q.Kind {
	case limits.JackStress:
		demand = formula.Q("σ_0", of.jack, formula.Pascal, "jacking stress")
		given(demand, "jacking of tendon "+t.Mark)
		if r.pretensioned(i) {
			place = "pretension " + t.Mark + ", on the bed"
		} else {
			place += ", " + f.Jacking.Ends.String()
		}
	case limits.LockOffStress:
		_, x = f.Largest()
		if lines, err = f.Derivation(x, ""); err != nil {
			return check, false, err
		}
		words := "largest stress along the tendon after lock-off"
		if r.pretensioned(i) {
			words = "stress just before release: that after it is less by the elastic loss"
		}
		line, err := formula.Derive(formula.Q("σ_pm0", 0, formula.Pascal, words), "P/A_p", formula.Mechanics,
			lines[len(lines)-1].Result, formula.Q("A_p", t.Area(), formula.SquareMetre, "area of the strands"))
		if err != nil {
			return check, false, err
		}
		lines, demand = append(lines, line), line.Result
	case limits.StressingStrength:
		demand = formula.Q("f_cm_t", s.concrete[piece].Mean, formula.Pascal, "mean cylinder strength at the age")
		for _, line := range s.concrete[piece].Derivation {
			lines = append(lines, line)
			if line.Result.Symbol == demand.Symbol {
				break
			}
		}
	case limits.AnchorSpacing:
		spacing, beside, at := r.nearestAnchor(i)
		if beside == "" {
			return check, false, nil
		}
		x, place = at, place+" beside "+beside
		demand = formula.Q("s", spacing, formula.Metre, "distance of the anchor centres of "+t.Mark+" and "+beside)
		given(demand, "tendon paths")
	case limits.AnchorEdge:
		edge, at := r.anchorEdge(i)
		if x = at; t.External && edge <= 0 {
			check = unevaluated(q.Kind, x, "the anchor of external tendon "+t.Mark+" is outside the outline: the diaphragm or block that carries it is not described")
			return check, true, nil
		}
		demand = formula.Q("c", edge, formula.Metre, "distance of the anchor centre from the edge of the concrete")
		given(demand, "tendon path and outline")
	case limits.DuctSpacing:
		gap := r.gap(i, r.tendonOf(q.Neighbour.Mark))
		x, place = gap.x, place+" beside "+q.Neighbour.Mark
		demand = formula.Q("s_clear", gap.clear, formula.Metre, "clear distance of the ducts of "+t.Mark+" and "+q.Neighbour.Mark)
		given(demand, "tendon paths")
	}
	check = r.finish(s, q, piece, limit, demand)
	check.X, check.Place, check.proof = x, place, &lineProof{lines: append(lines, limit.Line)}
	return check, true, nil
}

// nearestAnchor is the minimum distance between the anchors of a tendon and those of
// others that face the same way, less than the asked spacing apart in x.
func (r *run) nearestAnchor(i int) (spacing float64, beside string, x float64) {
	spacing = math.Inf(1)
	mine, near := r.paths[i], r.tendons[i].Approval.AnchorSpacing
	for k, path := range r.paths {
		if k == i || r.pretensioned(k) {
			continue
		}
		for _, ends := range [][2]float64{{mine.From(), path.From()}, {mine.To(), path.To()}} {
			p, q := mine.At(ends[0]), path.At(ends[1])
			if d := math.Hypot(p.Y-q.Y, p.Z-q.Z); math.Abs(ends[0]-ends[1]) < near && d < spacing {
				spacing, beside, x = d, r.tendons[k].Mark, ends[0]
			}
		}
	}
	return spacing, beside, x
}

// anchorEdge is the minimum distance of the anchors of a tendon from the edge.
func (r *run) anchorEdge(i int) (edge, x float64) {
	path := r.paths[i]
	edge = math.Inf(1)
	for _, a := range []float64{path.From(), path.To()} {
		if c := r.girder.clearance(a, path.At(a)); c < edge {
			edge, x = c, a
		}
	}
	return edge, x
}

// gapAt is the minimum clear distance of two ducts and its place.
type gapAt struct {
	clear, x float64 // m
	above    bool    // one is above the other, more than beside it
}

// gap is the minimum clear distance of two ducts over their common length.
func (r *run) gap(i, k int) gapAt { return r.gapAmong(i, k, r.girder.placesOf(r.paths[i])) }

func (r *run) gapAmong(i, k int, places []float64) gapAt {
	best := gapAt{clear: math.Inf(1)}
	from, to := r.paths[k].From(), r.paths[k].To()
	for _, x := range places {
		if x < from || x > to {
			continue
		}
		p, q := r.paths[i].At(x), r.paths[k].At(x)
		if d := math.Hypot(p.Y-q.Y, p.Z-q.Z) - (r.tendons[i].Duct+r.tendons[k].Duct)/2; d < best.clear {
			best = gapAt{d, x, math.Abs(p.Z-q.Z) > math.Abs(p.Y-q.Y)}
		}
	}
	return best
}

// nearestDuct puts the nearest other duct into a question; false where there is
// none.
func (r *run) nearestDuct(i int, q *limits.Question) bool {
	best, places := gapAt{clear: math.Inf(1)}, r.girder.placesOf(r.paths[i])
	for k := range r.tendons {
		if k == i || r.tendons[i].Duct == 0 || r.tendons[k].Duct == 0 || r.tendons[k].External || r.tendons[i].External {
			continue
		}
		if g := r.gapAmong(i, k, places); g.clear < best.clear {
			best = g
			q.Neighbour, q.Above = &r.tendons[k], g.above
		}
	}
	return !math.IsInf(best.clear, 1)
}

// pointWords is a point of the section in words.
func pointWords(p section.Point) string {
	return strings.ReplaceAll(fmt.Sprintf("y = %.3f m, z = %.3f m", p.Y, p.Z), "-", "−")
}
