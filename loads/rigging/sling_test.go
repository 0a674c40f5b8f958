package rigging_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/loads/rigging"
)

// Two legs at an angle to the horizontal: 1/sin of it, each half of the weight.
func TestSlingAngleFactor(t *testing.T) {
	for degrees, factor := range map[float64]float64{85: 1.0038, 75: 1.0353, 60: 1.1547, 45: 1.4142, 35: 1.7434} {
		a := degrees * math.Pi / 180
		x := 3 * math.Cos(a)
		z := 3 * math.Sin(a)
		r, err := rigging.Sling{Hook: r3.Vec{Z: z + 1}, Legs: []r3.Vec{{X: -x, Z: 1}, {X: x, Z: 1}}, Weight: 1000, CoG: r3.Vec{}}.Solve()
		require.NoError(t, err)
		for _, l := range r.Legs {
			require.InDelta(t, factor, l.Factor, 1e-4)
			require.InEpsilon(t, 500*factor, l.Force.Most, 1e-4)
			require.InEpsilon(t, l.Force.Most, l.Force.Least, 1e-9)
			require.InDelta(t, 3, l.Length, 1e-6)
		}
		require.Equal(t, 1, r.Sets)
	}
}

func corners(x, y, z float64) []r3.Vec {
	return []r3.Vec{{X: -x, Y: -y, Z: z}, {X: x, Y: -y, Z: z}, {X: x, Y: y, Z: z}, {X: -x, Y: y, Z: z}}
}

// Four legs that nothing equalises: two diagonal ones carry all; equalised each has a
// quarter.
func TestFourLegsCountAsTwo(t *testing.T) {
	s := rigging.Sling{Hook: r3.Vec{Z: 6}, Legs: corners(3, 1, 1), Weight: 400e3}
	r, err := s.Solve()
	require.NoError(t, err)
	require.Equal(t, 2, r.Sets)
	factor := math.Sqrt(25+10) / 5
	for _, l := range r.Legs {
		require.InEpsilon(t, 200e3*factor, l.Force.Most, 1e-9)
		require.Zero(t, l.Force.Least)
	}
	s.Sharing = rigging.Equalised
	r, err = s.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 100e3*factor, r.Legs[2].Force.Least, 1e-9)
}

// Three legs by statics: whatever the places, the forces along the legs balance the
// weight, and the load hangs with its centre of gravity below the hook.
func TestThreeLegsBalance(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	done := 0
	for range 200 {
		s := rigging.Sling{
			Hook: r3.Vec{X: in(-0.1, 0.1), Y: in(-0.1, 0.1), Z: in(5, 8)}, Weight: in(1e4, 1e6), CoG: r3.Vec{Z: in(-1, 1)}, Tilt: 0.1,
			Legs: []r3.Vec{{X: in(-3, -1), Y: in(-2, -0.5), Z: in(0, 1)}, {X: in(1, 3), Y: in(-2, -0.5), Z: in(0, 1)}, {X: in(-0.5, 0.5), Y: in(1, 2), Z: in(0, 1)}},
		}
		got, err := s.Solve()
		if err != nil {
			require.ErrorContains(t, err, "must be")
			continue
		}
		done++
		var sum r3.Vec
		for i, l := range got.Legs {
			require.Equal(t, l.Force.Least, l.Force.Most)
			sum = r3.Add(sum, r3.Scale(l.Force.Most, r3.Unit(r3.Sub(s.Hook, s.Legs[i]))))
		}
		lever := r3.Sub(s.Hook, s.CoG)
		require.InDelta(t, 0, r3.Norm(r3.Sub(sum, r3.Scale(s.Weight/r3.Norm(lever), lever))), 2e-3*s.Weight)
		require.InDelta(t, math.Acos(lever.Z/r3.Norm(lever)), got.Tilt, 1e-9)
	}
	require.Greater(t, done, 100)
}

func TestSlingRefuses(t *testing.T) {
	good := rigging.Sling{Hook: r3.Vec{Z: 6}, Legs: corners(3, 1, 1), Weight: 400e3}
	for want, change := range map[string]func(*rigging.Sling){
		"leg 1 is at 29.9° to the horizontal: must be at least 30.0°":                                                                                         func(s *rigging.Sling) { s.Legs = corners(8.62, 1, 1) },
		"the load tilts by 0.08314 rad until its centre of gravity is below the hook: must be at most 0.035 rad; move the hook by 0.5 m along and 0 m across": func(s *rigging.Sling) { s.CoG.X = 0.5 },
		"must be above the centre of gravity":       func(s *rigging.Sling) { s.CoG.Z = 6 },
		"Sling.Legs has 0 legs: must be 1 to 8":     func(s *rigging.Sling) { s.Legs = nil },
		"Sling.Weight = NaN N: must be":             func(s *rigging.Sling) { s.Weight = math.NaN() },
		"Sling.Angle = 30 rad: must be":             func(s *rigging.Sling) { s.Angle = 30 },
		"must be NotEqualised or Equalised":         func(s *rigging.Sling) { s.Sharing = "hope" },
		"no legs of the sling balance the weight":   func(s *rigging.Sling) { s.Legs = []r3.Vec{{X: 1, Y: 1, Z: 1}, {X: 1.5, Y: 1, Z: 1}} },
		"legs of the same force leave 7":            func(s *rigging.Sling) { s.Sharing, s.Legs[0].X = rigging.Equalised, -2.5 },
		"must be within ±1000 m":                    func(s *rigging.Sling) { s.Legs[3].Y = math.Inf(1) },
		"leg 2 is 0 m long: must be at least 0.1 m": func(s *rigging.Sling) { s.Legs[1] = s.Hook },
	} {
		s := good
		s.Legs = append([]r3.Vec(nil), good.Legs...)
		change(&s)
		_, err := s.Solve()
		require.ErrorIs(t, err, rigging.ErrRigging, want)
		require.ErrorContains(t, err, want)
	}
}

// A spreader balances about its hook, in force and moment; its compression is that of
// the triangle of forces.
func TestSpreader(t *testing.T) {
	s := rigging.Spreader{Length: 12, Height: 7, Weight: 30e3, Load: 600e3, CoG: 0.6, Eccentricity: 0.15}
	r, err := s.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 600e3*(6-0.6)/12, r.Lower[0], 1e-12)
	require.InEpsilon(t, 600e3, r.Lower[0]+r.Lower[1], 1e-12)
	require.InEpsilon(t, 600e3*0.6/630e3, r.Hook, 1e-12)
	for i, arm := range []float64{6 + r.Hook, 6 - r.Hook} {
		require.InEpsilon(t, r.Compression, r.Upper[i]*math.Cos(r.Angle[i]), 1e-9)
		require.InEpsilon(t, r.Lower[i]+15e3, r.Upper[i]*math.Sin(r.Angle[i]), 1e-9)
		require.InEpsilon(t, math.Atan2(7, arm), r.Angle[i], 1e-12)
	}
	require.InEpsilon(t, r.Compression*0.15+30e3*12/8, r.Moment, 1e-12)
	s.Height = 3
	_, err = s.Solve()
	require.ErrorContains(t, err, "upper sling 1 is at 24.5° to the horizontal: must be at least 30.0°")
	s.CoG = 7
	_, err = s.Solve()
	require.ErrorContains(t, err, "Spreader.CoG = 7 m: must be -6 to 6 m")
}

// What the legs of a sling get when nothing equalises them.
func ExampleSling() {
	r, err := rigging.Sling{Hook: r3.Vec{Z: 8}, Legs: corners(3.2, 1.1, 1.9), Weight: 420e3, CoG: r3.Vec{X: 0.1, Z: 1}}.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, l := range r.Legs {
		fmt.Printf("leg %d: %.0f to %.0f kN at %.0f°\n", i+1, l.Force.Least/1e3, l.Force.Most/1e3, l.Angle*180/math.Pi)
	}
	// Output:
	// leg 1: 0 to 234 kN at 60°
	// leg 2: 7 to 240 kN at 62°
	// leg 3: 7 to 240 kN at 62°
	// leg 4: 0 to 234 kN at 60°
}
