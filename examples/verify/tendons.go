package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// tendons is every check of the force along a tendon.
func tendons() []Check {
	rows := friction()
	rows = append(rows, conventions()...)
	rows = append(rows, drawIn()...)
	rows = append(rows, linearDrawIn()...)
	rows = append(rows, elasticShortening()...)
	rows = append(rows, relaxation()...)
	rows = append(rows, holdDown())
	return append(rows, anchorZones()...)
}

// times is a multiple of a value.
func times(factor float64, value func() (float64, error)) func() (float64, error) {
	return func() (float64, error) {
		v, err := value()
		return factor * v, err
	}
}

// frictionLoss is what friction takes from a stress or a force.
func frictionLoss(jack, mu, angle, wobble, length float64) func() (float64, error) {
	return func() (float64, error) {
		left, err := tendon.FrictionFactor(mu, angle, wobble, length)
		return jack * (1 - left), err
	}
}

// friction is the stress lost over an angle and a length: a parabola turns by
// 8·sag/length over its span.
func friction() []Check {
	const source = "EN 1992-1-1:2004, (5.45): σ(1 − exp(−μ(θ + k·x)))"
	var rows []Check
	for _, x := range []float64{5, 11, 22, 44} {
		value := 1395 * -math.Expm1(-0.19*(0.007*x+0.006*x))
		rows = append(rows, asked(fmt.Sprintf("friction loss at x = %g m of 1395 MPa, μ 0.19, k 0.006/m, θ = 0.007x", x),
			frictionLoss(1395, 0.19, 0.007*x, 0.006, x)).from(ClosedForm, source).is(value, "MPa", same(value), floatRounding))
	}
	for _, half := range []float64{1, 2} {
		value := 8000 * -math.Expm1(-0.2*(half*4*0.9/32+0.008*half*16))
		rows = append(rows, asked(fmt.Sprintf("parabola of 32 m, sag 0.9 m, μ 0.20, k 0.008/m, 8000 kN: friction loss at %g m", 16*half),
			frictionLoss(8000, 0.2, half*4*0.9/32, 0.008, half*16)).from(ClosedForm, source).is(value, "kN", same(value), floatRounding))
	}
	return rows
}

// elasticShortening is what the later tendons take from the earlier ones.
func elasticShortening() []Check {
	const clause = "EN 1992-1-1:2004, (5.44): (n − 1)/(2n)"
	var rows []Check
	for _, c := range []struct {
		n      int
		factor float64
	}{{1, 0}, {2, 0.25}, {4, 0.375}, {5, 0.4}, {10, 0.45}} {
		rows = append(rows, asked(fmt.Sprintf("%d equal tendons one after another: mean part of the elastic loss", c.n),
			func() (float64, error) { return tendon.MeanElasticLoss(c.n, 1, 1, 1) }).
			from(ClosedForm, clause).is(c.factor, "1", 1e-15, floatRounding))
	}
	rows = append(rows, inTurn("four tendons, m = 6.5, Δσ = 2.4 MPa each", 6.5, 2.4, 3, 2, 1, 0)...)
	rows = append(rows, inTurn("three tendons, m = 5.8, Δσ = 3.1 MPa each", 5.8, 3.1, 2, 1, 0)...)
	const source = "equilibrium of a rectangle: m·(P/A + P·e²/I)"
	level := rectangleUnder{width: 0.4, depth: 0.9, force: 1.8e6, modularRatio: 6}
	low := rectangleUnder{width: 0.4, depth: 0.9, force: 1.8e6, eccentricity: 0.3, modularRatio: 6}
	concentric, eccentric := 6*1.8/0.36, 6*1.8*(1/0.36+0.09*12/(0.4*0.729))
	return append(rows,
		level.loss("0.4 × 0.9 m, 1.8 MN in the middle, m = 6: elastic loss", oneTendon).from(ClosedForm, source).
			is(concentric, "MPa", same(concentric), floatRounding),
		low.loss("0.4 × 0.9 m, 1.8 MN at e = 0.3 m, m = 6: elastic loss", oneTendon).from(ClosedForm, source).
			is(eccentric, "MPa", same(eccentric), floatRounding),
		level.with(0.0014).loss("0.4 × 0.9 m, 1.8 MN in the middle, 1400 mm² bonded, m = 6: loss on the transformed section", oneTendon).
			from(ClosedForm, "equilibrium: m·P/(A + (m − 1)·Ap)").is(6*1.8/(0.36+5*0.0014), "MPa", same(29), floatRounding),
		low.loss("0.4 × 0.9 m, four tendons at e = 0.3 m in turn, m = 6: mean loss", func(ratio, stress float64) (float64, error) {
			return tendon.MeanElasticLoss(4, ratio, 1, stress)
		}).from(ClosedForm, clause+"; "+source).is(0.375*eccentric, "MPa", same(eccentric), floatRounding),
	)
}

func oneTendon(ratio, stress float64) (float64, error) { return tendon.ElasticLoss(ratio, 1, stress) }

// inTurn is what each of some equal tendons loses by those after it.
func inTurn(name string, ratio, change float64, after ...float64) []Check {
	moduli, changes := make([]float64, len(after)), make([]float64, len(after))
	for i := range after {
		moduli[i], changes[i] = 1, change
	}
	var rows []Check
	for i, others := range after {
		value := ratio * change * others
		rows = append(rows, Check{Name: fmt.Sprintf("%s: loss of number %d", name, i+1), Package: "loads/tendon", Ours: func() (float64, error) {
			losses, err := tendon.ElasticLosses(ratio, moduli, changes)
			if err != nil {
				return 0, err
			}
			return losses[i], nil
		}}.from(ClosedForm, "every later tendon shortens the concrete by Δσ/Ec: m·Δσ for each").is(value, "MPa", 1e-9*ratio*change, floatRounding))
	}
	return rows
}

// rectangleUnder is a rectangle with a force at an eccentricity below its
// middle (m, N).
type rectangleUnder struct {
	width, depth, force, eccentricity, modularRatio float64
	steel                                           float64 // bonded in the middle; 0 for none
}

func (r rectangleUnder) with(steel float64) rectangleUnder {
	r.steel = steel
	return r
}

// loss is a row of what follows from the modular ratio and the compressive
// stress (MPa) in the concrete at the force.
func (r rectangleUnder) loss(name string, of func(ratio, stress float64) (float64, error)) Check {
	return asked(name, func() (float64, error) {
		s, err := outline(-r.width/2, -r.depth/2, r.width/2, -r.depth/2, r.width/2, r.depth/2, -r.width/2, r.depth/2)()
		if err != nil {
			return 0, err
		}
		p := s.Properties()
		if r.steel > 0 {
			if p, err = s.With(section.BondedSteel(section.Point{}, r.steel, r.modularRatio)); err != nil {
				return 0, err
			}
		}
		stress := p.Stress(section.Forces{N: -r.force, My: -r.force * r.eccentricity}, section.Point{Z: -r.eccentricity})
		return of(r.modularRatio, -stress/1e6)
	})
}
