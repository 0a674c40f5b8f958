package beam_test

import (
	"math"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

func plain(length float64, supports ...beam.Support) beam.Layout {
	return beam.Layout{Length: length, Stiffness: []beam.Stretch{{BendingStiffness: 1e10}}, Supports: supports}
}

func TestLayoutsThatCannotBeBuilt(t *testing.T) {
	two := []beam.Support{{At: 0}, {At: 10}}
	stiff := []beam.Stretch{{BendingStiffness: 1e10}}
	for name, c := range map[string]struct {
		layout beam.Layout
		says   string
	}{
		"zero value":         {beam.Layout{}, "Length = 0 m"},
		"NaN length":         {beam.Layout{Length: math.NaN(), Stiffness: stiff, Supports: two}, "Length = NaN m"},
		"infinite length":    {beam.Layout{Length: math.Inf(1), Stiffness: stiff, Supports: two}, "Length = +Inf m"},
		"negative length":    {beam.Layout{Length: -3, Stiffness: stiff, Supports: two}, "Length = -3 m"},
		"no stiffness":       {beam.Layout{Length: 10, Supports: two}, "Stiffness is empty"},
		"zero stiffness":     {beam.Layout{Length: 10, Stiffness: []beam.Stretch{{}}, Supports: two}, "BendingStiffness = 0 N·m²"},
		"negative stiffness": {beam.Layout{Length: 10, Stiffness: []beam.Stretch{{BendingStiffness: -1}}, Supports: two}, "BendingStiffness = -1"},
		"NaN stiffness":      {beam.Layout{Length: 10, Stiffness: []beam.Stretch{{BendingStiffness: math.NaN()}}, Supports: two}, "BendingStiffness = NaN"},
		"stretches out of order": {beam.Layout{Length: 10, Stiffness: []beam.Stretch{{To: 6, BendingStiffness: 1}, {To: 4, BendingStiffness: 1},
			{BendingStiffness: 1}}, Supports: two}, "Stiffness[1]: To = 4 m: must be more than 6 m"},
		"stretch too long":  {beam.Layout{Length: 10, Stiffness: []beam.Stretch{{To: 12, BendingStiffness: 1}}, Supports: two}, "To = 12 m"},
		"stretch too short": {beam.Layout{Length: 10, Stiffness: []beam.Stretch{{To: 8, BendingStiffness: 1}}, Supports: two}, "Stiffness ends at 8 m"},
		"stretch NaN":       {beam.Layout{Length: 10, Stiffness: []beam.Stretch{{To: math.NaN(), BendingStiffness: 1}}, Supports: two}, "To = NaN m"},
		"no support":        {plain(10), "Supports is empty"},
		"one pin":           {plain(10, beam.Support{At: 4}), "a single support at 4 m that is not fixed"},
		"support off":       {plain(10, beam.Support{At: 0}, beam.Support{At: 10.5}), "Supports[1].At = 10.5 m"},
		"support NaN":       {plain(10, beam.Support{At: 0}, beam.Support{At: math.NaN()}), "At = NaN m"},
		"supports together": {plain(10, beam.Support{At: 5}, beam.Support{At: 5}), "one rigid support at a place"},
		"supports nearly together": {plain(10, beam.Support{At: 5}, beam.Support{At: 5 + 1e-9}, beam.Support{At: 9}),
			"one rigid support at a place"},
		"negative spring":         {plain(10, beam.Support{At: 5, Stiffness: -1}, beam.Support{At: 9}), "Stiffness = -1 N/m"},
		"infinite spring":         {plain(10, beam.Support{At: 5, Stiffness: math.Inf(1)}, beam.Support{At: 9}), "Stiffness = +Inf N/m"},
		"negative rotational":     {plain(10, beam.Support{At: 5, RotationalStiffness: -1}, beam.Support{At: 9}), "RotationalStiffness = -1"},
		"fixed with spring":       {plain(10, beam.Support{At: 5, Fixed: true, RotationalStiffness: 1}), "must be 0 where the support is Fixed"},
		"settlement in mm":        {plain(10, beam.Support{At: 5, Settlement: 10}, beam.Support{At: 9}), "Settlement = 10 m at 5 m: must be within ±2 m; is it in mm?"},
		"NaN settlement":          {plain(10, beam.Support{At: 5, Settlement: math.NaN()}, beam.Support{At: 9}), "Settlement = NaN m"},
		"near mechanism":          {plain(10, beam.Support{At: 5}, beam.Support{At: 10, Stiffness: 1e-6}), "mechanism"},
		"supports much too close": {plain(10, beam.Support{At: 5}, beam.Support{At: 5 + 2e-8, Stiffness: 1}), "mechanism"},
	} {
		_, err := beam.New(c.layout)
		require.ErrorIs(t, err, beam.ErrBeam, name)
		require.ErrorContains(t, err, c.says, name)
	}
}

func TestHinges(t *testing.T) {
	supports := []beam.Support{{At: 0}, {At: 10}, {At: 20}}
	for name, c := range map[string]struct {
		hinges []float64
		says   string
	}{
		"at the end":      {[]float64{0}, "Hinges[0] = 0 m: must be inside the beam"},
		"NaN":             {[]float64{math.NaN()}, "Hinges[0] = NaN m"},
		"twice":           {[]float64{5, 5}, "two hinges at 5 m"},
		"one too many":    {[]float64{4, 12}, "mechanism"},
		"three in a span": {[]float64{2, 4, 6}, "mechanism"},
	} {
		layout := plain(20, supports...)
		layout.Hinges = c.hinges
		_, err := beam.New(layout)
		require.ErrorIs(t, err, beam.ErrBeam, name)
		require.ErrorContains(t, err, c.says, name)
	}
	fixed := plain(20, beam.Support{At: 0, Fixed: true}, beam.Support{At: 20})
	fixed.Supports = append(fixed.Supports, beam.Support{At: 10, RotationalStiffness: 1})
	fixed.Hinges = []float64{10}
	_, err := beam.New(fixed)
	require.ErrorContains(t, err, "must be away from supports that restrain the rotation")
}

// A hinge 2 m into the second span makes the beam statically determinate:
// the hung part is a simple span, its end a load on the overhang of 2 m.
func TestDropInSpan(t *testing.T) {
	layout := plain(20, beam.Support{At: 0}, beam.Support{At: 10}, beam.Support{At: 20})
	layout.Hinges = []float64{12}
	r := solved(t, layout, loads.Set{Lines: []loads.Line{loads.Uniform(0, 20, 6e3)}})
	require.InDelta(t, 0, r.Moment(12), 1e-7)
	require.InDelta(t, 24e3, r.Reactions[2].Force, 1e-6)
	require.InDelta(t, -(24e3*2 + 6e3*2*1), r.Moment(10), 1e-6)
	left, right := r.At(12, beam.LeftOf), r.At(12, beam.RightOf)
	require.InDelta(t, left.Deflection, right.Deflection, 1e-12)
	require.Greater(t, math.Abs(left.Slope-right.Slope), 1e-5, "the slope jumps at a hinge")
	b, err := beam.New(layout)
	require.NoError(t, err)
	_, err = b.Solve(loads.Set{Couples: []loads.Couple{{At: 12, Moment: 1}}})
	require.ErrorIs(t, err, loads.ErrLoad)
}

// A hinge over a support makes two simple spans.
func TestHingeOverSupport(t *testing.T) {
	layout := plain(20, beam.Support{At: 0}, beam.Support{At: 10}, beam.Support{At: 20})
	layout.Hinges = []float64{10}
	r := solved(t, layout, loads.Set{Lines: []loads.Line{loads.Uniform(0, 10, 8e3)}})
	require.InDelta(t, 100e3, r.MomentRange().Most.Value, 1e-6)
	require.InDelta(t, 0, r.Moment(15), 1e-7)
	require.InDelta(t, 40e3, r.Reactions[1].Force, 1e-7)
}

func TestLoadsAtEndsAndSupports(t *testing.T) {
	layout := plain(12, beam.Support{At: 2}, beam.Support{At: 10})
	r := solved(t, layout, loads.Set{
		Points:  []loads.Point{{At: 0, Force: 3e3}, {At: 2, Force: 5e3}, {At: 12, Force: 7e3}},
		Couples: []loads.Couple{{At: 0, Moment: 1e3}, {At: 10, Moment: 4e3}, {At: 12, Moment: 2e3}},
	})
	require.InDelta(t, -1e3, r.Moment(0), 1e-8, "the couple at the free end")
	require.InDelta(t, -1e3-6e3, r.Moment(2), 1e-8)
	require.InDelta(t, -3e3, r.Shear(1), 1e-9)
	require.InDelta(t, 2e3, r.At(12, beam.LeftOf).Moment, 1e-8)
	require.InDelta(t, 4e3, r.At(10, beam.LeftOf).Moment-r.At(10, beam.RightOf).Moment, 1e-8)
	require.InDelta(t, 15e3, r.Reactions[0].Force+r.Reactions[1].Force, 1e-8)
	require.InDelta(t, 7e3, r.At(12, beam.LeftOf).Shear, 1e-9)
}

func TestClampedReactions(t *testing.T) {
	r := solved(t, plain(6, beam.Support{At: 0, Fixed: true}), loads.Set{
		Points:  []loads.Point{{At: 6, Force: 2e3}},
		Couples: []loads.Couple{{At: 0, Moment: 500}},
	})
	require.InDelta(t, 2e3, r.Reactions[0].Force, 1e-9)
	require.InDelta(t, 12e3-500, r.Reactions[0].Moment, 1e-8, "anticlockwise; the applied couple helps")
	require.InDelta(t, -12e3, r.Moment(0), 1e-8)
	fixed := solved(t, plain(6, beam.Support{At: 0, Fixed: true}, beam.Support{At: 6, Fixed: true}),
		loads.Set{Lines: []loads.Line{loads.Uniform(0, 6, 1e3)}})
	require.InDelta(t, 3e3, fixed.Reactions[0].Moment, 1e-9)
	require.InDelta(t, -3e3, fixed.Reactions[1].Moment, 1e-9)
}

func TestSpringsTakeTheirShare(t *testing.T) {
	layout := plain(8, beam.Support{At: 0, Stiffness: 2e6}, beam.Support{At: 8, Stiffness: 4e6})
	r := solved(t, layout, loads.Set{Points: []loads.Point{{At: 2, Force: 8e3}}})
	require.InDelta(t, -6e3/2e6, r.Deflection(0), 1e-12)
	require.InDelta(t, -2e3/4e6, r.Deflection(8), 1e-12)
	hung := solved(t, plain(5, beam.Support{At: 0, RotationalStiffness: 1e7}), loads.Set{Points: []loads.Point{{At: 5, Force: 1e3}}})
	require.InDelta(t, -5e3/1e7, hung.Slope(0), 1e-12)
}

// Cutting a span into many members by supports that do not act, or many
// stretches of equal stiffness, changes nothing.
func TestFiftyMembersInASpan(t *testing.T) {
	whole := plain(30, beam.Support{At: 0}, beam.Support{At: 30})
	set := loads.Set{Lines: []loads.Line{loads.Trapezoid(3, 28, 1e4, 3e4)}, Points: []loads.Point{{At: 7, Force: 1e5}}}
	want := solved(t, whole, set)
	cut, stepped := whole, whole
	cut.Supports = append([]beam.Support{}, whole.Supports...)
	stepped.Stiffness = nil
	for i := 1; i < 50; i++ {
		at := 30 * float64(i) / 50
		// The spring's share of the stiffness is below rounding.
		cut.Supports = append(cut.Supports, beam.Support{At: at, Stiffness: 1e-9})
		stepped.Stiffness = append(stepped.Stiffness, beam.Stretch{To: at, BendingStiffness: 1e10})
	}
	stepped.Stiffness = append(stepped.Stiffness, beam.Stretch{BendingStiffness: 1e10})
	same(t, want, solved(t, cut, set), 1)
	same(t, want, solved(t, stepped, set), 1)
}

func TestLoadsThatCannotAct(t *testing.T) {
	b, err := beam.New(plain(10, beam.Support{At: 0}, beam.Support{At: 10}))
	require.NoError(t, err)
	_, err = b.Solve(loads.Set{Points: []loads.Point{{At: 10.2, Force: 1}}})
	require.ErrorIs(t, err, loads.ErrLoad)
	_, err = b.Solve(loads.Set{Points: []loads.Point{{At: 5, Force: 1e200}}})
	require.ErrorIs(t, err, beam.ErrBeam)
	require.ErrorContains(t, err, "between 0 m and 5 m")
}

func TestZeroValues(t *testing.T) {
	var b beam.Beam
	_, err := b.Solve(loads.Set{})
	require.ErrorIs(t, err, beam.ErrBeam)
	var nothing *beam.Beam
	_, err = nothing.Solve(loads.Set{})
	require.ErrorIs(t, err, beam.ErrBeam)
	var r beam.Response
	require.Zero(t, r.Moment(1))
	require.Zero(t, r.MomentRange())
	require.Empty(t, r.MomentExtremes())
	require.Zero(t, r.Length())
	prepared, err := beam.New(plain(10, beam.Support{}, beam.Support{At: 10}))
	require.NoError(t, err)
	idle, err := prepared.Solve(loads.Set{})
	require.NoError(t, err)
	require.Zero(t, idle.MomentRange())
	require.Zero(t, idle.Moment(-1), "there is no beam there")
	require.Zero(t, idle.Moment(math.NaN()))
}

func TestPreparedBeamDoesNotChange(t *testing.T) {
	layout := plain(20, beam.Support{At: 0}, beam.Support{At: 9}, beam.Support{At: 20})
	b, err := beam.New(layout)
	require.NoError(t, err)
	layout.Supports[1].At = 3
	copied := b.Layout()
	copied.Supports[0].At = 1
	require.Equal(t, []beam.Support{{At: 0}, {At: 9}, {At: 20}}, b.Layout().Supports)
	var group sync.WaitGroup
	results := make([]float64, 8)
	for i := range results {
		group.Add(1)
		go func() {
			defer group.Done()
			for range 50 {
				r, err := b.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, 20, 1e3)}})
				if err == nil {
					results[i] = r.Moment(9)
				}
			}
		}()
	}
	group.Wait()
	for _, m := range results {
		require.Equal(t, results[0], m)
		require.InDelta(t, -1e3*(9*9*9+11*11*11)/(8*20), m, 1e-7)
	}
}
