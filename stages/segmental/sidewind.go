package segmental

import (
	"math"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// sideWind is wind across on an arm: its resultant.
type sideWind struct {
	force  float64 // N
	moment float64 // about the pier axis, N·m
	level  float64 // z of the force, m
}

// stretch is a part of an arm in one segment (m).
type stretch struct {
	segment  int
	from, to float64
}

// stretches are those of an arm.
func (s *state) stretches(a arm) (list []stretch) {
	for i := range s.deck.Segments {
		if f := (stretch{i, math.Max(a.from, s.at[i]), math.Min(a.to, s.at[i+1])}); s.carried[i] && f.to-f.from > nearly {
			list = append(list, f)
		}
	}
	return list
}

// outline are bottom and top of what the wind sees of segment i at x (m).
func (s *state) outline(i int, x float64) (bottom, top float64) {
	e := s.deck.Segments[i].Element
	p := e.Section.At(math.Min(math.Max(x-s.at[i], 0), e.Length*(1-1e-12))).Properties()
	return p.Centroid.Z - p.Bottom, p.Centroid.Z + p.Top + s.deck.Loads.Above
}

func (s *state) heightAt(i int, x float64) float64 {
	bottom, top := s.outline(i, x)
	return top - bottom
}

// across is the wind of 1 Pa on an arm. Simpson's rule is exact for outlines that are straight in
// each segment.
func (s *state) across(a arm, pier float64) (w sideWind) {
	for _, f := range s.stretches(a) {
		for k, weight := range [3]float64{1.0 / 6, 4.0 / 6, 1.0 / 6} {
			x := f.from + float64(k)/2*(f.to-f.from)
			bottom, top := s.outline(f.segment, x)
			part := weight * (f.to - f.from) * (top - bottom)
			w.force += part
			w.moment += part * math.Abs(x-pier)
			w.level += part * (top + bottom) / 2
		}
	}
	if w.force > 0 {
		w.level /= w.force
	}
	return w
}

// blown puts the wind across on a balance: yaw with one arm in full and the part that is stated on
// the other, the force across with both in full.
func (s *state) blown(b *Balance, p Pier) {
	l := s.deck.Loads
	if l.Across == 0 {
		return
	}
	var on [2]sideWind
	for k, a := range s.arms(p) {
		on[k] = s.across(a, p.At)
	}
	for k := range on {
		b.Yaw = math.Max(b.Yaw, l.Across*on[k].moment-l.AcrossOther*on[1-k].moment)
	}
	if both := on[0].force + on[1].force; both > 0 {
		b.Transverse, b.Level = l.Across*both, (on[0].force*on[0].level+on[1].force*on[1].level)/both
	}
}

// windAcross are the actions of the wind across on the arms of a pier, each by itself and from
// either side.
func (s *state) windAcross(p Pier) (list []stages.Action) {
	l := s.deck.Loads
	if l.Across == 0 {
		return nil
	}
	for _, a := range s.arms(p) {
		action := stages.Action{Mark: "wind across on " + a.name, Kind: limits.Wind, Direction: stages.Transverse, Least: -1, Most: 1, Z: s.across(a, p.At).level}
		for _, f := range s.stretches(a) {
			action.Loads.Lines = append(action.Loads.Lines, loads.Trapezoid(f.from, f.to, l.Across*s.heightAt(f.segment, f.from), l.Across*s.heightAt(f.segment, f.to)))
		}
		list = append(list, action)
	}
	return list
}
