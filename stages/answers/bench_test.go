package answers_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/answers"
	"github.com/tempstage/tempstage/stages/limits"
)

// boxGirder is a 34 m box with eight tendons in its webs, with creep and shrinkage, from its bed
// to its bearings.
func boxGirder(t testing.TB) stages.Case {
	box := section.Box{
		Depth: 2.3, TopWidth: 9.0, RootWidth: 4.9, BottomWidth: 4.3,
		TopSlab: 0.20, BottomSlab: 0.20, WebThickness: 0.34, CantileverRoot: 0.35, CantileverTip: 0.16,
		TopHaunch: section.Haunch{Width: 0.5, Height: 0.15}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.15},
	}
	shape, err := box.Shape()
	require.NoError(t, err)
	mix := concrete.EN1992{
		Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.75, NotionalSize: 0.27, DryingFrom: 2},
		Tests: []concrete.Test{{Age: 2, Strength: 46e6, Specimen: concrete.Cube, Specimens: 6, Statistic: concrete.Mean, Report: "invented"}},
	}
	e := stages.Element{Mark: "E", Length: 34, Section: shape, WeightTolerance: loads.PlusMinus(0.03), Concrete: mix, LongTerm: mix,
		Bars: []stages.BondedBars{{From: 0, To: 34, At: section.Point{Z: 2.2}, Area: 8000e-6}, {From: 0, To: 34, At: section.Point{Z: 0.1}, Area: 8000e-6}}}
	lean := box.WebCentre(1) - box.WebCentre(0)
	for i, level := range []struct{ anchor, low float64 }{{0.45, 0.14}, {0.83, 0.27}, {1.21, 0.40}, {1.59, 0.53}} {
		elevation := tendon.Drape(tendon.Point{X: 0, Ordinate: level.anchor}, 2.5, tendon.Point{X: 13, Ordinate: level.low}, 34)
		for k, y := range []float64{1, -1} {
			e.Tendons = append(e.Tendons, tendon.Tendon{
				Mark: "W" + string(rune('1'+i)) + string("LR"[k]), Strand: tendon.Y1860S7x157, Strands: 12, Duct: 0.09,
				Elevation: elevation, Plan: elevation.Leaning(y*box.WebCentre(0), 0, y*lean), Friction: 0.19, Wobble: 0.005,
				Approval: tendon.Approval{Reference: "invented", MeanStrength: 30e6, AnchorSpacing: 0.34, EdgeDistance: 0.165},
			})
		}
	}
	pull := func(marks ...string) tendon.Jacking {
		return tendon.Jacking{Tendons: marks, Stress: 1400e6, Ends: tendon.BothEnds, DrawIn: 0.006}
	}
	on := append(stages.Equalised("rear", stages.Pads(1.9, 4)...), stages.Pads(1.9, 30)...)
	for i := range on {
		on[i].Z = 2.3
	}
	lift := stages.Lift{Age: 2.5, On: on, Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}}
	again := lift
	again.Age = 28
	c := stages.Case{Subject: e, Stage: 2, Standard: limits.EN1992{}, Plan: stages.Plan{
		stages.Transfer{Age: 2, Jacking: []tendon.Jacking{pull("W2L", "W2R"), pull("W3L", "W3R"), pull("W4L", "W4R")}, On: stages.Elastic(80e6, stages.Pads(1.9, 0.5, 33.5)...), OutOfLevel: 0.002},
		lift,
		stages.Store{Age: 3, Until: 14, OutOfLevel: 0.005, On: stages.Elastic(80e6, stages.Pads(1.9, 1.6, 32.4)...)},
		stages.Stress{Age: 14, Jacking: []tendon.Jacking{pull("W1L", "W1R")}, Grout: []string{"W1L", "W1R", "W2L", "W2R", "W3L", "W3R", "W4L", "W4R"}, GroutAge: 16},
		again,
		stages.Seat{Age: 28, OutOfLevel: 0.002, On: stages.Elastic(500e6, stages.Pads(1.9, 0.7, 33.3)...)},
	}}
	for i := range c.Plan {
		c.Plan[i] = stages.Covered(c.Plan[i], stages.Document{Covers: limits.WallSpread, Number: "invented", Revision: "A", Status: "approved"})
	}
	return c
}

// The proof of an answer on a whole girder: what the shortened plan gave, the whole plan gives.
func TestAnswersOfAGirderWithCreep(t *testing.T) {
	c := boxGirder(t)
	s, err := answers.LeastStrength(c)
	require.NoError(t, err)
	proved(t, c, shown(2.5), s.Answer)
}

func BenchmarkLeastStrength(b *testing.B) {
	c := boxGirder(b)
	b.ReportAllocs()
	for b.Loop() {
		_, err := answers.LeastStrength(c)
		require.NoError(b, err)
	}
}

func BenchmarkHoldPoints(b *testing.B) {
	c := boxGirder(b)
	b.ReportAllocs()
	for b.Loop() {
		_, err := answers.HoldPoints(c.Subject, c.Plan, c.Standard)
		require.NoError(b, err)
	}
}

func BenchmarkScreen(b *testing.B) {
	c := boxGirder(b)
	b.ReportAllocs()
	for b.Loop() {
		_, err := answers.Screen(context.Background(), 20, func(int) (answers.Job, error) {
			return answers.Job{Subject: c.Subject, Plan: c.Plan, Standard: c.Standard}, nil
		}, nil)
		require.NoError(b, err)
	}
}
