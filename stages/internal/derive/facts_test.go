package derive_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// Facts read back from JSON as they were, and what is not there takes no room.
func TestFactsReadBack(t *testing.T) {
	band := derive.NewRange(101e3, 119e3, 2)
	strength := formula.Q("f_ck", 34e6, formula.Pascal, "strength")
	type all struct {
		Supports  []derive.Support
		Entries   []derive.Entry
		Holds     []derive.HoldPoint
		Bodies    []derive.Body
		Questions []derive.Unevaluated
		Proof     derive.Proof
	}
	facts := all{
		[]derive.Support{
			{X: 2, Y: -1.9, Z: 0, Role: "pad", Stiffness: 80e6, Level: -0.005, Holds: []string{"vertical"}, Reactions: derive.Reactions{Nominal: 110e3, Static: band, Share: &derive.Range{Least: 0.2, Most: 0.3}, Characteristic: band}},
			{X: 30, Role: "lift point", Group: "crane A", Hook: []float64{30, 0, 7}, Reactions: derive.Reactions{Across: &band, Opens: true}},
		},
		[]derive.Entry{{Number: 1, Kind: "weight", Label: "weight, on pads", Cause: "weight", Day: 3, System: 1, Locked: true, Factors: &derive.Range{Least: 0.97, Most: 1.03}}},
		[]derive.HoldPoint{{Kind: "strength", Required: strength, Assumed: &strength, Check: 4, Document: &derive.Document{Number: "T-12", Revision: "B", Status: "issued"}}},
		[]derive.Body{{Number: 1, Pieces: []int{1, 2}, Day: 30}},
		[]derive.Unevaluated{{Question: "bursting", Where: &derive.Range{Least: 0, Most: 1.2}, Reason: "anchorage zone"}},
		derive.Proof{Tables: []int{3}, Lines: []int{7, 8}},
	}
	text, err := json.Marshal(facts)
	require.NoError(t, err)
	require.NotContains(t, string(text), "preload")
	require.NotContains(t, string(text), "oneWay")
	var back all
	require.NoError(t, json.Unmarshal(text, &back))
	require.Empty(t, cmp.Diff(facts, back))
}

// A number that is not finite never gets into the lists.
func TestBookKeepsNoInfinity(t *testing.T) {
	var book derive.Book
	askew := box
	askew.Area = math.NaN()
	require.Zero(t, book.Section(1, "net", askew))
	require.Zero(t, book.Section(math.Inf(1), "net", box))
	require.Zero(t, book.Flow(1, derive.Wall{Name: "web"}, math.NaN(), 1, 1))
	d := lift(&book)
	d.Rows[0].On = 0
	_, err := book.Table(d)
	require.ErrorContains(t, err, "section state 0: must be 1 to 1")
	_, err = book.Table(derive.Draft{By: derive.Shearing, Rows: []derive.Action{{}}})
	require.ErrorContains(t, err, "cut 0: must be 1 to 0")
	_, err = json.Marshal(book.Lists())
	require.NoError(t, err)
}

// A table with every column but σ_0 takes 2 kB for a dozen rows: a hundred of them
// leave a third of the 300 kB of a record to the rest.
func TestTablesAreCompact(t *testing.T) {
	var book derive.Book
	d := lift(&book)
	for len(d.Rows) < 12 {
		d.Rows = append(d.Rows, d.Rows[1])
		d.Of.Value += product(d.Rows[1])
	}
	n, err := book.Table(d)
	require.NoError(t, err)
	text, err := json.Marshal(book.Lists().Tables[n-1])
	require.NoError(t, err)
	require.Less(t, 100*len(text), 200000)
}
