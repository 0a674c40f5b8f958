package segmental_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/segmental"
)

// curveOf is the casting curve of a deck.
func curveOf(t testing.TB, c segmental.Casting, d segmental.Deck, on []stages.Support, steps ...segmental.Step) segmental.CastingCurve {
	t.Helper()
	curve, err := c.Curve(d, analysed(t, d, on, steps...), on, steps...)
	require.NoError(t, err)
	return curve
}

// jointOf is a joint of a curve by its name.
func jointOf(t testing.TB, c segmental.CastingCurve, name string) segmental.CastingJoint {
	t.Helper()
	for _, j := range c.Joints {
		if j.Name == name {
			return j
		}
	}
	t.Fatalf("no joint %s", name)
	return segmental.CastingJoint{}
}

// Camber of match-cast segments of constant depth: with one modulus the deflection is that
// of the whole cantilever at once, v(x) = −w·x²(6L² − 4Lx + x²)/24EI.
func TestCamberOfMatchCastSegments(t *testing.T) {
	f := fan{n: 4, depth: level(2), concrete: steady{}}
	curve := curveOf(t, segmental.Casting{Rule: segmental.MatchCast}, f.deck(t), f.on(), f.steps(10, 3)...)
	const l, w, ei = castHalf + 4*castLength, castWidth * 2 * castUnit, steadyModulus * castWidth * 8 / 12
	v := func(x float64) float64 { x = math.Abs(x); return -w * x * x * (6*l*l - 4*l*x + x*x) / 24 / ei }
	require.Len(t, curve.Joints, 10)
	for i, j := range curve.Joints {
		x := j.X - l
		require.InEpsilon(t, -v(x), j.Camber, castInward)
		require.InEpsilon(t, v(x), j.Deflection, castInward)
		require.InDelta(t, v(castHalf)-v(x), j.Ordinate, 1e-9, "above the line through the joints of the pier segment")
		require.Equal(t, j.Deflection, j.Least, "no creep")
		require.InDelta(t, l-math.Abs(x), j.Lever, 1e-12)
		if i == 0 || i == 9 {
			require.Empty(t, j.Cast)
			require.Zero(t, j.Angle)
			continue
		}
		// the new segment outside, the old one inside
		out, in := math.Abs(x)+castLength, math.Abs(x)-castLength
		old := castLength
		if in < 0 {
			in, old = castHalf, 2*castHalf // both joints of the segment on the pier are level
		}
		angle := (v(x)-v(out))/castLength - (v(in)-v(x))/old
		require.InDelta(t, angle, j.Angle, 1e-9)
		require.Positive(t, j.Angle, "the new segment turns up")
		require.InDelta(t, angle*old, j.Offset, 3e-9)
	}
	require.Equal(t, "R1", jointOf(t, curve, "P/R1").Cast)
	require.Equal(t, "L1", jointOf(t, curve, "L1/P").Cast)
	require.Equal(t, "right arm of P", jointOf(t, curve, "P/R1").Arm)
	require.Equal(t, "left arm of P", jointOf(t, curve, "L1/P").Arm)
	require.Equal(t, "left arm of P", jointOf(t, curve, "L4, left end").Arm)
}

// What the casting cell makes, put together with its angles, is the casting curve, and
// bends into the design profile.
func TestAnglesMakeTheCastingCurve(t *testing.T) {
	profile := func(x float64) float64 { return 100 + 0.03*x - x*x/4000 }
	f := fan{n: 4, depth: level(2), concrete: steady{}, tendons: true, inTendon: 12}
	curve := curveOf(t, segmental.Casting{Rule: segmental.MatchCast, Profile: profile}, f.deck(t), f.on(), f.steps(10, 3)...)
	z, slope, x := 0.0, 0.0, curve.Joints[5].X // right arm, from the pier segment outwards
	for _, j := range curve.Joints[5:] {
		z += slope * (j.X - x)
		require.InDelta(t, z, j.Ordinate, 1e-12)
		slope, x = slope+j.Angle, j.X
	}
	last := curve.Levels[len(curve.Levels)-1]
	require.Len(t, last.Joints, 10)
	for _, j := range last.Joints {
		require.InDelta(t, profile(j.X), j.Level, 1e-12)
	}
	require.InDelta(t, (profile(16)-profile(12))/4, last.Joints[5].Slope, 1e-12, "of the segment on the pier")
	tip := last.Joints[9]
	require.InDelta(t, (profile(tip.X)-profile(tip.X-3))/3, tip.Slope, 1e-12)
	first := last.Joints[0]
	require.InDelta(t, (profile(3)-profile(0))/3, first.Slope, 1e-12)
}

// Each target is casting curve and movement of the engine up to then.
func TestTargetLevelsOfEveryStep(t *testing.T) {
	f := fan{n: 3, depth: level(2), concrete: steady{}, tendons: true, inTendon: 12}
	d, steps := f.deck(t), f.steps(10, 3)
	d.Frames = []segmental.Frame{{Mark: "F2", Weight: 300e3, CoG: 1, Front: 0.5, Rear: 4}, {Mark: "F1", Weight: 300e3, CoG: 1, Front: 0.5, Rear: 4}}
	steps[0].Moves = append(steps[0].Moves, segmental.Move{Do: segmental.Set, Frame: "F1", To: "L1"}, segmental.Move{Do: segmental.Set, Frame: "F2", To: "R1"})
	steps[2].Moves = append(steps[2].Moves, segmental.Move{Do: segmental.Clear, Frame: "F1"}, segmental.Move{Do: segmental.Clear, Frame: "F2"})
	steps[1].Moves = append(steps[1].Moves, segmental.Move{Do: segmental.Advance, Frame: "F1", To: "L2"}, segmental.Move{Do: segmental.Advance, Frame: "F2", To: "R2"})
	a := analysed(t, d, f.on(), steps...)
	curve, err := segmental.Casting{Rule: segmental.MatchCast, EveryMove: true}.Curve(d, a, f.on(), steps...)
	require.NoError(t, err)
	require.Len(t, curve.Levels, 15)
	for _, s := range curve.Levels {
		m := movedBy(t, a, s.Step, s.Move)[0]
		for _, j := range s.Joints {
			if j.X >= m.From-1e-9 && j.X <= m.To+1e-9 {
				require.InDelta(t, jointOf(t, curve, j.Name).Camber+m.At(j.X).Deflection, j.Level, 1e-15, s.Name)
			}
		}
	}
	require.Len(t, curve.Levels[0].Joints, 3)
	require.Len(t, curve.Levels[1].Joints, 4)
	require.Equal(t, "no frame on the deck", curve.Levels[0].Equipment)
	require.Equal(t, "frame F1 on L1, frame F2 on R1", curve.Levels[4].Equipment)
	require.Equal(t, "pair 2: advance frame F2 to R2", curve.Levels[9].Name)
	require.InDelta(t, 13, curve.Levels[9].Day, 0)

	few, err := segmental.Casting{Rule: segmental.MatchCast}.Curve(d, a, f.on(), steps...)
	require.NoError(t, err)
	require.Equal(t, []segmental.StepLevels{curve.Levels[4], curve.Levels[9], curve.Levels[14]}, few.Levels)
}

// mixOf is a concrete with creep.
func mixOf() concrete.EN1992 {
	return concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.6, DryingFrom: 3}}
}

// The band is creep 30 % less and more, as the engine has it.
func TestBandOfTheCastingCurve(t *testing.T) {
	f := fan{n: 3, depth: level(2), concrete: mixOf(), slow: mixOf(), tendons: true, inTendon: 12}
	steps := append(f.steps(10, 5), segmental.Step{Name: "to the end", Day: 25, Moves: []segmental.Move{{Do: segmental.Wait, Until: 2000}}})
	a := analysed(t, f.deck(t), f.on(), steps...)
	curve, err := segmental.Casting{Rule: segmental.MatchCast}.Curve(f.deck(t), a, f.on(), steps...)
	require.NoError(t, err)
	m := movedBy(t, a, 4, 2)[0]
	for _, j := range curve.Joints {
		v := m.At(j.X)
		require.InDelta(t, v.Deflection, j.Deflection, 1e-15)
		require.InDelta(t, v.Least, j.Least, 1e-15)
		require.InDelta(t, v.Most, j.Most, 1e-15)
	}
	tip := curve.Joints[0]
	require.Greater(t, tip.Most-tip.Least, 0.1*math.Abs(tip.Deflection))
	require.InDelta(t, 2000, curve.Levels[3].Day, 0)
}

// Cast in place only what comes after the form is set counts: the part of each stage in
// closed form from the stage that places the segment, the form set on the tangent of the tip.
func TestCamberOfSegmentsInAForm(t *testing.T) {
	f := fan{n: 4, depth: level(2), concrete: steady{}}
	d, on, steps := f.deck(t), f.on(), f.steps(10, 3)
	steps = append([]segmental.Step{{Name: "start", Day: 9, Moves: []segmental.Move{{Do: segmental.Wait}}}}, steps...)
	curve := curveOf(t, segmental.Casting{Rule: segmental.FormReset}, d, on, steps...)
	w, ei := castWidth*2*castUnit, steadyModulus*castWidth*8/12
	const middle = castHalf + 4*castLength
	for k := 1; k <= 4; k++ {
		x := castHalf + castLength*float64(k)
		before := byWeight(k-1, x, w, ei) // on the tangent of the tip when the form was set
		want := byWeight(4, x, w, ei) - before
		for _, j := range []segmental.CastingJoint{curve.Joints[4+1+k], curve.Joints[4-k]} {
			require.InDelta(t, middle, math.Abs(j.X-middle)-x+middle, 1e-9)
			require.InEpsilon(t, -want, j.Camber, 1e-6, "joint %d", k)
		}
	}
	whole := curveOf(t, segmental.Casting{Rule: segmental.MatchCast}, d, on, steps...)
	require.Greater(t, whole.Joints[0].Camber, 1.5*curve.Joints[0].Camber, "the rules differ by what came before the form")

	// When the last form is set its joint is at its level and the angle is that of the chords.
	z := map[string]segmental.JointLevel{}
	for _, j := range curve.Levels[3].Joints { // after pair 3
		z[j.Name] = j
	}
	want := (curve.Joints[9].Camber-z["R3/R4"].Level)/castLength - (z["R3/R4"].Level-z["R2/R3"].Level)/castLength
	require.InDelta(t, want, jointOf(t, curve, "R3/R4").Angle, 1e-9)
	require.InDelta(t, jointOf(t, curve, "L4/L3").Angle, jointOf(t, curve, "R3/R4").Angle, 1e-9)
	require.Zero(t, jointOf(t, curve, "R3/R4").Offset)
	for _, j := range curve.Levels[4].Joints {
		require.InDelta(t, 0, j.Level, 1e-15, "the last step is on profile")
	}
}
