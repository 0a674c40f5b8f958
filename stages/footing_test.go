package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// winged is a box with wide cantilevers, its soffit ±1.9 m, the wings to ±6 m.
func winged(t testing.TB) stages.Element {
	e := bare()
	var err error
	e.Section, err = section.Box{
		Depth: 2.5, TopWidth: 12, RootWidth: 4.6, BottomWidth: 3.8, TopSlab: 0.25, BottomSlab: 0.22, WebThickness: 0.35, CantileverRoot: 0.45, CantileverTip: 0.2,
	}.Shape()
	require.NoError(t, err)
	return e
}

// A support bears on the concrete: under a wing, in the air, above the soffit or at a
// steep face it is refused with the faces that are there.
func TestSupportsBearOnTheConcrete(t *testing.T) {
	store := func(on []stages.Support) error {
		_, err := stages.Plan{stages.Store{Age: 28, On: on}}.Analyse(winged(t), limits.EN1992{})
		return err
	}
	at := func(y, z float64) []stages.Support {
		on := paired(stages.Pads(1.5, 1, 11))
		on[1].Y, on[1].Z = y, z
		return on
	}
	require.NoError(t, store(at(1.5, 0)))
	require.NoError(t, store(at(1.9, 0)), "at the edge of the soffit")
	require.NoError(t, store(at(1.5, -0.3)), "on packs")
	require.NoError(t, store(at(4, 2.15)), "under the wing on purpose")
	for want, on := range map[string][]stages.Support{
		"field Y = 190 m": at(190, 0),
		"field Y = 19 m: the concrete is at y = -6 to 6 m: must be on the concrete":                         at(19, 0),
		"the soffit at z = 0.000 m: must be on the soffit, or Z must be stated where another face is meant": at(4, 0),
		"(too steep)": at(2.1, 0),
		"field Z = 1.2 m of a pad at y = 1.5 m: the faces that look down are at z = 0.000 m, z = 2.250 m: must be at one of them": at(1.5, 1.2),
		"field Z = -0.7 m of a pad": at(1.5, -0.7),
	} {
		err := store(on)
		require.ErrorIs(t, err, stages.ErrStage, want)
		require.ErrorContains(t, err, "support 2 at x = 1 m: ", want)
		require.ErrorContains(t, err, want)
	}
	on := at(4, 0)
	on[1].Bracket = true
	require.NoError(t, store(on), "on a bracket")
	s := run(t, winged(t), stages.Plan{stages.Store{Age: 28, On: on}}).Stages[0].Situations[0]
	require.Contains(t, s.NotChecked, "brackets and frames between supports and concrete, and their fixing")
}

// The level of the soffit is that of the support where none is stated.
func TestSupportsStandAtTheLevelOfTheSoffit(t *testing.T) {
	e := bare()
	low := section.Outline{{Y: -0.25, Z: -0.9}, {Y: 0.25, Z: -0.87}, {Y: 0.25, Z: 0}, {Y: -0.25, Z: 0}} // with a fall of 6 %
	shape, err := section.New([]section.Outline{low}, nil)
	require.NoError(t, err)
	e.Section = shape
	a, err := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1, 11))}}.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	s, err := a.Effects(1, 1)
	require.NoError(t, err)
	require.InDelta(t, -0.9+0.06*0.05, s.Situation.Supports[0].Z, 1e-12)
	require.InDelta(t, -0.9+0.06*0.45, s.Situation.Supports[1].Z, 1e-12)
}

// Lift points and ties are on the concrete, with a pin above it or a sling below.
func TestLiftPointsAreOnTheConcrete(t *testing.T) {
	lift := func(y, z float64) error {
		stand := paired(stages.Pads(1.5, 1, 11))
		on := paired(hooks(1.5, 2, 10))
		on[0].Y, on[0].Z = y, z
		_, err := stages.Plan{stages.Store{Age: 28, On: stand}, stages.Lift{Age: 29, On: on, Dynamic: loads.AtRest()}, stages.Store{Age: 29, On: stand}}.Analyse(winged(t), limits.EN1992{})
		return err
	}
	for _, z := range []float64{-1, 0, 2.5, 4.5} {
		require.NoError(t, lift(-1.5, z))
	}
	require.NoError(t, lift(-5.9, 2.5), "at the tip of a wing")
	require.ErrorContains(t, lift(-6.1, 2.5), "support 1 at x = 2 m: field Y = -6.1 m: the concrete is at y = -6 to 6 m: must be on the concrete")
	require.ErrorContains(t, lift(-1.5, 4.6), "field Z = 4.6 m of a lift point: the concrete at y = -1.5 m is at z = 0 to 2.5 m: must be on it, at most 2 m above or 1 m below")
	require.ErrorContains(t, lift(-1.5, -1.1), "field Z = -1.1 m of a lift point")
}

// A support under a piece that is not there yet bears nothing.
func TestSupportsAreUnderPiecesThatAreCarried(t *testing.T) {
	parts := stages.EndToEnd(stages.Epoxied, segment("A", 4), segment("B", 4))
	parts[1].Later = true
	_, err := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1, 7))}}.Analyse(stages.Girder{Mark: "G", Pieces: parts}, limits.EN1992{})
	require.ErrorContains(t, err, "support 3 at x = 7 m: field X = 7 m: no piece is carried there: must be at a piece that is")
}
