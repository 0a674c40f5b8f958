package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

var usual = section.Box{
	Depth: 2.3, TopWidth: 9.2, RootWidth: 5.2, BottomWidth: 4.4, TopSlab: 0.24, BottomSlab: 0.22, WebThickness: 0.32,
	CantileverRoot: 0.4, CantileverTip: 0.2,
	TopHaunch: section.Haunch{Width: 0.6, Height: 0.2}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.2},
}

func TestBoxDrawsTheDimensionsItWasGiven(t *testing.T) {
	shape, err := usual.Shape()
	require.NoError(t, err)
	p := shape.Properties()
	require.InDelta(t, 0, p.Centroid.Y, 1e-12)
	require.InDelta(t, 0, p.ProductMoment, 1e-12)
	require.InDelta(t, 9.2, p.Left+p.Right, 1e-12)
	require.InDelta(t, 2.3, p.Top+p.Bottom, 1e-12)
	// Wall thicknesses, measured on the drawing.
	web := section.Point{Y: usual.WebCentre(1.0), Z: 1.0}
	require.InDelta(t, 0.16, shape.Clearance(web), 1e-12, "half the web, square to its faces")
	require.InDelta(t, 0.12, shape.Clearance(section.Point{Y: 0, Z: 2.18}), 1e-12)
	require.InDelta(t, 0.11, shape.Clearance(section.Point{Y: 0, Z: 0.11}), 1e-12)
	require.Len(t, shape.Corners(), 16)

	// Area by trapezia: outer outline less the void.
	slope := 0.4 / 1.9
	inner := func(z float64) float64 { return 2.2 + slope*z - 0.32*math.Hypot(1, slope) }
	outer := (4.4+5.2)*1.9/2 + (5.2+9.2)*0.2/2 + 9.2*0.2
	void := (inner(0.22)+inner(2.06))*1.84 - 0.6*0.2 - 0.3*0.2
	// A haunch triangle has one side along the sloping web: its area is width·height/2
	// whatever the slope, because height is measured vertically.
	require.InDelta(t, outer-void, p.Area, 1e-12)

	rectangular := section.Box{Depth: 2, TopWidth: 3, RootWidth: 3, BottomWidth: 3, TopSlab: 0.2, BottomSlab: 0.2,
		WebThickness: 0.3, CantileverRoot: 0.2, CantileverTip: 0.2}
	shape, err = rectangular.Shape()
	require.NoError(t, err)
	require.InDelta(t, 3*2-2.4*1.6, shape.Properties().Area, 1e-12)
}

func TestBoxRefuses(t *testing.T) {
	change := func(f func(*section.Box)) section.Box { b := usual; f(&b); return b }
	for name, box := range map[string]section.Box{
		"Depth = NaN":            change(func(b *section.Box) { b.Depth = math.NaN() }),
		"TopWidth = +Inf":        change(func(b *section.Box) { b.TopWidth = math.Inf(1) }),
		"BottomSlab = 0":         change(func(b *section.Box) { b.BottomSlab = 0 }),
		"WebThickness = -0.3":    change(func(b *section.Box) { b.WebThickness = -0.3 }),
		"WebThickness = 3":       change(func(b *section.Box) { b.WebThickness = 3 }),
		"TopSlab + BottomSlab":   change(func(b *section.Box) { b.TopSlab = 2.2 }),
		"RootWidth = 9.3":        change(func(b *section.Box) { b.RootWidth = 9.3 }),
		"CantileverRoot = 2.2":   change(func(b *section.Box) { b.CantileverRoot = 2.2 }),
		"CantileverTip = 0.5":    change(func(b *section.Box) { b.CantileverTip = 0.5 }),
		"TopHaunch.Width = 3":    change(func(b *section.Box) { b.TopHaunch.Width = 3 }),
		"BottomHaunch.Width = 3": change(func(b *section.Box) { b.BottomHaunch.Width = 3 }),
		"TopHaunch = 0.6 × 0":    change(func(b *section.Box) { b.TopHaunch.Height = 0 }),
		"BottomHaunch = 0.3 × Na": change(func(b *section.Box) {
			b.BottomHaunch.Height = math.NaN()
		}),
		"TopHaunch.Height": change(func(b *section.Box) { b.TopHaunch.Height = 1.8 }),
	} {
		_, err := box.Shape()
		require.ErrorIs(t, err, section.ErrShape, name)
		require.ErrorContains(t, err, "Box."+name)
		require.ErrorContains(t, err, "must be")
	}
}

func TestNewRefuses(t *testing.T) {
	outer := rectangle(0, 0, 2, 3)
	for name, c := range map[string]struct {
		solids, voids []section.Outline
		words         string
	}{
		"nothing":         {nil, nil, "no solid outline"},
		"two corners":     {[]section.Outline{{{Y: 0, Z: 0}, {Y: 1, Z: 1}}}, nil, "2 corners"},
		"nan":             {[]section.Outline{{{Y: 0, Z: 0}, {Y: math.NaN(), Z: 1}, {Y: 1, Z: 0}}}, nil, "corner 2"},
		"inf":             {[]section.Outline{{{Y: 0, Z: 0}, {Y: 1, Z: math.Inf(-1)}, {Y: 1, Z: 0}}}, nil, "corner 2"},
		"repeated":        {[]section.Outline{{{Y: 0, Z: 0}, {Y: 0, Z: 0}, {Y: 1, Z: 1}}}, nil, "corners 1 and 2"},
		"bow tie":         {[]section.Outline{{{Y: 0, Z: 0}, {Y: 2, Z: 2}, {Y: 2, Z: 0}, {Y: 0, Z: 2}}}, nil, "crosses or touches itself"},
		"flat":            {[]section.Outline{{{Y: 0, Z: 0}, {Y: 2, Z: 0}, {Y: 1, Z: 0}}}, nil, "folds back"},
		"spike":           {[]section.Outline{{{Y: 0, Z: 0}, {Y: 2, Z: 0}, {Y: 1, Z: 0}, {Y: 1, Z: 1}}}, nil, "folds back"},
		"touches itself":  {[]section.Outline{{{Y: 0, Z: 0}, {Y: 4, Z: 0}, {Y: 4, Z: 4}, {Y: 2, Z: 0}, {Y: 0, Z: 4}}}, nil, "crosses or touches itself"},
		"void crosses":    {[]section.Outline{outer}, []section.Outline{rectangle(1, 1, 2, 1)}, "crosses or touches solid outline 1"},
		"void touches":    {[]section.Outline{outer}, []section.Outline{rectangle(0, 1, 1, 1)}, "crosses or touches solid outline 1"},
		"void outside":    {[]section.Outline{outer}, []section.Outline{rectangle(5, 1, 1, 1)}, "outside every solid"},
		"voids overlap":   {[]section.Outline{outer}, []section.Outline{rectangle(0.2, 1, 1, 1), rectangle(0.5, 1.5, 1, 1)}, "void outline 2 crosses"},
		"void in void":    {[]section.Outline{outer}, []section.Outline{rectangle(0.2, 1, 1, 1), rectangle(0.5, 1.5, 0.2, 0.2)}, "void outline 2 is inside void outline 1"},
		"solid in solid":  {[]section.Outline{outer, rectangle(0.5, 1, 1, 1)}, nil, "solid outline 2 is inside solid outline 1"},
		"too many points": {[]section.Outline{make(section.Outline, 4001)}, nil, "4001 corners"},
	} {
		_, err := section.New(c.solids, c.voids)
		require.ErrorIs(t, err, section.ErrShape, name)
		require.ErrorContains(t, err, c.words, name)
	}
}

func TestInclusionsMustLieInTheConcrete(t *testing.T) {
	shape := hollow(t)
	for _, inclusion := range []section.Inclusion{
		section.Duct(section.Point{Y: 0, Z: 1.5}, 0.1),
		section.Duct(section.Point{Y: 0, Z: 0.04}, 0.1),
		section.Duct(section.Point{Y: 0, Z: math.NaN()}, 0.1),
		section.Duct(section.Point{Y: 0, Z: 0.2}, 0),
		section.BondedSteel(section.Point{Y: 0, Z: 0.2}, 1e-3, math.Inf(1)),
		section.BondedSteel(section.Point{Y: 0, Z: 0.2}, 1e-3, -1),
	} {
		_, err := shape.With(inclusion)
		require.ErrorIs(t, err, section.ErrShape)
	}
}

func FuzzNew(f *testing.F) {
	f.Add(0.0, 0.0, 4.0, 0.0, 4.0, 2.0, 0.0, 2.0, 1.0, 0.5)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i, j, k float64) {
		solid := section.Outline{{Y: a, Z: b}, {Y: c, Z: d}, {Y: e, Z: g}, {Y: h, Z: i}}
		void := section.Outline{{Y: j, Z: k}, {Y: j + 0.1, Z: k}, {Y: j, Z: k + 0.1}}
		shape, err := section.New([]section.Outline{solid}, []section.Outline{void})
		if err != nil {
			require.ErrorIs(t, err, section.ErrShape)
			return
		}
		p := shape.Properties()
		for _, v := range []float64{p.Area, p.Centroid.Y, p.Centroid.Z, p.SecondMomentY, p.SecondMomentZ, p.ProductMoment} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
		}
		require.Positive(t, p.Area)
	})
}

// Any list of floats gives a valid Shape whose every answer is finite, or an
// error.
func FuzzAnyOutline(f *testing.F) {
	f.Add([]byte{0, 0, 40, 0, 40, 20, 0, 20}, 0.1, 0.0)
	f.Add([]byte{0, 0, 90, 0, 90, 9, 8, 9, 8, 70, 0, 70}, 1e-3, 5.0)
	f.Fuzz(func(t *testing.T, data []byte, scale, shift float64) {
		var o section.Outline
		for i := 0; i+1 < len(data) && len(o) < 40; i += 2 {
			o = append(o, section.Point{Y: shift + scale*float64(data[i]), Z: scale * float64(data[i+1])})
		}
		shape, err := section.New([]section.Outline{o}, nil)
		if err != nil {
			require.ErrorIs(t, err, section.ErrShape)
			return
		}
		p := shape.Properties()
		m, e := shape.PrincipalModuli(), shape.Extremes(p.Plane(section.Forces{N: 1, My: 2, Mz: 3}))
		size, err := shape.NotionalSize(nil)
		require.NoError(t, err)
		values := []float64{p.Area, p.Centroid.Y, p.SecondMomentY, p.ProductMoment, m.MajorAhead, m.MajorBehind, m.MinorAhead,
			m.MinorBehind, e.Most, e.Least, size, shape.Above(p.Centroid.Z).FirstMomentY, p.ShearFlow(shape.Above(p.Centroid.Z), section.Forces{Vz: 1})}
		for _, k := range shape.Kern() {
			values = append(values, k.Y, k.Z)
		}
		for _, v := range values {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
		}
		_, err = section.New(shape.Mirrored().Solids(), nil)
		require.NoError(t, err)
	})
}

func BenchmarkProperties40Corners(b *testing.B) {
	circle := section.Outline{}
	for i := range 40 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 40)
		circle = append(circle, section.Point{Y: cos, Z: sin})
	}
	shape, err := section.New([]section.Outline{circle}, nil)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_ = shape.Properties()
	}
}
