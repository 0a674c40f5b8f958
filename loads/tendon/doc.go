// Package tendon gives the force along a prestressing tendon from the jack to
// the end of its life, with every loss as a named part.
//
// A [Tendon] is strand or bar, number, duct, profile and approval data. Its [Path] is
// its line: elevation and plan from straight, parabolic, cubic and circular pieces,
// drawn piece by piece, as a polygon of [Tangents], [Smooth] or a [Spline] through
// points, checked for jumps and kinks, with the exact space angle and length. An
// external tendon is straight between its [Path.Deviators]; [Path.Mean] is the mean
// strain that a tendon without bond follows.
//
// Every force along a tendon is a [Force], however it came about, with the same methods
// ([Force.At], [Force.Range], [Force.Breaks], [Force.Largest], [Force.Derivation]):
// [Tendon.Jack] computes it after friction, wobble and draw-in, jacked from one end or
// from both, or takes it as [Given] by the designer; [Force.Restress] and
// [Force.Detension] are later events on it; [Pretension.Released] is that of strands
// stressed before casting, with their [Transmission]. [Force.Elongation] is for the
// stressing record, [Force.Deviations], [Force.Radial], [Force.Anchors] and
// [AnchorZone] are the forces on the concrete.
//
// With time: [Period] is EN 1992-1-1 (5.46) for any number of lasting stresses, at
// every section of a tendon; [Sustained] is one section under one stress, by (5.46) or
// step by step; [Relaxation] is that of the steel alone. [Losses] has the parts by
// name.
//
// An aid: a licensed engineer must confirm every result.
//
// # Conventions
//
// x, y, z and lengths in m, angles in rad, stresses in Pa, forces in N (tension +),
// losses as magnitudes. A tendon is placed by coordinates, never by an eccentricity.
// Friction is in the form of EN 1992-1-1:2004 (5.45), exp(−μ(θ + k·s)): k is an angle
// per metre (rad/m) and is multiplied by μ. [Law] converts values given as K per metre
// or per foot with μ already in them. s is the length along the tendon, a little more
// than its length in plan.
//
// # Neglected
//
// The elastic loss by tendons stressed later needs the concrete's stress and is made by
// the caller with [ModularRatio] or [ElasticLoss]. Friction in jack and anchor, and
// losses between two operations, are not in a [Force]. Spalling and the zone covered by
// the approval of the post-tensioning system are not in [Bursting].
package tendon
