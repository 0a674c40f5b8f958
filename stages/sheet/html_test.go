package sheet_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/sheet"
)

// allowed are the elements of a sheet: in which elements each may stand, and its
// attributes. "" is a document of its own.
var allowed = map[string]struct{ in, attributes string }{
	"html": {"", "lang xmlns"}, "head": {"html", ""}, "meta": {"head", "charset"}, "title": {"head svg", ""}, "desc": {"svg", ""}, "style": {"head", ""},
	"body": {"html", "class"}, "h1": {"body div", "class"}, "h2": {"body div", "class"}, "h3": {"body div", "class"}, "h4": {"body div", "class"},
	"p": {"body div", "class"}, "div": {"body div", "class"}, "ul": {"body div", "class"}, "ol": {"body div", ""}, "li": {"ul ol", ""},
	"table": {"body div", "class"}, "caption": {"table", ""}, "thead": {"table", ""}, "tbody": {"table", ""}, "tr": {"thead tbody", "class"},
	"th": {"tr", "class"}, "td": {"tr", "class"}, "figure": {"div", "class"}, "figcaption": {"figure", ""},
	"b": {"p li td span", ""}, "small": {"p li td span", ""}, "span": {"p", ""},
	"sub": {"p li td span th caption", ""}, "sup": {"p li td span", ""},
	"svg": {"figure", "width height viewBox xmlns xlink"}, "g": {"svg g", "transform"}, "path": {"g", "d style"}, "text": {"g", "x y transform style"},
}

// valid parses a sheet strictly and checks nesting, attributes, the order of
// headings and that each row of a table has as many cells as its head.
func valid(t *testing.T, page string) {
	require.True(t, strings.HasPrefix(page, "<!DOCTYPE html>\n"))
	decoder := xml.NewDecoder(strings.NewReader(page))
	var open []string
	heading, cells, head := "", 0, 0
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			name, parent := token.Name.Local, ""
			if len(open) > 0 {
				parent = open[len(open)-1]
			}
			rule, ok := allowed[name]
			require.True(t, ok, "element %s", name)
			require.True(t, parent == rule.in || slices.Contains(strings.Fields(rule.in), parent), "%s in %s", name, parent)
			for _, a := range token.Attr {
				require.Contains(t, strings.Fields(rule.attributes), a.Name.Local, "attribute of %s", name)
			}
			switch name {
			case "h1", "h2", "h3":
				require.LessOrEqual(t, name[1], nextLevel(heading), "%s after %q", name, heading)
				heading = name
			case "table":
				head = 0
			case "tr":
				cells = 0
			case "th", "td":
				cells++
			}
			open = append(open, name)
		case xml.EndElement:
			open = open[:len(open)-1]
			if token.Name.Local == "tr" {
				if head == 0 {
					head = cells
				}
				require.LessOrEqual(t, cells, head)
				require.NotZero(t, cells)
			}
		case xml.CharData:
			require.NotContains(t, string(token), "NaN")
			require.NotContains(t, string(token), "%!")
		}
	}
	require.Empty(t, open)
	for _, foreign := range []string{"<script", "javascript:", "@import", "url(", "src=", "href=", "http://fonts", "https:"} {
		require.NotContains(t, page, foreign)
	}
}

// nextLevel is the deepest heading that may follow one.
func nextLevel(heading string) byte {
	if heading == "" {
		return '1'
	}
	return heading[1] + 1
}

// pages are both sheets in both units.
func pages(t *testing.T, record stages.Record) []string {
	var list []string
	for _, units := range []sheet.Units{sheet.SI, sheet.US} {
		for _, write := range []func(io.Writer, stages.Record, sheet.Settings) error{sheet.WriteHTML, sheet.WriteOperationHTML} {
			var out bytes.Buffer
			require.NoError(t, write(&out, record, sheet.Settings{Units: units, Project: `A & B <script>alert("1")</script>`, Revision: "C'"}))
			list = append(list, out.String())
		}
	}
	return list
}

func TestSheetsAreValidHTML(t *testing.T) {
	for _, bars := range []float64{1500e-6, 1e-6} {
		record, err := slab(bars)
		require.NoError(t, err)
		for _, page := range pages(t, record) {
			valid(t, page)
		}
	}
	for _, page := range pages(t, stored(t)) {
		valid(t, page)
	}
}

func TestMarkupInTextIsEscaped(t *testing.T) {
	record := stored(t)
	record.Element = "\"</style><script>x</script>\x00\\"
	record.Stages[0].Name = "<b>lift</b> & \"carry\""
	record.Stages[0].Situations[0].Name = record.Stages[0].Name
	record.Stages[0].Situations[0].Checks[0].Place = "</td></tr>"
	record.Weights[0].Mark = "]]> <g>"
	for _, page := range pages(t, record) {
		valid(t, page)
		require.Contains(t, page, "&lt;script&gt;alert(&#34;1&#34;)&lt;/script&gt;")
		require.Contains(t, page, "&lt;b&gt;lift&lt;/b&gt; &amp; &#34;carry&#34;")
	}
}

func TestSameRecordSameBytes(t *testing.T) {
	one, err := slab(1500e-6)
	require.NoError(t, err)
	two, err := slab(1500e-6)
	require.NoError(t, err)
	require.Equal(t, pages(t, one), pages(t, two))
}

func TestUSSheetHasNoMetricUnitAndNoTon(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, stored(t), sheet.Settings{Units: sheet.US}))
	body, _, found := strings.Cut(out.String(), " Sources\n") // a source is quoted as it stands
	require.True(t, found)
	body = regexp.MustCompile(`\([^()]*\)`).ReplaceAllString(body, "") // the metric value of a measure in words
	for _, unit := range []string{" kN", " MPa", " mm", " ton", "kN·m"} {
		require.NotContains(t, body, unit)
	}
	for _, unit := range []string{" kip", " ksi", " ft", " in", "kip·ft", " lb"} {
		require.Contains(t, body, unit)
	}
}
