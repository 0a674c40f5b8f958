package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// centred are shear forces through the shear centre of the walls, which is on the
// axis of symmetry of a shape to a hundredth of its width.
func centred(t *testing.T, shape section.Shape, f section.Forces) section.Forces {
	t.Helper()
	w, err := shape.Walls()
	require.NoError(t, err)
	require.InDelta(t, shape.Properties().Centroid.Y, w.ShearCentre.Y, 0.01)
	f.T += w.ShearCentre.Z*f.Vy - w.ShearCentre.Y*f.Vz
	return f
}

// A rectangle under V: 1.5·V/A at mid-depth.
func TestShearOfARectangle(t *testing.T) {
	const b, h, v = 0.3, 1.5, 4e5
	shape := rectangle(t, b, h, 0, 0)
	l := one(10, shape)
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	for _, sign := range []float64{1, -1} {
		w := wall(t, l, situation(l, plain(on, level(centred(t, shape, section.Forces{Vz: sign * v})))), false)
		require.InEpsilon(t, 1.5*v/(b*h), w.Value, 1e-9)
		require.InDelta(t, h/2, w.At.Z, 1e-6)
		require.InDelta(t, b, w.Cut.Net, 1e-9)
		require.Equal(t, w.Value, w.Shear)
	}
}

// V·S/(I·t) at the middle of the webs of a box, half of it in each web; principal
// tension by Mohr's circle with the normal stress of N alone.
func TestShearOfABoxAndMohrsCircle(t *testing.T) {
	const b, h, wall0, v = 2.4, 1.8, 0.2, 1.5e6
	l := one(10, cell(t, b, h, wall0))
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	iy := b*h*h*h/12 - (b-2*wall0)*math.Pow(h-2*wall0, 3)/12
	s := b*h/2*h/4 - (b-2*wall0)*(h/2-wall0)*(h/2-wall0)/2
	tau := v * s / (iy * 2 * wall0)
	area := b*h - (b-2*wall0)*(h-2*wall0)
	w := wall(t, l, situation(l, plain(on, level(section.Forces{Vz: v}))), false)
	require.InEpsilon(t, tau, w.Value, 1e-4)
	for _, n := range []float64{-3e6, 0, 1e6} {
		// about z = 0, so that the centroid has no moment
		f := section.Forces{N: n, My: -n * h / 2, Vz: v}
		w := wall(t, l, situation(l, plain(on, level(f))), true)
		sigma := n / area
		require.InEpsilon(t, sigma/2+math.Hypot(sigma/2, tau), w.Value, 1e-4)
		require.InEpsilon(t, w.Normal/2+math.Hypot(w.Normal/2, w.Shear), w.Value, 1e-12, "Mohr")
		require.InDelta(t, sigma, w.Normal, 1)
		require.InEpsilon(t, tau, w.Shear, 1e-4)
	}
}

// Torsion of a box: Bredt, q = T/(2·Am) through the middle of the walls, whatever its
// sense; with V it adds in one web.
func TestTorsionOfABox(t *testing.T) {
	const b, h, wall0, torque, v = 2.4, 1.8, 0.2, 8e5, 1.5e6
	l := one(10, cell(t, b, h, wall0))
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	bredt := torque / (2 * (b - wall0) * (h - wall0)) / wall0
	for _, sign := range []float64{1, -1} {
		w := wall(t, l, situation(l, plain(on, level(section.Forces{T: sign * torque}))), false)
		require.InEpsilon(t, bredt, w.Value, 0.02, "the middle line")
		shear := wall(t, l, situation(l, plain(on, level(section.Forces{Vz: v}))), false)
		both := wall(t, l, situation(l, plain(on, level(section.Forces{Vz: v, T: sign * torque}))), false)
		require.InEpsilon(t, w.Value+shear.Value, both.Value, 1e-4)
		// V on the face towards +x acts downwards; T > 0 turns y to z, so it goes down on the right, at y < 0.
		require.Negative(t, sign*both.At.Y)
	}
}

// T about y = z = 0: V at the axis of a box that stands 3 m aside twists it by V·3.
func TestTorqueIsAboutTheShearCentre(t *testing.T) {
	const b, h, wall0, v = 2.4, 1.8, 0.2, 1e5
	shape, err := cell(t, b, h, wall0).Moved(section.Point{Y: 3, Z: 5})
	require.NoError(t, err)
	l := one(10, shape)
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	value := func(f section.Forces) float64 {
		return wall(t, l, situation(l, plain(on, level(f))), false).Value
	}
	shear := func() float64 { // V through the shear centre: T about the axis is that of −V·z at y = 3
		return value(section.Forces{Vz: v, T: -3 * v})
	}()
	iy := b*h*h*h/12 - (b-2*wall0)*math.Pow(h-2*wall0, 3)/12
	s := b*h/2*h/4 - (b-2*wall0)*(h/2-wall0)*(h/2-wall0)/2
	require.InEpsilon(t, v*s/(iy*2*wall0), shear, 1e-4)
	twist := value(section.Forces{T: 3 * v})
	require.InEpsilon(t, shear+twist, value(section.Forces{Vz: v}), 1e-4, "on the axis y = 0")
	// Vy at z = 0 acts 5.9 m below the centre: through it with T = 5.9·Vy, else the slabs have the twist as well.
	through := value(section.Forces{Vy: v, T: 5.9 * v})
	across := h*b*b*b/12 - (h-2*wall0)*math.Pow(b-2*wall0, 3)/12
	s = h*b/2*b/4 - (h-2*wall0)*(b/2-wall0)*(b/2-wall0)/2
	require.InEpsilon(t, v*s/(across*2*wall0), through, 1e-4)
	require.InEpsilon(t, through+value(section.Forces{T: 5.9 * v}), value(section.Forces{Vy: v}), 1e-4)
}

// An open wall carries T by T·t/J at its faces by magnitude: it adds to the shear of V
// whatever the senses. J of a rectangle: h·b³·(1/3 − 0.21·b/h) to half a percent.
func TestTorsionOfAnOpenWall(t *testing.T) {
	const b, h, torque, v = 0.2, 2.0, 5e4, 3e5
	shape := rectangle(t, b, h, 0, 0)
	l := one(10, shape)
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	j := h * b * b * b * (1.0/3 - 0.21*b/h)
	face := torque * b / j
	for _, signs := range [][2]float64{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
		f := centred(t, shape, section.Forces{Vz: signs[0] * v, T: signs[1] * torque})
		w := wall(t, l, situation(l, plain(on, level(f))), false)
		require.InEpsilon(t, face+1.5*v/(b*h), w.Value, 0.01)
		require.InEpsilon(t, torque*b/w.Constant+1.5*v/(b*h), w.Value, 0.005)
		require.True(t, w.Cut.Open)
		require.InEpsilon(t, j, w.Constant, 0.02)
	}
}

// A duct that is not grouted takes 1.2 times its diameter off a web, a grouted metal
// one half of it, one in each web at one level only in its own web.
func TestDuctsTakeOffTheWall(t *testing.T) {
	const b, h, v, duct = 0.4, 1.5, 4e5, 0.08
	shape := rectangle(t, b, h, 0, 0)
	l := one(10, shape, straight(t, point{0, 0, h / 2}, point{10, 0, h / 2}, 1e-3, duct))
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	f := centred(t, shape, section.Forces{Vz: v})
	for filling, net := range map[section.Filling]float64{section.NotGrouted: b - 1.2*duct, section.GroutedMetal: b - 0.5*duct} {
		s := situation(l, plain(on, level(f)))
		d := demand(t, l, s, fixed)
		w, _, err := d.WorstWall(ledger.WallQuery{Filling: func(int) section.Filling { return filling }, Cracked: math.Inf(1)})
		require.NoError(t, err)
		require.InDelta(t, net, w.Cut.Net, 1e-9)
		require.Equal(t, 1, w.Cut.Ducts)
		require.InEpsilon(t, 1.5*v/(net*h), w.Value, 1e-6, "the flow is that of the full section")
	}
	// The same demand asked for another filling gives another wall.
	s := situation(l, plain(on, level(f)))
	d := demand(t, l, s, fixed)
	ask := func(f section.Filling) float64 {
		w, _, err := d.WorstWall(ledger.WallQuery{Filling: func(int) section.Filling { return f }, Cracked: math.Inf(1)})
		require.NoError(t, err)
		return w.Value
	}
	open, grouted := ask(section.NotGrouted), ask(section.GroutedMetal)
	require.InEpsilon(t, (b-0.5*duct)/(b-1.2*duct), open/grouted, 1e-6)
	require.Equal(t, open, ask(section.NotGrouted))
}

// A tendon's rise carries its part of V in full at once, also where its force has not
// spread, with the range of the prestress.
func TestInclinedTendonCarriesShearAtOnce(t *testing.T) {
	const b, h, v, force = 0.3, 1.6, 4e5, 1e6
	shape := rectangle(t, b, h, 0, 0)
	l := one(16, shape, straight(t, point{0, 0, 0.4}, point{16, 0, 1.2}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, force, 0)
	require.NoError(t, l.MakeGrid())
	rise := force * 0.05 / math.Hypot(1, 0.05)
	for _, c := range []struct{ v, least, most, want float64 }{{v, 0.9, 1.1, v + 1.1*rise}, {-v, 0.9, 1.1, v - 0.9*rise}} {
		f := centred(t, shape, section.Forces{Vz: c.v})
		f.T *= c.want / math.Abs(c.v) // what the tendon takes acts on the axis as well
		s := situation(l, plain(on, level(f)))
		d := demand(t, l, s, ledger.Cause{Least: c.least, Most: c.most, Outer: true})
		w, _, err := d.WorstWall(ledger.WallQuery{Filling: func(int) section.Filling { return section.NotGrouted }, Cracked: math.Inf(1)})
		require.NoError(t, err)
		require.InEpsilon(t, 1.5*c.want/(b*h), w.Value, 1e-6)
	}
}
