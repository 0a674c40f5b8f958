package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// poisson is the ratio of lateral to axial strain of uncracked concrete, EN
// 1992-1-1:2004 3.1.3(4).
const poisson = 0.2

// stiffness is the section of a body along x with the modulus of a day. J and the
// shear centre are exact for a constant outline; for one that varies they are
// exact at its middle and follow thin-wall values along it.
func (r *run) stiffness(b *body, state *ledger.State, modulus float64) (func(x float64) beam.CrossSection, error) {
	twist, err := r.twist(b)
	if err != nil {
		return nil, err
	}
	return func(x float64) beam.CrossSection { return stiff(r.ledger.Section(x, state), modulus, twist, x) }, nil
}

// stiff is the stiffness of a section.
func stiff(p section.Properties, modulus float64, twist func(float64) (float64, section.Point), x float64) beam.CrossSection {
	constant, centre := twist(x)
	return beam.CrossSection{
		Centroid: p.Centroid, BendingY: modulus * p.SecondMomentY, BendingZ: modulus * p.SecondMomentZ,
		BendingYZ: modulus * p.ProductMoment, Axial: modulus * p.Area,
		ShearCentre: centre, Torsional: constant * modulus / (2 * (1 + poisson)),
	}
}

// joinedOutline is the outline of a body at x, right of a joint, kept for the next body with
// the same pieces there.
func (r *run) joinedOutline(b *body, x float64) (section.Shape, error) {
	at := outlineAt{x: x}
	var shapes []section.Shape
	for _, k := range b.pieces {
		if p := r.girder.Pieces[k]; x >= p.At && (x < p.To() || x >= b.to) {
			at.pieces += fmt.Sprintf("%d ", k)
			shapes = append(shapes, p.Element.Section.At(x-p.At))
		}
	}
	if known, ok := r.outlines[at]; ok {
		return known, nil
	}
	shape, err := shapes[0], error(nil)
	if len(shapes) > 1 {
		if shape, err = section.Joined(shapes...); err != nil {
			return shape, err
		}
	}
	if r.outlines == nil {
		r.outlines = map[outlineAt]section.Shape{}
	}
	r.outlines[at] = shape
	return shape, nil
}

// outlineAt is a place with the pieces that meet there.
type outlineAt struct {
	x      float64 // m
	pieces string
}

// twist is the torsion constant (m⁴) and the shear centre of a body along x.
func (r *run) twist(b *body) (func(x float64) (float64, section.Point), error) {
	middle, err := r.joinedOutline(b, (b.from+b.to)/2)
	if err != nil {
		return nil, err
	}
	exact, err := middle.Torsion()
	if err != nil {
		return nil, err
	}
	centre, err := exact.ShearCentre(poisson)
	if err != nil {
		return nil, err
	}
	if len(b.pieces) == 1 {
		if _, constant := r.girder.Pieces[b.pieces[0]].Element.Section.(section.Shape); constant {
			return func(float64) (float64, section.Point) { return exact.Constant, centre }, nil
		}
	}
	thin, err := middle.Walls()
	if err != nil {
		return nil, err
	}
	factor := exact.Constant / thin.Constant
	off := section.Point{Y: centre.Y - thin.ShearCentre.Y, Z: centre.Z - thin.ShearCentre.Z}
	var along []twistAlong
	ends := r.outlineBreaks(b)
	for i := 1; i < len(ends); i++ {
		t := twistAlong{from: ends[i-1], to: ends[i]}
		for k := range t.at {
			shape, err := r.joinedOutline(b, t.place(k))
			if err != nil {
				return nil, err
			}
			w, err := shape.Walls()
			if err != nil {
				return nil, err
			}
			t.at[k] = [3]float64{factor * w.Constant, w.ShearCentre.Y + off.Y, w.ShearCentre.Z + off.Z}
		}
		along = append(along, t)
	}
	return func(x float64) (float64, section.Point) {
		i := 0
		for i < len(along)-1 && x >= along[i].to {
			i++
		}
		v := along[i].interpolate(x)
		return v[0], section.Point{Y: v[1], Z: v[2]}
	}, nil
}

// outlineBreaks are the places where the law of a body's outline changes, its ends
// included (m).
func (r *run) outlineBreaks(b *body) []float64 {
	var list []float64
	for _, k := range b.pieces {
		p := r.girder.Pieces[k]
		list = append(list, p.At, p.To())
		for _, x := range p.Element.Section.Breaks() {
			list = append(list, math.Max(b.from, math.Min(b.to, p.At+x)))
		}
	}
	slices.Sort(list)
	near := r.girder.near()
	return slices.CompactFunc(list, func(p, q float64) bool { return math.Abs(p-q) <= near })
}

// twistAlong is torsion constant and shear centre between two breaks: a polynomial
// through thin-wall values, which by themselves jump by 1e-4 where a cut moves to
// another wall.
type twistAlong struct {
	from, to float64
	at       [5][3]float64 // constant (m⁴), y and z of the shear centre (m)
}

// place is where value k is taken, a Chebyshev place inside the stretch (m).
func (t *twistAlong) place(k int) float64 {
	return t.from + (t.to-t.from)*(1-math.Cos(math.Pi*(float64(k)+0.5)/float64(len(t.at))))/2
}

// interpolate is the polynomial at x, by Lagrange.
func (t *twistAlong) interpolate(x float64) (sum [3]float64) {
	for k := range t.at {
		weight := 1.0
		for i := range t.at {
			if i != k {
				weight *= (x - t.place(i)) / (t.place(k) - t.place(i))
			}
		}
		for n, v := range t.at[k] {
			sum[n] += weight * v
		}
	}
	return sum
}

// strainOf is how a section deforms under forces about the fixed axis.
func strainOf(c beam.CrossSection, f section.Forces) beam.Strain {
	f = beam.About(f, c)
	det := c.BendingY*c.BendingZ - c.BendingYZ*c.BendingYZ
	s := beam.Strain{
		CurvatureY: (f.My*c.BendingZ - f.Mz*c.BendingYZ) / det,
		CurvatureZ: (f.Mz*c.BendingY - f.My*c.BendingYZ) / det,
		Twist:      f.T / c.Torsional,
	}
	s.Axial = f.N/c.Axial + s.CurvatureY*c.Centroid.Z + s.CurvatureZ*c.Centroid.Y
	return s
}

// holds is true where the pieces of another body are in this one, as it or joined since.
func (b *body) holds(c *body) bool { return slices.Contains(b.pieces, c.pieces[0]) }
