package sheet

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"github.com/tempstage/tempstage/section/formula"
)

// measured is a number, or two with "to" between, with a unit behind.
var measured = regexp.MustCompile(`(?:([−±]?\d+(?:\.\d+)?) to )?([−±]?\d+(?:\.\d+)?) (mm|m|MPa|kN·m|kN|kPa)`)

// fromWords are the units that words of a Record use: what they are in SI, and
// how many decimals more the US unit needs for the same accuracy.
var fromWords = map[string]struct {
	unit formula.Unit
	si   float64
	more int
}{
	"m": {formula.Metre, 1, 0}, "mm": {formula.Metre, 1e-3, 2}, "MPa": {formula.Pascal, 1e6, 2}, "kPa": {formula.Pascal, 1e3, 5},
	"kN": {formula.Newton, 1e3, 1}, "kN·m": {formula.NewtonMetre, 1e3, 0},
}

// hyphen is a hyphen that stands for the minus of a number.
var hyphen = regexp.MustCompile(`(^|[ (=])-(\d)`)

// words are words of the Record with the measures in them in the sheet's units and
// as they were in brackets: "x = 2.400 m" is "x = 7.874 ft (2.400 m)" in US units.
// A number that may be part of another, or of a list, stays as it is. Sources are
// never passed here.
func (u Units) words(text string) string {
	text = hyphen.ReplaceAllString(text, "$1−$2")
	if u.filled() == SI {
		return text
	}
	var out strings.Builder
	last := 0
	for _, at := range measured.FindAllStringSubmatchIndex(text, -1) {
		before := text[:at[0]]
		if continuesNumber(before) || continuesUnit(text[at[1]:]) {
			continue
		}
		cut, unit := cutAfter(before), text[at[6]:at[7]]
		out.WriteString(text[last:at[0]])
		if at[2] >= 0 {
			first, _ := u.converted(text[at[2]:at[3]], unit, cut)
			out.WriteString(first + " to ")
		}
		value, in := u.converted(text[at[4]:at[5]], unit, cut)
		out.WriteString(value + " " + in + " (" + text[at[0]:at[1]] + ")")
		last = at[1]
	}
	return out.String() + text[last:]
}

// joins is the end of a text whose next number belongs to one before it: a list, a
// product, a quotient.
var joins = regexp.MustCompile(`(?:[\d,.×/·*+^−±-]|\d[^\s;]* (?:and|or|to|by|x))\s*$`)

// continuesNumber is true when a number behind that text is not one of its own: it
// does not stand after a space or at the start, or it belongs to one before it.
func continuesNumber(before string) bool {
	return before != "" && !strings.HasSuffix(before, " ") || joins.MatchString(before)
}

// continuesUnit is true when a unit goes on behind what was matched: N/mm², m³.
func continuesUnit(rest string) bool {
	if rest == "" {
		return false
	}
	r := []rune(rest)[0]
	return strings.ContainsRune("·/^²³⁴⁻", r) || unicode.IsLetter(r) || unicode.IsDigit(r)
}

// cutAfter is how a number behind that text is rounded: up where it is a least
// value, down where it is a most value.
func cutAfter(before string) func(float64) float64 {
	before = strings.TrimRight(before, " ")
	is := func(word string) bool { return strings.HasSuffix(before, word) }
	switch {
	case is("≥"), is(">"), is("at least"):
		return up
	case is("≤"), is("<"), is("at most"):
		return down
	}
	return math.Round
}

// converted is a number of words, with its sign, in the unit of the sheet.
func (u Units) converted(digits, unit string, cut func(float64) float64) (value, printedUnit string) {
	from := fromWords[unit]
	sign := ""
	if strings.HasPrefix(digits, "±") {
		sign, digits = "±", strings.TrimPrefix(digits, "±")
	}
	v, _ := strconv.ParseFloat(strings.Replace(digits, "−", "-", 1), 64) // digits by the pattern
	p := u.in(from.unit)
	if unit == "mm" {
		p = printed{"in", 1 / inch}
	}
	_, fraction, _ := strings.Cut(digits, ".")
	decimals := len(fraction) + from.more
	scale := math.Pow(10, float64(decimals))
	return sign + minus(strconv.FormatFloat(cut(v*from.si*p.factor*scale)/scale, 'f', decimals, 64)), p.unit
}
