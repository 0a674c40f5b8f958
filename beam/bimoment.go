package beam

import (
	"fmt"
	"math"
)

// Warping is a member of open section under torsion with its warping partly
// restrained: the bimoment along it, from the torque (Vlasov 1940). With u = ω·θ'
// the displacement along x,
//
//	B = E·Cw·θ″,  T = GJ·θ' − B',  B″ − k²·B = m,  k² = GJ/(E·Cw)
//
// T the torque in the member and m the torque applied to a metre of it, both about
// the shear centre and by right hand about +x. Bending stress gains B·ω/Cw, with ω
// of section.Torsion.Warping.
//
// Where the ends warp freely the bimoment depends on the applied torques only. In a
// closed box it dies out within about its depth and is negligible.
type Warping struct {
	Length      float64      // m, positive
	GJ          float64      // torsional stiffness, N·m², positive
	ECw         float64      // warping stiffness, N·m⁴, positive
	Left, Right WarpingEnd   // zero: free
	Torque      float64      // in the member just right of its left end, from statics, N·m; used where an end is restrained
	Loads       []TorqueLoad // all torques that act between the ends
}

// WarpingEnd is the restraint of warping at an end of a member. A support of the
// rotation alone (a fork) leaves it free.
type WarpingEnd int

// The ends of [Warping].
const (
	WarpingFree       WarpingEnd = iota // no bimoment
	WarpingRestrained                   // no displacement along x
)

// TorqueLoad is a torque, evenly spread over a stretch of a member, or at one place
// where From and To are equal.
type TorqueLoad struct {
	From, To float64 // m from the left end, in order, 0 to Length
	Torque   float64 // in all, N·m, right hand about +x, about the shear centre
}

// slowest keeps k·Length from vanishing: a member with less is taken as having
// it, which changes the bimoment by less than its square.
const slowest = 1e-3

// Bimoment is a solved [Warping]. The zero Bimoment is 0 everywhere.
type Bimoment struct {
	length, decay float64 // m, k in 1/m
	left, right   float64 // N·m², of what fades from either end
	loads         []TorqueLoad
}

// Solve finds the bimoment. The error wraps [ErrBeam] and names the field, its
// value and what it must be.
func (w Warping) Solve() (Bimoment, error) {
	if err := w.check(); err != nil {
		return Bimoment{}, err
	}
	b := Bimoment{length: w.Length, decay: math.Max(math.Sqrt(w.GJ/w.ECw), slowest/w.Length)}
	leaving := w.Torque // at the right end
	for _, load := range w.Loads {
		if load.From == load.To && (load.To == 0 || load.To == w.Length) { // belongs to the support there
			continue
		}
		leaving -= load.Torque
		b.loads = append(b.loads, load)
	}
	// At each end either B = 0 or B' = −T.
	faded := math.Exp(-b.decay * w.Length)
	there, slope := b.driven(0)
	a11, a12, r1 := 1.0, faded, -there
	if w.Left == WarpingRestrained {
		a11, a12, r1 = -b.decay, b.decay*faded, -w.Torque-slope
	}
	there, slope = b.driven(w.Length)
	a21, a22, r2 := faded, 1.0, -there
	if w.Right == WarpingRestrained {
		a21, a22, r2 = -b.decay*faded, b.decay, -leaving-slope
	}
	det := a11*a22 - a12*a21
	b.left, b.right = (r1*a22-a12*r2)/det, (a11*r2-r1*a21)/det
	if !finite(b.left) || !finite(b.right) {
		return Bimoment{}, fmt.Errorf("%w: Warping: bimoment %g N·m²: must be finite", ErrBeam, b.left)
	}
	return b, nil
}

// At is the bimoment B (N·m²) and the warping torque −B' (N·m), the part of the torque
// not carried by Saint-Venant's shear, at x (m); beyond an end those at the end, at a
// concentrated torque the mean of both sides.
func (b Bimoment) At(x float64) (bimoment, warpingTorque float64) {
	if !(x > 0) {
		x = 0
	}
	x = math.Min(x, b.length)
	value, slope := b.driven(x)
	fromLeft, fromRight := b.left*math.Exp(-b.decay*x), b.right*math.Exp(-b.decay*(b.length-x))
	return value + fromLeft + fromRight, -(slope + b.decay*(fromRight-fromLeft))
}

// driven is the bimoment of the loads in a member without ends, and its slope: a
// torque at a place gives −e^(−k|x−s|)/2k, a spread one the integral of that.
func (b Bimoment) driven(x float64) (value, slope float64) {
	k := b.decay
	for _, load := range b.loads {
		if load.From == load.To {
			fade := load.Torque / 2 * math.Exp(-k*math.Abs(x-load.From))
			value -= fade / k
			switch {
			case x > load.From:
				slope += fade
			case x < load.From:
				slope -= fade
			}
			continue
		}
		density := load.Torque / (load.To - load.From)
		from, to := math.Exp(-k*math.Abs(x-load.From)), math.Exp(-k*math.Abs(load.To-x))
		slope += density / (2 * k) * (to - from)
		switch {
		case x < load.From:
			value -= density / (2 * k * k) * (from - to)
		case x > load.To:
			value -= density / (2 * k * k) * (to - from)
		default:
			value -= density / (2 * k * k) * (2 - from - to)
		}
	}
	return value, slope
}

func (w Warping) check() error {
	for _, field := range []struct {
		name, unit string
		value      float64
	}{{"Length", "m", w.Length}, {"GJ", "N·m²", w.GJ}, {"ECw", "N·m⁴", w.ECw}} {
		if !positive(field.value) {
			return fmt.Errorf("%w: Warping.%s = %g %s: must be finite and positive", ErrBeam, field.name, field.value, field.unit)
		}
	}
	for i, end := range [2]WarpingEnd{w.Left, w.Right} {
		if end != WarpingFree && end != WarpingRestrained {
			return fmt.Errorf("%w: Warping.%s = %d: must be WarpingFree or WarpingRestrained", ErrBeam, [2]string{"Left", "Right"}[i], end)
		}
	}
	if !finite(w.Torque) {
		return fmt.Errorf("%w: Warping.Torque = %g N·m: must be finite", ErrBeam, w.Torque)
	}
	for i, load := range w.Loads {
		if !finite(load.Torque) {
			return fmt.Errorf("%w: Warping.Loads[%d].Torque = %g N·m: must be finite", ErrBeam, i, load.Torque)
		}
		if !(load.From >= 0 && load.To >= load.From && load.To <= w.Length) {
			return fmt.Errorf("%w: Warping.Loads[%d] from %g m to %g m: must be in order within 0 to %g m", ErrBeam, i, load.From, load.To, w.Length)
		}
	}
	return nil
}
