package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// strengthOf is the strength that a situation must show, MPa.
func strengthOf(t *testing.T, s stages.SituationRecord, mark string) (required, assumed float64) {
	t.Helper()
	for _, h := range s.HoldPoints {
		if h.Kind == "strength" && (len(h.Pieces) == 0 || h.Pieces[0] == mark) {
			return h.Required.Value / 1e6, h.Assumed.Value / 1e6
		}
	}
	t.Fatalf("no strength to be shown of %s", mark)
	return 0, 0
}

// The strength to be shown is what the most demanding limit of all standards asks for,
// whichever comes first: 3.15 MPa at k·fck.
func TestTheStrengthToBeShownIsOfTheMostDemandingLimit(t *testing.T) {
	e := block()
	e.Bars = nil
	plan := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 0.2, 11.8))}}
	sigma := (10e3*11.6*11.6/8 - 10e3*0.2*0.2/2) / (0.5 * 0.64 / 6) / 1e6
	only := func(k float64) limits.Standard { return compressionOnly{limits.EN1992{Compression: k}} }
	for _, c := range []struct {
		standard limits.Standard
		share    float64
	}{
		{only(0.6), 0.6}, {only(0.3), 0.3}, {limits.All(only(0.6), only(0.3)), 0.3}, {limits.All(only(0.3), only(0.6)), 0.3}, {limits.All(only(0.5), only(0.2), only(0.4)), 0.2},
	} {
		r, err := plan.Run(e, c.standard)
		require.NoError(t, err)
		required, assumed := strengthOf(t, r.Stages[0].Situations[0], "B-1")
		require.InEpsilon(t, sigma/c.share, required, 1e-6)
		require.InDelta(t, 40, assumed, 1e-9)
	}
}

// After 28 d the tensile strength rises with the mean strength: what is assumed of a test is
// the strength of that age, f_cm(t) − 8 MPa, with f_cm(56) = 48·exp(0.20·(1 − √0.5)).
func TestTheStrengthAssumedAfter28Days(t *testing.T) {
	e := block()
	e.Bars = nil
	r, err := stages.Plan{stages.Store{Age: 56, On: paired(stages.Pads(0.2, 0.2, 11.8))}}.Run(e, compressionOnly{limits.EN1992{}})
	require.NoError(t, err)
	require.NoError(t, r.Check())
	for i, h := range r.Stages[0].Situations[0].HoldPoints {
		if h.Kind != "strength" {
			continue
		}
		wrong := r
		wrong.Stages = []stages.StageRecord{r.Stages[0]}
		wrong.Stages[0].Situations = append([]stages.SituationRecord{}, r.Stages[0].Situations...)
		holds := append(r.Stages[0].Situations[0].HoldPoints[:0:0], r.Stages[0].Situations[0].HoldPoints...)
		more := *h.Assumed
		more.Value += 1e6
		holds[i].Assumed = &more
		wrong.Stages[0].Situations[0].HoldPoints = holds
		require.ErrorContains(t, wrong.Check(), "strength assumed", "more than the lines of the strength give")
	}
	_, assumed := strengthOf(t, r.Stages[0].Situations[0], "B-1")
	require.InEpsilon(t, 48*math.Exp(0.20*(1-math.Sqrt(0.5)))-8, assumed, 1e-9)
}

// Where the tensile strength of a model does not rise after 28 d, nothing more is assumed.
func TestTheStrengthAssumedWhereTensionDoesNotGrow(t *testing.T) {
	e := block()
	e.Bars, e.Concrete = nil, concrete.FIB2010{Fck: 40e6, Cement: concrete.ClassR}
	r, err := stages.Plan{stages.Store{Age: 56, On: paired(stages.Pads(0.2, 0.2, 11.8))}}.Run(e, compressionOnly{limits.EN1992{}})
	require.NoError(t, err)
	_, assumed := strengthOf(t, r.Stages[0].Situations[0], "B-1")
	require.InEpsilon(t, 40, assumed, 1e-9)
}

// compressionOnly answers for compression alone.
type compressionOnly struct{ limits.EN1992 }

func (c compressionOnly) Limits(q limits.Question) ([]limits.Limit, error) {
	if q.Kind != limits.Compression {
		return nil, nil
	}
	return c.EN1992.Limits(q)
}

// Shown as a test at the age, the required strength just passes, a hair less does not.
func TestTheStrengthToBeShownJustPasses(t *testing.T) {
	e := block()
	e.Bars = nil
	plan := stages.Plan{stages.Store{Age: 9, On: paired(stages.Pads(0.2, 0.2, 11.8)), Actions: []stages.Action{{Mark: "q", Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 12, 40e3)}}}}}}
	standard := compressionOnly{}
	r, err := plan.Run(e, standard)
	require.NoError(t, err)
	required, _ := strengthOf(t, r.Stages[0].Situations[0], "B-1")
	for factor, want := range map[float64]stages.State{1 + 1e-6: stages.Pass, 1 - 1e-6: stages.Fail} {
		with := e
		with.Concrete = e.Concrete.Shown(9, required*1e6*factor)
		r, err := plan.Run(with, standard)
		require.NoError(t, err)
		require.Equal(t, want, check(t, r.Stages[0].Situations[0], limits.Compression).State, "%g times", factor)
	}
}

// Pieces of one concrete at one age share a hold point; of the same strength at unlike
// ages they do not, nor of unlike strength at the same.
func TestHoldPointsByStrengthAndAge(t *testing.T) {
	for _, c := range []struct {
		fck  [3]float64
		cast [3]float64
		want int
	}{
		{[3]float64{40e6, 40e6, 40e6}, [3]float64{0, 0, 0}, 1}, {[3]float64{40e6, 60e6, 40e6}, [3]float64{0, 0, 0}, 2},
		{[3]float64{40e6, 40e6, 40e6}, [3]float64{0, 10, 10}, 2}, {[3]float64{40e6, 50e6, 60e6}, [3]float64{0, 0, 0}, 3}, {[3]float64{40e6, 40e6, 40e6}, [3]float64{0, 10, 20}, 3},
	} {
		pieces := stages.EndToEnd(stages.Monolithic, segment("A", 4), segment("B", 4), segment("C", 4))
		for i := range pieces {
			pieces[i].Element.Concrete, pieces[i].Element.Cast = concrete.EN1992{Fck: c.fck[i], Cement: concrete.ClassR}, c.cast[i]
		}
		s := stages.Situation{Name: "store", Day: 60, Standing: true, Phase: limits.Storing, Supports: pads(dunnage(0.2, 11.8))} // all older than 28 days
		r := run(t, stages.Girder{Mark: "G", Pieces: pieces}, stages.Plan{odd{situations: []stages.Situation{s}}})
		found, marks := 0, map[string]int{}
		for _, h := range r.Stages[0].Situations[0].HoldPoints {
			if h.Kind == "strength" {
				found++
				for _, m := range h.Pieces {
					marks[m]++
				}
			}
		}
		require.Equal(t, c.want, found, "%+v", c)
		if found > 1 {
			require.Equal(t, map[string]int{"A": 1, "B": 1, "C": 1}, marks)
		}
	}
}

// The reserve of a stage is the margin over the larger of limit and demand, the least of
// all its checks, in whatever situation.
func TestTheReserveOfAStage(t *testing.T) {
	limit := func(value float64) limits.Standard { return atMost(limits.Compression, value) }
	sigma := (10e3*11.6*11.6/8 - 10e3*0.2*0.2/2) / (0.5 * 0.64 / 6)
	e := block()
	e.Bars = nil
	plan := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 0.2, 11.8))}}
	for _, c := range []float64{0.5, 0.995, 1, 1.005, 3} {
		a, err := plan.Analyse(e, limits.All(limit(sigma/c)))
		require.NoError(t, err)
		var found stages.Check
		for i := range plan {
			r, err := a.Record()
			require.NoError(t, err)
			found = check(t, r.Stages[i].Situations[0], limits.Compression)
		}
		require.InDelta(t, sigma/c-sigma, found.Margin, 1e-3)
		require.Equal(t, c <= 1, found.State == stages.Pass || math.Abs(c-1) < 1e-9, "%g of the limit", c)
	}
	// Where all questions are answered it is that of the worst: each in turn.
	base := limits.EN1992{}
	for _, c := range []struct {
		standard limits.EN1992
		kind     limits.Kind
	}{
		{limits.EN1992{Compression: 0.0170}, limits.Compression}, {limits.EN1992{CompressionCoefficient: 0.0283}, limits.WebShear}, {limits.EN1992{FrictionFactor: 3.75}, limits.Sliding}, {base, ""},
	} {
		a, err := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 2.4, 9.6))}}.Analyse(block(), c.standard)
		require.NoError(t, err)
		worst, reserve, err := a.Margin(1)
		require.NoError(t, err)
		r, err := a.Record()
		require.NoError(t, err)
		least := math.Inf(1)
		for _, k := range r.Stages[0].Situations[0].Checks {
			size := math.Max(math.Abs(k.Limit.Value), math.Abs(k.Demand.Value))
			if k.Limit.Value == 0 && k.Scale.Value > 0 {
				size = k.Scale.Value
			}
			if size > 0 {
				least = math.Min(least, k.Margin/size)
			}
		}
		require.InDelta(t, least, reserve, 1e-12)
		if c.kind != "" {
			require.Equal(t, c.kind, worst.Kind)
		}
	}
	_, _, err := func() (stages.Check, float64, error) {
		a, err := plan.Analyse(e, base)
		require.NoError(t, err)
		return a.Margin(2)
	}()
	require.ErrorContains(t, err, "stage 2: must be 1 to 1")
}
