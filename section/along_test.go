package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func shapeOf(t testing.TB, solids []section.Outline, voids ...section.Outline) section.Shape {
	t.Helper()
	shape, err := section.New(solids, voids)
	require.NoError(t, err)
	return shape
}

func plain(t testing.TB, width, depth float64) section.Shape {
	return shapeOf(t, []section.Outline{rectangle(-width/2, 0, width, depth)})
}

func TestTaperIsAFrustum(t *testing.T) {
	along, err := section.Taper{From: 2, To: 8, Left: plain(t, 2, 4), Right: plain(t, 1, 2)}.Along()
	require.NoError(t, err)
	require.Equal(t, []float64{2, 8}, along.Breaks())
	require.InDelta(t, 1.5*3, along.At(5).Properties().Area, 1e-12)
	require.InDelta(t, 8, along.At(-1).Properties().Area, 1e-12, "stays as at the end")
	require.InDelta(t, 2, along.At(9).Properties().Area, 1e-12)
	body := section.Volume(along, 10)
	frustum := 6.0 / 3 * (8 + 2 + 4)
	require.InDelta(t, 2*8+frustum+2*2, body.Volume, 1e-12)
	// Distance of a frustum's centre of gravity from its larger end: h/4·(A+2√(AB)+3B)/(A+√(AB)+B).
	centre := 6.0 / 4 * (8 + 2*4 + 3*2) / (8 + 4 + 2)
	require.InDelta(t, (16*1+frustum*(2+centre)+4*9)/body.Volume, body.X, 1e-12)
	require.InDelta(t, 0, body.Y, 1e-12)
}

func TestParabolicSoffit(t *testing.T) {
	deep := shapeOf(t, []section.Outline{rectangle(-1, -3, 2, 3)})
	shallow := shapeOf(t, []section.Outline{rectangle(-1, -1, 2, 1)})
	for law, depth := range map[section.Law]float64{section.Straight: 2, section.FlatAtLeft: 2.5, section.FlatAtRight: 1.5} {
		along, err := section.Taper{To: 20, Left: deep, Right: shallow, Law: law}.Along()
		require.NoError(t, err)
		require.InDelta(t, 2*depth, along.At(10).Properties().Area, 1e-12, "law %d", law)
	}
	along, err := section.Taper{To: 20, Left: deep, Right: shallow, Law: section.FlatAtRight}.Along()
	require.NoError(t, err)
	body := section.Volume(along, 20)
	// Depth d = 1 + 2u² with u = 1 − x/20.
	require.InDelta(t, 2*20*(1+2.0/3), body.Volume, 1e-11)
	require.InDelta(t, 2*400*(1.0/2+2*(1.0/3-1.0/4))/body.Volume, body.X, 1e-11)
	require.InDelta(t, -2*20*(1+4.0/3+4.0/5)/2/body.Volume, body.Z, 1e-11)
	piece := section.Areas(along, 20)[0]
	require.InDeltaSlice(t, []float64{6, -0.4, 0.01, 0, 0}, piece.Coefficients[:], 1e-9)

	same, err := section.Taper{To: 20, Left: deep, Right: shallow, Middle: along.At(10)}.Along()
	require.NoError(t, err)
	for _, x := range []float64{0, 3, 11, 20} {
		require.InDelta(t, along.At(x).Properties().Area, same.At(x).Properties().Area, 1e-12)
	}
}

func TestSolidDiaphragmStretches(t *testing.T) {
	box := hollow(t)
	along, err := section.Stepped{{Until: 1.5, Section: box.Filled()}, {Until: 8.5, Section: box}, {Until: 10, Section: box.Filled()}}.Along()
	require.NoError(t, err)
	require.Equal(t, []float64{1.5, 8.5}, along.Breaks())
	require.InDelta(t, 6, along.At(1.4).Properties().Area, 1e-12)
	require.InDelta(t, 4, along.At(1.5).Properties().Area, 1e-12, "just right of the step")
	require.InDelta(t, 6, along.At(12).Properties().Area, 1e-12)
	body := section.Volume(along, 10)
	require.InDelta(t, 3*6+7*4, body.Volume, 1e-12)
	require.InDelta(t, 5, body.X, 1e-12)
	require.InDelta(t, 1.5, body.Z, 1e-12)

	taper, err := section.Taper{From: 2, To: 4, Left: plain(t, 1, 1), Right: plain(t, 1, 2)}.Along()
	require.NoError(t, err)
	along, err = section.Stepped{{Until: 3, Section: taper}, {Until: 5, Section: plain(t, 1, 3)}, {Until: 6, Section: taper}}.Along()
	require.NoError(t, err)
	require.Equal(t, []float64{2, 3, 5}, along.Breaks())
	require.InDelta(t, 2*1+1*1.25+2*3+1*2, section.Volume(along, 6).Volume, 1e-12)
}

func TestNoLengthHasNoVolume(t *testing.T) {
	for _, length := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		require.Zero(t, section.Volume(hollow(t), length))
		require.Empty(t, section.Areas(hollow(t), length))
	}
	require.Zero(t, section.Volume(nil, 1))
	require.Empty(t, section.Areas(nil, 1))
	require.Zero(t, section.Volume(section.Shape{}, 1))
}

func TestTaperRefuses(t *testing.T) {
	wide := rectangle(0, 0, 100, 2)
	// A thin spike up from the soffit at y = 37: a void that passes it crosses
	// within a thousandth of the way.
	spiked := section.Outline{{Y: 0, Z: 0}, {Y: 37, Z: 0}, {Y: 37.005, Z: 1}, {Y: 37.01, Z: 0}, {Y: 100, Z: 0}, {Y: 100, Z: 2}, {Y: 0, Z: 2}}
	spikedBefore := shapeOf(t, []section.Outline{spiked}, rectangle(1, 0.5, 0.05, 0.1))
	spikedAfter := shapeOf(t, []section.Outline{spiked}, rectangle(98, 0.5, 0.05, 0.1))
	square := shapeOf(t, []section.Outline{{{Y: -1, Z: -1}, {Y: 1, Z: -1}, {Y: 1, Z: 1}, {Y: -1, Z: 1}}})
	turned := shapeOf(t, []section.Outline{{{Y: 1, Z: 1}, {Y: -1, Z: 1}, {Y: -1, Z: -1}, {Y: 1, Z: -1}}})
	low := shapeOf(t, []section.Outline{wide}, rectangle(1, 0.2, 1, 0.1))
	high := shapeOf(t, []section.Outline{wide}, rectangle(1, 1.7, 1, 0.1))
	through := shapeOf(t, []section.Outline{wide}, rectangle(98, 0.2, 1, 0.1))
	for words, taper := range map[string]section.Taper{
		"To = 1 m":                  {From: 2, To: 1, Left: square, Right: square},
		"To = NaN":                  {To: math.NaN(), Left: square, Right: square},
		"To = +Inf":                 {To: math.Inf(1), Left: square, Right: square},
		"Law = 7":                   {To: 1, Left: square, Right: square, Law: 7},
		"must be one of them":       {To: 1, Left: square, Right: square, Middle: square, Law: section.FlatAtLeft},
		"Taper.Right is empty":      {To: 1, Left: square},
		"1 solid and 1 void":        {To: 1, Left: square, Right: low},
		"has 7 corners":             {To: 1, Left: square, Right: shapeOf(t, []section.Outline{spiked})},
		"Taper.Middle has 1":        {To: 1, Left: square, Right: square, Middle: low},
		"begins at another corner":  {To: 1, Left: square, Right: turned}, // by half a turn: all corners would meet half-way
		"of void outline 1 at x":    {To: 1, Left: spikedBefore, Right: spikedAfter},
		"meets the edge from corne": {To: 1, Left: low, Right: through, Middle: through}, // its parabola leaves the solid
	} {
		_, err := taper.Along()
		require.ErrorIs(t, err, section.ErrShape, words)
		require.ErrorContains(t, err, words)
		require.Regexp(t, "must", err.Error())
	}
	for _, taper := range []section.Taper{
		{To: 1, Left: low, Right: high},
		{To: 1, Left: low, Right: through},
		{To: 1, Left: spikedBefore, Right: spikedBefore, Law: section.FlatAtLeft},
	} {
		_, err := taper.Along()
		require.NoError(t, err)
	}
}

func TestSteppedRefuses(t *testing.T) {
	box := hollow(t)
	for words, stepped := range map[string]section.Stepped{
		"no stretch":         nil,
		"stretch 1: Until":   {{Until: 0, Section: box}},
		"stretch 2: Until":   {{Until: 2, Section: box}, {Until: 2, Section: box}},
		"Until = NaN":        {{Until: math.NaN(), Section: box}},
		"Until = +Inf":       {{Until: math.Inf(1), Section: box}},
		"1: Section":         {{Until: 2}},
		"2: Section is empt": {{Until: 2, Section: box}, {Until: 3, Section: section.Shape{}}},
	} {
		_, err := stepped.Along()
		require.ErrorIs(t, err, section.ErrShape, words)
		require.ErrorContains(t, err, words)
	}
}

func FuzzTaper(f *testing.F) {
	f.Add(0.0, 0.0, 4.0, 0.0, 4.0, 2.0, 1.0, 3.0)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i float64) {
		left, err := section.New([]section.Outline{{{Y: a, Z: b}, {Y: c, Z: d}, {Y: e, Z: g}}}, nil)
		if err != nil {
			return
		}
		right, err := section.New([]section.Outline{{{Y: e, Z: b}, {Y: h, Z: d}, {Y: i, Z: g}}}, nil)
		if err != nil {
			return
		}
		along, err := section.Taper{To: 3, Left: left, Right: right, Law: section.FlatAtRight}.Along()
		if err != nil {
			require.ErrorIs(t, err, section.ErrShape)
			return
		}
		for x := range 30 {
			shape := along.At(float64(x) / 10)
			_, err := section.New(shape.Solids(), nil)
			require.NoError(t, err, "every shape on the way is valid")
		}
	})
}
