package sheet

import (
	"fmt"
	"strings"
)

// renderMarkdown is a document as Markdown. Figures are links to the files that
// prefix begins; without a prefix they are left out.
func renderMarkdown(d document, prefix string) string {
	p := &markdownPage{prefix: prefix}
	p.blocks(d.blocks)
	p.line("\n---\n\n%s", opening(escapeMarkdown(d.foot)))
	page := strings.TrimLeft(p.out.String(), "\n")
	for strings.Contains(page, "\n\n\n") {
		page = strings.ReplaceAll(page, "\n\n\n", "\n\n")
	}
	return page
}

// markdownPage collects the page.
type markdownPage struct {
	out    strings.Builder
	prefix string
}

func (p *markdownPage) line(format string, args ...any) {
	fmt.Fprintf(&p.out, format+"\n", args...)
}

func (p *markdownPage) blocks(blocks []block) {
	for _, b := range blocks {
		p.block(b)
	}
}

func (p *markdownPage) block(b block) {
	switch b := b.(type) {
	case part:
		p.blocks(b.blocks)
	case heading:
		if b.level == 4 {
			p.line("\n**%s**\n", markdownText(prose{{plain, b.words.raw()}}))
			return
		}
		p.line("\n%s %s\n", strings.Repeat("#", b.level), markdownText(b.words))
	case paragraph:
		p.line("\n%s\n", opening(markdownText(b.words)))
	case alarm:
		p.line("\n**%s**\n", escapeMarkdown(b.words.raw()))
	case list:
		p.points(b.points, b.numbered)
	case calculation:
		p.points(b.lines, false)
	case grid:
		p.grid(b)
	case form:
		p.form(b)
	case drawings:
		p.drawings(b)
	case beside:
		for _, column := range b.columns {
			p.blocks(column)
		}
	}
}

func (p *markdownPage) points(points []prose, numbered bool) {
	for i, t := range points {
		mark := "-"
		if numbered {
			mark = fmt.Sprintf("%d.", i+1)
		}
		p.line("%s %s", mark, opening(markdownText(t)))
	}
}

func (p *markdownPage) grid(b grid) {
	if len(b.caption) > 0 {
		p.line("\n**%s**", escapeMarkdown(b.caption.raw()))
	}
	heads, rule := "\n|", "|"
	for _, c := range b.columns {
		heads += " " + markdownText(c.title) + " |"
		if c.right {
			rule += "---:|"
		} else {
			rule += "---|"
		}
	}
	p.line("%s\n%s", heads, rule)
	for i, row := range b.rows {
		line := "|"
		for _, cell := range row {
			words := markdownText(cell)
			if i+1 == b.strong && words != "" {
				words = "**" + words + "**"
			}
			line += " " + words + " |"
		}
		p.line("%s", line)
	}
	p.line("")
}

func (p *markdownPage) form(b form) {
	p.line("\n| | |\n|---|---|")
	for _, pair := range b.pairs {
		p.line("| %s | %s |", escapeMarkdown(pair[0]), escapeMarkdown(pair[1]))
	}
	p.line("")
}

func (p *markdownPage) drawings(b drawings) {
	if p.prefix == "" {
		return
	}
	p.line("")
	for _, f := range b.figures {
		p.line("![%s](%s%s.svg)", escapeMarkdown(f.caption), p.prefix, f.name)
	}
	p.line("")
}

// raw is the text without its kinds.
func (t prose) raw() string {
	var out strings.Builder
	for _, s := range t {
		out.WriteString(s.text)
	}
	return out.String()
}

func markdownText(t prose) string {
	var out strings.Builder
	for _, s := range t {
		switch s.kind {
		case strong:
			out.WriteString("**" + escapeMarkdown(strings.TrimRight(s.text, " ")) + "**" + strings.Repeat(" ", len(s.text)-len(strings.TrimRight(s.text, " "))))
		case raisedUp:
			out.WriteString("^(" + escapeMarkdown(s.text) + ")")
		default:
			out.WriteString(escapeMarkdown(s.text))
		}
	}
	return out.String()
}
