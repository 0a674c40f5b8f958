package stages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// pullT stresses the tendon T to 1350 MPa from both ends.
func pullT() tendon.Jacking {
	return tendon.Jacking{Tendons: []string{"T"}, Stress: 1350e6, Ends: tendon.BothEnds, DrawIn: 0.004}
}

// What the method of a stressing states is in the record, changes no check, and is nothing
// where nothing is stated.
func TestMethodOfAStressingInTheRecord(t *testing.T) {
	j := pullT()
	plan := func(j tendon.Jacking, m stages.StressingMethod) stages.Plan {
		return stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{j}, Method: m}, stages.Stress{Age: 29, Grout: []string{"T"}, GroutAge: 30, Method: m}}
	}
	plain := run(t, bare(straight("T", 0, 12, 0, 0.4)), plan(j, stages.StressingMethod{}))
	require.Zero(t, plain.Stages[0].Situations[0].Method)
	require.Empty(t, plain.Stages[0].Situations[0].Stressing[0].Seating)
	method := stages.StressingMethod{NotRead: true, Gap: 0.0005, Free: "side forms", Protection: "capped, vapour corrosion inhibitor", GroutBy: 14}
	j.Seating, j.LockOff, j.Reading.GaugeUnit = tendon.PowerSeated, tendon.LeftFirst, tendon.GaugeBar
	told := run(t, bare(straight("T", 0, 12, 0, 0.4)), plan(j, method))
	s := told.Stages[0].Situations[0]
	require.Equal(t, method, s.Method)
	require.Equal(t, method, told.Stages[1].Situations[0].Method)
	require.Equal(t, [3]string{"power-seated", "the left end first", "bar"}, [3]string{s.Stressing[0].Seating, s.Stressing[0].LockOff, s.Stressing[0].GaugeUnit})
	require.NoError(t, told.Check())
	for i, c := range plain.Stages[0].Situations[0].Checks {
		require.Equal(t, c.Demand, s.Checks[i].Demand)
	}
	for words, change := range map[string]func(*stages.SituationRecord){
		"seating \"hammered\": must be":                    func(s *stages.SituationRecord) { s.Stressing[0].Seating = "hammered" },
		"lock-off \"first\": must be":                      func(s *stages.SituationRecord) { s.Stressing[0].LockOff = "first" },
		"unit of the gauge \"at\": must be":                func(s *stages.SituationRecord) { s.Stressing[0].GaugeUnit = "at" },
		"Method.Gap = 1 m: must be 0, or 1e-05 to 0.05":    func(s *stages.SituationRecord) { s.Method.Gap = 1 },
		"Method.GroutBy = -1 d: must be 0, or 0.1 to 365 ": func(s *stages.SituationRecord) { s.Method.GroutBy = -1 },
	} {
		wrong := told
		wrong.Stages = append([]stages.StageRecord{}, told.Stages...)
		of := s
		of.Stressing = append([]stages.Stressing{}, s.Stressing...)
		change(&of)
		wrong.Stages[0].Situations = []stages.SituationRecord{of}
		require.ErrorContains(t, wrong.Check(), words)
	}
}

// A method says what can be: sizes and texts in their range, and grouting by the day that
// the specification asks for.
func TestMethodThatCannotBe(t *testing.T) {
	for words, m := range map[string]stages.StressingMethod{
		"Method.Gap = 0.5 m: must be 0, or 1e-05 to 0.05 m":                                                           {Gap: 0.5},
		"Method.GroutBy = 400 d: must be 0, or 0.1 to 365 d":                                                          {GroutBy: 400},
		"Method.Free has 81 letters: must be 1 to 80":                                                                 {Free: strings.Repeat("x", 81)},
		"Method.Protection has 1 letters: must be 1 to 80 in UTF-8, not blank":                                        {Protection: " "},
		"in Grout: tendon T, stressed on day 28, is grouted on day 39: must be grouted within 10 d by Method.GroutBy": {GroutBy: 10},
	} {
		_, err := stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{pullT()}, Method: m}, stages.Stress{Age: 29, Grout: []string{"T"}, GroutAge: 39}}.
			Run(bare(straight("T", 0, 12, 0, 0.4)), limits.EN1992{})
		require.ErrorIs(t, err, stages.ErrStage)
		require.ErrorContains(t, err, words)
	}
}
