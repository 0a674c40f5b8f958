package segmental

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Held is what holds a tendon back inside its bends: ties round its duct, anchored in the
// concrete outside of the bend.
type Held struct {
	PerMetre float64 // area of their legs along curves, m²/m, 0 to 0.05
	AtKink   float64 // area of their legs at each kink, m², 0 to 0.05; of an external tendon in its deviator
	Yield    float64 // characteristic yield strength, Pa, 200e6 to 700e6
	Document string  // that states them; must not be empty
}

// check reports the first field that is not as it must be.
func (h *Held) check(of string) error {
	if h == nil {
		return nil
	}
	if h.Document == "" {
		return fmt.Errorf("%w: field %sDocument is empty: must name the document that states the ties", ErrSegmental, of)
	}
	return within(of, bound{"PerMetre", h.PerMetre, "m²/m", 0, 0.05}, bound{"AtKink", h.AtKink, "m²", 0, 0.05}, bound{"Yield", h.Yield, "Pa", 200e6, 700e6})
}

var (
	pullSource = formula.Source{Document: "AASHTO LRFD Bridge Design Specifications", Place: "in-plane force effects of tendons, 0.125·d_c·√f′ci in ksi and inches", Confirm: true}
	tiesSource = formula.Source{Document: "EN 1992-1-1:2004", Place: "2.4.2.4, γ_S = 1.15", Confirm: true}
	localForce = formula.Q("γ_P", 1.2, formula.One, "factor on the prestress for local effects (EN 1992-1-1:2004, 2.4.2.2(3), unconfirmed)")
)

const (
	ksi        = 6.894757e6 // Pa
	coverPart  = 0.75       // strength reduction factor of shear
	coverShear = 0.125      // of both planes beside the duct, in √ksi
	steelPart  = 1.15       // partial factor of reinforcing steel
)

// byCover is what the concrete inside a bend carries (N/m).
func (b bend) byCover() float64 { return coverPart * coverShear * b.cover * math.Sqrt(b.strength*ksi) }

// byTies is what ties carry: N/m, at a kink N.
func (b bend) byTies(kink bool) float64 {
	switch {
	case b.held == nil:
		return 0
	case kink:
		return b.held.AtKink * b.held.Yield / steelPart
	}
	return b.held.PerMetre * b.held.Yield / steelPart
}

// carried is the larger of both; at a kink ties alone.
func (b bend) carried(kink bool) float64 {
	if kink {
		return b.byTies(kink)
	}
	return math.Max(b.byCover(), b.byTies(kink))
}

// pullChecks are the deviation forces of the tendons that a move stresses: where they are curved
// the one nearest to what cover or ties carry, and the one at kinks. Where the concrete does not
// carry them and no ties are stated, it is a question with the force.
func (s *state) pullChecks(m Move, g stages.Girder, _ stages.Effects, _ limits.Standard) (list []stages.OwnCheck, err error) {
	if m.Do != Stress {
		return nil, nil
	}
	var curved, kinked []bend
	for _, t := range s.deck.Tendons {
		if !slices.Contains(m.Jacking.Tendons, t.Mark) {
			continue
		}
		some, err := s.bends(t, g)
		if err != nil {
			return nil, err
		}
		at, err := s.kinks(t)
		if err != nil {
			return nil, err
		}
		curved, kinked = append(curved, some...), append(kinked, at...)
	}
	for k, of := range [2][]bend{curved, kinked} {
		more, err := governingBends(of, k == 1)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	return list, nil
}

// governingBends are the check of the governing bend and the question about the largest force
// that nothing stated carries.
func governingBends(of []bend, kink bool) (list []stages.OwnCheck, err error) {
	var worst, open *bend
	use := func(b *bend) float64 { return localForce.Value * b.push(kink) / math.Max(b.carried(kink), 1e-9) }
	for i := range of {
		b := &of[i]
		switch stated := b.held != nil || use(b) <= 1; {
		case stated && (worst == nil || use(b) > use(worst)):
			worst = b
		case !stated && (open == nil || b.push(kink) > open.push(kink)):
			open = b
		}
	}
	if worst != nil {
		check, err := worst.check(kink)
		if err != nil {
			return nil, err
		}
		list = append(list, check)
	}
	if open != nil {
		list = append(list, open.question(kink))
	}
	return list, nil
}

// names are those of check, force and its unit.
func (b bend) names(kink bool) (name string, unit formula.Unit, words string) {
	if kink {
		return "pull-out of " + b.mark + " at a kink", formula.Newton, "kN"
	}
	return "pull-out of " + b.mark + " inside its curve", formula.NewtonPerMetre, "kN/m"
}

func (b bend) check(kink bool) (stages.OwnCheck, error) {
	c := &formula.Chain{}
	name, unit, _ := b.names(kink)
	force := formula.Q("P_0", b.force, formula.Newton, "jacking force of "+b.mark)
	demand := formula.Q("q_d", 0, unit, "deviation force, towards "+towards(b.to))
	if kink {
		demand = c.Derive(demand, "γ_P*2*P_0*sin(α/2)", formula.Mechanics, localForce, force, formula.Q("α", b.turn, formula.Radian, "change of direction"))
	} else {
		demand = c.Derive(demand, "γ_P*P_0*κ", formula.Mechanics, localForce, force, formula.Q("κ", b.turn, formula.PerMetre, "curvature 1/R in space, with that of the deck"))
	}
	limit, source := b.limit(c, kink, unit)
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: name, LimitState: limits.Ultimate, Sense: limits.AtMost, Source: source, Line: formula.Given(limit, source)}, demand)
	check.X, check.Place, check.Note = b.x, "segment "+b.segment+", towards "+towards(b.to), "bounded: jacking force without friction"
	return check.Derived(lines...), nil
}

// limit derives what carries the force: ties where they carry more, else the concrete.
func (b bend) limit(c *formula.Chain, kink bool, unit formula.Unit) (formula.Quantity, formula.Source) {
	result := formula.Q("q_Rd", 0, unit, "ties round the duct")
	if b.held != nil && b.byTies(kink) >= b.carried(kink) {
		yield, part := formula.Q("f_yk", b.held.Yield, formula.Pascal, "yield strength of the ties"), formula.Q("γ_S", steelPart, formula.One, "partial factor of the ties")
		stated := formula.Source{Document: b.held.Document}
		if kink {
			return c.Derive(result, "A_s*f_yk/γ_S", tiesSource, formula.Q("A_s", b.held.AtKink, formula.SquareMetre, "legs of ties at the kink"), yield, part), stated
		}
		return c.Derive(result, "A_s/l_1*f_yk/γ_S", tiesSource, formula.Q("A_s", b.held.PerMetre, formula.SquareMetre, "legs of ties on a length l_1 of the tendon"), formula.Q("l_1", 1, formula.Metre, "unit length"), yield, part), stated
	}
	result.Name = "shear of the concrete on both sides of the duct"
	return c.Derive(result, "φ*k_c*d_c*sqrt(f_ck*f_1)", pullSource, formula.Q("k_c", coverShear, formula.One, "shear of both planes beside the duct, in √ksi"), formula.Q("φ", coverPart, formula.One, "strength reduction factor"), formula.Q("d_c", b.cover, formula.Metre, "concrete from the axis of the duct to the face"),
		formula.Q("f_ck", b.strength, formula.Pascal, "characteristic strength on the day"), formula.Q("f_1", ksi, formula.Pascal, "1 ksi")), pullSource
}

// question is that about ties which are not stated.
func (b bend) question(kink bool) stages.OwnCheck {
	name, _, unit := b.names(kink)
	concrete := "; concrete alone is not counted at a kink"
	if !kink {
		concrete = fmt.Sprintf("; the concrete carries %.1f kN/m (%s)", math.Floor(b.byCover()/100)/10, pullSource)
	}
	return stages.OwnCheck{Check: stages.Check{Kind: limits.LocalForce, Name: name, State: stages.NotEvaluated, Sense: limits.AtMost, X: b.x, Place: "segment " + b.segment,
		Note: fmt.Sprintf("ties are not stated: required for %.1f %s towards %s, design value with γ_P = 1.2%s", math.Ceil(localForce.Value*b.push(kink)/100)/10, unit, towards(b.to), concrete)}}
}

// towards is a direction in a section in words.
func towards(p section.Point) string {
	switch {
	case math.Abs(p.Y) > math.Abs(p.Z) && p.Y > 0:
		return "the left"
	case math.Abs(p.Y) > math.Abs(p.Z):
		return "the right"
	case p.Z > 0:
		return "the top"
	}
	return "the soffit"
}
