package stages_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Whatever numbers go in, a run gives a Record of finite numbers or an error in
// words; never a panic or a hang.
func FuzzRun(f *testing.F) {
	f.Add(24.0, 1.0, 23.0, 0.5, 2.0, 2.5, 1380e6, 0.006, 40e3, 0.9, 1.1, 0.0, 10e3, 0.03)
	f.Add(24.0, 0.0, 24.0, 0.0, 5.0, 5.0, 900e6, 0.0, 1.0, 0.0, 0.0, 1.5, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, length, left, right, pads, age, later, stress, drawIn, weight, least, most, y, load, tolerance float64) {
		e := girder(t)
		e.Length, e.WeightTolerance = length, loads.PlusMinus(tolerance)
		e.Extra[0].Weight, e.Extra[0].Y = weight, y
		j := tendon.Jacking{Tendons: []string{"BL", "BR"}, Stress: stress, Ends: tendon.BothEnds, DrawIn: drawIn}
		plan := stages.Plan{
			stages.Transfer{Age: age, Jacking: []tendon.Jacking{j}, On: stages.Pads(pads, left, right)},
			stages.Lift{Age: later, On: stages.At(left, right), Dynamic: loads.Dynamic{Least: least, Most: most}},
			stages.Seat{Age: later, On: stages.Pads(pads, left, right), Actions: []stages.Action{{Mark: "a", Loads: loads.Set{Points: []loads.Point{{At: right, Force: load}}}}}},
		}
		record, err := plan.Run(e, limits.EN1992{})
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		_, err = json.Marshal(record) // refuses NaN and infinities
		require.NoError(t, err)
	})
}
