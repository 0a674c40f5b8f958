package section_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func rectangle(y, z, width, depth float64) section.Outline {
	return section.Outline{{Y: y, Z: z}, {Y: y + width, Z: z}, {Y: y + width, Z: z + depth}, {Y: y, Z: z + depth}}
}

func hollow(t testing.TB) section.Shape {
	shape, err := section.New([]section.Outline{rectangle(-1, 0, 2, 3)}, []section.Outline{rectangle(-0.5, 0.5, 1, 2)})
	require.NoError(t, err)
	return shape
}

// Net against transformed section of the same girder.
func ExampleShape_With() {
	shape, _ := section.New([]section.Outline{rectangle(-0.3, 0, 0.6, 1)}, nil)
	tendon := section.Point{Y: 0, Z: 0.2}
	net, _ := shape.With(section.Duct(tendon, 0.09))
	transformed, _ := shape.With(section.BondedSteel(tendon, 1800e-6, 5.5))
	for _, p := range []section.Properties{net, shape.Properties(), transformed} {
		fmt.Printf("A = %.4f m², z = %.4f m, Iy = %.5f m⁴\n", p.Area, p.Centroid.Z, p.SecondMomentY)
	}
	// Output:
	// A = 0.5936 m², z = 0.5032 m, Iy = 0.04942 m⁴
	// A = 0.6000 m², z = 0.5000 m, Iy = 0.05000 m⁴
	// A = 0.6081 m², z = 0.4960 m, Iy = 0.05072 m⁴
}

func ExampleProperties_Stress() {
	shape, _ := section.New([]section.Outline{rectangle(-0.3, 0, 0.6, 1)}, nil)
	soffit := section.Point{Y: 0, Z: 0}
	sigma := shape.Properties().Stress(section.Forces{N: -3e6, My: 0.6e6}, soffit)
	fmt.Printf("%.2f MPa\n", sigma/1e6)
	// Output: 1.00 MPa
}

func ExampleBox_Shape() {
	shape, err := section.Box{
		Depth: 2.3, TopWidth: 9.2, RootWidth: 5.2, BottomWidth: 4.4,
		TopSlab: 0.24, BottomSlab: 0.22, WebThickness: 0.32, CantileverRoot: 0.4, CantileverTip: 0.2,
	}.Shape()
	p := shape.Properties()
	fmt.Printf("A = %.3f m², z = %.3f m, Iy = %.3f m⁴, %v\n", p.Area, p.Centroid.Z, p.SecondMomentY, err)
	// Output: A = 4.624 m², z = 1.463 m, Iy = 3.473 m⁴, <nil>
}

func TestPropertiesOfAHollowRectangle(t *testing.T) {
	p := hollow(t).Properties()
	require.InDelta(t, 4, p.Area, 1e-12)
	require.InDelta(t, 0, p.Centroid.Y, 1e-12)
	require.InDelta(t, 1.5, p.Centroid.Z, 1e-12)
	require.InDelta(t, (2*27-1*8)/12.0, p.SecondMomentY, 1e-12)
	require.InDelta(t, (3*8-2*1)/12.0, p.SecondMomentZ, 1e-12)
	require.InDelta(t, 0, p.ProductMoment, 1e-12)
	require.InDelta(t, 10, p.OuterPerimeter, 1e-12)
	require.InDelta(t, 6, p.InnerPerimeter, 1e-12)
	require.InDelta(t, 46.0/12/1.5, p.TopModulus(), 1e-12)
	require.InDelta(t, p.TopModulus(), p.BottomModulus(), 1e-12)
	require.Equal(t, section.Properties{}, section.Shape{}.Properties())
}

func TestInvariantsOfRandomTriangles(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 1))
	for range 300 {
		o := section.Outline{}
		for range 3 {
			o = append(o, section.Point{Y: random.Float64() * 4, Z: random.Float64() * 3})
		}
		shape, err := section.New([]section.Outline{o}, nil)
		if err != nil {
			continue // a sliver
		}
		p := shape.Properties()
		scale := p.Area * p.Area
		moved := transformed(t, o, func(q section.Point) section.Point { return section.Point{Y: q.Y + 50, Z: q.Z - 20} })
		require.InDelta(t, p.SecondMomentY, moved.SecondMomentY, 1e-9*scale+1e-12)
		require.InDelta(t, p.ProductMoment, moved.ProductMoment, 1e-9*scale+1e-12)

		mirror := transformed(t, o, func(q section.Point) section.Point { return section.Point{Y: -q.Y, Z: q.Z} })
		require.InDelta(t, -p.ProductMoment, mirror.ProductMoment, 1e-11)

		quarter := transformed(t, o, func(q section.Point) section.Point { return section.Point{Y: -q.Z, Z: q.Y} })
		require.InDelta(t, p.SecondMomentY, quarter.SecondMomentZ, 1e-11)

		principal := p.Principal()
		turned := transformed(t, o, func(q section.Point) section.Point {
			sin, cos := math.Sincos(-principal.Angle)
			return section.Point{Y: q.Y*cos - q.Z*sin, Z: q.Y*sin + q.Z*cos}
		})
		require.InDelta(t, 0, turned.ProductMoment, 1e-11, "no product about principal axes")
		require.InDelta(t, principal.Major, turned.SecondMomentY, 1e-11)
		require.InDelta(t, principal.Minor, turned.SecondMomentZ, 1e-11)
	}
}

func transformed(t *testing.T, o section.Outline, move func(section.Point) section.Point) section.Properties {
	moved := section.Outline{}
	for _, p := range o {
		moved = append(moved, move(p))
	}
	shape, err := section.New([]section.Outline{moved}, nil)
	require.NoError(t, err)
	return shape.Properties()
}

func TestACutSplitsTheShapeInTwo(t *testing.T) {
	shape := hollow(t)
	whole := shape.Properties()
	random := rand.New(rand.NewPCG(2, 3))
	for range 200 {
		normal := section.Point{Y: random.NormFloat64(), Z: random.NormFloat64()}
		offset := random.NormFloat64()
		one := shape.Beyond(normal, offset)
		other := shape.Beyond(section.Point{Y: -normal.Y, Z: -normal.Z}, -offset)
		require.InDelta(t, whole.Area, one.Area+other.Area, 1e-11)
		require.InDelta(t, whole.Area*whole.Centroid.Z, one.FirstMomentY+other.FirstMomentY, 1e-11)
		require.InDelta(t, whole.Area*whole.Centroid.Y, one.FirstMomentZ+other.FirstMomentZ, 1e-11)
	}
	require.InDelta(t, 2, shape.Above(1.5).Area, 1e-12)
	require.InDelta(t, 2*0.25, shape.Above(2.75).Area, 1e-12)
}

func TestChordsAndClearance(t *testing.T) {
	shape := hollow(t)
	require.Equal(t, []section.Chord{{From: -1, To: -0.5}, {From: 0.5, To: 1}}, shape.Chords(1))
	require.Equal(t, []section.Chord{{From: -1, To: 1}}, shape.Chords(0.2))
	require.Empty(t, shape.Chords(3.1))
	require.InDelta(t, 0.25, shape.Clearance(section.Point{Y: 0, Z: 0.25}), 1e-12)
	require.InDelta(t, -0.5, shape.Clearance(section.Point{Y: 0, Z: 1.5}), 1e-12)
	require.InDelta(t, -2, shape.Clearance(section.Point{Y: 3, Z: 1}), 1e-12)
	require.Len(t, shape.Corners(), 8)
	require.Len(t, shape.Solids(), 1)
	require.Len(t, shape.Voids()[0], 4)
}

func TestStressIsInEquilibriumWithItsForces(t *testing.T) {
	// An unsymmetric angle: integrate σ over the section by cutting it off nowhere.
	shape, err := section.New([]section.Outline{{{Y: 0, Z: 0}, {Y: 2, Z: 0}, {Y: 2, Z: 0.3}, {Y: 0.2, Z: 0.3}, {Y: 0.2, Z: 1.5}, {Y: 0, Z: 1.5}}}, nil)
	require.NoError(t, err)
	p := shape.Properties()
	f := section.Forces{N: -4e5, My: 3e4, Mz: -2e4}
	plane := p.Plane(f)
	// ∫σ dA, ∫σ·z dA and ∫σ·y dA about the centroid from second moments.
	atCentroid := plane.At(p.Centroid)
	require.InDelta(t, f.N, atCentroid*p.Area, 1e-6)
	require.InDelta(t, -f.My, plane.SlopeZ*p.SecondMomentY+plane.SlopeY*p.ProductMoment, 1e-6)
	require.InDelta(t, -f.Mz, plane.SlopeY*p.SecondMomentZ+plane.SlopeZ*p.ProductMoment, 1e-6)
	require.InDelta(t, plane.At(section.Point{Y: 1}), p.Stress(f, section.Point{Y: 1}), 1e-9)
	double := plane.Plus(plane)
	require.Equal(t, double, plane.Times(2))
	require.Equal(t, f.Times(2), f.Plus(f))
}

func TestTensionForce(t *testing.T) {
	shape, err := section.New([]section.Outline{rectangle(-0.3, 0, 0.6, 1)}, nil)
	require.NoError(t, err)
	plane := shape.Properties().Plane(section.Forces{My: 0.6e6}) // ±6 MPa
	force, area := shape.TensionForce(plane)
	require.InDelta(t, 6e6/2*0.5*0.6, force, 1e-3)
	require.InDelta(t, 0.3, area, 1e-9)
	force, area = shape.TensionForce(section.Plane{Constant: 2e6})
	require.InDelta(t, 1.2e6, force, 1e-3)
	require.InDelta(t, 0.6, area, 1e-9)
	force, area = shape.TensionForce(section.Plane{Constant: -2e6})
	require.Zero(t, force)
	require.Zero(t, area)
}
