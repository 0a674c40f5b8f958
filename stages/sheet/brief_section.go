package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// mostSections is up to how many sections or parts of the weight a brief calculation prints
// each of them by itself.
const mostSections = 4

// manySegments is true for a brief calculation with so many segments that their weights
// would hide the actions in an elevation.
func (a *author) manySegments() bool { return a.brief() && len(a.record.Weights) > mostSections }

// sectionsDrawn says which sections have a figure: all, and of many in a brief calculation
// the deepest and the shallowest.
func (a *author) sectionsDrawn() []bool {
	n := len(a.record.Outlines)
	drawn := slices.Repeat([]bool{true}, n)
	if !a.brief() || n <= mostSections {
		return drawn
	}
	least, most := 0, 0
	for i, d := range a.record.Outlines {
		drawn[i] = false
		if depthOf(d) < depthOf(a.record.Outlines[least])-nearJoint {
			least = i
		}
		if depthOf(d) > depthOf(a.record.Outlines[most])+nearJoint {
			most = i
		}
	}
	drawn[least], drawn[most] = true, true
	return drawn
}

// depthOf is the depth of a section, m.
func depthOf(d stages.Drawing) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, o := range d.Solids {
		for _, p := range o {
			low, high = math.Min(low, p.Z), math.Max(high, p.Z)
		}
	}
	return high - low
}

// outlinesTable are the outlines of many sections with the same number of corners: in full
// those of the first figure, of the others the corners that differ from it by half a millimetre,
// at both ends of a length on which they are the same.
func (a *author) outlinesTable() []block {
	first := slices.Index(a.sectionsDrawn(), true)
	base := a.record.Outlines[first]
	blocks := a.corners(base, " at x = "+a.units.place(base.X))
	corners := cornersOf(base)
	var vary []int // 2·corner for y, 2·corner + 1 for z
	for _, d := range a.record.Outlines {
		points := cornersOf(d)
		if len(points) != len(corners) {
			return append(blocks, paragraph{words("Outlines of the other sections have other corners: the record (JSON) has their coordinates.")})
		}
		for i, p := range points {
			for k, off := range [2]float64{p.Y - corners[i].Y, p.Z - corners[i].Z} {
				if math.Abs(off) > varying && !slices.Contains(vary, 2*i+k) {
					vary = append(vary, 2*i+k)
				}
			}
		}
	}
	slices.Sort(vary)
	length := a.units.in(formula.Metre).unit
	g := grid{columns: columnsOf(">x " + length)}
	var shown []int
	same := map[int][]string{} // by the first one that is the same throughout
	for _, v := range vary {
		k := slices.IndexFunc(shown, func(w int) bool { return v%2 == 1 && w%2 == 1 && a.sameCorner(v, w) })
		name := fmt.Sprintf("%s%d", [2]string{"y", "z"}[v%2], v/2+1)
		if k < 0 {
			shown, k = append(shown, v), len(shown)
		}
		same[shown[k]] = append(same[shown[k]], name)
	}
	for _, v := range shown {
		g.columns = append(g.columns, columnsOf(">"+strings.Join(same[v], " "))...)
	}
	x := a.units.aligned(formula.Metre)
	for i, d := range a.record.Outlines {
		if a.inPlateau(i) {
			continue
		}
		cells := []string{x.text(d.X)}
		for _, v := range shown {
			p := cornersOf(d)[v/2]
			cells = append(cells, x.text([2]float64{p.Y, p.Z}[v%2]))
		}
		g.rows = append(g.rows, row(cells...))
	}
	if len(g.rows) > 0 && len(shown) > 0 {
		g.caption = words("Outlines of the other sections, " + length + ": coordinates that differ by 0.5 mm or more from those in the table above, by corner; between the sections given each corner runs straight, every break is given")
		blocks = append(blocks, g)
	}
	return blocks
}

// inPlateau is true for a section that is the same as that before it and as that behind it: each
// corner runs straight through it. Of sections that are the same at one place the first counts.
func (a *author) inPlateau(i int) bool {
	list := a.record.Outlines
	if i == 0 || !sameSection(list[i], list[i-1]) {
		return false
	}
	return sameLength(list[i].X, list[i-1].X) || i+1 < len(list) && sameSection(list[i], list[i+1])
}

// varying is a difference of a coordinate that is printed for each section, m: half of the last
// figure, so that the outline recomputes to the millimetre.
const varying = 5e-4

// sameCorner is true for levels of two corners that are the same in every section.
func (a *author) sameCorner(v, w int) bool {
	return !slices.ContainsFunc(a.record.Outlines, func(d stages.Drawing) bool {
		points := cornersOf(d)
		return !sameLength(points[v/2].Z, points[w/2].Z)
	})
}

// weightSums are weight and centre of gravity as sums over many parts, without a term for
// each.
func (a *author) weightSums() []block {
	var g formula.Quantity
	text := prose{{symbol, "G"}}.and(plain, " = sum of the parts = ")
	for _, group := range a.record.Inputs {
		if !a.derivesWeight(group) {
			continue
		}
		for _, l := range a.linesOf(group.Lines) {
			switch q := l.Result; {
			case l.Expression == "" || strings.HasPrefix(q.Symbol, "G_"):
			case q.Symbol == "G":
				g = q
				text = text.and(plain, a.units.result(l))
			case q.Symbol == "m":
				text = text.and(plain, ", mass "+a.units.result(l))
			default:
				text = text.and(plain, "; "+q.Name+" = sum of part × place by ").and(symbol, g.Symbol).and(plain, " = "+a.units.result(l))
			}
		}
	}
	a.list().use("G")
	return []block{paragraph{text.and(plain, ".")}}
}

// elementsTable is one table of the data of many elements, and the groups that it does not
// have: a row for each element, a column for what differs; what all have in common is in its
// caption. An element is its group with those that follow it up to the next.
func (a *author) elementsTable(groups []stages.Group) ([]block, []stages.Group) {
	begins := func(g stages.Group) bool {
		lines := a.linesOf(g.Lines)
		return len(lines) > 1 && lines[0].Result.Symbol == "L" && lines[1].Result.Symbol == "Cast"
	}
	var elements []stages.Group
	n := 0
	for n < len(groups) && begins(groups[n]) && n+2 < len(groups) {
		elements = append(elements, stages.Group{Title: groups[n].Title, Lines: slices.Concat(groups[n].Lines, groups[n+1].Lines, groups[n+2].Lines)})
		n += 3
	}
	if len(elements) <= mostSections || slices.ContainsFunc(elements, func(g stages.Group) bool { return !a.alikeGroups(elements[0], g) }) {
		return nil, groups
	}
	common := words("Of all: ")
	var kept []int
	for k, l := range a.linesOf(elements[0].Lines) {
		if slices.ContainsFunc(elements, func(g stages.Group) bool { return a.linesOf(g.Lines)[k].Result.Value != l.Result.Value }) {
			kept = append(kept, k)
			continue
		}
		if len(common) > 1 {
			common = common.and(plain, "; ")
		}
		common = append(common.and(symbol, a.symbolOf(l.Result)).and(plain, " "), a.noted(a.units.words(l.Result.Name))...)
		common = common.and(plain, " "+a.units.quantity(l.Result.Value, l.Result.Unit)+a.references.behind(l.Source))
	}
	g := grid{caption: words("Elements, their concrete and gross section at mid-length: "), columns: columnsOf("")}
	for i, k := range kept {
		l := a.linesOf(elements[0].Lines)[k]
		g.columns = append(g.columns, column{prose{{symbol, a.symbolOf(l.Result)}}, true})
		if i > 0 {
			g.caption = g.caption.and(plain, "; ")
		}
		g.caption = append(g.caption.and(symbol, a.symbolOf(l.Result)).and(plain, " "), a.noted(a.units.words(l.Result.Name))...)
		g.caption = g.caption.and(plain, a.references.behind(l.Source))
	}
	for _, e := range elements {
		lines := a.linesOf(e.Lines)
		cells := row(strings.TrimPrefix(e.Title, "Element "))
		for _, k := range kept {
			cells = append(cells, words(a.units.quantity(lines[k].Result.Value, lines[k].Result.Unit)))
		}
		g.rows = append(g.rows, cells)
	}
	return []block{g, paragraph{common.and(plain, ".")}}, groups[n:]
}
