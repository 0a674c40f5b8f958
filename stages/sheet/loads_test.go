package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

var (
	always = stages.Range{Least: 1, Most: 1}
	maybe  = stages.Range{Most: 1}
	either = stages.Range{Least: -1, Most: 1}
)

// Each load says what, where, how large and in which sense.
func TestLoadsInWords(t *testing.T) {
	a := &author{units: SI}
	for _, c := range []struct {
		load        stages.Load
		place, size string
	}{
		{stages.Load{Mark: "form", From: 3, To: 3, Centre: 3, Force: 4e3, Presence: always}, "form at x = 3 m", "4 kN, always present"},
		{stages.Load{Mark: "form", From: 3, To: 3, Centre: 3, Y: -0.4, Force: 4e3, Presence: maybe}, "form at x = 3 m, y = −0.4 m", "4 kN, present or absent"},
		{stages.Load{Mark: "tackle", Centre: 3, Force: -4e3, Presence: always}, "tackle at x = 3 m", "4 kN upwards, always present"},
		{stages.Load{Mark: "jolt", Centre: 3, Force: 4e3, Presence: either}, "jolt at x = 3 m", "4 kN down and up, both ways"},
		{stages.Load{Mark: "deck", From: 2, To: 6, Centre: 4.5, Force: 40e3, Presence: always}, "deck from 2 m to 6 m, resultant at x = 4.5 m", "40 kN in total, always present"},
		{stages.Load{Mark: "carrier", Rolls: true, From: 0, To: 6.5, Force: 61.2e3, Presence: maybe}, "carrier, rolling, at any place of the element", "61.2 kN in total, over 6.5 m, present or absent"},
		{stages.Load{Mark: "wheel", Rolls: true, Force: 10e3, Presence: maybe}, "wheel, rolling, at any place of the element", "10 kN, present or absent"},
		{stages.Load{Mark: "wind", Direction: "transverse", Centre: 6, Force: 8e3, Presence: always}, "wind at x = 6 m", "8 kN to the left, always present"},
		{stages.Load{Mark: "wind", Direction: "transverse", Centre: 6, Force: -8e3, Presence: always}, "wind at x = 6 m", "8 kN to the right, always present"},
		{stages.Load{Mark: "wind", Direction: "transverse", Centre: 6, Force: 8e3, Presence: either}, "wind at x = 6 m", "8 kN across, both ways"},
		{stages.Load{Mark: "tow", Direction: "along", Centre: 6, Force: 8e3, Presence: maybe}, "tow at x = 6 m", "8 kN towards +x, present or absent"},
		{stages.Load{Mark: "tow", Direction: "along", Centre: 6, Force: -8e3, Presence: maybe}, "tow at x = 6 m", "8 kN towards −x, present or absent"},
		{stages.Load{Mark: "brake", Direction: "along", Centre: 6, Force: 8e3, Presence: either}, "brake at x = 6 m", "8 kN along, both ways"},
		{stages.Load{Mark: "couple", Centre: 6, Couple: 5e3, Presence: always}, "couple at x = 6 m", "5 kN·m anticlockwise, always present"},
		{stages.Load{Mark: "couple", Centre: 6, Couple: -5e3, Presence: always}, "couple at x = 6 m", "5 kN·m clockwise, always present"},
		{stages.Load{Mark: "both", Centre: 6, Force: 2e3, Couple: -5e3, Presence: always}, "both at x = 6 m", "2 kN and 5 kN·m clockwise, always present"},
		{stages.Load{Mark: "nothing", Centre: 6, Presence: always}, "nothing at x = 6 m", "0 kN, always present"},
		{stages.Load{Mark: "crew", Centre: 6, Force: 2e3, Presence: stages.Range{Least: 0.5, Most: 1.5}}, "crew at x = 6 m", "2 kN, × 0.5 to 1.5"},
		{stages.Load{Mark: "part", Centre: 6, Force: 2e3}, "part at x = 6 m", "2 kN"},
	} {
		require.Equal(t, c.place, a.loadPlace(c.load))
		require.Equal(t, c.size, a.loadSize(c.load))
	}
}

// A load on the sheet is what the calculation covers: 12.3456 kN is 12.34 kN, and so is
// an upward one; 1 kN is 0.2248 kip.
func TestTheSizeOfALoadIsNeverRoundedUp(t *testing.T) {
	si, us := &author{units: SI}, &author{units: US}
	require.Equal(t, "12.34 kN", si.loadSize(stages.Load{Force: 12345.6}))
	require.Equal(t, "12.34 kN upwards", si.loadSize(stages.Load{Force: -12345.6}))
	require.Equal(t, "12.34 kN·m clockwise", si.loadSize(stages.Load{Couple: -12345.6}))
	require.Equal(t, "0.2248 kip", us.loadSize(stages.Load{Force: 1e3}))
	require.Equal(t, "0.7375 kip·ft anticlockwise", us.loadSize(stages.Load{Couple: 1e3}), "1/1.355818 = 0.73756")
}

// The presence of an action is never taken from its weight alone.
func TestPresenceInWords(t *testing.T) {
	for presence, want := range map[stages.Range]string{
		{}: "", {Least: 1, Most: 1}: "always present", {Most: 1}: "present or absent", {Least: -1, Most: 1}: "both ways",
		{Least: -1}: "× −1 to 0", {Least: 0.9, Most: 0.9}: "× 0.9", {Least: -0.5, Most: 0.5}: "× −0.5 to 0.5", {Most: 1.2}: "× 0 to 1.2",
	} {
		require.Equal(t, want, presenceWords(stages.Load{Presence: presence}))
	}
}

// All actions stand in a line of the calculation and in one of the operation
// sheet; without any, the crew reads that none is permitted.
func TestActionsOnBothSheets(t *testing.T) {
	a := passed(t, Settings{}, first(func(s *stages.SituationRecord) {
		s.Loads = []stages.Load{{Mark: "form", Centre: 3, Force: 4e3, Presence: always}, {Mark: "crew", Centre: 5, Force: 2e3, Presence: maybe}}
	}))
	calculation, pages := calculationPage(a), operationPages(a)
	require.Contains(t, calculation, "**Actions beside self-weight:** form at x = 3 m, 4 kN, always present; crew at x = 5 m, 2 kN, present or absent.")
	require.Contains(t, calculation, "**Factors:** weight tolerance × 0.97 to 1.03, dynamic × 1. **Actions beside self-weight:** none.")
	require.Contains(t, pages[0], "**Other actions:** form at x = 3 m, 4 kN, always present; crew at x = 5 m, 2 kN, present or absent; no others permitted.")
	require.NotContains(t, pages[0], "none permitted")
	require.Contains(t, pages[1], "**Other actions:** none permitted.")
}

// A factor is one number where both ends are the same, a range where they are not.
func TestRangesOfFactors(t *testing.T) {
	require.Equal(t, "1.1", rangeOf(stages.Range{Least: 1.1, Most: 1.1}))
	require.Equal(t, "0.9 to 1.1", rangeOf(stages.Range{Least: 0.9, Most: 1.1}))
	require.Equal(t, "0.97 to 1", rangeOf(stages.Range{Least: 0.97, Most: 1}))
}
