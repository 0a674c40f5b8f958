package derive

import (
	"encoding/binary"
	"math"
)

// key is the content of something as bytes: equal for equal content.
type key []byte

func (k key) text(s string) key { return append(k.number(float64(len(s))), s...) }

func (k key) number(v float64) key { return binary.LittleEndian.AppendUint64(k, math.Float64bits(v)) }

// key of a line.
func (l Line) key() string {
	k := make(key, 0, 48+len(l.Expression)+len(l.Note)+16*len(l.Operands))
	k = append(k, 'l').number(float64(l.Source)).text(l.Expression).text(l.Note)
	k = k.number(float64(l.Result.Symbol)).number(l.Result.Value)
	for _, o := range l.Operands {
		k = k.number(float64(o.Symbol)).number(o.Value)
	}
	return string(k)
}

// key of a table, but for its number.
func (t Table) key() string {
	k := make(key, 0, 256+128*len(t.Rows))
	k = append(k, 't').text(string(t.By)).number(t.Y).number(t.Z).number(float64(t.YAt)).number(float64(t.ZAt))
	k = k.column(t.Value)
	for _, c := range t.Columns {
		k = k.column(c)
	}
	for i := range t.Rows {
		k = k.row(&t.Rows[i])
	}
	k = k.text(t.Sum.Symbol).text(t.Sum.Name).text(string(t.Sum.Unit)).number(t.Sum.Value).number(float64(t.SumAt))
	return string(k)
}

func (k key) column(c Column) key {
	return k.text(c.Symbol).text(string(c.Unit)).number(float64(c.Last))
}

func (k key) row(r *Row) key {
	k = k.text(r.Label).number(float64(r.On)).number(r.Value).number(r.Product)
	for _, c := range r.Cells {
		if k = append(k, 0); c.Filled {
			k[len(k)-1] = 1
		}
		k = k.number(c.Value)
	}
	k = k.number(float64(len(r.Factors)))
	for _, f := range r.Factors {
		k = k.text(f.Symbol).number(f.Value).text(f.Name)
	}
	return k
}
