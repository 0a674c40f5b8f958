// Command cantilever builds the 46 + 72 + 46 m over the tidal channel of the invented Estuary
// Link as balanced cantilevers of match-cast segments of varying depth.
//
// Without a word it follows the cantilever on P1 move by move: the first pairs by crane, the
// others by two lifting frames, each segment pressed by temporary bars while its epoxy cures,
// two tendons a pair from tip to tip. The record has, after each move, the governing joint, the
// pressure on the epoxy, what the pier receives in the worst combination and the ties that the
// wanted factor needs, and for the whole the match-cast curve with the target level of every
// joint at every step.
//
// With the word deck it builds the whole deck: both cantilevers erected pair by pair, their moves
// left to the calculation of the one on P1; then the parts on falsework at the abutments, the
// closures with their locks, tendons in the webs and along the soffit, parapets, the release of
// both piers, and creep, with the casting curve and the moments by redistribution with a band.
//
// What documents cover (piers with their footings, the deck below the feet of the frames, anchors
// inside the deck, walls and joints near them, bearings, the moves elsewhere) leaves the status
// of the record conditional.
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
	args, calculate := os.Args[1:], func() (segmental.Built, error) { return pierOne(pairs) }
	if len(args) > 0 && args[0] == "deck" {
		args, calculate = args[1:], wholeDeck
	}
	built, err := calculate()
	os.Exit(sheet.Command(args, os.Stdout, os.Stderr, built.Record, err))
}

// covered are what is shown elsewhere.
var covered = []stages.Document{
	{Covers: limits.LocalForce, Number: "EL-SE-20", Revision: "A", Status: "approved for construction"},
	{Covers: limits.JointSpread, Number: "EL-SE-22", Revision: "A", Status: "approved for construction"},
	{Covers: limits.WallSpread, Number: "EL-SE-22", Revision: "A", Status: "approved for construction"},
	{Covers: limits.Sliding, Number: "EL-BR-22", Revision: "A", Status: "approved for construction"},
	{Covers: limits.Elsewhere, Number: "EL-SE-24", Revision: "A", Status: "approved for construction"}, // the moves on P2, as those on P1
}

// pierOne builds a number of pairs of the cantilever on P1 move by move.
func pierOne(number int) (segmental.Built, error) {
	d, err := deck()
	if err != nil {
		return segmental.Built{}, err
	}
	d.Mark, d.Piers, d.Closures, d.Tendons = "P1", []segmental.Pier{pier("P1", arm)}, nil, topTendons('L', 'R')
	if d.Segments, err = cantilever("P1", 'L', 'R'); err != nil {
		return segmental.Built{}, err
	}
	list, err := segmental.Usual{Pier: "P1", First: dayFirst, Days: everyDays, Frames: [2]string{"LF1", "LF2"}, ByCrane: 2, KeepBars: 4, Jacking: *jacking()}.Steps(d)
	if err != nil {
		return segmental.Built{}, err
	}
	return build(d, fixed(arm), document(list[:number]))
}

// wholeDeck builds both cantilevers, closes and releases them.
func wholeDeck() (segmental.Built, error) {
	d, err := deck()
	if err != nil {
		return segmental.Built{}, err
	}
	list, err := steps()
	if err != nil {
		return segmental.Built{}, err
	}
	on := fixed(pier1, pier2)
	built, err := build(d, on, list)
	if err != nil {
		return built, err
	}
	band, err := creep(d, on, list)
	if err != nil {
		return built, err
	}
	return built, built.Record.Append(band)
}

// build is a deck with its casting curve.
func build(d segmental.Deck, on []stages.Support, list []segmental.Step) (segmental.Built, error) {
	built, err := d.Build(on, limits.EN1992{}, list...)
	if err != nil {
		return built, err
	}
	curve, err := segmental.Casting{Rule: segmental.MatchCast}.Curve(d, built.Analysis, on, list...)
	if err != nil {
		return built, err
	}
	return built, built.Record.Append(curve.Result())
}

// creep are the moments of the deck with less and with more creep.
func creep(d segmental.Deck, on []stages.Support, list []segmental.Step) (stages.ResultPart, error) {
	band := segmental.CreepBand{Places: []float64{pier1 - half, pier1 + half, (pier1 + pier2) / 2, pier2 - half, pier2 + half}}
	moments, err := band.Moments(d, on, limits.EN1992{}, list...)
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
