package ledger

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// tube is a box outline whose walls all differ.
func tube(t *testing.T) section.Shape {
	shape, err := section.New([]section.Outline{{{Y: -1}, {Y: 1}, {Y: 1, Z: 1.2}, {Y: -1, Z: 1.2}}},
		[]section.Outline{{{Y: -0.7, Z: 0.22}, {Y: 0.6, Z: 0.22}, {Y: 0.6, Z: 1.0}, {Y: -0.7, Z: 1.0}}})
	require.NoError(t, err)
	return shape
}

func TestNearestOfOutline(t *testing.T) {
	shape := tube(t)
	for _, c := range []struct {
		from, to section.Point
		distance float64
	}{
		{section.Point{Y: 0.5, Z: 0.6}, section.Point{Y: 0.6, Z: 0.6}, 0.1},
		{section.Point{Y: -0.1, Z: 0.4}, section.Point{Y: -0.1, Z: 0.22}, 0.18},
		{section.Point{Y: 1.3, Z: 1.6}, section.Point{Y: 1, Z: 1.2}, 0.5},
	} {
		at, distance := nearestOf(shape, c.from)
		require.InDelta(t, c.distance, distance, 1e-12)
		require.InDelta(t, 0, math.Hypot(at.Y-c.to.Y, at.Z-c.to.Z), 1e-12)
	}
}

// The way of an anchor beside the outline counts: from the anchor to the wall, then
// in the walls.
func TestZoneOfAnchorInTheVoid(t *testing.T) {
	x := tendon.Tendon{Mark: "X", Strand: tendon.Y1860S7x157, NoFriction: true, Strands: 3, External: true, Elevation: tendon.Level(0, 20, 0.4), Plan: tendon.Level(0, 20, -0.1),
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1}}
	path, err := x.Path()
	require.NoError(t, err)
	l := Ledger{Girder: Girder{Length: 20, Pieces: []Piece{{To: 20, Section: tube(t)}},
		Tendons: []Tendon{{Path: path, Area: x.Area(), Modulus: 195e9, External: true, Held: []float64{0, 20}}}}}
	require.NoError(t, l.makeZones())
	require.Len(t, l.zones, 2)
	// the farthest corner is (1, 1.2): down to the floor, round the corner of the void
	way := 0.18 + 0.7 + math.Hypot(0.4, 0.98)
	require.InDelta(t, way, l.zones[0].farthest, 0.01)
	require.InDelta(t, 20-1.5*l.zones[1].farthest, l.zones[1].end(), 1e-12)
}

// Means along an external tendon against closed forms: a cubic over its free lengths.
func TestMeanAlongFreeLengths(t *testing.T) {
	random := rand.New(rand.NewSource(5))
	for range 20 {
		at := 3 + 10*random.Float64()
		low := 0.3 + 0.2*random.Float64()
		x := tendon.Tendon{Mark: "X", Strand: tendon.Y1860S7x157, NoFriction: true, Strands: 3, External: true,
			Elevation: tendon.Curve{tendon.Straight(tendon.Point{Ordinate: 0.8}, tendon.Point{X: at, Ordinate: low}), tendon.Straight(tendon.Point{X: at, Ordinate: low}, tendon.Point{X: 20, Ordinate: 0.6})},
			Plan:      tendon.Level(0, 20, -0.1), Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1}}
		path, err := x.Path()
		require.NoError(t, err)
		l := Ledger{Girder: Girder{Length: 20, Pieces: []Piece{{To: 20, Section: tube(t)}}, Breaks: []float64{7},
			Tendons: []Tendon{{Path: path, Area: x.Area(), Modulus: 195e9, External: true, Held: []float64{0, at, 20}}}}}
		l.layExternal()
		cubic := func(s *Station) float64 { return 1 + s.X*s.X*s.X }
		require.InEpsilon(t, 1+at*at*at/4, l.mean(0, 0, cubic), 1e-12)
		require.InEpsilon(t, 1+(math.Pow(20, 4)-math.Pow(at, 4))/(4*(20-at)), l.mean(0, 1, cubic), 1e-12)
		require.Equal(t, 0, l.Girder.Tendons[0].free(0))
		require.Equal(t, 0, l.Girder.Tendons[0].free(at-1e-9))
		require.Equal(t, 1, l.Girder.Tendons[0].free(at+1e-9))
		require.Equal(t, 1, l.Girder.Tendons[0].free(20))
	}
}

// Kept apart or not, the parts of pretensioned strands add up to their force by the
// basic length, and to the bounds by the others.
func TestPartsOfPretensionedStrands(t *testing.T) {
	strands := tendon.Pretension{Mark: "P", Strand: tendon.Y1860S7x125, Groups: []tendon.Debonding{{Strands: 8}}, Elevation: tendon.Level(0, 20, 0.1), Plan: tendon.Level(0, 20, 0.8)}
	f, err := strands.Released(1300e6, tendon.TransmissionLength{Basic: 0.8, Short: 0.64, Long: 0.96})
	require.NoError(t, err)
	grip := &Grip{Area: f.Gripped, Left: 0.96, Right: 0.96, Shares: func(x float64) (float64, float64) {
		least, most := f.Range(x)
		return least / f.At(x), most / f.At(x)
	}}
	l := Ledger{Girder: Girder{Length: 20, Pieces: []Piece{{To: 20, Section: tube(t)}},
		Tendons: []Tendon{{Path: f.Path, Area: f.Tendon.Area(), Modulus: 195e9, Grip: grip}}}}
	state := &State{Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true}, Modulus: 32e9}
	l.States = []*State{state}
	l.Steps = []Step{{Tendons: []int{0}, Force: []func(float64) float64{f.At}, States: l.States, Bonded: []bool{true}, Modulus: func(int) float64 { return 32e9 }}}
	require.NoError(t, l.MakeGrid())
	for _, x := range []float64{0.2, 0.7, 0.9, 19.5} {
		var near *Stretch
		for k := range l.grid {
			if p := &l.grid[k]; p.From < x && x < p.To {
				near = p
			}
		}
		require.Len(t, near.spreading, 1)
		apart, plain := l.at(x, near, len(l.Steps)), l.At(x)
		least, most := f.Range(x)
		require.InEpsilon(t, -least, apart.Steps[1].Of[0].Forces.N, 1e-12)
		require.InEpsilon(t, -most, apart.Steps[1].Of[0].Forces.N+apart.Steps[1].Of[1].Forces.N, 1e-12)
		require.InEpsilon(t, -f.At(x), plain.PrestressForces(0, 1).N, 1e-12)
		require.InEpsilon(t, -f.At(x), apart.PrestressForces(0, 1).N, 1e-12)
		at := &plain.Tendons[0]
		require.InEpsilon(t, least/f.At(x), at.share(0), 1e-12)
		require.InEpsilon(t, most/f.At(x), at.share(1), 1e-12)
		// compatibility: what the steel loses is its modulus times the concrete's strain
		strain := plain.Steps[1].Of[0].Plane.Plane.At(at.At) / 32e9
		require.InEpsilon(t, f.At(x)+195e9*f.Gripped(x)*strain, plain.Steps[1].Force[0], 1e-12)
	}
}
