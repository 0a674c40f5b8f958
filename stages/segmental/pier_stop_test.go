package segmental_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// Rows, factor and ties of a resultant by hand.
func TestResultantByHand(t *testing.T) {
	r := segmental.Resultant{Vertical: 1000, Along: 600}
	left, right, err := r.Rows(2)
	require.NoError(t, err)
	require.Equal(t, []float64{200, 800}, []float64{left, right})
	factor, err := r.Factor(2)
	require.NoError(t, err)
	require.InEpsilon(t, 1000./600, factor, 1e-12)
	tie, err := r.Tie(2, 2)
	require.NoError(t, err)
	require.InEpsilon(t, 100, tie, 1e-12)
	tie, err = r.Tie(2, 1.5)
	require.NoError(t, err)
	require.Zero(t, tie)
}

// A curved deck leans to its outer side: 350 kN 0.2 m to the right of the axis, 600 kN·m along.
func TestTransverseMomentByHand(t *testing.T) {
	b := segmental.Balance{Unbalanced: "R1", Parts: []segmental.Part{{Mark: "PS", Arm: segmental.Middle, Force: 150e3, Across: 0.1}, {Mark: "R1", Arm: segmental.Right, Force: 200e3, Lever: 3, Across: -0.4}}}
	r, err := b.Nominal()
	require.NoError(t, err)
	require.InEpsilon(t, -65e3, r.Across, 1e-12)
	c := pierCheck(t, pierChecks(t, builtIn(1e6), b, segmental.EN), "out-of-balance moment", "characteristic")
	require.InEpsilon(t, 665e3, c.Demand.Value, 1e-12)
	q := pierCheck(t, pierChecks(t, pierOn(4), b, segmental.EN), "transverse moment and yaw", "")
	require.Contains(t, q.Note, "within the rows, characteristic: M across -65 to -65 kN·m")
	require.Contains(t, pierCheck(t, pierChecks(t, builtIn(0), b, segmental.EN), "fixing of the deck", "").Note, "M across = -65 kN·m")
}

// Outer segments are named whatever the order of the parts.
func TestSegmentsInAnyOrder(t *testing.T) {
	b := cantilever(8, 6)
	for i, k := 0, len(b.Parts)-1; i < k; i, k = i+1, k-1 {
		b.Parts[i], b.Parts[k] = b.Parts[k], b.Parts[i]
	}
	c := pierCheck(t, pierChecks(t, pierOn(6), b, segmental.AASHTO), "segments on one arm only", "")
	require.Contains(t, c.Note, "segments L7, L8 are on the left arm only")
	require.NotContains(t, c.Note, "frame")
}

// A counterweight counts as it hurts: 1 where it holds, 1.1 where it does not.
func TestCounterweightInStrength(t *testing.T) {
	b := segmental.Balance{Parts: []segmental.Part{{Mark: "CW", Kind: limits.Counterweight, Arm: segmental.Right, Force: 100e3, Lever: 10}}}
	spans, err := b.Range(segmental.AASHTO, nil, along)
	require.NoError(t, err)
	require.InEpsilon(t, 1100e3, spans[1].Most.Value, 1e-12)
	require.InEpsilon(t, 1000e3, spans[1].Least.Value, 1e-12)
}

// factored is a standard with the same factors for every accident.
type factored struct{ limits.Factors }

func (f factored) Limits(limits.Question) ([]limits.Limit, error) {
	return []limits.Limit{{Kind: limits.Overturning, Sense: limits.AtMost, Source: formula.Source{Document: "own rules"}, Factors: f.Factors}}, nil
}

// The factor of an accident is on the change, not on the arm; of two segments on frames one is
// released, the other stays.
func TestOneAccidentAtATime(t *testing.T) {
	standard := factored{limits.Factors{WeightLeast: 0.9, WeightMost: 1.1, Actions: []limits.ActionFactor{{Kind: limits.Accidental, Unfavourable: 1}}}}
	b := segmental.Balance{Parts: []segmental.Part{
		{Mark: "L1", Arm: segmental.Left, Force: 100e3, Lever: -5, Handled: true}, {Mark: "R1", Arm: segmental.Right, Force: 100e3, Lever: 5, Handled: true},
	}}
	spans, err := b.Range(segmental.EN, standard, along)
	require.NoError(t, err)
	require.Len(t, spans, 2)
	require.InEpsilon(t, 500e3+1.1*500e3, spans[1].Most.Value, 1e-12, "the left one released acts upwards once, the right one with the factor of its arm")
	require.Contains(t, spans[1].Most.Words, "segment L1 released")
	spans, err = b.Range(segmental.AASHTO, nil, along)
	require.NoError(t, err)
	require.InEpsilon(t, 500e3+500e3, spans[1].Most.Value, 1e-12)
	require.InEpsilon(t, 1.1*500e3, spans[0].Most.Value, 1e-9, "in service 10 % on one of them, the other not yet on its frame")
	b.Parts[1].Most, b.Parts[1].Least = 1.25, 0.9
	spans, err = b.Range(segmental.AASHTO, nil, along)
	require.NoError(t, err)
	require.InEpsilon(t, 1.25*500e3, spans[0].Most.Value, 1e-9, "a stated dynamic factor that is larger")
	// Factors out of order are refused.
	_, err = b.Range(segmental.EN, factored{limits.Factors{WeightLeast: 2, WeightMost: 1}}, along)
	require.ErrorIs(t, err, limits.ErrLimits)
	require.ErrorIs(t, err, segmental.ErrSegmental)
}

// Which combinations go against the permissible force of a row and the permissible moment.
func TestCombinationsAgainstPermissibleValues(t *testing.T) {
	notes := func(p segmental.Pier, name string, rule segmental.Rule) (n int) {
		for _, c := range pierChecks(t, p, lifting(), rule) {
			if strings.HasPrefix(c.Name, name) {
				n++
			}
		}
		return n
	}
	require.Equal(t, 2, notes(pierOn(6), "force of a row", segmental.AASHTO), "service and strength")
	require.Len(t, forcesOfRows(t, pierOn(6), cantilever(8, 8), segmental.AASHTO), 2, "strength without a segment on the frame, too")
	require.Equal(t, 2, notes(pierOn(6), "force of a row", segmental.EN), "characteristic and accidental")
	require.Equal(t, 3, notes(builtIn(9e7), "out-of-balance moment", segmental.EN))
	// Arms alike: only equilibrium has a moment, 10 % of one arm and 35 % of a frame.
	c := pierCheck(t, pierChecks(t, builtIn(9e7), cantilever(8, 8), segmental.EN), "out-of-balance moment", "EQU")
	require.InEpsilon(t, 0.1*75600e3+0.35*300e3*25.5, c.Demand.Value, 1e-12)
}

// forcesOfRows are the checks of the maximum force of a row.
func forcesOfRows(t *testing.T, p segmental.Pier, b segmental.Balance, rule segmental.Rule) (list []stages.OwnCheck) {
	for _, c := range pierChecks(t, p, b, rule) {
		if strings.HasPrefix(c.Name, "force of a row") {
			list = append(list, c)
		}
	}
	return list
}

// What may be absent is not in the nominal resultant; in the sum of moments along and across it counts
// where it adds more across than it takes off along.
func TestWhatMayBeAbsent(t *testing.T) {
	b := segmental.Balance{Unbalanced: "R1", Parts: []segmental.Part{{Mark: "R1", Arm: segmental.Right, Force: 200e3, Lever: 3, Across: 0.1}, {Mark: "store", Kind: limits.Imposed, Arm: segmental.Middle, Force: 50e3, Lever: -0.1, Across: 2, Most: 1}}}
	r, err := b.Nominal()
	require.NoError(t, err)
	require.Equal(t, segmental.Resultant{Vertical: 200e3, Along: 600e3, Across: 20e3}, r)
	c := pierCheck(t, pierChecks(t, builtIn(1e6), b, segmental.EN), "out-of-balance moment", "characteristic")
	require.InEpsilon(t, 600e3-5e3+20e3+100e3, c.Demand.Value, 1e-12)
}

// anyPier is a random pier that may have ties, and any of its permissible values.
func anyPier(random *rand.Rand) segmental.Pier {
	p := segmental.Pier{Mark: "P", At: 10, Document: "d", Factor: 1 + 0.5*random.Float64()}
	if random.IntN(5) == 0 {
		p.Moment = 2e7 + 6e7*random.Float64()
		return p
	}
	p.Rows = 2 + 14*random.Float64()
	if random.IntN(2) == 0 {
		p.Row = 1e7 + 2e7*random.Float64()
	}
	if random.IntN(3) > 0 {
		p.Ties = &segmental.Ties{Number: 1 + random.IntN(6), Capacity: 3e5 + 2e6*random.Float64(), Sudden: 1 + 2*random.Float64(), Document: "d"}
		p.Ties.Preload = p.Ties.Capacity * random.Float64()
	}
	return p
}

// The weight at which to stop of any pier, whichever check governs: below it none fails, above it one
// does.
func TestStopWeightOfAnyPier(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 1))
	governed := map[string]int{}
	for range 200 {
		n := random.IntN(5)
		b := cantilever(n, n+1)
		b.Unbalanced = b.Parts[len(b.Parts)-2].Mark
		if random.IntN(2) == 0 {
			b = handled(b, b.Unbalanced)
		}
		p := anyPier(random)
		for _, rule := range []segmental.Rule{segmental.AASHTO, segmental.EN} {
			weight, check, err := p.StopWeight(b, rule, limits.EN1992{})
			if err != nil || weight < 1 {
				require.ErrorIs(t, errOr(err), segmental.ErrSegmental)
				continue
			}
			governed[strings.Split(check, " pier")[0]]++
			above := heavier(b, weight*(1+1e-9))
			require.False(t, reserves(t, p, above, rule), "%s %+v", check, p)
			if weight < 1e9 {
				require.True(t, reserves(t, p, heavier(b, weight*(1-1e-9)), rule), "%s %+v", check, p)
			}
		}
	}
	require.Greater(t, len(governed), 6, "%v", governed)
}

// errOr is an error, or one of the package where there is none.
func errOr(err error) error {
	if err == nil {
		return segmental.ErrSegmental
	}
	return err
}

// A segment whose weight does not turn the deck, and a moment that is too large anyway.
func TestStopWeightWithoutInfluence(t *testing.T) {
	b := cantilever(2, 1)
	b.Unbalanced = "R9"
	b.Parts = append(b.Parts, segmental.Part{Mark: "R9", Arm: segmental.Right, Force: 1e5})
	_, _, err := builtIn(1e6).StopWeight(b, segmental.AASHTO, nil)
	require.ErrorContains(t, err, "fails at any weight of segment \"R9\"")
	// Two segments more: nothing is permitted, whatever the pier carries.
	b = cantilever(6, 8)
	b.Unbalanced = "R8"
	for _, c := range pierChecks(t, builtIn(1e9), b, segmental.AASHTO) {
		require.Nil(t, c.Hold)
		if c.Name != "segments on one arm only, pier P4" {
			require.NotEqual(t, stages.Fail, c.State, c.Name)
		}
	}
}
