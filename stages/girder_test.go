package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// bar is a rectangular element of the given width from y on, without tendons.
func bar(t testing.TB, mark string, length, y, width, depth, fck float64) stages.Element {
	shape, err := section.New([]section.Outline{{{Y: y}, {Y: y + width}, {Y: y + width, Z: depth}, {Y: y, Z: depth}}}, nil)
	require.NoError(t, err)
	return stages.Element{
		Mark: mark, Length: length, Section: shape, WeightTolerance: loads.PlusMinus(0), Concrete: concrete.EN1992{Fck: fck, Cement: concrete.ClassR},
	}
}

// corners are three supports that carry a body by statics.
func three(left, right, y0, y1 float64) []stages.Support {
	return []stages.Support{{X: left, Y: y0}, {X: left, Y: y1}, {X: right, Y: (y0 + y1) / 2}}
}

// A girder of segments end to end is one element: reactions and stresses are those
// of the same concrete in one piece.
func TestSegmentsEndToEndAreOneElement(t *testing.T) {
	whole := bar(t, "W", 12, -0.3, 0.6, 1, 50e6)
	tendons := []tendon.Tendon{{
		Mark: "T", Strand: tendon.Y1860S7x157, Strands: 5, Duct: 0.07, Elevation: tendon.Level(0, 12, 0.3), Plan: tendon.Level(0, 12, 0.05), Friction: 0.19, Wobble: 0.005,
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 25e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}}
	whole.Tendons = tendons
	parts := []stages.Element{bar(t, "A", 5, -0.3, 0.6, 1, 50e6), bar(t, "B", 3, -0.3, 0.6, 1, 50e6), bar(t, "C", 4, -0.3, 0.6, 1, 50e6)}
	girder := stages.Girder{Mark: "W", Pieces: stages.EndToEnd(stages.Epoxied, parts...), Tendons: tendons}
	plan := stages.Plan{
		stages.Transfer{Age: 5, On: three(0.5, 11.5, -0.3, 0.2), Jacking: []tendon.Jacking{{Tendons: []string{"T"}, Stress: 1300e6, Ends: tendon.LeftEnd, DrawIn: 0.004}}},
		stages.Store{Age: 9, On: three(2, 10, -0.2, 0.3)},
	}
	one, err := plan.Analyse(whole, limits.EN1992{})
	require.NoError(t, err)
	several, err := plan.Analyse(girder, limits.EN1992{})
	require.NoError(t, err)
	for stage := 1; stage <= 2; stage++ {
		a, err := one.Effects(stage, 1)
		require.NoError(t, err)
		b, err := several.Effects(stage, 1)
		require.NoError(t, err)
		for i := range a.Reactions {
			require.InDelta(t, a.Reactions[i].Nominal, b.Reactions[i].Nominal, 1e-4)
		}
		for _, x := range []float64{1, 4.9, 5.1, 7.9, 9} {
			for _, p := range []section.Point{{Y: -0.3}, {Y: 0.3, Z: 1}} {
				require.InDelta(t, a.Stress(x).At(p), b.Stress(x).At(p), 1, "x = %g m", x)
			}
		}
	}
	r, err := plan.Run(girder, limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, r.Lists.Check())
	found := false
	for _, c := range r.Stages[1].Situations[0].Checks {
		found = found || c.Name == "tension at joint A/B" || c.Name == "tension at joint B/C"
	}
	require.True(t, found, "tension at a joint")
}

// Two halves that are seated apart and then joined by a stitch: what each carries
// before is carried forward, a load after it acts on all three as one section.
func TestHalvesAndStitch(t *testing.T) {
	left, right, stitch := bar(t, "L", 10, 0.1, 0.8, 1, 50e6), bar(t, "R", 10, -0.9, 0.8, 1, 50e6), bar(t, "S", 10, -0.1, 0.2, 1, 50e6)
	girder := stages.Girder{Mark: "D", Pieces: []stages.Piece{{Element: left}, {Element: right}, {Element: stitch, Later: true, Joint: stages.Poured}}}
	girder.Pieces[2].Joint = stages.Monolithic
	on := append(three(0, 10, 0.2, 0.8), three(0, 10, -0.8, -0.2)...)
	load := stages.Action{Mark: "deck", Y: 0, Least: 1, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 10, 20e3)}}}
	joined := event{age: 20, on: stages.Elastic(1e9, as(stages.Pad, on)...), level: 1e-6, events: []stages.Event{{Add: []string{"S"}, Join: []string{"S"}}}}
	plan := stages.Plan{stages.Seat{Age: 10, On: on}, joined, event{age: 30, actions: []stages.Action{load}}}
	a, err := plan.Analyse(girder, limits.EN1992{})
	require.NoError(t, err)
	half, whole := 0.8/6, 1.8/6 // m³
	own, strip := 0.8*25e3, 0.2*25e3
	at := func(stage int, y float64) float64 {
		e, err := a.Effects(stage, 1)
		require.NoError(t, err)
		sum := 0.0
		for _, r := range e.Reactions {
			sum += r.Nominal
		}
		require.InDelta(t, []float64{0, 2 * own * 10, (2*own + strip) * 10, (2*own + strip + 20e3) * 10}[stage], sum, 1e-3)
		return e.Stress(5).At(section.Point{Y: y, Z: 1})
	}
	// Seen in the left half: its own weight on itself, the stitch and the deck on the
	// joined section; reactions of the halves stay where they were.
	require.InDelta(t, -own*100/8/half, at(1, 0.5), 1)
	require.InDelta(t, -own*100/8/half-strip*100/8/whole, at(2, 0), 60e3) // within what the bearings turn it sideways
	require.InDelta(t, -own*100/8/half-(strip+20e3)*100/8/whole, at(3, 0), 60e3)
	_, err = stages.Plan{stages.Seat{Age: 10, On: on}, event{age: 20, events: joined.events}}.Analyse(girder, limits.EN1992{})
	require.ErrorContains(t, err, "nothing says how they share")
}

func as(role stages.Role, supports []stages.Support) []stages.Support {
	for i := range supports {
		supports[i].Role = role
	}
	return supports
}

// event is a stage of nothing but events and actions on the supports as before.
type event struct {
	age     float64
	on      []stages.Support
	level   float64
	events  []stages.Event
	actions []stages.Action
}

func (e event) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{Name: "event", Age: e.age, Standing: true, Phase: limits.Seating, Supports: e.on, OutOfLevel: e.level, Events: e.events, Actions: e.actions}}, nil
}
