package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// lot is a weight at one place with the ends of its factor: tolerance times dynamic.
type lot struct{ x, y, z, force, low, high float64 }

// strips are a stretch of 10 kN/m on the axis of the block, in strips of 1 mm.
func strips(from, to, low, high float64) []lot {
	var list []lot
	for i := range int(math.Round((to - from) * 1e3)) {
		list = append(list, lot{from + (float64(i)+0.5)*1e-3, 0, 0.4, 10, low, high})
	}
	return list
}

// supportLine is a support line: its inside is on the left of the way from one to the other,
// seen from above.
type supportLine struct{ x0, y0, x1, y1, level float64 }

func (l supportLine) inside(x, y float64) float64 {
	dx, dy := l.x1-l.x0, l.y1-l.y0
	return (dx*(y-l.y0) - dy*(x-l.x0)) / math.Hypot(dx, dy)
}

// turned are the moments of groups of weight about a support line by EN 1990, set A,
// and the nominal horizontal force of 2.5 %: each group is wholly light or wholly
// heavy, whichever is worse.
func turned(l supportLine, groups ...[]lot) (over, hold float64) {
	weight, high := 0.0, 0.0
	for _, group := range groups {
		var out, in float64
		for _, w := range group {
			lever := l.inside(w.x, w.y)
			out, in = out+math.Max(0, -w.force*lever), in+math.Max(0, w.force*lever)
			weight, high = weight+w.force, high+w.force*(w.z-l.level)
		}
		light, heavy := group[0].low, group[0].high
		if light*(0.95*in-1.05*out) < heavy*(0.95*in-1.05*out) {
			over, hold = over+1.05*light*out, hold+0.95*light*in
		} else {
			over, hold = over+1.05*heavy*out, hold+0.95*heavy*in
		}
	}
	return over + 0.025*math.Max(0, high), hold
}

// twoGroups are a light piece and a heavy one whose weights err each for itself.
func twoGroups(groups ...string) stages.Girder {
	a, b := segment("A", 5), segment("B", 7)
	a.WeightTolerance, b.WeightTolerance = loads.PlusMinus(0.1), &loads.Tolerance{Under: 0.15, Over: 0.06}
	g := stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Monolithic, a, b)}
	for i := range g.Pieces {
		g.Pieces[i].WeightGroup = groups[i]
	}
	return g
}

// Two pieces that err each for itself: about one line the one is worst heavy and the
// other light.
func TestOverturningOfTwoWeightGroups(t *testing.T) {
	for _, c := range []struct {
		on     []stages.Support
		groups []string
	}{
		{[]stages.Support{{X: 5.4, Y: -0.8}, {X: 5.4, Y: 0.6}, {X: 10.5, Y: 0.1}}, []string{"a", "b"}},
		{[]stages.Support{{X: 5.4, Y: -0.8}, {X: 5.4, Y: 0.6}, {X: 10.5, Y: 0.1}}, []string{"", "b"}},
		{[]stages.Support{{X: 1, Y: 0.05, Z: -0.2}, {X: 6.2, Y: -0.7, Z: -0.1}, {X: 6.2, Y: 0.9, Z: -0.3}}, []string{"a", "b"}},
	} {
		s := run(t, twoGroups(c.groups...), stages.Plan{stages.Store{Age: 28, On: bracketed(c.on)}}).Stages[0].Situations[0]
		worst, demand, limit := 0.0, 0.0, 0.0
		for i := range 3 {
			for k := range 3 {
				p, q, r := c.on[i], c.on[k], c.on[(6-i-k)%3]
				if i == k {
					continue
				}
				l := supportLine{p.X, p.Y, q.X, q.Y, math.Min(p.Z, q.Z)}
				if l.inside(r.X, r.Y) < 0 { // the other way round
					continue
				}
				over, hold := turned(l, strips(0, 5, 0.9, 1.1), strips(5, 12, 0.85, 1.06))
				if over/hold > worst {
					worst, demand, limit = over/hold, over, hold
				}
			}
		}
		got := check(t, s, limits.Overturning)
		require.InEpsilon(t, demand, got.Demand.Value, 1e-5)
		require.InEpsilon(t, limit, got.Limit.Value, 1e-5)
	}
}

// As one group the whole is light or heavy: less overturns.
func TestOneWeightGroupOverturnsLessThanTwo(t *testing.T) {
	on := bracketed([]stages.Support{{X: 5.4, Y: -0.8}, {X: 5.4, Y: 0.6}, {X: 10.5, Y: 0.1}})
	of := func(groups ...string) float64 {
		return check(t, run(t, twoGroups(groups...), stages.Plan{stages.Store{Age: 28, On: on}}).Stages[0].Situations[0], limits.Overturning).Utilisation
	}
	one, two := of("", ""), of("a", "b")
	require.Greater(t, two, 1.05*one)
	// The range of one group is the widest: 0.85 to 1.1 on all that lies about x = 5.4 m.
	out, in := 1.05*10e3*5.4*5.4/2, 0.95*10e3*6.6*6.6/2
	nominal := 0.025 * 120e3 * 0.4
	require.InEpsilon(t, (0.85*out+nominal)/(0.85*in), one, 1e-9)
}

// What is carried shakes: the dynamic factor is on each side with the tolerance.
func TestOverturningWhileHauled(t *testing.T) {
	stand := paired(frames(0.4, 2, 10))
	plan := stages.Plan{
		stages.Store{Age: 28, On: stand},
		stages.Haul{Age: 28, On: bracketed([]stages.Support{{X: 0.6, Y: -0.5}, {X: 0.6, Y: 0.5}, {X: 6.3}}), Dynamic: loads.Dynamic{Least: 0.8, Most: 1.25}},
		stages.Store{Age: 28, On: stand},
	}
	e := block()
	e.WeightTolerance = loads.PlusMinus(0.04)
	got := check(t, run(t, e, plan).Stages[1].Situations[0], limits.Overturning)
	demand, limit, worst := 0.0, 0.0, 0.0
	for _, l := range []supportLine{{6.3, 0, 0.6, 0.5, 0}, {0.6, -0.5, 6.3, 0, 0}, {0.6, 0.5, 0.6, -0.5, 0}} {
		if over, hold := turned(l, strips(0, 12, 0.8*0.96, 1.25*1.04)); over/hold > worst {
			worst, demand, limit = over/hold, over, hold
		}
	}
	require.InEpsilon(t, demand, got.Demand.Value, 1e-5)
	require.InEpsilon(t, limit, got.Limit.Value, 1e-5)
}

// A taper without symmetry overturns by the centroid of each of its sections, not by one
// line: each strip about every edge of three supports.
func TestATaperOverturnsByItsOwnCentroids(t *testing.T) {
	e := unlike(t)
	e.Tendons = nil
	on := bracketed([]stages.Support{{X: 4, Y: -0.75, Z: -0.1}, {X: 4, Y: 0.5, Z: -0.2}, {X: 15, Y: -0.05}})
	s := run(t, e, stages.Plan{stages.Store{Age: 28, On: on}}).Stages[0].Situations[0]
	var list []lot
	const n = 4000
	for i := range n {
		x := 20 * (float64(i) + 0.5) / n
		p := e.Section.At(x).Properties()
		list = append(list, lot{x, p.Centroid.Y, p.Centroid.Z, 25e3 * p.Area * 20 / n, 1, 1})
		if w := e.Extra[0]; x > w.From && x < w.To {
			list = append(list, lot{x, w.Y, w.Z, w.Weight / (w.To - w.From) * 20 / n, 1, 1})
		}
	}
	hook := e.Extra[1]
	list = append(list, lot{hook.From, hook.Y, hook.Z, hook.Weight, 1, 1})
	demand, limit, worst := 0.0, 0.0, 0.0
	for _, l := range []supportLine{{4, 0.5, 4, -0.75, -0.2}, {4, -0.75, 15, -0.05, -0.1}, {15, -0.05, 4, 0.5, -0.2}} {
		if over, hold := turned(l, list); over/hold > worst {
			worst, demand, limit = over/hold, over, hold
		}
	}
	got := check(t, s, limits.Overturning)
	require.InEpsilon(t, demand, got.Demand.Value, 1e-4)
	require.InEpsilon(t, limit, got.Limit.Value, 1e-4)
}

// A fixed support holds whatever its fixing holds: nothing is said of its balance, and
// that is a question without an answer.
func TestBalanceOfAFixedSupportIsLeftOpen(t *testing.T) {
	s := run(t, block(), stages.Plan{stages.Store{Age: 28, On: []stages.Support{{X: 6, Fixed: true}}}}).Stages[0].Situations[0]
	for _, c := range s.Checks {
		require.NotContains(t, []limits.Kind{limits.Uplift, limits.Overturning, limits.Sliding, limits.Roll}, c.Kind)
	}
	require.Contains(t, s.Unanswered, "equilibrium: a fixed support carries the element; its fixing must be designed for its moment")
}
