package stages

import (
	"errors"
	"fmt"
	"math"
	"slices"

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

	// Places are the braces in the order in which they are fixed, Number of them; none:
	// operation sheets leave blanks. Until is the condition for removing them, in words, at
	// most 200 letters: "both diaphragms cast and at 25 MPa"; "": a blank.
	Places []BracePlace
	Until  string
}

// BracePlace is where a brace stands.
type BracePlace struct {
	Mark string  `json:"mark"` // name on the drawing, unlike the others, at most 40 letters
	X    float64 `json:"x"`    // m, on the element
}

// Bracing is the braces of a situation in a record.
type Bracing struct {
	Number   int          `json:"number"`           // fixed before the slings are released
	Places   []BracePlace `json:"places,omitempty"` // in the order in which they are fixed; none: not stated
	Until    string       `json:"until,omitempty"`  // condition for removing them; "": not stated
	Document string       `json:"by"`
}

// bracing are the braces of a situation; nil for none.
func (s *situation) bracing() *Bracing {
	if s.Slender == nil || s.Slender.Braces == nil {
		return nil
	}
	b := s.Slender.Braces
	return &Bracing{b.Number, slices.Clone(b.Places), b.Until, b.Document}
}

// valid reports braces that no situation has.
func (b *Bracing) valid(length float64) error {
	switch {
	case b == nil:
		return nil
	case !(b.Number >= 1 && b.Number <= 100):
		return fmt.Errorf("%d braces: must be 1 to 100", b.Number)
	case b.Until != "":
		if err := wording("condition for removing the braces", b.Until, mostFactText); err != nil {
			return err
		}
	}
	return checkBraces(b.Number, b.Places, length)
}

// braceInputs are where the braces of all situations stand.
func (r *run) braceInputs() (groups []lineGroup) {
	for _, s := range r.situations {
		if b := s.bracing(); b != nil && len(b.Places) > 0 {
			group := lineGroup{title: "Braces of " + s.Name + ", in the order in which they are fixed"}
			for i, p := range b.Places {
				group.lines = append(group.lines, formula.Given(formula.Q(fmt.Sprintf("x_brace%d", i+1), p.X, formula.Metre, "place of brace "+p.Mark), formula.Source{Document: b.Document}))
			}
			groups = append(groups, group)
		}
	}
	return groups
}

func (b Braces) check(length float64) error {
	if err := outside("Slender.Braces.", ranged{"Number", float64(b.Number), "", 1, 100}, ranged{"Height", b.Height, "m", 0.1, 20},
		ranged{"Stiffness", b.Stiffness, "N/m", 1e4, 1e10}, ranged{"Limit", b.Limit, "N", 1e3, 10e6}); err != nil {
		return err
	}
	if b.Document == "" {
		return errors.New("field Slender.Braces.Document is empty: must be where limit and stiffness come from")
	}
	if b.Until != "" {
		if err := wording("field Slender.Braces.Until", b.Until, mostFactText); err != nil {
			return err
		}
	}
	return checkBraces(b.Number, b.Places, length)
}

// checkBraces reports places that are not those of so many braces on an element of that
// length (m).
func checkBraces(number int, places []BracePlace, length float64) error {
	if len(places) != 0 && len(places) != number {
		return fmt.Errorf("field Slender.Braces.Places has %d braces: must be none (not stated) or %d, their Number", len(places), number)
	}
	for i, p := range places {
		if err := wording(fmt.Sprintf("mark of Slender.Braces.Places[%d]", i), p.Mark, mostMark); err != nil {
			return err
		}
		if slices.ContainsFunc(places[:i], func(o BracePlace) bool { return o.Mark == p.Mark }) {
			return fmt.Errorf("in Slender.Braces.Places[%d]: mark %q is that of another: must be marks that differ", i, p.Mark)
		}
		if !(p.X >= 0 && p.X <= length) {
			return fmt.Errorf("in Slender.Braces.Places[%d] %q: X = %g m: must be on the element, 0 to %g m", i, p.Mark, p.X, length)
		}
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
