package derive

import (
	"encoding/json"
	"math"
	"strconv"
	"unicode/utf8"
)

// text is JSON being written, as package json writes it; the first error is kept. Most
// numbers of a record are in the rows of its tables.
type text struct {
	out []byte
	err error
}

// comma separates what follows from what is before it in a list or an object.
func (t *text) comma() {
	if last := t.out[len(t.out)-1]; last != '[' && last != '{' {
		t.out = append(t.out, ',')
	}
}

func (t *text) raw(s string) { t.out = append(t.out, s...) }

// name begins a member of an object.
func (t *text) name(s string) {
	t.comma()
	t.out = append(append(append(t.out, '"'), s...), '"', ':')
}

func (t *text) whole(v int) { t.out = strconv.AppendInt(t.out, int64(v), 10) }

// number is a float64 in its shortest form, with an exponent where package json has one.
func (t *text) number(v float64) {
	size := math.Abs(v)
	switch {
	case math.Trunc(v) == v && size < 1e15 && !(v == 0 && math.Signbit(v)):
		t.out = strconv.AppendInt(t.out, int64(v), 10)
	case size >= 1e-6 && size < 1e21:
		t.out = strconv.AppendFloat(t.out, v, 'f', -1, 64)
	default: // zero with a sign, with an exponent, or not finite
		t.any(v)
	}
}

// any is a value as package json writes it.
func (t *text) any(v any) {
	written, err := json.Marshal(v)
	if err != nil && t.err == nil {
		t.err = err
	}
	t.out = append(t.out, written...)
}

// words are a string: as it is where it has no letter that package json escapes.
func (t *text) words(s string) {
	for _, c := range s {
		switch c {
		case '"', '\\', '<', '>', '&', 0x7f, '\u2028', '\u2029', utf8.RuneError:
			t.any(s)
			return
		}
		if c < ' ' {
			t.any(s)
			return
		}
	}
	t.out = append(append(append(t.out, '"'), s...), '"')
}

// table is a Table with the tags of its fields, its rows in units of last digits.
func (t *text) table(of *Table) {
	t.raw("{")
	t.name("n")
	t.whole(of.Number)
	if of.By != "" {
		t.name("by")
		t.words(string(of.By))
	}
	for _, v := range []struct {
		name  string
		value float64
	}{{"y", of.Y}, {"z", of.Z}, {"yd", float64(of.YAt)}, {"zd", float64(of.ZAt)}} {
		if v.value != 0 {
			t.name(v.name)
			t.number(v.value)
		}
	}
	t.name("value")
	t.any(of.Value)
	if len(of.Columns) > 0 {
		t.name("columns")
		t.any(of.Columns)
	}
	t.name("rows")
	t.rows(of)
	t.name("sum")
	t.any(of.Sum)
	t.name("d")
	t.whole(of.SumAt)
	t.raw("}")
}

func (t *text) rows(of *Table) {
	if of.Rows == nil {
		t.raw("null")
		return
	}
	t.raw("[")
	for i := range of.Rows {
		t.comma()
		row := of.Rows[i].inDigits(of, func(v float64, last int) float64 { return math.Round(scaled(v, -last)) })
		t.row(&row)
	}
	t.raw("]")
}

// row is a Row with the tags of its fields.
func (t *text) row(r *Row) {
	t.raw("{")
	t.name("l")
	t.words(r.Label)
	if r.On != 0 {
		t.name("on")
		t.whole(r.On)
	}
	if len(r.Cells) > 0 {
		t.name("c")
		t.raw("[")
		for _, c := range r.Cells {
			t.comma()
			if !c.Filled {
				t.raw("null")
				continue
			}
			t.number(c.Value)
		}
		t.raw("]")
	}
	t.name("v")
	t.number(r.Value)
	t.factors(r.Factors)
	t.name("p")
	t.number(r.Product)
	if r.Of != 0 {
		t.name("s")
		t.whole(r.Of)
	}
	if r.Roll != 0 {
		t.name("r")
		t.number(r.Roll)
	}
	if r.Gradient != 0 {
		t.name("g")
		t.number(r.Gradient)
	}
	t.raw("}")
}

// factors are those of a row, as Factor.MarshalJSON writes each.
func (t *text) factors(list []Factor) {
	if len(list) == 0 {
		return
	}
	t.name("f")
	t.raw("[")
	for _, f := range list {
		t.comma()
		t.raw("[")
		t.words(f.Symbol)
		t.comma()
		t.number(f.Value)
		if f.Name != "" {
			t.comma()
			t.words(f.Name)
		}
		t.raw("]")
	}
	t.raw("]")
}
