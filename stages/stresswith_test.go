package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"

	"github.com/tempstage/tempstage/stages"
)

// The stress with an action that may be absent is the nominal one and that of its moment.
func TestStressWithAnAction(t *testing.T) {
	g, _ := balancedCantilever(t, 2, 1, false)
	for i := range g.Pieces {
		g.Pieces[i].Later = false
	}
	g.Tendons = nil
	a, err := stages.Plan{propped{on: 6}}.Analyse(g, limits.EN1992{})
	require.NoError(t, err)
	e, err := a.Effects(1, 1)
	require.NoError(t, err)
	of := g.Pieces[0].Element.Section.At(0).Properties()
	const x = 6.5 // 1.5 m before the load of 100 kN
	bending := 150e3 / of.SecondMomentY
	nominal, with := e.Stress(x), e.StressWith(x, "tip")
	require.InEpsilon(t, bending, with.SlopeZ-nominal.SlopeZ, 1e-6, "the top gets tension")
	require.Equal(t, nominal, e.StressWith(x))
	require.Equal(t, nominal, e.StressWith(x, "unknown"))
	require.Less(t, e.StressWith(3, "uplift").SlopeZ, e.Stress(3).SlopeZ)
}
