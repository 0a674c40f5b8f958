// Package concrete answers how strong and how stiff a concrete is at an age, by
// a published model or by a test on the day.
//
// [EN1992] is the model of EN 1992-1-1:2004, 3.1.2 and 3.1.3. Its At method
// gives a [State]: characteristic and mean cylinder strength, tensile strength
// and modulus, each with the line that derives it. A [Test] overrides the
// formula from its age on. The standard gives no characteristic strength at
// ages up to 3 days without a test: such a State has NeedsTest set, and
// whatever leans on its strength holds only if a test shows it first.
//
// Strengths are in Pa, of 150 × 300 mm cylinders unless a name says otherwise;
// ages in days at 20 °C.
//
// # Neglected
//
// Temperature-adjusted age, creep and shrinkage are not in this package yet: an
// age is a calendar age at 20 °C. Heat-cured concrete must be shown by tests.
package concrete
