package section

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// flow is the normal derivative of a potential on the elements: on each one
// c[0] + c[1]·ξ + c[2]·ξ² with ξ from 0 to 1.
type flow [][3]float64

// potential is a solved harmonic function with its flow through the boundary.
type potential struct {
	nodes []float64
	flow  flow
}

// influence is integrals along an element seen from a point. With r the distance
// from the point, s and d its parts along and square to the element:
//
//	beside[k] = ∫ ξᵏ·d/r² ds    ahead[k] = ∫ ξᵏ·s/r² ds    shadow[k] = ∫ ξᵏ·ln r ds
//
// for k = 0, 1, 2, in closed form, so that a near point costs no accuracy.
type influence struct {
	beside, ahead, shadow [3]float64
	s, d                  float64 // to the beginning of the element
}

func (e *element) seenFrom(p Point) influence {
	a := e.from.minus(p)
	b := Point{a.Y + e.length*e.along.Y, a.Z + e.length*e.along.Z}
	return e.seen(a, halfLog(dot(a, a)), halfLog(dot(b, b)))
}

// seen is the same with the way a to the element's beginning, and ln r of its
// beginning and end.
func (e *element) seen(a Point, logS, logT float64) influence {
	s, d, h := dot(a, e.along), dot(a, e.out), e.length
	t := s + h
	squareS, squareT := s*s+d*d, t*t+d*d
	angle := 0.0
	if math.Abs(d) > 1e-13*h { // a point in line with the element sees it under no angle
		angle = math.Atan2(d*h, d*d+s*t)
	}
	growth, squares := logT-logS, (t*t-s*s)/2
	return influence{
		beside: fractions(s, h, angle, d*growth, d*(h-d*angle)),
		ahead:  fractions(s, h, growth, h-d*angle, squares-d*d*growth),
		shadow: fractions(s, h,
			t*logT-s*logS-h+d*angle,
			(squareT*logT-squareS*logS-squares)/2,
			(t*t*t*logT-s*s*s*logS-(t*t*t-s*s*s)/3+d*d*(h-d*angle))/3),
		s: s, d: d,
	}
}

// fractions turns integrals of 1, s, s² into those of 1, ξ, ξ² with ξ = (s − s0)/h.
func fractions(s, h, m0, m1, m2 float64) [3]float64 {
	return [3]float64{m0, (m1 - s*m0) / h, (m2 - 2*s*m1 + s*s*m0) / (h * h)}
}

// halfLog is ln r from r²; 0 for r = 0, where it is in products that vanish.
func halfLog(square float64) float64 {
	if square == 0 {
		return 0
	}
	return math.Log(square) / 2
}

// parabola turns integrals of 1, ξ, ξ² into those of the three shape functions.
func parabola(m [3]float64) [3]float64 {
	return [3]float64{m[0] - 3*m[1] + 2*m[2], 4*m[1] - 4*m[2], 2*m[2] - m[1]}
}

// integral is the integral of c[0] + c[1]·ξ + c[2]·ξ² from those of 1, ξ, ξ².
func integral(c, m [3]float64) float64 { return c[0]*m[0] + c[1]*m[1] + c[2]*m[2] }

// gaussNodes and gaussWeights integrate polynomials of degree 7 over [-1, 1]
// exactly (Gauss-Legendre, four points).
var gaussNodes, gaussWeights = gauss4()

func gauss4() (nodes, weights [4]float64) {
	inner := math.Sqrt(3.0/7 - 2.0/7*math.Sqrt(6.0/5))
	outer := math.Sqrt(3.0/7 + 2.0/7*math.Sqrt(6.0/5))
	large, small := (18+math.Sqrt(30))/36, (18-math.Sqrt(30))/36
	return [4]float64{-outer, -inner, inner, outer}, [4]float64{small, large, large, small}
}

// solve finds the potentials u that are harmonic in the shape and leave it with
// the given flows, each up to a constant: the direct boundary-element form of
// Laplace's equation (e.g. Katsikadelis, Boundary Elements, 2002, chapter 4),
//
//	−α(P)·u(P) + ∮ u·d/r² ds = ∮ ∂u/∂n·ln r ds
//
// at every node P, with α the angle of concrete at P; α follows from the row sum,
// since a constant u has no flow. ok is false when the equations are singular.
func (b boundary) solve(flows [3]flow) (potentials [3][]float64, ok bool) {
	if partner, ok := b.mirrored(); ok {
		return b.solveHalves(flows, partner)
	}
	n := len(b.nodes)
	matrix, right := mat.NewDense(n, n, nil), mat.NewDense(n, len(flows), nil)
	logs := make([]float64, n)
	for i := range b.nodes {
		b.equation(i, flows, logs, matrix.RawRowView(i), right.RawRowView(i))
	}
	solution, ok := solved(matrix, right)
	if !ok {
		return potentials, false
	}
	for f := range flows {
		potentials[f] = mat.Col(nil, f, solution)
	}
	return potentials, true
}

// solved is the solution of linear equations; ok is false when they are singular.
func solved(matrix, right *mat.Dense) (solution *mat.Dense, ok bool) {
	var lu mat.LU
	lu.Factorize(matrix)
	solution = new(mat.Dense)
	return solution, lu.SolveTo(solution, false, right) == nil
}

// equation fills the row of node i; logs is room for ln r of the nodes.
func (b boundary) equation(i int, flows [3]flow, logs, row, right []float64) {
	p, angle := b.nodes[i], 0.0
	for k := range b.elements { // each end is one of two elements
		n := b.elements[k].nodes[0]
		a := b.nodes[n].minus(p)
		logs[n] = halfLog(dot(a, a))
	}
	for k := range b.elements {
		e := &b.elements[k]
		in := e.seen(e.from.minus(p), logs[e.nodes[0]], logs[e.nodes[2]])
		if e.nodes[0] != i && e.nodes[1] != i && e.nodes[2] != i { // a point on the element sees it under no angle
			angle += in.beside[0]
			for j, weight := range parabola(in.beside) {
				row[e.nodes[j]] += weight
			}
		}
		for f := range flows {
			right[f] += integral(flows[f][k], in.shadow)
		}
	}
	row[i] -= angle
	for j := range row { // settles the free constant: the mean of the nodes is next to zero
		row[j] += 1 / float64(len(row))
	}
}

// value is the potential at a point in the concrete, by the boundary integrals that solve
// sets up for the nodes.
func (b boundary) value(u potential, p Point) float64 {
	sum := 0.0
	for k := range b.elements {
		e := &b.elements[k]
		in := e.seenFrom(p)
		sum += integral(e.coefficients(u.nodes), in.beside) - integral(u.flow[k], in.shadow)
	}
	return sum / (2 * math.Pi)
}

// gradient is ∇u at a point in the concrete: the derivative of the boundary
// integrals of value, in closed form.
func (b boundary) gradient(u potential, p Point) Point {
	var sum Point
	for k := range b.elements {
		e := &b.elements[k]
		in := e.seenFrom(p)
		c := e.coefficients(u.nodes)
		slope := [3]float64{c[1] / e.length, 2 * c[2] / e.length, 0} // du/ds
		s, d, t := in.s, in.d, in.s+e.length
		squareS, squareT := s*s+d*d, t*t+d*d
		end := c[0] + c[1] + c[2]
		// Moving the point moves the element the other way: by parts,
		// ∫u·∂(d/r²)/∂s ds = [u·d/r²] − ∫u'·d/r² ds and
		// ∫u·∂(d/r²)/∂d ds = −[u·s/r²] + ∫u'·s/r² ds.
		alongPart := end*d/squareT - c[0]*d/squareS - integral(slope, in.beside)
		outPart := c[0]*s/squareS - end*t/squareT + integral(slope, in.ahead)
		alongPart -= integral(u.flow[k], in.ahead)
		outPart -= integral(u.flow[k], in.beside)
		sum.Y -= alongPart*e.along.Y + outPart*e.out.Y
		sum.Z -= alongPart*e.along.Z + outPart*e.out.Z
	}
	return Point{sum.Y / (2 * math.Pi), sum.Z / (2 * math.Pi)}
}

// coefficients of u on the element: c[0] + c[1]·ξ + c[2]·ξ².
func (e *element) coefficients(u []float64) [3]float64 {
	a, m, b := u[e.nodes[0]], u[e.nodes[1]], u[e.nodes[2]]
	return [3]float64{a, -3*a + 4*m - b, 2*a - 4*m + 2*b}
}

// slope is du/ds at the fraction ξ of element k: of the polynomial through the
// nodes of the element and of its nearer neighbour on the same straight edge,
// which at five nodes is an order better than the parabola.
func (b boundary) slope(u []float64, k int, ξ float64) float64 {
	e := &b.elements[k]
	places := []float64{0, e.length / 2, e.length}
	values := []float64{u[e.nodes[0]], u[e.nodes[1]], u[e.nodes[2]]}
	before, after := k > 0 && b.elements[k-1].edge == e.edge, k+1 < len(b.elements) && b.elements[k+1].edge == e.edge
	if after && (ξ >= 0.5 || !before) {
		next := &b.elements[k+1]
		places = append(places, e.length+next.length/2, e.length+next.length)
		values = append(values, u[next.nodes[1]], u[next.nodes[2]])
	} else if before {
		last := &b.elements[k-1]
		places = append(places, -last.length/2, -last.length)
		values = append(values, u[last.nodes[1]], u[last.nodes[0]])
	}
	return slopeThrough(places, values, ξ*e.length)
}

// slopeThrough is the slope at x of the polynomial through the given points
// (Lagrange).
func slopeThrough(places, values []float64, x float64) float64 {
	sum := 0.0
	for i := range places {
		term := 0.0
		for j := range places {
			if j == i {
				continue
			}
			product := 1 / (places[i] - places[j])
			for m := range places {
				if m != i && m != j {
					product *= (x - places[m]) / (places[i] - places[m])
				}
			}
			term += product
		}
		sum += values[i] * term
	}
	return sum
}
