package segmental

import (
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// inputs are the tables of what a deck states beside its segments and tendons: frames, piers with
// their ties, construction loads and the range of the hoist.
func (d Deck) inputs() (list []stages.ValueTable) {
	frames := stages.ValueTable{Title: "Input: lifting frames, their CoG and feet behind the face of the tip", RowHead: "frame",
		Columns: []stages.ValueColumn{headed("weight", formula.Newton), headed("CoG", formula.Metre), headed("front feet", formula.Metre), headed("rear feet", formula.Metre)}}
	for _, f := range d.Frames {
		frames.RowNames, frames.Rows = append(frames.RowNames, f.Mark), append(frames.Rows, []float64{f.Weight, f.CoG, f.Front, f.Rear})
	}
	rows := stages.ValueTable{Title: "Input: piers; 0: not stated", RowHead: "pier",
		Columns: []stages.ValueColumn{headed("x", formula.Metre), headed("rows apart", formula.Metre), headed("permissible force of a row", formula.Newton), headed("permissible moment", formula.NewtonMetre), headed("wanted factor", formula.One)}}
	ties := stages.ValueTable{Title: "Input: ties of piers", RowHead: "pier",
		Columns: []stages.ValueColumn{headed("ties at each row", formula.One), headed("preload of each", formula.Newton), headed("capacity of each", formula.Newton), headed("factor where one is lost", formula.One)}}
	for _, p := range d.Piers {
		rows.RowNames, rows.Rows = append(rows.RowNames, p.Mark), append(rows.Rows, []float64{p.At, p.Rows, p.Row, p.Moment, p.wanted()})
		if t := p.Ties; t != nil {
			ties.RowNames, ties.Rows = append(ties.RowNames, p.Mark), append(ties.Rows, []float64{float64(t.Number), t.Preload, t.Capacity, t.sudden()})
		}
	}
	l := d.Loads
	loads := stages.ValueTable{Title: "Input: construction loads on the arms, uplift of wind below one arm", RowHead: "deck",
		Columns:  []stages.ValueColumn{headed("width", formula.Metre), headed("one arm", formula.NewtonPerSquareMetre), headed("other arm", formula.NewtonPerSquareMetre), headed("uplift", formula.NewtonPerSquareMetre)},
		RowNames: []string{d.Mark}, Rows: [][]float64{{l.Width, l.OneArm, l.OtherArm, l.Uplift}}}
	list = []stages.ValueTable{frames, rows, ties, loads}
	if least, most, err := d.Dynamic.Range(); err == nil {
		list = append(list, stages.ValueTable{Title: "Input: dynamic factor on a segment that is lifted", RowHead: "deck",
			Columns: []stages.ValueColumn{headed("min", formula.One), headed("max", formula.One)}, RowNames: []string{d.Mark}, Rows: [][]float64{{least, most}}})
	}
	return list
}
