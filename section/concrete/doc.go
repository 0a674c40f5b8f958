// Package concrete gives strength and stiffness of a concrete at an age, its creep and
// its shrinkage, by a published model or by a test.
//
// Three models share one interface, [TimeModel]: [EN1992] (EN 1992-1-1:2004, 3.1 and
// Annex B), [FIB2010] (fib Model Code 2010, 5.1) and [AASHTO] (AASHTO LRFD 5.4.2 in
// three editions, strength gain by ACI 209R-92). At gives a [State]: characteristic and
// mean cylinder strength, tensile strength and modulus, each with the line that derives
// it; Creep the coefficient φ of a load from one age to another, CreepModulus the
// modulus to which φ relates (28-day tangent in EN and fib, at loading in AASHTO),
// Shrinkage the free strain. The doc comment of each model states its range; outside it
// is an error.
//
// A [Test] overrides the formula from its age on; one below an earlier one overrides
// that too. No standard gives a characteristic strength at ages up to 3 days without a
// test: such a State has NeedsTest set, and every check with its strength is
// conditional on a test.
//
// An aid: a licensed engineer must confirm every result.
//
// # Conventions
//
// Strengths are in Pa, of 150 × 300 mm cylinders unless a name says otherwise; ages are
// calendar ages in days. Shrinkage is positive as shortening, humidity a fraction.
// [Curing] carries the temperature of the concrete: strength grows on
// [Curing.StrengthAge], creep is entered with [Curing.CreepAge], which adjusts for the
// cement too; the time under load is never adjusted.
//
// # Neglected
//
// The models give mean values; their scatter is stated with them and must be covered by
// the caller. Drying by heat, creep in tension, lightweight concrete and the extra
// creep of EN 1992-2 Annex B are not covered.
package concrete
