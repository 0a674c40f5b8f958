package tendon_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

// row is a steel with what its table prints beside diameter, area and strengths: mass and
// forces, recalled, unconfirmed.
type row struct {
	steel           tendon.Strand
	diameter        float64 // mm
	mass            float64 // g/m
	breaking, proof float64 // kN
}

// Area is mass over 7.81 g/cm³, tensile strength breaking force over area, proof stress
// the force at 0.1 % over area, and of one family the ratio of the two is one number.
func TestStrandsFromMassAndForces(t *testing.T) {
	for _, r := range []row{
		{tendon.Y1860S7x125, 12.5, 726, 173, 152}, {tendon.Y1860S7x129, 12.9, 781, 186, 164}, {tendon.Y1860S7x153, 15.3, 1093, 260, 229}, {tendon.Y1860S7x157, 15.7, 1172, 279, 246},
		{tendon.Y1770S7x153, 15.3, 1093, 248, 218}, {tendon.Y1770S7x157, 15.7, 1172, 266, 234},
	} {
		s := r.steel
		require.InDelta(t, r.diameter*1e-3, s.Diameter, 1e-12, s.Name)
		require.InEpsilon(t, r.mass*1e-3/7810, s.Area, 1e-3, s.Name)
		require.InEpsilon(t, r.breaking*1e3, s.Area*s.Fpk, 0.003, s.Name)
		require.InEpsilon(t, r.proof*1e3, s.Area*s.Fp01k, 0.004, s.Name)
		require.InDelta(t, 0.8815, s.Fp01k/s.Fpk, 5e-4, s.Name)
		// Seven equal wires fill 7/9 of the circle around them; the middle one is thicker.
		require.InDelta(t, 7./9, s.Area/(math.Pi/4*s.Diameter*s.Diameter), 0.02, s.Name)
		require.Equal(t, 195e9, s.Modulus)
		require.Equal(t, tendon.Class2, s.Relaxation)
	}
}

// A bar is round: its area is that of its diameter to the square millimetre.
func TestBarsFromTheirDiameters(t *testing.T) {
	for _, family := range []struct {
		bars            [4]tendon.Strand
		tensile, proof  float64 // MPa
		breaking        [4]float64
		proofOfStrength float64
	}{
		{[4]tendon.Strand{tendon.Y1050H265, tendon.Y1050H32, tendon.Y1050H36, tendon.Y1050H40}, 1050, 950, [4]float64{580, 844, 1069, 1320}, 0.905},
		{[4]tendon.Strand{tendon.Y1030H265, tendon.Y1030H32, tendon.Y1030H36, tendon.Y1030H40}, 1030, 835, [4]float64{568, 828, 1049, 1295}, 0.811},
	} {
		for i, diameter := range []float64{26.5, 32, 36, 40} {
			s := family.bars[i]
			require.InDelta(t, diameter*1e-3, s.Diameter, 1e-12, s.Name)
			require.InDelta(t, math.Round(math.Pi/4*diameter*diameter), s.Area*1e6, 0.5+1e-9, s.Name)
			require.InEpsilon(t, family.breaking[i]*1e3, s.Area*s.Fpk, 1e-3, s.Name)
			require.InEpsilon(t, family.proofOfStrength, s.Fp01k/s.Fpk, 1e-3, s.Name)
			require.InEpsilon(t, family.tensile*1e6, s.Fpk, 1e-12)
			require.InEpsilon(t, family.proof*1e6, s.Fp01k, 1e-12)
			require.Equal(t, 205e9, s.Modulus)
			require.Equal(t, tendon.Class3, s.Relaxation)
		}
	}
}

// Of ASTM the grade tables print breaking forces in kip; yield is 0.9 of a strand's and
// 0.8 of a bar's.
func TestASTMSteelsFromTheirForces(t *testing.T) {
	const kip = 4448.2216152605 // N
	for _, r := range []struct {
		steel    tendon.Strand
		diameter float64 // in
		breaking float64 // kip
		yield    float64 // of the strength
		fills    float64 // area over that of the circle
		grade    float64 // ksi
		modulus  float64 // ksi
	}{
		{tendon.Grade270x05, 0.5, 41.3, 0.9, 7. / 9, 270, 28500}, {tendon.Grade270x05Special, 0.52, 45.1, 0.9, 7. / 9, 270, 28500}, {tendon.Grade270x06, 0.6, 58.6, 0.9, 7. / 9, 270, 28500},
		{tendon.Grade250x05, 0.5, 36, 0.9, 0.735, 250, 28500}, {tendon.Grade250x06, 0.6, 54, 0.9, 0.76, 250, 28500},
		{tendon.Grade150x1, 1, 127.5, 0.8, 1.08, 150, 30000}, {tendon.Grade150x125, 1.25, 187.5, 0.8, 1.02, 150, 30000}, {tendon.Grade150x1375, 1.375, 237, 0.8, 1.06, 150, 30000},
		{tendon.Grade150x175, 1.75, 387, 0.8, 1.07, 150, 30000}, {tendon.Grade150x25, 2.5, 774, 0.8, 1.05, 150, 30000},
	} {
		s := r.steel
		require.InEpsilon(t, r.diameter*0.0254, s.Diameter, 1e-12, s.Name)
		require.InEpsilon(t, r.breaking*kip, s.Area*s.Fpk, 2e-3, s.Name)
		require.InEpsilon(t, r.yield, s.Fp01k/s.Fpk, 1e-12, s.Name)
		require.InDelta(t, r.fills, s.Area/(math.Pi/4*s.Diameter*s.Diameter), 0.015, s.Name)
		require.InEpsilon(t, r.grade*kip/(0.0254*0.0254), s.Fpk, 1e-9, s.Name)
		require.InEpsilon(t, r.modulus*kip/(0.0254*0.0254), s.Modulus, 1e-9, s.Name)
	}
	require.Len(t, tendon.Steels(), 24)
	for i, s := range tendon.Steels() {
		for _, other := range tendon.Steels()[:i] {
			require.NotEqual(t, other.Name, s.Name)
		}
	}
}
