package beam

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// Twist is a member of torsional stiffness GJ on pairs of vertical supports,
// one to the left and one to the right of its axis: a closed box in four-point
// storage or on a carrier. It answers what a difference of level does to the
// reactions. Bending is the business of [Beam].
type Twist struct {
	TorsionalStiffness float64 // GJ, N·m²
	Pairs              []Pair  // along the member, in rising order
}

// Pair is two supports side by side across the member.
type Pair struct {
	At             float64 // m from the left end
	Spacing        float64 // between the two, across, m
	LeftStiffness  float64 // of the support at +y, N/m; 0 = rigid
	RightStiffness float64 // of the support at −y, N/m; 0 = rigid
	Level          float64 // how much the left one stands above the right one, m
	Torque         float64 // applied to the member here, N·m, by right hand about +x
}

// PairReaction is what a pair receives from twist, on top of its share of the
// weight.
type PairReaction struct {
	At       float64 // m from the left end
	Left     float64 // change of the reaction at +y, N, positive upwards
	Right    float64 // change of the reaction at −y, N: −Left
	Rotation float64 // of the section, rad, by right hand about +x (left side up)
}

// Solve is the change of the reactions of every pair by the differences of
// level and the torques. Two rigid pairs out of level by d receive
// ± d/(s²·L/(GJ)), with springs d/(s²·L/(GJ) + Σ1/k), in the pattern + − − +.
// The pairs are taken to keep the sum of their two reactions, which holds for
// two pairs exactly, and for more where the springs of a pair are alike.
//
// The error wraps [ErrBeam] and names the field, its value and what is allowed.
func (t Twist) Solve() ([]PairReaction, error) {
	if err := t.check(); err != nil {
		return nil, err
	}
	rotations, err := t.rotate()
	if err != nil {
		return nil, err
	}
	out := make([]PairReaction, len(t.Pairs))
	for i, p := range t.Pairs {
		torque := -p.Torque
		if i > 0 {
			torque += t.between(i-1) * (rotations[i] - rotations[i-1])
		}
		if i < len(t.Pairs)-1 {
			torque -= t.between(i) * (rotations[i+1] - rotations[i])
		}
		out[i] = PairReaction{At: p.At, Left: torque / p.Spacing, Right: -torque / p.Spacing, Rotation: rotations[i]}
		if !finite(out[i].Left) || !finite(out[i].Rotation) {
			return nil, fmt.Errorf("%w: Pairs[%d] at %g m receives %g N: allowed levels, torques and stiffnesses whose effects float64 can hold",
				ErrBeam, i, p.At, out[i].Left)
		}
	}
	return out, nil
}

// between is the torsional stiffness GJ/L between pair i and the next (N·m).
func (t Twist) between(i int) float64 {
	return t.TorsionalStiffness / (t.Pairs[i+1].At - t.Pairs[i].At)
}

// compliance is how the two supports of a pair give way to one newton on each,
// one up and one down: Σ1/k (m/N).
func (p Pair) compliance() float64 {
	sum := 0.0
	for _, k := range []float64{p.LeftStiffness, p.RightStiffness} {
		if k > 0 {
			sum += 1 / k
		}
	}
	return sum
}

// rotate is the rotation of the section at every pair: that of a rigid pair is
// given, the others are solved for.
func (t Twist) rotate() ([]float64, error) {
	n := len(t.Pairs)
	matrix := mat.NewSymBandDense(n, min(1, n-1), nil)
	band := matrix.RawSymBand()
	right := mat.NewDense(n, 1, nil)
	for i, p := range t.Pairs {
		given := p.Level / p.Spacing
		if c := p.compliance(); c > 0 {
			k := p.Spacing * p.Spacing / c
			band.Data[i*band.Stride] += k
			right.Set(i, 0, right.At(i, 0)+k*given+p.Torque)
		} else {
			band.Data[i*band.Stride] += 1
			right.Set(i, 0, right.At(i, 0)+given)
		}
		if i == n-1 {
			continue
		}
		t.couple(band.Data, band.Stride, right.RawMatrix().Data, i)
	}
	factor, ok := lapack64.Pbtrf(band)
	if !ok {
		return nil, fmt.Errorf("%w: GJ = %g N·m² on pairs at %s: allowed stiffnesses that differ less", ErrBeam, t.TorsionalStiffness, t.places())
	}
	lapack64.Pbtrs(factor, right.RawMatrix())
	return right.RawMatrix().Data, nil
}

// couple adds the member between pair i and the next. A rigid pair's rotation
// goes to the right-hand side.
func (t Twist) couple(data []float64, stride int, right []float64, i int) {
	k := t.between(i)
	a, b := t.Pairs[i], t.Pairs[i+1]
	free, freeNext := a.compliance() > 0, b.compliance() > 0
	if free {
		data[i*stride] += k
	}
	if freeNext {
		data[(i+1)*stride] += k
	}
	switch {
	case free && freeNext:
		data[i*stride+1] -= k
	case free:
		right[i] += k * b.Level / b.Spacing
	case freeNext:
		right[i+1] += k * a.Level / a.Spacing
	}
}

func (t Twist) places() string {
	words := make([]string, len(t.Pairs))
	for i, p := range t.Pairs {
		words[i] = fmt.Sprintf("%g m", p.At)
	}
	return strings.Join(words, ", ")
}

func (t Twist) check() error {
	if !positive(t.TorsionalStiffness) {
		return fmt.Errorf("%w: TorsionalStiffness = %g N·m²: allowed a finite stiffness > 0", ErrBeam, t.TorsionalStiffness)
	}
	if len(t.Pairs) == 0 {
		return fmt.Errorf("%w: Pairs is empty: allowed at least one pair", ErrBeam)
	}
	for i, p := range t.Pairs {
		if err := p.check(i); err != nil {
			return err
		}
		if i > 0 && !(p.At > t.Pairs[i-1].At) {
			return fmt.Errorf("%w: Pairs[%d].At = %g m: allowed more than %g m, the pair before", ErrBeam, i, p.At, t.Pairs[i-1].At)
		}
	}
	return nil
}

func (p Pair) check(i int) error {
	switch {
	case !finite(p.At):
		return fmt.Errorf("%w: Pairs[%d].At = %g m: allowed a finite place", ErrBeam, i, p.At)
	case !positive(p.Spacing):
		return fmt.Errorf("%w: Pairs[%d].Spacing = %g m: allowed a finite spacing > 0", ErrBeam, i, p.Spacing)
	case !finite(p.Level):
		return fmt.Errorf("%w: Pairs[%d].Level = %g m: allowed a finite difference of level", ErrBeam, i, p.Level)
	case !finite(p.Torque):
		return fmt.Errorf("%w: Pairs[%d].Torque = %g N·m: allowed a finite torque", ErrBeam, i, p.Torque)
	}
	if k := slices.Max([]float64{p.LeftStiffness, p.RightStiffness}); math.IsNaN(k) || math.IsInf(k, 0) || p.LeftStiffness < 0 || p.RightStiffness < 0 {
		return fmt.Errorf("%w: Pairs[%d] has stiffness %g N/m left, %g N/m right: allowed finite stiffnesses > 0, or 0 for rigid",
			ErrBeam, i, p.LeftStiffness, p.RightStiffness)
	}
	return nil
}
