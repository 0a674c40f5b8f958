package segmental_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// builtIn is a pier without rows.
func builtIn(moment float64) segmental.Pier {
	return segmental.Pier{Mark: "P4", At: 29, Moment: moment, Document: "pier design rev. 3"}
}

// curved is the same deck with every part off the axis in plan.
func curved(b segmental.Balance) segmental.Balance {
	b.Parts = append([]segmental.Part(nil), b.Parts...)
	for i, p := range b.Parts {
		b.Parts[i].Across = -p.Lever * p.Lever / 400
	}
	b.Yaw = 900e3
	return b
}

// mirrored is the other way round.
func mirrored(b segmental.Balance) segmental.Balance {
	b.Parts = append([]segmental.Part(nil), b.Parts...)
	for i, p := range b.Parts {
		b.Parts[i].Lever = -p.Lever
		switch p.Arm {
		case segmental.Left:
			b.Parts[i].Arm = segmental.Right
		case segmental.Right:
			b.Parts[i].Arm = segmental.Left
		}
	}
	return b
}

// Two segments more on one side fail in words that name them, whatever the ties carry.
func TestTwoSegmentsMoreFail(t *testing.T) {
	p := tiedPier(6)
	for _, rule := range []segmental.Rule{segmental.AASHTO, segmental.EN} {
		for _, at := range []struct {
			b          segmental.Balance
			names, arm string
		}{{cantilever(6, 8), "R7, R8", "right arm"}, {cantilever(8, 6), "L7, L8", "left arm"}} {
			list := pierChecks(t, p, at.b, rule)
			c := pierCheck(t, list, "segments on one arm only", "")
			require.Equal(t, stages.Fail, c.State)
			require.Equal(t, 2.0, c.Demand.Value)
			require.Contains(t, c.Note, "segments "+at.names+" are on the "+at.arm+" only")
			for _, c := range list {
				if c.State != stages.NotEvaluated {
					require.Contains(t, c.Note, at.names, c.Name)
				}
			}
			require.Contains(t, pierCheck(t, list, "force in a tie", map[segmental.Rule]string{segmental.AASHTO: "service", segmental.EN: "characteristic"}[rule]).Note, at.names)
		}
		c := pierCheck(t, pierChecks(t, p, cantilever(8, 7), rule), "segments on one arm only", "")
		require.Equal(t, stages.Pass, c.State)
		require.Contains(t, c.Note, "segment L8 is on the left arm only")
	}
	// On rows of 3.6 m without ties they turn the cantilever over, too.
	for _, c := range pierChecks(t, pierOn(3.6), cantilever(6, 8), segmental.EN) {
		if c.Kind == limits.Overturning {
			require.Equal(t, stages.Fail, c.State, c.Note)
		}
	}
}

// A pier that is built in has the moment along and, added to it, that across which acts at
// once; without a permissible moment a document is asked for with all values.
func TestBuiltInPier(t *testing.T) {
	b := curved(lifting())
	c := pierCheck(t, pierChecks(t, builtIn(60e6), b, segmental.EN), "out-of-balance moment", "characteristic")
	spans, err := b.Range(segmental.EN, limits.EN1992{}, func(r segmental.Resultant) float64 { return r.Along - r.Across })
	require.NoError(t, err)
	require.InEpsilon(t, spans[0].Most.Value, c.Demand.Value, 1e-12)
	require.Equal(t, limits.Overturning, c.Kind)
	require.Equal(t, 60e6, c.Limit.Value)
	require.Contains(t, c.Note, "at once: V = ")
	require.Contains(t, c.Note, "M about the vertical = ±900 kN·m")
	list := pierChecks(t, builtIn(60e6), b, segmental.EN)
	require.Contains(t, pierCheck(t, list, "transverse moment and yaw", "").Note, "M about the vertical ±900 kN·m, characteristic")
	list = pierChecks(t, builtIn(0), b, segmental.AASHTO)
	require.Len(t, list, 2)
	q := pierCheck(t, list, "fixing of the deck, pier P4 and its footing", "")
	spans, err = b.Range(segmental.AASHTO, nil, along)
	require.NoError(t, err)
	for _, s := range spans {
		for _, e := range []segmental.Extreme{s.Least, s.Most} {
			require.Contains(t, q.Note, "M along = "+thousands(e.Along)+" kN·m")
		}
		require.Contains(t, q.Note, s.Combination)
	}
	require.Contains(t, q.Note, "M across max")
	require.NotContains(t, pierChecks(t, builtIn(0), lifting(), segmental.AASHTO)[1].Note, "M across max")
	// Along alone, straight: by hand 21,303.45 kN·m, whichever arm is the longer.
	for _, b := range []segmental.Balance{lifting(), mirrored(lifting())} {
		c = pierCheck(t, pierChecks(t, builtIn(60e6), b, segmental.AASHTO), "out-of-balance moment", "service")
		require.InEpsilon(t, 21303.45e3, c.Demand.Value, 1e-12)
		p := tiedPier(2.4)
		p.Moment = 20e6
		c = pierCheck(t, pierChecks(t, p, b, segmental.AASHTO), "out-of-balance moment", "service")
		require.InEpsilon(t, 21303.45e3, c.Demand.Value, 1e-12)
		require.Equal(t, stages.Fail, c.State)
		require.Empty(t, c.Kind, "rows answer overturning themselves")
	}
}

// thousands is a number in thousands, rounded.
func thousands(v float64) string { return fmt.Sprintf("%.0f", v/1e3) }

// What no field covers is asked for: rows without a permissible force, the pier below them, moments
// across and about the vertical.
func TestOpenQuestionsOfRows(t *testing.T) {
	p := pierOn(6)
	open := func(p segmental.Pier, b segmental.Balance) (names []string) {
		for _, c := range pierChecks(t, p, b, segmental.EN) {
			if c.State == stages.NotEvaluated {
				names = append(names, c.Name)
			}
		}
		return names
	}
	require.Equal(t, []string{"pier P3 and its footing"}, open(p, lifting()))
	p.Moment = 90e6
	require.Empty(t, open(p, lifting()))
	require.Equal(t, []string{"transverse moment and yaw at pier P3"}, open(p, curved(lifting())))
	p.Row = 0
	require.Equal(t, []string{"rows of bearings of pier P3"}, open(p, lifting()))
	c := pierCheck(t, pierChecks(t, p, curved(lifting()), segmental.EN), "transverse moment and yaw", "")
	require.Contains(t, c.Note, "±150 kN across at each row")
	c = pierCheck(t, pierChecks(t, p, lifting(), segmental.AASHTO), "rows of bearings", "")
	require.Contains(t, c.Note, "service, U + CLL + IE: 1766 to 8868 kN") // 10,634.28/2 ∓ 21,303.45/6
}

// The other way round all is the same with left for right.
func TestPierMirrored(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	for range 20 {
		b := anyBalance(random)
		for _, p := range []segmental.Pier{pierOn(3), tiedPier(3), builtIn(1e7)} {
			for _, rule := range []segmental.Rule{segmental.AASHTO, segmental.EN} {
				one, other := pierChecks(t, p, b, rule), pierChecks(t, p, mirrored(b), rule)
				require.Len(t, other, len(one))
				for i, c := range one {
					require.InDelta(t, c.Demand.Value-c.Limit.Value, other[i].Demand.Value-other[i].Limit.Value, 1e-9*(math.Abs(c.Demand.Value)+math.Abs(c.Limit.Value)), c.Name)
				}
			}
		}
	}
}

// The factor V·e/2M is the smallest of all corners, and so is every other answer of two rows.
func TestRowsAgainstEveryCorner(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 9))
	const e = 2.8
	for range 10 {
		b := anyBalance(random)
		own := func(p segmental.Part) ([2]float64, bool) { return hungOrNot(p), p.Kind == "" }
		least := math.Inf(1)
		corners(b, [2]float64{1, 1}, own, func(r segmental.Resultant) float64 {
			if r.Along != 0 {
				least = math.Min(least, r.Vertical*e/2/math.Abs(r.Along))
			}
			return 0
		})
		p := pierOn(e)
		list := pierChecks(t, p, b, segmental.EN)
		require.InEpsilon(t, least, pierCheck(t, list, "factor on the out-of-balance moment", "").Demand.Value, 1e-9)
		uplift := -corners(b, [2]float64{1, 1}, own, func(r segmental.Resultant) float64 { return math.Abs(r.Along)/e - r.Vertical/2 })
		require.InEpsilon(t, uplift, pierCheck(t, list, "uplift", "characteristic").Demand.Value, 1e-9)
		greatest := corners(b, [2]float64{1, 1}, own, func(r segmental.Resultant) float64 { return math.Abs(r.Along)/e + r.Vertical/2 })
		require.InEpsilon(t, greatest, pierCheck(t, list, "force of a row", "characteristic").Demand.Value, 1e-9)
		ties := corners(b, [2]float64{1, 1}, own, func(r segmental.Resultant) float64 {
			return math.Max(0, 1.5*math.Abs(r.Along)/e-r.Vertical/2)
		})
		require.InDelta(t, ties, pierCheck(t, pierChecks(t, tiedPier(e), b, segmental.EN), "ties for the wanted", "").Demand.Value, 1e-6)
	}
}

// reserves is true when no ruled check of a pier fails.
func reserves(t testing.TB, p segmental.Pier, b segmental.Balance, rule segmental.Rule) bool {
	for _, c := range pierChecks(t, p, b, rule) {
		if c.State == stages.Fail {
			return false
		}
	}
	return true
}

// heavier is the balance with another weight of the segment that is on one arm only.
func heavier(b segmental.Balance, weight float64) segmental.Balance {
	b.Parts = append([]segmental.Part(nil), b.Parts...)
	for i, p := range b.Parts {
		if p.Mark == b.Unbalanced {
			b.Parts[i].Force = weight
		}
	}
	return b
}

// Up to the weight at which to stop every check passes, beyond it one fails; the hold point
// is on the check that governs.
func TestStopWeight(t *testing.T) {
	b := lifting()
	attached := cantilever(8, 7)
	attached.Unbalanced = "L8"
	built := builtIn(45e6)
	for _, at := range []struct {
		p segmental.Pier
		b segmental.Balance
	}{{tiedPier(3.6), b}, {tiedPier(3.6), mirrored(b)}, {pierOn(7.5), b}, {pierOn(9), attached}, {built, b}, {built, attached}} {
		for _, rule := range []segmental.Rule{segmental.AASHTO, segmental.EN} {
			at.p.Row = 0
			if at.p.Rows == 0 {
				at.p = built
			}
			require.True(t, reserves(t, at.p, at.b, rule), "%+v", at.p)
			weight, check, err := at.p.StopWeight(at.b, rule, limits.EN1992{})
			require.NoError(t, err)
			require.Greater(t, weight, 630e3)
			require.True(t, reserves(t, at.p, heavier(at.b, weight*(1-1e-9)), rule), check)
			require.False(t, reserves(t, at.p, heavier(at.b, weight*(1+1e-9)), rule), check)
			held := 0
			for _, c := range pierChecks(t, at.p, at.b, rule) {
				if c.Hold == nil {
					continue
				}
				held++
				require.Equal(t, check, c.Name)
				require.True(t, c.Hold.AtMost)
				require.InEpsilon(t, weight, c.Hold.Required.Value, 1e-9)
				require.Equal(t, 630e3, c.Hold.Assumed.Value)
				require.Equal(t, "segment "+at.b.Unbalanced+" weighed", c.Hold.Kind)
				require.InEpsilon(t, weight, line(t, c, "W_stop"), 1e-9)
			}
			require.Equal(t, 1, held)
		}
	}
}

// By hand: built in, 45,000 kN·m, AASHTO strength: 1.1 × 2 % of the right arm and twice the segment
// at 27.25 m.
func TestStopWeightByHand(t *testing.T) {
	weight, check, err := builtIn(45e6).StopWeight(lifting(), segmental.AASHTO, nil)
	require.NoError(t, err)
	require.Equal(t, "out-of-balance moment of pier P4", check)
	require.InEpsilon(t, (45e6-1.1*0.02*7*630e3*13.25)/(2*27.25), weight, 1e-9)
	// A failing pier: the weight that it would carry; without one, words.
	weight, _, err = builtIn(30e6).StopWeight(lifting(), segmental.AASHTO, nil)
	require.NoError(t, err)
	require.InEpsilon(t, (30e6-1.1*0.02*7*630e3*13.25)/(2*27.25), weight, 1e-9)
	for _, c := range pierChecks(t, builtIn(30e6), lifting(), segmental.AASHTO) {
		require.Nil(t, c.Hold, "nothing is permitted where a check fails")
	}
	_, _, err = builtIn(1e6).StopWeight(lifting(), segmental.AASHTO, nil)
	require.ErrorContains(t, err, `fails at any weight of segment "R8"`)
	_, _, err = builtIn(0).StopWeight(lifting(), segmental.AASHTO, nil)
	require.ErrorContains(t, err, `no check limits the weight of segment "R8"`)
	_, _, err = builtIn(0).StopWeight(cantilever(8, 8), segmental.AASHTO, nil)
	require.ErrorContains(t, err, "Balance.Unbalanced is empty")
	_, _, err = builtIn(-1).StopWeight(lifting(), segmental.AASHTO, nil)
	require.ErrorContains(t, err, "Moment")
}

func TestPierRefuses(t *testing.T) {
	for says, change := range map[string]func(*segmental.Pier){
		"Pier.Mark is empty":           func(p *segmental.Pier) { p.Mark = " " },
		"field At = NaN m":             func(p *segmental.Pier) { p.At = math.NaN() },
		"field At = -1 m":              func(p *segmental.Pier) { p.At = -1 },
		"field Rows = 0.1 m":           func(p *segmental.Pier) { p.Rows = 0.1 },
		"field Rows = +Inf m":          func(p *segmental.Pier) { p.Rows = math.Inf(1) },
		"field Row = 500 N":            func(p *segmental.Pier) { p.Row = 500 },
		"field Moment = -1 N·m":        func(p *segmental.Pier) { p.Moment = -1 },
		"field Factor = 0.5":           func(p *segmental.Pier) { p.Factor = 0.5 },
		"field Ties.Number = 0":        func(p *segmental.Pier) { p.Ties.Number = 0 },
		"field Ties.Capacity = NaN N":  func(p *segmental.Pier) { p.Ties.Capacity = math.NaN() },
		"field Ties.Preload = 1.6e+06": func(p *segmental.Pier) { p.Ties.Preload = 1600e3 },
		"field Ties.Sudden = 0.5":      func(p *segmental.Pier) { p.Ties.Sudden = 0.5 },
		"field Ties.Document is empty": func(p *segmental.Pier) { p.Ties.Document = "" },
		"field Document is empty":      func(p *segmental.Pier) { p.Document = "" },
		"field Ties without Rows":      func(p *segmental.Pier) { p.Rows = 0 },
		"field Row = 1.5e+07 N without Rows": func(p *segmental.Pier) {
			p.Rows, p.Ties = 0, nil
		},
	} {
		p := tiedPier(3)
		change(&p)
		_, err := p.Checks(lifting(), segmental.AASHTO, nil)
		require.ErrorIs(t, err, segmental.ErrSegmental, says)
		require.ErrorContains(t, err, says)
	}
	_, err := pierOn(3).Checks(segmental.Balance{}, segmental.AASHTO, nil)
	require.ErrorContains(t, err, "Balance.Parts is empty")
	_, err = pierOn(3).Checks(lifting(), segmental.EN, nil)
	require.ErrorContains(t, err, "no standard")
}

// A standard without an answer leaves overturning open: its question is not evaluated.
func TestStandardWithoutFactors(t *testing.T) {
	list, err := pierOn(9).Checks(lifting(), segmental.EN, limits.All())
	require.NoError(t, err)
	c := pierCheck(t, list, "equilibrium of the cantilever", "")
	require.Equal(t, stages.NotEvaluated, c.State)
	require.Equal(t, limits.Overturning, c.Kind)
	require.Contains(t, c.Note, "the standard gives no factors for equilibrium")
}

// No moment, no factor: rows of a deck without any difference need no ties.
func TestNothingOutOfBalance(t *testing.T) {
	list := pierChecks(t, pierOn(3), cantilever(8, 8), segmental.EN)
	c := pierCheck(t, list, "ties for the wanted factor", "characteristic")
	require.Zero(t, c.Demand.Value)
	require.Equal(t, stages.Pass, c.State)
	require.Equal(t, formula.Newton, c.Limit.Unit)
}

// Whatever numbers a pier and a balance get, they are refused in words or give finite numbers.
func FuzzPier(f *testing.F) {
	f.Add(29.0, 3.6, 15e6, 0.0, 0.0, 6, 800e3, 1500e3, 0.0, 630e3, 27.25, 0.0, 0.9, 1.1, 0.0)
	f.Add(0.0, 0.0, 0.0, 1e7, 1.5, 0, 0.0, 0.0, 0.0, 1e9, -500.0, 3.0, 0.0, 3.0, 1e10)
	f.Add(1e5, 0.2, 1e3, 1e11, 5.0, 1, 0.0, 1e8, 3.0, 0.0, 0.0, -500.0, 0.0, 0.0, 1.0)
	f.Fuzz(func(t *testing.T, at, rows, row, moment, factor float64, ties int, preload, capacity, sudden, force, lever, across, least, most, yaw float64) {
		p := segmental.Pier{Mark: "P", At: at, Rows: rows, Row: row, Moment: moment, Factor: factor, Document: "d"}
		if ties != 0 {
			p.Ties = &segmental.Ties{Number: ties, Preload: preload, Capacity: capacity, Sudden: sudden, Document: "d"}
		}
		b := handled(crews(cantilever(2, 2)), "R2")
		b.Yaw, b.Unbalanced = yaw, "X"
		b.Parts = append(b.Parts, segmental.Part{Mark: "X", Arm: segmental.Right, Force: force, Lever: lever, Across: across, Least: least, Most: most},
			segmental.Part{Mark: "wind", Kind: limits.Wind, Arm: segmental.Left, Force: -force, Lever: -lever, Across: across, Least: -least, Most: most})
		for _, rule := range []segmental.Rule{segmental.AASHTO, segmental.EN} {
			list, err := p.Checks(b, rule, limits.EN1992{})
			if err != nil {
				require.ErrorIs(t, err, segmental.ErrSegmental)
				continue
			}
			require.NotEmpty(t, list)
			for _, c := range list {
				for _, v := range []float64{c.Demand.Value, c.Limit.Value, c.Margin, c.Utilisation, c.Scale.Value} {
					require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%s: %+v", c.Name, c.Check)
				}
				if c.Hold != nil {
					require.False(t, math.IsNaN(c.Hold.Required.Value) || math.IsInf(c.Hold.Required.Value, 0))
				}
			}
			weight, _, err := p.StopWeight(b, rule, limits.EN1992{})
			if err != nil {
				require.ErrorIs(t, err, segmental.ErrSegmental)
			} else {
				require.False(t, math.IsNaN(weight) || math.IsInf(weight, 0))
			}
		}
	})
}
