package sheet

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// figureWords say once what the figures of each situation show.
const figureWords = "Figures: elevations have length and depth to the same scale where nothing else is said, plans are seen from above, their width not to scale; M about the centroid of the gross section and V, from self-weight and actions always present, nominal, from the mean prestress (V its vertical part) and in total; " +
	"stresses minimum and maximum over all service factors, every tendon in full (near anchors checks take any part of one that has not spread: a dot beside the curve), with the limits at that age, hatched beyond the limit; " +
	"reactions R characteristic with dynamic factors, minimum to maximum."

// basis is how the numbers were got and with which signs, and the partial factors.
func (a *author) basis() []block {
	points := append(slices.Clone(a.record.Basis), figureWords)
	blocks := []block{heading{level: 2, words: words("Basis, signs")}, list{points: a.notedAll(points), columns: 2}}
	return append(blocks, a.partialFactors()...)
}

// notedAll are points in which symbols are set as such.
func (a *author) notedAll(texts []string) []prose {
	points := make([]prose, len(texts))
	for i, text := range texts {
		points[i] = a.noted(text)
	}
	return points
}

// partialFactors are those of the checks, with the clause that gives them.
func (a *author) partialFactors() []block {
	if len(a.record.Factors) == 0 {
		return nil
	}
	g := grid{caption: words("Partial factors, minimum to maximum; weight tolerance and dynamic factor stand with each stage"),
		columns: columnsOf("Basis", "Checks", "Weight", "Prestress", "Variable actions", "Actions with factors of their own", "Source")}
	for _, f := range a.record.Factors {
		kinds := make([]string, len(f.Checks))
		for i, k := range f.Checks {
			kinds[i] = string(k)
		}
		own := make([]string, len(f.Actions))
		for i, k := range f.Actions {
			own[i] = string(k.Kind) + " " + rangeOf(k.Factor)
		}
		source := words(none)
		if f.Source != (formula.Source{}) {
			source = append(words(a.references.source(f.Source)+" "), a.noted(f.Source.Place)...)
		}
		g.rows = append(g.rows, append(row(f.LimitState, strings.Join(kinds, ", "), rangeOf(f.Weight), rangeOf(f.Prestress), rangeOf(f.Variable), strings.Join(own, ", ")), source))
	}
	return append([]block{heading{level: 2, words: words("Partial factors")}, g}, a.factorNotes()...)
}

// factorNotes are the reasons for partial factors, each once.
func (a *author) factorNotes() []block {
	var notes []string
	for _, f := range a.record.Factors {
		if f.Note != "" && !slices.Contains(notes, f.LimitState+", "+f.Note) {
			notes = append(notes, f.LimitState+", "+f.Note)
		}
	}
	if len(notes) == 0 {
		return nil
	}
	return []block{paragraph{a.noted(a.units.words(strings.Join(notes, "; ") + "."))}}
}

// materials are what was put in, but the weight. Groups of the same quantities, such as
// tendons or bars, are one table.
func (a *author) materials() []block {
	blocks := []block{heading{level: 2, words: words("Materials and section")}}
	a.known = maps.Clone(a.inputsKnown)
	var short []block // small tables, set beside each other
	groups := a.record.Inputs
	if a.brief() {
		var elements []block
		elements, groups = a.elementsTable(groups)
		blocks = append(blocks, elements...)
	}
	for len(groups) > 0 {
		n := 1
		for n < len(groups) && a.alikeGroups(groups[0], groups[n]) {
			n++
		}
		switch {
		case a.derivesWeight(groups[0]):
		case n > 1 && len(groups[0].Lines) > 2:
			blocks = append(blocks, a.groupTable(groups[:n]))
		case n > 1:
			short = append(short, a.groupTable(groups[:n]))
		default:
			short = append(short, a.groupLines(groups[0])...)
		}
		groups = groups[n:]
	}
	blocks = append(blocks, halves(short)...)
	for _, group := range a.record.Inputs { // from here on the inputs are known
		for _, l := range a.linesOf(group.Lines) {
			a.inputsKnown[l.Result.Symbol+" = "+l.Expression] = l.Result.Value
		}
	}
	return blocks
}

// halves are tables in two columns of about the same number of rows, in order.
func halves(tables []block) []block {
	rows := func(list []block) (n int) {
		for _, b := range list {
			n += 2 + len(b.(grid).rows)
		}
		return n
	}
	if len(tables) < 2 {
		return tables
	}
	k := 1
	for k < len(tables)-1 && rows(tables[:k+1]) <= rows(tables[k+1:])+2 {
		k++
	}
	return []block{beside{columns: [][]block{tables[:k], tables[k:]}, long: true}}
}

// derivesWeight is true for the group whose lines add up the weight.
func (a *author) derivesWeight(group stages.Group) bool {
	return slices.ContainsFunc(a.linesOf(group.Lines), func(l formula.Line) bool { return l.Result.Symbol == "G" && l.Expression != "" })
}

// alikeGroups is true for groups of given values of the same quantities.
func (a *author) alikeGroups(g, other stages.Group) bool {
	lines, others := a.linesOf(g.Lines), a.linesOf(other.Lines)
	return len(lines) > 0 && slices.EqualFunc(lines, others, func(l, m formula.Line) bool {
		return l.Result.Symbol == m.Result.Symbol && l.Result.Unit == m.Result.Unit && l.Expression == "" && m.Expression == ""
	})
}

// groupTable is a table with a row for each group and a column for each quantity.
func (a *author) groupTable(groups []stages.Group) block {
	titles := make([]string, len(groups))
	for i, group := range groups {
		titles[i] = a.units.words(group.Title)
	}
	kind := commonWords(titles)
	g := grid{caption: words(strings.TrimSpace(kind) + ": "), columns: columnsOf("")}
	for i, l := range a.linesOf(groups[0].Lines) {
		g.columns = append(g.columns, column{prose{{symbol, a.symbolOf(l.Result)}}, true})
		if i > 0 {
			g.caption = g.caption.and(plain, "; ")
		}
		g.caption = append(g.caption.and(symbol, a.symbolOf(l.Result)).and(plain, " "), a.noted(a.units.words(a.sharedName(groups, i)))...)
	}
	g.columns = append(g.columns, columnsOf("Source")...)
	for i, group := range groups {
		cells, marks := row(strings.TrimPrefix(titles[i], kind)), ""
		for k, l := range a.linesOf(group.Lines) {
			own := strings.TrimPrefix(l.Result.Name, a.sharedName(groups, k))
			cells = append(cells, words(strings.TrimSpace(a.units.quantity(l.Result.Value, l.Result.Unit)+" "+own)))
			if source := a.references.behind(l.Source); !strings.Contains(marks, source) {
				marks += source
			}
		}
		g.rows = append(g.rows, append(cells, words(strings.TrimLeft(marks, " ;"))))
	}
	return g
}

// sharedName is what the names of a quantity in all groups have in common.
func (a *author) sharedName(groups []stages.Group, line int) string {
	names := make([]string, len(groups))
	for i, group := range groups {
		names[i] = a.linesOf(group.Lines)[line].Result.Name
	}
	if len(slices.Compact(slices.Clone(names))) == 1 {
		return names[0]
	}
	return commonWords(names)
}

// commonWords are the words with which all texts begin.
func commonWords(texts []string) string {
	common := texts[0]
	for _, t := range texts {
		for !strings.HasPrefix(t, common) {
			common = common[:strings.LastIndexByte(strings.TrimRight(common, " "), ' ')+1]
		}
	}
	return common[:strings.LastIndexByte(common, ' ')+1]
}

// groupLines are a group of its own: symbol, meaning, value, source.
func (a *author) groupLines(group stages.Group) []block {
	g := grid{columns: columnsOf("Symbol", "Meaning", ">Value", "Source")}
	if group.Title != "" {
		g.caption = words(a.units.words(group.Title))
	}
	for _, l := range a.linesOf(group.Lines) {
		what := prose{{symbol, a.symbolOf(l.Result)}}
		value := a.units.quantity(l.Result.Value, l.Result.Unit)
		if l.Expression != "" {
			formula, numbers, result := a.parts(l, a.units.quantity)
			what, value = append(formula.and(plain, " = "), numbers...), result
		}
		name := a.noted(a.units.words(l.Result.Name))
		if l.Note != "" {
			name = append(name.and(plain, "; "), a.noted(a.units.words(l.Note))...)
		}
		g.rows = append(g.rows, []prose{what, name, words(value), words(strings.TrimLeft(a.references.behind(l.Source), " ;"))})
	}
	if len(g.rows) == 0 {
		return nil
	}
	return []block{g}
}

// weightsKey is the key of the parts of the self-weight.
const weightsKey = "weights"

// weights are the parts of the self-weight, then how they add up.
func (a *author) weights() []block {
	if len(a.record.Weights) == 0 {
		return nil
	}
	force := a.units.aligned(formula.Newton, forcesOf(a.record.Weights)...)
	x := a.units.aligned(formula.Metre)
	length, unit := a.units.in(formula.Metre).unit, a.units.in(formula.Newton).unit
	g := grid{key: weightsKey, caption: words("Parts of the self-weight, nominal"), columns: columnsOf("", "Part", ">from "+length, ">to "+length, ">centre x "+length, ">y "+length, ">z "+length, ">"+unit)}
	for i, w := range a.record.Weights {
		g.rows = append(g.rows, row(fmt.Sprint(i+1), w.Mark, x.text(w.From), x.text(w.To), x.text(w.Centre), x.text(w.Y), x.text(w.Z), force.text(w.Force)))
	}
	blocks := []block{heading{level: 2, words: words("Self-weight, nominal")}, g}
	if a.manySegments() {
		return append(blocks, a.weightSums()...)
	}
	for _, group := range a.record.Inputs {
		if a.derivesWeight(group) {
			l := a.newLedger("Self-weight and centre of gravity, nominal", asRounded)
			for _, line := range a.linesOf(group.Lines) {
				if line.Expression != "" { // what is given stands in the table
					l.row(0, line)
				}
			}
			blocks = append(blocks, l.blocks()...)
		}
	}
	return blocks
}

func forcesOf(loads []stages.Load) []float64 {
	forces := make([]float64, len(loads))
	for i, l := range loads {
		forces[i] = l.Force
	}
	return forces
}
