package main

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
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
)

// depth is that of the deck at a distance from the pier axis (m): a parabola, level at the tip.
func depth(x float64) float64 {
	u := 1 - math.Max(math.Abs(x), half)/arm
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
	for _, b := range [][3]float64{{-4.75, -0.13, 4500}, {-1.05, -0.13, 5500}, {0, -0.16, 5500}, {1.05, -0.13, 5500}, {4.75, -0.13, 4500}, {-1.5, low + 0.13, 3000}, {0, low + 0.13, 3000}, {1.5, low + 0.13, 3000}} { // y, z (m), mm²
		e.Bars = append(e.Bars, stages.BondedBars{From: 0, To: e.Length, At: section.Point{Y: b[0], Z: b[1]}, Area: b[2] * 1e-6})
	}
	return segmental.Segment{Element: e, Type: of, Strength: 35 * unit.Mega}, nil
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

// lane is the place across of the tendons of pair k, to the left and right of the axis (m):
// those of the first pairs, which all joints have, above the webs.
func lane(k int) float64 {
	return 1.30 + 0.25*[pairs]float64{4, 5, 3, 6, 2, 7, 1, 9, 0, 8, 10}[k-1]
}

// topTendons are two tendons for each pair, from tip to tip.
func topTendons(left, right byte) (list []segmental.Tendon) {
	for k := 1; k <= pairs; k++ {
		for i, side := range []float64{1, -1} {
			list = append(list, segmental.Tendon{
				Tendon: tendon.Tendon{Mark: fmt.Sprintf("T%c%d%c", left, k, "LR"[i]), Strand: tendon.Y1860S7x157, Strands: strands(k), Duct: 0.10, Friction: 0.19, Wobble: 0.005,
					Approval: tendon.Approval{Reference: "invented approval EL-PT", MeanStrength: 30 * unit.Mega, AnchorSpacing: 0.25, EdgeDistance: 0.14}},
				First: fmt.Sprintf("%c%d", left, k), Last: fmt.Sprintf("%c%d", right, k), At: section.Point{Y: side * lane(k), Z: -0.16},
			})
		}
	}
	return list
}

// temporary are the bars of the joint of pair k: four in the top slab, four along the soffit,
// in other lanes than those of the pairs beside.
func temporary(k int) segmental.Bars {
	x := half + length*float64(k-1)
	low := func(x float64) float64 { return -depth(x) + 0.13 + 0.08*(depth(x)-2.2)/1.8 }
	z, rise := low(x), (low(x+2.9)-low(x-2.9))/5.8
	if k == 1 { // the segment on the pier has a level soffit
		z, rise = -depth(x)+0.42, 0.05
	}
	y := [4]float64{4.15, 0.45, 2.1, 1.2}
	if k%2 == 0 {
		y = [4]float64{4.45, 0.75, 1.8, 0.9}
	}
	b := segmental.Bars{
		Of: []string{fmt.Sprintf("L%d", k), fmt.Sprintf("R%d", k)}, Back: 2.9, Over: 2.9, Stress: 700 * unit.Mega, DrawIn: 1 * unit.Milli,
		Bar: tendon.Tendon{Strand: tendon.Y1050H36, Strands: 1, Duct: 0.05, NoFriction: true, Approval: tendon.Approval{Reference: "invented approval EL-BA", MeanStrength: 25 * unit.Mega, AnchorSpacing: 0.2, EdgeDistance: 0.1}},
	}
	if k == 1 {
		b.Back = half - 0.1
	}
	for i, v := range y {
		at := segmental.BarPlace{Y: v, Z: -0.16}
		if i >= 2 {
			at.Z, at.Rise = z, rise
		}
		mirror := at
		mirror.Y = -v
		b.At = append(b.At, at, mirror)
	}
	return b
}

// strands are those of a tendon of pair k: the short tendons near the tip have the full moment of
// frame and segment, but few before them.
func strands(k int) int {
	if k == 8 || k == 9 {
		return 19
	}
	return 17
}
