package segmental

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Plan is the deck built by steps: a stage for each step, a situation for each move. The
// deck stands on supports on (fixed ones at piers from which it is built out) until a move
// has others. The error wraps [ErrSegmental] and names step, move, segment and joint: a
// step out of order, a segment below its strength, a tendon whose joints do not exist yet,
// bars that are taken out while nothing else presses their joint.
func (d Deck) Plan(on []stages.Support, steps ...Step) (stages.Plan, error) {
	return d.plan(on, func(int, int, *state, Move) {}, steps...)
}

// plan is Plan; made is called for each move with the state after it.
func (d Deck) plan(on []stages.Support, made func(step, move int, after *state, m Move), steps ...Step) (stages.Plan, error) {
	girder, err := d.Girder()
	if err != nil {
		return nil, err
	}
	if len(steps) == 0 {
		return nil, fmt.Errorf("%w: deck %q is built by no step: must be at least one", ErrSegmental, d.Mark)
	}
	s := d.begin(on)
	if s.paths, err = paths(girder); err != nil {
		return nil, err
	}
	var plan stages.Plan
	barsOut := barsTakenOut(steps)
	for i, step := range steps {
		name := step.title(i)
		if len(step.Moves) == 0 {
			return nil, fmt.Errorf("%w: %s has no move: must have at least one", ErrSegmental, name)
		}
		built := builtStep{name: name}
		for k, m := range step.Moves {
			situation, err := s.move(step, m)
			if err != nil {
				return nil, fmt.Errorf("%w: %s, move %d, %s: %w", ErrSegmental, name, k+1, m.Do, err)
			}
			situation.Name = name + ": " + m.words()
			after := s.snapshot()
			made(i, k, after, m)
			situation.Check = func(e stages.Effects, standard limits.Standard) ([]stages.OwnCheck, error) {
				list, err := after.checks(m, girder, e, standard)
				if err != nil {
					return nil, fmt.Errorf("%s: %w", m.words(), err)
				}
				return list, nil
			}
			situation.Equip = func(e stages.Effects, standard limits.Standard) ([]stages.EquipmentItem, error) {
				return after.items(m, girder, e, standard, barsOut)
			}
			built.situations = append(built.situations, situation)
		}
		plan = append(plan, built)
	}
	return plan, nil
}

// builtStep is a step as a stage.
type builtStep struct {
	name       string
	situations []stages.Situation
}

// Situations are those of its moves.
func (b builtStep) Situations(stages.History) ([]stages.Situation, error) {
	return slices.Clone(b.situations), nil
}

// title is the name of step i.
func (s Step) title(i int) string {
	if s.Name != "" {
		return s.Name
	}
	return fmt.Sprintf("step %d", i+1)
}

// snapshot is the state as it is now.
func (s *state) snapshot() *state {
	c := *s
	c.carried, c.joined, c.pressed, c.closed = slices.Clone(s.carried), slices.Clone(s.joined), slices.Clone(s.pressed), slices.Clone(s.closed)
	c.frames, c.supports = slices.Clone(s.frames), slices.Clone(s.supports)
	return &c
}

// move makes a move and gives its situation.
func (s *state) move(step Step, m Move) (stages.Situation, error) {
	day := m.Day
	if day == 0 {
		day = step.Day
	}
	if day < s.day {
		return stages.Situation{}, fmt.Errorf("on day %g: must not be before the previous move, day %g", day, s.day)
	}
	s.day = day
	q := stages.Situation{Day: day, Until: m.Until, Standing: true, Brief: !m.Derive, Phase: limits.Seating, Covered: m.Covered}
	does := map[Doing]func(Move, *stages.Situation) error{
		Lift: s.lift, Attach: s.attach, Erect: s.erect, Stress: s.stress, Remove: s.remove, Set: s.set, Advance: s.set, Clear: s.clear,
		Grout: s.grout, Place: s.place, Pour: s.pour, Close: s.close, Support: s.support, Wait: s.wait,
	}[m.Do]
	if does == nil {
		return q, fmt.Errorf("field Do = %q: must be one of %q", m.Do, Doings())
	}
	if err := does(m, &q); err != nil {
		return q, err
	}
	if err := s.pressedJoints(); err != nil {
		return q, err
	}
	q.Actions = append(append(q.Actions, m.Actions...), s.working()...)
	q.Off = append(q.Off, m.Off...)
	q.Supports = slices.Clone(s.supports)
	if m.Until > s.day {
		s.day = m.Until
	}
	return q, nil
}

// lift hangs a segment before the tip.
func (s *state) lift(m Move, q *stages.Situation) error {
	i, err := s.next(m)
	if err != nil {
		return err
	}
	if err := s.strong(i); err != nil {
		return err
	}
	f, err := s.frame(m, i)
	if err != nil || f == nil {
		return err
	}
	hung, err := s.hung(*f, i)
	if err != nil {
		return err
	}
	least, most, err := s.deck.Dynamic.Range()
	if err != nil {
		return err
	}
	low, high, err := s.deck.Segments[i].Element.WeightTolerance.Range()
	if err != nil {
		return err
	}
	q.Actions = append(q.Actions, stages.Action{Mark: hungMark(m), Kind: limits.Equipment, Least: min(0, least*low), Most: most * high, Loads: loads.Set{Points: hung}})
	return nil
}

// strong refuses a segment that has not the strength to be lifted.
func (s *state) strong(i int) error {
	g := s.deck.Segments[i]
	age := s.day - g.Element.Cast
	if !(age > 0) {
		return fmt.Errorf("segment %s is lifted at age %g d: must have been cast before", g.Element.Mark, age)
	}
	of, err := g.Element.Concrete.At(age)
	if err != nil {
		return fmt.Errorf("segment %s at age %g d: %w", g.Element.Mark, age, err)
	}
	if of.Characteristic < g.Strength {
		return fmt.Errorf("segment %s has a characteristic strength of %.1f MPa at age %g d: must have at least %.1f MPa to be lifted, to joint %s", g.Element.Mark, of.Characteristic/1e6, age, g.Strength/1e6, s.jointOf(i))
	}
	return nil
}

// hungMark is the mark of a segment on the hook of a frame.
func hungMark(m Move) string { return "segment " + m.Segments[0] + " on frame " + m.Frame }

// hung are the forces on the feet of a frame by a segment that hangs on it at its place.
func (s *state) hung(f standing, i int) ([]loads.Point, error) {
	m, err := s.deck.weight(i)
	if err != nil {
		return nil, err
	}
	before := (m.X - s.deck.tip(f.at, f.arm)) * float64(f.arm)
	return s.deck.onFeet(f.frame, f.at, f.arm, m.Weight, before), nil
}

// attach joins a segment to the tip; the hoist may still carry it.
func (s *state) attach(m Move, q *stages.Situation) error {
	i, err := s.next(m)
	if err != nil {
		return err
	}
	f, err := s.frame(m, i)
	if err != nil {
		return err
	}
	s.carried[i] = true
	s.joined[max(i, s.inner(i))], s.closed[max(i, s.inner(i))] = true, s.day
	q.Events = append(q.Events, stages.Event{Add: m.Segments, Join: m.Segments})
	if j := s.deck.jacking(i); j != nil {
		s.pressed[i] = true
		q.Events = append(q.Events, stages.Event{Jack: j})
		q.Phase = limits.Stressing
	}
	hoist, err := s.hoist(f, i)
	q.Actions = append(q.Actions, hoist)
	return err
}

// hoistMark is the mark of the hoist on a segment.
func hoistMark(segment string) string { return "hoist of " + segment }

// hoist is what still carries a segment that is joined: present or absent.
func (s *state) hoist(f *standing, i int) (stages.Action, error) {
	m, err := s.deck.weight(i)
	if err != nil {
		return stages.Action{}, err
	}
	points := []loads.Point{{At: m.X, Force: -m.Weight}}
	if f != nil {
		hung, err := s.hung(*f, i)
		if err != nil {
			return stages.Action{}, err
		}
		points = append(points, hung...)
	}
	return stages.Action{Mark: hoistMark(s.deck.Segments[i].Element.Mark), Kind: limits.Equipment, Loads: loads.Set{Points: points}}, nil
}
