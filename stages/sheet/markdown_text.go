package sheet

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// own is the number of a source in brackets, as a sheet writes it itself.
var own = regexp.MustCompile(`\[\d+†?\]`)

// escapeMarkdown keeps text of the Record from being read as markup: tables, HTML,
// links, code, emphasis, headings and formulas.
func escapeMarkdown(text string) string {
	text = legible(text)
	brackets := map[int]bool{} // those that a sheet writes itself
	for _, at := range own.FindAllStringIndex(text, -1) {
		brackets[at[0]], brackets[at[1]-1] = true, true
	}
	var out strings.Builder
	for at, r := range text {
		switch {
		case entities[r] != "":
			out.WriteString(entities[r])
			continue
		case marks(text, at, brackets[at]):
			out.WriteRune('\\')
		}
		out.WriteRune(r)
	}
	return out.String()
}

// entities are characters that no backslash keeps from being read as HTML.
var entities = map[rune]string{'&': "&amp;", '<': "&lt;", '>': "&gt;"}

// marks is true for a character that a reader of Markdown would take for markup where it
// stands: brackets but the sheet's own, and what makes a link of them; a line below
// that is neither inside a word nor room to write.
func marks(text string, at int, own bool) bool {
	switch text[at] {
	case '|', '`', '*', '\\', '#', '~', '$':
		return true
	case '[', ']':
		return !own || strings.HasSuffix(text[:at], "]")
	case '(', ':':
		return strings.HasSuffix(text[:at], "]")
	case '_':
		before, _ := utf8.DecodeLastRuneInString(strings.TrimRight(text[:at], "_"))
		after, _ := utf8.DecodeRuneInString(strings.TrimLeft(text[at:], "_"))
		return !(inWord(before) && inWord(after) || isRoom(before) && isRoom(after))
	}
	return false
}

func inWord(r rune) bool { return unicode.In(r, unicode.L, unicode.N) }
func isRoom(r rune) bool { return r == utf8.RuneError || unicode.IsSpace(r) }

// structure is what makes a list, a numbered list or a rule of a line of Markdown at
// whose beginning it stands.
var structure = regexp.MustCompile(`^(?:\d{1,9}([.)])(?:\s|$)|([-+=_]))`)

// opening is text that opens a line or a point of a list, escaped before, with what
// would make another block of it escaped too.
func opening(text string) string {
	text = strings.TrimLeft(text, " ")
	at := structure.FindStringSubmatchIndex(text)
	if at == nil {
		return text
	}
	mark := max(at[2], at[4])
	return text[:mark] + `\` + text[mark:]
}
