package beam_test

import (
	"fmt"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// A girder rests on two bearers in the yard and reaches 1.6 m beyond each.
func ExampleBeam_Solve() {
	girder, err := beam.New(beam.Layout{
		Length:    34,
		Stiffness: []beam.Stretch{{BendingStiffness: 3.1e11}},
		Supports:  []beam.Support{{At: 1.6}, {At: 32.4}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := girder.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, 34, 110e3)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, reaction := range r.Reactions {
		fmt.Printf("reaction at %4.1f m: %.0f kN\n", reaction.At, reaction.Force/1e3)
	}
	moments, sag := r.MomentRange(), r.DeflectionRange().Least
	fmt.Printf("sagging %.0f kN·m at %.1f m\n", moments.Most.Value/1e3, moments.Most.At)
	fmt.Printf("hogging %.0f kN·m at %.1f m\n", moments.Least.Value/1e3, moments.Least.At)
	fmt.Printf("deflection %.1f mm at %.1f m\n", sag.Value*1e3, sag.At)
	// Output:
	// reaction at  1.6 m: 1870 kN
	// reaction at 32.4 m: 1870 kN
	// sagging 12903 kN·m at 17.0 m
	// hogging -141 kN·m at 1.6 m
	// deflection -4.1 mm at 17.0 m
}

// A girder waits on three timber bearers; the one in the middle stands on fill
// that settles 4 mm.
func ExampleSupport_settlement() {
	const dunnage = 80e6 // N/m, timber bearers across the girder
	girder, err := beam.New(beam.Layout{
		Length:    26,
		Stiffness: []beam.Stretch{{BendingStiffness: 5.2e9}},
		Supports: []beam.Support{
			{At: 0.8, Stiffness: dunnage},
			{At: 13, Stiffness: dunnage, Settlement: 4e-3},
			{At: 25.2, Stiffness: dunnage},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := girder.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, 26, 24e3)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, reaction := range r.Reactions {
		fmt.Printf("%4.1f m: %.0f kN\n", reaction.At, reaction.Force/1e3)
	}
	fmt.Printf("moment over the middle bearer %.0f kN·m\n", r.Moment(13)/1e3)
	// Output:
	//  0.8 m: 175 kN
	// 13.0 m: 274 kN
	// 25.2 m: 175 kN
	// moment over the middle bearer 106 kN·m
}

// Heat on the deck bends a two-span beam; the middle support holds it down.
func ExampleBeam_Solve_temperature() {
	deck, err := beam.New(beam.Layout{
		Length:    60,
		Stiffness: []beam.Stretch{{BendingStiffness: 2e11}},
		Supports:  []beam.Support{{At: 0}, {At: 30}, {At: 60}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	const warmer, depth, expansion = 10.0, 2.0, 1e-5 // K over the depth, m, 1/K
	hogging := loads.Polynomial{-expansion * warmer / depth}
	r, err := deck.Solve(loads.Set{Curvatures: []loads.Curvature{{From: 0, To: 60, Value: hogging}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("restraint moment %.0f kN·m, middle reaction %.0f kN\n", r.Moment(30)/1e3, r.Reactions[1].Force/1e3)
	// Output:
	// restraint moment 15000 kN·m, middle reaction -1000 kN
}

// A carrier rolls over two finished spans that are made continuous: what do
// the spans and the pier between them receive, and where does it stand then?
func ExampleBeam_Cross() {
	spans, err := beam.New(beam.Layout{
		Length:    62,
		Stiffness: []beam.Stretch{{BendingStiffness: 3.1e11}},
		Supports:  []beam.Support{{At: 0}, {At: 34}, {At: 62}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	carrier := loads.Train{Name: "carrier", Dynamic: 1.05}
	for i := range 16 { // two bogies of eight axles
		axle := loads.Axle{Force: 360e3, Behind: 1.5}
		switch i {
		case 0:
			axle.Behind = 0
		case 8:
			axle.Behind = 22
		}
		carrier.Axles = append(carrier.Axles, axle)
	}
	e, err := spans.Cross(beam.Crossing{Train: carrier, BothWays: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	most, least, pier := e.BeamMoment.Most, e.BeamMoment.Least, e.Reactions[1].Most
	fmt.Printf("sagging %.0f kN·m at %.2f m, front axle at %.2f m\n", most.Value/1e3, most.At, most.Front)
	fmt.Printf("hogging %.0f kN·m at %.2f m, front axle at %.2f m\n", least.Value/1e3, least.At, least.Front)
	fmt.Printf("pier %.0f kN, front axle at %.2f m\n", pier.Value/1e3, pier.Front)
	// Output:
	// sagging 16641 kN·m at 14.28 m, front axle at 20.28 m
	// hogging -16602 kN·m at 34.00 m, front axle at 54.30 m
	// pier 3972 kN, front axle at 52.21 m
}

// What a force of 1 N does at mid-span of the first of two spans, where it
// stands worst.
func ExampleBeam_MomentInfluence() {
	spans, err := beam.New(beam.Layout{
		Length:    62,
		Stiffness: []beam.Stretch{{BendingStiffness: 3.1e11}},
		Supports:  []beam.Support{{At: 0}, {At: 34}, {At: 62}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	line, err := spans.MomentInfluence(17, beam.RightOf)
	if err != nil {
		fmt.Println(err)
		return
	}
	worst := line.Range()
	fmt.Printf("%+.3f N·m per N under a force at %.2f m\n", worst.Most.Value, worst.Most.At)
	fmt.Printf("%+.3f N·m per N under a force at %.2f m\n", worst.Least.Value, worst.Least.At)
	// Output:
	// +6.752 N·m per N under a force at 17.00 m
	// -1.217 N·m per N under a force at 45.83 m
}
