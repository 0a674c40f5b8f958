package stages_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// withFactors is a standard that limits the stresses; nothing is ever over its
// limits. Once the checks are made it has factors for the ultimate reactions.
type withFactors struct {
	stress, strength limits.Factors
	checked          bool
}

func (w *withFactors) Limits(q limits.Question) ([]limits.Limit, error) {
	limit := limits.Limit{Name: string(q.Kind), Sense: limits.AtMost, Line: formula.Given(formula.Q("lim", 1e9, formula.Pascal, "limit"), formula.Source{Document: "test"})}
	switch q.Kind {
	case limits.Compression, limits.Tension:
		limit.Factors = w.stress
		if w.checked {
			return nil, nil // the record asks again for its stations, of no interest here
		}
	case limits.WebShear:
		limit.Factors = w.strength
		if !w.checked {
			return nil, nil // the walls are dear, and checked elsewhere
		}
	default:
		return nil, nil
	}
	return []limits.Limit{limit}, nil
}

// corner is a choice of every factor.
type corner struct {
	weight, prestress float64
	levels            []float64 // m, of each support
	actions           []float64
}

// trial is one random plan whose last stage is looked at.
type trial struct {
	element   stages.Element
	before    stages.Plan
	last      stages.Situation
	level     float64     // out of level, m
	patterns  [][]float64 // of the levels of elastic supports, m
	tolerance [2]float64
	actions   []stages.Action
	standard  withFactors
}

// last is a stage of one situation.
type last struct{ stages.Situation }

func (l last) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{l.Situation}, nil
}

func (f trial) analyse(t *testing.T) *stages.Analysis {
	f.element.WeightTolerance = &loads.Tolerance{Under: 1 - f.tolerance[0], Over: f.tolerance[1] - 1}
	f.last.Actions = f.actions
	if f.level > 0 {
		f.last.OutOfLevel = f.level
	}
	standard := &withFactors{f.standard.stress, f.standard.strength, false}
	a, err := append(slices.Clone(f.before), last{f.last}).Analyse(f.element, standard)
	require.NoError(t, err)
	standard.checked = true
	return a
}

// at is the same plan with every factor fixed: weights, actions and levels are those
// of the corner, and the partial factors are one.
func (f trial) at(t *testing.T, c corner) *stages.Analysis {
	e := f.element
	e.UnitWeight, e.Extra, e.WeightTolerance = e.UnitWeight*c.weight, slices.Clone(e.Extra), loads.PlusMinus(0)
	for i := range e.Extra {
		e.Extra[i].Weight *= c.weight
	}
	s := f.last
	s.Dynamic, s.Supports, s.Actions = loads.AtRest(), slices.Clone(s.Supports), nil
	for i, a := range f.actions {
		if c.actions[i] == 0 {
			continue
		}
		a.Least, a.Most = 1, 1
		a.Loads = loads.Set{}
		for _, p := range f.actions[i].Loads.Points {
			p.Force *= c.actions[i]
			a.Loads.Points = append(a.Loads.Points, p)
		}
		for _, l := range f.actions[i].Loads.Lines {
			for k := range l.Intensity {
				l.Intensity[k] *= c.actions[i]
			}
			a.Loads.Lines = append(a.Loads.Lines, l)
		}
		s.Actions = append(s.Actions, a)
	}
	if f.level > 0 {
		s.OutOfLevel = 1e-12 // must be stated
		for i, level := range c.levels {
			s.Supports[i].Level += level
		}
	}
	fixed := limits.Factors{PrestressLeast: c.prestress, PrestressMost: c.prestress}
	standard := &withFactors{fixed, fixed, false}
	a, err := append(slices.Clone(f.before), last{s}).Analyse(e, standard)
	require.NoError(t, err)
	standard.checked = true
	return a
}

// corners are all of the ranges of a limit's factors: of weight with tolerance and
// dynamic factor, of prestress, of the level, of each action. Without moving, only
// what is at rest counts.
func (f trial) corners(factors limits.Factors, moving bool) []corner {
	factors = factors.Filled()
	low, high := f.tolerance[0]*factors.WeightLeast, f.tolerance[1]*factors.WeightMost
	if least, most, _ := f.last.Dynamic.Range(); moving {
		low, high = low*least, high*most
	}
	list := []corner{{}}
	with := func(values []float64, set func(*corner, float64)) {
		slices.Sort(values)
		values = slices.Compact(values)
		var next []corner
		for _, c := range list {
			for _, v := range values {
				d := c
				d.actions = slices.Clone(c.actions)
				set(&d, v)
				next = append(next, d)
			}
		}
		list = next
	}
	with([]float64{low, high}, func(c *corner, v float64) { c.weight = v })
	r := []float64{1}
	if len(f.element.Tendons) > 0 {
		r = []float64{factors.PrestressLeast, factors.PrestressMost}
	}
	with(r, func(c *corner, v float64) { c.prestress = v })
	if len(f.patterns) > 0 {
		number := make([]float64, len(f.patterns))
		for i := range number {
			number[i] = float64(i)
		}
		with(number, func(c *corner, v float64) { c.levels = f.patterns[int(v)] })
	}
	for _, a := range f.actions {
		least, most := a.Least, a.Most
		if most == 0 {
			most = 1
		}
		helps, harms := factors.On(limits.Equipment)
		switch {
		case !moving && least <= 0:
			least, most = 0, 0
		case least > 0: // always there: its own size helps
			helps = 1
		}
		values := []float64{least * helps, least * harms, most * helps, most * harms}
		with([]float64{slices.Min(values), slices.Max(values)}, func(c *corner, v float64) { c.actions = append(c.actions, v) })
	}
	return list
}

// reactions are static, characteristic and ultimate ones and shares of each support.
func (f trial) reactions(t *testing.T, a *stages.Analysis) [][4]stages.Range {
	s, err := a.Effects(len(f.before)+1, 1)
	require.NoError(t, err)
	var list [][4]stages.Range
	for _, p := range s.Reactions {
		share := stages.Range{}
		if p.Share != nil {
			share = *p.Share
		}
		list = append(list, [4]stages.Range{p.Static, p.Characteristic, p.Ultimate, share})
	}
	return list
}

// stresses are the largest compression and tension.
func (f trial) stresses(t *testing.T, a *stages.Analysis) map[limits.Kind]float64 {
	r, err := a.Record()
	require.NoError(t, err)
	s := r.Stages[len(r.Stages)-1].Situations[0]
	return map[limits.Kind]float64{limits.Compression: check(t, s, limits.Compression).Demand.Value, limits.Tension: check(t, s, limits.Tension).Demand.Value}
}

// random is a plan: an element without symmetry stressed and stored, then on three
// supports, on two pairs of which one is linked, in slings, or on four elastic pads
// out of level.
func random(t *testing.T, r *rand.Rand, kind int, standard withFactors) trial {
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	f := trial{standard: standard, tolerance: [2]float64{1 - in(0.01, 0.05), 1 + in(0.01, 0.05)}}
	outline := func() section.Shape {
		foot, web, top, depth := in(0.2, 0.45), in(0.12, 0.2), in(0.7, 0.9), in(1.3, 1.48)
		s, err := section.New([]section.Outline{{
			{Y: -0.5}, {Y: foot}, {Y: foot, Z: in(0.2, 0.3)}, {Y: web, Z: in(0.33, 0.4)}, {Y: web, Z: depth - in(0.3, 0.35)}, {Y: top, Z: depth - in(0.15, 0.2)}, {Y: top, Z: depth}, {Y: -0.5, Z: depth},
		}}, nil)
		require.NoError(t, err)
		return s
	}
	var along section.Along = outline()
	if kind < 4 { // the torsion of a constant one is kept between runs
		var err error
		along, err = section.Taper{Left: along.At(0), Right: outline(), To: 20}.Along()
		require.NoError(t, err)
	}
	f.element = stages.Element{Mark: "R", Length: 20, UnitWeight: 22e3, Section: along, Concrete: concrete.EN1992{Fck: 45e6, Cement: concrete.ClassR}}
	for i := range r.IntN(4) {
		from := in(0, 18)
		f.element.Extra = append(f.element.Extra, stages.ExtraWeight{Mark: fmt.Sprint("w", i), From: from, To: from + in(0, 20-from)*float64(r.IntN(2)), Weight: in(5e3, 40e3), Y: in(-0.4, 0.4), Z: in(0, 1)})
	}
	first := stages.Store{Age: 5, On: standsOn(r)}
	f.before = stages.Plan{first}
	var steps []tendon.Jacking
	for i := range r.IntN(4) {
		line := func(low, high float64) tendon.Curve {
			return tendon.Curve{tendon.Straight(tendon.Point{X: 0, Ordinate: in(low, high)}, tendon.Point{X: 20, Ordinate: in(low, high)})}
		}
		z := []float64{0.1, 0.5, 0.8}[i]
		mark := fmt.Sprint("T", i)
		f.element.Tendons = append(f.element.Tendons, tendon.Tendon{
			Mark: mark, Strand: tendon.Y1860S7x157, Strands: 2 + r.IntN(4), Duct: 0.06, Elevation: line(z, z+0.1), Plan: line(-0.4, 0), Friction: 0.2, Wobble: 0.005,
			Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.1, EdgeDistance: 0.05},
		})
		steps = append(steps, tendon.Jacking{Tendons: []string{mark}, Stress: in(900e6, 1400e6), Ends: tendon.LeftEnd, DrawIn: 0.004})
	}
	if len(steps) > 0 {
		f.before = append(f.before, stages.Stress{Age: 5, Jacking: steps})
	}
	f.last = stages.Situation{Name: "last", Age: 6, Standing: true, Phase: limits.Storing, Supports: pads(standsOn(r))}
	f.actions = f.acts(in, r, 1+r.IntN(2))
	switch kind {
	case 1, 2: // paired, or hung
		f.last.Supports = bracketed([]stages.Support{{X: in(1, 4), Y: -0.5}, {X: in(1, 4), Y: 0.4}, {X: 16, Y: -0.3, Group: "pair"}, {X: in(16, 18), Y: 0.3, Group: "pair"}})
		if kind == 2 {
			f.last.Standing, f.last.Phase, f.last.Dynamic = false, limits.Lifting, loads.Dynamic{Least: 0.85, Most: 1.2}
			for i := range f.last.Supports {
				f.last.Supports[i].Role, f.last.Supports[i].Z = stages.LiftPoint, 1.9
			}
			// The plan ends with the lift: what it stands on before carries the same section.
		}
	case 3, 4: // soft enough to touch, or so stiff that the level lifts one
		f.level, f.actions = 0.002, f.actions[:1]
		k := in(5e6, 10e6)
		if kind == 4 {
			f.level, k = 0.015, in(20e6, 60e6)
		}
		f.last.Supports = bracketed(stages.Elastic(k, stages.Support{X: 2, Y: -0.45}, stages.Support{X: 2, Y: 0.5}, stages.Support{X: 17.5, Y: -0.5}, stages.Support{X: 17.5, Y: 0.4}))
		for i := range 4 { // any one against the plane of the others
			for _, level := range []float64{f.level, -f.level} {
				one := make([]float64, 4)
				one[i] = level
				f.patterns = append(f.patterns, one)
			}
		}
	case 5: // six, each off by a quarter
		f.level, f.actions = 0.002, nil
		f.last.Supports = bracketed(stages.Elastic(in(5e6, 10e6), stages.Pads(0.5, 2, 9.5, 17.5)...))
		for k := range 64 {
			one := make([]float64, 6)
			for i := range one {
				one[i] = f.level / 4 * float64(2*(k>>i&1)-1)
			}
			f.patterns = append(f.patterns, one)
		}
	}
	return f
}

// acts are random actions: down, across, in every kind of presence.
func (f trial) acts(in func(a, b float64) float64, r *rand.Rand, number int) []stages.Action {
	presence := [][2]float64{{0, 0}, {-1, 1}, {1, 1}, {0.5, 1.2}}
	var list []stages.Action
	for i := range number {
		of := presence[r.IntN(len(presence))]
		a := stages.Action{Mark: fmt.Sprint("a", i), Least: of[0], Most: of[1], Y: in(-0.3, 0.3), Z: in(0.2, 1)}
		if r.IntN(3) == 0 {
			a.Direction = stages.Transverse
		}
		a.Loads = loads.Set{Points: []loads.Point{{At: in(0, 20), Force: in(3e3, 15e3)}}}
		if r.IntN(2) == 0 {
			a.Loads = loads.Set{Lines: []loads.Line{loads.Uniform(in(0, 5), in(6, 20), in(0.3e3, 1.5e3))}}
		}
		list = append(list, a)
	}
	return list
}

// The extremes of the engine are those of all corners of all factors, each a run of
// its own with fixed factors: with contact and without, in every way of standing.
func TestExtremesAreThoseOfAllCorners(t *testing.T) {
	unequal := withFactors{
		stress:   limits.Factors{WeightLeast: 0.95, WeightMost: 1.1, PrestressLeast: 0.9, PrestressMost: 1.1, VariableMost: 1.2},
		strength: limits.Factors{WeightLeast: 0.9, WeightMost: 1.35, PrestressLeast: 0.85, PrestressMost: 1.2, VariableMost: 1.5},
	}
	r := rand.New(rand.NewPCG(3, 5))
	trials := bruteTrials
	if underRace {
		trials = 6
	}
	for n := range trials {
		kind := n % 6
		f := random(t, r, kind, []withFactors{unequal, {}}[n/6%2])
		t.Run(fmt.Sprintf("%d, kind %d", n, kind), func(t *testing.T) {
			f.compareReactions(t)
			f.compareStresses(t)
		})
	}
}

const bruteTrials = 12

func (f trial) compareReactions(t *testing.T) {
	got := f.reactions(t, f.analyse(t))
	total := 0.0
	for _, p := range got {
		total += math.Abs(p[0].Most)
	}
	none := stages.Range{Least: math.Inf(1), Most: math.Inf(-1)}
	want := make([][4]stages.Range, len(got))
	for i := range want {
		want[i] = [4]stages.Range{none, none, none, none}
	}
	for family, of := range []struct {
		factors limits.Factors
		moving  bool
		ranges  []int
	}{{limits.Factors{}, false, []int{0, 3}}, {limits.Factors{}, true, []int{1}}, {f.standard.strength, true, []int{2}}} {
		if len(f.patterns) > 2 && family != 1 {
			continue // many corners, no actions: once is enough
		}
		for _, c := range f.corners(of.factors, of.moving) {
			for i, p := range f.reactions(t, f.at(t, c)) {
				for _, k := range of.ranges {
					want[i][k].Least, want[i][k].Most = math.Min(want[i][k].Least, p[k].Least), math.Max(want[i][k].Most, p[k].Most)
				}
			}
		}
	}
	for i, p := range got {
		for k, name := range []string{"static", "characteristic", "ultimate", "share"} {
			scale := total
			if k == 3 {
				scale = 1
			}
			if want[i][k] == none {
				continue
			}
			// 1e-6: an edge where contact changes is found to 1e-9 of its length
			require.InDelta(t, want[i][k].Least, p[k].Least, 1e-6*scale, "least %s, support %d", name, i+1)
			require.InDelta(t, want[i][k].Most, p[k].Most, 1e-6*scale, "most %s, support %d", name, i+1)
		}
	}
}

func (f trial) compareStresses(t *testing.T) {
	if len(f.patterns) > 2 {
		return
	}
	got := f.stresses(t, f.analyse(t))
	want := map[limits.Kind]float64{limits.Compression: math.Inf(-1), limits.Tension: math.Inf(-1)}
	for _, c := range f.corners(f.standard.stress, true) {
		a := f.at(t, c)
		for kind, value := range f.stresses(t, a) {
			want[kind] = math.Max(want[kind], value)
		}
		if c.prestress == 1 && f.level < 0.01 {
			f.scan(t, a, got)
		}
	}
	for kind, value := range want {
		require.InDelta(t, value, got[kind], 1e-6*math.Max(math.Abs(value), 1e6), kind)
	}
}

// scan looks at every corner of the outline on a fine grid of x: no stress is beyond
// the extremes. Inside the anchorage zones those are further out.
func (f trial) scan(t *testing.T, a *stages.Analysis, extremes map[limits.Kind]float64) {
	s, err := a.Effects(len(f.before)+1, 1)
	require.NoError(t, err)
	for i := range 80 {
		x := 20 * (float64(i) + 0.5) / 80
		plane := s.Stress(x)
		for _, p := range f.element.Section.At(x).Corners() {
			v := plane.At(p)
			require.LessOrEqual(t, v, extremes[limits.Tension]+1, "x = %g m", x)
			require.GreaterOrEqual(t, v, -extremes[limits.Compression]-1, "x = %g m", x)
		}
	}
}

// Inside the ranges of the factors nothing is beyond the extremes either, whichever
// supports touch there.
func TestNothingBetweenTheCornersIsBeyond(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 13))
	for n := range insideTrials {
		f := random(t, r, 4, withFactors{})
		f.actions = f.acts(func(a, b float64) float64 { return a + (b-a)*r.Float64() }, r, 2)
		got := f.reactions(t, f.analyse(t))
		list := f.corners(limits.Factors{}, true)
		low, high := list[0], list[len(list)-1]
		for range 12 {
			c := corner{prestress: 1, weight: low.weight + (high.weight-low.weight)*r.Float64(), levels: []float64{f.level * (2*r.Float64() - 1)}}
			for i := range low.actions {
				c.actions = append(c.actions, low.actions[i]+(high.actions[i]-low.actions[i])*r.Float64())
			}
			for i, p := range f.reactions(t, f.at(t, c)) {
				require.GreaterOrEqual(t, p[1].Least, got[i][1].Least-1, "trial %d, support %d", n, i+1)
				require.LessOrEqual(t, p[1].Most, got[i][1].Most+1, "trial %d, support %d", n, i+1)
			}
		}
	}
}

const insideTrials = 6
