package stages_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// reversed is the element without symmetry seen from the other side: x → 20 − x.
func reversed(t testing.TB, e stages.Element) stages.Element {
	solid := func(x float64) section.Shape {
		s, err := section.New(e.Section.At(x).Solids(), nil)
		require.NoError(t, err)
		return s
	}
	along, err := section.Taper{Left: solid(20), Right: solid(0), To: 20}.Along()
	require.NoError(t, err)
	e.Section, e.Extra, e.Tendons = along, slices.Clone(e.Extra), slices.Clone(e.Tendons)
	for i, w := range e.Extra {
		e.Extra[i].From, e.Extra[i].To = 20-w.To, 20-w.From
	}
	for i := range e.Tendons {
		p, err := e.Tendons[i].Path()
		require.NoError(t, err)
		e.Tendons[i].Elevation, e.Tendons[i].Plan = straightLine(20, p.At(20).Z, p.At(0).Z), straightLine(20, p.At(20).Y, p.At(0).Y)
	}
	return e
}

// reversedPlan is a plan seen from the other side: supports, actions and jacks.
func reversedPlan(plan stages.Plan) stages.Plan {
	other := slices.Clone(plan)
	for i := range other {
		other = stages.Altered(other, i+1, func(s *stages.Situation) {
			s.Supports, s.Actions, s.Events = slices.Clone(s.Supports), slices.Clone(s.Actions), slices.Clone(s.Events)
			for k := range s.Supports {
				s.Supports[k].X = 20 - s.Supports[k].X
			}
			for k, a := range s.Actions {
				s.Actions[k].Loads.Points = slices.Clone(a.Loads.Points)
				for n, p := range a.Loads.Points {
					p.At = 20 - p.At
					if a.Direction == stages.Along {
						p.Force = -p.Force
					}
					s.Actions[k].Loads.Points[n] = p
				}
			}
			for k, e := range s.Events {
				if e.Jack != nil {
					j := *e.Jack
					j.Ends = map[tendon.Ends]tendon.Ends{tendon.LeftEnd: tendon.RightEnd, tendon.RightEnd: tendon.LeftEnd, tendon.BothEnds: tendon.BothEnds}[j.Ends]
					s.Events[k].Jack = &j
				}
			}
		})
	}
	return other
}

// windy is the plan of the element without symmetry with actions in every direction.
func windy() stages.Plan {
	plan := unlikePlan(loads.Dynamic{Least: 0.9, Most: 1.15})
	seat := plan[4].(stages.Seat)
	seat.Gradient, seat.Roll = 0.02, 0.015
	seat.Actions = append(seat.Actions,
		stages.Action{Mark: "brake", Kind: stages.Braking, Direction: stages.Along, Z: 1.6, Y: 0.1, Least: -0.3, Most: 1, Loads: point(8, 9e3)},
		stages.Action{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.9, Least: -1, Most: 0.6, Loads: point(12, 7e3)})
	plan[4] = seat
	return plan
}

// alikeRecords compares reactions and checks of two records, support by support as
// mapped, stresses to a stated accuracy.
func alikeRecords(t *testing.T, r, q stages.Record, at func(stage, support int) int, near float64) {
	t.Helper()
	compared := 0
	require.Len(t, q.Stages, len(r.Stages))
	for i, stage := range r.Stages {
		require.Len(t, q.Stages[i].Situations, len(stage.Situations))
		for k, s := range stage.Situations {
			o := q.Stages[i].Situations[k]
			require.InEpsilon(t, s.Total.Most, o.Total.Most, 1e-9)
			for n, p := range s.Reactions {
				w := o.Reactions[at(i, n)]
				for m, pair := range [][2]float64{
					{p.Nominal, w.Nominal}, {p.Static.Least, w.Static.Least}, {p.Static.Most, w.Static.Most}, {p.Characteristic.Least, w.Characteristic.Least},
					{p.Characteristic.Most, w.Characteristic.Most}, {p.Ultimate.Least, w.Ultimate.Least}, {p.Ultimate.Most, w.Ultimate.Most},
				} {
					require.InDelta(t, pair[0], pair[1], 1e-8*s.Mass.Weight, "stage %d, support %d, value %d", i+1, n+1, m)
				}
			}
			require.Len(t, o.Checks, len(s.Checks))
			for n, c := range s.Checks {
				d := o.Checks[n]
				require.Equal(t, c.Kind, d.Kind)
				require.Equal(t, c.State, d.State, "%s in stage %d", c.Name, i+1)
				accuracy := near
				if c.Kind == limits.PrincipalTension || c.Kind == limits.WebShear {
					accuracy = math.Max(near, 2e-3) // cuts across the walls begin elsewhere
				}
				if c.Kind == limits.PrincipalTension && has(s, c.Kind, stages.NotEvaluated) {
					continue // beside a stretch that cracks, whose end is found on the grid
				}
				size := math.Max(1, math.Max(math.Abs(c.Demand.Value), math.Abs(c.Limit.Value)))
				require.InDelta(t, c.Demand.Value, d.Demand.Value, accuracy*size, "%s in stage %d", c.Name, i+1)
				require.InDelta(t, c.Limit.Value, d.Limit.Value, accuracy*size, "%s in stage %d", c.Name, i+1)
				compared++
			}
		}
	}
	require.Greater(t, compared, 10)
}

func same(_, support int) int { return support }

// Left and right exchanged: nothing but the ends changes its name.
func TestSeenFromTheOtherSideAllIsTheSame(t *testing.T) {
	e := unlike(t)
	alikeRecords(t, run(t, e, windy()), run(t, reversed(t, e), reversedPlan(windy())), same, 2e-5)
	e.LongTerm = mix()
	alikeRecords(t, run(t, e, windy()), run(t, reversed(t, e), reversedPlan(windy())), same, 2e-5)
}

// The order in which supports, tendons, weights and actions are written is no matter.
func TestTheOrderOfWritingIsNoMatter(t *testing.T) {
	e := unlike(t)
	first := run(t, e, windy())
	e.Tendons, e.Extra = slices.Clone(e.Tendons), slices.Clone(e.Extra)
	slices.Reverse(e.Tendons)
	slices.Reverse(e.Extra)
	other := windy()
	for i := range other {
		other = stages.Altered(other, i+1, func(s *stages.Situation) {
			s.Supports, s.Actions = slices.Clone(s.Supports), slices.Clone(s.Actions)
			slices.Reverse(s.Supports)
			slices.Reverse(s.Actions)
		})
	}
	alikeRecords(t, first, run(t, e, other), func(stage, support int) int {
		return len(first.Stages[stage].Situations[0].Reactions) - 1 - support
	}, 1e-6)
}

// Two halves of an action under two marks, both always there, are as one; so are two
// halves of a load in one action, which is present or absent.
func TestTwoHalvesAreOne(t *testing.T) {
	whole, halves := windy(), windy()
	halve := func(a stages.Action) stages.Action {
		a.Loads.Points = slices.Clone(a.Loads.Points)
		for i := range a.Loads.Points {
			a.Loads.Points[i].Force /= 2
		}
		return a
	}
	seat := halves[4].(stages.Seat)
	var list []stages.Action
	for _, a := range seat.Actions {
		if a.Least == 1 {
			again := halve(a)
			again.Mark += "_again"
			list = append(list, halve(a), again)
			continue
		}
		twice := halve(a)
		twice.Loads.Points = append(twice.Loads.Points, twice.Loads.Points...)
		list = append(list, twice)
	}
	seat.Actions = list
	halves[4] = seat
	alikeRecords(t, run(t, unlike(t), whole), run(t, unlike(t), halves), same, 1e-6)
}

// A weight in two parts, and an element in two pieces that are cast as one, change
// nothing.
func TestTwoPartsAreOne(t *testing.T) {
	plan := stages.Plan{
		stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1.3, 10.1)), Roll: 0.02, Actions: []stages.Action{{Mark: "drum", Y: 0.1, Loads: point(4, 9e3)}}},
		stages.Lift{Age: 29, On: paired(hooks(0.2, 2.2, 9.1)), Dynamic: loads.Dynamic{Least: 0.85, Most: 1.2}, Gradient: 0.03},
		stages.Seat{Age: 30, On: paired(stages.Pads(0.2, 0.4, 11.5))},
	}
	of := func(cut float64) stages.Record {
		extra := stages.ExtraWeight{Mark: "block", From: 2, To: 7, Weight: 30e3, Y: 0.1, Z: 0.9}
		if cut == 0 {
			e := segment("A", 12)
			e.Extra, e.WeightTolerance = []stages.ExtraWeight{extra}, loads.PlusMinus(0.04)
			return run(t, e, plan)
		}
		a, b := segment("A", cut), segment("B", 12-cut)
		a.WeightTolerance, b.WeightTolerance = loads.PlusMinus(0.04), loads.PlusMinus(0.04)
		left, right := extra, extra // 6 kN/m on both sides of the cut
		left.To, left.Weight = cut, 6e3*(cut-2)
		right.From, right.To, right.Weight = 0, 7-cut, 6e3*(7-cut)
		a.Extra, b.Extra = []stages.ExtraWeight{left}, []stages.ExtraWeight{right}
		return run(t, stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Monolithic, a, b)}, plan)
	}
	whole := of(0)
	for _, cut := range []float64{2.7, 5, 6.9} {
		alikeRecords(t, whole, of(cut), same, 1e-6)
	}
}

// Twice the unit weight is twice every reaction and every stress of the weight.
func TestTwiceTheWeightIsTwiceTheForce(t *testing.T) {
	e := unlike(t)
	e.Tendons, e.Extra, e.UnitWeight = nil, nil, 18e3
	plan := stages.Plan{
		stages.Store{Age: 28, On: stages.Elastic(60e6, frames(0.4, 1, 18)...), OutOfLevel: 1e-9, Roll: 0.02},
		stages.Lift{Age: 28, On: paired([]stages.Support{{X: 3, Y: -0.45, Z: 1.5}, {X: 3, Y: 0.35, Z: 1.5}, {X: 16.5, Y: -0.35, Z: 1.2}, {X: 16.5, Y: 0.25, Z: 1.2}}), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}},
		stages.Store{Age: 28, On: frames(0.4, 1.5, 17)},
	}
	one := run(t, e, plan)
	e.UnitWeight = 36e3
	two := run(t, e, plan)
	for i, stage := range one.Stages {
		for n, p := range stage.Situations[0].Reactions {
			q := two.Stages[i].Situations[0].Reactions[n]
			require.InDelta(t, 2*p.Nominal, q.Nominal, 1, "stage %d", i+1)
			require.InDelta(t, 2*p.Characteristic.Most, q.Characteristic.Most, 2)
			require.InDelta(t, 2*p.Ultimate.Most, q.Ultimate.Most, 2)
		}
		for n, c := range stage.Situations[0].Checks {
			d := two.Stages[i].Situations[0].Checks[n]
			if c.Kind != limits.Roll && c.Kind != limits.PrincipalTension && c.State != stages.NotEvaluated { // not linear
				require.InEpsilon(t, 2*c.Demand.Value, d.Demand.Value, 1e-4, "%s in stage %d", c.Name, i+1)
			}
		}
	}
}
