package sheet_test

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

// half is the record of a beam without symmetry: stressed and grouted, lifted with
// roll, and seated under a load that stays beside its axis.
func half(t *testing.T) stages.Record {
	shape, err := section.New([]section.Outline{{{Y: -0.60}, {Y: 0.40}, {Y: 0.40, Z: 0.25}, {Y: 0.15, Z: 0.45}, {Y: 0.15, Z: 1.25}, {Y: 0.70, Z: 1.42}, {Y: 0.70, Z: 1.60}, {Y: -0.60, Z: 1.60}}}, nil)
	require.NoError(t, err)
	straight := func(level float64) tendon.Curve {
		return tendon.Curve{tendon.Straight(tendon.Point{X: 0, Ordinate: level}, tendon.Point{X: 12, Ordinate: level})}
	}
	of := func(mark string, strands int, y, z float64) tendon.Tendon {
		return tendon.Tendon{
			Mark: mark, Strand: tendon.Strand{Name: "invented", Area: 150e-6, Fpk: 1860e6, Fp01k: 1600e6, Modulus: 195e9}, Strands: strands, Duct: 0.07,
			Elevation: straight(z), Plan: straight(y), Friction: 0.19, Wobble: 0.005,
			Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
		}
	}
	e := stages.Element{
		Mark: "S-1", Length: 12, Section: shape, WeightTolerance: loads.PlusMinus(0.03), Concrete: concrete.EN1992{Fck: 45e6, Cement: concrete.ClassR},
		Extra:   []stages.ExtraWeight{{Mark: "end block", From: 0.5, To: 1.3, Weight: 24e3, Y: -0.20, Z: 0.80}, {Mark: "hook block", From: 11.5, To: 11.5, Weight: 18e3, Y: 0.35, Z: 1.10}},
		Tendons: []tendon.Tendon{of("T1", 7, -0.14, 0.62), of("T2", 3, -0.05, 0.95)},
	}
	for _, z := range []float64{0.06, 1.54} {
		e.Bars = append(e.Bars, stages.BondedBars{From: 0, To: 12, At: section.Point{Y: -0.1, Z: z}, Area: 6000e-6})
	}
	pull := func(mark string) []tendon.Jacking {
		return []tendon.Jacking{{Tendons: []string{mark}, Stress: 1290e6, Ends: tendon.LeftEnd, DrawIn: 0.005}}
	}
	three := func(left, right float64) []stages.Support {
		return []stages.Support{{X: left, Y: -0.5}, {X: left, Y: 0.3}, {X: right, Y: -0.04}}
	}
	hung := append([]stages.Support{{X: 2, Y: -0.45, Z: 1.6}, {X: 2, Y: 0.35, Z: 1.6}},
		stages.Equalised("rear", stages.Support{X: 9.6, Y: -0.45, Z: 1.6}, stages.Support{X: 9.6, Y: 0.35, Z: 1.6})...)
	record, err := stages.Plan{
		stages.Transfer{Age: 3, Jacking: pull("T1"), On: three(0.4, 11.6)},
		stages.Stress{Age: 4, Jacking: pull("T2"), Grout: []string{"T1", "T2"}},
		stages.Lift{Age: 5, On: hung, Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}, Roll: 0.01},
		stages.Seat{Age: 28, On: three(0.4, 11.6), Actions: []stages.Action{{Mark: "drum", Loads: loads.Set{Points: []loads.Point{{At: 5, Force: 30e3}}}, Y: 0.20, Z: 1.6, Least: 1, Most: 1}}},
	}.Run(e, limits.EN1992{})
	require.NoError(t, err)
	return record
}

// stored is the record of [half] that was written when its format had the number 2:
// go test ./stages/sheet -update writes it anew.
func stored(t *testing.T) stages.Record {
	const path = "testdata/record-2.json"
	if *update {
		data, err := json.Marshal(half(t)) // without the indents of WriteJSON: less than half as long
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(path, data, 0o644))
	}
	file, err := os.Open(path)
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	record, err := sheet.ReadJSON(file)
	require.NoError(t, err)
	return record
}
