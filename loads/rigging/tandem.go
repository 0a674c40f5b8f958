package rigging

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads"
)

// Tandem is a load on the hooks of two cranes.
type Tandem struct {
	Weight       float64          // of the load with all that hangs at it, nominal, N, 1e3 to 100e6
	Tolerance    *loads.Tolerance // how far the true weight may lie off; must be stated, PlusMinus(0) for none
	Dynamic      loads.Dynamic    // range of the factor on the weight; must be stated, AtRest for none
	First        float64          // x of the first hook, m
	Second       float64          // x of the second hook, beyond the first, m
	CoG          float64          // x of the centre of gravity, between the hooks, m
	CoGTolerance float64          // how far it may lie off, to either side, m, 0 to 10
	Height       float64          // of the lift points above the centre of gravity, m, −20 to 20
	EndLevel     float64          // greatest difference of level of the two ends, either way, m, at most a tenth of the distance of the hooks
	Plumb        float64          // greatest deviation of a hoist rope from plumb, rad, 0 to 0.1
}

// Share is what one crane gets, or the bunk below the other end.
type Share struct {
	Nominal        float64 // N
	Part           float64 // of the weight, nominal
	Static         Range   // at rest, with the tolerances of weight and centre of gravity and the ends out of level, N
	Characteristic Range   // with the dynamic factors, N
	Side           float64 // on the head of the boom, or on the bunk, by ropes out of plumb, from the largest characteristic force of the hook, N
}

// Shares are those of both cranes.
type Shares struct{ First, Second Share }

// Solve is by statics. With the ends out of level the lift points move along over the
// centre of gravity: above it they load the higher end. The error wraps [ErrRigging].
func (t Tandem) Solve() (Shares, error) {
	least, most, err := t.check()
	if err != nil {
		return Shares{}, err
	}
	low, high, _ := t.Dynamic.Range() // checked
	between := t.Second - t.First
	shift := math.Abs(t.Height)*t.EndLevel/between + t.CoGTolerance // of the centre of gravity along the line of the hooks
	part := (t.CoG - t.First) / between
	of := func(part float64) Share {
		s := Share{Part: part, Nominal: part * t.Weight}
		s.Static = Range{(part - shift/between) * t.Weight * least, (part + shift/between) * t.Weight * most}
		s.Characteristic = Range{s.Static.Least * low, s.Static.Most * high}
		s.Side = s.Characteristic.Most * math.Tan(t.Plumb)
		return s
	}
	r := Shares{of(1 - part), of(part)}
	if r.First.Static.Least < 0 || r.Second.Static.Least < 0 {
		return Shares{}, fmt.Errorf("%w: the centre of gravity may lie %.3g m from x = %g m, beyond a hook: must stay between both hooks", ErrRigging, shift, t.CoG)
	}
	return r, nil
}

// check is also the range of the factor on the weight at rest.
func (t Tandem) check() (least, most float64, err error) {
	if err := within("Tandem", bound{"Weight", t.Weight, "N", 1e3, 100e6}, bound{"First", t.First, "m", -1000, 1000}, bound{"Second", t.Second, "m", t.First + 0.5, 1000}); err != nil {
		return 0, 0, err
	}
	err = within("Tandem", bound{"CoG", t.CoG, "m", t.First, t.Second}, bound{"CoGTolerance", t.CoGTolerance, "m", 0, 10}, bound{"Height", t.Height, "m", -20, 20},
		bound{"EndLevel", t.EndLevel, "m", 0, (t.Second - t.First) / 10}, bound{"Plumb", t.Plumb, "rad", 0, 0.1})
	if err != nil {
		return 0, 0, err
	}
	return statedRange("Tandem", t.Tolerance, t.Dynamic)
}

// statedRange is the range of the factor on a weight at rest, where tolerance and
// dynamic factor are stated.
func statedRange(of string, tolerance *loads.Tolerance, dynamic loads.Dynamic) (least, most float64, err error) {
	switch {
	case tolerance == nil:
		return 0, 0, fmt.Errorf("%w: %s.Tolerance is not stated: must be PlusMinus(fraction), PlusMinus(0) for none", ErrRigging, of)
	case dynamic == loads.Dynamic{}:
		return 0, 0, fmt.Errorf("%w: %s.Dynamic is not stated: must be a range, loads.AtRest() for none", ErrRigging, of)
	}
	if _, _, err := dynamic.Range(); err != nil {
		return 0, 0, fmt.Errorf("%w: %s.Dynamic: %w", ErrRigging, of, err)
	}
	if least, most, err = tolerance.Range(); err != nil {
		return 0, 0, fmt.Errorf("%w: %s.Tolerance: %w", ErrRigging, of, err)
	}
	return least, most, nil
}
