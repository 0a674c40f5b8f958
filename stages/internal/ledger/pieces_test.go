package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// Bonded steel counts by its modulus over that of the concrete in which it lies: in a
// deck with 0.8 of the reference modulus Ep/(0.8·E) − 1 times its area of deck.
func TestBondedSteelInEitherConcrete(t *testing.T) {
	const ratio, steel = 0.8, 2e-3
	for piece, level := range []float64{0.3, 1.1} {
		l := &ledger.Ledger{Girder: ledger.Girder{Length: 10, Pieces: []ledger.Piece{
			{To: 10, Section: rectangle(t, 0.4, 1, 0, 0)}, {To: 10, Section: rectangle(t, 1.5, 0.2, 0, 1)}},
			Tendons: []ledger.Tendon{straight(t, point{0, 0, level}, point{10, 0, level}, steel, 0.08)}}}
		both := &ledger.State{Pieces: []int{0, 1}, Ratios: []float64{1, ratio}, Bonded: []bool{true}, Modulus: ecm}
		empty := &ledger.State{Index: 1, Pieces: []int{0, 1}, Ratios: []float64{1, ratio}, Bonded: []bool{false}, Modulus: ecm}
		l.States = []*ledger.State{both, empty}
		require.NoError(t, l.MakeGrid())
		require.Equal(t, piece, l.At(5).Tendons[0].Slot)
		of := []float64{1, ratio}[piece]
		extra := of * steel * (ep/(of*ecm) - 1)
		require.InDelta(t, 0.4+ratio*0.3+extra, l.Section(5, both).Area, 1e-12)
		z := (0.4*0.5 + ratio*0.3*1.1 + extra*level) / (0.4 + ratio*0.3 + extra)
		require.InDelta(t, z, l.Section(5, both).Centroid.Z, 1e-12)
		hole := of * math.Pi * 0.0016
		require.InDelta(t, 0.4+ratio*0.3-hole, l.Section(5, empty).Area, 1e-12)
	}
}

// Within its zone the force of an anchor is not counted on in another piece, which it
// reaches by no way of its own: only by the joint, far behind.
func TestSpreadStaysInItsPiece(t *testing.T) {
	l := &ledger.Ledger{Girder: ledger.Girder{Length: 40, Pieces: []ledger.Piece{{To: 40, Section: rectangle(t, 0.5, 1, -0.25, 0)}, {To: 40, Section: rectangle(t, 0.5, 1, 0.25, 0)}},
		Tendons: []ledger.Tendon{straight(t, point{0, -0.25, 0.5}, point{40, -0.25, 0.5}, 1e-3, 0)}}}
	both := state(l, 0, 1)
	jack(l, both, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	d := demand(t, l, situation(l), fixed)
	own, other := 1.5*math.Hypot(0.25, 0.5), 15.0 // ten times the depth by 2/3
	require.InDelta(t, other, l.Zones()[0].End, 1e-9)
	for _, x := range []float64{0.5, 1.2, 5, 10, 18} {
		k, p := stretchOf(t, l, x)
		n := 0
		for i, s := range p.At {
			if math.Abs(s.X-x) < math.Abs(p.At[n].X-x) {
				n = i
			}
		}
		at := p.At[n].X
		// Eccentric by 0.25 m of a width of 1 m: −P·(1 − 6·0.25·2·y/1) on the right side y = 0.5 it is +0.5·P/A.
		for piece, want := range []float64{own, other} {
			low, err := d.ExtremeAt(k, n, -1, func(c ledger.Corner) bool { return c.Slot == piece && (c.At.Y == 0.5) == (piece == 1) })
			require.NoError(t, err)
			require.Equal(t, at < want, len(low.Apart) == 1, "piece %d at %g", piece, at)
		}
	}
}

// A grip that is set later is that of the section from then on.
func TestGripSetLater(t *testing.T) {
	l := one(10, rectangle(t, 0.5, 1.2, 0, 0), straight(t, point{0, 0, 0.2}, point{10, 0, 0.2}, 2e-3, 0))
	on := &ledger.State{Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true}, Modulus: ecm}
	l.States = []*ledger.State{on}
	require.InDelta(t, 0.6+2e-3*(ep/ecm-1), l.Section(1, on).Area, 1e-12)
	l.Hold(0, &ledger.Grip{Area: func(x float64) float64 { // half of the strands debonded over 3 m
		if x < 3 {
			return 1e-3
		}
		return 2e-3
	}, Shares: func(float64) (float64, float64) { return 1, 1 }})
	require.InDelta(t, 0.6+1e-3*(ep/ecm-1), l.Section(1, on).Area, 1e-12)
	require.InDelta(t, 0.6+2e-3*(ep/ecm-1), l.Section(5, on).Area, 1e-12)
	l.Girder.Breaks = []float64{3}
	l.Steps = []ledger.Step{{Tendons: []int{0}, States: []*ledger.State{on}, Bonded: on.Bonded, Modulus: func(int) float64 { return ecm },
		Force: []func(float64) float64{func(x float64) float64 {
			if x < 3 {
				return 0.7e6
			}
			return 1.4e6
		}}}}
	require.NoError(t, l.MakeGrid())
	require.Empty(t, l.Zones(), "nothing uncertain over any length")
	s := situation(l)
	for _, x := range []float64{1, 5} {
		p, area := 1.4e6, 2e-3
		if x < 3 {
			p, area = 0.7e6, 1e-3
		}
		of := l.Section(x, on)
		stress := of.Stress(ledger.About(section.Forces{N: -p, My: p * 0.2}, of.Centroid), section.Point{Z: 0.2})
		force, _ := l.TendonForce(s, x, 0)
		require.InDelta(t, p+ep/ecm*stress*area, force, 1e-3, "the loss is of the steel that is gripped")
	}
}

// What cannot be asked is refused: a range turned round, an index of no cause, more
// outer causes with a range than can be tried; ten of them can.
func TestDemandsThatAreRefused(t *testing.T) {
	l := one(10, rectangle(t, 0.5, 1.2, 0, 0))
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	_, err := l.Demand(situation(l), []ledger.Cause{{Least: 1.1, Most: 0.9, Outer: true}})
	require.ErrorIs(t, err, ledger.ErrLedger)
	_, err = l.Demand(situation(l, ledger.Entry{State: on, Field: level(section.Forces{}), Inner: 3}), []ledger.Cause{fixed, fixed})
	require.ErrorIs(t, err, ledger.ErrLedger)
	for ranged, good := range map[int]bool{10: true, 11: false} {
		causes := []ledger.Cause{fixed}
		entry := ledger.Entry{State: on, Field: level(section.Forces{My: 1e5}), Coefficient: 1, Inner: -1}
		for i := range ranged {
			causes = append(causes, ledger.Cause{Least: 0.9, Most: 1.1, Outer: true})
			entry.Outer = append(entry.Outer, i+1)
		}
		causes = append(causes, fixed, fixed) // without a range they cost nothing
		d, err := l.Demand(situation(l, entry), causes)
		require.Equal(t, good, err == nil, "%d outer causes", ranged)
		if good {
			low, _, err := d.Fibres(5)
			require.NoError(t, err)
			w := 0.5 * 1.2 * 1.2 / 6
			require.InEpsilon(t, 1e5/w*math.Pow(1.1, 10), low[1], 1e-9)
			require.InEpsilon(t, 1e5/w*math.Pow(0.9, 10), low[0], 1e-9)
		}
	}
}

// Corners that do not count are not looked at, also where they are the extreme ones;
// without any nothing is found.
func TestCornersThatCount(t *testing.T) {
	shape := lopsided(t, 1)
	l := one(10, shape)
	l.Girder.Breaks = []float64{4}
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	p := shape.Properties()
	f := section.Forces{My: 3e5, Mz: -1e5}
	d := demand(t, l, situation(l, plain(on, level(f))), fixed)
	for i, only := range shape.Corners() {
		for _, sign := range []float64{1, -1} {
			w, err := d.Extreme(sign, 0, func(_ *ledger.Stretch, c ledger.Corner) bool { return c.At == only })
			require.NoError(t, err)
			require.Equal(t, only, w.At)
			require.InDelta(t, p.Stress(f, only), w.Value, 1e-3, "corner %d", i)
		}
	}
	none, err := d.Extreme(1, 0, func(*ledger.Stretch, ledger.Corner) bool { return false })
	require.NoError(t, err)
	require.False(t, none.Found)
	left, err := d.Extreme(1, 0, func(s *ledger.Stretch, c ledger.Corner) bool { return s.Middle() < 5 && c.At.Y < 0 })
	require.NoError(t, err)
	most := math.Inf(-1)
	for _, c := range shape.Corners() {
		if c.Y < 0 {
			most = math.Max(most, p.Stress(f, c))
		}
	}
	require.InDelta(t, most, left.Value, 1e-3)
	require.Less(t, left.X, 4.0)
}
