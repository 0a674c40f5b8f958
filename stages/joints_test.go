package stages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// jointCheck is the check of the tension at joints, nil for none.
func jointCheck(s stages.SituationRecord) *stages.Check {
	for i, c := range s.Checks {
		if strings.HasPrefix(c.Name, "tension at joint") {
			return &s.Checks[i]
		}
	}
	return nil
}

// joined are three segments of 4, 3 and 5 m with a tendon on their axis through all.
func joined(kinds ...stages.Joint) stages.Girder {
	g := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Monolithic, segment("A", 4), segment("B", 3), segment("C", 5)), Tendons: []tendon.Tendon{straight("T", 0, 12, 0, 0.4)}}
	for i, k := range kinds {
		g.Pieces[i+1].Joint = k
	}
	return g
}

// At a joint the tension is that of the moment there: the worst of all joints, wherever
// the largest moment is; monolithic ones do not count.
func TestTensionAtTheWorstJoint(t *testing.T) {
	const w, area = 0.5 * 0.64 / 6, 0.4
	moment := func(x, left, right float64) float64 {
		r := 120e3 * (right - 6) / (right - left)
		m := -10e3 * x * x / 2
		if x > left {
			m += r * (x - left)
		}
		return m
	}
	pull := stages.Transfer{Age: 28, Jacking: jackings("T"), On: paired(stages.Pads(0.2, 5, 7.2))}
	for _, c := range []struct {
		kinds []stages.Joint
		joint string
		at    float64
	}{
		{[]stages.Joint{stages.Epoxied, stages.Epoxied}, "B/C", 7}, {[]stages.Joint{stages.Epoxied, stages.Monolithic}, "A/B", 4},
		{[]stages.Joint{stages.Monolithic, stages.Poured}, "B/C", 7}, {[]stages.Joint{stages.Dry, stages.Dry}, "B/C", 7}, {[]stages.Joint{stages.Monolithic, stages.Monolithic}, "", 0},
	} {
		s := run(t, joined(c.kinds...), stages.Plan{pull}).Stages[0].Situations[0]
		got := jointCheck(s)
		if c.joint == "" {
			require.Nil(t, got)
			continue
		}
		// 1350 MPa on 1050 mm², at 0.9 of it; the hogging moment, at the top.
		force := 0.9 * 1350e6 * 1050e-6
		hole := math.Pi * 0.07 * 0.07 / 4
		inertia := 0.5*0.512/12 - math.Pi*math.Pow(0.07, 4)/64
		want := -force/(area-hole) + math.Abs(moment(c.at, 5, 7.2))*0.4/inertia
		require.InDelta(t, want, got.Demand.Value, 2e-3*math.Abs(moment(c.at, 5, 7.2))/w, "%v", c.kinds)
		require.Equal(t, "tension at joint "+c.joint, got.Name)
		require.InDelta(t, c.at, got.X, 1e-4)
		require.Zero(t, got.Limit.Value, "no bar crosses it")
	}
}

// Bars of the elements cross no joint: where they allow tension inside them, none is
// allowed at the joint between.
func TestNoBarCrossesAJoint(t *testing.T) {
	bars := func(length float64) []stages.BondedBars {
		return []stages.BondedBars{{From: 0, To: length, At: section.Point{Z: 0.05}, Area: 3000e-6}, {From: 0, To: length, At: section.Point{Z: 0.75}, Area: 3000e-6}}
	}
	for kind, want := range map[stages.Joint]stages.State{stages.Monolithic: stages.Pass, stages.Epoxied: stages.Fail, stages.Dry: stages.Fail, stages.Poured: stages.Fail} {
		a, b := segment("A", 5), segment("B", 7)
		a.Bars, b.Bars = bars(5), bars(7)
		g := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(kind, a, b)}
		s := run(t, g, stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1, 11))}}).Stages[0].Situations[0]
		require.Equal(t, stages.Pass, check(t, s, limits.Tension).State, "inside the elements")
		state := stages.Pass
		if c := jointCheck(s); c != nil {
			state = c.State
			// Both sides of x = 5 m: 60 kN at 1 m.
			require.InDelta(t, (60e3*4-10e3*25/2)/(0.5*0.64/6), c.Demand.Value, 10)
		}
		require.Equal(t, want, state, "%q", kind)
	}
}

// Bars of an element count where they are in the girder, not in their own x alone: the
// second element has its bars left of where the tension is.
func TestBarsCountInTheGirdersPlace(t *testing.T) {
	for _, c := range []struct {
		from, to float64 // of the bottom bars of the second element, in its own x
		state    stages.State
	}{{0, 7, stages.Pass}, {0, 4, stages.Fail}, {3, 7, stages.Fail}} {
		a, b := segment("A", 5), segment("B", 7)
		a.Bars = []stages.BondedBars{{From: 0, To: 5, At: section.Point{Z: 0.05}, Area: 3000e-6}, {From: 0, To: 5, At: section.Point{Z: 0.75}, Area: 3000e-6}}
		b.Bars = []stages.BondedBars{{From: c.from, To: c.to, At: section.Point{Z: 0.05}, Area: 3000e-6}, {From: 0, To: 7, At: section.Point{Z: 0.75}, Area: 3000e-6}}
		s := run(t, stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Monolithic, a, b)}, stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1, 11))}}).Stages[0].Situations[0]
		state := stages.Pass
		for _, k := range s.Checks {
			if k.Kind == limits.Tension && k.State == stages.Fail {
				state = k.State
				require.Zero(t, k.Limit.Value, "no bars there")
				require.Greater(t, k.X, 5.0-1e-6)
			}
		}
		require.Equal(t, c.state, state, "%+v", c)
	}
}

// Bars at the bottom allow no tension at the top, nor those at the top at the bottom,
// whichever piece of the girder it is and wherever along it.
func TestBarsOfOneSideAllowNothingOnTheOther(t *testing.T) {
	low, high := stages.BondedBars{To: 6, At: section.Point{Z: 0.05}, Area: 5000e-6}, stages.BondedBars{To: 6, At: section.Point{Z: 0.75}, Area: 5000e-6}
	for name, c := range map[string]struct {
		left, right []stages.BondedBars
		on          []stages.Support
		fails       bool
	}{
		"sags over bars at the bottom":      {[]stages.BondedBars{low}, []stages.BondedBars{low}, dunnage(0, 12), false},
		"sags over bars at the top":         {[]stages.BondedBars{high}, []stages.BondedBars{high}, dunnage(0, 12), true},
		"hogs under bars at the top":        {[]stages.BondedBars{high}, []stages.BondedBars{high}, dunnage(5.5, 6.5), false},
		"hogs over bars at the bottom":      {[]stages.BondedBars{low}, []stages.BondedBars{low}, dunnage(5.5, 6.5), true},
		"one piece has them on that side":   {[]stages.BondedBars{low}, []stages.BondedBars{high}, dunnage(0, 12), true},
		"the other piece":                   {[]stages.BondedBars{high}, []stages.BondedBars{low}, dunnage(0, 12), true},
		"a piece without any":               {[]stages.BondedBars{low}, nil, dunnage(0, 12), true},
		"both sides in both":                {[]stages.BondedBars{low, high}, []stages.BondedBars{high, low}, dunnage(5.5, 6.5), false},
		"both sides, and it sags":           {[]stages.BondedBars{low, high}, []stages.BondedBars{high, low}, dunnage(0, 12), false},
		"hogs, the right piece has no bars": {[]stages.BondedBars{high}, nil, dunnage(5.5, 6.5), true},
	} {
		a, b := segment("A", 6), segment("B", 6)
		a.Bars, b.Bars = c.left, c.right
		s := run(t, stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Monolithic, a, b)}, stages.Plan{stages.Store{Age: 28, On: c.on}}).Stages[0].Situations[0]
		fails := false
		for _, k := range s.Checks {
			fails = fails || k.Kind == limits.Tension && k.State == stages.Fail
		}
		require.Equal(t, c.fails, fails, name)
	}
}

// A joint counts from when both of its pieces act as one, not before.
func TestAJointCountsFromWhenItIsMade(t *testing.T) {
	a, b := segment("A", 6), segment("B", 6)
	g := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Epoxied, a, b)}
	g.Pieces[1].Later = true
	on := stages.Elastic(1e9, append(stages.Pads(0.2, 0.5, 5.5), stages.Pads(0.2, 6.5, 11.5)...)...)
	step := func(age float64, events ...stages.Event) stages.Stage {
		return odd{situations: []stages.Situation{{Name: "step", Age: age, Standing: true, Phase: limits.Storing, Supports: pads(on), OutOfLevel: 1e-6, Events: events}}}
	}
	load := odd{situations: []stages.Situation{{Name: "load", Age: 31, Standing: true, Phase: limits.Storing, Actions: []stages.Action{{Mark: "crate", Least: 1, Most: 1, Loads: loads.Set{Points: []loads.Point{{At: 6, Force: 9e3}}}}}}}}
	r := run(t, g, stages.Plan{step(28, stages.Event{Add: []string{"B"}}), step(29, stages.Event{Join: []string{"B"}}), load})
	require.Nil(t, jointCheck(r.Stages[0].Situations[0]))
	require.NotNil(t, jointCheck(r.Stages[1].Situations[0]))
	require.Greater(t, jointCheck(r.Stages[2].Situations[0]).Demand.Value, jointCheck(r.Stages[1].Situations[0]).Demand.Value+1e4)
}

// The steel of the tension zone is that of the bars that run there and lie in it: of both
// elements of a girder each in its own place, several bars together.
func TestSteelOfTheZoneIsOfTheBarsInIt(t *testing.T) {
	at := func(from, to, y, z, area float64) stages.BondedBars {
		return stages.BondedBars{From: from, To: to, At: section.Point{Y: y, Z: z}, Area: area}
	}
	a, b := segment("A", 5), segment("B", 7)
	a.Bars = []stages.BondedBars{at(0, 5, -0.1, 0.06, 9e-3), at(0, 5, 0, 0.74, 9e-3)}
	b.Bars = []stages.BondedBars{at(0, 7, -0.1, 0.05, 800e-6), at(0, 7, 0.1, 0.1, 500e-6), at(2, 7, 0, 0.05, 300e-6), at(0, 0.5, 0, 0.05, 200e-6), at(0, 7, 0, 0.75, 4e-3)}
	s := run(t, stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Monolithic, a, b)}, stages.Plan{stages.Store{Age: 28, On: dunnage(0, 12)}}).Stages[0].Situations[0]
	c := check(t, s, limits.TensionSteel)
	// At mid-span, 1 m within the second element: 180 kN·m; only the first two run there in
	// the lower half, and the tension is a triangle over it.
	require.InEpsilon(t, 180e3/(0.5*0.64/6)/2*0.4*0.5/200e6, c.Demand.Value, 1e-6)
	require.InDelta(t, 1300e-6, c.Limit.Value, 1e-12)
	require.InDelta(t, 6, c.X, 1e-3)
}

// Bars from one end of an element to the other are there at the joint as well, where another
// law begins a hair beside it.
func TestBarsReachTheEndOfTheirElement(t *testing.T) {
	a, b := segment("A", 5), segment("B", 7)
	b.Bars = []stages.BondedBars{{To: 7, At: section.Point{Z: 0.05}, Area: 3000e-6}, {To: 7, At: section.Point{Z: 0.75}, Area: 3000e-6}}
	a.Bars = []stages.BondedBars{{To: 5, At: section.Point{Z: 0.05}, Area: 3000e-6}, {To: 5, At: section.Point{Z: 0.75}, Area: 3000e-6}}
	crates := stages.Action{Mark: "crates", Least: 1, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(5-1e-13, 8, 1e3)}}}
	for _, c := range run(t, stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Monolithic, a, b)}, stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1, 11)), Actions: []stages.Action{crates}}}).Stages[0].Situations[0].Checks {
		if c.Kind == limits.Tension {
			require.NotContains(t, c.Note, "no bonded bars", "at x = %g m", c.X)
		}
	}
}

// A tendon that ends at a joint does not cross it: the tension there is that without it, though
// on one side of the joint its force presses. One that ends a little beyond counts, as a bound
// until it has spread.
func TestATendonThatEndsAtAJointDoesNotPressIt(t *testing.T) {
	tension := func(end float64, marks ...string) (stages.Check, []string) {
		g := joined(stages.Epoxied, stages.Monolithic)
		g.Tendons = append(g.Tendons, straight("E", 0, end, 0, 0.7))
		r := run(t, g, stages.Plan{stages.Transfer{Age: 28, Jacking: jackings(marks...), On: paired(stages.Pads(0.2, 5, 7.2))}})
		s := r.Stages[0].Situations[0]
		for _, c := range s.Checks {
			if c.Name == "tension at joint A/B" {
				return c, s.Unanswered
			}
		}
		t.Fatal("no check of the joint")
		return stages.Check{}, nil
	}
	without, _ := tension(4, "T")
	with, open := tension(4, "T", "E")
	require.InEpsilon(t, without.Demand.Value, with.Demand.Value, 0.02, "but for what it shortens T")
	require.NotContains(t, strings.Join(open, " "), string(limits.JointSpread))
	beyond, _ := tension(9, "T", "E")
	require.Greater(t, math.Abs(beyond.Demand.Value-without.Demand.Value), 0.5e6)
}
