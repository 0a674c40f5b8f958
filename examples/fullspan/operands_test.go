package main

import (
	"bytes"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/sheet"
)

// printedNumber is a number on the sheet in SI and by how much its last figure may
// be off.
type printedNumber struct{ value, slack float64 }

var (
	// equals are one or more symbols, each with what stands behind it, a number and
	// its unit.
	equals   = regexp.MustCompile(`((?:[\pL_][\pL\pN_]*(?: of [\pL_][\pL\pN_]*)?(?: \(\d+\))? = )+)(−?[\d.]+(?:·10\^−?\d+)?)(?: ([^\s,;:)]+))?`)
	symbolOf = regexp.MustCompile(`([\pL_][\pL\pN_]*)(?: of [\pL_][\pL\pN_]*)?(?: \(\d+\))? = `)
	toSI     = map[string]float64{
		"": 1, "m": 1, "m²": 1, "m³": 1, "m⁴": 1, "mm": 1e-3, "mm²": 1e-6, "kN": 1e3, "kN·m": 1e3, "kN/m": 1e3, "kN/m³": 1e3, "MPa": 1e6, "rad": 1, "rad/m": 1, "1/rad": 1, "d": 1, "t": 1e3, "10⁻⁶": 1e-6, "kN·m²": 1e3,
	}
)

func numberOf(t *testing.T, text, unit string) printedNumber {
	factor, ok := toSI[unit]
	if !ok { // a word behind a bare number
		factor = 1
	}
	mantissa, power, _ := strings.Cut(strings.ReplaceAll(text, "−", "-"), "·10^")
	value, err := strconv.ParseFloat(mantissa, 64)
	require.NoError(t, err, text)
	_, decimals, _ := strings.Cut(mantissa, ".")
	last := math.Pow(10, -float64(len(decimals)))
	if power != "" {
		exponent, err := strconv.Atoi(power)
		require.NoError(t, err)
		factor *= math.Pow(10, float64(exponent))
	}
	value *= factor
	return printedNumber{value, math.Max(0.501*last*factor, 5.01e-4*math.Abs(value))}
}

// printedIn are the numbers behind each symbol in text.
func printedIn(t *testing.T, text string) map[string][]printedNumber {
	found := map[string][]printedNumber{}
	for _, match := range equals.FindAllStringSubmatch(strings.ReplaceAll(text, "**", ""), -1) {
		for _, s := range symbolOf.FindAllStringSubmatch(match[1], -1) {
			found[s[1]] = append(found[s[1]], numberOf(t, match[2], match[3]))
		}
	}
	return found
}

// columnsOf adds the numbers of the table that differ by check, for one letter.
func columnsOf(t *testing.T, text, letter string, found map[string][]printedNumber) {
	column := -1
	for _, line := range strings.Split(text, "\n") {
		cells := strings.Split(strings.ReplaceAll(line, "**", ""), "|")
		if len(cells) < 5 {
			column = -1
			continue
		}
		if strings.TrimSpace(cells[1]) == "" && strings.TrimSpace(cells[2]) == "" { // the head
			column = -1
			for k, c := range cells {
				for _, l := range strings.Split(c, ",") {
					if k > 2 && strings.TrimSpace(l) == letter {
						column = k
					}
				}
			}
			continue
		}
		if column < 0 || strings.TrimSpace(cells[column]) == "" || strings.HasPrefix(cells[1], "-") {
			continue
		}
		symbol := strings.Fields(cells[1])[0]
		found[symbol] = append(found[symbol], numberOf(t, strings.TrimSpace(cells[column]), strings.TrimSpace(cells[2])))
	}
}

// Each number of each derivation stands, under its symbol and with its value, with
// the check, in the part that its situation has in common, or in the inputs.
func TestEachOperandIsPrintedWithItsCheck(t *testing.T) {
	r := record(t)
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, r, sheet.Settings{}))
	count := 0
	var before []formula.Line // known from the inputs
	for _, g := range r.Inputs {
		before = append(before, g.Lines...)
	}
	parts := strings.Split(out.String(), "\n**Derivations;")
	situations := []stages.SituationRecord{}
	for _, stage := range r.Stages {
		situations = append(situations, stage.Situations...)
	}
	require.Len(t, parts, len(situations)+1)
	for i, s := range situations {
		common := ""
		if at := strings.LastIndex(parts[i], "\n**Numbers of checks"); at > strings.LastIndex(parts[i], "\n**Checks, each") {
			common = parts[i][at:]
		}
		lines, _, _ := strings.Cut(parts[i+1], "\n## ")
		texts := regexp.MustCompile(`(?m)^- \*\*[A-Z]\d* `).Split(lines, -1)
		require.GreaterOrEqual(t, len(texts), len(s.Checks)+1)
		known := append(append(append([]formula.Line{}, before...), s.Concrete...), s.Factors...)
		for _, l := range s.Concrete { // printed with the strength of the day
			for _, q := range l.Operands {
				known = append(known, formula.Line{Result: q})
			}
		}
		for k, c := range s.Checks {
			found := printedIn(t, common+"\n"+texts[k+1])
			columnsOf(t, common, string(rune('A'+k)), found)
			for _, l := range c.Derivation {
			next:
				for _, q := range append(append([]formula.Quantity{}, l.Operands...), l.Result) {
					for _, g := range known {
						if g.Result.Symbol == q.Symbol && g.Result.Value == q.Value {
							continue next
						}
					}
					count++
					for _, p := range found[q.Symbol] {
						if math.Abs(p.value-q.Value) <= p.slack {
							continue next
						}
					}
					t.Errorf("%s: %s: %s = %g of %s is not printed: %v", s.Name, c.Name, q.Symbol, q.Value, l.Result.Symbol, found[q.Symbol])
				}
			}
		}
	}
	require.Greater(t, count, 1000)
}
