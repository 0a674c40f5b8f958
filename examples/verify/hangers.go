package main

import (
	"fmt"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/segmental"
)

// hangers is every check on a span on hangers of an overhead gantry.
func hangers() []Check {
	var rows []Check
	for _, deck := range []struct {
		name                    string
		span, stiffness, weight float64   // m, N·m², N/m
		ratio                   float64   // EId/EIg at L/500
		shares                  []float64 // that leave the hangers with a gantry of L/500, L/350, L/250, %
	}{
		{"40 m box, I = 5 m⁴, 240 kN/m", 40, 36e9 * 5, 240e3, 1.80, []float64{36, 28, 22}},
		{"35 m U, I = 1 m⁴, 95 kN/m", 35, 36e9, 95e3, 1.36, []float64{42, 34, 27}},
	} {
		rows = append(rows, Check{
			Name: deck.name + ", 36 GPa, gantry L/500 under it: EId/EIg", Package: "stages/segmental", Source: "simple beam under a uniform load, 5·w·L⁴/384·EI", Kind: ClosedForm,
			Value: deck.ratio, Unit: "1", Tolerance: 0.005, Reason: "two decimals as printed",
			Ours: func() (float64, error) {
				gantry, err := segmental.GantryFor(deck.weight, deck.span, 1.0/500)
				return deck.stiffness / gantry, err
			},
		})
		for i, limit := range []float64{500, 350, 250} {
			rows = append(rows, Check{
				Name: fmt.Sprintf("%s, gantry L/%g: share of the weight that leaves the hangers when all of it is balanced", deck.name, limit), Package: "stages/segmental",
				Source: "two beams that bend alike share a load by their stiffness, β/(1 + EId/EIg)", Kind: ClosedForm, Value: deck.shares[i], Unit: "%", Tolerance: 0.5, Reason: "whole per cent as printed",
				Ours: func() (float64, error) {
					const sag = 1.0
					gantry, err := segmental.GantryFor(deck.weight, deck.span, 1/limit)
					if err != nil {
						return 0, err
					}
					profile := tendon.Tendon{Mark: "T", Strand: tendon.Y1860S7x157, Strands: 19, Duct: 0.1, NoFriction: true, Plan: tendon.Level(0, deck.span, 0), Approval: tendon.Approval{Reference: "none", MeanStrength: 30e6, AnchorSpacing: 0.4, EdgeDistance: 0.2},
						Elevation: tendon.Drape(tendon.Point{Ordinate: sag}, 1e-3, tendon.Point{X: deck.span / 2}, deck.span)}
					share, _, err := segmental.UniformTransfer{Span: deck.span, GantrySpan: deck.span, Weight: deck.weight, Deck: deck.stiffness, Gantry: gantry,
						Force: deck.weight * deck.span * deck.span / (8 * sag), Profile: profile, Axis: sag, Hangers: 12}.Share()
					return 100 * share, err
				},
			})
		}
	}
	return rows
}
