package stages

import (
	"fmt"
	"math"
	"sort"
)

// Support is a place where the element rests or hangs.
type Support struct {
	X       float64 // m from the left end
	Y       float64 // m, in the coordinates of the section
	Clamped bool    // holds the rotation as well: the only support of a cantilever
	Group   string  // supports of one group carry equal forces (rolling blocks, linked jacks); "" for none
}

// At are supports on the axis of the element at each x (m).
func At(xs ...float64) []Support {
	supports := make([]Support, len(xs))
	for i, x := range xs {
		supports[i] = Support{X: x}
	}
	return supports
}

// Pads are pairs of supports at −y and +y (m) at each x (m).
func Pads(y float64, xs ...float64) []Support {
	supports := make([]Support, 0, 2*len(xs))
	for _, x := range xs {
		supports = append(supports, Support{X: x, Y: -y}, Support{X: x, Y: y})
	}
	return supports
}

// Equalised are the supports stated to carry equal forces, as one group of the
// given name.
func Equalised(group string, supports ...Support) []Support {
	equal := make([]Support, len(supports))
	for i, s := range supports {
		s.Group = group
		equal[i] = s
	}
	return equal
}

// resultant is one support, or a group that shares equally.
type resultant struct {
	x, y    float64
	members []int // supports
}

// lineOfSupports is all resultants at one x.
type lineOfSupports struct {
	x          float64
	resultants []resultant
}

// holdsTwist is true when the line can take a torque.
func (l lineOfSupports) holdsTwist() bool { return len(l.resultants) == 2 }

// checkSupports reports the first support that is not allowed.
func checkSupports(supports []Support, length float64) error {
	if len(supports) == 0 {
		return fmt.Errorf("field On has no support: allowed two, or one that is clamped")
	}
	for i, s := range supports {
		if !(s.X >= 0 && s.X <= length) {
			return fmt.Errorf("support %d at x = %g m: allowed on the element, 0 ≤ x ≤ %g m", i+1, s.X, length)
		}
		if !(math.Abs(s.Y) <= 1000) {
			return fmt.Errorf("support %d at y = %g m: allowed finite", i+1, s.Y)
		}
		if s.Clamped && len(supports) > 1 {
			return fmt.Errorf("support %d at x = %g m is clamped beside others: allowed one clamped support alone (statically determinate)", i+1, s.X)
		}
		for j := range i {
			if math.Hypot(s.X-supports[j].X, s.Y-supports[j].Y) < 1e-6*length {
				return fmt.Errorf("supports %d and %d both at x = %g m, y = %g m: allowed apart", j+1, i+1, s.X, s.Y)
			}
		}
	}
	if len(supports) == 1 && !supports[0].Clamped {
		return fmt.Errorf("a single support at x = %g m that is not clamped: allowed two, or one that is clamped", supports[0].X)
	}
	return nil
}

// arrange sorts supports into at most two lines and checks that their forces
// follow from statics alone.
func arrange(supports []Support, length float64) ([]lineOfSupports, error) {
	if err := checkSupports(supports, length); err != nil {
		return nil, err
	}
	var resultants []resultant
	groups := map[string]int{}
	for i, s := range supports {
		if at, ok := groups[s.Group]; ok && s.Group != "" {
			resultants[at].members = append(resultants[at].members, i)
			continue
		}
		groups[s.Group] = len(resultants)
		resultants = append(resultants, resultant{members: []int{i}})
	}
	var lines []lineOfSupports
	for _, r := range resultants {
		for _, i := range r.members {
			r.x += supports[i].X / float64(len(r.members))
			r.y += supports[i].Y / float64(len(r.members))
		}
		at := -1
		for k := range lines {
			if math.Abs(lines[k].x-r.x) < 1e-6*length {
				at = k
			}
		}
		if at < 0 {
			at = len(lines)
			lines = append(lines, lineOfSupports{x: r.x})
		}
		lines[at].resultants = append(lines[at].resultants, r)
	}
	sort.Slice(lines, func(i, j int) bool { return lines[i].x < lines[j].x })
	return lines, determinate(lines, supports)
}

func determinate(lines []lineOfSupports, supports []Support) error {
	if len(supports) > 1 && len(lines) == 1 {
		return fmt.Errorf("all supports act at x = %g m: allowed two lines of supports", lines[0].x)
	}
	if len(lines) > 2 {
		return fmt.Errorf("%d lines of supports (at x = %g, %g, %g m …): allowed two, or groups stated as equalised that act on two lines: a stiff piece does not share out its weight by itself",
			len(lines), lines[0].x, lines[1].x, lines[2].x)
	}
	for _, l := range lines {
		if len(l.resultants) > 2 {
			return fmt.Errorf("%d supports at x = %g m: allowed two, or groups stated as equalised", len(l.resultants), l.x)
		}
	}
	return nil
}
