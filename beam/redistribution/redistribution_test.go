package redistribution_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/concrete"
)

var deck = concrete.EN1992{Fck: 45e6, Cement: concrete.ClassN, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.6}}

// scaled is a concrete with so many times the creep.
type scaled struct {
	concrete.EN1992
	factor float64
}

func (s scaled) Creep(age, loaded float64) (float64, error) {
	phi, err := s.EN1992.Creep(age, loaded)
	return s.factor * phi, err
}

// Two cantilevers are closed at mid-span; creep moves moment to the middle.
func ExampleChange_Stepwise() {
	c := redistribution.Change{Concrete: deck, Loaded: 28, Changed: 365, Until: 36500}
	s, err := c.Stepwise(100)
	if err != nil {
		fmt.Println(err)
		return
	}
	least, most := s.Bounds(0, 9000)
	fmt.Printf("mid-span %.0f kN·m of 9000, between %.0f and %.0f\n", s.Of(0, 9000), least, most)
	// Output: mid-span 2564 kN·m of 9000, between 2033 and 2982
}

// The ageing form beside it; one coefficient in both places would give 0.49.
func ExampleChange_Aged() {
	c := redistribution.Change{Concrete: deck, Loaded: 28, Changed: 365, Until: 36500}
	s, err := c.Aged(true)
	fmt.Printf("share %.3f, capped %v: %s, %v\n", s.Value, s.Capped, s.Derivation[0].Expression, err)
	// Output: share 0.296, capped false: min(1, r_E*(φ_t_t0 - φ_tc_t0)/(1 + χ*φ_t_tc)), <nil>
}

func TestNoCreepNoRedistribution(t *testing.T) {
	c := redistribution.Change{Concrete: scaled{deck, 0}, Loaded: 7, Changed: 28, Until: 36500}
	s, err := c.Stepwise(50)
	require.NoError(t, err)
	require.Zero(t, s.Value)
	for _, modulus := range []bool{true, false} {
		s, err = c.Aged(modulus)
		require.NoError(t, err)
		require.Zero(t, s.Value)
	}
	c.Concrete, c.Until = deck, c.Changed
	s, err = c.Stepwise(50)
	require.NoError(t, err)
	require.Zero(t, s.Value)
}

// Loaded just before the change, a beam that creeps without end becomes the
// monolithic one; the share grows with creep on the way.
func TestEndlessCreepIsMonolithic(t *testing.T) {
	last := 0.0
	for _, factor := range []float64{0.3, 1, 3, 10, 1e4} {
		c := redistribution.Change{Concrete: scaled{deck, factor}, Loaded: 28, Changed: 28, Until: 36500}
		s, err := c.Stepwise(400)
		require.NoError(t, err)
		require.Greater(t, s.Value, last)
		require.LessOrEqual(t, s.Value, 1+1e-3)
		require.LessOrEqual(t, s.Low, s.Value+1e-5, "all three are 1 within the steps' error")
		require.GreaterOrEqual(t, s.High, s.Value-1e-5)
		last = s.Value
	}
	require.InDelta(t, 1, last, 1e-3, "the first step of a hundredth of a day")
}

func TestStepsConverge(t *testing.T) {
	for _, model := range []concrete.TimeModel{
		deck, concrete.FIB2010{Fck: 45e6, Cement: concrete.ClassN, Exposure: deck.Exposure},
		concrete.AASHTO{Strength: 45e6, Cement: concrete.TypeI, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3}},
	} {
		c := redistribution.Change{Concrete: model, Loaded: 7, Changed: 60, Until: 36500}
		coarse, err := c.Stepwise(100)
		require.NoError(t, err)
		fine, err := c.Stepwise(800)
		require.NoError(t, err)
		require.InEpsilon(t, fine.Value, coarse.Value, 0.003)
		aged, err := c.Aged(true)
		require.NoError(t, err)
		require.InEpsilon(t, fine.Value, aged.Value, 0.1, "the ageing form is near the reference")
		value, err := aged.Derivation[0].Recompute()
		require.NoError(t, err)
		require.InDelta(t, aged.Value, value, 1e-12)
	}
}

func TestAgedIsCapped(t *testing.T) {
	c := redistribution.Change{Concrete: scaled{deck, 30}, Loaded: 28, Changed: 29, Until: 36500}
	s, err := c.Aged(true)
	require.NoError(t, err)
	require.True(t, s.Capped)
	require.Equal(t, 1.0, s.Value)
	require.Greater(t, s.Uncapped, 1.0)
	require.InDelta(t, 42, s.Of(10, 42), 1e-12)
}

func TestStepwiseIsCapped(t *testing.T) {
	c := redistribution.Change{Concrete: concrete.EN1992{Fck: 30e6, Cement: concrete.ClassS, Exposure: concrete.Exposure{Humidity: 0.5, NotionalSize: 0.8}},
		Loaded: 3, Changed: 7, Until: 36500}
	s, err := c.Stepwise(100)
	require.NoError(t, err)
	require.True(t, s.Capped)
	require.InDelta(t, 1.155, s.Uncapped, 5e-4)
	require.Equal(t, 1.0, s.Value)
	require.LessOrEqual(t, s.Low, 1.0)
	require.Equal(t, 1.0, s.High)
}

// A closure poured after the cantilevers carry their weight bears none of it
// before the change, and redistribution is near that of a closed joint.
func TestStagedWithAClosurePour(t *testing.T) {
	final, _, _ := closure(t)
	open := final
	open.Hinges = []float64{49, 51}
	b, err := beam.New(open)
	require.NoError(t, err)
	load := []loads.Line{loads.Uniform(0, 49, 1), loads.Uniform(51, 100, 1)}
	before, err := b.Solve(loads.Set{Lines: load})
	require.NoError(t, err)
	staged := redistribution.Staged{Final: final, Before: []redistribution.Body{{Response: before}}, Loaded: 60, Changed: 100, Until: 5000, Parts: []redistribution.Part{
		{To: 49, Concrete: deck, Inertia: 3}, {To: 51, Concrete: deck, Cast: 90, Inertia: 3}, {Concrete: deck, Inertia: 3}}}
	moved, err := staged.March(60)
	require.NoError(t, err)
	staged.Parts[1].Cast = 59
	older, err := staged.March(60)
	require.NoError(t, err)
	require.Positive(t, moved.Moment(50))
	require.InEpsilon(t, older.Moment(50), moved.Moment(50), 0.05, "two of a hundred metres are younger")
	require.InEpsilon(t, moved.Restraint(25), moved.Restraint(75), 1e-9)
	staged.Parts[0].Cast = 80
	_, err = staged.March(60)
	require.ErrorIs(t, err, redistribution.ErrRedistribution)
	require.ErrorContains(t, err, "Parts[0].Cast = 80 d: must be before the load, 60 d, as a Body has up to 1200 N·m there")
}

// Prestress stressed in the old system redistributes like weight, towards its
// own monolithic state: with the opposite sign.
func TestPrestressRedistributesToo(t *testing.T) {
	s, err := redistribution.Change{Concrete: deck, Loaded: 28, Changed: 365, Until: 36500}.Stepwise(100)
	require.NoError(t, err)
	weight, prestress := s.Of(0, 9000), s.Of(0, -6000)
	require.InEpsilon(t, s.Of(0, 3000), weight+prestress, 1e-12, "shares of one age add up")
	least, most := s.Bounds(0, -6000)
	require.Less(t, least, prestress)
	require.Greater(t, most, prestress)
}

func TestChangeRefuses(t *testing.T) {
	good := redistribution.Change{Concrete: deck, Loaded: 28, Changed: 365, Until: 36500}
	for words, change := range map[string]func(*redistribution.Change){
		"Concrete is missing":      func(c *redistribution.Change) { c.Concrete = nil },
		"Loaded = 0 d":             func(c *redistribution.Change) { c.Loaded = 0 },
		"Changed = 7 d: must be f": func(c *redistribution.Change) { c.Changed = 7 },
		"Until = NaN d":            func(c *redistribution.Change) { c.Until = math.NaN() },
		"Ageing = 3":               func(c *redistribution.Change) { c.Ageing = 3 },
	} {
		c := good
		change(&c)
		_, err := c.Stepwise(10)
		require.ErrorIs(t, err, redistribution.ErrRedistribution)
		require.ErrorContains(t, err, words)
		_, err = c.Aged(false)
		require.ErrorContains(t, err, words)
	}
	_, err := good.Stepwise(0)
	require.ErrorContains(t, err, "steps = 0")
	good.Concrete = concrete.EN1992{Fck: 45e6, Cement: concrete.ClassN}
	_, err = good.Stepwise(10)
	require.ErrorIs(t, err, concrete.ErrConcrete)
	_, err = good.Aged(true)
	require.ErrorIs(t, err, concrete.ErrConcrete)
}

func FuzzChange(f *testing.F) {
	f.Add(28.0, 365.0, 36500.0, 0.8, 0.7, 0.6, 45e6, 20)
	f.Fuzz(func(t *testing.T, loaded, changed, until, ageing, humidity, size, fck float64, steps int) {
		c := redistribution.Change{Loaded: loaded, Changed: changed, Until: until, Ageing: ageing, Concrete: concrete.EN1992{
			Fck: fck, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: humidity, NotionalSize: size}}}
		s, err := c.Stepwise(min(steps, 40))
		if err == nil {
			require.False(t, math.IsNaN(s.Value) || math.IsInf(s.Value, 0) || s.Value < -1e-9)
		}
		s, err = c.Aged(true)
		if err == nil {
			require.True(t, s.Value >= 0 && s.Value <= 1)
		}
	})
}

// closure is two cantilevers of 50 m under 1 N/m before and after they are closed.
func closure(t testing.TB) (final beam.Layout, before, monolithic *beam.Response) {
	t.Helper()
	final = beam.Layout{Length: 100, Stiffness: []beam.Stretch{{BendingStiffness: 1}}, Supports: []beam.Support{{Fixed: true}, {At: 100, Fixed: true}}}
	open := final
	open.Hinges = []float64{50}
	load := loads.Set{Lines: []loads.Line{loads.Uniform(0, 100, 1)}}
	responses := [2]*beam.Response{}
	for i, layout := range []beam.Layout{open, final} {
		b, err := beam.New(layout)
		require.NoError(t, err)
		responses[i], err = b.Solve(load)
		require.NoError(t, err)
	}
	return final, responses[0], responses[1]
}

func TestStagedOfOneAgeIsTheShare(t *testing.T) {
	final, before, monolithic := closure(t)
	share, err := redistribution.Change{Concrete: deck, Loaded: 28, Changed: 90, Until: 20000}.Stepwise(60)
	require.NoError(t, err)
	staged := redistribution.Staged{Final: final, Before: []redistribution.Body{{Response: before}}, Loaded: 128, Changed: 190, Until: 20100,
		Parts: []redistribution.Part{{To: 30, Concrete: deck, Cast: 100, Inertia: 3}, {Concrete: deck, Cast: 100, Inertia: 3}}}
	moved, err := staged.March(60)
	require.NoError(t, err)
	for x := 0.0; x <= 100; x += 6.25 {
		require.InDelta(t, share.Of(before.Moment(x), monolithic.Moment(x)), moved.Moment(x), 1e-6, "x = %g", x)
	}
	require.InDelta(t, 0, moved.Reactions[0].Force, 1e-9, "a symmetric span moves no shear")
	require.Zero(t, moved.Moment(-1))
	require.Zero(t, moved.Restraint(math.NaN()))
}

// One step on two cantilevers of different ages, by hand: moment X and shear Y
// at the closure make the two rotations and deflections there agree.
func TestStagedOfTwoAgesByHand(t *testing.T) {
	final, before, _ := closure(t)
	staged := redistribution.Staged{Final: final, Before: []redistribution.Body{{Response: before}}, Loaded: 60, Changed: 100, Until: 5000,
		Parts: []redistribution.Part{{To: 50, Concrete: deck, Cast: 0, Inertia: 3}, {Concrete: deck, Cast: 50, Inertia: 2}}}
	moved, err := staged.March(1)
	require.NoError(t, err)
	var a [2][2]float64
	var b [2]float64
	for _, side := range []struct{ cast, inertia, sign float64 }{{0, 3, 1}, {50, 2, -1}} {
		middle := (100.0 + 5000) / 2
		j, err := compliance(5000-side.cast, middle-side.cast)
		require.NoError(t, err)
		modulus, err := deck.CreepModulus(60 - side.cast)
		require.NoError(t, err)
		late, err := deck.Creep(5000-side.cast, 60-side.cast)
		require.NoError(t, err)
		soon, err := deck.Creep(100-side.cast, 60-side.cast)
		require.NoError(t, err)
		free := (late - soon) / modulus
		const n = 20000
		for i := range n {
			s := 50 * (float64(i) + 0.5) / n // from the closure
			m := [2]float64{1, side.sign * s}
			old := -s * s / 2
			for p := range 2 {
				b[p] -= old * free * m[p] / side.inertia * 50 / n
				for q := range 2 {
					a[p][q] += m[p] * m[q] * j / side.inertia * 50 / n
				}
			}
		}
	}
	det := a[0][0]*a[1][1] - a[0][1]*a[1][0]
	x := (b[0]*a[1][1] - b[1]*a[0][1]) / det
	y := (b[1]*a[0][0] - b[0]*a[1][0]) / det
	require.InEpsilon(t, x, moved.Restraint(50), 1e-6)
	require.InEpsilon(t, x+50*y, moved.Restraint(0), 1e-6)
	require.InEpsilon(t, x-50*y, moved.Restraint(100), 1e-6)
	require.InDelta(t, 0, moved.Reactions[0].Force+moved.Reactions[1].Force, 1e-9)
	require.NotZero(t, y, "the younger side creeps more")
}

func compliance(age, loaded float64) (float64, error) {
	return concrete.Compliance(deck, age, loaded)
}

func ExampleStaged_March() {
	layout := beam.Layout{Length: 100, Stiffness: []beam.Stretch{{BendingStiffness: 1}}, Hinges: []float64{50},
		Supports: []beam.Support{{Fixed: true}, {At: 100, Fixed: true}}}
	open, err := beam.New(layout)
	if err != nil {
		fmt.Println(err)
		return
	}
	before, _ := open.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, 100, 200e3)}})
	layout.Hinges = nil
	moved, err := redistribution.Staged{
		Final: layout, Before: []redistribution.Body{{Response: before}}, Loaded: 90, Changed: 120, Until: 36500,
		Parts: []redistribution.Part{{To: 50, Concrete: deck, Cast: 0, Inertia: 12}, {Concrete: deck, Cast: 60, Inertia: 12}},
	}.March(60)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("old pier %.0f, closure %.0f, young pier %.0f MN·m\n", moved.Moment(0)/1e6, moved.Moment(50)/1e6, moved.Moment(100)/1e6)
	// Output: old pier -222, closure 36, young pier -206 MN·m
}

func TestStagedRefuses(t *testing.T) {
	final, before, _ := closure(t)
	good := redistribution.Staged{Final: final, Before: []redistribution.Body{{Response: before}}, Loaded: 60, Changed: 100, Until: 5000,
		Parts: []redistribution.Part{{Concrete: deck, Inertia: 3}}}
	for words, change := range map[string]func(*redistribution.Staged){
		"Before is empty": func(s *redistribution.Staged) { s.Before = nil },
		"Before[0] from x = 0 to 100 m: must be after 0 m, in the final beam of 90 m": func(s *redistribution.Staged) { s.Final.Length = 90 },
		"Parts is empty":               func(s *redistribution.Staged) { s.Parts = nil },
		"must be in this order":        func(s *redistribution.Staged) { s.Until = 80 },
		"Parts[0].Concrete is missing": func(s *redistribution.Staged) { s.Parts = []redistribution.Part{{Inertia: 3}} },
		"Parts[0].To = 120 m":          func(s *redistribution.Staged) { s.Parts = []redistribution.Part{{To: 120, Concrete: deck, Inertia: 3}} },
		"Parts end at 40 m":            func(s *redistribution.Staged) { s.Parts = []redistribution.Part{{To: 40, Concrete: deck, Inertia: 3}} },
		"Parts[0].Inertia = NaN m⁴":    func(s *redistribution.Staged) { s.Parts = []redistribution.Part{{Concrete: deck, Inertia: math.NaN()}} },
		"Parts[0].Cast = 60 d: must b": func(s *redistribution.Staged) {
			s.Parts = []redistribution.Part{{Concrete: deck, Inertia: 3, Cast: 60}}
		},
		"Parts[0].Cast = 100 d: must be from −1e6 d to before the change": func(s *redistribution.Staged) {
			s.Parts = []redistribution.Part{{Concrete: deck, Inertia: 3, Cast: 100}}
		},
		"Loaded = -2e+06 d": func(s *redistribution.Staged) { s.Loaded = -2e6 },
		"Until = 2e+06 d":   func(s *redistribution.Staged) { s.Loaded, s.Changed, s.Until = 1.9e6, 1.9e6, 2e6 },
		"Parts[0].Cast = NaN": func(s *redistribution.Staged) {
			s.Parts = []redistribution.Part{{Concrete: deck, Inertia: 3, Cast: math.NaN()}}
		},
		"can lift off": func(s *redistribution.Staged) {
			s.Final.Supports = []beam.Support{{Contact: true}, {At: 100}}
		},
	} {
		s := good
		change(&s)
		_, err := s.March(5)
		require.ErrorIs(t, err, redistribution.ErrRedistribution, words)
		require.ErrorContains(t, err, words)
	}
	_, err := good.March(0)
	require.ErrorContains(t, err, "steps = 0")
	good.Final.Supports = good.Final.Supports[:1]
	good.Final.Supports = []beam.Support{{At: 0}}
	_, err = good.March(5)
	require.ErrorIs(t, err, beam.ErrBeam)
}

func BenchmarkStepwise100(b *testing.B) {
	c := redistribution.Change{Concrete: deck, Loaded: 28, Changed: 365, Until: 36500}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Stepwise(100); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMarch60(b *testing.B) {
	final, before, _ := closure(b)
	s := redistribution.Staged{Final: final, Before: []redistribution.Body{{Response: before}}, Loaded: 60, Changed: 100, Until: 36500,
		Parts: []redistribution.Part{{To: 50, Concrete: deck, Cast: 0, Inertia: 3}, {Concrete: deck, Cast: 50, Inertia: 2}}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.March(60); err != nil {
			b.Fatal(err)
		}
	}
}
