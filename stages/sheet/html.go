package sheet

import (
	"fmt"
	"strings"
)

// renderHTML is a document as one self-contained page: well-formed as XML too,
// with its style and figures inside, and no script.
func renderHTML(d document) string {
	p := &htmlPage{}
	p.add(`<!DOCTYPE html>` + "\n" + `<html lang="en" xmlns="http://www.w3.org/1999/xhtml"><head><meta charset="utf-8"/>`)
	p.add("<title>" + escapeHTML(d.title) + "</title>\n<style>" + style + operationStyle + fmt.Sprintf(footStyle, escapeCSS(d.foot)) + partStyles(d.blocks) + "</style></head>\n")
	if d.site {
		p.add(`<body class="site">` + "\n")
	} else {
		p.add("<body>\n")
	}
	p.blocks(d.blocks)
	p.add(`<p class="foot">` + escapeHTML(d.foot) + "</p>\n</body></html>\n")
	return p.out.String()
}

// partStyles are the feet of the parts that have pages of their own.
func partStyles(blocks []block) string {
	styles := ""
	for _, b := range blocks {
		if p, ok := b.(part); ok {
			styles += fmt.Sprintf(partStyle, p.name, escapeCSS(p.foot))
		}
	}
	return styles
}

// htmlPage collects the page.
type htmlPage struct{ out strings.Builder }

func (p *htmlPage) add(markup string) { p.out.WriteString(markup) }

func (p *htmlPage) blocks(blocks []block) {
	for _, b := range blocks {
		p.block(b)
	}
}

func (p *htmlPage) block(b block) {
	switch b := b.(type) {
	case part:
		p.add(`<div class="` + b.name + `">` + "\n")
		p.blocks(b.blocks)
		p.add("</div>\n")
	case heading:
		class := ""
		if b.fresh {
			class = ` class="fresh"`
		}
		p.add(fmt.Sprintf("<h%d%s>%s</h%d>\n", b.level, class, htmlText(b.words), b.level))
	case paragraph:
		p.add("<p>" + htmlText(b.words) + "</p>\n")
	case alarm:
		class := "alarm"
		if len(htmlText(b.words)) > longAlarm {
			class += " long"
		}
		p.add(`<p class="` + class + `">` + htmlText(b.words) + "</p>\n")
	case list:
		p.points(b)
	case calculation:
		p.calculation(b)
	case grid:
		p.grid(b)
	case form:
		p.form(b)
	case drawings:
		p.drawings(b)
	case beside:
		p.beside(b)
	}
}

func (p *htmlPage) points(b list) {
	if len(b.points) == 0 {
		return
	}
	tag, class := "ul", ""
	if b.columns > 1 {
		class = ` class="two"`
	}
	if b.numbered {
		tag = "ol"
	}
	p.add("<" + tag + class + ">\n")
	for _, point := range b.points {
		p.add("<li>" + htmlText(point) + "</li>\n")
	}
	p.add("</" + tag + ">\n")
}

func (p *htmlPage) calculation(b calculation) {
	if len(b.lines) == 0 {
		return
	}
	p.add(`<div class="lines">` + "\n")
	inside := false // a row of short lines
	end := func() {
		if inside {
			p.add("</p>\n")
		}
		inside = false
	}
	for _, line := range b.lines {
		switch {
		case opens(line):
			end()
			p.add(`<p class="first">` + htmlText(line) + "</p>\n")
		case !b.running:
			p.add("<p>" + htmlText(line) + "</p>\n")
		default:
			if !inside {
				p.add(`<p class="row">`)
			}
			inside = true
			p.add("<span>" + htmlText(line) + "</span> ")
		}
	}
	end()
	p.add("</div>\n")
}

// opens is true for a line that heads those after it: it begins in bold.
func opens(line prose) bool {
	return len(line) > 1 && line[0].kind == strong && line[1].kind == plain
}

func (p *htmlPage) form(b form) {
	p.add(`<table class="form"><tbody>` + "\n")
	for i, pair := range b.pairs {
		if i%b.columns == 0 {
			p.add("<tr>")
		}
		p.add("<th>" + escapeHTML(pair[0]) + "</th><td>" + escapeHTML(pair[1]) + "</td>")
		if i%b.columns == b.columns-1 || i == len(b.pairs)-1 {
			p.add("</tr>\n")
		}
	}
	p.add("</tbody></table>\n")
}

func (p *htmlPage) drawings(b drawings) {
	p.add(`<div class="beside">` + "\n")
	for _, f := range b.figures {
		class := "column"
		if !f.wide {
			class = "half"
		}
		p.add(`<figure class="` + class + `">` + f.svg)
		if !f.titled {
			p.add("<figcaption>" + escapeHTML(f.caption) + "</figcaption>")
		}
		p.add("</figure>\n")
	}
	p.add("</div>\n")
}

func (p *htmlPage) beside(b beside) {
	class := "beside"
	if b.long {
		class = "beside long"
	}
	p.add(`<div class="` + class + `">` + "\n")
	for _, column := range b.columns {
		if len(column) == 0 {
			continue
		}
		p.add(`<div class="column">` + "\n")
		p.blocks(column)
		p.add("</div>\n")
	}
	p.add("</div>\n")
}

// longAlarm is a number of letters beyond which an alarm is set smaller, to stay on one line.
const longAlarm = 95
