package stages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// Where braces stand, in which order they are fixed and when they go is in the record; what
// cannot be is refused.
func TestPlacesOfBraces(t *testing.T) {
	braced := func(change func(*stages.Braces)) (stages.Record, error) {
		plan := tandem(t)
		seat := plan[len(plan)-1].(stages.Seat)
		seat.Slender = &stages.Slender{Braces: &stages.Braces{
			Number: 2, Height: 1.4, Stiffness: 5e6, Limit: 60e3, Document: "invented drawing EL-9",
			Places: []stages.BracePlace{{Mark: "B1", X: 35}, {Mark: "B2", X: 1}}, Until: "diaphragms cast",
		}}
		change(seat.Slender.Braces)
		plan[len(plan)-1] = seat
		return plan.Run(slenderBeam(t), handling)
	}
	record, err := braced(func(*stages.Braces) {})
	require.NoError(t, err)
	require.NoError(t, record.Check())
	s := &record.Stages[len(record.Stages)-1].Situations[0]
	require.Equal(t, &stages.Bracing{Number: 2, Places: []stages.BracePlace{{Mark: "B1", X: 35}, {Mark: "B2", X: 1}}, Until: "diaphragms cast", Document: "invented drawing EL-9"}, s.Braces)
	s.Braces.Places[0].X = 37
	require.ErrorContains(t, record.Check(), `"B1": X = 37 m: must be on the element, 0 to 36 m`)
	for want, change := range map[string]func(*stages.Braces){
		"Places has 1 braces: must be none (not stated) or 2, their Number": func(b *stages.Braces) { b.Places = b.Places[:1] },
		`mark "B1" is that of another: must be marks that differ`:           func(b *stages.Braces) { b.Places[1].Mark = "B1" },
		"X = -1 m: must be on the element, 0 to 36 m":                       func(b *stages.Braces) { b.Places[1].X = -1 },
		"Until has 201 letters: must be 1 to 200":                           func(b *stages.Braces) { b.Until = strings.Repeat("a", 201) },
	} {
		_, err := braced(change)
		require.ErrorIs(t, err, stages.ErrStage)
		require.ErrorContains(t, err, want)
	}
}
