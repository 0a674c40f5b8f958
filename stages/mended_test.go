package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// What was put on stays in the moment about the support line and in the horizontal
// force when elastic supports keep what they carry and one more comes.
func TestStayingActionsStayOnSupportsThatAreKept(t *testing.T) {
	four := stages.Elastic(50e6, frames(0.4, 1, 11)...)
	r := run(t, block(), stages.Plan{
		stages.Store{Age: 5, OutOfLevel: 1e-4, On: four, Actions: []stages.Action{
			{Mark: "crane", Least: 1, Most: 1, Y: 0.5, Stays: true, Loads: point(6, 60e3)},
			{Mark: "wind", Least: 1, Most: 1, Z: 1, Stays: true, Direction: stages.Transverse, Loads: point(6, 5e3)},
		}},
		stages.Store{Age: 6, OutOfLevel: 1e-4, On: append(four[:4:4], stages.Support{X: 6, Y: 0.1, Stiffness: 50e6})},
	})
	before, after := r.Stages[0].Situations[0], r.Stages[1].Situations[0]
	// By hand about y = 0.4 m, 0.4 m below the centre of gravity: the wind is above 1.5 % of 120 kN, so 1 % more is nominal.
	require.InDelta(t, 1.35*60e3*0.1+1.35*5e3*1+0.01*120e3*0.4, check(t, before, limits.Overturning).Demand.Value, 1e-6)
	for _, kind := range []limits.Kind{limits.Overturning, limits.Sliding} {
		require.InDelta(t, check(t, before, kind).Demand.Value, check(t, after, kind).Demand.Value, 1e-6, kind)
		require.InDelta(t, check(t, before, kind).Limit.Value, check(t, after, kind).Limit.Value, 1e-6, kind)
	}
}

// A train at the end of a cantilever overturns like a load at rest there.
func TestATrainOverturns(t *testing.T) {
	plan := func(a stages.Action) stages.Plan {
		return stages.Plan{stages.Seat{Age: 28, On: paired(frames(2, 3, 9)), Actions: []stages.Action{a}}}
	}
	rolls := run(t, block(), plan(stages.Action{Mark: "carrier", Y: 0.05, Train: &loads.Train{Name: "carrier", Axles: []loads.Axle{{Force: 70e3}, {Force: 20e3, Behind: 1}}}})).Stages[0].Situations[0]
	rests := run(t, block(), plan(stages.Action{Mark: "carrier", Y: 0.05, Loads: loads.Set{Points: []loads.Point{{At: 12, Force: 70e3}, {At: 11, Force: 20e3}}}})).Stages[0].Situations[0]
	a, b := check(t, rolls, limits.Overturning), check(t, rests, limits.Overturning)
	require.Greater(t, b.Demand.Value, 5e4)
	require.GreaterOrEqual(t, a.Utilisation, b.Utilisation-1e-9)
}

// A hung element swings by the larger end of what pushes it, whichever it is, and
// by what stays on it.
func TestSwingIsOfTheLargerEnd(t *testing.T) {
	hung := []stages.Support{{X: 2, Z: 2}, {X: 10, Z: 2}}
	wind := stages.Action{Mark: "wind", Z: 0.4, Direction: stages.Transverse, Loads: point(6, 20e3)}
	tension := func(least, most float64) float64 {
		act := wind
		act.Least, act.Most = least, most
		r := run(t, block(), stages.Plan{stages.Store{Age: 5, On: dunnage(1, 11)}, stages.Lift{Dynamic: loads.AtRest(), Age: 6, On: hung, Actions: []stages.Action{act}}})
		return check(t, r.Stages[1].Situations[0], limits.Tension).Demand.Value
	}
	require.InDelta(t, tension(-1, 1), tension(-1, 0.1), 1)
	require.InDelta(t, tension(-1, 1), tension(-0.1, 1), 1)
	require.Less(t, tension(-0.1, 0.1), 0.99*tension(-1, 1))
	// By hand: it turns until the resultant passes through the axis 1.6 m above.
	stays := wind
	stays.Least, stays.Most, stays.Stays = 1, 1, true
	r := run(t, block(), stages.Plan{stages.Store{Age: 5, On: dunnage(1, 11), Actions: []stages.Action{stays}}, stages.Lift{Dynamic: loads.AtRest(), Age: 6, On: hung}})
	require.InDelta(t, tension(1, 1), check(t, r.Stages[1].Situations[0], limits.Tension).Demand.Value, 1)
}

// The walls of each piece are held to the limit of its own concrete: the weak one governs where
// its stress is no larger.
func TestWallsOfTheWeakerPiece(t *testing.T) {
	limit := map[limits.Kind]func(fck float64) float64{
		limits.WebShear:         func(fck float64) float64 { return 0.5 * 0.6 * (1 - fck/250) * fck * 1e6 / 1.5 }, // EN 1992-1-1 (6.5)
		limits.PrincipalTension: func(fck float64) float64 { return 0.7 * 0.3 * math.Pow(fck, 2.0/3) / 1.5 * 1e6 },
	}
	weak := segment("B", 3)
	weak.Concrete = concrete.EN1992{Fck: 20e6, Cement: concrete.ClassR}
	strong := segment("A", 3)
	heavy := strong
	heavy.Extra = []stages.ExtraWeight{{Mark: "block", From: 1.6, To: 1.6, Weight: 20e3}}
	for _, c := range []struct {
		left stages.Element
		fck  float64 // of the piece whose shear governs, MPa
	}{{strong, 20}, {heavy, 40}} {
		r := run(t, stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Epoxied, c.left, weak)}, stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1.5, 5.8))}})
		for kind, of := range limit {
			got := check(t, r.Stages[0].Situations[0], kind)
			if kind == limits.WebShear {
				require.InDelta(t, of(c.fck), got.Limit.Value, 1, "%s, %s", kind, got.Place)
			}
			in := map[bool]float64{true: 40, false: 20}[got.X < 3]
			require.InDelta(t, of(in), got.Limit.Value, 1e3, "%s at x = %.2f m", kind, got.X)
		}
	}
}

// unlikeWalls are two limits on the shear of walls, of which the second is the least for
// the concrete for which the first is not.
type unlikeWalls struct{ limits.EN1992 }

func (u unlikeWalls) Limits(q limits.Question) ([]limits.Limit, error) {
	list, err := u.EN1992.Limits(q)
	if err != nil || q.Kind != limits.WebShear {
		return list, err
	}
	list[0].Line.Expression, list[0].Line.Operands = "", nil // given
	first, second := list[0], list[0]
	first.Line.Result.Value, second.Line.Result.Value = 4e6, 1e6
	if q.Place.Piece == "B" {
		first.Line.Result.Value, second.Line.Result.Value = 3e6, 2e6
	}
	return []limits.Limit{first, second}, nil
}

// Each of several limits is that of the piece for which it is least.
func TestEveryLimitOfTheWallsOfItsWeakestPiece(t *testing.T) {
	on := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 0.5, 11.5))}}
	record, err := on.Run(stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Epoxied, segment("A", 6), segment("B", 6))}, unlikeWalls{})
	require.NoError(t, err)
	var values []float64
	for _, c := range record.Stages[0].Situations[0].Checks {
		if c.Kind == limits.WebShear {
			values = append(values, c.Limit.Value)
		}
	}
	require.Equal(t, []float64{3e6, 1e6}, values)
}

// Ultimate reactions are those of every combination of a standard, in any order.
func TestUltimateReactionsOfEveryCombination(t *testing.T) {
	plan := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 0.5, 11.5))}}
	low, high := limits.EN1992{}, limits.EN1992{PermanentUltimate: 2}
	for _, s := range []limits.Standard{limits.All(low, high), limits.All(high, low)} {
		r, err := plan.Run(block(), s)
		require.NoError(t, err)
		require.InDelta(t, 2*30e3, r.Stages[0].Situations[0].Reactions[0].Ultimate.Most, 1e-6)
	}
}

// Inputs that were let through, or ended in a panic, an endless loop or an infinite
// number in the record.
func TestInputsRefusedAtTheDoor(t *testing.T) {
	four := paired(stages.Pads(0.2, 1, 11))
	store := stages.Store{Age: 5, On: four}
	sling := func(change func(*stages.Support)) stages.Plan {
		on := stages.Slings(stages.Hook{X: 6, Z: 9}, stages.Support{X: 2, Z: 1}, stages.Support{X: 10, Z: 1})
		change(&on[0])
		return stages.Plan{store, stages.Lift{Dynamic: loads.AtRest(), Age: 6, On: on}}
	}
	at := func(s stages.Situation) stages.Plan {
		s.Name, s.Standing, s.Phase, s.Supports = "x", true, limits.Storing, pads(four)
		return stages.Plan{last{s}}
	}
	for words, plan := range map[string]stages.Plan{
		"field Hook of a tie: must be that of a lift point":               sling(func(s *stages.Support) { s.Role = stages.Tie }),
		"field Hook at X = 6 m, Y = +Inf m, Z = 9 m: must be within 50 m": sling(func(s *stages.Support) { s.Hook = &stages.Hook{X: 6, Y: math.Inf(1), Z: 9} }),
		"field Hook at X = NaN m":                                         sling(func(s *stages.Support) { s.Hook = &stages.Hook{X: math.NaN(), Z: 9} }),
		"Age = 5 d beside Day = 30 d, at which the first piece is 30 d":   at(stages.Situation{Age: 5, Day: 30}),
		"field Until = 20 d: must be 0 (at once) or at least the age":     at(stages.Situation{Day: 30, Until: 20}),
	} {
		err := errorOf(plan)
		require.ErrorIs(t, err, stages.ErrStage, words)
		require.ErrorContains(t, err, words)
	}
	require.NoError(t, errorOf(at(stages.Situation{Age: 30, Day: 30})))
	e := block()
	e.Extra = []stages.ExtraWeight{{Mark: "nut", From: 2, To: 3, Weight: 1e3, Z: math.NaN()}}
	_, err := stages.Plan{store}.Run(e, limits.EN1992{})
	require.ErrorContains(t, err, "Element.Extra[0] nut: Weight = 1000 N at Y = 0 m, Z = NaN m: must be")
	far := stages.Action{Mark: "far", Train: &loads.Train{Name: "far", Axles: []loads.Axle{{Force: 5e3}, {Force: 4e3, Behind: 1000}}}}
	require.NoError(t, errorOf(stages.Plan{stages.Seat{Age: 5, On: four, Actions: []stages.Action{far}}}), "axles that are never on the girder together")
}

// Most 0 means 1, also beside a Least.
func TestPresenceWithoutMost(t *testing.T) {
	for _, least := range []float64{-1, 0, 0.5} {
		r := run(t, block(), stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 1, 11)), Actions: []stages.Action{{Mark: "a", Least: least, Loads: point(6, 8e3)}}}})
		got := r.Stages[0].Situations[0].Reactions[0].Characteristic
		require.InDelta(t, 30e3+2e3*least, got.Least, 1e-6)
		require.InDelta(t, 32e3, got.Most, 1e-6)
	}
}
