package sheet

import (
	"regexp"
	"strconv"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
)

// measured is a number, or two with "to" between, with a unit behind.
var measured = regexp.MustCompile(`(?:(\d+(?:\.\d+)?)( to ))?([-−]?)(\d+(?:\.\d+)?) (mm|m|MPa|kN·m|kN|kPa)`)

// fromWords are the units that words of a Record use: what they are in SI, and
// how many decimals more the US unit needs for the same accuracy.
var fromWords = map[string]struct {
	unit formula.Unit
	si   float64
	more int
}{
	"m": {formula.Metre, 1, 0}, "mm": {formula.Metre, 1e-3, 2}, "MPa": {formula.Pascal, 1e6, 2}, "kPa": {formula.Pascal, 1e3, 2},
	"kN": {formula.Newton, 1e3, 1}, "kN·m": {formula.NewtonMetre, 1e3, 0},
}

// words are words of the Record with the measures in them in the sheet's units:
// "x = 2.400 m" is "x = 7.874 ft" in US units. Sources are never passed here.
func (u Units) words(text string) string {
	if u.filled() == SI {
		return text
	}
	var out strings.Builder
	last := 0
	for _, at := range measured.FindAllStringSubmatchIndex(text, -1) {
		if rest := text[at[1]:]; continuesUnit(rest) {
			continue
		}
		part := func(i int) string {
			if at[2*i] < 0 {
				return ""
			}
			return text[at[2*i]:at[2*i+1]]
		}
		out.WriteString(text[last:at[0]])
		if first := part(1); first != "" {
			value, _ := u.converted(first, part(5))
			out.WriteString(value + part(2))
		}
		value, unit := u.converted(part(4), part(5))
		out.WriteString(part(3) + value + " " + unit)
		last = at[1]
	}
	return out.String() + text[last:]
}

// continuesUnit is true when a unit goes on behind what was matched: N/mm², m³.
func continuesUnit(rest string) bool {
	if rest == "" {
		return false
	}
	r := []rune(rest)[0]
	return strings.ContainsRune("·/²³⁴", r) || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
}

// converted is a number of words in the unit of the sheet.
func (u Units) converted(digits, unit string) (value, printedUnit string) {
	from := fromWords[unit]
	v, _ := strconv.ParseFloat(digits, 64) // digits by the pattern
	p := u.in(from.unit)
	if unit == "mm" {
		p = printed{"in", 1 / inch}
	}
	_, decimals, _ := strings.Cut(digits, ".")
	return strconv.FormatFloat(v*from.si*p.factor, 'f', len(decimals)+from.more, 64), p.unit
}
