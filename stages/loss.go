package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/limits"
)

// Loss is the sudden loss of support i (a tie, a hanger; counted from 0 as in
// Reactions) as an [Action] of kind [limits.Accidental] at the place of the support: the
// larger magnitude of its Static range, reversed, times the factor; present or absent
// (Least and Most 0). A hanger leaves its Link at the same time, which springs back under the
// others. Neglected: horizontal forces of an inclined sling.
//
// The Action is for a situation whose Supports no longer have the support: there its
// force at rest is redistributed already, by statics or by stiffness, and the factor is
// the dynamic part above that. It is at most 1 on an elastic structure: a suddenly
// applied load without damping has twice the effect of the same load at rest. A bar
// stressed as a tendon is lost by an Event that releases it.
//
// The error wraps [ErrStage]: no such support, one that is fixed, or a factor that
// is not above 0 and at most 10.
func (e Effects) Loss(i int, factor float64) (Action, error) {
	switch {
	case i < 0 || i >= len(e.Reactions):
		return Action{}, fmt.Errorf("%w: loss of support %d: must be 0 to %d", ErrStage, i, len(e.Reactions)-1)
	case !(factor > 0 && factor <= 10):
		return Action{}, fmt.Errorf("%w: loss of support %d: factor = %g: must be above 0, at most 10", ErrStage, i, factor)
	}
	r := e.Reactions[i]
	is := func(s Support) bool { // across a curved girder places are rounded
		return math.Abs(s.X-r.X) < rankTolerance && math.Abs(s.Y-r.Y) < rankTolerance && math.Abs(s.Z-r.Z) < rankTolerance
	}
	if slices.ContainsFunc(e.Situation.Supports, func(s Support) bool { return s.Fixed && is(s) }) {
		return Action{}, fmt.Errorf("%w: loss of support %d at x = %g m: must be a support that is not fixed", ErrStage, i, r.X)
	}
	force := r.Static.Most
	if math.Abs(r.Static.Least) > math.Abs(force) {
		force = r.Static.Least
	}
	var link *beam.Link
	if at := slices.IndexFunc(e.Situation.Supports, func(s Support) bool { return s.Link != nil && is(s) }); at >= 0 {
		link = e.Situation.Supports[at].Link
	}
	return Action{
		Mark: fmt.Sprintf("loss of %s at x = %.2f m, y = %.2f m", r.Role, r.X, r.Y), Kind: limits.Accidental,
		Loads: loads.Set{Points: []loads.Point{{At: r.X, Force: factor * force}}}, Y: r.Y, Z: r.Z, Link: link,
	}, nil
}
