package section

import "math"

// Properties are the elastic properties of a section, about axes through its
// centroid parallel to y and z.
type Properties struct {
	Area          float64 // A, m²
	Centroid      Point   // m, in the coordinates of the drawing
	SecondMomentY float64 // Iy = ∫z²dA, m⁴
	SecondMomentZ float64 // Iz = ∫y²dA, m⁴
	ProductMoment float64 // Iyz = +∫yz dA, m⁴

	Top, Bottom float64 // distances from the centroid to the highest and lowest corner, m, positive
	Left, Right float64 // distances to the corners of largest and smallest y, m, positive

	OuterPerimeter float64 // length of the solid outlines, m
	InnerPerimeter float64 // length of the void outlines, m
}

// Properties are the exact polygon sums of the shape, voids taken out.
func (s Shape) Properties() Properties {
	p, _ := keep(s, func(k *kept) *found[Properties] { return &k.properties }, Shape.sums)
	return p
}

func (s Shape) sums() (Properties, error) {
	var p Properties
	if s.Empty() {
		return p, nil
	}
	origin := s.outlines[0][0] // sums about a corner keep their digits wherever the origin is
	var area, firstY, firstZ, secondY, secondZ, product float64
	low, high := origin, origin
	for i, o := range s.outlines {
		length := 0.0
		a := o[len(o)-1].minus(origin)
		for _, corner := range o {
			b := corner.minus(origin)
			c := cross(a, b)
			area += c
			firstY += c * (a.Z + b.Z)
			firstZ += c * (a.Y + b.Y)
			secondY += c * (a.Z*a.Z + a.Z*b.Z + b.Z*b.Z)
			secondZ += c * (a.Y*a.Y + a.Y*b.Y + b.Y*b.Y)
			product += c * (a.Y*(2*a.Z+b.Z) + b.Y*(a.Z+2*b.Z))
			length += math.Sqrt((b.Y-a.Y)*(b.Y-a.Y) + (b.Z-a.Z)*(b.Z-a.Z))
			low = Point{math.Min(low.Y, corner.Y), math.Min(low.Z, corner.Z)}
			high = Point{math.Max(high.Y, corner.Y), math.Max(high.Z, corner.Z)}
			a = b
		}
		if i < s.solids {
			p.OuterPerimeter += length
		} else {
			p.InnerPerimeter += length
		}
	}
	p.Area = area / 2
	y, z := firstZ/6/p.Area, firstY/6/p.Area
	p.Centroid = Point{origin.Y + y, origin.Z + z}
	p.SecondMomentY = secondY/12 - p.Area*z*z
	p.SecondMomentZ = secondZ/12 - p.Area*y*y
	p.ProductMoment = product/24 - p.Area*y*z
	p.reach(low, high)
	return p, nil
}

// reach sets the fibre distances from the corners of the box around the shape.
func (p *Properties) reach(low, high Point) {
	p.Top, p.Bottom = high.Z-p.Centroid.Z, p.Centroid.Z-low.Z
	p.Left, p.Right = high.Y-p.Centroid.Y, p.Centroid.Y-low.Y
}

// TopModulus is Iy divided by the distance to the highest fibre (m³).
func (p Properties) TopModulus() float64 { return p.SecondMomentY / p.Top }

// BottomModulus is Iy divided by the distance to the lowest fibre (m³).
func (p Properties) BottomModulus() float64 { return p.SecondMomentY / p.Bottom }

// Principal is the pair of principal axes of a section.
type Principal struct {
	Angle float64 // rad, from the y axis towards the z axis to the axis of the larger second moment, −π/2 < Angle ≤ π/2
	Major float64 // larger second moment, m⁴
	Minor float64 // smaller second moment, m⁴
}

// Principal is the larger and the smaller second moment and the direction of
// their axes.
func (p Properties) Principal() Principal {
	mean := (p.SecondMomentY + p.SecondMomentZ) / 2
	half := (p.SecondMomentY - p.SecondMomentZ) / 2
	radius := math.Hypot(half, p.ProductMoment)
	return Principal{
		Angle: math.Atan2(-p.ProductMoment, half) / 2,
		Major: mean + radius,
		Minor: mean - radius,
	}
}
