package tendon_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// layer is ten strands bonded all along and four that are sleeved more on the left.
func layer() tendon.Pretension {
	return tendon.Pretension{
		Mark: "bottom", Strand: tendon.Y1860S7x125, Groups: []tendon.Debonding{{Strands: 10}, {Strands: 4, Left: 3, Right: 2}},
		Elevation: tendon.Level(0, 26, 0.06), Plan: tendon.Level(0, 26, 0),
	}
}

// Where a strand is sleeved and where it is gripped.
func ExamplePretension_Released() {
	l, err := tendon.Transmission{Strand: tendon.Y1860S7x125, Stress: 1250e6, TensileMean: 2.7e6, Release: tendon.Gradual}.Length()
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := layer().Released(1250e6, l)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range []float64{0.4, 2, 3.4, 13} {
		least, most := f.Range(x)
		fmt.Printf("x = %4.1f m: %.0f kN, %.0f to %.0f kN\n", x, f.At(x)/1e3, least/1e3, most/1e3)
	}
	// Output:
	// x =  0.4 m: 632 kN, 526 to 789 kN
	// x =  2.0 m: 1162 kN, 1162 to 1162 kN
	// x =  3.4 m: 1415 kN, 1373 to 1478 kN
	// x = 13.0 m: 1628 kN, 1628 to 1628 kN
}

// Force by force against the sum over single strands, and linear between breaks.
func TestReleasedIsTheSumOfItsStrands(t *testing.T) {
	random := rand.New(rand.NewSource(3))
	for range 60 {
		p := layer()
		from, length := -2+4*random.Float64(), 4+20*random.Float64()
		p.Elevation, p.Plan = tendon.Level(from, from+length, 0.1), tendon.Level(from, from+length, 0.3)
		p.Groups = nil
		for range 1 + random.Intn(4) {
			p.Groups = append(p.Groups, tendon.Debonding{Strands: 1 + random.Intn(9), Left: 0.45 * length * random.Float64(), Right: 0.45 * length * random.Float64()})
		}
		basic := 0.3 + 2*random.Float64()
		l := tendon.TransmissionLength{Basic: basic, Short: 0.8 * basic, Long: 1.2 * basic}
		f, err := p.Released(1200e6, l)
		require.NoError(t, err)
		by := func(x, length float64) float64 {
			sum := 0.0
			for _, g := range p.Groups {
				share := math.Min((x-p.Elevation.From()-g.Left)/length, (p.Elevation.To()-g.Right-x)/length)
				sum += float64(g.Strands) * 93e-6 * 1200e6 * math.Min(1, math.Max(share, 0))
			}
			return sum
		}
		breaks := f.Breaks()
		for i := 1; i < len(breaks); i++ {
			a, b := breaks[i-1], breaks[i]
			x := a + (b-a)*random.Float64()
			least, most := f.Range(x)
			require.InDelta(t, by(x, l.Basic), f.At(x), 1e-3)
			require.InDelta(t, by(x, l.Long), least, 1e-3)
			require.InDelta(t, by(x, l.Short), most, 1e-3)
			require.InDelta(t, (f.At(a)+f.At(b))/2, f.At((a+b)/2), 1e-3, "linear between breaks")
			lines, err := f.Derivation(x, "_A")
			require.NoError(t, err)
			value, err := lines[0].Recompute()
			require.NoError(t, err)
			require.InDelta(t, f.At(x), value, 1e-3)
		}
		stress, at := f.Largest()
		require.InDelta(t, f.At(at), stress*f.Tendon.Area(), 1e-3)
		require.Zero(t, f.At(from-0.1)+f.At(from+length+0.1))
		half, err := f.Retained(0.5)
		require.NoError(t, err)
		require.InDelta(t, f.At(from+length/3)/2, half.At(from+length/3), 1e-3)
		least, most := f.Range(from + basic/3)
		halfLeast, halfMost := half.Range(from + basic/3)
		require.InDelta(t, least/2, halfLeast, 1e-3)
		require.InDelta(t, most/2, halfMost, 1e-3)
		lines, err := half.Derivation(from+length/3, "")
		require.NoError(t, err)
		require.InDelta(t, f.At(from+length/3)/2, lines[0].Result.Value, 1e-3)
	}
}

// Strands harped at two hold-downs: ends and hold-downs have the deviation by hand.
func TestHarpedStrandsPressOnTheirHoldDowns(t *testing.T) {
	p := layer()
	at := func(x, z float64) tendon.Point { return tendon.Point{X: x, Ordinate: z} }
	p.Elevation = tendon.Curve{tendon.Straight(at(0, 0.9), at(10, 0.1)), tendon.Straight(at(10, 0.1), at(26, 0.1))}
	p.Groups = p.Groups[:1]
	l := tendon.TransmissionLength{Basic: 0.8, Short: 0.64, Long: 0.96}
	_, err := p.Released(1200e6, l)
	require.ErrorContains(t, err, "pretension bottom: Elevation has a kink")
	p.Harped = true
	f, err := p.Released(1200e6, l)
	require.NoError(t, err)
	d := f.Deviations()
	require.Len(t, d, 1)
	require.InEpsilon(t, of(t)(tendon.HoldDown(10*93e-6*1200e6, -0.08, 0)), d[0].Z, 1e-12)
	require.Zero(t, f.Anchors()[0].Force, "handed over by bond, not by an anchor")
}

func TestPretensionRefuses(t *testing.T) {
	l := tendon.TransmissionLength{Basic: 1, Short: 0.8, Long: 1.2}
	for words, change := range map[string]func(*tendon.Pretension){
		"Mark is empty":                     func(p *tendon.Pretension) { p.Mark = "" },
		"Elevation has no piece":            func(p *tendon.Pretension) { p.Elevation = nil },
		"Plan runs from":                    func(p *tendon.Pretension) { p.Plan = tendon.Level(0, 20, 0) },
		"bottom: Strand.Area = 93 m²":       func(p *tendon.Pretension) { p.Strand.Area = 93 },
		"Groups is empty":                   func(p *tendon.Pretension) { p.Groups = nil },
		"Groups[0].Strands = 0: must be 1":  func(p *tendon.Pretension) { p.Groups = []tendon.Debonding{{}} },
		"Groups[0] sleeved 20 m and 6 m: m": func(p *tendon.Pretension) { p.Groups = []tendon.Debonding{{Strands: 1, Left: 20, Right: 6}} },
		"Groups[0] sleeved NaN m":           func(p *tendon.Pretension) { p.Groups = []tendon.Debonding{{Strands: 1, Left: math.NaN()}} },
	} {
		p := layer()
		change(&p)
		_, err := p.Released(1200e6, l)
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		require.ErrorContains(t, err, words)
	}
	for words, change := range map[string]func(stress *float64, l *tendon.TransmissionLength){
		"stress = NaN Pa":                   func(stress *float64, _ *tendon.TransmissionLength) { *stress = math.NaN() },
		"TransmissionLength.Basic = 0 m":    func(_ *float64, l *tendon.TransmissionLength) { l.Basic = 0 },
		"TransmissionLength.Short = 1.1 m":  func(_ *float64, l *tendon.TransmissionLength) { l.Short = 1.1 },
		"TransmissionLength.Long = 0.9 m: ": func(_ *float64, l *tendon.TransmissionLength) { l.Long = 0.9 },
	} {
		stress, lengths := 1200e6, l
		change(&stress, &lengths)
		_, err := layer().Released(stress, lengths)
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		require.ErrorContains(t, err, words)
	}
	f, err := layer().Released(1200e6, l)
	require.NoError(t, err)
	_, err = f.Restress(step("bottom", 1300e6, tendon.LeftEnd, 0))
	require.ErrorContains(t, err, "pretension bottom: Restress: must be a tendon in a duct")
	given := step("bottom", 1300e6, tendon.LeftEnd, 0)
	given.Given = &tendon.Given{Source: note, Forces: []tendon.Stated{{X: 0, Value: 1e6}, {X: 26, Value: 1e6}}}
	_, err = f.Restress(given)
	require.ErrorContains(t, err, "pretension bottom: Restress: must be a tendon in a duct")
	_, err = f.Elongation(tendon.Measuring{Tolerance: 0.05})
	require.ErrorIs(t, err, tendon.ErrTendon)
}

// What an engine asks at every station costs no allocation, whatever the force is.
func TestAskingAForceAllocatesNothing(t *testing.T) {
	released, err := layer().Released(1200e6, tendon.TransmissionLength{Basic: 1, Short: 0.8, Long: 1.2})
	require.NoError(t, err)
	given, err := draped().Jack(stated(tendon.Stated{X: 0, Value: 1.5e6}, tendon.Stated{X: 34, Value: 1.6e6}))
	require.NoError(t, err)
	for _, f := range []*tendon.Force{released, given, jack(t, draped(), tendon.BothEnds, 0.006), jack(t, external(0.2), tendon.LeftEnd, 0.006)} {
		require.Zero(t, testing.AllocsPerRun(20, func() {
			f.At(3.3)
			f.Range(3.3)
			f.AtJack(3.3)
			f.Path.Between(3.3)
		}), f.Tendon.Mark)
	}
}

func BenchmarkForceAt(b *testing.B) {
	released, err := layer().Released(1200e6, tendon.TransmissionLength{Basic: 1, Short: 0.8, Long: 1.2})
	require.NoError(b, err)
	jacked := jack(b, draped(), tendon.BothEnds, 0.006)
	for name, f := range map[string]*tendon.Force{"released": released, "jacked": jacked} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				f.At(3.3)
			}
		})
	}
}

// The steel that the concrete grips is the force over the stress; a tendon has none.
func TestGrippedArea(t *testing.T) {
	l := tendon.TransmissionLength{Basic: 1, Short: 0.8, Long: 1.2}
	f, err := layer().Released(1250e6, l)
	require.NoError(t, err)
	require.InEpsilon(t, 10*93e-6*0.25, f.Gripped(0.25), 1e-12)
	require.InEpsilon(t, (10+4*0.5)*93e-6, f.Gripped(3.5), 1e-12)
	require.InEpsilon(t, 14*93e-6, f.Gripped(13), 1e-12)
	require.InEpsilon(t, (10+4*0.4)*93e-6, f.Gripped(26-2.4), 1e-12)
	require.Zero(t, f.Gripped(26))
	other, err := continuous().Jack(step("C", 1300e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	require.Zero(t, other.Gripped(20))

	path, err := layer().Path()
	require.NoError(t, err)
	require.Equal(t, section.Point{Y: 0, Z: 0.06}, path.At(13))
	require.Equal(t, 14, layer().Tendon().Strands)
	none := layer()
	none.Groups = nil
	_, err = none.Path()
	require.ErrorContains(t, err, "pretension bottom: Groups is empty")
}
