package launching_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

func jackDown() launching.JackDown {
	return launching.JackDown{
		Age: 29, Linked: 2,
		Jacks: [4]launching.JackPlace{{X: 1.3, Y: -1.2}, {X: 1.3, Y: 1.2}, {X: 32.7, Y: -1.2}, {X: 32.7, Y: 1.2}},
		Jack:  launching.Jack{Rated: 3e6, Stroke: 0.2, Stiffness: 400e6, Side: 0.05, Friction: 0.2},
		Stack: launching.Stack{Height: 0.8, Base: 0.5, Packing: 0.05, Spare: 0.02}, Warp: 0.0005, Travel: 0.4, Hog: 0.01,
	}
}

func run(t *testing.T, plan ...stages.Stage) stages.Record {
	record, err := append(stages.Plan{stages.Seat{Age: 28, On: bearings()}}, plan...).Run(span(t), limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, record.Check())
	return record
}

// The permissible warp of the locked jacks is 5 % of the reaction over its change, which
// the engine finds as well.
func TestJackDown(t *testing.T) {
	record := run(t, jackDown())
	s := record.Stages[1].Situations
	require.Len(t, s, 2)
	for name, util := range map[string]float64{"rated force": 0, "horizontal force of a jack": 0, "sliding in a stack": 0, "resultant in the base": 0, "stroke of a jack": 0.08 / 0.2 * 1} {
		c := find(t, s[0], name)
		require.Equal(t, stages.Pass, c.State, name)
		if util > 0 {
			require.InDelta(t, (0.05+0.01+0.0005+0.02)/0.2, c.Utilisation, 1e-9)
		}
	}
	force := find(t, s[0], "rated force").Demand.Value
	require.InEpsilon(t, 0.025*force*0.8/force/(0.5/6), find(t, s[0], "resultant in the base").Utilisation, 1e-9)
	warp := find(t, s[1], "warp of the locked jacks")
	permissible := warp.Limit.Value
	require.InEpsilon(t, 0.0005/permissible, warp.Utilisation, 1e-9)
	spread := func(out float64) float64 {
		j := jackDown()
		j.Warp = out
		r := run(t, j).Stages[1].Situations[1].Reactions[0]
		return (r.Static.Most - r.Static.Least)
	}
	change := (spread(0.001) - spread(0.0005)) / 0.001 // ± the change for 0.5 mm
	nominal := s[1].Reactions[0].Nominal
	require.InEpsilon(t, 0.05*nominal/change, permissible, 0.02, "tolerance of weight is beside it; with E and J the same")
}

func TestTwoLinkedPairsAreRefused(t *testing.T) {
	j := jackDown()
	j.Linked = 0
	_, err := stages.Plan{j}.Run(span(t), limits.EN1992{})
	require.ErrorIs(t, err, launching.ErrLaunching)
	require.ErrorContains(t, err, "two linked pairs are a mechanism")
}

func carrier() launching.Carrier {
	train := loads.Train{Name: "girder carrier", Dynamic: 1.1}
	for group := range 2 {
		for axle := range 8 {
			behind := 1.5
			if axle == 0 {
				behind = 14 * float64(group)
			}
			train.Axles = append(train.Axles, loads.Axle{Force: 430e3, Behind: behind})
		}
	}
	return launching.Carrier{Mark: "GC-1", Train: train, Wheel: 215e3, Brakes: 8, Brake: 60e3, Drag: 0.02}
}

func ride(off float64) launching.Ride {
	return launching.Ride{Age: 60, Carrier: carrier(), Off: off, Gradient: 0.01, Line: launching.Spans{Before: 34, After: 34, Bearings: 0.7}}
}

// A march of 10 mm finds no larger reaction than the ride, and comes close to it.
func TestRideAgainstAMarch(t *testing.T) {
	r := ride(0.3)
	record := run(t, r)
	require.Len(t, record.Stages[1].Situations, 2)
	base := run(t).Stages[0].Situations[0].Reactions
	passing := record.Stages[1].Situations[0].Reactions
	train := carrier().Train
	most := make([]float64, 4)
	for front := 0.0; front < 34+train.Length(); front += 0.01 {
		total, moment := 0.0, 0.0
		for _, p := range train.On(34, front).Points {
			total, moment = total+p.Force, moment+p.Force*(p.At-0.7)
		}
		right := moment / 32.6
		for i, b := range base {
			force := (total-right)/2 + math.Copysign(total*0.3/3.2, b.Y) // the left pair takes all torque
			if b.X > 17 {
				force = right / 2
			}
			most[i] = math.Max(most[i], force)
		}
	}
	for i := range base {
		braking := 8 * 60e3 * 2.4 / 32.6 / 2 // at the top of the deck
		got := passing[i].Characteristic.Most - base[i].Characteristic.Most - braking
		require.GreaterOrEqual(t, got, most[i]*(1-1e-9))
		require.InEpsilon(t, most[i], got, 1e-3)
	}
	left, right, err := r.Piers(34)
	require.NoError(t, err)
	march := 0.0
	for front := -34.0; front < 34+train.Length(); front += 0.01 {
		sum, x := 0.0, front
		for _, a := range train.Axles {
			x -= a.Behind
			switch {
			case x >= -34 && x < 0:
				sum += a.Force * math.Max(0, (x+33.3)/32.6)
			case x >= 0 && x <= 34:
				sum += a.Force * math.Max(0, (33.3-x)/32.6)
			}
		}
		march = math.Max(march, sum*1.1)
	}
	require.GreaterOrEqual(t, left, march*(1-1e-9))
	require.InEpsilon(t, march, left, 2e-3)
	require.InEpsilon(t, left, right, 1e-9)
}

// On a gradient the brakes hold the carrier with one of them lost, by their factor.
func TestBrakes(t *testing.T) {
	c := find(t, run(t, ride(0)).Stages[1].Situations[0], "brakes of the carrier")
	require.InEpsilon(t, 16*430e3*math.Sin(0.01), c.Demand.Value, 1e-9)
	require.InEpsilon(t, 7*60e3/1.5, c.Limit.Value, 1e-9)
	r := ride(0)
	r.Gradient, r.Carrier.Runaway = 0.04, 0.01
	c = find(t, run(t, r).Stages[1].Situations[0], "brakes of the carrier")
	require.InEpsilon(t, 16*430e3*(math.Sin(0.04)-0.01), c.Demand.Value, 1e-9)
}

func TestCarrierLongerThanItsSpans(t *testing.T) {
	r := ride(0)
	r.Line.Before, r.Line.After = 1.5, 1.5
	r.Carrier.Train.Axles[8].Behind = 40
	_, err := stages.Plan{stages.Seat{Age: 28, On: bearings()}, r}.Run(span(t), limits.EN1992{})
	require.ErrorIs(t, err, launching.ErrLaunching)
	require.ErrorContains(t, err, "must be at most 37.0 m, the spans that carry it")
}

// air is a wind across on the element, N/m.
func air(intensity float64) stages.Action {
	return stages.Action{Mark: "wind across", Kind: stages.Wind, Direction: stages.Transverse, Z: 1.2, Least: -1, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 34, intensity)}}}
}

// hoist has hardly any wind on its element: what blows is in tests of its own.
func hoist() launching.Hoist {
	points := stages.Pads(1.6, 1.7, 32.3)
	for i := range points {
		points[i].Z, points[i].Role = 2.4, stages.LiftPoint
	}
	g := gantry()
	g.Trolleys = append(g.Trolleys, g.Trolleys[0])
	g.Trolleys[1].Mark = "T2"
	p := launching.Position{
		Name: "lowering", At: -14.5, Stands: []launching.Stand{{Leg: "rear", X: -6, On: "E-06"}, {Leg: "main", X: 36, On: "P8", Holds: true}, {Leg: "front", X: 68, On: "P9"}},
		Trolleys: []launching.Placed{{At: 16.2}, {At: 46.8}}, Wind: launching.Wind{WindSpeed: loads.WindSpeed{Speed: 12, Averaging: loads.GustOf3s, Height: 10}},
	}
	return launching.Hoist{
		Age: 28, On: append(points[:2], stages.Equalised("right pair", points[2:]...)...), Hooks: []launching.Hook{{Trolley: 0, Supports: []int{1, 2}, Rated: 4e6}, {Trolley: 1, Supports: []int{3, 4}, Rated: 4e6}},
		Actions: []stages.Action{air(1e-6)}, Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}, Stop: 0.1, Gantry: &g, Positions: []launching.Position{p},
	}
}

// The gantry gets the element on its hooks: legs carry both weights.
func TestHoistLoadsTheGantry(t *testing.T) {
	record := run(t, hoist(), stages.Seat{Age: 28, On: bearings()})
	s := record.Stages[1].Situations[0]
	element := 0.0
	for _, r := range s.Reactions {
		element += r.Nominal
	}
	hook := find(t, s, "rated load of a hook")
	require.InEpsilon(t, element/2*1.03*1.1, hook.Demand.Value, 1e-6)
	var names []string
	for _, c := range s.Checks {
		names = append(names, c.Name)
		if strings.HasPrefix(c.Name, "force of a foot") {
			require.NotEqual(t, stages.NotEvaluated, c.State)
		}
	}
	require.Contains(t, names, "overturning of the gantry forward")
	h := hoist()
	h.Stop = 0.2
	_, err := stages.Plan{h}.Run(span(t), limits.EN1992{})
	require.ErrorContains(t, err, "must be at most 0.1, which the dynamic factor covers")
	h = hoist()
	h.Positions[0].Trolleys[0].Hook = 1
	_, err = stages.Plan{h}.Run(span(t), limits.EN1992{})
	require.ErrorContains(t, err, "must be 0, it is what the element gives")
}

func TestWaterInVoid(t *testing.T) {
	a, err := launching.WaterInVoid(0.1, 3, 1.4, 32.6, 0.3)
	require.NoError(t, err)
	require.InEpsilon(t, 0.1*3*31.2*9810, a.Loads.Total(), 1e-12)
	_, err = launching.WaterInVoid(0, 3, 1.4, 32.6, 0.3)
	require.ErrorIs(t, err, launching.ErrLaunching)
}

// What acts across and along on the element on the hooks reaches the feet of the gantry where
// the ropes leave the trolleys, and the smallest hook load counts where it holds the gantry.
func TestWindOnTheElementReachesTheGantry(t *testing.T) {
	h := hoist()
	h.Actions = []stages.Action{air(3e3)}
	h.Positions[0].Stands = h.Positions[0].Stands[:2]
	h.Positions[0].Hanging = []launching.Hanging{{Leg: "front", At: 82}}
	feet := func(h launching.Hoist) float64 {
		r := run(t, h, stages.Seat{Age: 28, On: bearings()})
		most := 0.0
		for _, c := range r.Stages[1].Situations[0].Checks {
			if c.Name == "force of a foot of the gantry" && strings.Contains(c.Place, "main") {
				most = math.Max(most, c.Demand.Value)
			}
		}
		return most
	}
	with := feet(h)
	h.Actions = []stages.Action{air(1e-6)}
	still := feet(h)
	share := (46.8 - 14.5 + 6) / 42 // of the front trolley on the main leg, which is 42 m in front of the rear one
	require.InEpsilon(t, 34*3e3*share*6.5/5, with-still, 1e-6)
	h.Gantry.RopeAt = 0
	_, err := stages.Plan{h}.Run(span(t), limits.EN1992{})
	require.ErrorContains(t, err, "Gantry.RopeAt = 0 m")
}
