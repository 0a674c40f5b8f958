package sheet

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// headings are the headings of a page with their level.
func headings(page string) []string {
	return regexp.MustCompile(`(?m)^#{1,2} .*$`).FindAllString(page, -1)
}

// The calculation comes in the order in which it is checked: what comes out, drawings,
// what it rests on, each stage, and what derives the numbers behind all of it.
func TestTheOrderOfTheCalculation(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	page := renderMarkdown(a.calculation(), "")
	require.Equal(t, []string{
		"# Temporary stages of element S-1", "## Governing check of each stage", "## Drawings", "## Basis, signs", "## Partial factors", "## Materials and section", "## Self-weight, nominal", "## Tendons",
		"## Stage 1: transfer of prestress, age 3 d", "## Stage 2: stressing, age 4 d", "## Stage 3: lift, age 5 d", "## Stage 4: seat, age 28 d",
		"# Appendix", "## A1 Internal forces and stresses", "## A2 Movements", "## A3 Losses and forces of tendons", "## A4 Concrete strength (what does not change is not repeated)", "## A5 Derivation of the checks",
		"## A6 Section properties and wall sections", "## A7 Symbols", "## A8 Sources",
	}, headings(page))
	caution, result, exclusions := strings.Index(page, "**Caution**"), strings.Index(page, "**Result: "), strings.Index(page, "**Exclusions: not checked here**")
	require.True(t, 0 < caution && caution < result && result < exclusions && exclusions < strings.Index(page, "## Governing"), "above the fold")
}

// The appendix begins on a page of its own, and only it does.
func TestTheAppendixBeginsAPage(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	page := renderHTML(a.calculation())
	require.Equal(t, 1, strings.Count(page, `class="fresh"`))
	require.Contains(t, page, `<h1 class="fresh">Appendix</h1>`)
	main, appendix, _ := strings.Cut(page, `<h1 class="fresh">Appendix</h1>`)
	require.NotContains(t, main, "Lines of check", "lines by number derive checks: they are in the appendix")
	require.NotContains(t, main, "Internal forces and stresses: nominal")
	require.NotContains(t, appendix, ": Checks, ")
}

// What stands in the main part of a stage: facts, reactions, tendon forces where they
// changed, checks.
func TestAStageOfTheCalculation(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	page := renderMarkdown(a.calculation(), "x-")
	_, stage, _ := strings.Cut(page, "## Stage 1: ")
	stage, _, _ = strings.Cut(stage, "## Stage 2: ")
	last := 0
	for _, words := range []string{"**Age:** 3 d", "elevation.svg", ": Reactions kN", "**Stressing and grouting**", ": Tendon forces at this stage**", "moment.svg", "shear.svg", "top.svg", "bottom.svg", ": Checks"} {
		at := strings.Index(stage, words)
		require.Greater(t, at, last, words)
		last = at
	}
	for _, words := range []string{"Losses at mid-length", "tendons.svg", "f_ctm = "} {
		require.NotContains(t, stage, words)
		require.Contains(t, page, words)
	}
}

// The factors of the checks stand with their clause; kinds of action with their own.
func TestPartialFactorsAndTheirClauses(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	rows := a.partialFactors()[1].(grid).rows
	require.Len(t, rows, len(a.record.Factors))
	for i, f := range a.record.Factors {
		require.Equal(t, f.LimitState, rows[i][0].raw())
		require.Equal(t, len(f.Checks)-1, strings.Count(rows[i][1].raw(), ", "))
		require.Equal(t, []string{rangeOf(f.Weight), rangeOf(f.Prestress), rangeOf(f.Variable)}, []string{rows[i][2].raw(), rows[i][3].raw(), rows[i][4].raw()})
		for _, own := range f.Actions {
			require.Contains(t, rows[i][5].raw(), string(own.Kind)+" "+rangeOf(own.Factor))
		}
		require.Contains(t, rows[i][6].raw(), f.Source.Place)
	}
	require.Nil(t, (&author{record: stages.Record{}}).partialFactors())
}

// Every table of the calculation has a number of its own, and those to which the checks
// refer are there.
func TestEveryTableHasANumber(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	var captions []string
	var walk func([]block)
	walk = func(blocks []block) {
		for _, b := range blocks {
			switch b := b.(type) {
			case grid:
				if !strings.HasPrefix(b.caption.raw(), "Lines of check ") { // their lines have numbers
					captions = append(captions, b.caption.raw())
				}
			case beside:
				for _, column := range b.columns {
					walk(column)
				}
			}
		}
	}
	d := a.calculation()
	walk(d.blocks)
	seen := map[string]bool{}
	for _, caption := range captions {
		number := regexp.MustCompile(`^Table (M\d+|A\d+\.\d+): .`).FindString(caption)
		require.NotEmpty(t, number, "%q", caption)
		require.False(t, seen[number], number)
		seen[number] = true
	}
	require.Greater(t, len(captions), 40)
	page := renderMarkdown(d, "")
	_, at, found := strings.Cut(page, "Section properties and unit stresses of wall sections by number: ")
	require.True(t, found)
	chapter, _, _ := strings.Cut(at, ".")
	require.Contains(t, page, "## "+chapter+" "+sectionChapter)
	cited := regexp.MustCompile(`\| (Table A[\d.]+: .)`).FindAllStringSubmatch(page, -1)
	require.NotEmpty(t, cited)
	for _, table := range cited {
		require.True(t, seen[table[1]], table[0])
	}
}

// Every figure of the calculation has a number in order, in its caption or in the drawing,
// and text that refers to a figure or a table has its number.
func TestEveryFigureHasANumber(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	d := a.calculation()
	figures := figuresIn(d.blocks)
	page := renderHTML(d)
	require.Greater(t, len(figures), 10)
	for i, f := range figures {
		number := fmt.Sprintf("Figure %d", i+1)
		require.True(t, strings.HasPrefix(f.caption, number+": "), f.caption)
		require.Contains(t, f.svg, "<title>"+number+": ")
		require.NotContains(t, f.svg, unnumbered)
		if f.titled {
			drawn := regexp.MustCompile(number + `</text>`).MatchString(f.svg)
			require.True(t, drawn || strings.Contains(page, number+": actions and reactions."), f.name)
		}
	}
	require.Contains(t, page, "corners as numbered in Figure 2")
	require.Contains(t, page, "WS as in Figure 2")
	require.NotRegexp(t, `\b(in|with) [,.:]`, page, "a reference to nothing")
	for _, operation := range operationPages(a) {
		require.NotContains(t, operation, unnumbered)
	}
}

// A table of few checks is not parted between pages; a longer one is, and has its head again.
func TestATableOfChecksStaysTogether(t *testing.T) {
	of := func(rows int) string {
		g := grid{caption: words("Checks"), columns: columnsOf("", "Check"), checks: true}
		for range rows {
			g.rows = append(g.rows, row("A", "compression"))
		}
		return renderHTML(document{blocks: []block{g}})
	}
	require.Contains(t, of(shortChecks), "<div class=\"kept\">\n<table class=\"checks\">")
	require.NotContains(t, of(shortChecks+1), `<div class="kept">`)
	require.Contains(t, of(shortChecks+1), "<thead>")
}
