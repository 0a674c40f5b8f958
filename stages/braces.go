package stages

import (
	"errors"
	"math"

	"github.com/tempstage/tempstage/beam/roll"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Braces hold an element that stands on what gives way when it rolls: push-pull props or
// frames, alike, from the pier or from an element beside it. What they are fixed to must
// carry their force and is not checked.
type Braces struct {
	Number    int     // fixed before the slings are released, 1 to 100
	Height    float64 // of where they hold the element above its supports, m, 0.1 to 20
	Stiffness float64 // horizontal, of one with its fixings, N/m, 1e4 to 1e10
	Limit     float64 // working load limit of one, N, 1e3 to 10e6
	Document  string  // from which limit and stiffness come
}

func (b Braces) check() error {
	if err := outside("Slender.Braces.", ranged{"Number", float64(b.Number), "", 1, 100}, ranged{"Height", b.Height, "m", 0.1, 20},
		ranged{"Stiffness", b.Stiffness, "N/m", 1e4, 1e10}, ranged{"Limit", b.Limit, "N", 1e3, 10e6}); err != nil {
		return err
	}
	if b.Document == "" {
		return errors.New("field Slender.Braces.Document is empty: must be where limit and stiffness come from")
	}
	return nil
}

// stiffness is their roll stiffness (N·m/rad).
func (b Braces) stiffness() float64 {
	return float64(b.Number) * b.Stiffness * b.Height * b.Height
}

// with is the roll stiffness of a seat (N·m/rad) with the braces.
func (b Braces) with(seat float64) (formula.Line, error) {
	return formula.Derive(formula.Q("K", 0, formula.NewtonMetrePerRadian, "roll stiffness of all supports together"), "K_seat + n_brace*k_brace*h_brace*h_brace", formula.Mechanics,
		formula.Q("K_seat", seat, formula.NewtonMetrePerRadian, "roll stiffness of the supports without braces"), b.number(),
		formula.Q("k_brace", b.Stiffness, formula.NewtonPerMetre, "of one brace with its fixings, horizontal"), formula.Q("h_brace", b.Height, formula.Metre, "of the braces above the supports"))
}

// number is how many of them are fixed before the slings are released.
func (b Braces) number() formula.Quantity {
	return formula.Q("n_brace", float64(b.Number), formula.One, "braces fixed before the slings are released")
}

// braced is a seated element with braces: the sum of both roll stiffnesses, which counts
// until a brace has its limit, or what the seat gets reaches its edge. Each part takes its
// share of the resultant, so that of all may be farther out than that of the seat.
func (b Braces) braced(d roll.Seated) roll.Seated {
	seat := d.Stiffness
	d.Stiffness += b.stiffness()
	brace := b.Limit / (b.Stiffness * b.Height) // tilt at which one has its limit
	d.HalfBase = math.Min(5, math.Min(d.HalfBase*d.Stiffness/seat, d.Stiffness/d.Girder.Weight*brace))
	d.Kern = math.Min(5, d.Kern*d.Stiffness/seat)
	return d
}

// force is the check of the force in a brace at the tilt at rest, which the tilt itself
// and the wind amplify.
func (b Braces) force(x, tilt float64) (checked, error) {
	line, err := formula.Derive(formula.Q("F_brace", 0, formula.Newton, "force in one brace"), "k_brace*h_brace*θ", formula.Mechanics,
		formula.Q("k_brace", b.Stiffness, formula.NewtonPerMetre, "of one brace with its fixings, horizontal"), formula.Q("h_brace", b.Height, formula.Metre, "of the braces above the supports"),
		formula.Q("θ", tilt, formula.Radian, "tilt at which it comes to rest, with wind, cross-fall and offset, amplified by the deflection to the side"))
	if err != nil {
		return checked{}, err
	}
	source := formula.Source{Document: b.Document}
	limit := limits.Limit{
		Kind: limits.BraceForce, Name: string(limits.BraceForce), LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: source,
		Line: formula.Given(formula.Q("WLL_brace", b.Limit, formula.Newton, "working load limit of one brace"), source),
	}
	c := checked{Check: NewCheck(limit, line.Result), proof: &lineProof{lines: []formula.Line{line, limit.Line}}}
	c.X, c.Place = x, "each brace"
	c.holds = (&Hold{Kind: "braces fixed", Required: b.number(), Assumed: b.number()}).point()
	return c, nil
}
