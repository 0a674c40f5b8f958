package answers

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
)

// The proof of an end: its reserve is above zero by at most settled, or the interval in
// which it falls below zero is narrower than narrow times the range.
const (
	settled = 1e-7 // a tenth of the 1e-6 that is promised
	narrow  = 1e-8 // of a range of 10 m: 0.1 µm, below what anybody sets out
)

// scan tries a range in equal steps, and between them where the reserve has an extreme
// that may be on the other side of zero.
func (t *trials) scan(low, high float64, steps int) []point {
	if steps == 0 {
		steps = usualSteps
	}
	points := make([]point, 0, steps+1)
	for i := range steps + 1 {
		points = append(points, t.at(low+(high-low)*float64(i)/float64(steps)))
	}
	var hidden []point
	for i := 1; i < len(points)-1; i++ {
		if p, ok := t.hidden(points[i-1], points[i], points[i+1]); ok {
			hidden = append(hidden, p)
		}
	}
	points = append(points, hidden...)
	slices.SortFunc(points, func(a, b point) int {
		if a.value < b.value {
			return -1
		}
		return 1
	})
	return points
}

// mostHidden is how many values are tried for an extreme between three points.
const mostHidden = 10

// hidden looks for a pass between three points that fail, or for a failure between three
// that pass, where the middle one is nearest to it: by golden section.
func (t *trials) hidden(left, middle, right point) (point, bool) {
	pass := middle.passes()
	toward := func(p point) float64 { // rises towards the other side of zero
		if pass {
			return -p.reserve
		}
		return p.reserve
	}
	if left.passes() != pass || right.passes() != pass || !(toward(middle) > toward(left) && toward(middle) >= toward(right)) || middle.refused != nil {
		return point{}, false
	}
	golden := (3 - math.Sqrt(5)) / 2
	for range mostHidden {
		next := t.at(middle.value + golden*(right.value-middle.value))
		leftward := middle.value-left.value > right.value-middle.value
		if leftward {
			next = t.at(middle.value - golden*(middle.value-left.value))
		}
		switch {
		case next.passes() != pass:
			return next, true
		case toward(next) > toward(middle) && leftward:
			middle, right = next, middle
		case toward(next) > toward(middle):
			left, middle = middle, next
		case leftward:
			left = next
		default:
			right = next
		}
	}
	return point{}, false
}

// intervals are the ranges between points in which the stage passes.
func (t *trials) intervals(points []point, span float64) []Interval {
	var list []Interval
	for i, p := range points {
		switch {
		case !p.passes():
			continue
		case i == 0:
			list = append(list, Interval{From: t.open(p, points[i+1].value-p.value)})
		case !points[i-1].passes():
			list = append(list, Interval{From: t.end(p, points[i-1], span)})
		}
		now := &list[len(list)-1]
		switch {
		case i == len(points)-1:
			now.To = t.open(p, points[i-1].value-p.value)
		case !points[i+1].passes():
			now.To = t.end(p, points[i+1], span)
		}
	}
	return list
}

// open is an end of the range that was tried; inside is a step inwards.
func (t *trials) open(p point, inside float64) End {
	return End{Value: p.value, Open: true, At: p.check, Reserve: p.reserve, Beyond: p.value, Sensitivity: t.slope(p, 1e-3*inside)}
}

// end is the end of an interval between a value that passes and one that fails.
func (t *trials) end(pass, fail point, span float64) End {
	pass, fail = t.edge(pass, fail, span)
	inwards := 1e-5 * math.Copysign(span, pass.value-fail.value)
	e := End{Value: pass.value, At: pass.check, Reserve: pass.reserve, Sensitivity: t.slope(pass, inwards)}
	fail = t.beyond(pass, fail, e.Sensitivity)
	e.Beyond, e.Fails, e.Deficit = fail.value, fail.check, fail.reserve
	e.Jumps = pass.reserve > 1e-6
	return e
}

// edge narrows the two until the one that passes has no reserve left, or until they are
// one place.
func (t *trials) edge(pass, fail point, span float64) (point, point) {
	level := pass.reserve <= settled // no reserve to follow: by states alone
	f := func(value float64) (float64, error) {
		p := t.at(value)
		if p.passes() {
			pass = nearer(p, pass, fail)
		} else {
			fail = nearer(p, fail, pass)
		}
		switch {
		case math.Abs(pass.value-fail.value) <= narrow*span:
			return 0, nil
		case level && p.passes():
			return 1, nil
		case level:
			return -1, nil
		case p.passes() && p.reserve <= settled:
			return 0, nil
		}
		return p.reserve - settled/2, nil
	}
	_, _ = formula.Root(pass.value, fail.value, f) // without a root: the narrowest pair so far
	return pass, fail
}

// nearer is the point of two on one side that is nearer to the other side.
func nearer(p, known, other point) point {
	if math.Abs(p.value-other.value) <= math.Abs(known.value-other.value) {
		return p
	}
	return known
}

// slope is the change of the reserve per unit from a point to one a step away, 0 where that
// does not pass.
func (t *trials) slope(p point, step float64) float64 {
	other := t.at(p.value + step)
	if !other.passes() {
		return 0
	}
	return (other.reserve - p.reserve) / (other.value - p.value)
}

// beyond is a value that fails as near to one that passes as the reserve is known.
func (t *trials) beyond(pass, fail point, slope float64) point {
	if slope == 0 {
		return fail
	}
	step := math.Copysign(4*settled/math.Abs(slope), fail.value-pass.value)
	for math.Abs(step) < math.Abs(fail.value-pass.value) {
		if p := t.at(pass.value + step); !p.passes() {
			return p
		}
		step *= 4
	}
	return fail
}
