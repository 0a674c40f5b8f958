package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Each unit that words use, by hand: 1 m = 3.28084 ft, 1 mm = 0.03937 in, 1 MPa =
// 0.145038 ksi, 1 kPa = 0.000145 ksi, 1 kN = 0.224809 kip, 1 kN·m = 0.737562 kip·ft.
func TestEveryUnitOfWordsIsConverted(t *testing.T) {
	for text, want := range map[string]string{
		"100.000 m": "328.084 ft (100.000 m)", "100 mm": "3.94 in (100 mm)", "100.0 MPa": "14.504 ksi (100.0 MPa)", "100 kPa": "0.01450 ksi (100 kPa)",
		"100 kN": "22.5 kip (100 kN)", "100 kN·m": "74 kip·ft (100 kN·m)",
	} {
		require.Equal(t, want, US.words(text))
	}
}

// A limit in words keeps its side in US units: 10 mm = 0.3937 in, 30 MPa = 4.35113 ksi,
// 50 kN = 11.2404 kip.
func TestLimitsInWordsKeepTheirSide(t *testing.T) {
	for text, want := range map[string]string{
		"warp ≤ 10 mm": "warp ≤ 0.39 in (10 mm)", "warp at most 10 mm": "warp at most 0.39 in (10 mm)", "warp < 10 mm": "warp < 0.39 in (10 mm)",
		"gap ≥ 10 mm": "gap ≥ 0.40 in (10 mm)", "gap at least 10 mm": "gap at least 0.40 in (10 mm)", "gap > 10 mm": "gap > 0.40 in (10 mm)",
		"strength ≥ 30 MPa": "strength ≥ 4.36 ksi (30 MPa)", "strength ≤ 30 MPa": "strength ≤ 4.35 ksi (30 MPa)", "strength 30 MPa": "strength 4.35 ksi (30 MPa)",
		"force ≥ 50 kN": "force ≥ 11.3 kip (50 kN)", "force ≤ 50 kN": "force ≤ 11.2 kip (50 kN)",
	} {
		require.Equal(t, want, US.words(text))
	}
}

// A sign stays a sign, also where it was written as a hyphen, and a range is both ends; a
// measure in brackets stays as it is.
func TestSignsOfMeasuresInWords(t *testing.T) {
	for text, want := range map[string]string{
		"y = -0.5 m": "y = −1.6 ft (−0.5 m)", "z (-1.000 m)": "z (−1.000 m)", "-2 m": "−7 ft (−2 m)", "±0.500 m": "±1.640 ft (±0.500 m)",
		"−1.000 to 2.000 m": "−3.281 to 6.562 ft (−1.000 to 2.000 m)", "S-1 at 1.000 m": "S-1 at 3.281 ft (1.000 m)",
	} {
		require.Equal(t, want, US.words(text))
	}
	require.Equal(t, "y = −0.5 m, S-1, 3 - 4", SI.words("y = -0.5 m, S-1, 3 - 4"), "in SI the hyphen of a number is a minus too")
}

// A measure at the very end, before punctuation and twice in a text.
func TestMeasuresAmongOtherWords(t *testing.T) {
	require.Equal(t, "lift by 1.000 m.", SI.words("lift by 1.000 m."))
	require.Equal(t, "lift by 3.281 ft (1.000 m).", US.words("lift by 1.000 m."))
	require.Equal(t, "from 3.281 ft (1.000 m), then 6.562 ft (2.000 m); stop", US.words("from 1.000 m, then 2.000 m; stop"))
	require.Empty(t, US.words(""))
	require.Equal(t, "no measure", US.words("no measure"))
}
