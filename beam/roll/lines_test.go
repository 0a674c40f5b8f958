package roll_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam/roll"
	"github.com/tempstage/tempstage/section/formula"
)

var symbolPattern = regexp.MustCompile(`^[\p{L}][\p{L}\p{N}_]*$`)

// values are the results of lines by symbol. Each line recomputes; each symbol has one
// meaning and one value; a result is derived once.
func values(t *testing.T, lines []formula.Line) map[string]float64 {
	t.Helper()
	seen, of := map[string]formula.Quantity{}, map[string]float64{}
	for _, l := range lines {
		got, err := l.Recompute()
		require.NoError(t, err)
		require.Equal(t, l.Result.Value, got, l.Result.Symbol)
		require.NotContains(t, of, l.Result.Symbol)
		require.NotEmpty(t, l.Source.Document, l.Result.Symbol)
		for _, q := range append(l.Operands, l.Result) {
			require.Regexp(t, symbolPattern, q.Symbol)
			require.NotEmpty(t, q.Name, q.Symbol)
			require.NotEmpty(t, q.Unit, q.Symbol)
			if before, ok := seen[q.Symbol]; ok {
				require.Equal(t, before, q, "of %s", l.Result.Symbol)
			}
			seen[q.Symbol] = q
		}
		for _, q := range l.Operands {
			require.True(t, strings.Contains(l.Expression, q.Symbol), "%s in %s", q.Symbol, l.Expression)
		}
		of[l.Result.Symbol] = l.Result.Value
	}
	return of
}

// same compares what lines and the calculation give, to roundings of sums of a few
// terms; a mean close to zero is a difference of numbers near 1, hence 1e-15.
func same(t *testing.T, want float64, of map[string]float64, symbol string) {
	t.Helper()
	got, ok := of[symbol]
	require.True(t, ok, symbol)
	require.InDelta(t, want, got, 1e-12*math.Abs(want)+1e-15, symbol)
}

// chance is a girder of random numbers, its overhangs and its wind.
func chance(r *rand.Rand) (g roll.Girder, left, right float64, wind roll.Wind) {
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	g = roll.Girder{Length: in(10, 60), Weight: in(1e5, 2e6), Modulus: in(20e9, 40e9), Iy: in(0.1, 1), Iz: in(0.01, 0.2), Sweep: in(0, 0.1), Camber: in(-0.1, 0.1), Cracks: in(1e4, 5e5)}
	if r.IntN(2) == 0 {
		g.Iyz = in(-0.9, 0.9) * math.Sqrt(g.Iy*g.Iz)
	}
	left = in(0, 0.3) * g.Length
	if right = left; r.IntN(2) == 0 {
		right = in(0, 0.3) * g.Length
	}
	if r.IntN(2) == 0 {
		wind = roll.Wind{Force: in(0, 0.1) * g.Weight, Height: in(-2, 2)}
	}
	return g, left, right, wind
}

func TestHungLinesAreTheResult(t *testing.T) {
	r, stable, helped := rand.New(rand.NewPCG(5, 8)), 0, 0
	for range 600 {
		g, left, right, wind := chance(r)
		h := roll.Hung{Girder: g, Left: left, Right: right, Axis: 3 * r.Float64(), Offset: 0.05 * r.Float64(), Wind: wind}
		want, err := h.Solve()
		require.NoError(t, err)
		lines, err := h.Lines()
		require.NoError(t, err)
		of := values(t, lines)
		common(t, g, want, of)
		same(t, want.Arm, of, "y_r")
		same(t, want.Needed, of, "h_min")
		if want.RigidTilt > 0 {
			same(t, want.RigidTilt, of, "θ_rigid")
		}
		if !want.Stable {
			require.NotContains(t, of, "FS_cr")
			require.Contains(t, lines[len(lines)-1].Note, "the girder ")
			continue
		}
		stable++
		factors(t, want, of)
		if strings.Contains(lines[len(lines)-1].Note, "wind away from the offset side governs") {
			helped++
		}
	}
	require.Greater(t, stable, 150)
	require.Greater(t, helped, 10)
}

func common(t *testing.T, g roll.Girder, want roll.Result, of map[string]float64) {
	t.Helper()
	same(t, g.LateralInertia(), of, "I_lat")
	same(t, want.Bow, of, "z_0")
	same(t, want.Offset, of, "e")
	same(t, want.CrackTilt, of, "θ_cr")
	if g.Iyz != 0 {
		same(t, want.OwnBow, of, "e_w")
	}
}

func factors(t *testing.T, want roll.Result, of map[string]float64) {
	t.Helper()
	same(t, want.Tilt, of, "θ")
	same(t, want.Cracking, of, "FS_cr")
	same(t, want.Overturning, of, "FS_f")
	if want.FailTilt > 0 {
		same(t, want.FailTilt, of, "θ_f")
	}
}

func TestSeatedLinesAreTheResult(t *testing.T) {
	r, stable, kern := rand.New(rand.NewPCG(9, 2)), 0, 0
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	for range 600 {
		g, left, right, wind := chance(r)
		d := roll.Seated{Girder: g, Left: left, Right: right, Stiffness: g.Weight * in(0.5, 20), CrossFall: in(0, 0.1), Height: in(-1, 3), RollCentre: in(0, 2), HalfBase: in(0.1, 2),
			Kern: math.Max(0, in(-0.3, 0.5)), Offset: in(0, 0.1), Wind: wind}
		want, err := d.Solve()
		require.NoError(t, err)
		lines, err := d.Lines()
		require.NoError(t, err)
		of := values(t, lines)
		common(t, g, want, of)
		same(t, want.Arm, of, "l_r")
		same(t, want.Needed, of, "K_min")
		if want.Seat.Stiffness > 0 {
			same(t, want.Seat.Stiffness, of, "FS_K")
		}
		if want.RigidTilt > 0 {
			same(t, want.RigidTilt, of, "θ_rigid")
		}
		if !want.Stable {
			require.NotContains(t, of, "FS_cr")
			continue
		}
		stable++
		factors(t, want, of)
		same(t, want.Seat.Shift, of, "s_R")
		for _, l := range lines {
			if l.Result.Symbol == "d_R" {
				kern++
				require.Equal(t, want.Seat.LeavesKern, l.Result.Value < 0)
				require.Equal(t, want.Seat.LeavesKern, strings.Contains(l.Note, "leaves the kern"))
			}
		}
	}
	require.Greater(t, stable, 150)
	require.Greater(t, kern, 50)
}

// Where a case has no quotient the line gives the value and says why.
func TestLinesOfCasesWithoutAQuotient(t *testing.T) {
	note := func(lines []formula.Line, symbol string) (float64, string) {
		for _, l := range lines {
			if l.Result.Symbol == symbol {
				return l.Result.Value, l.Note
			}
		}
		return math.NaN(), ""
	}
	g := tee()
	g.Sweep, g.Camber = 0, 0
	lines, err := roll.Hung{Girder: g, Axis: 2}.Lines()
	require.NoError(t, err)
	of := values(t, lines)
	require.NotContains(t, of, "θ_f", "no offset: no tilt of failure")
	same(t, of["y_r"]/of["z_0"], of, "FS_f")
	lines, err = roll.Hung{Girder: g, Axis: 2, Wind: roll.Wind{Force: 0.06 * g.Weight}}.Lines()
	require.NoError(t, err)
	value, text := note(lines, "FS_cr")
	require.Zero(t, value)
	require.Contains(t, text, "the wind alone cracks it")
	s := stocky(0)
	lines, err = roll.Seated{Girder: s, Stiffness: 2 * s.Weight, CrossFall: 0.15, Height: 1, RollCentre: 5, HalfBase: 0.1}.Lines()
	require.NoError(t, err)
	value, text = note(lines, "FS_f")
	require.Zero(t, value)
	require.Equal(t, "the resultant is beyond the line about which the supports tip", text)
	lines, err = roll.Seated{Girder: s, Stiffness: 2 * s.Weight, Height: -1, HalfBase: 0.6}.Lines()
	require.NoError(t, err)
	value, text = note(lines, "FS_f")
	require.Equal(t, 1000.0, value)
	require.Contains(t, text, "counted as 1000")
	_, err = roll.Hung{}.Lines()
	require.ErrorIs(t, err, roll.ErrRoll)
	_, err = roll.Seated{}.Lines()
	require.ErrorIs(t, err, roll.ErrRoll)
}

// The tilt of a girder on the hook, by hand.
func ExampleHung_Lines() {
	g := roll.Girder{Length: 41, Weight: 480e3, Modulus: 33e9, Iy: 0.23, Iz: 0.016, Sweep: 0.04, Camber: 0.06, Cracks: 90e3}
	lines, err := roll.Hung{Girder: g, Left: 2.5, Right: 2.5, Axis: 0.9, Offset: 0.006}.Lines()
	for _, l := range lines {
		switch l.Result.Symbol {
		case "θ", "FS_cr", "FS_f":
			fmt.Printf("%s = %s = %.4g\n", l.Result.Symbol, l.Expression, l.Result.Value)
		}
	}
	fmt.Println(err)
	// Output:
	// θ = e/(y_r - z_0) = 0.03827
	// FS_cr = y_r*θ_cr/(z_0*θ_cr + e) = 1.172
	// FS_f = y_r*θ_f/(z_0*(1 + 2.5*θ_f)*θ_f + e) = 1.725
	// <nil>
}
