// Package derive writes down how a number was got: a [Table] of actions that add up to
// the demand of a check, and lines of calculation under it, both in the digits that are
// printed. It has no statics and never imports package stages; [Check] recomputes what
// it wrote from the printed digits alone.
//
// An aid: a licensed engineer must confirm every result.
//
// # Digits
//
// A number is held in SI, rounded to its last printed digit, which is a power of
// ten: "last" = 2 is 100 N, printed 0.1 kN. The coarsest that is printed is 1 kN
// for internal forces, 1 kN·m for moments, 0.1 kN for tendon forces, 0.1 mm for
// levels, 0.00001 for cosines, 0.001 MPa for stresses. A column gets the fewest
// further decimals with which every row recomputes: the result, rounded, is within
// one unit of the last printed digit. With W ≥ 1 m³ whole kN·m are enough
// (0.5 kN·m/1 m³ is half a unit of 0.001 MPa), below that one decimal as a rule.
// Section states are shared by many tables, so their digits are fixed: six
// significant ones, centroids to 0.001 mm. A table for which these are too few
// (one in 20,000 random ones) gets a copy of its states with two more.
//
// The sum is rounded from full precision, and the printed products add up to it:
// where plain rounding would not, those nearest to half a unit go the other way.
package derive
