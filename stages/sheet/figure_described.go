package sheet

import (
	"html"
	"strings"
)

// described is a figure whose SVG says what it shows, for who cannot see it or has the
// file alone: the caption, and the first line of the caution.
func (a *author) described(f figure) figure {
	if head := strings.Index(f.svg, ">"); head >= 0 {
		f.svg = f.svg[:head+1] + a.description(f.caption, f.equipment) + f.svg[head+1:]
	}
	return f
}

func (a *author) description(caption, equipment string) string {
	caution := ""
	if len(a.record.Caution) > 0 {
		caution = a.record.Caution[0]
	}
	if equipment != "" {
		caption += " Equipment: " + equipment + "."
	}
	return "\n<title>" + html.EscapeString(legible(caption)) + "</title>\n<desc>" + html.EscapeString(legible(caution)) + "</desc>"
}
