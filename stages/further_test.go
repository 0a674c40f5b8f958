package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// angle is an outline of two rectangles, without symmetry: a stem and a foot that
// reaches to the left.
var angle = [2][4]float64{{-0.20, 0.20, 0, 1.20}, {0.20, 0.70, 0, 0.30}} // y from, to, z from, to (m)

// byHand is a section from plain sums: concrete rectangles and points of area that
// count so many times.
type byHand struct{ a, sy, sz, iyy, izz, iyz float64 } // ∫dA, ∫y, ∫z, ∫y², ∫z², ∫yz

func (s *byHand) rectangle(r [4]float64) {
	a, y, z := (r[1]-r[0])*(r[3]-r[2]), (r[0]+r[1])/2, (r[2]+r[3])/2
	s.add(a, y, z)
	s.iyy += a * math.Pow(r[1]-r[0], 2) / 12
	s.izz += a * math.Pow(r[3]-r[2], 2) / 12
}

func (s *byHand) add(a, y, z float64) {
	s.a, s.sy, s.sz, s.iyy, s.izz, s.iyz = s.a+a, s.sy+a*y, s.sz+a*z, s.iyy+a*y*y, s.izz+a*z*z, s.iyz+a*y*z
}

// hole takes out a round duct with its own second moment.
func (s *byHand) hole(d, y, z float64) {
	s.add(-math.Pi*d*d/4, y, z)
	s.iyy -= math.Pi * math.Pow(d, 4) / 64
	s.izz -= math.Pi * math.Pow(d, 4) / 64
}

// stress at (y, z) of a force along x (tension +) that acts at (py, pz): plane
// strains solved from N, ∫σy and ∫σz.
func (s byHand) stress(force, py, pz, y, z float64) float64 {
	yc, zc := s.sy/s.a, s.sz/s.a
	iyy, izz, iyz := s.iyy-s.a*yc*yc, s.izz-s.a*zc*zc, s.iyz-s.a*yc*zc
	ey, ez := py-yc, pz-zc
	det := iyy*izz - iyz*iyz
	return force * (1/s.a + ((ey*izz-ez*iyz)*(y-yc)+(ez*iyy-ey*iyz)*(z-zc))/det)
}

// angleBeam is a beam of that outline with straight tendons without friction at
// stated places.
func angleBeam(t testing.TB, list ...tendon.Tendon) stages.Element {
	shape, err := section.New([]section.Outline{{{Y: -0.20}, {Y: 0.70}, {Y: 0.70, Z: 0.30}, {Y: 0.20, Z: 0.30}, {Y: 0.20, Z: 1.20}, {Y: -0.20, Z: 1.20}}}, nil)
	require.NoError(t, err)
	return stages.Element{
		Mark: "L", Length: 16, Section: shape, WeightTolerance: loads.PlusMinus(0),
		Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}, Tendons: list,
	}
}

func evenTendon(mark string, strands int, y, z float64) tendon.Tendon {
	return tendon.Tendon{
		Mark: mark, Strand: tendon.Y1860S7x157, NoFriction: true, Strands: strands, Duct: 0.08, Elevation: tendon.Level(0, 16, z), Plan: tendon.Level(0, 16, y),
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}
}

func jackTo(stress float64, ends tendon.Ends, marks ...string) tendon.Jacking {
	return tendon.Jacking{Tendons: marks, Stress: stress, Ends: ends}
}

// modulusAt is Ecm of the beam's concrete at an age.
func modulusAt(t testing.TB, e stages.Element, age float64) float64 {
	state, err := e.Concrete.At(age)
	require.NoError(t, err)
	return state.Modulus
}

// force is the force of a tendon at mid-length in a situation of a record.
func force(t testing.TB, s stages.SituationRecord, mark string) float64 {
	for _, f := range s.Tendons {
		if f.Mark == mark {
			return f.Middle
		}
	}
	t.Fatalf("%s has no tendon %s", s.Name, mark)
	return 0
}

// prestressAt is the stress by the prestress alone: the stress less that of the
// beam without tendons stressed.
func prestressAt(t testing.TB, a *stages.Analysis, stage, situation int, x, y, z, weight float64) float64 {
	e, err := a.Effects(stage, situation)
	require.NoError(t, err)
	return e.Stress(x).At(section.Point{Y: y, Z: z}) - weight
}

// Two tendons stressed one after the other, the first then pulled further and let
// down again: each step by hand on the net section.
func TestFurtherPullsByHand(t *testing.T) {
	e := angleBeam(t, evenTendon("A", 7, 0.05, 0.90), evenTendon("B", 5, 0.45, 0.15))
	on := []stages.Support{{X: 0, Y: 0.1}, {X: 16, Y: 0.1}}
	plan := stages.Plan{
		stages.Transfer{Age: 5, Jacking: []tendon.Jacking{jackTo(1000e6, tendon.LeftEnd, "A"), jackTo(1300e6, tendon.RightEnd, "B")}, On: on},
		stages.Stress{Age: 9, Jacking: []tendon.Jacking{jackTo(1250e6, tendon.RightEnd, "A"), jackTo(620e6, tendon.BothEnds, "A")}},
	}
	var net byHand
	net.rectangle(angle[0])
	net.rectangle(angle[1])
	net.hole(0.08, 0.05, 0.90)
	net.hole(0.08, 0.45, 0.15)
	areaA, areaB := 7*150e-6, 5*150e-6
	ratio5, ratio9 := 195e9/modulusAt(t, e, 5), 195e9/modulusAt(t, e, 9)

	// stressing B shortens A; what A loses stretches the concrete again
	a1, b1 := 1000e6*areaA, 1300e6*areaB
	lossA := -areaA * ratio5 * net.stress(-b1, 0.45, 0.15, 0.05, 0.90)
	a2 := a1 - lossA
	// pulling A further shortens B, letting it down gives it back in part
	a3 := 1250e6 * areaA
	b3 := b1 + areaB*ratio9*net.stress(-(a3-a2), 0.05, 0.90, 0.45, 0.15)
	a4 := 620e6 * areaA
	b4 := b3 + areaB*ratio9*net.stress(-(a4-a3), 0.05, 0.90, 0.45, 0.15)
	require.NotZero(t, lossA)

	record, err := plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	of := func(stage, situation int) stages.SituationRecord { return record.Stages[stage].Situations[situation] }
	for _, c := range []struct {
		stage, situation int
		mark             string
		want             float64
	}{{0, 0, "A", a2}, {0, 0, "B", b1}, {1, 0, "A", a3}, {1, 0, "B", b3}, {1, 1, "A", a4}, {1, 1, "B", b4}} {
		require.InEpsilon(t, c.want, force(t, of(c.stage, c.situation), c.mark), 1e-9, "%s in stage %d, %d", c.mark, c.stage+1, c.situation+1)
	}
	require.InDelta(t, 0, of(1, 1).Tendons[0].Losses.Elastic, 1, "losses since the last pull")
	require.InEpsilon(t, (b1-b4)/areaB, of(1, 1).Tendons[1].Losses.Elastic, 1e-7)

	a, err := plan.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	bare, err := a.Effects(1, 1)
	require.NoError(t, err)
	y, z := 0.70, 0.30
	weight := bare.Stress(11).At(section.Point{Y: y, Z: z}) - net.stress(-a2, 0.05, 0.90, y, z) - net.stress(-b1, 0.45, 0.15, y, z)
	for n, f := range [][2]float64{{a3, b3}, {a4, b4}} {
		want := net.stress(-f[0], 0.05, 0.90, y, z) + net.stress(-f[1], 0.45, 0.15, y, z)
		require.InDelta(t, want, prestressAt(t, a, 2, n+1, 11, y, z, weight), 1, "step %d", n+1)
	}
	require.Equal(t, "re-stress A, jacked at the right end", of(1, 0).Events[0].Title)
	require.Equal(t, "let down A, jacked at both ends", of(1, 1).Events[0].Title)
	// each pull has its own checks: the first by its jack, the letting down by the
	// stress that frees the wedges
	for n, jack := range []float64{1250e6, 1250e6} {
		found := 0
		for _, c := range of(1, n).Checks {
			switch c.Kind {
			case limits.StressingStrength:
				require.Zero(t, n, "letting down asks for no strength")
			case limits.JackStress:
				require.InEpsilon(t, jack, c.Demand.Value, 1e-9)
				found++
			case limits.LockOffStress:
				require.InEpsilon(t, []float64{1250e6, 620e6}[n], c.Demand.Value, 1e-9)
				found++
			}
		}
		require.Equal(t, 2, found)
	}
}

// With time: losses up to the further pull are inside the force at the jack, and
// where the pull does not reach, the force is what the losses had left of it.
func TestFurtherPullAfterLosses(t *testing.T) {
	curved := evenTendon("A", 7, 0.05, 0.40)
	curved.Friction, curved.Wobble, curved.NoFriction = 0.25, 0.02, false
	curved.Elevation = tendon.Curve{tendon.Parabola(tendon.Point{Ordinate: 0.95}, -0.16, tendon.Point{X: 16, Ordinate: 0.80})}
	e := angleBeam(t, curved)
	mix := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.25, DryingFrom: 2}}
	e.Concrete, e.LongTerm = mix, mix
	on := []stages.Support{{X: 0, Y: 0.1}, {X: 16, Y: 0.1}}
	plan := func(stress float64) stages.Plan {
		return stages.Plan{
			stages.Transfer{Age: 4, Jacking: []tendon.Jacking{jackTo(1300e6, tendon.LeftEnd, "A")}, On: on},
			stages.Store{Age: 5, Until: 60, On: on},
			stages.Stress{Age: 60, Jacking: []tendon.Jacking{jackTo(stress, tendon.LeftEnd, "A")}},
			stages.Seat{Age: 90, On: on},
		}
	}
	record, err := plan(1280e6).Run(e, limits.EN1992{})
	require.NoError(t, err)
	area := 7 * 150e-6
	path, err := curved.Path()
	require.NoError(t, err)
	friction := func(x float64) float64 { return math.Exp(-0.25 * (path.Angle(x) + 0.02*path.Length(x))) }
	before, after := record.Stages[1].Situations[1].Tendons[0], record.Stages[2].Situations[0].Tendons[0]
	require.Less(t, before.Right, 0.985*1300e6*area*friction(16), "lost by time")
	// the pull meets the force that is left where exp(−μ(θ + ks)) says so; with one
	// curve for both, 1280 against 1300·left, nowhere: the whole tendon moves
	require.InEpsilon(t, 1280e6*area*friction(16), after.Right, 1e-7)
	require.InEpsilon(t, 1280e6*area*friction(8), after.Middle, 1e-7)
	require.InDelta(t, 0, after.Losses.Creep+after.Losses.Shrinkage+after.Losses.Relaxation, 1, "counted from the pull")
	later := record.Stages[3].Situations[0].Tendons[0]
	require.Greater(t, later.Losses.Creep, 0.1e6)
	require.Less(t, later.Losses.Creep, before.Losses.Creep/3, "the early creep is inside the force measured")

	// A pull on the other side meets it: behind that the mean of what is left remains.
	right := plan(1280e6)
	right[2] = stages.Stress{Age: 60, Jacking: []tendon.Jacking{jackTo(1200e6, tendon.RightEnd, "A")}}
	record, err = right.Run(e, limits.EN1992{})
	require.NoError(t, err)
	after = record.Stages[2].Situations[0].Tendons[0]
	require.InEpsilon(t, 1200e6*area, after.Right, 1e-7)
	require.InEpsilon(t, before.Left, after.Left, 0.015, "the mean of what is left, not what is left there")
	mean := func(along [][2]float64) float64 {
		sum := 0.0
		for i := 1; i < len(along); i++ {
			sum += (along[i][0] - along[i-1][0]) * (along[i][1] + along[i-1][1]) / 2
		}
		return sum
	}
	whole := mean(before.Along) / (1300e6 * area * 16 * (1 + 4*friction(4) + 2*friction(8) + 4*friction(12) + friction(16)) / 12)
	require.InEpsilon(t, whole*1300e6*area, after.Left, 1e-3)

	// A stress between those at both ends is refused in words.
	_, err = plan(0.5*(before.Left+before.Right)/area).Run(e, limits.EN1992{})
	require.NoError(t, err, "let down at the left end")
	refused := plan(1280e6)
	refused[2] = stages.Stress{Age: 60, Jacking: []tendon.Jacking{jackTo(0.5*(before.Left+before.Right)/area, tendon.BothEnds, "A")}}
	_, err = refused.Run(e, limits.EN1992{})
	require.ErrorContains(t, err, "must be above that, to re-stress it, or below, to let it down")
}

func TestFurtherPullsRefused(t *testing.T) {
	e := angleBeam(t, evenTendon("A", 7, 0.05, 0.90), evenTendon("B", 5, 0.45, 0.15))
	first := stages.Transfer{Age: 5, Jacking: []tendon.Jacking{jackTo(1000e6, tendon.LeftEnd, "A", "B")}}
	run := func(plan ...stages.Stage) error {
		_, err := append(stages.Plan{first}, plan...).Run(e, limits.EN1992{})
		return err
	}
	again := stages.Stress{Age: 12, Jacking: []tendon.Jacking{jackTo(1100e6, tendon.LeftEnd, "A")}}
	require.NoError(t, run(again))
	require.ErrorContains(t, run(stages.Stress{Age: 9, Grout: []string{"A"}}, again), "tendon A is grouted: must be free in its duct")
	require.ErrorContains(t, run(stages.Stress{Age: 9, Release: []string{"A"}}, again), "tendon A is released and taken out")
	twice := again
	twice.Jacking = []tendon.Jacking{jackTo(1100e6, tendon.LeftEnd, "A", "A")}
	require.ErrorContains(t, run(twice), "tendon A is named twice")
	given := first
	given.Jacking = []tendon.Jacking{{Tendons: []string{"A"}, Stress: 1200e6, Ends: tendon.LeftEnd, Given: &tendon.Given{
		Source: formula.Source{Document: "PT-7 rev. B"}, Forces: []tendon.Stated{{X: 0, Value: 1200e3}, {X: 16, Value: 1100e3}},
	}}}
	_, err := stages.Plan{given, stages.Stress{Age: 9, Jacking: []tendon.Jacking{jackTo(1300e6, tendon.LeftEnd, "A")}}}.Run(e, limits.EN1992{})
	require.ErrorContains(t, err, "Restress of a force that is given: must be given as well")
}

// A given force goes through the plan as it is stated, its places in the grid, its
// document in the record.
func TestGivenForceInPlan(t *testing.T) {
	e := angleBeam(t, evenTendon("A", 7, 0.05, 0.90), evenTendon("B", 5, 0.45, 0.15))
	losses := &tendon.Given{Source: formula.Source{Document: "PT-7 rev. B", Place: "sheet 3"}, Losses: []tendon.Stated{{X: 0, Value: 90e6}, {X: 5.3, Value: 20e6}, {X: 16, Value: 130e6}}}
	plan := stages.Plan{stages.Transfer{Age: 5, On: []stages.Support{{X: 0, Y: 0.1}, {X: 16, Y: 0.1}}, Jacking: []tendon.Jacking{
		{Tendons: []string{"A"}, Stress: 1350e6, Ends: tendon.LeftEnd, Given: losses}, jackTo(1000e6, tendon.LeftEnd, "B"),
	}}}
	record, err := plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	var net byHand
	net.rectangle(angle[0])
	net.rectangle(angle[1])
	net.hole(0.08, 0.05, 0.90)
	net.hole(0.08, 0.45, 0.15)
	s := record.Stages[0].Situations[0]
	area := 7 * 150e-6
	elastic := -195e9 / modulusAt(t, e, 5) * net.stress(-1000e6*5*150e-6, 0.45, 0.15, 0.05, 0.90)
	stated := 20e6 + 110e6*(8-5.3)/(16-5.3)
	f := s.Tendons[0]
	require.InEpsilon(t, (1350e6-stated-elastic)*area, f.Middle, 1e-9)
	require.InEpsilon(t, stated, f.Losses.Friction, 1e-6)
	require.Zero(t, f.Losses.DrawIn)
	require.InEpsilon(t, elastic, f.Losses.Elastic, 1e-6)
	require.Equal(t, "PT-7 rev. B sheet 3", f.Given)
	require.Empty(t, s.Tendons[1].Given)
	require.Contains(t, s.Events[0].Title, "force as given by PT-7 rev. B")
	for _, c := range s.Checks {
		if c.Kind == limits.LockOffStress {
			require.InEpsilon(t, 1330e6, c.Demand.Value, 1e-9)
			require.InDelta(t, 5.3, c.X, 1e-9)
		}
	}
	cut := false
	for _, v := range s.Diagram.Column("x") {
		cut = cut || math.Abs(v-5.3) < 1e-6
	}
	require.True(t, cut, "the place where the stated losses bend is in the grid")
}

// One event may jack one tendon and take another out: both are done, and the record
// has no force of the one that is gone.
func TestJackAndReleaseInOneEvent(t *testing.T) {
	e := angleBeam(t, evenTendon("A", 7, 0.05, 0.90), evenTendon("B", 5, 0.45, 0.15))
	apart := stages.Plan{
		stages.Transfer{Age: 2, On: twoEnds, Jacking: []tendon.Jacking{jackTo(1000e6, tendon.LeftEnd, "A")}},
		stages.Stress{Age: 6, Jacking: []tendon.Jacking{jackTo(1200e6, tendon.LeftEnd, "B")}, Release: []string{"A"}},
	}
	jack := jackTo(1200e6, tendon.LeftEnd, "B")
	at := placed{twoEnds, []stages.Event{{Jack: &jack, Release: []string{"A"}}}}
	once := stages.Plan{stages.Transfer{Age: 2, On: twoEnds, Jacking: []tendon.Jacking{jackTo(1000e6, tendon.LeftEnd, "A")}}, at}
	a, err := apart.Run(e, limits.EN1992{})
	require.NoError(t, err)
	b, err := once.Run(e, limits.EN1992{})
	require.NoError(t, err)
	last := a.Stages[1].Situations[1]
	require.Len(t, last.Tendons, 1)
	require.Len(t, b.Stages[1].Situations[0].Tendons, 1)
	// the release gives B back what an unstressed A did not hold
	gain := last.Tendons[0].Middle - a.Stages[1].Situations[0].Tendons[1].Middle
	require.NotZero(t, gain)
	ratio := modulusAt(t, e, 6) / modulusAt(t, e, 2) // on the day of each
	lossOfA := 1000e6*7*150e-6 - a.Stages[1].Situations[0].Tendons[0].Middle
	require.InEpsilon(t, gain, (b.Stages[1].Situations[0].Tendons[0].Middle-1200e6*5*150e-6)*
		(1000e6*7*150e-6-lossOfA)/(1000e6*7*150e-6-lossOfA*ratio)/ratio, 1e-9)
}
