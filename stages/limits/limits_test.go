package limits_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

func state(t testing.TB, age float64) concrete.State {
	s, err := concrete.EN1992{Fck: 50 * unit.Mega, Cement: concrete.ClassR}.At(age)
	require.NoError(t, err)
	return s
}

func ExampleEN1992_Limits() {
	strength, _ := concrete.EN1992{Fck: 50 * unit.Mega, Cement: concrete.ClassR}.At(14)
	answers, err := limits.EN1992{}.Limits(limits.Question{Kind: limits.Compression, Phase: limits.Lifting, Concrete: strength})
	for _, l := range answers {
		fmt.Printf("%s %s %.1f MPa, %s; %s\n", l.Name, l.Sense, l.Line.Result.Value/1e6, l.Source.Place, l.Note)
	}
	fmt.Println(err)
	// Output:
	// concrete compression at most 27.2 MPa, 5.10.2.2(5), (5.42); the clause is for tensioning and release of prestress; here by analogy
	// <nil>
}

// An owner's stricter value beside the recommended one.
func ExampleAll() {
	strength, _ := concrete.EN1992{Fck: 50 * unit.Mega, Cement: concrete.ClassR}.At(14)
	standard := limits.All(limits.EN1992{}, limits.EN1992{Annex: "the owner's specification", Compression: 0.5})
	answers, _ := standard.Limits(limits.Question{Kind: limits.Compression, Phase: limits.Stressing, Concrete: strength})
	for _, l := range answers {
		fmt.Printf("%.1f MPa by %s\n", l.Line.Result.Value/1e6, l.Source.Document)
	}
	// Output:
	// 27.2 MPa by EN 1992-1-1:2004
	// 22.7 MPa by EN 1992-1-1:2004 with the owner's specification
}

func TestEveryLimitByHand(t *testing.T) {
	young := state(t, 7)
	tn := &tendon.Tendon{Mark: "T", Strand: tendon.Y1860S7x157, Approval: tendon.Approval{Reference: "no", MeanStrength: 28e6, AnchorSpacing: 0.3, EdgeDistance: 0.15}}
	fck := math.Exp(0.2*(1-2))*58 - 8 // MPa at 7 d
	fctm := math.Exp(-0.2) * 0.3 * math.Pow(50, 2.0/3)
	for kind, want := range map[limits.Kind]float64{
		limits.Compression:       0.6 * fck * 1e6,
		limits.Tension:           0,
		limits.PrincipalTension:  0.7 * fctm / 1.5 * 1e6,
		limits.WebShear:          0.3 * (1 - fck/250) * fck / 1.5 * 1e6,
		limits.JackStress:        math.Min(0.8*1860, 0.9*1640) * 1e6,
		limits.LockOffStress:     math.Min(0.75*1860, 0.85*1640) * 1e6,
		limits.StressingStrength: 28e6,
		limits.AnchorSpacing:     0.3,
		limits.AnchorEdge:        0.15,
		limits.Uplift:            0,
	} {
		answers, err := limits.EN1992{}.Limits(limits.Question{Kind: kind, Concrete: young, Tendon: tn})
		require.NoError(t, err)
		require.Len(t, answers, 1, kind)
		l := answers[0]
		require.InDelta(t, want, l.Line.Result.Value, 1e-9*math.Max(1, want), kind)
		require.Equal(t, string(kind), l.Name)
		require.NotEmpty(t, l.Source.String(), kind)
		value, err := l.Line.Recompute()
		require.NoError(t, err)
		require.InDelta(t, l.Line.Result.Value, value, 1e-6)
	}
	answers, err := limits.EN1992{}.Limits(limits.Question{Kind: limits.Tension, Concrete: young, Place: limits.Place{Bars: true}})
	require.NoError(t, err)
	require.InDelta(t, fctm*1e6, answers[0].Line.Result.Value, 1)
	require.True(t, answers[0].LeansOnStrength)
	answers, err = limits.EN1992{}.Limits(limits.Question{Kind: limits.TensionSteel, TensionZone: limits.TensionZone{Force: 1, Bars: 2e-3}})
	require.NoError(t, err)
	require.Equal(t, 2e-3, answers[0].Line.Result.Value)
	require.Equal(t, 200e6, answers[0].BarStress.Value)
}

// γP = 1 where prestress is unfavourable is not what a reader expects: strength says why,
// with the clauses that ask for more and are for other checks.
func TestPrestressOfStrengthSaysItsReason(t *testing.T) {
	for kind, wanted := range map[limits.Kind]bool{limits.PrincipalTension: true, limits.WebShear: true, limits.Compression: false, limits.Uplift: false} {
		answers, err := limits.EN1992{}.Limits(limits.Question{Kind: kind, Concrete: state(t, 7)})
		require.NoError(t, err)
		for _, clause := range []string{"5.10.8(1)", "2.4.2.2(1)", "2.4.2.2(2)", "2.4.2.2(3)"} {
			require.Equal(t, wanted, strings.Contains(answers[0].Factors.Note, clause), "%s: %s", kind, clause)
		}
	}
}

func TestFactorsOfEachLimitState(t *testing.T) {
	factors := func(kind limits.Kind) limits.Factors {
		answers, err := limits.EN1992{}.Limits(limits.Question{Kind: kind, Concrete: state(t, 7)})
		require.NoError(t, err)
		require.NotEmpty(t, answers[0].Factors.Source.Place, "the clause of the factors")
		answers[0].Factors.Source, answers[0].Factors.Note = formula.Source{}, ""
		return answers[0].Factors
	}
	require.Equal(t, limits.Factors{WeightLeast: 1, WeightMost: 1, PrestressLeast: 0.9, PrestressMost: 1.1, VariableMost: 1}, factors(limits.Compression))
	accidental := limits.ActionFactor{Kind: limits.Accidental, Unfavourable: 1}
	require.Equal(t, limits.Factors{WeightLeast: 1, WeightMost: 1.35, PrestressLeast: 1, PrestressMost: 1, VariableMost: 1.5,
		Actions: []limits.ActionFactor{accidental}}, factors(limits.PrincipalTension))
	for _, kind := range []limits.Kind{limits.Uplift, limits.Overturning, limits.Sliding} {
		require.Equal(t, limits.Factors{WeightLeast: 0.95, WeightMost: 1.05, PrestressLeast: 1, PrestressMost: 1, VariableMost: 1.5,
			Actions: []limits.ActionFactor{{Kind: limits.Equipment, Unfavourable: 1.35}, {Kind: limits.Personnel, Unfavourable: 1.35},
				{Kind: limits.Braking, Unfavourable: 1.35}, {Kind: limits.Counterweight, Favourable: 0.8, Unfavourable: 1.05}, accidental}}, factors(kind))
	}
}

func TestLimitsRefuse(t *testing.T) {
	_, err := limits.EN1992{JackProof: math.NaN()}.Limits(limits.Question{Kind: limits.Compression})
	require.ErrorIs(t, err, limits.ErrLimits)
	require.ErrorContains(t, err, "EN1992.JackProof = NaN: must be finite, not negative; 0 means 0.9")
	_, err = limits.EN1992{}.Limits(limits.Question{Kind: limits.JackStress})
	require.ErrorIs(t, err, limits.ErrLimits)
	_, err = limits.All(limits.EN1992{}, limits.EN1992{Compression: -1}).Limits(limits.Question{Kind: limits.Uplift})
	require.ErrorIs(t, err, limits.ErrLimits)
	_, err = limits.All(limits.EN1992{}, nil).Limits(limits.Question{Kind: limits.Uplift})
	require.ErrorContains(t, err, "standard 2 of All is nil")
	for _, swapped := range []limits.EN1992{{EquilibriumLeast: 1.05}, {EquilibriumMost: 0.95}, {PermanentUltimate: 0.5}, {PrestressInferior: 1.1}, {PrestressSuperior: 0.9}} {
		_, err = swapped.Limits(limits.Question{Kind: limits.Uplift})
		require.ErrorIs(t, err, limits.ErrLimits)
	}
	require.ErrorIs(t, limits.Factors{WeightLeast: 1.1}.Check(), limits.ErrLimits)
	require.ErrorIs(t, limits.Factors{VariableMost: math.NaN()}.Check(), limits.ErrLimits)
	require.NoError(t, limits.Factors{}.Check())
	answers, err := limits.EN1992{}.Limits(limits.Question{Kind: "colour of the concrete"})
	require.NoError(t, err)
	require.Empty(t, answers)
}
