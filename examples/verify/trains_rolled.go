package main

import (
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// effect is one number of an envelope.
type effect struct {
	name, unit string
	read       func(beam.Envelope) float64
}

// The effects of recipes/trains.py in its order.
var (
	onSimple = []effect{
		{"moment", "kN·m", largestMoment},
		{"end shear", "kN", largestReaction},
	}
	onCantilever = []effect{
		{"moment at the clamp", "kN·m", func(e beam.Envelope) float64 { return e.BeamMoment.Least.Value }},
		{"shear", "kN", func(e beam.Envelope) float64 { return e.BeamShear.Most.Value }},
	}
	onTwoSpans = []effect{
		{"largest moment", "kN·m", largestMoment},
		{"minimum moment", "kN·m", func(e beam.Envelope) float64 { return e.BeamMoment.Least.Value }},
		{"largest shear", "kN", func(e beam.Envelope) float64 { return e.BeamShear.Most.Value }},
		{"minimum shear", "kN", func(e beam.Envelope) float64 { return e.BeamShear.Least.Value }},
		{"largest outer reaction", "kN", func(e beam.Envelope) float64 { return e.Reactions[0].Most.Value }},
		{"minimum outer reaction", "kN", func(e beam.Envelope) float64 { return e.Reactions[0].Least.Value }},
		{"middle reaction", "kN", func(e beam.Envelope) float64 { return e.Reactions[1].Most.Value }},
	}
)

// rolledTrains is invented trains (kN, m) in every position.
func rolledTrains() []Check {
	const source = "recipes/trains.py: influence lines, every position, numpy 1.24.2, scipy 1.10.1"
	two := train([]float64{120, 90}, []float64{3.2})
	three := train([]float64{60, 140, 140}, []float64{4.2, 5.6})
	twelve := train(append(slices.Repeat([]float64{95}, 6), slices.Repeat([]float64{110}, 6)...),
		[]float64{1.5, 1.5, 1.5, 1.5, 1.5, 9, 1.4, 1.4, 1.4, 1.4, 1.4})
	clamped := uniformBeam(7, beam.Support{At: 0, Fixed: true})
	twoSpans := uniformBeam(42, beam.Support{At: 0}, beam.Support{At: 18}, beam.Support{At: 42})
	var rows []Check
	for _, crossing := range []struct {
		name    string
		train   loads.Train
		over    beam.Layout
		effects []effect
		values  []float64
	}{
		{"two axles, simple span of 24 m", two, simpleSpan(24), onSimple, []float64{1120.11428571, 198}},
		{"two axles, simple span of 5 m", two, simpleSpan(5), onSimple, []float64{150, 152.4}},
		{"two axles, cantilever of 7 m", two, clamped, onCantilever, []float64{-1182, 210}},
		{"two axles, spans of 18 and 24 m", two, twoSpans, onTwoSpans, []float64{889.600021475, -543.552312401, 203.546666667, -199.136931217, 190.67978836, -30.197350689, 211.347759233}},
		{"three axles, simple span of 24 m", three, simpleSpan(24), onSimple, []float64{1530.67107843, 282.833333333}},
		{"three axles, simple span of 5 m", three, simpleSpan(5), onSimple, []float64{175, 149.6}},
		{"three axles, cantilever of 7 m", three, clamped, onCantilever, []float64{-1176, 280}},
		{"three axles, spans of 18 and 24 m", three, twoSpans, onTwoSpans, []float64{1183.90995911, -805.286860322, 302.066967593, -279.278312757, 250.422757202, -44.7381589068, 330.542888736}},
		{"twelve axles, simple span of 24 m", twelve, simpleSpan(24), onSimple, []float64{3282.49173565, 664.6875}},
		{"twelve axles, simple span of 5 m", twelve, simpleSpan(5), onSimple, []float64{258.5, 255.2}},
		{"twelve axles, cantilever of 7 m", twelve, clamped, onCantilever, []float64{-2310, 660}},
		{"twelve axles, spans of 18 and 24 m", twelve, twoSpans, onTwoSpans, []float64{2547.04045757, -2408.8834612, 730.3945235, -641.575944527, 506.662037037, -97.1388680299, 994.123804179}},
	} {
		for i, e := range crossing.effects {
			value := crossing.values[i]
			rows = append(rows, Check{
				Name: crossing.name + ": " + e.name, Package: "beam", Source: source, Kind: Library,
				Value: value, Unit: e.unit, Tolerance: same(value), Reason: "1e-9: the accuracy of the recipe",
				Ours: rolled(crossing.train, crossing.over, e.read),
			})
		}
	}
	return rows
}
