package beam

import (
	"slices"

	"gonum.org/v1/gonum/blas/blas64"
)

// Beam is a layout with its stiffness factorised. It never changes and may be shared
// between goroutines.
type Beam struct {
	layout   Layout
	nodes    []node
	members  []member
	panels   []panel
	uniform  []panel // of each stretch, as far as its stiffness is constant
	unknowns int
	factor   blas64.TriangularBand // lower, with the reciprocals of the pivots on the diagonal
	beside   beside
	contact  contact
}

// New prepares the beam. The error wraps [ErrBeam] and names the field, its value and
// what it must be, or the place where a layout that is a mechanism, or nearly one, can
// move.
func New(layout Layout) (*Beam, error) {
	if err := layout.check(); err != nil {
		return nil, err
	}
	// Elastic supports close together may be what the stiffness matrix lacks
	// digits for, and no mechanism; so may a pad that lifts off beside a spring.
	close := layout.besides(besideWithin * layout.Length / float64(len(layout.Supports)))
	if len(close) == 0 {
		return newBeam(layout, nil)
	}
	same := layout.besides(samePlace * layout.Length)
	if slices.Equal(same, close) {
		return newBeam(layout, same)
	}
	first, second := same, close
	if slices.ContainsFunc(layout.Supports, func(s Support) bool { return s.Contact }) {
		first, second = close, same
	}
	b, err := newBeam(layout, first)
	if err == nil {
		return b, nil
	}
	if b, secondErr := newBeam(layout, second); secondErr == nil {
		return b, nil
	}
	return nil, err
}

// newBeam prepares the beam with some of its supports as redundant forces.
func newBeam(layout Layout, beside []int) (*Beam, error) {
	nodes, err := layout.place(beside)
	if err != nil {
		return nil, err
	}
	b := &Beam{layout: layout.clone(), nodes: nodes}
	b.beside.supports = beside
	b.unknowns = number(nodes, layout.Supports)
	if err := b.build(); err != nil {
		return nil, err
	}
	if err := b.factorise(); err != nil {
		return nil, err
	}
	if err := b.prepareBeside(); err != nil {
		return nil, err
	}
	b.prepareContact()
	return b, nil
}

func (l Layout) clone() Layout {
	l.Stiffness = slices.Clone(l.Stiffness)
	l.Supports = slices.Clone(l.Supports)
	l.Hinges = slices.Clone(l.Hinges)
	return l
}

// Length is the length of the beam (m); 0 for one not made by [New].
func (b *Beam) Length() float64 {
	if b == nil {
		return 0
	}
	return b.layout.Length
}

// Layout is a copy of the layout; zero for a beam not made by [New].
func (b *Beam) Layout() Layout {
	if b == nil {
		return Layout{}
	}
	return b.layout.clone()
}

// build makes one member between each two neighbouring nodes. A change of
// stiffness inside a member is a new panel of it, not a node: it enters the
// flexibility integrals and adds no unknown.
func (b *Beam) build() error {
	b.members = make([]member, len(b.nodes)-1)
	b.panels = make([]panel, 0, len(b.nodes)+len(b.layout.Stiffness))
	b.uniform = make([]panel, len(b.layout.Stiffness))
	for i, s := range b.layout.Stiffness {
		b.uniform[i] = uniformPanel(s.BendingStiffness, s.ShearStiffness)
	}
	stretch := 0
	for i := range b.members {
		m := &b.members[i]
		m.from, m.to = b.nodes[i].x, b.nodes[i+1].x
		m.leftTip, m.rightTip = b.nodes[i].tip, b.nodes[i+1].tip
		m.first = len(b.panels)
		var err error
		if stretch, err = b.lay(m, stretch); err != nil {
			return err
		}
		m.last = len(b.panels)
		if err := m.integrate(b.panels[m.first:m.last]); err != nil {
			return err
		}
	}
	return nil
}

// lay appends the panels of a member that begins in the given stretch and
// returns the stretch in which the next one begins.
func (b *Beam) lay(m *member, stretch int) (int, error) {
	near := samePlace * b.layout.Length
	for from := m.from; ; stretch++ {
		end := b.layout.stretchEnd(stretch)
		to := end
		if end >= m.to-near {
			to = m.to
		}
		if to > from+near || (to == m.to && to > from) {
			if err := b.lawsOf(stretch, from, to); err != nil {
				return 0, err
			}
			from = to
		}
		if to == m.to {
			if end <= m.to+near && stretch < len(b.layout.Stiffness)-1 {
				stretch++
			}
			return stretch, nil
		}
	}
}
