package beam

import "github.com/tempstage/tempstage/loads"

// state is what the beam does and carries at one place.
type state struct {
	up, slope     float64 // m upwards; rad of the section, anticlockwise
	moment, shear float64 // N·m sagging; N, dM/dx
}

// plus is the sum of two states.
func (a state) plus(b state) state {
	return state{a.up + b.up, a.slope + b.slope, a.moment + b.moment, a.shear + b.shear}
}

// piece is a part of the beam in which every field is one polynomial: it ends
// at nodes, at changes of stiffness and at the ends of loads.
type piece struct {
	from, to  float64 // m
	member    int
	law       *panel
	lawStart  float64          // from − law.from, m
	load      loads.Polynomial // N/m downwards in s = x − from
	curvature loads.Polynomial // imposed, 1/m sagging
	loaded    int              // coefficients of load in use
	bent      int              // coefficients of curvature in use
	jump      state            // what is added on entering it
	start     state            // just inside its left end
}

func (p *piece) length() float64 { return p.to - p.from }

// over[n] is 1/n.
var over = [...]float64{0, 1, 1. / 2, 1. / 3, 1. / 4, 1. / 5, 1. / 6, 1. / 7, 1. / 8, 1. / 9, 1. / 10}

// at is the state at s from the left end of the piece when it begins in start.
func (p *piece) at(s float64, start state) state {
	if !p.law.uniform() {
		return p.varying(s, start)
	}
	end := state{
		moment: start.moment + start.shear*s,
		shear:  start.shear,
	}
	turn := s * (start.moment + start.shear*s/2)
	rise := s * s * (start.moment/2 + start.shear*s/6)
	power := s
	for k := range p.loaded {
		term := p.load[k] * power * over[k+1] // ∫q
		end.shear -= term
		term *= s * over[k+2]
		end.moment -= term
		term *= s * over[k+3]
		turn -= term
		rise -= term * s * over[k+4]
		power *= s
	}
	f := p.law.bending[0]
	end.slope = start.slope + f*turn
	end.up = start.up + start.slope*s + f*rise
	power = s
	for k := range p.bent {
		term := p.curvature[k] * power * over[k+1]
		end.slope += term
		end.up += term * s * over[k+2]
		power *= s
	}
	if len(p.law.shear) == 1 {
		end.up -= p.law.shear[0] * (end.moment - start.moment)
	}
	return end
}

// shearLaw is V (N) as a power series in s.
func (p *piece) shearLaw() series {
	v := series{c: [wide]float64{p.start.shear}, n: 1 + p.loaded}
	for k := range p.loaded {
		v.c[k+1] = -p.load[k] * over[k+1]
	}
	return v
}

// momentLaw is M (N·m) as a power series in s.
func (p *piece) momentLaw() series { return p.shearLaw().integral(p.start.moment) }

// loadLaw is dV/ds = −q (N/m) as a power series in s.
func (p *piece) loadLaw() series { return p.shearLaw().derivative() }

// slopeLaw is the rotation of the section (rad) as a power series in s.
func (p *piece) slopeLaw() series {
	curvature := p.momentLaw()
	if len(p.law.bending) == 1 {
		curvature = curvature.scaled(p.law.bending[0])
	} else {
		curvature = curvature.times(shifted(p.law.bending, p.lawStart))
	}
	for k := range p.bent {
		curvature.c[k] += p.curvature[k]
	}
	curvature.n = max(curvature.n, p.bent)
	return curvature.integral(p.start.slope)
}

// riseLaw is the slope of the deflected line dw/ds: the rotation of the
// section less the shear strain V/GA.
func (p *piece) riseLaw() series {
	slope := p.slopeLaw()
	if len(p.law.shear) == 0 {
		return slope
	}
	return slope.plus(p.shearLaw().times(shifted(p.law.shear, p.lawStart)), -1)
}

// varying is at for a panel whose flexibility varies.
func (p *piece) varying(s float64, start state) state {
	q := *p
	q.start = start
	rise := q.riseLaw().integral(start.up)
	slope, moment, shear := q.slopeLaw(), q.momentLaw(), q.shearLaw()
	return state{up: rise.at(s), slope: slope.at(s), moment: moment.at(s), shear: shear.at(s)}
}
