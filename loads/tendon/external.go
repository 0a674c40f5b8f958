package tendon

import "fmt"

// checkExternal reports what an external tendon cannot have: it touches the
// concrete at anchors and deviators only.
func (t Tendon) checkExternal(name string) error {
	if t.Wobble != 0 {
		return fmt.Errorf("%w: %s: Wobble = %g rad/m: must be 0 of an External tendon, which has friction at deviators only", ErrTendon, name, t.Wobble)
	}
	for _, c := range []struct {
		name  string
		curve Curve
	}{{"Elevation", t.Elevation}, {"Plan", t.Plan}} {
		for i, p := range c.curve {
			if !p.straight() {
				return fmt.Errorf("%w: %s: %s: piece %d is curved: must be straight from deviator to deviator of an External tendon, each drawn as a kink", ErrTendon, name, c.name, i+1)
			}
		}
	}
	return nil
}

// Deviators are the places (m, ascending) at which the tendon changes direction at
// a kink: the deviators of an external tendon, the hold-downs of harped strands.
// [Force.Deviations] are the forces there. An external tendon acts on the concrete
// at its anchors and deviators alone and is straight between; a kink is a saddle of
// no length.
func (p *Path) Deviators() []float64 {
	var places []float64
	for i := range p.kinks() {
		places = append(places, p.stretches[i].from)
	}
	return places
}

// kinks are the stretches that begin with a kink, each with its angle in space.
func (p *Path) kinks() func(yield func(i int, angle float64) bool) {
	return func(yield func(int, float64) bool) {
		for i := 1; !p.empty() && i < len(p.stretches); i++ {
			x := p.stretches[i].from
			angle := between(p.stretches[i-1].tangent(x), p.stretches[i].tangent(x))
			if angle > kinkTolerance && !yield(i, angle) {
				return
			}
		}
	}
}

// Between is the free length of an external tendon at x: from the anchor or
// deviator on its left to the one on its right (m); at a deviator the one on the
// right of it.
func (p *Path) Between(x float64) (from, to float64) {
	from, to = p.From(), p.To()
	for i := range p.kinks() {
		at := p.stretches[i].from
		if at > x {
			return from, at
		}
		from = at
	}
	return from, to
}

// Mean is the mean of a quantity along the tendon, ∫f ds/∫ds from one place to another
// (m). f must be smooth between the places at which the path changes and breaks (m,
// ascending). It gives the strain of a tendon without bond: with f = ε·along², ε the
// concrete's strain in x beside the tendon and along from [Path.Direction], it is the
// tendon's strain, exact under plane sections where the tendon slips between the two
// places and is fixed at both: [Path.Between] of an external tendon fixed at its
// deviators, the anchors of one that slips through them or of an internal one.
// Neglected: the deflection of the element beside the straight tendon.
func (p *Path) Mean(from, to float64, f func(x float64) float64, breaks ...float64) float64 {
	total, length := 0.0, 0.0
	if p.empty() {
		return f(from)
	}
	for i := range p.stretches {
		s := &p.stretches[i]
		low, high := max(from, s.from), min(to, s.to)
		along := func(x float64) float64 { return f(x) * s.rate(x) }
		for low < high {
			next := high
			for _, b := range breaks {
				if b > low && b < next {
					next = b
					break
				}
			}
			total += integrate(low, next, s.panels, along)
			length += s.arc(next) - s.arc(low)
			low = next
		}
	}
	if length == 0 {
		return f(from)
	}
	return total / length
}
