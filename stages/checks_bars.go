package stages

import (
	"fmt"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// tension is the force in the tension zone of a section and the bars in it.
type tension struct {
	x           float64
	corner      corner
	plane       section.Plane
	force, area float64 // N, m² of concrete in tension
	bars        float64 // m²
}

// ratio is force over bars (Pa): what is made largest.
func (t tension) ratio() float64 { return t.force / t.bars }

// tensionSteel compares the steel that the force in the tension zone needs with
// the bars given there, where they are used most. Where bars run but none lies
// in the tension zone the tension itself is limited.
func (r *run) tensionSteel(s *situation) (checks []Check, notChecked []string, err error) {
	if len(r.element.Bars) == 0 {
		return nil, nil, nil
	}
	q := r.question(s, limits.TensionSteel)
	answers, not, err := r.ask(q) // for the factors; asked again with the zone
	if err != nil || len(answers) == 0 {
		return nil, not, err
	}
	for i := range answers {
		worst, found := r.mostTension(s, r.rangesOf(s, answers[i].Factors))
		if !found {
			continue
		}
		q.TensionZone = limits.TensionZone{Force: worst.force, Bars: worst.bars}
		again, _, err := r.ask(q)
		if err != nil {
			return nil, nil, err
		}
		check, err := r.steelCheck(s, q, again[i], worst)
		if err != nil {
			return nil, nil, err
		}
		checks = append(checks, check)
	}
	return checks, nil, nil
}

// mostTension looks at every node under every corner of factors and refines the
// best on the polynomial through its piece.
func (r *run) mostTension(s *situation, factors ranges) (worst tension, found bool) {
	zones := r.disturbed(s.steps)
	for i := range r.grid {
		p := &r.grid[i]
		if within(p.middle(), zones) {
			continue
		}
		for _, c := range factors.all() {
			var values [nodes]float64
			best := -1
			for k, at := range p.at {
				t := r.tension(s, at, c)
				if t.bars == 0 {
					continue
				}
				values[k] = t.ratio()
				if t.force > 0 && (best < 0 || values[k] > values[best]) {
					best = k
				}
				if t.force > 0 && (!found || t.ratio() > worst.ratio()) {
					worst, found = t, true
				}
			}
			if best < 0 {
				continue
			}
			if x, value := p.peak(values, best); value > worst.ratio() {
				if t := r.tension(s, r.at(x), c); t.bars > 0 && t.ratio() > worst.ratio() {
					worst = t
				}
			}
		}
	}
	return worst, found
}

// tension is the tension zone of a station under a corner of factors.
func (r *run) tension(s *situation, at *station, c corner) tension {
	t := tension{x: at.x, corner: c, plane: r.basis(s, at).under(c)}
	t.force, t.area = at.shape.TensionForce(t.plane)
	for _, b := range r.element.Bars {
		if b.From <= at.x && at.x <= b.To && t.plane.At(b.At) > 0 {
			t.bars += b.Area
		}
	}
	return t
}

func (r *run) steelCheck(s *situation, q limits.Question, limit limits.Limit, worst tension) (Check, error) {
	if limit.BarStress.Value <= 0 {
		return Check{}, fmt.Errorf("%w: %s: Limit.BarStress = %g Pa: allowed positive", limits.ErrLimits, q.Kind, limit.BarStress.Value)
	}
	d := r.newDerivation(s, worst.x)
	point, most := d.at.corners[0], 0.0
	for _, c := range d.at.corners {
		if stress := worst.plane.At(c); stress > most {
			point, most = c, stress
		}
	}
	d.stress(point, worst.corner)
	zone := d.given(formula.Q("F_t", worst.force, formula.Newton, fmt.Sprintf("resultant of the tensile stresses, exact over their zone of %.4g m²", worst.area)), formula.Mechanics)
	demand := d.line(formula.Q("A_s_req", 0, formula.SquareMetre, "bonded steel that the tension zone needs"), "F_t/"+limit.BarStress.Symbol, limit.Source, zone, limit.BarStress)
	if d.err != nil {
		return Check{}, d.err
	}
	check := r.finish(s, q, limit, demand, d.lines)
	check.X, check.Place, check.Corner = worst.x, "tension zone", worst.corner.words()
	return check, nil
}
