package segmental

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

// What a calculation of a deck leaves out is said: the rise of forces before grouting, frames that
// leave after the last step, what is not in the pressure on the epoxy.
func TestWhatACantileverLeavesOut(t *testing.T) {
	d, on, steps := stood(t, 2)
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	require.Contains(t, strings.Join(b.Record.NotChecked, "\n"), "rise of the force of tendons and bars in ducts by weight and actions that come before they are grouted: left out")
	notes := func(steps ...Step) string {
		plan, err := d.Plan(on, steps...)
		require.NoError(t, err)
		a, err := plan.Analyse(b.Girder, limits.EN1992{})
		require.NoError(t, err)
		curve, err := Casting{Rule: MatchCast}.Curve(d, a, on, steps...)
		require.NoError(t, err)
		return strings.Join(curve.Notes, "\n")
	}
	const framed = "The deck is at its design profile with the equipment of that step on it, "
	require.Contains(t, notes(steps...), framed+"frame F1 on L1, frame F2 on R1: what the deck does when that leaves is not included.")
	cleared := Step{Name: "frames off", Day: 60, Moves: []Move{{Do: Clear, Frame: "F1"}, {Do: Clear, Frame: "F2"}}}
	require.NotContains(t, notes(append(steps, cleared)...), framed)
	e, err := b.Analysis.Effects(2, 2)
	require.NoError(t, err)
	checks, err := d.Epoxy.Checks(e, b.Girder, "L2/L1")
	require.NoError(t, err)
	for _, c := range checks {
		require.Contains(t, c.Derivation[0].Result.Name, "the range of prestress, working load and wind are not in it")
	}
}

// The internal forces "w" have the frames in them, and the sheet says so: the shear force at a joint changes
// by what the frame brings to the arm beyond it.
func TestForcesOfWeightHaveTheFrames(t *testing.T) {
	d, on, steps := stood(t, 2)
	steps = steps[:1]
	jump := func(weight float64) (vertical float64) {
		for i := range d.Frames {
			d.Frames[i].Weight = weight
		}
		b, err := d.Build(on, limits.EN1992{}, steps...)
		require.NoError(t, err)
		list := b.Record.Stages[0].Situations
		for _, s := range stages.StationsOf(list[len(list)-1].Diagram) {
			if s.X == 6 {
				return s.Weight.Vz
			}
		}
		require.Fail(t, "no station at the joint")
		return 0
	}
	require.InEpsilon(t, (5.5-1.5)/(5.5-0.5)*100e3, jump(300e3)-jump(400e3), 1e-3, "the front feet, the rear ones are on the pier segment")
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	var out strings.Builder
	require.NoError(t, sheet.WriteMarkdown(&out, b.Record, sheet.Settings{}))
	require.Contains(t, out.String(), "self-weight and actions always present, e.g. frames, nominal (w)")
}

// What a checker needs to recompute pier and frames is printed.
func TestInputsOfADeckArePrinted(t *testing.T) {
	d, on, steps := stood(t, 1)
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	require.NoError(t, b.Record.Check())
	var out strings.Builder
	require.NoError(t, sheet.WriteMarkdown(&out, b.Record, sheet.Settings{}))
	_, page, found := strings.Cut(out.String(), "Input: lifting frames")
	require.True(t, found)
	for _, row := range []string{"| F1 | 300.0 | 1.500 | 0.500 | 5.500 |", "| P1 | 5.000 | 3.200 | 25000 | 0 | 1.500 |", "| P1 | 12.00 | 500.0 | 900.0 | 2.000 |", "| P1 | 10.000 | 0.4800 | 0.2400 | 0.2400 |", "| P1 | 0.9000 | 1.100 |"} {
		require.Contains(t, page, row)
	}
}
