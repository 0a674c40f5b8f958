package sheet

import (
	"fmt"
	"html"
	"regexp"
	"strings"
	"unicode"
)

// htmlText is running text as markup.
func htmlText(t prose) string {
	var out strings.Builder
	for _, s := range t {
		switch s.kind {
		case strong:
			out.WriteString("<b>" + raised(escapeHTML(s.text)) + "</b>")
		case symbol:
			out.WriteString(symbolHTML(s.text))
		case raisedUp:
			out.WriteString("<sup>" + escapeHTML(s.text) + "</sup>")
		case faint:
			out.WriteString("<small>" + escapeHTML(s.text) + "</small>")
		default:
			out.WriteString(raised(escapeHTML(s.text)))
		}
	}
	return out.String()
}

// power is a power of ten as number writes it.
var power = regexp.MustCompile(`·10\^(−?\d+)`)

// raised sets powers of ten high.
func raised(markup string) string { return power.ReplaceAllString(markup, "·10<sup>$1</sup>") }

// escapeHTML keeps text of the Record from being read as markup, and leaves out
// what no document may hold.
func escapeHTML(text string) string { return html.EscapeString(legible(text)) }

// legible is text of one line in which every character shows and stands where it was
// written: without broken runes, control characters, and what has no width or turns
// the direction of the letters behind it.
func legible(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.In(r, unicode.Zl, unicode.Zp) || r >= '\t' && r <= '\r' || r == nextLine:
			return ' '
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector) || r&0xfffe == 0xfffe:
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "?"))
}

// nextLine is the control character of the next line (NEL).
const nextLine = '\u0085'

// escapeCSS is text for a string in the style: all but letters, digits and plain
// punctuation as numbers.
func escapeCSS(text string) string {
	var out strings.Builder
	for _, r := range legible(text) {
		if r < 0x80 && (r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || strings.ContainsRune(" ,.-()", r)) {
			out.WriteRune(r)
		} else {
			fmt.Fprintf(&out, "\\%06x ", r) // the space ends the number
		}
	}
	return out.String()
}
