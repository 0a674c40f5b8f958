package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/beam"
)

// rise is how far each support of an arrangement goes up as 1 N leaves a second member at a
// place (m/N): 0 for those that are not on it.
func (a *arrangement) rise(link *beam.Link, x float64) ([]float64, error) {
	list := make([]float64, len(a.supports))
	if link == nil {
		return list, nil
	}
	member, err := beam.New(link.Layout)
	if err != nil {
		return nil, fmt.Errorf("in Link %q: %w", link.Name, err)
	}
	line, err := member.DeflectionInfluence(x - link.At) // upwards under 1 N downwards
	if err != nil {
		return nil, fmt.Errorf("in Link %q at x = %g m: %w", link.Name, x, err)
	}
	for i, s := range a.supports {
		if s.Link != nil && s.Link.Name == link.Name {
			list[i] = -line.At(s.X-link.At, beam.RightOf)
		}
	}
	return list, nil
}

// springsBack is how far the supports of an arrangement go up as others give away what they
// have of an entry: what pulled on their second member pulls no longer. It is worked out when
// it is asked for, as the forces are known then; nil where no second member is left.
func (r *run) springsBack(a *arrangement, e *entry, now []givenAway) (func() []float64, error) {
	if !a.elastic {
		return nil, nil
	}
	gone := map[int][]float64{}
	for i, s := range e.of.supports {
		if !now[i].force || s.Link == nil {
			continue
		}
		up, err := a.rise(s.Link, s.X)
		if err != nil {
			return nil, err
		}
		if some(up) {
			gone[i] = up
		}
	}
	if len(gone) == 0 {
		return nil, nil
	}
	return func() []float64 {
		level := make([]float64, len(a.supports))
		answer, err := r.answer(e.of, e.of.ways[0], e.load, e.state)
		if err != nil { // answered where the entry was made
			return level
		}
		for i := range e.of.supports { // in order, so that sums are the same each time
			for k, up := range gone[i] {
				level[k] += up * e.coefficient * answer.vertical[i]
			}
		}
		return level
	}, nil
}

// some is true for a list with a number other than 0.
func some(list []float64) bool {
	for _, v := range list {
		if v != 0 {
			return true
		}
	}
	return false
}

// beside are the entries by which bodies other than the one of an entry go up with the second
// members that its supports have left.
func (p *progress) beside(s *situation, on *arrangement, e *entry, now []givenAway) (list []entry, err error) {
	for b, a := range s.acts {
		if a == on {
			continue
		}
		rise, err := p.run.springsBack(a, e, now)
		if err != nil {
			return nil, err
		}
		if rise != nil {
			l := &load{name: e.name + ", handed over", at: noLoads, rise: rise}
			list = append(list, entry{l.name, a, l, s.states[b], 1, e.inner, e.outer, e.mean, nil})
		}
	}
	return list, nil
}

// bent are the levels of supports that stay as the forces of others on their second member
// change by a preload: those are not adjusted anew.
func (p *progress) bent(a *arrangement, l *load) error {
	for i, q := range a.supports {
		if l.preload[i] == 0 || q.Link == nil {
			continue
		}
		up, err := a.rise(q.Link, q.X)
		if err != nil {
			return err
		}
		for k, s := range a.supports {
			if k != i && !s.Held && p.before(s) != nil {
				l.level[k] -= up[k] * l.preload[i]
			}
		}
	}
	return nil
}

// springs are the levels of supports as an action takes its forces off a second member.
func (p *progress) springs(s *situation, a *arrangement, of *Action) ([]float64, error) {
	if of.Link == nil {
		return nil, nil
	}
	for _, o := range s.acts {
		if o != a && o.elastic && slices.ContainsFunc(o.links(), func(l beam.Link) bool { return l.Name == of.Link.Name }) {
			return nil, fmt.Errorf("in Actions: %s takes load off Link %q, which carries another body that shares by its stiffness: must be one body", of.Mark, of.Link.Name)
		}
	}
	if !a.elastic {
		return nil, nil
	}
	level := make([]float64, len(a.supports))
	for _, q := range of.Loads.Points {
		up, err := a.rise(of.Link, q.At)
		if err != nil {
			return nil, fmt.Errorf("in Actions: %s: %w", of.Mark, err)
		}
		for k := range level {
			level[k] += up[k] * q.Force
		}
	}
	return level, nil
}

// levels are those that come with a load: stated, or following from forces found before.
func (l *load) levels() []float64 {
	if l.rise == nil {
		return l.level
	}
	return l.rise()
}
