package section

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Filling is the state of a duct in a web.
type Filling int

// The fillings that EN 1992-1-1 6.2.3(6) distinguishes.
const (
	NotGrouted   Filling = iota // empty or unbonded, also a plastic duct with grout
	GroutedMetal                // metal duct, grouted
)

// WebWidth is the nominal width of a web for shear (m), its width less the allowance
// for the ducts at the governing level:
//
//	b − 0.5·Σφ for grouted metal ducts, of which those up to b/8 do not count
//	b − 1.2·Σφ for all others
//
// by EN 1992-1-1:2004 6.2.3(6), (6.16) and (6.17), unconfirmed: check against the
// edition in force. Diameters (m) are outer ones. The error wraps [ErrShape] when a
// length is not positive and up to 200 m, the filling is unknown or the ducts take the
// whole width.
func WebWidth(width float64, filling Filling, diameters ...float64) (float64, error) {
	if err := positive("web", dimension{"width", width}); err != nil {
		return 0, err
	}
	factor := 1.2
	switch filling {
	case NotGrouted:
	case GroutedMetal:
		factor = 0.5
	default:
		return 0, fmt.Errorf("%w: duct filling %d: must be NotGrouted, GroutedMetal", ErrShape, filling)
	}
	nominal := width
	for _, d := range diameters {
		if err := positive("duct", dimension{"diameter", d}); err != nil {
			return 0, err
		}
		if filling == NotGrouted || d > width/8 {
			nominal -= factor * d
		}
	}
	if !(nominal > 0) {
		return 0, fmt.Errorf("%w: web of %.4g m less %.2g·Σφ of its ducts: must be a width left", ErrShape, width, factor)
	}
	return nominal, nil
}

// EffectiveWidth is the effective width of a flange with its web (m), by EN
// 1992-1-1:2004 5.3.2.1, (5.7), unconfirmed: check against the edition in force.
// zeroMoments is the length l0 between points of zero moment (m); web is the web's
// width (m); overhangs are the clear widths bi of the flange beside it (m), of which
//
//	beff,i = 0.2·bi + 0.1·l0, at most 0.2·l0 and at most bi
//
// counts. Whether to use it is the engineer's choice: [Shape.Properties] take the
// full width. The error wraps [ErrShape] when zeroMoments is not positive and up to
// 10 km or a width not up to 200 m.
func EffectiveWidth(zeroMoments, web float64, overhangs ...float64) (float64, error) {
	if !(zeroMoments > 0 && zeroMoments <= largestCoordinate) {
		return 0, fmt.Errorf("%w: flange.zeroMoments = %g m: must be positive, up to %g m%s", ErrShape, zeroMoments, float64(largestCoordinate), formula.Misread(zeroMoments, "m", 0, largestCoordinate))
	}
	if err := positive("flange", dimension{"web", web}); err != nil {
		return 0, err
	}
	width := web
	for _, b := range overhangs {
		if err := positive("flange", dimension{"overhang", b}); err != nil {
			return 0, err
		}
		width += math.Min(b, math.Min(0.2*b+0.1*zeroMoments, 0.2*zeroMoments))
	}
	return width, nil
}
