package segmental

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// stood is a cantilever of n pairs on two rows of packs, and its usual steps.
func stood(t testing.TB, n int) (Deck, []stages.Support, []Step) {
	d := haunched(t, n)
	x := 2 + 3*float64(n)
	d.Rule = EN
	d.Piers = []Pier{{Mark: "P1", At: x, Rows: 3.2, Row: 25e6, Document: "B1", Ties: &Ties{Number: 12, Preload: 500e3, Capacity: 900e3, Document: "B1"}}}
	d.Keys = &Keys{Number: 20, Force: 60e3, Friction: 0.3, Document: "K1"}
	for i := range d.Frames {
		d.Frames[i].Anchors = &Anchors{Number: 4, Preload: 250e3, Capacity: 500e3, Document: "F1"}
	}
	steps, err := Usual{Pier: "P1", First: 40, Days: 3, Frames: [2]string{"F1", "F2"}, ByCrane: 1, Jacking: tendon.Jacking{Stress: 1400e6, Ends: tendon.BothEnds, DrawIn: 0.006}}.Steps(d)
	require.NoError(t, err)
	return d, []stages.Support{{X: x, Z: -4, Fixed: true, Role: stages.Pad}}, steps
}

// The usual steps are those of the trade, in order.
func TestUsualSteps(t *testing.T) {
	_, _, steps := stood(t, 2)
	var words []string
	for _, m := range steps[1].Moves {
		words = append(words, m.words())
	}
	require.Equal(t, []string{"lift L2, frame F1", "attach L2, frame F1", "lift R2, frame F2", "attach R2, frame F2", "stress T2L, T2R", "remove the bars of L2, R2"}, words)
	require.Equal(t, "set frame F1 to L1", steps[0].Moves[len(steps[0].Moves)-2].words())
	require.Equal(t, 43.0, steps[1].Day)
}

// What is out of order is refused with the names of step, segment and joint.
func TestStepsOutOfOrder(t *testing.T) {
	for says, change := range map[string]func(*Deck, []Step) []Step{
		"tendon T2L is anchored at the joint of segment L2, which is not in the deck": func(_ *Deck, s []Step) []Step {
			s[0].Moves[2].Jacking = &tendon.Jacking{Tendons: []string{"T2L"}, Stress: 1400e6, Ends: tendon.BothEnds}
			return s
		},
		"P1, pair 1, move 1, attach: segment L2: its joint L2/L1 does not exist yet": func(_ *Deck, s []Step) []Step {
			s[0].Moves[0].Segments = []string{"L2"}
			return s
		},
		"segment L2 has a characteristic strength of 50.0 MPa at age 43 d: must have at least 70.0 MPa to be lifted, to joint L2/L1": func(d *Deck, s []Step) []Step {
			for i := range d.Segments {
				if d.Segments[i].Element.Mark == "L2" {
					d.Segments[i].Strength = 70e6
				}
			}
			return s
		},
		"joint L1/P1 is pressed neither by a stressed tendon nor by temporary bars": func(_ *Deck, s []Step) []Step {
			s[0].Moves = slices.Insert(s[0].Moves, 2, Move{Do: Remove, Segments: []string{"L1"}})
			return s
		},
		"segment L1 has no stressed bars at joint L1/P1": func(_ *Deck, s []Step) []Step {
			s[0].Moves = slices.Insert(s[0].Moves, 4, Move{Do: Remove, Segments: []string{"L1"}})
			return s
		},
		`frame "F1" does not stand on the deck: must be set first`: func(_ *Deck, s []Step) []Step {
			s[0].Moves = s[0].Moves[:len(s[0].Moves)-2]
			return s
		},
		"frame F1 to segment P1, beyond which segments are attached": func(_ *Deck, s []Step) []Step {
			m := &s[0].Moves[len(s[0].Moves)-2]
			m.To, m.Left = "P1", true
			return s
		},
		"on day 39: must not be before the previous move, day 40": func(_ *Deck, s []Step) []Step {
			s[1].Day = 39
			return s
		},
		"segment R1 is in the deck already": func(_ *Deck, s []Step) []Step {
			s[1].Moves[1].Segments, s[1].Moves[1].Frame = []string{"R1"}, ""
			return s
		},
		`field Do = "glue": must be one of`: func(_ *Deck, s []Step) []Step {
			s[0].Moves[0].Do = "glue"
			return s
		},
		`segment "X9" is not in deck "P1"`: func(_ *Deck, s []Step) []Step {
			s[0].Moves[0].Segments = []string{"X9"}
			return s
		},
		"P1, pair 1 has no move": func(_ *Deck, s []Step) []Step {
			s[0].Moves = nil
			return s
		},
	} {
		d, on, steps := stood(t, 2)
		steps = change(&d, steps)
		_, err := d.Plan(on, steps...)
		require.ErrorIs(t, err, ErrSegmental, says)
		require.ErrorContains(t, err, says)
	}
}

// A list with two segments on one arm fails with the check of the pier, which names them.
func TestTwoSegmentsOnOneArmFail(t *testing.T) {
	d, on, _ := stood(t, 2)
	var both []Move
	for _, mark := range []string{"L1", "L2"} {
		both = append(both, Move{Do: Attach, Segments: []string{mark}})
	}
	b, err := d.Build(on, limits.EN1992{}, Step{Name: "left arm alone", Day: 40, Moves: both})
	require.NoError(t, err)

	last := b.Record.Stages[0].Situations[1]
	failed := false
	for _, c := range last.Checks {
		if strings.HasPrefix(c.Name, "segments on one arm only") {
			failed = true
			require.Equal(t, stages.Fail, c.State)
			require.Contains(t, c.Note, "L1")
			require.Contains(t, c.Note, "L2")
		}
	}
	require.True(t, failed)
	require.Equal(t, stages.Fail, b.Record.Status())
}

// The moment of the engine at the pier is that of the balance of the deck, with a frame, a
// segment on it and an arm that is one segment longer.
func TestTheBalanceIsThatOfTheEngine(t *testing.T) {
	d, on, steps := stood(t, 2)
	d.Loads = ArmLoads{}
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	n := 0
	for i, step := range steps {
		for k, m := range step.Moves {
			e, err := b.Analysis.Effects(i+1, k+1)
			require.NoError(t, err)
			of := b.Moves[n].Piers[0]
			n++
			x, hair := on[0].X, 1e-6
			moment := e.Forces(x-hair).My - e.Forces(x+hair).My
			nominal := of.Along
			if m.Do == Lift { // on the frame it may be absent
				i, err := d.index(m.Segments[0])
				require.NoError(t, err)
				mass, err := d.weight(i)
				require.NoError(t, err)
				nominal -= mass.Weight * (mass.X - x)
			}
			require.InDelta(t, nominal, moment, 1e-5*of.Vertical, "%s", m.words())
		}
	}
}

// A bar follows a haunched soffit on both arms.
func TestBarsFollowTheSoffit(t *testing.T) {
	d, _, _ := stood(t, 1)
	d.Bars[0].At = []BarPlace{{Y: 1, Z: -3, Rise: 0.1}}
	for _, of := range []struct {
		segment    int
		low, outer float64 // x of the end towards the pier and of the other
	}{{0, 3 + 1.4, 3 - 1.4}, {2, 7 - 1.4, 7 + 1.4}} {
		bars, err := d.barsOf(of.segment)
		require.NoError(t, err)
		path, err := bars[0].Path()
		require.NoError(t, err)
		require.InDelta(t, -3.14, path.At(of.low).Z, 1e-9)
		require.InDelta(t, -2.86, path.At(of.outer).Z, 1e-9)
		require.Equal(t, section.Point{Y: 1, Z: path.At(of.outer).Z}, path.At(of.outer))
	}
}
