package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// triangle are two pads on the left and one on the right at unlike heights, with
// unlike friction, and a tie that a jack holds at 4 kN.
func triangle() []stages.Support {
	return bracketed([]stages.Support{
		{X: 1, Y: -1, Z: -0.3, Friction: 0.15}, {X: 1, Y: 1.2, Z: -0.25, Friction: 0.3}, {X: 11, Y: 0.1, Z: -0.1, Friction: 0.2},
		{X: 6, Y: 0.8, Role: stages.Tie, Preload: -4e3, Held: true},
	})
}

// Overturning about every edge by plane geometry: wind both ways, a load beside the
// axis that is present or absent, the nominal force, the tie with its stated force.
func TestOverturningByHand(t *testing.T) {
	e := block()
	e.WeightTolerance = loads.PlusMinus(0.04)
	const weight, wind, drum = 120e3, 6e3, 9e3
	s := run(t, e, stages.Plan{stages.Store{Age: 28, On: triangle(), Actions: []stages.Action{
		{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 1.4, Least: -1.2, Most: 1, Loads: point(5, wind)},
		{Mark: "drum", Y: -0.9, Loads: point(3, drum)},
	}}}).Stages[0].Situations[0]
	on := triangle()
	most, demand, limit := 0.0, 0.0, 0.0
	for _, pair := range [][2]int{{0, 2}, {2, 1}, {1, 0}} { // anticlockwise seen from above: the inside is on the left
		a, b := on[pair[0]], on[pair[1]]
		dx, dy := b.X-a.X, b.Y-a.Y
		l := math.Hypot(dx, dy)
		inside := func(x, y float64) float64 { return (dx*(y-a.Y) - dy*(x-a.X)) / l }
		across := -dx / l // of the way out, + to the left
		level := math.Min(a.Z, b.Z)
		push := 1.5 * wind * math.Max(-1.2*across, across)
		act := push*(1.4-level) + 1.35*drum*math.Max(0, -inside(3, -0.9))
		nominal := math.Max(0.025*weight, 0.01*weight+push) - push
		beyond, within := 0.0, 0.0 // of the weight, in strips of 1 mm along the axis
		for i := range 12000 {
			lever := inside((float64(i)+0.5)*1e-3, 0)
			beyond, within = beyond+10*math.Max(0, -lever), within+10*math.Max(0, lever)
		}
		out := 1.05*0.96*beyond + act + nominal*(0.4-level)
		in := 0.95 * (0.96*within + 4e3*math.Max(0, inside(6, 0.8)))
		if out/in > most {
			most, demand, limit = out/in, out, in
		}
	}
	c := check(t, s, limits.Overturning)
	require.InEpsilon(t, demand, c.Demand.Value, 1e-6)
	require.InEpsilon(t, limit, c.Limit.Value, 1e-6)
}

// Sliding by plain sums: wind and braking at right angles, the slope, what lifts, the
// least friction of any pad.
func TestSlidingByHand(t *testing.T) {
	e := block()
	e.WeightTolerance = loads.PlusMinus(0.04)
	s := run(t, e, stages.Plan{stages.Store{Age: 28, Roll: 0.02, On: triangle()[:3], Actions: []stages.Action{
		{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.4, Least: -1.2, Most: 1, Loads: point(5, 3e3)},
		{Mark: "brake", Kind: stages.Braking, Direction: stages.Along, Z: 0.4, Least: -1, Most: 1, Loads: point(6, 2e3)},
		{Mark: "hoist", Least: -1, Most: 1, Loads: point(6, 5e3)},
	}}}).Stages[0].Situations[0]
	c := check(t, s, limits.Sliding)
	require.InEpsilon(t, 0.01*120e3+math.Hypot(1.5*1.2*3e3, 1.35*2e3)+120e3*math.Tan(0.02), c.Demand.Value, 1e-9)
	require.InEpsilon(t, 0.15/1.2*(0.95*0.96*120e3-1.35*5e3), c.Limit.Value, 1e-9)
}

// A support that the weight itself lifts: the heavier end of the tolerance is worse.
func TestUpliftByHand(t *testing.T) {
	e := block()
	e.WeightTolerance = loads.PlusMinus(0.04)
	s := run(t, e, stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1, 5))}}).Stages[0].Situations[0]
	holds, lifts := 10e3*5*2.5/4/2, 10e3*7*3.5/4/2 // of each pad at x = 1 m
	require.InEpsilon(t, 1.04*(0.95*holds-1.05*lifts), check(t, s, limits.Uplift).Demand.Value, 1e-9)
	require.Equal(t, stages.Fail, check(t, s, limits.Uplift).State)
}

// A couple of an action turns the element the way it says.
func TestACoupleByHand(t *testing.T) {
	s := run(t, block(), stages.Plan{stages.Store{Age: 28, On: dunnage(1, 11), Actions: []stages.Action{
		{Mark: "moment", Least: 1, Most: 1, Loads: loads.Set{Couples: []loads.Couple{{At: 4, Moment: 20e3}}}},
	}}}).Stages[0].Situations[0]
	require.InDelta(t, 30e3+20e3/10/2, s.Reactions[0].Static.Most, 1e-6, "anticlockwise: up on the left")
	require.InDelta(t, 30e3-20e3/10/2, s.Reactions[2].Static.Most, 1e-6)
}

// Two slings to each hook press the element together between them, and bend it where
// the lift points lie above the centroid.
func TestSlingsPressByHand(t *testing.T) {
	on := append(stages.Slings(stages.Hook{X: 3, Z: 5}, stages.Support{X: 1, Z: 1}, stages.Support{X: 5, Z: 1}), stages.Slings(stages.Hook{X: 9, Z: 5}, stages.Support{X: 7, Z: 1}, stages.Support{X: 11, Z: 1})...)
	a, err := stages.Plan{stages.Store{Age: 28, On: dunnage(1, 11)}, stages.Lift{Dynamic: loads.AtRest(), Age: 29, On: on}}.Analyse(block(), limits.EN1992{})
	require.NoError(t, err)
	s, err := a.Effects(2, 1)
	require.NoError(t, err)
	// Each hook carries 60 kN, each sling 30 kN upwards over 4 m and 15 kN along over 2 m.
	f := s.Forces(3)
	require.InDelta(t, -15e3, f.N, 1e-6)
	require.InDelta(t, 30e3*2-10e3*9/2+15e3*1, f.My, 1e-5, "about the axis z = 0: N presses 1 m above it")
	require.InDelta(t, 0, s.Forces(6).N, 1e-6)
	for _, p := range s.Reactions {
		require.InEpsilon(t, math.Hypot(4, 2)/4, p.Sling, 1e-9)
	}
}

// A roll axis just below the centre of gravity turns over.
func TestRollAxisAHairOnEitherSide(t *testing.T) {
	for z, state := range map[float64]stages.State{0.401: stages.Pass, 0.399: stages.Fail, 0.35: stages.Fail} {
		r := run(t, block(), stages.Plan{stages.Store{Age: 28, On: dunnage(1, 11)}, stages.Lift{Dynamic: loads.AtRest(), Age: 29, On: []stages.Support{{X: 2, Z: z}, {X: 10, Z: z}}}})
		require.Equal(t, state, check(t, r.Stages[1].Situations[0], limits.Roll).State, z)
	}
}

// The range of a weight group is the widest of its pieces, and of its own only.
func TestTolerancesByGroup(t *testing.T) {
	static := func(groups ...string) (left, right stages.Range) {
		a, b, c := segment("A", 4), segment("B", 4), segment("C", 4)
		a.WeightTolerance, b.WeightTolerance, c.WeightTolerance = loads.PlusMinus(0.1), loads.PlusMinus(0.02), &loads.Tolerance{Under: 0.2, Over: 0.01}
		pieces := stages.EndToEnd(stages.Epoxied, a, b, c)
		for i := range pieces {
			pieces[i].WeightGroup = groups[i]
		}
		s := run(t, stages.Girder{Mark: "ABC", Pieces: pieces}, stages.Plan{stages.Store{Age: 28, On: dunnage(0, 12)}}).Stages[0].Situations[0]
		return s.Reactions[0].Static, s.Reactions[2].Static
	}
	left, _ := static("", "", "")
	require.InDelta(t, 0.8*30e3, left.Least, 1e-6)
	require.InDelta(t, 1.1*30e3, left.Most, 1e-6)
	// of 40 kN each the left line carries 5/6, 1/2, 1/6, each pad half of it
	left, right := static("a", "b", "c")
	require.InDelta(t, 20e3*(0.9*5+0.98*3+0.8*1)/6, left.Least, 1e-6)
	require.InDelta(t, 20e3*(1.1*5+1.02*3+1.01*1)/6, left.Most, 1e-6)
	require.InDelta(t, 20e3*(0.9*1+0.98*3+0.8*5)/6, right.Least, 1e-6)
}

// On its bed an element bears on its whole length or on its ends: tension from the
// weight is that of the ends, and with nothing but prestress it is as on the bed.
func TestOnTheBedTheWeightMayBeCarriedOrNot(t *testing.T) {
	e := bare(draped(12))
	extremes := func(on []stages.Support) (tension, compression float64) {
		s := run(t, e, stages.Plan{stages.Transfer{Age: 5, Jacking: []tendon.Jacking{fromLeft("T")}, On: on}}).Stages[0].Situations[0]
		return check(t, s, limits.Tension).Demand.Value, check(t, s, limits.Compression).Demand.Value
	}
	tension, compression := extremes(nil)
	hogged, pressed := extremes(dunnage(0, 12))
	require.Greater(t, tension, hogged+0.5e6, "with the weight on the bed the prestress is not relieved at the top")
	require.Greater(t, compression, pressed+0.5e6)
}

func draped(length float64) tendon.Tendon {
	t := evenTendon("T", 4, 0, 0.15)
	t.Elevation, t.Plan = tendon.Drape(tendon.Point{Ordinate: 0.4}, 1, tendon.Point{X: 5, Ordinate: 0.1}, length), tendon.Level(0, length, 0)
	return t
}

// Where nothing is stated about how four pads share, stresses are the worst of every
// way: each three of them that carry, stated alone.
func TestStressesAreTheWorstOfEveryWay(t *testing.T) {
	e := block()
	e.Extra = []stages.ExtraWeight{{Mark: "block", From: 3, To: 3, Weight: 30e3, Y: 0.1}}
	four := []stages.Support{{X: 1, Y: -0.2}, {X: 2.5, Y: 0.2}, {X: 9, Y: -0.2}, {X: 11, Y: 0.15}}
	at := func(on []stages.Support) (map[limits.Kind]float64, bool) {
		s := run(t, e, stages.Plan{stages.Store{Age: 28, On: on}}).Stages[0].Situations[0]
		list := map[limits.Kind]float64{}
		for _, kind := range []limits.Kind{limits.Compression, limits.Tension, limits.WebShear} {
			list[kind] = check(t, s, kind).Demand.Value
		}
		for _, p := range s.Reactions {
			if p.Nominal < 0 {
				return nil, false
			}
		}
		return list, true
	}
	want := map[limits.Kind]float64{}
	for out := range four {
		list, stands := at(append(append([]stages.Support{}, four[:out]...), four[out+1:]...))
		if !stands {
			continue
		}
		for kind, v := range list {
			want[kind] = math.Max(want[kind], v)
		}
	}
	for range four { // whichever way comes first
		four = append(four[1:], four[0])
		r := run(t, e, stages.Plan{stages.Store{Age: 28, On: four}}).Stages[0].Situations[0]
		for kind, v := range want {
			require.InEpsilon(t, v, check(t, r, kind).Demand.Value, 1e-6, kind)
		}
	}
}

// asking keeps the questions.
type asking struct{ questions *[]limits.Question }

func (a asking) Limits(q limits.Question) ([]limits.Limit, error) {
	*a.questions = append(*a.questions, q)
	return limits.EN1992{}.Limits(q)
}

// At a joint the weaker of the two concretes is asked for, on whichever side.
func TestAtAJointTheWeakerConcreteCounts(t *testing.T) {
	weak := segment("B", 6)
	weak.Concrete = concrete.EN1992{Fck: 25e6, Cement: concrete.ClassR}
	for _, list := range [][]stages.Element{{segment("A", 6), weak}, {weak, segment("A", 6)}} {
		var asked []limits.Question
		_, err := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 0.5, 11.5))}}.Run(stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Epoxied, list...)}, asking{&asked})
		require.NoError(t, err)
		joints := 0
		for _, q := range asked {
			if q.Place.Joint != "" {
				joints++
				require.InDelta(t, 25e6, q.Concrete.Characteristic, 1)
			}
		}
		require.Positive(t, joints)
	}
}

// A document covers what is not evaluated, nothing that fails.
func TestADocumentCoversNothingThatFails(t *testing.T) {
	store := stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1, 5))}
	document := stages.Document{Covers: limits.Uplift, Number: "D-1", Revision: "A", Status: "approved for construction"}
	s := run(t, block(), stages.Plan{stages.Covered(store, document)}).Stages[0].Situations[0]
	require.Equal(t, stages.Fail, check(t, s, limits.Uplift).State)
	require.Empty(t, check(t, s, limits.Uplift).Condition)
}

// A check whose scale is no number is not evaluated.
func TestAScaleThatIsNoNumber(t *testing.T) {
	limit := limits.Limit{Name: "t", Sense: limits.AtMost, Line: formula.Given(formula.Q("lim", 0, formula.Pascal, "limit"), formula.Source{Document: "test"}), Scale: formula.Quantity{Symbol: "s", Value: math.NaN()}}
	c := stages.NewCheck(limit, formula.Q("d", -1, formula.Pascal, "demand"))
	require.Equal(t, stages.NotEvaluated, c.State)
	require.Zero(t, c.Scale.Value)
}

// Creep is linear up to a lasting compression of 0.45·fck(t) and a word is said from
// there on, EN 1992-1-1:2004 3.1.4(4).
func TestCreepBeyondTheLinearRangeIsSaid(t *testing.T) {
	e := stressedBlock()
	said := func(strands int) (ratio float64, words bool) {
		e.Tendons = append([]tendon.Tendon{}, e.Tendons...)
		e.Tendons[0].Strands = strands
		s := run(t, e, stages.Plan{stages.Transfer{Age: 5, Jacking: []tendon.Jacking{fromLeft("T")}, On: dunnage(0, 12)}}).Stages[0].Situations[0]
		for _, w := range s.Unanswered {
			words = words || w == "creep beyond the linear range: a lasting compression above 0.45·fck(t)"
		}
		return check(t, s, limits.Compression).Demand.Value / s.Strength, words
	}
	between := 0
	for strands := 4; strands <= 20; strands++ {
		ratio, words := said(strands)
		require.Equal(t, ratio > 0.45, words, "%d strands: %g", strands, ratio)
		if ratio > 0.45 && ratio < 0.6 {
			between++
		}
	}
	require.Positive(t, between)
}

// To let a tendon down its wedges are freed: the jack takes the larger of the forces at
// both anchors first.
func TestLettingDownTakesTheLargerForceFirst(t *testing.T) {
	e := bare(draped(12))
	e.Tendons[0].Friction, e.Tendons[0].Wobble, e.Tendons[0].NoFriction = 0.2, 0.01, false
	down := tendon.Jacking{Tendons: []string{"T"}, Stress: 400e6, Ends: tendon.BothEnds}
	r := run(t, e, stages.Plan{stages.Transfer{Age: 5, Jacking: []tendon.Jacking{fromLeft("T")}, On: dunnage(0, 12)}, stages.Stress{Age: 5, Jacking: []tendon.Jacking{down}}})
	before := r.Stages[0].Situations[0].Tendons[0]
	area := e.Tendons[0].Area()
	require.Greater(t, before.Left, 1.02*before.Right)
	require.InEpsilon(t, before.Left/area, check(t, r.Stages[1].Situations[0], limits.JackStress).Demand.Value, 0.01, "but for elastic changes")
}
