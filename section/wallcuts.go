package section

import "math"

// How a cut must stand to be one across a wall.
const (
	mostSkew = 0.65 // rad: half the angle between the wall's faces
	sameCut  = 0.1  // of the thickness: cuts whose middles are closer are one
)

// choose picks the cuts: along every face, for each wall on it, those at both
// its ends, in the middle, where it is thinnest and at the level of the centroid.
func (w *Walls) choose() {
	n := w.net
	run := []int{}
	flush := func() {
		if len(run) > 0 {
			w.pick(run)
		}
		run = run[:0]
	}
	for i := range n.strides {
		s := &n.strides[i]
		if s.length == 0 || s.ends() || !w.wall(s.from) || !w.wall(s.mid) || !w.wall(s.to) {
			flush()
			continue
		}
		if len(run) > 0 && run[len(run)-1] != s.from {
			flush()
		}
		run = append(run, s.from, s.mid, s.to)
	}
	flush()
	w.lengthwise()
}

// wall is true where a station stands across a wall: not in an outward corner,
// its faces not too far from parallel.
func (w *Walls) wall(station int) bool {
	s := &w.net.stations[station]
	return s.radius > 0 && !w.net.cornered(s) && s.skew() <= mostSkew
}

// pick adds the cuts of one wall, given the stations along one face of it.
func (w *Walls) pick(run []int) {
	n := w.net
	face, last := n.stations[run[0]].near.face, len(run)-1
	a, b := &n.stations[run[0]], &n.stations[run[last]]
	w.keep(*a)
	w.keep(*b)
	w.keep(n.station(face, (a.near.part+b.near.part)/2))
	thinnest := run[0]
	for i, k := range run {
		if n.stations[k].radius < n.stations[thinnest].radius {
			thinnest = k
		}
		if i == 0 || k == run[i-1] {
			continue
		}
		below, above := n.stations[run[i-1]], n.stations[k]
		if z, up := below.middle().Z, above.middle().Z; z*up < 0 {
			w.keep(n.station(face, below.near.part+(above.near.part-below.near.part)*z/(z-up)))
		}
	}
	w.keep(n.stations[thinnest])
}

// keep adds the cut at a station unless it stands there already.
func (w *Walls) keep(s station) {
	if s.radius > 0 && !math.IsInf(s.radius, 0) {
		w.include(s.near, s.far, 2*s.radius)
	}
}

func (w *Walls) include(near, far spot, thickness float64) {
	middle, way := w.drawn(between(near.at, far.at, 0.5)), far.at.minus(near.at)
	length := math.Hypot(way.Y, way.Z)
	for i := range w.Cuts {
		off := middle.minus(between(w.Cuts[i].From, w.Cuts[i].To, 0.5))
		turn := math.Abs(cross(w.Cuts[i].To.minus(w.Cuts[i].From), way))
		if math.Hypot(off.Y, off.Z) < sameCut*length && turn < 0.2*length*w.Cuts[i].Thickness() {
			return
		}
	}
	w.Cuts = append(w.Cuts, w.cut(near, far, thickness))
}

// lengthwise adds the level and the upright cut through a centroid in the
// concrete of a shape without voids: along a wall that is the whole section the
// shear of a flat slab or of a rectangle is largest there.
func (w *Walls) lengthwise() {
	n := w.net
	foot := n.foot(Point{})
	inside := dot(Point{}.minus(foot.at), n.faces[foot.face].in)
	if w.Cells > 0 || !(inside > n.least) {
		return
	}
	for _, way := range [2]Point{{1, 0}, {0, 1}} {
		near, there := n.hit(Point{}, Point{-way.Y, -way.Z})
		far, here := n.hit(Point{}, way)
		if there && here {
			w.include(near, far, 2*inside)
		}
	}
}
