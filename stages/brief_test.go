package stages_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// together is several stages as the situations of one, brief or not.
type together struct {
	stages []stages.Stage
	brief  bool
}

func (o together) Situations(h stages.History) ([]stages.Situation, error) {
	var list []stages.Situation
	for _, s := range o.stages {
		more, err := s.Situations(h)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	for i := range list {
		list[i].Brief = o.brief
		list[i].Name = fmt.Sprintf("step: %s", list[i].Name)
	}
	return list, nil
}

// cantileverInTwo is a cantilever of four segments on each side, built in two stages of two
// steps each.
func cantileverInTwo(t testing.TB, brief bool) stages.Record {
	girder, plan := balancedCantilever(t, 4, 2, false)
	return run(t, girder, stages.Plan{together{plan[:2], brief}, together{plan[2:], brief}})
}

// everySituation is those of all stages in order.
func everySituation(r stages.Record) (list []*stages.SituationRecord) {
	for i := range r.Stages {
		for k := range r.Stages[i].Situations {
			list = append(list, &r.Stages[i].Situations[k])
		}
	}
	return list
}

// A brief record reads back from JSON as it was, and is smaller than the same in full.
func TestABriefRecordReadsBack(t *testing.T) {
	record, full := cantileverInTwo(t, true), cantileverInTwo(t, false)
	require.NoError(t, record.Check())
	text, err := json.Marshal(record)
	require.NoError(t, err)
	var back stages.Record
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, record, back)
	require.NoError(t, back.Check())
	long, err := json.Marshal(full)
	require.NoError(t, err)
	require.Less(t, 2*len(record.Tables), len(full.Tables))
	require.Less(t, len(text), len(long))
	require.Equal(t, "step", record.Stages[0].Name, "what its moves have before the colon")
}

// Every number of a brief plan is that of the same plan in full.
func TestABriefPlanHasTheSameNumbers(t *testing.T) {
	brief, full := cantileverInTwo(t, true), cantileverInTwo(t, false)
	long := everySituation(full)
	for i, s := range everySituation(brief) {
		f := long[i]
		require.True(t, s.Brief && !f.Brief)
		require.Len(t, s.Checks, len(f.Checks))
		for k := range s.Checks {
			b, c := s.Checks[k], f.Checks[k]
			b.Proof, c.Proof = derive.Proof{}, derive.Proof{}
			require.Equal(t, c, b)
		}
		require.Equal(t, f.Reactions, s.Reactions)
		require.Equal(t, f.HoldPoints, s.HoldPoints)
		require.Equal(t, f.Diagram, s.Diagram)
		require.Equal(t, f.Total, s.Total)
		for k, force := range s.Tendons {
			require.Equal(t, f.Tendons[k].Middle, force.Middle)
			require.Equal(t, f.Tendons[k].Losses, force.Losses)
		}
	}
	require.Empty(t, everySituation(brief)[0].Moves.Values)
	require.Equal(t, long[1].Moves, everySituation(brief)[1].Moves, "of the last one of a stage")
}

// Forces along tendons and anchorage zones are written with the situation that stresses them.
func TestTendonsOfABriefSituation(t *testing.T) {
	for _, s := range everySituation(cantileverInTwo(t, true)) {
		stressed := map[string]bool{}
		for _, p := range s.Stressing {
			stressed[p.Mark] = true
		}
		require.NotEmpty(t, stressed)
		for _, f := range s.Tendons {
			require.Equal(t, stressed[f.Mark], len(f.Along) > 0, f.Mark)
		}
		require.Len(t, s.NotChecked, 1, "one pair of anchors")
	}
}

// derived is true for a check that is written with its derivation.
func derived(c stages.Check) bool { return len(c.Tables)+len(c.Lines) > 0 }

// A derivation is written for each check that fails, for the governing one of a stage, and
// for the governing one of those alike; nothing else has one, and a table that leaves out
// what cancels has the sum of the full one.
func TestWhatIsDerivedInBrief(t *testing.T) {
	brief, full := cantileverInTwo(t, true), cantileverInTwo(t, false)
	type found struct{ situation, check int }
	worst := map[string]found{}
	all := everySituation(brief)
	fails, without, left := 0, 0, false
	for i, s := range all {
		for k, c := range s.Checks {
			if c.State == stages.Fail {
				fails++
				require.True(t, derived(c), c.Name)
			}
			key := fmt.Sprint(c.Kind, c.LimitState, c.Source)
			if before, ok := worst[key]; !ok || rankOf(c) > rankOf(all[before.situation].Checks[before.check]) {
				worst[key] = found{i, k}
			}
			if !derived(c) {
				without++
				require.NotEqual(t, stages.Fail, c.State)
			}
			for n, number := range c.Tables {
				short, long := brief.Tables[number-1], full.Tables[full.Stages[i/2].Situations[i%2].Checks[k].Tables[n]-1]
				require.InDelta(t, long.Sum.Value, short.Sum.Value, 1.01*math.Pow10(short.SumAt), c.Name)
				require.LessOrEqual(t, len(short.Rows), len(long.Rows))
				left = left || len(short.Rows) < len(long.Rows)
				for _, row := range short.Rows {
					require.NotContains(t, row.Label, "reactions removed", "it cancels what was applied before")
				}
			}
		}
	}
	require.Positive(t, fails)
	require.True(t, left, "rows that cancel")
	require.Greater(t, without, 20)
	require.Greater(t, len(worst), 6)
	for key, p := range worst {
		require.True(t, derived(all[p.situation].Checks[p.check]), key)
	}
	perStage, _ := brief.Governing()
	for i, c := range perStage {
		require.True(t, derived(c), "stage %d, %s", i+1, c.Name)
	}
}

// rankOf orders checks of one kind: the failing ones first, then by utilisation.
func rankOf(c stages.Check) float64 {
	if c.State == stages.Fail {
		return 1e6 - c.Margin/1e9
	}
	return c.Utilisation
}

// A check that must have its derivation and has none is refused.
func TestACheckWithoutItsDerivationIsRefused(t *testing.T) {
	strip := func(pick func(*stages.Check) bool) stages.Record {
		record := cantileverInTwo(t, true)
		for _, s := range everySituation(record) {
			for k := range s.Checks {
				if c := &s.Checks[k]; derived(*c) && pick(c) {
					c.Proof = derive.Proof{}
					return record
				}
			}
		}
		require.Fail(t, "nothing to strip")
		return record
	}
	err := strip(func(c *stages.Check) bool { return c.State == stages.Fail }).Check()
	require.ErrorContains(t, err, "fail, has no derivation: must have one, though the situation is brief")
	err = strip(func(c *stages.Check) bool { return c.State == stages.Pass }).Check()
	require.ErrorContains(t, err, "pass, has no derivation: must have one, though the situation is brief")
	record := cantileverInTwo(t, true)
	record.Stages[0].Situations[0].Brief = false
	require.ErrorContains(t, record.Check(), "has no derivation: must have one; only a check of a brief situation that does not govern may go without")
}

// Each joint that acts has its tension; the check of the situation is that of the worst. The
// table of stations has both sides of each joint where they differ, and the ends.
func TestJointsOfABriefSituation(t *testing.T) {
	record := cantileverInTwo(t, true)
	for n, s := range everySituation(record) {
		require.Len(t, s.Joints, 2*n+1)
		require.Equal(t, [][2]float64{{9 - 3*float64(n), 15 + 3*float64(n)}}, s.Present)
		least := math.Inf(1)
		for i, j := range s.Joints {
			require.Equal(t, fmt.Sprintf("S%d/S%d", 4-n+i, 5-n+i), j.Name)
			require.InDelta(t, 12-3*float64(n)+3*float64(i), j.X, 1e-9)
			require.True(t, j.Checked)
			least = math.Min(least, j.Margin())
		}
		check := jointCheck(*s)
		require.NotNil(t, check)
		require.Equal(t, check.Margin, least)
		places := map[float64]int{}
		for _, at := range stages.StationsOf(s.Stations) {
			places[math.Round(at.X*1e3)/1e3]++
		}
		require.Len(t, places, 2*n+3, "joints, with the support at one, and two ends")
		require.Equal(t, 2, places[12], "the support: shear jumps")
		require.Equal(t, 1, places[9-3*float64(n)], "nothing is beyond an end")
	}
	err := func(change func(*stages.SituationRecord)) error {
		r := cantileverInTwo(t, true)
		change(&r.Stages[1].Situations[1])
		return r.Check()
	}
	require.ErrorContains(t, err(func(s *stages.SituationRecord) { s.Joints[1].Limit = s.Joints[1].Tension - 1e8 }), "must be at least")
	require.ErrorContains(t, err(func(s *stages.SituationRecord) { s.Joints[1].Name = " " }), "joint 2 has no name")
	require.ErrorContains(t, err(func(s *stages.SituationRecord) { s.Joints[1].X = 99 }), "must be on the element")
	require.ErrorContains(t, err(func(s *stages.SituationRecord) { s.Present[0][1] = s.Present[0][0] }), "from left to right")
}

// Checks are alike by question, limit state and source; those of the operation itself by
// their name but for its marks.
func TestChecksAlike(t *testing.T) {
	a := stages.Check{Name: "pressure on the epoxy of joint L1/P1", LimitState: "SLS"}
	b := stages.Check{Name: "pressure on the epoxy of joint L12/L11", LimitState: "SLS"}
	require.True(t, a.Alike(b))
	b.Name = "shear of joint L12/L11"
	require.False(t, a.Alike(b))
	require.True(t, stages.Check{State: stages.Fail}.Governs(stages.Check{State: stages.Pass, Utilisation: 2}))
	require.True(t, stages.Check{State: stages.Pass, Utilisation: 0.9}.Governs(stages.Check{State: stages.Pass, Utilisation: 0.8}))
	require.True(t, stages.Check{State: stages.Fail, Utilisation: 999, Margin: -2}.Governs(stages.Check{State: stages.Fail, Utilisation: 999, Margin: -1}))
}
