package limits_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
)

// What each answer is: limit state, sense, clause, whether it follows the strength of
// the concrete, and whose factors go with it.
func TestEveryClause(t *testing.T) {
	const service, strength, one, balance = "service", "strength", "one", "balance"
	factors := map[string][4]float64{ // weight, then prestress
		service: {1, 1, 0.9, 1.1}, strength: {1, 1.35, 1, 1}, one: {1, 1, 1, 1}, balance: {0.95, 1.05, 1, 1},
	}
	answered := all(t, limits.EN1992{})
	for _, c := range []struct {
		kind     limits.Kind
		state    string
		sense    limits.Sense
		clause   string
		strength bool
		factors  string
	}{
		{limits.Compression, "SLS", limits.AtMost, "5.10.2.2(5), (5.42)", true, service},
		{limits.Tension, "SLS", limits.AtMost, "113.3.2(103)", true, service},
		{limits.TensionSteel, "SLS", limits.AtMost, "7.3.3(2), Table 7.2N", false, service},
		{limits.PrincipalTension, "ULS", limits.AtMost, "6.2.2(2) and 3.1.6(2), (3.16)", true, strength},
		{limits.WebShear, "ULS", limits.AtMost, "6.2.2(6), (6.5) and (6.6N)", true, strength},
		{limits.JackStress, "SLS", limits.AtMost, "5.10.2.1(1), (5.41)", false, one},
		{limits.LockOffStress, "SLS", limits.AtMost, "5.10.3(2), (5.43)", false, one},
		{limits.StressingStrength, "approval", limits.AtLeast, "invented", true, one},
		{limits.AnchorSpacing, "approval", limits.AtLeast, "invented", false, one},
		{limits.AnchorEdge, "approval", limits.AtLeast, "invented", false, one},
		{limits.DuctSpacing, "detailing", limits.AtLeast, "8.10.1.3, Figure 8.15", false, one},
		{limits.Uplift, "EQU", limits.AtLeast, "Table A2.4(A), set A", false, balance},
		{limits.Overturning, "EQU", limits.AtMost, "Table A2.4(A), set A", false, balance},
		{limits.Sliding, "EQU", limits.AtMost, "Table A2.4(A), set A", false, balance},
	} {
		require.Len(t, answered[c.kind], 1, c.kind)
		l := answered[c.kind][0]
		require.Equal(t, c.kind, l.Kind)
		require.Equal(t, string(c.kind), l.Name)
		require.Equal(t, c.state, l.LimitState, c.kind)
		require.Equal(t, c.sense, l.Sense, c.kind)
		require.Equal(t, c.clause, l.Source.Place, c.kind)
		require.Equal(t, c.strength, l.LeansOnStrength, c.kind)
		f := l.Factors
		require.Equal(t, factors[c.factors], [4]float64{f.WeightLeast, f.WeightMost, f.PrestressLeast, f.PrestressMost}, c.kind)
		require.NoError(t, f.Check())
		require.Equal(t, c.state != "approval", l.Source.Confirm, "not checked against the printed standard: %s", c.kind)
		if c.kind != limits.Overturning && c.kind != limits.Sliding && c.kind != limits.TensionSteel {
			require.Equal(t, l.Source, l.Line.Source, "the line says where it comes from: %s", c.kind)
		}
	}
	require.Zero(t, answered[limits.Overturning][0].Line, "made by the engine")
	require.Zero(t, answered[limits.Uplift][0].Line.Result.Value)
}

// Set-down and roll are the engine's own and asked of no standard; what is not known
// has no answer either, which is never a pass.
func TestAskedOfNoStandard(t *testing.T) {
	for _, kind := range []limits.Kind{limits.SetDown, limits.Roll, "", "fatigue"} {
		for _, phase := range []limits.Phase{limits.Stressing, limits.Lifting, limits.Storing, limits.Seating, limits.Hauling, limits.Striking} {
			q := question(kind)
			q.Phase = phase
			list, err := limits.All(limits.EN1992{}, limits.EN1992{Annex: "another"}).Limits(q)
			require.NoError(t, err)
			require.Empty(t, list, kind)
		}
	}
}

// The clause on compression is for tensioning and release; in every other phase its use
// is by analogy and says so. No other answer follows the phase.
func TestPhases(t *testing.T) {
	for _, phase := range []limits.Phase{limits.Stressing, limits.Lifting, limits.Storing, limits.Seating, limits.Hauling, limits.Striking} {
		for _, kind := range kinds {
			q := question(kind)
			usual, err := limits.EN1992{}.Limits(q)
			require.NoError(t, err)
			q.Phase = phase
			list, err := limits.EN1992{}.Limits(q)
			require.NoError(t, err)
			if kind == limits.Compression && phase != limits.Stressing {
				require.Contains(t, list[0].Note, "by analogy", phase)
				list[0].Note = usual[0].Note
			}
			require.Equal(t, usual, list, "%s in %s", kind, phase)
		}
	}
}

// Every place: bars make the limit k·fctm and let it follow the strength, without them
// it is zero and the ratio is made by fctm; which piece it is says nothing.
func TestEveryPlace(t *testing.T) {
	for _, piece := range []string{"", "S-1"} {
		for _, joint := range []string{"", "J-2"} {
			for _, bars := range []bool{false, true} {
				q := question(limits.Tension)
				q.Place = limits.Place{Piece: piece, Joint: joint, Bars: bars}
				list, err := limits.EN1992{TensionWithBars: 0.9}.Limits(q)
				require.NoError(t, err)
				l := list[0]
				want := 0.0
				if bars {
					want = 0.9 * 3.5e6
				}
				require.Equal(t, want, l.Line.Result.Value)
				require.Equal(t, bars, l.LeansOnStrength, "zero needs no test")
				require.Equal(t, 3.5e6, l.Scale.Value)
				require.Equal(t, "f_ctm_t", l.Scale.Symbol)
				require.Equal(t, limits.AtMost, l.Sense)
				switch {
				case bars:
					require.Equal(t, "EN 1992-2:2005", l.Source.Document)
					require.Contains(t, l.Note, "bonded bars must carry the force")
				case joint != "":
					require.Contains(t, l.Note, "no bonded bars cross joint J-2")
				default:
					require.Contains(t, l.Note, "no bonded bars are given")
				}
			}
		}
	}
}

// The annex stands behind the clauses of EN 1992-1-1 and not behind other documents.
func TestAnnexIsNamed(t *testing.T) {
	answered := all(t, limits.EN1992{Annex: "the annex of nowhere"})
	for _, kind := range []limits.Kind{limits.Compression, limits.TensionSteel, limits.PrincipalTension, limits.WebShear, limits.JackStress, limits.LockOffStress, limits.DuctSpacing} {
		require.Equal(t, "EN 1992-1-1:2004 with the annex of nowhere", answered[kind][0].Source.Document)
	}
	for _, kind := range []limits.Kind{limits.Uplift, limits.Sliding, limits.Tension, limits.StressingStrength} {
		require.NotContains(t, answered[kind][0].Source.Document, "nowhere")
	}
	require.Equal(t, "EN 1992-1-1:2004", all(t, limits.EN1992{})[limits.WebShear][0].Source.Document)
}

// What cannot be answered is an error that names the question; the steel area that is
// given is the limit, whatever the force.
func TestQuestionsThatLackSomething(t *testing.T) {
	for _, kind := range []limits.Kind{limits.JackStress, limits.LockOffStress, limits.StressingStrength, limits.AnchorSpacing, limits.AnchorEdge, limits.DuctSpacing} {
		q := question(kind)
		q.Tendon = nil
		list, err := limits.EN1992{}.Limits(q)
		require.ErrorIs(t, err, limits.ErrLimits)
		require.ErrorContains(t, err, string(kind))
		require.ErrorContains(t, err, "must be")
		require.Empty(t, list)
	}
	q := question(limits.TensionSteel)
	q.TensionZone = limits.TensionZone{Force: 9e9, Bars: 1.5e-3}
	list, err := limits.EN1992{}.Limits(q)
	require.NoError(t, err)
	require.Equal(t, 1.5e-3, list[0].Line.Result.Value)
}

// refusing is a standard that always fails.
type refusing struct{}

var errRefusing = errors.New("withdrawn")

func (refusing) Limits(limits.Question) ([]limits.Limit, error) { return nil, errRefusing }

// Several standards answer side by side in their order; an error of one is the error
// of all, and nobody's answer is lost or made twice.
func TestStandardsSideBySide(t *testing.T) {
	owner := limits.EN1992{Annex: "the owner's specification", Compression: 0.5}
	list, err := limits.All(limits.EN1992{}, owner, limits.All(owner)).Limits(question(limits.Compression))
	require.NoError(t, err)
	require.Len(t, list, 3)
	for i, want := range []float64{24e6, 20e6, 20e6} {
		require.InDelta(t, want, list[i].Line.Result.Value, 1e-6)
	}
	list, err = limits.All(limits.EN1992{}, refusing{}).Limits(question(limits.Compression))
	require.ErrorIs(t, err, errRefusing)
	require.Empty(t, list)
	_, err = limits.All(owner, owner, nil).Limits(question(limits.Compression))
	require.ErrorContains(t, err, "standard 3 of All is nil")
	list, err = limits.All().Limits(question(limits.Compression))
	require.NoError(t, err)
	require.Empty(t, list)
}
