package formula

// Chain collects the lines of a derivation in their order, so that the result of one is
// an operand of the next. The zero Chain is empty.
type Chain struct {
	lines []Line
	err   error
}

// Derive appends the [Line] of a result from an expression and its operands, and gives
// the result with its value. After an error nothing is appended and values are 0.
func (c *Chain) Derive(result Quantity, expression string, source Source, operands ...Quantity) Quantity {
	result.Value = 0
	if c.err != nil {
		return result
	}
	line, err := Derive(result, expression, source, operands...)
	if err != nil {
		c.err = err
		return result
	}
	c.lines = append(c.lines, line)
	return line.Result
}

// Given appends the line of a given value with a note, and gives its quantity.
func (c *Chain) Given(q Quantity, source Source, note string) Quantity {
	if c.err == nil {
		c.lines = append(c.lines, Line{Result: q, Source: source, Note: note})
	}
	return q
}

// Note puts a remark on the last line.
func (c *Chain) Note(text string) {
	if c.err == nil && len(c.lines) > 0 {
		c.lines[len(c.lines)-1].Note = text
	}
}

// Lines are the lines so far, or the first error of [Derive] alone.
func (c *Chain) Lines() ([]Line, error) {
	if c.err != nil {
		return nil, c.err
	}
	return c.lines, nil
}
