package section

import "math"

// wallNet is a shape as a net of walls, walked along its outlines: every wall is
// passed twice, once along each face.
type wallNet struct {
	faces       []face
	solids      int
	cores       []Point // a point in each void
	least       float64 // shorter is nothing, m
	stations    []station
	first, last []int // station of each face
	strides     []stride
	stream      stream
	parts       []float64 // room for breaks
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

func newWallNet(s Shape, centroid Point) *wallNet {
	n := &wallNet{faces: s.faces(centroid), solids: s.solids, least: 1e-9 * extent(s.outlines)}
	n.first, n.last = make([]int, len(n.faces)), make([]int, len(n.faces))
	n.cores = s.cores(centroid)
	n.stream = s.stream(n.faces, n.cores)
	n.stations = make([]station, 0, 16*len(n.faces))
	n.strides = make([]stride, 0, 8*len(n.faces))
	for i := range n.faces {
		n.first[i] = -1
	}
	for i := range n.faces {
		n.walk(i)
	}
	for i := range n.stations {
		n.stations[i].flow = n.stream.across(n.faces, n.stations[i].near, n.stations[i].far)
	}
	return n
}

func (n *wallNet) add(s station) int {
	n.stations = append(n.stations, s)
	return len(n.stations) - 1
}

// begin is the first station of a face.
func (n *wallNet) begin(face int) int {
	if n.first[face] < 0 {
		n.first[face] = n.add(n.station(face, 0))
	}
	return n.first[face]
}

// walk goes along a face and round the corner at its end.
func (n *wallNet) walk(face int) {
	f := &n.faces[face]
	parts := n.breaks(face)
	from := n.begin(face)
	for i := 1; i < len(parts); i++ {
		from = n.stretch(face, parts[i-1], parts[i], from, n.add(n.station(face, parts[i])), 0)
	}
	n.last[face] = from
	if f.turnTo > gentlest {
		return
	}
	next := n.begin(f.after)
	if f.turnTo < -gentlest {
		n.round(face, 0, -f.turnTo, from, next)
		return
	}
	n.strides = append(n.strides, stride{from, from, next, 0, math.Max(0, -f.turnTo)})
}

// stretch adds the strides between two fractions of a face; it returns the last
// station.
func (n *wallNet) stretch(face int, a, b float64, from, to, halved int) int {
	length := (b - a) * n.faces[face].length
	mid := n.add(n.station(face, (a+b)/2))
	switch {
	case n.even(from, mid, to):
		n.strides = append(n.strides, stride{from, mid, to, length, 0})
	case halved >= mostHalved || length <= narrowest*n.stations[mid].radius+n.least:
		n.strides = append(n.strides, stride{from, from, to, length, 0})
	default:
		n.stretch(face, a, (a+b)/2, from, mid, halved+1)
		n.stretch(face, (a+b)/2, b, mid, to, halved+1)
	}
	return to
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
		n.strides = append(n.strides, stride{from, mid, to, 0, b - a})
	case b-a <= narrowest:
		n.strides = append(n.strides, stride{from, from, to, 0, b - a})
	default:
		n.round(face, a, (a+b)/2, from, mid)
		n.round(face, (a+b)/2, b, mid, to)
	}
}

// even is true when the middle station is half-way between the others.
func (n *wallNet) even(from, mid, to int) bool {
	a, m, b := &n.stations[from], &n.stations[mid], &n.stations[to]
	off := m.far.at.minus(between(a.far.at, b.far.at, 0.5))
	allowed := evenness * m.radius
	return math.Abs(m.radius-(a.radius+b.radius)/2) <= allowed && dot(off, off) <= allowed*allowed &&
		n.faces[a.far.face].outline == n.faces[b.far.face].outline && n.faces[a.far.face].outline == n.faces[m.far.face].outline
}
