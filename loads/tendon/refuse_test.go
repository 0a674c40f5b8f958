package tendon_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

func TestTendonRefuses(t *testing.T) {
	at := func(x, z float64) tendon.Point { return tendon.Point{X: x, Ordinate: z} }
	for name, c := range map[string]struct {
		change func(*tendon.Tendon)
		words  string
	}{
		"mark":     {func(t *tendon.Tendon) { t.Mark = "" }, "Mark"},
		"area":     {func(t *tendon.Tendon) { t.Strand.Area = 150 }, "Strand.Area = 150 m²"},
		"fpk":      {func(t *tendon.Tendon) { t.Strand.Fpk = math.NaN() }, "Strand.Fpk"},
		"fp01k":    {func(t *tendon.Tendon) { t.Strand.Fp01k = 2000e6 }, "Strand.Fp01k"},
		"modulus":  {func(t *tendon.Tendon) { t.Strand.Modulus = 195 }, "Strand.Modulus"},
		"strands":  {func(t *tendon.Tendon) { t.Strands = 0 }, "Strands"},
		"duct":     {func(t *tendon.Tendon) { t.Duct = 0.04 }, "Duct"},
		"friction": {func(t *tendon.Tendon) { t.Friction = -0.1 }, "Friction"},
		"wobble":   {func(t *tendon.Tendon) { t.Wobble = math.Inf(1) }, "Wobble"},
		"strength": {func(t *tendon.Tendon) { t.Approval.MeanStrength = 0 }, "Approval.MeanStrength"},
		"no piece": {func(t *tendon.Tendon) { t.Elevation = nil }, "Elevation has no piece"},
		"no plan":  {func(t *tendon.Tendon) { t.Plan = nil }, "Plan has no piece"},
		"plan":     {func(t *tendon.Tendon) { t.Plan = tendon.Level(0, 33, 0) }, "Plan runs from"},
		"nan":      {func(t *tendon.Tendon) { t.Elevation[1].Slope = math.NaN() }, "finite"},
		"far":      {func(t *tendon.Tendon) { t.Elevation = tendon.Level(0, 34, 2000) }, "beyond"},
		"steep":    {func(t *tendon.Tendon) { t.Elevation[0].Slope = 3 }, "slope of 3"},
		"empty":    {func(t *tendon.Tendon) { t.Elevation = tendon.Level(3, 3, 1) }, "beyond From"},
		"gap": {func(t *tendon.Tendon) {
			t.Elevation = tendon.Curve{tendon.Straight(at(0, 1), at(10, 1)), tendon.Straight(at(10.1, 1), at(34, 1))}
		}, "piece 2 starts at x = 10.1 m"},
		"jump": {func(t *tendon.Tendon) {
			t.Elevation = tendon.Curve{tendon.Straight(at(0, 1), at(10, 1)), tendon.Straight(at(10, 1.05), at(34, 1.05))}
		}, "jumps by 0.05 m at x = 10 m"},
		"kink": {func(t *tendon.Tendon) {
			t.Elevation = tendon.Curve{tendon.Straight(at(0, 1), at(10, 0.5)), tendon.Straight(at(10, 0.5), at(34, 1))}
		}, "kink"},
	} {
		tn := draped()
		c.change(&tn)
		_, err := tn.Path()
		require.ErrorIs(t, err, tendon.ErrTendon, name)
		require.ErrorContains(t, err, c.words, name)
		require.ErrorContains(t, err, "must ", name)
		_, err = tn.Jack(tendon.Jacking{Tendons: []string{"D"}, Stress: 1400e6, Ends: tendon.LeftEnd})
		require.ErrorIs(t, err, tendon.ErrTendon, name)
	}
}

func TestJackingRefuses(t *testing.T) {
	good := tendon.Jacking{Tendons: []string{"D"}, Stress: 1400e6, Ends: tendon.LeftEnd}
	for words, change := range map[string]func(*tendon.Jacking){
		"Jacking.Tendons":      func(j *tendon.Jacking) { j.Tendons = nil },
		"Jacking.Stress = NaN": func(j *tendon.Jacking) { j.Stress = math.NaN() },
		"Jacking.Stress = 0":   func(j *tendon.Jacking) { j.Stress = 0 },
		"Jacking.Ends":         func(j *tendon.Jacking) { j.Ends = 0 },
		"DrawIn = -0.001 m":    func(j *tendon.Jacking) { j.DrawIn = -0.001 },
		"DrawIn = NaN m":       func(j *tendon.Jacking) { j.DrawIn = math.NaN() },
	} {
		j := good
		change(&j)
		_, err := draped().Jack(j)
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		require.ErrorContains(t, err, words)
	}
	for _, ends := range []tendon.Ends{tendon.LeftEnd, tendon.RightEnd, tendon.BothEnds} {
		_, err := straight(2, 0.2, 0.005).Jack(tendon.Jacking{Tendons: []string{"S"}, Stress: 1000e6, Ends: ends, DrawIn: 0.02})
		require.ErrorContains(t, err, "takes the whole force")
	}
	require.Equal(t, "both ends", tendon.BothEnds.String())
	require.Equal(t, "not stated", tendon.Ends(0).String())
}

func FuzzJack(f *testing.F) {
	f.Add(1.6, 3.0, 0.3, 13.0, 34.0, 0.19, 0.005, 0.006, 1)
	f.Add(1.6, 1.875, 46.4625, 79.0, 992.0, 0.76, 0.09, 3.125e-05, 3) // friction over 68 powers of e
	f.Fuzz(func(t *testing.T, anchor, tangent, low, lowAt, length, friction, wobble, drawIn float64, ends int) {
		tn := straight(34, friction, wobble)
		tn.Elevation = tendon.Drape(tendon.Point{X: 0, Ordinate: anchor}, tangent, tendon.Point{X: lowAt, Ordinate: low}, length)
		tn.Plan = tendon.Level(0, length, 0)
		force, err := tn.Jack(tendon.Jacking{Tendons: []string{"S"}, Stress: 1400e6, Ends: tendon.Ends(ends), DrawIn: drawIn})
		if err != nil {
			require.ErrorIs(t, err, tendon.ErrTendon)
			return
		}
		for _, x := range force.Breaks() {
			require.False(t, math.IsNaN(force.At(x)) || force.At(x) < 0 || force.At(x) > 1400e6*1800e-6*1.000001)
		}
	})
}

func BenchmarkJack(b *testing.B) {
	tn := draped()
	j := tendon.Jacking{Tendons: []string{"D"}, Stress: 1400e6, Ends: tendon.BothEnds, DrawIn: 0.006}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := tn.Jack(j); err != nil {
			b.Fatal(err)
		}
	}
}

// A coefficient that is left out is not one of 0: that is stated on purpose.
func TestFrictionIsStated(t *testing.T) {
	pull := tendon.Jacking{Tendons: []string{"S"}, Stress: 1300e6, Ends: tendon.LeftEnd}
	for name, c := range map[string]struct {
		change func(*tendon.Tendon)
		want   string
	}{
		"no friction":      {func(n *tendon.Tendon) { n.Friction, n.NoFriction = 0, false }, "Friction is not stated: must be above 0 1/rad, or NoFriction"},
		"no wobble":        {func(n *tendon.Tendon) { n.Wobble, n.NoWobble = 0, false }, "Wobble is not stated: must be above 0 rad/m, or NoWobble"},
		"both of friction": {func(n *tendon.Tendon) { n.NoFriction = true }, "Friction = 0.19 1/rad and NoFriction: must be one or the other"},
		"both of wobble":   {func(n *tendon.Tendon) { n.NoWobble = true }, "Wobble = 0.005 rad/m and NoWobble: must be one or the other"},
	} {
		s := straight(20, 0.19, 0.005)
		c.change(&s)
		_, err := s.Jack(pull)
		require.ErrorIs(t, err, tendon.ErrTendon, name)
		require.ErrorContains(t, err, c.want, name)
	}
	free := straight(20, 0, 0)
	free.NoWobble = false // there is none without friction
	f, err := free.Jack(pull)
	require.NoError(t, err)
	require.Equal(t, f.At(0), f.At(20))
}

// A jacking is of the tendons that it names.
func TestJackingOfAnotherTendonIsRefused(t *testing.T) {
	pull := tendon.Jacking{Tendons: []string{"S"}, Stress: 1300e6, Ends: tendon.LeftEnd}
	other := tendon.Jacking{Tendons: []string{"A", "B"}, Stress: 1400e6, Ends: tendon.LeftEnd}
	s := straight(20, 0.19, 0.005)
	_, err := s.Jack(other)
	require.ErrorIs(t, err, tendon.ErrTendon)
	require.ErrorContains(t, err, "Jacking.Tendons [A B]: must name tendon S")
	f, err := s.Jack(pull)
	require.NoError(t, err)
	_, err = f.Restress(other)
	require.ErrorContains(t, err, "must name tendon S")
	other.Stress = 800e6
	_, err = f.Detension(other)
	require.ErrorContains(t, err, "must name tendon S")
}
