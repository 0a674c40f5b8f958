package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// ends are the ends of all stretches, which must follow each other.
func ends(t *testing.T, l *ledger.Ledger) []float64 {
	t.Helper()
	grid := l.Grid()
	list := []float64{grid[0].From}
	for k := range grid {
		require.Equal(t, list[len(list)-1], grid[k].From, "no gap, no overlap")
		require.Greater(t, grid[k].To, grid[k].From)
		require.InDelta(t, (grid[k].From+grid[k].To)/2, grid[k].Middle(), 1e-15)
		for n := range grid[k].At {
			require.Greater(t, grid[k].At[n].X, grid[k].From, "a hair inside")
			require.Less(t, grid[k].At[n].X, grid[k].To)
		}
		list = append(list, grid[k].To)
	}
	require.Equal(t, l.Girder.Length, list[len(list)-1])
	return list
}

func has(t *testing.T, list []float64, want ...float64) {
	t.Helper()
	for _, x := range want {
		near := math.Inf(1)
		for _, v := range list {
			near = math.Min(near, math.Abs(v-x))
		}
		require.Less(t, near, 1e-6, "a break at %g in %v", x, list)
	}
}

// The grid breaks at every place where a law changes: ends of pieces, breaks of their
// sections in the girder's x, kinks of tendons, ends of anchorage zones, places named.
func TestGridBreaksWhereALawChanges(t *testing.T) {
	taper, err := section.Taper{From: 1.5, To: 4, Left: rectangle(t, 0.6, 1.2, 0, 0), Right: rectangle(t, 0.6, 1.5, 0, 0)}.Along()
	require.NoError(t, err)
	l := &ledger.Ledger{Girder: ledger.Girder{Length: 16, Breaks: []float64{3.3, 11.1, 3.3, -1, 17}, Pieces: []ledger.Piece{
		{From: 0, To: 6, Section: rectangle(t, 0.6, 1.2, 0, 0)}, {From: 6, To: 16, Section: taper}},
		Tendons: []ledger.Tendon{harped(t, 1e-3, 0, point{0, 0, 0.9}, point{9.25, 0, 0.3}, point{16, 0, 0.8})}}}
	on := state(l, 0, 1)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	left := 1.5 * math.Hypot(0.3, 0.9)
	right := 16 - 1.5*math.Hypot(0.3, 0.8)
	has(t, ends(t, l), 0, 3.3, 6, 7.5, 9.25, 10, 11.1, 16, left, right)
	require.Equal(t, []float64{0, 6, 7.5, 9.25, 10, 16}, l.SectionBreaks())
	for _, k := range []int{0, 1} {
		for _, p := range l.Grid() {
			inside := p.Middle() < 6 == (k == 0)
			if inside {
				require.Equal(t, k, p.At[3].Pieces[0].Index)
			}
		}
	}
	// The section in the girder's x: 6 + 2.75 is half way through the taper.
	require.InDelta(t, 0.6*1.35, l.Section(8.75, on).Area, 1e-9)
	require.InDelta(t, 0.6*1.35, l.At(8.75).Pieces[0].Gross.Area, 1e-9)
	require.Same(t, l.At(8.75), l.At(8.75))
}

// A section whose corners change in number between its breaks is refused in words.
func TestCornersThatChangeInNumberAreRefused(t *testing.T) {
	l := one(10, stepped{t})
	state(l, 0)
	err := l.MakeGrid()
	require.ErrorIs(t, err, ledger.ErrLedger)
	require.ErrorContains(t, err, "the section has 4 corners at x = ")
	require.ErrorContains(t, err, "must be the same number between its Breaks")
}

// stepped gets a haunch in the middle without saying so.
type stepped struct{ t *testing.T }

func (s stepped) At(x float64) section.Shape {
	if x < 5 {
		return rectangle(s.t, 0.5, 1, 0, 0)
	}
	return lopsided(s.t, 1)
}
func (stepped) Breaks() []float64 { return nil }

// The polynomial through the nodes meets the stress of a moment and of the prestress
// between them, also where the depth grows fourfold in one taper.
func TestStressIsResolvedBetweenTheNodes(t *testing.T) {
	taper, err := section.Taper{Left: rectangle(t, 0.5, 0.5, 0, 0), Right: rectangle(t, 0.5, 2, 0, 0), To: 6}.Along()
	require.NoError(t, err)
	l := one(6, taper, straight(t, point{0, 0, 0.2}, point{6, 0, 0.9}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	require.Greater(t, len(l.Grid()), 4)
	s := situation(l, plain(on, level(section.Forces{My: 1e5})))
	for _, p := range l.Grid() {
		for i := range 7 {
			x := p.From + (p.To-p.From)*(0.05+0.15*float64(i))
			for _, z := range []float64{0, 1} { // of the depth
				var values ledger.Curve
				scale := 0.0
				for n, at := range p.At {
					values[n] = l.Plane(s, at.X, []float64{1}).At(section.Point{Z: z * (0.5 + 0.25*at.X)})
					scale = math.Max(scale, math.Abs(values[n]))
				}
				exact := l.Plane(s, x, []float64{1}).At(section.Point{Z: z * (0.5 + 0.25*x)})
				require.InDelta(t, exact, p.Interpolate(&values, x), 3e-8*scale, "%g to %g at %g", p.From, p.To, x)
				share := p.Shares(x)
				require.InDelta(t, exact, values.Sum(&share), 3e-8*scale)
			}
		}
		share := p.Shares(p.At[2].X)
		for n, v := range share {
			require.InDelta(t, map[int]float64{2: 1}[n], v, 1e-12, "a node has all of its own")
		}
	}
}

// A duct or a bonded tendon that ends inside the length is no longer there beyond its
// anchor; a piece beyond its ends neither.
func TestSectionBeyondAnEnd(t *testing.T) {
	l := &ledger.Ledger{Girder: ledger.Girder{Length: 10, Pieces: []ledger.Piece{{From: 0, To: 4, Section: rectangle(t, 0.5, 1, 0, 0)}, {From: 4, To: 10, Section: rectangle(t, 0.5, 1.2, 0, 0)}},
		Tendons: []ledger.Tendon{straight(t, point{0, 0, 0.3}, point{4, 0, 0.3}, 1e-3, 0.08)}}}
	first, both := state(l, 0), state(l, 0, 1)
	require.NoError(t, l.MakeGrid())
	require.InDelta(t, 0.5-math.Pi*0.0016, l.Section(2, first).Area, 1e-12)
	require.InDelta(t, 0.6, l.Section(7, both).Area, 1e-12)
	require.Zero(t, l.Section(7, first).Area)
	require.False(t, l.At(7).Tendons[0].Here)
	require.True(t, l.At(2).Tendons[0].Here)
	require.Len(t, l.At(2).Pieces, 1)
}

// A duct lies in the piece whose concrete is round it, or in the piece that is named.
func TestTendonLiesInItsPiece(t *testing.T) {
	for named, slot := range map[int]int{-1: 0, 0: 0, 1: 1} {
		l := &ledger.Ledger{Girder: ledger.Girder{Length: 10, Pieces: []ledger.Piece{{To: 10, Section: rectangle(t, 0.5, 1, -0.15, 0)}, {To: 10, Section: rectangle(t, 0.2, 1, 0, 0)}}}}
		l.Girder.Tendons = []ledger.Tendon{straight(t, point{0, -0.05, 0.3}, point{10, -0.05, 0.3}, 1e-3, 0.08)} // 0.15 and 0.05 m inside
		l.Girder.Tendons[0].Piece = named
		of := [2]*ledger.State{state(l, 0), state(l, 1)}
		require.NoError(t, l.MakeGrid())
		hole := math.Pi * 0.0016
		require.Equal(t, slot, l.At(5).Tendons[0].Slot)
		for piece, area := range []float64{0.5, 0.2} {
			if piece == slot {
				area -= hole
			}
			require.InDelta(t, area, l.Section(5, of[piece]).Area, 1e-12, "named %d", named)
		}
	}
}
