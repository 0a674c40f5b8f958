package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// Tendon is a tendon from joint to joint: it is anchored in the left face of its first
// and in the right face of its last segment, or in blisters inside them. Cantilever tendons
// go from a segment of the left arm to one of the right arm, bottom and continuity tendons
// through a closure, external ones over deviators.
type Tendon struct {
	tendon.Tendon // Elevation and Plan in the x of the deck; both empty: straight at At
	First, Last   string
	Inside        [2]float64    // of its anchors, from these faces into the segments, m, 0 to their length: blisters
	At            section.Point // of a straight one, m
	TieBack       *TieBack      // behind each of its anchors; nil: that of the deck
	Held          *Held         // ties that hold it back inside its bends; nil: none are stated
}

// Bars are the temporary bars that press the joint of a segment with the deck until its
// tendons are stressed. They are the same at every joint of the segments to which they
// belong; their tendons have the marks B_segment_1, B_segment_2, …
type Bars struct {
	Of         []string      // marks of the segments whose joint towards the pier they press; none: of every segment at a tip
	Bar        tendon.Tendon // steel, number in one place, duct, friction, approval; without Mark, Elevation and Plan
	At         []BarPlace    // at least one
	Back, Over float64       // from the joint into the deck and over it into the segment, m, above 0: where they are anchored
	Stress     float64       // jacking stress, Pa
	DrawIn     float64       // at the nut, m, 0 to 0.02
	TieBack    *TieBack      // behind each of their anchors; nil: that of the deck
}

// BarPlace is the place of a bar.
type BarPlace struct {
	Y, Z float64 // at the joint, m
	Rise float64 // per metre away from the pier, within ±0.5: along a haunched soffit
}

// run is where a tendon is anchored (m).
func (d Deck) run(t Tendon) (from, to float64, err error) {
	first, err := d.index(t.First)
	if err != nil {
		return 0, 0, fmt.Errorf("tendon %q, field First: %w", t.Mark, err)
	}
	last, err := d.index(t.Last)
	if err != nil {
		return 0, 0, fmt.Errorf("tendon %q, field Last: %w", t.Mark, err)
	}
	if last < first {
		return 0, 0, fmt.Errorf("tendon %q: Last = %q is left of First = %q: must be First or right of it", t.Mark, t.Last, t.First)
	}
	at := d.at()
	for i, k := range [2]int{first, last} {
		if length := d.Segments[k].Element.Length; !(t.Inside[i] >= 0 && t.Inside[i] <= length) {
			return 0, 0, fmt.Errorf("tendon %q: Inside[%d] = %g m: must be 0 to %g m, the length of segment %s", t.Mark, i, t.Inside[i], length, d.Segments[k].Element.Mark)
		}
	}
	return at[first] + t.Inside[0], at[last+1] - t.Inside[1], nil
}

// nearly is the length (m) within which an anchor is at its joint.
const nearly = 1e-6

// placed is the tendon in the x of the deck.
func (d Deck) placed(t Tendon) (tendon.Tendon, error) {
	from, to, err := d.run(t)
	if err != nil {
		return t.Tendon, err
	}
	if len(t.Elevation) == 0 && len(t.Plan) == 0 {
		t.Elevation, t.Plan = tendon.Level(from, to, t.At.Z), tendon.Level(from, to, t.At.Y)
		return t.Tendon, nil
	}
	if len(t.Elevation) == 0 || len(t.Plan) == 0 {
		return t.Tendon, fmt.Errorf("tendon %q has one of Elevation and Plan: must be both, or none for a straight one", t.Mark)
	}
	if a, b := t.Elevation.From(), t.Elevation.To(); !(a > from-nearly && a < from+nearly && b > to-nearly && b < to+nearly) {
		return t.Tendon, fmt.Errorf("tendon %q runs from x = %.3f to %.3f m: must be %.3f to %.3f m, from the left face of %s to the right face of %s with Inside", t.Mark, a, b, from, to, t.First, t.Last)
	}
	return t.Tendon, nil
}

// barMark is the mark of a bar of a segment.
func barMark(segment string, number int) string { return fmt.Sprintf("B_%s_%d", segment, number+1) }

// bars are the temporary bars of segment i whose inner joint is at x (m), with the sense
// of the arm: −1 for a segment that is left of that joint.
func (b Bars) bars(segment string, x, sense float64) []tendon.Tendon {
	from, to := x-b.Back, x+b.Over
	if sense < 0 {
		from, to = x-b.Over, x+b.Back
	}
	list := make([]tendon.Tendon, len(b.At))
	for i, at := range b.At {
		level := func(at BarPlace, x0 float64) tendon.Point {
			return tendon.Point{X: x0, Ordinate: at.Z + at.Rise*sense*(x0-x)}
		}
		list[i] = b.Bar
		list[i].Mark, list[i].Elevation, list[i].Plan = barMark(segment, i), tendon.Curve{tendon.Straight(level(at, from), level(at, to))}, tendon.Level(from, to, at.Y)
	}
	return list
}
