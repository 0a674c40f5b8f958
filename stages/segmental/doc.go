// Package segmental erects spans of match-cast segments, on the engine and record of
// package stages. [EpoxyRule] is the pressure on epoxied joints while the epoxy cures.
//
// An aid: a licensed engineer must confirm every result.
package segmental
