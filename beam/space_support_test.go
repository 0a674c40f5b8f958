package beam_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// vertical is restraints upwards at (x, y).
func vertical(at ...[2]float64) []beam.Restraint {
	var out []beam.Restraint
	for _, p := range at {
		out = append(out, beam.Restraint{X: p[0], Y: p[1], Direction: up})
	}
	return out
}

// Supports on the axis hold the vertical plane only; Solve takes what does no
// work on the rest and names what would move otherwise.
func TestSpaceFreedoms(t *testing.T) {
	onAxis := beam.SpaceLayout{Length: 30, Supports: vertical([2]float64{3, 0}, [2]float64{27, 0})}
	space, err := beam.NewSpace(onAxis)
	require.NoError(t, err)
	require.Equal(t, 0, space.Redundant())
	require.ElementsMatch(t, []beam.Freedom{
		{Translation: r3.Vec{X: 1}}, {Translation: r3.Vec{Y: 1}}, {Rotation: r3.Vec{X: 1}},
		{Translation: r3.Vec{Y: -1}, Rotation: r3.Vec{Z: 1. / 15}},
	}, normalised(space.Freedoms()))
	_, err = space.Solve(weight(onAxis, 1e5, 0), beam.Setting{})
	require.NoError(t, err)
	_, err = space.Solve(weight(onAxis, 1e5, 1e-10), beam.Setting{})
	require.NoError(t, err, "a lever of 1e-10 m is rounding")
	for says, load := range map[string]beam.SpacePoint{
		"roll about the axis, by 1e+04 N·m": {X: 15, Y: .1, Force: r3.Vec{Z: 1e5}},
		"move along, by 5e+04 N":            {X: 15, Force: r3.Vec{X: 5e4}},
		"move sideways, by 2e+04 N":         {X: 15, Force: r3.Vec{Y: -2e4}},
		"turn in plan, by 3e+04 N·m":        {X: 2, Couple: r3.Vec{Z: 3e4}},
	} {
		_, err := space.Solve(beam.SpaceLoads{Points: []beam.SpacePoint{load}}, beam.Setting{})
		require.ErrorIs(t, err, beam.ErrBeam)
		require.ErrorContains(t, err, says)
	}
}

// normalised is freedoms with their first term, rotation or translation, positive.
func normalised(freedoms []beam.Freedom) []beam.Freedom {
	for i, f := range freedoms {
		if f.Rotation.Z < 0 {
			freedoms[i] = beam.Freedom{Translation: r3.Scale(-1, f.Translation), Rotation: r3.Scale(-1, f.Rotation)}
		}
	}
	return freedoms
}

// Suspended from two hooks above, held sideways there, an element can turn about the
// line of the hooks and nothing else; both pairs of four jacks linked leave it
// to roll and to pitch in opposite senses.
func TestSpaceHangsAndLinkedJacks(t *testing.T) {
	hung := beam.SpaceLayout{Length: 20, Supports: []beam.Restraint{
		{X: 4, Y: .1, Z: 2, Direction: up}, {X: 16, Y: .1, Z: 2, Direction: up},
		{X: 4, Y: .1, Z: 2, Direction: r3.Vec{Y: 1}}, {X: 16, Y: .1, Z: 2, Direction: r3.Vec{Y: 1}}, {X: 4, Y: .1, Z: 2, Direction: r3.Vec{X: 1}},
	}}
	space, err := beam.NewSpace(hung)
	require.NoError(t, err)
	require.Len(t, space.Freedoms(), 1)
	f := space.Freedoms()[0]
	axis := r3.Add(f.Translation, r3.Cross(f.Rotation, r3.Vec{Y: .1, Z: 2}))
	require.Less(t, r3.Norm(axis), 1e-12, "the hooks do not move")
	require.InDelta(t, 0, r3.Norm(r3.Cross(f.Rotation, r3.Vec{X: 1})), 1e-12)
	require.Equal(t, "roll about y = 0.1 m, z = 2 m", f.String())

	l := fourPads(0, true)
	l.Section = nil
	for i := range l.Supports {
		l.Supports[i].Group = []string{"left", "right"}[i%2] // one circuit a side: nothing holds the pitch
	}
	jacks, err := beam.NewSpace(l)
	require.NoError(t, err)
	require.Len(t, jacks.Freedoms(), 4)
	require.Equal(t, 0, jacks.Redundant())
	r, err := jacks.Solve(weight(l, 1e5, .5), beam.Setting{})
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{1062.5e3, 637.5e3, 1062.5e3, 637.5e3}, r.Reactions(), 1e-4, "W/4 · (1 ± 0.5/2): each side by its lever")
	_, err = jacks.Solve(beam.SpaceLoads{Points: []beam.SpacePoint{{X: 16.9, Force: r3.Vec{Z: -1e6}}}}, beam.Setting{})
	require.ErrorContains(t, err, "pitch, by 1e+05 N·m")
}

// Two linked jacks at one end and two at the other make three points: a corner
// out of level moves no force.
func TestSpaceThreePointSupport(t *testing.T) {
	l := fourPads(0, false)
	l.Supports[0].Group, l.Supports[1].Group = "end", "end"
	space, err := beam.NewSpace(l)
	require.NoError(t, err)
	require.Equal(t, 0, space.Redundant())
	r, err := space.Solve(weight(l, 1e5, .4), beam.Setting{Level: []float64{.03, 0, 0, 0}})
	require.NoError(t, err)
	w := 34e5
	require.InDeltaSlice(t, []float64{w / 4, w / 4, w * (.25 + .1), w * (.25 - .1)}, r.Reactions(), 1e-6*w)
	shift, _ := r.Move(1)
	require.Less(t, math.Abs(shift.Z-.015), 1e-3, "the middle of the linked pair rises by half")
}

// A crane that holds 400 kN leaves the rest to the others; a preloaded spring
// starts at its preload.
func TestSpaceKeptAndPreload(t *testing.T) {
	l := beam.SpaceLayout{Length: 20, Supports: vertical([2]float64{0, 0}, [2]float64{20, 0}, [2]float64{10, 0})}
	l.Supports[2].Kept = true
	r := inSpace(t, l, weight(l, 5e4, 0), beam.Setting{Preload: []float64{0, 0, 4e5}})
	require.InDeltaSlice(t, []float64{3e5, 3e5, 4e5}, r.Reactions(), 1e-6)
	require.InDelta(t, 4e5, r.At(10, beam.RightOf).Vz-r.At(10, beam.LeftOf).Vz, 1e-6)

	l.Supports[2] = beam.Restraint{X: 10, Direction: up, Stiffness: 1e7}
	l.Section = uniformSection(beam.CrossSection{BendingY: 1e9, BendingZ: 1e9, Torsional: 1e9})
	soft := 20. * 20 * 20 / (48 * 1e9) // m/N at the middle
	sag := 5 * 5e4 * 160e3 / (384 * 1e9)
	for _, preload := range []float64{0, 4e5} {
		// R = preload + k·(−deflection), deflection = −sag + R·soft.
		want := (preload + 1e7*sag) / (1 + 1e7*soft)
		r := inSpace(t, l, weight(l, 5e4, 0), beam.Setting{Preload: []float64{0, 0, preload}})
		require.InEpsilon(t, want, r.Reactions()[2], 1e-9)
		shift, _ := r.Move(10)
		require.InEpsilon(t, -sag+want*soft, shift.Z, 1e-9)
	}
}

// Two rigid supports 1 mm apart clamp the member; compared with a clamp they
// give way by the curvature over that millimetre.
func TestSpaceSupportsOneMillimetreApart(t *testing.T) {
	l := beam.SpaceLayout{Length: 20, Section: uniformSection(skew), Supports: vertical([2]float64{0, 0}, [2]float64{20, 0}, [2]float64{20 - .001, 0})}
	l.Section = uniformSection(beam.CrossSection{BendingY: 1e9, BendingZ: 1e9, Torsional: 1e9})
	r := inSpace(t, l, weight(l, 5e4, 0), beam.Setting{}).Reactions()
	// Spans a = L − h and h: three-moment equation, hogging at the inner support.
	a, h := 20-.001, .001
	m := 5e4 * (a*a*a + h*h*h) / (8 * (a + h))
	require.InEpsilon(t, 5e4*a/2-m/a, r[0], 1e-9)
	require.InEpsilon(t, 5e4*h/2-m/h, r[1], 1e-9)
}

func TestSpacesThatCannotBeBuilt(t *testing.T) {
	good := func() beam.SpaceLayout { return fourPads(0, false) }
	for says, change := range map[string]func(*beam.SpaceLayout){
		"Length = NaN m":                    func(l *beam.SpaceLayout) { l.Length = math.NaN() },
		"Breaks[0] = 35 m":                  func(l *beam.SpaceLayout) { l.Breaks = []float64{35} },
		"Supports is empty":                 func(l *beam.SpaceLayout) { l.Supports = nil },
		"Supports[1].X = -1 m":              func(l *beam.SpaceLayout) { l.Supports[1].X = -1 },
		"Supports[1].Y = +Inf m":            func(l *beam.SpaceLayout) { l.Supports[1].Y = math.Inf(1) },
		"Supports[2].Direction = (0, 0, 2)": func(l *beam.SpaceLayout) { l.Supports[2].Direction.Z = 2 },
		"Supports[2].Stiffness = -1 N/m":    func(l *beam.SpaceLayout) { l.Supports[2].Stiffness = -1 },
		"must be OneWay and Couple alike": func(l *beam.SpaceLayout) {
			l.Supports[0].Group, l.Supports[1].Group = "a", "a"
			l.Supports[1].OneWay = true
		},
		"Section(0.2582": func(l *beam.SpaceLayout) { l.Section = uniformSection(beam.CrossSection{}) },
		"BendingYZ = 9e+11 N·m²: must be smaller": func(l *beam.SpaceLayout) {
			l.Section = uniformSection(beam.CrossSection{BendingY: 9e11, BendingZ: 9e11, BendingYZ: 9e11, Torsional: 1})
		},
		"its share beside Supports[0] at (1, 2, 0) m, Supports[1] at (1, -2, 0) m, Supports[3] at (33, -2, 0) m, and the member": func(l *beam.SpaceLayout) { l.Section = nil },
		"its share beside Supports[0] at (1, 2, 0) m, and these supports": func(l *beam.SpaceLayout) { // two pads at one place
			l.Supports[0].OneWay, l.Supports[1] = true, l.Supports[0]
			l.Supports[1].OneWay = true
		},
		"these supports and the member": func(l *beam.SpaceLayout) { l.Supports[1] = l.Supports[0] },
	} {
		l := good()
		change(&l)
		_, err := beam.NewSpace(l)
		require.ErrorIs(t, err, beam.ErrBeam, says)
		require.ErrorContains(t, err, says)
	}
}

func TestSpaceLoadsThatCannotAct(t *testing.T) {
	l := fourPads(3e8, false)
	l.Supports[0].Kept, l.Supports[0].OneWay = true, true
	l.Supports[1].Stiffness = 0
	space, err := beam.NewSpace(l)
	require.NoError(t, err)
	line := beam.SpaceLine{To: 3, Direction: up, Intensity: []float64{1}}
	for says, c := range map[string]struct {
		load beam.SpaceLoads
		set  beam.Setting
	}{
		"Points[0].X = 35 m":                         {load: beam.SpaceLoads{Points: []beam.SpacePoint{{X: 35}}}},
		"must be finite":                             {load: beam.SpaceLoads{Points: []beam.SpacePoint{{Force: r3.Vec{X: math.NaN()}}}}},
		"Lines[0] from 3 m to 3 m":                   {load: beam.SpaceLoads{Lines: []beam.SpaceLine{{From: 3, To: 3, Direction: up}}}},
		"Lines[1].Direction":                         {load: beam.SpaceLoads{Lines: []beam.SpaceLine{line, {To: 1}}}},
		"term 1 = +Inf":                              {load: beam.SpaceLoads{Lines: []beam.SpaceLine{{To: 1, Direction: up, FirstMomentZ: []float64{0, math.Inf(1)}}}}},
		"Strains[0] from 2 m to 1 m":                 {load: beam.SpaceLoads{Strains: []beam.SpaceStrain{{From: 2, To: 1}}}},
		"Strains[0].At is nil":                       {load: beam.SpaceLoads{Strains: []beam.SpaceStrain{{To: 1}}}},
		"Setting.Level has 1 values":                 {set: beam.Setting{Level: []float64{1}}},
		"Setting.Level[2] = NaN":                     {set: beam.Setting{Level: []float64{0, 0, math.NaN(), 0}}},
		"Setting.Preload[0] = -5 N":                  {set: beam.Setting{Preload: []float64{-5, 0, 0, 0}}},
		"must be 0 on a rigid support":               {set: beam.Setting{Preload: []float64{0, 5, 0, 0}}},
		"internal forces sum up to":                  {load: beam.SpaceLoads{Points: []beam.SpacePoint{{X: 17, Y: -1, Force: r3.Vec{Z: 1e120}}}}},
		"Strains and loads move the member by NaN m": {load: beam.SpaceLoads{Strains: []beam.SpaceStrain{{To: 1, At: func(float64) beam.Strain { return beam.Strain{Twist: math.NaN()} }}}}},
	} {
		_, err := space.Solve(c.load, c.set)
		require.ErrorIs(t, err, beam.ErrBeam, says)
		require.ErrorContains(t, err, says)
	}
	_, err = space.Solve(beam.SpaceLoads{Points: []beam.SpacePoint{{X: -1}}}, beam.Setting{})
	require.ErrorIs(t, err, loads.ErrLoad)
	_, err = (&beam.Space{}).Solve(beam.SpaceLoads{}, beam.Setting{})
	require.ErrorContains(t, err, "not made by NewSpace")
}

// A determinate pad that would have to pull is named with its force.
func TestSpaceDeterminatePadPulls(t *testing.T) {
	l := fourPads(0, true)
	l.Section, l.Supports = nil, l.Supports[:3]
	space, err := beam.NewSpace(l)
	require.NoError(t, err)
	_, err = space.Solve(beam.SpaceLoads{Points: []beam.SpacePoint{{X: 33, Y: -.5, Force: r3.Vec{Z: -1e6}}}}, beam.Setting{})
	require.ErrorContains(t, err, "Supports[0] at (1, 2, 0) m would pull 6.25e+05 N")
}
