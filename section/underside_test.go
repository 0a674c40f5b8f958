package section_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// A box: soffit, inclined webs, wings, and the underside of the top slab in the void.
func TestUndersidesOfABox(t *testing.T) {
	s, err := section.New(
		[]section.Outline{{{Y: -2}, {Y: 2}, {Y: 2.5, Z: 2}, {Y: 5, Z: 2.25}, {Y: 5, Z: 2.5}, {Y: -5, Z: 2.5}, {Y: -5, Z: 2.25}, {Y: -2.5, Z: 2}}},
		[]section.Outline{{{Y: -1.7, Z: 0.2}, {Y: 1.7, Z: 0.2}, {Y: 2, Z: 2.2}, {Y: -2, Z: 2.2}}})
	require.NoError(t, err)
	require.Equal(t, []section.Underside{{}, {Z: 2.2}}, s.Undersides(0))
	require.InDeltaMapValues(t, map[string]float64{"z": 2.1, "slope": 0.1}, map[string]float64{"z": s.Undersides(3.5)[0].Z, "slope": s.Undersides(3.5)[0].Slope}, 1e-12)
	require.InDelta(t, -0.1, s.Undersides(-3.5)[0].Slope, 1e-12)
	require.InDelta(t, 4, s.Undersides(2.25)[0].Slope, 1e-12, "the inclined web")
	edge := s.Undersides(2)
	require.Len(t, edge, 3, "soffit and web at its corner, and the corner of the void")
	require.Zero(t, edge[0].Z)
	require.Empty(t, s.Undersides(5.01))
	top, ok := s.Top(0.3)
	require.True(t, ok)
	require.Equal(t, 2.5, top, "not the bottom slab in the void")
	_, ok = s.Top(5.01)
	require.False(t, ok)
	require.Empty(t, section.Shape{}.Undersides(0))
}
