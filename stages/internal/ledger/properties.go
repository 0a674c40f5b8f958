package ledger

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Section is the section of a state at x (m), at a joint of pieces on its right.
func (l *Ledger) Section(x float64, state *State) section.Properties {
	return l.properties(l.outlineAt(l.besideJoint(x)), state)
}

// outlineAt is the outline at x, kept for the next question.
func (l *Ledger) outlineAt(x float64) *Station {
	s := l.outlines[x]
	if s == nil {
		s = l.outline(x)
		if l.outlines == nil {
			l.outlines = map[float64]*Station{}
		}
		l.outlines[x] = s
	}
	return s
}

// levelIn is true for a stretch of one constant piece in which every tendon that passes
// has its place in the section all along.
func (l *Ledger) levelIn(p *Stretch) bool {
	first, middle, last := p.At[0], p.At[Nodes/2], p.At[Nodes-1]
	if !p.constant || !l.constant(middle.Pieces[0].Index) || len(middle.bodies) > 0 {
		return false
	}
	for _, at := range [2]*Station{first, last} {
		if !slices.EqualFunc(at.Pieces, middle.Pieces, samePiece) || !slices.Equal(at.here, middle.here) {
			return false
		}
	}
	return !slices.ContainsFunc(middle.here, func(i int) bool {
		t := &l.Girder.Tendons[i]
		return t.Grip != nil || !t.Path.Level(first.X, last.X)
	})
}

// properties is the section of a state at a station, in terms of its reference
// modulus.
func (l *Ledger) properties(s *Station, state *State) section.Properties {
	var list [8]section.Properties
	parts := list[:0]
	for slot := range s.Pieces {
		ratio := state.Ratio(s.Pieces[slot].Index)
		if ratio == 0 {
			continue
		}
		parts = append(parts, scaled(l.withTendons(s, state, slot, ratio), ratio))
	}
	switch len(parts) {
	case 0:
		return section.Properties{}
	case 1:
		return parts[0]
	}
	return together(parts)
}

// withTendons is one piece of a state with its ducts out and its bonded steel. What
// has no bonded steel is the same in every state, and kept.
func (l *Ledger) withTendons(s *Station, state *State, slot int, ratio float64) section.Properties {
	p := &s.Pieces[slot]
	if p.netKnown && !s.bonded(state, slot) {
		return p.net
	}
	list, bonded := l.inclusions[:0], false
	for i := range s.Tendons {
		at, t := &s.Tendons[i], &l.Girder.Tendons[i]
		if !at.Here || at.Slot != slot || t.External || at.Area == 0 {
			continue
		}
		switch {
		case state.Bonded[i] && state.SteelOut:
			list, bonded = append(list, section.Inclusion{At: at.At, Area: at.Area}), true
		case state.Bonded[i]:
			list, bonded = append(list, section.BondedSteel(at.At, at.Area, t.Modulus/(state.Modulus*ratio))), true
		case t.Duct > 0:
			list = append(list, section.Duct(at.At, t.Duct))
		}
	}
	l.inclusions = list
	if bonded {
		return p.Gross.With(list...)
	}
	if !p.netKnown {
		p.net, p.netKnown = p.Gross.With(list...), true
	}
	return p.net
}

// bonded is true where a bonded tendon passes a piece of the station.
func (s *Station) bonded(state *State, slot int) bool {
	for i := range s.Tendons {
		if at := &s.Tendons[i]; at.Here && at.Slot == slot && state.Bonded[i] {
			return true
		}
	}
	return false
}

// scaled is a section counted as often as its modular ratio says.
func scaled(p section.Properties, ratio float64) section.Properties {
	if ratio == 1 {
		return p
	}
	p.Area *= ratio
	p.SecondMomentY *= ratio
	p.SecondMomentZ *= ratio
	p.ProductMoment *= ratio
	return p
}

// together is the sum of sections about their common centroid.
func together(parts []section.Properties) section.Properties {
	var sum section.Properties
	var y, z float64
	for _, p := range parts {
		sum.Area += p.Area
		y += p.Area * p.Centroid.Y
		z += p.Area * p.Centroid.Z
	}
	sum.Centroid = section.Point{Y: y / sum.Area, Z: z / sum.Area}
	for _, p := range parts {
		dy, dz := p.Centroid.Y-sum.Centroid.Y, p.Centroid.Z-sum.Centroid.Z
		sum.SecondMomentY += p.SecondMomentY + p.Area*dz*dz
		sum.SecondMomentZ += p.SecondMomentZ + p.Area*dy*dy
		sum.ProductMoment += p.ProductMoment + p.Area*dy*dz
		sum.Top = math.Max(sum.Top, p.Top+dz)
		sum.Bottom = math.Max(sum.Bottom, p.Bottom-dz)
		sum.Left = math.Max(sum.Left, p.Left+dy)
		sum.Right = math.Max(sum.Right, p.Right-dy)
	}
	return sum
}
