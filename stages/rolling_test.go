package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam/roll"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// slenderBeam is an I-beam of 36 m with strong bars top and bottom, so that only its roll
// decides.
func slenderBeam(t testing.TB) stages.Element {
	t.Helper()
	half := section.Outline{{Y: 0.35, Z: 0}, {Y: 0.35, Z: 0.25}, {Y: 0.12, Z: 0.4}, {Y: 0.12, Z: 1.6}, {Y: 0.5, Z: 1.75}, {Y: 0.5, Z: 1.9}}
	outline := append(section.Outline{}, half...)
	for i := len(half) - 1; i >= 0; i-- {
		outline = append(outline, section.Point{Y: -half[i].Y, Z: half[i].Z})
	}
	shape, err := section.New([]section.Outline{outline}, nil)
	require.NoError(t, err)
	bars := func(z, area float64) stages.BondedBars {
		return stages.BondedBars{From: 0, To: 36, At: section.Point{Z: z}, Area: area}
	}
	return stages.Element{
		Mark: "I-1", Length: 36, Section: shape, WeightTolerance: loads.PlusMinus(0.02), Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR},
		Bars: []stages.BondedBars{bars(0.12, 20000e-6), bars(1.8, 20000e-6)},
	}
}

// onBearings are both ends on a bearing that gives way when the beam rolls: two springs
// side by side with its roll stiffness (N·m/rad).
func onBearings(stiffness float64) []stages.Support {
	const apart = 0.17
	return stages.Elastic(stiffness/(2*apart*apart), stages.Pads(apart, 0.5, 35.5)...)
}

func rollOf(t testing.TB, s stages.SituationRecord, kind limits.Kind) *stages.Check {
	t.Helper()
	for i, c := range s.Checks {
		if c.Kind == kind {
			return &s.Checks[i]
		}
	}
	return nil
}

// nearMiss is a bowed beam that hangs from its loops, then stands on its bearings with the
// slings released and no brace.
func nearMiss(sweep, stiffness float64) stages.Plan {
	return stages.Plan{
		stages.Store{Age: 20, On: append(stages.Pads(0.3, 0.5), stages.Equalised("b", stages.Pads(0.3, 35.5)...)...)},
		stages.Lift{Age: 28, On: []stages.Support{{X: 2.5, Z: 2.3}, {X: 33.5, Z: 2.3}}, Dynamic: loads.AtRest(), Slender: &stages.Slender{Sweep: sweep, Offset: 0.01}},
		stages.Seat{Name: "on bearings, slings released", Age: 28, On: onBearings(stiffness), OutOfLevel: 1e-3, Slender: &stages.Slender{Sweep: sweep, Offset: 0.01}},
	}
}

// A beam with a bow of 60 mm hangs stable in its slings and rolls off soft bearings when
// they are released unbraced; the roll stiffness that would save it is stated, and is
// right.
func TestNearMissOfABowedBeam(t *testing.T) {
	beam := slenderBeam(t)
	standard := limits.All(limits.EN1992{}, limits.Handling{})
	run := func(stiffness float64) (hung, seated stages.SituationRecord) {
		record, err := nearMiss(0.060, stiffness).Run(beam, standard)
		require.NoError(t, err)
		require.NoError(t, record.Check())
		return record.Stages[1].Situations[0], record.Stages[2].Situations[0]
	}
	hung, seated := run(0.4e6)
	require.Equal(t, stages.Pass, rollOf(t, hung, limits.RollOverturning).State, "in the slings")
	require.Equal(t, stages.Fail, rollOf(t, seated, limits.Roll).State, "released")
	over := rollOf(t, seated, limits.RollOverturning)
	require.Equal(t, stages.Fail, over.State)
	require.Contains(t, over.Note, "a roll stiffness of at least")

	// By package roll with the numbers of the beam, written out again.
	mass, err := beam.CentreOfGravity()
	require.NoError(t, err)
	p := beam.Section.At(18).Properties()
	state, err := beam.Concrete.At(28)
	require.NoError(t, err)
	seat := roll.Seated{
		Girder: roll.Girder{Length: 36, Weight: 1.02 * mass.Weight, Modulus: state.Modulus, Iy: p.SecondMomentY, Iz: p.SecondMomentZ, Sweep: 0.060, Cracks: 1e6},
		Left:   0.5, Right: 0.5, Stiffness: 0.8e6, Height: mass.Z, HalfBase: 0.17, Kern: 0.17, Offset: 0.01,
	}
	needed, err := seat.StiffnessFor(1.5)
	require.NoError(t, err)
	_, seated = run(needed * 1.0001 / 2)
	require.Equal(t, stages.Pass, rollOf(t, seated, limits.RollOverturning).State, "with the stiffness that saves it")
	require.InDelta(t, 1.5, rollOf(t, seated, limits.RollOverturning).Demand.Value, 1e-3)
	_, seated = run(needed * 0.9999 / 2)
	require.Equal(t, stages.Fail, rollOf(t, seated, limits.RollOverturning).State, "with a hair less")
}

// The tilt at which a beam cracks is that of its own stresses: a rectangle without
// prestress, upright σ = M/W_y, to the side M·θ/W_z.
func TestRollCracksAtTheTiltOfItsStresses(t *testing.T) {
	e := block()
	slender := stages.Slender{Sweep: 0.02, Offset: 0.01}
	plan := stages.Plan{
		stages.Store{Age: 20, On: dunnage(2.4, 9.6)},
		stages.Lift{Age: 28, On: loops(2.4, 9.6), Dynamic: loads.AtRest(), Slender: &slender},
		stages.Store{Age: 28, On: dunnage(2.4, 9.6)},
	}
	record, err := plan.Run(e, limits.All(limits.EN1992{}, limits.Handling{}))
	require.NoError(t, err)
	got := rollOf(t, record.Stages[1].Situations[0], limits.RollCracking)

	const w = 0.4 * 25e3
	state, err := e.Concrete.At(28)
	require.NoError(t, err)
	moment := math.Max(w*2.4*2.4/2, math.Abs(w*12/2*(6-2.4)-w*6*6/2)) // at the loops, at mid-length
	upright := moment / (0.5 * 0.64 / 6)
	tilt := (state.TensileMean - upright) / (moment / (0.8 * 0.25 / 6))
	h := roll.Hung{
		Girder: roll.Girder{Length: 12, Weight: w * 12, Modulus: state.Modulus, Iy: 0.5 * math.Pow(0.8, 3) / 12, Iz: 0.8 * math.Pow(0.5, 3) / 12, Sweep: 0.02, Cracks: tilt * moment},
		Left:   2.4, Right: 2.4, Axis: 0.5, Offset: 0.01,
	}
	want, err := h.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, want.Cracking, got.Demand.Value, 1e-6)
}

// An element that hangs free to turn and whose bow is not stated does not pass.
func TestRollMustBeStated(t *testing.T) {
	plan := nearMiss(0.06, 5e6)
	lift := plan[1].(stages.Lift)
	lift.Slender = nil
	plan[1] = lift
	record, err := plan.Run(slenderBeam(t), limits.All(limits.EN1992{}, limits.Handling{}))
	require.NoError(t, err)
	c := rollOf(t, record.Stages[1].Situations[0], limits.RollOverturning)
	require.Equal(t, stages.NotEvaluated, c.State)
	require.Contains(t, c.Note, "Slender")

	record, err = nearMiss(0.06, 5e6).Run(slenderBeam(t), limits.EN1992{})
	require.NoError(t, err)
	require.Contains(t, record.Stages[1].Situations[0].Unanswered, "roll: factor against overturning: the standard gives no limit")
}

// A rigid element on elastic supports is checked for K ≥ W·h though no bow is stated.
func TestRigidRollOnElasticSupports(t *testing.T) {
	beam := slenderBeam(t)
	mass, err := beam.CentreOfGravity()
	require.NoError(t, err)
	least := 1.02 * mass.Weight * mass.Z / 2 // of each bearing
	for factor, want := range map[float64]stages.State{0.999: stages.Fail, 1.001: stages.Pass} {
		plan := stages.Plan{stages.Seat{Age: 28, On: onBearings(least * factor), OutOfLevel: 1e-3}}
		record, err := plan.Run(beam, limits.EN1992{})
		require.NoError(t, err)
		require.Equal(t, want, rollOf(t, record.Stages[0].Situations[0], limits.Roll).State)
	}
}

// What is stated of a slender element must be possible.
func TestSlenderMustBe(t *testing.T) {
	for words, s := range map[string]stages.Slender{
		"Slender.Sweep = 60": {Sweep: 60}, "Slender.Offset = -0.1": {Offset: -0.1}, "Slender.Camber": {Camber: math.NaN()},
		"Slender.Seat.Stiffness": {Seat: &stages.RollingSeat{Stiffness: 5, HalfBase: 0.3}}, "Slender.Seat.HalfBase": {Seat: &stages.RollingSeat{Stiffness: 5e6}},
		"Slender.Seat.Kern": {Seat: &stages.RollingSeat{Stiffness: 5e6, HalfBase: 1, Kern: 6}}, "Slender.Seat.Below": {Seat: &stages.RollingSeat{Stiffness: 5e6, HalfBase: 1, Below: math.Inf(1)}},
	} {
		plan := nearMiss(0.06, 5e6)
		seat := plan[2].(stages.Seat)
		seat.Slender = &s
		plan[2] = seat
		_, err := plan.Run(slenderBeam(t), limits.EN1992{})
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must be")
	}
}

// Braces fixed before the slings are released save the bowed beam on soft bearings: each
// takes its part of the roll, by hand, and their number is a hold point.
func TestBracesHoldABowedBeam(t *testing.T) {
	beam := slenderBeam(t)
	braces := stages.Braces{Number: 4, Height: 1.6, Stiffness: 4e6, Limit: 60e3, Document: "invented drawing EL-T-44"}
	plan := func(b stages.Braces) stages.Plan {
		plan := nearMiss(0.060, 0.4e6)
		seat := plan[2].(stages.Seat)
		seat.Slender = &stages.Slender{Sweep: 0.060, Offset: 0.01, Braces: &b}
		plan[2] = seat
		return plan
	}
	standard := limits.All(limits.EN1992{}, limits.Handling{})
	record, err := plan(braces).Run(beam, standard)
	require.NoError(t, err)
	require.NoError(t, record.Check())
	s := record.Stages[2].Situations[0]
	require.Equal(t, stages.Pass, rollOf(t, s, limits.RollOverturning).State)

	mass, err := beam.CentreOfGravity()
	require.NoError(t, err)
	p := beam.Section.At(18).Properties()
	state, err := beam.Concrete.At(28)
	require.NoError(t, err)
	w := 1.02 * mass.Weight
	rows := roll.Girder{Length: 36, Weight: w, Modulus: state.Modulus, Iy: p.SecondMomentY, Iz: p.SecondMomentZ, Sweep: 0.060, Cracks: 1e6}
	bare, err := roll.Seated{Girder: rows, Left: 0.5, Right: 0.5, Stiffness: 1e9, Height: mass.Z, HalfBase: 1, Offset: 0.01}.Solve()
	require.NoError(t, err)
	stiffness := 0.8e6 + 4*4e6*1.6*1.6
	tilt := w * bare.Offset / (stiffness - w*(mass.Z+bare.Bow))
	force := rollOf(t, s, limits.BraceForce)
	require.InEpsilon(t, 4e6*1.6*tilt, force.Demand.Value, 1e-6)
	require.Equal(t, 60e3, force.Limit.Value)
	found := false
	for _, h := range s.HoldPoints {
		if h.Kind == "braces fixed" {
			found = true
			require.Equal(t, 4.0, h.Required.Value)
		}
	}
	require.True(t, found, "the number of braces is a hold point")

	weak := braces
	weak.Limit = 4e6 * 1.6 * tilt * 0.99
	record, err = plan(weak).Run(beam, standard)
	require.NoError(t, err)
	require.Equal(t, stages.Fail, rollOf(t, record.Stages[2].Situations[0], limits.BraceForce).State)

	for words, change := range map[string]func(*stages.Braces){
		"Braces.Number = 0": func(b *stages.Braces) { b.Number = 0 }, "Braces.Height": func(b *stages.Braces) { b.Height = 30 },
		"Braces.Stiffness": func(b *stages.Braces) { b.Stiffness = math.NaN() }, "Braces.Limit": func(b *stages.Braces) { b.Limit = 0 }, "Braces.Document": func(b *stages.Braces) { b.Document = "" },
	} {
		bad := braces
		change(&bad)
		_, err := plan(bad).Run(beam, standard)
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must")
	}
}

// Where the pair at one end is linked, only the other pair resists a roll, with its part of
// the weight: the resultant of all may lie off by that part of its distance only.
func TestLinkedPairDoesNotHoldARoll(t *testing.T) {
	beam := slenderBeam(t)
	plan := func(linked bool) stages.Plan {
		on := onBearings(8e6)
		on[2].X, on[3].X = 30.5, 30.5 // the centre of gravity at 18 m: 12.5/30 of the weight on the left pair
		if linked {
			on = append(on[:2:2], stages.Equalised("right pair", on[2:]...)...)
		}
		return stages.Plan{stages.Seat{Age: 28, On: on, OutOfLevel: 1e-3, Slender: &stages.Slender{Sweep: 0.01, Offset: 0.002}}}
	}
	kern := func(linked bool) stages.Check {
		record, err := plan(linked).Run(beam, handling)
		require.NoError(t, err)
		c := rollOf(t, record.Stages[0].Situations[0], limits.RollKern)
		require.NotNil(t, c)
		return *c
	}
	require.InEpsilon(t, 0.17, kern(false).Limit.Value, 1e-9)
	require.InEpsilon(t, 0.17*12.5/30, kern(true).Limit.Value, 1e-9)
}

// Braces do not make the bearings wider: beyond the tilt at which the resultant of a bearing
// reaches its edge its stiffness is gone.
func TestBracesDoNotOutliveTheBearings(t *testing.T) {
	strong := stages.Braces{Number: 4, Height: 1.6, Stiffness: 1e6, Limit: 5e6, Document: "invented drawing EL-T-44"}
	plan := nearMiss(0.02, 20e6)
	seat := plan[2].(stages.Seat)
	seat.Slender = &stages.Slender{Sweep: 0.02, Offset: 0.005, Braces: &strong}
	plan[2] = seat
	beam := slenderBeam(t)
	record, err := plan.Run(beam, handling)
	require.NoError(t, err)
	got := rollOf(t, record.Stages[2].Situations[0], limits.RollOverturning).Demand.Value

	mass, err := beam.CentreOfGravity()
	require.NoError(t, err)
	p := beam.Section.At(18).Properties()
	state, err := beam.Concrete.At(28)
	require.NoError(t, err)
	w := 1.02 * mass.Weight
	r, err := roll.Seated{Girder: roll.Girder{Length: 36, Weight: w, Modulus: state.Modulus, Iy: p.SecondMomentY, Iz: p.SecondMomentZ, Sweep: 0.02, Cracks: 1e6}, Left: 0.5, Right: 0.5, Stiffness: 1e9, Height: mass.Z, HalfBase: 1, Offset: 0.005}.Solve()
	require.NoError(t, err)
	stiffness := 40e6 + 4*1e6*1.6*1.6
	tilt := 0.17 * w / 40e6 // the resultant of the bearings at their edge
	want := stiffness / w * tilt / (r.Bow*(1+2.5*tilt)*tilt + r.Offset + mass.Z*tilt)
	require.InEpsilon(t, want, got, 1e-6)
}

// An element hauled on a trailer whose roll centre is below its bunks, off the middle of
// them, in wind: by package roll from numbers written out again. Its section has unlike
// edges, so that the tilt at cracking is that of the edge in tension.
func TestRollOnATrailerByHand(t *testing.T) {
	half := section.Outline{{Y: 0.20, Z: 0}, {Y: 0.20, Z: 1.2}, {Y: 0.7, Z: 1.2}, {Y: 0.7, Z: 1.4}}
	outline := append(section.Outline{}, half...)
	for i := len(half) - 1; i >= 0; i-- {
		outline = append(outline, section.Point{Y: -half[i].Y, Z: half[i].Z})
	}
	const aside = 0.3 // of its axis of symmetry
	for i := range outline {
		outline[i].Y += aside
	}
	e := slenderBeam(t)
	e.Section, e.Bars = mustShape(t, outline), nil
	e.Length = 14
	e.WeightTolerance = loads.PlusMinus(0.03)
	wind := stages.Action{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 1.0, Least: -1, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 14, 0.5e3)}}}
	on := []stages.Support{{X: 2, Y: aside - 0.08}, {X: 2, Y: aside + 0.12}, {X: 12, Y: aside - 0.08, Group: "b"}, {X: 12, Y: aside + 0.12, Group: "b"}}
	trailer := stages.RollingSeat{Stiffness: 4e6, Below: 0.7, RollCentre: 0.5, HalfBase: 0.9}
	plan := stages.Plan{
		stages.Store{Age: 20, On: on},
		stages.Haul{Age: 28, On: on, Dynamic: loads.AtRest(), Roll: 0.02, Actions: []stages.Action{wind}, Slender: &stages.Slender{Sweep: 0.02, Offset: 0.01, Seat: &trailer}},
		stages.Store{Age: 28, On: on},
	}
	record, err := plan.Run(e, handling)
	require.NoError(t, err)
	s := record.Stages[1].Situations[0]

	const area, z = 0.40*1.2 + 1.4*0.2, (0.40*1.2*0.6 + 1.4*0.2*1.3) / (0.40*1.2 + 1.4*0.2)
	iy := 0.40*math.Pow(1.2, 3)/12 + 0.40*1.2*(z-0.6)*(z-0.6) + 1.4*math.Pow(0.2, 3)/12 + 1.4*0.2*(1.3-z)*(1.3-z)
	iz := 1.2*math.Pow(0.40, 3)/12 + 0.2*math.Pow(1.4, 3)/12
	state, err := e.Concrete.At(28)
	require.NoError(t, err)
	w := area * 25e3
	over, mid := -w*2*2/2, w*14/2*5-w*7*7/2 // at a bunk, at mid-length
	tilt := math.Inf(1)
	for _, m := range []float64{over, mid} {
		for _, c := range []section.Point{{Y: 0.20}, {Y: 0.7, Z: 1.2}, {Y: 0.7, Z: 1.4}, {Y: 0.20, Z: 1.2}} {
			upright := -m * (c.Z - z) / iy
			tilt = math.Min(tilt, (state.TensileMean-upright)/(1.03*math.Abs(m)*c.Y/iz))
		}
	}
	moment := 1.03 * math.Max(math.Abs(over), mid)
	want, err := roll.Seated{
		Girder: roll.Girder{Length: 14, Weight: 1.03 * w * 14, Modulus: state.Modulus, Iy: iy, Iz: iz, Sweep: 0.02, Cracks: tilt * moment},
		Left:   2, Right: 2, Stiffness: 4e6, CrossFall: 0.02, Height: z + 0.7, RollCentre: 0.5, HalfBase: 0.9, Offset: 0.01 + 0.02,
		Wind: roll.Wind{Force: 0.5e3 * 14, Height: 1.0 + 0.7},
	}.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, want.Cracking, rollOf(t, s, limits.RollCracking).Demand.Value, 1e-6)
	require.InEpsilon(t, want.Overturning, rollOf(t, s, limits.RollOverturning).Demand.Value, 1e-6)
	require.InEpsilon(t, want.Needed, rollOf(t, s, limits.Roll).Limit.Value, 1e-6)
}
