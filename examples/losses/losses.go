package main

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
)

// station is the tendon at one place.
type station struct {
	x                           float64       // m
	jack, lockOff, atMonth, end float64       // force, N
	monthly, final              tendon.Losses // all losses up to 28 days and to the end of life, Pa

	beside    float64          // stress of the concrete beside the tendons from all of them, Pa, compression positive
	sustained tendon.Sustained // from stressing to the end of life
}

// measuring is how the extension is read.
var measuring = tendon.Measuring{From: 200 * unit.Mega, Tail: 0.8, Tolerance: tendon.ToleranceOfMean}

// result is what the program prints.
type result struct {
	shape      section.Shape
	mix        concrete.EN1992
	young      float64 // modulus of the concrete at stressing, Pa
	pier       station
	stations   []station
	force      *tendon.Force
	elongation tendon.Elongation
	secondary  float64 // of all tendons over the pier, N·m
}

// calculation is the data of every station.
type calculation struct {
	shape     section.Shape
	mix       concrete.EN1992
	young     concrete.State
	force     *tendon.Force
	restraint *redistribution.Restraint // of one tendon
	weight    *beam.Response
}

func calculate() (result, error) {
	c, err := prepare()
	if err != nil {
		return result{}, err
	}
	r := result{shape: c.shape, mix: c.mix, young: c.young.Modulus, force: c.force, secondary: tendons * c.restraint.Secondary(span)}
	r.elongation, err = c.force.Elongation(measuring)
	if err != nil {
		return result{}, err
	}
	for _, x := range []float64{0, 6, 14.4, 24, span, length - 24, length - 14.4, length - 6, length} {
		s, err := c.station(x)
		if err != nil {
			return result{}, err
		}
		r.stations = append(r.stations, s)
		if x == span {
			r.pier = s
		}
	}
	return r, nil
}

// prepare jacks the tendon and solves the beam under weight and prestress.
func prepare() (*calculation, error) {
	shape, err := box.Shape()
	if err != nil {
		return nil, err
	}
	c := &calculation{shape: shape, mix: mix(shape)}
	if c.young, err = c.mix.At(stressed); err != nil {
		return nil, err
	}
	t, err := continuous()
	if err != nil {
		return nil, err
	}
	c.force, err = t.Jack(tendon.Jacking{Tendons: []string{t.Mark}, Stress: 1440 * unit.Mega, Ends: tendon.BothEnds, DrawIn: 6 * unit.Milli})
	if err != nil {
		return nil, err
	}
	p := shape.Properties()
	spans := layout(c.young.Modulus * p.SecondMomentY)
	c.restraint, err = redistribution.Restrain(spans, redistribution.OfTendons([]*tendon.Force{c.force}, func(float64) float64 { return p.Centroid.Z }))
	if err != nil {
		return nil, err
	}
	b, err := beam.New(spans)
	if err != nil {
		return nil, err
	}
	c.weight, err = b.Solve(loads.Set{Lines: []loads.Line{loads.Uniform(0, length, weight*p.Area)}})
	return c, err
}

// compression is the stress of the concrete beside the tendon (Pa, compression
// positive) under a force along the tendon and a sagging moment.
func (c *calculation) compression(x, force, moment float64) float64 {
	p := c.shape.Properties()
	return force/p.Area + moment*(c.force.Path.At(x).Z-p.Centroid.Z)/p.SecondMomentY
}

// station is the force and the losses at x.
func (c *calculation) station(x float64) (station, error) {
	area, strand := c.force.Tendon.Area(), c.force.Tendon.Strand
	s := station{x: x, jack: c.force.AtJack(x), lockOff: c.force.At(x)}
	along, _, _ := c.force.Path.Direction(x)
	one := c.compression(x, s.lockOff*along, c.restraint.Total(x)) // of one tendon
	s.beside = tendons * one
	elastic, err := tendon.MeanElasticLoss(tendons, strand.Modulus, c.young.Modulus, s.beside)
	if err != nil {
		return s, err
	}
	instant := tendon.Losses{
		Friction: math.Max(0, c.force.Jacking.Stress-s.jack/area), // never a rounding below 0 at a jack
		DrawIn:   (s.jack - s.lockOff) / area,
		Elastic:  elastic,
	}
	left := s.lockOff/area - instant.Elastic // Pa
	p := c.shape.Properties()
	sustained := tendon.Sustained{
		Concrete: c.mix, From: stressed, Area: p.Area, Inertia: p.SecondMomentY,
		Distance:   c.force.Path.At(x).Z - p.Centroid.Z,
		Stress:     tendons*one*left*area/s.lockOff + c.compression(x, 0, c.weight.Moment(x)),
		TendonArea: tendons * area, TendonModulus: strand.Modulus,
		TendonStress: left, TensileStrength: strand.Fpk, Relaxation: strand.Relaxation,
	}
	if s.monthly, s.atMonth, err = c.after(sustained, instant, month); err != nil {
		return s, err
	}
	s.sustained = sustained
	s.sustained.To = life
	s.final, s.end, err = c.after(sustained, instant, life)
	return s, err
}

// after is all losses up to an age and the force that is left.
func (c *calculation) after(s tendon.Sustained, instant tendon.Losses, age float64) (tendon.Losses, float64, error) {
	s.To = age
	later, err := s.Simplified()
	all := instant.And(later)
	return all, (c.force.Jacking.Stress - all.Total()) * c.force.Tendon.Area(), err
}
