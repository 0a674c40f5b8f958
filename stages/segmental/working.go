package segmental

import (
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// arm is a stretch of the deck on one side of a pier.
type arm struct {
	name     string
	side     Arm
	from, to float64 // m
}

// arms are the stretches on both sides of a pier that act with its segment: to the tips,
// or half way to the next pier.
func (s *state) arms(p Pier) []arm {
	on := s.segmentAt(p.At)
	if on < 0 {
		return nil
	}
	left, right := s.tips(on)
	from, to := s.at[left], s.at[right+1]
	for _, other := range s.deck.Piers {
		half := (other.At + p.At) / 2
		if k := s.segmentAt(other.At); k >= left && k <= right && other.Mark != p.Mark {
			if half < p.At {
				from = max(from, half)
			} else {
				to = min(to, half)
			}
		}
	}
	return []arm{{"left arm of " + p.Mark, Left, from, p.At}, {"right arm of " + p.Mark, Right, p.At, to}}
}

// segmentAt is the segment at x (m); −1 for none.
func (s *state) segmentAt(x float64) int {
	for i := range s.deck.Segments {
		if x > s.at[i] && x < s.at[i+1] {
			return i
		}
	}
	return -1
}

// workingMark and upliftMark are the marks of the loads of an arm.
func workingMark(arm string) string { return "working load on " + arm }
func upliftMark(arm string) string  { return "uplift of wind below " + arm }

// working are the working load and the uplift of wind on every arm, each present or absent, and
// the wind across from either side.
func (s *state) working() (list []stages.Action) {
	l := s.deck.Loads
	for _, p := range s.deck.Piers {
		for _, a := range s.arms(p) {
			if l.OneArm > 0 {
				list = append(list, stages.Action{Mark: workingMark(a.name), Kind: limits.Personnel, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(a.from, a.to, l.OneArm*l.Width)}}})
			}
			if l.Uplift > 0 {
				list = append(list, stages.Action{Mark: upliftMark(a.name), Kind: limits.Wind, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(a.from, a.to, -l.Uplift*l.Width)}}})
			}
		}
		list = append(list, s.windAcross(p)...)
	}
	return list
}
