package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Falsework and passes that cannot be as described are errors in words.
func TestBadFalsework(t *testing.T) {
	for says, change := range map[string]func(*stages.FalseworkRows, *stages.Strike){
		`Rows[4] "R5": field X = 24.5 m: must be on the span, 0 to 24 m`:       func(f *stages.FalseworkRows, _ *stages.Strike) { f.Rows[4].X = 24.5 },
		`Rows[0] "R1": field X = NaN m: must be on the span`:                   func(f *stages.FalseworkRows, _ *stages.Strike) { f.Rows[0].X = math.NaN() },
		`Rows[1] "R2": field Capacity = 0 N: must be 1000 to`:                  func(f *stages.FalseworkRows, _ *stages.Strike) { f.Rows[1].Capacity = 0 },
		`Rows[1] "R2": field Stiffness = 0 N/m: must be 1`:                     func(f *stages.FalseworkRows, _ *stages.Strike) { f.Rows[1].Stiffness = 0 },
		`Rows[1] "R2": X = 4 m, the row before it is at 4 m: must be in order`: func(f *stages.FalseworkRows, _ *stages.Strike) { f.Rows[1].X = 4 },
		`Rows[3]: mark "R1" is that of another row`:                            func(f *stages.FalseworkRows, _ *stages.Strike) { f.Rows[3].Mark = "R1" },
		`Rows[2] "R3": field Y has 0 towers: must be 1 to 6`:                   func(f *stages.FalseworkRows, _ *stages.Strike) { f.Rows[2].Y = nil },
		`field FalseworkRows.Bearing = 0 N: must be 1000 to`:                   func(f *stages.FalseworkRows, _ *stages.Strike) { f.Bearing = 0 },
		`Bearings are in 1 line: must be in at least two`:                      func(f *stages.FalseworkRows, _ *stages.Strike) { f.Bearings = f.Bearings[:2] },
		`Bearings[1] at x = 0 m: Stiffness = 0 N/m: must be stated`:            func(f *stages.FalseworkRows, _ *stages.Strike) { f.Bearings[1].Stiffness = 0 },
		`field FalseworkRows.Document is empty`:                                func(f *stages.FalseworkRows, _ *stages.Strike) { f.Document = "" },
		`would be pulled with`: func(f *stages.FalseworkRows, _ *stages.Strike) {
			f.Bearings[0].X, f.Bearings[1].X, f.Rows[0].X = 11.8, 11.8, 11.9
			f.Rows = append(f.Rows[:1], f.Rows[2:]...)
		},
		`Passes[0]: row "R9" is not there`: func(_ *stages.FalseworkRows, s *stages.Strike) { s.Passes[0].Rows = []string{"R9"} },
		`Passes[2]: row "R3" is struck already: must be taken away once`: func(_ *stages.FalseworkRows, s *stages.Strike) {
			s.Passes = append(s.Passes, stages.StrikePass{Rows: []string{"R3"}})
		},
		`Passes[1]: row "R1" is named twice`:                                func(_ *stages.FalseworkRows, s *stages.Strike) { s.Passes[1].Rows = []string{"R1", "R1"} },
		`Passes[0]: row "R1" is taken away and was not lowered`:             func(_ *stages.FalseworkRows, s *stages.Strike) { s.Passes = s.Passes[1:] },
		`row "R5" is left standing after the last of Strike.Passes`:         func(_ *stages.FalseworkRows, s *stages.Strike) { s.Passes[1].Rows = s.Passes[1].Rows[:4] },
		`row "R2" is taken away in Strike.Passes and named in Strike.Keeps`: func(_ *stages.FalseworkRows, s *stages.Strike) { s.Keeps = []string{"R2"} },
		`field Strike.Keeps names row "R7", which is not there`:             func(_ *stages.FalseworkRows, s *stages.Strike) { s.Keeps = []string{"R7"} },
		`field Strike.Missed names row "R7"`:                                func(_ *stages.FalseworkRows, s *stages.Strike) { s.Missed = []string{"R7"} },
		`Passes[0].By = 5 m: must be`:                                       func(_ *stages.FalseworkRows, s *stages.Strike) { s.Passes[0].By = 5 },
		`Strike.Passes has 0: must be 1 to 60`:                              func(_ *stages.FalseworkRows, s *stages.Strike) { s.Passes = nil },
		`the span does not stand on the falsework at x = 8 m`:               func(_ *stages.FalseworkRows, s *stages.Strike) { s.On = falsework(3e7); s.On.Rows[0].Stiffness = 2e7 },
		`Passes[0]: Rows is empty`:                                          func(_ *stages.FalseworkRows, s *stages.Strike) { s.Passes[0].Rows = nil },
	} {
		f := falsework(2e7)
		strike := struck(f)
		change(&f, &strike)
		if strike.On.Rows[0].Stiffness == strike.On.Rows[1].Stiffness {
			strike.On = f
		}
		_, err := stages.Plan{cast(f), strike}.Run(poured(t, 2, 0.3), limits.EN1992{})
		require.ErrorIs(t, err, stages.ErrStage, says)
		require.ErrorContains(t, err, says)
	}
}

// A situation that was cast on its supports states nothing that the fluid concrete decides.
func TestBadCast(t *testing.T) {
	on := func(change func([]stages.Support)) []stages.Support {
		list := towers(3e7, castAt...)
		change(list)
		return list
	}
	for says, supports := range map[string][]stages.Support{
		"support 3 at x = 4 m has a Level":          on(func(s []stages.Support) { s[2].Level = 0.001 }),
		"support 1 at x = 0 m has a Level, Preload": on(func(s []stages.Support) { s[0].Preload = 1e3 }),
		"is a tie that does not push only":          on(func(s []stages.Support) { s[0].Role = stages.Tie }),
		"4 supports that do not share by stiffness": paired(towers(3e7, 0, 24)),
	} {
		_, err := onTowers(supports).Run(poured(t, 2, 0.3), limits.EN1992{})
		require.ErrorContains(t, err, says)
	}
	plan := onTowers(towers(3e7, castAt...))
	_, err := append(stages.Plan{stages.Store{Age: 4, On: paired(stages.Pads(0.2, 1, 23))}}, plan...).Run(poured(t, 2, 0.3), limits.EN1992{})
	require.ErrorContains(t, err, "the element is carried already: must be its first situation")
	_, err = stages.Plan{stages.Store{Age: 4, On: paired(stages.Pads(0.2, 1, 23))}, cast(falsework(2e7))}.Run(poured(t, 2, 0.3), limits.EN1992{})
	require.ErrorContains(t, err, "CastInPlace is not the first stage")
}
