package main

import (
	"fmt"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// trains is every check on loads that roll over a beam.
func trains() []Check {
	rows := highwayTruck()
	rows = append(rows, tandem()...)
	return append(rows, textbookTrains()...)
}

// train has the given forces, front first, and the spacings between them.
func train(forces, spacings []float64) loads.Train {
	t := loads.Train{Name: "train"}
	for i, f := range forces {
		axle := loads.Axle{Force: f}
		if i > 0 {
			axle.Behind = spacings[i-1]
		}
		t.Axles = append(t.Axles, axle)
	}
	return t
}

// rolled reads one number from the crossing of a simple span, both ways round.
func rolled(t loads.Train, span float64, stations []float64, read func(beam.Envelope) float64) func() (float64, error) {
	return func() (float64, error) {
		b, err := beam.New(uniformBeam(span, beam.Support{At: 0}, beam.Support{At: span}))
		if err != nil {
			return 0, err
		}
		e, err := b.Cross(beam.Crossing{Train: t, BothWays: true, Stations: stations})
		if err != nil {
			return 0, err
		}
		return read(e), nil
	}
}

func largestMoment(e beam.Envelope) float64 { return e.BeamMoment.Most.Value }

func largestMomentAt(e beam.Envelope) float64 { return e.BeamMoment.Most.At }

func largestReaction(e beam.Envelope) float64 {
	return max(e.Reactions[0].Most.Value, e.Reactions[1].Most.Value)
}

// highwayTruck is the HS20-44 truck, 8-32-32 kip at 14 ft.
func highwayTruck() []Check {
	const aashto = "AASHTO Standard Specifications for Highway Bridges, Appendix A, HS20-44"
	truck := train([]float64{8, 32, 32}, []float64{14, 14})
	var rows []Check
	for _, v := range []struct{ span, moment, shear float64 }{
		{20, 160.0, 41.6}, {40, 449.8, 55.2}, {50, 627.9, 58.5}, {60, 806.5, 60.8}, {70, 985.6, 62.4},
		{80, 1164.9, 63.6}, {100, 1524.0, 65.3}, {110, 1703.6, 65.9}, {120, 1883.3, 66.4},
	} {
		row := func(what, unit string, value, tolerance float64, reason string, read func(beam.Envelope) float64) {
			rows = append(rows, Check{
				Name: fmt.Sprintf("HS20 truck, simple span of %.0f ft: %s", v.span, what), Package: "beam", Source: aashto, Kind: Recalled,
				Value: value, Unit: unit, Tolerance: tolerance, Reason: reason, Ours: rolled(truck, v.span, nil, read),
			})
		}
		// Three of the recalled values miss the exact one in their last digit.
		const unit = "one unit of the last printed digit: recalled as 627.9, 58.5 and 1524.0, exactly 627.84, 58.56 and 1523.92"
		halfMoment, momentReason, halfShear, shearReason := .05, printRounding, .05, printRounding
		if v.span == 50 || v.span == 100 {
			halfMoment, momentReason = .1, unit
		}
		if v.span == 50 {
			halfShear, shearReason = .1, unit
		}
		row("moment", "kip·ft", v.moment, halfMoment, momentReason, largestMoment)
		row("end shear", "kip", v.shear, halfShear, shearReason, largestReaction)
	}
	return rows
}

// tandem is two axles of 25 kip at 4 ft, by its closed form: the resultant and
// the nearer axle stand as far from the middle on either side.
func tandem() []Check {
	axles := train([]float64{25, 25}, []float64{4})
	var rows []Check
	for _, span := range []float64{20, 40, 100} {
		moment := 50 / span * (span/2 - 1) * (span/2 - 1)
		shear := 25 + 25*(span-4)/span
		rows = append(rows, Check{
			Name: fmt.Sprintf("tandem, simple span of %.0f ft: 2P(L/2 − a/4)²/L", span), Package: "beam", Source: statics, Kind: ClosedForm,
			Value: moment, Unit: "kip·ft", Tolerance: same(moment), Reason: floatRounding, Ours: rolled(axles, span, nil, largestMoment),
		}, Check{
			Name: fmt.Sprintf("tandem, simple span of %.0f ft: P + P(L − a)/L", span), Package: "beam", Source: statics, Kind: ClosedForm,
			Value: shear, Unit: "kip", Tolerance: same(shear), Reason: floatRounding, Ours: rolled(axles, span, nil, largestReaction),
		})
	}
	return rows
}

// textbookTrains is worked examples of two and three axles.
func textbookTrains() []Check {
	const hibbeler = "Hibbeler, Structural Analysis, absolute maximum moment of three loads on a 30 ft beam"
	const lecture = "lecture summary on moving loads: 40 and 20 kN at 4 m on a simple span of 20 m (secondary source)"
	const board = "ceboardexamgenerator.com, two wheels on a simple span (secondary source)"
	const kassimali = "statics; loads of Kassimali, Structural Analysis, P9.22 (printed answer not read)"
	three := train([]float64{2, 1.5, 1}, []float64{10, 5})
	two := train([]float64{40, 20}, []float64{4})
	wheels := train([]float64{50, 30}, []float64{2.5})
	short := train([]float64{7.8, 5.2}, []float64{2.8})
	graded := train([]float64{125, 100, 50}, []float64{2, 3})
	seven := []float64{7}
	row := func(name, source string, kind Kind, value, tolerance float64, unit, reason string, ours func() (float64, error)) Check {
		return Check{Name: name, Package: "beam", Source: source, Kind: kind, Value: value, Unit: unit,
			Tolerance: tolerance, Reason: reason, Ours: ours}
	}
	resultant := (40*0. + 20*4) / 60 // behind the 40 kN axle
	reach := 10 - resultant/2
	middle := 7.5 - (2-(100*2+50*5)/275.)/2 // of the 100 kN axle, from the end beyond the 50 kN axle
	heavy := 275*middle*middle/15 - 50*3
	return []Check{
		row("2, 1.5 and 1 kip at 10 and 5 ft, span 30 ft: moment", hibbeler, Recalled, 21.7, .05, "kip·ft", printRounding,
			rolled(three, 30, nil, largestMoment)),
		row("2, 1.5 and 1 kip at 10 and 5 ft, span 30 ft: moment, exactly 65/3", statics, ClosedForm, 65./3, same(65./3), "kip·ft", floatRounding,
			rolled(three, 30, nil, largestMoment)),
		row("40 and 20 kN at 4 m, span 20 m: moment at 7 m", lecture, Published, 245, same(245), "kN·m",
			"printed without rounding: float64 arithmetic", rolled(two, 20, seven, func(e beam.Envelope) float64 { return e.Moment[0].Most.Value })),
		row("40 and 20 kN at 4 m, span 20 m: most shear at 7 m", lecture, Published, 35, same(35), "kN",
			"printed without rounding: float64 arithmetic", rolled(two, 20, seven, func(e beam.Envelope) float64 { return e.Shear[0].Most.Value })),
		row("40 and 20 kN at 4 m, span 20 m: end shear", lecture, Published, 56, same(56), "kN",
			"printed without rounding: float64 arithmetic", rolled(two, 20, nil, largestReaction)),
		row("40 and 20 kN at 4 m, span 20 m: largest moment", lecture, Published, 261.4, .1, "kN·m",
			"the source rounds the place of the resultant to 1.33 m", rolled(two, 20, nil, largestMoment)),
		row("40 and 20 kN at 4 m, span 20 m: largest moment R(L/2 − e/2)²/L", statics, ClosedForm, 60*reach*reach/20, same(261), "kN·m",
			floatRounding, rolled(two, 20, nil, largestMoment)),
		row("50 and 30 kN at 2.5 m, span 12 m: moment", board+"; the page's text says 10 m, its formula and answer use 12 m", Published, 203.96, .005, "kN·m",
			printRounding, rolled(wheels, 12, nil, largestMoment)),
		row("7.8 and 5.2 kN at 2.8 m, span 4.3 m: one axle governs, PL/4", board, Published, 8.385, same(8.385), "kN·m",
			"printed as PL/4: float64 arithmetic", rolled(short, 4.3, nil, largestMoment)),
		row("7.8 and 5.2 kN at 2.8 m, span 4.3 m: place of the moment, L/2", statics, ClosedForm, 2.15, same(2.15), "m",
			floatRounding, rolled(short, 4.3, nil, largestMomentAt)),
		row("125, 100 and 50 kN at 2 and 3 m, span 15 m: R(L/2 − e/2)²/L − 50·3", kassimali, ClosedForm, heavy, same(heavy), "kN·m",
			floatRounding, rolled(graded, 15, nil, largestMoment)),
	}
}
