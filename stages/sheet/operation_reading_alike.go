package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// alikeReadings is true for several situations of whose supports at most half have bands of
// their own: their bands are in one table and their readings in others, one for those on the
// same supports.
func (a *author) alikeReadings(list []resting) bool {
	if len(list) < 2 {
		return false
	}
	rows, all := 0, 0
	for _, of := range list {
		s := of.situation
		if suspended(s) || slices.ContainsFunc(s.Reactions, func(r stages.Reaction) bool { return r.Body < 0 || r.Body > len(s.Bodies) }) {
			return false
		}
		rows, all = rows+len(a.alikeIn(s)), all+len(s.Reactions)
	}
	return 2*rows <= all
}

// standingAlike are situations in their order, those after one another on the same supports together.
func standingAlike(list []resting) (sets [][]resting) {
	for i, of := range list {
		if i == 0 || !samePlaces(of.situation, list[i-1].situation) || len(of.situation.Reactions) != len(list[i-1].situation.Reactions) {
			sets = append(sets, nil)
		}
		sets[len(sets)-1] = append(sets[len(sets)-1], of)
	}
	return sets
}

// alikeIn are the supports of a situation, from 0, those of one body with the same bands together.
func (a *author) alikeIn(s stages.SituationRecord) [][]int {
	var sets [][]int
	for k, r := range s.Reactions {
		at := slices.IndexFunc(sets, func(set []int) bool {
			o := s.Reactions[set[0]]
			return o.Body == r.Body && o.Role == r.Role && slices.Equal(a.bandsOf(s, o), a.bandsOf(s, r))
		})
		if at < 0 {
			sets = append(sets, []int{k})
			continue
		}
		sets[at] = append(sets[at], k)
	}
	return sets
}

// bandsOf are the cells of a support at rest: its forces for each use, its share, and that
// at the nominal total.
func (a *author) bandsOf(s stages.SituationRecord, r stages.Reaction) []string {
	var cells []string
	for _, range_ := range []stages.Range{r.Static, r.Characteristic, r.Ultimate} {
		least, most := a.gauged(range_)
		cells = append(cells, least, most)
	}
	return append(cells, shareBand(r), a.shareForces(s, r))
}

// bandsTogether is the table of the forces of several situations, a row for each set of
// supports with the same, and of the bands in which they are accepted where they are read.
func (a *author) bandsTogether(list []resting, read bool) grid {
	unit := a.units.in(formula.Newton).unit
	g := grid{open: true, columns: columnsOf("Each support, forces "+unit, ">static min", ">max", ">char. min", ">max", ">ULS min", ">max", ">accept if", ">at nominal total")}
	if !read {
		g.columns = g.columns[:7]
	}
	for _, of := range list {
		s := of.situation
		number, _, _ := strings.Cut(of.names, " ")
		sets := a.alikeIn(s)
		for n, set := range sets {
			r := s.Reactions[set[0]]
			g.rows = append(g.rows, row(append([]string{number + " " + inRow(set, r.Role)}, a.bandsOf(s, r)...)...)[:len(g.columns)])
			if n+1 < len(sets) && s.Reactions[sets[n+1][0]].Body == r.Body {
				continue
			}
			name, total := number+" total", s.Total
			if r.Body > 0 {
				b := s.Bodies[r.Body-1]
				name, total = number+" total of "+strings.Join(b.Elements, ", "), b.Total
			}
			cells := a.totalRow(s, name, r.Body, total, 0, 6, 0)
			cells[len(cells)-1] = bold(a.nominalTotal(s, r.Body))
			g.rows = append(g.rows, cells[:len(g.columns)])
		}
	}
	return g
}

// roomTogether is the table of the places of the supports with room for the readings of each
// situation: force and share of each support, force of each total.
func (a *author) roomTogether(list []resting) grid {
	unit, x := a.units.in(formula.Newton).unit, a.units.aligned(formula.Metre)
	first := list[0].situation
	heads, totals := []string{"Support"}, 0
	for k, r := range first.Reactions {
		heads = append(heads, ">"+supportNames([]int{k}, r.Role))
	}
	for _, of := range list {
		totals = max(totals, len(of.situation.Bodies), 1)
	}
	heads = append(heads, slices.Repeat([]string{"total"}, totals)...)
	g := grid{open: true, columns: columnsOf(heads...)}
	length := a.units.in(formula.Metre).unit
	for _, of := range []struct {
		name string
		at   func(stages.Reaction) float64
	}{
		{"x " + length, func(r stages.Reaction) float64 { return r.X }}, {"y " + length, func(r stages.Reaction) float64 { return r.Y }}, {"z " + length, func(r stages.Reaction) float64 { return r.Z }},
	} {
		cells, level := []string{of.name}, true
		for _, r := range first.Reactions {
			cells, level = append(cells, x.text(of.at(r))), level && of.at(r) == 0
		}
		if level { // as in every drawing: nothing to set out
			continue
		}
		g.rows = append(g.rows, row(append(cells, make([]string, totals)...)...))
	}
	for _, of := range list {
		number, _, _ := strings.Cut(of.names, " ")
		cells := append([]string{number + " " + unit + "; %"}, make([]string, len(first.Reactions)+totals)...)
		for i, b := range of.situation.Bodies {
			cells[1+len(first.Reactions)+i] = strings.Join(b.Elements, ", ") + ":"
		}
		g.rows = append(g.rows, row(cells...))
	}
	return g
}

// inRow are supports by their numbers; more than two after one another as a range.
func inRow(set []int, role stages.Role) string {
	if n := len(set); n > 2 && set[n-1]-set[0] == n-1 {
		return strings.Replace(supportNames([]int{set[0], set[n-1]}, role), ",", " to", 1)
	}
	return supportNames(set, role)
}
