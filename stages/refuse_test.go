package stages_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

func TestElementRefuses(t *testing.T) {
	for words, change := range map[string]func(*stages.Element){
		"Mark is empty":               func(e *stages.Element) { e.Mark = "" },
		"Element.Length = NaN":        func(e *stages.Element) { e.Length = math.NaN() },
		"Element.Length = 0":          func(e *stages.Element) { e.Length = 0 },
		"Element.Length = -24":        func(e *stages.Element) { e.Length = -24 },
		"Element.Length = +Inf":       func(e *stages.Element) { e.Length = math.Inf(1) },
		"Element.Section is missing":  func(e *stages.Element) { e.Section = nil },
		"no outline":                  func(e *stages.Element) { e.Section = section.Shape{} },
		"Element.Concrete is missing": func(e *stages.Element) { e.Concrete = nil },
		"Element.Cast = NaN":          func(e *stages.Element) { e.Cast = math.NaN() },
		"WeightTolerance is not":      func(e *stages.Element) { e.WeightTolerance = nil },
		"Under = 2":                   func(e *stages.Element) { e.WeightTolerance = loads.PlusMinus(2) },
		"Extra[0] diaphragm from x":   func(e *stages.Element) { e.Extra[0].To = 25 },
		"Weight = NaN N":              func(e *stages.Element) { e.Extra[1].Weight = math.NaN() },
		"Bars[0] from x = 5 to 4":     func(e *stages.Element) { e.Bars = []stages.BondedBars{{From: 5, To: 4}} },
		"Bars[0]: Area = 0":           func(e *stages.Element) { e.Bars = []stages.BondedBars{{From: 3, To: 4}} },
		"outside the concrete": func(e *stages.Element) {
			e.Bars = []stages.BondedBars{{From: 3, To: 4, Area: 1e-3, At: section.Point{Z: 0.8}}}
		},
		"there are two tendons AL": func(e *stages.Element) { e.Tendons[1].Mark = "AL" },
		"tendon mark \"1\"":        func(e *stages.Element) { e.Tendons[0].Mark = "1" },
		"Duct = NaN":               func(e *stages.Element) { e.Tendons[0].Duct = math.NaN() },
		"tendon AL runs from x = 0 to": func(e *stages.Element) {
			e.Tendons[0].Elevation = tendon.Level(0, 25, 0.1)
			e.Tendons[0].Plan = tendon.Level(0, 25, 1.1)
		},
		"tendon AL at x = 0.000 m": func(e *stages.Element) { e.Tendons[0].Plan = tendon.Level(0, 24, 0) },
		"jumps by":                 func(e *stages.Element) { e.Tendons[0].Elevation[2].Start += 0.01 },
	} {
		e := girder(t)
		change(&e)
		_, err := journey().Run(e, limits.EN1992{})
		require.ErrorIs(t, err, stages.ErrStage, words)
		require.ErrorContains(t, err, words)
		require.Regexp(t, "must ", err.Error(), words)
		if !strings.Contains(words, "tendon") && words != "Duct = NaN" && words != "jumps by" { // tendons have no part in the weight
			_, err = e.CentreOfGravity()
			require.ErrorIs(t, err, stages.ErrStage, words)
		}
	}
}

// odd is a stage whose situations are given.
type odd struct {
	situations []stages.Situation
	err        error
}

func (o odd) Situations(stages.History) ([]stages.Situation, error) { return o.situations, o.err }

func TestPlanRefuses(t *testing.T) {
	start := stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("BL", "BR")}}
	group := stages.Equalised("left", stages.At(2, 8)...)
	for words, plan := range map[string]stages.Plan{
		"the plan has no stage":                             {},
		"stage 2 is nil":                                    {start, nil},
		"Transfer has neither Pretension nor Jacking":       {stages.Transfer{Age: 2}},
		"Lift.On has no support":                            {start, stages.Lift{Dynamic: loads.AtRest(), Age: 3}},
		"Store.On has no support":                           {start, stages.Store{Age: 3}},
		"Seat.On has no support":                            {start, stages.Seat{Age: 3}},
		"neither Jacking nor Release":                       {start, stages.Stress{Age: 3}},
		"a transient situation comes first":                 {stages.Lift{Dynamic: loads.AtRest(), Age: 3, On: stages.At(2, 22)}},
		"age = 1.5 d":                                       {start, stages.Lift{Dynamic: loads.AtRest(), Age: 1.5, On: stages.At(2, 22)}},
		"age = NaN d":                                       {stages.Transfer{Age: math.NaN(), Jacking: start.Jacking}},
		"Until = 2 d":                                       {start, stages.Store{Age: 3, Until: 2, On: stages.At(2, 22)}},
		"support 2 at x = 24.5 m":                           {start, stages.Lift{Dynamic: loads.AtRest(), Age: 3, On: stages.At(2, 24.5)}},
		"support 1 at x = NaN m":                            {start, stages.Lift{Dynamic: loads.AtRest(), Age: 3, On: stages.At(math.NaN(), 22)}},
		"support 1 at x = 2 m: field Y = +Inf m":            {start, stages.Lift{Dynamic: loads.AtRest(), Age: 3, On: stages.Pads(math.Inf(-1), 2, 22)}},
		"supports 1 and 2 are both a lift point at x = 2 m": {start, stages.Lift{Dynamic: loads.AtRest(), Age: 3, On: stages.At(2, 2, 22)}},
		"the supports act at x = 2 m alone":                 {start, stages.Store{Age: 3, On: stages.At(2)}},
		"support 1 at x = 2 m is fixed beside others":       {start, stages.Store{Age: 3, On: []stages.Support{{X: 2, Fixed: true}, {X: 22}}}},
		"the supports act at x = 5 m alone":                 {start, stages.Store{Age: 3, On: group}},
		"dynamic factors, minimum Least = 1,":               {start, stages.Lift{Age: 3, On: stages.At(2, 22), Dynamic: loads.Dynamic{Most: 0.5}}},
		"in a standing situation":                           {odd{situations: []stages.Situation{{Age: 2, Standing: true, Phase: limits.Storing, Supports: pads(stages.At(2, 22)), Dynamic: loads.Dynamic{Most: 2}}}}},
		"point load 1 at x = 30 m":                          {start, stages.Store{Age: 3, On: stages.At(2, 22), Actions: []stages.Action{{Mark: "a", Loads: loads.Set{Points: []loads.Point{{At: 30}}}}}}},
		"imposed curvatures":                                {start, stages.Store{Age: 3, On: stages.At(2, 22), Actions: []stages.Action{{Mark: "a", Loads: loads.Set{Curvatures: []loads.Curvature{{From: 0, To: 1}}}}}}},
		"tendon X is not in":                                {stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("X")}}},
		"AL has not been stressed":                          {start, stages.Stress{Age: 3, Grout: []string{"AL"}}},
		"BL is already grouted":                             {start, stages.Stress{Age: 3, Grout: []string{"BL", "BL"}}},
		"Jacking.Stress = 0 Pa":                             {stages.Transfer{Age: 2, Jacking: []tendon.Jacking{{Tendons: []string{"BL"}, Ends: tendon.LeftEnd}}}},
		`field Phase = "Lifting": must be one of`:           {odd{situations: []stages.Situation{{Age: 2, Standing: true, Phase: "Lifting", Supports: pads(stages.At(2, 22))}}}},
		`field Phase = "": must be one of`:                  {odd{situations: []stages.Situation{{Age: 2, Standing: true, Supports: pads(stages.At(2, 22))}}}},
		"field Dynamic of lifting is not stated":            {start, stages.Lift{Age: 3, On: stages.At(2, 22)}},
		`field OneWay = "up": must be one of`:               {start, stages.Store{Age: 3, On: []stages.Support{{X: 2, OneWay: "up"}, {X: 22}}}},
		`field Holds = "left": must be one of`:              {start, stages.Store{Age: 3, On: []stages.Support{{X: 2, Holds: "left"}, {X: 22}}}},
		"field Dynamic of hauling is not stated":            {start, stages.Haul{Age: 3, On: stages.At(2, 22)}},
		"stage 2 has no situation":                          {start, odd{}},
		"stage 2: broken":                                   {start, odd{err: errors.New("broken")}},
	} {
		_, err := plan.Run(girder(t), limits.EN1992{})
		require.ErrorContains(t, err, words)
		if words != "stage 2: broken" {
			require.Regexp(t, "must ", err.Error(), words)
		}
	}
	_, err := journey().Run(girder(t), nil)
	require.ErrorContains(t, err, "the standard is missing")
	_, err = journey().Run(girder(t), limits.EN1992{Compression: -1})
	require.ErrorIs(t, err, limits.ErrLimits)
	require.ErrorContains(t, err, "EN1992.Compression = -1")
	young := girder(t)
	young.Concrete = concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}
	_, err = stages.Plan{stages.Transfer{Age: 0.2, Jacking: start.Jacking}}.Run(young, limits.EN1992{})
	require.ErrorIs(t, err, concrete.ErrConcrete)
	require.ErrorContains(t, err, "stage 1, transfer of prestress at age 0.2 d")
}

func TestAnErrorLosesNothingComputedBefore(t *testing.T) {
	failing := odd{situations: []stages.Situation{{
		Name: "odd", Age: 40, Phase: limits.Lifting, Dynamic: loads.AtRest(), Supports: pads(stages.At(3, 21)),
		Check: func(stages.Effects, limits.Standard) ([]stages.OwnCheck, error) {
			return nil, errors.New("crane chart missing")
		},
	}}}
	r, err := append(journey(), failing).Run(girder(t), limits.EN1992{})
	require.ErrorContains(t, err, "stage 7, odd at age 40 d: crane chart missing")
	require.Len(t, r.Stages, 6)
}

func TestCaseRefuses(t *testing.T) {
	c := stages.Case{Subject: girder(t), Plan: journey(), Stage: 7, Standard: limits.EN1992{}}
	_, _, err := c.Worst()
	require.ErrorContains(t, err, "Case.Stage = 7: must be 1 to 6")
	c.Stage = 2
	nothing := stages.Input{Symbol: "a", Unit: formula.Metre, Set: func(*stages.Girder, *stages.Plan, float64) error { return nil }}
	_, _, err = c.Solve(nothing, 0, 1)
	require.ErrorIs(t, err, formula.ErrNoRoot)
	broken := stages.Input{Symbol: "a", Unit: formula.Metre, Set: func(*stages.Girder, *stages.Plan, float64) error { return errors.New("no") }}
	_, _, err = c.Solve(broken, 0, 1)
	require.ErrorContains(t, err, "stage 2, a in m: no")
	c.Standard = limits.All()
	check, reserve, err := c.Worst()
	require.NoError(t, err)
	require.Equal(t, stages.NotEvaluated, check.State, "nobody answers: it does not pass")
	require.Equal(t, -1.0, reserve)
}
