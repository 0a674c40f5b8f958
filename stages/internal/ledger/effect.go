package ledger

// effect is what a situation does at a station.
type effect struct {
	slots int    // parts of a term: see Station.slots
	parts []Part // product by product, then tendon by tendon kept apart, each piece by piece, then body by body
}

// part is what a product does in a piece, or behind them a tendon kept apart.
func (e *effect) part(term, slot int) *Part { return &e.parts[term*e.slots+slot] }

func (e *effect) term(i int) []Part { return e.parts[i*e.slots : (i+1)*e.slots] }

// measure is what every product of causes does at a station, then what every
// tendon does that is kept apart there.
func (l *Ledger) measure(s *Situation, at *Station) effect {
	l.findFields(s)
	e := effect{slots: at.slots()}
	e.parts = make([]Part, (len(s.products)+len(at.Zoned))*e.slots)
	l.fill(s, at, &e, offGrid)
	l.warpBetween(s, at, &e)
	return e
}

// node is a node of the grid.
type node struct{ stretch, index int }

// offGrid is the place of a station that is no node.
var offGrid = node{-1, 0}

// fill measures into parts that are there. At a node what the fields do is known.
func (l *Ledger) fill(s *Situation, at *Station, e *effect, n node) {
	of := at.Steps[s.Steps].Of
	copy(e.parts, of[:e.slots])
	copy(e.parts[len(s.products)*e.slots:], of[e.slots:])
	for g := 1; g < len(s.products); g++ {
		l.fillProduct(s, g, at, e, n)
	}
	if s.Times != nil {
		l.lose(s, at, e, n)
	}
	if n != offGrid {
		l.warpTendons(s, at, e, n)
	}
}

// fillProduct adds the entries of a product.
func (l *Ledger) fillProduct(s *Situation, g int, at *Station, e *effect, n node) {
	for _, i := range s.products[g].entries {
		l.spreadField(e.term(g), s.fields[i], at, s.Entries[i].Coefficient, n)
	}
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
		slots := p.At[0].slots()
		number := (len(s.products) + len(p.spreading)) * slots
		list, parts := make([]effect, Nodes), make([]Part, Nodes*number)
		for n, at := range p.At {
			list[n] = effect{slots: slots, parts: parts[n*number : (n+1)*number]}
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
