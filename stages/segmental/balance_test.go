package segmental_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// cantilever is a deck of constant depth, 180 kN/m: a pier segment of 2 m, segments of 3.5 m
// on both arms, a lifting frame of 300 kN at each tip.
func cantilever(left, right int) segmental.Balance {
	b := segmental.Balance{Parts: []segmental.Part{{Mark: "PS", Arm: segmental.Middle, Force: 360e3}}}
	add := func(arm segmental.Arm, side float64, n int) {
		for k := range n {
			b.Parts = append(b.Parts, segmental.Part{Mark: fmt.Sprintf("%s%d", map[float64]string{-1: "L", 1: "R"}[side], k+1), Arm: arm, Force: 630e3, Lever: side * (1 + 3.5*(float64(k)+0.5))})
		}
		b.Parts = append(b.Parts, segmental.Part{Mark: "frame", Kind: limits.Equipment, Arm: arm, Force: 300e3, Lever: side * 25.5})
	}
	add(segmental.Left, -1, left)
	add(segmental.Right, 1, right)
	return b
}

// crews are 0.48 kPa on the right and 0.24 kPa on the left arm, 12 m wide.
func crews(b segmental.Balance) segmental.Balance {
	const area = 12 * 28
	b.Parts = append(b.Parts,
		segmental.Part{Mark: "CLL left", Kind: limits.Personnel, Arm: segmental.Left, Force: 240 * area, Lever: -15},
		segmental.Part{Mark: "CLL right", Kind: limits.Personnel, Arm: segmental.Right, Force: 480 * area, Lever: 15})
	return b
}

// handled marks a part as the segment on the lifting frame.
func handled(b segmental.Balance, mark string) segmental.Balance {
	b.Parts = append([]segmental.Part(nil), b.Parts...)
	for i := range b.Parts {
		b.Parts[i].Handled = b.Parts[i].Handled || b.Parts[i].Mark == mark
	}
	return b
}

var (
	along    = func(r segmental.Resultant) float64 { return r.Along }
	vertical = func(r segmental.Resultant) float64 { return r.Vertical }
)

// The eighth segment on one arm only: 17,167.5 kN·m by statics; in service with the crews and
// 10 % on the segment lifted 20,093.85 kN·m and 10,714.92 kN.
func TestOutOfBalanceByHand(t *testing.T) {
	b := crews(cantilever(7, 8))
	b.Unbalanced = "R8"
	nominal, err := cantilever(7, 8).Moment()
	require.NoError(t, err)
	require.InEpsilon(t, 17167.5e3, nominal, 1e-12)
	spans, err := handled(b, "R8").Range(segmental.AASHTO, nil, along)
	require.NoError(t, err)
	require.Len(t, spans, 2)
	require.Equal(t, "service, U + CLL + IE", spans[0].Combination)
	require.InEpsilon(t, 20093.85e3, spans[0].Most.Value, 1e-12)
	require.InEpsilon(t, 10714.92e3, spans[0].Most.Vertical, 1e-12)
	require.Equal(t, "R8", spans[0].Most.Largest)
	// Strength: 1.1 × 2 % of 7 segments at 13.25 m on the right arm, frames, the eighth twice.
	require.InEpsilon(t, 1.1*0.02*7*630e3*13.25+2*630e3*27.25, spans[1].Most.Value, 1e-12)
	require.Contains(t, spans[1].Most.Words, "segment R8 released or put on at once, 2 % more weight on the right arm")
	// Released, 630 kN act upwards: with 2 % more on the left arm.
	require.InEpsilon(t, -1.1*0.02*7*630e3*13.25-630e3*27.25, spans[1].Least.Value, 1e-12)
	require.Contains(t, spans[1].Most.Words, "released")
}

// Balanced arms in service have 2 % of the dead load of one arm: 1,512 kN·m.
func TestDifferenceOfWeightOfBalancedArms(t *testing.T) {
	b := cantilever(8, 8)
	for _, unbalanced := range []string{"", "L8"} { // a mark does not take it away where arms are alike
		b.Unbalanced = unbalanced
		spans, err := b.Range(segmental.AASHTO, nil, along)
		require.NoError(t, err)
		require.Equal(t, "service, DC + DIFF + CLL + IE", spans[0].Combination)
		require.InEpsilon(t, 1512e3, spans[0].Most.Value, 1e-12)
		require.InEpsilon(t, -1512e3, spans[0].Least.Value, 1e-12)
		require.Equal(t, "2 % more weight on the left arm", spans[0].Least.Words)
	}
}

// By EN 1.05 and 0.95 by arm, construction loads 1.35 where unfavourable and 1 where they help, being
// there: 10 % of 75,600 kN·m and 35 % of a frame.
func TestEquilibriumByArm(t *testing.T) {
	spans, err := cantilever(8, 8).Range(segmental.EN, limits.EN1992{}, along)
	require.NoError(t, err)
	require.Len(t, spans, 2)
	require.InDelta(t, 0, spans[0].Most.Value, 1e-3)
	require.InEpsilon(t, 0.1*75600e3+0.35*300e3*25.5, spans[1].Most.Value, 1e-12)
	require.Equal(t, limits.Equilibrium, spans[1].LimitState)
	// Vertical: everything 1.05 and 1.35, the frames once at the least.
	spans, err = cantilever(8, 8).Range(segmental.EN, limits.EN1992{}, vertical)
	require.NoError(t, err)
	require.InEpsilon(t, 1.05*10440e3+1.35*600e3, spans[1].Most.Value, 1e-12)
	require.InEpsilon(t, 0.95*10440e3+600e3, spans[1].Least.Value, 1e-12)
	// With a segment handled the accident is a combination of its own.
	spans, err = handled(cantilever(8, 8), "R8").Range(segmental.EN, limits.EN1992{}, along)
	require.NoError(t, err)
	require.Len(t, spans, 3)
	require.Equal(t, "accidental", spans[2].Combination)
	require.InEpsilon(t, -2*17167.5e3, spans[2].Least.Value, 1e-12, "released: a change of twice its weight")
	require.InEpsilon(t, 9780e3, spans[2].Least.Vertical, 1e-12)
	require.InEpsilon(t, 17167.5e3, spans[2].Most.Value, 1e-12, "put on at once")
}

// corners is the largest of a measure by trying every corner: one number for the weight of each arm,
// one for the factor of each arm, one for every other part.
func corners(b segmental.Balance, arm [2]float64, own func(segmental.Part) (r [2]float64, weight bool), measure func(segmental.Resultant) float64) float64 {
	marks := []segmental.Arm{segmental.Left, segmental.Middle, segmental.Right}
	n := 6
	bit := make([]int, len(b.Parts))
	for i, p := range b.Parts {
		for a, m := range marks {
			if m == p.Arm {
				bit[i] = 3 + a
			}
		}
		if _, weight := own(p); !weight || p.Handled {
			bit[i] = n
			n++
		}
	}
	worst := math.Inf(-1)
	for corner := range 1 << n {
		var r segmental.Resultant
		for i, p := range b.Parts {
			of, weight := own(p)
			factor := of[corner>>bit[i]&1]
			for a, m := range marks {
				if weight && m == p.Arm {
					factor *= arm[corner>>a&1]
				}
			}
			r.Vertical += factor * p.Force
			r.Along += factor * p.Force * p.Lever
			r.Across += factor * p.Force * p.Across
		}
		worst = math.Max(worst, measure(r))
	}
	return worst
}

// hungOrNot is the range of a part; a segment that is handled is on the frame or not yet.
func hungOrNot(p segmental.Part) [2]float64 {
	if p.Handled {
		return [2]float64{0, p.Most}
	}
	return [2]float64{p.Least, p.Most}
}

// anyBalance is a random one of few parts.
func anyBalance(random *rand.Rand) segmental.Balance {
	var b segmental.Balance
	tolerance := [2]float64{0.9 + 0.1*random.Float64(), 1 + 0.1*random.Float64()}
	for i := range 7 {
		side := float64(i%3) - 1
		p := segmental.Part{Mark: fmt.Sprint("S", i), Arm: []segmental.Arm{segmental.Left, segmental.Middle, segmental.Right}[i%3], Force: 1e6 * random.Float64(), Across: random.NormFloat64(), Least: tolerance[0], Most: tolerance[1]}
		p.Lever = side * 30 * random.Float64()
		if i%3 == 1 {
			p.Lever = random.NormFloat64()
		}
		b.Parts = append(b.Parts, p)
	}
	b.Parts[6].Handled, b.Parts[6].Least, b.Parts[6].Most = true, 0.9, 1.2
	for i, kind := range []limits.ActionKind{limits.Equipment, limits.Personnel, limits.Wind} {
		b.Parts = append(b.Parts, segmental.Part{Mark: string(kind), Kind: kind, Arm: segmental.Right, Force: 3e5 * random.NormFloat64(), Lever: 30 * random.Float64(), Least: []float64{1, 0, -1}[i], Most: 1})
	}
	return b
}

// Extremes of every combination are those of all corners.
func TestExtremesAgainstEveryCorner(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 3))
	times := func(r [2]float64, f float64) [2]float64 { return [2]float64{f * r[0], f * r[1]} }
	for range 12 {
		b := anyBalance(random)
		v, m, a := random.NormFloat64(), random.NormFloat64(), random.NormFloat64()
		for _, sign := range []float64{1, -1} {
			measure := func(r segmental.Resultant) float64 { return sign * (v*r.Vertical + m*r.Along + a*r.Across) }
			en, err := b.Range(segmental.EN, limits.EN1992{}, measure)
			require.NoError(t, err)
			require.Len(t, en, 3)
			near := func(want, got float64) { t.Helper(); require.InDelta(t, want, got, 1e-6) }
			near(corners(b, [2]float64{1, 1}, func(p segmental.Part) ([2]float64, bool) { return hungOrNot(p), p.Kind == "" }, measure), en[0].Most.Value)
			near(corners(b, [2]float64{0.95, 1.05}, func(p segmental.Part) ([2]float64, bool) {
				switch p.Kind {
				case "":
					return hungOrNot(p), true
				case limits.Wind:
					return [2]float64{-1.5, 1.5}, false
				}
				if p.Kind == limits.Equipment {
					return [2]float64{1, 1.35}, false
				}
				return [2]float64{0, 1.35}, false
			}, measure), en[1].Most.Value)
			near(corners(b, [2]float64{1, 1}, func(p segmental.Part) ([2]float64, bool) {
				switch {
				case p.Handled:
					return [2]float64{-1, 2}, false
				case p.Kind == "":
					return [2]float64{p.Least, p.Most}, true
				}
				return [2]float64{p.Least, 1}, false
			}, measure), en[2].Most.Value)
			american, err := b.Range(segmental.AASHTO, nil, measure)
			require.NoError(t, err)
			// Arms of two and three segments, none named as out of balance: DIFF on one arm.
			service, strength := math.Inf(-1), math.Inf(-1)
			for _, heavy := range []segmental.Arm{"", segmental.Left, segmental.Right} {
				for _, gamma := range []float64{1.1, 1} {
					more := func(p segmental.Part, f float64) [2]float64 {
						if p.Arm == heavy && !p.Handled && p.Kind == "" {
							f *= 1.02
						}
						return times(hungOrNot(p), f)
					}
					if gamma == 1.1 {
						service = math.Max(service, corners(b, [2]float64{1, 1}, func(p segmental.Part) ([2]float64, bool) {
							if p.Kind == limits.Wind {
								return [2]float64{-0.7, 0.7}, false
							}
							return more(p, 1), p.Kind == "" && !p.Handled
						}, measure))
					}
					if gamma == 1 && heavy != "" {
						continue // the minimum has no DIFF
					}
					strength = math.Max(strength, corners(b, [2]float64{1, 1}, func(p segmental.Part) ([2]float64, bool) {
						switch {
						case p.Handled:
							return [2]float64{-1, 2}, false
						case p.Kind == limits.Equipment:
							return times([2]float64{1, 1}, map[float64]float64{1.1: 1.3, 1: 1}[gamma]), false
						case p.Kind != "":
							return [2]float64{}, false
						}
						return more(p, gamma), true
					}, measure))
				}
			}
			near(service, american[0].Most.Value)
			near(strength, american[1].Most.Value)
			require.Equal(t, en[0].Least.Value, -b2(t, b, func(r segmental.Resultant) float64 { return -measure(r) }))
		}
	}
}

// b2 is the largest of a measure in the characteristic combination.
func b2(t *testing.T, b segmental.Balance, measure func(segmental.Resultant) float64) float64 {
	spans, err := b.Range(segmental.EN, limits.EN1992{}, measure)
	require.NoError(t, err)
	return spans[0].Most.Value
}

// With constant depth the resultant of k segments against k − 1, frames left out, is half a
// segment length off at every k; with depth that varies, true weights give another value.
func TestHalfSegmentRule(t *testing.T) {
	shift := func(k int, weight func(int) float64) float64 {
		b := cantilever(k-1, k)
		for i, p := range b.Parts {
			var number int
			if p.Kind != "" {
				b.Parts[i].Force = 0
			} else if _, err := fmt.Sscanf(p.Mark[1:], "%d", &number); err == nil {
				b.Parts[i].Force = weight(number)
			}
		}
		r, err := b.Nominal()
		require.NoError(t, err)
		return r.Along / r.Vertical
	}
	for k := 1; k <= 8; k++ {
		require.InEpsilon(t, 1.75, shift(k, func(int) float64 { return 630e3 }), 1e-12)
		lighter := shift(k, func(n int) float64 { return 630e3 * (1 - 0.08*float64(n)) }) // towards the tip
		if k > 1 {
			require.Less(t, lighter, 1.75*0.95)
		}
	}
}

func TestBalanceRefuses(t *testing.T) {
	good := cantilever(2, 2)
	for says, change := range map[string]func(*segmental.Balance){
		"Balance.Parts is empty":                            func(b *segmental.Balance) { b.Parts = nil },
		"Balance.Yaw = -1 N·m":                              func(b *segmental.Balance) { b.Yaw = -1 },
		"Balance.Unbalanced = \"R9\"":                       func(b *segmental.Balance) { b.Unbalanced = "R9" },
		"Balance.Unbalanced = \"PS\"":                       func(b *segmental.Balance) { b.Unbalanced = "PS" },
		"Balance.Unbalanced = \"frame\"":                    func(b *segmental.Balance) { b.Unbalanced = "frame" },
		"part 1 \"\": field Mark is empty":                  func(b *segmental.Balance) { b.Parts[0].Mark = "" },
		"field Arm = \"north\"":                             func(b *segmental.Balance) { b.Parts[0].Arm = "north" },
		"field Kind = \"snow\"":                             func(b *segmental.Balance) { b.Parts[0].Kind = "snow" },
		"field Kind = \"accidental\"":                       func(b *segmental.Balance) { b.Parts[0].Kind = limits.Accidental },
		"field Force = NaN N":                               func(b *segmental.Balance) { b.Parts[0].Force = math.NaN() },
		"field Force = -1 N":                                func(b *segmental.Balance) { b.Parts[0].Force = -1 },
		"field Lever = +Inf m":                              func(b *segmental.Balance) { b.Parts[0].Lever = math.Inf(1) },
		"field Across = NaN m":                              func(b *segmental.Balance) { b.Parts[0].Across = math.NaN() },
		"field Least = -0.1":                                func(b *segmental.Balance) { b.Parts[0].Least, b.Parts[0].Most = -0.1, 1 },
		"field Most = 3.5":                                  func(b *segmental.Balance) { b.Parts[0].Least, b.Parts[0].Most = 1, 3.5 },
		"Least must be at most Most":                        func(b *segmental.Balance) { b.Parts[0].Least, b.Parts[0].Most = 1.1, 1 },
		"field Lever = 2.75 m on the left arm":              func(b *segmental.Balance) { b.Parts[1].Lever *= -1 },
		"handled with Force = 360000 N on the pier segment": func(b *segmental.Balance) { b.Parts[0].Handled = true },
	} {
		b := good
		b.Parts = append([]segmental.Part(nil), good.Parts...)
		change(&b)
		_, err := b.Nominal()
		require.ErrorIs(t, err, segmental.ErrSegmental, says)
		require.ErrorContains(t, err, says)
		_, err = b.Range(segmental.AASHTO, nil, along)
		require.ErrorContains(t, err, says)
	}
	_, err := good.Range("both", nil, along)
	require.ErrorContains(t, err, `rule "both": must be`)
	_, err = good.Range(segmental.EN, nil, along)
	require.ErrorContains(t, err, "no standard")
	_, err = good.Range(segmental.AASHTO, nil, nil)
	require.ErrorContains(t, err, "no measure")
	var r segmental.Resultant
	_, _, err = r.Rows(0)
	require.ErrorContains(t, err, "distance of the rows = 0 m")
	_, err = r.Factor(math.NaN())
	require.ErrorContains(t, err, "distance of the rows")
	_, err = r.Tie(math.Inf(1), 1)
	require.ErrorContains(t, err, "distance of the rows")
	_, err = r.Factor(3)
	require.ErrorContains(t, err, "other than 0")
}
