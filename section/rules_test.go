package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func TestWebWidth(t *testing.T) {
	for _, c := range []struct {
		filling   section.Filling
		diameters []float64
		want      float64
	}{
		{section.NotGrouted, nil, 0.4},
		{section.NotGrouted, []float64{0.03}, 0.4 - 1.2*0.03},
		{section.NotGrouted, []float64{0.1, 0.1}, 0.4 - 1.2*0.2},
		{section.GroutedMetal, []float64{0.1}, 0.4 - 0.5*0.1},
		{section.GroutedMetal, []float64{0.05}, 0.4}, // not more than b/8
	} {
		width, err := section.WebWidth(0.4, c.filling, c.diameters...)
		require.NoError(t, err)
		require.InDelta(t, c.want, width, 1e-12)
	}
	for _, err := range []error{
		second(section.WebWidth(0, section.NotGrouted)),
		second(section.WebWidth(math.NaN(), section.NotGrouted)),
		second(section.WebWidth(0.4, section.Filling(7))),
		second(section.WebWidth(0.4, section.NotGrouted, 0.4)),
		second(section.WebWidth(0.4, section.NotGrouted, -0.1)),
		second(section.EffectiveWidth(0, 0.4)),
		second(section.EffectiveWidth(20, math.Inf(1))),
		second(section.EffectiveWidth(20, 0.4, math.NaN())),
	} {
		require.ErrorIs(t, err, section.ErrShape)
		require.ErrorContains(t, err, "must be")
	}
}

func second(_ float64, err error) error { return err }

func TestEffectiveWidth(t *testing.T) {
	for _, c := range []struct {
		zeroMoments float64
		overhang    float64
		want        float64
	}{
		{30, 2, 2},           // 0.4 + 3 > b: all of it
		{10, 2, 0.4 + 1},     // 0.2·b + 0.1·l0
		{4, 3, 0.8},          // at most 0.2·l0
		{10, 10, 0.2 * 10.0}, // both limits meet
	} {
		width, err := section.EffectiveWidth(c.zeroMoments, 0.3, c.overhang, c.overhang)
		require.NoError(t, err)
		require.InDelta(t, 0.3+2*c.want, width, 1e-12)
	}
}

func TestNotionalSize(t *testing.T) {
	shape := hollow(t) // A = 4, outside 10, inside 6
	for name, c := range map[string]struct {
		exposed func(section.Face) float64
		want    float64
	}{
		"all by default": {nil, 8.0 / 16},
		"all":            {section.AllFaces, 8.0 / 16},
		"outside":        {section.OuterFaces, 8.0 / 10},
		"half in voids": {func(f section.Face) float64 {
			if f.Void {
				return 0.5
			}
			return 1
		}, 8.0 / 13},
		"top sealed": {func(f section.Face) float64 {
			if f.From.Z == 3 && f.To.Z == 3 {
				return 0
			}
			return 1
		}, 8.0 / 14},
	} {
		size, err := shape.NotionalSize(c.exposed)
		require.NoError(t, err)
		require.InDelta(t, c.want, size, 1e-12, name)
	}
	for _, share := range []float64{0, -1, 2, math.NaN()} {
		_, err := shape.NotionalSize(func(section.Face) float64 { return share })
		require.ErrorIs(t, err, section.ErrShape)
	}
	_, err := section.Shape{}.NotionalSize(nil)
	require.ErrorIs(t, err, section.ErrShape)
}

func TestHandFormulasOfTorsion(t *testing.T) {
	square := section.Outline{{Y: 0, Z: 0}, {Y: 0, Z: 2}, {Y: 2, Z: 2}, {Y: 2, Z: 0}}
	j, err := section.Bredt(square, 0.1)
	require.NoError(t, err)
	require.InDelta(t, 4*16/(8/0.1), j, 1e-12)
	j, err = section.Bredt(square, 0.1, 0.2, 0.1, 0.2)
	require.NoError(t, err)
	require.InDelta(t, 4*16/(4/0.1+4/0.2), j, 1e-12)
	j, err = section.ThinWalled(section.Strip{Length: 3, Thickness: 0.2}, section.Strip{Length: 1, Thickness: 0.3})
	require.NoError(t, err)
	require.InDelta(t, 0.008+0.009, j, 1e-12)
	rectangular := section.Box{Depth: 2, TopWidth: 3, RootWidth: 3, BottomWidth: 3, TopSlab: 0.2, BottomSlab: 0.25,
		WebThickness: 0.3, LeftWebThickness: 0.4, CantileverRoot: 0.2, CantileverTip: 0.2}
	j, err = rectangular.Bredt()
	require.NoError(t, err)
	width, height := 3-0.35, 2-0.225
	require.InDelta(t, 4*width*width*height*height/(width/0.2+width/0.25+height/0.3+height/0.4), j, 1e-9)
	for _, err := range []error{
		second(section.Bredt(square)),
		second(section.Bredt(square, 0.1, 0.2)),
		second(section.Bredt(square, 0)),
		second(section.Bredt(square, math.Inf(1))),
		second(section.Bredt(square[:2], 0.1)),
		second(section.ThinWalled(section.Strip{Length: 1})),
		second(section.ThinWalled(section.Strip{Length: math.NaN(), Thickness: 1})),
		second(section.Box{}.Bredt()),
	} {
		require.ErrorIs(t, err, section.ErrShape)
	}
}
