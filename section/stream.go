package section

import "math"

// flows are the flows of three sources over the concrete: 1, y and z from the
// centroid. The flow of a source that is linear in y and z is a sum of them.
type flows [3]float64

func (f flows) times(by flows) float64 { return f[0]*by[0] + f[1]*by[1] + f[2]*by[2] }

// stream is what makes the flow through any cut known from its two ends: with a
// source s the shear τ = F + (∂ψ/∂z, −∂ψ/∂y), where F is any field with
// div F = s. No flow passes an outline, so ψ grows along it by the flow of F and
// is known but for a constant of each outline: the flow that runs round a cell.
// What passes a cut from P to Q towards its left is the flow of F + ψ(P) − ψ(Q).
//
// F is (y/2, z/2), (y²/2, 0), (0, z²/2) for the three sources, and in each void a
// point source that takes up what these leave there, so that ψ comes back to its
// value round each void.
type stream struct {
	cores    []Point // the point in each void
	strength []flows
	start    []flows // ψ at the beginning of each face
	unlike   *unlike // parts in which the sources are not those of the rest; nil for none
}

func (s Shape) stream(faces []face, cores []Point, parts *unlike) stream {
	w := stream{cores: cores, strength: make([]flows, len(cores)), start: make([]flows, len(faces)), unlike: parts}
	for i := range faces {
		if void := faces[i].outline - s.solids; void >= 0 {
			for c, q := range polynomialFlow(faces[i].from, faces[i].to) {
				w.strength[void][c] -= q
			}
		}
	}
	for i := range faces {
		if next := faces[i].after; next > i {
			q := w.passing(faces[i].from, faces[i].to)
			for c := range q {
				w.start[next][c] = w.start[i][c] + q[c]
			}
		}
	}
	return w
}

// polynomialFlow is what of F without the point sources passes the line from a
// to b towards its left.
func polynomialFlow(a, b Point) flows {
	return flows{
		-cross(a, b) / 2,
		-(b.Z - a.Z) * (a.Y*a.Y + a.Y*b.Y + b.Y*b.Y) / 6,
		(b.Y - a.Y) * (a.Z*a.Z + a.Z*b.Z + b.Z*b.Z) / 6,
	}
}

// passing is what of F passes the line from a to b towards its left.
func (w stream) passing(a, b Point) flows {
	q := polynomialFlow(a, b)
	for c, more := range w.unlike.passing(a, b) {
		q[c] += more
	}
	for k, core := range w.cores {
		from, to := a.minus(core), b.minus(core)
		share := math.Atan2(cross(from, to), dot(from, to)) / (2 * math.Pi)
		for c, strength := range w.strength[k] {
			q[c] -= strength * share
		}
	}
	return q
}

// across is the flow through the cut from one spot to another, with ψ zero at
// the beginning of each outline.
func (w stream) across(faces []face, from, to spot) flows {
	q := w.passing(from.at, to.at)
	out, back := w.passing(faces[from.face].from, from.at), w.passing(faces[to.face].from, to.at)
	for c := range q {
		q[c] += w.start[from.face][c] + out[c] - w.start[to.face][c] - back[c]
	}
	return q
}

// cores are points in the voids, from an origin.
func (s Shape) cores(origin Point) []Point {
	cores := make([]Point, 0, len(s.outlines)-s.solids)
	for _, o := range s.outlines[s.solids:] {
		cores = append(cores, o.core().minus(origin))
	}
	return cores
}

// middles are the centroids of the voids, from an origin.
func (s Shape) middles(origin Point) []Point {
	middles := make([]Point, 0, len(s.outlines)-s.solids)
	for _, o := range s.outlines[s.solids:] {
		middles = append(middles, o.middle().minus(origin))
	}
	return middles
}

// middle is the centroid of what an outline encloses.
func (o Outline) middle() Point {
	return Shape{outlines: []Outline{o.turned(1)}, solids: 1}.Properties().Centroid
}

// core is a point inside an outline: its centroid, or for one that bends round
// it the middle of the widest level chord half-way between its two corners that
// are farthest apart in height.
func (o Outline) core() Point {
	if c := o.middle(); o.contains(c) {
		return c
	}
	alone := Shape{outlines: []Outline{o.turned(1)}, solids: 1}
	levels, widest := alone.levels(), Chord{}
	gap, at := 0.0, 0.0
	for i := 1; i < len(levels); i++ {
		if levels[i]-levels[i-1] > gap {
			gap, at = levels[i]-levels[i-1], (levels[i]+levels[i-1])/2
		}
	}
	for _, chord := range alone.Chords(at) {
		if chord.To-chord.From > widest.To-widest.From {
			widest = chord
		}
	}
	return Point{(widest.From + widest.To) / 2, at}
}
