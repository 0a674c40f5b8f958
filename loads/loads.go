package loads

import (
	"errors"
	"fmt"
	"math"
)

// ErrLoad is wrapped by every error about a load that cannot act as described.
var ErrLoad = errors.New("load")

// Degree is the highest power of x in a line load.
const Degree = 5

// Polynomial is c[0] + c[1]·s + … + c[5]·s⁵ with s = x − From, in N/m for a
// line load. The zero value is zero.
type Polynomial [Degree + 1]float64

// At is the polynomial at s (m).
func (p Polynomial) At(s float64) float64 {
	sum := 0.0
	for i := Degree; i >= 0; i-- {
		sum = sum*s + p[i]
	}
	return sum
}

// Integral is ∫ p ds from 0 to s.
func (p Polynomial) Integral(s float64) float64 {
	sum := 0.0
	for i := Degree; i >= 0; i-- {
		sum = (sum + p[i]/float64(i+1)) * s
	}
	return sum
}

// FirstMoment is ∫ p·t dt from 0 to s, about s = 0.
func (p Polynomial) FirstMoment(s float64) float64 {
	sum := 0.0
	for i := Degree; i >= 0; i-- {
		sum = (sum + p[i]/float64(i+2)) * s
	}
	return sum * s
}

// Scaled is the polynomial times factor.
func (p Polynomial) Scaled(factor float64) Polynomial {
	for i := range p {
		p[i] *= factor
	}
	return p
}

// Point is a force at one place.
type Point struct {
	At    float64 // place, m from the left end
	Force float64 // N, positive downwards
}

// Line is a load spread over a length.
type Line struct {
	From, To  float64    // ends of the load, m from the left end, From < To
	Intensity Polynomial // N/m in s = x − From, positive downwards
}

// Resultant is the force of the line load (N, positive downwards).
func (l Line) Resultant() float64 { return l.Intensity.Integral(l.To - l.From) }

// Centre is the place of the resultant (m from the left end); the middle of
// the line if the resultant is zero.
func (l Line) Centre() float64 {
	length := l.To - l.From
	if resultant := l.Resultant(); resultant != 0 {
		return l.From + l.Intensity.FirstMoment(length)/resultant
	}
	return l.From + length/2
}

// Uniform is a line load of constant intensity (N/m, positive downwards) on
// from ≤ x ≤ to (m).
func Uniform(from, to, intensity float64) Line {
	return Line{From: from, To: to, Intensity: Polynomial{intensity}}
}

// Trapezoid is a line load that goes linearly from start to end (N/m, positive
// downwards) on from ≤ x ≤ to (m).
func Trapezoid(from, to, start, end float64) Line {
	return Line{From: from, To: to, Intensity: Polynomial{start, (end - start) / (to - from)}}
}

// Couple is a concentrated moment about the horizontal axis across the member.
type Couple struct {
	At     float64 // place, m from the left end
	Moment float64 // N·m, positive anticlockwise (x to the right, z up): M drops by it as x passes
}

// Set is the loads that act together.
type Set struct {
	Points  []Point
	Lines   []Line
	Couples []Couple
}

// Scaled is a new Set with every load times factor.
func (s Set) Scaled(factor float64) Set {
	scaled := Set{
		Points:  make([]Point, len(s.Points)),
		Lines:   make([]Line, len(s.Lines)),
		Couples: make([]Couple, len(s.Couples)),
	}
	for i, p := range s.Points {
		scaled.Points[i] = Point{At: p.At, Force: p.Force * factor}
	}
	for i, l := range s.Lines {
		scaled.Lines[i] = Line{From: l.From, To: l.To, Intensity: l.Intensity.Scaled(factor)}
	}
	for i, c := range s.Couples {
		scaled.Couples[i] = Couple{At: c.At, Moment: c.Moment * factor}
	}
	return scaled
}

// And is a new Set with the loads of both.
func (s Set) And(other Set) Set {
	return Set{
		Points:  append(append([]Point{}, s.Points...), other.Points...),
		Lines:   append(append([]Line{}, s.Lines...), other.Lines...),
		Couples: append(append([]Couple{}, s.Couples...), other.Couples...),
	}
}

// Total is the sum of all forces (N, positive downwards).
func (s Set) Total() float64 {
	total := 0.0
	for _, p := range s.Points {
		total += p.Force
	}
	for _, l := range s.Lines {
		total += l.Resultant()
	}
	return total
}

// FirstMoment is the sum of force × x about the left end less the couples
// (N·m): what the reactions must balance, ΣR·x = FirstMoment.
func (s Set) FirstMoment() float64 {
	sum := 0.0
	for _, p := range s.Points {
		sum += p.Force * p.At
	}
	for _, l := range s.Lines {
		sum += l.Resultant()*l.From + l.Intensity.FirstMoment(l.To-l.From)
	}
	for _, c := range s.Couples {
		sum -= c.Moment
	}
	return sum
}

// Check reports the first load that is not finite or lies off a member of the
// given length (m); ends count as on it. The error wraps [ErrLoad] and names
// the load, the value with its unit and what is allowed.
func (s Set) Check(length float64) error {
	for i, p := range s.Points {
		if err := placed(fmt.Sprintf("point load %d", i+1), p.At, length, p.Force, "N"); err != nil {
			return err
		}
	}
	for i, c := range s.Couples {
		if err := placed(fmt.Sprintf("couple %d", i+1), c.At, length, c.Moment, "N·m"); err != nil {
			return err
		}
	}
	for i, l := range s.Lines {
		name := fmt.Sprintf("line load %d", i+1)
		for _, c := range l.Intensity {
			if err := placed(name, l.From, length, c, "(coefficient)"); err != nil {
				return err
			}
		}
		if !(l.To > l.From && l.To <= length) {
			return fmt.Errorf("%w: %s: To = %g m: allowed From = %g m < To ≤ %g m", ErrLoad, name, l.To, l.From, length)
		}
	}
	return nil
}

func placed(name string, at, length, value float64, unit string) error {
	if !(at >= 0 && at <= length) {
		return fmt.Errorf("%w: %s at x = %g m: allowed 0 ≤ x ≤ %g m", ErrLoad, name, at, length)
	}
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return fmt.Errorf("%w: %s at x = %g m: %g %s: allowed a finite value", ErrLoad, name, at, value, unit)
	}
	return nil
}
