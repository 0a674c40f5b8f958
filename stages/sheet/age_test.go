package sheet

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// 0.001 d is a minute and a half: an age that must be reached is never printed
// earlier than it is, one that must not be passed never later, and a long project
// does not lose its days to four figures.
func TestAgesAreRoundedToTheSafeSide(t *testing.T) {
	for _, c := range []struct {
		value                 float64
		reached, passed, near string
	}{
		{3, "3", "3", "3"}, {0.5, "0.5", "0.5", "0.5"}, {7.0004, "7.001", "7", "7"}, {7.0006, "7.001", "7", "7.001"}, {28.12345, "28.124", "28.123", "28.123"},
		{1234.4, "1234.4", "1234.4", "1234.4"}, {12345.0625, "12345.063", "12345.062", "12345.063"}, {0.1 + 0.2, "0.3", "0.3", "0.3"}, {0, "0", "0", "0"},
	} {
		require.Equal(t, c.reached, days(c.value, up), "%g d at least", c.value)
		require.Equal(t, c.passed, days(c.value, down), "%g d at most", c.value)
		require.Equal(t, c.near, days(c.value, math.Round), "%g d", c.value)
	}
}

// Cast on day 1200 of the project, lifted at 34.4004 d, calculated to 40.9996 d: the
// crew reads 34.401 d, day 1234.401, and at most 40.999 d.
func TestTheCrewReadsAnAgeThatIsSafe(t *testing.T) {
	a := passed(t, Settings{}, func(r *stages.Record) {
		s := &r.Stages[0].Situations[0]
		s.Age, s.Day, s.Until = 34.4004, 1234.4004, 40.9996
	})
	page := strings.Join(operationPages(a), "")
	require.Contains(t, page, "| Age of the element | 34.401 d (project day 1234.401) or more |")
	require.Contains(t, page, "| Age of the element | 34.401 d")
	require.Contains(t, page, "; calculated to age 40.999 d")
	calculation := calculationPage(a)
	require.Contains(t, calculation, "**Age:** 34.4 d to 41 d (project day 1234.4), ")
}

// Without an end nothing is said of one.
func TestAStageWithoutAnEndNamesNone(t *testing.T) {
	a := passed(t, Settings{}, func(r *stages.Record) {
		s := &r.Stages[0].Situations[0]
		s.Age, s.Day, s.Until = 5, 5, 0
	})
	require.NotContains(t, strings.Join(operationPages(a), ""), "calculated to age")
	require.Contains(t, calculationPage(a), "**Age:** 5 d (project day 5), ")
}
