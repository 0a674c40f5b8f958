package stages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// segment is a piece of the plain block.
func segment(mark string, length float64) stages.Element {
	e := block()
	e.Mark, e.Length, e.Bars = mark, length, nil
	return e
}

// Errors name place, value with its unit and what it must be.
func TestGirdersRefuse(t *testing.T) {
	on := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 0.5, 7.5))}}
	a, b := segment("A", 4), segment("B", 4.5)
	whole := stages.EndToEnd(stages.Epoxied, a, b)
	_, err := on.Run(stages.Girder{Mark: "AB", Pieces: whole}, limits.EN1992{})
	require.NoError(t, err)
	for words, change := range map[string]func(*stages.Girder){
		"Mark is empty: must be a name":                                           func(g *stages.Girder) { g.Mark = "" },
		"girder AB has no piece: must be at least one":                            func(g *stages.Girder) { g.Pieces = nil },
		"Radius = 20 m: must be 0 (straight) or 30 to 1e6 m":                      func(g *stages.Girder) { g.Radius = 20 },
		"two pieces A: must be marks that differ":                                 func(g *stages.Girder) { g.Pieces[1].Element.Mark = "A" },
		"Pieces[1] B: At = -1 m: must be 0 to 10000 m":                            func(g *stages.Girder) { g.Pieces[1].At = -1 },
		"Pieces[1] B: At = NaN m":                                                 func(g *stages.Girder) { g.Pieces[1].At = math.NaN() },
		"no piece between x = 4 and 4.2 m: must be without a gap":                 func(g *stages.Girder) { g.Pieces[1].At = 4.2 },
		"no piece between x = 0 and 0.1 m: must be without a gap":                 func(g *stages.Girder) { g.Pieces[0].At, g.Pieces[1].At = 0.1, 4.1 },
		"Pieces[0] A and Pieces[1] B overlap from x = 3.5 to 4 m: must be beside": func(g *stages.Girder) { g.Pieces[1].At, g.Pieces[1].Joint = 3.5, stages.Monolithic },
		"Pieces[1] B has an epoxied joint at x = 3.5 m where no piece ends: must": func(g *stages.Girder) { g.Pieces[1].At = 3.5 },
	} {
		g := stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Epoxied, a, b)}
		change(&g)
		_, err := on.Run(g, limits.EN1992{})
		require.ErrorIs(t, err, stages.ErrStage, words)
		require.ErrorContains(t, err, words)
	}
}

// A piece that only just meets its neighbour does, one that is off by more than a
// hair does not.
func TestJointsAHairApart(t *testing.T) {
	on := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 0.5, 7.5))}}
	for gap, ok := range map[float64]bool{0.5e-6 * 8.5: true, -0.5e-6 * 8.5: true, 2e-6 * 8.5: false, -2e-6 * 8.5: false} {
		g := stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Epoxied, segment("A", 4), segment("B", 4.5))}
		g.Pieces[1].At += gap
		_, err := on.Run(g, limits.EN1992{})
		require.Equal(t, ok, err == nil, "%g m: %v", gap, err)
	}
}

func point(at, force float64) loads.Set {
	return loads.Set{Points: []loads.Point{{At: at, Force: force}}}
}

func TestActionsAndSupportsRefuse(t *testing.T) {
	store := func(on ...stages.Support) stages.Store { return stages.Store{Age: 28, On: on} }
	good := paired(stages.Pads(0.2, 1, 11))
	acts := func(list ...stages.Action) stages.Plan {
		return stages.Plan{stages.Store{Age: 28, On: good, Actions: list}}
	}
	act := func(change func(*stages.Action)) stages.Plan {
		a := stages.Action{Mark: "hoist", Loads: point(4, 10e3)}
		change(&a)
		return acts(a)
	}
	with := func(change func(*stages.Support)) stages.Plan {
		s := append([]stages.Support{}, good...)
		change(&s[1])
		return stages.Plan{store(s...)}
	}
	require.NoError(t, errorOf(acts(stages.Action{Mark: "hoist", Loads: point(4, 10e3)})))
	for words, plan := range map[string]stages.Plan{
		// actions
		"in Actions[0] hoist: load: point load 1 at x = 12.1 m":                    act(func(a *stages.Action) { a.Loads = point(12.1, 1) }),
		"presence from Least = 2 to Most = 1: must be within ±10, Least not above": act(func(a *stages.Action) { a.Least, a.Most = 2, 1 }),
		"presence from Least = -11 to Most = 1":                                    act(func(a *stages.Action) { a.Least, a.Most = -11, 1 }),
		"presence from Least = NaN":                                                act(func(a *stages.Action) { a.Least = math.NaN() }),
		"Mark is empty: must be a name":                                            act(func(a *stages.Action) { a.Mark = "" }),
		"Y = 51 m, Z = 0 m: must be within ±50 m":                                  act(func(a *stages.Action) { a.Y = 51 }),
		"Direction = \"up\": must be Down, Transverse or Along":                    act(func(a *stages.Action) { a.Direction = "up" }),
		"Loads is empty: must be at least one load, or a Train":                    act(func(a *stages.Action) { a.Loads = loads.Set{} }),
		"in Off: action crane is not present: must be an action that stays":        {stages.Store{Age: 28, On: good, Off: []string{"crane"}}},
		"action hoist is present already: must be marks that differ":               acts(stages.Action{Mark: "hoist", Loads: point(4, 1)}, stages.Action{Mark: "hoist", Loads: point(5, 1)}),
		"hoist stays in a transient situation: must be put on in a standing one":   {store(good...), stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: paired(hooks(0.2, 1, 11)), Actions: []stages.Action{{Mark: "hoist", Stays: true, Loads: point(4, 1)}}}},
		// supports
		"group \"g\" has one support, at x = 1 m: must be at least two":                with(func(s *stages.Support) { s.Group = "g" }),
		"support 2 at x = 12.5 m: field X = 12.5 m: must be on the element, 0 to 12 m": with(func(s *stages.Support) { s.X = 12.5 }),
		"support 2 at x = 1 m: field Preload = -5000 N on a pad: must be in the sense": with(func(s *stages.Support) { s.Preload = -5e3 }),
		"support 2 at x = 1 m: field Preload = 5000 N on a tie: must be in the sense":  with(func(s *stages.Support) { s.Preload, s.Role = 5e3, stages.Tie }),
		"Stiffness = 80 N/m: must be 0 (rigid) or 1e3 to 1e12 N/m":                     with(func(s *stages.Support) { s.Stiffness = 80 }),
		"Level = 5 m: must be within ±0.5 m":                                           with(func(s *stages.Support) { s.Level = 5 }),
		"Friction = 1.5: must be 0 (for 0.1) to 1":                                     with(func(s *stages.Support) { s.Friction = 1.5 }),
		"Role = \"crane\": must be one of [\"pad\" \"jack\" ":                          with(func(s *stages.Support) { s.Role = "crane" }),
		"Holds of a bearing is not stated: must be HoldsAlong":                         with(func(s *stages.Support) { s.Role = stages.Bearing }),
		"OutOfLevel = 0 m: OutOfLevel must be stated":                                  {stages.Store{Age: 28, On: stages.Elastic(80e6, stages.Pads(0.2, 1, 11)...)}},
		"1 of 4 supports have a Stiffness":                                             {store(append(stages.Pads(0.2, 1), stages.Support{X: 11, Y: -0.2}, stages.Support{X: 11, Y: 0.2, Stiffness: 80e6})...)},
		"must be at most 20: state groups that are equalised, or Stiffness and OutOf":  {store(stages.Pads(0.2, 1, 2.9, 4.7, 6.6, 8.3, 10, 11.2)...)},
		// situations
		"field OutOfLevel = 5 m: must be 0 to 0.1 m; is it in mm?": {stages.Store{Age: 28, OutOfLevel: 5, On: good}},
		"field Roll = 2 rad: must be 0 to 0.35 rad":                {stages.Store{Age: 28, Roll: 2, On: good}},
		"field Gradient = -0.1 rad: must be 0 to 0.35 rad":         {stages.Store{Age: 28, Gradient: -0.1, On: good}},
	} {
		err := errorOf(plan)
		require.Error(t, err, words)
		require.ErrorIs(t, err, stages.ErrStage, words)
		require.ErrorContains(t, err, words)
		require.Regexp(t, "(store|lift) at age 28 d", err.Error(), words)
	}
}

// Six pads in pairs share in at most 8 ways that need no pull, eight in 20; ten in
// more than are looked at.
func TestSupportsThatShareInManyWays(t *testing.T) {
	for n, ok := range map[int]bool{2: true, 3: true, 4: true, 5: false} {
		xs := []float64{1.1, 10.7, 3.9, 7.7, 5.6}[:n]
		r, err := stages.Plan{stages.Store{Age: 28, On: stages.Pads(0.2, xs...)}}.Run(block(), limits.EN1992{})
		if !ok {
			require.ErrorContains(t, err, "must be at most 20", "%d pairs", n)
			continue
		}
		require.NoError(t, err, "%d pairs", n)
		without := 0
		for _, p := range r.Stages[0].Situations[0].Reactions {
			require.True(t, p.Bounded)
			require.GreaterOrEqual(t, p.Static.Least, -1e-6)
			require.Positive(t, p.Static.Most)
			if p.Static.Least < 1 {
				without++
			}
		}
		require.GreaterOrEqual(t, without, 2*n-2, "all but those of the less loaded end may go without")
	}
}

func errorOf(plan stages.Plan) error {
	_, err := plan.Run(block(), limits.EN1992{})
	return err
}

// An action that was put on without Stays is gone in the next situation and cannot
// be taken off; one that stays can be, once.
func TestActionsAreTakenOffOnce(t *testing.T) {
	on := paired(stages.Pads(0.2, 1, 11))
	hoist := stages.Action{Mark: "hoist", Y: 0.1, Least: 1, Most: 1, Loads: point(4, 30e3), Stays: true}
	put := stages.Store{Age: 20, On: on, Actions: []stages.Action{hoist}}
	wait := stages.Store{Age: 21, On: on}
	off := stages.Store{Age: 22, On: on, Off: []string{"hoist"}}
	require.NoError(t, errorOf(stages.Plan{put, wait, off}))
	require.ErrorContains(t, errorOf(stages.Plan{put, off, off}), "in Off: action hoist is not present")
	hoist.Stays = false
	put.Actions = []stages.Action{hoist}
	require.ErrorContains(t, errorOf(stages.Plan{put, off}), "in Off: action hoist is not present")
	r := run(t, block(), stages.Plan{stages.Store{Age: 20, On: on, Actions: []stages.Action{{Mark: "hoist", Y: 0.1, Least: 1, Most: 1, Loads: point(4, 30e3), Stays: true}}}, wait, off})
	sums := make([]float64, 3)
	for i, stage := range r.Stages {
		for _, p := range stage.Situations[0].Reactions {
			sums[i] += p.Nominal
		}
	}
	require.InDelta(t, 150e3, sums[0], 1e-6)
	require.InDelta(t, 150e3, sums[1], 1e-6)
	require.InDelta(t, 120e3, sums[2], 1e-6)
}

func TestASubjectThatIsNil(t *testing.T) {
	plan := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1, 11))}}
	for _, nothing := range []stages.Subject{nil, (*stages.Element)(nil), (*stages.Girder)(nil)} {
		_, err := plan.Run(nothing, limits.EN1992{})
		require.ErrorIs(t, err, stages.ErrStage)
		require.True(t, strings.Contains(err.Error(), "the subject is nil"))
		_, _, err = stages.Case{Subject: nothing, Plan: plan, Stage: 1, Standard: limits.EN1992{}}.Worst()
		require.ErrorIs(t, err, stages.ErrStage)
		_, _, err = stages.Case{Subject: nothing, Plan: plan, Stage: 1, Standard: limits.EN1992{}}.Solve(stages.Input{Set: func(*stages.Girder, *stages.Plan, float64) error { return nil }}, 0, 1)
		require.ErrorIs(t, err, stages.ErrStage)
	}
}
