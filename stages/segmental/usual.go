package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/loads/tendon"
)

// Usual is how a cantilever is usually built: pair by pair of segments, each lifted and
// attached left, then right, the tendons that end at the pair stressed, the temporary bars
// taken out, the frames advanced.
type Usual struct {
	Pier      string         // mark of the segment on the pier
	First     float64        // day of the first pair, d
	Days      float64        // from one pair to the next, d, 0 to 100
	Jacking   tendon.Jacking // of the cantilever tendons, without Tendons
	Frames    [2]string      // on the left and on the right arm; "": a crane that does not stand on the deck lifts there
	ByCrane   int            // pairs lifted by such a crane before the frames are set
	KeepBars  int            // pairs for which temporary bars stay stressed after their own tendons are; −1: they stay in
	OneByOne  bool           // a pair of tendons at a time, each a move of its own
	RightSide bool           // the right segment comes first
}

// Steps are the steps of a cantilever of the deck, one for each pair of segments, and one
// for a segment more on one arm: a list to be edited. The error wraps [ErrSegmental]: a pier
// segment or a frame that the deck has not, a value out of range.
func (u Usual) Steps(d Deck) ([]Step, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	pier, err := d.index(u.Pier)
	if err != nil {
		return nil, fmt.Errorf("%w: field Usual.Pier: %w", ErrSegmental, err)
	}
	if d.Segments[pier].Type != OnPier {
		return nil, fmt.Errorf("%w: field Usual.Pier: segment %s is a %q: must be one on a pier", ErrSegmental, u.Pier, d.Segments[pier].Type)
	}
	if err := within("Usual.", bound{"Days", u.Days, "d", 0, 100}, bound{"ByCrane", float64(u.ByCrane), "", 0, 400}, bound{"KeepBars", float64(u.KeepBars), "", -1, 400}); err != nil {
		return nil, err
	}
	left, right := d.armOf(pier, -1), d.armOf(pier, 1)
	var steps []Step
	for k := range max(len(left), len(right)) {
		step := Step{Name: fmt.Sprintf("%s, pair %d", u.Pier, k+1), Day: u.First + float64(k)*u.Days}
		step.Moves = append(step.Moves, u.pair(d, left, right, k)...)
		steps = append(steps, step)
	}
	return steps, nil
}

// armOf are the segments that are built out from a pier segment in a sense, from it outwards.
func (d Deck) armOf(pier, sense int) (list []int) {
	for i := pier + sense; i >= 0 && i < len(d.Segments) && d.Segments[i].Type == Typical && d.pier(i) == pier; i += sense {
		list = append(list, i)
	}
	return list
}

// pair are the moves of pair k.
func (u Usual) pair(d Deck, left, right []int, k int) (moves []Move) {
	sides := [2]int{0, 1}
	if u.RightSide {
		sides = [2]int{1, 0}
	}
	var marks []string
	for _, side := range sides {
		segments := [2][]int{left, right}[side]
		if k >= len(segments) {
			continue
		}
		mark, frame := d.Segments[segments[k]].Element.Mark, u.Frames[side]
		if k < u.ByCrane {
			frame = ""
		}
		marks = append(marks, mark)
		if frame != "" {
			moves = append(moves, Move{Do: Lift, Segments: []string{mark}, Frame: frame})
		}
		moves = append(moves, Move{Do: Attach, Segments: []string{mark}, Frame: frame})
	}
	moves = append(moves, u.stressing(d, marks)...)
	if bars := d.barred(u.behind(d, left, right, k-u.KeepBars)); len(bars) > 0 && u.KeepBars >= 0 {
		moves = append(moves, Move{Do: Remove, Segments: bars})
	}
	return append(moves, u.frames(d, left, right, k)...)
}

// behind are the marks of pair k; none where there is no such pair.
func (u Usual) behind(d Deck, left, right []int, k int) (marks []string) {
	for _, segments := range [2][]int{left, right} {
		if k >= 0 && k < len(segments) {
			marks = append(marks, d.Segments[segments[k]].Element.Mark)
		}
	}
	return marks
}

// barred are the segments of these that have temporary bars.
func (d Deck) barred(marks []string) (list []string) {
	for _, mark := range marks {
		if i, err := d.index(mark); err == nil && d.barsFor(i) != nil {
			list = append(list, mark)
		}
	}
	return list
}

// stressing are the moves that stress the tendons that end at a pair.
func (u Usual) stressing(d Deck, marks []string) (moves []Move) {
	var ends []string
	for _, t := range d.Tendons {
		if len(marks) == 2 && (t.First == marks[0] && t.Last == marks[1] || t.First == marks[1] && t.Last == marks[0]) || len(marks) == 1 && (t.First == marks[0] || t.Last == marks[0]) {
			ends = append(ends, t.Mark)
		}
	}
	for len(ends) > 0 {
		n := len(ends)
		if u.OneByOne {
			n = min(2, n)
		}
		j := u.Jacking
		j.Tendons = ends[:n:n]
		moves, ends = append(moves, Move{Do: Stress, Jacking: &j}), ends[n:]
	}
	return moves
}

// frames are the moves that set or advance the frames to pair k, where another follows.
func (u Usual) frames(d Deck, left, right []int, k int) (moves []Move) {
	for side, segments := range [2][]int{left, right} {
		if u.Frames[side] == "" || k+1 < u.ByCrane || k+1 >= len(segments) {
			continue
		}
		do := Advance
		if k+1 == u.ByCrane {
			do = Set
		}
		moves = append(moves, Move{Do: do, Frame: u.Frames[side], To: d.Segments[segments[k]].Element.Mark})
	}
	return moves
}
