package segmental

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// released is the deck of two cantilevers whose tendon is stressed between both releases.
func released(t testing.TB) Releases {
	t.Helper()
	fixed := fixedPiers()
	return Releases{
		Piers: [2]PierRelease{{Mark: "A", Temporary: fixed[:1], Bearings: bearingsAt(14)}, {Mark: "B", Temporary: fixed[1:], Bearings: bearingsAt(44)}},
		Day:   61, Days: 1, Before: built(), Middle: pull(62).Moves, After: []Step{{Name: "later", Day: 70, Moves: []Move{{Do: Wait}}}},
	}
}

// Both orders give the moments and the governing checks of plans that are written out.
func TestBothOrdersOfRelease(t *testing.T) {
	d, r := twoCantilevers(t, nil), released(t)
	orders, places, err := r.Orders(d, fixedPiers(), limits.EN1992{})
	require.NoError(t, err)
	require.Len(t, places, 5)
	g, err := d.Girder()
	require.NoError(t, err)
	for i, first := range []string{"A", "B"} {
		of := orders[i]
		require.Equal(t, first, of.First)
		require.Len(t, of.Governing, 3)
		steps := releases(61, first)
		steps[1].Moves = append(pull(62).Moves, steps[1].Moves...)
		steps = append(append(built(), steps...), r.After...)
		plan, err := d.Plan(fixedPiers(), steps...)
		require.NoError(t, err)
		record, err := plan.Run(g, limits.EN1992{})
		require.NoError(t, err)
		list := effects(t, d, steps)
		for k := range 3 {
			n := len(steps) - 3 + k
			_, reserve, err := plan.Margin(g, limits.EN1992{}, n+1)
			require.NoError(t, err)
			require.Equal(t, reserve, of.Reserve[k])
			open, used, failed := 0, 0.0, false
			for _, s := range record.Stages[n].Situations {
				open += len(s.Unanswered)
				for _, c := range s.Checks {
					if c.State == stages.NotEvaluated {
						open++
						continue
					}
					if c.State == stages.Fail && !failed {
						failed, used = true, 0
					}
					if (c.State == stages.Fail) == failed {
						used = math.Max(used, c.Utilisation)
					}
				}
			}
			require.Equal(t, open, of.Open[k])
			require.InDelta(t, used, of.Governing[k].Utilisation, 1e-12)
			require.Equal(t, failed, of.Governing[k].State == stages.Fail)
			for p, x := range places {
				f := list[n].Forces(x)
				require.InDelta(t, f.My+f.N, of.Moments[k][p], 1e-3)
			}
		}
	}
	// On the way the orders mirror each other, in the end they agree.
	require.InDelta(t, orders[0].Moments[0][1], orders[1].Moments[0][3], 5e3)
	require.Greater(t, math.Abs(orders[0].Moments[0][1]-orders[1].Moments[0][1]), 1e6)
	for p := range places {
		require.InDelta(t, orders[0].Moments[2][p], orders[1].Moments[2][p], 2e3)
	}
	tables, err := r.Tables(orders, places)
	require.NoError(t, err)
	require.Len(t, tables[0].Rows, 3)
	require.Len(t, tables[1].Rows, 15)
	require.Equal(t, "B first", tables[0].Columns[2].Name)
	require.Equal(t, []float64{7, orders[0].Governing[0].Utilisation, orders[1].Governing[0].Utilisation, float64(orders[0].Open[0]), float64(orders[1].Open[0])}, tables[0].Rows[0])
	require.InDelta(t, orders[1].Moments[0][1]-orders[0].Moments[0][1], tables[1].Rows[1][4], 1e-9)
	_, err = stages.Results{Mark: "D", Length: 58, Parts: []stages.ResultPart{{Title: "Release", Tables: tables}},
		Inputs: []stages.Lines{{Title: "inputs", Lines: []formula.Line{formula.Given(formula.Q("L", 58, formula.Metre, "length"), formula.Mechanics)}}}}.Record()
	require.NoError(t, err)
}

// What is not as it must be is said.
func TestReleasesRefuse(t *testing.T) {
	d := twoCantilevers(t, nil)
	for says, change := range map[string]func(*Releases){
		"Releases.Day":      func(r *Releases) { r.Day = math.NaN() },
		"Releases.Days":     func(r *Releases) { r.Days = -1 },
		"Releases.Piers[1]": func(r *Releases) { r.Piers[1].Bearings = nil },
		"Releases.Piers[0]": func(r *Releases) { r.Piers[0].Mark = "B" },
		"Places[0]":         func(r *Releases) { r.Places = []float64{math.NaN()} },
		"A first":           func(r *Releases) { r.Day = 10 },
	} {
		r := released(t)
		change(&r)
		_, _, err := r.Orders(d, fixedPiers(), limits.EN1992{})
		require.ErrorIs(t, err, ErrSegmental, says)
		require.ErrorContains(t, err, says)
	}
	_, err := Releases{}.Tables([2]ReleaseOrder{}, nil)
	require.ErrorContains(t, err, "must be the results of Orders")
}
