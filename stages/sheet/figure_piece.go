package sheet

import (
	"math"
	"math/bits"
	"slices"

	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// mostParts is up to how many parts of the weight are looked at for those that are carried.
const mostParts = 14

// carried says of each part of the weight whether it is there in a situation: the Record
// gives the self-weight and its centre, so that it is known where only one set of parts
// has them, or only one goes with the internal forces; of segments it says where they are. Where it is not known, all are.
func (a *author) carried(s stages.SituationRecord) []bool {
	parts := a.record.Weights
	all := slices.Repeat([]bool{true}, len(parts))
	if len(s.Present) > 0 {
		for i, p := range parts {
			all[i] = slices.ContainsFunc(s.Present, func(of [2]float64) bool { return of[0] < p.Centre && p.Centre < of[1] })
		}
		return all
	}
	if !(s.Mass.Weight > 0) || len(parts) > mostParts || a.weighs(s, 1<<len(parts)-1) {
		return all
	}
	var found []uint
	for set := range uint(1) << len(parts) {
		if a.weighs(s, set) {
			found = append(found, set)
		}
	}
	if len(found) > 1 {
		diagram := stages.StationsOf(s.Diagram)
		found = slices.DeleteFunc(found, func(set uint) bool { return !a.loadedBy(set, diagram) })
	}
	if len(found) != 1 {
		return all
	}
	for i := range all {
		all[i] = found[0]>>i&1 == 1
	}
	return all
}

// weighs is true where a set of parts has the weight and the centre of a situation.
func (a *author) weighs(s stages.SituationRecord, set uint) bool {
	var w, x, y, z float64
	for rest := set; rest != 0; rest &= rest - 1 {
		p := a.record.Weights[bits.TrailingZeros(rest)]
		w, x, y, z = w+p.Force, x+p.Force*p.Centre, y+p.Force*p.Y, z+p.Force*p.Z
	}
	const rounding = 1e-7 // of the sums, in another order
	m, near := s.Mass, rounding*math.Abs(s.Mass.Weight)
	reach := near * (1 + a.record.Length)
	return math.Abs(w-m.Weight) <= near && math.Abs(x-m.Weight*m.X) <= reach && math.Abs(y-m.Weight*m.Y) <= reach && math.Abs(z-m.Weight*m.Z) <= reach
}

// loadedBy is true where the internal forces go with a set of parts: an element that is
// carried has shear somewhere in it, one that is not there has none.
func (a *author) loadedBy(set uint, diagram []stages.Station) bool {
	for i, p := range a.record.Weights {
		if p.Own && p.To > p.From && (set>>i&1 == 1) != sheared(diagram, p.From, p.To) {
			return false
		}
	}
	return true
}

// sheared is true where a diagram has shear from self-weight between two places.
func sheared(diagram []stages.Station, from, to float64) bool {
	for i := 1; i < len(diagram); i++ {
		p, q := diagram[i-1], diagram[i]
		left, right := math.Max(p.X, from), math.Min(q.X, to)
		if right-left > 1e-6*(to-from) && math.Max(math.Abs(p.Weight.Vz), math.Abs(q.Weight.Vz)) > negligible {
			return true
		}
	}
	return false
}

// stretch is a part of the length that is there, or not yet.
type stretch struct {
	from, to float64
	there    bool
}

// stretches are the parts of the length: where an element is carried, and where none is.
func (a *author) stretches(carried []bool) []stretch {
	ends := []float64{0, a.record.Length}
	for _, p := range a.record.Weights {
		if p.Own {
			ends = append(ends, p.From, p.To)
		}
	}
	slices.Sort(ends)
	ends = slices.CompactFunc(ends, func(p, q float64) bool { return math.Abs(q-p) < 1e-9*(1+a.record.Length) })
	var list []stretch
	for i := 1; i < len(ends); i++ {
		middle, own, there := (ends[i-1]+ends[i])/2, false, false
		for k, p := range a.record.Weights {
			if p.Own && p.From < middle && middle < p.To {
				own, there = true, there || carried[k]
			}
		}
		list = append(list, stretch{ends[i-1], ends[i], there || !own})
	}
	return list
}

// extentAt is the box round the section at an x of the length.
type extentAt struct {
	x           float64
	least, most section.Point
}

// profile are the boxes round the sections along the length: straight between them, and
// the last one to the end.
func (a *author) profile() []extentAt {
	var list []extentAt
	for _, d := range a.record.Outlines {
		if least, most, ok := extent(d); ok {
			list = append(list, extentAt{d.X, least, most})
		}
	}
	if n := len(list); n > 0 && list[n-1].x < a.record.Length {
		end := list[n-1]
		end.x = a.record.Length
		list = append(list, end)
	}
	return list
}

// around is the closed outline of the element between two places seen from one side, on
// the paper as on says: along the greatest y and z of each section, and back along the
// least.
func (a *author) around(from, to float64, on func(x float64, p section.Point) vg.Point) []vg.Point {
	var there, back []vg.Point
	add := func(e extentAt) {
		there, back = append(there, on(e.x, e.most)), append(back, on(e.x, e.least))
	}
	profile := a.profile()
	for i, e := range profile {
		if i > 0 {
			for _, x := range []float64{from, to} {
				if before := profile[i-1]; before.x < x && x < e.x {
					add(between(before, e, x))
				}
			}
		}
		if from <= e.x && e.x <= to {
			add(e)
		}
	}
	if len(there) == 0 {
		return nil
	}
	slices.Reverse(back)
	return append(append(there, back...), there[0])
}

// between is the box at an x between two others.
func between(p, q extentAt, x float64) extentAt {
	t := (x - p.x) / (q.x - p.x)
	mix := func(a, b section.Point) section.Point {
		return section.Point{Y: a.Y + t*(b.Y-a.Y), Z: a.Z + t*(b.Z-a.Z)}
	}
	return extentAt{x, mix(p.least, q.least), mix(p.most, q.most)}
}
