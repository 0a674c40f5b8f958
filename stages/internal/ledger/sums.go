package ledger

// sum is fields times coefficients, added up one after the other: situations whose
// products begin with the same entries have the sum of those in common, to the last bit.
type sum struct {
	before      *sum // without the last; nil before the first
	field       *fieldOn
	coefficient float64
	parts       [][]Part // of each stretch, node by node, slot by slot, once they were asked for
}

type sumKey struct {
	before      *sum
	field       *fieldOn
	coefficient float64
}

// sumOf is the sum of the entries of a product of a situation; nil without an entry.
func (l *Ledger) sumOf(s *Situation, g int) (of *sum) {
	if l.sums == nil {
		l.sums = map[sumKey]*sum{}
	}
	for _, i := range s.products[g].entries {
		key := sumKey{of, s.fields[i], s.Entries[i].Coefficient}
		next := l.sums[key]
		if next == nil {
			next = &sum{before: of, field: key.field, coefficient: key.coefficient}
			l.sums[key] = next
		}
		of = next
	}
	return of
}

// summed is a sum along a stretch, from the longest part of it that is known there.
func (l *Ledger) summed(of *sum, k int) []Part {
	if of == nil {
		return make([]Part, Nodes*l.grid[k].At[0].slots())
	}
	if of.parts == nil {
		of.parts = make([][]Part, len(l.grid))
	}
	if of.parts[k] != nil {
		return of.parts[k]
	}
	slots := l.grid[k].At[0].slots()
	parts := make([]Part, Nodes*slots)
	var last []*sum
	for one := of; one != nil; one = one.before {
		if one.parts != nil && one.parts[k] != nil {
			copy(parts, one.parts[k])
			break
		}
		last = append(last, one)
	}
	for i := len(last) - 1; i >= 0; i-- {
		for n, at := range l.grid[k].At {
			l.spreadField(parts[n*slots:(n+1)*slots], last[i].field, at, last[i].coefficient, node{k, n})
		}
	}
	of.parts[k] = parts
	return parts
}
