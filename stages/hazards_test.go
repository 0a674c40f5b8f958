package stages_test

import (
	"encoding/json"
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

// Each test here is a way in which a dangerous layout could look safe.

func rect(t testing.TB, width, depth float64) section.Shape {
	s, err := section.New([]section.Outline{{{Y: -width / 2}, {Y: width / 2}, {Y: width / 2, Z: depth}, {Y: -width / 2, Z: depth}}}, nil)
	require.NoError(t, err)
	return s
}

// straight is a tendon of constant y and z.
func straight(mark string, from, to, y, z float64) tendon.Tendon {
	return tendon.Tendon{
		Mark: mark, Strand: tendon.Y1860S7x157, NoFriction: true, Strands: 7, Duct: 0.07, Elevation: tendon.Level(from, to, z), Plan: tendon.Level(from, to, y),
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 25e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}
}

func fromLeft(marks ...string) tendon.Jacking {
	return tendon.Jacking{Tendons: marks, Stress: 1350e6, Ends: tendon.LeftEnd}
}

func bare(tendons ...tendon.Tendon) stages.Element {
	e := block()
	e.Bars, e.Tendons = nil, tendons
	return e
}

func TestWeakBarsAreFoundAwayFromTheLargestTension(t *testing.T) {
	e := block()
	top := stages.BondedBars{From: 0, To: 12, At: section.Point{Z: 0.75}, Area: 1500e-6}
	e.Bars = []stages.BondedBars{{From: 0, To: 7, At: section.Point{Z: 0.05}, Area: 5000e-6}, {From: 7, To: 12, At: section.Point{Z: 0.05}, Area: 1e-6}, top}
	s := run(t, e, stages.Plan{stages.Store{Age: 28, On: stages.At(0.2, 11.8)}}).Stages[0].Situations[0]
	steel := check(t, s, limits.TensionSteel)
	require.Equal(t, stages.Fail, steel.State)
	require.InDelta(t, 7, steel.X, 0.01)
	require.InDelta(t, 1e-6, steel.Limit.Value, 1e-12)
}

func TestPrincipalTensionDoesNotHangOnWhereBreaksLie(t *testing.T) {
	shape, err := section.IGirder{Depth: 1.6, WebThickness: 0.15, Top: section.Flange{Width: 0.8, Edge: 0.15}, Bottom: section.Flange{Width: 0.6, Edge: 0.25}}.Shape()
	require.NoError(t, err)
	low := straight("T", 0, 24, 0, 0.55)
	low.Duct, low.Strands = 0.1, 12
	e := bare(low)
	e.Section, e.Length = shape, 24
	plan := stages.Plan{
		stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T")}},
		stages.Seat{Age: 28, On: stages.At(0, 24), Actions: []stages.Action{{Mark: "q", Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 24, 3001)}}}}},
	}
	few := check(t, run(t, e, plan).Stages[1].Situations[0], limits.PrincipalTension)
	for k := 1; k < 60; k++ {
		e.Extra = append(e.Extra, stages.ExtraWeight{Mark: "nut", From: 0.4 * float64(k), To: 0.4 * float64(k), Weight: 1})
	}
	require.False(t, has(run(t, e, plan).Stages[1].Situations[0], limits.PrincipalTension, stages.NotEvaluated), "nowhere cracked")
	many := check(t, run(t, e, plan).Stages[1].Situations[0], limits.PrincipalTension)
	require.InEpsilon(t, many.Demand.Value, few.Demand.Value, 0.002)
	require.Equal(t, many.State, few.State)
}

// An element that lies in the zones of its anchors from end to end is looked at all
// the same: the weight alone bends it where the prestress has not arrived.
func TestAnElementShorterThanItsZonesIsEvaluated(t *testing.T) {
	e := bare(straight("T", 0, 2, 0, 0.15))
	e.Length = 2
	r := run(t, e, stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T")}}, stages.Store{Age: 28, On: stages.At(0, 1.9)}})
	require.Equal(t, stages.Fail, r.Status())
	s := r.Stages[1].Situations[0]
	// The way to a bottom corner is √(0.15² + 0.25²): both anchors press in full on the
	// bottom from 0.437 to 1.563 m, so that the weight is alone up to there:
	// 20 kN·0.9/1.9·x − 10·x²/2, and more on the section less its duct.
	x := math.Hypot(0.15, 0.25) * 3 / 2
	left := 20e3*0.9/1.9*x - 10e3*x*x/2
	tension := check(t, s, limits.Tension)
	require.GreaterOrEqual(t, tension.Demand.Value, left/(0.5*0.64/6)-1)
	require.NotEqual(t, stages.NotEvaluated, check(t, s, limits.Compression).State)
}

func TestSupportsBesideAStepOfTheSection(t *testing.T) {
	deep, err := section.IGirder{Depth: 0.8, WebThickness: 0.2, Top: section.Flange{Width: 0.5, Edge: 0.15}, Bottom: section.Flange{Width: 0.5, Edge: 0.15}}.Shape()
	require.NoError(t, err)
	e := bare()
	e.Section, err = section.Stepped{{Until: 2, Section: deep}, {Until: 12, Section: rect(t, 0.5, 0.8)}}.Along()
	require.NoError(t, err)
	run(t, e, stages.Plan{stages.Store{Age: 5, On: stages.At(1.99999, 11)}})

	// The weaker side of a step 10 µm beyond a support is not missed.
	e.Section, err = section.Stepped{{Until: 8.00001, Section: rect(t, 0.5, 1.2)}, {Until: 12, Section: rect(t, 0.5, 0.6)}}.Along()
	require.NoError(t, err)
	c := check(t, run(t, e, stages.Plan{stages.Store{Age: 28, On: stages.At(0, 8)}}).Stages[0].Situations[0], limits.Tension)
	require.InDelta(t, 0.5*0.6*25e3*16/2/(0.5*0.36/6), c.Demand.Value, 50)
	require.InDelta(t, 8.00001, c.X, 1e-5)
}

func TestOtherLoadsMustBalanceToo(t *testing.T) {
	e := block()
	e.Extra = []stages.ExtraWeight{{Mark: "kerb", From: 0, To: 12, Weight: 60e3, Y: 0.6}}
	m, err := e.CentreOfGravity()
	require.NoError(t, err)
	on := []stages.Support{{X: 1, Y: m.Y}, {X: 11, Y: m.Y}}
	// In line with the centre of gravity the weight balances, a load on the axis does
	// not: on one line nothing says across, beside a pair it is overturning.
	hoist := []stages.Action{{Mark: "hoist", Loads: loads.Set{Points: []loads.Point{{At: 6, Force: 200e3}}}}}
	r := run(t, e, stages.Plan{stages.Store{Age: 28, On: on, Actions: hoist}})
	require.Equal(t, stages.NotEvaluated, check(t, r.Stages[0].Situations[0], limits.Roll).State)
	require.NotEqual(t, stages.Pass, r.Status())
	narrow := paired(bracketed([]stages.Support{{X: 1, Y: m.Y - 0.1}, {X: 1, Y: m.Y + 0.1}, {X: 11, Y: m.Y - 0.1}, {X: 11, Y: m.Y + 0.1}}))
	require.NotEqual(t, stages.Fail, check(t, run(t, e, stages.Plan{stages.Store{Age: 28, On: narrow}}).Stages[0].Situations[0], limits.Uplift).State)
	require.Equal(t, stages.Fail, check(t, run(t, e, stages.Plan{stages.Store{Age: 28, On: narrow, Actions: hoist}}).Stages[0].Situations[0], limits.Uplift).State)
}

// A half beam has no axis of symmetry: its walls get shear and torsion all the same.
func TestUnsymmetricSectionsGetShearInTheirWalls(t *testing.T) {
	half, err := section.HalfBeam{
		Depth: 1.6, TopWidth: 2.5, RootWidth: 1.5, BottomWidth: 1.3, TopInner: 0.3, BottomInner: 0.3, TopSlab: 0.2, BottomSlab: 0.18,
		WebThickness: 0.3, CantileverRoot: 0.3, CantileverTip: 0.15,
	}.Shape()
	require.NoError(t, err)
	e := bare()
	e.Section, e.Length = half, 20
	m, err := e.CentreOfGravity()
	require.NoError(t, err)
	on := paired([]stages.Support{{X: 0.5, Y: m.Y - 0.05}, {X: 0.5, Y: m.Y + 0.05}, {X: 19.5, Y: m.Y - 0.05}, {X: 19.5, Y: m.Y + 0.05}})
	r := run(t, e, stages.Plan{stages.Store{Age: 28, On: on}})
	recomputes(t, r)
	web := check(t, r.Stages[0].Situations[0], limits.WebShear)
	require.NotEqual(t, stages.NotEvaluated, web.State)
	// V = 1.35·w·9.5 m beside the support, in line with the centre of gravity: about the
	// shear centre a torque V·(y_G − y_SC), which an open section carries as T·t/J. The
	// exact J and centre are those of the boundary elements, the walls' are thin ones.
	exact, err := half.Torsion()
	require.NoError(t, err)
	centre, err := exact.ShearCentre(0.2)
	require.NoError(t, err)
	v := 1.35 * m.Weight / 20 * 9.5
	require.InEpsilon(t, v/(0.3*1.4)+v*math.Abs(m.Y-centre.Y)*0.3/exact.Constant, web.Demand.Value, 0.15)

	// On its bed it stands in line with its centre of gravity.
	e.Tendons = []tendon.Tendon{straight("T", 0, 20, half.Properties().Centroid.Y-0.3, 0.09)}
	e.Tendons[0].Approval.EdgeDistance = 0.05
	_, err = stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T")}}}.Run(e, limits.EN1992{})
	require.NoError(t, err)
}

func TestTendonsMustStayInTheConcreteAndApart(t *testing.T) {
	e := bare(straight("T", 0, 12, 0, 0.6))
	var err error
	e.Section, err = section.Stepped{{Until: 5.6, Section: rect(t, .5, .8)}, {Until: 5.9, Section: rect(t, .5, .4)}, {Until: 12, Section: rect(t, .5, .8)}}.Along()
	require.NoError(t, err)
	plan := stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T")}}}
	_, err = plan.Run(e, limits.EN1992{})
	require.ErrorContains(t, err, "x = 5.600 m, y = 0.000 m, z = 0.600 m: its centre is 0.200 m outside the concrete: must be inside")
	_, err = plan.Run(bare(straight("T", 0, 12, 0, 0.6), straight("U", 0, 12, 0.05, 0.6)), limits.EN1992{})
	require.ErrorContains(t, err, "tendons T and U")
}

// fixed is a standard with one limit on compression.
type fixed struct{ limit limits.Limit }

func (f fixed) Limits(q limits.Question) ([]limits.Limit, error) {
	if q.Kind != limits.Compression {
		return nil, nil
	}
	return []limits.Limit{f.limit}, nil
}

func TestALimitThatIsNoNumberIsNotAPass(t *testing.T) {
	plan := stages.Plan{stages.Store{Age: 28, On: stages.At(0, 12)}}
	for _, value := range []float64{math.NaN(), math.Inf(1)} {
		limit := limits.Limit{Name: "odd", Sense: limits.AtMost, Line: formula.Line{Result: formula.Q("x", value, formula.Pascal, "")}}
		r, err := plan.Run(block(), fixed{limit})
		require.NoError(t, err)
		require.Equal(t, stages.NotEvaluated, r.Status())
		_, err = json.Marshal(r)
		require.NoError(t, err)
	}
	_, err := plan.Run(block(), fixed{limits.Limit{Factors: limits.Factors{VariableMost: math.NaN()}}})
	require.ErrorIs(t, err, limits.ErrLimits)
	for _, own := range []stages.Check{{Name: "own"}, {Name: "own", State: stages.Pass, Margin: math.NaN()}} {
		look := odd{situations: []stages.Situation{{Name: "look", Age: 20, Standing: true, Phase: limits.Storing, Supports: pads(stages.At(2, 10)),
			Check: func(stages.Effects, limits.Standard) ([]stages.OwnCheck, error) {
				return []stages.OwnCheck{own.Derived()}, nil
			}}}}
		_, err = stages.Plan{look}.Run(block(), limits.EN1992{})
		require.ErrorContains(t, err, `check "own"`)
	}
}

// only is a standard with one limit on one kind.
type only struct {
	kind  limits.Kind
	limit limits.Limit
}

func (o only) Limits(q limits.Question) ([]limits.Limit, error) {
	if q.Kind != o.kind {
		return nil, nil
	}
	return []limits.Limit{o.limit}, nil
}

func atMost(kind limits.Kind, value float64) only {
	return only{kind, limits.Limit{Name: string(kind), Sense: limits.AtMost, Line: formula.Given(formula.Q("lim", value, formula.Pascal, "limit"), formula.Source{Document: "test"})}}
}

func TestTheEndOfALongStageIsChecked(t *testing.T) {
	q := loads.Set{Lines: []loads.Line{loads.Uniform(0, 12, 22e3)}}
	plan := stages.Plan{
		stages.Transfer{Age: 5, Jacking: []tendon.Jacking{fromLeft("T")}},
		stages.Store{Age: 6, Until: 2000, On: stages.At(0, 12), Actions: []stages.Action{{Mark: "q", Loads: q}}},
	}
	tensions := func(limit float64) (begin, end stages.Check) {
		r, err := plan.Run(stressedBlock(), atMost(limits.Tension, limit))
		require.NoError(t, err)
		require.Len(t, r.Stages[1].Situations, 2)
		require.Equal(t, "store, at its end", r.Stages[1].Situations[1].Name)
		require.InDelta(t, 2000, r.Stages[1].Situations[1].Age, 1e-12)
		return check(t, r.Stages[1].Situations[0], limits.Tension), check(t, r.Stages[1].Situations[1], limits.Tension)
	}
	begin, end := tensions(100e6)
	require.Greater(t, end.Demand.Value, begin.Demand.Value+0.5e6, "the prestress that is lost")
	begin, end = tensions((begin.Demand.Value + end.Demand.Value) / 2)
	require.Equal(t, stages.Pass, begin.State)
	require.Equal(t, stages.Fail, end.State)
}

// Anchors that press away from each other leave the concrete between their zones to
// the weight: on both sides of x = 6 m, whichever the weight bends most.
func TestAnchorsThatPressBothWaysLeaveBothSidesToTheWeight(t *testing.T) {
	tendons := []tendon.Tendon{straight("T", 0, 6, 0, .3), straight("U", 6, 12, 0, .4)}
	// The bottom corners lie √(0.3² + 0.25²) and √(0.4² + 0.25²) from the anchors: T
	// does not reach them from 5.414 m on, U not before 6.708 m.
	for _, c := range []struct {
		left, right float64
		mark        string
	}{{0, 11.2, "T"}, {0.8, 12, "U"}} {
		plan := stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T", "U")}, On: stages.At(c.left, c.right)}}
		tension := check(t, run(t, bare(tendons...), plan).Stages[0].Situations[0], limits.Tension)
		// The largest sagging moment is where the shear is zero: R_left = w·x.
		reaction := 120e3 * (c.right - 6) / (c.right - c.left)
		at := reaction / 10e3
		require.InDelta(t, at, tension.X, 1e-3)
		level := map[string]float64{"T": 0.3, "U": 0.4}[c.mark]
		net := rect(t, 0.5, 0.8).Properties().With(section.Duct(section.Point{Z: level}, 0.07))
		bent := net.Stress(section.Forces{My: reaction*(at-c.left) - 10e3*at*at/2}, section.Point{Y: 0.25})
		require.InDelta(t, bent, tension.Demand.Value, 100)
		require.Contains(t, tension.Factors, stages.Factor{Cause: "part of tendon " + c.mark + " before it has spread", Value: 0})
	}
}

func TestStaggeredAnchorsAreCompared(t *testing.T) {
	r := run(t, bare(straight("T", 0, 12, 0, .15), straight("U", .01, 11.99, 0, .23)), stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T", "U")}}})
	spacing := check(t, r.Stages[0].Situations[0], limits.AnchorSpacing)
	require.InDelta(t, 0.08, spacing.Demand.Value, 1e-9)
	require.Equal(t, stages.Fail, spacing.State)
}

func TestEquilibriumCountsToleranceAndEveryMetre(t *testing.T) {
	e := block()
	e.WeightTolerance = &loads.Tolerance{Under: 0.4}
	s := run(t, e, stages.Plan{stages.Store{Age: 28, On: stages.At(3, 9), Actions: []stages.Action{{Mark: "p", Loads: loads.Set{Points: []loads.Point{{At: 12, Force: 50e3}}}}}}}).Stages[0].Situations[0]
	require.LessOrEqual(t, check(t, s, limits.Uplift).Demand.Value, s.Reactions[0].Characteristic.Least)

	// Three pads and a kerb: the share of one pad changes sign within the kerb.
	e = bare()
	e.Section = rect(t, 3, 0.5)
	e.Extra = []stages.ExtraWeight{{Mark: "kerb", To: 12, Weight: 245286.543, Y: 0.465184222}}
	on := []stages.Support{{X: 1.0415641373, Y: -.528862224}, {X: 1.0415641373, Y: .54650649}, {X: 11.9653341667, Y: -.2707772724}}
	uplift := check(t, run(t, e, stages.Plan{stages.Store{Age: 28, On: on}}).Stages[0].Situations[0], limits.Uplift)
	require.Equal(t, stages.Fail, uplift.State)

	// Equalised groups tip about their resultants.
	pairs := append(stages.Equalised("a", stages.At(0, 4)...), stages.Equalised("b", stages.At(5, 7)...)...)
	overturning := check(t, run(t, block(), stages.Plan{stages.Store{Age: 28, On: pairs}}).Stages[0].Situations[0], limits.Overturning)
	require.Equal(t, stages.Fail, overturning.State)
	require.InDelta(t, 1.05*10e3*36/2+0.025*120e3*0.4, overturning.Demand.Value, 1)
}

func TestACoupleLiftsAsACouple(t *testing.T) {
	for kind, factor := range map[limits.ActionKind]float64{stages.Equipment: 1.35, stages.Imposed: 1.5} {
		couple := []stages.Action{{Mark: "c", Kind: kind, Loads: loads.Set{Couples: []loads.Couple{{At: 6, Moment: 60e3}}}}}
		s := run(t, bare(), stages.Plan{stages.Seat{Age: 28, On: stages.At(.5, 11.5), Actions: couple}}).Stages[0].Situations[0]
		// 0.95·60 114 − 1.05·114 − γ·60 000/11; the nominal force of 2.5 % at 0.4 m.
		require.InDelta(t, 0.95*60114-1.05*114-factor*60e3/11, check(t, s, limits.Uplift).Demand.Value, 10)
		require.InDelta(t, 1.05*10e3*0.125+factor*60e3+0.025*120e3*0.4, check(t, s, limits.Overturning).Demand.Value, 10)
	}
}

func TestEventsOutOfOrderAndNilsAreRefused(t *testing.T) {
	j, u := fromLeft("T"), fromLeft("U")
	mixed := odd{situations: []stages.Situation{{
		Name: "mixed", Age: 28, Standing: true, Phase: limits.Stressing, Supports: pads(stages.At(0, 12)),
		Events: []stages.Event{{Jack: &j}, {Grout: []string{"T"}}, {Jack: &u}},
	}}}
	_, err := stages.Plan{mixed}.Run(bare(straight("T", 0, 12, 0, .15), straight("U", 0, 12, 0, .4)), limits.EN1992{})
	require.ErrorContains(t, err, "a jacking or a release follows a grouting")
	_, err = stages.Plan{(*stages.Store)(nil)}.Run(block(), limits.EN1992{})
	require.ErrorContains(t, err, "stage 1 is nil")
	_, _, err = stages.Case{Subject: block(), Plan: stages.Plan{stages.Store{Age: 5, On: stages.At(2, 10)}}, Stage: 1, Standard: limits.EN1992{}}.Solve(stages.Input{Symbol: "a"}, 0, 1)
	require.ErrorContains(t, err, "Input.Set")
	e := block()
	e.Concrete = concrete.EN1992{Fck: 40e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{DryingFrom: math.NaN()}}
	_, err = stages.Plan{stages.Store{Age: 28, On: stages.At(2.5, 9.5)}}.Run(e, limits.EN1992{})
	require.ErrorIs(t, err, stages.ErrStage)
}

// soft is a model of one's own that forgets the modulus.
type soft struct{ concrete.EN1992 }

func (m soft) At(age float64) (concrete.State, error) {
	s, err := m.EN1992.At(age)
	s.Modulus = 0
	return s, err
}

func TestAConcreteWithoutModulusIsRefused(t *testing.T) {
	e := girder(t)
	e.Concrete = soft{e.Concrete.(concrete.EN1992)}
	_, err := journey().Run(e, limits.EN1992{})
	require.ErrorIs(t, err, stages.ErrStage)
	require.ErrorContains(t, err, "Modulus = 0 Pa: must be finite and positive")
}
