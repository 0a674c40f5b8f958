package ledger_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// halfBeam is an element that may be beside another: of its own outline, concrete,
// tendons and forces.
type halfBeam struct {
	section section.Along
	modulus float64 // Pa
	tendons []ledger.Tendon
	force   []float64 // of each tendon, N
	field   ledger.Field
}

const halfLength = 12.0

// beside are elements in one girder, each a body of its own, with further places where
// the grid is cut.
func beside(t testing.TB, breaks []float64, elements ...halfBeam) (*ledger.Ledger, *ledger.Situation) {
	t.Helper()
	l := &ledger.Ledger{Girder: ledger.Girder{Length: halfLength, Breaks: breaks}}
	step := ledger.Step{Modulus: func(k int) float64 { return elements[k].modulus }}
	for k, e := range elements {
		l.Girder.Pieces = append(l.Girder.Pieces, ledger.Piece{To: halfLength, Section: e.section})
		for i, tendon := range e.tendons {
			step.Tendons = append(step.Tendons, len(l.Girder.Tendons))
			comes := func(float64) float64 { return 1 }
			if tendon.Grip != nil {
				comes = func(x float64) float64 { return math.Min(1, math.Min(x, halfLength-x)/1.5) }
				tendon.Piece = k
			}
			step.Force = append(step.Force, func(x float64) float64 { return e.force[i] * comes(x) })
			step.Bonded = append(step.Bonded, tendon.Grip != nil)
			l.Girder.Tendons = append(l.Girder.Tendons, tendon)
		}
	}
	var entries []ledger.Entry
	for k, e := range elements {
		on := &ledger.State{Index: k, Pieces: []int{k}, Ratios: []float64{1}, Bonded: step.Bonded, Modulus: e.modulus}
		l.States, step.States = append(l.States, on), append(step.States, on)
		entries = append(entries, ledger.Entry{State: on, Field: e.field, Coefficient: 1, Inner: 1})
	}
	l.Steps = []ledger.Step{step}
	require.NoError(t, l.MakeGrid())
	return l, situation(l, entries...)
}

// bonded is a line of strands whose force comes in over 1.5 m, 0.8 to 1.2 times as long.
func bonded(t testing.TB, y, z float64) ledger.Tendon {
	s := straight(t, point{0, y, z}, point{halfLength, y, z}, 8e-4, 0)
	part := func(x, f float64) float64 { return math.Min(1, math.Min(x, halfLength-x)/(1.5*f)) }
	s.Grip = &ledger.Grip{Area: func(float64) float64 { return 8e-4 }, Left: 1.8, Right: 1.8, Shares: func(x float64) (least, most float64) {
		return part(x, 1.2) / part(x, 1), part(x, 0.8) / part(x, 1)
	}}
	return s
}

// angle is an L with a thick foot to the left of y, unsymmetric.
func angle(t testing.TB, y float64) section.Shape {
	t.Helper()
	s, err := section.New([]section.Outline{{
		{Y: y}, {Y: y + 0.35}, {Y: y + 0.35, Z: 1.3}, {Y: y + 1.1, Z: 1.35}, {Y: y + 1.1, Z: 1.6}, {Y: y, Z: 1.6},
	}}, nil)
	require.NoError(t, err)
	return s
}

// acting is a weight that hangs on an element whose ends hold it, times a factor, with a lateral part.
func acting(factor, y float64) ledger.Field {
	return &law{func(x float64) section.Forces {
		v, m := 4e4*factor*(halfLength/2-x), 2e4*factor*x*(halfLength-x)
		return section.Forces{Vz: v, My: m, Vy: 0.1 * v, Mz: 0.1 * m, T: -v*y + 0.05*v}
	}}
}

var ranges = []ledger.Cause{{Least: 0.9, Most: 1.1, Outer: true}, {Least: 0.8, Most: 1.3}}

// worstOf asks for the worst wall of some pieces.
func worstOf(t testing.TB, l *ledger.Ledger, s *ledger.Situation, principal bool, cracked float64, pieces ...int) (ledger.Wall, [][2]float64) {
	t.Helper()
	w, reaches, err := demand(t, l, s, ranges...).WorstWall(ledger.WallQuery{
		Pieces: pieces, Principal: principal, Cracked: cracked, Filling: func(int) section.Filling { return section.NotGrouted },
	})
	require.NoError(t, err)
	return w, reaches
}

// pairs of elements that are nothing to each other.
func pairs(t testing.TB) map[string][2]halfBeam {
	plain := func(shape section.Along, y, factor float64) halfBeam {
		return halfBeam{section: shape, modulus: ecm, field: acting(factor, y)}
	}
	with := func(b halfBeam, modulus, force float64, tendons ...ledger.Tendon) halfBeam {
		b.modulus, b.tendons = modulus, tendons
		for range tendons {
			b.force = append(b.force, force)
		}
		return b
	}
	ducted := func(y, low float64) ledger.Tendon {
		return harped(t, 1e-3, 0.06, point{0, y, 0.9}, point{5, y, low}, point{halfLength, y, 1})
	}
	varying, err := section.Taper{Left: angle(t, 0.1), Right: rectangleAs(t, 0.1), To: halfLength}.Along()
	require.NoError(t, err)
	box, err := cell(t, 1.6, 1.4, 0.25).Moved(section.Point{Y: -1.5})
	require.NoError(t, err)
	return map[string][2]halfBeam{
		"unsymmetric":         {plain(angle(t, 0.1), 0.3, 1), plain(angle(t, -1.4), -1.2, 1.4)},
		"pretension, tendons": {with(plain(angle(t, 0.1), 0.3, 1), ecm, 9e5, bonded(t, 0.3, 0.2), bonded(t, 0.2, 1.4)), with(plain(angle(t, -1.4), -1.2, 2), 0.8*ecm, 7e5, ducted(-1.2, 0.3))},
		"tendons of both":     {with(plain(angle(t, 0.1), 0.3, 1.2), ecm, 1e6, ducted(0.3, 0.25)), with(plain(angle(t, -1.4), -1.2, 1), 0.7*ecm, 1.5e6, ducted(-1.25, 0.2), ducted(-1.2, 0.6))},
		"a box":               {with(plain(angle(t, 0.1), 0.3, 1), ecm, 1e6, ducted(0.3, 0.25)), with(plain(box, -1.5, 3), ecm, 1e6, ducted(-2.18, 0.4))},
		"one varies":          {plain(varying, 0.3, 1), with(plain(angle(t, -1.4), -1.2, 1), ecm, 1e6, ducted(-1.2, 0.3))},
	}
}

// rectangleAs has the corners of an angle with a thicker table.
func rectangleAs(t testing.TB, y float64) section.Shape {
	t.Helper()
	s, err := section.New([]section.Outline{{
		{Y: y}, {Y: y + 0.35}, {Y: y + 0.35, Z: 1.2}, {Y: y + 1.1, Z: 1.25}, {Y: y + 1.1, Z: 1.6}, {Y: y, Z: 1.6},
	}}, nil)
	require.NoError(t, err)
	return s
}

// Two bodies side by side have the walls that each has alone, on the same grid; asked
// for together the worse is found.
func TestWallsOfBodiesSideBySide(t *testing.T) {
	cracks := 0
	for name, both := range pairs(t) {
		pair, s := beside(t, nil, both[:]...)
		var breaks []float64
		for _, p := range pair.Grid() {
			breaks = append(breaks, p.From, p.To)
		}
		require.Empty(t, pair.AsOne(s))
		for _, principal := range []bool{true, false} {
			worst := 0.0
			for k, e := range both {
				alone, of := beside(t, breaks, e)
				for _, cracked := range []float64{math.Inf(1), 2e6} {
					want, wantReaches := worstOf(t, alone, of, principal, cracked)
					got, reaches := worstOf(t, pair, s, principal, cracked, k)
					require.Equal(t, want.Found, got.Found, "%s, element %d", name, k)
					require.Len(t, reaches, len(wantReaches), "%s, element %d", name, k)
					cracks += len(reaches)
					for i := range reaches {
						require.InDelta(t, wantReaches[i][0], reaches[i][0], 1e-6)
						require.InDelta(t, wantReaches[i][1], reaches[i][1], 1e-6)
					}
					if !want.Found {
						continue
					}
					require.InEpsilon(t, want.Value, got.Value, 1e-9, "%s, element %d", name, k)
					require.InDelta(t, want.Normal, got.Normal, 1e-9*(1e6+math.Abs(want.Normal)))
					require.InDelta(t, want.X, got.X, 1e-6)
					require.Equal(t, want.At, got.At)
					require.Equal(t, want.Cut.Net, got.Cut.Net)
					require.Equal(t, want.Centre, got.Centre)
					require.Len(t, got.Apart, len(want.Apart), "the tendons of its own only")
					require.Equal(t, k, got.Piece)
					if math.IsInf(cracked, 1) {
						worst = math.Max(worst, want.Value)
					}
				}
			}
			of, _ := worstOf(t, pair, s, principal, math.Inf(1))
			require.InEpsilon(t, worst, of.Value, 1e-9, "%s: the worse of both", name)
		}
	}
	require.Greater(t, cracks, 3)
}

// Mirror images under mirrored forces have equal walls.
func TestWallsOfMirrorImages(t *testing.T) {
	build := func(sign float64) halfBeam {
		corners := angle(t, 0.1).Solids()[0]
		for i := range corners {
			corners[i].Y *= sign
		}
		if sign < 0 {
			slices.Reverse(corners)
		}
		shape, err := section.New([]section.Outline{corners}, nil)
		require.NoError(t, err)
		field := acting(1, 0.3)
		return halfBeam{
			section: shape, modulus: ecm, force: []float64{1e6, 8e5},
			tendons: []ledger.Tendon{harped(t, 1e-3, 0.06, point{0, sign * 0.3, 0.9}, point{5, sign * 0.25, 0.3}, point{halfLength, sign * 0.3, 1}), bonded(t, sign*0.3, 0.1)},
			field: &law{func(x float64) section.Forces {
				f := field.At(x)
				f.Vy, f.Mz, f.T = sign*f.Vy, sign*f.Mz, sign*f.T
				return f
			}},
		}
	}
	l, s := beside(t, nil, build(1), build(-1))
	for _, principal := range []bool{true, false} {
		left, _ := worstOf(t, l, s, principal, math.Inf(1), 0)
		right, _ := worstOf(t, l, s, principal, math.Inf(1), 1)
		require.True(t, left.Found)
		require.InEpsilon(t, left.Value, right.Value, 1e-9)
		require.InDelta(t, left.At.Y, -right.At.Y, 1e-9)
		require.InDelta(t, left.X, right.X, 1e-6)
	}
}

// Pieces act as one where they are together only.
func TestWherePiecesActAsOne(t *testing.T) {
	l := &ledger.Ledger{Girder: ledger.Girder{Length: 10, Pieces: []ledger.Piece{
		{To: 10, Section: rectangle(t, 0.5, 1, -0.35, 0)}, {From: 2, To: 6, Section: rectangle(t, 0.2, 1, 0, 0)}, {To: 10, Section: rectangle(t, 0.5, 1, 2, 0)},
	}}}
	left, right, joined := state(l, 0), state(l, 2), state(l, 0, 1)
	require.NoError(t, l.MakeGrid())
	v := level(section.Forces{Vz: 1e5})
	before := situation(l, plain(left, v), plain(right, v))
	require.Empty(t, l.AsOne(before))
	after := situation(l, plain(left, v), plain(right, v), plain(joined, level(section.Forces{Vz: 1})))
	require.Equal(t, [][2]float64{{2, 6}}, l.AsOne(after))
	require.Empty(t, l.VaryingAsOne(after))
	d := demand(t, l, after, fixed)
	for piece := range 3 {
		w, _, err := d.WorstWall(ledger.WallQuery{Pieces: []int{piece}, Filling: func(int) section.Filling { return section.NotGrouted }, Cracked: math.Inf(1)})
		require.NoError(t, err)
		require.True(t, w.Found, "piece %d", piece)
	}
}
