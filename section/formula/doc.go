// Package formula is numbers with their derivations, so that a calculation can be
// printed, followed by hand and recomputed by a test.
//
// A [Quantity] is a symbol, a value in SI and its unit. A [Line] is one line of a
// calculation: the result, the expression that gives it, the operands of the expression
// and the [Source] of the formula. Numbers are apart from text: the printer of a Line
// chooses the units and the rounding, and [Line.Recompute] evaluates the expression
// again from the operands.
//
// An aid: a licensed engineer must confirm every result.
//
// # Expressions
//
// Expressions are written with + - * / and parentheses, the functions listed
// at [Line.Recompute], numbers, and symbols made of letters, digits and
// underscores (Greek letters included): "P_0*exp(-μ*(θ + k*s))". Everything is
// in coherent SI units, so an expression needs no conversion factor; an
// empirical formula in MPa or mm says so with its own divisors.
//
// # Neglected
//
// No dimensional analysis is made: a Line states the unit of its result and
// the reader checks it. No symbolic algebra either.
package formula
