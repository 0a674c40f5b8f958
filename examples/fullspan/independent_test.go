package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/limits"
)

// The numbers below were got by a calculation of its own, written from a
// description of the girder and its stages alone. Reactions, forces and stresses
// agree to three digits or better.
func TestIndependentCalculation(t *testing.T) {
	element, err := girder()
	require.NoError(t, err)
	a, err := plan().Analyse(element, limits.EN1992{})
	require.NoError(t, err)
	for _, c := range []struct {
		stage, situation int
		a, b             [2]float64    // characteristic reaction of one support at each end, kN
		stress           [3][2]float64 // nominal at x = 1.7, 8.5, 17 m: edge of the soffit, tip of the cantilever, MPa
	}{
		{1, 1, [2]float64{1110.28, 1204.28}, [2]float64{1121.67, 1192.18}, [3][2]float64{{-5.5789, -1.4006}, {-4.5258, -2.0495}, {-3.7958, -2.5231}}},
		{2, 1, [2]float64{991.78, 1332.26}, [2]float64{1009.41, 1311.53}, [3][2]float64{{-6.2869, -.9888}, {-5.2257, -1.6442}, {-4.4924, -2.1197}}},
		{3, 1, [2]float64{1007.96, 1305.86}, [2]float64{1007.96, 1305.86}, [3][2]float64{{-5.9043, -1.1919}, {-4.8345, -1.8496}, {-4.0975, -2.3264}}},
		{3, 2, [2]float64{1007.57, 1306.25}, [2]float64{1007.57, 1306.25}, [3][2]float64{{-5.8340, -1.1836}, {-4.7330, -1.8561}, {-3.9863, -2.3383}}},
		{4, 1, [2]float64{1027.97, 1285.85}, [2]float64{1027.97, 1285.85}, [3][2]float64{{-7.8069, -1.4903}, {-7.8888, -1.5366}, {-7.5751, -1.8084}}},
		{4, 2, [2]float64{1027.94, 1285.88}, [2]float64{1027.94, 1285.88}, [3][2]float64{{-7.7798, -1.4873}, {-7.8357, -1.5411}, {-7.5077, -1.8169}}},
		{5, 1, [2]float64{991.78, 1332.26}, [2]float64{1009.41, 1311.53}, [3][2]float64{{-8.0844, -1.2766}, {-8.0995, -1.3455}, {-7.7551, -1.6277}}}, // suspended as in stage 2, stressed as in stage 6
		{6, 1, [2]float64{953.13, 1380.46}, [2]float64{1002.31, 1319.06}, [3][2]float64{{-8.0844, -1.2766}, {-8.0995, -1.3455}, {-7.7551, -1.6277}}},
		{7, 1, [2]float64{991.20, 1333.01}, [2]float64{1008.83, 1312.28}, [3][2]float64{{-8.0844, -1.2766}, {-8.0995, -1.3455}, {-7.7551, -1.6277}}},
		{8, 1, [2]float64{921.62, 1392.21}, [2]float64{921.62, 1392.21}, [3][2]float64{{-7.1774, -1.7844}, {-7.2046, -1.8523}, {-6.8662, -2.1329}}},
	} {
		e, err := a.Effects(c.stage, c.situation)
		require.NoError(t, err)
		for end, want := range [][2]float64{c.a, c.b} {
			for _, r := range e.Reactions[2*end : 2*end+2] {
				require.InDelta(t, 1156.91e3, r.Nominal, 300, "stage %d", c.stage)
				require.InEpsilon(t, want[0], r.Characteristic.Least/1e3, 1e-3, "stage %d.%d, end %d, least", c.stage, c.situation, end)
				require.InEpsilon(t, want[1], r.Characteristic.Most/1e3, 1e-3, "stage %d.%d, end %d, most", c.stage, c.situation, end)
			}
		}
		for i, x := range []float64{1.7, 8.5, 17} {
			plane := e.Stress(x + 1e-6)
			for k, p := range []section.Point{{Y: 1.75}, {Y: 4.8, Z: 2.4}} {
				require.InDelta(t, c.stress[i][k], plane.At(p)/1e6, max(0.005, 1e-3*math.Abs(c.stress[i][k])), "stage %d.%d, x = %g m", c.stage, c.situation, x)
			}
		}
	}
}
