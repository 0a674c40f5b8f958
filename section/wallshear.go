package section

import (
	"fmt"
	"math"
)

// Cut is a straight line across a wall, from face to face.
type Cut struct {
	From, To Point // its ends on the outline, m
}

// Thickness is the length of the cut (m).
func (c Cut) Thickness() float64 { return math.Hypot(c.To.Y-c.From.Y, c.To.Z-c.From.Z) }

// Across is the cut through p square to the edge nearest to p: across the wall
// there, along a sloping web square to its face. The error wraps [ErrShape] when
// p is not in the concrete.
func (s Shape) Across(p Point) (Cut, error) {
	clearance := s.Clearance(p)
	if s.Empty() || !(clearance > onTheLine*extent(s.outlines)) || math.IsInf(clearance, 0) {
		return Cut{}, fmt.Errorf("%w: cut through y = %g m, z = %g m: must be points inside the concrete", ErrShape, p.Y, p.Z)
	}
	from := s.nearestEdge(p)
	back := p.minus(from)
	length := math.Hypot(back.Y, back.Z)
	direction := Point{back.Y / length, back.Z / length}
	far := s.reach(p, direction, 0)
	return Cut{from, Point{p.Y + far*direction.Y, p.Z + far*direction.Z}}, nil
}

// nearestEdge is the point of the outlines that is nearest to p.
func (s Shape) nearestEdge(p Point) Point {
	nearest, place := math.Inf(1), Point{}
	for _, o := range s.outlines {
		for i := range o {
			at := onEdge(p, o[i], o.next(i))
			if d := math.Hypot(p.Y-at.Y, p.Z-at.Z); d < nearest {
				nearest, place = d, at
			}
		}
	}
	return place
}

// WallShear is the shear that passes across a cut.
type WallShear struct {
	Flow      float64 // N/m, in the direction Towards
	Thickness float64 // of the wall along the cut, m
	Mean      float64 // Flow/Thickness, Pa
	Towards   Point   // unit vector square to the cut, to the left when going from Cut.From to Cut.To
}

// ShearFlow is the shear flow that leaves a part of a section through all cuts
// that part it from the rest (N/m), under Vy and Vz of f:
//
//	[(Vz·Iz − Vy·Iyz)·Sy + (Vy·Iy − Vz·Iyz)·Sz] / (Iy·Iz − Iyz²)
//
// with Sy = ∫z dA and Sz = ∫y dA of the part about the centroid (unsymmetrical
// bending, e.g. Pilkey, Analysis and Design of Elastic Beams, 2002, chapter 3).
// VQ/(Ib) is its symmetric case. Properties must be those of a Shape.
func (p Properties) ShearFlow(part Part, f Forces) float64 {
	byZ, byY := p.shearSources(f)
	return byZ*(part.FirstMomentY-part.Area*p.Centroid.Z) + byY*(part.FirstMomentZ-part.Area*p.Centroid.Y)
}

// shearSources are the factors of z and y in −∂σ/∂x (N/m⁴), from the centroid.
func (p Properties) shearSources(f Forces) (byZ, byY float64) {
	det := p.SecondMomentY*p.SecondMomentZ - p.ProductMoment*p.ProductMoment
	return (f.Vz*p.SecondMomentZ - f.Vy*p.ProductMoment) / det, (f.Vy*p.SecondMomentY - f.Vz*p.ProductMoment) / det
}

// WallShear is the shear across a cut under Vy, Vz and T of f, which act at the
// centroid: the torque about the shear centre, [Torsion.AboutShearCentre], acts on the
// wall too. It is the integral of the Saint-Venant stress across the cut, so a cell
// needs no correction flow. The error wraps [ErrShape] when the ends are not on the
// outline, the line between them leaves the concrete, or a force is not finite.
func (t Torsion) WallShear(cut Cut, f Forces) (WallShear, error) {
	if err := t.checkCut(cut, f); err != nil {
		return WallShear{}, err
	}
	way := cut.To.minus(cut.From)
	w := WallShear{Thickness: cut.Thickness()}
	w.Towards = Point{-way.Z / w.Thickness, way.Y / w.Thickness}
	const stretches = 8 // with four Gauss points each: flows add up to 1e-5
	for i := range stretches {
		for k, node := range gaussNodes {
			at := between(cut.From, cut.To, (float64(i)+(1+node)/2)/stretches)
			w.Mean += gaussWeights[k] / 2 / stretches * dot(t.shear(at.minus(t.properties.Centroid), f), w.Towards)
		}
	}
	w.Flow = w.Mean * w.Thickness
	return w, nil
}

// ShearStress is the shear stress at a point (Pa), on the face towards +x: + to
// the left and upwards.
type ShearStress struct {
	XY, XZ float64 // Pa
}

// ShearStress is the shear stress at a point in the concrete under Vy, Vz and T
// of f; see [Torsion.WallShear]. Its resultants on the face towards +x are −Vy
// and −Vz at the centroid and T. The error wraps [ErrShape] when p is not
// in the concrete or a force is not finite.
func (t Torsion) ShearStress(p Point, f Forces) (ShearStress, error) {
	if err := t.checkForces(f); err != nil {
		return ShearStress{}, err
	}
	if !(t.shape.Clearance(p) > 0) {
		return ShearStress{}, fmt.Errorf("%w: shear stress at y = %g m, z = %g m: must be points inside the concrete", ErrShape, p.Y, p.Z)
	}
	τ := t.shear(p.minus(t.properties.Centroid), f)
	return ShearStress{τ.Y, τ.Z}, nil
}

// shear is the stress (τxy, τxz) at a point in the concrete, from the centroid.
// Next to an outline it is that along the edge: the boundary integrals have no
// value on it.
func (t Torsion) shear(p Point, f Forces) Point {
	if k, ξ, off := t.boundary.nearest(p); off <= thinnest*extent(t.shape.outlines) {
		along, edge := t.boundary.elements[k].along, t.edgeStress(k, ξ)
		τ := edge.Stress*t.AboutShearCentre(f) + edge.Y*f.Vy + edge.Z*f.Vz
		return Point{τ * along.Y, τ * along.Z}
	}
	byZ, byY := t.properties.shearSources(f)
	twist := t.AboutShearCentre(f) / t.Constant
	b := t.boundary
	z, y, warping := b.gradient(t.byZ, p), b.gradient(t.byY, p), b.gradient(t.warping, p)
	return Point{
		byZ*z.Y + byY*(y.Y+p.Y*p.Y/2) + twist*(warping.Y-p.Z),
		byZ*(z.Z+p.Z*p.Z/2) + byY*y.Z + twist*(warping.Z+p.Y),
	}
}

func (t Torsion) checkForces(f Forces) error {
	if v := f.Vy + f.Vz + f.T; math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Errorf("%w: shear under Vy = %g N, Vz = %g N, T = %g N·m: must be finite forces", ErrShape, f.Vy, f.Vz, f.T)
	}
	if t.Nodes == 0 {
		return fmt.Errorf("%w: shear of a zero Torsion: must be one made by Shape.Torsion", ErrShape)
	}
	return nil
}

func (t Torsion) checkCut(cut Cut, f Forces) error {
	if err := t.checkForces(f); err != nil {
		return err
	}
	thickness := cut.Thickness()
	if thickness == 0 {
		return fmt.Errorf("%w: cut of no length at y = %g m, z = %g m: must be from face to face", ErrShape, cut.From.Y, cut.From.Z)
	}
	for _, p := range [2]Point{cut.From, cut.To} {
		if off := math.Abs(t.shape.Clearance(p)); !(off <= 1e-3*thickness) {
			return fmt.Errorf("%w: cut that ends at y = %g m, z = %g m, %.4g m from the outline: must be ends on it", ErrShape, p.Y, p.Z, off)
		}
	}
	for i := 1; i < 16; i++ {
		if p := between(cut.From, cut.To, float64(i)/16); t.shape.Clearance(p) <= 0 {
			return fmt.Errorf("%w: cut that leaves the concrete at y = %.4g m, z = %.4g m: must be across one wall", ErrShape, p.Y, p.Z)
		}
	}
	return nil
}
