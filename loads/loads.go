package loads

import "errors"

// ErrLoad is wrapped by every error about a load that is not as it must be.
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
	At    float64 // place, m from the left end, 0 to the length of the member
	Force float64 // N, positive downwards
}

// Line is a load spread over a length.
type Line struct {
	From, To  float64    // ends of the load, m from the left end, 0 ≤ From < To ≤ length
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
	At     float64 // place, m from the left end, 0 to the length of the member
	Moment float64 // N·m, positive anticlockwise (x to the right, z up): M drops by it as x passes
}

// Curvature is an imposed curvature, not caused by a moment: the free curvature of a
// temperature gradient, of shrinkage or of prestress. With the deflection w upwards, w″
// = M/EI + Value; it carries no force.
type Curvature struct {
	From, To float64    // ends of the stretch, m from the left end, 0 ≤ From < To ≤ length
	Value    Polynomial // 1/m in s = x − From, positive sagging
}

// Set is the loads that act together.
type Set struct {
	Points     []Point     // forces, N
	Lines      []Line      // line loads, N/m
	Couples    []Couple    // concentrated moments, N·m
	Curvatures []Curvature // imposed curvatures, 1/m
}

// Scaled is a new Set with every load times factor.
func (s Set) Scaled(factor float64) Set {
	scaled := Set{
		Points:  make([]Point, len(s.Points)),
		Lines:   make([]Line, len(s.Lines)),
		Couples: make([]Couple, len(s.Couples)),

		Curvatures: make([]Curvature, len(s.Curvatures)),
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
	for i, c := range s.Curvatures {
		scaled.Curvatures[i] = Curvature{From: c.From, To: c.To, Value: c.Value.Scaled(factor)}
	}
	return scaled
}

// And is a new Set with the loads of both.
func (s Set) And(other Set) Set {
	return Set{
		Points:  append(append([]Point{}, s.Points...), other.Points...),
		Lines:   append(append([]Line{}, s.Lines...), other.Lines...),
		Couples: append(append([]Couple{}, s.Couples...), other.Couples...),

		Curvatures: append(append([]Curvature{}, s.Curvatures...), other.Curvatures...),
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

// FirstMoment is the sum of force × x about the left end less the couples (N·m): for
// the reactions, ΣR·x = FirstMoment.
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
