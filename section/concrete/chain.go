package concrete

import "github.com/tempstage/tempstage/section/formula"

// chain collects the lines of a calculation from one standard; after an error
// it adds nothing more.
type chain struct {
	source func(place string) formula.Source
	lines  []formula.Line
	err    error
}

// line derives a quantity and appends its line.
func (k *chain) line(symbol, name string, unit formula.Unit, expression, place string, operands ...formula.Quantity) formula.Quantity {
	if k.err != nil {
		return formula.Q(symbol, 0, unit, name)
	}
	line, err := formula.Derive(formula.Q(symbol, 0, unit, name), expression, k.source(place), operands...)
	k.lines, k.err = append(k.lines, line), err
	return line.Result
}

// number is a line for a pure number.
func (k *chain) number(symbol, name, expression, place string, operands ...formula.Quantity) formula.Quantity {
	return k.line(symbol, name, formula.One, expression, place, operands...)
}

// stress is a line for a stress, a strength or a modulus.
func (k *chain) stress(symbol, name, expression, place string, operands ...formula.Quantity) formula.Quantity {
	return k.line(symbol, name, formula.Pascal, expression, place, operands...)
}

// state is the concrete at an age from the lines so far.
func (k *chain) state(age float64, of strengths, tension, low, modulus formula.Quantity) (State, error) {
	if k.err != nil {
		return State{}, k.err
	}
	return State{
		Age: age, Characteristic: of.characteristic.Value, Mean: of.mean.Value,
		TensileMean: tension.Value, TensileLow: low.Value, Modulus: modulus.Value,
		NeedsTest: of.needsTest, Basis: of.basis, Derivation: k.lines,
	}, nil
}

// strengths are the compressive strengths at an age and how they are known.
type strengths struct {
	mean, characteristic formula.Quantity
	needsTest            bool
	basis                string
}

func renamed(q formula.Quantity, symbol, name string) formula.Quantity {
	return formula.Q(symbol, q.Value, q.Unit, name)
}
