package segmental

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
)

// slow is the concrete of the deck with its exposure.
var slow = concrete.EN1992{Fck: 45e6, Cement: concrete.ClassN, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.6}}

// waiting is a step of waits until a day.
func waiting(t testing.TB, from, until float64, number int) Step {
	t.Helper()
	moves, err := Waits(from, until, number)
	require.NoError(t, err)
	return Step{Name: "wait", Day: from, Moves: moves}
}

// Segments of day 0 and a closure of day 50, closed on day 60: creep brings moments to the
// middle, on fixed piers and after one of them is released. The march of the engine with 12
// waits against superposition in time with 60 steps, φ relating to the same modulus: within
// 1 % of what creep brings.
func TestCreepAfterClosureAgainstTheStiffnessMethod(t *testing.T) {
	modulus, err := tendon.CreepModulus(slow, 28)
	require.NoError(t, err)
	for words, release := range map[string]bool{"fixed": false, "A released": true} {
		steps, b := built(), byHand(t, slow, modulus)
		day := 60.0
		if release {
			day = 70
			steps = append(steps, waiting(t, 60, 69, 3), releases(70, "A")[0])
			b.until(70, 30)
			b.letGo(70, 2*b.node(14)+1)
		}
		steps = append(steps, waiting(t, day, 36500, 12))
		list := effects(t, twoCantilevers(t, slow), steps)
		start, end := list[len(list)-2], list[len(list)-1]
		for _, x := range []float64{14, 29, 44} {
			require.InDelta(t, b.moment(x), momentIn(start, x-math.Copysign(1e-6, x-29)), 20e3, "%s: x = %g m at the beginning", words, x)
		}
		before := b.moment(29)
		b.until(36500, 60)
		crept := b.moment(29) - before
		require.Greater(t, math.Abs(crept), 300e3, words)
		for _, x := range []float64{14, 29, 44} {
			require.InDelta(t, b.moment(x), momentIn(end, x-math.Copysign(1e-6, x-29)), 0.012*math.Abs(crept)+8e3, "%s: x = %g m at the end", words, x)
		}
	}
}

// Waits refuse what they cannot cut.
func TestWaitsRefuse(t *testing.T) {
	for _, c := range []struct {
		from, until float64
		number      int
	}{{60, 100, 0}, {60, 100, 201}, {100, 60, 5}, {math.NaN(), 60, 5}, {60, math.Inf(1), 5}} {
		_, err := Waits(c.from, c.until, c.number)
		require.ErrorIs(t, err, ErrSegmental)
		require.ErrorContains(t, err, "must be")
	}
	moves, err := Waits(60, 36500, 7)
	require.NoError(t, err)
	require.Len(t, moves, 7)
	require.Equal(t, 36500.0, moves[6].Day)
	for i := 1; i < 7; i++ {
		require.Greater(t, moves[i].Day, moves[i-1].Day)
	}
}
