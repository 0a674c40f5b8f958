// Package limits gives the limits of published standards for temporary stages.
//
// Package stages asks a [Question]: kind of limit, phase, place, concrete. A [Standard]
// answers with a [Limit] for each of its combinations of actions, each with its clause,
// the line that derives it, and the partial [Factors] on the kinds of action that go
// with it. [EN1992] is EN 1992-1-1:2004 with the factors of EN 1990 Annex A2 for
// equilibrium; national values are fields whose zero value is the recommended one.
// [Handling] is rules of practice for roll and crane charts, which EN 1992 does not have;
// [Handled] and [FormAdhesions] are published factors of handling. [All] puts several
// standards side by side.
//
// Limits are magnitudes (Pa, N, N·m, m, m²) with a [Sense]. A question without an
// answer gives no Limit; package stages then lists it as unanswered, and the stage does
// not pass.
//
// An aid: a licensed engineer must confirm every result.
//
// # Neglected
//
// Values were not checked against the printed standard: confirm them against the
// edition in force and the national annex.
package limits
