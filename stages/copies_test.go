package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// full is an element with one of everything that an input may change.
func full(t testing.TB) stages.Element {
	e := bedBeam(t)
	e.Tendons = append(e.Tendons, evenTendon("A", 7, 0.05, 0.60))
	e.Extra = []stages.ExtraWeight{{Mark: "w", From: 2, To: 3, Weight: 2e3}}
	e.Bars = []stages.BondedBars{{From: 0, To: 16, At: section.Point{Z: 0.05}, Area: 1e-3}}
	e.WeightTolerance = loads.PlusMinus(0.02)
	return e
}

// Whatever an input writes into the girder that it is given, the caller's own is as it
// was, however often it is tried.
func TestAnInputWritesIntoACopy(t *testing.T) {
	for name, set := range map[string]func(*stages.Girder, float64){
		"extra weight": func(g *stages.Girder, v float64) { g.Pieces[0].Element.Extra[0].Weight = 1e3 * v },
		"bars":         func(g *stages.Girder, v float64) { g.Pieces[0].Element.Bars[0].Area = 1e-4 * v },
		"tendons":      func(g *stages.Girder, v float64) { g.Pieces[0].Element.Tendons[0].Approval.MeanStrength = 1e6 * v },
		"layers":       func(g *stages.Girder, v float64) { g.Pieces[0].Element.Pretension[0].Mark = "P1" },
		"tolerance":    func(g *stages.Girder, v float64) { g.Pieces[0].Element.WeightTolerance.Over = 0.01 * v },
		"a piece":      func(g *stages.Girder, v float64) { g.Pieces[0].Element.UnitWeight = 25e3 + v },
		"of a girder":  func(g *stages.Girder, v float64) { g.Tendons[0].Approval.EdgeDistance = 0.01 * v },
	} {
		own := full(t)
		g := stages.Girder{Mark: "L", Pieces: []stages.Piece{{Element: own}}}
		through := evenTendon("G", 5, 0.45, 0.15)
		g.Tendons = append(g.Tendons, through)
		plan := stages.Plan{stages.Transfer{Age: 5, Pretension: fromBed(1200e6, "P1", "P2"), Jacking: jackings("A", "G"), On: twoEnds}}
		c := stages.Case{Subject: g, Plan: plan, Stage: 1, Standard: limits.EN1992{}}
		tried := 0
		_, _, err := c.Solve(stages.Input{Symbol: "v", Unit: formula.One, Set: func(g *stages.Girder, p *stages.Plan, v float64) error {
			set(g, v)
			(*p)[0] = stages.Transfer{Age: 5 + v/1e6, Pretension: fromBed(1200e6, "P1", "P2"), Jacking: jackings("A", "G"), On: twoEnds}
			tried++
			return nil
		}}, 1, 2)
		require.Error(t, err, "the same at both ends: %s", name)
		require.Positive(t, tried, name)
		require.Equal(t, 5.0, plan[0].(stages.Transfer).Age)
		require.Equal(t, 2e3, own.Extra[0].Weight, name)
		require.Equal(t, 1e-3, own.Bars[0].Area, name)
		require.Equal(t, 20e6, own.Tendons[0].Approval.MeanStrength, name)
		require.Equal(t, 0.02, own.WeightTolerance.Over, name)
		require.Zero(t, g.Pieces[0].Element.UnitWeight, name)
		require.Equal(t, 0.1, g.Tendons[0].Approval.EdgeDistance, name)
	}
}

// A case solves for the stage that is named: the same input has another root, or none,
// in another stage.
func TestACaseSolvesForItsOwnStage(t *testing.T) {
	plan := stages.Plan{stages.Store{Age: 28, On: dunnage(2.4, 9.6)}, stages.Store{Age: 29, On: dunnage(1, 11)}, stages.Store{Age: 30, On: dunnage(2.4, 9.6)}}
	edge := stages.Input{Symbol: "x", Unit: formula.Metre, Set: func(_ *stages.Girder, p *stages.Plan, v float64) error {
		(*p)[1] = stages.Store{Age: 29, On: dunnage(1, v)}
		return nil
	}}
	standard := limits.All(about{limits.Compression, limits.EN1992{Compression: 2.4e6 / 40e6}})
	// 10 kN/m on 1 and v m: R = 120·(v − 6)/(v − 1), the largest moment R²/20 − R, and the
	// stress is 2.4 MPa where that is 128 kN·m.
	low, high := 10.5, 12.0
	for range 60 {
		middle := (low + high) / 2
		if r := 120 * (middle - 6) / (middle - 1); r*r/20-r < 128 {
			low = middle
		} else {
			high = middle
		}
	}
	got, worst, err := stages.Case{Subject: bare(), Plan: plan, Stage: 2, Standard: all{standard}}.Solve(edge, 10.5, 12)
	require.NoError(t, err)
	require.InDelta(t, low, got, 1e-6)
	require.Equal(t, limits.Compression, worst.Kind)
	for _, stage := range []int{1, 3} {
		_, _, err := stages.Case{Subject: bare(), Plan: plan, Stage: stage, Standard: all{standard}}.Solve(edge, 10.5, 12)
		require.ErrorIs(t, err, formula.ErrNoRoot, "stage %d does not depend on it", stage)
		require.Regexp(t, `no root between 10.5 m and 12 m: at 12 m it (passes|does not pass) \(.*, reserve .* %\), at 10.5 m it (passes|does not pass) \(`, err.Error())
	}
	for _, stage := range []int{-1, 0, 4} {
		_, _, err := stages.Case{Subject: bare(), Plan: plan, Stage: stage, Standard: all{standard}}.Worst()
		require.ErrorContains(t, err, "must be 1 to 3")
	}
}

// all answers every other question with a limit that nothing reaches.
type all struct{ limits.Standard }

func (a all) Limits(q limits.Question) ([]limits.Limit, error) {
	list, err := a.Standard.Limits(q)
	if err != nil || len(list) > 0 {
		return list, err
	}
	sense, value := limits.AtMost, 1e14
	if q.Kind == limits.Uplift {
		sense, value = limits.AtLeast, -1e14
	}
	return []limits.Limit{{
		Name: string(q.Kind), Sense: sense, Line: formula.Given(formula.Q("lim", value, formula.Pascal, "limit"), formula.Source{Document: "test"}),
		BarStress: formula.Q("σ_s", 200e6, formula.Pascal, "stress"),
	}}, nil
}

// The centre of gravity of a girder is that of what is there from the beginning, each
// piece at its place.
func TestCentreOfGravityOfAGirder(t *testing.T) {
	a, b, c := plate(t, "A", 4, -0.5, 0.5, 0, 0.4), plate(t, "B", 6, -0.2, 0.6, 0.1, 0.9), plate(t, "C", 4, -0.5, 0.5, 0.4, 0.6)
	b.Extra = []stages.ExtraWeight{{Mark: "w", From: 1, To: 2, Weight: 20e3, Y: 0.3, Z: 1}}
	g := stages.Girder{Mark: "G", Pieces: []stages.Piece{{Element: a}, {Element: b, At: 4}, {Element: c, Later: true}}}
	wa, wb := 25e3*0.4*4, 25e3*0.8*0.8*6
	m, err := g.CentreOfGravity()
	require.NoError(t, err)
	total := wa + wb + 20e3
	require.InEpsilon(t, total, m.Weight, 1e-12)
	require.InEpsilon(t, total/9.80665, m.Mass, 1e-12)
	require.InEpsilon(t, (wa*2+wb*7+20e3*5.5)/total, m.X, 1e-12)
	require.InEpsilon(t, (wb*0.2+20e3*0.3)/total, m.Y, 1e-12)
	require.InEpsilon(t, (wa*0.2+wb*0.5+20e3*1)/total, m.Z, 1e-12)
	g.Pieces[2].Later = false
	wc := 25e3 * 0.2 * 4
	m, err = g.CentreOfGravity()
	require.NoError(t, err)
	require.InEpsilon(t, total+wc, m.Weight, 1e-12)
	require.InEpsilon(t, (wa*0.2+wb*0.5+20e3+wc*0.5)/(total+wc), m.Z, 1e-12)
	g.Pieces[1].Element.Length = -1
	_, err = g.CentreOfGravity()
	require.ErrorIs(t, err, stages.ErrStage)
}
