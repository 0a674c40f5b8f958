package ledger

import (
	"fmt"
	"math"
	"sort"

	"github.com/tempstage/tempstage/section"
)

// resolved is how well the polynomial through the nodes of a stretch must meet
// the stress between them, relative to the largest stress.
const resolved = 1e-9

// Inset keeps the end nodes of a stretch on its own side of a jump, as a fraction
// of the girder's length; stresses change by less than that.
const Inset = 4e-9

// Stretch is a length of the girder on which every stress is smooth.
type Stretch struct {
	From, To  float64         // m
	number    int             // in the grid
	At        [Nodes]*Station // from left to right, the ends a hair inside
	spreading []spreading     // anchors whose zone it meets
	cuts      [][]int         // near anchors: of each piece, into how many parts each edge is cut by points between its corners

	level     bool                 // one constant piece with every tendon at the same place all along
	side                           // of all corners; constant for one piece whose outline does not change
	sides     []side               // of each piece, where there are several
	all       []int                // corners
	intervals map[int][][]interval // by steps made, negative in full: of each corner, once they were asked for
}

// side is what the search for the worst wall asks of a piece of a stretch.
type side struct {
	constant bool            // its outline does not change
	hull     []int           // of its corners those that have the extremes
	ends     []section.Point // of the wall cuts at its middle, once they were asked for
}

// of is the side of a piece.
func (p *Stretch) of(slot int) *side {
	if len(p.sides) == 0 {
		return &p.side
	}
	return &p.sides[slot]
}

// Middle is its middle (m).
func (p *Stretch) Middle() float64 { return (p.From + p.To) / 2 }

// Grid is the stretches of the girder, from left to right.
func (l *Ledger) Grid() []Stretch { return l.grid }

// MakeGrid cuts the length at every place where a law changes, and further until
// the stress of prestress and of a unit moment is resolved in each stretch. A
// section whose corners change in number between its breaks is an error.
func (l *Ledger) MakeGrid() error {
	length := l.Girder.Length
	l.of, l.stations, l.outlines = make([][]int, len(l.Girder.Pieces)), nil, nil
	l.outer, l.refined, l.nets, l.lined = nil, nil, nil, nil
	l.findOpen()
	if err := l.makeZones(); err != nil {
		return err
	}
	l.layExternal()
	breaks := l.breaks()
	for _, z := range l.zones {
		breaks = append(breaks, z.anchor, z.end())
	}
	sort.Float64s(breaks)
	last := math.Inf(-1)
	for _, x := range breaks {
		if x < 0 || x > length || x-last < 5*Inset*length { // one place
			continue
		}
		if last >= 0 {
			if err := l.addStretch(last, x, 6); err != nil {
				return err
			}
		}
		last = x
	}
	return nil
}

// breaks are the places where a law changes (m), in no order.
func (l *Ledger) breaks() []float64 {
	breaks := append([]float64{0, l.Girder.Length}, l.Girder.Breaks...)
	for i := range l.Girder.Pieces {
		p := &l.Girder.Pieces[i]
		breaks = append(breaks, p.From, p.To)
		for _, x := range p.Section.Breaks() {
			breaks = append(breaks, p.From+x)
		}
	}
	for i := range l.Girder.Tendons {
		breaks = append(breaks, l.Girder.Tendons[i].Path.Breaks()...)
	}
	return breaks
}

// addStretch adds the stretch, or its halves where it is not resolved.
func (l *Ledger) addStretch(from, to float64, halvings int) error {
	p := Stretch{From: from, To: to}
	p.spreading = l.spreadingIn(from, to)
	if len(p.spreading) > 0 {
		p.cuts = between(l.outline((from + to) / 2))
	}
	for i := range p.At {
		p.At[i] = l.at((from+to)/2+Node(i)*((to-from)/2-Inset*l.Girder.Length), &p, len(l.Steps))
		if len(p.At[i].Corners) != len(p.At[0].Corners) {
			return fmt.Errorf("%w: the section has %d corners at x = %g m and %d at x = %g m: must be the same number between its Breaks",
				ErrLedger, len(p.At[0].Corners), p.At[0].X, len(p.At[i].Corners), p.At[i].X)
		}
	}
	if halvings > 0 && !l.smooth(&p) {
		middle := (from + to) / 2
		if err := l.addStretch(from, middle, halvings-1); err != nil {
			return err
		}
		return l.addStretch(middle, to, halvings-1)
	}
	if err := l.measureSpreading(&p); err != nil {
		return err
	}
	p.settle()
	p.level = l.levelIn(&p)
	p.number = len(l.grid)
	for i := range p.At[0].Pieces {
		at := p.At[0].Pieces[i].Index
		l.of[at] = append(l.of[at], len(l.grid))
	}
	l.grid = append(l.grid, p)
	return nil
}

// at is the station at x of a stretch, with the parts of the tendons that spread in it
// kept apart, after a number of steps.
func (l *Ledger) at(x float64, p *Stretch, steps int) *Station {
	s := l.station(x)
	for _, r := range p.spreading {
		s.Zoned = append(s.Zoned, r.tendon)
		for _, i := range r.pair() {
			if t := &s.Tendons[i]; t.kept == 0 {
				t.kept = int16(len(s.Zoned))
			}
		}
	}
	l.corners(s, p.cuts)
	l.prestress(s, steps, l.open)
	return s
}

// At is the station at x (m), at a joint of pieces the one on its right, nothing kept apart; it
// is kept for the next question.
func (l *Ledger) At(x float64) *Station {
	x = l.besideJoint(x)
	if s, ok := l.stations[x]; ok {
		return s
	}
	if l.stations == nil {
		l.stations = map[float64]*Station{}
	}
	s := l.station(x)
	l.corners(s, nil)
	l.prestress(s, len(l.Steps), true)
	l.stations[x] = s
	return s
}

// smooth compares the stress at the highest and the lowest corner between two
// nodes with the polynomial through the nodes: prestress, and a unit moment on
// each section.
func (l *Ledger) smooth(p *Stretch) bool {
	x := p.From + 0.45*(p.To-p.From) // no node
	between := l.at(x, p, len(l.Steps))
	low, high := extremeCorners(between)
	for k := range l.Steps {
		if &between.Steps[k].Of[0] == &between.Steps[k+1].Of[0] {
			continue
		}
		for _, c := range [2]int{low, high} {
			if !p.meets(between, x, func(s *Station) float64 {
				sum := 0.0
				for i := s.Corners[c].Slot; i < len(s.Steps[k+1].Of); i += s.slots() {
					sum += s.Steps[k+1].Of[i].Plane.Plane.At(s.Corners[c].At)
				}
				return sum
			}) {
				return false
			}
		}
	}
	for k := range l.States {
		if between.States[k].Area > 0 && !p.meets(between, x, func(s *Station) float64 {
			return s.States[k].Stress(section.Forces{My: 1}, s.Corners[low].At)
		}) {
			return false
		}
	}
	return true
}

// meets is true when the polynomial through the nodes meets a value at x.
func (p *Stretch) meets(between *Station, x float64, value func(*Station) float64) bool {
	var values Curve
	scale := 0.0
	for i, s := range p.At {
		values[i] = value(s)
		scale = math.Max(scale, math.Abs(values[i]))
	}
	return math.Abs(p.Interpolate(&values, x)-value(between)) <= resolved*scale
}

// extremeCorners are the lowest and the highest corner of a station.
func extremeCorners(s *Station) (low, high int) {
	for i, c := range s.Corners {
		if c.At.Z < s.Corners[low].At.Z {
			low = i
		}
		if c.At.Z > s.Corners[high].At.Z {
			high = i
		}
	}
	return low, high
}

// place is x within the stretch, −1 at its first node to 1 at its last.
func (p *Stretch) place(x float64) float64 {
	first, last := p.At[0].X, p.At[Nodes-1].X
	return (2*x - first - last) / (last - first)
}

// Shares are the shares of the nodes in the value at x of any polynomial through
// them, for [Curve.Sum].
func (p *Stretch) Shares(x float64) Curve { return shares(p.place(x)) }

// Interpolate is the value at x of the polynomial through the nodes.
func (p *Stretch) Interpolate(values *Curve, x float64) float64 { return values.At(p.place(x)) }
