package segmental

// TipError is how far the tip of an arm is off its level (m, + up) by an error of the angle
// at a joint (rad, + turns the outer segments up, within ±0.1) on the length of arm beyond it
// (m, 0 to 500): angle × lever. The error of the second order is below 0.5 %. The error wraps
// [ErrSegmental].
func TipError(angle, lever float64) (float64, error) {
	if err := within("", bound{"angle", angle, "rad", -0.1, 0.1}, bound{"lever", lever, "m", 0, 500}); err != nil {
		return 0, err
	}
	return angle * lever, nil
}

// WedgeAngle is the angle at a joint (rad, + turns the outer segments up) whose epoxy is
// thicker at the bottom of the face than at its top (m, within ±0.05; negative: thicker at the
// top) over its depth (m, 0.2 to 30): thickness / depth. The error wraps [ErrSegmental].
func WedgeAngle(thicker, depth float64) (float64, error) {
	if err := within("", bound{"thicker", thicker, "m", -0.05, 0.05}, bound{"depth", depth, "m", 0.2, 30}); err != nil {
		return 0, err
	}
	return thicker / depth, nil
}
