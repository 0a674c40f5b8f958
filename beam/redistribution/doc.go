// Package redistribution gives the moments of prestress and creep in a beam whose
// system is indeterminate or changes while the concrete is young.
//
// [Restrain] gives the restraint (secondary) moments of tendons in an indeterminate
// beam: their primary moment P·(z of the tendon − z of the centroid), from [OfTendons],
// is an imposed curvature of the beam; the moments of its supports against it are the
// restraint moments, and the total is the sum.
//
// [Change] is a beam of one concrete whose system changes at an age: forces change from
// S0, those of the first system, towards Sc, those of the final system from the
// beginning, by the [Share] in S = S0 + share·(Sc − S0). [Change.Stepwise] finds it by
// superposition in time and is the reference; [Change.Aged] is the ageing form of EN
// 1992-2 Annex KK with its two creep coefficients. [Staged] marches a beam whose parts
// have different ages, from the [Body] list of the system before: cantilevers that did
// not touch, tendons whose moment was still all primary.
//
// An aid: a licensed engineer must confirm every result.
//
// # Conventions
//
// As in package beam: SI units, sagging moments positive; ages in days.
//
// # Neglected
//
// Bending only: creep of axial restraint, shear and torsion is left out. Creep is
// linear; relaxation and shrinkage of the tendons are made by package tendon. Creep
// models scatter by 20 to 50 %, more than the difference between the methods: use the
// band, not one value.
package redistribution
