package beam

import "math"

// Extreme is a value and its place.
type Extreme struct {
	At    float64 // m from the left end
	Value float64 // N·m, N or m with the field's sign
}

// Range is the minimum (Least) and maximum (Most) of a field over the whole beam.
type Range struct {
	Least, Most Extreme // in the unit of the field
}

// negligible is the fraction of the largest slope of a field below which a
// slope is rounding and the field flat.
const negligible = 1e-12

// equal is the fraction of a field's largest value below which two values at
// one place are one: the rounding of a solution, not a jump.
const equal = 1e-9

// field is one of the things a response has along the beam.
type field struct {
	value func(state) float64           // the field itself
	slope func(*piece, float64) float64 // its derivative at s, in start state of the piece
	law   func(*piece) series           // its derivative as a series
}

var (
	momentField = field{
		value: func(s state) float64 { return s.moment },
		slope: func(p *piece, s float64) float64 { return p.at(s, p.start).shear },
		law:   (*piece).shearLaw,
	}
	shearField = field{
		value: func(s state) float64 { return s.shear },
		slope: func(p *piece, s float64) float64 { return -p.load.At(s) },
		law:   (*piece).loadLaw,
	}
	deflectionField = field{
		value: func(s state) float64 { return s.up },
		slope: func(p *piece, s float64) float64 { law := p.riseLaw(); return law.at(s) },
		law:   (*piece).riseLaw,
	}
)

// MomentExtremes is every local extreme of the bending moment (N·m, sagging
// positive) from left to right: turning points at the roots of V, peaks at
// point loads and supports, both sides of a jump, and both ends.
func (r *Response) MomentExtremes() []Extreme { return r.extremes(momentField) }

// ShearExtremes is every local extreme of the shear force (N), as
// [Response.MomentExtremes].
func (r *Response) ShearExtremes() []Extreme { return r.extremes(shearField) }

// DeflectionExtremes is every local extreme of the deflection (m, positive
// upwards), as [Response.MomentExtremes].
func (r *Response) DeflectionExtremes() []Extreme { return r.extremes(deflectionField) }

// MomentRange is the least and most bending moment of the beam (N·m).
func (r *Response) MomentRange() Range { return r.bounds(momentField) }

// ShearRange is the minimum and maximum shear force of the beam (N).
func (r *Response) ShearRange() Range { return r.bounds(shearField) }

// DeflectionRange is the least and most deflection of the beam (m).
func (r *Response) DeflectionRange() Range { return r.bounds(deflectionField) }

// extremes walks from left to right and keeps what is a local extreme: where
// the field jumps, and where it rises on one side and does not on the other.
func (r *Response) extremes(f field) []Extreme {
	if r == nil || len(r.pieces) == 0 {
		return nil
	}
	flat, jump := negligible*r.steepest(f), equal*r.bounds(f).size()
	found := make([]Extreme, 0, 2*len(r.pieces)+2)
	before, slopeBefore := 0.0, 0
	for i := range r.pieces {
		p := &r.pieces[i]
		var roots [wide]float64
		turns := r.turns(f, p, roots[:0])
		first, last := p.length(), 0.0
		if len(turns) > 0 {
			first, last = turns[0], turns[len(turns)-1]
		}
		value, slope := f.value(p.start), level(f.slope(p, first/2), flat)
		switch {
		case i == 0:
			found = append(found, Extreme{p.from, value})
		case math.Abs(value-before) > jump:
			found = append(found, Extreme{p.from, before}, Extreme{p.from, value})
		case slopeBefore != slope:
			found = append(found, Extreme{p.from, value})
		}
		for _, s := range turns {
			found = append(found, Extreme{p.from + s, f.value(p.at(s, p.start))})
		}
		before, slopeBefore = f.value(p.at(p.length(), p.start)), level(f.slope(p, (last+p.length())/2), flat)
	}
	return append(found, Extreme{r.beam.layout.Length, before})
}

// bounds is the least and the most of a field, kept without a list.
func (r *Response) bounds(f field) Range {
	if r == nil || len(r.pieces) == 0 {
		return Range{}
	}
	first := Extreme{0, f.value(r.pieces[0].start)}
	bounds := Range{first, first}
	var roots [wide]float64
	for i := range r.pieces {
		p := &r.pieces[i]
		bounds.include(Extreme{p.from, f.value(p.start)})
		for _, s := range r.turns(f, p, roots[:0]) {
			bounds.include(Extreme{p.from + s, f.value(p.at(s, p.start))})
		}
		bounds.include(Extreme{p.to, f.value(p.at(p.length(), p.start))})
	}
	return bounds
}

// include widens the range. Of places with the same value, to rounding, the
// leftmost stays.
func (b *Range) include(e Extreme) {
	if e.Value < b.Least.Value-negligible*math.Abs(b.Least.Value) {
		b.Least = e
	}
	if e.Value > b.Most.Value+negligible*math.Abs(b.Most.Value) {
		b.Most = e
	}
}

// turns appends the places s inside a piece where the field turns: the roots
// of its derivative. A root that is an end of the piece is left to the end.
func (r *Response) turns(f field, p *piece, roots []float64) []float64 {
	law := f.law(p)
	near := samePlace * r.beam.layout.Length
	roots = crossings(roots, law.c[:law.n], p.length())
	kept := roots[:0]
	for _, s := range roots {
		if s > near && s < p.length()-near {
			kept = append(kept, s)
		}
	}
	return kept
}

// steepest is the largest slope of a field at the ends of its pieces.
func (r *Response) steepest(f field) float64 {
	most := 0.0
	for i := range r.pieces {
		p := &r.pieces[i]
		most = max(most, math.Abs(f.slope(p, 0)), math.Abs(f.slope(p, p.length())))
	}
	return most
}

// level is the sign of a slope: −1, 1, or 0 where the field is flat.
func level(slope, flat float64) int {
	switch {
	case slope > flat:
		return 1
	case slope < -flat:
		return -1
	}
	return 0
}

func (b Range) size() float64 { return max(math.Abs(b.Least.Value), math.Abs(b.Most.Value)) }
