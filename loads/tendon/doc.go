// Package tendon gives the force along a prestressing tendon from the jack to
// the end of its life, with every loss as a named part.
//
// A [Tendon] is strand or bar, number, duct, profile and approval data. Its
// [Path] is where it runs: elevation and plan from straight, parabolic and
// circular pieces, drawn piece by piece, as a polygon of [Tangents] or [Smooth]
// through points, checked for jumps and kinks, with the exact space angle and
// length. [Tendon.Jack] gives the [Force] after friction, wobble and draw-in,
// jacked from one end or from both; [Force.Restress] and [Force.Detension] are
// later events on it, [Force.Elongation] is for the stressing record,
// [Force.Deviations], [Force.Radial], [Force.Anchors] and [AnchorZone] are what
// the concrete receives.
//
// With time: [Relaxation] and [Sustained], which gives creep, shrinkage and
// relaxation between two ages by EN 1992-1-1 (5.46) or step by step. [Losses]
// keeps the parts apart. [Pretension] and [Transmission] are for strands
// stressed before casting.
//
// # Conventions
//
// x, y, z and lengths in m, angles in rad, stresses in Pa, forces in N
// (tension +), losses as magnitudes. A tendon is placed by coordinates, never by
// an eccentricity. Friction is in the form of EN 1992-1-1:2004 (5.45), exp(−μ(θ
// + k·s)): k is an angle per metre (rad/m) and is multiplied by μ. Values given
// as K per metre or per foot with μ already in them are another convention:
// [Law] converts each. s is the length along the tendon, a little more than its
// length in plan.
//
// # Neglected
//
// The elastic loss by tendons stressed later needs the concrete's stress and is
// made by the caller with [ElasticLoss]. Friction in jack and anchorage, and the
// loss of force between two events, are not in a [Force]. Spalling and the zone
// that an anchorage's approval covers are not in [Bursting].
package tendon
