package redistribution

import (
	"reflect"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/concrete"
)

// history is what the concrete of a part does over the steps.
type history struct {
	old  []float64 // strain of the load before the change, from the first day to each, 1/Pa
	time *concrete.Superposition
}

// histories are those of all parts; parts of one concrete cast on one day share
// theirs.
func (s Staged) histories(days []float64) ([]*history, error) {
	all := make([]*history, len(s.Parts))
	for p, part := range s.Parts {
		if twin := slices.IndexFunc(s.Parts[:p], func(q Part) bool { return q.Cast == part.Cast && reflect.DeepEqual(q.Concrete, part.Concrete) }); twin >= 0 {
			all[p] = all[twin]
			continue
		}
		ages := make([]float64, len(days))
		for i, day := range days {
			ages[i] = day - part.Cast
		}
		old := make([]float64, len(days)) // cast later than the load: it carries none of it
		if part.Cast < s.Loaded {
			var err error
			if old, err = creeping(part.Concrete, s.Loaded-part.Cast, ages); err != nil {
				return nil, err
			}
		}
		time, err := concrete.Superpose(part.Concrete, part.Cast, days)
		if err != nil {
			return nil, err
		}
		all[p] = &history{old, time}
	}
	return all, nil
}

// stiffness is EI of the parts for a change of moment in step i.
func (s Staged) stiffness(histories []*history, i int) []beam.Stretch {
	stretches := make([]beam.Stretch, len(s.Parts))
	for p, part := range s.Parts {
		stretches[p] = beam.Stretch{To: s.end(p), BendingStiffness: part.Inertia / histories[p].time.Strain(i, i, 1)}
	}
	stretches[len(stretches)-1].To = 0
	return stretches
}

// creeping is the curvature by which the cells bend in step i under all moments
// that they carry from before.
func (m *Moved) creeping(parts []Part, histories []*history, i int) loads.Set {
	set := loads.Set{Curvatures: make([]loads.Curvature, len(m.cells))}
	for n := range m.cells {
		c := &m.cells[n]
		h, inertia := histories[c.part], parts[c.part].Inertia
		curvature := c.before.Scaled((h.old[i] - h.old[i-1]) / inertia)
		start, end := 0.0, 0.0
		for j, step := range c.steps {
			grown := (h.time.Strain(i, j+1, 1) - h.time.Strain(i-1, j+1, 1)) / inertia
			start, end = start+step[0]*grown, end+step[1]*grown
		}
		curvature[0] += start
		curvature[1] += (end - start) / (c.to - c.from)
		set.Curvatures[n] = loads.Curvature{From: c.from, To: c.to, Value: curvature}
	}
	return set
}

// take adds the changes of one step.
func (m *Moved) take(r *beam.Response) {
	for n := range m.cells {
		c := &m.cells[n]
		step := [2]float64{r.At(c.from, beam.RightOf).Moment, r.At(c.to, beam.LeftOf).Moment}
		c.steps = append(c.steps, step)
		c.start += step[0]
		c.end += step[1]
	}
	for i, reaction := range r.Reactions {
		m.Reactions[i].Force += reaction.Force
		m.Reactions[i].Moment += reaction.Moment
	}
}

// Moment is the moment at x after creep (N·m, sagging positive); 0 where there is no
// beam.
func (m *Moved) Moment(x float64) float64 {
	if c := m.cell(x); c != nil {
		return c.before.At(x-c.from) + c.restraint(x)
	}
	return 0
}

// Restraint is the part of Moment from creep (N·m, sagging positive); 0 where there is
// no beam.
func (m *Moved) Restraint(x float64) float64 {
	if c := m.cell(x); c != nil {
		return c.restraint(x)
	}
	return 0
}

func (c *cell) restraint(x float64) float64 {
	return c.start + (c.end-c.start)*(x-c.from)/(c.to-c.from)
}

// cell is the cell that holds x, the right one at a joint; nil off the beam.
func (m *Moved) cell(x float64) *cell {
	if m == nil {
		return nil
	}
	for i := len(m.cells) - 1; i >= 0; i-- {
		if c := &m.cells[i]; x >= c.from && x <= c.to {
			return c
		}
	}
	return nil
}
