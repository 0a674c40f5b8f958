package launching_test

import (
	"fmt"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/launching"
)

// A gantry of 84 m has its main leg on a pier and 30 m of it beyond: the simple factor
// against overturning over that leg, with its trolley near the nose and at the rear.
func ExampleGantry_Balances() {
	gantry := launching.Gantry{
		Mark: "LG-1", Length: 84, Tolerance: loads.PlusMinus(0.03),
		Weights: []launching.Weight{
			{Mark: "girder", Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 84, 36e3)}}},
			{Mark: "counterweight", Loads: loads.Set{Points: []loads.Point{{At: 1.5, Force: 400e3}}}, Counterweight: true},
		},
		Trolleys: []launching.Trolley{{Mark: "T1", Weight: 900e3, From: 1, To: 82}},
		Legs:     []launching.Leg{{Mark: "rear", Width: 5, Capacity: 4e6}, {Mark: "main", Width: 5, Capacity: 6e6}},
	}
	for _, trolley := range []float64{80, 12} {
		list, err := gantry.Balances(launching.Position{
			Name: "nose over the next pier", Stands: []launching.Stand{{Leg: "rear", X: 14, On: "P7"}, {Leg: "main", X: 54, On: "P8", Holds: true}},
			Trolleys: []launching.Placed{{At: trolley}},
		})
		if err != nil {
			fmt.Println(err)
			return
		}
		factor, _ := list[0].Simple()
		fmt.Printf("trolley %g m from the rear end: %.2f\n", trolley, factor)
	}
	// Output:
	// trolley 80 m from the rear end: 1.86
	// trolley 12 m from the rear end: 6.87
}

// A box on four hard packs, 31.5 m between them: how much the reactions change where one of
// them is out of the plane of the others, and what uses up 10 % of a reaction.
func ExampleFourPoints_Warp() {
	box := launching.FourPoints{Length: 31.5, Widths: [2]float64{4.5, 4.5}, Torsion: 235e9, Level: [4]float64{1.765e6, 1.765e6, 1.765e6, 1.765e6}}
	warp, err := box.Warp(2)
	if err != nil {
		fmt.Println(err)
		return
	}
	permissible, _, err := box.Permissible(0.10)
	fmt.Printf("%.0f kN per mm, 10 %% at %.2f mm, lift-off at %.1f mm %v\n", warp.PerMetre/1e6, 1e3*permissible[1], 1e3*warp.LiftOff, err)
	// Output: 368 kN per mm, 10 % at 0.48 mm, lift-off at 4.8 mm <nil>
}

// A pier head with one span of 970 t only on its side, on bearings 0.75 m behind its middle.
func ExamplePierHead_Resultants() {
	head := launching.PierHead{Mark: "P8", Forces: []launching.HeadForce{{Mark: "span E-07", X: -0.75, Down: launching.Range{Least: 4.758e6, Most: 4.758e6}}}}
	r, err := head.Resultants()
	fmt.Printf("%.1f kN·m back, %s governs %v\n", -r.MomentAlong.Least.MomentAlong/1e3, r.MomentAlong.Least.Governs, err)
	// Output: 3568.5 kN·m back, span E-07 governs <nil>
}

// The same box on hard packs, on elastomer, and with its second pair on one pump: how far one
// support may be out of the plane of the others until 5 % of a reaction is used up, when one
// lifts off, and the torque that 5 % put into the box.
func ExampleFourPoints_Compare() {
	box := launching.FourPoints{Length: 31.5, Widths: [2]float64{4.5, 4.5}, Torsion: 235e9, Level: [4]float64{1.8e6, 1.7e6, 1.8e6, 1.7e6}}
	list, err := box.Compare(0.05, launching.Bedding{Name: "hard packs"}, launching.Bedding{Name: "elastomer", Stiffness: 100e6}, launching.Bedding{Name: "one pump", Equalised: 2})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range list {
		if !b.Levels {
			fmt.Printf("%s: levels change nothing, the first pair has %.0f and %.0f kN\n", b.Name, b.Forces[0]/1e3, b.Forces[1]/1e3)
			continue
		}
		fmt.Printf("%s: %.0f kN and %.0f kN·m per mm, 5 %% at %.2f mm with %.1f kN·m, lift-off at %.1f mm\n", b.Name, b.PerMetre/1e6, b.Torque/1e6, 1e3*b.Permissible, b.AtPart/1e3, 1e3*b.LiftOff)
	}
	// Output:
	// hard packs: 368 kN and 1658 kN·m per mm, 5 % at 0.23 mm with 382.5 kN·m, lift-off at 4.6 mm
	// elastomer: 23 kN and 105 kN·m per mm, 5 % at 3.63 mm with 382.5 kN·m, lift-off at 72.6 mm
	// one pump: levels change nothing, the first pair has 1850 and 1650 kN
}
