package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// Two halves of 0.5 × 1 m and a strip of 0.2 × 1 m between them, side by side from
// y = −0.6 to 0.6.
func halves(t testing.TB) *ledger.Ledger {
	return &ledger.Ledger{Girder: ledger.Girder{Length: 10, Pieces: []ledger.Piece{
		{To: 10, Section: rectangle(t, 0.5, 1, -0.35, 0)}, {To: 10, Section: rectangle(t, 0.2, 1, 0, 0)}, {To: 10, Section: rectangle(t, 0.5, 1, 0.35, 0)},
	}}}
}

// A deck of another concrete on a beam: the section of both with the ratio of their
// moduli, by the sum about the common centroid.
func TestTwoConcretesActAsOne(t *testing.T) {
	const ratio = 0.8
	l := &ledger.Ledger{Girder: ledger.Girder{Length: 10, Pieces: []ledger.Piece{
		{To: 10, Section: rectangle(t, 0.4, 1, 0, 0)}, {To: 10, Section: rectangle(t, 1.5, 0.2, 0.3, 1)},
	}}}
	both := &ledger.State{Pieces: []int{0, 1}, Ratios: []float64{1, ratio}, Modulus: ecm}
	l.States = []*ledger.State{both}
	require.NoError(t, l.MakeGrid())
	beam, deck := 0.4, ratio*0.3
	area := beam + deck
	y, z := deck*0.3/area, (beam*0.5+deck*1.1)/area
	iy := 0.4/12 + beam*(0.5-z)*(0.5-z) + ratio*1.5*0.008/12 + deck*(1.1-z)*(1.1-z)
	iz := 0.064/12 + beam*y*y + ratio*0.2*1.5*1.5*1.5/12 + deck*(0.3-y)*(0.3-y)
	iyz := beam*(0-y)*(0.5-z) + deck*(0.3-y)*(1.1-z)
	p := l.Section(5, both)
	require.InDelta(t, area, p.Area, 1e-12)
	require.InDelta(t, y, p.Centroid.Y, 1e-12)
	require.InDelta(t, z, p.Centroid.Z, 1e-12)
	require.InDelta(t, iy, p.SecondMomentY, 1e-12)
	require.InDelta(t, iz, p.SecondMomentZ, 1e-12)
	require.InDelta(t, iyz, p.ProductMoment, 1e-12)
	require.InDelta(t, 1.2-z, p.Top, 1e-12)
	require.InDelta(t, z, p.Bottom, 1e-12)
	require.InDelta(t, 1.05-y, p.Left, 1e-12)
	require.InDelta(t, 0.45+y, p.Right, 1e-12)
	// Under N and My about the axis the strain is one plane; the stress in the deck 0.8 of it.
	const n, m = 4e5, 3e5
	s := situation(l, plain(both, level(section.Forces{N: n, My: m})))
	my, mz := m+n*z, n*y
	stress := func(at section.Point) float64 {
		dy, dz := at.Y-y, at.Z-z
		return n/area - ((my*iz-mz*iyz)*dz+(mz*iy-my*iyz)*dy)/(iy*iz-iyz*iyz)
	}
	d := demand(t, l, s, fixed)
	up, err := d.Extreme(1, 0, of(0))
	require.NoError(t, err)
	require.Equal(t, 0, up.Piece)
	require.InDelta(t, stress(up.At), up.Value, 1e-3)
	down, err := d.Extreme(-1, 1, of(1))
	require.NoError(t, err)
	require.Equal(t, 1, down.Piece)
	require.InDelta(t, ratio*stress(down.At), down.Value, 1e-3)
	least := math.Inf(1)
	for _, c := range []section.Point{{Y: -0.45, Z: 1}, {Y: 1.05, Z: 1}, {Y: -0.45, Z: 1.2}, {Y: 1.05, Z: 1.2}} {
		least = math.Min(least, ratio*stress(c))
	}
	require.InDelta(t, least, down.Value, 1e-3)
	f := l.Forces(s, 5, []float64{1})
	require.InDelta(t, n, f.N, 1e-6, "forces of a body count once")
	require.InDelta(t, m, f.My, 1e-6)
	require.InDelta(t, stress(section.Point{Y: 0.1, Z: 0.3}), l.Plane(s, 5, []float64{1}).At(section.Point{Y: 0.1, Z: 0.3}), 1e-3, "the first piece")
	require.Equal(t, ratio, both.Ratio(1))
	require.Zero(t, both.Ratio(2))
}

// of counts the corners of one piece.
func of(piece int) func(*ledger.Stretch, ledger.Corner) bool {
	return func(p *ledger.Stretch, c ledger.Corner) bool { return p.At[0].Pieces[c.Slot].Index == piece }
}

// Stress before a joint stays where it was: the weight of a half on itself, then
// both halves and the strip carry together.
func TestStressLockedInBeforeTheJoint(t *testing.T) {
	l := halves(t)
	left, right, all := state(l, 0), state(l, 2), state(l, 0, 1, 2)
	require.NoError(t, l.MakeGrid())
	const before, after = 2e5, 9e5
	s := situation(l, plain(left, level(section.Forces{My: before})), plain(right, level(section.Forces{My: 1.5 * before})), plain(all, level(section.Forces{My: after})))
	d := demand(t, l, s, fixed)
	together := after / (1.2 / 6)
	for piece, alone := range map[int]float64{0: before / (0.5 / 6), 1: 0, 2: 1.5 * before / (0.5 / 6)} {
		up, err := d.Extreme(1, piece, of(piece))
		require.NoError(t, err)
		require.InDelta(t, together+alone, up.Value, 1e-3, "piece %d", piece)
		require.Equal(t, piece, up.Piece)
		down, err := d.Extreme(-1, piece, of(piece))
		require.NoError(t, err)
		require.InDelta(t, -together-alone, down.Value, 1e-3)
	}
	require.InDelta(t, before+1.5*before+after, l.Forces(s, 4, []float64{1}).My, 1e-6)
}

// A tendon acts on the body in which it lies on the day: alone in the left half, or
// through all; the strip later presses on nothing of what came before.
func TestTendonActsOnItsBody(t *testing.T) {
	l := halves(t)
	l.Girder.Tendons = []ledger.Tendon{straight(t, point{0, -0.35, 0.3}, point{10, -0.35, 0.3}, 1e-3, 0), straight(t, point{0, 0.35, 0.3}, point{10, 0.35, 0.3}, 1e-3, 0)}
	left, right, all := state(l, 0), state(l, 2), state(l, 0, 1, 2)
	jack(l, left, 1e6, 0)
	l.Steps[0].States = []*ledger.State{left, right}
	jack(l, all, 1e6, 1)
	require.NoError(t, l.MakeGrid())
	require.Equal(t, 0, l.At(5).Tendons[0].Slot)
	require.Equal(t, 2, l.At(5).Tendons[1].Slot)
	e, iy, iz := 0.3-0.5, 1.2/12, 1.2*1.2*1.2/12
	through := func(at section.Point) float64 { return -1e6/1.2 - 1e6*e*(at.Z-0.5)/iy - 1e6*0.35*at.Y/iz }
	at := section.Point{Y: -0.35, Z: 0.3}
	lost := -through(at) * ep / ecm * 1e-3
	first, _ := l.TendonForce(situation(l), 5, 0)
	require.InDelta(t, 1e6-lost, first, 1e-3)
	s := situation(l)
	// The first tendon loses on the body of the later day: its loss acts on all pieces.
	back := func(p section.Point) float64 { return lost * (1/1.2 + e*(p.Z-0.5)/iy - 0.35*p.Y/iz) }
	p := section.Point{Y: -0.6, Z: 1}
	alone := -1e6/0.5 - 1e6*e*(1-0.5)/(0.5/12)
	require.InDelta(t, alone+through(p)+back(p), l.Plane(s, 5, []float64{1}).At(p), 1)
	require.InDelta(t, -(1e6-lost)-1e6, l.Forces(s, 5, []float64{1}).N, 1e-3)
}

// Segments end to end: each has its own stretches, a joint is two nodes, and the
// stress at a joint is found on both faces.
func TestJointOfSegments(t *testing.T) {
	l := &ledger.Ledger{Girder: ledger.Girder{Length: 10, Pieces: []ledger.Piece{
		{From: 0, To: 4, Section: rectangle(t, 0.5, 1, 0, 0)}, {From: 4, To: 10, Section: rectangle(t, 0.5, 1.2, 0, 0)},
	}}}
	both := state(l, 0, 1)
	require.NoError(t, l.MakeGrid())
	beside := l.Beside(4)
	require.Len(t, beside, 2)
	grid := l.Grid()
	require.InDelta(t, 4, grid[beside[0][0]].To, 1e-9)
	require.InDelta(t, 4, grid[beside[1][0]].From, 1e-9)
	require.Equal(t, [2]int{ledger.Nodes - 1, 0}, [2]int{beside[0][1], beside[1][1]})
	s := situation(l, plain(both, &law{func(x float64) section.Forces { return section.Forces{My: 1e5 * x} }}))
	d := demand(t, l, s, fixed)
	soffit := func(c ledger.Corner) bool { return c.At.Z == 0 }
	for i, depth := range []float64{1, 1.2} {
		w, err := d.ExtremeAt(beside[i][0], beside[i][1], 1, soffit)
		require.NoError(t, err)
		require.InDelta(t, 4e5/(0.5*depth*depth/6), w.Value, 1)
		require.Equal(t, i, w.Piece)
		w, err = d.ExtremeAt(beside[i][0], beside[i][1], -1, func(c ledger.Corner) bool { return c.At.Z > 0.9 })
		require.NoError(t, err)
		require.InDelta(t, -4e5/(0.5*depth*depth/6), w.Value, 1)
	}
	require.Len(t, l.Beside(0), 1)
	require.Len(t, l.Beside(10), 1)
	require.Empty(t, l.Beside(5.5))
	up, err := d.Extreme(1, 0, of(0))
	require.NoError(t, err)
	require.InDelta(t, 4e5/(0.5/6), up.Value, 1, "of the first piece only")
	require.Equal(t, 0, l.NodeAt(beside[0][0], 8).Slot([]int{0}))
	require.Equal(t, -1, l.NodeAt(beside[0][0], 8).Slot([]int{1}))
	require.Equal(t, []float64{0, 4, 10}, l.SectionBreaks())
	none, err := d.ExtremeAt(beside[0][0], 0, 1, func(ledger.Corner) bool { return false })
	require.NoError(t, err)
	require.False(t, none.Found)
}

// A body that is not carried yet has no walls to look at.
func TestWallsOfWhatIsCarried(t *testing.T) {
	l := &ledger.Ledger{Girder: ledger.Girder{Length: 10, Pieces: []ledger.Piece{
		{From: 0, To: 4, Section: rectangle(t, 0.5, 1, 0, 0)}, {From: 4, To: 10, Section: rectangle(t, 0.05, 1, 0, 0)},
	}}}
	first := state(l, 0)
	require.NoError(t, l.MakeGrid())
	w := wall(t, l, situation(l, plain(first, level(section.Forces{Vz: 1e5}))), false)
	require.Less(t, w.X, 4.0)
	require.Equal(t, 0, w.Piece)
}
