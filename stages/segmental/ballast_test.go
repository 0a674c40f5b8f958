package segmental_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/segmental"
)

// twoTips are two cantilevers of 11 m arms with a closure of 1 m, and their steps.
func twoTips(t testing.TB) (segmental.Deck, []stages.Support, []segmental.Step) {
	f := fan{n: 3, piers: 2, depth: level(2), concrete: steady{}, closure: 1}
	return f.deck(t), f.on(), f.steps(10, 3)
}

func levelled() segmental.Ballast {
	return segmental.Ballast{Closure: "C1", After: 6, Back: [2]float64{0, 2}, Largest: 400e3, Document: "invented"}
}

// The tip of a cantilever of 11 m: k = 3EI/L³; ballast a distance b behind it moves the tip by
// (L − b)²(2L + b)/6EI for 1 N.
func TestBallastAgainstTheStiffnessOfACantilever(t *testing.T) {
	d, on, steps := twoTips(t)
	const ei, l, b = steadyModulus * castWidth * 8 / 12, 11.0, 2.0
	left, err := levelled().On(d, 0.0012, on, steps...)
	require.NoError(t, err)
	require.InEpsilon(t, 3*ei/l/l/l, left.Stiffness[0], 1e-6)
	require.InEpsilon(t, 6*ei/(l-b)/(l-b)/(2*l+b), left.Stiffness[1], 1e-6)
	require.InEpsilon(t, 3*ei/l/l/l*0.0012, left.Weight, 1e-6)
	require.Equal(t, "1R3", left.Segment)
	require.InDelta(t, 22, left.X, 0)
	require.InEpsilon(t, -left.Weight*l*l/2/ei, left.Slope, 1e-6)
	require.Equal(t, stages.Pass, left.Check.State)
	require.InEpsilon(t, 400e3-left.Weight, left.Check.Margin, 1e-6)
	require.Len(t, left.Check.Derivation, 2)

	right, err := levelled().On(d, -0.003, on, steps...)
	require.NoError(t, err)
	require.Equal(t, "2L3", right.Segment)
	require.InDelta(t, 25, right.X, 1e-12)
	require.InEpsilon(t, right.Stiffness[1]*0.003, right.Weight, 1e-12)
	require.InEpsilon(t, right.Weight*(l-b)*(l-b)/2/ei, right.Slope, 1e-6, "a left arm that goes down rises to the right")
	require.Equal(t, stages.Fail, right.Check.State, "more than the designer permits")

	none, err := levelled().On(d, 0, on, steps...)
	require.NoError(t, err)
	require.Zero(t, none.Weight)
	require.Empty(t, none.Segment)
}

// The moduli are those of the day of the step, and a ballast on the left tip may stand back too.
func TestBallastOnTheDayOfItsStep(t *testing.T) {
	f := fan{n: 3, piers: 2, depth: level(2), concrete: mixOf(), slow: mixOf(), closure: 1}
	b := levelled()
	b.Back = [2]float64{1, 0}
	of, err := b.On(f.deck(t), 0.001, f.on(), f.steps(10, 3)...)
	require.NoError(t, err)
	state, err := mixOf().At(25)
	require.NoError(t, err)
	ei := state.Modulus * castWidth * 8 / 12
	require.InEpsilon(t, 3*ei/11/11/11, of.Stiffness[1], 1e-6)
	require.InEpsilon(t, 6*ei/10/10/23, of.Stiffness[0], 1e-6)
	require.InDelta(t, 21, of.X, 1e-12)
}

// On two lines of supports the arm turns as a whole: a ballast that lifts one off is refused.
func TestBallastThatLiftsTheDeckOff(t *testing.T) {
	d, on, steps := twoTips(t)
	steps = append(steps, segmental.Step{Name: "props", Day: 40, Moves: []segmental.Move{{Do: segmental.Support, On: append(bearings(9, 13), on[1])}}})
	b := levelled()
	b.After, b.Largest = 7, 10e6
	_, err := b.On(d, 0.001, on, steps...)
	require.NoError(t, err)
	_, err = b.On(d, 0.1, on, steps...)
	require.ErrorIs(t, err, segmental.ErrSegmental)
	require.ErrorContains(t, err, "kN on 1R3: ")
	require.ErrorContains(t, err, "the deck lifts off the support at x = 9.000 m")
}

func TestBallastRefuses(t *testing.T) {
	d, on, steps := twoTips(t)
	closed := append(steps[:6:6], segmental.Step{Name: "pour", Day: 50, Moves: []segmental.Move{{Do: segmental.Pour, Segments: []string{"C1"}}}})
	for says, of := range map[string]struct {
		change     func(*segmental.Ballast)
		difference float64
	}{
		`segment "X" is not in deck "D"`:                            {func(b *segmental.Ballast) { b.Closure = "X" }, 0},
		`segment 1R3 is a "": must be a closure`:                    {func(b *segmental.Ballast) { b.Closure = "1R3" }, 0},
		"After = 0: must be 1 to 7":                                 {func(b *segmental.Ballast) { b.After = 0 }, 0},
		"After = 8: must be 1 to 7":                                 {func(b *segmental.Ballast) { b.After = 8 }, 0},
		"Back[1] = -1 m: must be 0 to 50 m":                         {func(b *segmental.Ballast) { b.Back[1] = -1 }, 0},
		"Back[0] = 30 m: must be on the deck from x = 0.000 to 22.": {func(b *segmental.Ballast) { b.Back[0] = 30 }, 0},
		"Largest = 0 N":                                             {func(b *segmental.Ballast) { b.Largest = 0 }, 0},
		"Document is empty":                                         {func(b *segmental.Ballast) { b.Document = "" }, 0},
		"segment 2L3 beside it is not in the deck after step 3":     {func(b *segmental.Ballast) { b.After = 3 }, 0},
		"closure C1 is poured after step 7":                         {func(b *segmental.Ballast) { b.After = 7 }, 0},
		"difference = 2 m: must be -1 to 1 m":                       {func(*segmental.Ballast) {}, 2},
	} {
		b := levelled()
		of.change(&b)
		_, err := b.On(d, of.difference, on, closed...)
		require.ErrorIs(t, err, segmental.ErrSegmental, says)
		require.ErrorContains(t, err, says)
	}
}
