package section_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// What a Shape keeps is what a Shape drawn anew gives, whoever asks first and
// whatever is done with the answers.
func TestShapeKeepsWhatWasFound(t *testing.T) {
	shape := hollow(t)
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			w, err := shape.Walls()
			if err == nil {
				w.Cuts[0].Y = 1e9 // a copy of the caller's own
			}
			_, _ = shape.Torsion()
			shape.Ways()
		})
	}
	group.Wait()
	again := shapeOf(t, shape.Solids(), shape.Voids()...)
	require.Equal(t, again.Properties(), shape.Properties())
	want, err := again.Walls()
	require.NoError(t, err)
	got, err := shape.Walls()
	require.NoError(t, err)
	require.Equal(t, want.Cuts, got.Cuts)
	require.Equal(t, torsionOf(t, again).Constant, torsionOf(t, shape).Constant)
	empty := section.Shape{}
	require.Zero(t, empty.Properties())
	_, err = empty.Torsion()
	require.ErrorIs(t, err, section.ErrShape)
}

// A section asked for its properties again allocates nothing.
func TestShapePropertiesAllocateNothing(t *testing.T) {
	shape := hollow(t)
	shape.Properties()
	require.Zero(t, testing.AllocsPerRun(10, func() { shape.Properties() }))
}
