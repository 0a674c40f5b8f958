package section

import "math"

// ShearAreas are the areas of an even shear stress with the same strain energy:
// V²/(G·A) is ∫τ²/G dA for a force through the shear centre and Poisson's ratio 0, 5/6
// of a rectangle and 6/7 of a circle. G·Z is the shear stiffness of a member that bends
// upright, G·Y of one that bends sideways. In walls Poisson's ratio changes them
// little.
type ShearAreas struct {
	Y, Z     float64 // for Vy and for Vz, m²
	Coupling float64 // shear strain across the other force, times G: Vz moves the member sideways too where it is not zero, 1/m²
}

// ShearAreas are those of the shape; zero for a zero Torsion.
func (t Torsion) ShearAreas() ShearAreas {
	if t.Nodes == 0 {
		return ShearAreas{}
	}
	e := t.shearEnergy()
	energy := func(f, g Forces) float64 {
		fz, fy := t.properties.shearSources(f)
		gz, gy := t.properties.shearSources(g)
		return fz*gz*e.zz + (fz*gy+fy*gz)*e.yz + fy*gy*e.yy
	}
	y, z := Forces{Vy: 1}, Forces{Vz: 1}
	return ShearAreas{Y: 1 / energy(y, y), Z: 1 / energy(z, z), Coupling: energy(y, z)}
}

// sourceEnergy is ∫ ∇Φ·∇Φ dA of the shear functions with the sources z and y.
type sourceEnergy struct{ zz, yy, yz float64 }

// shearEnergy takes the energies from the boundary. No flow leaves, so
//
//	∫ ∇Φa·∇Φb dA = −∫ Φa·b dA  with the source b, z or y, of Φb
//
// and with Φz = φ + z³/6 Green's formula gives, as for the shear centre,
//
//	∫ φ·z dA = ∮ (φ·z²·n_z/2 − z³/6·∂φ/∂n) ds,  ∫ z⁴/6 dA = ∮ z⁵/30·n_z ds
func (t Torsion) shearEnergy() sourceEnergy {
	var e sourceEnergy
	for i := range t.boundary.elements {
		el := &t.boundary.elements[i]
		ofZ, ofY := el.coefficients(t.byZ.nodes), el.coefficients(t.byY.nodes)
		for k, node := range gaussNodes {
			ξ := (1 + node) / 2
			p, weight := el.place(ξ), gaussWeights[k]*el.length/2
			y, z, n := p.Y, p.Z, el.out
			φz, φy := ofZ[0]+ξ*(ofZ[1]+ξ*ofZ[2]), ofY[0]+ξ*(ofY[1]+ξ*ofY[2])
			outZ, outY := z*z*n.Z/2, y*y*n.Y/2 // −∂φ/∂n
			e.zz -= weight * (φz*outZ + z*z*z/6*outZ + math.Pow(z, 5)/30*n.Z)
			e.yy -= weight * (φy*outY + y*y*y/6*outY + math.Pow(y, 5)/30*n.Y)
			e.yz -= weight * (φz*outY + y*y*y/6*outZ + math.Pow(z, 4)*y/24*n.Z)
		}
	}
	return e
}

// Modulus is the torsion modulus Wt = T/τ with the largest edge shear outside
// circles of the given radius (m) around re-entrant corners (m³). The error is that
// of [Torsion.LargestEdgeShear].
func (t Torsion) Modulus(radius float64) (float64, error) {
	largest, err := t.LargestEdgeShear(radius)
	if err != nil {
		return 0, err
	}
	return 1 / math.Abs(largest.Stress), nil
}
