package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// points are the rows of the hold points of a stage: point, requirement, assumed.
func points(t *testing.T, stage int, changes ...func(*stages.Record)) [][3]string {
	g := passed(t, Settings{}, changes...).holdPoints(stage).(grid)
	var rows [][3]string
	for _, r := range g.rows {
		require.Len(t, r, 5)
		require.Empty(t, r[3].raw()+r[4].raw(), "room for the result and for who signs")
		rows = append(rows, [3]string{r[0].raw(), r[1].raw(), r[2].raw()})
	}
	return rows
}

// Every stage has age and survey, every stage but the first the one before it.
func TestHoldPointsThatNoStageIsWithout(t *testing.T) {
	age, survey := [3]string{"Age of the element", "3 d (project day 3) or more", ""}, [3]string{"Survey", "positions and levels as listed below, within ± ____ mm", ""}
	require.Equal(t, [][3]string{age, survey}, points(t, 0))
	require.Equal(t, [][3]string{
		{"Previous stage", "stage 1, store, complete and its sheet signed off", ""}, {"Age of the element", "7 d (project day 7) or more", ""},
		{"Wind limit", "none in the calculation; the engineer: ____ m/s, gust / mean, at ____ m", ""}, {"Lifting plan", "plan no. ______ (street, outriggers, tail swing, exclusion, route, services)", ""}, survey,
	}, points(t, 1))
	require.Equal(t, "stage 2, lift: trial lift in bands, signed so far, over its supports", points(t, 2)[0][1], "it cannot be complete before it is set down")
}

// The heads of the table leave no doubt which column is required and which assumed.
func TestHeadsOfTheHoldPoints(t *testing.T) {
	var heads []string
	for _, c := range passed(t, Settings{}).holdPoints(0).(grid).columns {
		heads = append(heads, c.title.raw())
	}
	require.Equal(t, []string{"Hold point", "Requirement", "Assumed", "Result", "Signed, time"}, heads)
}

// held sets the hold points of the first situation.
func held(list ...derive.HoldPoint) func(*stages.Record) {
	return first(func(s *stages.SituationRecord) { s.HoldPoints = list })
}

const specimens = "; specimens: specification"

// A minimum is rounded up, a maximum down, what is assumed to the nearest: required first.
func TestValuesOfHoldPointsAreOnTheSafeSide(t *testing.T) {
	assumed := formula.Q("f", 27.3649e6, formula.Pascal, "")
	h := strengthPoint(21.0001e6)
	h.Assumed = &assumed
	require.Equal(t, [3]string{"Concrete strength", "characteristic cylinder strength ≥ 21.5 MPa" + specimens, "fck 27.36 MPa, cylinder"}, points(t, 0, held(h))[1])
	level := derive.HoldPoint{Kind: "level", Required: formula.Q("u", 0.0059999, formula.Metre, "difference of level"), AtMost: true}
	require.Equal(t, [3]string{"Level", "difference of level ≤ 5.999 mm", ""}, points(t, 0, held(level))[1])
	level.AtMost = false
	require.Equal(t, [3]string{"Level", "difference of level ≥ 6 mm", ""}, points(t, 0, held(level))[1])
}

// An assumed value that no figure of the requirement shows is 0 in its unit.
func TestAnAssumedValueOfNothingIsZero(t *testing.T) {
	for value, want := range map[float64]string{2.299e-17: "0 mm", -2.299e-17: "0 mm", 0: "0 mm", 3.0974e-3: "3.097 mm", 4e-8: "0 mm", 4e-6: "0.004 mm"} {
		assumed := formula.Q("u", value, formula.Metre, "largest difference")
		level := derive.HoldPoint{Kind: "level", Required: formula.Q("u_max", 0.010, formula.Metre, "difference of level"), AtMost: true, Assumed: &assumed}
		require.Equal(t, [3]string{"Level", "difference of level ≤ 10 mm", want}, points(t, 0, held(level))[1], "%g m", value)
	}
}

// What a test must show stands beside the strength, each value rounded up, with the least
// number of specimens of which the mean is.
func TestStrengthsAsTheYardTestsThem(t *testing.T) {
	h := strengthPoint(30e6)
	h.Tested = []formula.Quantity{formula.Q("f_ck_cube", 37.001e6, formula.Pascal, "characteristic cube"), formula.Q("f_cm", 38.125e6, formula.Pascal, "mean of 3 cylinders")}
	rows := points(t, 0, held(h))
	require.Equal(t, [3]string{"Concrete strength", "cylinder: characteristic ≥ 30 MPa, or mean of 3 or more ≥ 38.5 MPa", ""}, rows[1])
	require.Equal(t, [3]string{"or concrete strength", "cube: characteristic ≥ 37.5 MPa", ""}, rows[2])
}

// A situation asks for two strengths: the characteristic one for stresses, the mean one at
// the anchors. Neither shows the other, and each has its assumed value beside it.
func TestTwoStrengthsOfOneSituation(t *testing.T) {
	assumed := func(v float64) *formula.Quantity {
		q := formula.Q("f", v, formula.Pascal, "assumed")
		return &q
	}
	stresses, anchors := strengthPoint(34.001e6), derive.HoldPoint{Kind: stages.AtAnchors, Required: formula.Q("f_cm_0", 30.001e6, formula.Pascal, "mean cylinder strength")}
	stresses.Assumed, anchors.Assumed = assumed(37.36e6), assumed(46e6)
	anchors.Tested = []formula.Quantity{formula.Q("f_cm_0_cube", 37.001e6, formula.Pascal, "mean cube strength")}
	check := func(s *stages.SituationRecord) {
		s.Checks = append(s.Checks, stages.Check{Kind: limits.StressingStrength, Name: "strength", State: stages.Pass, Sense: limits.AtLeast,
			Demand: formula.Q("f_cm", 46e6, formula.Pascal, ""), Limit: formula.Q("f_cm_0", 30.001e6, formula.Pascal, "mean cylinder strength"), Margin: 15.999e6, Utilisation: 30.001 / 46})
	}
	rows := points(t, 0, held(stresses, anchors), first(check))
	require.Equal(t, [3]string{"Concrete strength", "characteristic cylinder strength ≥ 34.5 MPa" + specimens, "fck 37.36 MPa, cylinder"}, rows[1])
	require.Equal(t, [3]string{"Strength at anchors", "mean cylinder ≥ 30.5 MPa, or mean cube ≥ 37.5 MPa" + specimens, "fcm,cyl 46 MPa"}, rows[2])
	require.Equal(t, "Survey", rows[3][0], "the check is not asked a second time")
	rows = points(t, 0, held(anchors, stresses))
	require.Equal(t, "Concrete strength", rows[2][0], "a mean above it does not show a characteristic strength")
}

// Elements of unlike strength have hold points of their own, which name them.
func TestHoldPointsNameTheirElements(t *testing.T) {
	left, right := strengthPoint(30e6), strengthPoint(20e6)
	left.Pieces, right.Pieces = []string{"L1", "L2"}, []string{"R1"}
	rows := points(t, 0, held(left, right))
	require.Equal(t, "Concrete strength of L1, L2", rows[1][0])
	require.Equal(t, "Concrete strength of R1", rows[2][0])
	require.Contains(t, rows[2][1], "≥ 20 MPa", "that another element needs more does not show it")
}

// situationsWith appends situations with hold points for these strengths (MPa).
func situationsWith(strengths ...float64) func(*stages.Record) {
	return func(r *stages.Record) {
		list := &r.Stages[0].Situations
		for i, v := range strengths {
			s := (*list)[0]
			if i > 0 {
				*list = append(*list, s)
			}
			(*list)[i].HoldPoints = []derive.HoldPoint{strengthPoint(v * 1e6)}
		}
	}
}

// A higher strength of a later situation is a hold point before it; a lower or equal one
// is shown already.
func TestALaterSituationAsksForMoreStrength(t *testing.T) {
	rows := points(t, 0, situationsWith(20, 30, 25, 30, 31))
	var asked []string
	for _, r := range rows {
		if strings.Contains(r[0], "strength") {
			asked = append(asked, r[0]+" "+strings.TrimSuffix(r[1], specimens))
		}
	}
	require.Equal(t, []string{
		"Concrete strength characteristic cylinder strength ≥ 20 MPa",
		"before 1.2: Concrete strength characteristic cylinder strength ≥ 30 MPa",
		"before 1.5: Concrete strength characteristic cylinder strength ≥ 31 MPa",
	}, asked)
}

// Only strengths are shown by more: a smaller friction asked later is a hold point of
// its own, and so is a maximum that falls.
func TestOtherHoldPointsAreAskedAgain(t *testing.T) {
	rows := points(t, 0, held(derive.HoldPoint{Kind: "level", AtMost: true, Required: formula.Q("u", 0.006, formula.Metre, "difference of level")}),
		another(func(s *stages.SituationRecord) {
			s.HoldPoints = []derive.HoldPoint{{Kind: "level", AtMost: true, Required: formula.Q("u", 0.004, formula.Metre, "difference of level")}}
		}))
	require.Contains(t, rows, [3]string{"Level", "difference of level ≤ 6 mm", ""})
	require.Contains(t, rows, [3]string{"before 1.2: Level", "difference of level ≤ 4 mm", ""})
}

// Ages rise within a stage: each is a hold point before its situation, once.
func TestEachAgeIsAHoldPointOnce(t *testing.T) {
	rows := points(t, 0, another(func(s *stages.SituationRecord) { s.Age, s.Day = 5, 5 }), func(r *stages.Record) {
		list := &r.Stages[0].Situations
		*list = append(*list, (*list)[1])
	})
	require.Equal(t, [][3]string{
		{"Age of the element", "3 d (project day 3) or more", ""}, {"before 1.2: Age of the element", "5 d (project day 5) or more", ""},
		{"Survey", "positions and levels as listed below, within ± ____ mm", ""},
	}, rows)
}

// The strength at stressing of each tendon is the least mean strength, rounded up, with
// what is assumed beside it; it is asked whether the check passes or not.
func TestTheStrengthAtStressingIsAHoldPoint(t *testing.T) {
	rows := points(t, 0, first(func(s *stages.SituationRecord) {
		for _, mark := range []string{"A", "B"} {
			s.Checks = append(s.Checks, stages.Check{Kind: limits.StressingStrength, Name: "strength", State: stages.Pass, Sense: limits.AtLeast,
				Demand: formula.Q("f_cm", 33e6, formula.Pascal, ""), Limit: formula.Q("f_cm_"+mark, 28.0001e6, formula.Pascal, "mean cylinder strength, tendon "+mark)})
		}
	}))
	require.Equal(t, [3]string{"Strength at stressing", "mean cylinder strength, tendon A ≥ 28.5 MPa", "33 MPa"}, rows[1])
	require.Equal(t, [3]string{"Strength at stressing", "mean cylinder strength, tendon B ≥ 28.5 MPa", "33 MPa"}, rows[2])
}

// A condition without words names the check.
func TestAConditionWithoutWordsNamesItsCheck(t *testing.T) {
	rows := points(t, 0, first(func(s *stages.SituationRecord) { s.Checks[0].State = stages.Conditional }))
	require.Equal(t, [3]string{"Condition", "of the check compression", ""}, rows[1])
}

func TestCapitals(t *testing.T) {
	for word, want := range map[string]string{"": "", "friction": "Friction", "µ": "Μ", "é": "É", "A": "A", "two words": "Two words"} {
		require.Equal(t, want, capital(word))
	}
}
