package ledger

import (
	"cmp"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// settle prepares a stretch for searches, once its stations are known.
func (p *Stretch) settle() {
	p.constant = len(p.At[0].Pieces) == 1
	for _, at := range p.At[1:] {
		p.constant = p.constant && slices.Equal(at.Corners, p.At[0].Corners)
	}
	p.all = make([]int, len(p.At[0].Corners))
	for i := range p.all {
		p.all[i] = i
	}
	p.hull = p.all
	if p.constant && !p.warps() {
		p.hull = hullOf(p.At[0].Corners, p.all)
	}
	if len(p.At[0].Pieces) > 1 {
		p.sides = make([]side, len(p.At[0].Pieces))
		for slot := range p.sides {
			p.sides[slot] = p.sideOf(slot)
		}
	}
}

// sideOf is one of several pieces.
func (p *Stretch) sideOf(slot int) (s side) {
	s.constant = true
	for i, c := range p.At[0].Corners {
		if c.Slot != slot {
			continue
		}
		s.hull = append(s.hull, i)
		for _, at := range p.At[1:] {
			s.constant = s.constant && at.Corners[i] == c
		}
	}
	if s.constant && !p.warps() {
		s.hull = hullOf(p.At[0].Corners, s.hull)
	}
	return s
}

// warps is true where a section is open: any of its corners may have the extreme.
func (p *Stretch) warps() bool {
	return slices.ContainsFunc(p.At[0].Corners, func(c Corner) bool { return c.Warping != 0 })
}

// corners are the corners that count. Extreme ones are those of which one has the
// extreme stress of them all, whatever the plane: where the outline does not change, is not open
// and all its corners count, those of its convex hull.
func (p *Stretch) corners(into []int, extreme bool, count func(*Stretch, Corner) bool) []int {
	into = into[:0]
	for i, c := range p.At[Nodes/2].Corners {
		if count(p, c) {
			into = append(into, i)
		}
	}
	if extreme && len(into) == len(p.all) {
		return p.hull
	}
	return into
}

// hullOf are the corners on the convex hull of a list (Andrew's monotone chain).
func hullOf(corners []Corner, list []int) []int {
	if len(list) < 4 {
		return list
	}
	at := func(i int) section.Point { return corners[i].At }
	sorted := slices.Clone(list)
	slices.SortFunc(sorted, func(i, j int) int {
		return cmp.Or(cmp.Compare(at(i).Z, at(j).Z), cmp.Compare(at(i).Y, at(j).Y))
	})
	chain := make([]int, 0, 2*len(sorted))
	add := func(i, base int) {
		for len(chain) > base+1 {
			a, b, c := at(chain[len(chain)-2]), at(chain[len(chain)-1]), at(i)
			if (b.Y-a.Y)*(c.Z-b.Z)-(b.Z-a.Z)*(c.Y-b.Y) > 0 {
				break
			}
			chain = chain[:len(chain)-1]
		}
		chain = append(chain, i)
	}
	for _, i := range sorted {
		add(i, 0)
	}
	top := len(chain) - 1
	for k := len(sorted) - 2; k >= 0; k-- {
		add(sorted[k], top)
	}
	hull := chain[:len(chain)-1]
	slices.Sort(hull)
	return hull
}
