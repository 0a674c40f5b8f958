package segmental

import (
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// free is true for a pier whose segment and arms are a cantilever of their own: no closure,
// no part on falsework, no other pier.
func (s *state) free(p Pier) bool {
	on := s.segmentAt(p.At)
	left, right := s.tips(on)
	for i := left; i <= right; i++ {
		if g := s.deck.Segments[i]; g.Type == Closure || g.Type == OnGround || g.Type == OnPier && i != on {
			return false
		}
	}
	return true
}

// sideOf is the arm of a place.
func sideOf(x float64, p Pier) Arm {
	if x < p.At {
		return Left
	}
	return Right
}

// balance is what acts about a pier after a move.
func (s *state) balance(p Pier, m Move) (Balance, error) {
	on := s.segmentAt(p.At)
	left, right := s.tips(on)
	var b Balance
	across := func(x float64) float64 {
		if s.deck.Radius == 0 {
			return 0
		}
		return (x - p.At) * (x - p.At) / (2 * s.deck.Radius)
	}
	for i := left; i <= right; i++ {
		mass, err := s.deck.weight(i)
		if err != nil {
			return b, err
		}
		side := [3]Arm{Left, Middle, Right}[s.deck.arm(i)+1]
		b.Parts = append(b.Parts, Part{Mark: s.deck.Segments[i].Element.Mark, Arm: side, Force: mass.Weight, Lever: mass.X - p.At, Across: mass.Y + across(mass.X)})
	}
	for _, f := range s.frames {
		if f.at < left || f.at > right {
			continue
		}
		x := s.deck.tip(f.at, f.arm) - float64(f.arm)*f.frame.CoG
		b.Parts = append(b.Parts, Part{Mark: "frame " + f.frame.Mark, Kind: limits.Equipment, Arm: sideOf(x, p), Force: f.frame.Weight, Lever: x - p.At, Across: across(x)})
	}
	for _, a := range s.arms(p) {
		l, middle := s.deck.Loads, (a.from+a.to)/2
		if l.OneArm > 0 {
			b.Parts = append(b.Parts, Part{Mark: "working load, " + string(a.side) + " arm", Kind: limits.Personnel, Arm: a.side, Force: l.OneArm * l.Width * (a.to - a.from), Lever: middle - p.At, Across: across(middle), Least: l.OtherArm / l.OneArm, Most: 1})
		}
		if l.Uplift > 0 {
			b.Parts = append(b.Parts, Part{Mark: "uplift of wind, " + string(a.side) + " arm", Kind: limits.Wind, Arm: a.side, Force: -l.Uplift * l.Width * (a.to - a.from), Lever: middle - p.At, Across: across(middle), Least: 0, Most: 1})
		}
	}
	s.blown(&b, p)
	if arms := [2]int{on - left, right - on}; arms[0] != arms[1] {
		b.Unbalanced = s.beyond(left, right, on)
	}
	return b, s.handled(&b, p, m, left, right, across)
}

// handled adds the segment that hangs on a frame, with its dynamic factor; its weight is the
// one at which to stop, also where the other arm has a segment more.
func (s *state) handled(b *Balance, p Pier, m Move, left, right int, across func(float64) float64) error {
	if m.Do != Lift || m.Frame == "" {
		return nil
	}
	i, err := s.one(m)
	if err != nil {
		return err
	}
	if in := s.inner(i); in < left || in > right {
		return nil
	}
	mass, err := s.deck.weight(i)
	if err != nil {
		return err
	}
	least, most, err := s.deck.Dynamic.Range()
	if err != nil {
		return err
	}
	mark := s.deck.Segments[i].Element.Mark
	b.Parts = append(b.Parts, Part{Mark: mark, Kind: limits.Equipment, Handled: true, Arm: sideOf(mass.X, p), Force: mass.Weight, Lever: mass.X - p.At, Across: mass.Y + across(mass.X), Least: least, Most: most})
	b.Unbalanced = mark
	return nil
}

// beyond is the first segment that is on one arm only.
func (s *state) beyond(left, right, on int) string {
	if n := on - left; n > right-on {
		return s.deck.Segments[on-(right-on)-1].Element.Mark
	}
	return s.deck.Segments[on+(on-left)+1].Element.Mark
}

// checks are those of the state after a move.
func (s *state) checks(m Move, g stages.Girder, e stages.Effects, standard limits.Standard) (list []stages.OwnCheck, err error) {
	for _, p := range s.deck.Piers {
		if s.held(p) {
			more, err := p.closedChecks(e, standard)
			if err != nil {
				return nil, err
			}
			list = append(list, more...)
		}
		if !s.free(p) {
			continue
		}
		b, err := s.balance(p, m)
		if err != nil {
			return nil, err
		}
		more, err := p.Checks(b, s.deck.Rule, standard)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	if m.Do == Erect { // the others are made elsewhere
		return list, nil
	}
	for _, of := range []func(Move, stages.Girder, stages.Effects, limits.Standard) ([]stages.OwnCheck, error){s.closureChecks, s.pressedChecks, s.wetShear, s.jointShear, s.frameChecks, s.travelChecks, s.tieBackChecks, s.pullChecks, s.flangeChecks} {
		more, err := of(m, g, e, standard)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	return list, nil
}

// pressedChecks are the pressure on the epoxy of the joint that a move has closed.
func (s *state) pressedChecks(m Move, g stages.Girder, e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
	if m.Do != Attach {
		return nil, nil
	}
	i, err := s.one(m)
	if err != nil || s.deck.joint(max(i, s.inner(i))) != stages.Epoxied {
		return nil, err
	}
	return s.deck.pressed(e, g, s.jointOf(i), m.Segments[0])
}

// pressed are mean and minimum pressure on a joint, with the hoist of the segment and without
// it: the smaller of both.
func (d Deck) pressed(e stages.Effects, g stages.Girder, joint, segment string) ([]stages.OwnCheck, error) {
	eased, err := d.Epoxy.Checks(e, g, joint)
	if err != nil {
		return nil, err
	}
	carried := e
	carried.Stress = func(x float64) section.Plane { return e.StressWith(x, hoistMark(segment)) }
	held, err := d.Epoxy.Checks(carried, g, joint)
	if err != nil {
		return nil, err
	}
	for k := range eased {
		note := "the hoist is eased: the bars carry the segment alone"
		if held[k].Demand.Value < eased[k].Demand.Value {
			eased[k], note = held[k], "the hoist still carries the segment"
		}
		eased[k].Note = note
	}
	return eased, nil
}
