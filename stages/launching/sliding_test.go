package launching_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// slipping is the gantry on two legs of which the main one holds it along, falling forward
// and across, with a locked trolley and one that brakes, rolling 2 m.
func slipping() launching.Launch {
	l := launch(rolling(20))
	l.Gantry.Trolleys = append(l.Gantry.Trolleys, launching.Trolley{Mark: "T2", Weight: 300e3, To: 84, Brake: 35e3})
	l.Gantry.Trolleys[0].Brake = 50e3 // of no effect: it is locked
	p := &l.Positions[0]
	p.At, p.Roll, p.Gradient, p.CrossFall, p.Shift, p.Drag = -16.5, 2, -0.02, 0.01, 0.03, 0.015
	p.Trolleys = append(p.Trolleys, launching.Placed{At: 30})
	p.Stands[0].Friction, p.Stands[1].Friction = 0.25, 0.35
	return l
}

const girderWeight = 40e3*52 + 34e3*32 + 60e3 // N, with the front leg that hangs on it

// girderAt is its centre of gravity from the rear end (m).
const girderAt = (40e3*52*26 + 28e3*32*68 + 12e3*32/2*(52+32./3) + 60e3*82) / girderWeight

// The force of each leg of slipping with the factors for equilibrium, at its minimum and
// maximum over the roll, by levers.
func slippingLegs() (rear, main [2]float64) {
	rear, main = [2]float64{math.Inf(1), math.Inf(-1)}, [2]float64{math.Inf(1), math.Inf(-1)}
	total := girderWeight + 420e3 + 900e3 + 300e3
	couple := total * math.Sin(0.02) * 4.5 // of the weight down the gradient: loads the main leg
	wind, brake := 1.5*0.625*144*22*4.8, 1.35*35e3*6.5
	for _, at := range []float64{-16.5, -14.5} {
		for corner := range 64 {
			pick := func(bit int, least, most float64) float64 {
				if corner>>bit&1 == 1 {
					return most
				}
				return least
			}
			forces := []struct{ force, at float64 }{
				{pick(0, 0.95*0.97, 1.05*1.03) * girderWeight, girderAt}, {pick(1, 0.8*0.97, 1.05*1.03) * 420e3, 1.5},
				{pick(2, 0.8, 1.35) * 900e3, 20}, {pick(3, 0, 1.35) * 300e3, 30},
			}
			onMain, sum := (pick(4, 0.95, 1.05)*couple+pick(5, -1, 1)*wind)/39, 0.0
			for _, f := range forces {
				onMain += f.force * (at + f.at + 6) / 39
				sum += f.force
			}
			for _, b := range []float64{-brake / 39, brake / 39} {
				main[0], main[1] = math.Min(main[0], onMain+b+0.95*0.97*160e3), math.Max(main[1], onMain+b+1.05*1.03*160e3)
				rear[0], rear[1] = math.Min(rear[0], sum-onMain-b+0.95*0.97*90e3), math.Max(rear[1], sum-onMain-b+1.05*1.03*90e3)
			}
		}
	}
	return rear, main
}

// A foot slides where half of what its leg receives along and across is more than the
// friction of the foot that presses least: in plain arithmetic at both ends of the range of
// the leg's force, of which the smaller margin counts.
func TestSlidingOfAFootByHand(t *testing.T) {
	slidingByHand(t, 0.25, 0.35, 0)
	slidingByHand(t, 0.02, 0.015, 1) // so little that the larger force of the leg governs
}

func slidingByHand(t *testing.T, ofRear, ofMain float64, governs int) {
	l := slipping()
	l.Positions[0].Stands[0].Friction, l.Positions[0].Stands[1].Friction = ofRear, ofMain
	s := recorded(t, l).Stages[1].Situations[0]
	rear, main := slippingLegs()
	all := 1.05*1.03*girderWeight + 1.05*1.03*420e3 + 1.35*(900e3+300e3)
	lever := (0.03 + 4.5*math.Tan(0.01)) / 5
	wind := 1.5 * 0.625 * 144
	for _, leg := range []struct {
		x, share, friction float64
		force              [2]float64
		holds              bool
	}{{0, 1 - (42-16.5+6)/39, ofRear, rear, false}, {33, (42 - 14.5 + 6) / 39, ofMain, main, true}} {
		least, demand, limit, at := math.Inf(1), 0.0, 0.0, 0
		for end, force := range leg.force {
			across := wind*210*leg.share + force*math.Sin(0.01)
			vertical, along := force, 0.015*force
			if leg.holds {
				vertical = math.Max(all, force)
				along = wind*22 + 1.35*35e3 + all*math.Sin(0.02) + 0.015*vertical
			}
			push := math.Max(0.025*vertical, 0.01*vertical+math.Hypot(across, along)) / 2
			foot := force*(0.5-lever) - wind*210*leg.share*4.8/5
			if hold := leg.friction / 1.2 * foot; hold-push < least {
				least, demand, limit, at = hold-push, push, hold, end
			}
		}
		c := named(t, s, "sliding of a foot of the gantry", leg.x)
		require.InEpsilon(t, demand, c.Demand.Value, 1e-9)
		require.InEpsilon(t, limit, c.Limit.Value, 1e-9)
		require.Equal(t, limits.Sliding, c.Kind)
		if !leg.holds {
			require.Equal(t, governs, at)
		}
	}
}

// The preload of bars presses a foot only by the part that is stated, with the factor on
// what is favourable.
func TestBarsPressAFootAsStated(t *testing.T) {
	limit := func(clamp float64) float64 {
		l := slipping()
		l.Positions[0].Stands[0].Bars = &launching.Bars{Number: 7, Preload: 80e3, Capacity: 200e3, Clamp: clamp, Document: "LG-1 manual"}
		return named(t, recorded(t, l).Stages[1].Situations[0], "sliding of a foot of the gantry", 0).Limit.Value
	}
	require.InEpsilon(t, named(t, recorded(t, slipping()).Stages[1].Situations[0], "sliding of a foot of the gantry", 0).Limit.Value, limit(0), 1e-12)
	require.InEpsilon(t, 0.25/1.2*0.95*0.7*3*80e3, limit(0.7)-limit(0), 1e-9, "three of seven bars are at the foot that has fewer")
}

// A leg that relies on no friction asks how it is fixed, with both forces.
func TestFixingOfALegWithoutFriction(t *testing.T) {
	l := slipping()
	l.Positions[0].Stands[1].Friction = 0
	s := recorded(t, l).Stages[1].Situations[0]
	_, main := slippingLegs()
	all := 1.05*1.03*girderWeight + 1.05*1.03*420e3 + 1.35*(900e3+300e3)
	wind := 1.5 * 0.625 * 144
	along := 0.01*all + wind*22 + 1.35*35e3 + all*(math.Sin(0.02)+0.015)
	across := 0.01*main[1] + wind*210*33.5/39 + main[1]*math.Sin(0.01)
	require.Greater(t, all, main[1])
	found := 0
	for _, c := range s.Checks {
		if c.Kind == limits.LocalForce && c.Place == "fixing of leg main" {
			require.Equal(t, stages.NotEvaluated, c.State)
			require.Contains(t, c.Note, "its fixing to E-07 against sliding")
			require.Contains(t, c.Note, fmt.Sprintf("for %.0f kN along and %.0f kN across", math.Ceil(along/1e3), math.Ceil(across/1e3)))
			found++
		}
	}
	require.Equal(t, 1, found)
}

// What acts along on the leg that holds reaches the element at the top of its deck: wind,
// brakes, gradient and rollers; the other leg gets the resistance of its rollers.
func TestAlongOnTheLegs(t *testing.T) {
	l := slipping()
	feet, err := l.Gantry.Across(l.Positions[0])
	require.NoError(t, err)
	total := girderWeight + 420e3 + 900e3 + 300e3
	require.InEpsilon(t, 0.625*144*22+35e3+total*(math.Sin(0.02)+0.015), feet[1].Along, 1e-9)
	require.InEpsilon(t, 0.015*feet[0].Force.Most, feet[0].Along, 1e-9)
	legs, err := l.Gantry.Reactions(l.Positions[0])
	require.NoError(t, err)
	require.InEpsilon(t, legs[1].Force.Least+0.97*160e3, feet[1].Force.Least, 1e-12, "the weight of the leg itself has the tolerance of the gantry")
	require.InEpsilon(t, legs[1].Force.Most+1.03*160e3, feet[1].Force.Most, 1e-12)
	l.Positions[0].Roll = 0
	feet, err = l.Gantry.Across(l.Positions[0])
	require.NoError(t, err)
	require.Zero(t, feet[0].Along, "it does not roll")
}

// Brakes of trolleys turn the gantry as well, as a known horizontal force.
func TestBrakesTurnTheGantry(t *testing.T) {
	l := slipping()
	of := func(l launching.Launch) launching.Balance { return balances(t, l.Gantry, l.Positions[0])[0] }
	with := of(l)
	require.InEpsilon(t, 35e3*6.5, with.Braking, 1e-12)
	over := named(t, recorded(t, l).Stages[1].Situations[0], "overturning of the gantry forward", 33)
	l.Gantry.Trolleys[1].Brake = 0
	require.InEpsilon(t, 35e3, with.Horizontal-of(l).Horizontal, 1e-9)
	still := named(t, recorded(t, l).Stages[1].Situations[0], "overturning of the gantry forward", 33)
	total := girderWeight + 420e3 + 900e3 + 300e3
	nominal := func(known float64) float64 { return math.Max(0.025*total, 0.01*total+known) - known }
	known := 0.625*144*22 + total*math.Sin(0.02)
	require.InEpsilon(t, 1.35*35e3*6.5+(nominal(known+35e3)-nominal(known))*4.5, over.Demand.Value-still.Demand.Value, 1e-6)
	l.Gantry.Trolleys[1].Brake, l.Gantry.RopeAt = 35e3, 0
	_, err := l.Gantry.Balances(l.Positions[0])
	require.ErrorContains(t, err, "Gantry.RopeAt = 0 m")
}
