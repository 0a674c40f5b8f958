package beam_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// Overhang 6 m on a main span of 10 m: the end support would pull, lets go,
// and the beam rests on the two others.
func TestPullingSupportLetsGo(t *testing.T) {
	layout := plain(26, beam.Support{At: 0, Contact: true}, beam.Support{At: 10, Contact: true}, beam.Support{At: 20, Contact: true})
	r := solved(t, layout, loads.Set{Points: []loads.Point{{At: 15, Force: 100e3}, {At: 26, Force: 20e3}}})
	require.Zero(t, r.Reactions[0].Force)
	require.InDelta(t, 100e3*.5-20e3*.6, r.Reactions[1].Force, 1e-3)
	require.InDelta(t, 100e3*.5+20e3*1.6, r.Reactions[2].Force, 1e-3)
	require.InDelta(t, r.Deflection(0), r.Reactions[0].Lift, 1e-12)
	require.Greater(t, r.Reactions[0].Lift, 0.0)
	require.Zero(t, r.Reactions[1].Lift)
	require.InDelta(t, 0, r.Moment(5), 1e-3)
}

func TestNothingHoldsTheBeamDown(t *testing.T) {
	layout := plain(20, beam.Support{At: 5, Contact: true}, beam.Support{At: 15, Contact: true})
	b, err := beam.New(layout)
	require.NoError(t, err)
	for name, set := range map[string]loads.Set{
		"tips over the left support":  {Points: []loads.Point{{At: 4, Force: 1e3}}},
		"tips over the right support": {Points: []loads.Point{{At: 20, Force: 1e3}}},
		"is lifted off":               {Points: []loads.Point{{At: 10, Force: -1e3}}},
		"is turned by a couple":       {Couples: []loads.Couple{{At: 10, Moment: 1e3}}},
	} {
		_, err := b.Solve(set)
		require.ErrorIs(t, err, beam.ErrBeam, name)
		require.ErrorContains(t, err, "can only push", name)
	}
	r, err := b.Solve(loads.Set{})
	require.NoError(t, err)
	require.Zero(t, r.Reactions[0].Force)
}

// A couple larger than what the weight can hold tips, a smaller one does not.
func TestTippingLimit(t *testing.T) {
	b, err := beam.New(plain(10, beam.Support{At: 0, Contact: true}, beam.Support{At: 10, Contact: true}))
	require.NoError(t, err)
	weight := loads.Set{Lines: []loads.Line{loads.Uniform(0, 10, 1e3)}}
	_, err = b.Solve(weight.And(loads.Set{Couples: []loads.Couple{{At: 3, Moment: 49.9e3}}}))
	require.NoError(t, err)
	_, err = b.Solve(weight.And(loads.Set{Couples: []loads.Couple{{At: 3, Moment: 50.1e3}}}))
	require.ErrorIs(t, err, beam.ErrBeam)
}

// onPads is a random beam on pads that can lift off, some elastic, some set
// low, under downward loads between the outer ones.
func (s source) onPads() (beam.Layout, loads.Set) {
	n := 3 + s.IntN(5)
	layout := plain(0)
	x := s.in(0, 3)
	for range n {
		pad := beam.Support{At: x, Contact: true, Settlement: s.in(-.01, .01)}
		if s.IntN(2) == 0 {
			pad.Stiffness = s.in(1e7, 1e9)
		}
		layout.Supports = append(layout.Supports, pad)
		x += s.in(3, 9)
	}
	layout.Length = layout.Supports[n-1].At + s.in(0, 3)
	first, last := layout.Supports[0].At, layout.Supports[n-1].At
	set := loads.Set{
		Lines: []loads.Line{loads.Uniform(first, last, s.in(1e3, 3e4))},
		Points: []loads.Point{{At: s.in(first, last), Force: s.in(0, 3e5)}, {At: s.in(first, last), Force: s.in(0, 3e5)},
			{At: layout.Length, Force: s.in(0, 1e3)}},
	}
	return layout, set
}

// The solution has no pull and no closed gap that carries nothing, and is the
// one that follows when just the pads that stay are built. Every other choice
// of pads pulls somewhere or lets the beam through a pad.
func TestContactsAgainstEveryChoiceOfPads(t *testing.T) {
	for seed := range uint64(60) {
		s := seeded(seed)
		layout, set := s.onPads()
		r := solved(t, layout, set)
		answers := 0
		for choice := 1; choice < 1<<len(layout.Supports); choice++ {
			if holds(t, layout, set, choice) {
				answers++
				require.Equal(t, choice, closed(r), "seed %d", seed)
			}
		}
		require.Equal(t, 1, answers, "seed %d", seed)
		some := layout
		some.Supports = nil
		for i, reaction := range r.Reactions {
			require.GreaterOrEqual(t, reaction.Force, 0.0)
			if reaction.Lift == 0 {
				pad := layout.Supports[i]
				pad.Contact = false
				some.Supports = append(some.Supports, pad)
			}
		}
		same(t, solved(t, some, set), r, 1)
	}
}

// closed is the pads that carry, as bits.
func closed(r *beam.Response) int {
	bits := 0
	for i, reaction := range r.Reactions {
		if reaction.Lift == 0 {
			bits |= 1 << i
		}
	}
	return bits
}

// holds says whether the beam on just the chosen pads, glued to them, neither
// pulls at one of them nor sinks below another.
func holds(t *testing.T, layout beam.Layout, set loads.Set, choice int) bool {
	t.Helper()
	some := layout
	some.Supports = nil
	for i, pad := range layout.Supports {
		if choice&(1<<i) != 0 {
			pad.Contact = false
			some.Supports = append(some.Supports, pad)
		}
	}
	b, err := beam.New(some)
	if err != nil {
		return false
	}
	r, err := b.Solve(set)
	require.NoError(t, err)
	for _, reaction := range r.Reactions {
		if reaction.Force < 0 {
			return false
		}
	}
	for i, pad := range layout.Supports {
		if choice&(1<<i) == 0 && r.Deflection(pad.At) < -pad.Settlement {
			return false
		}
	}
	return true
}

// Removing every pad that pulls in one pass goes wrong: with a load at one end
// the pads lift in a wave, and some that pull at first carry in the end.
func TestOnePassWouldBeWrong(t *testing.T) {
	found := false
	for seed := range uint64(200) {
		s := seeded(seed)
		layout, set := s.onPads()
		glued := layout
		glued.Supports = append([]beam.Support{}, layout.Supports...)
		for i := range glued.Supports {
			glued.Supports[i].Contact = false
		}
		pass := 0
		for i, reaction := range solved(t, glued, set).Reactions {
			if reaction.Force >= 0 {
				pass |= 1 << i
			}
		}
		found = found || pass != closed(solved(t, layout, set))
	}
	require.True(t, found)
}

func TestContactMayNotHoldTheRotation(t *testing.T) {
	_, err := beam.New(plain(10, beam.Support{At: 0, Contact: true, Fixed: true}))
	require.ErrorContains(t, err, "Supports[0].Contact")
}

// A stiff girder on three pads, the middle one 12 mm low: it spans from end to
// end and does not come down on the middle pad.
func ExampleSupport_contact() {
	girder, err := beam.New(beam.Layout{
		Length:    30,
		Stiffness: []beam.Stretch{{BendingStiffness: 6e10}},
		Supports: []beam.Support{
			{At: 1, Contact: true, Stiffness: 400e6},
			{At: 15, Contact: true, Stiffness: 400e6, Settlement: 12e-3},
			{At: 29, Contact: true, Stiffness: 400e6},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := girder.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, 30, 60e3)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, reaction := range r.Reactions {
		fmt.Printf("%4.1f m: %4.0f kN, gap %.1f mm\n", reaction.At, reaction.Force/1e3, reaction.Lift*1e3)
	}
	// Output:
	//  1.0 m:  900 kN, gap 0.0 mm
	// 15.0 m:    0 kN, gap 1.8 mm
	// 29.0 m:  900 kN, gap 0.0 mm
}

func TestManyPads(t *testing.T) {
	layout := plain(60)
	for i := range 41 {
		layout.Supports = append(layout.Supports, beam.Support{
			At: 1.5 * float64(i), Contact: true, Stiffness: 1e8, Settlement: .004 * math.Sin(float64(i)),
		})
	}
	r := solved(t, layout, loads.Set{Lines: []loads.Line{loads.Uniform(0, 60, 20e3)}})
	total, lifted := 0.0, 0
	for _, reaction := range r.Reactions {
		total += reaction.Force
		if reaction.Lift > 0 {
			lifted++
		}
	}
	require.InDelta(t, 1200e3, total, 1e-2)
	require.Greater(t, lifted, 5)
}
