package main

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/segmental"
)

// lane is the place across of the tendons of pair k, to the left and right of the axis (m):
// those of the first pairs, which all joints have, above the webs.
func lane(k int) float64 {
	return 1.30 + 0.25*[pairs]float64{4, 5, 3, 6, 2, 7, 1, 9, 0, 8, 10}[k-1]
}

// soffit is the place above the axis of the soffit tendons at a distance from the nearest pier axis.
func soffit(x float64) float64 { return 0.13 - depth(x) }

// along is the curve of a tendon along the soffit of an arm and on at the level of its tip, from
// a distance from the pier axis to x, with the sense of the arm: a parabola as the soffit.
func along(pier, sense, distance, x float64) tendon.Curve {
	tip := pier + sense*arm
	anchor := tendon.Point{X: pier + sense*distance, Ordinate: soffit(distance)}
	slope := sense * 2 * 1.8 * (arm - distance) / (arm * arm)
	if sense > 0 {
		return tendon.Curve{tendon.Parabola(anchor, slope, tendon.Point{X: tip, Ordinate: soffit(arm)}), tendon.Straight(tendon.Point{X: tip, Ordinate: soffit(arm)}, tendon.Point{X: x, Ordinate: soffit(arm)})}
	}
	return tendon.Curve{tendon.Straight(tendon.Point{X: x, Ordinate: soffit(arm)}, tendon.Point{X: tip, Ordinate: soffit(arm)}), tendon.Parabola(tendon.Point{X: tip, Ordinate: soffit(arm)}, 0, anchor)}
}

// pair is a pair of soffit tendons, in a lane to the left and right of the axis, between the middle of
// two segments or an end of the deck.
func pair(name string, lane int, first, last string, inside [2]float64, curve tendon.Curve) (list []segmental.Tendon) {
	for i, side := range []float64{1, -1} {
		list = append(list, segmental.Tendon{
			Tendon: tendon.Tendon{Mark: fmt.Sprintf("%s%d", name, 2*lane+i+1), Strand: tendon.Y1860S7x157, Strands: 12 + 7*(lane/2), Duct: 0.08 + 0.02*float64(lane/2), Friction: 0.19, Wobble: 0.005,
				Approval:  tendon.Approval{Reference: "invented approval EL-PT", MeanStrength: 30 * unit.Mega, AnchorSpacing: 0.25, EdgeDistance: 0.07},
				Elevation: curve, Plan: tendon.Level(curve.From(), curve.To(), side*[3]float64{0.35, 0.70, 1.50}[lane])},
			First: first, Last: last, Inside: inside,
		})
	}
	return list
}

// soffitTendons are those along the soffit: three pairs through the closure of the main span, two
// through each of those of the side spans, each pair to the middle of other segments.
func soffitTendons() (list []segmental.Tendon) {
	const inside = length / 2
	from := func(k int) float64 { return half + length*float64(k) - inside }
	for lane, k := range []int{8, 7, 5} {
		middle := slices.Concat(along(pier1, 1, from(k), pier2-arm), along(pier2, -1, from(k), pier2-arm)[1:])
		list = append(list, pair("K", lane, fmt.Sprintf("R%d", k), fmt.Sprintf("M%d", k), [2]float64{inside, inside}, middle)...)
	}
	for lane, k := range []int{7, 5} {
		list = append(list, pair("A", lane+1, "G1", fmt.Sprintf("L%d", k), [2]float64{0, inside}, along(pier1, -1, from(k), 0))...)
		list = append(list, pair("B", lane+1, fmt.Sprintf("N%d", k), "G2", [2]float64{inside, 0}, along(pier2, 1, from(k), end))...)
	}
	return list
}

// webTendons are those that press the closures of the side spans first, straight in the webs.
func webTendons() (list []segmental.Tendon) {
	for _, of := range []struct {
		mark, first, last string
		inside            [2]float64
	}{{"A", "G1", "L9", [2]float64{0, length / 2}}, {"B", "N9", "G2", [2]float64{length / 2, 0}}} {
		for i, side := range []float64{1, -1} {
			list = append(list, segmental.Tendon{
				Tendon: tendon.Tendon{Mark: fmt.Sprintf("%s%d", of.mark, i+1), Strand: tendon.Y1860S7x157, Strands: 12, Duct: 0.08, Friction: 0.19, Wobble: 0.005,
					Approval: tendon.Approval{Reference: "invented approval EL-PT", MeanStrength: 30 * unit.Mega, AnchorSpacing: 0.25, EdgeDistance: 0.14}},
				First: of.first, Last: of.last, Inside: of.inside, At: section.Point{Y: side * 2.3, Z: -1.2},
			})
		}
	}
	return list
}

// allTendons are the tendons of the deck.
func allTendons() []segmental.Tendon {
	return slices.Concat(topTendons('L', 'R'), topTendons('M', 'N'), webTendons(), soffitTendons())
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
	switch k {
	case 8, 9:
		return 19
	case pairs:
		return 8
	}
	return 17
}
