package sheet

import (
	"fmt"
	"strings"
)

// cite is a reference to a table, a figure or a chapter by the key that it has.
func cite(key string) span { return span{cited, key} }

// with is the text with a reference behind it.
func (t prose) with(key string) prose { return append(t, cite(key)) }

// unnumbered stands in the title of a drawing where its number is to stand.
const unnumbered = "Figure ##"

// register is the numbers of tables, figures and chapters by their keys.
type register map[string]string

// tables numbers the tables with a caption in a part of the sheet, behind a prefix: Table
// A1.1, Table M1. A table of a check has its number in the record; lines are cited by theirs.
func (n register) tables(blocks []block, prefix string, last *int) {
	for i, b := range blocks {
		switch b := b.(type) {
		case grid:
			if b.caption.raw() == "" || b.number < 0 {
				continue
			}
			number := b.number
			if number == 0 {
				*last++
				number = *last
			}
			name := fmt.Sprintf("Table %s%d", prefix, number)
			b.caption = append(words(name+": "), b.caption...)
			blocks[i] = b
			for _, key := range append(b.keys[:len(b.keys):len(b.keys)], b.key) {
				if key != "" {
					n[key] = name
				}
			}
		case beside:
			for _, column := range b.columns {
				n.tables(column, prefix, last)
			}
		}
	}
}

// figures numbers the figures of a sheet in order: in their captions, or in the drawing
// where its title has room for it.
func (n register) figures(blocks []block, last *int) {
	for _, b := range blocks {
		switch b := b.(type) {
		case drawings:
			for i := range b.figures {
				f := &b.figures[i]
				*last++
				n[f.name] = fmt.Sprintf("Figure %d", *last)
				f.svg = strings.ReplaceAll(f.svg, unnumbered, n[f.name])
				f.svg = strings.Replace(f.svg, "<title>", "<title>"+n[f.name]+": ", 1)
				f.caption = n[f.name] + ": " + f.caption
			}
		case beside:
			for _, column := range b.columns {
				n.figures(column, last)
			}
		}
	}
}

// write puts the numbers where text refers to them.
func (n register) write(blocks []block) {
	for i, b := range blocks {
		switch b := b.(type) {
		case heading:
			b.words = n.in(b.words)
			blocks[i] = b
		case paragraph:
			blocks[i] = paragraph{n.in(b.words)}
		case list:
			n.all(b.points)
		case grid:
			b.caption = n.in(b.caption)
			for _, row := range b.rows {
				n.all(row)
			}
			blocks[i] = b
		case beside:
			for _, column := range b.columns {
				n.write(column)
			}
		}
	}
}

func (n register) all(texts []prose) {
	for i, t := range texts {
		texts[i] = n.in(t)
	}
}

// in is a text with its references as plain words; what a key names that is not on the sheet
// is left out.
func (n register) in(t prose) prose {
	var out prose
	for _, s := range t {
		if s.kind == cited {
			s = span{plain, n[s.text]}
		}
		out = append(out, s)
	}
	return out
}
