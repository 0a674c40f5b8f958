package tendon

// ApproximateLoss is the data of the approximate estimate of time-dependent losses of
// AASHTO LRFD, 5.9.3.3, which replaced the lump sums of editions before 2005.
type ApproximateLoss struct {
	Stress          float64 // fpi, in the strand just before transfer, Pa, 50e6 to 3000e6
	SteelRatio      float64 // Aps/Ag, 1e-5 to 0.05
	Humidity        float64 // relative, as a fraction, 0.40 to 1
	ReleaseStrength float64 // f′ci, Pa, 10e6 to 103.5e6
	Relaxation      float64 // estimate for the steel, Pa, 0 or 1e6 to 100e6: 2.4 ksi = 16.5e6 for low relaxation
}

// LongTerm is the loss (Pa) by creep, shrinkage and relaxation together:
// 10·fpi·Aps/Ag·γh·γst + 12·γh·γst + ΔfpR in ksi. AASHTO LRFD 5.9.3.3-1
// (5.9.5.3-1 before 2017), for precast pretensioned members of normal weight and
// normal loading, steam or moist cured, at average conditions. Confirm against
// the edition in force. The error wraps [ErrTendon].
func (l ApproximateLoss) LongTerm() (float64, error) {
	err := within("ApproximateLoss.",
		bound{"Stress", l.Stress, "Pa", leastJacking, mostSteel}, bound{"SteelRatio", l.SteelRatio, "", 1e-5, 0.05}, bound{"Humidity", l.Humidity, "", 0.4, 1},
		bound{"ReleaseStrength", l.ReleaseStrength, "Pa", 10e6, 103.5e6},
	)
	if err == nil {
		err = withinOrZero("ApproximateLoss.", bound{"Relaxation", l.Relaxation, "Pa", leastSteel, 100e6})
	}
	if err != nil {
		return 0, err
	}
	factors := (1.7 - l.Humidity) * 5 / (1 + l.ReleaseStrength/ksi) // γh·γst
	return 10*l.Stress*l.SteelRatio*factors + 12*ksi*factors + l.Relaxation, nil
}
