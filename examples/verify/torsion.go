package main

import (
	"fmt"
	"math"
	"sync"

	"github.com/tempstage/tempstage/section"
)

// torsion is every check of the boundary-element solution and of the thin-wall
// formulas beside it.
func torsion() []Check {
	var checks []Check
	for _, list := range [][]Check{rectangleSeries(), rectangleTables(), solidShapes(), shearCentres(), concreteBeams(), thinWalls(), wallShears()} {
		checks = append(checks, list...)
	}
	return checks
}

// solution is a shape with its torsion; solved makes it once for many rows.
type solution func() (solvedShape, error)

type solvedShape struct {
	section.Shape
	section.Torsion
}

func solved(draw shape) solution {
	return sync.OnceValues(func() (solvedShape, error) {
		s, err := draw()
		if err != nil {
			return solvedShape{}, err
		}
		t, err := s.Torsion()
		return solvedShape{s, t}, err
	})
}

// twist is a row that compares a value from the torsion solution of a shape.
func twist(name string, solve solution, of func(section.Shape, section.Torsion) (float64, error)) Check {
	return Check{Name: name, Package: "section", Ours: func() (float64, error) {
		s, err := solve()
		if err != nil {
			return 0, err
		}
		return of(s.Shape, s.Torsion)
	}}
}

func constant(_ section.Shape, t section.Torsion) (float64, error) { return t.Constant, nil }

func rectangle(width, depth float64) solution {
	return solved(outline(0, 0, width, 0, width, depth, 0, depth))
}

// exactRectangle is Saint-Venant's series for a rectangle b × t with b ≥ t:
// α = J/(b·t³), k = T/(τ·b·t²) for the middle of the long side and η, the stress
// in the middle of the short side over that.
func exactRectangle(ratio float64) (alpha, k, eta float64) {
	for n := 1; n < 200; n += 2 {
		m := float64(n)
		x := m * math.Pi * ratio / 2
		alpha += math.Tanh(x) / math.Pow(m, 5)
		if x < 700 {
			k += 1 / (m * m * math.Cosh(x))
		}
		sign := 1.0
		if n%4 == 3 {
			sign = -1
		}
		eta += sign * math.Tanh(x) / (m * m)
	}
	alpha = 1.0 / 3 * (1 - 192/math.Pow(math.Pi, 5)/ratio*alpha)
	long := 1 - 8/(math.Pi*math.Pi)*k // of G·θ·t
	short := 8 / (math.Pi * math.Pi) * eta
	return alpha, alpha / long, short / long
}

func rectangleSeries() []Check {
	const (
		source = "Saint-Venant's series for a rectangle (Timoshenko and Goodier, Theory of Elasticity)"
		reason = "0.05 %: refinement stops when J changes by less"
		edge   = "0.1 %: slope of a polynomial through five nodes of the edge"
	)
	var checks []Check
	for _, ratio := range []float64{1, 1.5, 2, 5, 10} {
		alpha, k, eta := exactRectangle(ratio)
		solve := rectangle(1, ratio)
		at := func(p section.Point) func(section.Shape, section.Torsion) (float64, error) {
			return func(_ section.Shape, t section.Torsion) (float64, error) {
				e, err := t.EdgeShear(p)
				return e.Stress, err
			}
		}
		j := alpha * ratio
		checks = append(checks,
			twist(fmt.Sprintf("rectangle 1 × %g, J", ratio), solve, constant).from(ClosedForm, source).is(j, "m⁴", 5e-4*j, reason),
			twist(fmt.Sprintf("rectangle 1 × %g, shear in the long side", ratio), solve, at(section.Point{Y: 1, Z: ratio / 2})).
				from(ClosedForm, source).is(1/(k*ratio), "1/m³", 1e-3/(k*ratio), edge),
			twist(fmt.Sprintf("rectangle 1 × %g, shear in the short side", ratio), solve, at(section.Point{Y: 0.5})).
				from(ClosedForm, source).is(eta/(k*ratio), "1/m³", 1e-3/(k*ratio), edge))
	}
	return checks
}

// rectangleTables are printed coefficients of the same series.
func rectangleTables() []Check {
	const (
		table  = "table of torsion coefficients of rectangles, J = α·b·t³ (strength of materials handbooks)"
		reason = "half of the last printed digit and 0.05 % for the refinement"
	)
	var checks []Check
	for _, row := range [][2]float64{{1.1, 0.154}, {1.2, 0.166}, {2.3, 0.242}, {2.5, 0.249}, {2.8, 0.258}, {3, 0.263}, {4, 0.281}, {6, 0.298}, {7.5, 0.305}, {8, 0.307}} {
		checks = append(checks, twist(fmt.Sprintf("α of a rectangle 1 × %g", row[0]), rectangle(1, row[0]), func(_ section.Shape, t section.Torsion) (float64, error) {
			return t.Constant / row[0], nil
		}).from(Published, table).is(row[1], "1", 0.0005+5e-4*row[1], reason))
	}
	return checks
}

func solidShapes() []Check {
	const pilkey = "Pilkey, Analysis and Design of Elastic Beams (2002), "
	triangle := solved(outline(0, 0, 1, 0, 0.5, math.Sqrt(3)/2))
	circle := solved(func() (section.Shape, error) {
		o, err := section.Circle(section.Point{}, 2, 0.0005)
		if err != nil {
			return section.Shape{}, err
		}
		return section.New([]section.Outline{o}, nil)
	})
	return []Check{
		twist("equilateral triangle of side 1, J", triangle, constant).from(ClosedForm, pilkey+"Ex. 5.6").
			is(math.Sqrt(3)/80, "m⁴", 5e-4*math.Sqrt(3)/80, "0.05 %: refinement stops when J changes by less"),
		twist("circle of radius 1, J", circle, constant).from(ClosedForm, "J = π·r⁴/2").
			is(math.Pi/2, "m⁴", 1e-3*math.Pi/2, "0.1 %: a polygon of 100 chords and the same area"),
		twist("ellipse with semi-axes 75 and 50, J", ellipse(75, 50), constant).from(ClosedForm, pilkey+"Ex. 5.3").
			is(math.Pi*75*75*75*50*50*50/(75*75+50*50), "m⁴", 1e-3*2.039e7, "0.1 %: a polygon of 180 chords"),
		twist("tube of diameter 8 and wall 1/4, J", tube(8, 0.25), constant).from(Published, pilkey+"Ex. 5.7").
			is(91.49, "m⁴", 0.005+1e-3*91.49, "half of the last printed digit and 0.1 % for the polygon"),
		twist("thin angle, J", solved(outline(-.05, -2, .05, -2, .05, -.05, 1, -.05, 1, .05, -.05, .05)), constant).from(Published, pilkey+"Ex. 5.14").
			is(0.00099, "m⁴", 0.000005, lastDigit),
		twist("channel, J", channel(), constant).from(Published, pilkey+"Ex. 6.2").is(0.00133, "m⁴", 0.000005, lastDigit),
		twist("angle 10.5 × 10.5 × 1, J", angle(10.5), constant).from(Published, pilkey+"Ex. 6.7").
			is(6.539189, "m⁴", 3e-3*6.539, "0.3 %: the published value is of a coarse mesh, 0.15 % high"),
		twist("angle 10.5 × 15.5 × 1, J", angle(15.5), constant).from(Published, pilkey+"Ex. 6.7").
			is(8.211705, "m⁴", 3e-3*8.2117, "0.3 %: the published value is of a coarse mesh, 0.2 % high"),
	}
}

func ellipse(a, b float64) solution {
	return solved(func() (section.Shape, error) {
		var o section.Outline
		for i := range 180 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 180)
			o = append(o, section.Point{Y: a * cos, Z: b * sin})
		}
		return section.New([]section.Outline{o}, nil)
	})
}

func tube(diameter, wall float64) solution {
	return solved(func() (section.Shape, error) {
		outer, err := section.Circle(section.Point{}, diameter, diameter/2000)
		if err != nil {
			return section.Shape{}, err
		}
		inner, err := section.Circle(section.Point{}, diameter-2*wall, diameter/2000)
		if err != nil {
			return section.Shape{}, err
		}
		return section.New([]section.Outline{outer}, []section.Outline{inner})
	})
}

func channel() solution {
	return solved(outline(-.05, -2.05, 1, -2.05, 1, -1.95, .05, -1.95, .05, -.05, 1, -.05, 1, .05, -.05, .05))
}

func angle(depth float64) solution {
	return solved(outline(0, 0, 10.5, 0, 10.5, 1, 1, 1, 1, depth, 0, depth))
}

func thinWalls() []Check {
	const table = "EN 10219-2:2006, a dealer's table of its sections"
	var checks []Check
	for _, h := range []struct {
		name                    string
		depth, width, thickness float64 // cm
		it                      float64
	}{
		{"40 × 20 × 3", 4, 2, .3, 4.57}, {"50 × 30 × 3", 5, 3, .3, 13.53},
		{"50 × 30 × 4", 5, 3, .4, 16.53}, {"60 × 40 × 2", 6, 4, .2, 20.70},
	} {
		checks = append(checks, twist("hollow section "+h.name+", It", solved(hollowSection(h.depth, h.width, h.thickness, 2*h.thickness, h.thickness, 3e-3)), constant).
			from(Published, table).is(h.it, "cm⁴", 0.005*h.it, "0.5 %: the standard's formula is one for thin walls"))
	}
	checks = append(checks,
		twist("hot-finished 300 × 200 × 10, It", solved(hollowSection(30, 20, 1, 1.5, 1, 3e-3)), constant).
			from(Remembered, "EN 10210-2, table of hollow sections").is(12908, "cm⁴", 0.015*12908, "1.5 %: the standard's thin-wall formula leaves out that the corners are thicker than the wall; with even corners ours is 0.1 % more"),
		twist("elliptic tube, J", solved(ellipseTube(8, 5, 1, 120)), constant).from(Published, "Pilkey, Analysis and Design of Elastic Beams (2002), Ex. B.1").
			is(1537.38165, "m⁴", 0.002*1537.4, "0.2 %: a polygon against the book's finite elements"))
	return append(checks, handFormulas()...)
}

// handFormulas are the thin-wall formulas themselves.
func handFormulas() []Check {
	middle := section.Outline{{Y: 0, Z: 0}, {Y: 43, Z: 0}, {Y: 43, Z: 36.5}, {Y: 0, Z: 36.5}}
	bredt := Check{Name: "walls of BIV-48 by Bredt, J", Package: "section", Ours: func() (float64, error) {
		return section.Bredt(middle, 5.5, 5, 5.5, 5)
	}}
	slit := Check{Name: "slit tube of radius 8 and wall 1.25, J", Package: "section", Ours: func() (float64, error) {
		return section.ThinWalled(section.Strip{Length: 16 * math.Pi, Thickness: 1.25})
	}}
	value := 4 * 43 * 43 * 36.5 * 36.5 / (2*43/5.5 + 2*36.5/5.0)
	return []Check{
		bredt.from(ClosedForm, "Bredt (1896), J = 4·A²/Σ(s/t)").is(value, "in⁴", same(value), "exact"),
		slit.from(Published, "Pilkey, Analysis and Design of Elastic Beams (2002), Ex. B.4").
			is(32.23967, "m⁴", 0.02*32.24, "2 %: the sum of thin strips against the book's finite elements on the round wall"),
	}
}

// wallShears hold the boundary-element stress against the exact sum of the
// general formula, and a cell against Bredt's flow.
func wallShears() []Check {
	const general = "shear flow by the general formula with Iyz (statics of the part cut off)"
	forces := section.Forces{Vy: 30e3, Vz: 100e3}
	across := func(at section.Point, beyond func(section.Shape) section.Part) func(section.Shape, section.Torsion) (float64, error) {
		return func(s section.Shape, t section.Torsion) (float64, error) {
			cut, err := s.Across(at)
			if err != nil {
				return 0, err
			}
			f := forces
			f.T = -t.AboutShearCentre(forces) // through the shear centre
			w, err := t.WallShear(cut, f)
			return math.Abs(w.Flow) / math.Abs(s.Properties().ShearFlow(beyond(s), forces)), err
		}
	}
	leg := func(s section.Shape) section.Part { return s.Above(6) }
	flange := func(s section.Shape) section.Part { return s.Beyond(section.Point{Y: 1}, 7) }
	return []Check{
		twist("flow across an angle's upright leg over its exact value", angle(15.5), across(section.Point{Y: 0.4, Z: 6}, leg)).
			from(ClosedForm, general).is(1, "1", 1e-3, "0.1 %: Gauss points across the wall of a boundary-element solution"),
		twist("flow across an angle's level leg over its exact value", angle(15.5), across(section.Point{Y: 7, Z: 0.4}, flange)).
			from(ClosedForm, general).is(1, "1", 1e-3, "0.1 %: Gauss points across the wall of a boundary-element solution"),
		twist("tube of diameter 8 and wall 1/4, flow under torque", tube(8, 0.25), func(s section.Shape, t section.Torsion) (float64, error) {
			cut, err := s.Across(section.Point{Y: 3.9})
			if err != nil {
				return 0, err
			}
			w, err := t.WallShear(cut, section.Forces{T: 1})
			return math.Abs(w.Flow), err
		}).from(ClosedForm, "τ = T·r/Ip integrated over the wall").
			is((4*4-3.75*3.75)/2/(math.Pi/2*(256-3.75*3.75*3.75*3.75)), "1/m²", 1e-3*0.0106, "0.1 %: a polygon for the circle"),
	}
}
