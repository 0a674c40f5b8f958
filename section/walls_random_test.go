package section_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// randomParametric is a random box, half beam or trough; some do not exist.
func randomParametric(random *rand.Rand) (section.Shape, error) {
	in := func(low, high float64) float64 { return low + (high-low)*random.Float64() }
	haunch := func() section.Haunch {
		if random.IntN(3) == 0 {
			return section.Haunch{}
		}
		return section.Haunch{Width: in(0.1, 0.8), Height: in(0.1, 0.4)}
	}
	depth, root := in(1.2, 6), in(2, 8)
	switch random.IntN(4) {
	case 0, 1:
		return section.Box{Depth: depth, TopWidth: root + in(0, 8), RootWidth: root, BottomWidth: root * in(0.5, 1.1),
			TopSlab: in(0.18, 0.4), BottomSlab: in(0.18, 0.8), WebThickness: in(0.2, 0.7), LeftWebThickness: in(0.2, 0.7),
			CantileverRoot: in(0.25, 0.7), CantileverTip: in(0.15, 0.25), TopHaunch: haunch(), BottomHaunch: haunch(), CrossFall: in(-0.04, 0.04)}.Shape()
	case 2:
		h := section.HalfBeam{Depth: depth, TopWidth: 1 + root/2 + in(0, 3), RootWidth: 1 + root/2, BottomWidth: 0.8 + root/2*in(0.6, 1),
			TopInner: in(0, 0.4), BottomInner: in(0.4, 0.6), TopSlab: in(0.18, 0.4), BottomSlab: in(0.18, 0.5), WebThickness: in(0.2, 0.5),
			CantileverRoot: in(0.25, 0.5), CantileverTip: in(0.15, 0.25), TopHaunch: haunch(), BottomHaunch: haunch()}
		switch random.IntN(4) {
		case 0:
			h.InnerWall = in(0.1, 0.25)
		case 1:
			h.TopSlab, h.TopHaunch = 0, section.Haunch{}
		case 2:
			h.BottomSlab, h.BottomHaunch = 0, section.Haunch{}
		}
		return h.Shape()
	default:
		return section.Trough{Depth: depth, TopWidth: root, BottomWidth: root * in(0.4, 1), WebThickness: in(0.15, 0.4), BottomSlab: in(0.2, 0.5),
			BottomHaunch: haunch(), Lip: section.Lip{Outer: in(0, 0.4), Inner: in(0, 0.3), Thickness: in(0.1, 0.3)}}.Shape()
	}
}

// Any shape has walls in equilibrium at any level, and at least one cut in each
// chord at the centroid's level.
func TestWallsOfRandomShapes(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 3))
	drawn := 0
	for range 400 {
		shape, err := randomParametric(random)
		if err != nil {
			continue
		}
		drawn++
		walls, p := wallsOf(t, shape), shape.Properties()
		require.NotEmpty(t, walls.Cuts)
		for _, cut := range walls.Cuts {
			require.False(t, math.IsNaN(cut.Y+cut.Z+cut.T+cut.Face) || math.IsInf(cut.Y+cut.Z+cut.T+cut.Face, 0))
		}
		level := p.Centroid.Z - p.Bottom + (0.02+0.96*random.Float64())*(p.Top+p.Bottom)
		sum := 0.0
		for i := range shape.Chords(level) {
			cut, err := walls.Across(levelCut(shape, level, i))
			require.NoError(t, err)
			sum += cut.Z
		}
		require.InDelta(t, -p.ShearFlow(shape.Above(level), section.Forces{Vz: 1}), sum, 1e-9)
		for _, chord := range shape.Chords(p.Centroid.Z) {
			found := false
			for _, cut := range walls.Cuts {
				y, near := (cut.From.Y+cut.To.Y)/2, 0.1*cut.Thickness() // closer cuts are one
				found = found || y > chord.From && y < chord.To &&
					math.Min(cut.From.Z, cut.To.Z) < p.Centroid.Z+near && math.Max(cut.From.Z, cut.To.Z) > p.Centroid.Z-near
			}
			require.True(t, found, "no cut at the level of the centroid")
		}
	}
	require.Greater(t, drawn, 200)
}

// Random shapes against the exact solution. Measured over 80 of them: J −2.9 to
// +3.2 %; of the largest flow at most 3.4 % but for one under Vy with 5.4 %.
func TestRandomWallsAgreeWithTheExactSolution(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 15))
	for range 14 {
		shape, err := randomParametric(random)
		if err != nil {
			continue
		}
		torsion, err := shape.Torsion()
		require.NoError(t, err)
		walls := wallsOf(t, shape)
		c, err := torsion.ShearCentre(0)
		require.NoError(t, err)
		require.InEpsilon(t, torsion.Constant, walls.Constant, 0.035)
		for i, f := range throughCentre(c, shape.Properties().Centroid) {
			largest, worst := 0.0, 0.0
			for _, cut := range walls.Cuts {
				want, err := torsion.WallShear(cut.Cut, f)
				require.NoError(t, err)
				largest = math.Max(largest, math.Abs(want.Flow))
				if i < 2 || !cut.Open {
					worst = math.Max(worst, math.Abs(want.Flow-[3]float64{cut.Y, cut.Z, cut.T}[i]))
				}
			}
			require.LessOrEqual(t, worst, 0.055*largest)
		}
	}
}

// Whatever is drawn, the answer is finite or an error in words.
func FuzzWalls(f *testing.F) {
	f.Add(0.0, 0.0, 4.0, 0.0, 4.0, 2.0, 0.0, 2.0, 0.5)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i, share float64) {
		corners := section.Outline{{Y: a, Z: b}, {Y: c, Z: d}, {Y: e, Z: g}, {Y: h, Z: i}}
		var hole section.Outline
		for _, p := range corners {
			hole = append(hole, section.Point{Y: share*p.Y + (1-share)*(a+c+e+h)/4, Z: share*p.Z + (1-share)*(b+d+g+i)/4})
		}
		shape, err := section.New([]section.Outline{corners}, []section.Outline{hole})
		if err != nil {
			if shape, err = section.New([]section.Outline{corners}, nil); err != nil {
				return
			}
		}
		walls, err := shape.Walls()
		if err != nil {
			require.ErrorIs(t, err, section.ErrShape)
			return
		}
		require.Positive(t, walls.Constant)
		for _, cut := range walls.Cuts {
			require.False(t, math.IsNaN(cut.Y+cut.Z+cut.T+cut.Face) || math.IsInf(cut.Y+cut.Z+cut.T+cut.Face, 0))
		}
	})
}
