package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A demand and its limit are printed everywhere as the line or the table that derives them
// prints its result: in the derivation, under it, in the tables of checks, in the list of
// governing checks and in figures. State, margin and utilisation are of the unrounded
// values: margins are rounded down, utilisations and what is required up. What a crew works
// to is never printed so: it goes through [Units.safe].

// numbersOf are demand, sense, limit, margin and utilisation of a check.
func (a *author) numbersOf(c stages.Check) []string {
	if !numeric(c) {
		return []string{unknown, "", unknown, unknown, unknown}
	}
	demand, limit := a.compared(c)
	return []string{demand, compare(c.Sense), limit, a.margin(c), ratio(c)}
}

// compared are demand and limit of a check as they were derived; with more figures where
// those would not show which is larger. A stress of the other sign is spelled out.
func (a *author) compared(c stages.Check) (demand, limit string) {
	value, words, against := c.Demand, "", limits.AtLeast // a demand that must not be more is rounded up
	if c.Sense == limits.AtLeast {
		against = limits.AtMost
	}
	if c.Kind == limits.Tension && value.Value < 0 {
		value.Value, words, against = -value.Value, " compression", limits.AtMost
	}
	demand, limit = a.asDerived(c, value, against), a.asDerived(c, c.Limit, c.Sense)
	for digits := figures + 1; words == "" && digits <= mostDigits && a.misleads(c, demand, limit); digits++ {
		demand, limit = a.units.cut(value.Value, value.Unit, digits, against), a.units.cut(c.Limit.Value, c.Limit.Unit, digits, c.Sense)
	}
	return demand + words, limit
}

// asDerived is a quantity of a check as its line or its table prints it; where there is
// none, with four figures on the safe side.
func (a *author) asDerived(c stages.Check, q formula.Quantity, sense limits.Sense) string {
	for i := len(c.Lines) - 1; i >= 0; i-- {
		line, err := a.record.Line(c.Lines[i])
		if of := line.Result; err == nil && of.Symbol == q.Symbol && of.Unit == q.Unit && math.Abs(of.Value-q.Value) <= 0.01*math.Abs(q.Value) {
			return a.resultOf(c.Lines[i], line)
		}
	}
	for _, n := range c.Tables {
		t := a.record.Tables[n-1]
		if t.Sum.Unit == q.Unit && math.Abs(math.Abs(t.Sum.Value)-math.Abs(q.Value)) <= math.Pow10(t.SumAt) {
			return a.units.digits(math.Abs(t.Sum.Value), q.Unit, t.SumAt) + " " + a.units.in(q.Unit).unit
		}
	}
	return a.units.cut(q.Value, q.Unit, figures, sense)
}

// sidesOf is how the results of lines that are a demand or a limit are rounded to the safe
// side, by number. The record has them cut in SI already: other units follow.
func sidesOf(record stages.Record) map[int]func(float64) float64 {
	sides := map[int]func(float64) float64{}
	for _, stage := range record.Stages {
		for _, c := range checksOf(stage) {
			demand, limit := up, down
			if c.Sense == limits.AtLeast {
				demand, limit = down, up
			}
			for _, n := range c.Lines {
				line, err := record.Line(n)
				is := func(q formula.Quantity) bool { return line.Result.Symbol == q.Symbol && line.Result.Unit == q.Unit }
				switch {
				case err != nil:
				case is(c.Demand):
					sides[n] = demand
				case is(c.Limit):
					sides[n] = limit
				}
			}
		}
	}
	return sides
}

// resultOf is the result of a line by its number: a demand or a limit on its safe side.
func (a *author) resultOf(number int, line formula.Line) string {
	if cut := a.sides[number]; cut != nil {
		return a.units.sided(line, cut)
	}
	return a.units.result(line)
}

// sided is the result of a line with its digits, cut to a side.
func (u Units) sided(line formula.Line, cut func(float64) float64) string {
	p := u.of(line.Result.Value, line.Result.Unit)
	if line.Expression == "" && line.Result.Unit == formula.Metre {
		return rounded(line.Result.Value*p.factor, figures, cut) + " " + p.unit
	}
	return strings.TrimSpace(scaledTo(line.Result.Value, p.factor, u.more(), cut) + " " + p.unit)
}

// result is the result of a line with the digits with which it recomputes; a length that is
// given with four figures.
func (u Units) result(line formula.Line) string {
	if line.Expression == "" && line.Result.Unit == formula.Metre {
		p := u.of(line.Result.Value, formula.Metre)
		return number(line.Result.Value*p.factor) + " " + p.unit
	}
	return u.exact(line.Result.Value, line.Result.Unit)
}

// misleads is true where demand and limit as they are printed show another outcome than
// the unrounded ones.
func (a *author) misleads(c stages.Check, demand, limit string) bool {
	d, l := a.units.parsed(demand, c.Demand), a.units.parsed(limit, c.Limit)
	if c.Sense == limits.AtLeast {
		d, l = -d, -l
	}
	return c.State != stages.Fail && d > l+1e-12*math.Abs(l) || c.State == stages.Fail && c.Margin < 0 && d <= l+1e-12*math.Abs(l)
}

// parsed is a printed quantity in SI.
func (u Units) parsed(text string, q formula.Quantity) float64 {
	number, _, _ := strings.Cut(text, " ")
	value, err := strconv.ParseFloat(strings.Replace(number, "−", "-", 1), 64)
	if err != nil { // a power of ten
		return q.Value
	}
	return value / u.of(q.Value, q.Unit).factor
}

// margin is that of a check, rounded down to the decimals of its demand and its limit; with
// four figures where it has another unit, or would be nothing.
func (a *author) margin(c stages.Check) string {
	demand, limit := a.compared(c)
	safe := a.units.safe(c.Margin, c.Limit.Unit, limits.AtMost)
	p := a.units.of(c.Margin, c.Limit.Unit)
	most := 0
	for _, text := range []string{strings.TrimSuffix(demand, " compression"), limit} {
		number, unit, _ := strings.Cut(text, " ")
		if unit != p.unit || strings.Contains(number, "^") {
			return safe
		}
		_, fraction, _ := strings.Cut(number, ".")
		most = max(most, len(fraction))
	}
	scale := math.Pow10(most)
	cut := down(c.Margin*p.factor*scale) / scale
	if cut == 0 && c.Margin != 0 {
		return safe
	}
	return trimmed(cut, most) + " " + p.unit
}

// numeric is true for a check that compares numbers: it is evaluated, and does not only
// stand for a question that a document answers.
func numeric(c stages.Check) bool {
	return c.State != stages.NotEvaluated && (c.Demand != formula.Quantity{} || c.Limit != formula.Quantity{})
}

// unknown stands in place of the numbers of a check that is not evaluated.
const unknown = "n/e"

// none stands in place of a ratio to a limit of zero, or of a demand of the other sign:
// the margin says how far it is.
const none = "—"

// ratio is the utilisation rounded up to two decimals, near 1 with three: what passes
// below 1 is printed below 1, and what fails above it.
func ratio(c stages.Check) string {
	u := c.Utilisation
	two := u
	if math.Abs(u) < 1e6 {
		two = up(u*100) / 100
	}
	switch {
	case c.State == stages.NotEvaluated:
		return unknown
	case c.Limit.Value == 0, c.Demand.Value < 0:
		return none
	case two < 1 || u >= 1.005:
		return fmt.Sprintf("%.2f", two)
	case c.State == stages.Pass && u < 1:
		u = math.Min(0.999, up(u*1000)/1000)
	case c.State == stages.Fail && u > 1:
		u = math.Max(1.001, up(u*1000)/1000)
	}
	return fmt.Sprintf("%.3f", u)
}
