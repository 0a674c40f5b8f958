package beam

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// besideWithin is the part of the mean span within which an elastic support may
// be a redundant force instead of a node, when the member between would be too
// stiff beside it for the stiffness matrix: EI/h³ of 1 mm leaves no digits of a
// spring.
const besideWithin = 1e-2

// beside is the elastic supports that are at or close by another one (a leg
// and its tie-down bar). They are no nodes of the stiffness matrix; their
// forces follow from the flexibility of the beam on all other supports.
type beside struct {
	supports []int       // indices in Layout.Supports
	unit     []*Response // of the beam without them to 1 N upwards at each
	factor   mat.Cholesky
}

// besides picks the elastic supports that are within a distance (m) of one
// that is kept: rigid ones are kept before elastic ones, stiff ones before soft
// ones.
func (l Layout) besides(within float64) []int {
	if !l.anyWithin(within) {
		return nil
	}
	order := make([]int, len(l.Supports))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		a, b := &l.Supports[i], &l.Supports[j]
		if a.mayStandBeside() != b.mayStandBeside() {
			if b.mayStandBeside() {
				return -1
			}
			return 1
		}
		return cmp.Compare(b.Stiffness, a.Stiffness)
	})
	var kept, found []int
	for _, i := range order {
		close := func(j int) bool { return math.Abs(l.Supports[i].At-l.Supports[j].At) <= within }
		if l.Supports[i].mayStandBeside() && slices.ContainsFunc(kept, close) {
			found = append(found, i)
		} else {
			kept = append(kept, i)
		}
	}
	slices.Sort(found)
	return found
}

// anyWithin says that two supports are no further apart than a distance (m).
func (l Layout) anyWithin(distance float64) bool {
	places := make([]float64, len(l.Supports))
	for i, s := range l.Supports {
		places[i] = s.At
	}
	slices.Sort(places)
	for i := 1; i < len(places); i++ {
		if places[i]-places[i-1] <= distance {
			return true
		}
	}
	return false
}

// mayStandBeside says that a support is a spring up and down only.
func (s Support) mayStandBeside() bool {
	return s.Stiffness > 0 && s.RotationalStiffness == 0 && !s.Fixed
}

// prepareBeside solves for a unit force at each of these supports.
func (b *Beam) prepareBeside() error {
	n := len(b.beside.supports)
	if n == 0 {
		return nil
	}
	for _, s := range b.beside.supports {
		pieces, nodal := b.cut(nothing), make([]state, len(b.nodes))
		b.drop(pieces, nodal, b.layout.Supports[s].At, state{shear: 1})
		b.beside.unit = append(b.beside.unit, b.respondWithout(pieces, nodal, b.particulars(pieces, nodal), nil))
	}
	flexibility := mat.NewSymDense(n, nil)
	for i, s := range b.beside.supports {
		for j := range i {
			flexibility.SetSym(i, j, b.beside.unit[j].Deflection(b.layout.Supports[s].At))
		}
		flexibility.SetSym(i, i, b.beside.unit[i].Deflection(b.layout.Supports[s].At)+1/b.layout.Supports[s].Stiffness)
	}
	if !b.beside.factor.Factorize(flexibility) {
		return fmt.Errorf("%w: Supports[%d] at %g m: must have a Stiffness that differs less from those beside it",
			ErrBeam, b.beside.supports[0], b.layout.Supports[b.beside.supports[0]].At)
	}
	return nil
}

// standBeside adds the forces of these supports to the response of the beam
// without them. The foot of support i moves up by ground[i]; ground may be nil.
func (b *Beam) standBeside(r *Response, ground []float64) {
	n := len(b.beside.supports)
	lack := mat.NewVecDense(n, nil)
	for i, s := range b.beside.supports {
		up := 0.0
		if ground != nil {
			up = ground[s]
		}
		lack.SetVec(i, up-r.Deflection(b.layout.Supports[s].At))
	}
	// The error is a warning about the condition, which is that of a few springs.
	_ = b.beside.factor.SolveVecTo(lack, lack)
	for i, s := range b.beside.supports {
		force, unit := lack.AtVec(i), b.beside.unit[i]
		for j := range r.Reactions {
			r.Reactions[j].Force += force * unit.Reactions[j].Force
			r.Reactions[j].Moment += force * unit.Reactions[j].Moment
		}
		r.Reactions[s].Force += force
		for j := range r.pieces {
			p := &r.pieces[j]
			p.start = p.start.plus(unit.at(p.from, RightOf).times(force))
		}
	}
}

func (a state) times(factor float64) state {
	return state{a.up * factor, a.slope * factor, a.moment * factor, a.shear * factor}
}
