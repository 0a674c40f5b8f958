package tendon

import (
	"fmt"
)

// Release is the method of release of pretensioned steel.
type Release int

// The zero value is an error: it must be stated.
const (
	Gradual Release = iota + 1 // jacks let down slowly: α1 = 1.0
	Sudden                     // flame cut or sawn under stress: α1 = 1.25
)

// Transmission is the data of the transmission length of pretensioned steel.
type Transmission struct {
	Strand          Strand  // with its Diameter, 0.002 to 0.0181 m
	IndentedWire    bool    // indented wire instead of strand
	Stress          float64 // σpm0, in the steel just after release, Pa, 1e6 to 3000e6
	TensileMean     float64 // fctm(t) of the concrete at release, Pa, 0.1e6 to 10e6, e.g. State.TensileMean
	Release         Release // Gradual or Sudden
	PoorBond        bool    // bond conditions other than good, 8.4.2: η1 = 0.7
	PartialFactor   float64 // γc, 1 to 2; 0 means 1.5
	TensileFraction float64 // αct, 0.5 to 1; 0 means 1
}

// TransmissionLength is the basic length and the two design values of EN 1992-1-1:2004
// 8.10.2.2: Short is for local stresses at release, Long for shear and anchorage.
type TransmissionLength struct {
	Bond  float64 // fbpt, Pa
	Basic float64 // lpt, m
	Short float64 // lpt1 = 0.8·lpt, m
	Long  float64 // lpt2 = 1.2·lpt, m
}

// Length is lpt with lpt1 and lpt2 by EN 1992-1-1:2004 8.10.2.2, (8.15) to
// (8.18), for seven-wire strand and indented wire up to 18 mm with bonded
// anchorage in the concrete released upon; confirm against the edition in force.
// The error wraps [ErrTendon].
func (t Transmission) Length() (TransmissionLength, error) {
	gamma, alphaCt := t.PartialFactor, t.TensileFraction
	if gamma == 0 {
		gamma = 1.5
	}
	if alphaCt == 0 {
		alphaCt = 1
	}
	err := within("Transmission.",
		bound{"Strand.Diameter", t.Strand.Diameter, "m", 0.002, 0.0181},
		bound{"Stress", t.Stress, "Pa", leastSteel, mostSteel},
		bound{"TensileMean", t.TensileMean, "Pa", 0.1e6, 10e6},
		bound{"PartialFactor", gamma, "", 1, 2},
		bound{"TensileFraction", alphaCt, "", 0.5, 1},
	)
	if err != nil {
		return TransmissionLength{}, err
	}
	if t.Release != Gradual && t.Release != Sudden {
		return TransmissionLength{}, fmt.Errorf("%w: Transmission.Release is not stated: must be Gradual or Sudden", ErrTendon)
	}
	eta, alpha1, alpha2 := 3.2, 1.0, 0.19
	if t.IndentedWire {
		eta, alpha2 = 2.7, 0.25
	}
	if t.PoorBond {
		eta *= 0.7
	}
	if t.Release == Sudden {
		alpha1 = 1.25
	}
	l := TransmissionLength{Bond: eta * alphaCt * 0.7 * t.TensileMean / gamma}
	l.Basic = alpha1 * alpha2 * t.Strand.Diameter * t.Stress / l.Bond
	l.Short, l.Long = 0.8*l.Basic, 1.2*l.Basic
	return l, nil
}

// TransferLengthAASHTO is 60 strand diameters (m). AASHTO LRFD 5.9.4.3.1
// (5.11.4.1 before 2017); confirm against the edition in force. The error wraps
// [ErrTendon]: a strand without its Diameter.
func TransferLengthAASHTO(s Strand) (float64, error) {
	if !(s.Diameter >= 0.002 && s.Diameter <= 0.05) {
		return 0, fmt.Errorf("%w: Strand.Diameter = %g m: must be 0.002 to 0.05 m", ErrTendon, s.Diameter)
	}
	return 60 * s.Diameter, nil
}
