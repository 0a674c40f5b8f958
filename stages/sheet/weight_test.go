package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// weightWords are the words of weight and actions of the first stage.
func weightWords(t *testing.T, units Units, changes ...func(*stages.Record)) []string {
	a := passed(t, Settings{Units: units}, changes...)
	var texts []string
	for _, p := range a.operationWeight(a.record.Stages[0]) {
		require.Equal(t, strong, p[0].kind)
		texts = append(texts, p.raw())
	}
	return texts
}

const weightOfRectangle = "750 kN (76.48 t) calculated, × 0.97 to 1.03; CoG x = 10 m, y = −0.1 m, z = 0.75 m; dynamic × 1."

// 750 kN / 9.80665 m/s² = 76 479 kg = 76.48 t.
func TestWeightAndCentreOfGravityOfOneSituation(t *testing.T) {
	require.Equal(t, []string{"Weight: " + weightOfRectangle, "Other actions: none permitted."}, weightWords(t, SI))
}

// 750 kN / 4.448222 = 168.607 kip, 76 479 kg / 0.45359237 = 168 607 lb, 10 m = 32.808 ft.
func TestWeightAndCentreOfGravityInUSUnits(t *testing.T) {
	require.Contains(t, weightWords(t, US)[0], "Weight: 168.6 kip (168600 lb) calculated, × 0.97 to 1.03; CoG x = 32.808 ft, y = −0.328 ft, z = 2.461 ft;")
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
	require.Len(t, weightWords(t, SI, another(func(*stages.SituationRecord) {})), 2, "nothing changes")
	list := weightWords(t, SI, another(func(s *stages.SituationRecord) { s.Dynamic = stages.Range{Least: 0.9, Most: 1.1} }))
	require.Equal(t, []string{
		"Weight from 1.1 on: " + weightOfRectangle, "Weight from 1.2 on: " + strings.Replace(weightOfRectangle, "× 1.", "× 0.9 to 1.1.", 1), "Other actions: none permitted.",
	}, list)
	list = weightWords(t, SI, another(func(s *stages.SituationRecord) {
		s.Loads = []stages.Load{{Mark: "form", Centre: 3, Force: 4e3, Presence: always}, {Mark: "drum", Centre: 5, Force: 2e3, Presence: always}}
	}))
	require.Equal(t, []string{
		"Other actions from 1.1 on: none permitted.", "Other actions from 1.2 on: form at x = 3 m, 4 kN, always present; drum at x = 5 m, 2 kN, always present; no others permitted.",
	}, list[1:])
	list = weightWords(t, SI, another(func(s *stages.SituationRecord) { s.Mass.Weight, s.Mass.Y = 800e3, 0.2 }))
	require.Equal(t, "Weight from 1.1 on: "+weightOfRectangle, list[0])
	require.Contains(t, list[1], "Weight from 1.2 on: 800 kN (76.48 t) calculated, × 0.97 to 1.03; CoG x = 10 m, y = 0.2 m,")
}

// What comes back after a change is said again: A, B, A are three.
func TestWhatComesBackIsSaidAgain(t *testing.T) {
	list := weightWords(t, SI, another(func(s *stages.SituationRecord) { s.Dynamic.Most = 1.2 }), func(r *stages.Record) {
		list := &r.Stages[0].Situations
		*list = append(*list, (*list)[0])
	})
	require.Len(t, list, 4)
	for i, from := range []string{"1.1", "1.2", "1.3"} {
		require.Contains(t, list[i], "Weight from "+from+" on: ")
	}
}

// What the calculation covers is rounded inwards: nobody reads a wider tolerance.
func TestFactorsOnTheWeightAreRoundedInwards(t *testing.T) {
	require.Equal(t, "0.9701 to 1.034", coveredRange(stages.Range{Least: 0.97001, Most: 1.03499}))
	require.Equal(t, "0.97 to 1.03", coveredRange(stages.Range{Least: 0.97, Most: 1.03}))
	require.Equal(t, "1.235", coveredRange(stages.Range{Least: 1.23456, Most: 1.23456}))
}
