package redistribution_test

import (
	"testing"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
)

func TestHostileConcrete(t *testing.T) {
	tests := func() []concrete.Test {
		return []concrete.Test{
			{Age: 2, Strength: 40e6, Specimen: concrete.Cube, Specimens: 3, Statistic: concrete.Mean},
			{Age: 9, Strength: 45e6, Specimen: concrete.Cylinder, Specimens: 1, Statistic: concrete.Characteristic},
		}
	}
	exposure := concrete.Exposure{Humidity: 0.7, NotionalSize: 0.25, DryingFrom: 2}
	curing := concrete.Curing{{Until: 0.5, Celsius: 45}, {Until: 2, Celsius: 25}}
	type ages struct{ Age, Loaded, Stress, Shown float64 }
	at := ages{90, 3, 8e6, 30e6}
	model := func(m concrete.TimeModel, at ages) ([]any, error) {
		return many(of(m.At(at.Loaded)), of(m.At(at.Age)), of(m.Creep(at.Age, at.Loaded)), of(m.CreepModulus(at.Loaded)), of(m.CreepUnder(at.Age, at.Loaded, at.Stress)),
			of(m.CreepLines(at.Age, at.Loaded)), of(m.Shrinkage(at.Age)), of(m.ShrinkageLines(at.Age)), of(concrete.Compliance(m, at.Age, at.Loaded)), of(m.Shown(at.Loaded, at.Shown).At(at.Loaded)))
	}
	en := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Tests: tests(), Curing: curing, Exposure: exposure}
	fib := concrete.FIB2010{Fck: 50e6, Cement: concrete.ClassR, Tests: tests(), Curing: curing, Exposure: exposure}
	lrfd := concrete.AASHTO{Strength: 50e6, Cement: concrete.TypeIII, Tests: tests(), Exposure: exposure}
	older := lrfd
	older.Edition, older.Tests, older.Accelerated = concrete.UpTo2004, nil, 0.7
	plain := en
	plain.Tests, plain.Curing = nil, nil
	atEN, atFIB, atLRFD, atPlain := at, at, at, at
	type steps struct{ From, To, Cast, Factor, Own, Through float64 }
	cut := steps{7, 100, 0, 1, 1, 1e9}
	survive(t, map[string]subject{
		"EN1992":          {&en, func() ([]any, error) { return model(en, at) }},
		"FIB2010":         {&fib, func() ([]any, error) { return model(fib, at) }},
		"AASHTO":          {&lrfd, func() ([]any, error) { return model(lrfd, at) }},
		"AASHTO, older":   {&older, func() ([]any, error) { return model(older, at) }},
		"ages of EN1992":  {&atEN, func() ([]any, error) { return model(en, atEN) }},
		"ages of FIB2010": {&atFIB, func() ([]any, error) { return model(fib, atFIB) }},
		"ages of AASHTO":  {&atLRFD, func() ([]any, error) { return model(lrfd, atLRFD) }},
		"ages, no tests":  {&atPlain, func() ([]any, error) { return model(plain, atPlain) }},
		"superposition": {&cut, func() ([]any, error) {
			days, err := concrete.StepDays(cut.From, cut.To, 5)
			if err != nil {
				return nil, err
			}
			s, err := concrete.Superpose(plain, cut.Cast, days)
			if err != nil {
				return nil, err
			}
			return []any{days, s.Strain(5, 1, 1)}, nil
		}},
	})
}

func TestHostileTendons(t *testing.T) {
	at := func(x, z float64) tendon.Point { return tendon.Point{X: x, Ordinate: z} }
	strand := tendon.Y1860S7x157
	draped := tendon.Tendon{Mark: "D", Strand: strand, Strands: 12, Duct: 0.09, Elevation: tendon.Drape(at(0, 1.5), 4, at(14, 0.2), 34), Plan: tendon.Level(0, 34, 0.1), Friction: 0.19, Wobble: 0.005,
		Approval: tendon.Approval{MeanStrength: 30e6, AnchorSpacing: 0.3, EdgeDistance: 0.2}}
	jacking := tendon.Jacking{Tendons: []string{"D"}, Stress: 1400e6, Ends: tendon.BothEnds, DrawIn: 0.006}
	again := tendon.Jacking{Tendons: []string{"D"}, Stress: 1450e6, Ends: tendon.LeftEnd, DrawIn: 0.005}
	measuring := tendon.Measuring{From: 200e6, Tail: 0.7, Tolerance: 0.05}
	forces := func(f *tendon.Force) func() (any, error) {
		stress, where := f.Largest()
		radial, curvature := f.Radial(9)
		lines, err := f.Derivation(9, "")
		return of([]any{f.At(0), f.At(9), f.AtJack(9), f.Breaks(), stress, where, radial, curvature, f.Anchors(), f.Deviations(), f.Path.Angle(20), f.Path.Length(20), lines}, err)
	}
	stressed := func() ([]any, error) {
		f, err := draped.Jack(jacking)
		if err != nil {
			return nil, err
		}
		next, err := f.Restress(again)
		if err != nil {
			return nil, err
		}
		return many(forces(f), forces(next), of(f.Elongation(measuring)), of(next.Elongation(measuring)))
	}
	given := tendon.Given{Source: formula.Source{Document: "note"}, Forces: []tendon.Stated{{X: 0, Value: 1e6}, {X: 10, Value: 1.2e6}, {X: 34, Value: 1e6}}}
	corners := []tendon.Corner{{Point: at(0, 1)}, {Point: at(10, 0.2), Radius: 9}, {Point: at(24, 0.2), Reach: 3}, {Point: at(34, 1)}}
	through := []tendon.Through{{Point: at(0, 1), Slope: -0.1}, {Point: at(17, 0.2)}, {Point: at(34, 1), Slope: 0.1}}
	along := func(c tendon.Curve, err error) ([]any, error) {
		if err != nil {
			return nil, err
		}
		tn := draped
		tn.Elevation = c
		p, err := tn.Path()
		if err != nil {
			return nil, err
		}
		return []any{p.Angle(34), p.Length(34), p.At(9), p.Curvature(10)}, nil
	}
	layer := tendon.Pretension{Mark: "P", Strand: tendon.Y1860S7x125, Groups: []tendon.Debonding{{Strands: 6}, {Strands: 2, Left: 2, Right: 3}}, Elevation: tendon.Level(0, 16, 0.1), Plan: tendon.Level(0, 16, 0)}
	lengths := tendon.TransmissionLength{Bond: 3e6, Basic: 0.7, Short: 0.56, Long: 0.84}
	transmission := tendon.Transmission{Strand: tendon.Y1860S7x125, Stress: 1250e6, TensileMean: 2.8e6, Release: tendon.Sudden}
	sustained := tendon.Sustained{Concrete: deck, From: 7, To: 36500, Area: 1.05, Inertia: 0.36, Distance: 0.6, Stress: 10e6,
		TendonArea: 6000e-6, TendonModulus: 195e9, TendonStress: 1300e6, TensileStrength: 1860e6, Relaxation: tendon.Class2}
	zone := tendon.AnchorZone{Force: 2500e3, Plate: 0.25, Depth: 1, Eccentricity: 0.05, Inclination: 0.1}
	law := tendon.Law{Convention: tendon.WobbleAASHTO, Friction: 0.2, Wobble: 0.0002}
	lump := tendon.ApproximateLoss{Stress: 1395e6, SteelRatio: 0.006, Humidity: 0.7, ReleaseStrength: 33e6, Relaxation: 16.5e6}
	type numbers struct{ Stress, Fpk, Days, Rho, Celsius, Hold, Yield, Modulus, Expansion, Kelvin, Concrete, Change, Angle, Wobble, Length, Stiffness, DrawIn, Fall, Force, Slope, Friction, Fraction float64 }
	n := numbers{1300e6, 1860e6, 100, 2.5, 60, 0.3, 1640e6, 195e9, 1e-5, 30, 33e9, 3e6, 0.4, 0.005, 30, 300e6, 0.006, 1e4, 1e6, 0.1, 0.2, 0.9}
	survive(t, map[string]subject{
		"Tendon":    {&draped, stressed},
		"Jacking":   {&jacking, stressed},
		"second":    {&again, stressed},
		"Measuring": {&measuring, stressed},
		"Given": {&given, func() ([]any, error) {
			j := jacking
			j.Given = &given
			f, err := draped.Jack(j)
			if err != nil {
				return nil, err
			}
			return many(forces(f))
		}},
		"Corner":  {&corners, func() ([]any, error) { return along(tendon.Tangents(corners...)) }},
		"Through": {&through, func() ([]any, error) { return along(tendon.Smooth(through...)) }},
		"Pretension": {&layer, func() ([]any, error) {
			f, err := layer.Released(1250e6, lengths)
			if err != nil {
				return nil, err
			}
			return many(forces(f))
		}},
		"lengths": {&lengths, func() ([]any, error) {
			f, err := layer.Released(1250e6, lengths)
			if err != nil {
				return nil, err
			}
			return many(forces(f))
		}},
		"Transmission": {&transmission, func() ([]any, error) { return many(of(transmission.Length())) }},
		"Sustained": {&sustained, func() ([]any, error) {
			return many(of(sustained.Simplified()), of(sustained.Stepwise(5)), of(sustained.Lines()))
		}},
		"AnchorZone":      {&zone, func() ([]any, error) { return many(of(zone.EN()), of(zone.AASHTO())) }},
		"Law":             {&law, func() ([]any, error) { a, b, err := law.EN(); return []any{a, b}, err }},
		"ApproximateLoss": {&lump, func() ([]any, error) { return many(of(lump.LongTerm())) }},
		"numbers": {&n, func() ([]any, error) {
			reach, loss, err := tendon.LinearDrawIn(n.Stiffness, n.DrawIn, n.Fall)
			if err != nil {
				return nil, err
			}
			f, err := draped.Jack(jacking)
			if err != nil {
				return nil, err
			}
			kept, err := f.Retained(n.Fraction)
			if err != nil {
				return nil, err
			}
			return many(sure(reach, loss, kept.At(9)), of(tendon.Class2.Loss(n.Stress, n.Fpk, n.Days)), of(tendon.RelaxationBPEL(n.Stress, n.Fpk, n.Rho)), of(tendon.RelaxationAASHTO(n.Stress, n.Yield, true)),
				of(tendon.HeatCuredTime(n.Celsius, n.Hold)), of(tendon.ThermalLoss(n.Modulus, n.Expansion, n.Kelvin)), of(tendon.ElasticLoss(n.Modulus, n.Concrete, n.Change)),
				of(tendon.MeanElasticLoss(3, n.Modulus, n.Concrete, n.Change)), of(tendon.ElasticLosses(n.Modulus, []float64{n.Concrete, n.Concrete}, []float64{n.Change, n.Change})),
				of(tendon.FrictionFactor(n.Friction, n.Angle, n.Wobble, n.Length)), of(tendon.HoldDown(n.Force, -n.Slope, n.Slope)))
		}},
	})
}
