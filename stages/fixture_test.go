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
		Extra: []stages.ExtraWeight{{Mark: "diaphragm", From: 0.2, To: 0.8, Weight: 40e3, Z: 0.8}, {Mark: "hook block", From: 12, To: 12, Weight: 5e3, Z: 1.7}},
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

// hooks are pairs of lift points at −y and +y at each x, above every centre of
// gravity here.
func hooks(y float64, xs ...float64) []stages.Support {
	list := stages.Pads(y, xs...)
	for i := range list {
		list[i].Z = 2
	}
	return list
}

// frames are pairs of pads under frames that reach beyond the concrete.
func frames(y float64, xs ...float64) []stages.Support {
	return bracketed(stages.Pads(y, xs...))
}

// bracketed are the supports on brackets.
func bracketed(list []stages.Support) []stages.Support {
	for i := range list {
		list[i].Bracket = true
	}
	return list
}

// paired are four supports that statics answers: those on the left apart, those on
// the right linked.
func paired(supports []stages.Support) []stages.Support {
	return append(supports[:2:2], stages.Equalised("right", supports[2:]...)...)
}

// journey is a plan of every kind of stage.
func journey() stages.Plan {
	return stages.Plan{
		stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("BL", "BR")}, On: paired(stages.Pads(1, 0, 24))},
		stages.Lift{Age: 2.5, On: paired(hooks(1, 2.8, 21.2)), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}},
		stages.Store{Age: 3, Until: 14, On: paired(stages.Pads(1, 1, 23)), Actions: []stages.Action{
			{Mark: "stores", Loads: loads.Set{Points: []loads.Point{{At: 24, Force: 10e3}}}},
		}},
		stages.Stress{Age: 14, Jacking: []tendon.Jacking{jack("AL", "AR")}, Grout: []string{"AL", "AR", "BL", "BR"}, GroutAge: 16},
		stages.Lift{Age: 28, On: paired(hooks(1, 2.2, 21.8)), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}},
		stages.Seat{Age: 28, On: paired(stages.Pads(1, 0.5, 23.5))},
	}
}

func run(t testing.TB, e stages.Subject, plan stages.Plan) stages.Record {
	r, err := plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	return r
}

// check is the first check of a name in a situation.
func check(t testing.TB, s stages.SituationRecord, name limits.Kind) stages.Check {
	t.Helper()
	for _, c := range s.Checks {
		if c.Name == string(name) {
			return c
		}
	}
	t.Fatalf("no check %q", name)
	return stages.Check{}
}

// has is true when a situation has a check of a name in a state.
func has(s stages.SituationRecord, name limits.Kind, state stages.State) bool {
	for _, c := range s.Checks {
		if c.Name == string(name) && c.State == state {
			return true
		}
	}
	return false
}

// pads are the supports as pads, for a situation of one's own.
func pads(supports []stages.Support) []stages.Support {
	for i := range supports {
		supports[i].Role = stages.Pad
	}
	return supports
}

// longTerm is the element with creep, shrinkage and relaxation.
func longTerm(e stages.Element) stages.Element {
	model := e.Concrete.(concrete.EN1992)
	model.Exposure = concrete.Exposure{Humidity: 0.75, NotionalSize: 0.3, DryingFrom: 1}
	e.LongTerm = model
	e.Tendons = append([]tendon.Tendon{}, e.Tendons...)
	for i := range e.Tendons {
		e.Tendons[i].Strand.Relaxation = tendon.Class2
	}
	return e
}

// jackings are tendons stressed from the left in one step.
func jackings(marks ...string) []tendon.Jacking { return []tendon.Jacking{fromLeft(marks...)} }
