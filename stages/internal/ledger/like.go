package ledger

import "slices"

// compare finds the products in which a situation differs from the one that it is
// like; none are kept where more differs than the fields of entries.
func (l *Ledger) compare(s *Situation) {
	b := s.Like
	if s.differs = nil; b == nil || b == s || b.Steps != s.Steps || b.Prestress != s.Prestress || !slices.Equal(b.Times, s.Times) || len(b.Entries) != len(s.Entries) {
		return
	}
	l.findFields(b)
	differs := make([]bool, len(s.products))
	for g := range s.products {
		for _, i := range s.products[g].entries {
			e, f := &s.Entries[i], &b.Entries[i]
			if e.Coefficient != f.Coefficient || e.Inner != f.Inner || !slices.Equal(e.Outer, f.Outer) {
				return
			}
			differs[g] = differs[g] || s.fields[i] != b.fields[i]
		}
	}
	s.differs = differs
}

// fillLike is fill at a node where the situation that it is like does what is known.
func (l *Ledger) fillLike(s *Situation, at *Station, e, like *effect, n node) {
	copy(e.products, like.products)
	e.apart = like.apart
	for g, differs := range s.differs {
		if differs {
			e.products[g] = l.fillProduct(s, g, at, n)
		}
	}
}
