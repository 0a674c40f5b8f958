package redistribution

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/concrete"
)

// Part is a length of beam of one concrete and one section. It begins at the end of the
// one before; a section that varies is several parts.
type Part struct {
	To       float64            // m, its right end; 0 in the last part = end of the beam
	Concrete concrete.TimeModel // with its Exposure
	Cast     float64            // day on which it was cast, before Loaded; before Changed where no Body has a moment, as in a closure pour
	Inertia  float64            // second moment of area, m⁴
}

// Staged is a beam whose parts have different ages and that becomes another
// system on a day. It carries one load that began on one day; loads of several
// days are marched one by one and added.
type Staged struct {
	Parts   []Part      // from left to right
	Final   beam.Layout // length, supports and hinges after the change; its Stiffness and settlements are not read
	Before  []Body      // the load in the system in which it began to act, from left to right; no moment between them
	Loaded  float64     // day on which it began
	Changed float64     // day of the change of system
	Until   float64     // day asked for
}

// Moved is the result of creep up to the day asked for.
type Moved struct {
	// Reactions are the changes of the reactions of the final system, in the order of
	// its supports (N, N·m); they balance each other.
	Reactions []beam.Reaction

	cells []cell
}

// cell is a length on which the moment before is one polynomial and the restraint
// is linear.
type cell struct {
	from, to   float64
	part       int
	before     loads.Polynomial // N·m in s = x − from
	start, end float64          // restraint moment at its ends, N·m
	steps      [][2]float64     // changes of start and end, by step
}

// March is the redistribution by superposition in time, as [Change.Stepwise]
// with a concrete of its own age in every part: in each step the parts bend by
// what their moments creep, and the final system, with the stiffness its
// concretes have in that step, sets moments against it. Nothing stops the
// moments at those of the final system, as [Change.Stepwise] does: with a model
// whose creep falls much with the age at loading they can pass them, which
// creep does not do. The error wraps
// [ErrRedistribution], [concrete.ErrConcrete] or [beam.ErrBeam].
func (s Staged) March(steps int) (*Moved, error) {
	if err := s.check(steps); err != nil {
		return nil, err
	}
	layout := s.Final
	layout.Supports = slices.Clone(layout.Supports)
	for i := range layout.Supports {
		layout.Supports[i].Settlement = 0
	}
	moved := &Moved{Reactions: make([]beam.Reaction, len(layout.Supports))}
	for i, support := range layout.Supports {
		moved.Reactions[i].At = support.At
	}
	var err error
	if moved.cells, err = s.cells(); err != nil {
		return nil, err
	}
	if err := s.checkYoung(moved.cells); err != nil {
		return nil, err
	}
	if s.Until == s.Changed {
		return moved, nil
	}
	days, err := concrete.StepDays(s.Changed, s.Until, steps)
	if err != nil {
		return nil, err
	}
	histories, err := s.histories(days)
	if err != nil {
		return nil, err
	}
	for i := 1; i < len(days); i++ {
		layout.Stiffness = s.stiffness(histories, i)
		b, err := beam.New(layout)
		if err != nil {
			return nil, err
		}
		response, err := b.Solve(moved.creeping(s.Parts, histories, i))
		if err != nil {
			return nil, err
		}
		moved.take(response)
	}
	return moved, nil
}

func (s Staged) check(steps int) error {
	switch {
	case len(s.Parts) == 0:
		return fmt.Errorf("%w: Staged.Parts is empty: must have at least one", ErrRedistribution)
	case !(s.Loaded >= -1e6 && s.Until <= 1e6):
		return fmt.Errorf("%w: Staged.Loaded = %g d, Until = %g d: must be days from −1e6 to 1e6 d", ErrRedistribution, s.Loaded, s.Until)
	case !(s.Changed >= s.Loaded && s.Until >= s.Changed && s.Until-s.Loaded <= 1e6):
		return fmt.Errorf("%w: Staged.Loaded = %g d, Changed = %g d, Until = %g d: must be in this order, 1e6 d in all", ErrRedistribution, s.Loaded, s.Changed, s.Until)
	case steps < 1 || steps > 2000:
		return fmt.Errorf("%w: steps = %d: must be 1 to 2000", ErrRedistribution, steps)
	}
	for i, support := range s.Final.Supports {
		if support.Contact {
			return fmt.Errorf("%w: Final.Supports[%d] at %g m can lift off: must be supports without Contact, as creep is superposed", ErrRedistribution, i, support.At)
		}
	}
	if err := s.checkBefore(); err != nil {
		return err
	}
	from := 0.0
	for i := range s.Parts {
		p, to := s.Parts[i], s.end(i)
		switch {
		case concrete.Missing(p.Concrete):
			return fmt.Errorf("%w: Parts[%d].Concrete is missing: must be a model with its Exposure", ErrRedistribution, i)
		case !(to > from+nearest && to <= s.Final.Length+nearest):
			return fmt.Errorf("%w: Parts[%d].To = %g m: must be above %g m, up to %g m", ErrRedistribution, i, to, from, s.Final.Length)
		case !(p.Inertia > 0 && p.Inertia <= 1e6):
			return fmt.Errorf("%w: Parts[%d].Inertia = %g m⁴: must be above 0 to 1e6 m⁴", ErrRedistribution, i, p.Inertia)
		case !(p.Cast >= -1e6 && p.Cast < s.Changed):
			return fmt.Errorf("%w: Parts[%d].Cast = %g d: must be from −1e6 d to before the change, %g d", ErrRedistribution, i, p.Cast, s.Changed)
		}
		from = to
	}
	if from < s.Final.Length-nearest {
		return fmt.Errorf("%w: Parts end at %g m: must be the end of the beam, %g m", ErrRedistribution, from, s.Final.Length)
	}
	return nil
}

// checkYoung refuses a part that was cast after the load began and carries it.
func (s Staged) checkYoung(cells []cell) error {
	sizes, largest := make([]float64, len(s.Parts)), 0.0
	for _, c := range cells {
		for n := range 9 {
			m := math.Abs(c.before.At((c.to - c.from) * float64(n) / 8))
			sizes[c.part], largest = math.Max(sizes[c.part], m), math.Max(largest, m)
		}
	}
	for i, p := range s.Parts {
		if p.Cast >= s.Loaded && sizes[i] > unloaded*largest {
			return fmt.Errorf("%w: Parts[%d].Cast = %g d: must be before the load, %g d, as a Body has up to %.4g N·m there", ErrRedistribution, i, p.Cast, s.Loaded, sizes[i])
		}
	}
	return nil
}

// unloaded is the rounding of the moments of a response, as a fraction of the
// largest one: below it there is no moment.
const unloaded = 1e-9

// end is the right end of part i (m).
func (s Staged) end(i int) float64 {
	if to := s.Parts[i].To; to != 0 || i < len(s.Parts)-1 {
		return to
	}
	return s.Final.Length
}

// cells cuts the beam where a part, a law of the moment before, a support or a
// hinge ends.
func (s Staged) cells() ([]cell, error) {
	laws, err := s.laws()
	if err != nil {
		return nil, err
	}
	var all []float64
	for i := range s.Parts {
		all = append(all, s.end(i))
	}
	for _, law := range laws {
		all = append(all, law.from, law.to)
	}
	for _, support := range s.Final.Supports {
		all = append(all, support.At)
	}
	all = ascending(append(all, s.Final.Hinges...), s.Final.Length)
	cells := make([]cell, len(all)-1)
	part := 0
	for i := range cells {
		c := cell{from: all[i], to: all[i+1]}
		middle := (c.from + c.to) / 2
		for s.end(part) < middle && part < len(s.Parts)-1 {
			part++
		}
		c.part = part
		for _, law := range laws {
			if law.from < middle && middle < law.to {
				for k, coefficient := range interpolated(c.from, c.to, law.at) {
					c.before[k] += coefficient
				}
			}
		}
		cells[i] = c
	}
	return cells, nil
}
