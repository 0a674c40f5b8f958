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

// parked is the gantry on two legs, tied down for a storm, of unlike legs and bars.
func parked() launching.Launch {
	p := rolling(20)
	p.Name, p.Parked, p.Roll, p.At, p.CrossFall, p.Shift = "parked", true, 0, -17, 0.012, 0.04
	p.Wind = launching.Wind{WindSpeed: loads.WindSpeed{Speed: 26, Averaging: loads.MeanOf10min, Height: 10}, Gust: 1.4}
	p.Stands[0].Bars = &launching.Bars{Number: 6, Preload: 150e3, Capacity: 300e3, Clamp: 0.9, Document: "LG-1 manual"}
	p.Stands[0].Friction = 0.4
	l := launch(p)
	l.Gantry.Legs[0].Width = 6.2
	return l
}

// parkedLeg is the least force of a leg of parked with the factors for equilibrium, by levers, under a
// wind pressure (N/m²).
func parkedLeg(main bool, gust float64) float64 {
	part := func(at float64) float64 {
		if main {
			return (at - 17 + 6) / 39
		}
		return (33 - at + 17) / 39
	}
	least := func(force, low, high float64) float64 { return math.Min(low*force, high*force) }
	sum := least(girderWeight*part(girderAt), 0.95*0.97, 1.05*1.03) + least(420e3*part(1.5), 0.8*0.97, 1.05*1.03) + least(900e3*part(20), 0.8, 1.35) - 1.5*gust*22*4.8/39
	if main {
		return sum + 0.95*0.97*160e3
	}
	return sum + 0.95*0.97*90e3
}

// In a storm a leg turns over across about a foot by wind, nominal force, shift and
// cross-fall; its weight holds it, and bars by their working load.
func TestOverturningAcrossByHand(t *testing.T) {
	for _, speed := range []float64{26, 6} {
		l := parked()
		l.Positions[0].Wind.Speed = speed
		byHandAcross(t, recorded(t, l).Stages[1].Situations[0], 0.625*math.Pow(1.4*speed, 2))
	}
}

func byHandAcross(t *testing.T, s stages.SituationRecord, gust float64) {
	for _, leg := range []struct {
		x, width, share, bars float64
		main                  bool
	}{{0, 6.2, (33 + 17 - 42) / 39., 0.95 * 3 * 300e3, false}, {33, 5, (42 - 17 + 6) / 39., 0, true}} {
		force := parkedLeg(leg.main, gust)
		wind := gust * 210 * leg.share
		known := wind + force*math.Sin(0.012)
		nominal := math.Max(0.025*force, 0.01*force+known) - known
		lever := 0.04 + 4.5*math.Tan(0.012)
		c := named(t, s, "overturning of the gantry across", leg.x)
		require.InEpsilon(t, 1.5*wind*4.8+nominal*4.5+lever*force, c.Demand.Value, 1e-9)
		require.InEpsilon(t, force*leg.width/2+leg.bars*leg.width, c.Limit.Value, 1e-9)
		require.Equal(t, limits.Overturning, c.Kind)
	}
}

// The least force of a foot has the same moments about the other foot, but for the nominal
// horizontal force: a foot that presses with it is a leg that does not turn over.
func TestUpliftOfAFootIsOverturningAcrossWithoutTheNominalForce(t *testing.T) {
	s := recorded(t, parked()).Stages[1].Situations[0]
	over, foot := named(t, s, "overturning of the gantry across", 33), named(t, s, "uplift at a foot of the gantry", 33)
	force := parkedLeg(true, 0.625*math.Pow(1.4*26, 2))
	known := 0.625*math.Pow(1.4*26, 2)*210*31/39 + force*math.Sin(0.012)
	nominal := math.Max(0.025*force, 0.01*force+known) - known
	require.InEpsilon(t, over.Margin+nominal*4.5, foot.Demand.Value*5, 1e-9)
}

// A parked gantry has all checks of one that moves; its storm is solved for in the same way.
func TestParkedForAStorm(t *testing.T) {
	l := parked()
	s := recorded(t, l).Stages[1].Situations[0]
	var names []string
	for _, c := range s.Checks {
		names = append(names, c.Name)
		if strings.Contains(c.Name, "gantry") {
			require.NotEqual(t, stages.Fail, c.State, "%s %s", c.Name, c.Place)
		}
	}
	for _, name := range []string{"overturning of the gantry forward", "overturning of the gantry back", "uplift at a foot of the gantry", "force in an anchor bar of the gantry", "sliding of a foot of the gantry", "force of a foot of the gantry"} {
		require.Contains(t, names, name)
	}
	wind, err := l.PermissibleWind(0, limits.EN1992{})
	require.NoError(t, err)
	require.Greater(t, wind, 26.0)
	require.Less(t, wind, 79.0)
	for factor, passes := range map[float64]bool{1: true, 1.001: false} {
		l := parked()
		l.Positions[0].Wind.Speed = wind * factor
		reserve, err := l.Reserve(0, limits.EN1992{})
		require.NoError(t, err)
		require.Equal(t, passes, reserve >= 0, factor)
	}
	require.InDelta(t, wind, find(t, s, "wind speed, 10 min mean at 10 m").Limit.Value, 0.1)
}

// What a parked gantry may not do is refused in words.
func TestRefusedWhileParked(t *testing.T) {
	for words, change := range map[string]func(*launching.Position){
		"field Roll = 2 m of position \"parked\", which is Parked": func(p *launching.Position) { p.Roll = 2 },
		"trolley \"T1\" of position \"parked\", which is Parked":   func(p *launching.Position) { p.Trolleys[0].Locked = false },
		"or has a load on its hook":                                func(p *launching.Position) { p.Trolleys[0].Hook, p.Dynamic = 1e5, loads.AtRest() },
		"field Wind is not stated":                                 func(p *launching.Position) { p.Wind = launching.Wind{} },
	} {
		l := parked()
		change(&l.Positions[0])
		_, err := l.Reserve(0, limits.EN1992{})
		require.ErrorIs(t, err, launching.ErrLaunching)
		require.ErrorContains(t, err, words)
	}
	h := hoist()
	h.Positions[0].Parked = true
	_, err := stages.Plan{h}.Run(span(t), limits.EN1992{})
	require.ErrorContains(t, err, "must be a position of a Launch")
}
