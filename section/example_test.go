package section_test

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
)

// A half beam suspended from a line that is not over its centre of gravity: how far it
// tilts, and what the tilt does to the stress at mid-span.
func ExampleHang() {
	beam := section.HalfBeam{
		Depth: 1.8, TopWidth: 4.5, RootWidth: 2.6, BottomWidth: 2.2, TopInner: 0.3, BottomInner: 0.4,
		TopSlab: 0.22, BottomSlab: 0.2, WebThickness: 0.3, CantileverRoot: 0.35, CantileverTip: 0.18,
	}
	shape, err := beam.Shape()
	if err != nil {
		fmt.Println(err)
		return
	}
	p := shape.Properties()
	moment := 25e3 * p.Area * 26 * 26 / 8 // own weight of a 26 m span, N·m
	for _, y := range []float64{p.Centroid.Y, p.Centroid.Y - 0.1} {
		hang, err := section.Hang(section.Point{Y: y, Z: beam.Depth + 0.3}, p.Centroid)
		if err != nil {
			fmt.Println(err)
			return
		}
		most := shape.Extremes(p.Plane(hang.Bending(moment)))
		fmt.Printf("hung %.1f m beside its centre of gravity: tilt %.1f°, most tension %.2f MPa at y = %.2f m\n",
			p.Centroid.Y-y, hang.Tilt*180/math.Pi, most.Most/1e6, most.MostAt.Y)
	}
	// Output:
	// hung 0.0 m beside its centre of gravity: tilt 0.0°, most tension 6.74 MPa at y = 2.20 m
	// hung 0.1 m beside its centre of gravity: tilt -6.1°, most tension 6.89 MPa at y = 2.20 m
}

// The torsion constant of a box on its true outline and by Bredt's formula.
func ExampleShape_Torsion() {
	box := section.Box{
		Depth: 2.3, TopWidth: 9.2, RootWidth: 5.2, BottomWidth: 4.4, TopSlab: 0.24, BottomSlab: 0.22, WebThickness: 0.32,
		CantileverRoot: 0.4, CantileverTip: 0.2,
		TopHaunch: section.Haunch{Width: 0.6, Height: 0.2}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.2},
	}
	shape, err := box.Shape()
	if err != nil {
		fmt.Println(err)
		return
	}
	torsion, err := shape.Torsion()
	if err != nil {
		fmt.Println(err)
		return
	}
	thin, err := box.Bredt()
	fmt.Printf("J = %.2f m⁴, by Bredt %.2f m⁴, %v\n", torsion.Constant, thin, err)
	// Output: J = 7.49 m⁴, by Bredt 6.74 m⁴, <nil>
}

// Half a beam that deepens on a parabola from mid-span (x = 10 m) towards its
// support, even over the first metre: how much concrete and where its middle is.
func ExampleTaper() {
	deep := section.IGirder{Depth: 1.6, WebThickness: 0.2, Top: section.Flange{Width: 1, Edge: 0.15}, Bottom: section.Flange{Width: 0.6, Edge: 0.2}}
	shallow := deep
	shallow.Depth = 1
	support, err := deep.Shape()
	if err != nil {
		fmt.Println(err)
		return
	}
	middle, err := shallow.Shape()
	if err != nil {
		fmt.Println(err)
		return
	}
	// Hang both from the same deck level.
	if middle, err = middle.Moved(section.Point{Z: 0.6}); err != nil {
		fmt.Println(err)
		return
	}
	half, err := section.Taper{From: 1, To: 10, Left: support, Right: middle, Law: section.FlatAtRight}.Along()
	if err != nil {
		fmt.Println(err)
		return
	}
	body := section.Volume(half, 10)
	fmt.Printf("%.2f m³, centre of gravity at x = %.2f m, z = %.2f m\n", body.Volume, body.X, body.Z)
	// Output: 4.48 m³, centre of gravity at x = 4.74 m, z = 1.02 m
}

// The shear in the webs of a box under an eccentric load, with empty ducts.
func ExampleTorsion_WallShear() {
	box := section.Box{
		Depth: 2.3, TopWidth: 9.2, RootWidth: 5.2, BottomWidth: 4.4, TopSlab: 0.24, BottomSlab: 0.22, WebThickness: 0.32,
		CantileverRoot: 0.4, CantileverTip: 0.2,
	}
	shape, err := box.Shape()
	if err != nil {
		fmt.Println(err)
		return
	}
	torsion, err := shape.Torsion()
	if err != nil {
		fmt.Println(err)
		return
	}
	net, err := section.WebWidth(box.WebThickness, section.NotGrouted, 0.09)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, y := range []float64{-box.WebCentre(1.2), box.WebCentre(1.2)} {
		cut, err := shape.Across(section.Point{Y: y, Z: 1.2})
		if err != nil {
			fmt.Println(err)
			return
		}
		web, err := torsion.WallShear(cut, section.Forces{Vz: 2e6, T: 1.5e6})
		fmt.Printf("web at y = %.2f m: %.0f kN/m, %.2f MPa on %.3f m, %v\n", y, math.Abs(web.Flow)/1e3, math.Abs(web.Flow)/net/1e6, net, err)
	}
	// Output:
	// web at y = -2.29 m: 598 kN/m, 2.82 MPa on 0.212 m, <nil>
	// web at y = 2.29 m: 441 kN/m, 2.08 MPa on 0.212 m, <nil>
}
