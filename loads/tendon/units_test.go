package tendon_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
)

// sustainedWith asks for a loss under one changed value.
func sustainedWith(change func(*tendon.Sustained)) error {
	s := mid
	change(&s)
	_, err := s.Simplified()
	return err
}

// approximate is the loss of a girder of AASHTO kind under one changed value.
func approximate(change func(*tendon.ApproximateLoss)) error {
	l := tendon.ApproximateLoss{Stress: 1400e6, SteelRatio: 0.006, Humidity: 0.7, ReleaseStrength: 33e6, Relaxation: 16.5e6}
	change(&l)
	_, err := l.LongTerm()
	return err
}

// jackedTo is what stressing to a value says.
func jackedTo(stress, drawIn float64) error {
	_, err := draped().Jack(tendon.Jacking{Tendons: []string{"D"}, Stress: stress, Ends: tendon.LeftEnd, DrawIn: drawIn})
	return err
}

// A quantity in the unit of a drawing in place of SI is named, with its range and the
// unit that it seems to be in.
func TestAQuantityInAnotherUnitIsAsked(t *testing.T) {
	released := func(stress float64) error {
		_, err := tendon.Pretension{Mark: "P", Strand: tendon.Y1860S7x125, Groups: []tendon.Debonding{{Strands: 8}}, Elevation: tendon.Level(0, 16, 0.1), Plan: tendon.Level(0, 16, 0)}.
			Released(stress, tendon.TransmissionLength{Basic: 0.5, Short: 0.4, Long: 0.6})
		return err
	}
	measured := func(m tendon.Measuring) error {
		_, err := jack(t, draped(), tendon.LeftEnd, 0.006).Elongation(m)
		return err
	}
	bpel := func(rho float64) error { _, err := tendon.RelaxationBPEL(1300e6, 1860e6, rho); return err }
	heated := func(celsius, hold float64) error { _, err := tendon.HeatCuredTime(celsius, hold); return err }
	given := func(value float64) error {
		_, err := draped().Jack(stated(tendon.Stated{X: 0, Value: value}, tendon.Stated{X: 34, Value: value}))
		return err
	}
	lost := func(value float64) error {
		j := step("D", 1400e6, tendon.LeftEnd, 0)
		j.Given = &tendon.Given{Source: formula.Source{Document: "note"}, Losses: []tendon.Stated{{X: 0}, {X: 34, Value: value}}}
		_, err := draped().Jack(j)
		return err
	}
	for words, err := range map[string]error{
		"[D]: Jacking.Stress = 1400 Pa: must be 50e6 to 3000e6 Pa; is it in MPa?":                        jackedTo(1400, 0.006),
		"Jacking.DrawIn = 6 m: must be 0, or 1e-09 to 0.1 m; is it in mm?":                               jackedTo(1400e6, 6),
		"ApproximateLoss.Stress = 1400 Pa: must be 50e6 to 3000e6 Pa; is it in MPa?":                     approximate(func(l *tendon.ApproximateLoss) { l.Stress = 1400 }),
		"ApproximateLoss.SteelRatio = 0.6: must be 1e-05 to 0.05; is it in percent?":                     approximate(func(l *tendon.ApproximateLoss) { l.SteelRatio = 0.6 }),
		"ApproximateLoss.Humidity = 70: must be 0.4 to 1; is it in percent?":                             approximate(func(l *tendon.ApproximateLoss) { l.Humidity = 70 }),
		"ApproximateLoss.ReleaseStrength = 33 Pa: must be 10e6 to 103.5e6 Pa; is it in MPa?":             approximate(func(l *tendon.ApproximateLoss) { l.ReleaseStrength = 33 }),
		"ApproximateLoss.Relaxation = 16.5 Pa: must be 0, or 1e6 to 100e6 Pa; is it in MPa?":             approximate(func(l *tendon.ApproximateLoss) { l.Relaxation = 16.5 }),
		"pretension P: stress = 1300 Pa: must be 1e6 to 1860e6 Pa; is it in MPa?":                        released(1300),
		"Sustained.Stress = 10 Pa: must be 0, or 1000 to 100e6 Pa; is it in MPa?":                        sustainedWith(func(s *tendon.Sustained) { s.Stress = 10 }),
		"Sustained.Stress = -2 Pa: must be 0, or -20e6 to -1000 Pa; is it in MPa?":                       sustainedWith(func(s *tendon.Sustained) { s.Stress = -2 }),
		"Sustained.TendonStress = 1300 Pa: must be 0, or 1e6 to 3000e6 Pa; is it in MPa?":                sustainedWith(func(s *tendon.Sustained) { s.TendonStress = 1300 }),
		"Sustained.TendonModulus = 195000 Pa: must be 50e9 to 300e9 Pa; is it in MPa?":                   sustainedWith(func(s *tendon.Sustained) { s.TendonModulus = 195e3 }),
		"fpk = 1860 Pa: must be 100e6 to 3000e6 Pa; is it in MPa?":                                       sustainedWith(func(s *tendon.Sustained) { s.TensileStrength = 1860 }),
		"Sustained.TendonArea = 6000 m²: must be 1e-06 to 0.21 m²; is it in mm²?":                        sustainedWith(func(s *tendon.Sustained) { s.TendonArea = 6000 }),
		"Measuring.From = 200 Pa: must be 0, or 1e6 to 1400e6 Pa; is it in MPa?":                         measured(tendon.Measuring{From: 200, Tolerance: 0.05}),
		"Measuring.Tail = 600 m: must be 0, or 0.001 to 5 m; is it in mm?":                               measured(tendon.Measuring{Tail: 600, Tolerance: 0.05}),
		"Measuring.Tolerance = 5: must be 0.0001 to 0.5; is it in percent?":                              measured(tendon.Measuring{Tolerance: 5}),
		"rho1000 = 0.025 %: must be 0.5 to 15 %; is it a fraction?":                                      bpel(0.025),
		"hold = 8 d: must be 0 to 7 d; is it in hours?":                                                  heated(60, 8),
		"celsius = 0.3 °C, hold = 60 d: must be above 20 to 80 °C and 0 to 7 d; are they the wrong":      heated(0.3, 60),
		"Given.Forces[0] = 1500 N: must be 1800 to 3.348e6 N; is it in kN?":                              given(1500),
		"tendon D at x = 34 m: Given.Losses[1] = 120 Pa: must be 0, or 1000 to 1399e6 Pa; is it in MPa?": lost(120),
		"AnchorZone.Force = 2500 N: must be 10000 to 200e6 N; is it in kN?": func() error {
			_, err := tendon.AnchorZone{Force: 2500, Plate: 0.25, Depth: 1}.EN()
			return err
		}(),
		"drawIn = 6 m: must be 1e-09 to 0.1 m; is it in mm?": func() error { _, _, err := tendon.LinearDrawIn(300e6, 6, 1e4); return err }(),
	} {
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		require.ErrorContains(t, err, words)
	}
}

// The doors of stresses: just inside they are open, just outside they are not.
func TestDoorsOfStressesAHairOnEitherSide(t *testing.T) {
	const in, out = 1 - 1e-9, 1 + 1e-9
	jacked := func(v float64) error { return jackedTo(v, 0) }
	drawn := func(v float64) error { return jackedTo(1400e6, v) }
	beside := func(v float64) error { return sustainedWith(func(s *tendon.Sustained) { s.Stress = v }) }
	for name, c := range map[string]struct {
		ask         func(float64) error
		least, most float64
	}{
		"jack":             {jacked, 50e6, 3000e6},
		"draw-in":          {drawn, 1e-9, 0.1},
		"concrete":         {beside, 1000, 26e6}, // the model of mid knows no largest one
		"just before":      {func(v float64) error { return approximate(func(l *tendon.ApproximateLoss) { l.Stress = v }) }, 50e6, 3000e6},
		"loss of the kind": {func(v float64) error { return approximate(func(l *tendon.ApproximateLoss) { l.Relaxation = v }) }, 1e6, 100e6},
		"stressed":         {func(v float64) error { return sustainedWith(func(s *tendon.Sustained) { s.TendonStress = v }) }, 1e6, 0.85 * 1860e6},
	} {
		require.NoError(t, c.ask(c.least*out), name)
		require.ErrorIs(t, c.ask(c.least*in), tendon.ErrTendon, name)
		if name != "draw-in" { // so long a slip takes the whole force
			require.NoError(t, c.ask(c.most*in), name)
		}
		if name != "concrete" {
			require.ErrorIs(t, c.ask(c.most*out), tendon.ErrTendon, name)
		}
	}
	require.NoError(t, beside(0))
	require.NoError(t, beside(-1e-8), "rounding of a difference")
	require.NoError(t, drawn(0))
}
