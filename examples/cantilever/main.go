// Command cantilever builds one balanced cantilever of the tidal channel of the invented
// Estuary Link, the arms of 35 m of a span of 72 m, out of match-cast segments of varying
// depth: the first pairs by crane, the others by two lifting frames, each segment pressed by
// temporary bars while its epoxy cures, two tendons a pair from tip to tip.
//
// The record has, after each move, the governing joint, the pressure on the epoxy, what the
// pier receives in the worst combination and the ties that the wanted factor needs, and for
// the whole the match-cast curve with the target level of every joint at every step. The
// pier with its footing, the deck below the feet of the frames and the pressure of joints
// before bars and tendons have spread are left to documents: the status of the record is
// conditional. The closures and what creep does after them are not part of this example.
//
// Everything is invented. Exit status: 0 when every check passes, 1 when one fails or is
// conditional, 2 for wrong input.
//
// An aid: a licensed engineer must confirm every result.
package main

import (
	"os"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
	"github.com/tempstage/tempstage/stages/sheet"
)

func main() {
	built, err := calculate(pairs)
	os.Exit(sheet.Command(os.Args[1:], os.Stdout, os.Stderr, built.Record, err))
}

// frame is a lifting frame.
func frame(mark string) segmental.Frame {
	const manual = "invented manual of the lifting frame"
	return segmental.Frame{
		Mark: mark, Weight: 235 * unit.Kilo, CoG: 2.5, Front: 0.5, Rear: 5.5, Foot: 1.6 * unit.Mega, Document: manual,
		Anchors: &segmental.Anchors{Number: 4, Preload: 250 * unit.Kilo, Capacity: 500 * unit.Kilo, Document: manual},
	}
}

// deck is the cantilever on its pier: two rows of packs 3.2 m apart with vertical ties.
func deck() (d segmental.Deck, err error) {
	const document = "invented EL-BR-21, revision B"
	d = segmental.Deck{
		Mark: "P1", Rule: segmental.EN, Epoxy: segmental.EpoxyAASHTO, Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1},
		Loads:  segmental.ArmLoads{Width: 10, OneArm: 480, OtherArm: 240, Uplift: 240},
		Keys:   &segmental.Keys{Number: 24, Force: 60 * unit.Kilo, Friction: 0.3, Document: "invented EL-SE-11, revision A"},
		Frames: []segmental.Frame{frame("LF1"), frame("LF2")},
		Piers: []segmental.Pier{{Mark: "P1", At: arm, Rows: 3.2, Row: 25 * unit.Mega, Document: document,
			Ties: &segmental.Ties{Number: 12, Preload: 500 * unit.Kilo, Capacity: 900 * unit.Kilo, Document: document}}},
	}
	d.Segments, err = cantilever("P1", 'L', 'R')
	d.Tendons = topTendons('L', 'R')
	for k := 1; k <= pairs; k++ {
		d.Bars = append(d.Bars, temporary(k))
	}
	return d, err
}

// calculate builds a number of pairs.
func calculate(number int) (segmental.Built, error) {
	d, err := deck()
	if err != nil {
		return segmental.Built{}, err
	}
	usual := segmental.Usual{
		Pier: "P1", First: 40, Days: 3, Frames: [2]string{"LF1", "LF2"}, ByCrane: 2, KeepBars: 4,
		Jacking: tendon.Jacking{Stress: 1400 * unit.Mega, Ends: tendon.BothEnds, DrawIn: 6 * unit.Milli},
	}
	steps, err := usual.Steps(d)
	if err != nil {
		return segmental.Built{}, err
	}
	steps = steps[:number]
	for i := range steps {
		for k := range steps[i].Moves {
			steps[i].Moves[k].Covered = covered
		}
	}
	on := []stages.Support{{X: arm, Z: -depth(0), Fixed: true, Role: stages.Pad}}
	built, err := d.Build(on, limits.EN1992{}, nil, steps...)
	if err != nil {
		return built, err
	}
	curve, err := segmental.Casting{Rule: segmental.MatchCast}.Curve(d, built.Analysis, on, steps...)
	if err != nil {
		return built, err
	}
	return built, built.Record.Append(curve.Result())
}

// covered are what is shown elsewhere at every move.
var covered = []stages.Document{
	{Covers: limits.LocalForce, Number: "EL-SE-20", Revision: "A", Status: "approved for construction"},
	{Covers: limits.JointSpread, Number: "EL-SE-22", Revision: "A", Status: "approved for construction"},
}
