// Package redistribution answers what prestress and creep do to the moments of
// a beam whose system is indeterminate or changes while the concrete is young.
//
// [Restrain] gives the restraint (secondary) moments that tendons raise in an
// indeterminate beam: their primary moment P·(z of the tendon − z of the
// centroid), from [OfTendons], bends the beam by an imposed curvature; what its
// supports set against that is the restraint moment, and the total is the sum.
//
// [Change] is a beam of one concrete whose system changes at an age: forces
// move from S0, what they were, towards Sc, what they would be had the final
// system stood from the start, by the [Share] of the way S = S0 + share·(Sc −
// S0). [Change.Stepwise] finds it by superposition in time and is the reference;
// [Change.Aged] is the ageing form of EN 1992-2 Annex KK with its two creep
// coefficients. [Staged] marches a beam whose parts have different ages, from the
// [Body] list of the system before: cantilevers that did not touch, tendons whose
// moment was still all primary.
//
// An aid: a licensed engineer must confirm every result.
//
// # Conventions
//
// As in package beam: SI units, sagging moments positive; ages in days.
//
// # Neglected
//
// Bending alone: axial restraint, shear and torsion do not creep here. Creep is
// linear; relaxation and shrinkage of the tendons are made by package tendon.
// Creep models scatter by 20 to 50 %, more than the methods differ: use the
// band, not one value.
package redistribution
