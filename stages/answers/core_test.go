package answers_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/answers"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

// proved are the promises of every answer: each end passes with at most 1e-6 of reserve, or
// jumps; just beyond, the stage does not pass.
func proved(t testing.TB, c stages.Case, input stages.Input, a answers.Answer) {
	t.Helper()
	run := func(v float64) float64 {
		with, err := c.With(input, v)
		require.NoError(t, err)
		_, reserve, err := with.Worst()
		if err != nil {
			return -1
		}
		return reserve
	}
	for _, i := range a.Intervals {
		require.LessOrEqual(t, i.From.Value, i.To.Value)
		for _, e := range []answers.End{i.From, i.To} {
			reserve := run(e.Value)
			require.GreaterOrEqual(t, reserve, 0.0)
			require.Equal(t, e.Reserve, reserve)
			if e.Open {
				continue
			}
			require.True(t, e.Jumps || reserve <= 1e-6, "%s: %g has reserve %g", a.Symbol, e.Value, reserve)
			require.Less(t, run(e.Beyond), 0.0)
			require.InDelta(t, e.Value, e.Beyond, 1e-3*(a.High-a.Low))
			require.NotEmpty(t, e.Fails.Name)
		}
	}
	_, err := a.Lines()
	require.NoError(t, err)
}

// moved puts both supports of a yard at a from the ends.
func moved(y yard) stages.Input {
	return stages.Input{Symbol: "a", Unit: formula.Metre, Set: func(_ *stages.Girder, p *stages.Plan, a float64) error {
		y.on = pads(dunnage(a, 12-a))
		(*p)[1] = y
		return nil
	}}
}

// window is a of two supports of the prestressed block by the theory of beams, on the net
// section: mid-span from below, cantilever from above, at 0.9 of the prestress. E = 0.8 m.
func window(level, stress float64) (least, most float64) {
	hole := math.Pi * 0.07 * 0.07 / 4
	area := 0.5*0.8 - hole
	centre := (0.5*0.8*0.4 - hole*level) / area
	second := 0.5*math.Pow(0.8, 3)/12 + 0.4*math.Pow(0.4-centre, 2) - hole*math.Pow(level-centre, 2) - math.Pi*math.Pow(0.07, 4)/64
	force := 0.9 * stress * 7 * 150e-6
	bottom := force * (1/area + (centre-level)*centre/second) * second / centre            // moment that leaves no compression
	top := force * (1/area - (centre-level)*(0.8-centre)/second) * second / (0.8 - centre) // hogging
	w := 25e3 * 0.4
	return (w*144/8 - bottom) / (w * 6), math.Sqrt(2 * top / w)
}

func TestWindowOfAPrestressedBeamByTheTheoryOfBeams(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	input := moved(yard{age: 7})
	a, err := answers.Solve(c, answers.Question{Asked: "supports from both ends", Input: input, Low: 0.2, High: 5})
	require.NoError(t, err)
	require.Len(t, a.Intervals, 1)
	least, most := window(0.3, 500e6)
	require.InDelta(t, least, a.Intervals[0].From.Value, 1e-5*least)
	require.InDelta(t, most, a.Intervals[0].To.Value, 1e-5*most)
	require.Equal(t, limits.Tension, a.Intervals[0].From.Governing().Kind)
	require.Greater(t, a.Intervals[0].From.Sensitivity, 0.0)
	require.Less(t, a.Intervals[0].To.Sensitivity, 0.0)
	require.Regexp(t, `^supports from both ends: a from 1\.\d\d to 1\.\d\d m; below, concrete tension, corner \d.*; above, concrete tension, corner \d`, a.Sentence())
	proved(t, c, input, a)
}

// A forbidden zone makes two windows, and its edges are jumps that are named. With the whole
// beam checked there is one window without it.
func TestAForbiddenZoneMakesTwoWindows(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	input := moved(yard{age: 7, zone: [2]float64{1.40, 1.55}})
	a, err := answers.Solve(c, answers.Question{Input: input, Low: 0.2, High: 5, Steps: 48})
	require.NoError(t, err)
	require.Len(t, a.Intervals, 2)
	least, most := window(0.3, 500e6)
	require.InDelta(t, least, a.Intervals[0].From.Value, 1e-5*least)
	require.InDelta(t, most, a.Intervals[1].To.Value, 1e-5*most)
	left, right := a.Intervals[0].To, a.Intervals[1].From
	require.InDelta(t, 1.40, left.Value, 1e-7)
	require.InDelta(t, 1.55, right.Value, 1e-7)
	for _, e := range []answers.End{left, right} {
		require.True(t, e.Jumps)
		require.Greater(t, e.Reserve, 1e-6)
		require.Equal(t, "duct at the lift point", e.Governing().Name)
		require.InDelta(t, -0.5, e.Deficit, 1e-9)
	}
	require.Contains(t, a.Sentence(), "above 1.40 m, duct at the lift point, at once; below 1.55 m, duct at the lift point, at once")
	proved(t, c, input, a)
}

// A window, or a gap, narrower than a step is found where the reserve has an extreme there.
func TestAWindowBetweenTwoTrials(t *testing.T) {
	c := stressed(t, 0.3, 400e6)
	least, most := window(0.3, 400e6)
	require.Less(t, most-least, 0.3)
	input := moved(yard{age: 7})
	for _, steps := range []int{5, 7, 9} {
		a, err := answers.Solve(c, answers.Question{Input: input, Low: 0.2, High: 5, Steps: steps})
		require.NoError(t, err, "%d", steps)
		require.InDelta(t, least, a.Intervals[0].From.Value, 1e-5)
		require.InDelta(t, most, a.Intervals[0].To.Value, 1e-5)
	}
}

// loaded is a yard with a load over the whole block, under a rated load of its first pad.
func loaded(most, q float64) yard {
	return yard{age: 7, on: pads(dunnage(2.5, 9.5)), most: most, action: []stages.Action{
		{Mark: "stores", Least: 1, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 12, q)}}},
	}}
}

// q = 4·R/L − w by statics.
func TestMaximumByStatics(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 1))
	for range 10 {
		most := 31e3 + 2e3*random.Float64()
		input := stages.Input{Symbol: "q", Unit: formula.NewtonPerMetre, Set: func(_ *stages.Girder, p *stages.Plan, q float64) error {
			(*p)[1] = loaded(most, q)
			return nil
		}}
		c := handled(t)
		c.Plan = stages.Plan{c.Plan[0], loaded(most, 1)}
		a, err := answers.Solve(c, answers.Question{Asked: "stores on the element", Input: input, Low: 1, High: 5e3, Sense: answers.Maximum, Steps: 6})
		require.NoError(t, err)
		require.InDelta(t, most/3-10e3, a.Value, 1e-6*most)
		require.Equal(t, "rated load", a.Intervals[0].To.Governing().Name)
		require.InDelta(t, -3/most, a.Intervals[0].To.Sensitivity, 1e-3/most)
		require.Contains(t, a.Sentence(), "stores on the element: q at most")
		proved(t, c, input, a)
	}
}

func TestNoAnswerInWords(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	input := moved(yard{age: 7})
	ask := func(low, high float64) answers.Question {
		return answers.Question{Asked: "supports from both ends", Input: input, Low: low, High: high, Steps: 4}
	}
	a, err := answers.Solve(c, ask(3, 5))
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, "stage 2, a from 3.00 to 5.00 m: the stage fails everywhere (nearest: concrete tension, reserve -")
	require.Empty(t, a.Intervals)
	require.Equal(t, "supports from both ends: the stage fails for every a from 3.00 to 5.00 m", a.Sentence())
	require.NotEmpty(t, a.Result().Tables)

	least, most := window(0.3, 500e6)
	a, err = answers.Solve(c, ask(least+0.1, most-0.1))
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, "the stage passes everywhere (nearest: ")
	require.Len(t, a.Intervals, 1)
	require.True(t, a.Intervals[0].From.Open && a.Intervals[0].To.Open)
	require.Contains(t, a.Sentence(), "the stage passes for every a from")

	for _, c := range []struct {
		low, high float64
		says      string
	}{
		{5, 3, "a from 5 to 3 m: must be from the smaller to the larger value"}, {3, 3, "from the smaller to the larger"},
		{math.NaN(), 3, "must be finite"}, {0, math.Inf(1), "must be finite"}, {-1e300, 3, "must be finite"},
	} {
		_, err := answers.Solve(stressed(t, 0.3, 500e6), ask(c.low, c.high))
		require.ErrorIs(t, err, answers.ErrAnswer)
		require.ErrorContains(t, err, c.says)
	}

	idle := stages.Input{Symbol: "v", Unit: formula.MetrePerSecond, Set: func(*stages.Girder, *stages.Plan, float64) error { return nil }}
	_, err = answers.Solve(c, answers.Question{Input: idle, Low: 1, High: 30})
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, "this check does not depend on v")

	_, err = answers.Solve(c, ask(20, 30)) // beyond the block
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorIs(t, err, stages.ErrStage)
	require.ErrorContains(t, err, "every value is refused")

	q := ask(0.2, 5)
	q.Steps = 1
	_, err = answers.Solve(c, q)
	require.ErrorContains(t, err, "Question.Steps = 1: must be 2 to 10000")
	q.Steps, q.Sense = 24, answers.Minimum
	_, err = answers.Solve(c, q)
	require.ErrorContains(t, err, "does not pass at the upper end")
	q.Sense = "most"
	_, err = answers.Solve(c, q)
	require.ErrorContains(t, err, "must be Window, Minimum or Maximum")
	c.Stage = 3
	_, err = answers.Solve(c, ask(0.2, 5))
	require.ErrorContains(t, err, "Case.Stage = 3: must be 1 to 2")
	_, err = answers.Solve(stressed(t, 0.3, 500e6), answers.Question{Low: 1, High: 2})
	require.ErrorIs(t, err, stages.ErrStage)
	_, err = answers.Solve(stages.Case{Plan: c.Plan, Stage: 1}, ask(1, 2))
	require.ErrorIs(t, err, stages.ErrStage)
}

// The sheets show an answer behind the stages, and its derivation on a sheet of results.
func TestSheetsShowAnAnswer(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	a, err := answers.Solve(c, answers.Question{Asked: "supports from both ends", Input: moved(yard{age: 7, zone: [2]float64{1.40, 1.55}}), Low: 0.2, High: 5, Steps: 48})
	require.NoError(t, err)
	r, err := c.Plan.Run(c.Subject, c.Standard)
	require.NoError(t, err)
	require.NoError(t, r.Append(a.Result()))
	require.NoError(t, r.Check())
	var text strings.Builder
	require.NoError(t, sheet.WriteMarkdown(&text, r, sheet.Settings{}))
	require.Contains(t, text.String(), "Stage 2: supports from both ends")
	require.Contains(t, text.String(), "duct at the lift point, at once")

	lines, err := a.Lines()
	require.NoError(t, err)
	require.Greater(t, len(lines), 20)
	_, err = stages.Results{
		Mark: "B-1", Length: 12, Inputs: []stages.Lines{{Title: "Range", Lines: lines[:1]}},
		Parts: []stages.ResultPart{{Title: a.Asked, Lines: lines}},
	}.Record()
	require.NoError(t, err)
}
