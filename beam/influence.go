package beam

import "fmt"

// Influence is an influence line: the effect at one fixed place of a unit force (1 N,
// downwards) at x. It is exact: the deflected line of the beam under a unit kink, slip
// or movement (Müller-Breslau).
type Influence struct {
	response *Response
	sign     float64
	last     state // jump at the very right end
}

// MomentInfluence is the influence line of the bending moment just right or just left
// of the place (m); N·m per N, sagging positive. The two sides differ only where a
// support restrains the rotation. The error wraps [ErrBeam] for a place off the beam
// and for a beam with contact supports, where effects do not add up.
func (b *Beam) MomentInfluence(place float64, side Side) (*Influence, error) {
	return b.influence(place, side, state{slope: 1}, -1)
}

// ShearInfluence is the influence line of the shear force just right or just
// left of the place (m); N per N. Errors as [Beam.MomentInfluence].
func (b *Beam) ShearInfluence(place float64, side Side) (*Influence, error) {
	return b.influence(place, side, state{up: 1}, 1)
}

// DeflectionInfluence is the influence line of the deflection at the place (m);
// m per N, upwards positive. Errors as [Beam.MomentInfluence].
func (b *Beam) DeflectionInfluence(place float64) (*Influence, error) {
	if err := b.superposable(place); err != nil {
		return nil, err
	}
	pieces := b.cutAt(place)
	nodal := make([]state, len(b.nodes))
	b.drop(pieces, nodal, place, state{shear: -1})
	return newInfluence(b.respond(pieces, nodal, b.particulars(pieces, nodal), nil), 1)
}

// ReactionInfluence is the influence line of the reaction of support number i
// of the layout; N per N, upwards positive. The error wraps [ErrBeam] when
// there is no such support and for a beam with contact supports.
func (b *Beam) ReactionInfluence(i int) (*Influence, error) {
	if err := b.superposable(0); err != nil {
		return nil, err
	}
	if i < 0 || i >= len(b.layout.Supports) {
		return nil, fmt.Errorf("%w: reaction of support %d: must be 0 to %d", ErrBeam, i, len(b.layout.Supports)-1)
	}
	up := make([]float64, len(b.layout.Supports))
	up[i] = 1
	return newInfluence(b.moveGround(up), 1)
}

// superposable refuses what has no influence line.
func (b *Beam) superposable(place float64) error {
	switch {
	case b == nil || len(b.nodes) == 0:
		return fmt.Errorf("%w: the Beam was not made by New: must be made by New", ErrBeam)
	case len(b.contact.supports) > 0:
		return fmt.Errorf("%w: Supports[%d] can lift off, so effects do not add up and there is no influence line: "+
			"must be beams without contact supports; solve with the dead load for each position instead", ErrBeam, b.contact.supports[0])
	case !(place >= 0 && place <= b.layout.Length):
		return fmt.Errorf("%w: influence line for x = %g m: must be 0 ≤ x ≤ %g m", ErrBeam, place, b.layout.Length)
	}
	return nil
}

// cutAt is the unloaded pieces with a cut at x.
func (b *Beam) cutAt(x float64) []piece {
	return b.cutAll(b.uncut(b.withBeside([]float64{x})))
}

// influence disturbs the beam at one place by a unit jump of slope or of
// deflection; the deflected line times sign is the influence line.
func (b *Beam) influence(place float64, side Side, jump state, sign float64) (*Influence, error) {
	if err := b.superposable(place); err != nil {
		return nil, err
	}
	r, last := b.disturb(place, side, jump)
	line, err := newInfluence(r, sign)
	if err != nil {
		return nil, err
	}
	if last {
		line.last = jump
	}
	return line, nil
}

// disturb is the response to a jump of the movements; last says that it is at
// the right end of the beam, behind all pieces.
func (b *Beam) disturb(place float64, side Side, jump state) (r *Response, last bool) {
	pieces := b.cutAt(place)
	i := b.pieceAt(pieces, place)
	node, atNode := b.nodeBefore(pieces, i)
	left := atNode && side == LeftOf && node > 0 || i == len(pieces)
	if !left {
		pieces[i].jump = jump
	}
	nodal := make([]state, len(b.nodes))
	particulars := b.particulars(pieces, nodal)
	if left {
		particulars[node-1] = particulars[node-1].plus(jump)
	}
	return b.respond(pieces, nodal, particulars, nil), i == len(pieces)
}

func newInfluence(r *Response, sign float64) (*Influence, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	return &Influence{response: r, sign: sign}, nil
}

// At is the effect of a unit force just right or just left of x (m). It is
// zero off the beam.
func (l *Influence) At(x float64, side Side) float64 {
	if l == nil {
		return 0
	}
	return l.sign * l.response.at(x, side).up
}

// Extremes is every local extreme of the influence line from left to right, as
// [Response.MomentExtremes].
func (l *Influence) Extremes() []Extreme {
	if l == nil {
		return nil
	}
	found := l.response.DeflectionExtremes()
	for i := range found {
		found[i].Value *= l.sign
	}
	return found
}

// Range is the minimum and maximum of the influence line.
func (l *Influence) Range() Range {
	if l == nil {
		return Range{}
	}
	bounds := l.response.DeflectionRange()
	bounds.Least.Value *= l.sign
	bounds.Most.Value *= l.sign
	if l.sign < 0 {
		bounds.Least, bounds.Most = bounds.Most, bounds.Least
	}
	return bounds
}
