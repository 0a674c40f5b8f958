package beam

import (
	"fmt"
	"math"
)

// flexibility is how the member deforms, prepared once: panels between the
// breaks in which the properties are constant or one polynomial each. Empty: a
// rigid member.
type flexibility struct {
	panels []spacePanel
	scale  float64 // m/N, Length³ × the largest bending flexibility
}

// spacePanel is a length of the member with one law of its properties.
type spacePanel struct {
	from, to float64                // m
	constant softness               // where law is nil
	law      *[properties][]float64 // power series in s = x − from
}

// properties is the number of quantities in a softness.
const properties = 9

// softness is a section's flexibility: curvature per moment about the
// centroid as a 2×2 matrix, twist per torque about the shear centre, strain
// per normal force, and the places of both centres.
type softness struct {
	y, yz, z       float64 // 1/(N·m²): κy = y·My + yz·Mz, κz = yz·My + z·Mz
	torsion        float64 // 1/(N·m²)
	axial          float64 // 1/N
	centroidY      float64 // m
	centroidZ      float64
	shearY, shearZ float64
}

func (c CrossSection) softness() softness {
	det := 1 / (c.BendingY*c.BendingZ - c.BendingYZ*c.BendingYZ)
	f := softness{
		y: c.BendingZ * det, yz: -c.BendingYZ * det, z: c.BendingY * det, torsion: 1 / c.Torsional,
		centroidY: c.Centroid.Y, centroidZ: c.Centroid.Z, shearY: c.ShearCentre.Y, shearZ: c.ShearCentre.Z,
	}
	if c.Axial > 0 {
		f.axial = 1 / c.Axial
	}
	return f
}

func (f *softness) list() [properties]float64 {
	return [properties]float64{f.y, f.yz, f.z, f.torsion, f.axial, f.centroidY, f.centroidZ, f.shearY, f.shearZ}
}

func softnessOf(v [properties]float64) softness {
	return softness{v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8]}
}

// deformation is the strains of a unit of length that move the fixed axis.
type deformation struct {
	Strain
	shearY, shearZ float64 // twist × the coordinates of the shear centre, rad: what twisting shifts the axis sideways
}

// deform is how the section deforms under the forces of a cut about the fixed
// axis (Pilkey, Analysis and Design of Elastic Beams, 2002, chapter 1).
func (f *softness) deform(n *resultants) (d deformation) {
	my, mz := n[4]+n[0]*f.centroidZ, n[5]+n[0]*f.centroidY
	d.CurvatureY = f.y*my + f.yz*mz
	d.CurvatureZ = f.yz*my + f.z*mz
	d.Axial = f.axial*n[0] + d.CurvatureY*f.centroidZ + d.CurvatureZ*f.centroidY
	d.Twist = f.torsion * (n[3] + f.shearY*n[2] - f.shearZ*n[1])
	d.shearY, d.shearZ = d.Twist*f.shearY, d.Twist*f.shearZ
	return d
}

// at is the flexibility at x.
func (p *spacePanel) at(x float64) softness {
	if p.law == nil {
		return p.constant
	}
	var v [properties]float64
	for i := range v {
		v[i] = horner(p.law[i], x-p.from)
	}
	return softnessOf(v)
}

// panel is the panel that the middle of an interval is in.
func (f *flexibility) panel(x float64) *spacePanel {
	low, high := 0, len(f.panels)-1
	for low < high {
		if middle := (low + high + 1) / 2; f.panels[middle].from <= x {
			low = middle
		} else {
			high = middle - 1
		}
	}
	return &f.panels[low]
}

const (
	// closeFit is the relative error down to which a panel is halved: a tenth
	// of the 1e-9 that results are held to.
	closeFit = 1e-10
	// spaceHalvings is how often: a kink that is no break (properties
	// interpolated between stations) then acts on 1/256 of its stretch.
	spaceHalvings = 8
	// roughFit is the error left after the last halving that counts as a step.
	roughFit = 1e-2
)

// measure prepares the flexibility and the places where something changes.
func (s *Space) measure() error {
	length := s.layout.Length
	s.grid = append([]float64{0, length}, s.layout.Breaks...)
	s.grid = distinct(s.grid, length)
	if s.layout.Section != nil {
		breaks := s.grid
		for i := range breaks[1:] {
			if err := s.fitSection(breaks[i], breaks[i+1], spaceHalvings); err != nil {
				return err
			}
		}
		s.grid = []float64{length}
		for i := range s.member.panels {
			p := &s.member.panels[i]
			s.grid = append(s.grid, p.from)
			f := p.at((p.from + p.to) / 2)
			s.member.scale = max(s.member.scale, length*length*length*(f.y+f.z))
		}
	}
	for i := range s.layout.Supports {
		s.grid = append(s.grid, s.layout.Supports[i].X)
	}
	s.grid = distinct(s.grid, length)
	return nil
}

// fitSection appends panels between from and to, halved until a polynomial
// through the Chebyshev places follows each property.
func (s *Space) fitSection(from, to float64, left int) error {
	h := to - from
	var known [fitted + 1][properties]float64
	uniform := true
	var first CrossSection
	for k := range known {
		x := from + h*chebyshev(k, fitted+1)
		c := s.layout.Section(x)
		if err := c.check(x); err != nil {
			return err
		}
		if k == 0 {
			first = c
		}
		uniform = uniform && c == first
		f := c.softness()
		known[k] = f.list()
	}
	p := spacePanel{from: from, to: to, constant: softnessOf(known[0])}
	if !uniform {
		p.law = new([properties][]float64)
		for i := range p.law {
			var values [fitted + 1]float64
			for k := range values {
				values[k] = known[k][i]
			}
			p.law[i] = through(values, h)
		}
	}
	x, off, err := s.misfit(&p)
	switch {
	case err != nil:
		return err
	case off <= closeFit:
	case left > 0:
		if err := s.fitSection(from, from+h/2, left-1); err != nil {
			return err
		}
		return s.fitSection(from+h/2, to, left-1)
	case off > roughFit:
		return fmt.Errorf("%w: Section steps near %g m: must be smooth between Breaks", ErrBeam, x)
	}
	s.member.panels = append(s.member.panels, p)
	return nil
}

// misfit is where a panel is furthest from the section and how far, as a part
// of each property (of the larger bending flexibility for the mixed one, of
// the radius of gyration or, inextensible, the length for the centres).
func (s *Space) misfit(p *spacePanel) (worst, largest float64, err error) {
	for k := range fitted + 2 {
		x := p.from + (p.to-p.from)*chebyshev(k, fitted+2)
		c := s.layout.Section(x)
		if err := c.check(x); err != nil {
			return x, 0, err
		}
		exact, got := c.softness(), p.at(x)
		want, have := exact.list(), got.list()
		scale := want
		scale[1] = math.Sqrt(exact.y * exact.z)
		radius := s.layout.Length
		if c.Axial > 0 {
			radius = math.Sqrt((c.BendingY + c.BendingZ) / c.Axial)
		}
		for i := 5; i < properties; i++ {
			scale[i] = radius
		}
		for i := range want {
			if d := math.Abs(want[i] - have[i]); d > largest*scale[i] {
				worst, largest = x, d/scale[i]
			}
		}
	}
	return worst, largest, nil
}
