package segmental

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// Hangers are what a span of segments is suspended from: pairs of bars, one on the left and
// one on the right, from the girders of an overhead gantry, two pairs at each segment. The
// pairs are in one straight line along the span; a segment whose centre of gravity is
// beside it loads the bars of a pair unequally.
type Hangers struct {
	Gantry    beam.Link // both girders as one, by stiffness only; its At is in the x of the span
	List      []Hanger  // two at each segment, from left to right
	Area      float64   // of a bar, m², 1e-5 to 0.1
	Modulus   float64   // of a bar, Pa, 100e9 to 300e9
	Limit     float64   // working load limit of a bar, N, 1e3 to 20e6
	Document  string    // of the limit
	Spread    float64   // between the left and the right bar of a pair, m, 0.5 to 30
	Line      float64   // y of the middle of the pairs beside the chord between the ends of the axis, m, within ±10
	CrossFall float64   // of the segments, rad, + left edge higher, within ±0.15
	Level     float64   // z at which the segments are held, m: above their centre of gravity
}

// Hanger is a pair of bars.
type Hanger struct {
	Mark   string
	X      float64 // m, on its segment
	Length float64 // of the bars between their nuts, m, 0.2 to 50
}

// bound is a value with its range.
type hangerBound struct {
	field       string
	value       float64
	unit        string
	least, most float64
}

// inRange reports the first value that is out of its range or not a number.
func inRange(of string, fields ...hangerBound) error {
	for _, f := range fields {
		if !(f.value >= f.least && f.value <= f.most) {
			return fmt.Errorf("%w: field %s", ErrSegmental, formula.OutOfRange(of+f.field, f.value, f.unit, "", f.least, f.most))
		}
	}
	return nil
}

// check reports the first field that is not as it must be for a girder.
func (h Hangers) check(g stages.Girder) error {
	if err := inRange("Hangers.", hangerBound{"Area", h.Area, "m²", 1e-5, 0.1}, hangerBound{"Modulus", h.Modulus, "Pa", 100e9, 300e9}, hangerBound{"Limit", h.Limit, "N", 1e3, 20e6},
		hangerBound{"Spread", h.Spread, "m", 0.5, 30}, hangerBound{"Line", h.Line, "m", -10, 10}, hangerBound{"CrossFall", h.CrossFall, "rad", -0.15, 0.15}, hangerBound{"Level", h.Level, "m", -50, 50}); err != nil {
		return err
	}
	if err := h.Gantry.Check(); err != nil {
		return fmt.Errorf("%w: field Hangers.Gantry: %w", ErrSegmental, err)
	}
	if err := hungPieces(g); err != nil {
		return err
	}
	marks := map[string]bool{}
	for i, one := range h.List {
		if one.Mark == "" || marks[one.Mark] {
			return fmt.Errorf("%w: field Hangers.List[%d].Mark = %q: must be a name unlike those before", ErrSegmental, i, one.Mark)
		}
		marks[one.Mark] = true
		if err := inRange(fmt.Sprintf("Hangers.List[%d] %s.", i, one.Mark), hangerBound{"X", one.X, "m", 0, g.Length()}, hangerBound{"Length", one.Length, "m", 0.2, 50}); err != nil {
			return err
		}
		if i > 0 && !(one.X > h.List[i-1].X) {
			return fmt.Errorf("%w: hanger %s at x = %g m follows %s at %g m: must be from left to right", ErrSegmental, one.Mark, one.X, h.List[i-1].Mark, h.List[i-1].X)
		}
	}
	for k, p := range g.Pieces {
		if err := h.holds(g, k); err != nil {
			return err
		}
		if e := h.beside(g, k); !(math.Abs(e) < h.Spread/2) {
			return fmt.Errorf("%w: segment %s: its centre of gravity is %.3f m beside the hangers: must be less than half of their Spread, %.3f m", ErrSegmental, p.Element.Mark, e, h.Spread/2)
		}
	}
	return nil
}

// holds reports a segment that does not hang on two pairs with its centre of gravity
// between and below them.
func (h Hangers) holds(g stages.Girder, k int) error {
	p, on := g.Pieces[k], h.of(g, k)
	if len(on) != 2 {
		return fmt.Errorf("%w: segment %s from x = %g to %g m is on %d pairs of hangers: must be 2, so that their forces follow from statics", ErrSegmental, p.Element.Mark, p.At, p.To(), len(on))
	}
	mass, err := p.Element.CentreOfGravity()
	if err != nil {
		return fmt.Errorf("%w: segment %s: %w", ErrSegmental, p.Element.Mark, err)
	}
	a, b := h.List[on[0]], h.List[on[1]]
	if x := p.At + mass.X; !(a.X < x && x < b.X) {
		return fmt.Errorf("%w: segment %s: its centre of gravity at x = %.3f m is not between hangers %s and %s, %g and %g m", ErrSegmental, p.Element.Mark, x, a.Mark, b.Mark, a.X, b.X)
	}
	if !(h.Level > mass.Z) {
		return fmt.Errorf("%w: field Hangers.Level = %g m: must be above the centre of gravity of segment %s, %.3f m", ErrSegmental, h.Level, p.Element.Mark, mass.Z)
	}
	return nil
}

// hungPieces reports a girder whose segments do not hang by themselves at first.
func hungPieces(g stages.Girder) error {
	if len(g.Pieces) < 2 {
		return fmt.Errorf("%w: girder %q has %d segments: must be at least 2", ErrSegmental, g.Mark, len(g.Pieces))
	}
	for i, p := range g.Pieces[1:] {
		if !p.Later {
			return fmt.Errorf("%w: segment %s: Piece.Later must be true: it hangs by itself until its joint is closed", ErrSegmental, p.Element.Mark)
		}
		if before := g.Pieces[i]; math.Abs(before.To()-p.At) > 1e-6*g.Length() {
			return fmt.Errorf("%w: segment %s begins at x = %g m and %s ends at %g m: must be end to end, in order", ErrSegmental, p.Element.Mark, p.At, before.Element.Mark, before.To())
		}
	}
	return nil
}

// HungSpan is a girder of segments with epoxied joints that hang by themselves until the
// joints are closed.
func HungSpan(mark string, elements ...stages.Element) stages.Girder {
	g := stages.Girder{Mark: mark, Pieces: stages.EndToEnd(stages.Epoxied, elements...)}
	for i := range g.Pieces {
		g.Pieces[i].Later = i > 0
	}
	return g
}

// of are the hangers at a segment, by their places in List.
func (h Hangers) of(g stages.Girder, k int) (list []int) {
	p := g.Pieces[k]
	for i, one := range h.List {
		if one.X > p.At && one.X < p.To() {
			list = append(list, i)
		}
	}
	return list
}

// segmentOf is the segment at a hanger.
func segmentOf(g stages.Girder, x float64) int {
	return max(0, slices.IndexFunc(g.Pieces, func(p stages.Piece) bool { return x > p.At && x < p.To() }))
}

// arc is how far the axis of a girder curved in plan is beside the chord at x (m, + left),
// as a parabola, as package stages has it.
func arc(g stages.Girder, x float64) float64 {
	if g.Radius == 0 {
		return 0
	}
	return -x * (g.Length() - x) / (2 * g.Radius)
}

// chordwise is y of the centre of gravity of a segment beside the chord (m): the mean of
// the arc over its length, and its own.
func chordwise(g stages.Girder, k int) float64 {
	p := g.Pieces[k]
	y := 0.0
	if mass, err := p.Element.CentreOfGravity(); err == nil { // checked by holds
		y = mass.Y
	}
	if g.Radius != 0 { // a parabola: mean = value in the middle + second derivative × length²/24
		y += arc(g, (p.At+p.To())/2) + p.Element.Length*p.Element.Length/(24*g.Radius)
	}
	return y
}

// beside is how far the centre of gravity of a segment is beside the middle of its hangers
// (m, + left): by the arc, and by the cross-fall, which moves what is below them.
func (h Hangers) beside(g stages.Girder, k int) float64 {
	z := 0.0
	if mass, err := g.Pieces[k].Element.CentreOfGravity(); err == nil {
		z = mass.Z
	}
	return chordwise(g, k) - h.Line + (h.Level-z)*math.Sin(h.CrossFall)
}

// stiffness of a pair (N/m).
func (h Hangers) stiffness(i int) float64 { return 2 * h.Modulus * h.Area / h.List[i].Length }

// supports are the pairs, each at the place of the resultant of its bars.
func (h Hangers) supports(g stages.Girder) []stages.Support {
	var list []stages.Support
	for i, one := range h.List {
		k := segmentOf(g, one.X)
		list = append(list, stages.Support{X: one.X, Y: chordwise(g, k) - arc(g, one.X), Z: h.Level, Role: stages.LiftPoint, Stiffness: h.stiffness(i)})
	}
	return stages.Hung(h.Gantry, list...)
}
