package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/concrete"
)

// clock makes day and age one: by the first piece, whose age the history counts.
func (r *run) clock(s *Situation) error {
	first := r.girder.Pieces[0].Element.Cast
	if s.Day != 0 {
		if age := s.Day - first; s.Age != 0 && math.Abs(s.Age-age) > 1e-9*math.Abs(s.Day) {
			return fmt.Errorf("field Age = %g d beside Day = %g d, at which the first piece is %g d old: must be one of the two", s.Age, s.Day, age)
		}
		s.Age = s.Day - first
		if s.Until != 0 {
			s.Until -= first
		}
		return nil
	}
	for i, p := range r.girder.Pieces {
		if p.Element.Cast != first {
			return fmt.Errorf("field Age = %g d of a girder whose pieces 1 and %d are cast on days %g and %g: must be stated by Day", s.Age, i+1, first, p.Element.Cast)
		}
	}
	s.Day = first + s.Age
	return nil
}

// timed is a situation, or the same at its end.
type timed struct {
	Situation
	end bool
}

// withEnds adds, behind each standing situation that lasts, the same at its end:
// with time-dependent losses the end may be worse than the beginning.
func (r *run) withEnds(situations []Situation) []timed {
	var all []timed
	for _, s := range situations {
		all = append(all, timed{Situation: s})
		if !r.longTerm() || !s.Standing || !(s.Until > s.Age && s.Until > s.Day) {
			continue
		}
		end := s
		end.Name, end.Age, end.Until, end.Events, end.Off = s.Name+", at its end", s.Until, 0, nil, nil
		if s.Day != 0 {
			end.Day, end.Age = s.Until, 0
		}
		end.Actions = slices.DeleteFunc(slices.Clone(s.Actions), func(a Action) bool { return a.Stays })
		all = append(all, timed{end, true})
	}
	return all
}

// longTerm is true where any piece has a model of creep and shrinkage.
func (r *run) longTerm() bool {
	return slices.ContainsFunc(r.girder.Pieces, func(p Piece) bool { return p.Element.LongTerm != nil })
}

// checkState refuses a concrete without strength or stiffness, as a model of
// one's own might give: a modulus of zero would make a loss vanish.
func checkState(c concrete.State) error {
	for _, p := range []struct {
		name  string
		value float64
	}{{"Characteristic", c.Characteristic}, {"Mean", c.Mean}, {"TensileMean", c.TensileMean}, {"TensileLow", c.TensileLow}, {"Modulus", c.Modulus}} {
		if !(p.value > 0) || math.IsInf(p.value, 0) {
			return fmt.Errorf("field Element.Concrete at age %g d: %s = %g Pa: must be finite and positive", c.Age, p.name, p.value)
		}
	}
	return nil
}
