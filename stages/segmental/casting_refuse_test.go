package segmental_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/segmental"
)

func TestCastingRefuses(t *testing.T) {
	f := fan{n: 2, depth: level(2), concrete: steady{}}
	d, on, steps := f.deck(t), f.on(), f.steps(10, 3)
	a := analysed(t, d, on, steps...)
	good := segmental.Casting{Rule: segmental.MatchCast}
	_, err := good.Curve(d, a, on, steps...)
	require.NoError(t, err)
	other := f.steps(10, 3)
	other[1].Name = "another"
	late := f.steps(10, 3)
	late[0].Moves = late[0].Moves[:1]
	shift := func(s segmental.PierShift) segmental.Casting {
		return segmental.Casting{Rule: segmental.MatchCast, Shifts: []segmental.PierShift{s}}
	}
	for says, of := range map[string]func() (segmental.CastingCurve, error){
		`field Casting.Rule = "": must be one of ["match-cast" "form reset"]`: func() (segmental.CastingCurve, error) { return segmental.Casting{}.Curve(d, a, on, steps...) },
		`field Casting.Rule = "both"`: func() (segmental.CastingCurve, error) {
			return segmental.Casting{Rule: "both"}.Curve(d, a, on, steps...)
		},
		"the analysis is missing": func() (segmental.CastingCurve, error) { return good.Curve(d, nil, on, steps...) },
		"the analysis is empty":   func() (segmental.CastingCurve, error) { return good.Curve(d, &stages.Analysis{}, on, steps...) },
		"it is built by no step":  func() (segmental.CastingCurve, error) { return good.Curve(d, a, on) },
		"the analysis has more than 1 steps: must be that of the plan of these steps":           func() (segmental.CastingCurve, error) { return good.Curve(d, a, on, steps[:1]...) },
		`another: attach R2, crane: the analysis has "pair 2: attach R2, crane" there: must be`: func() (segmental.CastingCurve, error) { return good.Curve(d, a, on, other...) },
		"its joint R1/R2 does not exist yet":                                                    func() (segmental.CastingCurve, error) { return good.Curve(d, a, on, late...) },
		"Deck.Mark is empty":                                                                    func() (segmental.CastingCurve, error) { return good.Curve(segmental.Deck{}, a, on, steps...) },
		"field Casting.Profile gives NaN m at x = 0.000 m, joint L2, left end: must be within ±10000 m": func() (segmental.CastingCurve, error) {
			return segmental.Casting{Rule: segmental.MatchCast, Profile: func(float64) float64 { return math.NaN() }}.Curve(d, a, on, steps...)
		},
		`Shifts[0].Segment: segment "X" is not in deck`: func() (segmental.CastingCurve, error) {
			return shift(segmental.PierShift{Segment: "X", Step: 1}).Curve(d, a, on, steps...)
		},
		`Shifts[0].Segment: segment R1 is a "": must be one on a pier`: func() (segmental.CastingCurve, error) {
			return shift(segmental.PierShift{Segment: "R1", Step: 1}).Curve(d, a, on, steps...)
		},
		"Shifts[0].Step = 3: must be 1 to 2": func() (segmental.CastingCurve, error) {
			return shift(segmental.PierShift{Segment: "P", Step: 3}).Curve(d, a, on, steps...)
		},
		"Shifts[0].Rotation = 0.1 rad: must be -0.05 to 0.05 rad": func() (segmental.CastingCurve, error) {
			return shift(segmental.PierShift{Segment: "P", Step: 1, Rotation: 0.1}).Curve(d, a, on, steps...)
		},
		"Shifts[0].Settlement = +Inf m": func() (segmental.CastingCurve, error) {
			return shift(segmental.PierShift{Segment: "P", Step: 1, Settlement: math.Inf(1)}).Curve(d, a, on, steps...)
		},
	} {
		curve, err := of()
		require.ErrorIs(t, err, segmental.ErrSegmental, says)
		require.ErrorContains(t, err, says)
		require.Empty(t, curve, "no number beside an error")
	}
}

// After a closure a pier that turns is no rigid movement any more.
func TestShiftAfterAClosureIsRefused(t *testing.T) {
	f := fan{n: 1, piers: 2, depth: level(2), concrete: steady{}, closure: 1}
	d, on := f.deck(t), f.on()
	steps := append(f.steps(10, 3), segmental.Step{Name: "closure", Day: 41, Moves: []segmental.Move{{Do: segmental.Pour, Segments: []string{"C1"}}, {Do: segmental.Close, Segments: []string{"C1"}}}},
		segmental.Step{Name: "after", Day: 50, Moves: []segmental.Move{{Do: segmental.Wait}}})
	a := analysed(t, d, on, steps...)
	for step, refused := range map[int]bool{3: false, 4: true} {
		_, err := segmental.Casting{Rule: segmental.MatchCast, Shifts: []segmental.PierShift{{Segment: "P2", Step: step, Settlement: 0.01}}}.Curve(d, a, on, steps...)
		if !refused {
			require.NoError(t, err)
			continue
		}
		require.ErrorIs(t, err, segmental.ErrSegmental)
		require.ErrorContains(t, err, "after: field Shifts: pier segment P2 turns or settles after its cantilever has been closed")
	}
}

// soft is a concrete without stiffness worth the name.
type soft struct{ steady }

func (s soft) At(age float64) (concrete.State, error) {
	c, err := s.steady.At(age)
	c.Modulus = 1e-303
	return c, err
}

// Deflections beyond the numbers of the machine are refused in words.
func TestCastingOfSoftSegments(t *testing.T) {
	f := fan{n: 2, depth: level(2), concrete: soft{}}
	d, on, steps := f.deck(t), f.on(), f.steps(10, 3)
	curve, err := segmental.Casting{Rule: segmental.MatchCast}.Curve(d, analysed(t, d, on, steps...), on, steps...)
	require.ErrorIs(t, err, segmental.ErrSegmental)
	require.ErrorContains(t, err, "movements are no finite numbers: must be segments of usual stiffness and weight")
	require.Empty(t, curve)
}

// Whatever the input, an error in words or finite numbers.
func FuzzCasting(f *testing.F) {
	f.Add("match-cast", 0.0, 0.001, 0.002, 2, 0.003, 100e3, 0.0)
	f.Add("form reset", 12.0, -0.05, 1.0, 1, -1.0, 50e6, 50.0)
	f.Add("", math.Inf(1), math.NaN(), 1e300, -1, 1e-300, 0.0, -1.0)
	fixture := fan{n: 1, piers: 2, depth: level(2), concrete: steady{}, closure: 1}
	d, on, steps := fixture.deck(f), fixture.on(), fixture.steps(10, 3)
	a := analysed(f, d, on, steps...)
	f.Fuzz(func(t *testing.T, rule string, z, rotation, settlement float64, step int, difference, largest, back float64) {
		curve, err := segmental.Casting{Rule: segmental.CastingRule(rule), Profile: func(x float64) float64 { return z + z*x },
			Shifts: []segmental.PierShift{{Segment: "P1", Step: step, Rotation: rotation, Settlement: settlement}}}.Curve(d, a, on, steps...)
		finite := func(values ...float64) {
			for _, v := range values {
				require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
			}
		}
		for _, j := range curve.Joints {
			finite(j.Deflection, j.Least, j.Most, j.Camber, j.Ordinate, j.Angle, j.Offset, j.Lever, j.Depth)
		}
		for _, s := range curve.Levels {
			for _, j := range s.Joints {
				finite(j.Level, j.Least, j.Most, j.Slope, j.Deflection)
			}
		}
		if err != nil {
			require.ErrorIs(t, err, segmental.ErrSegmental)
			require.Empty(t, curve.Joints)
		}
		b, err := segmental.Ballast{Closure: "C1", After: max(step, 1), Back: [2]float64{back, 0}, Largest: largest, Document: rule}.On(d, difference, on, steps...)
		finite(b.Weight, b.X, b.Slope, b.Stiffness[0], b.Stiffness[1], b.Check.Margin)
		if err != nil {
			require.ErrorIs(t, err, segmental.ErrSegmental)
			require.Zero(t, b.Weight)
		}
		off, err := segmental.TipError(rotation, z)
		finite(off)
		require.True(t, err == nil || off == 0)
		angle, err := segmental.WedgeAngle(settlement, z)
		finite(angle)
		require.True(t, err == nil || angle == 0)
	})
}
