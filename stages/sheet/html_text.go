package sheet

import (
	"fmt"
	"html"
	"regexp"
	"strings"
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

// legible is text without control characters and broken runes.
func legible(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case r < ' ' || r >= 0x7f && r < 0xa0 || r == 0xfffe || r == 0xffff:
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, "?"))
}

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
