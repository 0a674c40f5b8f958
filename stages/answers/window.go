package answers

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// Ends are the supports that a window moves.
type Ends string

// The ends of an element.
const (
	BothEnds Ends = ""      // all to the left of mid-length and all to its right, by the same distance inwards
	LeftEnd  Ends = "left"  // those to the left of mid-length
	RightEnd Ends = "right" // those to the right of it
)

// Moved is how lift points or supports are moved for their window.
type Moved struct {
	Ends      Ends    // which of them
	Low, High float64 // range of the distance of the outermost from its end, m; both 0: from the end to where they would meet, less Tolerance
	Tolerance float64 // by which each end may be off, both ways and on its own, m, 0 to 1
	Steps     int     // equal steps in which the range is tried; 0 means 48
}

// windowSteps is the usual number of steps of a window: a gap of a fiftieth of the range,
// 0.3 m of a girder of 34 m, is found even where the reserve jumps.
const windowSteps = 48

// LiftWindow is every interval in which the lift points or supports of a stage may be: a
// is the distance of the outermost from its end of the girder. With a tolerance the stage
// passes with every end off by it, both ways, and as set out. The error wraps [ErrAnswer].
func LiftWindow(c stages.Case, m Moved) (Answer, error) {
	list, err := situations(c)
	if err != nil {
		return Answer{}, err
	}
	l, err := newLayout(c, list, &m)
	if err != nil {
		return Answer{}, err
	}
	q := Question{Asked: l.asked(m), Low: m.Low, High: m.High, Steps: m.Steps, Input: stages.Input{Symbol: "a", Unit: formula.Metre}}
	if q.Steps == 0 {
		q.Steps = windowSteps
	}
	var inputs []stages.Input
	for _, off := range offs(m) {
		inputs = append(inputs, stages.Input{Symbol: "a", Unit: formula.Metre, Set: func(_ *stages.Girder, p *stages.Plan, a float64) error {
			*p = stages.Altered(*p, c.Stage, func(s *stages.Situation) { s.Supports = l.at(s.Supports, m.Ends, a, off) })
			return nil
		}})
	}
	a, err := q.worst(c, inputs...)
	if m.Tolerance > 0 {
		a.Notes = append(a.Notes, fmt.Sprintf("each end may be off by %.3g m, both ways and on its own", m.Tolerance))
	}
	return a, err
}

// offs are how far the left and the right end are off, inwards: as set out first.
func offs(m Moved) [][2]float64 {
	list := [][2]float64{{}}
	if t := m.Tolerance; t > 0 {
		switch m.Ends {
		case LeftEnd:
			list = append(list, [2]float64{t, 0}, [2]float64{-t, 0})
		case RightEnd:
			list = append(list, [2]float64{0, t}, [2]float64{0, -t})
		default:
			list = append(list, [2]float64{t, t}, [2]float64{-t, -t}, [2]float64{t, -t}, [2]float64{-t, t})
		}
	}
	return list
}

// layout is the supports of a stage as planned.
type layout struct {
	length      float64 // m
	left, right float64 // distance of the outermost support from its end, m
	lifted      bool    // they are lift points
}

// newLayout fills the range where it is not stated.
func newLayout(c stages.Case, list []stages.Situation, m *Moved) (layout, error) {
	l := layout{length: c.Subject.Girder().Length(), lifted: true}
	l.left, l.right = l.length, l.length
	inner, other := 0.0, 0.0 // largest distance within each half
	for _, s := range list {
		if len(s.Supports) == 0 {
			return l, fmt.Errorf("%w: stage %d, %s, is on the supports of the stage before: must state its own to move them", ErrAnswer, c.Stage, s.Name)
		}
		for _, p := range s.Supports {
			l.lifted = l.lifted && p.Role == stages.LiftPoint
			if p.X < l.length/2 {
				l.left, inner = math.Min(l.left, p.X), math.Max(inner, p.X)
			}
			if p.X > l.length/2 {
				l.right, other = math.Min(l.right, l.length-p.X), math.Max(other, l.length-p.X)
			}
		}
	}
	switch {
	case !(m.Tolerance >= 0 && m.Tolerance <= 1):
		return l, fmt.Errorf("%w: %s", ErrAnswer, formula.OutOfRange("Moved.Tolerance", m.Tolerance, "m", "", 0, 1))
	case m.Ends != BothEnds && m.Ends != LeftEnd && m.Ends != RightEnd:
		return l, fmt.Errorf("%w: Moved.Ends = %q: must be BothEnds, LeftEnd or RightEnd", ErrAnswer, m.Ends)
	case l.left == l.length && m.Ends != RightEnd, l.right == l.length && m.Ends != LeftEnd:
		return l, fmt.Errorf("%w: stage %d has no support on one side of mid-length, x = %.3g m: must have one on each side that is moved", ErrAnswer, c.Stage, l.length/2)
	}
	if m.Low == 0 && m.High == 0 {
		// Up to a hundredth of the length before mid-length for the innermost of them.
		first, last := l.left, inner
		if m.Ends == RightEnd {
			first, last = l.right, other
		} else if m.Ends == BothEnds {
			last = math.Max(inner, other+l.left-l.right)
		}
		m.Low, m.High = m.Tolerance, first+0.49*l.length-last-m.Tolerance
	}
	return l, nil
}

// asked is what is moved, in words.
func (l layout) asked(m Moved) string {
	what := "supports"
	if l.lifted {
		what = "lift points"
	}
	switch m.Ends {
	case LeftEnd:
		return what + ", from the left end"
	case RightEnd:
		return what + ", from the right end"
	}
	if math.Abs(l.left-l.right) > 1e-9*l.length {
		return fmt.Sprintf("%s moved symmetrically, from the left end; on the right %.3f m more", what, l.right-l.left)
	}
	return what + " from both ends"
}

// at is the supports with the outermost at a from its end, each end off by its own.
func (l layout) at(supports []stages.Support, ends Ends, a float64, off [2]float64) []stages.Support {
	moved := slices.Clone(supports)
	left := a - l.left
	right := left
	if ends == RightEnd {
		right = a - l.right
	}
	for i := range moved {
		p := &moved[i]
		switch {
		case p.X < l.length/2 && ends != RightEnd:
			p.X += left + off[0]
		case p.X > l.length/2 && ends != LeftEnd:
			p.X -= right + off[1]
		}
	}
	return moved
}

// worst is Solve with the governing outcome of several inputs at each value.
func (q Question) worst(c stages.Case, inputs ...stages.Input) (Answer, error) {
	q.Input.Set = inputs[0].Set
	if err := q.check(c); err != nil {
		return Answer{}, err
	}
	n := shortened(c)
	a, err := q.solve(c.Stage, least(c, inputs, n))
	if n < len(c.Plan) && !a.holds(least(c, inputs, len(c.Plan))) {
		return q.solve(c.Stage, least(c, inputs, len(c.Plan)))
	}
	return a, err
}

// least is the governing check of several inputs at a value.
func least(c stages.Case, inputs []stages.Input, n int) reserves {
	return func(value float64) (worst stages.Check, reserve float64, err error) {
		reserve = math.Inf(1)
		for _, input := range inputs {
			check, one, err := of(c, input, n)(value)
			if err != nil {
				return check, 0, err
			}
			if one < reserve {
				worst, reserve = check, one
			}
		}
		return worst, reserve, nil
	}
}
