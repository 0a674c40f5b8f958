package stages

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// supportSums is what every entry gives to supports and to all of their body.
type supportSums struct {
	of     []int // supports
	terms  []ledger.Term
	part   []float64 // N
	totals []float64 // N
}

func (r *run) supportSums(v *variant, a *arrangement, of ...int) (supportSums, error) {
	m := supportSums{of: of}
	for k := range v.current {
		e := &v.current[k]
		answer, err := r.answer(e.of, v.ways[e.of], e.load, e.state)
		if err != nil {
			return m, err
		}
		part, total := 0.0, 0.0
		for j, p := range a.supports {
			if at := e.at(p); at >= 0 {
				force := e.coefficient * answer.vertical[at]
				total += force
				if slices.Contains(of, j) {
					part += force
				}
			}
		}
		m.terms = append(m.terms, ledger.Term{Inner: e.inner, Outer: e.outer})
		m.part, m.totals = append(m.part, part), append(m.totals, total)
	}
	return m, nil
}

// widen makes a range cover the force of supports under the causes, with contact where it
// changes.
func (r *run) widen(v *variant, a *arrangement, m *supportSums, of *Range, causes []ledger.Cause) error {
	corners, err := r.contacts(v, causes)
	if err != nil {
		return err
	}
	if corners = ofBody(corners, a); len(corners) == 0 {
		return m.widen(of, causes)
	}
	for _, c := range corners {
		force := 0.0
		for _, i := range m.of {
			force += c.vertical[a][i]
		}
		of.Least, of.Most = math.Min(of.Least, force), math.Max(of.Most, force)
	}
	return nil
}

// ofBody are the corners at which the contact of a body is followed; that of another does
// not change its forces.
func ofBody(corners []contactCorner, a *arrangement) (list []contactCorner) {
	for _, c := range corners {
		if c.vertical[a] != nil {
			list = append(list, c)
		}
	}
	return list
}

// widen makes a range cover the force under the causes.
func (m *supportSums) widen(of *Range, causes []ledger.Cause) error {
	c, err := ledger.NewCombination(causes, m.terms)
	if err != nil {
		return err
	}
	sums := make([]float64, c.Columns())
	for k := range c.Corners() {
		c.Sums(sums, k, m.part)
		of.Least = math.Min(of.Least, c.Extreme(sums, -1))
		of.Most = math.Max(of.Most, c.Extreme(sums, 1))
	}
	return nil
}

// shares makes a range cover the share of supports in the total at rest, with contact where
// it changes; false where there is no total to share.
func (r *run) shares(v *variant, a *arrangement, m *supportSums, of *Range, so bool) (bool, error) {
	causes := r.atRest(v.situation)
	corners, err := r.contacts(v, causes)
	if err != nil || !so {
		return false, err
	}
	if corners = ofBody(corners, a); len(corners) == 0 {
		return m.shares(of, causes), nil
	}
	for _, c := range corners {
		vertical, total := c.vertical[a], 0.0
		for _, force := range vertical {
			total += force
		}
		if !(total > 0) {
			return false, nil
		}
		part := 0.0
		for _, i := range m.of {
			part += vertical[i] / total
		}
		of.Least, of.Most = math.Min(of.Least, part), math.Max(of.Most, part)
	}
	return true, nil
}

// shares makes a range cover the share of the total; false where the total is not
// positive under all factors.
func (m *supportSums) shares(of *Range, causes []ledger.Cause) bool {
	c, err := ledger.NewCombination(causes, m.terms)
	if err != nil {
		return false
	}
	pairs, sums := make([]r2.Vec, len(m.terms)), make([]r2.Vec, c.Columns())
	for i := range pairs {
		pairs[i] = r2.Vec{X: m.part[i], Y: m.totals[i]}
	}
	var reach ledger.Reach
	for k := range c.Corners() {
		c.Pairs(sums, k, pairs)
		low, ok := c.Share(nil, k, &reach, sums, -1)
		high, also := c.Share(nil, k, &reach, sums, 1)
		if !ok || !also {
			return false
		}
		of.Least, of.Most = math.Min(of.Least, low), math.Max(of.Most, high)
	}
	return true
}
