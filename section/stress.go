package section

// Forces are the internal forces on a section, referred to its centroid.
type Forces struct {
	N  float64 `json:"N"`  // normal force, N, tension +
	Vy float64 `json:"Vy"` // lateral shear dMz/dx, N
	Vz float64 `json:"Vz"` // vertical shear dMy/dx, N, + just right of a left support
	T  float64 `json:"T"`  // torsion, N·m, right hand about +x
	My float64 `json:"My"` // bending, N·m, sagging +
	Mz float64 `json:"Mz"` // lateral bending, N·m, + gives tension at −y
}

// Plus is the sum of both.
func (f Forces) Plus(g Forces) Forces {
	return Forces{f.N + g.N, f.Vy + g.Vy, f.Vz + g.Vz, f.T + g.T, f.My + g.My, f.Mz + g.Mz}
}

// Times is f multiplied by factor.
func (f Forces) Times(factor float64) Forces {
	return Forces{f.N * factor, f.Vy * factor, f.Vz * factor, f.T * factor, f.My * factor, f.Mz * factor}
}

// Plane is a stress (Pa, tension +) that is linear over the section:
// σ(y, z) = Constant + SlopeY·y + SlopeZ·z in the coordinates of the drawing.
type Plane struct {
	Constant       float64 // Pa, at the origin of the drawing
	SlopeY, SlopeZ float64 // Pa/m
}

// At is the stress at p (Pa, tension +).
func (s Plane) At(p Point) float64 { return s.Constant + s.SlopeY*p.Y + s.SlopeZ*p.Z }

// Plus is the sum of both stresses.
func (s Plane) Plus(t Plane) Plane {
	return Plane{s.Constant + t.Constant, s.SlopeY + t.SlopeY, s.SlopeZ + t.SlopeZ}
}

// Times is the stress multiplied by factor.
func (s Plane) Times(factor float64) Plane {
	return Plane{s.Constant * factor, s.SlopeY * factor, s.SlopeZ * factor}
}

// Plane is the elastic stress under N, My and Mz of f:
//
//	σ = N/A − [(My·Iz − Mz·Iyz)·z + (Mz·Iy − My·Iyz)·y] / (Iy·Iz − Iyz²)
//
// with y and z from the centroid (unsymmetrical bending, e.g. Pilkey, Analysis
// and Design of Elastic Beams, 2002, chapter 1). Properties must be those of a
// Shape; the zero Properties give a stress that is not a number.
func (p Properties) Plane(f Forces) Plane {
	det := p.SecondMomentY*p.SecondMomentZ - p.ProductMoment*p.ProductMoment
	s := Plane{
		SlopeY: -(f.Mz*p.SecondMomentY - f.My*p.ProductMoment) / det,
		SlopeZ: -(f.My*p.SecondMomentZ - f.Mz*p.ProductMoment) / det,
	}
	s.Constant = f.N/p.Area - s.SlopeY*p.Centroid.Y - s.SlopeZ*p.Centroid.Z
	return s
}

// Stress is the elastic stress at a point of the drawing under N, My and Mz of
// f (Pa, tension +); see [Properties.Plane].
func (p Properties) Stress(f Forces, at Point) float64 { return p.Plane(f).At(at) }
