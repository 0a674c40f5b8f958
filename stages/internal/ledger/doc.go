// Package ledger is the numbers of the entries that change the stress of an element:
// which factors are worst, where along a piece a stress is extreme.
//
// It has no text and knows no stage. A [Combination] is laid out once for a
// situation and a limit; at each station the entries are summed by cause, and
// the worst factors are found from the sums without trying every corner:
//
//   - stress at a point, a reaction, a moment: [Combination.Extreme]
//   - principal tension and shear stress in a web: [Combination.PrincipalTension],
//     [Combination.Shear]
//   - the share of one support in the total: [Combination.Share]
//   - the largest value between the nodes of a piece: [Curve.Peak], and under
//     factors that change along the piece: [Envelope.Peak]
//
// A [Ledger] asks them of a girder: a [Demand] has the extreme stress of corners
// ([Demand.Extreme]), the worst wall ([Demand.WorstWall]) and the tension zone
// ([Demand.MostTension]). In an open section the stress is a plane and B·ω/Cw of
// warping torsion ([Plane]); where a section varies, the walls carry the forces of
// inclined slabs as well.
//
// An aid: a licensed engineer must confirm every result.
//
// # Conventions
//
// SI units; tension +. Factors are dimensionless. Nothing is allocated after
// [NewCombination] and the first use of a [Reach] or an [Envelope]. A Combination
// may be shared by goroutines, a Reach and an Envelope may not.
package ledger

import "errors"

// ErrLedger is wrapped by every error of this package.
var ErrLedger = errors.New("ledger")
