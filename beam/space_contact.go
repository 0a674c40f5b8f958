package beam

import (
	"fmt"
	"math"
)

// spaceContact is the complementarity of OneWay supports, prepared once. The
// unknowns are the openings of primary ones and the forces of redundant ones,
// with their forces and openings as complements:
//
//	force of i   = force with redundant ones off + Σ stiffness·opening + Σ state·force
//	opening of k = opening without force − Σ state·opening + Σ flexibility·force
//
// The matrix is positive semidefinite and needs no stiffness where equilibrium
// decides.
type spaceContact struct {
	primary []int // columns
	matrix  [][]float64
	scale   []float64 // unknown i is scale[i] × the one of the scaled system
}

// prepareSpaceContact sets up the matrix with terms of order 1.
func (s *Space) prepareSpaceContact() {
	c := &s.contact
	for _, j := range s.primary.columns {
		if s.columns[j].oneWay {
			c.primary = append(c.primary, j)
		}
	}
	states := s.stress.oneWay
	if len(s.columns) == s.primary.rank() || len(c.primary)+len(states) == 0 {
		return
	}
	n := len(c.primary)
	c.matrix = make([][]float64, n+len(states))
	for i := range c.matrix {
		c.matrix[i] = make([]float64, n+len(states))
	}
	for a, i := range c.primary {
		for b, j := range c.primary {
			for k := range s.stress.twoWay {
				t := &s.stress.twoWay[k]
				c.matrix[a][b] += t.forces[i] * t.forces[j] / t.energy
			}
		}
		for b := range states {
			c.matrix[a][n+b] = states[b].forces[i]
			c.matrix[n+b][a] = -states[b].forces[i]
		}
	}
	for a := range states {
		for b := range states {
			c.matrix[n+a][n+b] = dot(states[a].forces, states[b].give)
		}
	}
	c.scaleMatrix(n, s.softest())
}

// scaleMatrix brings the diagonal to 1 where it is not zero, and the openings
// of primary supports to the scale of the flexibilities.
func (c *spaceContact) scaleMatrix(primary int, softest float64) {
	typical := 0.0
	for i := primary; i < len(c.matrix); i++ {
		typical = max(typical, c.matrix[i][i])
	}
	if typical <= noEnergy*softest {
		typical = softest
	}
	c.scale = make([]float64, len(c.matrix))
	for i := range c.scale {
		d := c.matrix[i][i]
		switch {
		case i < primary && d*typical > negligible:
			c.scale[i] = 1 / math.Sqrt(d)
		case i < primary:
			c.scale[i] = math.Sqrt(typical)
		case d > noEnergy*softest:
			c.scale[i] = 1 / math.Sqrt(d)
		default:
			c.scale[i] = 1 / math.Sqrt(typical)
		}
	}
	for i := range c.matrix {
		for j := range c.matrix {
			c.matrix[i][j] *= c.scale[i] * c.scale[j]
			if math.Abs(c.matrix[i][j]) < negligible {
				c.matrix[i][j] = 0
			}
		}
	}
}

// touch finds the forces and openings of all columns. base is the forces in
// equilibrium with the redundant columns off, and misfit what the supports
// lack to follow the member in that state.
func (s *Space) touch(base, misfit []float64) (forces, openings []float64, err error) {
	c, n := &s.contact, len(s.contact.primary)
	states := s.stress.oneWay
	forces, openings = append([]float64(nil), base...), make([]float64, len(base))
	s.relieve(forces, s.stress.twoWay, misfit)
	q, worst := make([]float64, len(c.matrix)), 0.0
	largest := largestOf(forces)
	for i, j := range c.primary {
		if math.Abs(forces[j]) > negligible*largest {
			q[i] = forces[j] * c.scale[i]
		}
	}
	for k := range states {
		gap, sum := 0.0, 0.0
		for j, force := range states[k].forces {
			gap -= force * misfit[j]
			sum += math.Abs(force * misfit[j])
		}
		if math.Abs(gap) > negligible*sum {
			q[n+k] = gap * c.scale[n+k]
		}
	}
	for _, v := range q {
		worst = max(worst, math.Abs(v))
	}
	if worst == 0 {
		return forces, openings, nil
	}
	for i := range q {
		q[i] /= worst
	}
	z, ok := complementary(c.matrix, q)
	if !ok {
		return nil, nil, s.tips()
	}
	for i, j := range c.primary {
		openings[j] = z[i] * worst * c.scale[i]
	}
	s.relieve(forces, s.stress.twoWay, openings)
	for k := range states {
		force := z[n+k] * worst * c.scale[n+k]
		for j, unit := range states[k].forces {
			forces[j] += force * unit
		}
	}
	if err := s.balanced(base, forces); err != nil {
		return nil, nil, err
	}
	return forces, openings, s.settled(forces, openings, misfit)
}

// balanced refuses forces that left equilibrium by rounding: those of closed
// contacts, which contact takes away again, were too large beside what is left.
func (s *Space) balanced(base, forces []float64) error {
	var left vector6
	for j := range forces {
		left.add(forces[j]-base[j], &s.columns[j].acts)
	}
	if size, largest := math.Sqrt(left.dot(&left)), largestOf(forces); !(size <= residue*largest) {
		return fmt.Errorf("%w: contact was not found, the error is %g N of %g N: must have Levels, stiffnesses and distances that differ less", ErrBeam, size, largest)
	}
	return nil
}

// relieve adds states of self-stress so that the misfit does no more work on
// them.
func (s *Space) relieve(forces []float64, states []selfState, misfit []float64) {
	for i := range states {
		t := &states[i]
		factor := dot(t.forces, misfit) / t.energy
		for j := range forces {
			forces[j] += factor * t.forces[j]
		}
	}
}

// settled sets openings of redundant supports from their states and makes sure
// that no OneWay support pulls and none that is open pushes.
func (s *Space) settled(forces, openings, misfit []float64) error {
	largest := largestOf(forces)
	for k := range s.stress.oneWay {
		t := &s.stress.oneWay[k]
		if math.Abs(forces[t.column]) > residue*largest {
			continue
		}
		gap := -dot(t.forces, misfit)
		for i := range s.contact.primary {
			j := s.contact.primary[i]
			gap -= t.forces[j] * openings[j]
		}
		for m := range s.stress.oneWay {
			o := &s.stress.oneWay[m]
			gap += dot(t.forces, o.give) * forces[o.column]
		}
		openings[t.column] = max(gap, 0)
	}
	for j := range s.columns {
		if !s.columns[j].oneWay {
			continue
		}
		if !(forces[j] >= -residue*largest) || openings[j] > 0 && !(forces[j] <= residue*largest) {
			r := &s.layout.Supports[s.columns[j].members[0]]
			return fmt.Errorf("%w: Supports[%d] %s: contact was not found, the error is %g N of %g N: must have stiffnesses and distances that differ less",
				ErrBeam, s.columns[j].members[0], r.place(), forces[j], largest)
		}
		if openings[j] > 0 {
			forces[j] = 0
		}
		forces[j] = max(forces[j], 0)
	}
	return nil
}

// tips is the error of OneWay supports that cannot carry the member.
func (s *Space) tips() error {
	return fmt.Errorf("%w: OneWay supports cannot carry the member: it would overturn or lift off, or Levels press rigid supports against each other: "+
		"must have loads whose resultant they can take", ErrBeam)
}

func largestOf(values []float64) float64 {
	largest := 0.0
	for _, v := range values {
		largest = max(largest, math.Abs(v))
	}
	return largest
}
