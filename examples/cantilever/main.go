// Command cantilever builds the 46 + 72 + 46 m over the tidal channel of the invented Estuary
// Link as balanced cantilevers of match-cast segments of varying depth. The cantilever on P1
// is followed move by move: the first pairs by crane, the others by two lifting frames, each
// segment pressed by temporary bars while its epoxy cures, two tendons a pair from tip to tip.
// That on P2, its mirror image, is erected pair by pair; its moves are those of another
// calculation. Then come the parts on falsework at the abutments, the closures with their locks,
// tendons in the webs and along the soffit, the release of both piers, and creep.
//
// The record has, after each move, the governing joint, the pressure on the epoxy, what the
// pier receives in the worst combination and the ties that the wanted factor needs, and for
// the whole the match-cast curve with the target level of every joint at every step, and the
// moments by redistribution with a band of creep. What documents cover (the pier with its
// footing, the deck below the feet of the frames, anchors inside the deck, the walls and joints
// near them, bearings, the moves on P2) leaves the status of the record conditional.
//
// Everything is invented. Exit status: 0 when every check passes, 1 when one fails or is
// conditional, 2 for wrong input.
//
// An aid: a licensed engineer must confirm every result.
package main

import (
	"os"
	"slices"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
	"github.com/tempstage/tempstage/stages/sheet"
)

func main() {
	built, err := calculate(pairs)
	os.Exit(sheet.Command(os.Args[1:], os.Stdout, os.Stderr, built.Record, err))
}

// covered are what is shown elsewhere.
var covered = []stages.Document{
	{Covers: limits.LocalForce, Number: "EL-SE-20", Revision: "A", Status: "approved for construction"},
	{Covers: limits.JointSpread, Number: "EL-SE-22", Revision: "A", Status: "approved for construction"},
	{Covers: limits.WallSpread, Number: "EL-SE-22", Revision: "A", Status: "approved for construction"},
	{Covers: limits.Sliding, Number: "EL-BR-22", Revision: "A", Status: "approved for construction"},
	{Covers: limits.Elsewhere, Number: "EL-SE-24", Revision: "A", Status: "approved for construction"}, // the moves on P2, as those on P1
}

// calculate builds the deck, of the cantilever on P1 a number of pairs move by move.
func calculate(number int) (segmental.Built, error) {
	d, err := deck()
	if err != nil {
		return segmental.Built{}, err
	}
	steps, err := steps(d, number)
	if err != nil {
		return segmental.Built{}, err
	}
	on := fixed(pier1, pier2)
	built, err := d.Build(on, limits.EN1992{}, nil, steps...)
	if err != nil {
		return built, err
	}
	curve, err := segmental.Casting{Rule: segmental.MatchCast}.Curve(d, built.Analysis, on, steps...)
	if err != nil {
		return built, err
	}
	band, err := creep(d, on)
	if err != nil {
		return built, err
	}
	return built, built.Record.Append(curve.Result(), band)
}

// creep are the moments of the deck with less and with more creep, both cantilevers erected pair
// by pair.
func creep(d segmental.Deck, on []stages.Support) (stages.ResultPart, error) {
	steps, err := steps(d, 0)
	if err != nil {
		return stages.ResultPart{}, err
	}
	band := segmental.CreepBand{Places: []float64{pier1 - half, pier1 + half, (pier1 + pier2) / 2, pier2 - half, pier2 + half}}
	moments, err := band.Moments(d, on, limits.EN1992{}, steps...)
	if err != nil {
		return stages.ResultPart{}, err
	}
	table, err := band.Table(moments)
	return stages.ResultPart{Title: "Redistribution by creep", Tables: []stages.ValueTable{table}}, err
}

// document puts the documents to every move.
func document(steps []segmental.Step) []segmental.Step {
	for i := range steps {
		for k := range steps[i].Moves {
			steps[i].Moves[k].Covered = slices.Clone(covered)
		}
	}
	return steps
}
