package derive

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

// Section is a section state at one x, in printed digits: six significant ones,
// the centroid to 0.001 mm. Where Iyz is not zero the second moments share the
// last digit of the smaller principal one, because σ divides by Iy·Iz − Iyz².
type Section struct {
	Number int     `json:"n"`             // from 1
	X      float64 `json:"x"`             // m
	Name   string  `json:"name"`          // gross, net, transformed …
	A      float64 `json:"A"`             // m²
	Y      float64 `json:"y"`             // of the centroid, m
	Z      float64 `json:"z"`             // of the centroid, m
	Iy     float64 `json:"Iy"`            // m⁴
	Iz     float64 `json:"Iz"`            // m⁴
	Iyz    float64 `json:"Iyz,omitempty"` // m⁴, +∫yz dA
}

// digitsOfSection is the number of significant digits of area and second moments:
// with six, 50 MPa is off by at most 0.25 units of 0.001 MPa.
const digitsOfSection = 6

// lastOfCentroid is 0.001 mm: My = n·P·cos·(z − z_c) has to come out in the digits
// that σ needs. With 0.1 mm every seventh of the tests' random tables cannot be
// recomputed whatever the other columns print, with 0.01 mm one in 300, with
// 0.001 mm one in 20,000.
const lastOfCentroid = -6

// symmetric is the Iyz/√(Iy·Iz) below which Iyz is rounding noise of the sums.
const symmetric = 1e-9

// NewSection is the section state of given properties.
func NewSection(number int, x float64, name string, p section.Properties) Section {
	return newSection(number, x, name, p, 0)
}

// newSection is NewSection with more digits.
func newSection(number int, x float64, name string, p section.Properties, more int) Section {
	digits := digitsOfSection + more
	s := Section{
		Number: number, X: Round(x, -4), Name: name, A: Significant(p.Area, digits),
		Y: Round(p.Centroid.Y, lastOfCentroid-more), Z: Round(p.Centroid.Z, lastOfCentroid-more),
	}
	if math.Abs(p.ProductMoment) < symmetric*math.Sqrt(p.SecondMomentY*p.SecondMomentZ) {
		s.Iy, s.Iz = Significant(p.SecondMomentY, digits), Significant(p.SecondMomentZ, digits)
		return s
	}
	last := lastOf(p.Principal().Minor, digits)
	s.Iy, s.Iz, s.Iyz = Round(p.SecondMomentY, last), Round(p.SecondMomentZ, last), Round(p.ProductMoment, last)
	return s
}

// Stress is the stress at a point (Pa, tension +) under N, My and Mz about the
// centroid; see [section.Properties.Plane] for formula and signs.
func (s Section) Stress(n, my, mz float64, at section.Point) float64 {
	y, z := at.Y-s.Y, at.Z-s.Z
	if s.Iyz == 0 {
		return n/s.A - my*z/s.Iy - mz*y/s.Iz
	}
	return n/s.A - ((my*s.Iz-mz*s.Iyz)*z+(mz*s.Iy-my*s.Iyz)*y)/(s.Iy*s.Iz-s.Iyz*s.Iyz)
}

// Flow is the shear stress at one cut of a wall under unit forces, in printed
// digits: six significant ones.
type Flow struct {
	Number int     `json:"n"` // from 1
	X      float64 `json:"x"` // m
	Wall           // where it is cut
	Vy     float64 `json:"Vy,omitempty"` // τ under Vy = 1 N, 1/m²
	Vz     float64 `json:"Vz,omitempty"` // τ under Vz = 1 N, 1/m²
	T      float64 `json:"T,omitempty"`  // τ under T = 1 N·m, 1/m³
}

// Wall is a cut through a wall; both ends are zero where they are not known.
type Wall struct {
	Name string        `json:"name"`          // in words
	From section.Point `json:"from,omitzero"` // on one face, m
	To   section.Point `json:"to,omitzero"`   // on the other face, m
}

// rounded is the wall with its ends to the millimetre.
func (w Wall) rounded() Wall {
	short := func(p section.Point) section.Point { return section.Point{Y: Round(p.Y, -3), Z: Round(p.Z, -3)} }
	return Wall{w.Name, short(w.From), short(w.To)}
}

// NewFlow is the cut with its unit shear stresses.
func NewFlow(number int, x float64, wall Wall, vy, vz, t float64) Flow {
	short := func(v float64) float64 { return Significant(v, digitsOfSection) }
	return Flow{number, Round(x, -4), wall.rounded(), short(vy), short(vz), short(t)}
}

// Shear is the shear stress at the cut (Pa) under Vy, Vz (N) and T (N·m) about the
// shear centre: τ = Vy·τ_Vy + Vz·τ_Vz + T·τ_T.
func (f Flow) Shear(vy, vz, t float64) float64 { return vy*f.Vy + vz*f.Vz + t*f.T }
