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
	outer      map[int][]Corner     // of each constant piece: its corners
	refined    map[int][]Corner     // and those with points between them
	losing     []tendon.Losses
	lost       map[lossKey][][]float64 // of each stretch, node by node: see totalsAt
	beside     []Part
	inclusions []section.Inclusion
	forces     []float64
	along      []sample      // along external tendons
	stretched  [][][]float64 // by each step: mean strain of each free length of each external tendon
	zones      []zone
	leads      []int            // of each tendon: the first of its pair of twins, itself without one
	walls      []*section.Walls // of each piece with a constant section
	crossed    []crossedAt      // of each piece: the last whose cuts were found
	nets       []*bodyNet       // of bodies of several constant pieces
	lined      []lined          // pieces of them whose cuts were found
	fields     map[fieldKey]*fieldOn
	sums       map[sumKey]*sum
	strains    map[strainKey]strainSum
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
	Steps     int        // steps of stressing made at its end
	Prestress int        // outer cause that multiplies all prestress
	Times     []*Time    // of each piece: what its losses need; nil leaves losses out
	Like      *Situation // one with other fields of some entries: what the others do is taken from there; nil for none
	Moves     int        // 1 + the inner cause of what acts in another position than in Like; 0 for none

	products []product
	fields   []*fieldOn               // of each entry
	sums     []*sum                   // of each product
	differs  []bool                   // of each product: from Like; nil where that is no help
	last     []int                    // of each tendon: the step that stressed it last, −1 for none and for one released
	carried  []bool                   // of each piece: it is there
	acting   map[*Stretch][]acting    // of each piece, once they were asked for
	means    map[[2]int]tendon.Losses // of each free length of each external tendon
	data     [][]effect               // of each stretch, of each node
	alone    []*alone                 // of each stretch: what the product of a march does
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
	s.data, s.alone, s.fields, s.acting, s.at, s.warps = nil, nil, nil, nil, nil, nil
}
