package tendon_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

func TestHoldDownIsTheDeviation(t *testing.T) {
	tn := external(0)
	tn.Plan = tendon.Level(0, 36, 0)
	f, err := tn.Jack(step("X", 1300e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	d := f.Deviations()
	require.Len(t, d, 2)
	require.InEpsilon(t, of(t)(tendon.HoldDown(f.At(5), d[0].SlopeIn, d[0].SlopeOut)), d[0].Z, 1e-12)
	require.InEpsilon(t, 2*f.At(5)*math.Sin(d[0].Angle/2), d[0].Force, 1e-12)
}

func TestRadialForceOfAnArc(t *testing.T) {
	tn := straight(20, 0, 0)
	tn.Elevation = tendon.Curve{tendon.Arc(tendon.Point{Ordinate: 1}, -0.2, 50, 20)}
	f, err := tn.Jack(step("S", 1300e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	perMetre, curvature := f.Radial(7)
	require.InEpsilon(t, 1./50, curvature, 1e-12)
	require.InEpsilon(t, 1300e6*1800e-6/50, perMetre, 1e-12)
	for _, off := range []float64{-1, 21, math.NaN()} {
		perMetre, curvature = f.Radial(off)
		require.Zero(t, perMetre)
		require.Zero(t, curvature)
	}
	sharp, at := f.Path.Sharpest()
	require.InEpsilon(t, 1./50, sharp, 1e-12)
	require.GreaterOrEqual(t, at, 0.0)
	plain, err := straight(20, 0, 0).Path()
	require.NoError(t, err)
	sharp, at = plain.Sharpest()
	require.Zero(t, sharp+at)
	drape, err := draped().Path()
	require.NoError(t, err)
	sharp, at = drape.Sharpest()
	require.InEpsilon(t, 1.3/8/10, sharp, 1e-9)
	require.InDelta(t, 13, at, 1e-9, "a parabola is tightest where it is level")
}

func TestAnchors(t *testing.T) {
	f, err := draped().Jack(step("D", 1400e6, tendon.RightEnd, 0.006))
	require.NoError(t, err)
	anchors := f.Anchors()
	require.False(t, anchors[0].Jacked)
	require.True(t, anchors[1].Jacked)
	require.InEpsilon(t, 1400e6*1800e-6, anchors[1].Jacking, 1e-12)
	require.Less(t, anchors[1].Force, anchors[1].Jacking)
	require.InDelta(t, math.Atan(1.3/8), anchors[0].Inclination, 1e-12)
}

func TestBursting(t *testing.T) {
	zone := tendon.AnchorZone{Force: 2500e3, Plate: 0.25, Depth: 1, Eccentricity: 0.1, Inclination: 0.1}
	b, err := zone.AASHTO()
	require.NoError(t, err)
	require.InEpsilon(t, 1.2*(468.75e3+0.5*2500e3*math.Sin(0.1)), b.Tension, 1e-12)
	require.InDelta(t, 0.4+0.5*math.Sin(0.1), b.Centre, 1e-12)
	away := zone
	away.Inclination = -0.05
	outward, err := away.AASHTO()
	require.NoError(t, err)
	require.InEpsilon(t, 1.2*(468.75e3+0.5*2500e3*math.Sin(0.05)), outward.Tension, 1e-12)
	require.InDelta(t, 0.4-0.5*math.Sin(0.05), outward.Centre, 1e-12, "the distance has the sign of the angle")
	edge := zone
	edge.Eccentricity = 0.375
	_, err = edge.EN()
	require.ErrorIs(t, err, tendon.ErrTendon)
	require.ErrorContains(t, err, "Plate = 0.25 m reaches the edge of its prism, Depth − 2·|Eccentricity| = 0.25 m")
	e, err := zone.EN()
	require.NoError(t, err)
	require.InEpsilon(t, 1.2*2500e3/4*(1-0.25/0.8), e.Tension, 1e-12)
	require.InEpsilon(t, e.Tension/300e6, e.Steel, 1e-12)
	require.InDelta(t, (0.6-0.125)*1.5, e.Dispersion, 1e-12)
	for _, line := range append(b.Derivation, e.Derivation...) {
		value, err := line.Recompute()
		require.NoError(t, err)
		require.InEpsilon(t, line.Result.Value, value, 1e-12)
	}
	for words, change := range map[string]func(*tendon.AnchorZone){
		"Force = NaN N":                   func(z *tendon.AnchorZone) { z.Force = math.NaN() },
		"Plate = 2 m":                     func(z *tendon.AnchorZone) { z.Plate = 2 },
		"Depth = 0 m":                     func(z *tendon.AnchorZone) { z.Depth = 0 },
		"plate reaches 0.555 m":           func(z *tendon.AnchorZone) { z.Eccentricity = 0.43 },
		"Inclination = 2 rad":             func(z *tendon.AnchorZone) { z.Inclination = 2 },
		"Eccentricity = 0.2 m: must be u": func(z *tendon.AnchorZone) { z.Eccentricity = 0.2 },
		"Inclination = 0.4 rad":           func(z *tendon.AnchorZone) { z.Inclination = 0.4 },
	} {
		z := zone
		change(&z)
		_, err := z.AASHTO()
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		require.ErrorContains(t, err, words)
	}
	zone.Plate = 2
	_, err = zone.EN()
	require.ErrorIs(t, err, tendon.ErrTendon)
}

func TestDuctFits(t *testing.T) {
	require.NoError(t, draped().CheckDuct(0.25, 0.08))
	require.ErrorContains(t, draped().CheckDuct(0.2, 0.06), "Duct = 0.09 m does not fit 0.2 m of concrete with 0.06 m of cover on each side: must be up to 0.08 m")
	require.ErrorIs(t, draped().CheckDuct(0, 0), tendon.ErrTendon)
	require.ErrorIs(t, draped().CheckDuct(math.Inf(1), math.Inf(1)), tendon.ErrTendon)
	unknown := draped()
	unknown.Duct = math.NaN()
	require.ErrorContains(t, unknown.CheckDuct(0.25, 0.08), "Duct = NaN m does not fit")
	require.InDelta(t, 0.12, tendon.WidestDuctAASHTO(0.3), 1e-15)
}

func TestEverySteelIsATendon(t *testing.T) {
	names := map[string]bool{}
	for _, s := range tendon.Steels() {
		require.False(t, names[s.Name], s.Name)
		names[s.Name] = true
		tn := straight(30, 0.19, 0.005)
		tn.Strand, tn.Strands = s, 1
		require.NoError(t, tn.Check(), s.Name)
		require.True(t, s.Source.Confirm)
		require.Positive(t, s.Diameter)
		require.NotEqual(t, "not stated", s.Relaxation.String())
		filled := s.Area / (math.Pi * s.Diameter * s.Diameter / 4)
		require.True(t, filled > 0.7 && filled < 1.1, "%s fills %.2f of its circle", s.Name, filled)
	}
}

func TestTransmission(t *testing.T) {
	base := tendon.Transmission{Strand: tendon.Y1860S7x157, Stress: 1395e6, TensileMean: 2.7e6, Release: tendon.Gradual}
	l, err := base.Length()
	require.NoError(t, err)
	require.InDelta(t, 1.03206, l.Basic, 1e-5) // recomputed by another hand
	require.InDelta(t, 0.82565, l.Short, 1e-5)
	require.InDelta(t, 1.23848, l.Long, 1e-5)
	worse := base
	worse.Release, worse.PoorBond, worse.IndentedWire = tendon.Sudden, true, true
	w, err := worse.Length()
	require.NoError(t, err)
	require.InEpsilon(t, 1.25*(0.25/0.19)*(3.2/2.7)/0.7, w.Basic/l.Basic, 1e-12)
	length, err := tendon.TransferLengthAASHTO(tendon.Grade270x06)
	require.NoError(t, err)
	require.InDelta(t, 36*0.0254, length, 1e-12)
	for _, diameter := range []float64{0, -0.01, math.NaN(), math.Inf(1)} {
		_, err = tendon.TransferLengthAASHTO(tendon.Strand{Diameter: diameter})
		require.ErrorIs(t, err, tendon.ErrTendon)
		require.ErrorContains(t, err, "Strand.Diameter")
	}
	for words, change := range map[string]func(*tendon.Transmission){
		"Strand.Diameter = 0 m":       func(t *tendon.Transmission) { t.Strand.Diameter = 0 },
		"Stress = NaN Pa":             func(t *tendon.Transmission) { t.Stress = math.NaN() },
		"TensileMean = 0 Pa":          func(t *tendon.Transmission) { t.TensileMean = 0 },
		"PartialFactor = 9":           func(t *tendon.Transmission) { t.PartialFactor = 9 },
		"TensileFraction = 3":         func(t *tendon.Transmission) { t.TensileFraction = 3 },
		"Release is not stated: must": func(t *tendon.Transmission) { t.Release = 0 },
	} {
		tr := base
		change(&tr)
		_, err := tr.Length()
		require.ErrorIs(t, err, tendon.ErrTendon)
		require.ErrorContains(t, err, words)
	}
}
