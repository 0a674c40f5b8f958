package stages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// hollow is a box whose walls all differ, with tendons of 16 m.
func hollow(t testing.TB, list ...tendon.Tendon) stages.Element {
	shape, err := section.New([]section.Outline{{{Y: -1}, {Y: 1}, {Y: 1, Z: 1.2}, {Y: -1, Z: 1.2}}},
		[]section.Outline{{{Y: -0.7, Z: 0.22}, {Y: 0.6, Z: 0.22}, {Y: 0.6, Z: 1.0}, {Y: -0.7, Z: 1.0}}})
	require.NoError(t, err)
	mix := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.25, DryingFrom: 2}}
	return stages.Element{Mark: "H", Length: 16, Section: shape, WeightTolerance: loads.PlusMinus(0), Concrete: mix, Tendons: list}
}

// hollowNet is that section with one duct out.
func hollowNet(duct, y, z float64) byHand {
	var s, void byHand
	s.rectangle([4]float64{-1, 1, 0, 1.2})
	void.rectangle([4]float64{-0.7, 0.6, 0.22, 1.0})
	s.a, s.sy, s.sz, s.iyy, s.izz, s.iyz = s.a-void.a, s.sy-void.sy, s.sz-void.sz, s.iyy-void.iyy, s.izz-void.izz, s.iyz-void.iyz
	if duct > 0 {
		s.hole(duct, y, z)
	}
	return s
}

// deviated is an external tendon in the void, anchored at z = 0.7, led over two
// deviators at unlike places, and sideways.
func deviated(friction float64) tendon.Tendon {
	return tendon.Tendon{
		Mark: "X", Strand: tendon.Y1860S7x157, Strands: 7, External: true, Friction: friction, NoFriction: friction == 0,
		Elevation: polygon(tendon.Point{X: 0, Ordinate: 0.70}, tendon.Point{X: 5, Ordinate: 0.35}, tendon.Point{X: 12, Ordinate: 0.30}, tendon.Point{X: 16, Ordinate: 0.62}),
		Plan:      polygon(tendon.Point{X: 0, Ordinate: -0.30}, tendon.Point{X: 5, Ordinate: -0.10}, tendon.Point{X: 12, Ordinate: 0.25}, tendon.Point{X: 16, Ordinate: 0.25}),
		Approval:  tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}
}

// polygon is straight between points.
func polygon(at ...tendon.Point) tendon.Curve {
	var c tendon.Curve
	for i := 1; i < len(at); i++ {
		c = append(c, tendon.Straight(at[i-1], at[i]))
	}
	return c
}

// corners of the line of the deviated tendon.
var line = [4][3]float64{{0, -0.30, 0.70}, {5, -0.10, 0.35}, {12, 0.25, 0.30}, {16, 0.25, 0.62}}

// leg is the direction and length of a straight between two of them.
func leg(i int) (cos, length float64) {
	dx, dy, dz := line[i+1][0]-line[i][0], line[i+1][1]-line[i][1], line[i+1][2]-line[i][2]
	length = math.Sqrt(dx*dx + dy*dy + dz*dz)
	return dx / length, length
}

// An external tendon stressed first, then one in a duct: the concrete strains each
// straight of the external one as a whole, held by the friction of its deviators.
func TestExternalTendonByHand(t *testing.T) {
	inside := evenTendon("N", 9, -0.85, 0.12)
	e := hollow(t, deviated(0.2), inside)
	on := []stages.Support{{X: 0, Y: 0}, {X: 16, Y: 0}}
	plan := stages.Plan{stages.Transfer{Age: 5, On: on, Jacking: []tendon.Jacking{jackTo(1200e6, tendon.LeftEnd, "X"), jackTo(1000e6, tendon.LeftEnd, "N")}}}
	net := hollowNet(0.08, -0.85, 0.12)
	modulus, area := modulusAt(t, e, 5), 7*150e-6
	turn := func(i int) float64 { // between legs i and i+1
		dot := 0.0
		for k := range 3 {
			dot += (line[i+1][k] - line[i][k]) * (line[i+2][k] - line[i+1][k])
		}
		_, a := leg(i)
		_, b := leg(i + 1)
		return math.Acos(dot / a / b)
	}
	force := [3]float64{1200e6 * area}
	force[1] = force[0] * math.Exp(-0.2*turn(0))
	force[2] = force[1] * math.Exp(-0.2*turn(1))
	pull := -1000e6 * 9 * 150e-6
	for i := range force {
		cos, _ := leg(i)
		a := net.stress(pull, -0.85, 0.12, line[i][1], line[i][2])
		b := net.stress(pull, -0.85, 0.12, line[i+1][1], line[i+1][2])
		force[i] += 195e9 * area * cos * cos * (a + b) / 2 / modulus
	}
	record, err := plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	f := record.Stages[0].Situations[0].Tendons[0]
	require.InEpsilon(t, force[0], f.Left, 1e-9)
	require.InEpsilon(t, force[1], f.Middle, 1e-9)
	require.InEpsilon(t, force[2], f.Right, 1e-9)
	require.False(t, f.Bonded)
	require.True(t, record.Tendons[0].External)

	// what it does to a cut at x = 3 m: its force at its own place, no hole
	a, err := plan.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	effects, err := a.Effects(1, 1)
	require.NoError(t, err)
	cos, length := leg(0)
	y, z := -0.30+0.2*3/5, 0.70-0.35*3/5
	w := 25e3 * (2*1.2 - 1.3*0.78)
	moment := w * 3 * 13 / 2
	for _, p := range [][2]float64{{-1, 0}, {1, 1.2}, {0.6, 0.22}} {
		want := net.stress(-force[0]*cos, y, z, p[0], p[1]) + net.stress(pull, -0.85, 0.12, p[0], p[1]) +
			net.stress(-moment/1e3, 0, 1e3, p[0], p[1]) + net.stress(moment/1e3, 0, 0, p[0], p[1])
		require.InDelta(t, want, effects.Stress(3).At(section.Point{Y: p[0], Z: p[1]}), 5)
	}
	require.InDelta(t, w*5-force[0]*0.35/length, effects.Forces(3).Vz, 1)
	require.InDelta(t, force[0]*0.2/length, math.Abs(effects.Forces(3).Vy), 1)

	// deviators: what changes direction there
	require.Len(t, f.Deviations, 2)
	require.InDelta(t, 5, f.Deviations[0].At, 1e-9)
	require.Greater(t, f.Deviations[0].Z, 0.0)
	words := strings.Join(record.Stages[0].Situations[0].NotChecked, "\n")
	require.Contains(t, words, "deviator of X at x = 5.000 m")
	require.Contains(t, words, "deviator of X at x = 12.000 m")
	for _, c := range record.Stages[0].Situations[0].Checks {
		if c.Kind == limits.AnchorEdge {
			require.Equal(t, stages.NotEvaluated, c.State)
		}
	}

	// without friction it slips through its deviators: one change all along
	e.Tendons[0] = deviated(0)
	record, err = plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	mean, whole := 0.0, 0.0
	for i := range 3 {
		cos, length := leg(i)
		a := net.stress(pull, -0.85, 0.12, line[i][1], line[i][2])
		b := net.stress(pull, -0.85, 0.12, line[i+1][1], line[i+1][2])
		mean, whole = mean+length*cos*cos*(a+b)/2, whole+length
	}
	f = record.Stages[0].Situations[0].Tendons[0]
	for _, v := range []float64{f.Left, f.Middle, f.Right} {
		require.InEpsilon(t, 1200e6*area+195e9*area*mean/whole/modulus, v, 1e-9)
	}
}

// By time an external tendon loses by the mean along it: the weight's moment by two
// thirds of that at mid-length.
func TestExternalTendonLosesByTheMean(t *testing.T) {
	x := deviated(0)
	x.Elevation, x.Plan = tendon.Level(0, 16, 0.30), tendon.Level(0, 16, 0.25)
	e := hollow(t, x)
	mix := e.Concrete.(concrete.EN1992)
	e.LongTerm = mix
	on := []stages.Support{{X: 0, Y: 0}, {X: 16, Y: 0}}
	plan := stages.Plan{
		stages.Transfer{Age: 4, On: on, Jacking: []tendon.Jacking{jackTo(1200e6, tendon.LeftEnd, "X")}},
		stages.Store{Age: 4, Until: 100, On: on},
	}
	record, err := plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	f := record.Stages[1].Situations[1].Tendons[0]
	gross := hollowNet(0, 0, 0)
	area := 7 * 150e-6
	w := 25e3 * gross.a
	moment := w * 16 * 16 / 8 * 2 / 3
	sigma := gross.stress(-1200e6*area, 0.25, 0.30, 0.25, 0.30) + gross.stress(-moment/1e3, 0, 1e3, 0.25, 0.30) + gross.stress(moment/1e3, 0, 0, 0.25, 0.30)
	phi, err := mix.Creep(100, 4)
	require.NoError(t, err)
	state, err := mix.At(28)
	require.NoError(t, err)
	divisor := 1 + gross.stress(area, 0.25, 0.30, 0.25, 0.30)*195e9/state.Modulus*(1+0.8*phi)
	require.InEpsilon(t, -phi*sigma*195e9/state.Modulus/divisor, f.Losses.Creep, 1e-6)
	relaxing, err := tendon.Class2.Loss(1200e6, 1860e6, 96)
	require.NoError(t, err)
	require.InEpsilon(t, 0.8*relaxing/divisor, f.Losses.Relaxation, 1e-6)
	require.InEpsilon(t, f.Middle, f.Left, 1e-12, "the same all along")
	require.InEpsilon(t, f.Middle, f.Right, 1e-12, "the same all along")
	for _, at := range f.Along {
		require.InDelta(t, f.Middle, at[1], 5.001, "rounded to 10 N")
	}
}

func TestExternalTendonRefused(t *testing.T) {
	on := []stages.Support{{X: 0, Y: 0}, {X: 16, Y: 0}}
	pull := stages.Transfer{Age: 5, On: on, Jacking: []tendon.Jacking{jackTo(1200e6, tendon.LeftEnd, "X")}}
	run := func(x tendon.Tendon, plan ...stages.Stage) error {
		_, err := append(stages.Plan{pull}, plan...).Run(hollow(t, x), limits.EN1992{})
		return err
	}
	require.NoError(t, run(deviated(0.2)))
	require.ErrorContains(t, run(deviated(0.2), stages.Stress{Age: 9, Grout: []string{"X"}}), "in Grout: tendon X is external")
	at := func(level float64, from, to float64) tendon.Tendon {
		x := deviated(0.2)
		x.Elevation, x.Plan = polygon(tendon.Point{X: 0, Ordinate: from}, tendon.Point{X: 9, Ordinate: level}, tendon.Point{X: 16, Ordinate: to}), tendon.Level(0, 16, 0.1)
		return x
	}
	// the deviator may stand in the floor, which begins at 0.22 m; the whole line not
	require.NoError(t, run(at(0.15, 0.6, 0.7)))
	require.ErrorContains(t, run(at(0.15, 0.21, 0.7)), "external tendon X runs in the concrete all the way from x = 0.000 to 9.000 m")
	require.NoError(t, run(at(0.15, 0.23, 0.7)))
	// through the floor between anchor and deviator: out below
	require.ErrorContains(t, run(at(-0.1, 0.6, 0.7)), "external tendon X runs in the concrete from about x = ")
	// outside a web all along
	beside := deviated(0.2)
	beside.Elevation, beside.Plan = tendon.Level(0, 16, 0.4), tendon.Level(0, 16, 1.1)
	require.NoError(t, run(beside))
	beside.Duct, beside.Plan = 0.1, tendon.Level(0, 16, 1.04)
	require.ErrorContains(t, run(beside), "runs in the concrete all the way")
	beside.Plan = tendon.Level(0, 16, 1.06)
	require.NoError(t, run(beside))
}
