package segmental

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
)

// state is the deck as the moves so far have made it.
type state struct {
	deck     Deck
	at       []float64
	carried  []bool    // of each segment
	joined   []bool    // of each segment: its joint with the segment on its left acts
	closed   []float64 // of each segment: day on which that joint was closed by a move, d
	frames   []standing
	pressed  []bool                  // of each segment: its bars are stressed
	stressed map[string]bool         // tendons
	pulled   map[string]float64      // largest jacking stress of these so far, Pa
	paths    map[string]*tendon.Path // lines of tendons and bars
	supports []stages.Support        // of the whole deck
	poured   map[string]bool         // closures that hang wet
	day      float64
}

// begin is the deck with what is on its piers.
func (d Deck) begin(on []stages.Support) *state {
	s := &state{deck: d, at: d.at(), carried: make([]bool, len(d.Segments)), joined: make([]bool, len(d.Segments)), pressed: make([]bool, len(d.Segments)), closed: slices.Repeat([]float64{math.Inf(-1)}, len(d.Segments)),
		stressed: map[string]bool{}, pulled: map[string]float64{}, supports: on, poured: map[string]bool{}}
	for i, g := range d.Segments {
		s.carried[i] = g.Type == OnPier
		s.joined[i] = i > 0 && s.carried[i] && s.carried[i-1]
	}
	return s
}

// tips are the outermost segments left and right of those that act as one with a segment.
func (s *state) tips(of int) (left, right int) {
	left, right = of, of
	for left > 0 && s.joined[left] {
		left--
	}
	for right+1 < len(s.joined) && s.joined[right+1] {
		right++
	}
	return left, right
}

// standsOn is where a frame stands; −1 for none.
func (s *state) standsOn(mark string) int {
	return slices.IndexFunc(s.frames, func(f standing) bool { return f.frame.Mark == mark })
}

// inner is the segment towards the pier of segment i.
func (s *state) inner(i int) int { return i - s.deck.arm(i) }

// next is the segment that a move lifts or attaches: it must be the one beyond a tip.
func (s *state) next(m Move) (int, error) {
	i, err := s.one(m)
	if err != nil {
		return 0, err
	}
	mark := s.deck.Segments[i].Element.Mark
	switch arm := s.deck.arm(i); {
	case s.deck.Segments[i].Type != Typical || arm == 0:
		return 0, fmt.Errorf("segment %s is a %s: must be one that is erected at a tip", mark, s.deck.Segments[i].Type)
	case s.carried[i]:
		return 0, fmt.Errorf("segment %s is in the deck already: must be erected once", mark)
	case !s.carried[s.inner(i)]:
		return 0, fmt.Errorf("segment %s: its joint %s does not exist yet, segment %s is not there: must be erected in order from the pier", mark, s.jointOf(i), s.deck.Segments[s.inner(i)].Element.Mark)
	}
	return i, nil
}

// one is the only segment that a move names.
func (s *state) one(m Move) (int, error) {
	if len(m.Segments) != 1 {
		return 0, fmt.Errorf("names %d segments %q: must be one", len(m.Segments), m.Segments)
	}
	return s.deck.index(m.Segments[0])
}

// jointOf is the name of the joint of segment i towards its pier.
func (s *state) jointOf(i int) string {
	if s.deck.arm(i) < 0 {
		return s.deck.jointName(i + 1)
	}
	return s.deck.jointName(i)
}

// frame is the frame on which a segment hangs: it must stand on the tip before it; none
// for a crane.
func (s *state) frame(m Move, i int) (*standing, error) {
	if m.Frame == "" {
		return nil, nil
	}
	k := s.standsOn(m.Frame)
	if k < 0 {
		return nil, fmt.Errorf("frame %q does not stand on the deck: must be set first", m.Frame)
	}
	if f := s.frames[k]; f.at != s.inner(i) || f.arm != s.deck.arm(i) {
		return nil, fmt.Errorf("frame %s stands on %s: must be on %s to lift %s", m.Frame, s.deck.Segments[f.at].Element.Mark, s.deck.Segments[s.inner(i)].Element.Mark, m.Segments[0])
	}
	return &s.frames[k], nil
}

// pressedJoints checks that every joint that acts is pressed by a tendon or by bars that
// cross it.
func (s *state) pressedJoints() error {
	for i := 1; i < len(s.joined); i++ {
		if !s.joined[i] || s.deck.joint(i) != stages.Epoxied && s.deck.joint(i) != stages.Dry {
			continue
		}
		if !s.crossed(i) {
			return fmt.Errorf("joint %s is pressed neither by a stressed tendon nor by temporary bars: bars must stay, or tendons be stressed, until another tendon crosses it", s.deck.jointName(i))
		}
	}
	return nil
}

// crossed is true where stressed tendons or bars cross the joint left of segment i.
func (s *state) crossed(i int) bool {
	x := s.at[i]
	for k, pressed := range s.pressed {
		if b := s.deck.barsFor(k); pressed && b != nil {
			joint, sense := s.at[k], 1.0
			if s.deck.arm(k) < 0 {
				joint, sense = s.at[k+1], -1
			}
			from, to := joint-sense*b.Back, joint+sense*b.Over
			if min(from, to) < x-nearly && max(from, to) > x+nearly {
				return true
			}
		}
	}
	for _, t := range s.deck.Tendons {
		from, to, err := s.deck.run(t)
		if err == nil && s.stressed[t.Mark] && from < x-nearly && to > x+nearly {
			return true
		}
	}
	return false
}

// reaches checks that all segments between the anchors of a tendon act as one.
func (s *state) reaches(mark string) error {
	at := slices.IndexFunc(s.deck.Tendons, func(t Tendon) bool { return t.Mark == mark })
	if at < 0 {
		return fmt.Errorf("tendon %q is not a tendon of deck %q: must be one of its Tendons", mark, s.deck.Mark)
	}
	t := s.deck.Tendons[at]
	first, err := s.deck.index(t.First)
	if err != nil {
		return err
	}
	last, err := s.deck.index(t.Last)
	if err != nil {
		return err
	}
	for i := first; i <= last; i++ {
		if !s.carried[i] {
			return fmt.Errorf("tendon %s is anchored at the joint of segment %s, which is not in the deck: must be stressed when all segments from %s to %s are there", mark, s.deck.Segments[i].Element.Mark, t.First, t.Last)
		}
		if i > first && !s.joined[i] {
			return fmt.Errorf("tendon %s crosses joint %s, which does not exist yet: must be stressed when all segments from %s to %s are joined", mark, s.deck.jointName(i), t.First, t.Last)
		}
	}
	return nil
}
