package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func TestShearFlowIsVQOverIForSymmetricShapes(t *testing.T) {
	p := plain(t, 0.4, 1).Properties()
	f := section.Forces{Vz: 120e3}
	require.InDelta(t, 1.5*120e3/0.4*0.4, p.ShearFlow(plain(t, 0.4, 1).Above(0.5), f), 1e-6)
	require.InDelta(t, 0, p.ShearFlow(plain(t, 0.4, 1).Above(0), f), 1e-6)
}

// In a cell, the walls together must carry what the general formula says.
func TestWallsOfACellCarryTheWholeFlow(t *testing.T) {
	box := usual
	box.LeftWebThickness = 0.45
	shape, err := box.Shape()
	require.NoError(t, err)
	torsion, p := torsionOf(t, shape), shape.Properties()
	for _, level := range []float64{0.6, 1.2, 1.7} {
		for _, f := range []section.Forces{{Vz: 1e6}, {Vy: 1e6}, {Vy: 3e5, Vz: -2e6, T: 4e6}, {T: 1e6}} {
			// The left web's cut runs outwards, the right one's inwards: both flows
			// count upwards.
			left, err := torsion.WallShear(levelCut(shape, level, 1), f)
			require.NoError(t, err)
			right, err := torsion.WallShear(levelCut(shape, level, 0), f)
			require.NoError(t, err)
			scale := 1e6 * 3
			require.InDelta(t, -p.ShearFlow(shape.Above(level), f), left.Flow+right.Flow, 2e-4*scale, "%v at %g", f, level)
		}
	}
}

// levelCut is the level cut across chord number i, from small to large y.
func levelCut(shape section.Shape, level float64, i int) section.Cut {
	chord := shape.Chords(level)[i]
	return section.Cut{From: section.Point{Y: chord.From, Z: level}, To: section.Point{Y: chord.To, Z: level}}
}

func TestTorqueGoesRoundACell(t *testing.T) {
	box, err := usual.Shape()
	require.NoError(t, err)
	torsion := torsionOf(t, box)
	left, err := torsion.WallShear(levelCut(box, 1.2, 1), section.Forces{T: 1e6})
	require.NoError(t, err)
	right, err := torsion.WallShear(levelCut(box, 1.2, 0), section.Forces{T: 1e6})
	require.NoError(t, err)
	require.Positive(t, left.Flow, "right hand about +x: up on the left")
	require.InEpsilon(t, -right.Flow, left.Flow, 1e-6)
	floor := section.Cut{From: section.Point{Y: 0, Z: 0.22}, To: section.Point{Y: 0, Z: 0}}
	below, err := torsion.WallShear(floor, section.Forces{T: 1e6})
	require.NoError(t, err)
	require.InEpsilon(t, left.Flow, below.Flow, 0.02, "the flow is nearly even round a thin cell")
	require.InDelta(t, 0.22, below.Thickness, 1e-12)
	require.InDelta(t, below.Flow/0.22, below.Mean, 1e-6)
	require.InDelta(t, 1, below.Towards.Y, 1e-12)
}

func TestForcesThroughTheShearCentreDoNotTwist(t *testing.T) {
	open, err := half.Shape()
	require.NoError(t, err)
	torsion := torsionOf(t, open)
	c, err := torsion.ShearCentre(0)
	require.NoError(t, err)
	g := open.Properties().Centroid
	// Reaction up at a left support, through the shear centre: V = +1 acts downwards
	// on the face towards +x at the shear centre; moved to the centroid it has T.
	f := section.Forces{Vz: 1e5, T: -1e5 * (c.Y - g.Y)}
	require.InDelta(t, 0, torsion.AboutShearCentre(f), 1e-6)
	f = section.Forces{Vy: 1e5, T: 1e5 * (c.Z - g.Z)}
	require.InDelta(t, 0, torsion.AboutShearCentre(f), 1e-6)
	require.InDelta(t, 7, section.Torsion{}.AboutShearCentre(section.Forces{T: 7, Vz: 3}), 0)
}

func TestAcrossASlopingWeb(t *testing.T) {
	box, err := usual.Shape()
	require.NoError(t, err)
	cut, err := box.Across(section.Point{Y: usual.WebCentre(1.1) + 0.01, Z: 1.1})
	require.NoError(t, err)
	require.InDelta(t, 0.32, cut.Thickness(), 1e-12)
	for _, p := range []section.Point{{Y: 0, Z: 1}, {Y: 20, Z: 1}, {Y: math.NaN(), Z: 1}} {
		_, err = box.Across(p)
		require.ErrorIs(t, err, section.ErrShape)
	}
	_, err = section.Shape{}.Across(section.Point{})
	require.ErrorIs(t, err, section.ErrShape)
}

func TestWallShearRefuses(t *testing.T) {
	shape := hollow(t)
	torsion := torsionOf(t, shape)
	good := section.Cut{From: section.Point{Y: 0.5, Z: 1}, To: section.Point{Y: 1, Z: 1}}
	for words, try := range map[string]struct {
		cut section.Cut
		f   section.Forces
	}{
		"finite forces":       {good, section.Forces{Vz: math.NaN()}},
		"from the outline":    {section.Cut{From: section.Point{Y: 0.6, Z: 1}, To: section.Point{Y: 1, Z: 1}}, section.Forces{}},
		"leaves the concrete": {section.Cut{From: section.Point{Y: -1, Z: 1}, To: section.Point{Y: 1, Z: 1}}, section.Forces{}},
		"of no length":        {section.Cut{From: good.From, To: good.From}, section.Forces{}},
		"cut that ends at":    {section.Cut{From: section.Point{Y: math.NaN()}, To: good.To}, section.Forces{}},
	} {
		_, err := torsion.WallShear(try.cut, try.f)
		require.ErrorIs(t, err, section.ErrShape, words)
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must be", words)
	}
	_, err := section.Torsion{}.WallShear(good, section.Forces{})
	require.ErrorIs(t, err, section.ErrShape)
}

// The stress, integrated over the section, gives back the forces: nothing in the
// solution uses that.
func TestShearStressIsInEquilibriumWithItsForces(t *testing.T) {
	open, err := half.Shape()
	require.NoError(t, err)
	torsion, g := torsionOf(t, open), open.Properties().Centroid
	for _, f := range []section.Forces{{Vy: 1}, {Vz: 1}, {T: 1}} {
		var vy, vz, torque float64
		levels := []float64{0, 0.2, 0.3, 1.43, 1.45, 1.58, 1.62, 1.8} // of the corners
		for i := 1; i < len(levels); i++ {
			const rows = 5
			for row := range rows {
				z := levels[i-1] + (float64(row)+0.5)/rows*(levels[i]-levels[i-1])
				for _, chord := range open.Chords(z) {
					columns := math.Ceil((chord.To - chord.From) / 0.04)
					area := (levels[i] - levels[i-1]) / rows * (chord.To - chord.From) / columns
					for column := range int(columns) {
						y := chord.From + (float64(column)+0.5)/columns*(chord.To-chord.From)
						τ, err := torsion.ShearStress(section.Point{Y: y, Z: z}, f)
						require.NoError(t, err)
						vy, vz = vy-τ.XY*area, vz-τ.XZ*area
						torque += ((y-g.Y)*τ.XZ - (z-g.Z)*τ.XY) * area
					}
				}
			}
		}
		require.InDelta(t, f.Vy, vy, 0.02, "a grid of 40 mm")
		require.InDelta(t, f.Vz, vz, 0.02)
		require.InDelta(t, f.T, torque, 0.02)
	}
	for _, p := range []section.Point{{Y: 0, Z: 0.5}, {Y: math.NaN()}} {
		_, err := torsion.ShearStress(p, section.Forces{})
		require.ErrorIs(t, err, section.ErrShape)
	}
	_, err = torsion.ShearStress(g, section.Forces{T: math.Inf(1)})
	require.ErrorIs(t, err, section.ErrShape)
}
