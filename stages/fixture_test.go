package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// girder is a box with two pairs of tendons; skew puts one tendon out of
// symmetry and cuts the section askew.
func girder(t testing.TB) stages.Element {
	shape, err := section.Box{
		Depth: 1.6, TopWidth: 5, RootWidth: 3, BottomWidth: 2.6, TopSlab: 0.2, BottomSlab: 0.18, WebThickness: 0.3,
		CantileverRoot: 0.3, CantileverTip: 0.15,
	}.Shape()
	require.NoError(t, err)
	e := stages.Element{
		Mark: "G", Length: 24, Section: shape, WeightTolerance: loads.PlusMinus(0.03),
		Concrete: concrete.EN1992{Fck: 50 * unit.Mega, Cement: concrete.ClassR, Tests: []concrete.Test{
			{Age: 2, Strength: 32 * unit.Mega, Specimen: concrete.Cylinder, Specimens: 6, Statistic: concrete.Characteristic},
		}},
		Extra: []stages.ExtraWeight{{Mark: "diaphragm", From: 0.2, To: 0.8, Weight: 40e3}, {Mark: "hook block", From: 12, To: 12, Weight: 5e3}},
	}
	lean := 0.2 / 1.3
	for i, level := range []struct{ anchor, low float64 }{{0.55, 0.12}, {0.95, 0.25}} {
		elevation := tendon.Drape(tendon.Point{X: 0, Ordinate: level.anchor}, 2, tendon.Point{X: 9, Ordinate: level.low}, 24)
		for _, side := range []struct {
			mark string
			y    float64
		}{{"L", 1}, {"R", -1}} {
			e.Tendons = append(e.Tendons, tendon.Tendon{
				Mark: []string{"A", "B"}[i] + side.mark, Strand: tendon.Y1860S7x157, Strands: []int{4, 12}[i], Duct: 0.075,
				Elevation: elevation, Plan: elevation.Leaning(side.y*1.148, 0, side.y*lean), Friction: 0.19, Wobble: 0.005,
				Approval: tendon.Approval{Reference: "invented", MeanStrength: 28e6, AnchorSpacing: 0.3, EdgeDistance: 0.14},
			})
		}
	}
	return e
}

func jack(marks ...string) tendon.Jacking {
	return tendon.Jacking{Tendons: marks, Stress: 1380e6, Ends: tendon.BothEnds, DrawIn: 0.006}
}

// journey is a plan of every kind of stage.
func journey() stages.Plan {
	return stages.Plan{
		stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("BL", "BR")}},
		stages.Lift{Age: 2.5, On: stages.At(2.8, 21.2), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}},
		stages.Store{Age: 3, Until: 14, On: stages.Pads(1, 1, 23), Loads: loads.Set{Points: []loads.Point{{At: 24, Force: 10e3}}}},
		stages.Stress{Age: 14, Jacking: []tendon.Jacking{jack("AL", "AR")}, Grout: []string{"AL", "AR", "BL", "BR"}, GroutAge: 16},
		stages.Lift{Age: 28, On: stages.At(2.2, 21.8), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}},
		stages.Seat{Age: 28, On: stages.Pads(1, 0.5, 23.5)},
	}
}

func run(t testing.TB, e stages.Element, plan stages.Plan) stages.Record {
	r, err := plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	return r
}

// check is the first check of a name in a situation.
func check(t testing.TB, s stages.SituationRecord, name limits.Kind) stages.Check {
	for _, c := range s.Checks {
		if c.Name == string(name) {
			return c
		}
	}
	t.Fatalf("no check %q", name)
	return stages.Check{}
}
