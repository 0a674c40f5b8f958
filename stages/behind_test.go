package stages_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// front is how long the element is that stands in front of another, m.
const front = 4.0

// stepsAlone are situations of an element with an eccentric tendon: stressed on pads,
// on three lines that share by stiffness, suspended from slings on a slope, on four pads.
func stepsAlone() []stages.Situation {
	cross := append(pairOfSlings(0.15, 0.2, 0.9, 4.5), pairOfSlings(11.85, 0.2, 0.9, 5)...) // on the slope their hooks hang beyond the ends
	bounded := []stages.Support{{X: 1, Y: -0.2}, {X: 2.5, Y: 0.2}, {X: 9, Y: -0.2}, {X: 11, Y: 0.15}}
	pull := tendon.Jacking{Tendons: []string{"T"}, Stress: 700e6, Ends: tendon.LeftEnd}
	return []stages.Situation{
		{Name: "stress", Age: 5, Standing: true, Phase: limits.Stressing, Supports: pads(dunnage(0.3, 11.6)), Events: []stages.Event{{Jack: &pull}}},
		{Name: "share", Age: 7, Until: 40, Standing: true, Phase: limits.Storing, Supports: pads(stages.Elastic(3e6, stages.Pads(0.2, 0.8, 5.5, 11)...)), OutOfLevel: 0.0008,
			Actions: []stages.Action{{Mark: "drum", Y: 0.1, Loads: point(3, 7e3)}, {Mark: "form", Least: 1, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(2, 9, 1e3)}}}}},
		{Name: "hang", Age: 41, Phase: limits.Lifting, Supports: cross, Gradient: 0.05, Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}},
		{Name: "four", Age: 42, Standing: true, Phase: limits.Storing, Supports: pads(bounded), Actions: []stages.Action{
			{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.8, Least: -1, Most: 1, Loads: point(4, 2e3)}, {Mark: "brake", Direction: stages.Along, Z: 0.8, Loads: point(4, 2e3)},
		}},
	}
}

// behind are the same situations of the element behind another one that stands for
// itself on pads, or hangs.
func behind(list []stages.Situation) []stages.Situation {
	moved := slices.Clone(list)
	for i := range moved {
		s := &moved[i]
		s.Supports, s.Actions, s.Events = slices.Clone(s.Supports), slices.Clone(s.Actions), slices.Clone(s.Events)
		for k, p := range s.Supports {
			if p.Hook != nil {
				hook := *p.Hook
				hook.X += front
				s.Supports[k].Hook = &hook
			}
			s.Supports[k].X += front
		}
		for k, a := range s.Actions {
			points, lines := slices.Clone(a.Loads.Points), slices.Clone(a.Loads.Lines)
			for n := range points {
				points[n].At += front
			}
			for n := range lines {
				lines[n].From, lines[n].To = lines[n].From+front, lines[n].To+front
			}
			s.Actions[k].Loads.Points, s.Actions[k].Loads.Lines = points, lines
		}
		own := []stages.Support{{X: 0.5, Y: -0.2}, {X: 0.5, Y: 0.2}, {X: 3.5}}
		for k := range own {
			own[k].Role = stages.Pad
			if s.Phase == limits.Lifting {
				own[k].Role, own[k].Z = stages.LiftPoint, 2
			}
		}
		s.Supports = append(s.Supports, own...)
		if i == 0 {
			s.Events = append([]stages.Event{{Add: []string{"B-1"}}}, s.Events...)
		}
	}
	return moved
}

// An element that stands behind another, and does not act with it, has the reactions,
// forces, stresses and movements that it has alone.
func TestAnElementBehindAnotherIsAsAlone(t *testing.T) {
	e := bare(draped(12))
	e.Extra = []stages.ExtraWeight{{Mark: "block", From: 2, To: 5, Weight: 9e3, Y: 0.1, Z: 0.9}}
	e.Concrete, e.LongTerm = mix(), mix()
	ahead := segment("A", front)
	ahead.Concrete, ahead.LongTerm = mix(), mix()
	g := stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Dry, ahead, e)}
	g.Pieces[1].Later = true

	one, err := stages.Plan{odd{situations: stepsAlone()}}.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	other, err := stages.Plan{odd{situations: behind(stepsAlone())}}.Analyse(g, limits.EN1992{})
	require.NoError(t, err)
	r, err := one.Record()
	require.NoError(t, err)
	q, err := other.Record()
	require.NoError(t, err)
	require.Len(t, r.Stages[0].Situations, 5, "the long one at its end as well")
	for n, s := range r.Stages[0].Situations {
		a, err := one.Effects(1, n+1)
		require.NoError(t, err)
		b, err := other.Effects(1, n+1)
		require.NoError(t, err)
		for i, p := range a.Reactions {
			w := b.Reactions[i+3] // those of the element in front come first
			require.InDelta(t, p.X+front, w.X, 1e-12)
			for m, pair := range [][2]float64{
				{p.Nominal, w.Nominal}, {p.Static.Least, w.Static.Least}, {p.Static.Most, w.Static.Most}, {p.Characteristic.Least, w.Characteristic.Least},
				{p.Characteristic.Most, w.Characteristic.Most}, {p.Ultimate.Least, w.Ultimate.Least}, {p.Ultimate.Most, w.Ultimate.Most}, {p.Sling, w.Sling},
			} {
				require.InDelta(t, pair[0], pair[1], 0.5, "%s, support %d, value %d", s.Name, i+1, m)
			}
			if p.Share != nil {
				require.InDelta(t, p.Share.Most, w.Share.Most, 1e-5)
			}
		}
		for _, x := range []float64{0.2, 1.7, 4.4, 8.3, 11.3} {
			f, h := a.Forces(x), b.Forces(x+front)
			for m, pair := range [][2]float64{{f.N, h.N}, {f.Vy, h.Vy}, {f.Vz, h.Vz}, {f.T, h.T}, {f.My, h.My}, {f.Mz, h.Mz}} {
				require.InDelta(t, pair[0], pair[1], 2, "%s, x = %g m, force %d", s.Name, x, m)
			}
			for _, c := range e.Section.At(x).Corners() {
				require.InDelta(t, a.Stress(x).At(c), b.Stress(x+front).At(c), 100, "%s, x = %g m", s.Name, x)
			}
		}
		for _, kind := range []limits.Kind{limits.Compression, limits.Tension, limits.WebShear, limits.Uplift, limits.Overturning, limits.Sliding} {
			if !has(s, kind, stages.Pass) && !has(s, kind, stages.Fail) {
				continue
			}
			p, w := check(t, s, kind), governing(q.Stages[0].Situations[n], kind, front-0.01)
			require.InDelta(t, p.Demand.Value, w.Demand.Value, 1e-4*math.Max(math.Abs(p.Demand.Value), math.Abs(p.Limit.Value)), "%s of %s", kind, s.Name)
			require.InDelta(t, p.Limit.Value, w.Limit.Value, 1e-4*math.Abs(p.Limit.Value), "%s of %s", kind, s.Name)
		}
		moved, err := a.Moves()
		require.NoError(t, err)
		shifted, err := b.Moves()
		require.NoError(t, err)
		if s.Standing {
			for _, x := range []float64{0, 3, 6.6, 12} {
				p, w := moved[0].At(x), shifted[1].At(x+front)
				require.InDelta(t, p.Deflection, w.Deflection, 1e-9, "%s, x = %g m", s.Name, x)
				require.InDelta(t, p.Most, w.Most, 1e-9)
				require.InDelta(t, p.Bow, w.Bow, 1e-9)
				require.InDelta(t, p.Along, w.Along, 1e-9)
			}
		}
	}
}

// governing is the first check of a kind that lies beyond x.
func governing(s stages.SituationRecord, kind limits.Kind, x float64) stages.Check {
	for _, c := range s.Checks {
		if c.Kind == kind && c.X > x && c.State != stages.NotEvaluated {
			return c
		}
	}
	return stages.Check{}
}

// Slopes are those of the line of movements, creep and bow included.
func TestSlopesAreThoseOfTheMovements(t *testing.T) {
	e := unlike(t)
	e.LongTerm = mix()
	plan := unlikePlan(loads.Dynamic{Most: 1.15})
	for _, of := range [][2]int{{1, 1}, {3, 1}, {4, 2}, {5, 1}} {
		m := moved(t, plan, e, of[0], of[1])
		largest := 0.0
		for _, x := range []float64{0.2, 3.3, 8.1, 12.7, 19.9} {
			const h = 1e-3
			left, right := m.At(x-h), m.At(x+h)
			up, aside := m.Slopes(x)
			require.InDelta(t, (right.Deflection-left.Deflection)/(2*h), up, 2e-9, "stage %d, x = %g m", of[0], x)
			require.InDelta(t, (right.Bow-left.Bow)/(2*h), aside, 2e-9)
			largest = math.Max(largest, math.Abs(up))
		}
		require.Greater(t, largest, 1e-5)
	}
}
