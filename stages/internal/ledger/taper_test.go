package ledger

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// tapering is a rectangle about the axis whose depth grows from 1 to 2 m over 10 m.
func tapering(t testing.TB) (*Ledger, *State) {
	deep := func(h float64) section.Shape {
		s, err := section.New([]section.Outline{{{Y: -0.15, Z: -h / 2}, {Y: 0.15, Z: -h / 2}, {Y: 0.15, Z: h / 2}, {Y: -0.15, Z: h / 2}}}, nil)
		require.NoError(t, err)
		return s
	}
	along, err := section.Taper{Left: deep(1), Right: deep(2), To: 10}.Along()
	require.NoError(t, err)
	return openLedger(t, along, 10, nil)
}

// Above the axis of a rectangle lies M·S/I = 1.5·M/h, so across the axis
// τ = 1.5/b·(V/h − M·h'/h²): a moment alone, with h' = 0.1, gives up to 0.5·M at the
// shallow end; a moment that grows with the square of the depth... as V·h = M·h' none.
func TestShearOfATaperingRectangle(t *testing.T) {
	l, state := tapering(t)
	worst := func(f Field) Wall {
		s := &Situation{Entries: []Entry{{State: state, Field: f, Coefficient: 1, Inner: -1}}}
		s.Lay()
		d, err := l.Demand(s, []Cause{{1, 1, true}})
		require.NoError(t, err)
		w, _, err := d.WorstWall(WallQuery{Filling: func(int) section.Filling { return section.NotGrouted }})
		require.NoError(t, err)
		return w
	}
	moment := worst(&law{my: [4]float64{1e6}})
	require.InEpsilon(t, 1.5/0.3*1e6*0.1/(1*1), moment.Shear, 4e-4)
	require.InDelta(t, 0, moment.X, 0.01)
	require.InDelta(t, 0, moment.At.Z, 1e-6)

	shear := worst(&law{vz: [4]float64{1e5}, my: [4]float64{0, 1e5}}) // M = V·x from the shallow end
	require.InEpsilon(t, 1.5/0.3*1e5, shear.Shear, 0.015)             // there, where M = 0; 1 % is V beside the shear centre of the walls, 1.4 mm off

	require.InDelta(t, 0, shear.X, 0.01)

	relieved := &law{vz: [4]float64{1e5}, my: [4]float64{1e6, 1e5}} // M = V·h/h' everywhere
	require.Less(t, worst(relieved).Shear, 0.015*1.5/0.3*1e5)

	// In the middle, with both: h = 1.5 m, V = 1e5 N, M = −5e5 N·m, the moment adds.
	added := worst(&law{vz: [4]float64{1e5}, my: [4]float64{-1e6, 1e5}})
	require.InEpsilon(t, 1.5/0.3*(1e5/1+1e6*0.1/1), added.Shear, 0.015)
}

// A normal force along the axis of a section that grows to both sides needs no shear on
// the axis; one beside it is a moment N·z.
func TestShearOfATaperUnderNormalForce(t *testing.T) {
	l, _ := tapering(t)
	k := l.stretchAt(4)
	at := l.grid[k].At[4]
	w, err := l.wallsAt(at, 0, nil)
	require.NoError(t, err)
	h := 1 + 0.1*at.X
	seen := false
	for i := range w.net {
		c := w.at(i)
		if math.Abs(c.From.Z)+math.Abs(c.To.Z) > 1e-6 { // the level cut on the axis
			continue
		}
		seen = true
		require.InDelta(t, 0, c.Taper[0], 1e-6)
		require.InEpsilon(t, 1.5*0.1/(h*h), math.Abs(c.Taper[1]), 4e-4)
		require.InDelta(t, 0, c.Taper[2], 1e-6)
	}
	require.True(t, seen)
	even, _ := openLedger(t, channel(t, 0.2, 2), 10, nil)
	flat, err := even.wallsAt(even.grid[0].At[4], 0, nil)
	require.NoError(t, err)
	require.Nil(t, flat.taper)
}
