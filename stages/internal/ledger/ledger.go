package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// Ledger is everything that changes stress in a girder, in order: states of the
// section, steps of stressing and lasting entries.
type Ledger struct {
	Girder  Girder
	States  []*State
	Steps   []Step
	Lasting []Lasting // in order of their days

	grid       []Stretch
	of         [][]int              // stretches of each piece
	stations   map[float64]*Station // off the grid, that were asked for
	outlines   map[float64]*Station // without what acts on them
	losing     []tendon.Losses
	beside     []Part
	inclusions []section.Inclusion
	forces     []float64
	along      []sample      // along external tendons
	stretched  [][][]float64 // by each step: mean strain of each free length of each external tendon
	zones      []zone
	walls      []*section.Walls // of each piece with a constant section
	crossed    []*Station       // of each piece: the last whose cuts were found
	fields     map[fieldKey]*fieldOn
	open       bool // a piece has an open section
	members    map[*State]*member
	pulled     []map[int]warped // of each step: what its changes of force add, tendon by tendon
}

// Field is internal forces along the girder about its fixed axis y = z = 0.
type Field interface {
	At(x float64) section.Forces // x is never at a jump
}

// Entry is one entry of a situation: forces on the section of a body on a day,
// times a coefficient and the factors of its causes.
type Entry struct {
	Name        string
	State       *State
	Field       Field
	Coefficient float64
	Inner       int   // its inner cause; −1 for none
	Outer       []int // outer causes
}

// Lasting is a lasting change of stress: a term, or a step of stressing.
type Lasting struct {
	Name  string
	Day   float64 // of the project
	Entry *Entry  // nil for a step
	Step  int     // of stressing, from 0

	field *fieldOn
}

// Situation is a list of entries with their causes. Where supports may share in
// more than one way, each way is a Situation.
type Situation struct {
	Entries   []Entry
	Steps     int     // steps of stressing made at its end
	Prestress int     // outer cause that multiplies all prestress
	Times     []*Time // of each piece: what its losses need; nil leaves losses out

	products []product
	fields   []*fieldOn               // of each entry
	last     []int                    // of each tendon: the step that stressed it last, −1 for none and for one released
	carried  []bool                   // of each piece: it is there
	means    map[[2]int]tendon.Losses // of each free length of each external tendon
	data     [][]effect               // of each stretch, of each node
	at       map[*Station]*effect     // off the grid
	warps    map[int]warped           // of each tendon, once they were asked for
}

// product is causes that multiply the same entries.
type product struct {
	inner   int
	outer   []int
	entries []int
}

// Lay groups the entries by their causes. The first product is the prestress that
// is not kept apart by zones.
func (s *Situation) Lay() {
	s.products = []product{{inner: -1, outer: []int{s.Prestress}}}
	for i := range s.Entries {
		e := &s.Entries[i]
		at := -1
		for g := 1; g < len(s.products); g++ {
			if s.products[g].inner == e.Inner && slices.Equal(s.products[g].outer, e.Outer) {
				at = g
			}
		}
		if at < 0 {
			at = len(s.products)
			s.products = append(s.products, product{inner: e.Inner, outer: e.Outer})
		}
		s.products[at].entries = append(s.products[at].entries, i)
	}
	s.data, s.fields, s.at, s.warps = nil, nil, nil, nil
}

// effect is what a situation does at a station.
type effect struct {
	slots int    // pieces of the station
	parts []Part // product by product, then tendon by tendon kept apart, each piece by piece
}

// part is what a product does in a piece, or behind them a tendon kept apart.
func (e *effect) part(term, slot int) *Part { return &e.parts[term*e.slots+slot] }

func (e *effect) term(i int) []Part { return e.parts[i*e.slots : (i+1)*e.slots] }

// measure is what every product of causes does at a station, then what every
// tendon does that is kept apart there.
func (l *Ledger) measure(s *Situation, at *Station) effect {
	l.findFields(s)
	e := effect{slots: len(at.Pieces)}
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
		for _, i := range s.products[g].entries {
			entry := &s.Entries[i]
			l.spreadField(e.term(g), s.fields[i], at, entry.Coefficient, n)
		}
	}
	if s.Times != nil {
		l.lose(s, at, e, n)
	}
	if n != offGrid {
		l.warpTendons(s, at, e, n)
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
	}
	if s.data[k] == nil {
		p := &l.grid[k]
		slots := len(p.At[0].Pieces)
		number := (len(s.products) + len(p.spreading)) * slots
		list, parts := make([]effect, Nodes), make([]Part, Nodes*number)
		for n, at := range p.At {
			list[n] = effect{slots: slots, parts: parts[n*number : (n+1)*number]}
			l.fill(s, at, &list[n], node{k, n})
		}
		s.data[k] = list
	}
	return s.data[k]
}

// carries is true where a situation has any piece of a stretch.
func (l *Ledger) carries(s *Situation, p *Stretch) bool {
	l.findFields(s)
	for i := range p.At[0].Pieces {
		if s.carried[p.At[0].Pieces[i].Index] {
			return true
		}
	}
	return false
}

// fieldOn is internal forces on a section, measured at the nodes of the grid.
type fieldOn struct {
	state *State
	field Field
	parts [][]Part // of each stretch, node by node, piece by piece
	warps warped   // once they were asked for
}

// field is forces on a section, kept for all situations in which they act.
func (l *Ledger) field(state *State, field Field) *fieldOn {
	key := fieldKey{state, field}
	f := l.fields[key]
	if f == nil {
		if l.fields == nil {
			l.fields = map[fieldKey]*fieldOn{}
		}
		f = &fieldOn{state: state, field: field, parts: make([][]Part, len(l.grid))}
		l.fields[key] = f
	}
	return f
}

// findFields gives every entry its field.
func (l *Ledger) findFields(s *Situation) {
	if s.fields != nil {
		return
	}
	l.findLast(s)
	s.carried = make([]bool, len(l.Girder.Pieces))
	for i := range s.Entries {
		for _, k := range s.Entries[i].State.Pieces {
			s.carried[k] = true
		}
	}
	s.fields = make([]*fieldOn, len(s.Entries))
	for i := range s.Entries {
		s.fields[i] = l.field(s.Entries[i].State, s.Entries[i].Field)
	}
}

type fieldKey struct {
	state *State
	field Field
}

// spreadField adds what a field does at a station, times a coefficient.
func (l *Ledger) spreadField(to []Part, f *fieldOn, at *Station, coefficient float64, n node) {
	switch {
	case at.States[f.state.Index].Area == 0: // beyond its body
	case n == offGrid:
		at.spread(to, f.state, f.field.At(at.X), coefficient)
	default:
		addAll(to, f.known(l, n, len(at.Pieces)), coefficient)
	}
}

// known is what the field does at a node.
func (f *fieldOn) known(l *Ledger, n node, slots int) []Part {
	if f.parts[n.stretch] == nil {
		f.parts[n.stretch] = make([]Part, Nodes*slots)
		for i, at := range l.grid[n.stretch].At {
			at.spread(f.parts[n.stretch][i*slots:(i+1)*slots], f.state, f.field.At(at.X), 1)
		}
		l.warpField(f, n.stretch, slots)
	}
	return f.parts[n.stretch][n.index*slots : (n.index+1)*slots]
}
