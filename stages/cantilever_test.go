package stages_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// erected is one step of building out: what is done to pieces and tendons on a day.
type erected struct {
	name   string
	day    float64
	on     []stages.Support
	events []stages.Event
}

func (e erected) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{Name: e.name, Day: e.day, Standing: true, Phase: limits.Stressing, Supports: e.on, Events: e.events}}, nil
}

// balancedCantilever is a girder of two arms of segments, 3 m long, built out from a
// pier: each step adds and joins a segment on both sides and stresses tendons of 12
// strands in the top slab from end to end, a number of them a step.
func balancedCantilever(t testing.TB, arm, tendons int, longTerm bool) (stages.Girder, stages.Plan) {
	const length = 3.0
	shape, err := section.Box{
		Depth: 3.2, TopWidth: 11, RootWidth: 6.0, BottomWidth: 5.4, TopSlab: 0.34, BottomSlab: 0.28, WebThickness: 0.45,
		CantileverRoot: 0.5, CantileverTip: 0.25, TopHaunch: section.Haunch{Width: 0.6, Height: 0.2}, BottomHaunch: section.Haunch{Width: 0.4, Height: 0.2},
	}.Shape()
	require.NoError(t, err)
	mix := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.75, NotionalSize: 0.35, DryingFrom: 2}}
	pier := length * float64(arm)
	cast := func(step int) float64 { return float64(step) } // all before the first is set
	elements := make([]stages.Element, 2*arm)
	for i := range elements {
		step := max(arm-1-i, i-arm)
		elements[i] = stages.Element{
			Mark: fmt.Sprintf("S%d", i+1), Length: length, Section: shape, Concrete: mix, WeightTolerance: loads.PlusMinus(0.02), Cast: cast(step),
		}
		if longTerm {
			elements[i].LongTerm = mix
		}
	}
	g := stages.Girder{Mark: "C", Pieces: stages.EndToEnd(stages.Epoxied, elements...)}
	on := []stages.Support{{X: pier, Z: 0, Role: stages.Pad, Fixed: true}}
	var plan stages.Plan
	for step := range arm {
		left, right := arm-1-step, arm+step
		e := erected{name: fmt.Sprintf("step %d", step+1), day: float64(arm + 5 + 4*step), on: on}
		for _, i := range []int{left, right} {
			if step > 0 {
				g.Pieces[i].Later = true
				e.events = append(e.events, stages.Event{Add: []string{elements[i].Mark}, Join: []string{elements[i].Mark}})
			}
			if g.Pieces[i].WeightGroup = "left"; i >= arm {
				g.Pieces[i].WeightGroup = "right"
			}
		}
		pull := tendon.Jacking{Stress: 1400e6, Ends: tendon.BothEnds, DrawIn: 0.006}
		for k := range tendons {
			n := step*tendons + k
			from, to := length*float64(left), length*float64(right+1)
			y := 0.08 * (float64(n/2) + 0.5)
			if n%2 == 1 {
				y = -y
			}
			line := func(v float64) tendon.Curve {
				return tendon.Curve{tendon.Straight(tendon.Point{X: from, Ordinate: v}, tendon.Point{X: to, Ordinate: v})}
			}
			mark := fmt.Sprintf("T%d_%d", step+1, k+1)
			g.Tendons = append(g.Tendons, tendon.Tendon{
				Mark: mark, Strand: tendon.Y1860S7x157, Strands: 5, Duct: 0.06, Elevation: line(3.09), Plan: line(y), Friction: 0.19, Wobble: 0.005,
				Approval: tendon.Approval{Reference: "invented", MeanStrength: 30e6, AnchorSpacing: 0.07, EdgeDistance: 0.1},
			})
			pull.Tendons = append(pull.Tendons, mark)
		}
		e.events = append(e.events, stages.Event{Jack: &pull})
		plan = append(plan, e)
	}
	return g, plan
}

// After every step an arm has the moments −w·x²/2 of its weight, x from its end, and the
// record of four segments an arm stays small.
func TestBalancedCantilever(t *testing.T) {
	for _, longTerm := range []bool{false, true} {
		g, plan := balancedCantilever(t, 4, 5, longTerm)
		record, err := plan.Run(g, limits.EN1992{})
		require.NoError(t, err)
		w := 25e3 * g.Pieces[0].Element.Section.At(0).Properties().Area
		for step, stage := range record.Stages {
			arm := 3 * float64(step+1)
			for _, q := range stage.Situations {
				for _, at := range stages.StationsOf(q.Stations) {
					x := arm - math.Abs(at.X-12) // from the end of the arm
					if x < -1e-4 {
						require.Zero(t, at.Weight, "nothing is there yet")
						continue
					}
					require.InDelta(t, -w*x*x/2, at.Weight.My, 1e-4*w*arm, "x is rounded to 0.1 mm: step %d, x = %g m", step+1, at.X)
				}
			}
		}
		data, err := json.Marshal(record)
		require.NoError(t, err)
		require.Less(t, len(data), 700_000)
	}
}

// BenchmarkCantilever is the plan and its record, up to 2 × 25 segments with 125 tendons.
func BenchmarkCantilever(b *testing.B) {
	for _, c := range []struct {
		name     string
		arm      int
		longTerm bool
	}{{"2x6", 6, false}, {"2x12", 12, false}, {"2x25", 25, false}, {"2x12, creep", 12, true}, {"2x25, creep", 25, true}} {
		b.Run(c.name, func(b *testing.B) {
			g, plan := balancedCantilever(b, c.arm, 5, c.longTerm)
			b.ReportAllocs()
			size := 0
			for b.Loop() {
				record, err := plan.Run(g, limits.EN1992{})
				if err != nil {
					b.Fatal(err)
				}
				data, err := json.Marshal(record)
				if err != nil {
					b.Fatal(err)
				}
				size = len(data)
			}
			b.ReportMetric(float64(size)/1e6, "MB-JSON")
		})
	}
}
