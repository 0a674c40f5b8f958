package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// spans is equal spans of length 1 with w = 1 on the marked ones.
func spans(marked ...bool) (beam.Layout, loads.Set) {
	supports := []beam.Support{{At: 0}}
	var set loads.Set
	for i, loaded := range marked {
		x := float64(i)
		supports = append(supports, beam.Support{At: x + 1})
		if loaded {
			set.Lines = append(set.Lines, loads.Uniform(x, x+1, 1))
		}
	}
	return uniformBeam(float64(len(marked)), supports...), set
}

// spanMoment is the largest sagging moment in span i, counted from 0.
func spanMoment(i int) reading {
	return func(r *beam.Response) float64 { return spanPeak(r, i).Value }
}

// spanMomentAt is the place in span i of its largest sagging moment.
func spanMomentAt(i int) reading {
	return func(r *beam.Response) float64 { return spanPeak(r, i).At - float64(i) }
}

func spanPeak(r *beam.Response, i int) beam.Extreme {
	var peak beam.Extreme
	for _, e := range r.MomentExtremes() {
		if e.At >= float64(i) && e.At <= float64(i+1) && e.Value > peak.Value {
			peak = e
		}
	}
	return peak
}

func shearRight(x float64) reading {
	return func(r *beam.Response) float64 { return r.At(x, beam.RightOf).Shear }
}

// inflection is how far into span i the moment changes sign, between two places
// given in the same way with one change between them.
func inflection(i int, from, to float64) reading {
	return func(r *beam.Response) float64 {
		at := func(x float64) float64 { return r.Moment(float64(i) + x) }
		from, to := from, to // of this solution alone
		if at(from)*at(to) >= 0 {
			return math.NaN()
		}
		for range 60 {
			middle := (from + to) / 2
			if at(from)*at(middle) <= 0 {
				to = middle
			} else {
				from = middle
			}
		}
		return (from + to) / 2
	}
}

// patternLoads is continuous beams of equal spans, all or some of them loaded.
func patternLoads() []Check {
	var rows []Check
	for _, p := range patterns {
		rows = append(rows, p.checks()...)
	}
	return append(rows, unequalSpans())
}

func (p pattern) checks() []Check {
	layout, set := spans(marks(p.loaded)...)
	var rows []Check
	add := func(value float64, unit string, read reading, what string, number int) {
		rows = append(rows, Check{
			Name: fmt.Sprintf("spans loaded %s: %s %d", p.loaded, what, number), Package: "beam",
			Source: "recipes/continuous.py: theorem of three moments (Clapeyron 1857) in fractions", Kind: ClosedForm,
			Value: value, Unit: unit, Tolerance: 1e-9 * max(value, -value, 1e-3), Reason: floatRounding, Ours: ours(layout, set, read),
		})
	}
	for i, value := range p.moments {
		add(value, "wL²", moment(float64(i+1)), "moment at support", i+2)
	}
	for i, value := range p.reactions {
		add(value, "wL", reaction(i), "reaction", i+1)
	}
	for i, value := range p.shears {
		add(value, "wL", shearRight(float64(i)), "shear right of support", i+1)
	}
	loaded := 0
	for i, mark := range marks(p.loaded) {
		if !mark || loaded == len(p.peaks) {
			continue
		}
		add(p.peaks[loaded], "wL²", spanMoment(i), "moment in span", i+1)
		add(p.places[loaded], "L", spanMomentAt(i), "place of the moment in span", i+1)
		for k, value := range p.inflections[loaded] {
			add(value, "L", inflection(i, value-0.02, value+0.02), []string{"first", "second"}[k]+" inflection point of span", i+1)
		}
		loaded++
	}
	return rows
}

// unequalSpans is two spans of different length.
func unequalSpans() Check {
	layout := uniformBeam(50, beam.Support{At: 0}, beam.Support{At: 20}, beam.Support{At: 50})
	return Check{
		Name: "spans of 20 and 30 m, w = 10 kN/m: −w(a³ + b³)/8(a + b) at the middle", Package: "beam",
		Source: "theorem of three moments (Clapeyron 1857)", Kind: ClosedForm,
		Value: -875, Unit: "kN·m", Tolerance: same(875), Reason: floatRounding,
		Ours: ours(layout, line(loads.Uniform(0, 50, 10)), moment(20)),
	}
}

func marks(pattern string) []bool {
	marked := make([]bool, len(pattern))
	for i := range pattern {
		marked[i] = pattern[i] == '1'
	}
	return marked
}
