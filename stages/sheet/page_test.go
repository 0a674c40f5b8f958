package sheet

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pageOf is a page of one block as HTML, between the body and the foot.
func pageOf(blocks ...block) string {
	page := renderHTML(document{blocks: blocks})
	_, body, _ := strings.Cut(page, "<body>\n")
	body, _, _ = strings.Cut(body, `<p class="foot">`)
	return body
}

// Each block of a document as a page and as text.
func TestBlocksOfADocument(t *testing.T) {
	figures := drawings{[]figure{{name: "one", caption: "Cap <1>", svg: "<svg/>", wide: true}, {name: "two", caption: "not seen", svg: "<svg/>", titled: true}}}
	for _, c := range []struct {
		block          block
		html, markdown string
	}{
		{heading{level: 2, words: words("A & B")}, "<h2>A &amp; B</h2>\n", "## A &amp; B\n"},
		{heading{level: 1, words: words("A"), fresh: true}, `<h1 class="fresh">A</h1>` + "\n", "# A\n"},
		{heading{level: 4, words: words("A")}, "<h4>A</h4>\n", "**A**\n"},
		{paragraph{words("A").and(strong, " b ").and(faint, "c").and(raisedUp, "2").and(symbol, "σ_c")}, "<p>A<b> b </b><small>c</small><sup>2</sup>σ<sub>c</sub></p>\n", "A** b** c^(2)σ_c\n"},
		{alarm{words("STOP")}, `<p class="alarm">STOP</p>` + "\n", "**STOP**\n"},
		{list{points: pointsOf([]string{"a", "b<"})}, "<ul>\n<li>a</li>\n<li>b&lt;</li>\n</ul>\n", "- a\n- b&lt;\n"},
		{list{points: pointsOf([]string{"a"}), columns: 2}, `<ul class="two">` + "\n<li>a</li>\n</ul>\n", "- a\n"},
		{list{}, "", ""},
		{calculation{lines: []prose{words("a"), words("b")}}, "<div class=\"lines\">\n<p>a</p>\n<p>b</p>\n</div>\n", "- a\n- b\n"},
		{calculation{}, "", ""},
		{form{columns: 2, pairs: [][2]string{{"a", "1"}, {"b<", ">"}, {"c", ""}}}, "<table class=\"form\"><tbody>\n<tr><th>a</th><td>1</td><th>b&lt;</th><td>&gt;</td></tr>\n<tr><th>c</th><td></td></tr>\n</tbody></table>\n", "| | |\n|---|---|\n| a | 1 |\n| b&lt; | &gt; |\n| c |  |\n"},
		{figures, "<div class=\"beside\">\n<figure class=\"column\"><svg/><figcaption>Cap &lt;1&gt;</figcaption></figure>\n<figure class=\"half\"><svg/></figure>\n</div>\n", "![Cap &lt;1&gt;](p-one.svg)\n![not seen](p-two.svg)\n"},
		{beside{columns: [][]block{{paragraph{words("l")}}, nil, {paragraph{words("r")}}}}, "<div class=\"beside\">\n<div class=\"column\">\n<p>l</p>\n</div>\n<div class=\"column\">\n<p>r</p>\n</div>\n</div>\n", "l\n\nr\n"},
		{beside{columns: [][]block{{paragraph{words("l")}}}, long: true}, "<div class=\"beside long\">\n<div class=\"column\">\n<p>l</p>\n</div>\n</div>\n", "l\n"},
		{part{name: "stage-1", blocks: []block{paragraph{words("a")}}}, "<div class=\"stage-1\">\n<p>a</p>\n</div>\n", "a\n"},
	} {
		require.Equal(t, c.html, pageOf(c.block))
		markdown, _, found := strings.Cut(renderMarkdown(document{blocks: []block{c.block}}, "p-"), "\n---\n")
		require.True(t, found || c.markdown == "")
		require.Equal(t, strings.TrimSpace(c.markdown), strings.TrimSpace(strings.TrimPrefix(markdown, "---")))
	}
}

// numbers is a table of so many rows of one number in the last of so many columns.
func numbers(columns, rows int) grid {
	titles := make([]string, columns)
	titles[columns-1] = ">n"
	g := grid{columns: columnsOf(titles...)}
	for i := range rows {
		cells := make([]string, columns)
		cells[columns-1] = fmt.Sprint(i)
		g.rows = append(g.rows, row(cells...))
	}
	return g
}

// A table has its head, numbers to the right, and the row that stands out.
func TestATable(t *testing.T) {
	g := numbers(2, 3)
	g.caption, g.strong = words("C"), 2
	page := pageOf(g)
	require.Contains(t, page, "<caption>C</caption>\n<thead><tr><th></th><th class=\"right\">n</th></tr></thead>")
	require.Contains(t, page, `<tr><td></td><td class="right">0</td></tr>`+"\n"+`<tr class="worst"><td></td><td class="right">1</td></tr>`+"\n"+`<tr><td></td><td class="right">2</td></tr>`)
	markdown := renderMarkdown(document{blocks: []block{g}}, "")
	require.Contains(t, markdown, "**C**\n\n|  | n |\n|---|---:|\n|  | 0 |\n|  | **1** |\n|  | 2 |\n")
	g.open = true
	require.Contains(t, pageOf(g), `<table class="open">`)
	g.open, g.small = false, true
	require.Contains(t, pageOf(g), `<table class="small">`)
}

// A long table is set in parts beside each other, each with its head, and no row is lost
// or stands twice.
func TestADenseTableKeepsItsRows(t *testing.T) {
	cell := regexp.MustCompile(`<td class="right">(\d+)</td>`)
	for _, columns := range []int{2, 6, 7} {
		for rows := range 12 {
			g := numbers(columns, rows)
			g.dense = true
			page := pageOf(g)
			found := cell.FindAllStringSubmatch(page, -1)
			require.Len(t, found, rows)
			for i, m := range found {
				require.Equal(t, fmt.Sprint(i), m[1])
			}
			parts := map[bool]int{true: 3, false: 2}[columns <= 6]
			require.LessOrEqual(t, strings.Count(page, "<thead>"), parts)
			if rows >= 6 {
				require.Equal(t, parts, strings.Count(page, "<thead>"))
			}
		}
	}
}

// Short lines run beside each other; one that begins in bold opens a row of its own.
func TestRunningLines(t *testing.T) {
	page := pageOf(calculation{running: true, lines: []prose{words("a"), bold("B").and(plain, " is"), words("c"), words("d")}})
	require.Equal(t, "<div class=\"lines\">\n<p class=\"row\"><span>a</span> </p>\n<p class=\"first\"><b>B</b> is</p>\n<p class=\"row\"><span>c</span> <span>d</span> </p>\n</div>\n", page)
	require.False(t, opens(bold("B")), "a result alone does not head the next")
}

// What a printed sheet rests on: A4, heads of tables on each page, rows and figures that
// are not parted, a foot with the page of all pages, new pages where they are asked for.
func TestRulesForPrinting(t *testing.T) {
	page := renderHTML(document{title: "T", foot: "F"})
	for _, rule := range []string{
		"@page { size: A4; margin: 8mm 9mm 10mm 14mm; }", "thead { display: table-header-group; }", "tr { break-inside: avoid; }", "figure { margin: 0.6mm 0; break-inside: avoid; }",
		".fresh { break-before: page; }", `@bottom-left { content: "F";`, `@bottom-right { content: "page " counter(page) " of " counter(pages);`, "color: #000; background: #fff;", "@media print { .foot { display: none; } }",
		`.alarm { border: 1.6pt solid #000;`,
	} {
		require.Contains(t, page, rule)
	}
}

// Each operation is on pages of its own: all but the first begin a new one, each with
// the foot of its stage, and the body is set for the site.
func TestEachOperationHasItsPage(t *testing.T) {
	a := passed(t, Settings{})
	page := renderHTML(a.operations())
	require.Contains(t, page, `<body class="site">`)
	require.Equal(t, 3, strings.Count(page, "<h1"))
	require.Equal(t, 2, strings.Count(page, `<h1 class="fresh">`))
	for i, name := range []string{"store", "lift", "set down"} {
		require.Contains(t, page, fmt.Sprintf(".stage-%d { page: stage-%d; }", i+1, i+1))
		require.Contains(t, page, fmt.Sprintf(`@page stage-%d { @bottom-left { content: "Operation sheet %d of 3\00003a  %s, element G-3, fingerprint %s";`, i+1, i+1, name, a.fingerprint))
	}
	require.Contains(t, renderHTML(passed(t, Settings{}).calculation()), "<body>\n")
}

// Powers of ten and indices are set as an engineer writes them.
func TestTypesetWords(t *testing.T) {
	require.Equal(t, "1.2·10<sup>−7</sup> m", htmlText(words("1.2·10^−7 m")))
	require.Equal(t, "<b>1.2·10<sup>9</sup></b>", htmlText(bold("1.2·10^9")))
	require.Equal(t, "σ<sub>c,max</sub>", symbolHTML("σ_c_max"))
	for _, whole := range []string{"σ", "_c", "σ_"} {
		require.Equal(t, whole, symbolHTML(whole))
	}
	require.Equal(t, "&lt;b&gt;<sub>&amp;</sub>", symbolHTML("<b>_&"))
}
