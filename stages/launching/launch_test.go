package launching_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// span is a box span of 34 m without prestress on its bearings.
func span(t testing.TB) stages.Element {
	shape, err := section.Box{
		Depth: 2.4, TopWidth: 9.6, RootWidth: 5.4, BottomWidth: 4.4, TopSlab: 0.22, BottomSlab: 0.26, WebThickness: 0.40, CantileverRoot: 0.38, CantileverTip: 0.20,
		TopHaunch: section.Haunch{Width: 0.5, Height: 0.15}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.15},
	}.Shape()
	require.NoError(t, err)
	return stages.Element{Mark: "E-07", Length: 34, Section: shape, Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}, WeightTolerance: loads.PlusMinus(0.03)}
}

// bearings are two at each end, those at the right linked: determinate.
func bearings() []stages.Support {
	list := stages.Pads(1.6, 0.7, 33.3)
	for i := range list {
		list[i].Role, list[i].Holds = stages.Bearing, stages.HoldsBoth
	}
	return append(list[:2], stages.Equalised("right pair", list[2:]...)...)
}

func launch(positions ...launching.Position) launching.Launch {
	return launching.Launch{Age: 40, Gantry: gantry(), Positions: positions, Piers: []launching.Pier{{Mark: "P7", X: -0.5, Top: -0.4, Width: 2}, {Mark: "P8", X: 34.5, Top: -0.4, Width: 2}}}
}

func recorded(t *testing.T, l launching.Launch) stages.Record {
	record, err := stages.Plan{stages.Seat{Age: 28, On: bearings()}, l}.Run(span(t), limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, record.Check())
	return record
}

func find(t *testing.T, s stages.SituationRecord, name string) stages.Check {
	for _, c := range s.Checks {
		if strings.HasPrefix(c.Name, name) {
			return c
		}
	}
	require.Fail(t, "no check "+name)
	return stages.Check{}
}

// A trolley left near the nose fails the factored check although the nominal factor is
// above 1; moved back, it passes.
func TestTrolleyNearTheNose(t *testing.T) {
	at := func(place float64) (float64, stages.SituationRecord) {
		p := rolling(place)
		least := math.Inf(1)
		for _, b := range balances(t, gantry(), p) {
			if factor, turns := b.Simple(); turns && b.Forward {
				least = math.Min(least, factor)
			}
		}
		r := recorded(t, launch(p))
		return least, r.Stages[1].Situations[0]
	}
	factor, near := at(78)
	require.Greater(t, factor, 1.0)
	require.Equal(t, stages.Fail, find(t, near, "overturning of the gantry forward").State)
	factor, back := at(20)
	require.Greater(t, factor, 1.5)
	for _, c := range back.Checks {
		if strings.HasPrefix(c.Name, "overturning of the gantry") {
			require.Equal(t, stages.Pass, c.State, c.Name)
		}
	}
}

// The wind limit and the place of the trolley are those at which the reserve is used up.
func TestPermissible(t *testing.T) {
	wide := func(p launching.Position) launching.Launch {
		l := launch(p)
		l.Gantry.SideArea = 500
		return l
	}
	l := wide(rolling(40))
	wind, err := l.PermissibleWind(0, limits.EN1992{})
	require.NoError(t, err)
	require.Greater(t, wind, 12.0)
	require.Less(t, wind, 79.0)
	reserve := func(change func(*launching.Position)) float64 {
		p := rolling(40)
		change(&p)
		r, err := wide(p).Reserve(0, limits.EN1992{})
		require.NoError(t, err)
		return r
	}
	require.GreaterOrEqual(t, reserve(func(p *launching.Position) { p.Wind.Speed = wind }), 0.0)
	require.Negative(t, reserve(func(p *launching.Position) { p.Wind.Speed = wind * 1.001 }))
	place, err := l.PermissiblePlace(0, 0, limits.EN1992{})
	require.NoError(t, err)
	require.GreaterOrEqual(t, reserve(func(p *launching.Position) { p.Trolleys[0].At = place }), 0.0)
	require.Negative(t, reserve(func(p *launching.Position) { p.Trolleys[0].At = place + 0.01 }))
	require.InDelta(t, 40, l.Positions[0].Trolleys[0].At, 0, "the launch is not changed")
	_, err = launch(rolling(82)).PermissibleWind(0, limits.EN1992{})
	require.ErrorContains(t, err, "uplift at a foot of the gantry, leg rear at x = -6.00 m, fails already at 1 m/s")
}

// What is not as it must be is refused in words.
func TestRefusedLaunches(t *testing.T) {
	for words, change := range map[string]func(*launching.Launch){
		"trolley \"T1\" at 83 m is off its runway: must be 1 to 82 m":          func(l *launching.Launch) { l.Positions[0].Trolleys[0].At = 83 },
		"1 legs stand: must be at least two":                                   func(l *launching.Launch) { l.Positions[0].Stands = l.Positions[0].Stands[:1] },
		"is off the gantry":                                                    func(l *launching.Launch) { l.Positions[0].Stands[0].X = -20 },
		"must be a leg of the gantry that neither stands nor hangs":            func(l *launching.Launch) { l.Positions[0].Hanging[0].Leg = "main" },
		"must be at least 0.1 m in front":                                      func(l *launching.Launch) { l.Positions[0].Stands[0].X = 33 },
		"no leg Holds the gantry along":                                        func(l *launching.Launch) { l.Positions[0].Stands[1].Holds = false },
		"must be the tolerance on its weights":                                 func(l *launching.Launch) { l.Gantry.Tolerance = nil },
		"must be one for each of the 1 trolleys":                               func(l *launching.Launch) { l.Positions[0].Trolleys = nil },
		"there is no deck of E-07":                                             func(l *launching.Launch) { l.Positions[0].Stands[1].Off = 3 },
		"field Lost has leg \"front\": must be one that stands":                func(l *launching.Launch) { l.Positions[0].Lost = []string{"front"} },
		"must be linear and 0 or more":                                         func(l *launching.Launch) { l.Gantry.Weights[0].Loads.Lines[0].Intensity[0] = -1 },
		"must be stated, statics does not say how they share":                  func(l *launching.Launch) { l.Gantry.Stiffness = nil; three(l) },
		"state each place where a leg lands or leaves as a position":           three,
		"field Launch.Positions, number = 0: must be 1 to 40":                  func(l *launching.Launch) { l.Positions = nil },
		"field Stands[0] Bars.Document is empty: must be where their capacity": func(l *launching.Launch) { l.Positions[0].Stands[0].Bars = &launching.Bars{} },
		"field Stands[0] Bars.Preload": func(l *launching.Launch) {
			l.Positions[0].Stands[0].Bars = &launching.Bars{Number: 4, Preload: 400e3, Capacity: 300e3, Document: "d"}
		},
		"field Wind is not stated: must be the wind":             func(l *launching.Launch) { l.Positions[0].Wind = launching.Wind{} },
		"field Gantry.SideArea = 0":                              func(l *launching.Launch) { l.Gantry.SideArea = 0 },
		"stands on \"E-7\": must be the element or one of Piers": func(l *launching.Launch) { l.Positions[0].Stands[1].On = "E-7" },
		"WindSpeed.Averaging = 0":                                func(l *launching.Launch) { l.Positions[0].Wind.Averaging = 0 },
	} {
		l := launch(rolling(40))
		change(&l)
		_, err := stages.Plan{stages.Seat{Age: 28, On: bearings()}, l}.Run(span(t), limits.EN1992{})
		require.ErrorIs(t, err, launching.ErrLaunching, words)
		require.ErrorContains(t, err, words)
	}
}

func three(l *launching.Launch) {
	p := &l.Positions[0]
	p.Hanging = nil
	p.Stands = append(p.Stands, launching.Stand{Leg: "front", X: 50, On: "P9"})
}

// A leg of two whose loss must be survived fails in words.
func TestLossOfALegOfTwo(t *testing.T) {
	p := rolling(40)
	p.Lost = []string{"rear"}
	c := find(t, recorded(t, launch(p)).Stages[1].Situations[0], "loss of leg rear")
	require.Equal(t, stages.Fail, c.State)
	require.Contains(t, c.Note, "stands on 1 leg: must be at least two")
}

// Bars pull what a foot lacks, one of them lost puts its force on the others at once.
func TestAnchorBars(t *testing.T) {
	p := rolling(82)
	p.Stands[0].Bars = &launching.Bars{Number: 8, Preload: 50e3, Capacity: 400e3, Document: "LG-1 manual"}
	s := recorded(t, launch(p)).Stages[1].Situations[0]
	for _, c := range s.Checks {
		if c.Name == "overturning of the gantry forward" {
			require.Equal(t, stages.Pass, c.State, "bars count")
		}
	}
	require.Equal(t, stages.Fail, find(t, s, "overturning of the gantry forward, nominal factor").State, "not in the nominal factor")
	bar := find(t, s, "force in an anchor bar of the gantry")
	require.Equal(t, stages.Pass, bar.State)
	p.Stands[0].Bars = nil
	free := find(t, recorded(t, launch(p)).Stages[1].Situations[0], "uplift at a foot")
	require.Equal(t, stages.Fail, free.State)
	require.InEpsilon(t, math.Max(50e3, -free.Demand.Value/4), bar.Demand.Value, 1e-9)
	p.Stands[0].Bars = &launching.Bars{Number: 2, Preload: 0, Capacity: 400e3, Document: "LG-1 manual"}
	one := find(t, recorded(t, launch(p)).Stages[1].Situations[0], "force in an anchor bar after the loss")
	require.Equal(t, stages.NotEvaluated, one.State)
}

// The element receives the feet on its deck, and no others.
func TestFeetOnTheDeck(t *testing.T) {
	l := launch(rolling(40))
	list, err := l.Situations(stages.History{Girder: stages.Girder{Pieces: []stages.Piece{{Element: span(t)}}}, Element: span(t)})
	require.NoError(t, err)
	feet, err := l.Gantry.Across(l.Positions[0])
	require.NoError(t, err)
	require.Equal(t, "E-07", feet[1].On)
	var down float64
	for _, a := range list[0].Actions {
		require.Contains(t, a.Mark, "main")
		require.Equal(t, 33.0, a.Loads.Points[0].At)
		if a.Direction == stages.Down {
			require.InEpsilon(t, feet[1].Foot.Most, a.Loads.Points[0].Force*a.Most, 1e-12)
			require.InEpsilon(t, feet[1].Foot.Least, a.Loads.Points[0].Force*a.Least, 1e-12)
			require.Equal(t, 2.4, a.Z)
			down++
		}
	}
	require.Equal(t, 2.0, down)
}

// The site is held to the wind and the place for which the element is calculated, though
// the gantry alone would stand more.
func TestHoldPointsOfALaunch(t *testing.T) {
	s := recorded(t, launch(rolling(40))).Stages[1].Situations[0]
	held := map[string]float64{}
	for _, h := range s.HoldPoints {
		if h.AtMost {
			held[h.Kind] = h.Required.Value
		}
	}
	require.Equal(t, map[string]float64{"wind limit": 12}, held)
	require.Greater(t, find(t, s, "wind speed").Limit.Value, 12.0)
}

// A leg that hangs is not carried past, or on to, one that stands.
func TestAHangingLegPassesNone(t *testing.T) {
	for at, ok := range map[float64]bool{40: true, 47.4: true, 47.5: false, 52: false, 57: false, 57.1: true} { // the main leg stands at 33 m, the roll is from −24 to −14.5 m
		p := rolling(12)
		p.Hanging = []launching.Hanging{{Leg: "front", At: at}}
		_, err := gantry().Balances(p)
		if ok {
			require.NoError(t, err, at)
			continue
		}
		require.ErrorIs(t, err, launching.ErrLaunching, at)
		require.ErrorContains(t, err, `where leg "main" stands at 33 m: must hang clear of the legs that stand`)
	}
}
