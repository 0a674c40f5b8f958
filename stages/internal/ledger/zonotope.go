package ledger

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Reach is the set of all values that a pair of measures can take, the sum of
// an origin and of summands that vary independently. It is a convex polygon
// whose edges are those of the summands in order of their angle, so a sum of
// n segments has at most 2n vertices (a zonotope) where the factors have 2ⁿ
// corners. Its buffers are kept between uses.
type Reach struct {
	start  r2.Vec   // lowest vertex
	rises  []edge   // edges with angle in [0, π), in order of angle
	falls  []edge   // edges with angle in [π, 2π)
	first  []int    // of each summand, the index of its lowest point
	best   int      // vertex of the last search
	order  []int    // points sorted, and the chain round them
	signed []r2.Vec // sums with one sign of what counts by magnitude
	values []float64
	corner []r2.Vec // of a group with parts
	choice []int
	parts  *Reach // of a group with parts
}

// edge leads a summand to its point with index to.
type edge struct {
	r2.Vec
	summand, to int
}

// Summand is one thing that can take several pairs of values, and anything
// between them: the corners of a factor times the factor of a part, positions of a train.
type Summand struct {
	Vertices []r2.Vec // in any order; points inside the hull do no harm
}

// Reset begins with a single point.
func (r *Reach) Reset(origin r2.Vec) {
	r.start = origin
	r.rises, r.falls, r.first = r.rises[:0], r.falls[:0], r.first[:0]
}

// Segment adds all points between a (index 0) and b (index 1).
func (r *Reach) Segment(a, b r2.Vec) {
	n := len(r.first)
	v := r2.Vec{X: b.X - a.X, Y: b.Y - a.Y}
	switch {
	case v.Y > 0 || v.Y == 0 && v.X > 0:
		r.start = r2.Add(r.start, a)
		r.first = append(r.first, 0)
		r.rises = insert(r.rises, edge{v, n, 1})
		r.falls = insert(r.falls, edge{r2.Vec{X: -v.X, Y: -v.Y}, n, 0})
	case v.Y < 0 || v.X < 0:
		r.start = r2.Add(r.start, b)
		r.first = append(r.first, 1)
		r.rises = insert(r.rises, edge{r2.Vec{X: -v.X, Y: -v.Y}, n, 0})
		r.falls = insert(r.falls, edge{v, n, 1})
	default: // one point
		r.start = r2.Add(r.start, a)
		r.first = append(r.first, 1)
	}
}

// Add adds the convex hull of the summand's vertices; there must be one or more.
func (r *Reach) Add(s Summand) {
	n := len(r.first)
	hull := r.hull(s.Vertices)
	r.first = append(r.first, hull[0])
	r.start = r2.Add(r.start, s.Vertices[hull[0]])
	if len(hull) == 1 {
		return
	}
	for i, from := range hull {
		to := hull[(i+1)%len(hull)]
		e := edge{r2.Sub(s.Vertices[to], s.Vertices[from]), n, to}
		if e.Y > 0 || e.Y == 0 && e.X > 0 {
			r.rises = insert(r.rises, e)
		} else {
			r.falls = insert(r.falls, e)
		}
	}
}

// insert keeps edges of one half plane in order of their angle.
func insert(edges []edge, e edge) []edge {
	edges = append(edges, e)
	i := len(edges) - 1
	for ; i > 0 && e.X*edges[i-1].Y-e.Y*edges[i-1].X > 0; i-- {
		edges[i] = edges[i-1]
	}
	edges[i] = e
	return edges
}

// hull is the indices of the corners of the convex hull, counter-clockwise from
// the lowest (of those the leftmost) point, by the monotone chain of Andrew
// (Information Processing Letters 9 (1979) 216) along z.
func (r *Reach) hull(points []r2.Vec) []int {
	n := len(points)
	r.order = slices.Grow(r.order[:0], 3*n+1)
	order := r.order[:n]
	for i := range order {
		order[i] = i
		for j := i; j > 0 && below(points[order[j]], points[order[j-1]]); j-- {
			order[j], order[j-1] = order[j-1], order[j]
		}
	}
	chain := r.order[n:n] // within the capacity grown above
	add := func(i, base int) {
		for len(chain) > base+1 && turn(points[chain[len(chain)-2]], points[chain[len(chain)-1]], points[i]) <= 0 {
			chain = chain[:len(chain)-1]
		}
		if points[chain[len(chain)-1]] != points[i] {
			chain = append(chain, i)
		}
	}
	chain = append(chain, order[0])
	for _, i := range order[1:] { // the right side upwards
		add(i, 0)
	}
	top := len(chain) - 1
	for i := n - 2; i >= 0; i-- { // the left side downwards
		add(order[i], top)
	}
	if len(chain) > 1 { // back at the lowest point
		chain = chain[:len(chain)-1]
	}
	return chain
}

func below(a, b r2.Vec) bool { return a.Y < b.Y || a.Y == b.Y && a.X < b.X }

// turn is positive where a, b, c turn to the left.
func turn(a, b, c r2.Vec) float64 { return (b.X-a.X)*(c.Y-b.Y) - (b.Y-a.Y)*(c.X-b.X) }

// Largest is the largest value of a convex or quasi-convex function over the
// reach, which it takes at a vertex, and that vertex.
func (r *Reach) Largest(f func(r2.Vec) float64) (value float64, at r2.Vec) {
	v := r.start
	value, at, r.best = f(v), v, 0
	n := 0
	for _, edges := range [2][]edge{r.rises, r.falls} {
		for i := range edges {
			v.X += edges[i].X
			v.Y += edges[i].Y
			n++
			if fv := f(v); fv > value {
				value, at, r.best = fv, v, n
			}
		}
	}
	return value, at
}

// vertices lists all vertices from the lowest, counter-clockwise.
func (r *Reach) vertices(dst []r2.Vec) []r2.Vec {
	v := r.start
	dst = append(dst[:0], v)
	for _, edges := range [2][]edge{r.rises, r.falls} {
		for i := range edges {
			v = r2.Add(v, edges[i].Vec)
			dst = append(dst, v)
		}
	}
	return dst
}

// Choice writes for each summand the index of its point at the vertex that the
// last search found.
func (r *Reach) Choice(dst []int) []int {
	return r.choiceAt(dst, r.best)
}

// choiceAt is Choice at the vertex with that number.
func (r *Reach) choiceAt(dst []int, vertex int) []int {
	dst = append(dst[:0], r.first...)
	for n, edges := 0, r.rises; n < vertex; n++ {
		i := n
		if n >= len(r.rises) {
			edges, i = r.falls, n-len(r.rises)
		}
		dst[edges[i].summand] = edges[i].to
	}
	return dst
}
