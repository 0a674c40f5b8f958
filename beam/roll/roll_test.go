package roll_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/beam/roll"
	"github.com/tempstage/tempstage/loads"
)

const (
	inch = 0.0254
	foot = 12 * inch
	kip  = 4448.2216152605
	ksi  = 6.894757293168361e6
)

// tee is a 136 ft bulb-tee of own invention; the numbers of the tests that follow were
// computed apart from this package from the formulas of Mast 1989 and 1993.
func tee() roll.Girder {
	const in4 = inch * inch * inch * inch
	return roll.Girder{Length: 136 * foot, Weight: 108.664 * kip, Modulus: 4700 * ksi, Iy: 545894 * in4, Iz: 37634.29 * in4, Sweep: 1.7 * inch, Camber: 2.5 * inch,
		Cracks: 770.607 * kip * inch}
}

func TestHungGirder(t *testing.T) {
	h := roll.Hung{Girder: tee(), Left: 9 * foot, Right: 9 * foot, Axis: 35.3963 * inch, Offset: 0.25 * inch}
	r, err := h.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 10.316969*inch, r.Bow, 1e-7)
	require.InEpsilon(t, 0.963113*inch, r.Offset, 1e-6)
	require.InEpsilon(t, 34.347605*inch, r.Arm, 1e-7)
	require.True(t, r.Stable)
	require.InEpsilon(t, 0.040079, r.Tilt, 2e-5)
	require.InEpsilon(t, 0.028040, r.RigidTilt, 2e-5)
	require.InEpsilon(t, 0.047278, r.CrackTilt, 2e-5)
	require.InEpsilon(t, 1.11924, r.Cracking, 1e-5)
	require.InEpsilon(t, 0.193238, r.FailTilt, 1e-4)
	require.InEpsilon(t, 1.69324, r.Overturning, 1e-5)

	h.Left, h.Right = 0, 0
	r, err = h.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 22.252731*inch, r.Bow, 1e-7)
	require.InEpsilon(t, 0.120532, r.Tilt, 2e-5)
	require.InEpsilon(t, 0.54362, r.Cracking, 2e-5)
	require.InEpsilon(t, 0.84753, r.Overturning, 1e-5, "not the larger of both")
}

func TestSeatedGirder(t *testing.T) {
	g := tee()
	g.Modulus, g.Sweep, g.Camber, g.Cracks = 5000*ksi, 0, 0, 1129.0287*kip*inch
	d := roll.Seated{Girder: g, Left: 9 * foot, Right: 9 * foot, Stiffness: 40000 * kip * inch, CrossFall: 0.06, Height: 86.295774 * inch, RollCentre: 24 * inch,
		HalfBase: 36 * inch, Offset: 1.713113 * inch}
	r, err := d.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 9.697951*inch, r.Bow, 1e-6)
	require.InEpsilon(t, (368.107193-86.295774)*inch, r.Arm, 1e-6)
	require.InEpsilon(t, 0.087462, r.Tilt, 1e-5)
	require.InEpsilon(t, 0.069267, r.CrackTilt, 2e-5)
	require.InEpsilon(t, 0.40794, r.Cracking, 2e-5, "it cracks")
	require.InEpsilon(t, 0.153886, r.FailTilt, 1e-5)
	require.InEpsilon(t, 2.02587, r.Overturning, 1e-5)
	k, err := d.StiffnessFor(1.5)
	require.NoError(t, err)
	d.Stiffness = k
	r, err = d.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 1.5, r.Overturning, 1e-9)
}

// stocky is a girder of 1,049.7 kN that hardly bends sideways.
func stocky(sweep float64) roll.Girder {
	return roll.Girder{Length: 40, Weight: 1049.7e3, Modulus: 35e9, Iy: 1, Iz: 900, Sweep: sweep, Cracks: 1e9}
}

// A stocky girder on soft bearings: θ = (W·(e + y·tilt) + F·y_w)/(K − W·y) of the
// bearings, the resultant at K·θ/W.
func TestRollOnBearings(t *testing.T) {
	for _, c := range []struct{ offset, tilt, wind, theta, shift float64 }{
		{0, 0.005, 0, 1.9e-3, 7.9e-3}, {0.04, 0, 0, 13.2e-3, 55e-3}, {0.04, 0.005, 11e3, 19.2e-3, 80e-3}, {0.1, 0.005, 11e3, 38.9e-3, 163e-3},
	} {
		d := roll.Seated{Girder: stocky(0), Stiffness: 4.4e6, CrossFall: c.tilt, Height: 1.15, HalfBase: 0.3, Kern: 0.1, Offset: c.offset, Wind: roll.Wind{Force: c.wind, Height: 1.2}}
		r, err := d.Solve()
		require.NoError(t, err)
		require.InDelta(t, c.theta, r.RigidTilt-c.tilt, 0.05e-3, "%+v", c)
		require.InDelta(t, c.theta, r.Tilt-c.tilt, 0.1e-3)
		require.InDelta(t, c.shift, r.Seat.Shift, 0.6e-3)
		require.InEpsilon(t, 3.645, r.Seat.Stiffness, 1e-3, "K/(W·y)")
		require.Equal(t, c.shift > 0.1, r.Seat.LeavesKern)
	}
}

// The near miss of a bowed beam: 60 mm of sweep on bearings that are softer than W·y
// tip it as soon as the slings let go; the stiffness that saves it is found.
func TestBowedBeamOnSoftBearings(t *testing.T) {
	d := roll.Seated{Girder: stocky(0.06), Stiffness: 1.1e6, Height: 1.15, HalfBase: 0.3, Kern: 0.1}
	r, err := d.Solve()
	require.NoError(t, err)
	require.False(t, r.Stable)
	require.Zero(t, r.Overturning)
	require.Zero(t, r.Tilt)
	require.Less(t, r.Seat.Stiffness, 1.0)
	require.InEpsilon(t, 1049.7e3*1.15, r.Needed, 0.01)
	k, err := d.StiffnessFor(1.5)
	require.NoError(t, err)
	require.Greater(t, k, r.Needed)
	h := roll.Hung{Girder: stocky(0.06), Left: 2, Right: 2, Axis: 1.2}
	hung, err := h.Solve()
	require.NoError(t, err)
	require.True(t, hung.Stable, "while the slings hold it")
}

// The mean sideways deflection is that of a beam solved apart, for any supports.
func TestBowIsTheMeanDeflection(t *testing.T) {
	g := tee()
	for _, s := range [][2]float64{{0, 0}, {2.7, 2.7}, {1, 6}, {8, 3}} {
		b, err := beam.New(beam.Layout{Length: g.Length, Stiffness: []beam.Stretch{{BendingStiffness: g.Modulus * g.Iz}}, Supports: []beam.Support{{At: s[0]}, {At: g.Length - s[1]}}})
		require.NoError(t, err)
		r, err := b.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, g.Length, g.Weight/g.Length)}})
		require.NoError(t, err)
		sum, sweep := 0.0, 0.0
		const n = 2000
		at := func(x float64) float64 { return 1 - math.Pow(2*x/g.Length-1, 2) }
		for i := range n {
			x := g.Length * (float64(i) + 0.5) / n
			sum -= r.Deflection(x) / n
			sweep += at(x) / n
		}
		of, err := roll.Hung{Girder: g, Left: s[0], Right: s[1], Axis: 10}.Solve()
		require.NoError(t, err)
		require.InEpsilon(t, sum, of.Bow, 1e-5)
		line := at(s[0]) + (at(g.Length-s[1])-at(s[0]))*(g.Length/2-s[0])/(g.Length-s[1]-s[0])
		require.InDelta(t, math.Abs(g.Sweep*(sweep-line)), of.Offset, 1e-7)
		require.InDelta(t, 10-g.Camber*(sweep-line), of.Arm, 1e-7)
	}
}

// Without an axis of symmetry the weight bows the girder sideways: as bending about
// both principal axes gives.
func TestUnsymmetricGirderBowsByItsOwnWeight(t *testing.T) {
	g := tee()
	g.Sweep, g.Camber = 0, 0
	g.Iyz = 0.6 * math.Sqrt(g.Iy*g.Iz)
	r, err := roll.Hung{Girder: g, Left: 3, Right: 3, Axis: 2}.Solve()
	require.NoError(t, err)
	// Principal axes at the angle a; a load along u bends with I of the axis square to it.
	a := 0.5 * math.Atan2(2*g.Iyz, g.Iz-g.Iy)
	mean, half := (g.Iz+g.Iy)/2, math.Hypot((g.Iz-g.Iy)/2, g.Iyz)
	first, second := mean+half, mean-half // ∫u² with u along the angle a from y, and square to it
	symmetric := g
	symmetric.Iyz, symmetric.Iz = 0, 1
	unit, err := roll.Hung{Girder: symmetric, Left: 3, Right: 3, Axis: 2}.Solve()
	require.NoError(t, err)
	side := unit.Bow * (math.Cos(a)*math.Cos(a)/first + math.Sin(a)*math.Sin(a)/second)
	down := unit.Bow * math.Cos(a) * math.Sin(a) * (1/first - 1/second)
	require.InEpsilon(t, side, r.Bow, 1e-9)
	require.InEpsilon(t, math.Abs(down), r.OwnBow, 1e-9)
	require.InEpsilon(t, r.OwnBow, r.Offset, 1e-9)
}

// Wind from either side: the worse counts, and it is never better than none.
func TestWindFromTheWorseSide(t *testing.T) {
	h := roll.Hung{Girder: tee(), Left: 9 * foot, Right: 9 * foot, Axis: 35.3963 * inch, Offset: 0.25 * inch}
	calm, err := h.Solve()
	require.NoError(t, err)
	h.Wind = roll.Wind{Force: 0.01 * h.Girder.Weight, Height: -0.1}
	windy, err := h.Solve()
	require.NoError(t, err)
	lever := windy.Arm + 0.1 - windy.Bow
	require.InEpsilon(t, (windy.Offset+0.01*lever)/(windy.Arm-windy.Bow), windy.Tilt, 1e-9, "e + h·(y_w − z0)")
	require.Less(t, windy.Cracking, calm.Cracking)
	require.Less(t, windy.Overturning, calm.Overturning)
	h.Wind.Force = 0.06 * h.Girder.Weight
	strong, err := h.Solve()
	require.NoError(t, err)
	require.Zero(t, strong.Cracking, "the wind alone cracks it")

	d := roll.Seated{Girder: stocky(0), Stiffness: 4.4e6, Height: 1.15, HalfBase: 0.3, Offset: 0.02, Wind: roll.Wind{Force: 11e3, Height: 1.2}}
	r, err := d.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, (0.02+11e3/1049.7e3*(1.2+r.Bow))/(r.Arm-r.Bow), r.Tilt, 1e-9, "e + h·(y_w + z0)")
}

// Does it stay upright on the hook, and does it crack?
func ExampleHung() {
	g := roll.Girder{Length: 41, Weight: 480e3, Modulus: 33e9, Iy: 0.23, Iz: 0.016, Sweep: 0.04, Camber: 0.06, Cracks: 90e3}
	r, err := roll.Hung{Girder: g, Left: 2.5, Right: 2.5, Axis: 0.9, Offset: 0.006}.Solve()
	fmt.Printf("tilt %.3f rad, factors %.2f against cracking, %.2f against overturning %v\n", r.Tilt, r.Cracking, r.Overturning, err)
	// Output: tilt 0.038 rad, factors 1.17 against cracking, 1.72 against overturning <nil>
}

// A cross-fall that puts the roll centre beyond the wheels leaves nothing to resist: the
// factor is 0, not the largest that counts.
func TestSeatedBeyondItsBase(t *testing.T) {
	g := stocky(0)
	d := roll.Seated{Girder: g, Stiffness: 2 * g.Weight, CrossFall: 0.15, Height: 1, RollCentre: 5, HalfBase: 0.1}
	r, err := d.Solve()
	require.NoError(t, err)
	require.Zero(t, r.Overturning)
	// Below the roll centre, cracked before it turns back from the cross-fall.
	d = roll.Seated{Girder: g, Stiffness: 2 * g.Weight, CrossFall: 0.2, Height: -0.5, RollCentre: 0.5, HalfBase: 0.6}
	d.Girder.Cracks = 0.01 * g.Weight * g.Length / 8
	r, err = d.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 2*0.2/2.5, r.Tilt, 1e-3)
	require.Zero(t, r.Cracking)
}
