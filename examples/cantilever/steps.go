package main

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// Days of the project.
const (
	dayFirst   = 40.0  // first pair on P1
	daySecond  = 71.0  // first pair on P2
	dayShores  = 103.0 // parts on falsework carry their weight
	daySides   = 104.0 // closures of the side spans are cast
	dayMiddle  = 112.0 // closure of the main span is cast
	dayRelease = 118.0 // first pier is released
	dayEnd     = 3650.0
	everyDays  = 3.0
)

// frame is a lifting frame.
func frame(mark string) segmental.Frame {
	const manual = "invented manual of the lifting frame"
	return segmental.Frame{
		Mark: mark, Weight: 235 * unit.Kilo, CoG: 2.5, Front: 0.5, Rear: 5.5, Foot: 1.6 * unit.Mega, Document: manual,
		Anchors: &segmental.Anchors{Number: 4, Preload: 250 * unit.Kilo, Capacity: 500 * unit.Kilo, Document: manual},
	}
}

// pier has two rows of packs 3.2 m apart with vertical ties.
func pier(mark string, at float64) segmental.Pier {
	const document = "invented EL-BR-21, revision B"
	return segmental.Pier{Mark: mark, At: at, Rows: 3.2, Row: 25 * unit.Mega, Document: document,
		Ties: &segmental.Ties{Number: 12, Preload: 500 * unit.Kilo, Capacity: 900 * unit.Kilo, Document: document}}
}

// deck is the whole deck with its piers and lifting frames.
func deck() (d segmental.Deck, err error) {
	d = segmental.Deck{
		Mark: "Tidal channel", Rule: segmental.EN, Epoxy: segmental.EpoxyAASHTO, Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1},
		Loads:   segmental.ArmLoads{Width: 10, OneArm: 480, OtherArm: 240, Uplift: 240},
		Keys:    &segmental.Keys{Number: 24, Force: 60 * unit.Kilo, Friction: 0.3, Document: "invented EL-SE-11, revision A"},
		Frames:  []segmental.Frame{frame("LF1"), frame("LF2")},
		Piers:   []segmental.Pier{pier("P1", pier1), pier("P2", pier2)},
		Tendons: allTendons(), Closures: []segmental.ClosureWork{closing("C1", daySides), closing("C2", dayMiddle), closing("C3", daySides)},
	}
	d.Segments, err = whole()
	for k := 1; k <= pairs; k++ {
		d.Bars = append(d.Bars, temporary(k))
	}
	return d, err
}

// closing is a closure cast on a day: its lock, what may move the tips, its strength when tendons
// are stressed four days later. A tip bends about its fixed pier; the part on falsework is stiff.
func closing(mark string, cast float64) segmental.ClosureWork {
	w := segmental.ClosureWork{
		Closure: mark, Level: 0.01, Angle: 0.001, Surveyed: &segmental.Tips{Level: 0.004, Angle: 0.0003},
		Lock:        segmental.Lock{Force: 400 * unit.Kilo, Moment: 9e6, Tension: 3e6, Compression: 4e6, Document: "invented EL-SE-31, revision A"},
		Along:       segmental.Along{Stiffness: [2]float64{60e6, 60e6}, Wind: 100 * unit.Kilo, Shortening: 0.001},
		Temperature: segmental.Temperature{Colder: 6, Warmer: 6, WarmTop: 5, ColdTop: 3, Source: formula.Source{Document: "EN 1991-1-5:2003", Place: "6.1.4", Confirm: true}},
		Strength:    30 * unit.Mega, Stressed: cast + 4, Tensile: 2, Source: formula.Source{Document: "invented method statement EL-MS-14"},
	}
	switch mark {
	case "C1":
		w.Flexibility, w.Along.Stiffness[0] = &segmental.Flexibility{Level: 5e-8, Angle: 1.6e-10, Cross: -2.4e-9}, 20e6
		w.Surveyed.Level = -0.004 // the arm is on the right
	case "C3":
		w.Flexibility, w.Along.Stiffness[1] = &segmental.Flexibility{Level: 5e-8, Angle: 1.6e-10, Cross: 2.4e-9}, 20e6
	}
	return w
}

// jacking is that of all permanent tendons, for those named.
func jacking(marks ...string) *tendon.Jacking {
	return &tendon.Jacking{Tendons: marks, Stress: 1400 * unit.Mega, Ends: tendon.BothEnds, DrawIn: 6 * unit.Milli}
}

// numbered are marks with numbers from 1.
func numbered(name string, n int) (marks []string) {
	for k := 1; k <= n; k++ {
		marks = append(marks, fmt.Sprintf("%s%d", name, k))
	}
	return marks
}

// erected is a cantilever erected pair by pair: its moves one by one are those of another
// calculation.
func erected(name string, left, right byte, first float64) segmental.Step {
	step := segmental.Step{Name: name, Day: first}
	for k := 1; k <= pairs; k++ {
		l, r := fmt.Sprintf("%c%d", left, k), fmt.Sprintf("%c%d", right, k)
		step.Moves = append(step.Moves, segmental.Move{Do: segmental.Erect, Name: "erect " + l + ", " + r, Day: first + everyDays*float64(k-1), Segments: []string{l, r}, Jacking: jacking("T"+l+"L", "T"+l+"R")})
	}
	return step
}

// steps are those of the whole deck.
func steps() ([]segmental.Step, error) {
	after, err := release()
	return document(append([]segmental.Step{erected("P1", 'L', 'R', dayFirst), erected("P2", 'M', 'N', daySecond), sides(), middle()}, after...)), err
}

// fixed are piers while the deck is fixed on their packs.
func fixed(at ...float64) (list []stages.Support) {
	for _, x := range at {
		list = append(list, stages.Support{X: x, Z: -depth(0), Fixed: true, Role: stages.Pad, Stiffness: 1e11})
	}
	return list
}

// bearings are a pair of bearings across.
func bearings(x, z, y float64, holds stages.Holds) []stages.Support {
	one := stages.Support{X: x, Y: -y, Z: z, Role: stages.Bearing, Holds: holds, Stiffness: 2e9}
	other := one
	other.Y = y
	return []stages.Support{one, other}
}

// end is the length of the deck.
const end = pier1 + pier2

// abutments are the bearings at both ends.
func abutments() []stages.Support {
	return append(bearings(0.5, -depth(arm), 2, stages.HoldsAcross), bearings(end-0.5, -depth(arm), 2, stages.HoldsAcross)...)
}

// shores are two linked jacks on the falsework of the part cast in place at an abutment, beside
// its bearings.
func shores(group string, x float64) []stages.Support {
	one := stages.Support{X: x, Y: -2, Z: -depth(arm), Role: stages.Jack, Stiffness: 500 * unit.Mega}
	other := one
	other.Y = 2
	return stages.Equalised(group, one, other)
}

// held are linked jacks whose pressure is kept from the closing on.
func held(jacks []stages.Support) []stages.Support {
	list := slices.Clone(jacks)
	for i := range list {
		list[i].Held, list[i].Preload, list[i].Group, list[i].Stiffness = true, 465*unit.Kilo, "", 0
	}
	return list
}

// sides closes the side spans: parts on falsework, closures, half of the bottom tendons, falsework away.
func sides() segmental.Step {
	all, left, right := abutments(), shores("jacks of G1", 8.4), shores("jacks of G2", end-8.4)
	return segmental.Step{Name: "side spans", Day: dayShores, Moves: []segmental.Move{
		{Do: segmental.Place, Segments: []string{"G1"}, On: slices.Concat(all[:2], left)},
		{Do: segmental.Place, Segments: []string{"G2"}, On: slices.Concat(right, all[2:])},
		{Do: segmental.Pour, Segments: []string{"C1"}, Day: daySides}, {Do: segmental.Pour, Segments: []string{"C3"}, Day: daySides},
		{Do: segmental.Close, Segments: []string{"C1"}, Jacking: jacking("A1", "A2"), Day: daySides + 4, On: slices.Concat(all, held(left), right, fixed(pier1, pier2))},
		{Do: segmental.Close, Segments: []string{"C3"}, Jacking: jacking("B1", "B2"), Day: daySides + 4, On: slices.Concat(all, held(left), held(right), fixed(pier1, pier2))},
		{Do: segmental.Stress, Jacking: jacking("A3", "A4"), Day: daySides + 5}, {Do: segmental.Stress, Jacking: jacking("B3", "B4"), Day: daySides + 5},
		{Do: segmental.Support, Name: "falsework lowered", Day: daySides + 5, On: slices.Concat(all, fixed(pier1, pier2))},
	}}
}

// middle closes the main span.
func middle() segmental.Step {
	return segmental.Step{Name: "main span", Day: dayMiddle, Moves: []segmental.Move{
		{Do: segmental.Pour, Segments: []string{"C2"}}, {Do: segmental.Close, Segments: []string{"C2"}, Jacking: jacking(numbered("K", 4)...), Day: dayMiddle + 4}, {Do: segmental.Stress, Jacking: jacking("K5", "K6"), Day: dayMiddle + 5},
		{Do: segmental.Stress, Jacking: jacking("A5", "A6", "B5", "B6"), Day: dayMiddle + 5},
	}}
}

// parapets are those of precast concrete on both edges.
func parapets() stages.Action {
	const weight = 12 * unit.Kilo // of both, N/m
	return stages.Action{Mark: "parapets", Kind: limits.Imposed, Stays: true, Least: 0.95, Most: 1.05, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, end, weight)}}}
}

// release takes the fixing of the deck away, pier by pier, and creep follows.
func release() ([]segmental.Step, error) {
	on1 := bearings(pier1, -depth(0), 2, stages.HoldsBoth)
	on2 := bearings(pier2, -depth(0), 2, stages.HoldsAcross)
	waits, err := segmental.Waits(dayRelease+1, dayEnd, 5)
	return []segmental.Step{
		{Name: "release of the piers", Day: dayRelease, Moves: []segmental.Move{
			{Do: segmental.Wait, Name: "parapets placed", Actions: []stages.Action{parapets()}},
			{Do: segmental.Support, Name: "P1 on its bearings", On: slices.Concat(abutments(), on1, fixed(pier2))},
			{Do: segmental.Support, Name: "P2 on its bearings", Day: dayRelease + 1, On: slices.Concat(abutments(), on1, on2)},
		}},
		{Name: "creep", Day: dayRelease + 1, Moves: waits},
	}, err
}
