// Package tendon gives the force along a post-tensioning tendon when it has
// been jacked and locked off.
//
// A [Tendon] is strand, number of strands, duct, profile and approval data. Its
// [Path] is where it runs: elevation and plan from straight and parabolic
// pieces, checked for jumps and kinks, with the exact space angle and length.
// [Tendon.Jack] gives the [Force] after friction, wobble and draw-in, jacked
// from one end or from both.
//
// # Conventions
//
// x, y, z and lengths in m, angles in rad, stresses in Pa, forces in N
// (tension +). A tendon is placed by coordinates, never by an eccentricity.
// Friction is in the form of EN 1992-1-1:2004 (5.45), exp(−μ(θ + k·s)): k is an
// angle per metre (rad/m) and is multiplied by μ. Values given as K per metre
// or per foot with μ already in them are another convention and must be
// converted first.
//
// # Neglected
//
// Relaxation, creep and shrinkage are not included. The elastic loss by tendons
// stressed later needs the concrete's stress and is made by the stage engine
// with [ElasticLoss].
package tendon
