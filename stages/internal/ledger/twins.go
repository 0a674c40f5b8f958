package ledger

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Two tendons that mirror each other in a symmetric section, with the same steel and the
// same friction, and are stressed alike, spread together: by symmetry no shear acts in the
// middle plane, so that what one does on its half of the section is what both do there
// together. A point within the spread of either is within that of the pair. Where only one
// of them is stressed, the pair counts from nothing to full in the whole of its zone.

// findTwins finds the first tendon of each pair, of any other tendon itself.
func (l *Ledger) findTwins() {
	l.leads = make([]int, len(l.Girder.Tendons))
	for i := range l.leads {
		l.leads[i] = i
	}
	if !l.Girder.Paired {
		return
	}
	for i := range l.leads {
		for k := range i {
			if l.leads[k] == k && l.twinOf(k) < 0 && l.mirrored(k, i) {
				l.leads[i] = k
				break
			}
		}
	}
}

// twinOf is the second tendon of the pair of which a tendon is the first; −1 for none.
func (l *Ledger) twinOf(tendon int) int {
	for k := tendon + 1; k < len(l.leads); k++ {
		if l.leads[k] == tendon {
			return k
		}
	}
	return -1
}

// mirrored is true for two tendons in ducts of which one mirrors the other all along, in
// sections that are symmetric.
func (l *Ledger) mirrored(i, k int) bool {
	a, b := &l.Girder.Tendons[i], &l.Girder.Tendons[k]
	near := 1e-6 * l.Girder.Length
	switch {
	case a.Grip != nil || b.Grip != nil || a.External || b.External || a.Piece != b.Piece || a.Area != b.Area:
		return false
	case math.Abs(a.Path.From()-b.Path.From()) > near || math.Abs(a.Path.To()-b.Path.To()) > near || !slices.Equal(a.Path.Breaks(), b.Path.Breaks()):
		return false
	}
	places := append([]float64{a.Path.From(), a.Path.To()}, a.Path.Breaks()...)
	slices.Sort(places)
	for n := range places[1:] {
		for _, x := range [3]float64{places[n], (places[n] + places[n+1]) / 2, places[n+1]} {
			p, q := a.Path.At(x), b.Path.At(x)
			if math.Abs(p.Y+q.Y) > near || math.Abs(p.Z-q.Z) > near || math.Abs(p.Y) < near {
				return false
			}
		}
	}
	return l.symmetric(a.Path.From()+Inset*l.Girder.Length) && l.symmetric(a.Path.To()-Inset*l.Girder.Length)
}

// symmetric is true where the outline at x mirrors itself in the plane y = 0.
func (l *Ledger) symmetric(x float64) bool {
	for _, p := range l.outline(x).Pieces {
		for _, outlines := range [2][]section.Outline{p.Shape.Solids(), p.Shape.Voids()} {
			for _, o := range outlines {
				if !slices.ContainsFunc(outlines, func(other section.Outline) bool { return mirrors(o, other) }) {
					return false
				}
			}
		}
	}
	return true
}

// mirrors is true for outlines of which each corner of one mirrors one of the other.
func mirrors(a, b section.Outline) bool {
	const close = 1e-6 // m
	for _, p := range a {
		if !slices.ContainsFunc(b, func(q section.Point) bool { return math.Abs(p.Y+q.Y) < close && math.Abs(p.Z-q.Z) < close }) {
			return false
		}
	}
	return len(a) == len(b)
}

// pair are the tendon of an anchor and its twin, if it has one.
func (z *zone) pair() []int {
	if z.twin < 0 {
		return []int{z.tendon}
	}
	return []int{z.tendon, z.twin}
}

// alone is true for a pair of which only one is stressed in the situation.
func (d *Demand) alone(s *spreading) bool {
	return s.twin >= 0 && d.forces[s.tendon] != d.forces[s.twin]
}

// appendApart appends the part of the tendons of an anchor that are stressed.
func (d *Demand) appendApart(list []ApartAt, s *spreading, factor float64) []ApartAt {
	for _, i := range s.pair() {
		if d.forces[i] {
			list = append(list, ApartAt{i, factor})
		}
	}
	return list
}
