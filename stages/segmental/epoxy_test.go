package segmental_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// block is a segment of 1 × 2 m.
func block(t testing.TB, mark string, length float64) stages.Element {
	shape, err := section.New([]section.Outline{{{Y: -0.5}, {Y: 0.5}, {Y: 0.5, Z: 2}, {Y: -0.5, Z: 2}}}, nil)
	require.NoError(t, err)
	return stages.Element{Mark: mark, Length: length, Section: shape, WeightTolerance: loads.PlusMinus(0.02), Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassN}}
}

// temporary is a straight bar of 12 strands without friction.
func temporary(mark string, to, y, z float64) tendon.Tendon {
	return tendon.Tendon{
		Mark: mark, Strand: tendon.Y1860S7x157, NoFriction: true, Strands: 12, Duct: 0.08, Elevation: tendon.Level(0, to, z), Plan: tendon.Level(0, to, y),
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 25e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}
}

// glued are two blocks of 3 and 5 m on two supports at 0.5 and 7.5 m with a bar at a place
// of the section.
func glued(t testing.TB, y, z float64) (stages.Girder, stages.Effects) {
	g := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Epoxied, block(t, "S1", 3), block(t, "S2", 5)), Tendons: []tendon.Tendon{temporary("bar", 8, y, z)}}
	a, err := stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{{Tendons: []string{"bar"}, Stress: 500e6, Ends: tendon.LeftEnd}}, On: stages.At(0.5, 7.5)}}.Analyse(g, limits.EN1992{})
	require.NoError(t, err)
	e, err := a.Effects(1, 1)
	require.NoError(t, err)
	return g, e
}

// The bar of 900 kN at an eccentricity, less its duct, and the weight of 50 kN/m on 7 m with
// overhangs of 0.5 m: 437.5 kN·m at the joint.
func TestEpoxyPressureByHand(t *testing.T) {
	const force, hole = 500e6 * 12 * 150e-6, math.Pi * 0.08 * 0.08 / 4
	for _, at := range []section.Point{{Z: 1}, {Z: 0.8}, {Y: 0.2, Z: 1.3}} {
		g, e := glued(t, at.Y, at.Z)
		checks, err := segmental.EpoxyAASHTO.Checks(e, g)
		require.NoError(t, err)
		require.Len(t, checks, 2)
		// Section properties without the duct.
		area := 2 - hole
		c := section.Point{Y: -hole * at.Y / area, Z: (2 - hole*at.Z) / area}
		own := math.Pi * math.Pow(0.08, 4) / 64
		iy := 8.0/12 + 2*(1-c.Z)*(1-c.Z) - own - hole*(at.Z-c.Z)*(at.Z-c.Z)
		iz := 2.0/12 + 2*c.Y*c.Y - own - hole*(at.Y-c.Y)*(at.Y-c.Y)
		iyz := 2*c.Y*(c.Z-1) - hole*(at.Y-c.Y)*(at.Z-c.Z)
		weight := 50e3*4*2.5 - 50e3*3*3/2 // sagging at x = 3 m
		my, mz := weight+force*(at.Z-c.Z), force*(at.Y-c.Y)
		det := iy*iz - iyz*iyz
		pressure := func(y, z float64) float64 {
			return force/area + ((my*iz-mz*iyz)*(z-c.Z)+(mz*iy-my*iyz)*(y-c.Y))/det
		}
		least := math.Inf(1)
		for _, corner := range []section.Point{{Y: -0.5}, {Y: 0.5}, {Y: -0.5, Z: 2}, {Y: 0.5, Z: 2}} {
			least = math.Min(least, pressure(corner.Y, corner.Z))
		}
		require.InEpsilon(t, pressure(0, 1), checks[0].Demand.Value, 1e-5)
		require.InDelta(t, least, checks[1].Demand.Value, 20)
		require.Equal(t, 0.28e6, checks[0].Limit.Value)
		require.Equal(t, 0.21e6, checks[1].Limit.Value)
		for _, k := range checks {
			require.Equal(t, limits.AtLeast, k.Sense)
			require.InDelta(t, 3, k.X, 1e-9)
			require.Contains(t, k.Name, "joint S1/S2")
			require.True(t, k.Source.Confirm)
			if k.Demand.Value >= k.Limit.Value {
				require.Equal(t, stages.Pass, k.State)
			} else {
				require.Equal(t, stages.Fail, k.State)
			}
			for _, l := range k.Derivation {
				v, err := l.Recompute()
				require.NoError(t, err)
				require.InDelta(t, l.Result.Value, v, 1e-3)
			}
		}
	}
}

// The worse of both sides counts: the outline of the left one is the larger, and the same
// when the girder is turned round.
func TestEpoxyPressureOnTheWorseSide(t *testing.T) {
	both := func(swap bool, y float64) (mean, least stages.OwnCheck) {
		wide, err := section.New([]section.Outline{{{Y: -0.9}, {Y: 0.9}, {Y: 0.9, Z: 2}, {Y: -0.9, Z: 2}}}, nil)
		require.NoError(t, err)
		a, b := block(t, "A", 4), block(t, "B", 4)
		if a.Section = wide; swap {
			a, b = b, a
		}
		g := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Epoxied, a, b), Tendons: []tendon.Tendon{temporary("bar", 8, y, 1)}}
		plan := stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{{Tendons: []string{"bar"}, Stress: 500e6, Ends: tendon.LeftEnd}}, On: stages.At(0.5, 7.5)}}
		an, err := plan.Analyse(g, limits.EN1992{})
		require.NoError(t, err)
		e, err := an.Effects(1, 1)
		require.NoError(t, err)
		checks, err := segmental.EpoxyFIP.Checks(e, g)
		require.NoError(t, err)
		return checks[0], checks[1]
	}
	mean, least := both(false, 0)
	turned, turnedLeast := both(true, 0)
	require.InEpsilon(t, 900e3/(3.6-math.Pi*0.0016), mean.Demand.Value, 1e-6)
	require.Contains(t, mean.Place, "left side")
	require.Contains(t, least.Place, "right side", "bending is larger on the narrow face")
	require.InEpsilon(t, mean.Demand.Value, turned.Demand.Value, 1e-6)
	require.InEpsilon(t, least.Demand.Value, turnedLeast.Demand.Value, 1e-6)
	require.Contains(t, turned.Place, "right side")
	_, aside := both(false, 0.3)
	require.Contains(t, aside.Place, "right side", "bending across is larger on the narrow face too")
	require.Less(t, aside.Demand.Value, least.Demand.Value)
}

func TestEpoxyRuleRefuses(t *testing.T) {
	g, e := glued(t, 0, 1)
	good := segmental.EpoxyRule{Mean: 0.3e6, Minimum: 0.2e6, Source: formula.Source{Document: "specification"}}
	_, err := good.Checks(e, g, "S1/S2")
	require.NoError(t, err)
	for says, change := range map[string]func(*segmental.EpoxyRule){
		"EpoxyRule.Mean = 0.3 Pa": func(r *segmental.EpoxyRule) { r.Mean = 0.3 },
		"EpoxyRule.Mean = NaN":    func(r *segmental.EpoxyRule) { r.Mean = math.NaN() },
		"EpoxyRule.Minimum":       func(r *segmental.EpoxyRule) { r.Minimum = 0.31e6 },
		"EpoxyRule.Source":        func(r *segmental.EpoxyRule) { r.Source = formula.Source{} },
	} {
		r := good
		change(&r)
		_, err := r.Checks(e, g)
		require.ErrorContains(t, err, says)
		require.ErrorIs(t, err, segmental.ErrSegmental)
	}
	_, err = good.Checks(e, g, "S2/S3")
	require.ErrorContains(t, err, `joint "S2/S3": must be one of S1/S2`)
	g.Pieces[1].Joint = stages.Dry
	_, err = good.Checks(e, g)
	require.ErrorContains(t, err, `girder "G" has no epoxied joint`)
}
