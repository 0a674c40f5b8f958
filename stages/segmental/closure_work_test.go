package segmental

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// work is the closure of the deck of two cantilevers.
func work() ClosureWork {
	method := formula.Source{Document: "method statement E-12", Place: "closures"}
	return ClosureWork{
		Closure: "C", Lock: Lock{Force: 400e3, Moment: 10e6, Tension: 3e6, Compression: 4e6, Document: "lock L-3"}, Level: 0.01, Angle: 0.001, Surveyed: &Tips{Level: -0.006, Angle: 0.0004},
		Along:       Along{Stiffness: [2]float64{60e6, 90e6}, Wind: 120e3, Shortening: 0.002},
		Temperature: Temperature{Colder: 12, Warmer: 8, WarmTop: 6, ColdTop: 3, Source: formula.Source{Document: "EN 1991-1-5:2003", Place: "6.1.4", Confirm: true}},
		Strength:    25e6, Stressed: 62, Tensile: 3, Source: method,
	}
}

// closureChecks are the checks of the pour and of the closing, by their names.
func closureChecks(t testing.TB, d Deck, w ClosureWork, on []stages.Support) (map[string]stages.Check, stages.Record) {
	t.Helper()
	steps := built()
	d.Closures = []ClosureWork{w}
	plan, err := d.Plan(on, steps...)
	require.NoError(t, err)
	n := len(plan)
	g, err := d.Girder()
	require.NoError(t, err)
	record, err := plan.Run(g, limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, record.Check())
	list := map[string]stages.Check{}
	for _, s := range record.Stages[n-2:] {
		for _, c := range s.Situations[0].Checks {
			if c.Place == "closure "+w.Closure {
				list[c.Name] = c
			}
		}
	}
	return list, record
}

// The checks of the pour and the closing by hand: arms of 14 m to the tips, 15 m to the middle
// of the closure, one section.
func TestClosureWorkByHand(t *testing.T) {
	mix := concrete.EN1992{Fck: 45e6, Cement: concrete.ClassN}
	modulus := func(day float64) float64 {
		s, err := mix.At(day)
		require.NoError(t, err)
		return s.Modulus
	}
	w := work()
	got, record := closureChecks(t, twoCantilevers(t, nil), w, fixedPiers())
	require.Len(t, got, 11)
	ei := modulus(49.9) * ownInertia
	kv, kt := ei/(2*(15*15*15-1)/3.), ei/28
	bent := 10e-6 / 2 * 30 // α·l/h for 1 K
	for name, want := range map[string][2]float64{
		"difference of level of the tips of closure C": {0.006, 0.01},
		"difference of slope of the tips of closure C": {0.0004, 0.001},
		"shear of the lock of closure C":               {kv * 0.006, 400e3},
		"moment of the lock of closure C":              {kt * (0.0004 + 6*bent), 10e6},
		"tension along of the lock of closure C":       {36e6*(10e-6*12*30+0.002) + 120e3, 3e6},
		"compression along of the lock of closure C":   {36e6*10e-6*8*30 + 120e3, 4e6},
		"temperature window of closure C, fall":        {12, ((3e6-120e3)/36e6 - 0.002) / (10e-6 * 30)},
		"temperature window of closure C, rise":        {8, (4e6 - 120e3) / 36e6 / (10e-6 * 30)},
	} {
		c, ok := got[name]
		require.True(t, ok, name)
		require.InEpsilon(t, want[0], c.Demand.Value, 1e-6, name)
		require.InEpsilon(t, want[1], c.Limit.Value, 1e-6, name)
		require.Equal(t, stages.Pass, c.State, name)
	}
	// Hardened: the modulus of day 60, no lock; a warm top pulls the bottom, a cold one the top.
	force := 36e6*(10e-6*12*30+0.002) + 120e3
	young, err := mix.At(3)
	require.NoError(t, err)
	for name, kelvin := range map[string]float64{"tension at the bottom of closure C before tendons act": 6, "tension at the top of closure C before tendons act": 3} {
		c := got[name]
		moment := modulus(60) * ownInertia / 28 * kelvin * bent
		require.InEpsilon(t, force/6+moment*1/ownInertia, c.Demand.Value, 1e-6, name)
		require.InEpsilon(t, young.TensileMean, c.Limit.Value, 1e-9, name)
	}
	at, err := mix.At(12)
	require.NoError(t, err)
	c := got["strength of closure C at first stressing"]
	require.InEpsilon(t, at.Characteristic, c.Demand.Value, 1e-9)
	require.InEpsilon(t, 25e6, c.Limit.Value, 1e-9)
	held := map[string]bool{}
	for _, s := range record.Stages {
		for _, h := range s.Situations[0].HoldPoints {
			held[h.Kind] = true
		}
	}
	for _, kind := range []string{
		"difference of level of the tips of closure C, surveyed at dawn before the lock is fixed", "difference of slope of the tips of closure C, surveyed at dawn before the lock is fixed",
		"fall of the mean temperature of the deck from fixing the lock of closure C until its tendons act", "rise of the mean temperature of the deck from fixing the lock of closure C until its tendons act",
		"characteristic cylinder strength of closure C when its first tendons are stressed",
	} {
		require.True(t, held[kind], kind)
	}
}

// Where bearings slide before the piers have been bent, friction is the force along, that of
// the part that slides first; then no temperature brings more.
func TestClosureSlides(t *testing.T) {
	w := work()
	w.Along.Friction = [2]float64{0.045, 0.04}
	got, _ := closureChecks(t, twoCantilevers(t, nil), w, fixedPiers())
	c := got["tension along of the lock of closure C"]
	weight := ownWeight * 29.0
	require.InEpsilon(t, 0.04*weight+120e3, c.Demand.Value, 1e-6)
	require.Contains(t, c.Note, "bearings slide first")
	require.NotContains(t, got, "temperature window of closure C, fall")
	w.Along.Friction[1] = 0 // the right part is held
	got, _ = closureChecks(t, twoCantilevers(t, nil), w, fixedPiers())
	require.InEpsilon(t, 0.045*weight+120e3, got["tension along of the lock of closure C"].Demand.Value, 1e-6)
	w.Along.Friction[0] = 0.3
	got, _ = closureChecks(t, twoCantilevers(t, nil), w, fixedPiers())
	require.InEpsilon(t, 36e6*(10e-6*12*30+0.002)+120e3, got["tension along of the lock of closure C"].Demand.Value, 1e-6, "friction is not overcome")
}

// Arms that differ: the forces of the lock close the difference of level and slope exactly, by
// the stiffness method with both forces on the tips; without a survey the difference is that of
// the movements and the casting curve.
func TestLockOfArmsThatDiffer(t *testing.T) {
	d := twoCantilevers(t, nil)
	for i := range d.Segments { // the right cantilever is longer towards the closure
		if d.Segments[i].Element.Mark == "BL2" {
			d.Segments[i].Element.Length = 9
		}
	}
	on := fixedPiers()
	on[1].X = 47
	w := work()
	w.Surveyed, w.Camber, w.Level, w.Angle = nil, Tips{Level: 0.012, Angle: -0.001}, 0.2, 0.02
	w.Lock.Stiffness, w.Lock.RotationStiffness = 800e6, 5e9
	got, _ := closureChecks(t, d, w, on)
	mix := concrete.EN1992{Fck: 45e6, Cement: concrete.ClassN}
	modulus := func(day float64) float64 {
		s, err := mix.At(day)
		require.NoError(t, err)
		return s.Modulus
	}
	// Tips by hand, each load with the modulus of its day: 12 m at the pier side first.
	tip := func(arm, last float64) (down, slope float64) {
		inner := arm - last
		for _, of := range []struct{ day, from, to float64 }{{30, 0, inner}, {31, inner, arm}} {
			const parts = 4000
			for i := range parts { // unit load, midpoints
				x := arm * (float64(i) + 0.5) / parts
				m := 0.0
				if x < of.to {
					a := max(0, of.from-x)
					m = ownWeight * ((of.to-x)*(of.to-x) - a*a) / 2
				}
				down += m * (arm - x) / (modulus(of.day) * ownInertia) * arm / parts
				slope += m / (modulus(of.day) * ownInertia) * arm / parts
			}
		}
		wet := ownWeight / (modulus(49.9) * ownInertia)
		return down + wet*arm*arm*arm/3, slope + wet*arm*arm/2
	}
	leftDown, leftSlope := tip(14, 6)
	rightDown, rightSlope := tip(17, 9)
	level := -(rightDown + rightSlope*1) + (leftDown + leftSlope*1) + 0.012
	angle := rightSlope + leftSlope - 0.001
	// The duct takes 0.07 % of I in the last segments.
	require.InDelta(t, -level, got["difference of level of the tips of closure C"].Demand.Value, 1e-4*rightDown)
	require.InDelta(t, angle, got["difference of slope of the tips of closure C"].Demand.Value, 2e-4*rightSlope)
	level, angle = -got["difference of level of the tips of closure C"].Demand.Value, got["difference of slope of the tips of closure C"].Demand.Value
	// Force method: V and M on both arms and the lock close both.
	ei := modulus(49.9) * ownInertia
	fv := (15*15*15-1+18*18*18-1)/3./ei + 1/800e6
	ft := (14+17)/ei + 1/5e9
	fc := (15*15 - 18*18) / 2. / ei
	bent := func(kelvin float64) (float64, float64) {
		return -10e-6 * kelvin / 2 * (18*18 - 15*15) / 2, 10e-6 * kelvin / 2 * 33
	}
	shear, moment := 0.0, 0.0
	for _, kelvin := range []float64{0, 6, -3} {
		z, a := bent(kelvin)
		z, a = z+level, a+angle
		det := fv*ft - fc*fc
		shear, moment = max(shear, math.Abs(ft*z-fc*a)/det), max(moment, math.Abs(fv*a-fc*z)/det)
	}
	require.InEpsilon(t, shear, got["shear of the lock of closure C"].Demand.Value, 1e-6)
	require.InEpsilon(t, moment, got["moment of the lock of closure C"].Demand.Value, 1e-6)
}

// A closure that may have no tension fails under any; without temperature, wind and shortening
// there is none.
func TestClosureWithoutTension(t *testing.T) {
	w := work()
	w.Tensile = 0
	got, _ := closureChecks(t, twoCantilevers(t, nil), w, fixedPiers())
	require.Equal(t, stages.Fail, got["tension at the bottom of closure C before tendons act"].State)
	w.Along.Wind, w.Along.Shortening, w.Temperature.Colder, w.Temperature.WarmTop, w.Temperature.ColdTop = 0, 0, 0, 0, 0
	got, _ = closureChecks(t, twoCantilevers(t, nil), w, fixedPiers())
	require.Equal(t, stages.Pass, got["tension at the bottom of closure C before tendons act"].State)
	require.Equal(t, stages.Pass, got["tension at the top of closure C before tendons act"].State)
	w.Strength = 90e6
	got, _ = closureChecks(t, twoCantilevers(t, nil), w, fixedPiers())
	require.Equal(t, stages.Fail, got["strength of closure C at first stressing"].State)
}

// Shrinkage until the tendons act is that of the models of both arms, between the piers.
func TestClosureShrinks(t *testing.T) {
	w := work()
	got, _ := closureChecks(t, twoCantilevers(t, slow), w, fixedPiers())
	before, err := slow.Shrinkage(49.9)
	require.NoError(t, err)
	after, err := slow.Shrinkage(62)
	require.NoError(t, err)
	require.InEpsilon(t, 36e6*(10e-6*12*30+0.002+28*(after.Total-before.Total))+120e3, got["tension along of the lock of closure C"].Demand.Value, 1e-6)
}

// What is not as it must be is said, with closure and field; NaN is refused.
func TestClosureWorkRefuses(t *testing.T) {
	d := twoCantilevers(t, nil)
	g, err := d.Girder()
	require.NoError(t, err)
	try := func(change func(*ClosureWork)) error {
		w := work()
		change(&w)
		d := twoCantilevers(t, nil)
		d.Closures = []ClosureWork{w}
		plan, err := d.Plan(fixedPiers(), built()...)
		if err != nil {
			return err
		}
		_, err = plan.Analyse(g, limits.EN1992{})
		return err
	}
	require.NoError(t, try(func(*ClosureWork) {}))
	nan := math.NaN()
	for says, change := range map[string]func(*ClosureWork){
		`segment "D" is not in deck`:   func(w *ClosureWork) { w.Closure = "D" },
		"must be a closure, each once": func(w *ClosureWork) { w.Closure = "AR2" },
		"Level":                        func(w *ClosureWork) { w.Level = nan },
		"Angle":                        func(w *ClosureWork) { w.Angle = 0 },
		"Lock.Force":                   func(w *ClosureWork) { w.Lock.Force = nan },
		"Lock.Stiffness":               func(w *ClosureWork) { w.Lock.Stiffness = -1 },
		"Lock.AlongStiffness":          func(w *ClosureWork) { w.Lock.AlongStiffness = nan },
		"Along.Stiffness[1]":           func(w *ClosureWork) { w.Along.Stiffness[1] = 3 },
		"Along.Friction[0]":            func(w *ClosureWork) { w.Along.Friction[0] = 0.5 },
		"Along.Shortening":             func(w *ClosureWork) { w.Along.Shortening = math.Inf(1) },
		"Temperature.Colder":           func(w *ClosureWork) { w.Temperature.Colder = -5 },
		"Temperature.Expansion":        func(w *ClosureWork) { w.Temperature.Expansion = 1 },
		"Surveyed.Level":               func(w *ClosureWork) { w.Surveyed.Level = nan },
		"Flexibility.Level":            func(w *ClosureWork) { w.Flexibility = &Flexibility{Angle: 1e-9} },
		"Flexibility.Cross":            func(w *ClosureWork) { w.Flexibility = &Flexibility{Level: 1e-8, Angle: 1e-10, Cross: 2e-9} },
		"Strength":                     func(w *ClosureWork) { w.Strength = 25 },
		"must each name a document":    func(w *ClosureWork) { w.Lock.Document = "" },
	} {
		err := try(change)
		require.ErrorIs(t, err, ErrSegmental, says)
		require.ErrorContains(t, err, says)
		require.ErrorContains(t, err, "must")
	}
	err = try(func(w *ClosureWork) { w.Stressed = 59 })
	require.ErrorContains(t, err, "field Stressed = 59 d: must be after it was cast, day 50, and not before it is closed, day 60")
	_, err = work().PourChecks(g, stages.Effects{})
	require.ErrorContains(t, err, "have no movements")
}

// A closure without a work of its own is asked for at its pour and when it is closed.
func TestAClosureWithoutWorkIsAsked(t *testing.T) {
	d := twoCantilevers(t, nil)
	g, err := d.Girder()
	require.NoError(t, err)
	plan, err := d.Plan(fixedPiers(), built()...)
	require.NoError(t, err)
	record, err := plan.Run(g, limits.EN1992{})
	require.NoError(t, err)
	asked := 0
	for _, stage := range record.Stages[len(plan)-2:] {
		for _, c := range stage.Situations[0].Checks {
			if c.Name == "closure C" {
				require.Equal(t, stages.NotEvaluated, c.State)
				require.Contains(t, c.Note, "field Deck.Closures has no work of it")
				asked++
			}
		}
	}
	require.Equal(t, 2, asked)
}
