package main

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// hungSpan is a span of EI deck under a weight, on bearings at its ends and 12
// hangers between from a gantry over the same span, which the weight alone would
// deflect by span/limit.
type hungSpan struct {
	span, deck, weight, limit float64
}

// gantry is EI of a gantry that deflects by span/limit, w L³·limit·5/384.
func (h hungSpan) gantry() float64 { return 5 * h.weight * h.span * h.span * h.span * h.limit / 384 }

// share is the part of the weight between two hangers, away from the ends, that
// leaves a hanger when a parabolic prestress balances all the weight of the deck.
func (h hungSpan) share() (float64, error) {
	up := r3.Vec{Z: 1}
	l := beam.SpaceLayout{
		Length: h.span,
		Section: func(float64) beam.CrossSection {
			return beam.CrossSection{BendingY: h.deck, BendingZ: h.deck, Torsional: h.deck}
		},
		Supports: []beam.Restraint{{Direction: up}, {X: h.span, Direction: up}},
		Links: []beam.Link{{Name: "gantry", Layout: beam.Layout{
			Length: h.span, Stiffness: []beam.Stretch{{BendingStiffness: h.gantry()}}, Supports: []beam.Support{{}, {At: h.span}},
		}}},
	}
	for i := range 12 {
		l.Supports = append(l.Supports, beam.Restraint{X: h.span * float64(i+1) / 13, Direction: up, Link: "gantry"})
	}
	space, err := beam.NewSpace(l)
	if err != nil {
		return 0, err
	}
	r, err := space.Solve(beam.SpaceLoads{Strains: []beam.SpaceStrain{{To: h.span, At: func(x float64) beam.Strain {
		return beam.Strain{CurvatureY: -h.weight * x * (h.span - x) / 2 / h.deck}
	}}}}, beam.Setting{})
	if err != nil {
		return 0, err
	}
	return -r.Reactions()[7] / (h.weight * h.span / 13), nil
}

// gantries is spans suspended from an overhead gantry, in its first stressing.
func gantries() []Check {
	var rows []Check
	for _, g := range []struct {
		name string
		of   hungSpan
	}{
		{"40 m box, EI = 180 GN·m², 240 kN/m, gantry L/500", hungSpan{40, 180e9, 240e3, 500}},
		{"35 m U, EI = 36 GN·m², 95 kN/m, gantry L/250", hungSpan{35, 36e9, 95e3, 250}},
	} {
		value := 1 / (1 + g.of.deck/g.of.gantry())
		rows = append(rows, Check{
			Name: fmt.Sprintf("%s, 12 hangers: share of the balanced weight that leaves a middle hanger, 1/(1 + EId/EIg)", g.name), Package: "beam",
			Source: "two beams that bend alike share a load by their stiffness", Kind: ClosedForm, Value: value, Unit: "1", Tolerance: 1.9e-4 * value,
			Reason: "the end span disturbs the first hanger by 13.4 %, each next one by 0.268 of that: 0.134·0.268⁵ at the sixth", Ours: g.of.share,
		})
	}
	return rows
}
