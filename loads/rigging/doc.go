// Package rigging is what is between a load and the ground: lifting anchors, slings,
// spreaders, cranes and their charts, outriggers, tracks, mats.
//
// An aid: a licensed engineer must confirm every result; the crane maker's manual, the chart
// and the appointed lifting team govern. [Sling.Solve] gives the forces in the legs
// under a hook, [Spreader.Solve] what a spreader beam gets, [Tandem.Solve] the shares
// of two cranes, [EndLift.Solve] those of a hook and of the bunk below the other end,
// [Pick.Solve] the use of a chart, [Outriggers.At] the forces under a crane at any slew
// angle, [Tracks.At] the ground pressure under one on tracks, [Mat.Solve] that below a
// support, [Anchors.Solve] the use of lifting anchors. Each has Lines, which derive its
// answer to be followed by hand.
//
//	share, err := rigging.Tandem{Weight: 1.05e6, First: 1.5, Second: 35.5, CoG: 18.4, ...}.Solve()
//	use, err := rigging.Pick{Chart: chart, Radius: 14, Load: share.First.Static.Most, ...}.Solve()
//
// # Conventions
//
// SI units; x along the load, y to the left looking along +x, z up. Forces of slings,
// hooks and supports are positive as they carry weight.
//
// # Neglected
//
// Stretch of slings, swing, inertia beyond a stated dynamic factor, deflection of the
// boom under load, bending of the carrier.
package rigging

import (
	"errors"
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// ErrRigging is wrapped by every error about rigging, cranes or ground that cannot be
// as described.
var ErrRigging = errors.New("rigging")

// Range is a minimum and a maximum.
type Range struct{ Least, Most float64 }

// bound is a field with the values it may have.
type bound struct {
	field       string
	value       float64
	unit        string
	least, most float64
}

// within reports the first field that is out of its bounds or not a number.
func within(of string, bounds ...bound) error {
	for _, b := range bounds {
		if !(b.value >= b.least && b.value <= b.most) {
			return fmt.Errorf("%w: %s", ErrRigging, formula.OutOfRange(of+"."+b.field, b.value, b.unit, "", b.least, b.most))
		}
	}
	return nil
}
