package beam

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
)

// cut divides the beam into pieces at the panels and at the loads.
func (b *Beam) cut(set loads.Set) []piece {
	var places []float64
	for _, p := range set.Points {
		places = append(places, p.At)
	}
	for _, c := range set.Couples {
		places = append(places, c.At)
	}
	for _, l := range set.Lines {
		places = append(places, l.From, l.To)
	}
	for _, c := range set.Curvatures {
		places = append(places, c.From, c.To)
	}
	return b.cutAll(b.uncut(b.withBeside(places)))
}

// withBeside adds the supports that are no nodes: the shear jumps there.
func (b *Beam) withBeside(places []float64) []float64 {
	for _, s := range b.beside.supports {
		places = append(places, b.layout.Supports[s].At)
	}
	return places
}

// uncut is the places that are not ends of panels, in order, each once.
func (b *Beam) uncut(places []float64) []float64 {
	kept := places[:0]
	for _, x := range places {
		if !b.panelEnd(x) {
			kept = append(kept, x)
		}
	}
	slices.Sort(kept)
	near := samePlace * b.layout.Length
	return slices.CompactFunc(kept, func(a, b float64) bool { return math.Abs(b-a) <= near })
}

// cutAll divides the beam at the panels and at extra places inside them.
func (b *Beam) cutAll(extra []float64) []piece {
	pieces := make([]piece, 0, len(b.panels)+len(extra))
	for m := range b.members {
		for i := b.members[m].first; i < b.members[m].last; i++ {
			law := &b.panels[i]
			from := law.from
			for len(extra) > 0 && extra[0] < law.to {
				pieces = append(pieces, piece{from: from, to: extra[0], member: m, law: law, lawStart: from - law.from})
				from, extra = extra[0], extra[1:]
			}
			pieces = append(pieces, piece{from: from, to: law.to, member: m, law: law, lawStart: from - law.from})
		}
	}
	return pieces
}

// panelEnd says whether a panel begins or ends at x.
func (b *Beam) panelEnd(x float64) bool {
	near := samePlace * b.layout.Length
	i, _ := slices.BinarySearchFunc(b.panels, x-near, func(p panel, x float64) int { return cmp.Compare(p.from, x) })
	return i < len(b.panels) && b.panels[i].from <= x+near || x >= b.layout.Length-near
}

// pieceAt is the number of the piece that begins at x; len(pieces) at the
// right end of the beam.
func (b *Beam) pieceAt(pieces []piece, x float64) int {
	near := samePlace * b.layout.Length
	i, _ := slices.BinarySearchFunc(pieces, x-near, func(p piece, x float64) int { return cmp.Compare(p.from, x) })
	return i
}

// nodeBefore is the number of the node at which piece i begins, if it does.
func (b *Beam) nodeBefore(pieces []piece, i int) (int, bool) {
	if i == len(pieces) {
		return len(b.nodes) - 1, true
	}
	m := pieces[i].member
	return m, i == 0 || pieces[i-1].member != m
}

// apply puts the loads on the pieces, and on the nodes what acts just there.
func (b *Beam) apply(set loads.Set, pieces []piece, nodal []state) error {
	for _, l := range set.Lines {
		for i, end := b.pieceAt(pieces, l.From), b.pieceAt(pieces, l.To); i < end; i++ {
			p := &pieces[i]
			p.loaded = max(p.loaded, addShifted(&p.load, l.Intensity, p.from-l.From))
		}
	}
	for _, c := range set.Curvatures {
		for i, end := b.pieceAt(pieces, c.From), b.pieceAt(pieces, c.To); i < end; i++ {
			p := &pieces[i]
			p.bent = max(p.bent, addShifted(&p.curvature, c.Value, p.from-c.From))
		}
	}
	for _, p := range set.Points {
		b.drop(pieces, nodal, p.At, state{shear: -p.Force})
	}
	for i, c := range set.Couples {
		if n, ok := b.at(c.At); ok && b.nodes[n].hinge {
			return fmt.Errorf("%w: couple %d at x = %g m: must be beside the hinge, on one side of it", loads.ErrLoad, i+1, c.At)
		}
		b.drop(pieces, nodal, c.At, state{moment: -c.Moment})
	}
	return nil
}

// drop adds a jump of the internal forces at x.
func (b *Beam) drop(pieces []piece, nodal []state, x float64, jump state) {
	i := b.pieceAt(pieces, x)
	if n, ok := b.nodeBefore(pieces, i); ok && !(n == 0 && b.nodes[0].tip) {
		nodal[n] = nodal[n].plus(jump)
		return
	}
	pieces[i].jump = pieces[i].jump.plus(jump)
}

// addShifted adds law, seen from a place by further right, to sum; it returns
// how many coefficients it has.
func addShifted(sum *loads.Polynomial, law loads.Polynomial, by float64) int {
	n := len(law)
	for n > 0 && law[n-1] == 0 {
		n--
	}
	if n == 1 {
		sum[0] += law[0]
		return n
	}
	moved := shifted(law[:n], by)
	for i := range n {
		sum[i] += moved.c[i]
	}
	return n
}
