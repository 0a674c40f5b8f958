package sheet

import (
	"encoding/xml"
	"fmt"
	"io"
	"math/rand/v2"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// Texts that a document could take for markup, a path or a rule.
const hostile = `</style></td><script>x("1")</script>&amp;'` + "\x00\x1b\uFFFE `*|]( \\ <!-- --> ]]> ${x} %s %!d(x) @page{}\n# h"

// rich is [rectangle] with every block of both sheets filled.
func rich(r *stages.Record) {
	stressed(r)
	withCables(r)
	sagging(r)
	s := &r.Stages[0].Situations[0]
	s.Stations = s.Diagram
	s.Loads = []stages.Load{{Mark: "form", Centre: 5, Force: 4e3, Presence: always}}
	s.Concrete = []int{1}
	s.NotChecked = []string{"a place"}
	s.HoldPoints = []derive.HoldPoint{strengthPoint(20e6), {Kind: "document", Document: &derive.Document{Number: "TW-1", Revision: "A", Status: "approved"}}}
	s.Checks[0].State, s.Checks[0].Condition, s.Checks[0].Note = stages.Conditional, "a condition", "a note"
	s.Checks[0].Source, s.Checks[0].Lines, s.Checks[0].Factors = formula.Source{Document: "a book", Place: "p. 1"}, []int{2}, []stages.Factor{{Cause: "weight", Value: 1.03}}
	s.Figures = []stages.Figure{{Title: "a figure", XUnit: "m", YUnit: "N", Lines: []stages.Polyline{{Name: "a line", Points: [][2]float64{{0, 0}, {1, 1}}}}, Texts: []stages.Text{{Text: "a text"}}}}
	s.Reactions[0].Group, s.Supports[0].Group = "a group", "a group"
	s.Equipment = []stages.EquipmentItem{{Mark: "P1", Kind: stages.Pier, Supports: []int{1}, Outline: [][][2]float64{{{1, -1}, {1, -0.4}, {3, -0.4}}}, Facts: []stages.Fact{{Name: "level", Value: 8.2, Unit: formula.Metre}, {Name: "access", Text: "a stair"}, {Name: "a fact", Text: "a statement"}}}, {Mark: "C1", Kind: stages.Crane, Outline: [][][2]float64{{{1, 0}, {9, 30}}}}}
	r.Tendons = []stages.TendonRecord{{Mark: "A", Strands: 7, Points: []stages.PathPoint{{X: 0, Z: 1}, {X: 10, Z: 0.5, Length: 10.01}}}, {Mark: "B", Strands: 7}, {Mark: "C", Strands: 7}}
	r.Inputs = []stages.Group{{Title: "inputs", Lines: []int{1}}}
	r.Appendix = []stages.Group{{Title: "creep", Lines: []int{2}}}
	r.Sections = []derive.Section{{Number: 1, Name: "a state", X: 10, A: 1.5, Z: 0.75, Iy: 0.28, Iz: 0.125}}
	r.Flows = []derive.Flow{{Number: 1, Wall: derive.Wall{Name: "a cut"}, X: 10, Vz: 1}}
}

// rendered are both sheets in both forms.
func rendered(a *author) map[string]string {
	calculation, operations := a.calculation(), a.operations()
	return map[string]string{
		"calculation.html": renderHTML(calculation), "calculation.md": renderMarkdown(calculation, ""),
		"operation.html": renderHTML(operations), "operation.md": renderMarkdown(operations, ""),
	}
}

// wellFormedPage requires that a page is well-formed as XML and has no element or
// attribute that a sheet does not write.
func wellFormedPage(t *testing.T, page, name string) {
	decoder := xml.NewDecoder(strings.NewReader(page))
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return
		}
		require.NoError(t, err, name)
		if e, ok := token.(xml.StartElement); ok {
			require.NotContains(t, []string{"script", "iframe", "object", "link", "a", "img"}, e.Name.Local, name)
			for _, at := range e.Attr {
				require.False(t, strings.HasPrefix(at.Name.Local, "on"), "%s of %s", at.Name.Local, name)
			}
		}
	}
}

// Whatever stands in the words of the record or of the settings, no sheet takes it for
// markup, and no page breaks: half of the words at a time are hostile.
func TestNoWordOfTheRecordIsMarkup(t *testing.T) {
	rows := strings.Count(rendered(passed(t, Settings{}, rich))["calculation.html"], "<tr")
	random, hit, words := rand.New(rand.NewPCG(5, 2)), map[string]bool{}, map[string]bool{}
	for range 9 {
		record := rectangle()
		rich(&record)
		leaves(reflect.ValueOf(&record).Elem(), "", func(path string, v reflect.Value) {
			fixed := strings.Contains(path, "Symbol") || strings.Contains(path, "Unit") && !strings.Contains(path, "Figures") || strings.HasSuffix(path, ".State") || strings.HasSuffix(path, ".Direction") || strings.HasSuffix(path, ".Expression")
			if v.Kind() != reflect.String || fixed {
				return
			}
			words[path] = true
			if random.IntN(2) > 0 {
				hit[path] = true
				v.SetString(hostile)
			}
		})
		a, err := newAuthor(record, Settings{Project: hostile, Revision: hostile})
		require.NoError(t, err)
		pages := rendered(a)
		for name, page := range pages {
			for _, bad := range []string{"<script", "<!--", "\x00", "\x1b", "\uFFFE"} {
				require.NotContains(t, page, bad, name)
			}
			require.Contains(t, page, "&lt;script&gt;x(", name)
			if strings.HasSuffix(name, "html") {
				require.Equal(t, 1, strings.Count(page, "</style>"), name)
				wellFormedPage(t, page, name)
			}
			require.NotRegexp(t, `(?m)^#+ h$`, page, name)
		}
		require.InDelta(t, rows, strings.Count(pages["calculation.html"], "<tr"), 12, "no row is lost or made")
	}
	require.Equal(t, words, hit, "each word was hostile once")
	require.Greater(t, len(words), 40)
}

// What is escaped is the same word: nothing of it is lost but what no document holds.
func TestEscapedWordsAreTheSameWords(t *testing.T) {
	require.Equal(t, "&lt;b&gt; &amp; &#34;c&#34; &#39;d&#39;", escapeHTML(`<b> & "c" 'd'`))
	require.Equal(t, `a\|b &lt;c&gt; &amp; \*d\* \`+"`e\\` f\\]\\(g) \\\\h", escapeMarkdown("a|b <c> & *d* `e` f](g) \\h"))
	require.Equal(t, "one two three", legible("one\ntwo\tthree"))
	require.Equal(t, "ab?c", legible("a\x00b\xffc"))
	require.Equal(t, `Stage 1\00003a  \00003c b\00003e  \0000b1  (2.3)-4,`, escapeCSS("Stage 1: <b> ± (2.3)-4,"))
}

// A word of two thousand letters is printed whole in text, and cut in a legend.
func TestVeryLongWords(t *testing.T) {
	long := strings.Repeat("Ä<&", 700)
	a := passed(t, Settings{Project: long}, rich, func(r *stages.Record) {
		r.Element, r.Stages[0].Name = long, long
		s := &r.Stages[0].Situations[0]
		s.Name, s.Checks[0].Name, s.Checks[0].Place, s.Loads[0].Mark, s.Figures[0].Lines[0].Name, s.Tendons[0].Mark, s.HoldPoints[1].Document.Number = long, long, long, long, long, long, long
		r.Weights[0].Mark, r.Tendons[0].Mark, r.Tendons[0].Points = long, long, nil
	})
	for name, page := range rendered(a) {
		require.Contains(t, page, strings.Repeat("Ä&lt;&amp;", 700), name)
		if strings.HasSuffix(name, "html") {
			wellFormedPage(t, page, name)
		}
	}
	require.LessOrEqual(t, len(fileName(long)), 67)
}

// Forty stages of three situations: each has its page with its number and its own name,
// and none its numbers from another.
func TestManyStages(t *testing.T) {
	a := passed(t, Settings{}, func(r *stages.Record) {
		one := r.Stages[0]
		r.Stages = nil
		for i := range 40 {
			stage := one
			stage.Number, stage.Name, stage.Age, stage.Situations = i+1, fmt.Sprintf("step %d", i+1), float64(i), nil
			for k := range 3 {
				s := one.Situations[0]
				s.Name, s.Age, s.Day, s.Total.Most = fmt.Sprintf("step %d, part %d", i+1, k+1), float64(i), float64(i), 773e3+1e3*float64(3*i+k)
				stage.Situations = append(stage.Situations, s)
			}
			r.Stages = append(r.Stages, stage)
		}
	})
	pages := operationPages(a)
	require.Len(t, pages, 40)
	for i, page := range pages {
		require.True(t, strings.HasPrefix(page, fmt.Sprintf("%d of 40: step %d\n", i+1, i+1)))
		for k := range 3 {
			require.Contains(t, page, fmt.Sprintf("- **%d.%d step %d, part %d**, ", i+1, k+1, i+1, k+1))
			require.Contains(t, page, fmt.Sprintf("| **727** | **%d** |", 773+3*i+k))
		}
		require.NotContains(t, page, fmt.Sprintf("step %d, part 1", i+2))
	}
	require.Equal(t, 40, strings.Count(renderHTML(a.operations()), `<div class="stage-`))
}

// No value that is not a number, and no fault of a format, is on any page, however large
// or small half of the numbers of the record are.
func TestNoPageHasWhatIsNoNumber(t *testing.T) {
	faults := regexp.MustCompile(`NaN|\bInf\b|%!|<nil>`)
	random := rand.New(rand.NewPCG(3, 9))
	for _, extreme := range []float64{0, 5e-324, 1e12, -1e300, 1.7e308} {
		record := rectangle()
		rich(&record)
		leaves(reflect.ValueOf(&record).Elem(), "", func(path string, v reflect.Value) {
			if v.Kind() == reflect.Float64 && !strings.Contains(path, "Lists") && random.IntN(2) > 0 {
				v.SetFloat(extreme)
			}
		})
		a, err := newAuthor(record, Settings{Units: US}) // its factors make large numbers larger
		require.NoError(t, err)
		for name, page := range rendered(a) {
			require.False(t, faults.MatchString(page), "%q in %s with %g", faults.FindString(page), name, extreme)
		}
	}
}

// A value that overflows in another unit is unknown, not zero: 1.7e308 kg in pounds.
func TestAnOverflowIsNotZero(t *testing.T) {
	require.Equal(t, "n/e lb", US.quantity(1.7e308, formula.Kilogram))
	require.Equal(t, "n/e ft", US.place(1.7e308))
	require.Equal(t, "n/e", US.aligned(formula.Kilogram).text(1.7e308))
	require.Equal(t, "n/e", minus("NaN"))
	require.Equal(t, "0 m", SI.quantity(5e-324, formula.Metre)[:1]+" m", "nothing")
}
