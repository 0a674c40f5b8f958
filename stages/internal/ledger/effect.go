package ledger

// effect is what a situation does at a station. What changes nothing of a sum that others
// know has it in common with them: it must not be written to once it is filled.
type effect struct {
	slots    int      // parts of a term: see Station.slots
	products [][]Part // of each product: piece by piece, then body by body
	apart    []Part   // tendon by tendon kept apart, as Prestress.Of
}

// nothing is the part of a tendon kept apart that was not stressed yet.
var nothing Part

// part is what a product does in a piece, or behind them a tendon kept apart.
func (e *effect) part(term, slot int) *Part {
	if term < len(e.products) {
		return &e.products[term][slot]
	}
	if i := (term-len(e.products))*e.slots + slot; i < len(e.apart) {
		return &e.apart[i]
	}
	return &nothing
}

// measure is what every product of causes does at a station, then what every
// tendon does that is kept apart there.
func (l *Ledger) measure(s *Situation, at *Station) effect {
	l.findFields(s)
	e := effect{slots: at.slots(), products: make([][]Part, len(s.products))}
	l.fill(s, at, &e, offGrid)
	l.warpBetween(s, at, &e)
	return e
}

// node is a node of the grid.
type node struct{ stretch, index int }

// offGrid is the place of a station that is no node.
var offGrid = node{-1, 0}

// fill measures each product and each tendon kept apart. At a node what the fields do is
// known.
func (l *Ledger) fill(s *Situation, at *Station, e *effect, n node) {
	of := at.Steps[s.Steps].Of
	e.products[0], e.apart = of[:e.slots:e.slots], of[e.slots:]
	if s.Times != nil || l.open { // more comes on top
		own := make([]Part, (1+len(at.Zoned))*e.slots)
		copy(own, of)
		e.products[0], e.apart = own[:e.slots:e.slots], own[e.slots:]
	}
	for g := 1; g < len(s.products); g++ {
		e.products[g] = l.fillProduct(s, g, at, n)
	}
	if s.Times != nil {
		l.lose(s, at, e, n)
	}
	if n != offGrid {
		l.warpTendons(s, at, e, n)
	}
}

// fillProduct is the sum of the entries of a product.
func (l *Ledger) fillProduct(s *Situation, g int, at *Station, n node) []Part {
	slots := at.slots()
	if n != offGrid {
		return l.summed(s.sums[g], n.stretch)[n.index*slots : (n.index+1)*slots : (n.index+1)*slots]
	}
	parts := make([]Part, slots)
	for _, i := range s.products[g].entries {
		l.spreadField(parts, s.fields[i], at, s.Entries[i].Coefficient, n)
	}
	return parts
}

// effect is what a situation does at a station off the grid, kept for the next
// question.
func (l *Ledger) effect(s *Situation, at *Station) *effect {
	if e := s.at[at]; e != nil {
		return e
	}
	if s.at == nil {
		s.at = map[*Station]*effect{}
	}
	e := l.measure(s, at)
	s.at[at] = &e
	return &e
}

// measured is what a situation does at the nodes of a stretch, kept for the next
// question.
func (l *Ledger) measured(s *Situation, k int) []effect {
	if s.data == nil {
		s.data = make([][]effect, len(l.grid))
		l.findFields(s)
		l.compare(s)
	}
	if s.data[k] == nil {
		var like []effect
		if s.differs != nil {
			like = l.measured(s.Like, k)
		}
		p := &l.grid[k]
		slots, number := p.At[0].slots(), len(s.products)
		list, products := make([]effect, Nodes), make([][]Part, Nodes*number)
		for n, at := range p.At {
			list[n] = effect{slots: slots, products: products[n*number : (n+1)*number]}
			if like != nil {
				l.fillLike(s, at, &list[n], &like[n], node{k, n})
				continue
			}
			l.fill(s, at, &list[n], node{k, n})
		}
		s.data[k] = list
	}
	return s.data[k]
}
