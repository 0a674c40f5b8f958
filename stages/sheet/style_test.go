package sheet

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// rule is a rule of the style: its selectors and what it sets.
var styleRule = regexp.MustCompile(`(?m)^([^{}@]+)\{([^{}]*)\}`)

// fontSize is a size in a rule, alone or in the short form.
var fontSize = regexp.MustCompile(`font(?:-size)?: *([\d.]+)(pt|%|em|px|mm)`)

// No text of a sheet is set below 7 pt, and none in a share of what it stands in; body
// text, which is what no rule makes smaller, has at least 8 pt.
func TestFontSizes(t *testing.T) {
	small := map[string]bool{"table": true, "th": true, "td": true, "caption": true, "figcaption": true, ".foot": true, ".lines": true, "sub": true, "sup": true, "small": true, ".site table": true}
	found := 0
	for _, rule := range styleRule.FindAllStringSubmatch(style, -1) {
		for _, size := range fontSize.FindAllStringSubmatch(rule[2], -1) {
			require.Equal(t, "pt", size[2], rule[0])
			value, err := strconv.ParseFloat(size[1], 64)
			require.NoError(t, err)
			require.GreaterOrEqual(t, value, 7.0, rule[0])
			for _, selector := range strings.Split(rule[1], ",") {
				if !small[strings.TrimSpace(selector)] {
					require.GreaterOrEqual(t, value, 8.0, rule[0])
				}
			}
			found++
		}
	}
	require.Greater(t, found, 8)
	require.Regexp(t, `(?m)^body \{ font: 8pt`, style)
	for _, foot := range []string{footStyle, partStyle} {
		for _, size := range fontSize.FindAllStringSubmatch(foot, -1) {
			require.Equal(t, "7pt", size[1]+size[2])
		}
	}
	require.NotContains(t, style, "zoom")
	require.NotContains(t, style, "scale(")
}

// The first row of a table stands clear of the rule under its head, and neither it nor the
// last row stands alone on a page; what a check comes to stays with its table.
func TestRowsOfTablesInPrint(t *testing.T) {
	require.Regexp(t, `(?m)^tbody tr:first-child td \{ padding-top: 0\.6mm; \}$`, style)
	require.Contains(t, style, "\ntbody tr:nth-child(2), tbody tr:last-child { break-before: avoid; }\n")
	require.Contains(t, style, "\ntable + p { break-before: avoid; }\n")
}
