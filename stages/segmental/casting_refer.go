package segmental

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/stages"
)

// refer keeps the deck where it was before a change of supports or of what acts as one.
func (f *follower) refer(step, number int, name string) error {
	e, err := f.effects(step, number, name)
	if err != nil {
		return err
	}
	before, err := e.Before()
	if err != nil {
		return err
	}
	after, err := e.Moves()
	if err != nil {
		return err
	}
	for _, m := range after {
		line, err := f.through(m, before)
		if err != nil {
			return err
		}
		for i, s := range f.deck.Segments {
			if slices.Contains(m.Pieces, s.Element.Mark) {
				f.rigid[i] = straight{f.rigid[i].start.plus(line.start, 1), f.rigid[i].slope.plus(line.slope, 1)}
			}
		}
	}
	return nil
}

// through is the straight line that a body, after a change, is away from where it was: where
// its datum is now, the movement was that of the body of which that place was part before.
// A body that is placed by the move has none.
func (f *follower) through(m *stages.Movement, before []*stages.Movement) (straight, error) {
	var away [2]moved
	var turned moved
	datum := m.Datum()
	for k, x := range datum {
		i := f.segmentOf(m, x)
		if i < 0 {
			return straight{}, fmt.Errorf("the supports at x = %.3f m are below no segment", x)
		}
		if old := f.body(before, i); old != nil {
			away[k], turned = at(old, straight{}, x)
		}
	}
	if len(datum) == 2 && datum[1] > datum[0] {
		turned = away[1].plus(away[0], -1)
		turned = moved{turned.all / (datum[1] - datum[0]), turned.creep / (datum[1] - datum[0])}
	}
	return straight{away[0].plus(turned, -datum[0]), turned}, nil
}

// segmentOf is the segment of a body at x; −1 for none.
func (f *follower) segmentOf(m *stages.Movement, x float64) int {
	for i, s := range f.deck.Segments {
		if x > f.state.at[i]-nearly && x < f.state.at[i+1]+nearly && slices.Contains(m.Pieces, s.Element.Mark) {
			return i
		}
	}
	return -1
}

// body is the movement of the body of segment i; nil for none.
func (f *follower) body(list []*stages.Movement, i int) *stages.Movement {
	for _, m := range list {
		if slices.Contains(m.Pieces, f.deck.Segments[i].Element.Mark) {
			return m
		}
	}
	return nil
}

// shift turns and settles the piers of a step.
func (f *follower) shift(step int) error {
	for _, s := range f.casting.Shifts {
		if s.Step != step {
			continue
		}
		on, err := f.deck.index(s.Segment)
		if err != nil {
			return err
		}
		axis := (f.state.at[on] + f.state.at[on+1]) / 2
		for _, p := range f.deck.Piers {
			if p.At > f.state.at[on] && p.At < f.state.at[on+1] {
				axis = p.At
			}
		}
		if !f.state.free(Pier{Mark: s.Segment, At: axis}) {
			return fmt.Errorf("field Shifts: pier segment %s turns or settles after its cantilever has been closed: must be before; later it changes the internal forces", s.Segment)
		}
		left, right := f.state.tips(on)
		for i := left; i <= right; i++ {
			f.rigid[i].start.all -= s.Settlement + s.Rotation*axis
			f.rigid[i].slope.all += s.Rotation
		}
	}
	return nil
}
