package answers_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/answers"
	"github.com/tempstage/tempstage/stages/limits"
)

// hung is the block without roll, on two loops of a rated load each.
func hung(t testing.TB, rated float64) stages.Case {
	c := handled(t)
	c.Standard = limits.EN1992{}
	c.Plan = stages.Plan{c.Plan[0], rate{stages.Lift{Age: 7, On: loops(2.4, 9.6), Dynamic: loads.Dynamic{Most: 1.05}, Roll: 0.05, Slender: &stages.Slender{Sweep: 0.001, Offset: 0.001}}, rated}, c.Plan[2]}
	c.Standard = limits.All(limits.EN1992{}, limits.Handling{})
	return c
}

// rate is a stage with a rated load of its first and its last support.
type rate struct {
	stages.Stage
	most float64
}

func (r rate) Situations(h stages.History) ([]stages.Situation, error) {
	list, err := r.Stage.Situations(h)
	for i := range list {
		list[i].Check = func(e stages.Effects, _ limits.Standard) (own []stages.OwnCheck, _ error) {
			at := formula.Source{Document: "invented"}
			for _, n := range []int{0, len(e.Reactions) - 1} {
				limit := limits.Limit{Name: "rated load", LimitState: "WLL", Sense: limits.AtMost, Line: formula.Given(formula.Q("R_max", r.most, formula.Newton, "rated load"), at), Source: at}
				load := formula.Given(formula.Q("R_1", e.Reactions[n].Characteristic.Most, formula.Newton, "load"), formula.Mechanics)
				own = append(own, stages.NewCheck(limit, load.Result).Derived(load, limit.Line))
			}
			return own, nil
		}
	}
	return list, err
}

// Of a weight of 120 kN each loop has half: φ = R/60 kN.
func TestLargestDynamicByStatics(t *testing.T) {
	c := hung(t, 66e3)
	a, err := answers.LargestDynamic(c)
	require.NoError(t, err)
	require.InDelta(t, 66./60, a.Value, 1e-6)
	require.InDelta(t, -60./66, a.Intervals[0].To.Sensitivity, 1e-4)
	require.Equal(t, "maximum dynamic factor: φ_dyn at most 1.100; above, rated load", a.Sentence())
	proved(t, c, stages.Input{Symbol: "φ", Set: func(_ *stages.Girder, p *stages.Plan, v float64) error {
		*p = stages.Altered(*p, 2, func(s *stages.Situation) { s.Dynamic.Most = v })
		return nil
	}}, a)
	c.Stage = 1
	_, err = answers.LargestDynamic(c)
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, "stage 1 has no transient situation")
}

// Linear in the weight: R = 1.05·60 kN·(1 + ΔW/W).
func TestWeightReserveByStatics(t *testing.T) {
	for _, rated := range []float64{65e3, 68e3} {
		c := hung(t, rated)
		a, err := answers.WeightReserve(c)
		require.NoError(t, err)
		require.InDelta(t, rated/63e3-1, a.Value, 1e-6)
		require.InDelta(t, -63e3/rated, a.Intervals[0].To.Sensitivity, 1e-4)
		require.Regexp(t, `^weight above nominal: ΔW/W at most \d\.\d %; above, rated load$`, a.Sentence())
	}
}

// Two loops 7.2 m apart: R = 1.05·(60 + 120·e/7.2) kN, on the one side or on the other.
func TestCentreOfGravityReserveByStatics(t *testing.T) {
	c := hung(t, 66e3)
	a, err := answers.CentreOfGravityReserve(c)
	require.NoError(t, err)
	require.InDelta(t, (66/1.05-60)*7.2/120, a.Value, 1e-6)
	require.Equal(t, "rated load", a.Intervals[0].To.Governing().Name)
	require.Contains(t, a.Sentence(), "centre of gravity off along x, to either side: e_x at most 0.17 m; above, rated load")

	// With an extra weight at one end the other loop is further from its limit.
	e := c.Subject.(stages.Element)
	e.Extra = []stages.ExtraWeight{{Mark: "block", From: 6.6, To: 6.6, Weight: 2e3, Z: 0.4}} // CoG of 122 kN at 6 + 2·0.6/122
	c.Subject = e
	c.Plan[1] = rate{c.Plan[1].(rate).Stage, 66e3}
	a, err = answers.CentreOfGravityReserve(c)
	require.NoError(t, err)
	require.InDelta(t, (66/1.05-61)*7.2/122-2*0.6/122, a.Value, 1e-6)

	// Its mirror image answers the same: the other side is tried too.
	e.Extra = []stages.ExtraWeight{{Mark: "block", From: 5.4, To: 5.4, Weight: 2e3, Z: 0.4}}
	c.Subject = e
	mirrored, err := answers.CentreOfGravityReserve(c)
	require.NoError(t, err)
	require.InDelta(t, a.Value, mirrored.Value, 1e-6)

	c.Subject = stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Epoxied, block(t), block(t))}
	_, err = answers.CentreOfGravityReserve(c)
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, "the girder has 2 elements")
	_, err = answers.CentreOfGravityReserve(stages.Case{})
	require.ErrorIs(t, err, answers.ErrAnswer)
}

// A body on four equal springs that is stiff against them: one of them d out of the plane of the others
// gives k·d/4 at each corner, + − − +, beside a quarter of the weight.
func TestLargestLevelDifferenceOfARigidBody(t *testing.T) {
	const k, rated = 2e6, 31e3
	c := handled(t)
	c.Standard = limits.EN1992{}
	on := stages.Elastic(k, stages.Pads(0.2, 2.4, 9.6)...)
	c.Plan = stages.Plan{rate{stages.Store{Age: 7, On: on, OutOfLevel: 0.001}, rated}}
	c.Stage = 1
	a, err := answers.LargestLevelDifference(c)
	require.NoError(t, err)
	require.InDelta(t, 4*(rated-30e3)/k, a.Value, 8e-6) // GJ of the block adds 0.2 % of the flexibility of the springs
	require.Contains(t, a.Sentence(), "d at most 2.0")
	require.Contains(t, a.Sentence(), " mm; above, rated load")
}

// The force grows with the square of the speed: v = v_0·√(H_max/H_0).
func TestLargestWindGrowsWithTheSquare(t *testing.T) {
	c := handled(t)
	c.Standard = limits.EN1992{}
	at := formula.Source{Document: "invented"}
	wind := loads.Wind{WindSpeed: loads.WindSpeed{Speed: 10, Averaging: loads.GustOf3s, Height: 10}, Sail: 12, Source: at}
	act, err := stages.WindAcross("wind", wind, 0, 12, 0.4)
	require.NoError(t, err)
	c.Plan = stages.Plan{stages.Store{Age: 7, On: dunnage(2.4, 9.6), Actions: []stages.Action{act}}}
	c.Stage = 1
	a, err := answers.LargestWind(c)
	require.NoError(t, err)
	require.Contains(t, a.Sentence(), "wind speed, averaged over 3 s, at 10 m above the ground: v at most ")
	require.Contains(t, a.Sentence(), " m/s; above, ")
	faster := wind
	faster.Speed = a.Value
	proven, err := stages.WindAcross("wind", faster, 0, 12, 0.4)
	require.NoError(t, err)
	c.Plan = stages.Plan{stages.Store{Age: 7, On: dunnage(2.4, 9.6), Actions: []stages.Action{proven}}}
	_, reserve, err := c.Worst()
	require.NoError(t, err)
	require.InDelta(t, 0, reserve, 1e-6)
	require.GreaterOrEqual(t, reserve, -1e-12)

	// Without a speed the factor is the square of the ratio of speeds.
	act.Wind = nil
	c.Plan = stages.Plan{stages.Store{Age: 7, On: dunnage(2.4, 9.6), Actions: []stages.Action{act}}}
	f, err := answers.LargestWind(c)
	require.NoError(t, err)
	require.InDelta(t, a.Value*a.Value/100, f.Value, 1e-5*f.Value)
	require.Contains(t, f.Sentence(), "factor on the wind: γ_wind at most")

	mixed := act
	mixed.Mark, mixed.Wind = "second", &wind
	c.Plan = stages.Plan{stages.Store{Age: 7, On: dunnage(2.4, 9.6), Actions: []stages.Action{act, mixed}}}
	_, err = answers.LargestWind(c)
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, "1 of 2 winds have no speed")
	c.Plan = stages.Plan{stages.Store{Age: 7, On: dunnage(2.4, 9.6)}}
	_, err = answers.LargestWind(c)
	require.ErrorContains(t, err, "stage 1 has no action of the kind Wind")
}

// By hand, mid-span in tension: 0.9·P·(1 − ΔP/P) leaves no compression under the weight.
func TestLargestForceShortfallByHand(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	c.Plan[1] = yard{age: 7, on: pads(dunnage(1.5, 10.5))}
	a, err := answers.LargestForceShortfall(c)
	require.NoError(t, err)
	// The window's lower end is 1.5 m at the stress that is left.
	least, _ := window(0.3, 500e6*(1-a.Value))
	_, most := window(0.3, 500e6*(1-a.Value))
	if a.Intervals[0].To.Fails.X > 3 {
		require.InDelta(t, 1.5, least, 1e-5)
	} else {
		require.InDelta(t, 1.5, most, 1e-5)
	}
	require.Equal(t, limits.Tension, a.Intervals[0].To.Governing().Kind)
	require.Regexp(t, `force at the jacks below that planned: ΔP/P at most [\d.]+ %; above, concrete tension`, a.Sentence())

	c = handled(t)
	_, err = answers.LargestForceShortfall(c)
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, "no tendon is stressed up to stage 2")
}
