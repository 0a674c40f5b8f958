package launching_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// A hoist that cannot be as described is refused with the field, its value and what it
// must be.
func TestBadHoist(t *testing.T) {
	for words, change := range map[string]func(*launching.Hoist){
		"age = -1 d: must be above 0":                                                                         func(h *launching.Hoist) { h.Age = -1 },
		"field Hoist.Hooks, number = 0: must be 1 to 8":                                                       func(h *launching.Hoist) { h.Hooks = nil },
		"field Hoist.Hooks, number = 9: must be 1 to 8":                                                       func(h *launching.Hoist) { h.Hooks = make([]launching.Hook, 9) },
		"field Hooks[0].Rated = 0 N: must be 1000 to 20e6 N":                                                  func(h *launching.Hoist) { h.Hooks[0].Rated = 0 },
		"field Hooks[1].Rated = 4e+09 N: must be 1000 to 20e6 N":                                              func(h *launching.Hoist) { h.Hooks[1].Rated = 4e9 },
		"field Hooks[0].Trolley = 2: must be 0 to 1":                                                          func(h *launching.Hoist) { h.Hooks[0].Trolley = 2 },
		"field Hooks[0].Trolley = -1: must be 0 to 1":                                                         func(h *launching.Hoist) { h.Hooks[0].Trolley = -1 },
		"field Hooks[0].Supports is empty: must be":                                                           func(h *launching.Hoist) { h.Hooks[0].Supports = nil },
		"field Hooks[0].Supports has number 0: must be 1 to 4":                                                func(h *launching.Hoist) { h.Hooks[0].Supports[0] = 0 },
		"field Hooks[1].Supports has number 5: must be 1 to 4":                                                func(h *launching.Hoist) { h.Hooks[1].Supports[1] = 5 },
		"field Hooks[1].Supports has number 1: must be 1 to 4 and on no other hook":                           func(h *launching.Hoist) { h.Hooks[1].Supports[0] = 1 },
		"support 4 is a lift point on no hook: must be in Hooks":                                              func(h *launching.Hoist) { h.Hooks[1].Supports = []int{3} },
		"support 3 is a lift point on no hook: must be in Hooks":                                              func(h *launching.Hoist) { h.Hooks = h.Hooks[:1] },
		"field Hooks[1].Supports has number 4, a pad: must be a lift point":                                   func(h *launching.Hoist) { h.On[3].Role = stages.Pad },
		"field Hooks[0].Supports has number 1: must be 1 to 0":                                                func(h *launching.Hoist) { h.On = nil },
		"dynamic factors, minimum Least = 1.2":                                                                func(h *launching.Hoist) { h.Dynamic = loads.Dynamic{Least: 1.2, Most: 1.3} },
		"field Dynamic of lifting is not stated: must be a range":                                             func(h *launching.Hoist) { h.Dynamic, h.Stop = loads.Dynamic{}, 0 },
		"field Hoist.Stop = 0.6: must be 0 to 0.5":                                                            func(h *launching.Hoist) { h.Stop = 0.6 },
		"field Hoist.Factor = 0.9: must be 1 to 5":                                                            func(h *launching.Hoist) { h.Factor = 0.9 },
		"field Hoist.Sudden = -1: must be 1 to 3":                                                             func(h *launching.Hoist) { h.Sudden = -1 },
		"field Piers[0].Width = 0 m: must be 0.1 to 20 m":                                                     func(h *launching.Hoist) { h.Piers = []launching.Pier{{Mark: "P8"}} },
		"field Hoist.Positions, number = 0: must be 1 to 40":                                                  func(h *launching.Hoist) { h.Positions = nil },
		"field Hoist.Positions without a Gantry: must be none":                                                func(h *launching.Hoist) { h.Gantry = nil },
		"Positions[0] \"lowering\" has a Dynamic of its own: must be none":                                    func(h *launching.Hoist) { h.Positions[0].Dynamic = loads.AtRest() },
		"1 legs stand: must be at least two":                                                                  func(h *launching.Hoist) { h.Positions[0].Stands = h.Positions[0].Stands[1:2] },
		"trolley \"T2\" at 83 m is off its runway: must be 1 to 82 m":                                         func(h *launching.Hoist) { h.Positions[0].Trolleys[1].At = 83 },
		"trolley \"T1\" at -1 m is off its runway: must be 1 to 82 m":                                         func(h *launching.Hoist) { h.Positions[0].Trolleys[0].At = -1 },
		"field Wind is not stated: must be the wind":                                                          func(h *launching.Hoist) { h.Positions[0].Wind = launching.Wind{} },
		"field Roll = 0.4 rad: must be 0 to 0.35 rad":                                                         func(h *launching.Hoist) { h.Roll = 0.4 },
		"field Gradient = -0.1 rad: must be 0 to 0.35 rad":                                                    func(h *launching.Hoist) { h.Gradient = -0.1 },
		"field OutOfLevel = 0.2":                                                                              func(h *launching.Hoist) { h.OutOfLevel = 0.2 },
		"support 1 at x = 35 m: field X = 35 m: must be on the element":                                       func(h *launching.Hoist) { h.Gantry, h.Positions, h.On[0].X = nil, nil, 35 },
		"Hooks[1] puts the element 0.000 m in front of its place and Hooks[0] -2.000 m: must be within 0.1 m": func(h *launching.Hoist) { h.Positions[0].Trolleys[0].At -= 2 },
		"action \"wind\" has a wind of 8 m/s, on the gantry are 12 m/s: must be as much":                      func(h *launching.Hoist) { h.Actions = []stages.Action{breeze(8)} },
		"Hoist.Actions has no wind across on the element, on the gantry are 12 m/s":                           func(h *launching.Hoist) { h.Actions = nil },
		"position \"lowering\" begins at -14.5 m, the one before it ends at -15.5 m": func(h *launching.Hoist) {
			later := h.Positions[0]
			h.Positions[0].At, h.Positions[0].Trolleys = -15.5, []launching.Placed{{At: 17.2}, {At: 47.8}}
			h.Positions = append(h.Positions, later)
		},
		"hook 1, supports [1 2], would get -2.552e+05 N: must be 0 to 20e6 N":                func(h *launching.Hoist) { h.On[2].X, h.Positions[0].Trolleys[1].At = 0, 30.65 },
		"position \"lowering\": beam: the supports can only push and the loads would overtu": func(h *launching.Hoist) { h.Gantry.Weights[1].Loads.Points[0].Force = 42e6 },
	} {
		t.Run(words, func(t *testing.T) {
			h := hoist()
			change(&h)
			_, err := standing(t, h)
			refused(t, err, words)
		})
	}
}

// Supports that cannot carry an element that is hoisted: on one line across, all linked.
func TestElementThatCannotHang(t *testing.T) {
	for name, of := range map[string]struct {
		words string
		on    func([]stages.Support) []stages.Support
	}{
		"on one line across": {"must", func(on []stages.Support) []stages.Support {
			for i := range on {
				on[i].X, on[i].Y = 17, 0.4*float64(i)-0.6
			}
			return on
		}},
		"all in one group": {"must", func(on []stages.Support) []stages.Support { return stages.Equalised("all", on...) }},
		"one alone": {"at x = 32.3 m alone: must be at two places", func(on []stages.Support) []stages.Support {
			on[2].Group = ""
			return on[2:3]
		}},
	} {
		t.Run(name, func(t *testing.T) {
			h := hoist()
			h.Gantry, h.Positions = nil, nil
			h.On, h.Hooks = of.on(h.On), h.Hooks[:1]
			h.Hooks[0].Supports = nil
			for i, s := range h.On {
				if s.Role == stages.LiftPoint {
					h.Hooks[0].Supports = append(h.Hooks[0].Supports, i+1)
				}
			}
			_, err := standing(t, h)
			refused(t, err, of.words)
		})
	}
}

// breeze is a wind across on the element by its speed (m/s).
func breeze(speed float64) stages.Action {
	wind := loads.Wind{WindSpeed: loads.WindSpeed{Speed: speed, Averaging: loads.GustOf3s, Height: 10}, Sail: 100, Source: formula.Source{Document: "d"}}
	a, err := stages.WindAcross("wind", wind, 0, 34, 1.2)
	if err != nil {
		panic(err)
	}
	return a
}

// A launch and a ride pass over an element on its bearings, not on jacks.
func TestPassingOverJacksIsRefused(t *testing.T) {
	for _, s := range []stages.Stage{ride(0), launching.Launch{Age: 60, Gantry: gantry(), Positions: []launching.Position{rolling(12)}}} {
		_, err := stages.Plan{stages.Seat{Age: 28, On: bearings()}, jackDown(), s}.Run(span(t), limits.EN1992{})
		require.ErrorIs(t, err, launching.ErrLaunching)
		require.ErrorContains(t, err, "is a jack: must be on its bearings")
	}
}

// A leg that neither stands nor hangs would be lost from the weights.
func TestALegMayNotBeLeftOut(t *testing.T) {
	p := rolling(12)
	p.Hanging = nil
	_, err := gantry().Balances(p)
	require.ErrorIs(t, err, launching.ErrLaunching)
	require.ErrorContains(t, err, `leg "front" neither stands nor hangs in position "roll to the next pier": must be in Stands or in Hanging`)
}

// An element with two linked pairs of hooks hangs free to turn, one that is fed from a single
// pad rolls off it: neither is passed over.
func TestElementThatMayTurn(t *testing.T) {
	h := hoist()
	h.Gantry, h.Positions, h.Actions = nil, nil, nil
	h.On = append(stages.Equalised("left pair", h.On[:2]...), h.On[2:]...)
	record, err := standing(t, h)
	require.NoError(t, err)
	require.Equal(t, stages.NotEvaluated, find(t, record.Stages[1].Situations[0], "roll: factor against overturning").State)
	h.On = append([]stages.Support{{X: 1.7, Role: stages.Pad}}, h.On[2:]...)
	h.Hooks = []launching.Hook{{Supports: []int{2, 3}, Rated: 4e6}}
	record, err = standing(t, h)
	require.NoError(t, err)
	require.Equal(t, stages.Fail, find(t, record.Stages[1].Situations[0], "roll about the axis").State)
}

// A jack-down that cannot be as described.
func TestBadJackDown(t *testing.T) {
	for words, change := range map[string]func(*launching.JackDown){
		"field JackDown.Linked = 3: must be 1 or 2":                         func(j *launching.JackDown) { j.Linked = 3 },
		"field JackDown.Linked = -1: must be 1 or 2":                        func(j *launching.JackDown) { j.Linked = -1 },
		"field JackDown.Age = 0 d: must be above 0, at most 365e3 d":        func(j *launching.JackDown) { j.Age = 0 },
		"field JackDown.Age = NaN d: must be above 0":                       func(j *launching.JackDown) { j.Age = math.NaN() },
		"Jacks 1 and 2 are at x = 1.3 and 2.3 m":                            func(j *launching.JackDown) { j.Jacks[1].X = 2.3 },
		"Jacks 3 and 4 are at x = 32.7 and 32.7 m, y = 1.2 and -1.2 m":      func(j *launching.JackDown) { j.Jacks[2], j.Jacks[3] = j.Jacks[3], j.Jacks[2] },
		"y = 1.1 and 1.2 m: must be on one line across":                     func(j *launching.JackDown) { j.Jacks[2].Y = 1.1 },
		"second line is at x = 1.3 m, the first at 32.7 m: must be at":      swapped,
		"second line is at x = 1.5 m, the first at 1.3 m: must be at":       func(j *launching.JackDown) { j.Jacks[2].X, j.Jacks[3].X = 1.5, 1.5 },
		"field JackDown.Warp = 0 m: must be 1e-05 to 0.05 m":                func(j *launching.JackDown) { j.Warp = 0 },
		"field JackDown.Change = 0.6: must be 0.01 to 0.5":                  func(j *launching.JackDown) { j.Change = 0.6 },
		"field JackDown.Travel = -0.4 m: must be 0 to 5 m":                  func(j *launching.JackDown) { j.Travel = -0.4 },
		"field JackDown.Hog = 10 m: must be 0 to 0.2 m; is it in mm?":       func(j *launching.JackDown) { j.Hog = 10 },
		"field JackDown.Roll = 0.01501 rad: must be 0 to 0.015 rad":         func(j *launching.JackDown) { j.Roll = 0.01501 },
		"field JackDown.Gradient = -0.01 rad: must be 0 to 0.015 rad":       func(j *launching.JackDown) { j.Gradient = -0.01 },
		"field JackDown.Jack.Rated = 300 N: must be 1000 to 50e6 N":         func(j *launching.JackDown) { j.Jack.Rated = 300 },
		"field JackDown.Jack.Stroke = 200 m: must be 0.01 to 2 m":           func(j *launching.JackDown) { j.Jack.Stroke = 200 },
		"field JackDown.Jack.Stiffness = 0 N/m: must be 1e6 to 100e9 N/m":   func(j *launching.JackDown) { j.Jack.Stiffness = 0 },
		"field JackDown.Jack.Side = 5: must be 0 to 0.2; is it in percent?": func(j *launching.JackDown) { j.Jack.Side = 5 },
		"field JackDown.Jack.Friction = 0: must be 0.02 to 0.7":             func(j *launching.JackDown) { j.Jack.Friction = 0 },
		"field JackDown.Stack.Height = -1 m: must be 0 to 3 m":              func(j *launching.JackDown) { j.Stack.Height = -1 },
		"field JackDown.Stack.Base = 0 m: must be 0.1 to 3 m":               func(j *launching.JackDown) { j.Stack.Base = 0 },
		"field JackDown.Stack.Packing = 0 m: must be 0.005 to 1 m":          func(j *launching.JackDown) { j.Stack.Packing = 0 },
		"field JackDown.Stack.Spare = -0.02 m: must be 0 to 0.5 m":          func(j *launching.JackDown) { j.Stack.Spare = -0.02 },
		"field JackDown.Stack.Offset = 0.6 m: must be 0 to 0.5 m":           func(j *launching.JackDown) { j.Stack.Offset = 0.6 },
		"support 1 at x = 40 m: field X = 40 m: must be on the element":     func(j *launching.JackDown) { j.Jacks[0].X, j.Jacks[1].X, j.Jacks[2].X, j.Jacks[3].X = 40, 40, 41, 41 },
	} {
		t.Run(words, func(t *testing.T) {
			j := jackDown()
			change(&j)
			_, err := standing(t, j)
			refused(t, err, words)
		})
	}
}

// swapped has its second line of jacks behind its first.
func swapped(j *launching.JackDown) {
	j.Jacks = [4]launching.JackPlace{j.Jacks[2], j.Jacks[3], j.Jacks[0], j.Jacks[1]}
}

// A launch that cannot be as described, beside what [TestRefusedLaunches] has.
func TestBadLaunch(t *testing.T) {
	for words, change := range map[string]func(*launching.Launch){
		"age = 0 d: must be above 0":                                        func(l *launching.Launch) { l.Age = 0 },
		"field Launch.Factor = 0.5: must be 1 to 5":                         func(l *launching.Launch) { l.Factor = 0.5 },
		"field Launch.Sudden = 4: must be 1 to 3":                           func(l *launching.Launch) { l.Sudden = 4 },
		"field Launch.Positions, number = 41: must be 1 to 40":              func(l *launching.Launch) { l.Positions = make([]launching.Position, 41) },
		"field Piers[1].Top = 200 m: must be -100 to 100 m":                 func(l *launching.Launch) { l.Piers[1].Top = 200 },
		"field Piers[0].X = 2000 m: must be -1000 to 1000 m":                func(l *launching.Launch) { l.Piers[0].X = 2000 },
		"field Stands[0] Bars.Number = 1: must be 2 to 100":                 func(l *launching.Launch) { l.Positions[0].Stands[0].Bars.Number = 1 },
		"field Stands[0] Bars.Capacity = -1 N: must be 1000 to 10e6":        func(l *launching.Launch) { l.Positions[0].Stands[0].Bars.Capacity = -1 },
		"field Hanging[0].At = 85 m: must be 0 to 84 m":                     hung,
		"field Gantry.Weights, number = 0: must be 1 to 50":                 func(l *launching.Launch) { l.Gantry.Weights = nil },
		"field Gantry.Legs, number = 0: must be 1 to 20":                    func(l *launching.Launch) { l.Gantry.Legs = nil },
		"field Gantry.Legs[1].Capacity = 0 N: must be 1000 to 1000e6 N":     func(l *launching.Launch) { l.Gantry.Legs[1].Capacity = 0 },
		"field Gantry.Legs[0].Stiffness = 5 N/m: must be 1000 to":           func(l *launching.Launch) { l.Gantry.Legs[0].Stiffness = 5 },
		"field Gantry.Legs[2].Mark = \"main\": must be a name unlike":       func(l *launching.Launch) { l.Gantry.Legs[2].Mark = "main" },
		"Stiffness[0].BendingStiffness = -1 N·m²: must be a finite":         func(l *launching.Launch) { l.Gantry.Stiffness[0].BendingStiffness = -1 },
		"field Loads sums to 1e+09 N: must be more than 0, at most 100e6 N": func(l *launching.Launch) { l.Gantry.Weights[1].Loads.Points[0].Force = 1e9 },
		"field Loads sums to 0 N: must be more than 0":                      func(l *launching.Launch) { l.Gantry.Weights[1].Loads.Points[0].Force = 0 },
		"a force of -1 N: must be downwards, 0 or more":                     func(l *launching.Launch) { l.Gantry.Weights[1].Loads.Points[0].Force = -1 },
		"or lift it off: must be loads whose resultant the supports":        onBehind,
	} {
		t.Run(words, func(t *testing.T) {
			l := barred()
			change(&l)
			_, err := standing(t, l)
			refused(t, err, words)
		})
	}
}

// hung is a launch on two legs with the front leg beyond the nose.
func hung(l *launching.Launch) {
	l.Positions = []launching.Position{rolling(40)}
	l.Positions[0].Hanging[0].At = 85
}

// onBehind has all three legs behind the centre of gravity, none with bars.
func onBehind(l *launching.Launch) {
	p := &l.Positions[0]
	p.Stands[0].Bars, p.Lost = nil, nil
	p.Stands[0].X, p.Stands[1].X, p.Stands[2].X = -20, -15, -6
}
