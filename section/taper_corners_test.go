package section_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// begunLater is the same outline drawn from a later corner.
func begunLater(o section.Outline, by int) section.Outline {
	return append(append(section.Outline{}, o[by:]...), o[:by]...)
}

// Begun one corner later, a square would turn by 90° on the way: its area would be
// (1 − 2s(1 − s)) of the square's at the part s of the way, its volume two thirds.
func TestTaperEndsBeginAtTheSameCorner(t *testing.T) {
	outer, cell := rectangle(-1, 0, 2, 2), rectangle(-0.6, 0.3, 1.2, 1.4)
	box := shapeOf(t, []section.Outline{outer}, cell)
	for by := 1; by < 4; by++ {
		_, err := section.Taper{To: 6, Left: box.Filled(), Right: shapeOf(t, []section.Outline{begunLater(outer, by)})}.Along()
		require.Error(t, err)
		later := shapeOf(t, []section.Outline{begunLater(outer, by)}, cell)
		_, err = section.Taper{To: 6, Left: box, Right: later}.Along()
		require.ErrorIs(t, err, section.ErrShape)
		require.ErrorContains(t, err, "Taper.Right: solid outline 1 begins at another corner than in Left")
		require.ErrorContains(t, err, "must begin at")
		_, err = section.Taper{To: 6, Left: box, Middle: later, Right: box}.Along()
		require.ErrorContains(t, err, "Taper.Middle: solid outline 1 begins at another corner")
		turnedCell := shapeOf(t, []section.Outline{outer}, begunLater(cell, by))
		_, err = section.Taper{To: 6, Left: turnedCell, Right: box}.Along()
		require.ErrorContains(t, err, "Taper.Right: void outline 1 begins at another corner")
	}
	// Begun at the same later corner at both ends nothing turns: 6 m of 4 − 1.68 m².
	later := shapeOf(t, []section.Outline{begunLater(outer, 1)}, begunLater(cell, 2))
	along, err := section.Taper{To: 6, Left: later, Right: later}.Along()
	require.NoError(t, err)
	require.InDelta(t, 6*(4-1.2*1.4), section.Volume(along, 6).Volume, 1e-12)
}

// Ends far from each other, of other proportions and half-way turned still have
// their corners in the same order: none is mistaken for another corner's.
func TestTaperMovesStretchesAndTurnsItsEnds(t *testing.T) {
	diamond := section.Outline{{Y: 0, Z: -1}, {Y: 1, Z: 0}, {Y: 0, Z: 1}, {Y: -1, Z: 0}} // as far from one corner as from the next
	square := section.Outline{{Y: -1, Z: -1}, {Y: 1, Z: -1}, {Y: 1, Z: 1}, {Y: -1, Z: 1}}
	for name, right := range map[string]section.Outline{
		"moved":     rectangle(40, -7, 2, 2),
		"stretched": rectangle(-9, -0.1, 18, 0.2),
		"turned":    diamond,
	} {
		_, err := section.Taper{To: 6, Left: shapeOf(t, []section.Outline{square}), Right: shapeOf(t, []section.Outline{right})}.Along()
		require.NoError(t, err, name)
	}
}
