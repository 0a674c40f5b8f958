// Package limits says what a published standard allows in a temporary stage.
//
// The engine puts a [Question]: what is limited, in which phase, at which place,
// with which concrete. A [Standard] answers with as many [Limit] values as it has
// combinations of actions, each with its clause, the line that derives it, and the
// partial [Factors] on the kinds of action that go with it.
// [EN1992] is EN 1992-1-1:2004 with the factors of EN 1990 Annex A2 for
// equilibrium; national values are fields whose zero value is the recommended
// one. [All] puts several standards side by side.
//
// Limits are magnitudes (Pa, N, N·m, m, m²) whose sense is in their name. A question
// that a standard does not answer returns no Limit; the engine then lists it as
// not checked.
//
// An aid: a licensed engineer must confirm every result.
//
// # Neglected
//
// This package holds numbers and clauses, never analysis. Values were not
// checked against the printed standard: confirm them against the edition in force
// and the national annex.
package limits
