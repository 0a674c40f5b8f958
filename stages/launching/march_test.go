package launching_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// A simply supported beam of 20 m, 1.3 × 1.6 m, without bars or tendons.
const (
	marchSpan, marchWidth, marchDepth = 20.0, 1.3, 1.6

	marchModulus = marchWidth * marchDepth * marchDepth / 6
	marchWeight  = 25e3 * marchWidth * marchDepth * 1.03 // N/m, with its tolerance
)

func marchBeam(t testing.TB) stages.Element {
	shape, err := section.New([]section.Outline{{{Y: -marchWidth / 2, Z: 0}, {Y: marchWidth / 2, Z: 0}, {Y: marchWidth / 2, Z: marchDepth}, {Y: -marchWidth / 2, Z: marchDepth}}}, nil)
	require.NoError(t, err)
	return stages.Element{Mark: "E-M", Length: marchSpan, Section: shape, Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}, WeightTolerance: loads.PlusMinus(0.03)}
}

// unequal is an invented carrier of unlike axles.
func unequal(behind ...float64) launching.Carrier {
	c := launching.Carrier{Mark: "GC-3", Wheel: 50e3, Brakes: 2, Brake: 20e3, Drag: 0.02, Train: loads.Train{Name: "unlike axles", Dynamic: 1.15}}
	for i, force := range []float64{90e3, 150e3, 210e3, 60e3, 120e3} {
		c.Train.Axles = append(c.Train.Axles, loads.Axle{Force: force, Behind: behind[i]})
	}
	return c
}

// turned is a carrier that comes with its last axle first.
func turned(c launching.Carrier) launching.Carrier {
	c.Train = c.Train.Turned()
	return c
}

// marched is the largest effect of a train on the beam over a march of 10 mm, on which its
// front axle passes a place; of is the effect of a force at x.
func marched(train loads.Train, through float64, of func(x, force float64) float64) float64 {
	most := 0.0
	first := math.Mod(through, 0.01)
	for step := range int((marchSpan+train.Length())/0.01) + 1 {
		x, sum := first+float64(step)/100, 0.0
		for _, a := range train.Axles {
			x -= a.Behind
			if x > -1e-9 && x < marchSpan+1e-9 {
				sum += of(x, a.Force)
			}
		}
		most = math.Max(most, sum)
	}
	return most * train.Dynamic
}

// moment is the influence of a force on the bending moment of the beam at a place.
func moment(place float64) func(x, force float64) float64 {
	return func(x, force float64) float64 {
		return force * math.Min(x, place) * (marchSpan - math.Max(x, place)) / marchSpan
	}
}

// ridden is the record of the beam under a ride, with those of its actions that are kept.
func ridden(t *testing.T, r launching.Ride, kept func([]stages.Action) []stages.Action) stages.Record {
	on := stages.Pads(0.4, 0, marchSpan)
	for i := range on {
		on[i].Role, on[i].Holds = stages.Bearing, stages.HoldsBoth
	}
	plan := stages.Plan{stages.Seat{Age: 28, On: append(on[:2], stages.Equalised("right pair", on[2:]...)...)}, r}
	record, err := stages.Altered(plan, 2, func(s *stages.Situation) { s.Actions = kept(s.Actions) }).Run(marchBeam(t), limits.EN1992{})
	require.NoError(t, err)
	return record
}

// carriers are some whose axles are a multiple of 10 mm apart, so that a march through a
// place has each of them there, or not: then it misses by 5 mm what is at a place, and the
// moment by the sum of all forces times the steeper slope of its influence line.
func carriers() map[string]struct {
	launching.Carrier
	missed float64
} {
	two := unequal(0, 1.3, 3.1, 0.9, 4.7) // governs away from every eighth of the length
	two.Train.Axles = []loads.Axle{{Force: 280e3}, {Force: 280e3, Behind: 3.2}}
	return map[string]struct {
		launching.Carrier
		missed float64
	}{
		"two alike":      {two, 0},
		"met":            {unequal(0, 1.3, 3.1, 0.9, 4.7), 0},
		"the other way":  {turned(unequal(0, 1.3, 3.1, 0.9, 4.7)), 0},
		"between places": {unequal(0, 1.337, 3.1423, 0.9051, 4.7084), 0.005},
	}
}

// lost is by how much a march may fall short of the stress at a place.
func lost(c launching.Carrier, missed, x float64) float64 {
	return missed * c.Train.Weight() * c.Train.Dynamic * math.Max(x, marchSpan-x) / marchSpan / marchModulus
}

// What a carrier of unlike axles adds to the stresses at every station is what a march of
// 10 mm finds in plain arithmetic: influence ordinates of a simple beam, dynamic factor,
// section modulus. The track off the axis changes none. Stations are written to six digits of the largest.
func TestStressesAtStationsAgainstAMarch(t *testing.T) {
	for name, of := range carriers() {
		for _, off := range []float64{0, 0.25} {
			t.Run(fmt.Sprint(name, ", off by ", off), func(t *testing.T) {
				r := launching.Ride{Age: 60, Carrier: of.Carrier, Off: off, Line: launching.Spans{Bearings: 0.5}}
				with := ridden(t, r, func(list []stages.Action) []stages.Action { return list })
				without := ridden(t, r, func(list []stages.Action) []stages.Action { return list[1:] })
				for n, s := range with.Stages[1].Situations {
					before, after := stages.StationsOf(without.Stages[1].Situations[n].Stations), stages.StationsOf(s.Stations)
					require.Len(t, after, 9)
					for i, a := range after {
						const written = 5 + 5 // Pa, half of the last of six digits below 10 MPa, twice
						b, stress := before[i], marched(of.Train, a.X, moment(a.X))/marchModulus
						for _, got := range []float64{a.BottomMost - b.BottomMost, b.TopLeast - a.TopLeast} {
							require.GreaterOrEqual(t, got, stress-written, "x = %g m", a.X)
							require.LessOrEqual(t, got, stress+lost(of.Carrier, of.missed, a.X)+written, "x = %g m", a.X)
						}
						require.InDelta(t, b.BottomLeast, a.BottomLeast, written, "the carrier may be absent")
						require.InDelta(t, b.TopMost, a.TopMost, written)
					}
				}
			})
		}
	}
}

// The governing stress, which is written in full, is that of the weight and of the march
// through its place. No place has one that is larger by more than the moment below an axle
// falls, a parabola of the weight w and the carrier R on a span L, where its positions are
// L/40 apart: (R/L + w/2)·(L/80)².
func TestGoverningStressAgainstAMarch(t *testing.T) {
	for name, of := range carriers() {
		t.Run(name, func(t *testing.T) {
			r := launching.Ride{Age: 60, Carrier: of.Carrier, Line: launching.Spans{Bearings: 0.5}}
			s := ridden(t, r, func(list []stages.Action) []stages.Action { return list[:1] }).Stages[1].Situations[0]
			stress := func(x float64) float64 {
				return (marchWeight*x*(marchSpan-x)/2 + marched(of.Train, x, moment(x))) / marchModulus
			}
			for _, kind := range []string{"concrete compression", "concrete tension"} {
				c := find(t, s, kind)
				got := c.Demand.Value
				const step = marchSpan / 80
				fall := (of.Train.Weight()*of.Train.Dynamic/marchSpan + marchWeight/2) * step * step / marchModulus
				slack := fall
				if eighths := 8 * c.X / marchSpan; math.Abs(eighths-math.Round(eighths)) < 1e-9 {
					slack = 0 // every axle is looked at there
				}
				require.GreaterOrEqual(t, got, stress(c.X)*(1-1e-6)-slack)
				require.LessOrEqual(t, got, stress(c.X)*(1+1e-6)+lost(of.Carrier, of.missed, c.X))
				for x := 8.0; x <= 12; x += 0.05 {
					require.LessOrEqual(t, stress(x), got+fall, "x = %g m", x)
				}
			}
		})
	}
}

// The largest shear stress is beside a support: that of the weight and of the march, with
// factors for strength. The left pair takes all the torque of a track off the axis, the
// right one is linked; its stress is that at the face of an open wall, thickness over
// torsion constant. An axle beside a support, looked at by 1e-4 of the span beside it,
// counts there.
func TestShearAndTorsionAgainstAMarch(t *testing.T) {
	const shear, factor = 1.5 / (marchWidth * marchDepth), 1.5 // at the middle of the depth
	walls, err := marchBeam(t).Section.At(0).Walls()
	require.NoError(t, err)
	twist := marchWidth / walls.Constant
	for name, of := range carriers() {
		for _, off := range []float64{0, 0.25, 0.5} {
			r := launching.Ride{Age: 60, Carrier: of.Carrier, Off: off, Line: launching.Spans{Bearings: 0.5}}
			record := ridden(t, r, func(list []stages.Action) []stages.Action { return list[:1] })
			left := marched(of.Train, 0, func(x, force float64) float64 { return force * (shear*(marchSpan-x)/marchSpan + off*twist) })
			right := marched(of.Train, 0, func(x, force float64) float64 { return force * shear * x / marchSpan })
			want := 1.35*marchWeight*marchSpan/2*shear + factor*math.Max(left, right)
			slope := factor * shear * of.Train.Weight() * of.Train.Dynamic / marchSpan // for a metre
			for n, s := range record.Stages[1].Situations {
				below := s.Reactions[1-n] // of the left pair, that on the side of the track: y = 0.4 m, then −0.4 m
				require.InDelta(t, 0.4-0.8*float64(n), below.Y, 1e-12)
				reaction := marchWeight*marchSpan/4 + marched(of.Train, 0, func(x, force float64) float64 { return force * ((marchSpan-x)/marchSpan/2 + off/0.8) })
				require.InDelta(t, reaction, below.Characteristic.Most, 1e-6*reaction+of.Train.Weight()*of.Train.Dynamic/marchSpan*of.missed, "%s, off by %g", name, off)
				got := find(t, s, "web shear stress").Demand.Value
				require.GreaterOrEqual(t, got, want*(1-1e-6)-slope*1e-4*marchSpan, "%s, off by %g", name, off)
				require.LessOrEqual(t, got, want*(1+1e-6)+slope*2*of.missed, "%s, off by %g; an axle comes on at once", name, off)
			}
		}
	}
}
