package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// moves are those of every body of a situation since it was cast straight: camber
// and sag with the band of creep, bow, and what they leave out.
func (a *author) moves(stage stages.StageRecord, i int) []block {
	s := stage.Situations[i]
	if len(s.Moves.Values) == 0 && len(s.MoveNotes) == 0 {
		return nil
	}
	notes := paragraph{prose{{faint, "Movements: " + a.units.words(strings.Join(s.MoveNotes, "; ")) + "."}}}
	if len(s.Moves.Values) == 0 {
		return []block{notes}
	}
	small, factor, decimals := a.inSmall()
	columns := []string{">x " + a.units.in(formula.Metre).unit, ">deflection " + small, ">min " + small, ">max " + small, ">bow " + small, ">along " + small}
	several := s.Moves.Values[len(s.Moves.Values)-1][0] > 1
	if several {
		columns = append([]string{"Body"}, columns...)
	}
	g := grid{caption: words("Movement since casting: deflection + upwards, between min and max with creep 30 % less or more; bow + to the left; along + to the right"), columns: columnsOf(columns...)}
	x := a.units.aligned(formula.Metre)
	column := func(name string, row int) float64 {
		if values := s.Moves.Column(name); values != nil {
			return values[row]
		}
		return 0
	}
	for k := range s.Moves.Values {
		cells := []string{x.text(column("x", k))}
		for _, name := range []string{"deflection", "least", "most", "bow", "along"} {
			cells = append(cells, minus(strconv.FormatFloat(column(name, k)*factor, 'f', decimals, 64)))
		}
		if several {
			cells = append([]string{fmt.Sprint(int(column("body", k)))}, cells...)
		}
		g.rows = append(g.rows, row(cells...))
	}
	if len(s.MoveNotes) == 0 || s.Brief && a.saidBefore(notes) {
		return []block{g}
	}
	return []block{g, notes}
}
