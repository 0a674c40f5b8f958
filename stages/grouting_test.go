package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// grouted adds the steel of a bonded tendon, counted n times, its duct being filled.
func (s *byHand) grouted(area, n, y, z float64) {
	s.add((n-1)*area, y, z)
	own := (n - 1) * area * area / (4 * math.Pi) // about its own centre, as one round bar
	s.iyy, s.izz = s.iyy+own, s.izz+own
}

// bent is the stress at (y, z) of a moment about y.
func (s byHand) bent(moment, y, z float64) float64 {
	lift := 1e3 // a couple of two forces along x, a kilometre apart in z
	return s.stress(-moment/lift, 0, lift, y, z) + s.stress(moment/lift, 0, 0, y, z)
}

// twoDucts is the beam without symmetry and two tendons, and its stages: one tendon is
// grouted at 20 days and the other at 40, with a load that comes at 10, 30 and 50 days.
func twoDucts(t testing.TB) (stages.Element, stages.Plan) {
	e := angleBeam(t, evenTendon("A", 7, 0.05, 0.90), evenTendon("B", 12, 0.45, 0.15))
	drum := func(mark string, force float64) []stages.Action {
		return []stages.Action{{Mark: mark, Y: 0.1, Least: 1, Most: 1, Stays: true, Loads: point(6, force)}}
	}
	return e, stages.Plan{
		stages.Transfer{Age: 5, Jacking: []tendon.Jacking{jackTo(1200e6, tendon.LeftEnd, "A", "B")}, On: twoEnds},
		stages.Store{Age: 10, On: twoEnds, Actions: drum("first", 11e3)},
		stages.Stress{Age: 20, Grout: []string{"B"}, On: twoEnds},
		stages.Store{Age: 30, On: twoEnds, Actions: drum("second", 17e3)},
		stages.Stress{Age: 40, Grout: []string{"A"}, On: twoEnds},
		stages.Store{Age: 50, On: twoEnds, Actions: drum("third", 23e3)},
	}
}

// What comes acts on the section of its day: with both ducts out, with the one that is
// grouted filled and its steel counted by the moduli of that day, with both.
func TestLoadsActOnTheSectionOfTheirDay(t *testing.T) {
	e, plan := twoDucts(t)
	a, err := plan.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	sections := map[int]byHand{}
	for stage, day := range map[int]float64{2: 10, 4: 30, 6: 50} {
		var s byHand
		s.rectangle(angle[0])
		s.rectangle(angle[1])
		n := 195e9 / modulusAt(t, e, day)
		if stage >= 6 {
			s.grouted(7*150e-6, n, 0.05, 0.90)
		} else {
			s.hole(0.08, 0.05, 0.90)
		}
		if stage >= 4 {
			s.grouted(12*150e-6, n, 0.45, 0.15)
		} else {
			s.hole(0.08, 0.45, 0.15)
		}
		sections[stage] = s
	}
	at := func(stage int, x float64) section.Plane {
		got, err := a.Effects(stage, 1)
		require.NoError(t, err)
		return got.Stress(x)
	}
	for stage, force := range map[int]float64{2: 11e3, 4: 17e3, 6: 23e3} {
		for _, x := range []float64{4.5, 11} {
			moment := force * 10 / 16 * x // at 6 m of 16
			if x > 6 {
				moment = force * 6 / 16 * (16 - x)
			}
			before, after := at(stage-1, x), at(stage, x)
			for _, p := range []section.Point{{Y: -0.20}, {Y: 0.70, Z: 0.30}, {Y: 0.20, Z: 1.20}} {
				want := sections[stage].bent(moment, p.Y, p.Z)
				require.InDelta(t, want, after.At(p)-before.At(p), 1e-5*math.Abs(want)+0.2, "stage %d, x = %g m", stage, x)
			}
		}
	}
	// Grouting alone changes nothing.
	for _, stage := range []int{3, 5} {
		before, after := at(stage-1, 7), at(stage, 7)
		for _, p := range []section.Point{{Y: -0.20}, {Y: 0.70, Z: 0.30}, {Y: 0.20, Z: 1.20}} {
			require.InDelta(t, before.At(p), after.At(p), 1e-6)
		}
	}
}

// After grouting a tendon is neither jacked, nor let down, nor taken out, nor grouted
// again; the other one is.
func TestWhatIsGroutedStays(t *testing.T) {
	e, whole := twoDucts(t)
	for _, c := range []struct {
		words string
		after stages.Stress
	}{
		{"in Jacking: tendon B is grouted: must be free", stages.Stress{Age: 25, Jacking: []tendon.Jacking{jackTo(1300e6, tendon.LeftEnd, "B")}}},
		{"in Jacking: tendon B is grouted: must be free", stages.Stress{Age: 25, Jacking: []tendon.Jacking{jackTo(1300e6, tendon.LeftEnd, "A", "B")}}},
		{"in Jacking: tendon B is grouted: must be free", stages.Stress{Age: 25, Jacking: []tendon.Jacking{jackTo(300e6, tendon.LeftEnd, "A"), jackTo(300e6, tendon.LeftEnd, "B")}}},
		{"in Release: tendon B is not stressed, is grouted or is released", stages.Stress{Age: 25, Release: []string{"B"}}},
		{"in Release: tendon B is not stressed, is grouted or is released", stages.Stress{Age: 25, Release: []string{"A", "B"}}},
		{"in Grout: tendon B is already grouted", stages.Stress{Age: 25, Grout: []string{"A", "B"}}},
		{"in Grout: tendon A is released", stages.Stress{Age: 25, Release: []string{"A"}, Grout: []string{"A"}}},
		{"", stages.Stress{Age: 25, Jacking: []tendon.Jacking{jackTo(1300e6, tendon.LeftEnd, "A")}}},
		{"", stages.Stress{Age: 25, Release: []string{"A"}}},
		{"", stages.Stress{Age: 25, Grout: []string{"A"}}},
	} {
		_, err := append(whole[:3:3], c.after).Run(e, limits.EN1992{})
		if c.words == "" {
			require.NoError(t, err)
			continue
		}
		require.ErrorIs(t, err, stages.ErrStage)
		require.ErrorContains(t, err, c.words)
	}
}

// In one situation nothing is jacked or released behind a grouting; before it is right.
func TestGroutingIsTheLastEvent(t *testing.T) {
	e, _ := twoDucts(t)
	pull, grout, out := stages.Event{Jack: &tendon.Jacking{Tendons: []string{"A"}, Stress: 1200e6, Ends: tendon.LeftEnd}}, stages.Event{Grout: []string{"B"}}, stages.Event{Release: []string{"A"}}
	of := func(events ...stages.Event) error {
		first := stages.Event{Jack: &tendon.Jacking{Tendons: []string{"B"}, Stress: 1200e6, Ends: tendon.LeftEnd}}
		s := stages.Situation{Name: "all", Age: 5, Standing: true, Phase: limits.Stressing, Supports: twoEnds, Events: append([]stages.Event{first}, events...)}
		_, err := stages.Plan{odd{situations: []stages.Situation{s}}}.Run(e, limits.EN1992{})
		return err
	}
	require.NoError(t, of(pull, grout))
	require.NoError(t, of(pull, out, grout))
	for _, list := range [][]stages.Event{{grout, pull}, {pull, grout, out}, {grout, stages.Event{Add: nil}, pull}} {
		require.ErrorContains(t, of(list...), "follows a grouting: must be before it")
	}
}

// The forces of bonded tendons in the record, and which are bonded.
func TestTheRecordSaysWhatIsBonded(t *testing.T) {
	e, plan := twoDucts(t)
	r := run(t, e, plan)
	for i, want := range [][2]bool{{false, false}, {false, false}, {false, true}, {false, true}, {true, true}, {true, true}} {
		for k, f := range r.Stages[i].Situations[0].Tendons {
			require.Equal(t, want[k], f.Bonded, "stage %d, tendon %s", i+1, f.Mark)
		}
	}
	heavier := plan
	heavier[3] = stages.Store{Age: 30, On: twoEnds, Actions: []stages.Action{{Mark: "second", Least: 1, Most: 1, Loads: loads.Set{Points: []loads.Point{{At: 6, Force: 90e3}}}}}}
	s := run(t, e, heavier).Stages[3].Situations[0]
	require.InEpsilon(t, r.Stages[3].Situations[0].Tendons[1].Middle, s.Tendons[1].Middle, 1e-12, "the share of a bonded tendon is in the section, not in its force")
}
