package answers

import (
	"errors"
	"fmt"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// ErrAnswer is wrapped by every error about a question that has no answer.
var ErrAnswer = errors.New("answer")

// Sense is which end of an interval is asked for.
type Sense string

// The senses.
const (
	Window  Sense = ""        // every interval
	Minimum Sense = "minimum" // the least value from which on the stage passes up to the end of the range
	Maximum Sense = "maximum" // the largest value up to which it passes from the beginning of the range
)

// Answer is the values of one quantity at which a stage passes, with the proof.
type Answer struct {
	Asked     string       // the quantity in words
	Symbol    string       // of the quantity
	Unit      formula.Unit // of the quantity and of all values
	Sense     Sense        // which end is asked for
	Stage     int          // number of the stage, the first is 1
	Low, High float64      // range that was tried
	Trials    int          // values that were tried in it
	Value     float64      // minimum or maximum; 0 for a window or where there is none
	Intervals []Interval   // in which the stage passes, ascending; none where it fails everywhere
	Percent   bool         // the value is a fraction, in words a percentage
	Small     bool         // the value is a small length, in words in mm
	Notes     []string     // what was assumed
}

// Interval is a range of values at which the stage passes.
type Interval struct{ From, To End }

// End is one end of an interval and its proof.
type End struct {
	Value       float64      // at which the stage still passes
	Open        bool         // the end of the range that was tried: no limit was found
	At          stages.Check // governing check at Value
	Reserve     float64      // relative reserve at Value, not below zero; see [stages.Analysis.Margin]
	Sensitivity float64      // change of the relative reserve per unit of the quantity, inside the interval
	Beyond      float64      // value just beyond, at which the stage does not pass; Value where Open
	Fails       stages.Check // governing check there; its Note says why a value is refused by the plan
	Deficit     float64      // relative reserve there, below zero; 0 where Open
	Jumps       bool         // the reserve jumps below zero between the two
}

// Governing is the check that limits the value: the one that fails beyond; at an open end
// the one that governs there.
func (e End) Governing() stages.Check {
	if e.Open {
		return e.At
	}
	return e.Fails
}

// limit is the end that a minimum or a maximum is, nil for a window or where there is none.
func (a Answer) limit() *End {
	switch n := len(a.Intervals); {
	case n == 0:
	case a.Sense == Minimum && a.Intervals[n-1].To.Open:
		return &a.Intervals[n-1].From
	case a.Sense == Maximum && a.Intervals[0].From.Open:
		return &a.Intervals[0].To
	}
	return nil
}

// Sentence is the answer in words, rounded to the safe side.
func (a Answer) Sentence() string {
	if end := a.limit(); end != nil && !end.Open {
		word, side, beyond := "at least", up, "below"
		if a.Sense == Maximum {
			word, side, beyond = "at most", down, "above"
		}
		return fmt.Sprintf("%s: %s %s %s; %s, %s", a.Asked, a.Symbol, word, a.words(end.Value, side), beyond, end.reason())
	}
	switch {
	case len(a.Intervals) == 0:
		return fmt.Sprintf("%s: the stage fails for every %s from %s", a.Asked, a.Symbol, a.span(a.Low, a.High))
	case len(a.Intervals) == 1 && a.Intervals[0].From.Open && a.Intervals[0].To.Open:
		return fmt.Sprintf("%s: the stage passes for every %s from %s", a.Asked, a.Symbol, a.span(a.Low, a.High))
	}
	var spans, reasons []string
	for _, i := range a.Intervals {
		spans = append(spans, "from "+a.span(i.From.Value, i.To.Value))
		below, above := "below", "above"
		if len(a.Intervals) > 1 {
			below, above = "below "+a.words(i.From.Value, up), "above "+a.words(i.To.Value, down)
		}
		reasons = append(reasons, i.From.side(below), i.To.side(above))
	}
	return fmt.Sprintf("%s: %s %s; %s", a.Asked, a.Symbol, strings.Join(spans, " or "), strings.Join(reasons, "; "))
}

// side is what limits an end on one side of it.
func (e End) side(where string) string {
	if e.Open {
		return where + ", not tried"
	}
	return where + ", " + e.reason()
}

// reason is the check that fails beyond an end, in words.
func (e End) reason() string {
	name := e.Fails.Name
	if e.Fails.Place != "" {
		name += ", " + e.Fails.Place
	}
	if e.Fails.State == stages.NotEvaluated && e.Fails.Name != refusal {
		name += " (not evaluated)"
	}
	if e.Jumps {
		name += ", at once"
	}
	return name
}
