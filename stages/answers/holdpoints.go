package answers

import (
	"errors"
	"fmt"
	"math"
	"runtime"
	"sync"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// HoldPoint is the least strength before one stage of a plan.
type HoldPoint struct {
	Stage    int // number, the first is 1
	Strength     // of all elements that are there
	// Err is why there is no least strength: the stage passes with 2 MPa, or fails with the
	// strength of the mix; nil where there is one. It wraps [ErrAnswer].
	Err error
}

// HoldTable is the hold points of a plan, in the order of its stages.
type HoldTable []HoldPoint

// HoldPoints are the least strengths of all stages of a plan, each by [LeastStrength] and
// in parallel. The error is that of [stages.Plan.Analyse] for the plan itself.
func HoldPoints(subject stages.Subject, plan stages.Plan, standard limits.Standard) (HoldTable, error) {
	if _, _, err := plan.Margin(subject, standard, 1); err != nil {
		return nil, err
	}
	table := make(HoldTable, len(plan))
	each(len(plan), func(i int) {
		s, err := LeastStrength(stages.Case{Subject: subject, Plan: plan, Stage: i + 1, Standard: standard})
		table[i] = HoldPoint{Stage: i + 1, Strength: s, Err: err}
	})
	return table, nil
}

// each calls a function with 0 to n − 1, on all cores.
func each(n int, do func(i int)) {
	next := make(chan int)
	var workers sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	workers.Wait()
}

// Result is the table for the sheets, behind the stages of a record by
// [stages.Record.Append]: strengths rounded up to 0.1 MPa, ages up to 0.01 d. What has no
// least strength is in the notes.
func (t HoldTable) Result() stages.ResultPart {
	table := stages.ValueTable{
		Title: "Least strength required before each stage, and age at which the mix reaches it", RowHead: "stage, governing check",
		Columns: []stages.ValueColumn{
			{Name: "cylinder, characteristic", Unit: formula.Pascal}, {Name: "cube, characteristic", Unit: formula.Pascal},
			{Name: "mean of 3 cylinders", Unit: formula.Pascal}, {Name: "mean of 3 cubes", Unit: formula.Pascal},
			{Name: "assumed cylinder, characteristic", Unit: formula.Pascal}, {Name: "age of the stage", Unit: formula.Day}, {Name: "least age of the mix", Unit: formula.Day},
		},
	}
	part := stages.ResultPart{Title: "Hold points of strength", Notes: []string{
		"Strengths shown by test at the beginning of the stage, rounded up to 0.1 MPa; earlier stages with the curve of the mix. The least age is by the model of the mix; it replaces no test.",
		"A cube strength of 0 is above the classes of EN 1992-1-1; a least age of 0 is not reached by the mix.",
	}}
	for _, h := range t {
		if h.Err != nil {
			part.Notes = append(part.Notes, fmt.Sprintf("Stage %d has no least strength. %v", h.Stage, h.Err))
			continue
		}
		table.RowNames = append(table.RowNames, fmt.Sprintf("%d, %s", h.Stage, h.Governs.Name))
		table.Rows = append(table.Rows, []float64{
			upTo(h.Required, 1e5), upTo(h.Cube, 1e5), upTo(h.MeanCylinder, 1e5), upTo(h.MeanCube, 1e5), h.Assumed, h.At, upTo(h.Least, 0.01),
		})
	}
	if len(table.Rows) > 0 {
		part.Tables = append(part.Tables, table)
	}
	return part
}

// upTo is a value rounded up to a multiple of a step.
func upTo(v, step float64) float64 { return math.Ceil(v/step-1e-6) * step }

// Err joins the errors of all stages that fail with the strength of the mix; nil where
// there are none. A stage that passes with any strength is no error.
func (t HoldTable) Err() error {
	var list []error
	for _, h := range t {
		if h.Err != nil && len(h.Intervals) == 0 {
			list = append(list, h.Err)
		}
	}
	return errors.Join(list...)
}
