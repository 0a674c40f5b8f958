package roll

import "github.com/tempstage/tempstage/section/formula"

// with is an operator of the wind: + where it pushes to the offset side; against is the
// opposite one.
func (w worst) with() string {
	if w.push < 0 {
		return " - "
	}
	return " + "
}

func (w worst) against() string { return worst{push: -w.push}.with() }

// words say which wind governs.
func (w worst) words(before string) string {
	switch {
	case w.push > 0:
		return before + "wind to the offset side governs"
	case w.push < 0:
		return before + "wind away from the offset side governs"
	}
	return ""
}

// counted appends the line of a factor: by its expression, or given where a case has no
// quotient.
func (d *derivation) counted(q formula.Quantity, governs worst, zero string, source formula.Source, expression string, operands ...formula.Quantity) {
	switch {
	case governs.none:
		d.Given(q, formula.Mechanics, "nothing turns the girder further: counted as 1000")
	case q.Value == 0:
		d.Given(q, formula.Mechanics, zero+governs.words("; "))
	default:
		d.Derive(q, expression, source, operands...)
		d.Note(governs.words(""))
	}
}

// crackingFactor appends the line of the factor against cracking.
func (d *derivation) crackingFactor(expression string, paper formula.Source, operands ...formula.Quantity) {
	zero := "it cracks before its supports resist"
	if d.of.cracks.push >= d.of.CrackTilt {
		zero = "the wind alone cracks it"
	}
	d.counted(formula.Q("FS_cr", d.of.Cracking, formula.One, "factor against cracking"), d.of.cracks, zero, d.source(paper), expression, operands...)
}

// overturningFactor appends the line of the factor against overturning.
func (d *derivation) overturningFactor(expression string, paper formula.Source, operands ...formula.Quantity) {
	d.counted(formula.Q("FS_f", d.of.Overturning, formula.One, "factor against overturning"), d.of.falls, "the resultant is beyond the line about which the supports tip",
		d.source(paper), expression, operands...)
}

// needed are operands that an expression needs only in wind.
func (d *derivation) needed(in []formula.Quantity, wind ...formula.Quantity) []formula.Quantity {
	if d.windy {
		in = append(in, wind...)
	}
	return in
}

// when is a part of an expression that is there only in wind.
func (d *derivation) when(part string) string {
	if d.windy {
		return part
	}
	return ""
}

// sum is a symbol, in wind in parentheses with a part more.
func (d *derivation) sum(symbol, part string) string {
	if d.windy {
		return "(" + symbol + part + ")"
	}
	return symbol
}

// settled appends the tilt at rest; it says whether the girder comes to rest at it.
func (d *derivation) settled(expression string, source formula.Source, operands ...formula.Quantity) (formula.Quantity, bool) {
	tilt := d.Derive(radians("θ", "tilt at rest"), expression, source, operands...)
	if !d.of.Stable {
		d.Note("more than 0.4 rad: the girder does not come to rest")
	}
	return tilt, d.of.Stable
}
