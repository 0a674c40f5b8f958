package segmental

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages"
)

// moved is a deflection, or a slope: all of it, and the part by creep in it.
type moved struct{ all, creep float64 }

func (m moved) plus(o moved, factor float64) moved {
	return moved{m.all + factor*o.all, m.creep + factor*o.creep}
}

// straight is a straight line: the movement of a segment without deformation.
type straight struct{ start, slope moved }

func (s straight) at(x float64) moved { return s.start.plus(s.slope, x) }

// follower follows the joints of a deck through its plan, in one frame of reference. A
// movement of the engine is referred to the supports of its situation; when these change,
// the deck is where it was before: new supports are set to it. What lies between both is a
// straight line for each segment.
type follower struct {
	casting Casting
	deck    Deck
	a       *stages.Analysis
	slow    bool // a segment creeps: a situation that lasts is two
	state   *state
	rigid   []straight // of each segment
	set     []moved    // of each joint: deflection when its form was set
	angle   []float64  // of each joint, form reset
	formed  []func()   // work out the angles when all cambers are known
	seen    []snapshot

	attached []bool // of each segment: in this step
}

// snapshot is the deck after a move.
type snapshot struct {
	step, move int
	name       string
	day        float64
	equipment  string
	carried    []bool
	attached   []bool // of each segment: in the step so far
	joints     []moved
}

// follow follows all moves.
func (c Casting) follow(d Deck, a *stages.Analysis, on []stages.Support, steps []Step) (*follower, error) {
	n := len(d.Segments)
	f := &follower{casting: c, deck: d, a: a, state: d.begin(on), rigid: make([]straight, n), set: make([]moved, n+1), angle: make([]float64, n+1)}
	f.slow = slices.ContainsFunc(d.Segments, func(s Segment) bool { return s.Element.LongTerm != nil })
	if len(steps) == 0 {
		return nil, fmt.Errorf("it is built by no step: must be at least one")
	}
	for i, step := range steps {
		if err := f.shift(i + 1); err != nil {
			return nil, fmt.Errorf("%s: %w", step.title(i), err)
		}
		number := 0
		f.attached = make([]bool, n)
		for k, m := range step.Moves {
			name := step.title(i) + ": " + m.words()
			q, err := f.state.move(step, m)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			number++
			if err := f.see(i+1, number, name, m); err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			if f.slow && m.Until > max(0, q.Day) {
				number++ // the same at its end
			}
			if k == len(step.Moves)-1 || c.EveryMove {
				if err := f.look(i+1, k+1, number, name); err != nil {
					return nil, fmt.Errorf("%s: %w", name, err)
				}
			}
		}
	}
	if _, err := a.Effects(len(steps)+1, 1); err == nil {
		return nil, fmt.Errorf("the analysis has more than %d steps: must be that of the plan of these steps", len(steps))
	}
	return f, nil
}

// effects are those of a situation of the plan, which must be the one of a move.
func (f *follower) effects(step, number int, name string) (stages.Effects, error) {
	e, err := f.a.Effects(step, number)
	if err != nil {
		return e, err
	}
	if e.Situation.Name != name && e.Situation.Name != name+", at its end" {
		return e, fmt.Errorf("the analysis has %q there: must be that of the plan of these steps", e.Situation.Name)
	}
	return e, nil
}

// see takes up what a move changes in the reference, and the form that it sets.
func (f *follower) see(step, number int, name string, m Move) error {
	switch m.Do {
	case Attach:
		i, err := f.deck.index(m.Segments[0])
		if err != nil {
			return err
		}
		inner := f.state.inner(i)
		f.rigid[i], f.attached[i] = f.rigid[inner], true
		if f.casting.Rule == FormReset {
			return f.form(step, number, name, i, inner)
		}
	case Close, Support:
		return f.refer(step, number, name)
	}
	return nil
}

// at are deflection and slope of a body at x, with the straight line of its segment.
func at(m *stages.Movement, line straight, x float64) (deflection, slope moved) {
	crept, creptSlope := m.CreepPart(x)
	up, _ := m.Slopes(x)
	return moved{m.At(x).Deflection, crept}.plus(line.at(x), 1), moved{up, creptSlope}.plus(line.slope, 1)
}

// joint is the deflection of joint j; where the segment that ends there is not carried, on
// the tangent of the tip before it.
func (f *follower) joint(list []*stages.Movement, j int) moved {
	i := f.deck.owner(j)
	x, outer := f.state.at[j], j
	for m := f.body(list, i); ; m = f.body(list, i) {
		if m != nil {
			from := f.state.at[outer]
			there, slope := at(m, f.rigid[i], from)
			return there.plus(slope, x-from)
		}
		sense := f.deck.arm(i)
		if sense == 0 || f.deck.Segments[i].Type == OnGround {
			return moved{} // nothing stands there yet
		}
		i -= sense
		if outer = i + 1; sense < 0 {
			outer = i
		}
	}
}

// look notes the deflections of all joints at the end of a move.
func (f *follower) look(step, move, number int, name string) error {
	e, err := f.effects(step, number, name)
	if err != nil {
		return err
	}
	list, err := e.Moves()
	if err != nil {
		return err
	}
	s := snapshot{step: step, move: move, name: name, day: f.state.day, equipment: f.state.equipment(), carried: slices.Clone(f.state.carried), attached: slices.Clone(f.attached)}
	for j := range f.state.at {
		s.joints = append(s.joints, f.joint(list, j))
	}
	f.seen = append(f.seen, s)
	return nil
}

// equipment is where frames stand, in words.
func (s *state) equipment() string {
	var list []string
	for _, f := range s.frames {
		list = append(list, fmt.Sprintf("frame %s on %s", f.frame.Mark, s.deck.Segments[f.at].Element.Mark))
	}
	if len(list) == 0 {
		return "no frame on the deck"
	}
	slices.Sort(list)
	return strings.Join(list, ", ")
}

// form notes where joints are when the form of segment i is set, and how to find the angle
// between the form and the segment before it.
func (f *follower) form(step, number int, name string, i, inner int) error {
	e, err := f.effects(step, number, name)
	if err != nil {
		return err
	}
	list, err := e.Before()
	if err != nil {
		return err
	}
	outer, joint, back := i+1, i, inner
	if f.deck.arm(i) < 0 {
		outer, joint, back = i, i+1, inner+1
	}
	var there [3]moved
	for k, j := range [3]int{outer, joint, back} {
		there[k] = f.joint(list, j)
	}
	f.set[outer] = there[0]
	f.formed = append(f.formed, func() {
		z := func(k, j int) float64 { return f.shape(j) + there[k].all - f.set[j].all }
		length := func(i int) float64 { return f.deck.Segments[i].Element.Length }
		f.angle[joint] = (z(0, outer)-z(1, joint))/length(i) - (z(1, joint)-z(2, back))/length(inner)
	})
	return nil
}

// counted is the deflection of joint j that counts under the rule.
func (f *follower) counted(s snapshot, j int) moved { return s.joints[j].plus(f.set[j], -1) }

// shape is design profile and camber at joint j (m).
func (f *follower) shape(j int) float64 {
	return f.casting.profile(f.state.at[j]) - f.counted(f.seen[len(f.seen)-1], j).all
}

// creepBand is the uncertainty of creep of stages.Movement, as a fraction.
const creepBand = 0.30

// band are a deflection with creep 30 % less and more, the lower first.
func (m moved) band() (least, most float64) {
	by := math.Abs(creepBand * m.creep)
	return m.all - by, m.all + by
}
