package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// segmentals is every check on cantilevers of precast segments: what is out of balance about
// the pier.
func segmentals() []Check {
	return append(append(outOfBalance(), twinRows()...), halfSegments()...)
}

// cantilever is a deck of 180 kN/m, 12 m wide, with a pier segment of 2 m, segments of 3.5 m
// and a lifting frame of 300 kN on each arm; that mark is on the lifting frame.
func cantilever(left, right int, handled string) segmental.Balance {
	b := segmental.Balance{Parts: []segmental.Part{{Mark: "PS", Arm: segmental.Middle, Force: 360e3}}}
	for _, side := range []struct {
		arm  segmental.Arm
		sign float64
		n    int
	}{{segmental.Left, -1, left}, {segmental.Right, 1, right}} {
		for k := range side.n {
			mark := fmt.Sprintf("%s %d", side.arm, k+1)
			b.Parts = append(b.Parts, segmental.Part{Mark: mark, Arm: side.arm, Force: 630e3, Lever: side.sign * (2.75 + 3.5*float64(k)), Handled: mark == handled})
		}
		b.Parts = append(b.Parts, segmental.Part{Mark: "lifting frame", Kind: limits.Equipment, Arm: side.arm, Force: 300e3, Lever: side.sign * 25.5})
	}
	if left != right {
		b.Unbalanced = fmt.Sprintf("right %d", right)
	}
	return b
}

// onArms are loads of a case on both arms of 28 m, 12 m wide.
func onArms(kind limits.ActionKind, left, right limits.ConstructionLoad, sign, least float64) ([]segmental.Part, error) {
	var list []segmental.Part
	for i, of := range []limits.ConstructionLoad{left, right} {
		if of == "" {
			continue
		}
		load, err := of.Practice()
		if err != nil {
			return nil, err
		}
		arm := []segmental.Arm{segmental.Left, segmental.Right}[i]
		list = append(list, segmental.Part{Mark: string(of), Kind: kind, Arm: arm, Force: sign * load.Value * 12 * 28, Lever: []float64{-15, 15}[i], Least: least, Most: 1})
	}
	return list, nil
}

// combined is the deck with the eighth segment on the frame of the right arm and with crews.
func combined(least float64) (segmental.Balance, error) {
	b := cantilever(7, 8, "right 8")
	crews, err := onArms(limits.Personnel, limits.CrewOtherArm, limits.CrewOneArm, 1, least)
	b.Parts = append(b.Parts, crews...)
	return b, err
}

// outermost are the extremes of the moment along in a combination, by its number.
func outermost(b segmental.Balance, rule segmental.Rule, combination int) (low, high segmental.Extreme, err error) {
	spans, err := b.Range(rule, limits.EN1992{}, func(r segmental.Resultant) float64 { return r.Along })
	if err != nil {
		return low, high, err
	}
	return spans[combination].Least, spans[combination].Most, nil
}

// The loads of the case are recalled, its statics is on paper; tolerances are half of the last
// printed digit, with what a half that was rounded needs.
const (
	segmentalLoads = "AASHTO LRFD Bridge Design Specifications, segmental construction: construction loads; statics"
	printedTenth   = 0.05 + 1e-6
	printedWhole   = 0.5 + 1e-6
	printedFactor  = 0.005
)

// recalledPier is a row with recalled loads.
func recalledPier(name, unit string, value, tolerance float64, reason string, ours func() (float64, error)) Check {
	return Check{Name: name, Package: "stages/segmental", Source: segmentalLoads, Kind: Recalled, Value: value, Unit: unit, Tolerance: tolerance, Reason: reason, Ours: ours}
}

// outOfBalance are the moments of single loads and of their combination about the pier, eight
// segments on each arm, the last one on the right arm only.
func outOfBalance() []Check {
	const name = "cantilever of 2 × 8 segments of 630 kN, about the pier: "
	moment := func(kind limits.ActionKind, left, right limits.ConstructionLoad, sign float64) func() (float64, error) {
		return func() (float64, error) {
			parts, err := onArms(kind, left, right, sign, 1)
			if err != nil {
				return 0, err
			}
			m, err := segmental.Balance{Parts: parts}.Moment()
			return m / 1e3, err
		}
	}
	// Crews on both arms at once, so that their difference acts.
	b := func() (segmental.Extreme, error) {
		balance, err := combined(1)
		if err != nil {
			return segmental.Extreme{}, err
		}
		_, high, err := outermost(balance, segmental.AASHTO, 0)
		return high, err
	}
	return []Check{
		closedRow(name+"eighth segment on one arm only", "stages/segmental", "kN·m", 17167.5, func() (float64, error) {
			m, err := cantilever(7, 8, "").Moment()
			return m / 1e3, err
		}),
		recalledPier(name+"DIFF, 2 % of the dead load of one arm", "kN·m", 1512, same(1512), floatRounding, func() (float64, error) {
			_, high, err := outermost(cantilever(8, 8, ""), segmental.AASHTO, 0)
			return high.Along / 1e3, err
		}),
		recalledPier(name+"CLL, 0.48 against 0.24 kPa on 12 m × 28 m", "kN·m", 1209.6, same(1209.6), floatRounding, moment(limits.Personnel, limits.CrewOtherArm, limits.CrewOneArm, 1)),
		recalledPier(name+"WUP, 0.24 kPa upwards on the left arm", "kN·m", 1209.6, same(1209.6), floatRounding, moment(limits.Wind, limits.WindUplift, "", -1)),
		recalledPier(name+"IE, 10 % of the segment that is lifted", "kN·m", 1716.8, printedTenth, lastDigit, func() (float64, error) {
			_, high, err := outermost(cantilever(7, 8, "right 8"), segmental.AASHTO, 0)
			return high.Along/1e3 - 17167.5, err
		}),
		recalledPier(name+"U + CLL + IE", "kN·m", 20093.9, printedTenth, lastDigit, func() (float64, error) {
			e, err := b()
			return e.Along / 1e3, err
		}),
		closedRow(name+"weight of all with both lifting frames", "stages/segmental", "kN", 10410, func() (float64, error) {
			r, err := cantilever(7, 8, "right 8").Nominal()
			return r.Vertical / 1e3, err
		}),
		closedRow(name+"U + CLL + IE: vertical force with 63 kN of IE and 241.92 kN of CLL", "stages/segmental", "kN", 10714.92, func() (float64, error) {
			e, err := b()
			return e.Vertical / 1e3, err
		}).from(Recalled, segmentalLoads),
		recalledPier(name+"A + AI, eighth segment put on at once", "kN·m", 34335, same(34335), floatRounding, func() (float64, error) {
			_, high, err := outermost(cantilever(7, 8, "right 8"), segmental.EN, 2)
			return high.Along / 1e3, err
		}),
		recalledPier(name+"the same: vertical force", "kN", 11040, same(11040), floatRounding, func() (float64, error) {
			_, high, err := outermost(cantilever(7, 8, "right 8"), segmental.EN, 2)
			return high.Vertical / 1e3, err
		}),
		recalledPier(name+"eighth segments on both arms, the right one released, a change of twice its weight", "kN·m", -34335, same(34335), floatRounding, func() (float64, error) {
			low, _, err := outermost(cantilever(8, 8, "right 8"), segmental.EN, 2)
			return low.Along / 1e3, err
		}),
		recalledPier(name+"the same: vertical force left", "kN", 9780, same(9780), floatRounding, func() (float64, error) {
			low, _, err := outermost(cantilever(8, 8, "right 8"), segmental.EN, 2)
			return low.Vertical / 1e3, err
		}),
	}
}

// twinRows are the forces of two rows, the factor V·e/2M and the ties that it needs: of U + CLL
// + IE with the vertical force of the weights, and of a segment that is released or put on at
// once.
func twinRows() []Check {
	b := func() (segmental.Resultant, error) {
		balance, err := combined(0) // crews may be absent: nominal without them
		if err != nil {
			return segmental.Resultant{}, err
		}
		r, err := balance.Nominal()
		if err != nil {
			return r, err
		}
		with, err := combined(1)
		if err != nil {
			return r, err
		}
		_, high, err := outermost(with, segmental.AASHTO, 0)
		r.Along = high.Along
		return r, err
	}
	released := func() (segmental.Resultant, error) {
		low, _, err := outermost(cantilever(8, 8, "right 8"), segmental.EN, 2)
		return low.Resultant, err
	}
	dropped := func() (segmental.Resultant, error) {
		_, high, err := outermost(cantilever(7, 8, "right 8"), segmental.EN, 2)
		return high.Resultant, err
	}
	row := func(name, unit string, value, tolerance float64, reason string, of func() (segmental.Resultant, error), read func(segmental.Resultant) (float64, error)) Check {
		return recalledPier(name, unit, value, tolerance, reason, func() (float64, error) {
			r, err := of()
			if err != nil {
				return 0, err
			}
			return read(r)
		})
	}
	pressed := func(e float64) func(segmental.Resultant) (float64, error) {
		return func(r segmental.Resultant) (float64, error) {
			left, right, err := r.Rows(e)
			return math.Max(left, right) / 1e3, err
		}
	}
	lifted := func(e float64) func(segmental.Resultant) (float64, error) {
		return func(r segmental.Resultant) (float64, error) {
			left, right, err := r.Rows(e)
			return math.Min(left, right) / 1e3, err
		}
	}
	factor := func(e float64) func(segmental.Resultant) (float64, error) {
		return func(r segmental.Resultant) (float64, error) { return r.Factor(e) }
	}
	tie := func(e, wanted float64) func(segmental.Resultant) (float64, error) {
		return func(r segmental.Resultant) (float64, error) {
			t, err := r.Tie(e, wanted)
			return t / 1e3, err
		}
	}
	var rows []Check
	for _, of := range []struct{ e, most, least, factor, tie float64 }{{2.4, 13577, -3167, 0.62, 7354}, {3.6, 10787, -377, 0.93, 3167}, {6, 8554, 1856, 1.55, 0}} {
		name := fmt.Sprintf("U + CLL + IE on rows %.1f m apart: ", of.e)
		rows = append(rows,
			row(name+"row that is pressed", "kN", of.most, printedWhole, lastDigit, b, pressed(of.e)), row(name+"other row", "kN", of.least, printedWhole, lastDigit, b, lifted(of.e)),
			row(name+"factor V·e/2M", "1", of.factor, printedFactor, lastDigit, b, factor(of.e)), row(name+"ties for a factor of 1.5", "kN", of.tie, printedWhole, lastDigit, b, tie(of.e, 1.5)))
	}
	return append(rows,
		row("segment released on rows 6.0 m apart: factor V·e/2M", "1", 0.85, printedFactor, lastDigit, released, factor(6)),
		row("segment released on rows 6.0 m apart: ties for a factor of 1.0", "kN", 833, printedWhole, lastDigit, released, tie(6, 1)),
		row("segment put on at once on rows 6.0 m apart: factor V·e/2M", "1", 0.96, printedFactor, lastDigit, dropped, factor(6)))
}

// halfSegments are k segments of constant depth on one arm against k − 1 on the other, without
// frames: the resultant is half a segment length off at every k.
func halfSegments() []Check {
	var rows []Check
	for k := 1; k <= 8; k++ {
		rows = append(rows, closedRow(fmt.Sprintf("segments on both arms %d and %d, constant depth, without frames: M/V is half a segment length", k-1, k), "stages/segmental", "m", 1.75, func() (float64, error) {
			b := cantilever(k-1, k, "")
			for i := range b.Parts {
				if b.Parts[i].Kind == limits.Equipment {
					b.Parts[i].Force = 0
				}
			}
			r, err := b.Nominal()
			return r.Along / r.Vertical, err
		}))
	}
	return rows
}
