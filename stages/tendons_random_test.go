package stages_test

import (
	"encoding/json"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Any mixture of tendons goes through a plan with further pulls: the record holds
// against its own tables, and the normal force of a cut balances the tendons that
// are not bonded.
func TestRandomTendonsInPlan(t *testing.T) {
	random := rand.New(rand.NewSource(11))
	between := func(a, b float64) float64 { return a + (b-a)*random.Float64() }
	for n := range 24 {
		e := hollow(t)
		mix := e.Concrete.(concrete.EN1992)
		if n%2 == 0 {
			e.LongTerm = mix
		}
		x := deviated(between(0, 0.25))
		web := evenTendon("N", 5+random.Intn(6), between(-0.87, -0.83), 0.5)
		web.Elevation = tendon.Curve{tendon.Parabola(tendon.Point{Ordinate: between(0.5, 0.9)}, between(-0.1, -0.02), tendon.Point{X: 16, Ordinate: between(0.4, 0.9)})}
		web.Friction, web.Wobble, web.NoFriction = between(0, 0.25), between(0, 0.01), false
		e.Tendons = []tendon.Tendon{x, web}
		bed := n%3 == 0
		first := stages.Transfer{Age: 4, On: twoEnds, Jacking: []tendon.Jacking{jackTo(between(900e6, 1300e6), tendon.LeftEnd, "X"), jackTo(between(900e6, 1300e6), tendon.BothEnds, "N")}}
		if bed {
			low, high := between(0.05, 0.1), between(0.1, 0.3)
			e.Pretension = []tendon.Pretension{{
				Mark: "P", Strand: tendon.Y1860S7x125, Harped: true, Groups: []tendon.Debonding{{Strands: 6}, {Strands: 4, Left: between(0, 3), Right: between(0, 2)}},
				Elevation: polygon(tendon.Point{Ordinate: high}, tendon.Point{X: 6, Ordinate: low}, tendon.Point{X: 9, Ordinate: low}, tendon.Point{X: 16, Ordinate: high + 0.05}),
				Plan:      tendon.Level(0, 16, between(0.68, 0.9)),
			}}
			first.Pretension = fromBed(between(1000e6, 1300e6), "P")
		}
		plan := stages.Plan{
			first,
			stages.Store{Age: 6, Until: 20, On: twoEnds},
			stages.Stress{Age: 20, Jacking: []tendon.Jacking{jackTo(between(1310e6, 1400e6), tendon.RightEnd, "N"), jackTo(between(400e6, 700e6), tendon.BothEnds, "X", "N")}},
			stages.Seat{Age: 40, Until: 90, On: twoEnds},
		}
		record, err := plan.Run(e, limits.EN1992{})
		require.NoError(t, err, "run %d", n)
		_, err = json.Marshal(record)
		require.NoError(t, err, "a number that is not finite")
		a, err := plan.Analyse(e, limits.EN1992{})
		require.NoError(t, err)
		for i, stage := range record.Stages {
			for k, s := range stage.Situations {
				if bed {
					continue
				}
				effects, err := a.Effects(i+1, k+1)
				require.NoError(t, err)
				along := 0.0
				for _, f := range s.Tendons {
					path, err := e.Tendons[map[string]int{"X": 0, "N": 1}[f.Mark]].Path()
					require.NoError(t, err)
					cos, _, _ := path.Direction(8)
					along += f.Middle * cos
				}
				require.InEpsilon(t, -along, effects.Forces(8).N, 1e-9, "run %d, %s", n, s.Name)
			}
		}
	}
}
