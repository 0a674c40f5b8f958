package redistribution

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/beam"
)

// Body is a length of beam that acted by itself before the change of system. Its ends
// are free: no moment and no shear passes to its neighbours, as two cantilevers before
// their closure, or spans before they are made continuous.
//
// The moment of the load in it is that of Response and Primary together:
// Response alone for weight, Primary alone for tendons where the body is
// determinate, so that they raise no restraint, and both for tendons where it is
// not ([Restraint] holds them) or for weight and tendons of one day.
type Body struct {
	From     float64        // x of its left end in the final beam, m
	To       float64        // x of its right end, m; 0 means From + the length of Response, or the end of the beam
	Response *beam.Response // its x from the left end of the body; nil for none
	Primary  Primary        // its x in the final beam; zero for none
}

// law is the moment before the change on a length where it is one polynomial.
type law struct {
	from, to float64                 // x in the final beam, m
	at       func(x float64) float64 // N·m
}

// end is the right end of a body (m).
func (b Body) end(length float64) float64 {
	switch {
	case b.To != 0:
		return b.To
	case b.Response != nil:
		return b.From + b.Response.Length()
	default:
		return length
	}
}

func (s Staged) checkBefore() error {
	if len(s.Before) == 0 {
		return fmt.Errorf("%w: Staged.Before is empty: must be the bodies before the change", ErrRedistribution)
	}
	last := 0.0
	for i, b := range s.Before {
		end := b.end(s.Final.Length)
		switch {
		case b.Response == nil && b.Primary.Moment == nil:
			return fmt.Errorf("%w: Before[%d] has neither Response nor Primary: must be at least one", ErrRedistribution, i)
		case !(b.From >= last-nearest && end > b.From+nearest && end <= s.Final.Length+nearest):
			return fmt.Errorf("%w: Before[%d] from x = %g to %g m: must be after %g m, in the final beam of %g m", ErrRedistribution, i, b.From, end, last, s.Final.Length)
		case b.Response != nil && math.Abs(b.Response.Length()-(end-b.From)) > nearest:
			return fmt.Errorf("%w: Before[%d].Response is %g m long: must be the length of the body, %g m", ErrRedistribution, i, b.Response.Length(), end-b.From)
		}
		last = end
	}
	return nil
}

// laws are those of all bodies.
func (s Staged) laws() ([]law, error) {
	var laws []law
	for i, b := range s.Before {
		if b.Response != nil {
			for _, piece := range b.Response.Pieces() {
				if piece.Moment[6] != 0 || piece.Moment[7] != 0 {
					return nil, fmt.Errorf("%w: Before[%d]: line load between %g and %g m: must be at most of the third power of x", ErrRedistribution, i, piece.From, piece.To)
				}
				laws = append(laws, law{b.From + piece.From, b.From + piece.To, func(x float64) float64 { return piece.At(x - b.From - piece.From) }})
			}
		}
		if b.Primary.Moment == nil {
			continue
		}
		fitted, err := polynomials("primary moment", "N·m", stretch(b.From, b.end(s.Final.Length), b.Primary.Breaks), b.Primary.Moment)
		if err != nil {
			return nil, fmt.Errorf("in Before[%d]: %w", i, err)
		}
		for _, piece := range fitted {
			laws = append(laws, law{piece.From, piece.To, func(x float64) float64 { return piece.Value.At(x - piece.From) }})
		}
	}
	return laws, nil
}

// stretch is both ends and the breaks between them, ascending.
func stretch(from, to float64, breaks []float64) []float64 {
	inside := make([]float64, len(breaks))
	for i, x := range breaks {
		inside[i] = x - from
	}
	places := ascending(inside, to-from)
	for i := range places {
		places[i] += from
	}
	return places
}
