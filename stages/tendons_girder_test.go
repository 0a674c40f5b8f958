package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Two segments that act together from the beginning are the beam itself, also for
// an external tendon over both and a further pull.
func TestExternalTendonThroughSegments(t *testing.T) {
	whole := hollow(t, deviated(0.2), evenTendon("N", 9, -0.85, 0.12))
	left, right := hollow(t), hollow(t)
	left.Mark, left.Length, right.Mark, right.Length = "S1", 7.3, "S2", 8.7
	girder := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Monolithic, left, right), Tendons: whole.Tendons}
	plan := stages.Plan{
		stages.Transfer{Age: 5, On: twoEnds, Jacking: []tendon.Jacking{jackTo(1200e6, tendon.LeftEnd, "X"), jackTo(1000e6, tendon.LeftEnd, "N")}},
		stages.Stress{Age: 8, Jacking: []tendon.Jacking{jackTo(1300e6, tendon.RightEnd, "X")}},
	}
	a, err := plan.Run(whole, limits.EN1992{})
	require.NoError(t, err)
	b, err := plan.Run(girder, limits.EN1992{})
	require.NoError(t, err)
	for i, f := range a.Stages[1].Situations[0].Tendons {
		g := b.Stages[1].Situations[0].Tendons[i]
		require.InEpsilon(t, f.Left, g.Left, 1e-9)
		require.InEpsilon(t, f.Middle, g.Middle, 1e-9)
		require.InEpsilon(t, f.Right, g.Right, 1e-9)
	}
}

// Strands of the second of two elements are in its own x, and are released when it
// is carried.
func TestPretensionInLaterElement(t *testing.T) {
	first, second := hollow(t), bedBeam(t)
	alone := stages.Plan{stages.Transfer{Age: 2, Pretension: fromBed(1300e6, "P1", "P2"), On: twoEnds}}
	want, err := alone.Run(second, limits.EN1992{})
	require.NoError(t, err)
	first.Length = 10
	first.Mark = "H"
	girder := stages.Girder{Mark: "G", Pieces: []stages.Piece{{Element: first}, {Element: second, At: 10, Joint: stages.Poured, Later: true}}}
	on := func(xs ...float64) []stages.Support {
		var list []stages.Support
		for _, x := range xs {
			list = append(list, stages.Support{X: x, Y: 0.1, Role: stages.Pad})
		}
		return list
	}
	plan := stages.Plan{
		stages.Store{Age: 1, On: on(0, 9.5)},
		placed{on(0, 9.5, 10.5, 26), []stages.Event{{Add: []string{"L"}, Transfer: fromBed(1300e6, "P1", "P2")}}},
	}
	got, err := plan.Run(girder, limits.EN1992{})
	require.NoError(t, err)
	f, g := want.Stages[0].Situations[0].Tendons[0], got.Stages[1].Situations[0].Tendons[0]
	require.InEpsilon(t, f.Middle, g.Middle, 1e-9)
	for i := range f.Along {
		require.InDelta(t, f.Along[i][1], g.Along[i][1], 1, "the ends are looked at a hair inside")
		require.InDelta(t, f.Along[i][0]+10, g.Along[i][0], 1e-6)
	}
	plan[1] = placed{on(0, 9.5, 10.5, 26), []stages.Event{{Add: []string{"L"}}}}
	_, err = plan.Run(girder, limits.EN1992{})
	require.ErrorContains(t, err, "pretension P1 of L is still held by the bed")
	plan[1] = placed{on(0, 9.5), []stages.Event{{Transfer: fromBed(1300e6, "P1", "P2")}}}
	_, err = plan.Run(girder, limits.EN1992{})
	require.ErrorContains(t, err, "element L of pretension P1 is not carried")
	girder.Tendons = []tendon.Tendon{evenTendon("T", 5, 0.1, 0.1)}
	girder.Tendons[0].Elevation, girder.Tendons[0].Plan = tendon.Level(0, 26, 0.1), tendon.Level(0, 26, 0.1)
	plan[1] = placed{on(0, 9.5), []stages.Event{{Jack: &tendon.Jacking{Tendons: []string{"T"}, Stress: 1000e6, Ends: tendon.LeftEnd}}}}
	_, err = plan.Run(girder, limits.EN1992{})
	require.ErrorContains(t, err, "tendon T runs through element L, which is not carried")
}

// placed is a standing situation with events.
type placed struct {
	on     []stages.Support
	events []stages.Event
}

func (p placed) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{Name: "placed", Age: 2, Standing: true, Phase: limits.Stressing, Supports: p.on, Events: p.events}}, nil
}

// In a short element the anchors of both ends spread into each other: a corner is in
// full only where it is within the spread of both. Held against plain sums over
// places and factors.
func TestAnchorsOfShortElement(t *testing.T) {
	e := angleBeam(t, evenTendon("A", 7, 0.05, 0.15))
	e.Length = 2.4
	e.Tendons[0].Elevation, e.Tendons[0].Plan = tendon.Level(0, 2.4, 0.15), tendon.Level(0, 2.4, 0.05)
	e.Extra = []stages.ExtraWeight{{Mark: "block", From: 1.6, To: 1.6, Weight: 4000e3, Y: 0.1, Z: 1.2}}
	on := []stages.Support{{X: 0, Y: 0.1}, {X: 2.4, Y: 0.1}}
	plan := stages.Plan{stages.Transfer{Age: 5, On: on, Jacking: []tendon.Jacking{jackTo(1200e6, tendon.LeftEnd, "A")}}}
	record, err := plan.Run(e, limits.EN1992{})
	require.NoError(t, err)
	a, err := plan.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	effects, err := a.Effects(1, 1)
	require.NoError(t, err)
	var net byHand
	net.rectangle(angle[0])
	net.rectangle(angle[1])
	net.hole(0.08, 0.05, 0.15)
	var worst, tension stages.Check
	for _, c := range record.Stages[0].Situations[0].Checks {
		switch c.Kind {
		case limits.Compression:
			worst = c
		case limits.Tension:
			tension = c
		}
	}
	r := map[float64]float64{}
	for _, c := range []stages.Check{worst, tension} {
		for _, f := range c.Factors {
			if f.Cause == "prestress" {
				r[c.Demand.Value] = f.Value
			}
		}
	}
	way := func(y, z float64) float64 { return math.Hypot(0.05-y, 0.15-z) } // straight to every corner
	corners := [][2]float64{{-0.20, 0}, {0.70, 0}, {0.70, 0.30}, {0.20, 0.30}, {0.20, 1.20}, {-0.20, 1.20}}
	low, high := 0.0, math.Inf(-1)
	for _, p := range corners {
		reach := 1.5 * way(p[0], p[1])
		places := []float64{reach - 1e-9, 2.4 - reach + 1e-9, 1.6}
		for i := range 1999 {
			places = append(places, 2.4*float64(i+1)/2000)
		}
		for _, x := range places {
			if x <= 0 || x >= 2.4 {
				continue
			}
			full := effects.Stress(x).At(section.Point{Y: p[0], Z: p[1]})
			prestress := net.stress(-1200e6*7*150e-6, 0.05, 0.15, p[0], p[1])
			weight := full - prestress
			for _, factor := range []float64{0, 1} {
				if factor == 0 && x >= reach && 2.4-x >= reach {
					continue
				}
				low = math.Min(low, weight+factor*r[worst.Demand.Value]*prestress)
				high = math.Max(high, weight+factor*r[tension.Demand.Value]*prestress)
			}
		}
	}
	require.InEpsilon(t, -low, worst.Demand.Value, 1e-7)
	require.InEpsilon(t, high, tension.Demand.Value, 1e-7)
}
