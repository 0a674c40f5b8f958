package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// stitched is two unsymmetric half beams, the stitch between them and what acts on each
// and on all, by hand: nothing here is asked of the ledger.
type stitched struct {
	shapes []section.Shape
	ratios []float64 // in the joined section
	alone  [3]func(x float64) section.Forces
	joined [2]func(x float64) section.Forces // with inner causes of their own

	own         []section.Properties
	walls       []section.Walls
	transformed section.Properties
	whole       section.Walls
}

// stitchRanges are a dynamic factor on all that acts alone, a factor of each half, and one
// of each action on the joined section.
var stitchRanges = []ledger.Cause{{Least: 1, Most: 1, Outer: true}, {Least: 0.9, Most: 1.15, Outer: true}, {Least: 0.8, Most: 1.3}, {Least: 0.7, Most: 1.2}, {Least: -1, Most: 1}, {Least: 0.95, Most: 1.05}}

func newStitched(t testing.TB) *stitched {
	s := &stitched{shapes: []section.Shape{angle(t, 0.1), angle(t, -1.4), rectangleFrom(t, -0.3, 0.1, 1.35, 1.6)}, ratios: []float64{1, 0.85, 0.6}}
	var pieces []section.Piece
	for k, shape := range s.shapes {
		walls, err := shape.Walls()
		require.NoError(t, err)
		s.own, s.walls, pieces = append(s.own, shape.Properties()), append(s.walls, walls), append(pieces, section.Piece{Shape: shape, ModularRatio: s.ratios[k]})
	}
	var err error
	s.transformed, err = section.Transformed(pieces...)
	require.NoError(t, err)
	s.whole, err = section.TransformedWalls(pieces...)
	require.NoError(t, err)
	for k, v := range []float64{9e4, -6e4, 4e3} {
		centre := s.walls[k].ShearCentre
		s.alone[k] = func(x float64) section.Forces { // no torque, so that no wall warps, but in the stitch
			vz, vy := v*(1-x/6), 0.3*v*(1-x/6)
			return section.Forces{Vz: vz, Vy: vy, My: v * (x - x*x/12), Mz: 0.3 * v * (x - x*x/12), N: -3 * v, T: centre.Z*vy - centre.Y*vz}
		}
	}
	s.joined[0] = func(x float64) section.Forces {
		v := 1.5e5 * (1 - x/6)
		return section.Forces{Vz: v, Vy: -0.4 * v, My: 1.5e5 * (x - x*x/12), Mz: -0.6e5 * (x - x*x/12), T: 4e4 - 0.3*v}
	}
	s.joined[1] = func(x float64) section.Forces {
		v := -0.8e5 * (1 - x/9)
		return section.Forces{Vz: v, Vy: 0.9e5, My: -0.8e5 * (x - x*x/18), Mz: 0.9e5 * x, N: 2e5, T: 2e4}
	}
	return s
}

// ledger is the same told to a ledger.
func (s *stitched) ledger(t testing.TB) (*ledger.Ledger, *ledger.Situation) {
	l := pieced(s.shapes...)
	var entries []ledger.Entry
	for k, f := range s.alone {
		entries = append(entries, ledger.Entry{State: state(l, k), Field: &law{f}, Coefficient: 1, Inner: []int{2, 3, 2}[k], Outer: []int{1}})
	}
	all := unlike(l, []int{0, 1, 2}, s.ratios...)
	for k, f := range s.joined {
		entries = append(entries, ledger.Entry{State: all, Field: &law{f}, Coefficient: 1, Inner: 4 + k})
	}
	require.NoError(t, l.MakeGrid())
	return l, situation(l, entries...)
}

// lineAcross is a line across a wall of a piece with what of the joined section is beyond it.
type lineAcross struct {
	piece     int
	from, to  section.Point
	own, part section.Part // beyond it, of the piece and of the whole by moduli
}

// lines are level ones in the webs and upright ones in the tables and the stitch.
func (s *stitched) lines() (list []lineAcross) {
	beyond := func(k int, normal section.Point, offset float64) section.Part {
		return s.shapes[k].Beyond(normal, offset)
	}
	weighted := func(p section.Part, k int) section.Part {
		return section.Part{Area: s.ratios[k] * p.Area, FirstMomentY: s.ratios[k] * p.FirstMomentY, FirstMomentZ: s.ratios[k] * p.FirstMomentZ}
	}
	plus := func(p, q section.Part) section.Part {
		return section.Part{Area: p.Area + q.Area, FirstMomentY: p.FirstMomentY + q.FirstMomentY, FirstMomentZ: p.FirstMomentZ + q.FirstMomentZ}
	}
	whole := func(k int) section.Part { return weighted(beyond(k, section.Point{Z: 1}, -10), k) }
	for i := range 120 {
		z := 0.2 + float64(i)/100*0.9
		if z > 1.25 {
			break
		}
		for k, y := range []float64{0.1, -1.4} {
			own := beyond(k, section.Point{Z: -1}, -z)
			list = append(list, lineAcross{k, section.Point{Y: y + 0.35, Z: z}, section.Point{Y: y, Z: z}, own, weighted(own, k)}) // towards its left: down
		}
	}
	for i := range 100 {
		part := 0.02 + 0.96*float64(i)/99
		// in the tables beside the webs, not at the free tip, which is an edge; and in the stitch
		for k, y := range []float64{0.1 + 0.5 + 0.45*part, -1.4 + 0.5 + 0.6*part, -0.3 + 0.4*part} {
			low := 1.35
			if k < 2 {
				low = 1.3 + 0.05*(y-[]float64{0.1, -1.4}[k]-0.35)/0.75
			}
			one := lineAcross{piece: k, from: section.Point{Y: y, Z: low}, to: section.Point{Y: y, Z: 1.6}} // towards its left: −y
			one.own = beyond(k, section.Point{Y: -1}, -y)
			switch one.part = weighted(one.own, k); k {
			case 0:
				one.part = plus(one.part, plus(whole(1), whole(2)))
			case 2:
				one.part = plus(one.part, whole(1))
			}
			list = append(list, one)
		}
	}
	return list
}

// value is the largest value at a line over all corners of the factors.
func (s *stitched) value(line *lineAcross, x float64, principal bool) float64 {
	own, alone := s.own[line.piece], s.walls[line.piece]
	thickness := math.Hypot(line.to.Y-line.from.Y, line.to.Z-line.from.Z)
	best := math.Inf(-1)
	for choice := range 1 << 5 {
		factor := func(i int) float64 {
			if choice>>(i-1)&1 == 1 {
				return stitchRanges[i].Most
			}
			return stitchRanges[i].Least
		}
		before := s.alone[line.piece](x).Times(factor(1) * factor([]int{2, 3, 2}[line.piece]))
		after := s.joined[0](x).Times(factor(4)).Plus(s.joined[1](x).Times(factor(5)))
		ratio := s.ratios[line.piece]
		flow := own.ShearFlow(line.own, before) + s.transformed.ShearFlow(line.part, after)
		torque := before.T + alone.ShearCentre.Y*before.Vz - alone.ShearCentre.Z*before.Vy
		later := after.T + s.whole.ShearCentre.Y*after.Vz - s.whole.ShearCentre.Z*after.Vy
		shear := math.Abs(flow)/thickness + math.Abs(torque)*thickness/alone.Constant + ratio*math.Abs(later)*thickness/s.whole.Constant
		if !principal {
			best = math.Max(best, shear)
			continue
		}
		for _, at := range []section.Point{line.from, line.to} {
			σ := own.Plane(ledger.About(before, own.Centroid)).At(at) + ratio*s.transformed.Plane(ledger.About(after, s.transformed.Centroid)).At(at)
			best = math.Max(best, σ/2+math.Hypot(σ/2, shear))
		}
	}
	return best
}

// The worst wall of each piece is no less than what any line has under any factors, and
// at its own line it is what a hand calculation gives.
func TestWallsOfStitchedHalvesByHand(t *testing.T) {
	s := newStitched(t)
	l, of := s.ledger(t)
	d := demand(t, l, of, stitchRanges...)
	lines := s.lines()
	for piece := range 3 {
		for _, principal := range []bool{false, true} {
			w, _, err := d.WorstWall(ledger.WallQuery{Pieces: []int{piece}, Principal: principal, Filling: func(int) section.Filling { return section.NotGrouted }, Cracked: math.Inf(1)})
			require.NoError(t, err)
			most := 0.0
			for _, x := range []float64{0.0001, 2, 4, 6, 8, 9.9999, w.X} {
				for i := range lines {
					if lines[i].piece == piece {
						most = math.Max(most, s.value(&lines[i], x, principal))
					}
				}
			}
			t.Logf("piece %d: %.0f at x = %g, %v to %v; by hand %.0f", piece, w.Value, w.X, w.Cut.From, w.Cut.To, most)
			require.GreaterOrEqual(t, w.Value, 0.995*most, "piece %d", piece)
			require.LessOrEqual(t, w.Value, 1.02*most, "piece %d", piece)
		}
	}
}
