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
	for _, list := range [][]Check{rectangleSeries(), solidShapes(), elements(), concreteBeams(), thinWalls(), wallShears()} {
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
	before := 0.0 // the sum of η less its last term
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
		before = eta
		eta += sign * math.Tanh(x) / (m * m)
	}
	eta = (before + eta) / 2 // its terms alternate and fall as 1/n² only
	alpha = 1.0 / 3 * (1 - 192/math.Pow(math.Pi, 5)/ratio*alpha)
	long := 1 - 8/(math.Pi*math.Pi)*k // of G·θ·t
	short := 8 / (math.Pi * math.Pi) * eta
	return alpha, alpha / long, short / long
}

func rectangleSeries() []Check {
	const (
		source = "Saint-Venant's series for a rectangle (Timoshenko and Goodier, Theory of Elasticity)"
		reason = "0.05 %: refinement stops when J changes by less"
		edge   = "0.02 % of the larger stress: slope of a polynomial through five nodes of the edge"
	)
	var checks []Check
	for _, ratio := range []float64{1, 1.2, 1.5, 2, 3, 4, 5, 8, 10} {
		alpha, k, eta := exactRectangle(ratio)
		solve := rectangle(1, ratio)
		j := alpha * ratio
		checks = append(checks,
			twist(fmt.Sprintf("rectangle 1 × %g, J", ratio), solve, constant).from(ClosedForm, source).is(j, "m⁴", 5e-4*j, reason),
			twist(fmt.Sprintf("rectangle 1 × %g, shear in the long side", ratio), solve, longSide(ratio)).
				from(ClosedForm, source).is(1/(k*ratio), "1/m³", 2e-4/(k*ratio), edge),
			twist(fmt.Sprintf("rectangle 1 × %g, shear in the short side", ratio), solve, shortSide).
				from(ClosedForm, source).is(eta/(k*ratio), "1/m³", 2e-4/(k*ratio), edge))
	}
	return checks
}

// edgeAt is the stress at a point of the outline under a torque of 1.
func edgeAt(p section.Point) func(section.Shape, section.Torsion) (float64, error) {
	return func(_ section.Shape, t section.Torsion) (float64, error) {
		e, err := t.EdgeShear(p)
		return e.Stress, err
	}
}

// longSide and shortSide are the middles of the sides of a rectangle 1 × ratio.
func longSide(ratio float64) func(section.Shape, section.Torsion) (float64, error) {
	return edgeAt(section.Point{Y: 1, Z: ratio / 2})
}

func shortSide(s section.Shape, t section.Torsion) (float64, error) {
	return edgeAt(section.Point{Y: 0.5})(s, t)
}
