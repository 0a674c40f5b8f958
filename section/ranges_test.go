package section_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// A length in millimetres, a ratio in percent or of one modulus alone would change the
// result in silence: each says its range and asks.
func TestValuesInAnotherUnitAreAskedFor(t *testing.T) {
	deep, knee, haunch := usual, usual, usual
	deep.CantileverTip = 220
	knee.CantileverKnee = section.Knee{Out: 900, Thickness: 0.3}
	haunch.TopHaunch = section.Haunch{Width: 800, Height: 250}
	shape := plain(t, 1, 2)
	for says, ask := range map[string]func() error{
		"Box.CantileverTip = 220 m: must be positive, up to 200 m; is it in mm?":               func() error { _, err := deep.Shape(); return err },
		"Box.CantileverKnee.Out = 900 m: must be positive, up to 200 m; is it in mm?":          func() error { _, err := knee.Shape(); return err },
		"Box.TopHaunch.Width = 800 m: must be zero or positive, up to 200 m; is it in mm?":     func() error { _, err := haunch.Shape(); return err },
		"web.width = 320 m: must be positive, up to 200 m; is it in mm?":                       func() error { return second(section.WebWidth(320, section.NotGrouted)) },
		"flange.zeroMoments = 24000 m: must be positive, up to 10000 m; is it in mm?":          func() error { return second(section.EffectiveWidth(24000, 0.4)) },
		"Stepped: stretch 1: Until = 30000 m: must be beyond 0 m, up to 10000 m; is it in mm?": func() error { _, err := section.Stepped{{Until: 30000, Section: shape}}.Along(); return err },
		"Taper.To = 30000 m: must be within ±10000 m; is it in mm?":                            func() error { _, err := section.Taper{To: 30000, Left: shape, Right: shape}.Along(); return err },
		"inclusion 1: ModularRatio = 1.95e+11: must be 0.01 to 300, or 0 for a hole":           func() error { _, err := shape.With(section.BondedSteel(at(0, 1), 1e-3, 195e9)); return err },
		"piece 1: ModularRatio = 3.3e+10: must be 0.01 to 300": func() error {
			_, err := section.Transformed(section.Piece{Shape: shape, ModularRatio: 33e9})
			return err
		},
	} {
		err := ask()
		require.ErrorIs(t, err, section.ErrShape)
		require.ErrorContains(t, err, says)
	}
}
