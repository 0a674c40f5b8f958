package roll

import "math"

// steepest is the tilt up to which small tilts and the empirical loss of stiffness
// are used (rad): Mast 1993, unconfirmed.
const steepest = 0.4

// softening is by how much a cracked I-girder loses lateral stiffness, 1 + 2.5·θ:
// tests of Mast 1993, unconfirmed.
const softening = 2.5

// plenty is a factor beyond which none is counted.
const plenty = 1000

// Result is how a girder rolls. The factors and tilts are 0 where it does not come to
// rest.
type Result struct {
	Bow         float64 // z0, mean sideways deflection under the self-weight applied sideways, m
	OwnBow      float64 // mean sideways deflection under the upright weight, of a section without an axis of symmetry, m
	Offset      float64 // e, of the centre of gravity from the roll axis or centre, sweep and own bow included, m
	Arm         float64 // hung: height of the roll axis above the centre of gravity; seated: K/W less the height of the centre of gravity, m
	Needed      float64 // hung: Axis, m; seated: roll stiffness, N·m/rad, up to which nothing is stable
	Stable      bool    // the arm is larger than the bow, and the girder comes to rest at up to 0.4 rad
	Tilt        float64 // at which it comes to rest, by magnitude, under the worse wind, rad
	RigidTilt   float64 // the same of a girder that does not bend sideways, rad; 0 where that does not come to rest
	CrackTilt   float64 // at which the weakest section cracks without wind, rad
	Cracking    float64 // factor against cracking, at most 1000
	Overturning float64 // factor against overturning, cracked, at most 1000
	FailTilt    float64 // at which Overturning is counted, rad

	Seat Seat // of a seated girder
}

// Seat is what the supports of a seated girder get.
type Seat struct {
	Stiffness  float64 // factor K/(W·y) on the roll stiffness of a rigid girder; 0 where its centre of gravity is not above the roll centre
	Shift      float64 // distance of the resultant from the middle of the supports at rest, m
	LeavesKern bool    // the resultant leaves the kern of the supports: their stiffness is no longer linear
}

// balance is a girder that rolls to its offset side under one wind: the arms that
// resist and turn it at a tilt, with the bow that it has then. To the other side the
// offset helps, and the wind comes from both, so that side never governs.
type balance struct {
	push    float64 // share of the weight that the wind pushes to the offset side
	resists func(tilt float64) float64
	turns   func(tilt, bow float64) float64
}

// worst is the wind that governs a factor; none where no wind turns the girder further.
type worst struct {
	push float64
	none bool
}

// solved is a result with the winds that govern its factors.
type solved struct {
	Result
	cracks, falls worst
}

// factor is the resisting over the turning arm: 0 where the girder goes on turning
// without any resistance, infinite where nothing turns it further.
func factor(resists, turns float64) float64 {
	switch {
	case turns > 0:
		return math.Max(0, resists) / turns
	case resists < turns:
		return 0
	}
	return math.Inf(1)
}

// cracking takes into account the factor at the tilt at which the section cracks.
func (r *solved) cracking(b balance) {
	tilt, f := r.CrackTilt-b.push, 0.0
	if tilt > 0 { // else the wind alone cracks it
		f = factor(b.resists(tilt), b.turns(tilt, r.Bow))
	}
	if f < r.Cracking {
		r.Cracking, r.cracks = f, worst{push: b.push}
	}
}

// overturning takes into account the factor of the cracked girder at a tilt.
func (r *solved) overturning(b balance, tilt, factor float64) {
	if factor < r.Overturning {
		r.Overturning, r.FailTilt, r.falls = factor, tilt, worst{push: b.push}
	}
}

// cracked is the factor of the cracked girder at a tilt.
func (r *solved) cracked(b balance, tilt float64) float64 {
	return factor(b.resists(tilt), b.turns(tilt, r.Bow*(1+softening*tilt)))
}

// rests is the result with the tilt at rest; not stable where that is too steep.
func (r solved) rests() solved {
	if r.Tilt <= steepest {
		return r
	}
	r.Stable, r.Tilt, r.Cracking, r.Overturning, r.FailTilt, r.Seat.Shift = false, 0, 0, 0, 0, 0
	return r
}

// begin are the numbers that do not depend on how the girder is held.
func (g Girder) begin(s spans, offset float64) solved {
	r := solved{Result: Result{Bow: g.bow(s), CrackTilt: g.Cracks / g.moment(s), Cracking: plenty, Overturning: plenty}, cracks: worst{none: true}, falls: worst{none: true}}
	r.OwnBow = r.Bow * math.Abs(g.Iyz) / g.Iy // sideways curvature of the upright weight: Iyz/Iy of that of the weight laid to the side
	r.Offset = math.Abs(g.Sweep*g.mean(s)) + offset + r.OwnBow
	return r
}

// stuck is the result of a girder that is not stable.
func (r solved) stuck() solved {
	r.Cracking, r.Overturning = 0, 0
	return r
}
