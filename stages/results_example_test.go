package stages_test

import (
	"fmt"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// A simple beam, printed like any other calculation: pass the record to sheet.Command.
func ExampleResults_Record() {
	b, err := beam.New(beam.Layout{Length: 12, Stiffness: []beam.Stretch{{BendingStiffness: 1e9}}, Supports: []beam.Support{{At: 0}, {At: 12}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := b.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, 12, 25e3)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	load := formula.Given(formula.Q("q", 25e3, formula.NewtonPerMetre, "line load"), formula.Source{Document: "input"})
	moments := stages.ValueTable{Title: "Bending moment", Columns: []stages.ValueColumn{{Name: "x", Unit: formula.Metre}, {Name: "M", Unit: formula.NewtonMetre}}}
	for _, x := range []float64{0, 3, 6} {
		moments.Rows = append(moments.Rows, []float64{x, r.Moment(x)})
	}
	record, err := stages.Results{
		Mark: "B-1", Length: 12, Basis: []string{"Statics of a simple beam."}, Inputs: []stages.Lines{{Title: "Beam", Lines: []formula.Line{load}}},
		Parts: []stages.ResultPart{{Title: "Bending moment", Tables: []stages.ValueTable{moments}}}, NotChecked: []string{"any limit"},
	}.Record()
	fmt.Println(record.Element, record.Results[0].Tables[0].Rows, err)
	// Output: B-1 [[0 0] [3 337500] [6 450000]] <nil>
}
