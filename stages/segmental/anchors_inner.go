package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// innerAnchor is an anchor of a stressed tendon or temporary bar that has concrete behind it
// with which it acts as one.
type innerAnchor struct {
	mark    string
	x       float64 // m
	out     float64 // sense from the tendon to the concrete behind: −1 of a left anchor
	at      section.Point
	force   float64 // jacking force, N
	tie     *TieBack
	segment string // in which it is
	crosses string // match-cast joint in front of which it is: no bars behind it; "" for none
}

// place is where it is, in words.
func (a innerAnchor) place() string {
	side := "right"
	if a.out < 0 {
		side = "left"
	}
	return fmt.Sprintf("%s anchor of %s in segment %s", side, a.mark, a.segment)
}

// paths are the lines of all tendons and bars by their marks.
func paths(g stages.Girder) (map[string]*tendon.Path, error) {
	list := make(map[string]*tendon.Path, len(g.Tendons))
	for _, t := range g.Tendons {
		path, err := t.Path()
		if err != nil {
			return nil, fmt.Errorf("%w: tendon %s: %w", ErrSegmental, t.Mark, err)
		}
		list[t.Mark] = path
	}
	return list, nil
}

// innerAnchors are all of them, in the order of the tendons, then of the bars.
func (s *state) innerAnchors() (list []innerAnchor) {
	for _, t := range s.deck.Tendons {
		stress, stressed := s.pulled[t.Mark]
		if !stressed {
			continue
		}
		tie := t.TieBack
		if tie == nil {
			tie = s.deck.TieBack
		}
		list = append(list, s.innerOf(innerAnchor{mark: t.Mark, force: stress * t.Area(), tie: tie})...)
	}
	for k, pressed := range s.pressed {
		b := s.deck.barsFor(k)
		if !pressed || b == nil {
			continue
		}
		tie := b.TieBack
		if tie == nil {
			tie = s.deck.TieBack
		}
		for n := range b.At {
			list = append(list, s.innerOf(innerAnchor{mark: barMark(s.deck.Segments[k].Element.Mark, n), force: b.Stress * b.Bar.Area(), tie: tie})...)
		}
	}
	return list
}

// clearOf is the distance (m) from an anchor at which it is seen what is on each side of it.
const clearOf = 10 * nearly

// innerOf are the anchors of a tendon that have concrete behind them.
func (s *state) innerOf(a innerAnchor) (list []innerAnchor) {
	path := s.paths[a.mark]
	for i, x := range [2]float64{path.From(), path.To()} {
		a.x, a.out, a.at, a.crosses = x, float64(2*i-1), path.At(x), ""
		in, behind := s.segmentAt(x-a.out*clearOf), s.segmentAt(x+a.out*clearOf)
		if in < 0 || behind < 0 || in != behind && !s.joined[max(in, behind)] {
			continue
		}
		a.segment = s.deck.Segments[in].Element.Mark
		if joint := s.deck.joint(max(in, behind)); in != behind && (joint == stages.Epoxied || joint == stages.Dry) {
			a.crosses = s.deck.jointName(max(in, behind))
		}
		list = append(list, a)
	}
	return list
}

// grossBeside is the gross section a hair beside x (m), on one side of it.
func grossBeside(g stages.Girder, x, side float64) section.Shape {
	at := x + side*1e-7*g.Length()
	for _, p := range g.Pieces {
		if at >= p.At && at <= p.To() {
			return p.Element.Section.At(math.Min(math.Max(at-p.At, 0), p.Element.Length))
		}
	}
	return section.Shape{}
}

// toCentroid are forces about the axis y = z = 0 taken to the centroid of a section.
func toCentroid(f section.Forces, centroid section.Point) section.Forces {
	f.My += f.N * centroid.Z
	f.Mz += f.N * centroid.Y
	return f
}
