package launching_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// named is the check of a name at a place of the gantry, the only one.
func named(t *testing.T, s stages.SituationRecord, name string, x float64) stages.Check {
	var list []stages.Check
	for _, c := range s.Checks {
		if c.Name == name && math.Abs(c.X-x) < 1e-9 {
			list = append(list, c)
		}
	}
	require.Len(t, list, 1, name)
	return list[0]
}

// The factored moments about the main leg in plain arithmetic: the structure at its worse
// tolerance, the counterweight with 0.8, a trolley beyond with 1.35, a locked one inside
// with 0.8, one that is not locked inside with nothing; wind and nominal force.
func TestFactoredOverturningByHand(t *testing.T) {
	l := launch(rolling(20))
	l.Gantry.Trolleys = append(l.Gantry.Trolleys, launching.Trolley{Mark: "T2", Weight: 300e3, To: 84}, launching.Trolley{Mark: "T3", Weight: 110e3, To: 84})
	p := &l.Positions[0]
	p.Roll, p.At = 0, -14.5
	p.Trolleys = append(p.Trolleys, launching.Placed{At: 70}, launching.Placed{At: 30})
	s := recorded(t, l).Stages[1].Situations[0]
	pivot := 47.5 // of the main leg from the rear end
	structureIn := 40e3 * pivot * pivot / 2
	rest := 52 - pivot
	structureOut := 40e3*rest*rest/2 + 28e3*32*(52+16-pivot) + 12e3*32/2*(52+32./3-pivot) + 60e3*(82-pivot)
	weight := 40e3*52 + 34e3*32 + 60e3 + 420e3 + 900e3 + 300e3 + 110e3
	wind := 0.625 * 144 * 22
	nominal := math.Max(0.025*weight, 0.01*weight+wind) - wind
	dst := 1.05*0.97*structureOut + 1.35*300e3*(70-pivot) + 1.5*wind*4.8 + nominal*4.5
	stb := 0.95*0.97*structureIn + 0.8*(0.97*420e3*(pivot-1.5)+900e3*(pivot-20))
	c := named(t, s, "overturning of the gantry forward", 33)
	require.InEpsilon(t, dst, c.Demand.Value, 1e-9)
	require.InEpsilon(t, stb, c.Limit.Value, 1e-9)
	simple := named(t, s, "overturning of the gantry forward, nominal factor", 33)
	require.InEpsilon(t, structureOut+300e3*(70-pivot), simple.Demand.Value, 1e-9)
	require.InEpsilon(t, (structureIn+420e3*(pivot-1.5)+900e3*(pivot-20)+110e3*(pivot-30))/1.5, simple.Limit.Value, 1e-9)
	// The rear leg: what holds it down counts with its least factor, what lifts it with its greatest.
	part := func(force, at float64) float64 { return force * (pivot - at) / 39 }
	own := (structureIn - structureOut) / 39
	leg := 0.95*0.97*own + 0.8*0.97*part(420e3, 1.5) + 0.8*part(900e3, 20) + 1.35*part(300e3, 70) - 1.5*wind*4.8/39 + 0.95*0.97*90e3
	side := 1.5 * 0.625 * 144 * 210 * math.Abs(pivot-42) / 39 * 4.8 / 5
	foot := named(t, s, "uplift at a foot of the gantry", 0)
	require.InEpsilon(t, leg/2-side, foot.Demand.Value, 1e-9)
}

// A bar that is lost at once puts its force on the others of its foot, twice.
func TestALostBarByHand(t *testing.T) {
	l := launch(rolling(82))
	l.Gantry.Trolleys[0].Weight = 1.6e6
	p := &l.Positions[0]
	p.Stands[0].Bars = &launching.Bars{Number: 8, Preload: 20e3, Capacity: 900e3, Document: "LG-1 manual"}
	feet, err := l.Gantry.Across(*p)
	require.NoError(t, err)
	pull := -feet[0].Foot.Least
	require.Greater(t, pull, 100e3)
	for factor, want := range map[float64]float64{1: pull / 3, 2: (pull + pull/4) / 3} {
		l.Sudden = factor
		c := named(t, recorded(t, l).Stages[1].Situations[0], "force in an anchor bar after the loss of one", 0)
		require.InEpsilon(t, want, c.Demand.Value, 1e-9)
	}
}

// The winches stop at the static load of the hook and what is permitted above it.
func TestOverloadStop(t *testing.T) {
	s := run(t, hoist(), stages.Seat{Age: 28, On: bearings()}).Stages[1].Situations[0]
	weight := 0.0
	for _, r := range s.Reactions {
		weight += r.Nominal
	}
	found := 0
	for _, h := range s.HoldPoints {
		if h.Kind == "overload, T1" {
			require.InEpsilon(t, weight/2*1.03*1.1, h.Required.Value, 1e-6)
			require.True(t, h.AtMost)
			found++
		}
	}
	require.Equal(t, 1, found)
}

// The wind along on the element turns the gantry about its leg where the ropes leave the
// trolleys, and is a known horizontal force beside which the nominal one is smaller.
func TestWindAlongOnTheElement(t *testing.T) {
	over := func(h launching.Hoist) float64 {
		s := run(t, h, stages.Seat{Age: 28, On: bearings()}).Stages[1].Situations[0]
		return named(t, s, "overturning of the gantry forward", 34).Demand.Value
	}
	h := hoist()
	still := over(h)
	h.Actions = []stages.Action{air(1e-6), {Mark: "wind along", Kind: stages.Wind, Direction: stages.Along, Z: 1.2, Least: -1, Most: 1, Loads: loads.Set{Points: []loads.Point{{At: 17, Force: 50e3}}}}}
	require.InEpsilon(t, 1.5*50e3*6.5-50e3*4.5, over(h)-still, 0.02, "the nominal force stays 2.5 % in all")
}

// The jack with the largest force governs, also when the lock rings are set.
func TestTheGoverningJackWhenLocked(t *testing.T) {
	element := span(t)
	element.Extra = []stages.ExtraWeight{{Mark: "plant", From: 24, To: 28, Weight: 300e3, Y: 0.8, Z: 2.6}}
	record, err := stages.Plan{stages.Seat{Age: 28, On: bearings()}, jackDown()}.Run(element, limits.EN1992{})
	require.NoError(t, err)
	for i, s := range record.Stages[1].Situations[:2] {
		most := 0.0
		for _, r := range s.Reactions {
			most = math.Max(most, r.Characteristic.Most)
		}
		require.Greater(t, most, s.Reactions[0].Characteristic.Most+1e3)
		require.InEpsilon(t, most, find(t, s, "rated force of a jack").Demand.Value, 1e-6, i)
	}
}
