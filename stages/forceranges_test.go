package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// propped is two arms on a fixed support with a load on the right one that may be absent
// and an uplift on the left one.
type propped struct {
	on    float64
	check func(stages.Effects, limits.Standard) ([]stages.OwnCheck, error)
}

func (p propped) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{
		Name: "arms", Day: 30, Standing: true, Phase: limits.Seating, Supports: []stages.Support{{X: p.on, Fixed: true, Role: stages.Pad}}, Check: p.check,
		Actions: []stages.Action{
			{Mark: "tip", Loads: loads.Set{Points: []loads.Point{{At: p.on + 2, Force: 100e3}}}},
			{Mark: "uplift", Kind: limits.Wind, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, p.on, -3e3)}}},
		},
	}}, nil
}

// The ranges of bending moment and shear on both sides of the support are those of the
// weight of each arm with its own tolerance, the load and the uplift, under the factors.
func TestRangesOfForces(t *testing.T) {
	g, _ := balancedCantilever(t, 2, 1, false)
	for i := range g.Pieces {
		g.Pieces[i].Later = false
	}
	g.Tendons = nil
	w := 25e3 * g.Pieces[0].Element.Section.At(0).Properties().Area
	a, err := stages.Plan{propped{on: 6}}.Analyse(g, limits.EN1992{})
	require.NoError(t, err)
	e, err := a.Effects(1, 1)
	require.NoError(t, err)
	factors := limits.Factors{WeightLeast: 0.9, WeightMost: 1.2, VariableMost: 1.5}
	moment := func(f section.Forces) float64 { return f.My }
	left, right, err := e.Ranges(6, factors, moment)
	require.NoError(t, err)
	arm := w * 36 / 2
	require.InEpsilon(t, -1.2*1.02*arm, left.Least, 1e-6)
	require.InEpsilon(t, -0.9*0.98*arm+1.5*3e3*18, left.Most, 1e-6)
	require.InEpsilon(t, -1.2*1.02*arm-1.5*200e3, right.Least, 1e-6)
	require.InEpsilon(t, -0.9*0.98*arm, right.Most, 1e-6)
	// Across the support the difference is that of both arms: no single section has it.
	both := func(f section.Forces) float64 { return f.Vz }
	left, right, err = e.Ranges(6, limits.Factors{}, both)
	require.NoError(t, err)
	require.InDelta(t, 1.02*w*6, max(left.Most, -left.Least), 1)
	require.InDelta(t, 1.02*w*6+100e3, max(right.Most, -right.Least), 1)
	// Between the joints both sides are one.
	left, right, err = e.Ranges(4.5, factors, moment)
	require.NoError(t, err)
	require.InDelta(t, left.Least, right.Least, 1)
	_, _, err = e.Ranges(6, limits.Factors{WeightLeast: 2, WeightMost: 1}, moment)
	require.ErrorIs(t, err, limits.ErrLimits)
}

// A fixed support leaves its question until the operation has a check of overturning there.
func TestFixingIsAnsweredByTheOperation(t *testing.T) {
	g, _ := balancedCantilever(t, 2, 1, false)
	for i := range g.Pieces {
		g.Pieces[i].Later = false
	}
	g.Tendons = nil
	at := 6.0
	check := func(stages.Effects, limits.Standard) ([]stages.OwnCheck, error) {
		limit := limits.Limit{Kind: limits.Overturning, Name: "pier", LimitState: limits.Equilibrium, Sense: limits.AtMost, Source: formula.Mechanics, Line: formula.Given(formula.Q("M_stb", 2, formula.NewtonMetre, "stabilising"), formula.Mechanics)}
		c := stages.NewCheck(limit, formula.Q("M_dst", 1, formula.NewtonMetre, "destabilising"))
		c.X = at
		return []stages.OwnCheck{c.Derived(limit.Line)}, nil
	}
	for _, of := range []struct {
		check      func(stages.Effects, limits.Standard) ([]stages.OwnCheck, error)
		at         float64
		unanswered int
	}{{nil, 6, 1}, {check, 6, 0}, {check, 5, 1}} {
		at = of.at
		record, err := stages.Plan{propped{on: 6, check: of.check}}.Run(g, limits.EN1992{})
		require.NoError(t, err)
		require.Len(t, record.Stages[0].Situations[0].Unanswered, of.unanswered)
	}
}
