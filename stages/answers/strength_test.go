package answers_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/answers"
	"github.com/tempstage/tempstage/stages/limits"
)

// shown puts a test of the first element at an age.
func shown(age float64) stages.Input {
	return stages.Input{Symbol: "f_ck_t", Unit: formula.Pascal, Set: func(g *stages.Girder, _ *stages.Plan, v float64) error {
		e := &g.Pieces[0].Element
		e.Concrete = e.Concrete.Shown(age, v)
		if e.LongTerm != nil {
			e.LongTerm = e.LongTerm.Shown(age, v).(concrete.TimeModel)
		}
		return nil
	}}
}

// compressed is the stressed block on pads at 0.5 m, where compression governs strength: the
// tendon in the axis, its whole force.
func compressed(t testing.TB, strands int) stages.Case {
	c := stressed(t, 0.4, 1300e6)
	e := c.Subject.(stages.Element)
	e.Tendons[0].Strands = strands
	e.Tendons[0].Approval.MeanStrength = 5e6
	c.Subject = e
	c.Plan = c.Plan[:1]
	c.Stage = 1
	return c
}

// By hand: 0.6·f_ck(t) ≥ r_sup·P/A + M/Z at the fibre that is compressed most; the modulus does not
// matter, as there is one tendon.
func TestLeastStrengthFromCompression(t *testing.T) {
	c := compressed(t, 23)
	force := 23.0 * 150e-6 * 1300e6
	s, err := answers.LeastStrength(c)
	require.NoError(t, err)
	hole := math.Pi * 0.07 * 0.07 / 4
	area := 0.4 - hole
	second := 0.5*math.Pow(0.8, 3)/12 - math.Pi*math.Pow(0.07, 4)/64
	moment := 10e3*11*11/8 - 10e3*0.5*0.5/2
	want := (1.1*force/area + moment*0.4/second) / 0.6
	require.Equal(t, limits.Compression, s.Governs.Kind)
	require.InDelta(t, want, s.Required, 1e-6*want)
	require.Equal(t, s.Value, s.Required)
	require.InDelta(t, 1/want, s.Intervals[0].From.Sensitivity, 1e-3/want)
	proved(t, c, shown(5), s.Answer)

	// The mix by EN 1992-1-1, 3.1.2: f_ck(t) = β_cc·(f_ck + 8) − 8, s = 0.20.
	require.InDelta(t, want, 1e6*(math.Exp(0.2*(1-math.Sqrt(28/s.Least)))*48-8), 1e-5*want)
	require.EqualValues(t, 5, s.At)
	cube, err := concrete.CubeFor(s.Required)
	require.NoError(t, err)
	require.Equal(t, cube, s.Cube)
	require.InDelta(t, want+8e6*math.Sqrt(4./3), s.MeanCylinder, 10)
	require.Contains(t, s.Sentence(), "characteristic cylinder strength before transfer of prestress: f_ck_t at least ")
	require.Contains(t, s.Sentence(), " MPa; below, concrete compression, corner")
	require.Regexp(t, `characteristic cube [\d.]+ MPa; mean of 3 cylinders .* assumed 2\d\.\d MPa characteristic cylinder at 5 d; the mix reaches it at [\d.]+ d by its model`, s.Notes[0])
}

// By hand: 1.35·M/W ≤ f_ctk,0.05(t)/1.5 = 0.7·f_ctm·(f_ck(t) + 8)/(f_ck + 8)/1.5, with bars.
func TestLeastStrengthFromTension(t *testing.T) {
	c := handled(t)
	c.Standard = limits.EN1992{}
	c.Plan = stages.Plan{yard{age: 7, on: pads(dunnage(2.3, 9.7))}}
	c.Stage = 1
	s, err := answers.LeastStrength(c)
	require.NoError(t, err)
	demand := 1.35 * 10e3 * (18 - 6*2.3) / (0.5 * 0.8 * 0.8 / 6)
	want := demand/1e6*1.5/0.7*48/(0.3*math.Pow(40, 2./3)) - 8
	require.InDelta(t, want*1e6, s.Required, 1e-5*want*1e6)
	proved(t, c, shown(7), s.Answer)
	require.Less(t, s.Required, s.Assumed)
	require.Less(t, s.Least, 7.0)
}

// A test that shows less than the formula before it: the age counts from which on the strength is there.
func TestLeastAge(t *testing.T) {
	mix := concrete.EN1992{Fck: 40e6, Cement: concrete.ClassR}
	age, err := answers.LeastAge(mix, 40e6)
	require.NoError(t, err)
	require.InDelta(t, 28, age, 1e-6)
	at, err := mix.At(3.5)
	require.NoError(t, err)
	age, err = answers.LeastAge(mix, at.Characteristic)
	require.NoError(t, err)
	require.InDelta(t, 3.5, age, 1e-6)
	mix.Tests = []concrete.Test{{Age: 5, Strength: 20e6, Specimen: concrete.Cylinder, Specimens: 3, Statistic: concrete.Characteristic}}
	age, err = answers.LeastAge(mix, 22e6)
	require.NoError(t, err)
	require.Greater(t, age, 5.0)
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1), 45e6} {
		_, err = answers.LeastAge(mix, bad)
		require.ErrorIs(t, err, answers.ErrAnswer)
	}
	_, err = answers.LeastAge(nil, 22e6)
	require.ErrorIs(t, err, answers.ErrAnswer)
}

// Of two elements the weaker is assumed, and the slower mix gives the age.
func TestLeastStrengthOfTwoElements(t *testing.T) {
	c := handled(t)
	c.Standard = limits.EN1992{}
	for _, order := range [][2]concrete.Cement{{concrete.ClassR, concrete.ClassN}, {concrete.ClassN, concrete.ClassR}} {
		first, second := block(t), block(t)
		second.Mark = "B-2"
		for _, e := range []*stages.Element{&first, &second} {
			e.Length = 6
			for i := range e.Bars {
				e.Bars[i].To = 6
			}
		}
		slow := concrete.EN1992{Fck: 40e6, Cement: concrete.ClassN}
		first.Concrete, second.Concrete = concrete.EN1992{Fck: 40e6, Cement: order[0]}, concrete.EN1992{Fck: 40e6, Cement: order[1]}
		c.Subject = stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Monolithic, first, second)}
		c.Plan, c.Stage = stages.Plan{yard{age: 7, on: pads(dunnage(2.3, 9.7))}}, 1
		s, err := answers.LeastStrength(c)
		require.NoError(t, err)
		at, err := slow.At(7)
		require.NoError(t, err)
		require.Equal(t, at.Characteristic, s.Assumed)
		age, err := answers.LeastAge(slow, s.Required)
		require.NoError(t, err)
		require.Equal(t, age, s.Least)
		require.Equal(t, []string{"B-1", "B-2"}, s.Elements)
		require.Greater(t, s.Trials, 8)
	}
}

func TestLeastStrengthInWords(t *testing.T) {
	c := handled(t)
	_, err := answers.LeastStrength(c, "B-2")
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, `no element "B-2" is there at stage 2`)
	c.Stage = 0
	_, err = answers.LeastStrength(c)
	require.ErrorContains(t, err, "Case.Stage = 0: must be 1 to 3")
	c = stressed(t, 0.3, 500e6)
	c.Plan[1] = yard{age: 7, on: pads(dunnage(4, 8))}
	s, err := answers.LeastStrength(c)
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, "fails everywhere (nearest: ")
	require.Contains(t, s.Sentence(), "fails for every f_ck_t")
}
