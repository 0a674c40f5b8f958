package segmental_test

import (
	"fmt"
	"log"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// The casting curve of a small cantilever: two segments of 3 m on each arm, creep until day
// 1000. What the cell sets is in the curve; the whole goes behind the stages of the record.
func ExampleCasting_Curve() {
	shape, err := section.New([]section.Outline{{{Y: -2, Z: -2}, {Y: 2, Z: -2}, {Y: 2}, {Y: -2}}}, nil)
	if err != nil {
		log.Fatal(err)
	}
	mix := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.6, DryingFrom: 3}}
	deck := segmental.Deck{Mark: "P1", Dynamic: loads.AtRest()}
	for _, mark := range []string{"L2", "L1", "P", "R1", "R2"} {
		s := segmental.Segment{Joint: stages.Poured, Element: stages.Element{Mark: mark, Length: 3, Section: shape, Concrete: mix, LongTerm: mix, WeightTolerance: loads.PlusMinus(0.02)}}
		if mark == "P" {
			s.Type = segmental.OnPier
		}
		deck.Segments = append(deck.Segments, s)
	}
	on := []stages.Support{{X: 7.5, Fixed: true, Role: stages.Pad}}
	attach := func(mark string) segmental.Move {
		return segmental.Move{Do: segmental.Attach, Segments: []string{mark}}
	}
	steps := []segmental.Step{
		{Name: "pair 1", Day: 40, Moves: []segmental.Move{attach("L1"), attach("R1")}},
		{Name: "pair 2", Day: 44, Moves: []segmental.Move{attach("L2"), attach("R2")}},
		{Name: "creep", Day: 44, Moves: []segmental.Move{{Do: segmental.Wait, Until: 1000}}},
	}
	girder, err := deck.Girder()
	if err != nil {
		log.Fatal(err)
	}
	plan, err := deck.Plan(on, steps...)
	if err != nil {
		log.Fatal(err)
	}
	analysis, err := plan.Analyse(girder, limits.EN1992{})
	if err != nil {
		log.Fatal(err)
	}
	curve, err := segmental.Casting{Rule: segmental.MatchCast}.Curve(deck, analysis, on, steps...)
	if err != nil {
		log.Fatal(err)
	}
	for _, j := range curve.Joints[3:] {
		fmt.Printf("%-14s camber %.2f mm (%.2f to %.2f)", j.Name, j.Camber*1e3, -j.Most*1e3, -j.Least*1e3)
		if j.Cast != "" {
			fmt.Printf(", %s turned up by %.3f mrad", j.Cast, j.Angle*1e3)
		}
		fmt.Println()
	}
	for _, s := range curve.Levels {
		tip := s.Joints[len(s.Joints)-1]
		fmt.Printf("after %s: %s at %+.2f mm\n", s.Name, tip.Name, tip.Level*1e3)
	}

	record, err := analysis.Record()
	if err != nil {
		log.Fatal(err)
	}
	if err := record.Append(curve.Result()); err != nil {
		log.Fatal(err)
	}
	fmt.Println(record.Results[0].Title)
	// Output:
	// P/R1           camber 0.10 mm (0.09 to 0.12), R1 turned up by 0.200 mrad
	// R1/R2          camber 0.70 mm (0.60 to 0.80), R2 turned up by 0.059 mrad
	// R2, right end  camber 1.48 mm (1.27 to 1.69)
	// after pair 1: attach R1, crane: R1/R2 at +0.60 mm
	// after pair 2: attach R2, crane: R2, right end at +0.65 mm
	// after creep: wait: R2, right end at +0.00 mm
	// Casting curve, match-cast
}
