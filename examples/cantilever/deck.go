package main

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/segmental"
)

const (
	pairs  = 11   // of segments about each pier
	length = 3.0  // of a segment, m
	half   = 2.0  // of the segment on a pier, m
	arm    = 35.0 // from the pier axis to the tip, m
	gap    = 2.0  // of a closure, m
	shore  = 9.0  // of the deck cast on falsework at each abutment, m
	pier1  = shore + gap + arm
	pier2  = pier1 + 2*arm + gap
)

// depth is that of the deck at a distance from the nearest pier axis (m): a parabola, level
// from the tip on.
func depth(x float64) float64 {
	u := math.Max(0, 1-math.Max(math.Abs(x), half)/arm)
	return 2.2 + 1.8*u*u
}

// box is the outline at a distance from the pier axis (m); z = 0 at the top of the deck.
func box(x float64) (section.Shape, error) {
	h := depth(x)
	shape, err := section.Box{
		Depth: h, TopWidth: 10, RootWidth: 5.2, BottomWidth: 5, TopSlab: 0.32, BottomSlab: 0.25 + 0.35*(h-2.2)/1.8, WebThickness: 0.50, CantileverRoot: 0.45, CantileverTip: 0.28,
		TopHaunch: section.Haunch{Width: 0.9, Height: 0.25}, BottomHaunch: section.Haunch{Width: 0.4, Height: 0.2},
	}.Shape()
	if err != nil {
		return shape, err
	}
	return shape.Moved(section.Point{Z: -h})
}

// mix is the concrete of the segments; its notional size is that of the section at mid-arm.
func mix() (concrete.EN1992, error) {
	shape, err := box(arm / 2)
	if err != nil {
		return concrete.EN1992{}, err
	}
	size, err := shape.NotionalSize(section.AllFaces)
	return concrete.EN1992{Fck: 60 * unit.Mega, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.80, NotionalSize: size, DryingFrom: 3}}, err
}

// segment is one between two distances from the pier axis, left and right as it lies in the
// deck (m).
func segment(mark string, left, right float64, of segmental.Type) (segmental.Segment, error) {
	m, err := mix()
	if err != nil {
		return segmental.Segment{}, err
	}
	a, err := box(left)
	if err != nil {
		return segmental.Segment{}, err
	}
	b, err := box(right)
	if err != nil {
		return segmental.Segment{}, err
	}
	e := stages.Element{Mark: mark, Length: math.Abs(right - left), Section: a, Concrete: m, LongTerm: m, WeightTolerance: loads.PlusMinus(0.02)}
	if of == segmental.OnPier {
		e.Length = 2 * half
	}
	if depth(left) != depth(right) {
		if e.Section, err = (section.Taper{From: 0, To: e.Length, Left: a, Right: b}).Along(); err != nil {
			return segmental.Segment{}, err
		}
	}
	low := -math.Min(depth(left), depth(right))
	for _, b := range [][3]float64{{-4.75, -0.13, 4500}, {-1.05, -0.13, 5500}, {0, -0.16, 5500}, {1.05, -0.13, 5500}, {4.75, -0.13, 4500}, {-2.3, low + 0.13, 4500}, {0, low + 0.13, 4500}, {2.3, low + 0.13, 4500}} { // y, z (m), mm²
		e.Bars = append(e.Bars, stages.BondedBars{From: 0, To: e.Length, At: section.Point{Y: b[0], Z: b[1]}, Area: b[2] * 1e-6})
	}
	return segmental.Segment{Element: e, Type: of, Strength: 35 * unit.Mega}, nil
}

// level is a piece of the deck beyond the tips, cast in place on a day.
func level(mark string, length, cast float64, of segmental.Type) (segmental.Segment, error) {
	s, err := segment(mark, arm, arm+length, of)
	s.Element.Cast = cast
	return s, err
}

// whole are all segments, from abutment to abutment.
func whole() (list []segmental.Segment, err error) {
	add := func(mark string, length, cast float64, of segmental.Type) {
		s, wrong := level(mark, length, cast, of)
		if err == nil {
			err = wrong
		}
		list = append(list, s)
	}
	about := func(pier string, left, right byte) {
		more, wrong := cantilever(pier, left, right)
		if err == nil {
			err = wrong
		}
		list = append(list, more...)
	}
	add("G1", shore, dayFirst-10, segmental.OnGround)
	add("C1", gap, daySides, segmental.Closure)
	about("P1", 'L', 'R')
	add("C2", gap, dayMiddle, segmental.Closure)
	about("P2", 'M', 'N')
	add("C3", gap, daySides, segmental.Closure)
	add("G2", shore, dayFirst-10, segmental.OnGround)
	return list, err
}

// cantilever are the segments about a pier, those of its arms with the given letters.
func cantilever(pier string, left, right byte) (list []segmental.Segment, err error) {
	add := func(mark string, from, to float64, of segmental.Type) {
		s, wrong := segment(mark, from, to, of)
		if err == nil {
			err = wrong
		}
		list = append(list, s)
	}
	for k := pairs; k >= 1; k-- {
		add(fmt.Sprintf("%c%d", left, k), -half-length*float64(k), -half-length*float64(k-1), segmental.Typical)
	}
	add(pier, 0, 0, segmental.OnPier)
	for k := 1; k <= pairs; k++ {
		add(fmt.Sprintf("%c%d", right, k), half+length*float64(k-1), half+length*float64(k), segmental.Typical)
	}
	return list, err
}
