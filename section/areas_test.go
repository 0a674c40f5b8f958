package section_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func TestAreasFollowTheSection(t *testing.T) {
	pieces := section.Areas(deepening{}, 10)
	require.Len(t, pieces, 2)
	for _, piece := range pieces {
		for _, f := range []float64{0, 0.3, 0.77, 1} {
			x := piece.From + f*(piece.To-piece.From)
			want, got := deepening{}.At(x).Properties(), piece.At(x)
			require.InDelta(t, want.Area, got.Area, 1e-12*want.Area)
			require.InDelta(t, want.Centroid.Y, got.Centroid().Y, 1e-12*want.Centroid.Y)
			require.InDelta(t, want.Centroid.Z, got.Centroid().Z, 1e-12*want.Centroid.Z)
		}
	}
	one := section.Areas(hollow(t), 5)
	require.Len(t, one, 1)
	require.Equal(t, [5]float64{4}, one[0].Coefficients)
	require.InDeltaSlice(t, []float64{6, 0, 0, 0, 0, 0, 0}, one[0].FirstMomentY[:], 1e-14)
	require.InDeltaSlice(t, make([]float64, 7), one[0].FirstMomentZ[:], 1e-14)
	require.Zero(t, section.Part{}.Centroid())
	require.Zero(t, section.AreaPiece{}.Body())
}

// The deepening rectangle has a corner at the origin: width b = 1 + 0.02·x²,
// depth d = 2 − 0.1·x + 0.01·x². Its moments are ∫z dA = b·d²/2, ∫y dA = b²·d/2.
func TestFirstMomentsAreOfDegreeSix(t *testing.T) {
	piece := section.Areas(deepening{}, 4)[0]
	b, d := []float64{1, 0, 0.02}, []float64{2, -0.1, 0.01}
	half := []float64{0.5}
	requireCoefficients(t, product(b, d), piece.Coefficients[:])
	requireCoefficients(t, product(half, b, d, d), piece.FirstMomentY[:])
	requireCoefficients(t, product(half, b, b, d), piece.FirstMomentZ[:])
}

func product(factors ...[]float64) []float64 {
	all := []float64{1}
	for _, f := range factors {
		next := make([]float64, len(all)+len(f)-1)
		for i, a := range all {
			for j, b := range f {
				next[i+j] += a * b
			}
		}
		all = next
	}
	return all
}

// requireCoefficients compares what they make of the polynomial at 4 m: rounding
// of the values, 1e-16, grows to 1e-13 of the largest over seven differences.
func requireCoefficients(t *testing.T, want, got []float64) {
	t.Helper()
	require.LessOrEqual(t, len(want), len(got))
	for i := range got {
		wanted := 0.0
		if i < len(want) {
			wanted = want[i]
		}
		require.InDelta(t, wanted*math.Pow(4, float64(i)), got[i]*math.Pow(4, float64(i)), 1e-11, "power %d", i)
	}
}

// deepeningHalf is a half beam of depth 3.6 to 1.8 m over 30 m, whose web keeps
// its slope: the centroid moves outwards by 140 mm.
func deepeningHalf(t testing.TB) section.Along {
	deep, shallow := half, half
	deep.Depth, deep.BottomWidth, deep.BottomInner = 3.6, 1.4, 0.3
	left, err := deep.Shape()
	require.NoError(t, err)
	right, err := shallow.Shape()
	require.NoError(t, err)
	along, err := section.Taper{To: 30, Left: left, Right: right}.Along()
	require.NoError(t, err)
	return along
}

// Simpson's rule on 3000 strips, of whose error (h⁴) nothing is left at 1e-12.
func TestBodyOfATaperedHalfBeam(t *testing.T) {
	along := deepeningHalf(t)
	const strips = 3000
	var want section.Body
	for i := range strips + 1 {
		weight := []float64{2, 4}[i%2]
		if i == 0 || i == strips {
			weight = 1
		}
		x := 30 * float64(i) / strips
		p := along.At(x).Properties()
		volume := weight * 30 / strips / 3 * p.Area
		want.Volume += volume
		want.X, want.Y, want.Z = want.X+volume*x, want.Y+volume*p.Centroid.Y, want.Z+volume*p.Centroid.Z
	}
	for _, body := range []section.Body{section.Areas(along, 30)[0].Body(), section.Volume(along, 30)} {
		require.InEpsilon(t, want.Volume, body.Volume, 1e-12)
		require.InEpsilon(t, want.X/want.Volume, body.X, 1e-12)
		require.InEpsilon(t, want.Y/want.Volume, body.Y, 1e-12)
		require.InEpsilon(t, want.Z/want.Volume, body.Z, 1e-12)
	}
	require.Greater(t, math.Abs(along.At(15).Properties().Centroid.Y-want.Y/want.Volume), 5e-3, "the section at mid-length will not do")
}

// Cut in two, a taper keeps its moments; moved, its centre moves.
func TestBodiesAdd(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 2))
	whole := section.Volume(deepeningHalf(t), 30)
	for range 20 {
		along := broken{deepeningHalf(t), 30 * random.Float64()}
		pieces := section.Areas(along, 30)
		require.Len(t, pieces, 2)
		a, b := pieces[0].Body(), pieces[1].Body()
		require.InEpsilon(t, whole.Volume, a.Volume+b.Volume, 1e-12)
		require.InEpsilon(t, whole.Volume*whole.X, a.Volume*a.X+b.Volume*b.X, 1e-11)
		require.InEpsilon(t, whole.Volume*whole.Y, a.Volume*a.Y+b.Volume*b.Y, 1e-11)
		require.InEpsilon(t, whole.Volume*whole.Z, a.Volume*a.Z+b.Volume*b.Z, 1e-11)
	}
}

// broken has one break more.
type broken struct {
	section.Along
	at float64
}

func (b broken) Breaks() []float64 { return append(b.Along.Breaks(), b.at) }

// deepening is a rectangle whose width and depth are quadratic in x.
type deepening struct{}

func (deepening) At(x float64) section.Shape {
	shape, err := section.New([]section.Outline{rectangle(0, 0, 1+0.02*x*x, 2-0.1*x+0.01*x*x)}, nil)
	if err != nil {
		panic(err)
	}
	return shape
}

func (deepening) Breaks() []float64 { return []float64{0, 4, 12} }
