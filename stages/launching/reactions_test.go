package launching_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/launching"
)

// Two legs share by levers; the tolerance is that of the weights.
func TestReactionsOfTwoLegs(t *testing.T) {
	g, p := gantry(), rolling(30)
	p.Roll, p.Wind = 0, launching.Wind{}
	r, err := g.Reactions(p)
	require.NoError(t, err)
	girder, nose := 40e3*52.0, 34e3*32.0
	noseAt := 52 + 32*(40.0+2*28)/(3*(40+28))
	own := girder*(p.At+26) + nose*(p.At+noseAt) + 60e3*(p.At+82)
	weight := girder + nose + 60e3
	main := func(moment, weight float64) float64 { return (moment + weight*6) / 39 }
	structure, counter, trolley := main(own, weight), main(420e3*(p.At+1.5), 420e3), main(900e3*(p.At+30), 900e3)
	require.InEpsilon(t, structure+counter+trolley, r[1].Nominal.Most, 1e-9)
	require.InEpsilon(t, structure*1.03+counter*0.97+trolley, r[1].Force.Most, 1e-9, "the counterweight behind the rear leg relieves the main one")
	require.InEpsilon(t, structure*0.97+counter*1.03+trolley, r[1].Force.Least, 1e-9)
	require.InEpsilon(t, weight+420e3+900e3, r[0].Nominal.Most+r[1].Nominal.Most, 1e-9)
	sum := 0.0
	for _, e := range r[1].Most {
		sum += e.Factor * e.Force
	}
	require.InEpsilon(t, r[1].Force.Most, sum, 1e-9, "the parts of the causes add up to it")
}

// The wind along turns the forces of the legs by force times height over their distance.
func TestWindAlong(t *testing.T) {
	g, p := uniform(40), launching.Position{Stands: []launching.Stand{{Leg: "a", X: 0, On: "p"}, {Leg: "b", X: 40, On: "q", Holds: true}}}
	g.EndArea, g.AreaAt = 20, 5
	p.Wind = launching.Wind{WindSpeed: loads.WindSpeed{Speed: 20, Averaging: loads.GustOf3s, Height: 10}}
	r, err := g.Reactions(p)
	require.NoError(t, err)
	change := 0.625 * 400 * 20 * 5 / 40
	require.InEpsilon(t, 200e3+change, r[0].Force.Most, 1e-9)
	require.InEpsilon(t, 200e3-change, r[1].Force.Least, 1e-9)
	require.InEpsilon(t, 200e3-change, r[0].Force.Least, 1e-9, "and the other way")
	require.InEpsilon(t, 200e3+change, r[1].Force.Most, 1e-9)
	g.Trolleys, g.RopeAt = []launching.Trolley{{Mark: "T", Weight: 0, Brake: 30e3}}, 8
	p.Wind, p.Trolleys = launching.Wind{}, []launching.Placed{{At: 20}}
	r, err = g.Reactions(p)
	require.NoError(t, err)
	for _, leg := range r {
		require.InEpsilon(t, 200e3-30e3*8/40, leg.Force.Least, 1e-9, "brakes either way as well")
		require.InEpsilon(t, 200e3+30e3*8/40, leg.Force.Most, 1e-9)
	}
}

// Rising forward the rear leg gets more.
func TestGradientLoadsTheLowerLeg(t *testing.T) {
	g, p := uniform(40), launching.Position{Gradient: 0.05, Stands: []launching.Stand{{Leg: "a", X: 0, On: "p"}, {Leg: "b", X: 40, On: "q", Holds: true}}}
	g.Height = 6
	r, err := g.Reactions(p)
	require.NoError(t, err)
	require.InEpsilon(t, 200e3+400e3*math.Sin(0.05)*6/40, r[0].Nominal.Most, 1e-9)
}

// Three legs at equal distance share as a beam of two spans: 3/8, 10/8, 3/8; the sudden
// loss of an outer one leaves half of the weight beyond the other two: it turns over.
func TestThreeLegsAndTheLossOfOne(t *testing.T) {
	p := launching.Position{Stands: []launching.Stand{{Leg: "a", X: 0, On: "p"}, {Leg: "b", X: 20, On: "q", Holds: true}, {Leg: "c", X: 40, On: "r"}}}
	r, err := uniform(40, third).Reactions(p)
	require.NoError(t, err)
	for i, part := range []float64{3. / 8, 10. / 8, 3. / 8} {
		require.InEpsilon(t, part*20*10e3, r[i].Force.Most, 1e-9)
	}
	after, err := uniform(40, third).After(p, "b", 2)
	require.NoError(t, err)
	require.Len(t, after, 2)
	require.InEpsilon(t, 75e3+2*(200e3-75e3), after[0].Force.Most, 1e-9)
	after, err = uniform(40, third).After(p, "c", 1)
	require.NoError(t, err)
	require.InDelta(t, 0, after[0].Force.Least, 1e-3, "it just balances on the middle leg")
	_, err = uniform(40, third).After(p, "d", 2)
	require.ErrorContains(t, err, `leg "d" does not stand`)
}

// The nose of a uniform gantry: deflection of an overhang, w·a·(4·a²·l + 3·a³ − l³)/(24·EI).
func TestNoseOfAUniformGantry(t *testing.T) {
	g, p := uniform(60), launching.Position{Stands: []launching.Stand{{Leg: "a", X: 0, On: "p"}, {Leg: "b", X: 35, On: "q", Holds: true}}}
	down, err := g.Nose(p)
	require.NoError(t, err)
	a, l := 25.0, 35.0
	require.InEpsilon(t, 10e3*a*(4*a*a*l+3*a*a*a-l*l*l)/(24*20e9), down, 1e-9)
	p.At, p.Roll = -5, 5
	rolled, err := g.Nose(p)
	require.NoError(t, err)
	require.InEpsilon(t, down, rolled, 1e-9, "where it lands")
}

// The feet: half of the leg's force, more by shift and cross-fall, and the couple of the wind.
func TestFeet(t *testing.T) {
	g, p := uniform(40), launching.Position{Shift: 0.2, CrossFall: 0.02, Stands: []launching.Stand{{Leg: "a", X: 0, On: "p"}, {Leg: "b", X: 40, On: "q", Holds: true}}}
	g.Height, g.SideArea, g.AreaAt, g.Legs[0].Weight = 5, 100, 6, 30e3
	p.Wind = launching.Wind{WindSpeed: loads.WindSpeed{Speed: 16, Averaging: loads.GustOf3s, Height: 10}}
	feet, err := g.Across(p)
	require.NoError(t, err)
	wind := 0.625 * 256 * 100 / 2 * 6 / 4
	lever := (0.2 + 5*math.Tan(0.02)) / 4
	require.InEpsilon(t, 230e3*(0.5+lever)+wind, feet[0].Foot.Most, 1e-9)
	require.InEpsilon(t, 230e3*(0.5-lever)-wind, feet[0].Foot.Least, 1e-9)
	require.InEpsilon(t, 230e3*math.Sin(0.02)+0.625*256*50, feet[0].Across, 1e-9)
	require.Zero(t, feet[0].Along)
	p.Gradient = 0.01
	feet, err = g.Across(p)
	require.NoError(t, err)
	require.InEpsilon(t, 400e3*math.Sin(0.01), feet[1].Along, 1e-9)
}

// Loads on hooks have their dynamic factor in the forces of the legs.
func TestHooks(t *testing.T) {
	g, p := gantry(), rolling(40)
	p.Roll, p.Trolleys[0].Hook = 0, 1e6
	_, err := g.Reactions(p)
	require.ErrorContains(t, err, "must be stated, loads.AtRest() for none")
	p.Dynamic = loads.AtRest()
	rest, err := g.Reactions(p)
	require.NoError(t, err)
	p.Dynamic = loads.Dynamic{Least: 0.9, Most: 1.2}
	moved, err := g.Reactions(p)
	require.NoError(t, err)
	part := 1e6 * (p.At + 40 + 6) / 39
	require.InEpsilon(t, 0.2*part, moved[1].Force.Most-rest[1].Force.Most, 1e-9)
	require.InEpsilon(t, 0.1*part, rest[1].Force.Least-moved[1].Force.Least, 1e-9)
}
