package stages_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// listed is a stage of the situations given.
type listed []stages.Situation

func (l listed) Situations(stages.History) ([]stages.Situation, error) {
	list := slices.Clone(l)
	for i := range list {
		list[i].Phase = limits.Storing
	}
	return list, nil
}

// stiff are supports that share by a stiffness without matter.
func stiff(xs ...float64) []stages.Support {
	return stages.Elastic(1e12, anchored(xs...)...)
}

func anchored(xs ...float64) []stages.Support {
	on := stages.At(xs...)
	for i := range on {
		on[i].Role = stages.Pad
		on[i].OneWay = stages.PushAndPull
	}
	return on
}

// twoSpans is a girder of two 20 m beams, the second added later.
func twoSpans(t testing.TB, tendons ...tendon.Tendon) stages.Girder {
	a, b := beamOf(t, true, tendons...), beamOf(t, true)
	a.Mark, b.Mark = "A", "B"
	a.WeightTolerance, b.WeightTolerance = loads.PlusMinus(0), loads.PlusMinus(0)
	g := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Poured, a, b)}
	g.Pieces[1].Later = true
	return g
}

// spansJoined are two simple spans made continuous over four lines at an age.
func spansJoined(joined, until float64, first ...stages.Event) stages.Plan {
	on := stiff(0, 19, 21, 40)
	return stages.Plan{listed{
		{Name: "first span", Age: 10, Standing: true, Supports: on[:2], Events: first},
		{Name: "second span", Age: 10, Standing: true, Supports: on, Events: []stages.Event{{Add: []string{"B"}}}},
		{Name: "made continuous", Age: joined, Until: until, Standing: true, Supports: on, OutOfLevel: 1e-9, Events: []stages.Event{{Join: []string{"B"}}}},
	}}
}

// The moment between the middle supports moves as package beam/redistribution says:
// by its ageing form with E(tc)/E(28 d) in place of E(tc)/E(t0), as φ of (5.46)
// relates to E at 28 d.
func TestSpansMadeContinuousRedistribute(t *testing.T) {
	simple, err := beam.New(beam.Layout{Length: 20, Supports: []beam.Support{{At: 0}, {At: 19}}, Stiffness: []beam.Stretch{{BendingStiffness: 1e9}}})
	require.NoError(t, err)
	whole, err := beam.New(beam.Layout{Length: 40, Supports: []beam.Support{{At: 0}, {At: 19}, {At: 21}, {At: 40}}, Stiffness: []beam.Stretch{{BendingStiffness: 1e9}}})
	require.NoError(t, err)
	own := func(length float64) loads.Set {
		return loads.Set{Lines: []loads.Line{{From: 0, To: length, Intensity: loads.Polynomial{beamWeight}}}}
	}
	before, err := simple.Solve(own(20))
	require.NoError(t, err)
	after, err := whole.Solve(own(40))
	require.NoError(t, err)
	for _, c := range []struct{ joined, until float64 }{{30, 3650}, {90, 1000}, {60, 60.5}} {
		a, err := spansJoined(c.joined, c.until).Analyse(twoSpans(t), limits.EN1992{})
		require.NoError(t, err)
		start, err := a.Effects(1, 3)
		require.NoError(t, err)
		end, err := a.Effects(1, 4)
		require.NoError(t, err)
		change := redistribution.Change{Concrete: mix(), Loaded: 10, Changed: c.joined, Until: c.until}
		aged, err := change.Aged(true)
		require.NoError(t, err)
		stepwise, err := change.Stepwise(100)
		require.NoError(t, err)
		for _, x := range []float64{8, 19.5, 30} {
			s0, sc := before.Moment(min(x, 40-x)), after.Moment(x)
			require.InDelta(t, s0, start.Forces(x).My, 1)
			share := (end.Forces(x).My - s0) / (sc - s0)
			e := modulus(t, c.joined)
			want := e * (phi(t, c.until, 10) - phi(t, c.joined, 10)) / (1 + 0.8*e*phi(t, c.until, c.joined))
			require.InEpsilon(t, want, share, 1e-4, "supports of 1e12 N/m give way a little")
			require.InEpsilon(t, stepwise.Value, share, 0.05, "by superposition in time")
			require.InEpsilon(t, aged.Value, share, 0.06, "by the ageing form")
		}
	}
}

// Intermediate situations make the ageing form march: by then the moments lie above
// superposition in time by what (5.46) adds to creep, 5 % of φ at the most.
func TestRedistributionInSteps(t *testing.T) {
	moment := func(days ...float64) float64 {
		l := spansJoined(30, 0)[0].(listed)
		for _, d := range days {
			l = append(l, stages.Situation{Name: "later", Age: d, Standing: true})
		}
		a, err := stages.Plan{l}.Analyse(twoSpans(t), limits.EN1992{})
		require.NoError(t, err)
		before, err := a.Effects(1, 3)
		require.NoError(t, err)
		after, err := a.Effects(1, len(l))
		require.NoError(t, err)
		return after.Forces(19.5).My - before.Forces(19.5).My
	}
	change := redistribution.Change{Concrete: mix(), Loaded: 10, Changed: 30, Until: 3650}
	stepwise, err := change.Stepwise(200)
	require.NoError(t, err)
	one, many := moment(3650), moment(33, 40, 60, 100, 200, 400, 900, 2000, 3650)
	e := modulus(t, 30)
	form := e * (phi(t, 3650, 10) - phi(t, 30, 10)) / (1 + 0.8*e*phi(t, 3650, 30))
	require.InEpsilon(t, stepwise.Value*1.03, form*many/one, 0.015)
}

// What stands on supports that do not give way does not move there, whatever
// creeps: spans made continuous keep the levels at their four lines, their kinks
// included, through prestress, losses and unlike ages.
func TestContinuousSpansStayOnTheirSupports(t *testing.T) {
	one := plainTendon(8, straightLine(20, 0.3, 0.15), straightLine(20, 0.1, 0.05))
	one.Friction, one.Wobble, one.NoFriction = 0.19, 0.005, false
	girder := twoSpans(t, one)
	girder.Pieces[1].Element.Cast = 8
	pull := jackT(1300e6)
	on := stiff(0, 19, 21, 40)
	plan := stages.Plan{listed{
		{Name: "first span", Day: 10, Standing: true, Supports: on[:2], Events: []stages.Event{{Jack: &pull[0]}}},
		{Name: "second span", Day: 15, Standing: true, Supports: on, Events: []stages.Event{{Add: []string{"B"}}}},
		{Name: "made continuous", Day: 40, Until: 200, Standing: true, Supports: on, OutOfLevel: 1e-9, Events: []stages.Event{{Join: []string{"B"}}}},
		{Name: "later", Day: 1000, Standing: true},
	}}
	a, err := plan.Analyse(girder, limits.EN1992{})
	require.NoError(t, err)
	before, err := a.Effects(1, 2)
	require.NoError(t, err)
	spans, err := before.Moves()
	require.NoError(t, err)
	require.Len(t, spans, 2)
	require.Equal(t, []string{"B"}, spans[1].Pieces)
	for situation := 3; situation <= 5; situation++ {
		m := movedIn(t, a, 1, situation)
		require.Equal(t, []string{"A", "B"}, m.Pieces)
		for _, x := range []float64{0, 19, 21, 40} {
			require.InDelta(t, 0, m.At(x).Deflection, 4e-7, "situation %d, x = %g m", situation, x) // 2e5 N on 1e12 N/m, twice
		}
		left, _ := m.Slopes(20 - 1e-9)
		right, _ := m.Slopes(20)
		require.Greater(t, math.Abs(right-left), 1e-4, "the kink of the day on which they were joined")
	}
	start, end := movedIn(t, a, 1, 3), movedIn(t, a, 1, 5)
	require.Greater(t, start.At(30).Deflection-end.At(30).Deflection, 1e-3, "the second span sags on by creep")
	// Reactions balance the weight still.
	effects, err := a.Effects(1, 5)
	require.NoError(t, err)
	sum := 0.0
	for _, r := range effects.Reactions {
		sum += r.Nominal
	}
	require.InEpsilon(t, 40*beamWeight, sum, 1e-9)
}

// An element that was bent free, by prestress and creep, is set down on three lines
// and held there: it stays on them from then on.
func TestSetDownOnThreeLinesStays(t *testing.T) {
	one := plainTendon(8, straightLine(20, 0.25, 0.2), straightLine(20, 0.1, -0.05))
	e := beamOf(t, true, one)
	plan := stages.Plan{
		stages.Transfer{Age: 5, Jacking: jackT(1300e6)},
		stages.Store{Age: 6, On: anchored(1, 18)},
		listed{{Name: "set down", Age: 60, Until: 900, Standing: true, Supports: stiff(0.5, 11, 19.5), OutOfLevel: 1e-9}},
	}
	a, err := plan.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	free := movedIn(t, a, 2, 1)
	up := func(m *stages.Movement) float64 {
		return m.At(11).Deflection - m.At(0.5).Deflection - (m.At(19.5).Deflection-m.At(0.5).Deflection)*10.5/19
	}
	require.Greater(t, up(free), 1e-3)
	for situation := 1; situation <= 2; situation++ {
		m := movedIn(t, a, 3, situation)
		for _, x := range []float64{0.5, 11, 19.5} {
			require.InDelta(t, 0, m.At(x).Deflection, 4e-7, "situation %d, x = %g m", situation, x)
		}
	}
	// The middle support pulls the camber down; creep lets go of most of that.
	set, err := a.Effects(3, 1)
	require.NoError(t, err)
	end, err := a.Effects(3, 2)
	require.NoError(t, err)
	require.Less(t, set.Reactions[1].Nominal, end.Reactions[1].Nominal)
}

// A level that is forced on a beam relaxes: R = R0·(1 − E·φ/(E_φ + χ·φ·E)); what the
// weight gives on rigid supports stays.
func TestStatedLevelRelaxes(t *testing.T) {
	const level = 0.008
	e := beamOf(t, true)
	on := stages.Elastic(1e12, anchored(0, 10, 20)...)
	on[1].Level = level
	a, err := stages.Plan{listed{{Name: "jacked", Age: 28, Until: 1000, Standing: true, Supports: on, OutOfLevel: 1e-9}}}.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	weight := 1.25 * beamWeight * 10
	first := 48 * modulus(t, 28) * 0.5 / 12 * level / 8000
	crept := phi(t, 1000, 28)
	for situation, want := range []float64{weight + first, weight + first*(1-crept/(1/modulus(t, 28)+0.8*crept))} {
		effects, err := a.Effects(1, situation+1)
		require.NoError(t, err)
		require.InEpsilon(t, want, effects.Reactions[1].Nominal, 1e-4) // the supports give way a little
		require.InDelta(t, 20*beamWeight, effects.Reactions[0].Nominal+effects.Reactions[1].Nominal+effects.Reactions[2].Nominal, 1e-3)
	}
	require.Greater(t, first, 0.3*weight)
}

// Four elastic pads under a member with an eccentric weight: the part of its torque
// that stiffness shares moves with creep towards what soft concrete gives, the sums
// by statics stay.
func TestTorqueOnFourPadsRedistributes(t *testing.T) {
	e := beamOf(t, true)
	e.Extra = []stages.ExtraWeight{{Mark: "bracket", From: 4, To: 4, Weight: 40e3, Y: 1.5, Z: 0.5}}
	plan := func(until float64) stages.Plan {
		return stages.Plan{stages.Store{Age: 10, Until: until, OutOfLevel: 1e-9, On: stages.Elastic(200e6, frames(0.6, 1, 19)...)}}
	}
	nominal := func(until float64) []float64 {
		a, err := plan(until).Analyse(e, limits.EN1992{})
		require.NoError(t, err)
		effects, err := a.Effects(1, 2)
		require.NoError(t, err)
		var list []float64
		for _, r := range effects.Reactions {
			list = append(list, r.Nominal)
		}
		return list
	}
	start, end := nominal(10.01), nominal(3000)
	change := end[0] - start[0]
	require.Greater(t, math.Abs(change), 200.0)
	for i, sign := range []float64{1, -1, -1, 1} { // the pattern of a warp
		require.InDelta(t, sign*change, end[i]-start[i], 1e-3)
	}
}
