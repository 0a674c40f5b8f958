package segmental

import (
	"fmt"
	"maps"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// stress stresses tendons.
func (s *state) stress(m Move, q *stages.Situation) error {
	if m.Jacking == nil {
		return fmt.Errorf("field Jacking is missing: must be the tendons to be stressed")
	}
	s.pulled = maps.Clone(s.pulled) // those before are kept by snapshots
	for _, mark := range m.Jacking.Tendons {
		if err := s.reaches(mark); err != nil {
			return err
		}
		s.stressed = with(s.stressed, mark)
		s.pulled[mark] = max(s.pulled[mark], m.Jacking.Stress)
	}
	q.Phase, q.Events = limits.Stressing, []stages.Event{{Jack: m.Jacking}}
	return nil
}

// erect attaches segments and stresses their tendons at once.
func (s *state) erect(m Move, q *stages.Situation) error {
	if len(m.Segments) == 0 {
		return fmt.Errorf("names no segment: must be those attached, in order")
	}
	for _, mark := range m.Segments {
		one := Move{Segments: []string{mark}}
		i, err := s.next(one)
		if err != nil {
			return err
		}
		if err := s.strong(i); err != nil {
			return err
		}
		s.carried[i] = true
		s.joined[max(i, s.inner(i))] = true
	}
	q.Events = []stages.Event{{Add: m.Segments, Join: m.Segments}}
	jacked := stages.Situation{}
	if err := s.stress(m, &jacked); err != nil {
		return err
	}
	q.Phase, q.Events = jacked.Phase, append(q.Events, jacked.Events...)
	q.Elsewhere = "the calculation of its moves one by one, with equipment and temporary bars"
	return nil
}

// with is a set with one more member: those before are kept by snapshots.
func with(set map[string]bool, mark string) map[string]bool {
	next := map[string]bool{mark: true}
	for k := range set {
		next[k] = true
	}
	return next
}

// remove takes the temporary bars of segments out.
func (s *state) remove(m Move, q *stages.Situation) error {
	if len(m.Segments) == 0 {
		return fmt.Errorf("names no segment: must be those whose temporary bars are taken out")
	}
	var marks []string
	for _, mark := range m.Segments {
		i, err := s.deck.index(mark)
		if err != nil {
			return err
		}
		if !s.pressed[i] {
			return fmt.Errorf("segment %s has no stressed bars at joint %s: must be stressed and not taken out before", mark, s.jointOf(i))
		}
		s.pressed[i] = false
		marks = append(marks, s.deck.jacking(i).Tendons...)
	}
	q.Phase, q.Events = limits.Stressing, []stages.Event{{Release: marks}}
	return nil
}

// set sets a frame on the deck, or advances it.
func (s *state) set(m Move, q *stages.Situation) error {
	k := slices.IndexFunc(s.deck.Frames, func(f Frame) bool { return f.Mark == m.Frame })
	if k < 0 {
		return fmt.Errorf("frame %q is not in deck %q: must be one of its Frames", m.Frame, s.deck.Mark)
	}
	to, err := s.deck.index(m.To)
	if err != nil {
		return fmt.Errorf("field To: %w", err)
	}
	if !s.carried[to] {
		return fmt.Errorf("frame %s to segment %s, which is not in the deck: must be a segment that is", m.Frame, m.To)
	}
	f := standing{frame: s.deck.Frames[k], at: to, arm: s.deck.arm(to)}
	if f.arm == 0 {
		if f.arm = 1; m.Left {
			f.arm = -1
		}
	}
	was := s.standsOn(m.Frame)
	switch {
	case m.Do == Set && was >= 0:
		return fmt.Errorf("frame %s stands on %s already: must be advanced", m.Frame, s.deck.Segments[s.frames[was].at].Element.Mark)
	case m.Do == Advance && was < 0:
		return fmt.Errorf("frame %q does not stand on the deck: must be set first", m.Frame)
	}
	if left, right := s.tips(to); to != left && f.arm < 0 || to != right && f.arm > 0 {
		return fmt.Errorf("frame %s to segment %s, beyond which segments are attached: must be the tip of the arm", m.Frame, m.To)
	}
	if was >= 0 {
		q.Off = append(q.Off, s.deck.own(s.frames[was]).Mark)
		s.frames = slices.Delete(slices.Clone(s.frames), was, was+1)
	}
	s.frames = append(slices.Clone(s.frames), f)
	q.Actions = append(q.Actions, s.deck.own(f))
	return nil
}

// clear takes a frame off the deck.
func (s *state) clear(m Move, q *stages.Situation) error {
	was := s.standsOn(m.Frame)
	if was < 0 {
		return fmt.Errorf("frame %q does not stand on the deck: must be one that does", m.Frame)
	}
	q.Off = append(q.Off, s.deck.own(s.frames[was]).Mark)
	s.frames = slices.Delete(slices.Clone(s.frames), was, was+1)
	return nil
}

func (s *state) grout(m Move, q *stages.Situation) error {
	if len(m.Tendons) == 0 {
		return fmt.Errorf("field Tendons is empty: must be the tendons to be grouted")
	}
	q.Phase, q.Events = limits.Stressing, []stages.Event{{Grout: m.Tendons}}
	return nil
}

// place puts a segment on falsework.
func (s *state) place(m Move, q *stages.Situation) error {
	i, err := s.one(m)
	if err != nil {
		return err
	}
	switch g := s.deck.Segments[i]; {
	case g.Type != OnGround:
		return fmt.Errorf("segment %s is a %q: must be one on falsework", m.Segments[0], g.Type)
	case s.carried[i]:
		return fmt.Errorf("segment %s is in the deck already: must be placed once", m.Segments[0])
	case len(m.On) == 0:
		return fmt.Errorf("segment %s: field On is empty: must be its supports", m.Segments[0])
	}
	s.carried[i] = true
	s.supports = append(slices.Clone(s.supports), m.On...)
	q.Events = []stages.Event{{Add: m.Segments}}
	return nil
}

// closure is the closure that a move names and that may be poured.
func (s *state) closure(m Move) (int, error) {
	i, err := s.one(m)
	if err != nil {
		return 0, err
	}
	if s.deck.Segments[i].Type != Closure || i == 0 || i+1 == len(s.deck.Segments) {
		return 0, fmt.Errorf("segment %s is a %q: must be a closure between two segments", m.Segments[0], s.deck.Segments[i].Type)
	}
	for _, side := range [2]int{i - 1, i + 1} {
		if !s.carried[side] {
			return 0, fmt.Errorf("closure %s: segment %s beside it is not in the deck: must be there before", m.Segments[0], s.deck.Segments[side].Element.Mark)
		}
	}
	return i, nil
}

// wetMarks are the marks of the wet concrete of a closure on the segments left and right of it,
// which do not act as one yet.
func (s *state) wetMarks(closure int) (marks [2]string) {
	for k, beside := range [2]int{closure - 1, closure + 1} {
		marks[k] = "wet concrete of " + s.deck.Segments[closure].Element.Mark + " on " + s.deck.Segments[beside].Element.Mark
	}
	return marks
}

// pour hangs the wet concrete of a closure on both sides, half on each.
func (s *state) pour(m Move, q *stages.Situation) error {
	i, err := s.closure(m)
	if err != nil {
		return err
	}
	mass, err := s.deck.weight(i)
	if err != nil {
		return err
	}
	if s.poured[m.Segments[0]] || s.carried[i] {
		return fmt.Errorf("closure %s is poured already: must be poured once", m.Segments[0])
	}
	low, high, err := s.deck.Segments[i].Element.WeightTolerance.Range()
	if err != nil {
		return err
	}
	s.poured = with(s.poured, m.Segments[0])
	for k, mark := range s.wetMarks(i) {
		q.Actions = append(q.Actions, stages.Action{Mark: mark, Kind: limits.Imposed, Least: low, Most: high, Stays: true, Loads: loads.Set{Points: []loads.Point{{At: s.at[i+k], Force: mass.Weight / 2}}}})
	}
	return nil
}

// close joins both sides by a closure that has hardened.
func (s *state) close(m Move, q *stages.Situation) error {
	i, err := s.closure(m)
	if err != nil {
		return err
	}
	if !s.poured[m.Segments[0]] || s.carried[i] {
		return fmt.Errorf("closure %s is not poured, or closed already: must be poured before, and closed once", m.Segments[0])
	}
	s.carried[i], s.joined[i], s.joined[i+1] = true, true, true
	for _, mark := range s.wetMarks(i) {
		q.Off = append(q.Off, mark)
	}
	q.Events = []stages.Event{{Add: m.Segments, Join: m.Segments}}
	if len(m.On) > 0 {
		s.supports = slices.Clone(m.On)
	}
	if m.Jacking == nil {
		return nil
	}
	jacked := stages.Situation{}
	if err := s.stress(m, &jacked); err != nil {
		return err
	}
	q.Phase, q.Events = jacked.Phase, append(q.Events, jacked.Events...)
	return nil
}

// support puts the deck on other supports.
func (s *state) support(m Move, _ *stages.Situation) error {
	if len(m.On) == 0 {
		return fmt.Errorf("field On is empty: must be the supports of the whole deck")
	}
	s.supports = slices.Clone(m.On)
	return nil
}

func (s *state) wait(Move, *stages.Situation) error { return nil }

// words are the name of a move.
func (m Move) words() string {
	if m.Name != "" {
		return m.Name
	}
	switch m.Do {
	case Lift, Attach:
		if m.Frame != "" {
			return fmt.Sprintf("%s %s, frame %s", m.Do, m.Segments[0], m.Frame)
		}
		return fmt.Sprintf("%s %s, crane", m.Do, m.Segments[0])
	case Stress:
		return fmt.Sprintf("stress %s", listed(m.Jacking.Tendons))
	case Remove:
		return fmt.Sprintf("remove the bars of %s", listed(m.Segments))
	case Set, Advance:
		return fmt.Sprintf("%s frame %s to %s", m.Do, m.Frame, m.To)
	case Clear:
		return "frame " + m.Frame + " off the deck"
	case Grout:
		return "grout " + listed(m.Tendons)
	case Support:
		return "take over by other supports"
	case Wait:
		return "wait"
	}
	return fmt.Sprintf("%s %s", m.Do, listed(m.Segments))
}

// listed are marks in words: the first two, and how many more.
func listed(marks []string) string {
	switch len(marks) {
	case 0:
		return ""
	case 1:
		return marks[0]
	case 2:
		return marks[0] + ", " + marks[1]
	}
	return fmt.Sprintf("%s, %s and %d more", marks[0], marks[1], len(marks)-2)
}
