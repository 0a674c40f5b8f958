package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// stressedIn are the tendons that are stressed in a stage and stay, with their forces and
// losses after its last move; after the last stage all tendons.
func (a *author) stressedIn(stage stages.StageRecord) []block {
	last := stage.Situations[len(stage.Situations)-1]
	final := stage.Number == len(a.record.Stages)
	in := map[string]string{} // the move in which a tendon is stressed
	for _, s := range a.record.Stages[:stage.Number] {
		for i, of := range s.Situations {
			for _, p := range of.Stressing {
				if s.Number == stage.Number || final {
					in[p.Mark] = numbered(s, i)
				}
			}
		}
	}
	var moves []string
	var groups [][]stages.TendonForce
	for _, alike := range alikeTendons(last.Tendons) {
		for len(alike) > 0 {
			move := in[alike[0].Mark]
			same := slices.Clone(alike)
			same = slices.DeleteFunc(same, func(t stages.TendonForce) bool { return in[t.Mark] != move })
			alike = slices.DeleteFunc(slices.Clone(alike), func(t stages.TendonForce) bool { return in[t.Mark] == move })
			if move != "" || final {
				moves, groups = append(moves, move), append(groups, same)
			}
		}
	}
	if len(groups) == 0 {
		return nil
	}
	which := "Tendons stressed in this stage"
	if final {
		which = "All tendons"
	}
	unit := a.units.in(formula.Newton).unit
	g := grid{caption: words(which + ": forces after its last move, losses at mid-length from jacking force in " + a.units.in(formula.Pascal).unit), columns: columnsOf("Tendon", "Stressed in", ">Left "+unit, ">Middle "+unit, ">Right "+unit)}
	if final {
		g.key = elasticKey
	}
	var all []float64
	for _, list := range groups {
		all = append(all, list[0].Left, list[0].Middle, list[0].Right)
	}
	force := a.units.aligned(formula.Newton, all...)
	for i, list := range groups {
		t := list[0]
		g.rows = append(g.rows, row(marksOf(list), moves[i], force.text(t.Left), force.text(t.Middle), force.text(t.Right)))
	}
	for _, part := range losses {
		values := make([]float64, len(groups))
		for i, list := range groups {
			values[i] = part.value(list[0].Losses)
		}
		a.addColumn(&g, part.title, formula.Pascal, values, 0)
	}
	g.columns = append(g.columns, columnsOf("")...)
	for i, list := range groups {
		bond := "not bonded"
		if list[0].Bonded {
			bond = "bonded"
		}
		if list[0].Given != "" {
			bond += "; force given by " + list[0].Given // quoted as it stands
		}
		g.rows[i] = append(g.rows[i], words(bond))
	}
	return []block{g}
}

// straightPaths are the tendons that are straight from anchor to anchor, a row for each pair
// that mirrors the other; those of equal y and z beside each other.
func (a *author) straightPaths() (grid, map[int]bool) {
	length := a.units.in(formula.Metre).unit
	g := grid{caption: words("Straight tendons and bars, from the left to the right anchor; upper sign for the first-named tendon"), dense: true,
		columns: columnsOf("Tendon", ">x left "+length, ">x right "+length, ">y "+length, ">z left "+length, ">z right "+length)}
	x := a.units.aligned(formula.Metre)
	printed := map[int]bool{}
	for i, t := range a.record.Tendons {
		if printed[i] || !straight(t) {
			continue
		}
		printed[i] = true
		marks, paired := []string{t.Mark}, false
		for k := i + 1; k < len(a.record.Tendons) && !paired; k++ {
			if u := a.record.Tendons[k]; !printed[k] && mirrored(t, u) {
				marks, paired, printed[k] = append(marks, u.Mark), true, true
			}
		}
		from, to := t.Points[0], t.Points[1]
		y := x.text(from.Y)
		if paired {
			y = bothSigns(y)
		}
		g.rows = append(g.rows, row(strings.Join(marks, ", ")+kindWords(t), x.text(from.X), x.text(to.X), y, x.text(from.Z), x.text(to.Z)))
	}
	return g, printed
}

// straight is true for a tendon that is straight in elevation and along x in plan.
func straight(t stages.TendonRecord) bool {
	return len(t.Points) == 2 && t.Points[0].Elevation == "straight" && t.Points[0].Plan == "straight" && t.Points[0].Y == t.Points[1].Y
}
