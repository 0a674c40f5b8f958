package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// cart is one axle, or two of unlike force, that roll at a level above the element.
func cart(dynamic float64, axles ...loads.Axle) *loads.Train {
	return &loads.Train{Name: "cart", Axles: axles, Dynamic: dynamic}
}

// On a slope a train acts at its own level: at h above the supports its force moves by
// h·tan down the slope, on the worst of both ways and at the worst place.
func TestATrainOnASlopeActsAtItsLevel(t *testing.T) {
	const force = 30e3
	for _, level := range []float64{2.5} {
		for _, c := range []struct{ roll, gradient float64 }{{0, 0.1}, {0.08, 0}} {
			on := bracketed([]stages.Support{{X: 1, Y: -0.6}, {X: 1, Y: 0.6}, {X: 11}})
			acts := []stages.Action{{Mark: "cart", Z: level, Y: 0.1, Train: cart(1.2, loads.Axle{Force: force})}}
			with := run(t, block(), stages.Plan{stages.Seat{Age: 28, On: on, Roll: c.roll, Gradient: c.gradient, Actions: acts}}).Stages[0].Situations[0]
			var most [3]float64
			for _, r := range []float64{-c.roll, 0, c.roll} {
				for _, g := range []float64{-c.gradient, 0, c.gradient} {
					// Across gravity all lies at x − z·tan g and y − z·tan r/cos g.
					at := func(x, y, z float64) [3]float64 {
						return onTripod(1, -0.6, 0.6, 11, x-z*math.Tan(g), y-z*math.Tan(r))
					}
					weight := at(6, 0, 0.4)
					for i := range most {
						worst := 0.0
						for _, x := range []float64{0, 12} { // influence lines are straight
							worst = math.Max(worst, 1.2*force*at(x, 0.1, level)[i])
						}
						most[i] = math.Max(most[i], 120e3*weight[i]+worst)
					}
				}
			}
			for i := range most {
				require.InDelta(t, most[i], with.Reactions[i].Characteristic.Most, 1e-6*120e3, "support %d, level %g m, %+v", i+1, level, c)
			}
		}
	}
}

// A train that is always somewhere on the girder helps nowhere for certain; one that
// may be absent is left out where it helps.
func TestATrainNeverHoldsDownForCertain(t *testing.T) {
	on := stages.At(2, 9)
	for _, least := range []float64{0, 1} {
		acts := []stages.Action{{Mark: "cart", Least: least, Most: 1, Train: cart(0, loads.Axle{Force: 12e3}, loads.Axle{Force: 8e3, Behind: 1.5})}}
		s := run(t, block(), stages.Plan{stages.Seat{Age: 28, On: on, Actions: acts}}).Stages[0].Situations[0]
		// Beyond 9 m: 1.05·10·3²/2, both axles at their worst: 12 at 12 m and 8 at 10.5 m;
		// 0.95·10·9²/2 within.
		got := check(t, s, limits.Overturning)
		require.InEpsilon(t, 1.05*10e3*9/2+1.35*(12e3*3+8e3*1.5)+0.025*120e3*0.4, got.Demand.Value, 1e-9, "present from %g", least)
		require.InEpsilon(t, 0.95*10e3*81/2, got.Limit.Value, 1e-9)
		// Uplift of the left support under the same, about 9 m.
		uplift := check(t, s, limits.Uplift)
		require.InEpsilon(t, (0.95*10e3*81/2-1.05*10e3*9/2-1.35*(12e3*3+8e3*1.5))/7, uplift.Demand.Value, 1e-9)
		require.InDelta(t, 2, uplift.X, 1e-12)
	}
}

// Stresses under a train are those of its worst place, under whichever axle: heavy and
// light ones, over a simple beam and one with cantilevers, by brute force.
func TestStressUnderATrainIsThatOfItsWorstPlace(t *testing.T) {
	e := block()
	e.Bars = nil
	for _, on := range [][]stages.Support{dunnage(0, 12), dunnage(2.3, 11.1)} {
		left, right := on[0].X, on[2].X
		for _, axles := range [][]loads.Axle{{{Force: 400e3}}, {{Force: 250e3}, {Force: 300e3, Behind: 1.31}}, {{Force: 10e3}, {Force: 45e3, Behind: 0.7}, {Force: 5e3, Behind: 2}}} {
			acts := []stages.Action{{Mark: "cart", Train: cart(0, axles...)}}
			got := check(t, run(t, e, stages.Plan{stages.Seat{Age: 28, On: on, Actions: acts}}).Stages[0].Situations[0], limits.Tension)
			most := 0.0
			for k := range 601 { // fronts every 3 cm
				front := 0.03 * float64(k)
				r := 120e3 * (right - 6) / (right - left)
				var at, force []float64
				x := front
				for _, a := range axles {
					if x -= a.Behind; x >= 0 && x <= 12 {
						at, force = append(at, x), append(force, a.Force)
						r += a.Force * (right - x) / (right - left)
					}
				}
				for n := range 241 {
					x := 0.05 * float64(n)
					m := -10e3 * x * x / 2
					if x > left {
						m += r * (x - left)
					}
					if x > right {
						m = -10e3 * (12 - x) * (12 - x) / 2
						for i, a := range at {
							if a > x {
								m -= force[i] * (a - x)
							}
						}
					} else {
						for i, a := range at {
							if a < x {
								m -= force[i] * (x - a)
							}
						}
					}
					most = math.Max(most, math.Abs(m))
				}
			}
			want := most / (0.5 * 0.64 / 6)
			require.InEpsilon(t, want, got.Demand.Value, 4e-3, "supports at %g and %g m, %d axles", left, right, len(axles))
		}
	}
}

// An axle just beside a support puts all its force in shear there; above it, none.
func TestShearBesideASupport(t *testing.T) {
	e := block()
	e.Bars = nil
	acts := []stages.Action{{Mark: "cart", Train: cart(0, loads.Axle{Force: 100e3})}}
	got := check(t, run(t, e, stages.Plan{stages.Seat{Age: 28, On: dunnage(0, 12), Actions: acts}}).Stages[0].Situations[0], limits.WebShear)
	require.InEpsilon(t, 1.5*(1.35*60e3+1.5*100e3)/(0.5*0.8), got.Demand.Value, 1e-4)
}

// A train rolls over one body whose supports share in a stated way, and over no other.
func TestWhereATrainMayNotRoll(t *testing.T) {
	acts := []stages.Action{{Mark: "cart", Train: cart(0, loads.Axle{Force: 12e3})}}
	for words, plan := range map[string]stages.Plan{
		"rolls over supports about whose sharing nothing is stated":   {stages.Seat{Age: 28, On: stages.Pads(0.2, 1, 11), Actions: acts}},
		"field Stays with a Train: must be an action without a Train": {stages.Seat{Age: 28, On: dunnage(1, 11), Actions: []stages.Action{{Mark: "cart", Stays: true, Train: acts[0].Train}}}},
		"Train beside Loads or in a direction other than Down":        {stages.Seat{Age: 28, On: dunnage(1, 11), Actions: []stages.Action{{Mark: "cart", Direction: stages.Along, Train: acts[0].Train}}}},
		"Train beside Loads": {stages.Seat{Age: 28, On: dunnage(1, 11), Actions: []stages.Action{{Mark: "cart", Loads: point(3, 1), Train: acts[0].Train}}}},
	} {
		require.ErrorContains(t, errorOf(plan), words)
	}
	g := stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Dry, segment("A", 6), segment("B", 6))}
	g.Pieces[1].Later = true
	apart := odd{situations: []stages.Situation{{Name: "apart", Age: 28, Standing: true, Phase: limits.Seating, Supports: pads(append(paired(stages.Pads(0.2, 1, 5)), stages.Equalised("far", stages.Pads(0.2, 7)...)[0], stages.Support{X: 7, Y: 0.2, Group: "far"}, stages.Support{X: 11, Y: -0.2}, stages.Support{X: 11, Y: 0.2})), Events: []stages.Event{{Add: []string{"B"}}}, Actions: acts}}}
	_, err := stages.Plan{apart}.Run(g, limits.EN1992{})
	require.ErrorContains(t, err, "train cart rolls over a girder of 2 bodies: must be joined to one before")
}
