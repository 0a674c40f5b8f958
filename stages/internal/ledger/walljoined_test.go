package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// pieced is constant pieces side by side over 10 m.
func pieced(shapes ...section.Shape) *ledger.Ledger {
	l := &ledger.Ledger{Girder: ledger.Girder{Length: 10}}
	for _, s := range shapes {
		l.Girder.Pieces = append(l.Girder.Pieces, ledger.Piece{To: 10, Section: s})
	}
	return l
}

// unlike is state with a modular ratio of each piece.
func unlike(l *ledger.Ledger, pieces []int, ratios ...float64) *ledger.State {
	s := state(l, pieces...)
	s.Ratios = ratios
	return s
}

// Two equal rectangles beside each other: 1.5 V/A in each before they are joined, and the
// same of the whole after that, at the same level.
func TestRectanglesJoinedBesideEachOther(t *testing.T) {
	const b, h, first, then = 0.3, 1.2, 2e5, 5e5
	l := pieced(rectangle(t, b, h, -b/2, 0), rectangle(t, b, h, b/2, 0))
	left, right, whole := state(l, 0), state(l, 1), state(l, 0, 1)
	require.NoError(t, l.MakeGrid())
	s := situation(l,
		plain(left, level(section.Forces{Vz: first, T: first * b / 2})), plain(right, level(section.Forces{Vz: first, T: -first * b / 2})),
		plain(whole, level(section.Forces{Vz: then})))
	for piece := range 2 {
		w, _ := worstIn(t, l, s, piece)
		require.InEpsilon(t, 1.5*first/(b*h)+1.5*then/(2*b*h), w.Value, 1e-9)
		require.InDelta(t, h/2, w.At.Z, 1e-9)
		require.Equal(t, piece, w.Piece)
		require.Len(t, w.Bodies, 1)
		require.InDelta(t, b, w.Cut.Net, 1e-9)
		require.InDelta(t, 2*b, w.Bodies[0].Net, 1e-9)
	}
}

// Two equal rectangles on each other: each has its own parabola, over half the depth, and
// the whole has one over the whole depth; the largest sum is at neither middle.
func TestRectanglesJoinedOnEachOther(t *testing.T) {
	const b, h = 0.3, 0.8
	for _, v := range [][2]float64{{2e5, 2e5}, {1e5, 4e5}, {3e5, -2e5}, {-1e5, -5e5}, {2e5, 0.1}} {
		l := pieced(rectangle(t, b, h, 0, 0), rectangle(t, b, h, 0, h))
		low, top, whole := state(l, 0), state(l, 1), state(l, 0, 1)
		require.NoError(t, l.MakeGrid())
		s := situation(l, plain(low, level(section.Forces{Vz: v[0]})), plain(top, level(section.Forces{Vz: v[0]})), plain(whole, level(section.Forces{Vz: v[1]})))
		most := 0.0
		for i := range 4001 {
			z := float64(i) / 4000 // of h
			most = math.Max(most, math.Abs(6*v[0]*z*(1-z)+3*v[1]*z/2*(1-z/2))/(b*h))
		}
		for piece := range 2 {
			w, _ := worstIn(t, l, s, piece)
			require.LessOrEqual(t, w.Value, most*(1+1e-6), "%v", v)
			require.GreaterOrEqual(t, w.Value, most*(1-1./256), "%v", v)
		}
	}
}

// The part with the larger modulus has the larger part of the shear at a level.
func TestRectanglesOfUnlikeModuli(t *testing.T) {
	const b, h, v, ratio = 0.3, 1.2, 4e5, 0.6
	l := pieced(rectangle(t, b, h, -b/2, 0), rectangle(t, b, h, b/2, 0))
	whole := unlike(l, []int{0, 1}, 1, ratio)
	require.NoError(t, l.MakeGrid())
	// V through the shear centre, which is that of the moduli.
	y := (-b/2 + ratio*b/2) / (1 + ratio)
	s := situation(l, plain(whole, level(section.Forces{Vz: v, T: -v * y})))
	stiff, _ := worstIn(t, l, s, 0)
	soft, _ := worstIn(t, l, s, 1)
	require.InEpsilon(t, 1.5*v/(b*h)/(1+ratio), stiff.Value, 0.02, "but for the shear centre of thin walls")
	require.InEpsilon(t, ratio*1.5*v/(b*h)/(1+ratio), soft.Value, 0.02)
}

// On each other: V·S/(I·b) of the transformed section at the seam.
func TestSeamOfUnlikeModuli(t *testing.T) {
	const b, v, ratio = 0.3, 4e5, 0.5
	l := pieced(rectangle(t, b, 0.8, 0, 0), rectangle(t, b, 0.4, 0, 0.8))
	whole := unlike(l, []int{0, 1}, 1, ratio)
	require.NoError(t, l.MakeGrid())
	w, _ := worstIn(t, l, situation(l, plain(whole, level(section.Forces{Vz: v}))), 1)
	z := (0.8*0.4 + ratio*0.4*1.0) / (0.8 + ratio*0.4)
	i := b * (0.8*0.8*0.8/12 + 0.8*(z-0.4)*(z-0.4) + ratio*(0.4*0.4*0.4/12+0.4*(1-z)*(1-z)))
	require.InEpsilon(t, v*ratio*0.4*(1-z)/i, w.Value, 1e-9, "at the seam, below its own middle")
	require.InDelta(t, 0.8, w.At.Z, 1e-9)
}

// worstIn is the largest shear stress in a piece, all factors 1.
func worstIn(t testing.TB, l *ledger.Ledger, s *ledger.Situation, piece int) (ledger.Wall, [][2]float64) {
	t.Helper()
	w, cracked, err := demand(t, l, s, fixed).WorstWall(ledger.WallQuery{
		Pieces: []int{piece}, Filling: func(int) section.Filling { return section.NotGrouted }, Cracked: math.Inf(1),
	})
	require.NoError(t, err)
	require.True(t, w.Found)
	return w, cracked
}

// Pieces that were joined before anything acts on them are one piece.
func TestWallsOfPiecesJoinedFromTheBeginning(t *testing.T) {
	u, err := section.New([]section.Outline{{{Y: -1.2}, {Y: 1.0}, {Y: 1.2, Z: 1.5}, {Y: 0.9, Z: 1.5}, {Y: 0.75, Z: 0.3}, {Y: -0.9, Z: 0.3}, {Y: -0.9, Z: 1.5}, {Y: -1.2, Z: 1.5}}}, nil)
	require.NoError(t, err)
	lid, err := section.New([]section.Outline{{{Y: -1.6, Z: 1.5}, {Y: 2.2, Z: 1.5}, {Y: 2.2, Z: 1.7}, {Y: 0.4, Z: 1.8}, {Y: -1.6, Z: 1.7}}}, nil)
	require.NoError(t, err)
	open := func(whole section.Shape) ledger.Field { // through the shear centre: an open single piece warps, which joined ones are taken not to
		walls, err := whole.Walls()
		require.NoError(t, err)
		return &law{func(x float64) section.Forces {
			f := acting(6, 0).At(x)
			f.T = walls.ShearCentre.Z*f.Vy - walls.ShearCentre.Y*f.Vz
			return f
		}}
	}
	for name, parts := range map[string][]section.Shape{
		"half beams and a stitch": {angle(t, 0.1), angle(t, -1.4), rectangleFrom(t, -0.3, 0.1, 1.35, 1.6)},
		"a trough and its lid":    {u, lid},
	} {
		whole, err := section.Joined(parts...)
		require.NoError(t, err)
		single, several := pieced(whole), pieced(parts...)
		var all []int
		for k := range parts {
			all = append(all, k)
		}
		for n, l := range []*ledger.Ledger{single, several} {
			closed := len(whole.Voids()) > 0
			if closed {
				l.Girder.Tendons = []ledger.Tendon{harped(t, 1e-3, 0.06, point{0, 0.9, 0.6}, point{5, 0.95, 0.35}, point{10, 0.9, 0.6})}
			}
			on := state(l, append([]int{}, all[:1+n*(len(all)-1)]...)...)
			if closed {
				jack(l, on, 1e6, 0)
			}
			require.NoError(t, l.MakeGrid())
			if n == 1 {
				require.Equal(t, [][2]float64{{0, 10}}, l.AsOne(situation(l, plain(on, acting(1, 0.3)))))
			}
		}
		for _, principal := range []bool{true, false} {
			var values [2]float64
			for n, l := range []*ledger.Ledger{single, several} {
				field := acting(6, 0.3)
				if len(whole.Voids()) == 0 {
					field = open(whole)
				}
				e := plain(l.States[0], field)
				e.Inner = 1
				w, _ := worstOf(t, l, situation(l, e), principal, math.Inf(1))
				require.True(t, w.Found)
				values[n] = w.Value
			}
			require.InEpsilon(t, values[0], values[1], 1e-9, "%s, principal %v", name, principal)
		}
	}
}

// rectangleFrom is a rectangle between its sides.
func rectangleFrom(t testing.TB, left, right, low, high float64) section.Shape {
	return rectangle(t, right-left, high-low, (left+right)/2, low)
}

// A piece whose outline varies has no walls once it acts as one with another.
func TestWallsOfVaryingPiecesJoined(t *testing.T) {
	varying, err := section.Taper{Left: angle(t, 0.1), Right: rectangleAs(t, 0.1), To: 10}.Along()
	require.NoError(t, err)
	l := &ledger.Ledger{Girder: ledger.Girder{Length: 10, Pieces: []ledger.Piece{{To: 10, Section: varying}, {From: 4, To: 10, Section: rectangleFrom(t, -0.3, 0.1, 0.2, 1)}}}}
	on, joined := state(l, 0), state(l, 0, 1)
	require.NoError(t, l.MakeGrid())
	s := situation(l, plain(on, acting(1, 0.3)), plain(joined, acting(1, 0.3)))
	require.Equal(t, [][2]float64{{4, 10}}, l.VaryingAsOne(s))
	w, _ := worstOf(t, l, s, false, math.Inf(1))
	require.True(t, w.Found)
	require.LessOrEqual(t, w.X, 4.0)
	w, _ = worstOf(t, l, s, false, math.Inf(1), 1)
	require.False(t, w.Found)
}

// Pieces that act as one but share no edge have no walls that could be found: an error, not
// a pass.
func TestWallsOfPiecesApartThatActAsOne(t *testing.T) {
	l := pieced(rectangle(t, 0.3, 1, 0, 0), rectangle(t, 0.3, 1, 2, 0))
	joined := state(l, 0, 1)
	require.NoError(t, l.MakeGrid())
	_, _, err := demand(t, l, situation(l, plain(joined, level(section.Forces{Vz: 1}))), fixed).WorstWall(ledger.WallQuery{Filling: func(int) section.Filling { return section.NotGrouted }})
	require.ErrorContains(t, err, "must be parts that share an edge")
}

// A duct in one half takes off the thickness of the whole at its level.
func TestDuctInOneOfJoinedPieces(t *testing.T) {
	const b, h, first, then, duct = 0.3, 1.2, 2e5, 5e5, 0.08
	l := pieced(rectangle(t, b, h, -b/2, 0), rectangle(t, b, h, b/2, 0))
	l.Girder.Tendons = []ledger.Tendon{straight(t, point{0, -b / 2, h / 2}, point{10, -b / 2, h / 2}, 1e-3, duct)}
	left, right, whole := state(l, 0), state(l, 1), state(l, 0, 1)
	require.NoError(t, l.MakeGrid())
	s := situation(l,
		plain(left, level(section.Forces{Vz: first, T: first * b / 2})), plain(right, level(section.Forces{Vz: first, T: -first * b / 2})),
		plain(whole, level(section.Forces{Vz: then})))
	net, err := section.WebWidth(b, section.NotGrouted, duct)
	require.NoError(t, err)
	for piece, own := range []float64{net, b} {
		w, _ := worstIn(t, l, s, piece)
		require.InEpsilon(t, 1.5*first/(own*h)+1.5*then/((b+net)*h), w.Value, 1e-9, "piece %d", piece)
		require.InDelta(t, b+net, w.Bodies[0].Net, 1e-9)
	}
}

// Until the force of an anchor has spread, a tendon in one piece may press on another that
// acts as one with it, or not.
func TestAnchorInOneOfJoinedPieces(t *testing.T) {
	const b, h = 0.4, 1.2
	l := pieced(rectangle(t, b, h, -b/2, 0), rectangle(t, b, h, b/2, 0))
	l.Girder.Tendons = []ledger.Tendon{straight(t, point{0, -0.1, h / 2}, point{10, -0.1, h / 2}, 1e-3, 0)}
	whole := state(l, 0, 1)
	jack(l, whole, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	for piece, x := range []float64{5, 0.3} {
		peak := &law{func(at float64) section.Forces { return section.Forces{Vz: 5e5 * math.Exp(-4*(at-x)*(at-x))} }}
		w, _, err := demand(t, l, situation(l, plain(whole, peak)), fixed).WorstWall(ledger.WallQuery{
			Pieces: []int{piece}, Principal: true, Filling: func(int) section.Filling { return section.NotGrouted }, Cracked: math.Inf(1),
		})
		require.NoError(t, err)
		require.InDelta(t, x, w.X, 0.1)
		require.Len(t, w.Apart, piece)
		for _, a := range w.Apart {
			require.Zero(t, a.Factor)
		}
	}
}
