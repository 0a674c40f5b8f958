package segmental

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Only creep is scaled, in every form in which a model gives it.
func TestScaledCreep(t *testing.T) {
	m, err := ScaledCreep(slow, 1.3)
	require.NoError(t, err)
	own, err := slow.Creep(400, 20)
	require.NoError(t, err)
	got, err := m.Creep(400, 20)
	require.NoError(t, err)
	require.InEpsilon(t, 1.3*own, got, 1e-12)
	under, err := slow.CreepUnder(400, 20, 25e6)
	require.NoError(t, err)
	require.Greater(t, under, own)
	got, err = m.CreepUnder(400, 20, 25e6)
	require.NoError(t, err)
	require.InEpsilon(t, 1.3*under, got, 1e-12)
	lines, err := m.CreepLines(400, 20)
	require.NoError(t, err)
	require.InEpsilon(t, 1.3*own, lines[len(lines)-1].Result.Value, 1e-12)
	a, err := slow.Shrinkage(400)
	require.NoError(t, err)
	b, err := m.Shrinkage(400)
	require.NoError(t, err)
	require.Equal(t, a, b)
	shown, ok := m.Shown(3, 30e6).(concrete.TimeModel)
	require.True(t, ok)
	got, err = shown.Creep(400, 20)
	require.NoError(t, err)
	require.InEpsilon(t, 1.3*own, got, 0.2)
	require.Greater(t, got, 1.05*own, "a test keeps the factor")
	require.Len(t, m.Inputs(), len(slow.Inputs())+1)
	for _, factor := range []float64{0, 0.05, 3.1, math.NaN(), math.Inf(1)} {
		_, err := ScaledCreep(slow, factor)
		require.ErrorIs(t, err, ErrSegmental)
		require.ErrorContains(t, err, "factor of ScaledCreep")
	}
	_, err = ScaledCreep((*concrete.EN1992)(nil), 1)
	require.ErrorContains(t, err, "without a model")
}

// The moments of the band against superposition in time with the same factors, within 1.5 % of
// what creep brings: more creep brings more, in the middle and off the piers.
func TestCreepBandAgainstTheStiffnessMethod(t *testing.T) {
	modulus, err := tendon.CreepModulus(slow, 28)
	require.NoError(t, err)
	d := twoCantilevers(t, slow)
	band := CreepBand{}
	moments, err := band.Moments(d, fixedPiers(), limits.EN1992{}, append(built(), waiting(t, 60, 36500, 12))...)
	require.NoError(t, err)
	require.Len(t, moments, 5, "both sides of two piers, and the middle of the closure")
	middle, pier := moments[2], moments[1]
	require.InDelta(t, 29, middle.X, 1e-9)
	require.InDelta(t, 14, pier.X, 1e-3)
	for i, factor := range []float64{0.7, 1, 1.3} {
		model, err := ScaledCreep(slow, factor)
		require.NoError(t, err)
		b := byHand(t, model, modulus)
		require.InDelta(t, b.moment(29), middle.Closed, 2e3)
		before := b.moment(29)
		b.until(36500, 60)
		crept := b.moment(29) - before
		require.InDelta(t, b.moment(29), []float64{middle.Less, middle.End, middle.More}[i], 0.015*crept, "%g", factor)
		require.InDelta(t, b.moment(14), []float64{pier.Less, pier.End, pier.More}[i], 0.015*crept, "%g", factor)
	}
	require.Less(t, middle.Less, middle.End)
	require.Less(t, middle.End, middle.More)
	table, err := band.Table(moments)
	require.NoError(t, err)
	require.Equal(t, "M at the end, creep −30 %", table.Columns[2].Name)
	require.Equal(t, "M at the end, creep +30 %", table.Columns[4].Name)
	require.Equal(t, []float64{29, middle.Closed, middle.Less, middle.End, middle.More}, table.Rows[2])
	_, err = stages.Results{Mark: "D", Length: 58, Parts: []stages.ResultPart{{Title: "Creep", Tables: []stages.ValueTable{table}}},
		Inputs: []stages.Lines{{Title: "inputs", Lines: []formula.Line{formula.Given(formula.Q("L", 58, formula.Metre, "length"), formula.Mechanics)}}}}.Record()
	require.NoError(t, err)
}

// The simple case by the three methods is that of package redistribution, its band that of a
// scaled model: the ratios of an interior span, EN 1992 creep, fcm 53 MPa, 70 %, 600 mm.
func TestInteriorSpanSideBySide(t *testing.T) {
	for _, c := range []struct{ loaded, closed, stepwise, aged, without float64 }{{7, 60, 0.573, 0.593, 0.537}, {28, 365, 0.285, 0.296, 0.280}, {90, 180, 0.331, 0.329, 0.325}} {
		s := InteriorSpan{Change: redistribution.Change{Concrete: slow, Loaded: c.loaded, Changed: c.closed, Until: 36500}, Span: 60, Weight: 200e3}
		tables, err := s.Tables()
		require.NoError(t, err)
		require.Len(t, tables, 3)
		for i, want := range []float64{1, c.stepwise, c.aged, c.without} {
			require.InDelta(t, want, tables[0].Rows[1][i], 6e-4)
		}
		for row, factor := range []float64{0.7, 1, 1.3} {
			scaled := s
			scaled.Concrete, err = ScaledCreep(slow, factor)
			require.NoError(t, err)
			of, err := scaled.Shares()
			require.NoError(t, err)
			for k, want := range []float64{factor, of.Stepwise.Value, of.Aged.Value, of.NoRatio.Value} {
				require.InEpsilon(t, want, tables[0].Rows[row][k], 1e-9)
			}
			for k := 1; k <= 3; k++ {
				share := tables[0].Rows[row][k]
				require.InEpsilon(t, share*200e3*3600/24, tables[1].Rows[row][k], 1e-12)
				require.InEpsilon(t, 200e3*3600/8, tables[1].Rows[row][k]-tables[2].Rows[row][k], 1e-12, "equilibrium")
			}
		}
	}
}

// What is not as it must be is said.
func TestCreepBandRefuses(t *testing.T) {
	d, on := twoCantilevers(t, slow), fixedPiers()
	steps := append(built(), waiting(t, 60, 100, 1))
	for says, try := range map[string]func() error{
		"Less": func() error {
			_, err := CreepBand{Less: math.NaN()}.Moments(d, on, limits.EN1992{}, steps...)
			return err
		},
		"More": func() error { _, err := CreepBand{More: 0.9}.Moments(d, on, limits.EN1992{}, steps...); return err },
		"Places[1]": func() error {
			_, err := CreepBand{Places: []float64{3, 59}}.Moments(d, on, limits.EN1992{}, steps...)
			return err
		},
		"field Element.LongTerm is missing": func() error {
			_, err := CreepBand{}.Moments(twoCantilevers(t, nil), on, limits.EN1992{}, steps...)
			return err
		},
		"no move closes a closure": func() error { _, err := CreepBand{}.Moments(d, on, limits.EN1992{}, steps[:5]...); return err },
		"without moments":          func() error { _, err := CreepBand{}.Table(nil); return err },
		"InteriorSpan.Span":        func() error { _, err := InteriorSpan{Weight: 1e5}.Tables(); return err },
		"InteriorSpan.Weight":      func() error { _, err := InteriorSpan{Span: 60, Weight: math.NaN()}.Shares(); return err },
		"Change.Concrete is missing": func() error {
			_, err := InteriorSpan{Span: 60, Weight: 2e5}.Shares()
			return err
		},
	} {
		err := try()
		require.ErrorIs(t, err, ErrSegmental, says)
		require.ErrorContains(t, err, says)
	}
}
