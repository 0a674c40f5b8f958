package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// tendonChecks are those of the tendons that a situation stresses; of each kind
// the worst tendon stands for all.
func (r *run) tendonChecks(s *situation) (checks []Check, notChecked []string, err error) {
	for _, kind := range []limits.Kind{limits.JackStress, limits.LockOffStress, limits.StressingStrength, limits.AnchorSpacing, limits.AnchorEdge} {
		var worst *Check
		for _, i := range r.stressedIn(s) {
			q := r.question(s, kind)
			q.Tendon = &r.element.Tendons[i]
			answers, not, err := r.ask(q)
			if err != nil {
				return nil, nil, err
			}
			notChecked = append(notChecked, not...)
			for _, limit := range answers {
				check, ok, err := r.tendonCheck(s, q, limit, i)
				if err != nil {
					return nil, nil, err
				}
				if ok && (worst == nil || check.worse(*worst)) {
					worst = &check
				}
			}
		}
		if worst != nil {
			checks = append(checks, *worst)
		}
	}
	return checks, notChecked, nil
}

// stressedIn are the tendons stressed in a situation, in order.
func (r *run) stressedIn(s *situation) []int {
	var list []int
	for _, step := range r.steps[s.from:s.steps] {
		if !step.release {
			list = append(list, step.tendons...)
		}
	}
	return list
}

// tendonCheck is one check of one tendon; ok is false where there is nothing to
// compare, e.g. the spacing of a single anchor.
func (r *run) tendonCheck(s *situation, q limits.Question, limit limits.Limit, i int) (check Check, ok bool, err error) {
	f, t := r.forces[i], r.element.Tendons[i]
	d := &derivation{}
	var demand formula.Quantity
	x, place := r.paths[i].From(), "tendon "+t.Mark
	switch q.Kind {
	case limits.JackStress:
		demand = formula.Q("σ_0", f.Jacking.Stress, formula.Pascal, "stress at the jack")
		d.given(demand, formula.Source{Document: "input", Place: "jacking of tendon " + t.Mark})
		place += ", " + f.Jacking.Ends.String()
	case limits.LockOffStress:
		_, x = f.Largest()
		lines, err := f.Derivation(x, "")
		if err != nil {
			return check, false, err
		}
		d.lines = lines
		demand = d.line(formula.Q("σ_pm0", 0, formula.Pascal, "largest stress along the tendon after locking off"), "P/A_p", formula.Mechanics,
			lines[len(lines)-1].Result, formula.Q("A_p", t.Area(), formula.SquareMetre, "area of the strands"))
	case limits.StressingStrength:
		demand = formula.Q("f_cm_t", s.concrete.Mean, formula.Pascal, "mean cylinder strength at the age")
		for _, line := range s.concrete.Derivation {
			d.lines = append(d.lines, line)
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
		d.given(demand, formula.Source{Document: "input", Place: "tendon paths"})
	case limits.AnchorEdge:
		edge, at := r.anchorEdge(i)
		x = at
		demand = formula.Q("c", edge, formula.Metre, "distance of the anchor centre from the edge of the concrete")
		d.given(demand, formula.Source{Document: "input", Place: "tendon path and outline"})
	}
	if d.err != nil {
		return check, false, d.err
	}
	check = r.finish(s, q, limit, demand, d.lines)
	check.X, check.Place = x, place
	return check, true, nil
}

// nearestAnchor is the least distance between the anchors of a tendon and those
// of others that face the same way, less than the asked spacing apart in x.
func (r *run) nearestAnchor(i int) (spacing float64, beside string, x float64) {
	spacing = math.Inf(1)
	mine, near := r.paths[i], r.element.Tendons[i].Approval.AnchorSpacing
	for k, path := range r.paths {
		if k == i {
			continue
		}
		for _, ends := range [][2]float64{{mine.From(), path.From()}, {mine.To(), path.To()}} {
			p, q := mine.At(ends[0]), path.At(ends[1])
			if d := math.Hypot(p.Y-q.Y, p.Z-q.Z); math.Abs(ends[0]-ends[1]) < near && d < spacing {
				spacing, beside, x = d, r.element.Tendons[k].Mark, ends[0]
			}
		}
	}
	return spacing, beside, x
}

// anchorEdge is the least distance of the anchors of a tendon from the edge.
func (r *run) anchorEdge(i int) (edge, x float64) {
	path := r.paths[i]
	edge = math.Inf(1)
	for _, a := range []float64{path.From(), path.To()} {
		if c := r.element.Section.At(a).Clearance(path.At(a)); c < edge {
			edge, x = c, a
		}
	}
	return edge, x
}

// events are the events of a situation.
func (s *situation) events() []Group {
	groups := []Group{}
	given := formula.Source{Document: "input"}
	for _, e := range s.Events {
		if e.Jack != nil {
			groups = append(groups, Group{
				Title: fmt.Sprintf("stress %s, jacked at %s", strings.Join(e.Jack.Tendons, ", "), e.Jack.Ends),
				Lines: []formula.Line{
					formula.Given(formula.Q("σ_0", e.Jack.Stress, formula.Pascal, "stress at the jack"), given),
					formula.Given(formula.Q("w", e.Jack.DrawIn, formula.Metre, "draw-in at each jacked anchor"), given),
				},
			})
		}
		if len(e.Release) > 0 {
			groups = append(groups, Group{Title: "release " + strings.Join(e.Release, ", ") + ": let down and taken out", Lines: []formula.Line{}})
		}
		if len(e.Grout) > 0 {
			groups = append(groups, Group{Title: "grout " + strings.Join(e.Grout, ", ") + ": bonded from here on", Lines: []formula.Line{}})
		}
	}
	return groups
}

// tendonForces are the mean forces of the tendons stressed so far.
func (r *run) tendonForces(s *situation) []TendonForce {
	list := []TendonForce{}
	for i, path := range r.paths {
		t := TendonForce{Mark: r.element.Tendons[i].Mark, Bonded: slices.Contains(s.grouted, r.element.Tendons[i].Mark)}
		area := r.element.Tendons[i].Area()
		force := func(x float64) float64 { return r.at(x).force(s, i, area) }
		t.Left, t.Middle, t.Right = force(path.From()), force((path.From()+path.To())/2), force(path.To())
		if t.Left == 0 {
			continue // not stressed yet, or released
		}
		t.Losses = r.losses(s, i, (path.From()+path.To())/2)
		for k := range r.grid {
			for _, n := range []int{0, nodes / 2, nodes - 1} {
				if at := r.grid[k].at[n]; at.tendons[i].here {
					t.Along = append(t.Along, [2]float64{at.x, at.force(s, i, area)})
				}
			}
		}
		list = append(list, t)
	}
	return list
}

// losses are the parts of the loss of a tendon at x.
func (r *run) losses(s *situation, i int, x float64) tendon.Losses {
	at, f, area := r.at(x), r.forces[i], r.element.Tendons[i].Area()
	var l tendon.Losses
	if at.longTerm != nil {
		l = at.longTerm[s.index].losses[i]
	}
	l.Friction = f.Jacking.Stress - f.AtJack(x)/area
	l.DrawIn = (f.AtJack(x) - f.At(x)) / area
	l.Elastic = (f.At(x) - at.steps[s.steps].force[i]) / area
	return l
}

// pointWords is a point of the section in words.
func pointWords(p section.Point) string {
	return strings.ReplaceAll(fmt.Sprintf("y = %.3f m, z = %.3f m", p.Y, p.Z), "-", "−")
}
