// Package loads describes what acts on a line member: point loads, line loads,
// couples and imposed curvature, the factors that bound a weight, and the
// dynamic range of an operation.
//
// Forces are positive downwards and act at x, measured from the left end of
// the member; a couple is positive anticlockwise in an elevation with x to the
// right and z up, so that the bending moment (sagging positive) drops by it as
// x passes. Units are m, N, N/m and N·m.
//
// A line load is a polynomial in x, because the weight of an element of varying depth
// is one; [Uniform] and [Trapezoid] make the usual ones.
//
// An aid: a licensed engineer must confirm every result.
//
// # Neglected
//
// Loads are static. A dynamic effect enters as the two factors of [Dynamic];
// there is no equation of motion.
package loads
