package main

import (
	"fmt"
	"math"
)

// Kind says what sort of outside value a check compares with.
type Kind string

// The kinds of outside value, the surest first.
const (
	ClosedForm     Kind = "closed form"                          // follows from mechanics, or from the formula of a clause that was read; recomputable on paper
	Published      Kind = "published"                            // read in the source and reproduced
	Recalled       Kind = "unconfirmed: recalled and recomputed" // not read in the source; confirm against the edition in force
	Library        Kind = "general-purpose library"              // computed with such a library by a script in recipes, named first in Source
	CommonPractice Kind = "common practice"                      // no source: a figure the trade uses
)

// Check is one comparison with a value from outside.
type Check struct {
	Name      string                  // what is checked, in words with the inputs
	Package   string                  // the package under test
	Source    string                  // book and table, standard and clause, or recipes/name.py and the version of its library
	Kind      Kind                    // what sort of value it is
	Value     float64                 // the outside value as printed, in Unit
	Unit      string                  // unit of Value, of ours and of Tolerance
	Tolerance float64                 // absolute, in Unit
	Reason    string                  // why the tolerance is what it is
	Ours      func() (float64, error) // our value in Unit, through the public API
}

// Subject is a group of checks on one theme.
type Subject struct {
	Name   string
	Checks []Check
}

// Result is a check that has been run; its JSON keys are the command's output
// format.
type Result struct {
	Subject    string  `json:"subject"`
	Check      string  `json:"check"`
	Package    string  `json:"package"`
	Source     string  `json:"source"`
	Kind       Kind    `json:"kind"`
	Published  float64 `json:"published"`
	Ours       float64 `json:"ours"`
	Unit       string  `json:"unit"`
	Tolerance  float64 `json:"tolerance"`
	Difference float64 `json:"difference"`
	Pass       bool    `json:"pass"`
}

// unconfirmed is printed behind the source of every recalled value.
const unconfirmed = "unconfirmed, check against the edition in force"

// Run computes our value and compares. A value that cannot be computed or is
// not finite is an error, not a difference.
func (c Check) Run(subject string) (Result, error) {
	ours, err := c.Ours()
	if err == nil && (math.IsNaN(ours) || math.IsInf(ours, 0)) {
		err = fmt.Errorf("is %g", ours)
	}
	if err != nil {
		return Result{}, fmt.Errorf("%s: %s: %w", subject, c.Name, err)
	}
	source := c.Source
	if c.Kind == Recalled {
		source += "; " + unconfirmed
	}
	difference := ours - c.Value
	return Result{
		Subject: subject, Check: c.Name, Package: c.Package, Source: source, Kind: c.Kind,
		Published: c.Value, Ours: ours, Unit: c.Unit, Tolerance: c.Tolerance,
		Difference: difference, Pass: math.Abs(difference) <= c.Tolerance,
	}, nil
}

// same is the tolerance of a value that should agree to rounding of float64
// arithmetic: 1e-9 of the value.
func same(value float64) float64 { return 1e-9 * math.Max(math.Abs(value), 1e-300) }
