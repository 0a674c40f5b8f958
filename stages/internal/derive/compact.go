package derive

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
)

// What a record holds by the hundred is written as a list of its numbers, without
// names: a range is [least, most], a number of a line [symbol, value], a column
// [symbol, unit, last digit], a factor [symbol, value] or [symbol, value, name].

// MarshalJSON writes [least, most].
func (r Range) MarshalJSON() ([]byte, error) { return json.Marshal([]any{r.Least, r.Most}) }

// UnmarshalJSON reads [least, most]. The error wraps [ErrDerive].
func (r *Range) UnmarshalJSON(text []byte) error { return readList(text, 2, &r.Least, &r.Most) }

// MarshalJSON writes [symbol, value].
func (n Number) MarshalJSON() ([]byte, error) { return json.Marshal([]any{n.Symbol, n.Value}) }

// UnmarshalJSON reads [symbol, value]. The error wraps [ErrDerive].
func (n *Number) UnmarshalJSON(text []byte) error { return readList(text, 2, &n.Symbol, &n.Value) }

// MarshalJSON writes [symbol, unit, last digit].
func (c Column) MarshalJSON() ([]byte, error) { return json.Marshal([]any{c.Symbol, c.Unit, c.Last}) }

// UnmarshalJSON reads [symbol, unit, last digit]. The error wraps [ErrDerive].
func (c *Column) UnmarshalJSON(text []byte) error {
	return readList(text, 3, &c.Symbol, &c.Unit, &c.Last)
}

// MarshalJSON writes [symbol, value], and the name where there is one.
func (f Factor) MarshalJSON() ([]byte, error) {
	if f.Name == "" {
		return json.Marshal([]any{f.Symbol, f.Value})
	}
	return json.Marshal([]any{f.Symbol, f.Value, f.Name})
}

// UnmarshalJSON reads [symbol, value] or [symbol, value, name]. The error wraps
// [ErrDerive].
func (f *Factor) UnmarshalJSON(text []byte) error {
	*f = Factor{}
	return readList(text, 2, &f.Symbol, &f.Value, &f.Name)
}

// readList reads a list into its places; those beyond least may be missing.
func readList(text []byte, least int, into ...any) error {
	var list []json.RawMessage
	if err := json.Unmarshal(text, &list); err != nil {
		return fmt.Errorf("%w: %w", ErrDerive, err)
	}
	if len(list) < least || len(list) > len(into) {
		return fmt.Errorf("%w: list %.60s of %d: must be of %d", ErrDerive, text, len(list), least)
	}
	for i, one := range list {
		if err := json.Unmarshal(one, into[i]); err != nil {
			return fmt.Errorf("%w: %w", ErrDerive, err)
		}
	}
	return nil
}

// MarshalJSON writes the numbers of rows in units of the last digit of their column.
func (t Table) MarshalJSON() ([]byte, error) {
	w := text{out: make([]byte, 0, 256+128*len(t.Rows))}
	w.table(&t)
	return w.out, w.err
}

// UnmarshalJSON reads what MarshalJSON wrote. The error is that of package json: a
// field that is not known, too.
func (t *Table) UnmarshalJSON(text []byte) error {
	type plain Table
	var read plain
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&read); err != nil {
		return err
	}
	*t = Table(read).inDigits(scaled)
	return nil
}

// inDigits is a table with every number of its rows changed with its last digit.
func (t Table) inDigits(change func(v float64, last int) float64) Table {
	rows := t.Rows
	t.Rows = nil
	for _, r := range rows {
		t.Rows = append(t.Rows, r.inDigits(&t, change))
	}
	return t
}

func (r Row) inDigits(t *Table, change func(v float64, last int) float64) Row {
	r.Value, r.Product, r.Cells = change(r.Value, t.Value.Last), change(r.Product, t.SumAt), slices.Clone(r.Cells)
	for i := range min(len(r.Cells), len(t.Columns)) {
		r.Cells[i].Value = change(r.Cells[i].Value, t.Columns[i].Last) + 0 // no negative zero
	}
	return r
}
