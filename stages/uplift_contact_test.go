package stages_test

import (
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// leastByHand is the least reaction of the supports of a block of 12 m that may not lift, under
// 0.95 to 1.05 of its weight: each in turn held both ways, the others by contact.
func leastByHand(t *testing.T, on []stages.Support, bending float64) (least, x float64) {
	least = math.Inf(1)
	for i, held := range on {
		if held.MayLift {
			continue
		}
		l := beam.Layout{Length: 12, Stiffness: []beam.Stretch{{BendingStiffness: bending}}}
		for k, s := range on {
			l.Supports = append(l.Supports, beam.Support{At: s.X, Stiffness: s.Stiffness, Settlement: -s.Level, Contact: k != i})
		}
		b, err := beam.New(l)
		require.NoError(t, err)
		for n := range 101 {
			r, err := b.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, 12, 10e3*(0.95+0.001*float64(n)))}})
			require.NoError(t, err)
			if force := r.Reactions[i].Force; force < least {
				least, x = force, held.X
			}
		}
	}
	return least, x
}

// What is lowered until it is slack gives all to the others: the minimum reaction is by contact
// under the factors of equilibrium, and it is the minimum of all that may not lift.
func TestUpliftFollowsContact(t *testing.T) {
	opened := 0
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 5))
		on := stages.Elastic(60e6, stages.At(0.4+r.Float64(), 3.5+r.Float64(), 5.5+r.Float64(), 8+r.Float64(), 10.4+r.Float64())...)
		low := append([]stages.Support{}, on...)
		for i := 1; i <= 3; i++ {
			low[i].Level, low[i].MayLift = -0.004*r.Float64(), seed%4 != 0 || i != 2
			if seed%3 == 0 {
				low[i].Level = -0.02
			}
		}
		plan := stages.Plan{stages.Store{Age: 28, On: on, OutOfLevel: 1e-9}, stages.Store{Age: 28.0001, On: low, OutOfLevel: 1e-9}}
		if seed%5 == 1 && seed%4 != 0 { // set down on them as they are
			plan = plan[1:]
		}
		record := run(t, block(), plan)
		stage := record.Stages[len(record.Stages)-1]
		c := check(t, stage.Situations[0], limits.Uplift)
		want, x := leastByHand(t, low, modulusAt(t, block(), 28)*0.5*0.8*0.8*0.8/12)
		require.InDelta(t, want, c.Demand.Value, 50, "seed %d", seed)
		require.InDelta(t, x, c.X, 1e-9, "seed %d", seed)
		require.Equal(t, want < 0, c.State == stages.Fail, "seed %d", seed)
		for _, p := range stage.Situations[0].Reactions {
			if p.X == c.X {
				require.LessOrEqual(t, c.Demand.Value, p.Characteristic.Most, "seed %d", seed)
			}
			if p.Characteristic.Most == 0 {
				opened++
			}
		}
	}
	require.Greater(t, opened, 30)
}

// The row of contact in the table of a stress says how the reactions change, and the moment of
// the row follows from that by statics.
func TestTheRowOfContactIsDerived(t *testing.T) {
	change := regexp.MustCompile(`([+−][\d.]+) kN at x = ([\d.]+) m`)
	rows := 0
	for seed := range uint64(8) {
		r := rand.New(rand.NewPCG(seed, 9))
		on := stages.Elastic(60e6, stages.At(0.4+r.Float64(), 3.5+r.Float64(), 5.5+r.Float64(), 8+r.Float64(), 10.4+r.Float64())...)
		low := append([]stages.Support{}, on...)
		for i := 1; i <= 3; i++ {
			low[i].Level, low[i].MayLift = -0.02, true
		}
		record := run(t, block(), stages.Plan{stages.Store{Age: 28, On: on, OutOfLevel: 1e-9}, stages.Store{Age: 28.0001, On: low, OutOfLevel: 1e-9}})
		for _, c := range record.Stages[1].Situations[0].Checks {
			for _, n := range c.Tables {
				table := record.Tables[n-1]
				my := -1
				for k, column := range table.Columns {
					if column.Symbol == "M_y" {
						my = k
					}
				}
				if my < 0 {
					continue
				}
				for _, row := range table.Rows {
					if !strings.HasPrefix(row.Label, "contact under") {
						continue
					}
					moment := 0.0
					for _, m := range change.FindAllStringSubmatch(row.Label, -1) {
						force, err := strconv.ParseFloat(strings.ReplaceAll(m[1], "−", "-"), 64)
						require.NoError(t, err)
						x, err := strconv.ParseFloat(m[2], 64)
						require.NoError(t, err)
						moment += 1e3 * force * math.Max(0, c.X-x)
					}
					require.InDelta(t, row.Cells[my].Value, moment, 50*5*12+0.01*math.Abs(moment), "seed %d, %s at x = %g m: %s", seed, c.Name, c.X, row.Label)
					if math.Abs(moment) > 1e4 {
						rows++
					}
				}
			}
		}
	}
	require.Greater(t, rows, 4)
}

// A prop that went and comes again has nothing of what it gave away: the sum stays the weight,
// also where another is lowered until it is free.
func TestAPropThatComesAgainBeginsWithoutForce(t *testing.T) {
	on := stages.Elastic(60e6, stages.At(1, 4, 7, 11)...)
	gone := []stages.Support{on[0], on[2], on[3]}
	low := append([]stages.Support{}, on...)
	low[2].Level, low[2].MayLift = -0.02, true
	plan := stages.Plan{
		stages.Store{Age: 28, On: on, OutOfLevel: 1e-9}, stages.Store{Age: 28.001, On: gone, OutOfLevel: 1e-9},
		stages.Store{Age: 28.002, On: on, OutOfLevel: 1e-9}, stages.Store{Age: 28.003, On: low, OutOfLevel: 1e-9},
	}
	again, lowered := effectsOf(t, block(), plan, 3).Reactions, effectsOf(t, block(), plan, 4).Reactions
	require.InDelta(t, 0, again[1].Nominal, 1)
	sum, moment := 0.0, 0.0
	for _, r := range lowered {
		sum, moment = sum+r.Nominal, moment+r.Nominal*r.X
	}
	require.InDelta(t, 120e3, sum, 1)
	require.InDelta(t, 720e3, moment, 10)
	require.Zero(t, lowered[2].Nominal)
	require.Greater(t, lowered[1].Nominal, 5e3)
}
