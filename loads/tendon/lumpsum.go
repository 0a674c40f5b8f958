package tendon

import "fmt"

// LumpSum is the data of the approximate time-dependent loss of AASHTO LRFD.
type LumpSum struct {
	Stress          float64 // fpi, in the strand just before transfer, Pa
	SteelRatio      float64 // Aps/Ag
	Humidity        float64 // relative, as a fraction, 0.40 to 1
	ReleaseStrength float64 // f′ci, Pa
	Relaxation      float64 // estimate for the steel, Pa: 2.4 ksi = 16.5e6 for low relaxation
}

// LongTerm is the loss (Pa) by creep, shrinkage and relaxation together:
// 10·fpi·Aps/Ag·γh·γst + 12·γh·γst + ΔfpR in ksi. AASHTO LRFD 5.9.3.3-1
// (5.9.5.3-1 before 2017), for precast pretensioned members of normal weight and
// normal loading, steam or moist cured, at average conditions. Confirm against
// the edition in force. The error wraps [ErrTendon].
func (l LumpSum) LongTerm() (float64, error) {
	for _, f := range []struct {
		field       string
		value       float64
		unit        string
		least, most float64
	}{
		{"Stress", l.Stress, "Pa", 0, 2000e6}, {"SteelRatio", l.SteelRatio, "", 0, 0.05}, {"Humidity", l.Humidity, "", 0.4, 1},
		{"ReleaseStrength", l.ReleaseStrength, "Pa", 10e6, 103.5e6}, {"Relaxation", l.Relaxation, "Pa", 0, 100e6},
	} {
		if !(f.value >= f.least && f.value <= f.most) {
			return 0, fmt.Errorf("%w: LumpSum.%s = %g %s: must be %.4g to %.4g %s", ErrTendon, f.field, f.value, f.unit, f.least, f.most, f.unit)
		}
	}
	factors := (1.7 - l.Humidity) * 5 / (1 + l.ReleaseStrength/ksi) // γh·γst
	return 10*l.Stress*l.SteelRatio*factors + 12*ksi*factors + l.Relaxation, nil
}
