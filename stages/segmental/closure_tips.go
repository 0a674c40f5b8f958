package segmental

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// closing is a closure with the two parts beside a closure in a situation.
type closing struct {
	work        ClosureWork
	piece       stages.Piece
	x           float64             // middle of the closure, m
	parts       [2]*stages.Movement // left and right; one twice where they are joined
	fixed       [2]float64          // x of the support from which each reaches to the closure, m
	flexibility Flexibility
	curved      Tips // by a curvature 1/h of every section: m, and a pure number
	day         float64
}

// tips finds both parts beside the closure in a situation.
func (w ClosureWork) tips(g stages.Girder, e stages.Effects) (c closing, err error) {
	if c.piece, err = w.piece(g); err != nil {
		return c, err
	}
	c.work, c.x, c.day = w, c.piece.At+c.piece.Element.Length/2, e.Situation.Day
	if e.Moves == nil {
		return c, fmt.Errorf("%w: closure %s: the effects of %q have no movements: must be those of a standing situation", ErrSegmental, w.Closure, e.Situation.Name)
	}
	moves, err := e.Moves()
	if err != nil {
		return c, err
	}
	near := 1e-6 * math.Max(1, g.Length())
	for _, m := range moves {
		if m.From < c.piece.At-near && m.To > c.piece.At-near {
			c.parts[0] = m
		}
		if m.From < c.piece.To()+near && m.To > c.piece.To()+near {
			c.parts[1] = m
		}
	}
	if c.parts[0] == nil || c.parts[1] == nil {
		return c, fmt.Errorf("%w: closure %s: in %q there is no part of the deck left or right of it: must be both", ErrSegmental, w.Closure, e.Situation.Name)
	}
	for side := range c.parts {
		at, ok := c.root(e, side)
		if !ok && w.Flexibility == nil {
			return c, fmt.Errorf("%w: closure %s: the part on its %s is on no fixed support in %q: must be, or field Flexibility must be stated", ErrSegmental, w.Closure, sides[side], e.Situation.Name)
		}
		c.fixed[side] = at
		if err := c.bend(g, side); err != nil {
			return c, err
		}
	}
	c.curved.Level = without(c.curved.Level, nearly*c.curved.Angle)
	if w.Flexibility != nil {
		c.flexibility = *w.Flexibility
	}
	return c, nil
}

// sides are the sides of a closure in words.
var sides = [2]string{"left", "right"}

// root is x of the fixed support of a part that is nearest to the closure, or of any support.
func (c closing) root(e stages.Effects, side int) (x float64, fixed bool) {
	best := math.Inf(1)
	for _, s := range e.Situation.Supports {
		ahead := (c.x - s.X) * [2]float64{1, -1}[side]
		if m := c.parts[side]; s.X < m.From || s.X > m.To || ahead <= 0 || fixed && !s.Fixed {
			continue
		}
		if s.Fixed && !fixed || ahead < best {
			x, best, fixed = s.X, ahead, fixed || s.Fixed
		}
	}
	return x, fixed
}

// bend adds the part of the deck on a side, from its support to the middle of the closure:
// its flexibility up to the tip, with the sections and the moduli of the day, and what
// it bends by a curvature 1/h.
func (c *closing) bend(g stages.Girder, side int) error {
	from, to := c.fixed[side], c.x
	if side == 1 {
		from, to = c.x, c.fixed[side]
	}
	for _, p := range g.Pieces {
		left, right := math.Max(from, p.At), math.Min(to, p.To())
		if !(right > left) {
			continue
		}
		soft := 0.0 // 1/E; the closure is wet, or short and as stiff as the arms
		if p.Element.Mark != c.work.Closure {
			state, err := p.Element.Concrete.At(c.day - p.Element.Cast)
			if err != nil {
				return fmt.Errorf("%w: closure %s: segment %s: %w", ErrSegmental, c.work.Closure, p.Element.Mark, err)
			}
			soft = 1 / state.Modulus
		}
		half := (right - left) / 2
		for k, at := range [3]float64{-math.Sqrt(0.6), 0, math.Sqrt(0.6)} { // Gauss
			x := left + half + half*at
			of, dx := p.Element.Section.At(x-p.At).Properties(), half*[3]float64{5. / 9, 8. / 9, 5. / 9}[k]
			lever, sense := math.Abs(c.x-x), [2]float64{1, -1}[side]
			give := dx * soft / of.SecondMomentY
			c.flexibility.Level += give * lever * lever
			c.flexibility.Angle += give
			c.flexibility.Cross += give * lever * sense
			c.curved.Level -= dx * lever / (of.Top + of.Bottom) * sense
			c.curved.Angle += dx / (of.Top + of.Bottom)
		}
	}
	return nil
}

// calculated is the difference of the tips by the movements of a situation, right less left.
func (c closing) calculated() Tips {
	var level, slope [2]float64
	for side, at := range [2]float64{c.piece.At, c.piece.To()} {
		m := c.parts[side]
		if inside := 1e-6 * (m.To - m.From); side == 0 {
			slope[side], _ = m.Slopes(at - inside)
		} else {
			slope[side], _ = m.Slopes(at + inside)
		}
		level[side] = m.At(at).Deflection + slope[side]*(c.x-at)
	}
	return Tips{Level: without(level[1]-level[0], nearly/1e3), Angle: without(slope[1]-slope[0], nearly/1e3)}
}

// without is v, or 0 where it is smaller than a size: arms alike differ by rounding.
func without(v, size float64) float64 {
	if math.Abs(v) < size {
		return 0
	}
	return v
}

// offset derives the difference of the tips in level and slope.
func (c closing) offset(k *formula.Chain) (level, angle formula.Quantity) {
	if s := c.work.Surveyed; s != nil {
		survey := formula.Source{Document: "survey of the tips"}
		return k.Given(formula.Q("Δ_z", s.Level, formula.Metre, "difference of level of the tips, right less left, surveyed"), survey, ""),
			k.Given(formula.Q("Δ_θ", s.Angle, formula.Radian, "difference of slope of the tips, right less left, surveyed"), survey, "")
	}
	by, camber := c.calculated(), c.work.Camber
	level = k.Derive(formula.Q("Δ_z", 0, formula.Metre, "difference of level of the tips, right less left"), "Δ_zm + Δ_zc", formula.Mechanics,
		formula.Q("Δ_zm", by.Level, formula.Metre, "by the movements of both arms, carried on to the middle of the closure"), formula.Q("Δ_zc", camber.Level, formula.Metre, "of the casting curve"))
	angle = k.Derive(formula.Q("Δ_θ", 0, formula.Radian, "difference of slope of the tips, right less left"), "Δ_θm + Δ_θc", formula.Mechanics,
		formula.Q("Δ_θm", by.Angle, formula.Radian, "by the movements of both arms"), formula.Q("Δ_θc", camber.Angle, formula.Radian, "of the casting curve"))
	return level, angle
}
