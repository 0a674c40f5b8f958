package launching_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

func only(v float64) launching.Range { return launching.Range{Least: v, Most: v} }

func either(v float64) launching.Range { return launching.Range{Least: -v, Most: v} }

// Half of a span of 970 t on bearings 0.75 m behind the middle, nothing on the other side.
func TestOneSpanOnItsSide(t *testing.T) {
	h := launching.PierHead{Mark: "P8", Forces: []launching.HeadForce{{Mark: "span E-07", X: -0.75, Down: only(4758e3)}}}
	r, err := h.Resultants()
	require.NoError(t, err)
	require.InDelta(t, -3568.5e3, r.MomentAlong.Least.MomentAlong, 1)
	require.Equal(t, "span E-07", r.MomentAlong.Least.Governs)
	require.Equal(t, 4758e3, r.Down.Most.Down)
	require.InEpsilon(t, 0.025*4758e3, r.Across.Most.Across, 1e-12, "nominal")
}

// A head with a span, a leg and brakes in plain arithmetic: the moment back is largest with
// the span heavy, the leg light and brakes back, and 1 % of the vertical force beside them.
func TestPierHeadByHand(t *testing.T) {
	h := launching.PierHead{
		Mark: "P8", NominalAt: 2.2, Base: [2]float64{3.2, 5},
		Forces: []launching.HeadForce{
			{Mark: "span", X: -0.8, Y: 0.1, Z: 0.5, Down: launching.Range{Least: 3.6e6, Most: 4.1e6}},
			{Mark: "leg", X: 0.6, Y: -0.2, Z: 0.3, Down: launching.Range{Least: 0.9e6, Most: 2.4e6}, Across: either(60e3), Turn: either(350e3)},
			{Mark: "braking", Y: 0, Z: 2.9, Along: either(150e3)},
		},
	}
	r, err := h.Resultants()
	require.NoError(t, err)
	back := r.MomentAlong.Least
	require.InEpsilon(t, -(4.1e6*0.8 - 0.9e6*0.6 + 150e3*2.9 + 0.01*5.0e6*2.2), back.MomentAlong, 1e-12)
	require.InEpsilon(t, 5.0e6, back.Down, 1e-12)
	require.InEpsilon(t, -150e3-0.01*5.0e6, back.Along, 1e-12)
	require.Equal(t, "span", back.Governs)
	front := r.MomentAlong.Most
	require.InEpsilon(t, 2.4e6*0.6-3.6e6*0.8+150e3*2.9+0.01*6.0e6*2.2, front.MomentAlong, 1e-12)
	require.Equal(t, "leg", front.Governs)
	left := r.MomentAcross.Most
	require.InEpsilon(t, 4.1e6*0.1-0.9e6*0.2+350e3+0.025*5.0e6*2.2, left.MomentAcross, 1e-12, "2.5 % alone: 275 kN·m are more than 18 and 1 %, 110 kN·m")
	require.InEpsilon(t, 0.025*5.0e6, left.Across, 1e-12)
	require.Equal(t, "span", left.Governs)
	require.InEpsilon(t, 4.5e6, r.Down.Least.Down, 1e-12)
}

// The extremes are those of every corner of all parts, with the nominal force either way.
func TestPierHeadAgainstEveryCorner(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 8))
	value := func(most float64) launching.Range {
		a, b := most*(2*random.Float64()-1), most*(2*random.Float64()-1)
		return launching.Range{Least: math.Min(a, b), Most: math.Max(a, b)}
	}
	for range 60 {
		h := launching.PierHead{Mark: "P", NominalAt: 3 * random.Float64(), Base: [2]float64{2 + random.Float64(), 3 + random.Float64()}}
		for i := range 3 {
			f := launching.HeadForce{Mark: fmt.Sprint(i), X: 2*random.Float64() - 1, Y: 2*random.Float64() - 1, Z: 4 * random.Float64(), Along: value(2e5), Across: value(2e5), Turn: value(3e5)}
			f.Down.Least = 4e6 * random.Float64()
			f.Down.Most = f.Down.Least + 2e6*random.Float64()
			h.Forces = append(h.Forces, f)
		}
		most := map[string]float64{"V": math.Inf(-1), "Mx": math.Inf(-1), "-Mx": math.Inf(-1), "My": math.Inf(-1), "-My": math.Inf(-1), "Hx": math.Inf(-1)}
		kern, at := math.Inf(1), 0.0
		for corner := range 1 << 12 {
			for _, share := range []float64{0.025, 0.01} {
				for _, ahead := range []bool{true, false} { // direction of the nominal force
					var v, hx, mx, my float64
					for i, f := range h.Forces {
						pick := func(bit int, r launching.Range, known bool) float64 {
							switch {
							case known && share == 0.025:
								return math.Max(r.Least, math.Min(r.Most, 0))
							case corner>>(4*i+bit)&1 == 1:
								return r.Most
							}
							return r.Least
						}
						d, a, c, turn := pick(0, f.Down, false), pick(1, f.Along, ahead), pick(2, f.Across, !ahead), pick(3, f.Turn, false)
						v, hx = v+d, hx+a
						mx, my = mx+d*f.X+a*f.Z, my+d*f.Y+c*f.Z+turn
					}
					for _, sense := range []float64{1, -1} {
						mx, my, hx := mx, my, hx
						if ahead {
							mx, hx = mx+sense*share*v*h.NominalAt, hx+sense*share*v
						} else {
							my += sense * share * v * h.NominalAt
						}
						for key, value := range map[string]float64{"V": v, "Mx": mx, "-Mx": -mx, "My": my, "-My": -my, "Hx": hx} {
							if (key[len(key)-1] == 'x') == ahead || key == "V" {
								most[key] = math.Max(most[key], value)
							}
						}
						if reserve := v - 6*math.Abs(mx)/h.Base[0] - 6*math.Abs(my)/h.Base[1]; reserve < kern {
							kern, at = reserve, v
						}
					}
				}
			}
		}
		r, err := h.Resultants()
		require.NoError(t, err)
		require.InEpsilon(t, most["V"], r.Down.Most.Down, 1e-12)
		require.InEpsilon(t, most["Mx"], r.MomentAlong.Most.MomentAlong, 1e-9)
		require.InEpsilon(t, -most["-Mx"], r.MomentAlong.Least.MomentAlong, 1e-9)
		require.InEpsilon(t, most["My"], r.MomentAcross.Most.MomentAcross, 1e-9)
		require.InEpsilon(t, -most["-My"], r.MomentAcross.Least.MomentAcross, 1e-9)
		require.InEpsilon(t, most["Hx"], r.Along.Most.Along, 1e-9)
		s := run(t, launching.OnPier(stages.Seat{Age: 30, On: bearings()}, h)).Stages[1].Situations[0]
		c := find(t, s, "resultant in the base of a pier head")
		require.InEpsilon(t, kern, c.Margin, 1e-9)
		require.InEpsilon(t, at, c.Limit.Value, 1e-9)
	}
}

// The reactions of the bearings on a pier head and the leg of a gantry on it are in its
// checks; what it must carry is left to a document.
func TestBearingsAndALegOnAPier(t *testing.T) {
	l := launch(rolling(20))
	l.Positions[0].Roll, l.Positions[0].Shift, l.Positions[0].CrossFall = 0, 0.05, 0.01
	feet, err := l.Gantry.Across(l.Positions[0])
	require.NoError(t, err)
	leg := feet[1].OnHead(34.5, 0.4)
	require.InDelta(t, -1.5, leg.X, 1e-12)
	require.Equal(t, launching.Range{Least: feet[1].Force.Least, Most: feet[1].Force.Most}, leg.Down)
	require.InEpsilon(t, (feet[1].Foot.Most-feet[1].Force.Most/2)*5, leg.Turn.Most, 1e-9, "the couple by which a foot gets more than half")
	require.Equal(t, -feet[1].Along, leg.Along.Least)
	head := launching.PierHead{Mark: "P8", At: 34.5, Bearings: []int{3, 4}, BearingsAt: 0.6, NominalAt: 2, Base: [2]float64{4.6, 5}, Forces: []launching.HeadForce{leg}}
	s := run(t, launching.OnPier(stages.Seat{Age: 30, On: bearings()}, head)).Stages[1].Situations[0]
	seated := s.Reactions[2].Characteristic.Most + s.Reactions[3].Characteristic.Most
	var note string
	for _, c := range s.Checks {
		if c.Kind == limits.LocalForce {
			note = c.Note
		}
	}
	down := leg.Down.Most + seated
	moment := leg.Down.Most*1.5 + seated*1.2
	moment += math.Max(feet[1].Along*0.4+0.01*down*2, 0.025*down*2)
	require.Contains(t, note, fmt.Sprintf("for %.0f kN down", math.Ceil(down/1e3)))
	require.Contains(t, note, fmt.Sprintf("%.0f kN·m along", math.Ceil(moment/1e3)))
	head.Bearings = []int{5}
	_, err = stages.Plan{launching.OnPier(stages.Seat{Age: 30, On: bearings()}, head)}.Run(span(t), limits.EN1992{})
	require.ErrorContains(t, err, "has number 5: must be 1 to 4")
}

// What is not as it must be is refused in words.
func TestRefusedPierHeads(t *testing.T) {
	for words, h := range map[string]launching.PierHead{
		"field PierHead.Mark is empty":                {},
		"must have Forces or Bearings":                {Mark: "P8"},
		"field PierHead.Base[1] = 0 m":                {Mark: "P8", Base: [2]float64{3, 0}, Forces: make([]launching.HeadForce, 1)},
		"field PierHead.Forces[0].Mark is empty":      {Mark: "P8", Forces: make([]launching.HeadForce, 1)},
		"field PierHead.Forces[0].Down.Most = 2 N":    {Mark: "P8", Forces: []launching.HeadForce{{Mark: "a", Down: launching.Range{Least: 3, Most: 2}}}},
		"field PierHead.Forces[0].Z = -1 m":           {Mark: "P8", Forces: []launching.HeadForce{{Mark: "a", Z: -1}}},
		"field PierHead.NominalAt = NaN m":            {Mark: "P8", NominalAt: math.NaN(), Forces: []launching.HeadForce{{Mark: "a"}}},
		"field PierHead.Forces[0].Turn.Least = NaN N": {Mark: "P8", Forces: []launching.HeadForce{{Mark: "a", Turn: launching.Range{Least: math.NaN(), Most: 2}}}},
	} {
		_, err := h.Resultants()
		require.ErrorIs(t, err, launching.ErrLaunching, words)
		require.ErrorContains(t, err, words)
	}
}
