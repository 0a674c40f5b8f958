package stages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// bedBeam has two pretensioned layers off its axis, four strands of the lower one
// sleeved, more on the left.
func bedBeam(t testing.TB) stages.Element {
	e := angleBeam(t)
	layer := func(mark string, y, z float64, groups ...tendon.Debonding) tendon.Pretension {
		return tendon.Pretension{Mark: mark, Strand: tendon.Y1860S7x125, Groups: groups, Elevation: tendon.Level(0, 16, z), Plan: tendon.Level(0, 16, y)}
	}
	e.Pretension = []tendon.Pretension{
		layer("P1", 0.15, 0.08, tendon.Debonding{Strands: 9}, tendon.Debonding{Strands: 4, Left: 1.5, Right: 0.9}),
		layer("P2", 0.02, 1.10, tendon.Debonding{Strands: 2}),
	}
	return e
}

// lengths are transmission lengths that no formula gave.
var lengths = tendon.TransmissionLength{Basic: 0.75, Short: 0.60, Long: 0.90}

func fromBed(stress float64, layers ...string) []stages.PretensionRelease {
	return []stages.PretensionRelease{{Layers: layers, Stress: stress, Jacking: 1390e6, Lengths: lengths}}
}

var twoEnds = []stages.Support{{X: 0, Y: 0.1, Role: stages.Pad}, {X: 16, Y: 0.1, Role: stages.Pad}}

// transformed is the section with so many strands gripped in each layer.
func transformed(ratio, n1, n2 float64) byHand {
	var s byHand
	s.rectangle(angle[0])
	s.rectangle(angle[1])
	for _, p := range [2][3]float64{{n1 * 93e-6, 0.15, 0.08}, {n2 * 93e-6, 0.02, 1.10}} {
		s.add((ratio-1)*p[0], p[1], p[2])
		own := (ratio - 1) * p[0] * p[0] / (4 * math.Pi) // about its own centre, as one round bar
		s.iyy, s.izz = s.iyy+own, s.izz+own
	}
	return s
}

// The force just before release acts on the transformed section: concrete and steel
// strain alike, and forces of both are in balance with what the bed held.
func TestPretensionByHand(t *testing.T) {
	e := bedBeam(t)
	const stress = 1300e6
	plan := stages.Plan{stages.Transfer{Age: 2, Pretension: fromBed(stress, "P1", "P2"), On: twoEnds}}
	ratio := 195e9 / modulusAt(t, e, 2)
	record, err := plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	a, err := plan.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	effects, err := a.Effects(1, 1)
	require.NoError(t, err)

	for _, c := range []struct{ x, n1, n2 float64 }{ // strands gripped
		{8, 13, 2}, {0.3, 9 * 0.3 / 0.75, 2 * 0.3 / 0.75}, {1.8, 9 + 4*0.3/0.75, 2}, {15.0, 9 + 4*0.1/0.75, 2},
	} {
		s := transformed(ratio, c.n1, c.n2)
		p1, p2 := stress*93e-6*c.n1, stress*93e-6*c.n2
		by := func(y, z float64) float64 { return s.stress(-p1, 0.15, 0.08, y, z) + s.stress(-p2, 0.02, 1.10, y, z) }
		// weight on simple supports: 25 kN/m³, moment about y only, on the same section
		w := 25e3 * (0.4*1.2 + 0.5*0.3)
		moment := w * c.x * (16 - c.x) / 2
		weight := func(y, z float64) float64 {
			lift := 1e3 // a couple of two forces along x, one unit of length apart in z
			return s.stress(-moment/lift, 0, lift, y, z) + s.stress(moment/lift, 0, 0, y, z)
		}
		for _, p := range [][2]float64{{-0.20, 0}, {0.70, 0.30}, {0.20, 1.20}} {
			got := effects.Stress(c.x).At(section.Point{Y: p[0], Z: p[1]})
			require.InDelta(t, by(p[0], p[1])+weight(p[0], p[1]), got, 5, "x = %g m, y = %g m", c.x, p[0])
		}
		if c.x == 8 {
			f := record.Stages[0].Situations[0].Tendons
			require.InEpsilon(t, p1+ratio*93e-6*13*by(0.15, 0.08), f[0].Middle, 1e-9)
			require.InEpsilon(t, p2+ratio*93e-6*2*by(0.02, 1.10), f[1].Middle, 1e-9)
			require.InEpsilon(t, -ratio*by(0.15, 0.08), f[0].Losses.Elastic, 1e-6)
			require.True(t, f[0].Bonded)
		}
	}
	// nothing of the strands is a hole: without them the gross section carries the
	// weight, and the record says what was pretensioned
	require.True(t, record.Tendons[0].Pretensioned)
	require.Equal(t, "release of pretensioned strands P1, P2", record.Stages[0].Situations[0].Events[0].Title)
}

// In the transmission length the worst of the long and the short value counts:
// compression by the short one, where the force is there in full first.
func TestTransmissionLengthIsARange(t *testing.T) {
	e := bedBeam(t)
	e.Pretension[0].Groups = []tendon.Debonding{{Strands: 13}}
	const stress = 1300e6
	plan := stages.Plan{stages.Transfer{Age: 2, Pretension: fromBed(stress, "P1", "P2"), On: twoEnds}}
	ratio := 195e9 / modulusAt(t, e, 2)
	record, err := plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	var worst stages.Check
	for _, c := range record.Stages[0].Situations[0].Checks {
		if c.Kind == limits.Compression {
			worst = c
		}
	}
	require.InDelta(t, 0.60, math.Min(worst.X, 16-worst.X), 1e-6)
	r, shares := 1.0, 0
	for _, f := range worst.Factors {
		if f.Cause == "prestress" {
			r = f.Value
		}
		if strings.HasPrefix(f.Cause, "force of P1") {
			require.Equal(t, 1.0, f.Value)
			shares++
		}
		if strings.HasPrefix(f.Cause, "force of P2") { // above the middle: the less the worse below
			require.Equal(t, 0.0, f.Value)
			shares++
		}
	}
	require.Equal(t, 2, shares)
	s := transformed(ratio, 13*0.8, 2*0.8)
	w := 25e3 * (0.4*1.2 + 0.5*0.3)
	moment := w * 0.6 * 15.4 / 2
	least := math.Inf(1)
	for _, p := range [][2]float64{{-0.20, 0}, {0.70, 0}, {0.70, 0.30}, {0.20, 0.30}, {0.20, 1.20}, {-0.20, 1.20}} {
		prestress := s.stress(-stress*93e-6*13, 0.15, 0.08, p[0], p[1]) + s.stress(-stress*93e-6*2*0.6/0.9, 0.02, 1.10, p[0], p[1])
		weight := s.stress(-moment/1e3, 0, 1e3, p[0], p[1]) + s.stress(moment/1e3, 0, 0, p[0], p[1])
		least = math.Min(least, r*prestress+weight)
	}
	require.InDelta(t, -least, worst.Demand.Value, 20)
	require.NotEmpty(t, worst.Tables)
	found := false
	for _, words := range record.Stages[0].Situations[0].NotChecked {
		found = found || strings.Contains(words, "dispersion length, 1.50 m") // √(0.9² + 1.2²)
	}
	require.True(t, found)
}

// By time the force acts on the concrete beside the steel; relaxation starts from
// the stress after the elastic loss.
func TestPretensionLosesByTime(t *testing.T) {
	e := bedBeam(t)
	mix := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.25, DryingFrom: 1}}
	e.Concrete, e.LongTerm = mix, mix
	plan := stages.Plan{
		stages.Transfer{Age: 2, Pretension: fromBed(1300e6, "P1", "P2"), On: twoEnds},
		stages.Store{Age: 3, Until: 60, On: twoEnds},
	}
	record, err := plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	first, last := record.Stages[0].Situations[0].Tendons[0], record.Stages[1].Situations[1].Tendons[0]
	l := last.Losses
	require.InEpsilon(t, first.Middle-(l.Shrinkage+l.Creep+l.Relaxation)*13*93e-6, last.Middle, 1e-9)
	require.Greater(t, l.Creep, 10e6)

	// (5.46) at mid-length by hand, the stresses those of the record
	a, err := plan.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	effects, err := a.Effects(1, 1)
	require.NoError(t, err)
	ratio := 195e9 / modulusAt(t, e, 2)
	phi := func(from float64) float64 {
		v, err := mix.Creep(60, from)
		require.NoError(t, err)
		return v
	}
	sigma := effects.Stress(8).At(section.Point{Y: 0.15, Z: 0.08})
	state28, err := mix.At(28)
	require.NoError(t, err)
	relaxing, err := tendon.Class2.Loss(first.Middle/(13*93e-6), 1860e6, 58)
	require.NoError(t, err)
	begin, err := mix.Shrinkage(2)
	require.NoError(t, err)
	end, err := mix.Shrinkage(60)
	require.NoError(t, err)
	centreY, centreZ := (13*0.15+2*0.02)/15, (13*0.08+2*1.10)/15
	gross := transformed(1, 0, 0)
	stiff := gross.stress(15*93e-6, centreY, centreZ, centreY, centreZ)
	divisor := 1 + stiff*195e9/state28.Modulus*(1+0.8*phi(2))
	require.NotZero(t, ratio)
	require.InEpsilon(t, 195e9*(end.Total-begin.Total)/divisor, l.Shrinkage, 1e-6)
	require.InEpsilon(t, -phi(2)*sigma*195e9/state28.Modulus/divisor, l.Creep, 1e-6)
	require.InEpsilon(t, 0.8*relaxing/divisor, l.Relaxation, 1e-6)
}

// Layers released one after the other come to the same as all at once.
func TestPretensionReleasedInTurn(t *testing.T) {
	e := bedBeam(t)
	both := stages.Plan{stages.Transfer{Age: 2, Pretension: fromBed(1300e6, "P1", "P2"), On: twoEnds}}
	turn := stages.Plan{inTurn{}}
	a, err := both.Run(e, limits.EN1992{})
	require.NoError(t, err)
	b, err := turn.Run(e, limits.EN1992{})
	require.NoError(t, err)
	for i, f := range a.Stages[0].Situations[0].Tendons {
		g := b.Stages[0].Situations[0].Tendons[i]
		require.InEpsilon(t, f.Middle, g.Middle, 1e-12)
		require.InEpsilon(t, f.Along[2][1], g.Along[2][1], 1e-12)
	}
}

type inTurn struct{}

func (inTurn) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{Name: "transfer", Age: 2, Standing: true, Phase: limits.Stressing, Supports: twoEnds, Events: []stages.Event{
		{Transfer: fromBed(1300e6, "P2")}, {Transfer: fromBed(1300e6, "P1")},
	}}}, nil
}

func TestPretensionRefused(t *testing.T) {
	e := bedBeam(t)
	run := func(e stages.Element, plan ...stages.Stage) error {
		_, err := stages.Plan(plan).Run(e, limits.EN1992{})
		return err
	}
	all := stages.Transfer{Age: 2, Pretension: fromBed(1300e6, "P1", "P2"), On: twoEnds}
	require.NoError(t, run(e, all))
	some := all
	some.Pretension = fromBed(1300e6, "P1")
	require.ErrorContains(t, run(e, some), "pretension P2 of L is still held by the bed")
	require.ErrorContains(t, run(e, stages.Store{Age: 3, On: twoEnds}), "pretension P1 of L is still held by the bed")
	twice := all
	twice.Pretension = fromBed(1300e6, "P1", "P2", "P1")
	require.ErrorContains(t, run(e, twice), "pretension P1 is released already")
	none := all
	none.Pretension = fromBed(1300e6, "P1", "P3")
	require.ErrorContains(t, run(e, none), "P3 is no pretension of the element")
	low := all
	low.Pretension = fromBed(1391e6, "P1", "P2")
	require.ErrorContains(t, run(e, low), "Jacking = 1.39e+09 Pa of [P1 P2]: must be at least Stress")
	low.Pretension = fromBed(1390e6, "P1", "P2")
	require.NoError(t, run(e, low))
	require.ErrorContains(t, run(e, all, stages.Stress{Age: 9, Jacking: []tendon.Jacking{jackTo(1200e6, tendon.LeftEnd, "P1")}}), "P1 is pretensioned: must be a tendon")
	short := bedBeam(t)
	short.Pretension[1].Elevation, short.Pretension[1].Plan = tendon.Level(0, 15.9, 1.1), tendon.Level(0, 15.9, 0.02)
	require.ErrorContains(t, run(short, all), "must be from end to end of the element, 0 to 16 m")
	near := bedBeam(t)
	near.Pretension[0].Elevation = tendon.Level(0, 16, 0.0062)
	require.ErrorContains(t, run(near, all), "its middle is 0.006 m inside the edge of the concrete: must be at least half a strand, 0.0063 m")
	near.Pretension[0].Elevation = tendon.Level(0, 16, 0.0063)
	require.NoError(t, run(near, all))
	same := bedBeam(t)
	same.Pretension[1].Mark = "P1"
	require.ErrorContains(t, run(same, all), `pretension mark "P1"`)
}
