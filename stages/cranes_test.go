package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// craneWith is a crane on the hook of two slings at the end of a beam of 36 m.
func craneWith(mark string, supports ...int) stages.MobileCrane {
	return stages.MobileCrane{
		Mark: mark, Supports: supports, Pick: 8, Slew: 9, Set: 10, HookBlock: 12e3, Rigging: 15e3,
		Chart: rigging.Chart{
			Crane: "invented crane " + mark, Configuration: "boom 30 m, counterweight 60 t, outriggers full", Source: formula.Source{Document: "invented chart"},
			Rows: []rigging.Capacity{{Radius: 8, Load: 900e3}, {Radius: 10, Load: 780e3}, {Radius: 12, Load: 600e3}}, Wind: 9,
		},
	}
}

// tandem is the beam on two hooks, then on its bearings.
func tandem(t testing.TB, cranes ...stages.MobileCrane) stages.Plan {
	t.Helper()
	hook := func(x float64) []stages.Support {
		return stages.Slings(stages.Hook{X: x, Z: 7}, stages.Support{X: x, Y: -0.3, Z: 1.9}, stages.Support{X: x, Y: 0.3, Z: 1.9})
	}
	return stages.Plan{
		stages.Store{Age: 20, On: append(stages.Pads(0.3, 0.5), stages.Equalised("b", stages.Pads(0.3, 35.5)...)...)},
		stages.Lift{
			Name: "tandem lift", Age: 28, On: append(hook(2.5), hook(33.5)...), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1},
			Slender: &stages.Slender{Sweep: 0.02, Offset: 0.01}, Cranes: cranes,
		},
		stages.Seat{Age: 28, On: onBearings(20e6), OutOfLevel: 1e-3},
	}
}

var handling = limits.All(limits.EN1992{}, limits.Handling{})

func craneUse(t testing.TB, s stages.SituationRecord, mark string) *stages.Check {
	t.Helper()
	for i, c := range s.Checks {
		if c.Kind == limits.CraneUse && c.Place == mark {
			return &s.Checks[i]
		}
	}
	t.Fatalf("no use of a chart of %s", mark)
	return nil
}

// Each of two cranes gets half of the beam with its tolerance, its rigging and its hook
// block, with the dynamic factor that its chart does not have: by hand.
func TestCranesByHand(t *testing.T) {
	a, b := craneWith("crane A", 1, 2), craneWith("crane B", 3, 4)
	b.Chart.Hoisting, b.CoG = true, 0.25
	plan := tandem(t, a, b)
	beam := slenderBeam(t)
	record, err := plan.Run(beam, handling)
	require.NoError(t, err)
	require.NoError(t, record.Check())
	mass, err := beam.CentreOfGravity()
	require.NoError(t, err)
	s := record.Stages[1].Situations[0]
	half := 1.02 * mass.Weight / 2
	got := craneUse(t, s, "crane A")
	require.InEpsilon(t, (half+15e3+12e3)*1.1, got.Demand.Value, 1e-6)
	require.InEpsilon(t, 0.75*780e3, got.Limit.Value, 1e-12)
	require.Contains(t, got.Source.Document, "BS 7121")
	got = craneUse(t, s, "crane B")
	require.InEpsilon(t, half+1.02*mass.Weight*0.25/31+15e3+12e3, got.Demand.Value, 1e-6)

	require.Len(t, s.Equipment, 2)
	require.Equal(t, []int{3, 4}, s.Equipment[1].Supports)
}

// The ground below the outrigger with the largest force is checked, and the distance to
// an edge.
func TestCraneStands(t *testing.T) {
	c := craneWith("crane A", 1, 2)
	c.Stand = &stages.CraneStand{
		Outriggers: rigging.Outriggers{Along: 8, Across: 8, Carrier: 480e3, Upper: 700e3, UpperRadius: -2.5},
		From:       0, To: 2 * math.Pi, Report: "invented report EL-G-031",
		Mat: rigging.Mat{Length: 3, Width: 2, Weight: 20e3, Foot: 0.8, Bending: 600e3, Ground: 250e3, Edge: 4, EdgeNeeded: 5},
	}
	record, err := tandem(t, c, craneWith("crane B", 3, 4)).Run(slenderBeam(t), handling)
	require.NoError(t, err)
	s := record.Stages[1].Situations[0]
	pressure, edge := rollOf(t, s, limits.GroundPressure), rollOf(t, s, limits.EdgeDistance)
	require.Equal(t, stages.Fail, edge.State)
	require.Equal(t, 5.0, edge.Limit.Value)

	// The gross load at 10 m over a corner: V/4 + M/(2·d·√2) of four like springs.
	gross := craneUse(t, s, "crane A").Demand.Value
	moment := gross*10 - 700e3*2.5
	force := (gross+480e3+700e3)/4 + moment/(2*8)*math.Sqrt2
	require.InEpsilon(t, force/(3*2)+20e3/6, pressure.Demand.Value, 1e-6)
	require.Equal(t, "invented report EL-G-031", pressure.Source.Document)
}

// What no chart and no hook can be is refused in words.
func TestCranesMustBe(t *testing.T) {
	good := func() []stages.MobileCrane {
		return []stages.MobileCrane{craneWith("crane A", 1, 2), craneWith("crane B", 3, 4)}
	}
	for words, change := range map[string]func([]stages.MobileCrane) []stages.MobileCrane{
		"Pick = 0 m":                 func(c []stages.MobileCrane) []stages.MobileCrane { c[0].Pick = 0; return c },
		"Set = NaN":                  func(c []stages.MobileCrane) []stages.MobileCrane { c[0].Set = math.NaN(); return c },
		"HookBlock = 0 N":            func(c []stages.MobileCrane) []stages.MobileCrane { c[1].HookBlock = 0; return c },
		"Rigging = -1":               func(c []stages.MobileCrane) []stages.MobileCrane { c[1].Rigging = -1; return c },
		"number 5":                   func(c []stages.MobileCrane) []stages.MobileCrane { c[1].Supports = []int{3, 5}; return c },
		"no other crane holds":       func(c []stages.MobileCrane) []stages.MobileCrane { c[1].Supports = []int{2, 3, 4}; return c },
		"lift point 4 is on no hook": func(c []stages.MobileCrane) []stages.MobileCrane { c[1].Supports = []int{3}; return c },
		"radius":                     func(c []stages.MobileCrane) []stages.MobileCrane { c[0].Set = 13; return c },
		"capacities":                 func(c []stages.MobileCrane) []stages.MobileCrane { c[0].Chart.Rows[2].Load = 850e3; return c },
		"Supports is empty":          func(c []stages.MobileCrane) []stages.MobileCrane { c[0].Supports = nil; return c },
		"Plumb = 2":                  func(c []stages.MobileCrane) []stages.MobileCrane { c[0].Plumb = 2; return c },
		"CoG = -1":                   func(c []stages.MobileCrane) []stages.MobileCrane { c[0].CoG = -1; return c },
		"SailArea":                   func(c []stages.MobileCrane) []stages.MobileCrane { c[0].SailArea = math.Inf(1); return c },
	} {
		_, err := tandem(t, change(good())...).Run(slenderBeam(t), handling)
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must be", words)
		require.ErrorContains(t, err, "in Cranes", words)
	}
	record, err := tandem(t, good()...).Run(slenderBeam(t), limits.EN1992{})
	require.NoError(t, err)
	require.Equal(t, stages.NotEvaluated, craneUse(t, record.Stages[1].Situations[0], "crane A").State, "without a rule for the share of the chart")
}

// While one end rests, the crane at the other gets its part of the weight by statics.
func TestOneEndTakenUp(t *testing.T) {
	beam := slenderBeam(t)
	plan := tandem(t, craneWith("crane A", 1, 2), craneWith("crane B", 3, 4))
	up := stages.TakeUp{
		Age: 28, Dynamic: loads.AtRest(), Cranes: []stages.MobileCrane{craneWith("crane A", 1, 2)}, Resting: stages.Pads(0.3, 35.5),
		Hanging: stages.Slings(stages.Hook{X: 2.5, Z: 7}, stages.Support{X: 2.5, Y: -0.3, Z: 1.9}, stages.Support{X: 2.5, Y: 0.3, Z: 1.9}),
	}
	plan = append(stages.Plan{plan[0], up}, plan[1:]...)
	record, err := plan.Run(beam, handling)
	require.NoError(t, err)
	mass, err := beam.CentreOfGravity()
	require.NoError(t, err)
	s := record.Stages[1].Situations[0]
	require.InEpsilon(t, mass.Weight*(35.5-18)/33, s.Reactions[0].Nominal+s.Reactions[1].Nominal, 1e-6)
	require.Equal(t, 780e3, craneUse(t, s, "crane A").Limit.Value, "one crane alone")
	_, err = stages.TakeUp{Age: 28, Hanging: up.Hanging}.Situations(stages.History{})
	require.ErrorContains(t, err, "must be at least one each")
}

// The adhesion of a form pulls down while it is there.
func TestAdhesionOfTheForm(t *testing.T) {
	pull, err := stages.Adhesion(36, 0.7, 1e3, 0)
	require.NoError(t, err)
	require.InDelta(t, 36*0.7*1e3, pull.Loads.Total(), 1e-9)
	plan := tandem(t, craneWith("crane A", 1, 2), craneWith("crane B", 3, 4))
	before, err := plan.Run(slenderBeam(t), handling)
	require.NoError(t, err)
	lift := plan[1].(stages.Lift)
	lift.Actions = []stages.Action{pull}
	plan[1] = lift
	with, err := plan.Run(slenderBeam(t), handling)
	require.NoError(t, err)
	sum := func(r stages.Record) (most, least float64) {
		for _, q := range r.Stages[1].Situations[0].Reactions {
			most, least = most+q.Characteristic.Most, least+q.Characteristic.Least
		}
		return most, least
	}
	m0, l0 := sum(before)
	m1, l1 := sum(with)
	require.InDelta(t, 36*0.7*1e3, m1-m0, 1)
	require.InDelta(t, 0, l1-l0, 1)
	for _, bad := range [][3]float64{{0, 1, 1e3}, {36, 0, 1e3}, {36, 1, 0}, {36, 1, 1e6}, {math.NaN(), 1, 1e3}} {
		_, err := stages.Adhesion(bad[0], bad[1], bad[2], 0)
		require.ErrorContains(t, err, "must be")
	}
}

// Bearings are springs with the stiffness of a pad in compression and in roll.
func TestBearingsAsSprings(t *testing.T) {
	list, err := stages.Bearings(1.2, 600e6, 2.2e6, 0.5, 25.5)
	require.NoError(t, err)
	require.Len(t, list, 4)
	var k, roll float64
	for _, s := range list[:2] {
		k, roll = k+s.Stiffness, roll+s.Stiffness*(s.Y-1.2)*(s.Y-1.2)
	}
	require.InEpsilon(t, 600e6, k, 1e-12)
	require.InEpsilon(t, 2.2e6, roll, 1e-12)
	for _, bad := range [][2]float64{{0, 1e6}, {1e9, 0}, {1e12, 1e3}, {1e3, 1e9}, {math.NaN(), 1e6}} {
		_, err := stages.Bearings(0, bad[0], bad[1], 1)
		require.ErrorContains(t, err, "must be")
	}
}

// What may hang on a crane at rest is in its gross load: the adhesion of a form as well.
func TestCraneCarriesTheAdhesion(t *testing.T) {
	pull, err := stages.Adhesion(36, 0.7, 1e3, 0)
	require.NoError(t, err)
	use := func(hoisting bool, actions ...stages.Action) float64 {
		a, b := craneWith("crane A", 1, 2), craneWith("crane B", 3, 4)
		a.Chart.Hoisting = hoisting
		plan := tandem(t, a, b)
		lift := plan[1].(stages.Lift)
		lift.Actions = actions
		plan[1] = lift
		record, err := plan.Run(slenderBeam(t), handling)
		require.NoError(t, err)
		return craneUse(t, record.Stages[1].Situations[0], "crane A").Demand.Value
	}
	require.InDelta(t, 36*0.7*1e3/2, use(true, pull)-use(true), 1)
	require.InDelta(t, 36*0.7*1e3/2*1.1, use(false, pull)-use(false), 1)
}
