package stages_test

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// block is a plain concrete beam, 12 m long, 0.5 m wide and 0.8 m deep.
func block() stages.Element {
	shape, err := section.New([]section.Outline{{{Y: -0.25, Z: 0}, {Y: 0.25, Z: 0}, {Y: 0.25, Z: 0.8}, {Y: -0.25, Z: 0.8}}}, nil)
	if err != nil {
		panic(err)
	}
	return stages.Element{
		Mark: "B-1", Length: 12, Section: shape, WeightTolerance: loads.PlusMinus(0),
		Concrete: concrete.EN1992{Fck: 40 * unit.Mega, Cement: concrete.ClassR},
		Bars:     []stages.BondedBars{{From: 0, To: 12, At: section.Point{Z: 0.05}, Area: 1500e-6}, {From: 0, To: 12, At: section.Point{Z: 0.75}, Area: 1500e-6}},
	}
}

// dunnage is a pair of pads on the left and a linked pair on the right: what each
// receives follows from statics.
func dunnage(left, right float64) []stages.Support {
	return append(stages.Pads(0.2, left), stages.Equalised("right", stages.Pads(0.2, right)...)...)
}

// loops are lift points on the axis, 0.1 m above the block.
func loops(left, right float64) []stages.Support {
	return []stages.Support{{X: left, Z: 0.9}, {X: right, Z: 0.9}}
}

// bowed is how far the block is from straight, and its loops from the centre of gravity.
var bowed = stages.Slender{Sweep: 0.010, Offset: 0.015}

// practice is the standard and the rules for what hangs free to turn.
var practice = limits.All(limits.EN1992{}, limits.Handling{})

// May this element be lifted like this? Run the plan and read what governs.
func ExamplePlan_Run() {
	plan := stages.Plan{
		stages.Store{Age: 5, On: dunnage(2.4, 9.6)},
		stages.Lift{Age: 7, On: loops(2.4, 9.6), Dynamic: loads.Dynamic{Most: 1.3}, Roll: 0.05, Slender: &bowed},
		stages.Store{Age: 7, On: dunnage(2.4, 9.6)},
	}
	record, err := plan.Run(block(), practice)
	if err != nil {
		fmt.Println(err)
		return
	}
	perStage, worst := record.Governing()
	c := perStage[worst]
	fmt.Printf("%s in stage %d: %s %.2f MPa, %s %.2f MPa: %s\n", record.Status(), worst+1, c.Name, c.Demand.Value/1e6, c.Sense, c.Limit.Value/1e6, c.State)
	// Output: pass in stage 2: principal tension in the web 1.28 MPa, at most 1.34 MPa: pass
}

// What must change? The lift point that uses up the reserve of stage 2.
func ExampleCase_Solve() {
	c := stages.Case{
		Subject: block(), Stage: 2, Standard: practice,
		Plan: stages.Plan{
			stages.Store{Age: 5, On: dunnage(2.4, 9.6)},
			stages.Lift{Age: 7, On: loops(2.4, 9.6), Dynamic: loads.Dynamic{Most: 1.3}, Roll: 0.05, Slender: &bowed},
			stages.Store{Age: 7, On: dunnage(2.4, 9.6)},
		},
	}
	offset := stages.Input{Symbol: "a", Unit: formula.Metre, Set: func(_ *stages.Girder, plan *stages.Plan, a float64) error {
		(*plan)[1] = stages.Lift{Age: 7, On: loops(a, 12-a), Dynamic: loads.Dynamic{Most: 1.3}, Roll: 0.05, Slender: &bowed}
		return nil
	}}
	a, governing, err := c.Solve(offset, 2.4, 5)
	fmt.Printf("a = %.3f m, %s, %v\n", a, governing.Name, err)
	// Output: a = 2.748 m, principal tension in the web, <nil>
}

// turn is an operation of one's own: a piece hung by one end while the other
// stays on the ground. One method makes it a stage.
type turn struct {
	age, hook float64
}

func (t turn) Situations(h stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{
		Name: "turn about one end", Age: t.age, Phase: limits.Lifting, Dynamic: loads.AtRest(),
		Supports: []stages.Support{{X: t.hook, Z: 0.9, Role: stages.LiftPoint}, {X: h.Element.Length, Role: stages.Pad}},
		Check: func(e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
			hook := limits.Limit{
				Name: "hook load", LimitState: "working load", Sense: limits.AtMost,
				Line:   formula.Given(formula.Q("WLL", 120*unit.Kilo, formula.Newton, "working load of the hook"), formula.Source{Document: "maker's plate"}),
				Source: formula.Source{Document: "maker's plate"},
			}
			load := formula.Given(formula.Q("R_1", e.Reactions[0].Characteristic.Most, formula.Newton, "hook load"), formula.Mechanics)
			return []stages.OwnCheck{stages.NewCheck(hook, load.Result).Derived(load, hook.Line)}, nil
		},
	}}, nil
}

func ExampleStage() {
	plan := stages.Plan{stages.Store{Age: 5, On: dunnage(2.4, 9.6)}, turn{age: 7, hook: 3.5}}
	record, err := plan.Run(block(), limits.EN1992{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range record.Stages[1].Situations[0].Checks {
		if c.Name == "hook load" {
			fmt.Printf("%s %.1f kN of %.0f kN: %s\n", c.Name, c.Demand.Value/1e3, c.Limit.Value/1e3, c.State)
		}
	}
	// Output: hook load 84.7 kN of 120 kN: pass
}

// A tendon between two ages: with a model of creep and shrinkage each loss is
// carried through the plan and named.
func ExampleElement_longTerm() {
	mix := concrete.EN1992{
		Fck: 40 * unit.Mega, Cement: concrete.ClassR,
		Exposure: concrete.Exposure{Humidity: 0.70, NotionalSize: 0.31, DryingFrom: 1},
	}
	e := block()
	e.Concrete, e.LongTerm = mix, mix
	e.Tendons = []tendon.Tendon{{
		Mark: "T", Strand: tendon.Y1860S7x157, Strands: 7, Duct: 0.07, Friction: 0.19, Wobble: 0.005,
		Elevation: tendon.Level(0, 12, 0.25), Plan: tendon.Level(0, 12, 0),
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 25 * unit.Mega, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}}
	plan := stages.Plan{
		stages.Transfer{Age: 5, Jacking: []tendon.Jacking{{Tendons: []string{"T"}, Stress: 1350 * unit.Mega, Ends: tendon.LeftEnd, DrawIn: 5 * unit.Milli}}},
		stages.Seat{Age: 60, On: dunnage(0.3, 11.7)},
	}
	record, err := plan.Run(e, limits.EN1992{})
	if err != nil {
		fmt.Println(err)
		return
	}
	t := record.Stages[1].Situations[0].Tendons[0]
	fmt.Printf("%.0f kN at mid-length; lost MPa: friction %.0f, draw-in %.0f, creep %.0f, shrinkage %.0f, relaxation %.0f\n",
		t.Middle/1e3, t.Losses.Friction/1e6, t.Losses.DrawIn/1e6, t.Losses.Creep/1e6, t.Losses.Shrinkage/1e6, t.Losses.Relaxation/1e6)
	// Output: 1280 kN at mid-length; lost MPa: friction 8, draw-in 81, creep 16, shrinkage 18, relaxation 8
}
