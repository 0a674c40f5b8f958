package stages_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// anySupports are supports of every kind thrown about: most make sense.
func anySupports(r *rand.Rand, z float64) []stages.Support {
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	list := []stages.Support{{X: in(0.2, 4), Y: in(-1, -0.3), Z: z}, {X: in(0.2, 4), Y: in(0.2, 0.9), Z: z}, {X: in(15, 19.8), Y: in(-1, -0.3), Z: z}, {X: in(15, 19.8), Y: in(0.2, 0.9), Z: z}}
	switch r.IntN(7) {
	case 0:
		list = list[:3]
	case 1:
		list = paired(list)
	case 2:
		list = append(stages.Equalised("a", list[0], list[2]), stages.Equalised("b", list[1], list[3])...)
	case 3:
		list = stages.Elastic(math.Pow(10, in(6, 9)), list...)
	case 4:
		list = append(list[:3:3], stages.Support{X: in(5, 12), Y: 0.1, Z: z, Held: true, Preload: in(1e3, 90e3)})
	case 5:
		list[3].OneWay = stages.PushAndPull
	}
	return bracketed(list)
}

// anyActions are actions of every kind.
func anyActions(r *rand.Rand) []stages.Action {
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	var list []stages.Action
	for i := range r.IntN(3) {
		a := stages.Action{
			Mark: fmt.Sprint("a", i), Kind: []limits.ActionKind{"", stages.Wind, stages.Imposed, stages.Accidental}[r.IntN(4)],
			Direction: []stages.Direction{stages.Down, stages.Down, stages.Transverse, stages.Along}[r.IntN(4)], Y: in(-0.4, 0.4), Z: in(0, 2),
			Least: []float64{0, -1, 1}[r.IntN(3)], Most: 1,
			Loads: loads.Set{Points: []loads.Point{{At: in(0, 20), Force: in(-5e3, 20e3)}}, Lines: []loads.Line{loads.Uniform(in(0, 9), in(10, 20), in(-500, 2e3))}},
		}
		list = append(list, a)
	}
	return list
}

// seeds is how many plans are tried.
const seeds = uint64(4)

// Whatever the plan, a run gives a record of finite numbers that recompute and
// whose reactions carry the weight, or an error in words.
func TestRandomPlans(t *testing.T) {
	done := 0
	for seed := range seeds {
		r := rand.New(rand.NewPCG(seed, 5))
		e := scattered(t, r)
		level := 0.002 * r.Float64()
		tilt := func() float64 { return 0.05 * r.Float64() * float64(r.IntN(3)/2) }
		plan := stages.Plan{
			stages.Store{Age: 4, On: tripod(-0.5, 0.3, 2.2, -0.05, 17.6)},
			stages.Lift{Age: 5, On: anySupports(r, 2), Dynamic: loads.Dynamic{Most: 1.1}, Roll: tilt(), Gradient: tilt(), Actions: anyActions(r)},
			stages.Store{Age: 6, Until: 15, On: anySupports(r, 0), OutOfLevel: level, Roll: tilt(), Gradient: tilt(), Actions: anyActions(r)},
			stages.Haul{Age: 28, On: anySupports(r, 0), OutOfLevel: level, Dynamic: loads.Dynamic{Least: 0.8, Most: 1.3}, Roll: tilt(), Actions: anyActions(r)},
			stages.Seat{Age: 29, On: anySupports(r, 0), OutOfLevel: level, Gradient: tilt(), Actions: anyActions(r)},
		}
		mass, err := e.CentreOfGravity()
		require.NoError(t, err)
		record, err := plan.Run(e, limits.EN1992{})
		if err != nil {
			require.Regexp(t, "must ", err.Error(), "seed %d", seed)
			require.False(t, strings.Contains(err.Error(), "derive:"), "seed %d: %v", seed, err)
			continue
		}
		done++
		_, err = json.Marshal(record) // refuses NaN and infinities
		require.NoError(t, err)
		recomputes(t, record)
		for _, stage := range record.Stages {
			for _, s := range stage.Situations {
				sum, always := 0.0, 0.0
				for _, p := range s.Reactions {
					sum += p.Nominal
					require.LessOrEqual(t, p.Static.Least, p.Static.Most+1e-6)
					require.LessOrEqual(t, p.Characteristic.Least, p.Static.Least+1e-6*mass.Weight, "seed %d, %s", seed, s.Name)
					require.GreaterOrEqual(t, p.Characteristic.Most, p.Static.Most-1e-6*mass.Weight, "seed %d, %s", seed, s.Name)
				}
				for _, a := range acting(plan[stage.Number-1]) {
					if a.Least > 0 && a.Direction == stages.Down && a.Train == nil {
						always += a.Loads.Total()
					}
				}
				require.InDelta(t, mass.Weight+always, sum, 1e-6*mass.Weight, "seed %d, %s", seed, s.Name)
			}
		}
	}
	require.Positive(t, done)
}

// acting are the actions of a stage.
func acting(s stages.Stage) []stages.Action {
	switch s := s.(type) {
	case stages.Lift:
		return s.Actions
	case stages.Store:
		return s.Actions
	case stages.Haul:
		return s.Actions
	case stages.Seat:
		return s.Actions
	}
	return nil
}
