package stages_test

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// plain is an element of one outline without tendons, of an invented line.
func plain(mark string, length float64, shape section.Shape) stages.Element {
	return stages.Element{
		Mark: mark, Length: length, Section: shape, WeightTolerance: loads.PlusMinus(0.03),
		Concrete: concrete.EN1992{Fck: 50 * unit.Mega, Cement: concrete.ClassR},
	}
}

// A box on four elastic pads, one 5 mm out of the plane of the other three: what
// each pad may receive, and the share of the measured total to read.
func ExampleElastic() {
	shape, _ := section.Box{
		Depth: 2.3, TopWidth: 9, RootWidth: 4.9, BottomWidth: 4.3, TopSlab: 0.2, BottomSlab: 0.2, WebThickness: 0.34, CantileverRoot: 0.35, CantileverTip: 0.16,
	}.Shape()
	plan := stages.Plan{stages.Store{
		Age: 3, Until: 14, OutOfLevel: 0.005, On: stages.Elastic(80*unit.Mega, stages.Pads(1.9, 1.6, 32.4)...),
	}}
	analysis, err := plan.Analyse(plain("E-07", 34, shape), limits.EN1992{})
	if err != nil {
		fmt.Println(err)
		return
	}
	store, _ := analysis.Effects(1, 1)
	pad := store.Reactions[0]
	fmt.Printf("each pad %.0f kN, by level and weight %.0f to %.0f kN, %.1f to %.1f %% of the total\n",
		pad.Nominal/1e3, pad.Static.Least/1e3, pad.Static.Most/1e3, 100*pad.Share.Least, 100*pad.Share.Most)
	// Output: each pad 892 kN, by level and weight 774 to 1009 kN, 22.4 to 27.6 % of the total
}

// A half trough lifted by two cranes, two equalised slings to each hook, with tilt
// and wind both ways.
func ExampleSlings() {
	half, _ := section.HalfBeam{
		Depth: 1.9, TopWidth: 2.4, RootWidth: 1.9, BottomWidth: 1.5, TopInner: 1.2, BottomInner: 0, BottomSlab: 0.25, WebThickness: 0.3,
		CantileverRoot: 0.25, CantileverTip: 0.2,
	}.Shape()
	beam := plain("H-3", 26, half)
	mass, _ := beam.CentreOfGravity()
	pads := []stages.Support{{X: 2.5, Y: 0.7}, {X: 2.5, Y: 1.45}, {X: 23.5, Y: mass.Y}}
	on := func(x float64, crane string) []stages.Support {
		return stages.Slings(stages.Hook{X: x, Y: mass.Y, Z: 7},
			stages.Support{X: x, Y: mass.Y - 0.4, Z: 1.9, Group: crane}, stages.Support{X: x, Y: mass.Y + 0.4, Z: 1.9, Group: crane})
	}
	wind := loads.Set{Lines: []loads.Line{loads.Uniform(0, 26, 150)}}
	plan := stages.Plan{
		stages.Store{Age: 20, On: pads},
		stages.Lift{
			Name: "tandem lift", Age: 21, On: append(on(2.5, "crane A"), on(23.5, "crane B")...), Roll: 0.035, Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1},
			Actions: []stages.Action{{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.95, Least: -1, Most: 1, Loads: wind}},
		},
		stages.Seat{Age: 21, On: pads},
	}
	analysis, err := plan.Analyse(beam, limits.EN1992{})
	if err != nil {
		fmt.Println(err)
		return
	}
	lift, _ := analysis.Effects(2, 1)
	r := lift.Reactions[0]
	fmt.Printf("sling at crane A: %.1f to %.1f kN vertical, %.3f of it along the sling\n", r.Characteristic.Least/1e3, r.Characteristic.Most/1e3, r.Sling)
	// Output: sling at crane A: 125.4 to 204.3 kN vertical, 1.004 of it along the sling
}

// Five match-cast segments, epoxied, as one girder with two bars through all
// joints.
func ExampleEndToEnd() {
	shape, _ := section.Box{
		Depth: 2, TopWidth: 7, RootWidth: 4, BottomWidth: 3.6, TopSlab: 0.25, BottomSlab: 0.2, WebThickness: 0.3, CantileverRoot: 0.35, CantileverTip: 0.2,
	}.Shape()
	var segments []stages.Element
	for i := range 5 {
		segments = append(segments, plain(fmt.Sprint("S", i+1), 3, shape))
	}
	var bars []tendon.Tendon
	for i, z := range []float64{0.1, 0.1, 1.88, 1.88} {
		bars = append(bars, tendon.Tendon{
			Mark: fmt.Sprint("B", i+1), Strand: tendon.Y1050H265, Strands: 4, Duct: 0.07, Elevation: tendon.Level(0, 15, z), Plan: tendon.Level(0, 15, 1.2*float64(1-2*(i%2))),
			Friction: 0.2, Wobble: 0.005, Approval: tendon.Approval{Reference: "invented", MeanStrength: 25 * unit.Mega, AnchorSpacing: 0.2, EdgeDistance: 0.08},
		})
	}
	girder := stages.Girder{Mark: "G-3", Pieces: stages.EndToEnd(stages.Epoxied, segments...), Tendons: bars}
	plan := stages.Plan{stages.Transfer{
		Age: 20, On: append(stages.Equalised("rear", stages.Pads(1.5, 0.5)...), stages.Pads(1.5, 14.5)...),
		Jacking: []tendon.Jacking{{Tendons: []string{"B1", "B2", "B3", "B4"}, Stress: 700 * unit.Mega, Ends: tendon.LeftEnd}},
	}}
	analysis, err := plan.Analyse(girder, limits.EN1992{})
	if err != nil {
		fmt.Println(err)
		return
	}
	e, _ := analysis.Effects(1, 1)
	p := e.Stress(7.5)
	fmt.Printf("at mid-length: %.2f MPa at the top, %.2f MPa at the bottom\n", p.At(section.Point{Z: 2})/1e6, p.At(section.Point{})/1e6)
	// Output: at mid-length: -1.95 MPa at the top, -1.47 MPa at the bottom
}

// A finished span under a rolling carrier off its centre line: one more stage of
// that span's own plan.
func ExampleAction_train() {
	shape, _ := section.Box{
		Depth: 2.3, TopWidth: 9, RootWidth: 4.9, BottomWidth: 4.3, TopSlab: 0.2, BottomSlab: 0.2, WebThickness: 0.34, CantileverRoot: 0.35, CantileverTip: 0.16,
	}.Shape()
	carrier := loads.Train{Name: "carrier", Axles: []loads.Axle{{Force: 900 * unit.Kilo}, {Force: 900 * unit.Kilo, Behind: 4}, {Force: 700 * unit.Kilo, Behind: 20}}}
	bearings := stages.Equalised("left end", stages.Pads(1.9, 0.7)...)
	bearings = append(bearings, stages.Pads(1.9, 33.3)...)
	plan := stages.Plan{
		stages.Seat{Age: 28, On: bearings},
		stages.Seat{Name: "carrier passes", Age: 40, On: bearings, Actions: []stages.Action{{Mark: "carrier", Kind: stages.Equipment, Train: &carrier, Y: 0.3}}},
	}
	analysis, err := plan.Analyse(plain("E-05", 34, shape), limits.EN1992{})
	if err != nil {
		fmt.Println(err)
		return
	}
	passes, _ := analysis.Effects(2, 1)
	for _, r := range passes.Reactions[2:] {
		fmt.Printf("bearing at y = %+.1f m: %.0f kN at rest, up to %.0f kN\n", r.Y, r.Nominal/1e3, r.Characteristic.Most/1e3)
	}
	// Output:
	// bearing at y = -1.9 m: 892 kN at rest, up to 1685 kN
	// bearing at y = +1.9 m: 892 kN at rest, up to 2080 kN
}
