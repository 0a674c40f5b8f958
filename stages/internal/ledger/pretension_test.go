package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// strands is a rectangle of 0.5 × 1.2 m, 12 m long, with strands on a line whose force
// of 1 MN comes in over 1 m at the left end and over 2 m at the right one: 0.8 to 1.2
// times as long.
type strands struct {
	*ledger.Ledger
	on, alone *ledger.State // transformed, and the concrete beside the strands
}

// comes is how much of the force is there at x by a transmission length that is f
// times the basic one.
func comes(x, f float64) float64 { return math.Min(1, math.Min(x/(1*f), (12-x)/(2*f))) }

const gripped = 1e-3 // m²

func pretensioned(t testing.TB, from, to float64) strands {
	l := one(12, rectangle(t, 0.5, 1.2, 0, 0), straight(t, point{0, 0, from}, point{12, 0, to}, gripped, 0))
	grip := &ledger.Grip{Area: func(float64) float64 { return gripped }, Left: 1.2, Right: 2.4,
		Shares: func(x float64) (least, most float64) {
			return comes(x, 1.2) / comes(x, 1), comes(x, 0.8) / comes(x, 1)
		}}
	l.Hold(0, grip)
	l.Girder.Breaks = []float64{0.3, 0.5, 0.8, 1, 12 - 2, 12 - 1.6}
	on := &ledger.State{Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true}, Modulus: ecm}
	l.States = []*ledger.State{on}
	l.Steps = []ledger.Step{{Tendons: []int{0}, States: []*ledger.State{on}, Bonded: []bool{true}, Modulus: func(int) float64 { return ecm },
		Force: []func(float64) float64{func(x float64) float64 { return 1e6 * comes(x, 1) }}}}
	alone := &ledger.State{Index: 1, Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true}, SteelOut: true}
	l.States = append(l.States, alone)
	l.Lasting = []ledger.Lasting{{Name: "release", Step: 0}}
	require.NoError(t, l.MakeGrid())
	return strands{l, on, alone}
}

// The force just before release acts on the transformed section, and the steel loses
// Ep/Ecm times the stress of the concrete beside it.
func TestReleaseOnTheTransformedSection(t *testing.T) {
	g := pretensioned(t, 0.2, 0.2)
	extra := (ep/ecm - 1) * gripped
	area := 0.6 + extra
	z := (0.36 + extra*0.2) / area
	iy := 0.5*1.2*1.2*1.2/12 + 0.6*(0.6-z)*(0.6-z) + extra*(0.2-z)*(0.2-z) + (ep/ecm-1)*gripped*gripped/(4*math.Pi)
	require.InDelta(t, iy, g.Section(6, g.on).SecondMomentY, 1e-12)
	s := situation(g.Ledger)
	for _, x := range []float64{0.5, 6, 11} {
		p := 1e6 * comes(x, 1)
		stress := -p/area - p*(0.2-z)*(0.2-z)/iy
		force, elastic := g.TendonForce(s, x, 0)
		require.InDelta(t, p+ep/ecm*stress*gripped, force, 1e-3, "at %g", x)
		require.InDelta(t, -ep/ecm*stress*gripped, elastic, 1e-3)
		plane := g.Plane(s, x, []float64{1})
		require.InDelta(t, -p/area-p*(0.2-z)*(1.2-z)/iy, plane.At(section.Point{Z: 1.2}), 1e-3)
		require.InDelta(t, -p, g.At(x).PrestressForces(0, 1).N, 1e-3)
		items := g.Items(s, x, []float64{1}, nil)
		require.Len(t, items, 1)
		require.InDelta(t, p, items[0].Force, 1e-3, "the loss is in the transformed section")
	}
}

// Within the transmission lengths the force is between that by the long and by the
// short one, on the whole section alike, and each end has its own length.
func TestForceWithinTheTransmissionLengths(t *testing.T) {
	g := pretensioned(t, 0.6, 0.6) // in the middle
	area := 0.6 + (ep/ecm-1)*gripped
	s := situation(g.Ledger)
	d := demand(t, g.Ledger, s, ledger.Cause{Least: 0.9, Most: 1.1, Outer: true})
	seen := 0
	for k, p := range g.Grid() {
		for n, at := range p.At {
			up, err := d.ExtremeAt(k, n, 1, func(ledger.Corner) bool { return true })
			require.NoError(t, err)
			down, err := d.ExtremeAt(k, n, -1, func(ledger.Corner) bool { return true })
			require.NoError(t, err)
			require.InDelta(t, -0.9*1e6*comes(at.X, 1.2)/area, up.Value, 10, "at %g", at.X)
			require.InDelta(t, -1.1*1e6*comes(at.X, 0.8)/area, down.Value, 10, "at %g", at.X)
			if at.X < 1.2 || at.X > 12-2.4 {
				require.Len(t, up.Apart, 1)
				require.Zero(t, up.Apart[0].Factor)
				require.Equal(t, 1.0, down.Apart[0].Factor)
				items := g.Items(s, at.X, up.Factors, up.Apart)
				require.InDelta(t, comes(at.X, 1.2)/comes(at.X, 1), items[0].Factor[1], 1e-9)
				require.Equal(t, []int{prestress, -1}, items[0].Causes)
				seen++
			} else {
				require.Empty(t, up.Apart)
			}
		}
	}
	require.Greater(t, seen, 20)
	zones := g.Zones()
	require.Len(t, zones, 2)
	require.Equal(t, [2]float64{1.2, 9.6}, [2]float64{zones[0].End, zones[1].End})
}

// What rising strands carry of V within the transmission length is that of the long
// one where it helps and of the short one where it harms.
func TestShearWithinTheTransmissionLength(t *testing.T) {
	g := pretensioned(t, 0.2, 0.8)
	shape := g.Girder.Pieces[0].At(0)
	rise := 1e6 * 0.05 / math.Hypot(1, 0.05)
	const v = 6e5
	for _, sign := range []float64{1, -1} {
		f := centred(t, shape, section.Forces{Vz: sign * v})
		s := situation(g.Ledger, plain(g.on, level(f)))
		w := wall(t, g.Ledger, s, false)
		want := v // at the very end nothing has come where it helps
		if sign > 0 {
			want = v + rise // the full force harms anywhere behind the lengths
		}
		require.InEpsilon(t, 1.5*want/(0.5*1.2), w.Value, 0.01)
		if sign < 0 {
			require.True(t, w.X < 1e-3 || w.X > 12-1e-3)
		}
	}
}

// Inside the transmission length rising strands carry of V no more than is sure to have
// come: V between 0.3 and 0.5 m, by the long length 0.25 of the force at 0.3 m.
func TestShearHelpedByWhatIsSure(t *testing.T) {
	g := pretensioned(t, 0.2, 0.8)
	l, on := g.Ledger, g.on
	shape := l.Girder.Pieces[0].At(0)
	rise := 1e6 * 0.05 / math.Hypot(1, 0.05)
	f := centred(t, shape, section.Forces{Vz: -2e5})
	_, at := stretchOf(t, l, 0.4)
	s := situation(l, plain(on, &law{func(x float64) section.Forces {
		if x < at.From || x > at.To {
			return section.Forces{}
		}
		return f
	}}))
	w := wall(t, l, s, false)
	require.Less(t, w.X, at.To)
	require.InEpsilon(t, 1.5*(2e5-rise*comes(at.From, 1.2))/(0.5*1.2), w.Value, 5e-3)
}

// Losses of strands take of the sure and of the uncertain part alike.
func TestLossesWithinTheTransmissionLength(t *testing.T) {
	g := pretensioned(t, 0.6, 0.6)
	s := situation(g.Ledger)
	s.Times = []*ledger.Time{{Since: [][]float64{{0}}, Modulus: []float64{ecm}, Days: []float64{40}, Periods: []tendon.Period{over(t, 2, 4e-4, tendon.Relaxing{})}, Concrete: g.alone}}
	s.Lay()
	loss := equation(4e-4, 0, 0, 2, gripped, 0, 0.6, 0.5*1.2*1.2*1.2/12) * gripped
	require.InDelta(t, loss, g.TimeLosses(s, 6, 0).Total()*gripped, 1e-3)
	d := demand(t, g.Ledger, s, fixed)
	whole, net := 0.6+(ep/ecm-1)*gripped, 0.6-gripped
	for _, x := range []float64{0.4, 0.9, 10.5} {
		k, p := stretchOf(t, g.Ledger, x)
		at := p.At[4].X
		up, err := d.ExtremeAt(k, 4, 1, func(ledger.Corner) bool { return true })
		require.NoError(t, err)
		down, err := d.ExtremeAt(k, 4, -1, func(ledger.Corner) bool { return true })
		require.NoError(t, err)
		least, most := comes(at, 1.2)/comes(at, 1), comes(at, 0.8)/comes(at, 1)
		require.InDelta(t, least*(-1e6*comes(at, 1)/whole+loss/net), up.Value, 10)
		require.InDelta(t, most*(-1e6*comes(at, 1)/whole+loss/net), down.Value, 10)
	}
}

// Strands released one group after the other come to the same as all at once: each
// group is strained by the other's release, before or after its own.
func TestStrandsReleasedInTurn(t *testing.T) {
	build := func(steps ...[]int) (*ledger.Ledger, *ledger.Situation) {
		l := one(12, rectangle(t, 0.5, 1.2, 0, 0), straight(t, point{0, 0, 0.2}, point{12, 0, 0.2}, gripped, 0), straight(t, point{0, 0, 1}, point{12, 0, 1}, gripped, 0))
		for i := range l.Girder.Tendons {
			l.Hold(i, &ledger.Grip{Area: func(float64) float64 { return gripped }, Shares: func(float64) (float64, float64) { return 1, 1 }})
		}
		on := &ledger.State{Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true, true}, Modulus: ecm}
		l.States = []*ledger.State{on}
		for _, tendons := range steps {
			step := ledger.Step{Tendons: tendons, States: l.States, Bonded: on.Bonded, Modulus: func(int) float64 { return ecm }}
			for _, i := range tendons {
				step.Force = append(step.Force, func(float64) float64 { return []float64{1.2e6, 0.5e6}[i] })
			}
			l.Steps = append(l.Steps, step)
		}
		require.NoError(t, l.MakeGrid())
		return l, situation(l)
	}
	l, s := build([]int{0, 1})
	at := section.Point{Z: 0.4}
	want := l.Plane(s, 6, []float64{1}).At(at)
	for _, steps := range [][][]int{{{0}, {1}}, {{1}, {0}}} {
		turn, by := build(steps...)
		require.InDelta(t, want, turn.Plane(by, 6, []float64{1}).At(at), 1e-3)
		for i := range 2 {
			once, _ := l.TendonForce(s, 6, i)
			twice, _ := turn.TendonForce(by, 6, i)
			require.InDelta(t, once, twice, 1e-3, "group %d of %v", i, steps)
			require.Len(t, turn.Items(by, 6, []float64{1}, nil), 2)
		}
		sum, _ := rows(turn, turn.Items(by, 6, []float64{1}, nil), 6, at)
		require.InDelta(t, want, sum, 1e-3)
	}
}

// Strands relax from their stress after release, the elastic loss taken off.
func TestStrandsRelaxFromTheirStressAfterRelease(t *testing.T) {
	g := pretensioned(t, 0.2, 0.2)
	relaxing, err := tendon.Class2.Over(40, 1860e6, 1400e6)
	require.NoError(t, err)
	s := situation(g.Ledger)
	s.Times = []*ledger.Time{{Since: [][]float64{{0}}, Modulus: []float64{ecm}, Days: []float64{40}, Periods: []tendon.Period{over(t, 2, 0, relaxing)}, Concrete: g.alone}}
	s.Lay()
	released, elastic := g.TendonForce(situation(g.Ledger), 6, 0)
	require.InDelta(t, 1e6, released+elastic, 1e-3)
	require.Greater(t, elastic, 1e4)
	want := equation(0, 0, relaxed(released/gripped, 1860e6, 40), 2, gripped, 0.2-0.6, 0.6, 0.5*1.2*1.2*1.2/12)
	require.InEpsilon(t, want, g.TimeLosses(s, 6, 0).Relaxation, 1e-9)
}
