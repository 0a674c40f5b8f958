package derive_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/internal/derive"
)

// What a record holds by the hundred is a list of its numbers, and reads back.
func TestCompactLists(t *testing.T) {
	type all struct {
		R derive.Range
		P *derive.Range `json:",omitempty"`
		N derive.Number
		C derive.Column
		F []derive.Factor
	}
	want := all{derive.Range{Least: -1, Most: 2.5}, &derive.Range{Most: 1}, derive.Number{Symbol: 12, Value: 0.1}, derive.Column{Symbol: "M_y", Unit: "N·m", Last: 3},
		[]derive.Factor{{Symbol: "γ_w", Value: 1.03}, {Symbol: "r", Value: 0.9, Name: "on the prestress"}}}
	text, err := json.Marshal(want)
	require.NoError(t, err)
	require.Equal(t, `{"R":[-1,2.5],"P":[0,1],"N":[12,0.1],"C":["M_y","N·m",3],"F":[["γ_w",1.03],["r",0.9,"on the prestress"]]}`, string(text))
	var got all
	require.NoError(t, json.Unmarshal(text, &got))
	require.Equal(t, want, got)
}

// A list of another length or of other things is refused.
func TestCompactListsRefuse(t *testing.T) {
	for _, text := range []string{`[1]`, `[1,2,3]`, `{"l":1}`, `["a",2]`, `7`} {
		var r derive.Range
		require.ErrorIs(t, r.UnmarshalJSON([]byte(text)), derive.ErrDerive, text)
	}
	var f derive.Factor
	require.ErrorIs(t, f.UnmarshalJSON([]byte(`["r",1,"n",2]`)), derive.ErrDerive)
	require.NoError(t, f.UnmarshalJSON([]byte(`["r",1,"n"]`)))
	require.NoError(t, f.UnmarshalJSON([]byte(`["q",2]`)))
	require.Equal(t, derive.Factor{Symbol: "q", Value: 2}, f)
}

// Rows of a table are written in units of their last digits and read back as they
// were; a field that is not known is refused.
func TestTableInDigits(t *testing.T) {
	table := derive.Table{Number: 1, By: derive.Bending, Value: derive.Column{Symbol: "σ", Unit: "Pa", Last: 3}, SumAt: 3,
		Columns: []derive.Column{{Symbol: "P", Unit: "N", Last: 2}, {Symbol: "cos", Unit: "1", Last: -5}},
		Rows: []derive.Row{{Label: "W", On: 1, Cells: []derive.Cell{{Value: 2254500, Filled: true}, {Value: 0.99052, Filled: true}}, Value: -1212000, Product: -1333000},
			{Label: "G", Cells: []derive.Cell{{}, {}}, Value: -68000, Product: -70000}}}
	text, err := json.Marshal(table)
	require.NoError(t, err)
	require.Contains(t, string(text), `{"l":"W","on":1,"c":[22545,99052],"v":-1212,"p":-1333},{"l":"G","c":[null,null],"v":-68,"p":-70}`)
	var got derive.Table
	require.NoError(t, json.Unmarshal(text, &got))
	require.Equal(t, table, got)
	require.Error(t, json.Unmarshal([]byte(`{"n":1,"mass":2}`), &got))
	require.Equal(t, 2254500.0, table.Rows[0].Cells[0].Value)
}
