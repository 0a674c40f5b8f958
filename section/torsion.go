package section

import (
	"fmt"
	"math"
)

// Torsion is Saint-Venant's solution of torsion and shear on the true outline of a
// shape with its voids, by boundary elements. Warping is free: near an end that
// restrains it and near a concentrated torque the stress differs.
//
// Poisson's ratio enters the shear centre only. Stresses under Vy and Vz are
// those of ratio 0, which balance the bending stress exactly; in walls the
// difference is small.
type Torsion struct {
	Constant float64 // Saint-Venant torsion constant J, m⁴
	Change   float64 // of J when every element of the boundary was last halved, as a share of J: more than its error
	Nodes    int     // on the boundary after the last refinement

	shape      Shape // without idle corners
	asDrawn    Shape // with them
	properties Properties
	boundary   boundary
	warping    potential // ω: displacement along x for unit twist
	byZ, byY   potential // harmonic parts of the shear functions: sources z and y
	centre     centreIntegrals
	coarser    *Torsion // before every element was halved
}

// Convergence of J: elements are halved, every one of them, until that changes J
// by less than wantedChange.
const (
	wantedChange = 0.0015 // refinement stops below this; the error left is a fifth to a fiftieth of it
	enoughChange = 0.004  // and is content with this when mostNodes do not suffice
	mostNodes    = 1800   // one solution with as many takes about a second
)

// Torsion solves the shape, once for all copies of it. Corners on a straight edge have
// no effect. The error wraps [ErrShape] when the shape is empty or in separate pieces,
// or when J is not within 0.4 % with 1800 boundary nodes, for walls longer than about
// 200 thicknesses, or more corners than about 40 that turn more than 0.5 rad or 400 in
// all.
func (s Shape) Torsion() (Torsion, error) {
	return keep(s, func(k *kept) *found[Torsion] { return &k.torsion }, Shape.solveTorsion)
}

func (s Shape) solveTorsion() (Torsion, error) {
	if s.solids != 1 {
		return Torsion{}, fmt.Errorf("%w: torsion of %d solid outlines: must be one connected piece", ErrShape, s.solids)
	}
	best, drawn := Torsion{}, s
	s = s.bare().Shape
	for f := coarsest; ; f = f.finer() {
		next, ok := s.torsion(f, best.boundary)
		if !ok {
			break
		}
		next.Change = math.Abs(next.Constant-best.Constant) / next.Constant
		before := best
		before.coarser = nil
		best, best.coarser = next, &before
		if best.Change <= wantedChange {
			return best.of(drawn), nil
		}
	}
	if best.Nodes == 0 || !(best.Change <= enoughChange) {
		return Torsion{}, s.unsettled(best)
	}
	return best.of(drawn), nil
}

// of is the solution as that of the shape with its idle corners.
func (t Torsion) of(drawn Shape) Torsion {
	t.asDrawn = drawn
	return t
}

// torsion solves with the given fineness and with the elements of coarser halved;
// ok is false when that takes too many nodes or gives no positive J.
func (s Shape) torsion(f fineness, coarser boundary) (t Torsion, ok bool) {
	t = Torsion{shape: s, properties: s.Properties()}
	if t.boundary, ok = s.cut(f, coarser, t.properties.Centroid, mostNodes); !ok {
		return t, false
	}
	t.Nodes = len(t.boundary.nodes)
	flows := t.boundary.flows()
	u, ok := t.boundary.solve(flows)
	if !ok {
		return t, false
	}
	t.warping, t.byZ, t.byY = potential{u[0], flows[0]}, potential{u[1], flows[1]}, potential{u[2], flows[2]}
	t.integrate()
	return t, t.Constant > 0 && !math.IsInf(t.Constant, 0)
}

// flows are the known normal derivatives, with y and z from the centroid:
//
//	of the warping function  ∂ω/∂n = z·n_y − y·n_z = (y, z)·along
//	of the shear functions   −∂(z³/6)/∂n = −z²·n_z/2 and −∂(y³/6)/∂n = −y²·n_y/2
//
// The shear function z³/6 + its harmonic part has the source z and no flow
// through the boundary.
func (b boundary) flows() [3]flow {
	var flows [3]flow
	for i := range b.elements {
		e := &b.elements[i]
		y, z := e.from.Y, e.from.Z
		dy, dz := e.length*e.along.Y, e.length*e.along.Z
		flows[0] = append(flows[0], [3]float64{dot(e.from, e.along), e.length, 0})
		flows[1] = append(flows[1], [3]float64{-e.out.Z / 2 * z * z, -e.out.Z * z * dz, -e.out.Z / 2 * dz * dz})
		flows[2] = append(flows[2], [3]float64{-e.out.Y / 2 * y * y, -e.out.Y * y * dy, -e.out.Y / 2 * dy * dy})
	}
	return flows
}

// centreIntegrals is the torque about the centroid of shear stress with the
// sources z and y, in parts: torque = warped/(1+ν) + ν/(2(1+ν))·poisson.
type centreIntegrals struct{ warpedZ, warpedY, poissonZ, poissonY float64 }

// integrate takes J and the torques from the warping function by integrals over
// the boundary, which four Gauss points make exact on every element:
//
//	J = Iy + Iz − ∮ ω·∂ω/∂n ds
//	∫ ω·z dA = ∮ (ω·z²·n_z/2 − z³/6·∂ω/∂n) ds          (Green, ∇²(z³/6) = z)
//
// and the same with y. With Poisson's ratio, sections curve sideways by
// g = (y·z, (z² − y²)/2) for the source z and ((y² − z²)/2, y·z) for y; the torque
// of that is ∮ ω·g·n ds + ∫ (y·g_z − z·g_y) dA (Pilkey, Analysis and Design of
// Elastic Beams, 2002, chapter 6, in another notation).
func (t *Torsion) integrate() {
	t.Constant = t.properties.SecondMomentY + t.properties.SecondMomentZ
	c := &t.centre
	for i := range t.boundary.elements {
		e := &t.boundary.elements[i]
		shape := e.coefficients(t.warping.nodes)
		for k, node := range gaussNodes {
			ξ := (1 + node) / 2
			p, weight := e.place(ξ), gaussWeights[k]*e.length/2
			y, z, n := p.Y, p.Z, e.out
			ω := shape[0] + ξ*(shape[1]+ξ*shape[2])
			q := dot(p, e.along)
			square, lever := y*y+z*z, dot(p, n)/10 // ∫p dA = ∮ p·(r·n)/5 ds for cubic p, and half of that
			t.Constant -= weight * ω * q
			c.warpedZ += weight * (ω*z*z*n.Z/2 - z*z*z/6*q)
			c.warpedY += weight * (ω*y*y*n.Y/2 - y*y*y/6*q)
			c.poissonZ += weight * (ω*(y*z*n.Y+(z*z-y*y)/2*n.Z) - y*square*lever)
			c.poissonY += weight * (ω*((y*y-z*z)/2*n.Y+y*z*n.Z) + z*square*lever)
		}
	}
}

// ShearCentre is the point through which Vy and Vz cause no twist (m, in the
// coordinates of the drawing), for a Poisson's ratio from 0 to 0.5: the mean
// rotation over the section is zero. The error wraps [ErrShape] for any other
// ratio.
func (t Torsion) ShearCentre(poisson float64) (Point, error) {
	if !(poisson >= 0 && poisson <= 0.5) {
		return Point{}, fmt.Errorf("%w: Poisson's ratio %g: must be 0 to 0.5", ErrShape, poisson)
	}
	if t.Nodes == 0 {
		return Point{}, fmt.Errorf("%w: shear centre of a zero Torsion: must be one made by Shape.Torsion", ErrShape)
	}
	return t.shearCentre(poisson), nil
}

func (t Torsion) shearCentre(poisson float64) Point {
	p := t.properties
	torque := func(warped, curved float64) float64 { return (warped + poisson/2*curved) / (1 + poisson) }
	byZ, byY := torque(t.centre.warpedZ, t.centre.poissonZ), torque(t.centre.warpedY, t.centre.poissonY)
	det := p.SecondMomentY*p.SecondMomentZ - p.ProductMoment*p.ProductMoment
	return Point{
		p.Centroid.Y - (p.SecondMomentZ*byZ-p.ProductMoment*byY)/det,
		p.Centroid.Z + (p.SecondMomentY*byY-p.ProductMoment*byZ)/det,
	}
}

// AboutShearCentre is the torque of f about the shear centre (N·m, right hand
// about +x) for Poisson's ratio 0: T of f is about the centroid, where Vy and Vz
// act. A zero Torsion returns T of f.
func (t Torsion) AboutShearCentre(f Forces) float64 {
	if t.Nodes == 0 {
		return f.T
	}
	// On the face towards +x the resultants are −Vy and −Vz, since V = dM/dx.
	arm := t.properties.Centroid.minus(t.shearCentre(0))
	return f.T - arm.Y*f.Vz + arm.Z*f.Vy
}
