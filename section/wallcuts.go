package section

import "math"

// How a cut must stand to be one across a wall.
const (
	mostSkew = 0.65 // rad: half the angle between the wall's faces
	sameCut  = 0.1  // of the thickness: cuts whose middles are closer
	sameTurn = 0.2  // and whose directions (rad) are closer are one
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
		chords := n.stations[s.from].near.face != n.stations[s.to].near.face
		if chords && s.length == 0 && s.turn < gentlest && len(run) > 0 && run[len(run)-1] == s.from && w.wall(s.to) { // along an arc of chords
			run = append(run, s.to)
			continue
		}
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
	// Where the centroid is level with a junction no wall crosses its level.
	g := w.properties.Centroid
	for _, chord := range w.shape.Chords(g.Z) {
		if cut, ok := w.through(Point{(chord.From+chord.To)/2 - g.Y, 0}); ok {
			w.include(cut[0], cut[1], distance(cut[0].at, cut[1].at))
		}
	}
	w.lengthwise()
}

// wall is true where a station stands across a wall: not in an outward corner,
// its faces not too far from parallel.
func (w *Walls) wall(station int) bool {
	s := &w.net.stations[station]
	return s.radius > 0 && !w.net.cornered(s) && s.skew() <= mostSkew
}

// pick adds the cuts of one wall, given the stations along one side of it.
func (w *Walls) pick(run []int) {
	n := w.net
	w.keep(n.stations[run[0]])
	w.keep(n.stations[run[len(run)-1]])
	w.keep(n.half(&n.stations[run[0]], &n.stations[run[len(run)-1]], 0.5, run[len(run)/2]))
	thinnest := run[0]
	for i, k := range run {
		if n.stations[k].radius < n.stations[thinnest].radius {
			thinnest = k
		}
		if i == 0 {
			continue
		}
		below, above := &n.stations[run[i-1]], &n.stations[k]
		if z, up := below.middle().Z, above.middle().Z; z*up < 0 {
			w.keep(n.half(below, above, z/(z-up), k))
		}
	}
	w.keep(n.stations[thinnest])
}

// half is the station at a part of the way between two on one face; along an arc
// of chords it is the given one.
func (n *wallNet) half(a, b *station, part float64, other int) station {
	if a.near.face != b.near.face {
		return n.stations[other]
	}
	reached, left := n.station(a.near.face, a.near.part+part*(b.near.part-a.near.part))
	if reached.chord() > left.chord() {
		return reached
	}
	return left
}

// keep adds the cut at a station unless it stands there already.
func (w *Walls) keep(s station) {
	if s.radius > 0 && !math.IsInf(s.radius, 0) {
		w.include(s.near, s.far, s.chord())
	}
}

func (w *Walls) include(near, far spot, thickness float64) {
	middle, way := w.drawn(between(near.at, far.at, 0.5)), far.at.minus(near.at)
	length := dot(way, way)
	for i := range w.Cuts {
		there := w.Cuts[i].To.minus(w.Cuts[i].From)
		off := middle.minus(between(w.Cuts[i].From, w.Cuts[i].To, 0.5))
		if turn := cross(there, way); dot(off, off) < sameCut*sameCut*length && turn*turn < sameTurn*sameTurn*length*dot(there, there) {
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
