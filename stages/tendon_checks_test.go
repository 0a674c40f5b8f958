package stages_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// threeTendons are well apart, each with its own approval.
func threeTendons() []tendon.Tendon {
	return []tendon.Tendon{straight("T1", 0, 12, -0.05, 0.15), straight("T2", 0, 12, 0.05, 0.40), straight("T3", 0, 12, 0, 0.64)}
}

// inSteps are the ways in which three tendons are stressed: all in one jacking, each in
// one of its own, and those in the other order.
func inSteps(stress float64) [][]tendon.Jacking {
	pull := func(marks ...string) tendon.Jacking {
		return tendon.Jacking{Tendons: marks, Stress: stress, Ends: tendon.LeftEnd}
	}
	return [][]tendon.Jacking{{pull("T1", "T2", "T3")}, {pull("T1"), pull("T2"), pull("T3")}, {pull("T3"), pull("T2", "T1")}}
}

// Every tendon of a step is checked for everything, and every step: whichever of three
// is the one that fails, it is found, and named.
func TestEveryTendonOfEveryStepIsChecked(t *testing.T) {
	weak := tendon.Y1860S7x157
	weak.Fpk, weak.Fp01k = 1670e6, 1450e6
	for _, c := range []struct {
		kind  limits.Kind
		spoil func(*tendon.Tendon)
	}{
		{limits.JackStress, func(x *tendon.Tendon) { x.Strand = weak }},
		{limits.LockOffStress, func(x *tendon.Tendon) { x.Strand = weak }},
		{limits.StressingStrength, func(x *tendon.Tendon) { x.Approval.MeanStrength = 60e6 }},
		{limits.AnchorSpacing, func(x *tendon.Tendon) { x.Approval.AnchorSpacing = 0.3 }},
		{limits.AnchorEdge, func(x *tendon.Tendon) { x.Approval.EdgeDistance = 0.22 }},
	} {
		for of := range 3 {
			e := bare(threeTendons()...)
			c.spoil(&e.Tendons[of])
			for i, jackings := range inSteps(1350e6) {
				plan := stages.Plan{stages.Transfer{Age: 28, Jacking: jackings, On: dunnage(0.1, 11.9)}}
				if i == 2 {
					plan = stages.Plan{stages.Store{Age: 27, On: dunnage(0.1, 11.9)}, stages.Stress{Age: 28, Jacking: jackings, On: dunnage(0.1, 11.9)}}
				}
				r := run(t, e, plan)
				var failed []string
				for _, s := range r.Stages[len(plan)-1].Situations {
					for _, k := range s.Checks {
						if k.Kind == c.kind && k.State == stages.Fail {
							failed = append(failed, k.Place)
						}
					}
				}
				require.Contains(t, fmt.Sprint(failed), fmt.Sprintf("tendon T%d", of+1), c.kind)
			}
		}
	}
}

// As they are none of the three fails.
func TestThreeTendonsPassAsTheyAre(t *testing.T) {
	for _, jackings := range inSteps(1350e6) {
		for _, s := range run(t, bare(threeTendons()...), stages.Plan{stages.Transfer{Age: 28, Jacking: jackings, On: dunnage(0.1, 11.9)}}).Stages[0].Situations {
			for _, kind := range []limits.Kind{limits.JackStress, limits.LockOffStress, limits.StressingStrength, limits.AnchorSpacing, limits.AnchorEdge, limits.DuctSpacing} {
				require.Equal(t, stages.Pass, check(t, s, kind).State, kind)
			}
		}
	}
}

// The demand of a check of anchors is at the end at which they are nearest, left or
// right, and to the nearest of the others.
func TestAnchorsAreLookedAtOnBothEnds(t *testing.T) {
	lean := func(mark string, y0, z0, y1, z1 float64) tendon.Tendon {
		x := straight(mark, 0, 12, 0, 0)
		x.Elevation, x.Plan = straightLine(12, z0, z1), straightLine(12, y0, y1)
		return x
	}
	for _, c := range []struct {
		list          []tendon.Tendon
		spacing, edge float64 // of the first
		at, edgeAt    float64 // x of each, m
	}{
		{[]tendon.Tendon{lean("A", 0, 0.2, 0, 0.3), lean("B", 0.05, 0.5, 0, 0.6)}, 0.30, 0.20, 12, 0},
		{[]tendon.Tendon{lean("A", 0, 0.3, 0, 0.2), lean("B", 0, 0.6, 0.05, 0.6)}, 0.30, 0.20, 0, 12},
		{[]tendon.Tendon{lean("A", 0.09, 0.3, 0, 0.3), lean("B", 0.09, 0.7, 0, 0.55)}, 0.25, 0.16, 12, 0},
		{[]tendon.Tendon{lean("A", 0, 0.4, 0.1, 0.4), lean("B", 0, 0.6, 0, 0.7), lean("C", 0.1, 0.1, 0.1, 0.15)}, 0.20, 0.15, 0, 12},
	} {
		e := bare(c.list...)
		for i := range e.Tendons {
			e.Tendons[i].Approval.AnchorSpacing, e.Tendons[i].Approval.EdgeDistance = 0.01, 0.01
		}
		e.Tendons[0].Approval.AnchorSpacing, e.Tendons[0].Approval.EdgeDistance = 0.9, 0.9 // so that it is the worst
		var marks []string
		for _, x := range c.list {
			marks = append(marks, x.Mark)
		}
		s := run(t, e, stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{{Tendons: marks, Stress: 900e6, Ends: tendon.LeftEnd}}, On: dunnage(0.1, 11.9)}}).Stages[0].Situations[0]
		spacing, edge := check(t, s, limits.AnchorSpacing), check(t, s, limits.AnchorEdge)
		require.InDelta(t, c.spacing, spacing.Demand.Value, 1e-9)
		require.InDelta(t, c.at, spacing.X, 1e-9)
		require.InDelta(t, c.edge, edge.Demand.Value, 1e-9)
		require.InDelta(t, c.edgeAt, edge.X, 1e-9)
	}
}

// A clear distance of ducts is that at the place where they are nearest, between the
// nearest two, less half of both ducts.
func TestDuctsAreNearestWhereTheyCross(t *testing.T) {
	low := straight("A", 0, 12, -0.08, 0.2)
	cross := straight("B", 0, 12, 0, 0)
	cross.Elevation, cross.Plan, cross.Duct = straightLine(12, 0.2, 0.5), straightLine(12, 0.12, -0.08), 0.05
	far := straight("C", 0, 12, 0.12, 0.66)
	// B passes A where its distance is least: d² = (0.20 − 0.20·t)² + (0.30·t)², t = 0.04/0.13.
	at := 0.04 / 0.13
	clear := math.Hypot(0.20-0.20*at, 0.30*at) - (0.07+0.05)/2
	e := bare(low, cross, far)
	s := run(t, e, stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{{Tendons: []string{"A", "B", "C"}, Stress: 900e6, Ends: tendon.LeftEnd}}, On: dunnage(0.1, 11.9)}}).Stages[0].Situations[0]
	got := check(t, s, limits.DuctSpacing)
	require.InDelta(t, clear, got.Demand.Value, 2e-4, "looked at in 24 steps")
	require.GreaterOrEqual(t, got.Demand.Value, clear-1e-12)
	require.InDelta(t, 12*at, got.X, 0.26)
}

// The strength that counts for a tendon is that of the weaker of the two pieces in
// which it is anchored, on whichever end.
func TestStressingStrengthIsOfTheWeakerAnchorPiece(t *testing.T) {
	for weak := range 3 {
		list := []stages.Element{segment("A", 4), segment("B", 4), segment("C", 4)}
		list[weak].Concrete = concrete.EN1992{Fck: 25e6, Cement: concrete.ClassR}
		through := straight("T", 0, 12, 0, 0.4)
		through.Approval.MeanStrength = 40e6
		g := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Epoxied, list...), Tendons: []tendon.Tendon{through}}
		s := run(t, g, stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T")}, On: dunnage(0.1, 11.9)}}).Stages[0].Situations[0]
		got := check(t, s, limits.StressingStrength)
		want := 48e6 // 40 + 8 MPa at 28 days
		if weak != 1 {
			want = 33e6
		}
		require.InDelta(t, want, got.Demand.Value, 1, "piece %d is the weak one", weak+1)
		require.Equal(t, weak != 1, got.State == stages.Fail)
	}
}

// Shear is on the web less its ducts: 1.2·Σφ that are not grouted, or of plastic;
// 0.5·Σφ of grouted metal ones; EN 1992-1-1 6.2.3(6).
func TestDuctsAreTakenOffTheWeb(t *testing.T) {
	shape, err := section.IGirder{Depth: 1.6, WebThickness: 0.3, Top: section.Flange{Width: 0.8, Edge: 0.2}, Bottom: section.Flange{Width: 0.8, Edge: 0.2}}.Shape()
	require.NoError(t, err)
	of := func(plastic bool, grouted []string, ducts ...float64) float64 {
		var list []tendon.Tendon
		var marks []string
		for i, d := range ducts {
			x := straight(string(rune('A'+i)), 0, 24, 0.15*float64(i)-0.075*float64(len(ducts)-1), 0.8)
			x.Duct, x.Plastic = d, plastic
			x.Approval.AnchorSpacing, x.Approval.EdgeDistance = 0.01, 0.01
			list, marks = append(list, x), append(marks, x.Mark)
		}
		e := bare(list...)
		e.Section, e.Length = shape, 24
		on := paired(stages.Pads(0.2, 0.4, 23.6))
		plan := stages.Plan{stages.Store{Age: 28, On: on}}
		if len(marks) > 0 {
			plan = stages.Plan{stages.Transfer{Age: 27, Jacking: []tendon.Jacking{{Tendons: marks, Stress: 700e6, Ends: tendon.LeftEnd}}, On: on}}
			if len(grouted) > 0 {
				plan = append(plan, stages.Stress{Age: 27.5, Grout: grouted, On: on})
			}
			plan = append(plan, stages.Store{Age: 28, On: on})
		}
		r := run(t, e, plan)
		c := check(t, r.Stages[len(plan)-1].Situations[0], limits.WebShear)
		require.NotEqual(t, stages.NotEvaluated, c.State)
		return c.Demand.Value
	}
	whole := of(false, nil)
	for _, c := range []struct {
		plastic bool
		grouted []string
		ducts   []float64
		net     float64 // m
	}{
		{false, nil, []float64{0.1}, 0.3 - 1.2*0.1}, {false, []string{"A"}, []float64{0.1}, 0.3 - 0.5*0.1}, {true, []string{"A"}, []float64{0.1}, 0.3 - 1.2*0.1},
		{false, nil, []float64{0.08, 0.06}, 0.3 - 1.2*0.14}, {false, []string{"A", "B"}, []float64{0.08, 0.06}, 0.3 - 0.5*0.14},
	} {
		ratio := of(c.plastic, c.grouted, c.ducts...) / whole
		require.InEpsilon(t, 0.3/c.net, ratio, 0.03, "%+v: the static moments differ a little", c)
	}
	require.True(t, slices.IsSorted([]float64{whole, of(false, []string{"A"}, 0.1), of(false, nil, 0.1)}))
}
