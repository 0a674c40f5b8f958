package ledger

import "slices"

// cameAt is what the first lasting changes did to a station when they came, change by
// change, piece by piece, kept with it for the next day that asks.
func (l *Ledger) cameAt(at *Station, number int, n node) []Part {
	slots := at.slots()
	if known := len(at.came); known < number*slots {
		at.came = slices.Grow(at.came, len(l.Lasting)*slots-known)[:number*slots]
		clear(at.came[known:])
		for e := known / slots; e < number; e++ {
			l.come(e, at, n, at.came[e*slots:(e+1)*slots])
		}
	}
	return at.came[:number*slots]
}

// come adds what lasting change e did in the pieces of a station.
func (l *Ledger) come(e int, at *Station, n node, to []Part) {
	of, slots := &l.Lasting[e], at.slots()
	if t := of.Entry; t != nil {
		if of.field == nil || of.field.field != t.Field {
			of.field = l.field(t.State, t.Field)
		}
		l.spreadField(to, of.field, at, t.Coefficient, n)
		return
	}
	before, after := &at.Steps[of.Step], &at.Steps[of.Step+1]
	if &before.Of[0] == &after.Of[0] {
		return
	}
	for k := range after.Of {
		to[k%slots].add(&after.Of[k], at.nominal(k/slots))
	}
	for k := range before.Of {
		to[k%slots].add(&before.Of[k], -at.nominal(k/slots))
	}
}
