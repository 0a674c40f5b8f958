package sheet

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// value is a number of a derivation: what a line gives, or an operand of it.
type value struct {
	quantity formula.Quantity
	line     formula.Line // that gives it, or that it is an operand of
	operand  bool
	local    bool // the symbol stands for several numbers in one derivation: it belongs to its line
}

// key tells values apart that are not the same quantity.
func (v value) key() string {
	switch {
	case v.local:
		return v.quantity.Symbol + " of " + v.line.Result.Symbol
	case v.operand:
		return v.quantity.Symbol
	}
	return v.quantity.Symbol + " = " + v.line.Expression
}

// chain is the derivation of one check, or of several at the same place, as
// values in order; each stands behind what it is got from.
type chain struct {
	checks []int // numbers of the checks
	values []value
}

// at is the value of a key.
func (c chain) at(key string) (value, bool) {
	i := slices.IndexFunc(c.values, func(v value) bool { return v.key() == key })
	if i < 0 {
		return value{}, false
	}
	return c.values[i], true
}

// long is how many lines a derivation needs to be set beside others.
const long = 7

// chains are the long derivations of a situation. Numbers that are known from the
// inputs are left out.
func (p *passage) chains(checks []stages.Check, local map[string]bool) []chain {
	var chains []chain
	for i, c := range checks {
		if len(c.Derivation) < long {
			continue
		}
		next := chain{checks: []int{i}, values: p.values(c.Derivation, local)}
		if n := len(chains); n > 0 && next.agrees(chains[n-1]) {
			chains[n-1].checks = append(chains[n-1].checks, i)
			chains[n-1].values = append(chains[n-1].values, next.beyond(chains[n-1])...)
			continue
		}
		chains = append(chains, next)
	}
	return chains
}

// ambiguous are the symbols that stand for several operands in one derivation.
func ambiguous(checks []stages.Check) map[string]bool {
	local := map[string]bool{}
	for _, c := range checks {
		seen := map[string]float64{}
		for _, l := range c.Derivation {
			for _, q := range l.Operands {
				if before, ok := seen[q.Symbol]; ok && before != q.Value {
					local[q.Symbol] = true
				}
				seen[q.Symbol] = q.Value
			}
		}
	}
	return local
}

// values are the numbers of a derivation that are not inputs, each once.
func (p *passage) values(derivation []formula.Line, local map[string]bool) []value {
	var values []value
	have := map[string]float64{}
	for _, l := range p.given {
		have[l.Result.Symbol] = l.Result.Value
	}
	for _, l := range derivation {
		for _, q := range l.Operands {
			if before, ok := have[q.Symbol]; ok && before == q.Value {
				continue
			}
			values = append(values, value{quantity: q, line: l, operand: true, local: local[q.Symbol]})
			have[q.Symbol] = q.Value
		}
		if before, ok := have[l.Result.Symbol]; ok && before == l.Result.Value && l.Expression == "" {
			continue
		}
		values = append(values, value{quantity: l.Result, line: l})
		have[l.Result.Symbol] = l.Result.Value
	}
	return values
}

// agrees is true when a chain has the numbers of another wherever both have any,
// and that is at least half of its own.
func (c chain) agrees(with chain) bool {
	shared := 0
	for _, v := range c.values {
		if other, ok := with.at(v.key()); ok {
			if !alike(other.quantity.Value, v.quantity.Value) {
				return false
			}
			shared++
		}
	}
	return 2*shared >= len(c.values)
}

// beyond are the values that another chain has not.
func (c chain) beyond(other chain) []value {
	return slices.DeleteFunc(slices.Clone(c.values), func(v value) bool {
		_, ok := other.at(v.key())
		return ok
	})
}

// sorted parts the values of chains: those that several have with the same
// number, and the keys of those that several have with different numbers, both in
// the order of the calculation.
func sorted(chains []chain) (common []value, varying []string) {
	var order []string
	for _, c := range chains {
		behind := -1
		for _, v := range c.values {
			at := slices.Index(order, v.key())
			if at < 0 {
				at = behind + 1
				order = slices.Insert(order, at, v.key())
			}
			behind = max(behind, at)
		}
	}
	for _, key := range order {
		var found []value
		same := true
		for _, c := range chains {
			if v, ok := c.at(key); ok {
				found = append(found, v)
				same = same && alike(v.quantity.Value, found[0].quantity.Value)
			}
		}
		switch {
		case len(found) < 2: // stands with its check
		case same:
			common = append(common, found[0])
		default:
			varying = append(varying, key)
		}
	}
	return common, varying
}

// alignedTo prints numbers of one quantity beside each other: the unit is that of
// the largest.
func (u Units) alignedTo(unit formula.Unit, values []float64) (aligned, string) {
	largest := 0.0
	for _, v := range values {
		largest = math.Max(largest, math.Abs(v))
	}
	p := u.of(largest, unit)
	if unit == formula.One && largest > 0 && largest < 1e-3 {
		p = printed{"10⁻⁶", 1e6} // a strain
	}
	a := aligned{factor: p.factor}
	switch scaled := largest * p.factor; {
	case unit == formula.Metre && p == u.in(unit):
		a.decimals = 3
	case scaled > 0:
		a.decimals = max(0, min(7, figures-1-int(math.Floor(math.Log10(scaled)))))
	}
	return a, p.unit
}
