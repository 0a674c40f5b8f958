package launching

import (
	"fmt"
	"math"
)

// Bedding is what all four supports of an element stand on.
type Bedding struct {
	Name      string
	Stiffness float64 // of each support, N/m, 1e3 to 1e12; 0 rigid: hard packs
	Equalised int     // line whose two supports are linked hydraulically or are one rope, 1 or 2; 0: none
}

// Bedded is what levels do to an element on a bedding. Where a pair is equalised they change
// nothing: all but Forces is 0.
type Bedded struct {
	Bedding
	Forces      [4]float64 // with all four in one plane, N: of an equalised pair the mean of both, its couple goes to the other pair
	PerMetre    float64    // greatest change of a force for a metre that one support alone is out of the plane of the other three, N/m
	Permissible float64    // how far any one may be out until a force has changed by the part that is asked for, m
	LiftOff     float64    // how far any one may be out until a support lifts off, m
	Torque      float64    // greatest torque in the element for a metre that one is out, N·m/m
	AtPart      float64    // torque in the element when that part is used up, N·m
	Levels      bool       // levels change forces: no pair is equalised
}

// Compare is the same element on several beddings, side by side: on hard packs, on
// elastomer, with one pair equalised. Stiffness and Equalised of the four points do not
// count. Part is the permissible change of a reaction, as a part of it, 0.001 to 1. The
// error wraps [ErrLaunching].
func (f FourPoints) Compare(part float64, beddings ...Bedding) ([]Bedded, error) {
	var list []Bedded
	for i, b := range beddings {
		if b.Equalised < 0 || b.Equalised > 2 {
			return nil, fmt.Errorf("%w: bedding %d %q: field Equalised = %d: must be 0, 1 or 2", ErrLaunching, i+1, b.Name, b.Equalised)
		}
		of, err := f.bedded(part, b)
		if err != nil {
			return nil, fmt.Errorf("bedding %d %q: %w", i+1, b.Name, err)
		}
		list = append(list, of)
	}
	return list, nil
}

func (f FourPoints) bedded(part float64, b Bedding) (of Bedded, err error) {
	f.Stiffness, f.Equalised = [4]float64{b.Stiffness, b.Stiffness, b.Stiffness, b.Stiffness}, [2]bool{}
	if b.Equalised > 0 {
		f.Equalised[b.Equalised-1] = true
		f.Level = f.equal(b.Equalised - 1)
	}
	of = Bedded{Bedding: b, Forces: f.Level}
	permissible, levels, err := f.Permissible(part)
	if err != nil || !levels {
		return of, err
	}
	of.Levels, of.Permissible, of.LiftOff = true, math.Inf(1), math.Inf(1)
	for support, at := range permissible {
		torque := f.torque() / f.Widths[support/2]
		of.Torque, of.AtPart = math.Max(of.Torque, torque), math.Max(of.AtPart, torque*at)
		of.Permissible = math.Min(of.Permissible, at)
		for i, per := range f.changes(support) {
			of.PerMetre, of.LiftOff = math.Max(of.PerMetre, math.Abs(per)), math.Min(of.LiftOff, f.Level[i]/math.Abs(per))
		}
	}
	return of, nil
}

// equal are the forces when a pair (0 or 1) is equalised: each half of what the pair has, and
// its couple with that of the other pair by statics on the other pair.
func (f FourPoints) equal(pair int) (forces [4]float64) {
	other := 1 - pair
	couple := 0.0
	for line, width := range f.Widths {
		couple += (f.Level[2*line] - f.Level[2*line+1]) * width / 2
	}
	for side, sense := range [2]float64{1, -1} {
		forces[2*pair+side] = (f.Level[2*pair] + f.Level[2*pair+1]) / 2
		forces[2*other+side] = (f.Level[2*other]+f.Level[2*other+1])/2 + sense*couple/f.Widths[other]
	}
	return forces
}
