package rigging

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
)

// Anchors are the lifting anchors of an element, of one kind, with the load that hangs
// at them.
type Anchors struct {
	Anchor       Anchor
	Strength     float64           // of the concrete on the day, Pa
	Specimen     concrete.Specimen // of Strength; must be that of the anchor's table
	Load         float64           // below the anchors at rest, N, 1 to 100e6; at release with the adhesion to the mould
	Dynamic      float64           // greatest dynamic factor, 1 to 3
	Number       int               // of anchors, 1 to 16
	Sharing      Sharing           // of more than two: what nothing equalises is carried by two, for the element is rigid
	Part         float64           // greatest part of the load on one of the anchors that count; 0 means the same on each, else at least that
	FromVertical float64           // of the pull from the vertical, rad, 0 to 1.05
	FromAxis     float64           // of the pull from the axis of the anchor, rad, 0 to 1.571
	Edge         float64           // of an anchor from the nearest edge, m
}

// Anchored is what an anchor gets and may carry.
type Anchored struct {
	Counting    int         // anchors that count
	Force       float64     // in one of them, with the dynamic factor, along the pull, N
	Limit       AnchorLimit // of one anchor
	Utilisation float64     // Force over Limit.Load
}

// Counting is the number of anchors that count: all where they are equalised or at most
// two, else two.
func (a Anchors) Counting() int {
	if a.Sharing == Equalised {
		return a.Number
	}
	return min(a.Number, 2)
}

// part is the greatest part of the load on one anchor.
func (a Anchors) part() float64 { return orElse(a.Part, 1/float64(a.Counting())) }

// Solve compares the force in an anchor with its working load limit. It does not check
// the concrete beside the anchor, its reinforcement and the lifting key: these are as
// the maker asks. The error wraps [ErrRigging]; a force above the limit is no error: its
// Utilisation is above 1.
func (a Anchors) Solve() (Anchored, error) {
	limit, err := a.Anchor.Limit(a.Strength, a.FromAxis, a.Edge)
	if err != nil {
		return Anchored{}, err
	}
	switch {
	case a.Specimen != a.Anchor.Specimen:
		return Anchored{}, fmt.Errorf("%w: Anchors.Specimen is not that of the table of %s: must be the same, cylinder or cube", ErrRigging, a.Anchor.Mark)
	case a.Number < 1 || a.Number > 16:
		return Anchored{}, fmt.Errorf("%w: Anchors.Number = %d: must be 1 to 16", ErrRigging, a.Number)
	case a.Sharing != NotEqualised && a.Sharing != Equalised:
		return Anchored{}, fmt.Errorf("%w: Anchors.Sharing = %q: must be NotEqualised or Equalised", ErrRigging, a.Sharing)
	}
	bounds := []bound{{"Load", a.Load, "N", 1, 100e6}, {"Dynamic", a.Dynamic, "", 1, 3}, {"FromVertical", a.FromVertical, "rad", 0, 1.05}}
	if a.Part != 0 {
		bounds = append(bounds, bound{"Part", a.Part, "", 1 / float64(a.Counting()), 1})
	}
	if err := within("Anchors", bounds...); err != nil {
		return Anchored{}, err
	}
	r := Anchored{Counting: a.Counting(), Limit: limit, Force: a.Dynamic * a.part() * a.Load / math.Cos(a.FromVertical)}
	r.Utilisation = r.Force / limit.Load
	return r, nil
}

// Lines derive what [Anchors.Solve] gives: each result is that of the field of
// [Anchored]. The error is that of Solve.
func (a Anchors) Lines() ([]formula.Line, error) {
	r, err := a.Solve()
	if err != nil {
		return nil, err
	}
	c := &formula.Chain{}
	row := a.Anchor.loadLine(c, a.Strength)
	c.Given(radians("β_a", a.FromAxis, "angle of the pull from the axis of the anchor"), stated, "")
	c.Given(radians("β_T", r.Limit.Angle.FromAxis, "angle of the maker's table that counts"), a.Anchor.Source, "the same or the next larger")
	angle := c.Given(number("k_β", r.Limit.Angle.Share, "share of the limit by the angle of pull"), a.Anchor.Source, "")
	c.Given(metres("c_a", a.Edge, "distance of an anchor from the nearest edge"), stated, "")
	c.Given(metres("c_T", r.Limit.Edge.Distance, "edge distance of the maker's table that counts"), a.Anchor.Source, "the same or the next smaller")
	edge := c.Given(number("k_c", r.Limit.Edge.Share, "share of the limit by the distance from an edge"), a.Anchor.Source, "")
	limit := c.Derive(newtons("WLL", 0, "working load limit of one anchor"), "WLL_0*k_β*k_c", a.Anchor.Source, row, angle, edge)
	part := number("p_A", a.part(), "part of the load on one anchor")
	if a.Part == 0 {
		part = c.Derive(part, "1/n_A", formula.Mechanics, number("n_A", float64(r.Counting), "anchors that count"))
		if r.Counting < a.Number {
			c.Note(fmt.Sprintf("nothing equalises the %d anchors of a rigid element: two count", a.Number))
		}
	} else {
		part = c.Given(part, stated, fmt.Sprintf("greatest of %d that count", r.Counting))
	}
	force := c.Derive(newtons("F_A", 0, "force in one anchor, with the dynamic factor"), "Φ*p_A*W/cos(β_v)", formula.Mechanics, number("Φ", a.Dynamic, "dynamic factor"), part,
		newtons("W", a.Load, "load below the anchors at rest"), radians("β_v", a.FromVertical, "angle of the pull from the vertical"))
	c.Derive(number("u_A", 0, "utilisation of an anchor"), "F_A/WLL", formula.Mechanics, force, limit)
	return c.Lines()
}

// loadLine appends the lines of the load of the maker's table at a strength.
func (a Anchor) loadLine(c *formula.Chain, strength float64) formula.Quantity {
	pascals := func(symbol string, value float64, name string) formula.Quantity {
		return formula.Q(symbol, value, formula.Pascal, name)
	}
	onTheDay := c.Given(pascals("f_c", strength, "strength of the concrete on the day"), stated, "")
	row, next := a.rows(strength)
	load := newtons("WLL_0", row.Load, "working load limit of "+a.Mark+" by the strength of the concrete")
	if next == nil {
		c.Given(pascals("f_T", row.Strength, "strength of the maker's table that counts"), a.Source, "the same or the next lower")
		return c.Given(load, a.Source, "")
	}
	return c.Derive(load, "WLL_a + (WLL_b - WLL_a)*(f_c - f_a)/(f_b - f_a)", a.Source, newtons("WLL_a", row.Load, "limit at the next lower strength"), newtons("WLL_b", next.Load, "limit at the next higher strength"),
		onTheDay, pascals("f_a", row.Strength, "next lower strength of the maker's table"), pascals("f_b", next.Strength, "next higher strength of the maker's table"))
}
