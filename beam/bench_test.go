package beam_test

import (
	"fmt"
	"testing"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// equalSpans is n spans of 30 m under 100 kN/m.
func equalSpans(n int) (beam.Layout, loads.Set) {
	length := 30 * float64(n)
	layout := plain(length)
	for i := range n + 1 {
		layout.Supports = append(layout.Supports, beam.Support{At: 30 * float64(i)})
	}
	return layout, loads.Set{Lines: []loads.Line{loads.Uniform(0, length, 100e3)}}
}

func BenchmarkTenSpansFromNewToExtremes(b *testing.B) {
	layout, set := equalSpans(10)
	b.ReportAllocs()
	for b.Loop() {
		prepared, err := beam.New(layout)
		if err != nil {
			b.Fatal(err)
		}
		r, err := prepared.Solve(set)
		if err != nil {
			b.Fatal(err)
		}
		if r.MomentRange().Most.Value <= 0 || r.ShearRange().Most.Value <= 0 || r.DeflectionRange().Least.Value >= 0 {
			b.Fatal("no extremes")
		}
	}
}

func BenchmarkFurtherLoadCase(b *testing.B) {
	layout, set := equalSpans(10)
	prepared, err := beam.New(layout)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := prepared.Solve(set); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkGrowth(b *testing.B) {
	for _, nodes := range []int{20, 200, 2000} {
		layout, set := equalSpans(nodes - 1)
		b.Run(fmt.Sprintf("%d nodes", nodes), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				prepared, err := beam.New(layout)
				if err != nil {
					b.Fatal(err)
				}
				if _, err := prepared.Solve(set); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// carrier is sixteen axles of 400 kN in two groups.
func carrier() loads.Train {
	train := loads.Train{Name: "carrier", Dynamic: 1.05}
	for i := range 16 {
		axle := loads.Axle{Force: 400e3, Behind: 1.5}
		switch i {
		case 0:
			axle.Behind = 0
		case 8:
			axle.Behind = 24
		}
		train.Axles = append(train.Axles, axle)
	}
	return train
}

func BenchmarkCarrierOverTenSpans(b *testing.B) {
	layout, _ := equalSpans(10)
	prepared, err := beam.New(layout)
	if err != nil {
		b.Fatal(err)
	}
	var places []float64
	for i := range 200 {
		places = append(places, layout.Length*float64(i)/199)
	}
	for name, bothWays := range map[string]bool{"one way": false, "both ways": true} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := prepared.Cross(beam.Crossing{Train: carrier(), BothWays: bothWays, Stations: places}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkTenPads(b *testing.B) {
	layout, set := equalSpans(9)
	for i := range layout.Supports {
		layout.Supports[i].Contact = true
		layout.Supports[i].Settlement = .02 * float64(i%3)
	}
	prepared, err := beam.New(layout)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := prepared.Solve(set); err != nil {
			b.Fatal(err)
		}
	}
}
