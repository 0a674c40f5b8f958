package segmental

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Of a free cantilever, the change of the internal forces of the deck at the pier gives the
// same least and largest force of a row as the statics of its parts, in the characteristic
// combination and with the factors for equilibrium; the rule of the statics has no tolerance of
// weights here, and the working load may be absent on either arm.
func TestWhatAPierOfAClosedDeckReceives(t *testing.T) {
	d, on, steps := stood(t, 2)
	d.Loads.OtherArm = 0
	for i := range d.Segments {
		d.Segments[i].Element.WeightTolerance = loads.PlusMinus(0)
	}
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	s := d.begin(on)
	p := d.Piers[0]
	for i, step := range steps {
		for k, m := range step.Moves {
			_, err := s.move(step, m)
			require.NoError(t, err)
			if m.Do == Lift || m.Do == Attach { // a hoist may be absent in the engine, and has no factor there
				continue
			}
			e, err := b.Analysis.Effects(i+1, k+1)
			require.NoError(t, err)
			balance, err := s.balance(p, m)
			require.NoError(t, err)
			combinations, err := balance.combinations(EN, limits.EN1992{})
			require.NoError(t, err)
			answers, err := limits.EN1992{}.Limits(limits.Question{Kind: limits.Overturning, Phase: limits.Seating})
			require.NoError(t, err)
			closed := closedPier{p, e}
			statics := pierCase{Pier: p, balance: balance, rule: EN, combinations: combinations}
			for n, c := range []closedSet{{name: "characteristic"}, {name: "EQU", factors: answers[0].Factors}} {
				_, low := statics.worst(combinations[n], statics.lifted)
				_, high := statics.worst(combinations[n], statics.pressed)
				least, _, err := closed.force(&formula.Chain{}, c, "R", "", false)
				require.NoError(t, err)
				most, _, err := closed.force(&formula.Chain{}, c, "R", "", true)
				require.NoError(t, err)
				require.InDelta(t, -low.Value, least.Value, 2e-3*high.Value, "%s %s", m.words(), c.name)
				require.InDelta(t, high.Value, most.Value, 2e-3*high.Value, "%s %s", m.words(), c.name)
			}
		}
	}
}

// The checks of a pier below a closed deck by hand, of a state in which the left arm has a segment
// more: the row lifts by R_min without ties and is short of what they resist with few, a row has
// not more than what is permissible; a deck that is curved leaves what is across to a document.
func TestChecksOfAPierOfAClosedDeck(t *testing.T) {
	d, on, steps := stood(t, 2)
	built := func() stages.Effects {
		b, err := d.Build(on, limits.EN1992{}, steps...)
		require.NoError(t, err)
		e, err := b.Analysis.Effects(2, 2) // the left segment is attached
		require.NoError(t, err)
		return e
	}
	checks := func(p Pier, e stages.Effects) map[string]stages.Check {
		list, err := p.closedChecks(e, limits.EN1992{})
		require.NoError(t, err)
		named := map[string]stages.Check{}
		for _, c := range list {
			named[c.Name+", "+c.LimitState] = c.Check
		}
		return named
	}
	e, p := built(), d.Piers[0]
	p.Rows, p.Ties = 0.8, nil
	answers, err := limits.EN1992{}.Limits(limits.Question{Kind: limits.Overturning, Phase: limits.Seating})
	require.NoError(t, err)
	low, _, err := closedPier{p, e}.force(&formula.Chain{}, closedSet{factors: answers[0].Factors}, "R", "", false)
	require.NoError(t, err)
	require.Negative(t, low.Value)
	got := checks(p, e)["uplift at a row of pier P1, deck closed, EQU"]
	require.Equal(t, stages.Fail, got.State)
	require.InDelta(t, -low.Value, got.Demand.Value, 1)
	require.Zero(t, got.Limit.Value)
	require.Equal(t, [2]any{limits.Overturning, p.At}, [2]any{got.Kind, got.X}, "answers the question of the fixing")
	require.Contains(t, got.Place, "right row")

	p.Ties = &Ties{Number: 2, Preload: 100e3, Capacity: -low.Value / 2 / 0.95 * 1.01, Document: "B1"}
	got = checks(p, e)["uplift at a row of pier P1, deck closed, EQU"]
	require.Equal(t, stages.Pass, got.State)
	require.InEpsilon(t, 0.95*2*p.Ties.Capacity, got.Limit.Value, 1e-9, "favourable factor")
	p.Ties.Capacity *= 0.97
	require.Equal(t, stages.Fail, checks(p, e)["uplift at a row of pier P1, deck closed, EQU"].State)

	high, _, err := closedPier{p, e}.force(&formula.Chain{}, closedSet{}, "R", "", true)
	require.NoError(t, err)
	p.Row = high.Value + 200e3 + 1
	row := checks(p, e)["force of a row of bearings of pier P1, deck closed, WLL"]
	require.InDelta(t, high.Value+200e3, row.Demand.Value, 1, "with the preload of two ties")
	require.Equal(t, stages.Pass, row.State)
	p.Row -= 2
	require.Equal(t, stages.Fail, checks(p, e)["force of a row of bearings of pier P1, deck closed, WLL"].State)

	const across = "transverse moment and force at pier P1, deck closed, "
	require.NotContains(t, checks(p, e), across)
	d.Radius = 400
	asked := checks(p, built())[across]
	require.Equal(t, stages.NotEvaluated, asked.State)
	require.Contains(t, asked.Note, "M across")
}

// A move that erects pairs at once has their weight and tendons, none of the checks of their
// moves: without a document it is not evaluated, with one it is conditional.
func TestErectedElsewhere(t *testing.T) {
	d, on, steps := stood(t, 2)
	one, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	var last Step
	for k, pair := range [][]string{{"L1", "R1"}, {"L2", "R2"}} {
		j := &tendon.Jacking{Tendons: []string{"T" + pair[0][1:] + "L", "T" + pair[0][1:] + "R"}, Stress: 1400e6, Ends: tendon.BothEnds, DrawIn: 0.006}
		last.Moves = append(last.Moves, Move{Do: Erect, Segments: pair, Jacking: j, Day: 40 + 3*float64(k)})
	}
	b, err := d.Build(on, limits.EN1992{}, last)
	require.NoError(t, err)
	require.Equal(t, stages.NotEvaluated, b.Record.Status())
	require.Contains(t, b.Record.Stages[0].Situations[1].Unanswered[0], "checks in another calculation")
	e, err := b.Analysis.Effects(1, 2)
	require.NoError(t, err)
	moves := steps[1].Moves
	usual, err := one.Analysis.Effects(2, len(moves))
	require.NoError(t, err)
	for _, x := range []float64{1.5, 4.5, 12.5} {
		require.InEpsilon(t, usual.Forces(x).N, e.Forces(x).N, 0.02, "prestress at x = %g m", x)
	}
	for i := range last.Moves {
		last.Moves[i].Covered = []stages.Document{{Covers: limits.Elsewhere, Number: "C1", Revision: "A", Status: "approved"}}
	}
	b, err = d.Build(on, limits.EN1992{}, last)
	require.NoError(t, err)
	require.NoError(t, b.Record.Check())
	for _, s := range b.Record.Stages[0].Situations {
		require.Empty(t, s.Unanswered)
		for _, c := range s.Checks {
			require.NotContains(t, []limits.Kind{limits.Tension, limits.Compression, limits.PrincipalTension, limits.LockOffStress}, c.Kind, "made elsewhere")
		}
	}
	_, err = d.Plan(on, Step{Day: 40, Moves: []Move{{Do: Erect, Segments: []string{"L1", "R2"}, Jacking: last.Moves[0].Jacking}}})
	require.ErrorContains(t, err, "segment R2: its joint R1/R2 does not exist yet")
}
