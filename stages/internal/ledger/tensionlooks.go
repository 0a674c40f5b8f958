package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/section"
)

// tensionRoom is room for a look at the tension of a station.
type tensionRoom struct {
	free, terms   []Plane
	sums, factors []float64
	sets          []tensionSet
}

// tensionSet is the anchors whose parts are not counted on in full, what acts at the
// station by columns then, and the stresses looked at.
type tensionSet struct {
	apart  []int
	layout *Combination
	planes []Plane // at each corner of the outer causes
	looks  []tensionLook
	given  []float64 // factors of each look, those of the parts behind those of the causes
}

// tensionLook is the stress under some factors and its zone in tension.
type tensionLook struct {
	plane    Plane
	zone     section.TensionZone
	outer    int // corner of the outer causes
	next     int // the look from the centre of the zone, once it was asked for; −1 before
	more     int // the set with what the zone has not been reached by as well, once it was asked for; −1 before
	compared bool
}

// tensionSearch is a look at a piece of a station from its corners. From many of them
// the same factors are the worst: what they give is kept.
type tensionSearch struct {
	*Demand
	p         *Stretch
	at        *Station
	of        *effect
	slot      int
	sectorial section.Sectorial
	open      bool
	bars      BarsIn
	worst     *TensionZone
	changed   bool
	plane     *Plane                      // of the look that is compared
	stress    func(section.Point) float64 // its stress
}

// set is the number of the set of the anchors whose parts are not counted on in full.
func (s *tensionSearch) set(apart []int) (int, error) {
	u := &s.tension
	for i := range u.sets {
		if slices.Equal(u.sets[i].apart, apart) {
			return i, nil
		}
	}
	c, err := s.layout(len(apart), s.inner && len(apart) == 0)
	if err != nil {
		return 0, err
	}
	products := len(s.situation.products)
	u.terms = u.terms[:0]
	for g := range products {
		u.terms = append(u.terms, s.of.part(g, s.slot).Plane)
	}
	for i := range s.p.spreading {
		plane := s.of.part(products+i, s.slot).Plane
		if slices.Contains(apart, i) {
			u.terms = append(u.terms, plane)
		} else {
			addPlane(&u.terms[0], &plane, 1)
		}
	}
	u.sets = slices.Grow(u.sets, 1)[:len(u.sets)+1] // with the room of an earlier station
	set, n := &u.sets[len(u.sets)-1], c.Corners()*c.columns
	set.apart, set.layout = append(set.apart[:0], apart...), c
	set.planes = slices.Grow(set.planes[:0], n)[:n]
	for outer := range c.Corners() {
		c.Planes(set.planes[outer*c.columns:], outer, u.terms)
	}
	set.looks, set.given = set.looks[:0], set.given[:0]
	return len(u.sets) - 1, nil
}

// from looks from a corner for the factors with the largest force; the stress that it
// ends with, nil where there is no tension.
func (s *tensionSearch) from(at, number int) *tensionLook {
	u, corner := &s.tension, s.at.Corners[number]
	set := &u.sets[at]
	c := set.layout
	u.sums, u.factors = resize(u.sums, c.columns), resize(u.factors, len(s.causes)+len(set.apart))
	last := -1
	for outer := range c.Corners() {
		planes := set.planes[outer*c.columns : (outer+1)*c.columns]
		if c.Stress(planes, corner.Spot(), 1) <= 0 {
			continue
		}
		k, before := s.look(set, outer, corner.Spot()), -1.0
		for range 6 {
			look := &set.looks[k]
			if look.zone.Force <= before*(1+1e-12) {
				break
			}
			if before, last = look.zone.Force, k; !look.compared {
				look.compared = true
				s.compare(set, k, number)
			}
			if !(look.zone.Area > 0) {
				break
			}
			if look.next < 0 {
				k = s.look(set, outer, spotOf(s.sectorial, s.open, look.zone.Centre))
				set.looks[last].next = k
			}
			k = set.looks[last].next
		}
	}
	if last < 0 {
		return nil
	}
	return &set.looks[last]
}

// look is the number of the look under the factors that make the stress at a spot largest.
func (s *tensionSearch) look(set *tensionSet, outer int, to Spot) int {
	u, c := &s.tension, set.layout
	planes := set.planes[outer*c.columns : (outer+1)*c.columns]
	c.At(u.sums, planes, to)
	c.Factors(u.factors, outer, u.sums, 1)
	for k := range set.looks {
		if set.looks[k].outer == outer && alike(set.factors(k), u.factors) {
			return k
		}
	}
	plane := c.underPlane(planes, u.factors)
	zone := tensionZone(s.at.Pieces[s.slot].Shape, s.sectorial, s.open, plane)
	set.given = append(set.given, u.factors...)
	set.looks = append(set.looks, tensionLook{plane: plane, zone: zone, outer: outer, next: -1, more: -1})
	return len(set.looks) - 1
}

// alike compares factors, those of the parts first: they are the ones that differ.
func alike(a, b []float64) bool {
	for i := len(b) - 1; i >= 0; i-- {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// factors of look k.
func (set *tensionSet) factors(k int) []float64 {
	n := len(set.given) / len(set.looks)
	return set.given[k*n : (k+1)*n]
}

// compare keeps look k if it is the worst.
func (s *tensionSearch) compare(set *tensionSet, k, number int) {
	zone, plane := &set.looks[k].zone, &set.looks[k].plane
	if !(zone.Force > 0) {
		return
	}
	s.plane = plane
	b := s.bars(s.at.X, s.stress)
	if !(b > 0) || s.worst.Found && zone.Force/b <= s.worst.ratio() {
		return
	}
	s.changed = true
	corner, factors := s.at.Corners[number], set.factors(k)
	*s.worst = TensionZone{
		Found: true, X: s.at.X, Force: zone.Force, Area: zone.Area, Bars: b, Corner: number, At: corner.At, Value: plane.At(corner.Spot()),
		Factors: slices.Clone(factors[:len(s.causes)]),
	}
	for n, k := range set.apart {
		s.worst.Apart = s.appendApart(s.worst.Apart, &s.p.spreading[k], factors[len(s.causes)+n])
	}
}

// apartOf is the set with the anchors as well within whose spread a corner of the
// tension zone is not yet.
func (s *tensionSearch) apartOf(number int, last *tensionLook) (int, error) {
	if last.more >= 0 {
		return last.more, nil
	}
	set := &s.tension.sets[number]
	s.unmark(s.p)
	for _, i := range set.apart {
		s.marked[i] = true
	}
	for i, c := range s.at.Corners {
		if c.Slot == s.slot && last.plane.At(c.Spot()) > 0 {
			s.markCorner(s.p, i, s.at.X)
		}
	}
	more, err := s.set(s.marks())
	last.more = more
	return more, err
}

// underPlane is the stress under stated factors.
func (c *Combination) underPlane(planes []Plane, factors []float64) Plane {
	total := planes[0]
	for i := range c.groups {
		g := &c.groups[i]
		sum := planes[g.column]
		for j := range g.parts {
			addPlane(&sum, &planes[g.parts[j].column], factors[g.parts[j].cause])
		}
		addPlane(&total, &sum, factors[g.cause])
	}
	return total
}
