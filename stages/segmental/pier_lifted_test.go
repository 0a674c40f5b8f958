package segmental

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// movedTo is the state of a cantilever of two pairs after the move with these words, with its pier.
func movedTo(t testing.TB, words string) (*state, Move, *Pier) {
	d, on, steps := stood(t, 2)
	var found *state
	var of Move
	_, err := d.plan(on, func(_, _ int, after *state, m Move) {
		if m.words() == words {
			found, of = after, m
		}
	}, steps...)
	require.NoError(t, err)
	require.NotNil(t, found, words)
	return found, of, &found.deck.Piers[0]
}

// While R2 is lifted with L2 on the other arm, R2 is weighed; until then L2 is.
func TestTheSegmentThatIsLiftedIsWeighed(t *testing.T) {
	for words, mark := range map[string]string{"lift L2, frame F1": "L2", "attach L2, frame F1": "L2", "lift R2, frame F2": "R2", "attach R2, frame F2": ""} {
		s, m, p := movedTo(t, words)
		b, err := s.balance(*p, m)
		require.NoError(t, err)
		require.Equal(t, mark, b.Unbalanced, words)
		list, err := p.Checks(b, s.deck.Rule, limits.EN1992{})
		require.NoError(t, err)
		holds := slices.DeleteFunc(list, func(c stages.OwnCheck) bool { return c.Hold == nil })
		if mark == "" {
			require.Empty(t, holds)
			continue
		}
		require.Len(t, holds, 1)
		require.Equal(t, "segment "+mark+" weighed", holds[0].Hold.Kind)
		require.Equal(t, "weight of segment "+mark+" (stop if more)", holds[0].Hold.Required.Name)
		i, err := s.deck.index(mark)
		require.NoError(t, err)
		mass, err := s.deck.weight(i)
		require.NoError(t, err)
		require.InEpsilon(t, mass.Weight, holds[0].Hold.Assumed.Value, 1e-12)
		// Of that segment and no other: with its stop weight no check fails, beyond it one does.
		for factor, passes := range map[float64]bool{1 - 1e-9: true, 1 + 1e-9: false} {
			heavy := b
			heavy.Parts = slices.Clone(b.Parts)
			for k := range heavy.Parts {
				if heavy.Parts[k].Mark == mark {
					heavy.Parts[k].Force = factor * holds[0].Hold.Required.Value
				}
			}
			list, err := p.Checks(heavy, s.deck.Rule, limits.EN1992{})
			require.NoError(t, err)
			failing := slices.ContainsFunc(list, func(c stages.OwnCheck) bool { return c.State == stages.Fail })
			require.Equal(t, passes, !failing, "%s times %g", mark, factor)
		}
	}
}

// Ties for the wanted factor while R2 is lifted are at least those without it: L2 is on the other
// arm whether R2 hangs on its frame or not yet. By hand from the parts.
func TestTiesWhileTheOtherArmIsLonger(t *testing.T) {
	s, m, p := movedTo(t, "lift R2, frame F2")
	b, err := s.balance(*p, m)
	require.NoError(t, err)
	need := func(without string) (need float64) {
		for _, side := range [2]float64{-1, 1} {
			sum := 0.0
			least, most := [3]float64{}, [3]float64{} // of the weights of an arm together
			for _, of := range b.Parts {
				share := 1.5*side*of.Force*of.Lever - of.Force*p.Rows/2
				r := of.presence()
				switch {
				case of.Mark == without:
				case of.Kind == "":
					least[armNumber(of.Arm)] += r[0] * share
					most[armNumber(of.Arm)] += r[1] * share
				default:
					sum += max(r[0]*share, r[1]*share)
				}
			}
			for i := range least {
				sum += max(least[i], most[i])
			}
			need = max(need, sum/p.Rows)
		}
		return need
	}
	absent, hung := need("R2"), need("")
	require.Greater(t, absent, 10e3)
	require.Less(t, hung, absent)
	results, err := s.pierResults(m, limits.EN1992{})
	require.NoError(t, err)
	require.InEpsilon(t, absent, results[0].Tie, 1e-9)
	list, err := p.Checks(b, s.deck.Rule, limits.EN1992{})
	require.NoError(t, err)
	i := slices.IndexFunc(list, func(c stages.OwnCheck) bool { return c.Demand.Symbol == "T_req" })
	require.InEpsilon(t, absent, list[i].Demand.Value, 1e-9)
	require.Contains(t, list[i].Note, "segment R2 not on its frame")
}
