package sheet

import (
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// What turns the direction of letters, has no width or begins a new line is left out or
// is a space, whatever form the sheet has.
func TestNoCharacterHidesOrTurnsAnother(t *testing.T) {
	for _, r := range "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c\u200b\u200c\u200d\u2060\u2061\ufeff\u00ad\u180e\ufe0f\u034f\u3164\ufff9\U000e0041\x00\x07\x1b\x7f\u009b\u0080" {
		require.Equal(t, "ab", legible("a"+string(r)+"b"), "%U", r)
	}
	for _, r := range "\n\r\t\v\f\u0085\u2028\u2029" {
		require.Equal(t, "a b", legible("a"+string(r)+"b"), "%U", r)
	}
	const kept = "Träger №5 ≤ 3 µm, 数 ± ½ † é \u00a0\u2009"
	require.Equal(t, kept, legible(kept))
	record := rectangle()
	rich(&record)
	const turned = "no\u202elift\u2028w\u200bord\u2066"
	leaves(reflect.ValueOf(&record).Elem(), "", func(path string, v reflect.Value) {
		if v.Kind() == reflect.String && (strings.HasSuffix(path, ".Name") || strings.HasSuffix(path, ".Mark") || strings.HasSuffix(path, ".Title") || strings.HasSuffix(path, ".Text")) {
			v.SetString(turned)
		}
	})
	a, err := newAuthor(record, Settings{Project: turned, Revision: turned})
	require.NoError(t, err)
	for name, page := range rendered(a) {
		require.Contains(t, page, "nolift word", name)
		for _, r := range page {
			require.False(t, !strings.ContainsRune("\n\t", r) && unicode.In(r, unicode.C, unicode.Zl, unicode.Zp), "%U in %s", r, name)
		}
	}
}

// What would be another block of Markdown at the beginning of a line, or a link, code or
// HTML inside it, is printed as it was written.
func TestNoWordIsStructureInMarkdown(t *testing.T) {
	for text, want := range map[string]string{
		"# head": `\# head`, "1. one": `1\. one`, "12) two": `12\) two`, "- dash": `\- dash`, "+ plus": `\+ plus`, "---": `\---`, "===": `\===`, "___": `\___`,
		"> quote": "&gt; quote", "| cell": `\| cell`, "```go": "\\`\\`\\`go", "~~~": `\~\~\~`, "    code": "code", "* star": `\* star`,
		"[a](b)": `\[a\]\(b)`, "[a]: b": `\[a\]\: b`, "[a][b]": `\[a\]\[b\]`, "![a](b)": `!\[a\]\(b)`, "[x] done": `\[x\] done`, "[1](b)": `[1]\(b)`, "[1]: b": `[1]\: b`,
		"<b>": "&lt;b&gt;", "<http://a>": "&lt;http://a&gt;", "&amp;": "&amp;amp;", "_a_ b": `\_a\_ b`, "f_ck_t": "f_ck_t", "± ____ .": "± ____ .", "$x$": `\$x\$`,
		"1.5 kN": "1.5 kN", "−2 kN": "−2 kN", "(1) a": "(1) a", "[2†] a": "[2†] a", "a - b + c = d": "a - b + c = d",
	} {
		require.Equal(t, want, opening(escapeMarkdown(text)), text)
	}
	structured := regexp.MustCompile(`(?m)^(- )?(#+ h|1\. |> |~~~|\x60|- - |\+ |===|    )|\]\(http`)
	for _, bad := range []string{"# h", "1. one", "- dash", "+ plus", "> quote", "| cell", "```", "~~~", "===", "    code", "[a](http://b)", "![a](http://b)"} {
		a := passed(t, Settings{Project: bad, Revision: bad}, rich, func(r *stages.Record) {
			s := &r.Stages[0].Situations[0]
			r.Element, r.Caution, r.Basis, r.NotChecked, s.NotChecked = bad, []string{bad}, []string{bad}, []string{bad}, []string{bad}
			s.Name, s.Checks[0].Name, s.Events, s.Checks[0].Condition = bad, bad, []stages.Group{{Title: bad, Lines: []int{1}}}, bad
			r.Stages[0].Name, r.Inputs[0].Title, r.Lines[0].Note, r.Symbols[0].Name = bad, bad, bad, bad
		})
		for _, page := range []string{renderMarkdown(a.calculation(), ""), renderMarkdown(a.operations(), "")} {
			require.Empty(t, structured.FindString(page), bad)
		}
	}
}
