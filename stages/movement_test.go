package stages_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// mix is a concrete with creep; its steel does not relax in these tests.
func mix() concrete.EN1992 {
	return concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3, DryingFrom: 3}}
}

// rectangle is a section b wide and h deep, its lower edge at z = 0.
func rectangleShape(t testing.TB, b, h float64) section.Shape {
	s, err := section.New([]section.Outline{{{Y: -b / 2}, {Y: b / 2}, {Y: b / 2, Z: h}, {Y: -b / 2, Z: h}}}, nil)
	require.NoError(t, err)
	return s
}

// without is a strand whose steel is of no stated class and so does not relax.
var without = tendon.Strand{Name: "invented", Area: 150e-6, Fpk: 1860e6, Fp01k: 1600e6, Modulus: 195e9}

// plainTendon runs without friction along a curve.
func plainTendon(strands int, elevation, plan tendon.Curve) tendon.Tendon {
	return tendon.Tendon{
		Mark: "T", Strand: without, NoFriction: true, Strands: strands, Duct: duct, Elevation: elevation, Plan: plan,
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}
}

func straightLine(length, left, right float64) tendon.Curve {
	return tendon.Curve{tendon.Straight(tendon.Point{X: 0, Ordinate: left}, tendon.Point{X: length, Ordinate: right})}
}

// beamOf is a 20 m beam, 0.5 × 1 m, with one tendon.
func beamOf(t testing.TB, long bool, tendons ...tendon.Tendon) stages.Element {
	e := stages.Element{
		Mark: "B", Length: 20, Section: rectangleShape(t, 0.5, 1), WeightTolerance: loads.PlusMinus(0.03), Concrete: mix(), Tendons: tendons,
	}
	if long {
		e.LongTerm = mix()
	}
	return e
}

const (
	beamWeight = 0.5 * 25e3 // N/m
	duct       = 0.06       // m

	// inward is how far nodes at the ends of stretches lie inside (ledger.Inset, of the
	// length), which moves a deflection by a few times as much.
	inward = 5e-8
)

// net is area, level of the centroid and second moment of the beam with its duct
// out at the level z.
func net(z float64) (area, centroid, inertia float64) {
	hole := math.Pi * duct * duct / 4
	area = 0.5 - hole
	centroid = (0.25 - hole*z) / area
	return area, centroid, 0.5/12 + 0.5*(0.5-centroid)*(0.5-centroid) - hole*(z-centroid)*(z-centroid) - math.Pi*math.Pow(duct/2, 4)/4
}

func jackT(stress float64) []tendon.Jacking {
	return []tendon.Jacking{{Tendons: []string{"T"}, Stress: stress, Ends: tendon.LeftEnd}}
}

func moved(t testing.TB, plan stages.Plan, subject stages.Subject, stage, situation int) *stages.Movement {
	t.Helper()
	a, err := plan.Analyse(subject, limits.EN1992{})
	require.NoError(t, err)
	return movedIn(t, a, stage, situation)
}

func movedIn(t testing.TB, a *stages.Analysis, stage, situation int) *stages.Movement {
	t.Helper()
	e, err := a.Effects(stage, situation)
	require.NoError(t, err)
	list, err := e.Moves()
	require.NoError(t, err)
	require.NotEmpty(t, list)
	return list[0]
}

// modulus is E of the mix at an age (Pa).
func modulus(t testing.TB, age float64) float64 {
	state, err := mix().At(age)
	require.NoError(t, err)
	return state.Modulus
}

// phi is φ/E_φ of the mix (1/Pa), with E_φ that of [tendon.CreepModulus].
func phi(t testing.TB, age, loaded float64) float64 {
	creep, err := mix().Creep(age, loaded)
	require.NoError(t, err)
	e, err := tendon.CreepModulus(mix(), loaded)
	require.NoError(t, err)
	return creep / e
}

// A straight tendon at an eccentricity e bends to P·e·L²/(8EI), the weight to
// −5qL⁴/(384EI), each on the concrete of the day.
func TestMoveOfStraightTendonElastic(t *testing.T) {
	e := beamOf(t, false, plainTendon(10, straightLine(20, 0.2, 0.2), straightLine(20, 0, 0)))
	m := moved(t, stages.Plan{stages.Transfer{Age: 5, Jacking: jackT(1300e6)}}, e, 1, 1)
	area, centroid, inertia := net(0.2)
	force, ei := 10*150e-6*1300e6, modulus(t, 5)*inertia
	up := force * (centroid - 0.2) * 400 / 8 / ei
	down := 5 * beamWeight * 160000 / 384 / ei
	at := m.At(10)
	require.InDelta(t, up-down, at.Deflection, inward*up)
	require.Equal(t, at.Deflection, at.Least, "without creep there is no band")
	require.Equal(t, at.Deflection, at.Most)
	require.False(t, m.Creep)
	require.Zero(t, m.At(0).Deflection)
	require.InDelta(t, 0, m.At(20).Deflection, 1e-15)
	require.InDelta(t, 0, at.Bow, 1e-15)
	// The axis y = z = 0 is the lower edge: σ = −P/A − P·e·zs/I + M·zs/I.
	stress := -force/area - force*(centroid-0.2)*centroid/inertia
	weight := beamWeight * 400 / 12 * centroid / inertia // mean of qx(L−x)/2
	require.InEpsilon(t, 20*(stress+weight)/modulus(t, 5), m.At(20).Along, inward)
}

// With creep: the tendon and the weight came at once, the loss grew.
func TestMoveOfStraightTendonWithCreep(t *testing.T) {
	e := beamOf(t, true, plainTendon(10, straightLine(20, 0.2, 0.2), straightLine(20, 0, 0)))
	a, err := stages.Plan{
		stages.Transfer{Age: 5, Jacking: jackT(1300e6)},
		stages.Store{Age: 6, Until: 60, On: stages.At(0, 20)},
	}.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	record, err := a.Record()
	require.NoError(t, err)
	end := record.Stages[1].Situations[1]
	require.Equal(t, 60.0, end.Age)

	// The weight was on its supports from day 5; the change to those of day 6 is none.
	force := 10 * 150e-6 * 1300e6
	_, centroid, inertia := net(0.2)
	elastic, creep := 1/modulus(t, 5), phi(t, 60, 5)
	up := force * (centroid - 0.2) * 400 / 8 / inertia
	down := 5 * beamWeight * 160000 / 384 / inertia
	// The loss along the tendon from the record's own forces, integrated with the
	// lever of the unit-load method about mid-span (Simpson on its 24 parts).
	effects, err := a.Effects(2, 2)
	require.NoError(t, err)
	sum := 0.0
	for i := range 25 {
		x := 20 * float64(i) / 24
		weight := []float64{2, 4}[i%2]
		if i == 0 || i == 24 {
			weight = 1
		}
		lever := math.Min(x, 20-x) / 2
		loss := force + effects.Forces(x).N // a straight tendon
		sum += weight * lever * loss * (centroid - 0.2) / inertia * 20 / 24 / 3
	}
	wantElastic := (up-down)*elastic - sum*elastic
	wantCreep := (up-down)*creep - sum*0.8*creep
	got := movedIn(t, a, 2, 2).At(10)
	require.InEpsilon(t, wantElastic+wantCreep, got.Deflection, 2e-6) // Simpson, six digits of the record
	require.InEpsilon(t, wantElastic+0.7*wantCreep, got.Least, 2e-6)
	require.InEpsilon(t, wantElastic+1.3*wantCreep, got.Most, 2e-6)
	require.Greater(t, sum*elastic, 0.02*got.Deflection, "the loss is no rounding here")
	first := movedIn(t, a, 1, 1).At(10)
	require.InEpsilon(t, (up-down)*elastic, first.Deflection, inward)
	// shrinkage shortens beside the stress
	shrinkage, err := mix().Shrinkage(60)
	require.NoError(t, err)
	require.Less(t, movedIn(t, a, 2, 2).At(20).Along, -20*shrinkage.Total)
	require.NotContains(t, end.MoveNotes, "without creep and shrinkage: no element has a LongTerm model")
}

// A parabola of the sag f balances 8Pf/L²: what balances the weight leaves the beam
// straight, but for the duct (0.6 %) and cos α (0.1 %), which the test integrates by
// itself.
func TestMoveOfDrapedTendonBalances(t *testing.T) {
	const sag = 0.25
	drape := tendon.Drape(tendon.Point{X: 0, Ordinate: 0.5}, 1e-3, tendon.Point{X: 10, Ordinate: 0.5 - sag}, 20)
	force := beamWeight * 400 / 8 / sag
	e := beamOf(t, false, plainTendon(12, drape, straightLine(20, 0, 0)))
	down := 5 * beamWeight * 160000 / 384 / modulus(t, 5) / (0.5 / 12)
	for _, factor := range []float64{1, 0.7} {
		m := moved(t, stages.Plan{stages.Transfer{Age: 5, Jacking: jackT(factor * force / (12 * 150e-6))}}, e, 1, 1)
		want := 0.0
		const parts = 4000
		for i := range parts {
			x := 20 * (float64(i) + 0.5) / parts
			z, slope := 0.25+sag*math.Pow(1-x/10, 2), -0.05*(1-x/10)
			_, centroid, inertia := net(z)
			moment := beamWeight*x*(20-x)/2 - factor*force/math.Hypot(1, slope)*(centroid-z)
			want -= math.Min(x, 20-x) / 2 * moment / inertia / modulus(t, 5) * 20 / parts
		}
		require.InDelta(t, want, m.At(10).Deflection, 2e-5*down) // straight on the first millimetre
		require.InDelta(t, (factor-1)*down, m.At(10).Deflection, 0.007*down)
	}
}

// 30 mm over the ends is 22.5 mm over pads at a quarter of the parabola: w(x) =
// 4f·x(L−x)/L² less its value over the pads.
func TestMoveIsReferredToTheSupportsOfTheDay(t *testing.T) {
	e := beamOf(t, false, plainTendon(10, straightLine(20, 0.2, 0.2), straightLine(20, 0, 0)))
	force := 10 * 150e-6 * 1300e6
	plan := func(x1, x2 float64) stages.Plan {
		return stages.Plan{stages.Transfer{Age: 5, Jacking: jackT(1300e6)}, stages.Store{Age: 5, On: stages.At(x1, x2)}}
	}
	_, centroid, inertia := net(0.2)
	ei := modulus(t, 5) * inertia
	curvature := force * (centroid - 0.2) / ei
	for _, on := range [][2]float64{{0, 20}, {2, 18}, {1, 15}} {
		m := moved(t, plan(on[0], on[1]), e, 2, 1)
		free := func(x float64) float64 { // prestress: parabola; weight on overhanging supports by Macaulay
			a, b := on[0], on[1]
			left := beamWeight * 20 * (b - 10) / (b - a)
			right := beamWeight*20 - left
			step := func(x float64) float64 { return math.Pow(math.Max(0, x), 3) / 6 }
			return -curvature*x*x/2 + (left*step(x-a)+right*step(x-b)-beamWeight*x*x*x*x/24)/ei
		}
		for _, x := range []float64{0, 3.3, 10, 14.2, 20} {
			line := free(on[0]) + (free(on[1])-free(on[0]))*(x-on[0])/(on[1]-on[0])
			require.InDelta(t, free(x)-line, m.At(x).Deflection, 1e-9, "supports %v, x = %g m", on, x)
		}
		require.InDelta(t, 0, m.At(on[0]).Deflection, 1e-14)
		require.InDelta(t, 0, m.At(on[1]).Deflection, 1e-14)
	}
}

// Linked supports are at zero in their mean.
func TestMoveOverLinkedSupports(t *testing.T) {
	e := beamOf(t, false, plainTendon(10, straightLine(20, 0.2, 0.2), straightLine(20, 0, 0)))
	on := append(stages.Equalised("left", stages.At(1, 4)...), stages.At(17)...)
	m := moved(t, stages.Plan{stages.Transfer{Age: 5, Jacking: jackT(1300e6)}, stages.Store{Age: 6, On: on}}, e, 2, 1)
	require.InDelta(t, 0, m.At(1).Deflection+m.At(4).Deflection, 1e-15)
	require.Greater(t, math.Abs(m.At(1).Deflection), 1e-4)
	require.InDelta(t, 0, m.At(17).Deflection, 1e-15)
}

// A cantilever is zero and level at its fixed support.
func TestMoveOfCantilever(t *testing.T) {
	e := beamOf(t, false, plainTendon(10, straightLine(20, 0.8, 0.8), straightLine(20, 0, 0)))
	on := []stages.Support{{X: 0, Fixed: true}}
	m := moved(t, stages.Plan{stages.Transfer{Age: 5, Jacking: jackT(1300e6), On: on}}, e, 1, 1)
	_, centroid, inertia := net(0.8)
	ei := modulus(t, 5) * inertia
	want := 10*150e-6*1300e6*(0.8-centroid)*400/2/ei - beamWeight*160000/8/ei // eccentric upwards: the tip rises
	require.InDelta(t, want, m.At(20).Deflection, 1e-9)
	up, _ := m.Slopes(0)
	require.Zero(t, up)
	moves := m.Moves()
	require.Equal(t, "left end", moves[0].Place)
	require.Equal(t, "right end", moves[len(moves)-1].Place)
}

// The record has the movements as rows, and says what they leave out; there are
// none while the element hangs.
func TestMovesInTheRecord(t *testing.T) {
	line := plainTendon(10, straightLine(20, 0.2, 0.2), straightLine(20, 0.1, 0.1))
	plan := stages.Plan{
		stages.Transfer{Age: 5, Jacking: jackT(1300e6)},
		stages.Lift{Age: 6, On: stages.At(2, 17), Dynamic: loads.Dynamic{Most: 1.1}},
		stages.Store{Age: 6, On: stages.At(2, 17)},
		stages.Store{Age: 9, On: stages.Pads(0.2, 2, 10, 17)},
	}
	a, err := plan[:3].Analyse(beamOf(t, false, line), limits.EN1992{})
	require.NoError(t, err)
	record, err := a.Record()
	require.NoError(t, err)
	store := record.Stages[2].Situations[0]
	require.Contains(t, store.MoveNotes, "without creep and shrinkage: no element has a LongTerm model")
	require.Equal(t, []string{"body", "x", "deflection", "least", "most", "bow", "along"}, store.Moves.Columns)
	m := movedIn(t, a, 3, 1)
	var places []string
	for i, v := range m.Moves() {
		row := store.Moves.Values[i]
		require.InDeltaSlice(t, []float64{1, v.X, v.Deflection, v.Least, v.Most, v.Bow, v.Along}, row, 5e-5) // six digits of 20 m
		require.InEpsilon(t, 1+v.Deflection, 1+row[2], 1e-8)
		places = append(places, v.Place)
	}
	require.Equal(t, []string{"left end", "support", "mid-span", "highest", "support", "right end"}, slices.DeleteFunc(places, func(s string) bool { return s == "largest bow" }))
	highest := m.Moves()[slices.IndexFunc(m.Moves(), func(v stages.Move) bool { return v.Place == "highest" })]
	up, _ := m.Slopes(highest.X)
	require.InDelta(t, 0, up, 1e-12)
	require.Greater(t, highest.Deflection, m.At(9.5).Deflection)

	require.Empty(t, record.Stages[1].Situations[0].Moves.Values)
	hanging, err := a.Effects(2, 1)
	require.NoError(t, err)
	none, err := hanging.Moves()
	require.NoError(t, err)
	require.Empty(t, none)

	bounded, err := plan.Run(beamOf(t, true, line), limits.EN1992{})
	require.NoError(t, err)
	require.Contains(t, strings.Join(bounded.Stages[3].Situations[0].MoveNotes, "; "), "nothing is stated")
}

// More creep gives more camber and less: the band holds the mean.
func TestBandOfCreep(t *testing.T) {
	e := beamOf(t, true, plainTendon(10, straightLine(20, 0.2, 0.2), straightLine(20, 0, 0)))
	a, err := stages.Plan{stages.Transfer{Age: 5, Jacking: jackT(1300e6)}, stages.Store{Age: 6, Until: 200, On: stages.At(1.5, 18)}}.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	m := movedIn(t, a, 2, 2)
	for x := 0.0; x <= 20; x += 0.5 {
		v := m.At(x)
		require.LessOrEqual(t, v.Least, v.Deflection)
		require.GreaterOrEqual(t, v.Most, v.Deflection)
		require.InDelta(t, v.Deflection, (v.Least+v.Most)/2, 1e-15)
	}
	require.Greater(t, m.At(10).Most-m.At(10).Least, 0.2*m.At(10).Deflection)
}

// A segment that is joined to a cantilever without supports of its own goes on in
// its tangent: the second 10 m hang on the slope that the first had taken by its own
// weight, and bend both by theirs.
func TestMatchCastSegmentGoesOnInTheTangent(t *testing.T) {
	a, b := beamOf(t, false), beamOf(t, false)
	a.Mark, b.Mark, a.Length, b.Length = "S1", "S2", 10, 10
	girder := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Epoxied, a, b)}
	girder.Pieces[1].Later = true
	on := []stages.Support{{X: 0, Role: stages.Bearing, Fixed: true}}
	plan := stages.Plan{listed{
		{Name: "first", Age: 10, Standing: true, Supports: on},
		{Name: "second", Age: 25, Standing: true, Supports: on, Events: []stages.Event{{Add: []string{"S2"}, Join: []string{"S2"}}}},
	}}
	m := moved(t, plan, girder, 1, 2)
	const inertia = 0.5 / 12
	young, old := modulus(t, 10)*inertia, modulus(t, 25)*inertia
	// first alone: −qL⁴/8EI with the slope −qL³/6EI; second: ∫M·lever/EI
	tip := -beamWeight*10000/8/young - 10*beamWeight*1000/6/young - beamWeight*(15833+1.0/3+1250)/old
	require.InEpsilon(t, tip, m.At(20).Deflection, inward)
	left, _ := m.Slopes(10 - 1e-6)
	right, _ := m.Slopes(10)
	require.InDelta(t, left, right, 1e-9)
	require.Contains(t, m.Moves(), func() stages.Move { v := m.At(10); v.Place = "joint"; return v }())
}
