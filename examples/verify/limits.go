package main

import (
	"fmt"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages/limits"
)

// limitValues is what EN 1992-1-1 allows and the partial factors that go with
// it.
func limitValues() []Check {
	rows := strandLimits()
	rows = append(rows, compression())
	return append(rows, equilibriumFactors()...)
}

// allowed is a row that compares one number of the only limit that answers a
// question.
func allowed(name string, question func() (limits.Question, error), read func(limits.Limit) float64) Check {
	return Check{Name: name, Package: "stages/limits", Ours: func() (float64, error) {
		q, err := question()
		if err != nil {
			return 0, err
		}
		answers, err := limits.EN1992{}.Limits(q)
		if err != nil {
			return 0, err
		}
		if len(answers) != 1 {
			return 0, fmt.Errorf("%d limits answer %q", len(answers), q.Kind)
		}
		return read(answers[0]), nil
	}}
}

func megapascals(l limits.Limit) float64 { return l.Line.Result.Value / 1e6 }

// strandLimits is the jacking stress and after lock-off; strengths in
// MPa. The proof stress governs in each.
func strandLimits() []Check {
	const jack = "EN 1992-1-1:2004, 5.10.2.1: min(0.8·fpk, 0.9·fp0.1k)"
	const lockOff = "EN 1992-1-1:2004, 5.10.3(2): min(0.75·fpk, 0.85·fp0.1k)"
	var rows []Check
	for _, steel := range []struct{ fpk, fp01k, jack, lockOff float64 }{
		{1860, 1640, 1476, 1394}, {1860, 1600, 1440, 1360}, {1770, 1520, 1368, 1292},
	} {
		asked := func(kind limits.Kind) func() (limits.Question, error) {
			return func() (limits.Question, error) {
				strand := tendon.Y1860S7x157
				strand.Fpk, strand.Fp01k = steel.fpk*1e6, steel.fp01k*1e6
				return limits.Question{Kind: kind, Phase: limits.Stressing, Tendon: &tendon.Tendon{Mark: "S", Strand: strand, Strands: 1}}, nil
			}
		}
		name := fmt.Sprintf("steel of %g/%g MPa: ", steel.fpk, steel.fp01k)
		rows = append(rows,
			allowed(name+"jacking stress", asked(limits.JackStress), megapascals).
				from(ClosedForm, jack).is(steel.jack, "MPa", same(steel.jack), floatRounding),
			allowed(name+"stress after lock-off", asked(limits.LockOffStress), megapascals).
				from(ClosedForm, lockOff).is(steel.lockOff, "MPa", same(steel.lockOff), floatRounding))
	}
	return rows
}

// compression is 0.60 of a strength that needs no formula.
func compression() Check {
	return allowed("C50 at 28 d, stressing: 0.60·fck", func() (limits.Question, error) {
		state, err := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassN}.At(28)
		return limits.Question{Kind: limits.Compression, Phase: limits.Stressing, Concrete: state}, err
	}, megapascals).from(ClosedForm, "EN 1992-1-1:2004, 5.10.2.2(5)").is(30, "MPa", same(30), floatRounding)
}

// equilibriumFactors is what multiplies the actions where a support may lift.
func equilibriumFactors() []Check {
	const table = "EN 1990:2002/A1:2005, Annex A2, Table A2.4(A) (EQU), recommended values"
	uplift := func() (limits.Question, error) {
		return limits.Question{Kind: limits.Uplift, Phase: limits.Storing}, nil
	}
	row := func(name string, value float64, read func(limits.Factors) float64) Check {
		return allowed("loss of equilibrium: factor on "+name, uplift, func(l limits.Limit) float64 { return read(l.Factors) }).
			from(Recalled, table).is(value, "1", 0, "printed as it is")
	}
	return []Check{
		row("unfavourable weight", 1.05, func(f limits.Factors) float64 { return f.WeightMost }),
		row("favourable weight", 0.95, func(f limits.Factors) float64 { return f.WeightLeast }),
		row("other variable loads", 1.50, func(f limits.Factors) float64 { return f.VariableMost }),
		row("construction loads: trolleys and what hangs on them", 1.35, func(f limits.Factors) float64 {
			_, most := f.On(limits.Equipment)
			return most
		}),
		row("a counterweight that holds, not weighed", 0.8, func(f limits.Factors) float64 {
			least, _ := f.On(limits.Counterweight)
			return least
		}),
	}
}
