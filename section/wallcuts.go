package section

import (
	"cmp"
	"math"
	"slices"
)

// How a cut must be to be one across a wall.
const (
	mostSkew = 0.65 // rad: half the angle between the wall's faces
	sameCut  = 0.1  // of the thickness: cuts whose middles are closer
	sameTurn = 0.2  // and whose directions (rad) are closer are one
)

// candidate is a cut that may be chosen.
type candidate struct {
	near, far spot
	thickness float64
}

// choose picks the cuts: along every face, for each wall on it, those at both
// its ends, in the middle, where it is thinnest and at the level of the centroid.
func (w *Walls) choose() {
	w.runs()
	// Where the centroid is level with a junction no wall crosses its level.
	g := w.properties.Centroid
	for _, chord := range w.shape.Chords(g.Z) {
		for _, cut := range w.allThrough(Point{(chord.From+chord.To)/2 - g.Y, 0}) {
			w.add(cut[0], cut[1], distance(cut[0].at, cut[1].at))
		}
	}
	w.lengthwise()
	w.sift()
}

// keep adds the cut at a station.
func (w *Walls) keep(s station) {
	if s.radius > 0 && !math.IsInf(s.radius, 0) {
		w.add(s.near, s.far, s.chord())
	}
}

func (w *Walls) add(near, far spot, thickness float64) {
	w.candidates = append(w.candidates, candidate{near, far, thickness})
}

// sift keeps of candidates that are one that with the largest mean stress under Vz, of
// these that under Vy and the thinnest, in the order in which they were found: which
// came first does not matter.
func (w *Walls) sift() {
	cuts := make([]WallCut, len(w.candidates))
	keys := make([][3]float64, len(cuts))
	order := make([]int, len(cuts))
	size := extent(w.shape.outlines)
	for i, c := range w.candidates {
		cuts[i], order[i] = w.cut(c.near, c.far, c.thickness), i
		for k, v := range [3]float64{-math.Abs(cuts[i].Z) / c.thickness * size * size, -math.Abs(cuts[i].Y) / c.thickness * size * size, c.thickness / size} {
			keys[i][k] = math.Round(v * 1e8) // rounding does not decide
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return slices.Compare(keys[i][:], keys[j][:]) })
	var kept []int
	for _, i := range order {
		if !slices.ContainsFunc(kept, func(k int) bool {
			twins := keys[k] == keys[i] && !cuts[k].repeats(cuts[i].Cut, 1e-7*size) // on either side of an axis
			return !twins && cuts[k].same(cuts[i].Cut)
		}) {
			kept = append(kept, i)
		}
	}
	slices.SortFunc(kept, cmp.Compare)
	for _, i := range kept {
		w.Cuts = append(w.Cuts, cuts[i])
	}
	w.candidates = nil
}

// repeats is true of a cut between the same ends.
func (c Cut) repeats(other Cut, within float64) bool {
	return distance(c.From, other.From)+distance(c.To, other.To) <= within || distance(c.From, other.To)+distance(c.To, other.From) <= within
}

// same is true of cuts that are one.
func (c Cut) same(other Cut) bool {
	way, there := c.To.minus(c.From), other.To.minus(other.From)
	off := between(c.From, c.To, 0.5).minus(between(other.From, other.To, 0.5))
	turn, length := cross(there, way), math.Min(dot(way, way), dot(there, there))
	return dot(off, off) < sameCut*sameCut*length && turn*turn < sameTurn*sameTurn*dot(way, way)*dot(there, there)
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
			w.add(near, far, 2*inside)
		}
	}
}
