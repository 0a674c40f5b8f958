package section

import "math"

// wallNet is a shape as a net of walls, walked along its outlines: every wall is
// passed twice, once along each face.
type wallNet struct {
	faces    []face
	solids   int
	cores    []Point // a point in each void
	middles  []Point // the centroid of each void, inside it or not
	least    float64 // shorter is nothing, m
	stations []station
	ends     []faceEnds // of each face
	strides  []stride
	stream   stream
	parts    []float64 // room for breaks
}

// place is the stations of a place on the outline as it is reached and as it is left:
// the same but where the wall changes there.
type place struct{ reached, left int }

// faceEnds are the places where a face begins and ends; none yet where met is false.
type faceEnds struct {
	first, last place
	met         bool
}

// stride is the walk from one station to the next but one, or round a corner.
type stride struct {
	from, mid, to int     // stations; mid is from where the wall ends in between
	length        float64 // along the face, m; 0 round a corner
	turn          float64 // of the direction of the cut round a re-entrant corner, rad
}

// ends is true where another wall begins between the stride's stations.
func (s stride) ends() bool { return s.mid == s.from }

// Where a walk is cut: walls are taken as even between stations.
const (
	evenness   = 0.1  // of the radius: the middle station may be so far from half-way
	narrowest  = 0.08 // of the radius: a stride with a change of wall is not cut further
	mostHalved = 14   // times a stretch is cut in two
)

func newWallNet(s Shape, centroid Point, parts *unlike) *wallNet {
	n := &wallNet{faces: s.faces(centroid), solids: s.solids, least: 1e-9 * extent(s.outlines)}
	n.ends = make([]faceEnds, len(n.faces))
	n.cores, n.middles = s.cores(centroid), s.middles(centroid)
	n.stream = s.stream(n.faces, n.cores, parts)
	n.stations = make([]station, 0, 16*len(n.faces))
	n.strides = make([]stride, 0, 8*len(n.faces))
	for i := range n.faces {
		n.walk(i)
	}
	for i := range n.stations {
		s := &n.stations[i]
		s.flow = n.stream.across(n.faces, s.near, s.far)
		s.ratio, s.middle = parts.over(s.near.at, s.far.at)
	}
	return n
}

// add is the place with the given stations.
func (n *wallNet) add(reached, left station) place {
	n.stations = append(n.stations, left)
	p := place{len(n.stations) - 1, len(n.stations) - 1}
	if reached.far != left.far {
		n.stations = append(n.stations, reached)
		p.reached++
	}
	return p
}

// change is the stride of no length from where a place is reached to where it is left.
func (n *wallNet) change(p place) {
	if p.reached != p.left {
		n.strides = append(n.strides, stride{p.reached, p.reached, p.left, 0, 0})
	}
}

// begin is the first place of a face.
func (n *wallNet) begin(face int) place {
	e := &n.ends[face]
	if !e.met {
		e.first, e.met = n.add(n.station(face, 0)), true
	}
	return e.first
}

// walk goes along a face and round the corner at its end.
func (n *wallNet) walk(face int) {
	f := &n.faces[face]
	parts := n.breaks(face)
	from := n.begin(face)
	for i := 1; i < len(parts); i++ {
		n.change(from)
		to := n.add(n.station(face, parts[i]))
		n.stretch(face, parts[i-1], parts[i], from.left, to.reached, 0)
		from = to
	}
	n.ends[face].last = from
	if f.turnTo > gentlest {
		return
	}
	next := n.begin(f.after)
	n.change(from)
	if f.turnTo < -gentlest {
		n.round(face, 0, -f.turnTo, from.left, next.reached)
		return
	}
	n.strides = append(n.strides, stride{from.left, from.left, next.reached, 0, math.Max(0, -f.turnTo)})
}

// stretch adds the strides between two fractions of a face.
func (n *wallNet) stretch(face int, a, b float64, from, to, halved int) {
	length := (b - a) * n.faces[face].length
	mid := n.add(n.station(face, (a+b)/2))
	switch {
	case n.even(from, mid, to):
		n.strides = append(n.strides, stride{from, mid.left, to, length, 0})
	case halved >= mostHalved || length <= narrowest*n.stations[mid.left].radius+n.least:
		n.strides = append(n.strides, stride{from, from, to, length, 0})
	default:
		n.stretch(face, a, (a+b)/2, from, mid.reached, halved+1)
		n.change(mid)
		n.stretch(face, (a+b)/2, b, mid.left, to, halved+1)
	}
}

// round adds the strides round the re-entrant corner at the end of a face: the
// circle keeps to the corner and turns from one angle to another.
func (n *wallNet) round(face int, a, b float64, from, to int) {
	f := &n.faces[face]
	sin, cos := math.Sincos((a + b) / 2)
	in := Point{f.in.Y*cos + f.in.Z*sin, f.in.Z*cos - f.in.Y*sin}
	mid := n.add(n.inscribed(spot{face, 1, f.to}, in))
	switch {
	case n.even(from, mid, to):
		n.strides = append(n.strides, stride{from, mid.left, to, 0, b - a})
	case b-a <= narrowest:
		n.strides = append(n.strides, stride{from, from, to, 0, b - a})
	default:
		n.round(face, a, (a+b)/2, from, mid.reached)
		n.change(mid)
		n.round(face, (a+b)/2, b, mid.left, to)
	}
}

// even is true when the middle place is half-way between the others and no wall
// changes there.
func (n *wallNet) even(from int, mid place, to int) bool {
	a, m, b := &n.stations[from], &n.stations[mid.left], &n.stations[to]
	off := m.far.at.minus(between(a.far.at, b.far.at, 0.5))
	allowed := evenness * slack * m.radius
	return mid.reached == mid.left && math.Abs(m.radius-(a.radius+b.radius)/2) <= allowed && dot(off, off) <= allowed*allowed &&
		n.faces[a.far.face].outline == n.faces[b.far.face].outline && n.faces[a.far.face].outline == n.faces[m.far.face].outline
}
