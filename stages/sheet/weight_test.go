package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// weightRows are the rows of the weight block of the first stage, name and value.
func weightRows(t *testing.T, units Units, changes ...func(*stages.Record)) [][2]string {
	a := passed(t, Settings{Units: units}, changes...)
	var rows [][2]string
	for _, r := range a.operationWeight(a.record.Stages[0])[0].(grid).rows {
		rows = append(rows, [2]string{r[0].raw(), r[1].raw()})
	}
	return rows
}

// 750 kN / 9.80665 m/s² = 76 479 kg = 76.48 t.
func TestWeightAndCentreOfGravityOfOneSituation(t *testing.T) {
	require.Equal(t, [][2]string{
		{"self-weight, nominal", "750 kN (76.48 t)"}, {"CoG x, y, z", "10 m, −0.1 m, 0.75 m"},
		{"weight tolerance", "× 0.97 to 1.03"}, {"dynamic factor", "× 1"}, {"other actions", "none permitted"},
	}, weightRows(t, SI))
}

// 750 kN / 4.448222 = 168.607 kip, 76 479 kg / 0.45359237 = 168 607 lb, 10 m = 32.808 ft.
func TestWeightAndCentreOfGravityInUSUnits(t *testing.T) {
	require.Equal(t, [2]string{"self-weight, nominal", "168.6 kip (168600 lb)"}, weightRows(t, US)[0])
	require.Equal(t, [2]string{"CoG x, y, z", "32.808 ft, −0.328 ft, 2.461 ft"}, weightRows(t, US)[1])
}

// another appends a copy of the first situation with a change.
func another(change func(*stages.SituationRecord)) func(*stages.Record) {
	return func(r *stages.Record) {
		list := &r.Stages[0].Situations
		s := (*list)[0]
		s.Name = "later"
		change(&s)
		*list = append(*list, s)
	}
}

// A situation that changes the weight, a factor or the actions says from when on; what
// stays is said once.
func TestWhatChangesBetweenSituationsSaysFromWhen(t *testing.T) {
	require.Len(t, weightRows(t, SI, another(func(*stages.SituationRecord) {})), 5, "nothing changes")
	rows := weightRows(t, SI, another(func(s *stages.SituationRecord) { s.Dynamic = stages.Range{Least: 0.9, Most: 1.1} }))
	require.Equal(t, [][2]string{
		{"self-weight, nominal", "750 kN (76.48 t)"}, {"CoG x, y, z", "10 m, −0.1 m, 0.75 m"}, {"weight tolerance", "× 0.97 to 1.03"},
		{"from 1.1 on: dynamic factor", "× 1"}, {"from 1.2 on: dynamic factor", "× 0.9 to 1.1"}, {"other actions", "none permitted"},
	}, rows)
	rows = weightRows(t, SI, another(func(s *stages.SituationRecord) {
		s.Loads = []stages.Load{{Mark: "form", Centre: 3, Force: 4e3, Presence: always}}
	}))
	require.Equal(t, [][2]string{{"from 1.1 on: other actions", "none permitted"}, {"from 1.2 on: action: form at x = 3 m", "4 kN, always present"}}, rows[4:])
	rows = weightRows(t, SI, another(func(s *stages.SituationRecord) { s.Mass.Weight, s.Mass.Y = 800e3, 0.2 }))
	require.Equal(t, [][2]string{
		{"from 1.1 on: self-weight, nominal", "750 kN (76.48 t)"}, {"from 1.1 on: CoG x, y, z", "10 m, −0.1 m, 0.75 m"},
		{"from 1.2 on: self-weight, nominal", "800 kN (76.48 t)"}, {"from 1.2 on: CoG x, y, z", "10 m, 0.2 m, 0.75 m"},
	}, rows[:4])
}

// What comes back after a change is said again: A, B, A are three.
func TestWhatComesBackIsSaidAgain(t *testing.T) {
	rows := weightRows(t, SI, another(func(s *stages.SituationRecord) { s.Dynamic.Most = 1.2 }), func(r *stages.Record) {
		list := &r.Stages[0].Situations
		*list = append(*list, (*list)[0])
	})
	require.Equal(t, [][2]string{{"from 1.1 on: dynamic factor", "× 1"}, {"from 1.2 on: dynamic factor", "× 1 to 1.2"}, {"from 1.3 on: dynamic factor", "× 1"}}, rows[3:6])
}

// The basis of each value stands beside it: nobody takes an input for a measurement.
func TestEachWeightNamesItsBasis(t *testing.T) {
	a := passed(t, Settings{})
	page := operationPages(a)[0]
	for _, words := range []string{"(76.48 t) | calculated |", "0.75 m | calculated |", "1.03 | input |", "× 1 | input |"} {
		require.Contains(t, page, words)
	}
}
