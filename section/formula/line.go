package formula

import "strings"

// Source is the document and place of a formula or a limit.
type Source struct {
	// Document is the book or standard with its edition or annex, e.g.
	// "EN 1992-1-1:2004".
	Document string `json:"d,omitempty"`
	// Place is the clause, equation, table or page, e.g. "5.10.3, (5.45)".
	Place string `json:"p,omitempty"`
	// Confirm is true when the value was not checked against the printed standard and must be
	// confirmed against the edition in force.
	Confirm bool `json:"c,omitempty"`
}

// String is document and place, with the note to confirm where it applies.
func (s Source) String() string {
	text := strings.TrimSpace(s.Document + " " + s.Place)
	if s.Confirm {
		text += " (confirm against the edition in force)"
	}
	return text
}

// Mechanics is the Source of lines of statics or geometry.
var Mechanics = Source{Document: "statics"}

// Line is one line of a calculation: result = expression(operands).
//
// A Line without an expression is a given value (an input) or a value taken from an
// analysis that has no one-line form; see Source and Note.
type Line struct {
	// Result is the quantity that the line gives.
	Result Quantity `json:"r"`
	// Expression gives Result.Value from the operands; "" for a given value.
	Expression string `json:"e,omitempty"`
	// Operands has one Quantity for each symbol of Expression.
	Operands []Quantity `json:"o,omitempty"`
	// Source is the source of the formula or the value.
	Source Source `json:"src,omitzero"`
	// Note is a remark, e.g. the case chosen and its reason.
	Note string `json:"note,omitempty"`
}

// Given is a Line for an input: the quantity and its source.
func Given(q Quantity, source Source) Line { return Line{Result: q, Source: source} }

// Derive evaluates expression with the operands and returns the complete Line, so that
// the printed number is the evaluated one. The error is that of [Line.Recompute].
func Derive(result Quantity, expression string, source Source, operands ...Quantity) (Line, error) {
	line := Line{Result: result, Expression: expression, Operands: operands, Source: source}
	value, err := line.Recompute()
	line.Result.Value = value
	return line, err
}
