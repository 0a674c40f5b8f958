package section_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func sectorialOf(t testing.TB, shape section.Shape) section.Sectorial {
	t.Helper()
	s, err := wallsOf(t, shape).Warping()
	require.NoError(t, err)
	return s
}

// A narrow rectangle b × h warps by ω = y·z: ±b·h/4 at its corners, Cw = b³·h³/144.
func TestWarpingOfANarrowStrip(t *testing.T) {
	const b, h = 0.02, 2.0
	s := sectorialOf(t, shapeOf(t, []section.Outline{rectangle(0, 0, b, h)}))
	for _, ω := range s.Corners {
		require.InEpsilon(t, b*h/4, math.Abs(ω), 0.03)
	}
	require.InDelta(t, 0, s.Corners[0]+s.Corners[1], 0.03*b*h/4)
	require.InEpsilon(t, b*b*b*h*h*h/144, s.Constant, 0.03)
}

// A channel with middle lines h, b, b and thickness t: shear centre
// e = 3·b²/(6·b + h) outside the web, ω = e·h/2 where web and flange meet,
// (b − e)·h/2 at the tips, Cw = t·b³·h²/12·(3·b + 2·h)/(6·b + h) (Vlasov 1940).
func TestWarpingOfAThinChannel(t *testing.T) {
	const h, b, th = 2.0, 1.0, 0.01
	outer, inner := h/2+th/2, h/2-th/2
	shape, err := section.New([]section.Outline{{
		{Y: -th / 2, Z: -outer}, {Y: b, Z: -outer}, {Y: b, Z: -inner}, {Y: th / 2, Z: -inner},
		{Y: th / 2, Z: inner}, {Y: b, Z: inner}, {Y: b, Z: outer}, {Y: -th / 2, Z: outer},
	}}, nil)
	require.NoError(t, err)
	s := sectorialOf(t, shape)
	e := 3 * b * b / (6*b + h)
	junction, tip := s.At(section.Point{Y: 0, Z: h/2 - 0.02}), s.At(section.Point{Y: b - 1e-4, Z: h / 2})
	require.InDelta(t, e*h/2, math.Abs(junction), 0.02)
	require.InDelta(t, (b-e)*h/2, math.Abs(tip), 0.01)
	require.Less(t, junction*tip, 0.0)
	require.InDelta(t, -tip, s.At(section.Point{Y: b - 1e-4, Z: -h / 2}), 5e-4)
	require.InEpsilon(t, th*b*b*b*h*h/12*(3*b+2*h)/(6*b+h), s.Constant, 0.01)
}

// Random half beams and troughs against the exact solution.
func TestWarpingAgreesWithTheExactSolution(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 15))
	looked := 0
	for looked < 8 {
		shape, err := randomParametric(random)
		if err != nil || len(shape.Voids()) > 0 {
			continue
		}
		looked++
		torsion, err := shape.Torsion()
		require.NoError(t, err)
		s, want := sectorialOf(t, shape), torsion.Warping()
		require.Len(t, s.Corners, len(want))
		largest := 0.0
		for _, ω := range want {
			largest = math.Max(largest, math.Abs(ω))
		}
		for i, ω := range want {
			require.InDelta(t, ω, s.Corners[i], 0.035*largest, "corner %d", i)
			require.InDelta(t, s.Corners[i], s.At(shape.Corners()[i]), 1e-9*largest)
		}
		require.InEpsilon(t, torsion.WarpingConstant(), s.Constant, 0.15)
	}
}

// In a mirror ω changes its sign; twice as large, ω is four times and Cw 64 times
// as large; where the section stands does not matter.
func TestWarpingInAMirrorScaledAndMoved(t *testing.T) {
	of := func(k, y, z, side float64) section.Sectorial {
		corners := section.Outline{
			{Y: 0, Z: 0}, {Y: 2, Z: 0}, {Y: 2, Z: 0.3}, {Y: 0.4, Z: 0.4}, {Y: 0.25, Z: 2}, {Y: 1.2, Z: 2}, {Y: 1.2, Z: 2.2}, {Y: 0, Z: 2.2},
		}
		moved := make(section.Outline, len(corners))
		for i, p := range corners {
			at := i
			if side < 0 {
				at = len(corners) - 1 - i
			}
			moved[at] = section.Point{Y: y + side*k*p.Y, Z: z + k*p.Z}
		}
		shape, err := section.New([]section.Outline{moved}, nil)
		require.NoError(t, err)
		return sectorialOf(t, shape)
	}
	plain, other := of(1, 0, 0, 1), of(2, 3, -5, 1)
	require.InEpsilon(t, 64*plain.Constant, other.Constant, 1e-6)
	for i, ω := range plain.Corners {
		require.InDelta(t, 4*ω, other.Corners[i], 1e-6)
	}
	mirrored := of(1, 0, 0, -1)
	require.InEpsilon(t, plain.Constant, mirrored.Constant, 0.025) // thick walls: order of the corners
	for i, ω := range plain.Corners {
		require.InDelta(t, -ω, mirrored.Corners[len(plain.Corners)-1-i], 0.013*1.3)
	}
}

func TestWarpingRefuses(t *testing.T) {
	_, err := section.Walls{}.Warping()
	require.ErrorIs(t, err, section.ErrShape)
	require.ErrorContains(t, err, "zero Walls")
	_, err = wallsOf(t, twoCells(t)).Warping()
	require.ErrorIs(t, err, section.ErrShape)
	require.ErrorContains(t, err, "2 voids")
	require.Zero(t, section.Sectorial{}.At(section.Point{Y: 1}))
	require.Zero(t, sectorialOf(t, shapeOf(t, []section.Outline{rectangle(0, 0, 0.1, 2)})).At(section.Point{Y: math.NaN()}))
}

// Without warping the tension is that of the plane; warping alone, whose resultant
// is zero, pulls and pushes alike, on a strip by ∫|ω|dA/2 = b²·h²/32.
func TestTensionWithWarping(t *testing.T) {
	shape := shapeOf(t, []section.Outline{{
		{Y: 0, Z: 0}, {Y: 2, Z: 0}, {Y: 2, Z: 0.2}, {Y: 0.25, Z: 0.3}, {Y: 0.25, Z: 2}, {Y: 1.2, Z: 2}, {Y: 1.2, Z: 2.2}, {Y: 0, Z: 2.2},
	}})
	s := sectorialOf(t, shape)
	for _, plane := range []section.Plane{{Constant: 1e6, SlopeY: 2e6, SlopeZ: -1.5e6}, {Constant: -3e6, SlopeZ: 2e6}, {Constant: 2e6}, {Constant: -2e6}} {
		force, area := shape.TensionForce(plane)
		zone := s.Tension(plane, 0)
		require.InDelta(t, force, zone.Force, 1e-3*force+1e-6)
		require.InDelta(t, area, zone.Area, 1e-3*area)
	}
	pull, push := s.Tension(section.Plane{}, 1e6), s.Tension(section.Plane{}, -1e6)
	require.InEpsilon(t, pull.Force, push.Force, 1e-9)
	require.InEpsilon(t, shape.Properties().Area, pull.Area+push.Area, 1e-3)

	const b, h = 0.02, 2.0
	strip := sectorialOf(t, shapeOf(t, []section.Outline{rectangle(0, 0, b, h)}))
	zone := strip.Tension(section.Plane{}, 1e6)
	require.InEpsilon(t, 1e6*b*b*h*h/32, zone.Force, 0.035)
	require.InDelta(t, b/2, zone.Centre.Y, 1e-4) // two opposite quarters
	require.InDelta(t, h/2, zone.Centre.Z, 1e-3)
	require.Zero(t, section.Sectorial{}.Tension(section.Plane{Constant: 1}, 1))
}
