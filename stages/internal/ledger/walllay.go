package ledger

import "slices"

// lay lays out the shear stress of the columns at a cut, and what of it counts by
// magnitude: torsion at the face of an open wall, and shear in a wall that has another
// direction on another section. Bodies of the same pieces have their walls in common.
func (u *wallRoom) lay(w *wallsAt, i int, c *Combination, outer int) {
	cut, own, from := w.cut(i), &u.on[0], outer*c.columns
	u.flow, u.free = resize(u.flow, c.columns), u.free[:0]
	clear(u.flow)
	for j := range u.shearing.columns { // parts of tendons have none
		u.flow[j] = own.vy[from+j]*cut.Y + own.vz[from+j]*cut.Z + own.t[from+j]*cut.T
		if w.taper != nil {
			u.flow[j] += w.taper[i].flow([3]float64{u.bends[0][from+j], u.bends[1][from+j], u.bends[2][from+j]})
		}
		u.flow[j] /= w.net[i]
	}
	if cut.Open {
		u.free = more(u.free, c.columns)
		addTo(u.free[len(u.free)-1][:u.shearing.columns], own, from, [3]float64{2: cut.Face})
	}
	if w.asOne == nil {
		return
	}
	if w.beside[i] != ([3]float64{}) {
		u.free = more(u.free, c.columns)
		addTo(u.free[len(u.free)-1][:u.shearing.columns], own, from, w.beside[i])
	}
	u.layBodies(w, i, c, from)
}

// layBodies adds what forces on bodies of several pieces do.
func (u *wallRoom) layBodies(w *wallsAt, i int, c *Combination, from int) {
	for k := range w.bodies {
		addTo(u.flow[:u.shearing.columns], &u.on[1+k], from, w.bodies[k].flows[i].Unit)
	}
	for _, unit := range [2]func(*BodyFlow) [3]float64{
		func(f *BodyFlow) [3]float64 { return [3]float64{2: f.Face} },
		func(f *BodyFlow) [3]float64 { return f.Beside },
	} {
		for group := 1; group <= len(w.bodies); group++ {
			added := false
			for k := range w.bodies {
				f := &w.bodies[k].flows[i]
				by := unit(f)
				if f.group != group || by == ([3]float64{}) {
					continue
				}
				if !added {
					u.free, added = more(u.free, c.columns), true
				}
				addTo(u.free[len(u.free)-1][:u.shearing.columns], &u.on[1+k], from, by)
			}
		}
	}
}

// addTo adds the stresses of columns by those for unit forces.
func addTo(to []float64, of *shears, from int, unit [3]float64) {
	for j := range to {
		to[j] += of.vy[from+j]*unit[0] + of.vz[from+j]*unit[1] + of.t[from+j]*unit[2]
	}
}

// more is the lists with one more of n zeros.
func more(lists [][]float64, n int) [][]float64 {
	k := len(lists)
	lists = slices.Grow(lists, 1)[:k+1]
	lists[k] = resize(lists[k], n)
	clear(lists[k])
	return lists
}
