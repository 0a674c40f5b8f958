package stages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

var drying = concrete.EN1992{
	Fck: 40e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 2 * 0.4 / 2.6, DryingFrom: 1},
}

// stressedBlock is the plain block with one straight tendon without friction.
func stressedBlock() stages.Element {
	e := block()
	e.Bars, e.Concrete, e.LongTerm = nil, drying, drying
	strand := tendon.Y1860S7x157
	strand.Relaxation = tendon.Class2
	e.Tendons = []tendon.Tendon{{
		Mark: "T", Strand: strand, NoFriction: true, Strands: 7, Duct: 0.07, Elevation: tendon.Level(0, 12, 0.25), Plan: tendon.Level(0, 12, 0),
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 25e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}}
	return e
}

// The loss at mid-span by hand: (5.46) with the creep of weight and prestress
// from 5 d, in plain arithmetic with φ, shrinkage and relaxation of the models and
// Ecm as printed, also under φ.
func TestLaterLossByHand(t *testing.T) {
	j := tendon.Jacking{Tendons: []string{"T"}, Stress: 1350e6, Ends: tendon.LeftEnd}
	plan := stages.Plan{stages.Transfer{Age: 5, Jacking: []tendon.Jacking{j}}, stages.Store{Age: 60, On: stages.At(0, 12)}}
	r := run(t, stressedBlock(), plan)
	recomputes(t, r)
	before, after := r.Stages[0].Situations[0].Tendons[0], r.Stages[1].Situations[0].Tendons[0]
	require.InDelta(t, 1350e6*1050e-6, before.Middle, 1e-3)
	require.Zero(t, before.Losses.Total())

	phi, err := drying.Creep(60, 5)
	require.NoError(t, err)
	then, err := drying.Shrinkage(5)
	require.NoError(t, err)
	now, err := drying.Shrinkage(60)
	require.NoError(t, err)
	relaxation, err := tendon.Class2.Loss(1350e6, 1860e6, 55)
	require.NoError(t, err)

	// Net section: 0.5 × 0.8 m less a duct of 70 mm at z = 0.25 m.
	const duct = 3.141592653589793 * 0.07 * 0.07 / 4
	area := 0.4 - duct
	z := (0.4*0.4 - duct*0.25) / area
	inertia := 0.5*0.512/12 + 0.4*(0.4-z)*(0.4-z) - duct*(0.25-z)*(0.25-z) - 3.141592653589793*0.07*0.07*0.07*0.07/64
	force, moment := 1350e6*1050e-6, 10e3*144/8.0
	arm := z - 0.25
	compression := force/area + force*arm*arm/inertia - moment*arm/inertia
	ecm := 22e9 * 1.6010 // (48/10)^0.3
	divisor := 1 + 195e9/ecm*1050e-6/0.4*(1+0.4/(0.5*0.512/12)*0.15*0.15)*(1+0.8*phi)
	shrinkage, creep := 195e9*(now.Total-then.Total)/divisor, 195e9*phi*compression/ecm/divisor
	require.InEpsilon(t, shrinkage, after.Losses.Shrinkage, 1e-4)
	require.InEpsilon(t, creep, after.Losses.Creep, 1e-4)
	require.InEpsilon(t, 0.8*relaxation/divisor, after.Losses.Relaxation, 1e-4)
	require.InDelta(t, force-after.Losses.Total()*1050e-6, after.Middle, 1)
}

func TestLaterLossesGrowAndAreLeftOutWithoutAModel(t *testing.T) {
	e := girder(t)
	plain := run(t, e, journey())
	require.Contains(t, strings.Join(plain.NotChecked, "\n"), "creep, shrinkage and relaxation are left out")
	require.Empty(t, plain.Appendix)
	model := e.Concrete.(concrete.EN1992)
	model.Exposure = concrete.Exposure{Humidity: 0.75, NotionalSize: 0.3, DryingFrom: 1}
	e.LongTerm = model
	for i := range e.Tendons {
		e.Tendons[i].Strand.Relaxation = tendon.Class2
	}
	r := run(t, e, journey())
	recomputes(t, r)
	require.NotEmpty(t, r.Appendix)
	last := map[string]float64{}
	for _, stage := range r.Stages {
		for _, s := range stage.Situations {
			for _, tn := range s.Tendons {
				later := tn.Losses.Shrinkage + tn.Losses.Creep + tn.Losses.Relaxation
				require.GreaterOrEqual(t, later, last[tn.Mark], "%s in %s", tn.Mark, s.Name)
				last[tn.Mark] = later
				require.Positive(t, tn.Losses.Friction)
			}
		}
	}
	require.Greater(t, last["BL"], last["AL"], "stressed earlier, lost more")
	require.InDelta(t, 40e6, last["BL"], 30e6)
	// Less prestress: less compression at the soffit at the end.
	end := func(r stages.Record) float64 {
		return check(t, r.Stages[5].Situations[0], limits.Compression).Demand.Value
	}
	require.Less(t, end(r), end(plain))
}

func TestLongTermRefuses(t *testing.T) {
	e := stressedBlock()
	e.LongTerm = concrete.EN1992{Fck: 40e6, Cement: concrete.ClassR}
	plan := stages.Plan{stages.Transfer{Age: 5, Jacking: []tendon.Jacking{{Tendons: []string{"T"}, Stress: 1350e6, Ends: tendon.LeftEnd}}}}
	_, err := plan.Run(e, limits.EN1992{})
	require.ErrorIs(t, err, concrete.ErrConcrete)
	require.ErrorContains(t, err, "Element.LongTerm")
	e = stressedBlock()
	plan = stages.Plan{stages.Transfer{Age: 5, Jacking: []tendon.Jacking{{Tendons: []string{"T"}, Stress: 1700e6, Ends: tendon.LeftEnd}}}}
	_, err = plan.Run(e, limits.EN1992{})
	require.ErrorIs(t, err, tendon.ErrTendon)
	require.ErrorContains(t, err, "0.85·fpk")
}
