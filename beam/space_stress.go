package beam

import (
	"fmt"
	"math"
	"strings"
)

// selfStress is what the redundant supports can do to each other: states of
// forces that are in equilibrium without load, one for each redundant column,
// carried by the primary ones. Two states are orthogonal when neither does
// work on the deformations of the other.
type selfStress struct {
	twoWay []selfState // orthogonal to each other
	oneWay []selfState // of redundant OneWay columns, orthogonal to twoWay only
	closed []selfState // all of them, orthogonal to each other: every OneWay support touches
	// opposed: two rigid OneWay supports press against each other (a leg and
	// its tie-down bar); no stiffness says how hard, contact says they do not.
	opposed bool
}

// selfState is one state of self-stress.
type selfState struct {
	column int       // the redundant one, whose force is 1
	forces []float64 // of every column, divided by its scale
	give   []float64 // how far member and supports give way at every column, up to a rigid-body motion
	energy float64   // forces · give, > 0
}

// noEnergy is the part of the energy of a unit force over the length of the
// member below which a state has none: supports within 1e-9 of a length, the
// distance that counts as one place, squared.
const noEnergy = samePlace * samePlace

// findSelfStress makes the states, two-way columns first. Each is made
// orthogonal by subtracting others and its forces are integrated anew, so that
// supports 1 mm apart keep their digits.
func (s *Space) findSelfStress() error {
	primary := make([]bool, len(s.columns))
	for _, j := range s.primary.columns {
		primary[j] = true
	}
	t := &s.stress
	for _, oneWay := range []bool{false, true} {
		for j := range s.columns {
			if primary[j] || s.columns[j].oneWay != oneWay {
				continue
			}
			state := selfState{column: j, forces: make([]float64, len(s.columns))}
			state.forces[j] = 1
			s.balance(state.forces, vector6{})
			s.separate(&state, t.twoWay)
			if oneWay {
				t.oneWay = append(t.oneWay, state.copied())
			}
			s.separate(&state, t.closed)
			switch {
			case state.energy > noEnergy*s.softest():
				t.closed = append(t.closed, state)
				if !oneWay {
					t.twoWay = append(t.twoWay, state)
				}
			case s.opposed(&state):
				t.opposed = true
			default:
				return s.undecided(&state)
			}
		}
	}
	s.prepareSpaceContact()
	return nil
}

func (a *selfState) copied() selfState {
	b := *a
	b.forces = append([]float64(nil), a.forces...)
	return b
}

// separate makes a state orthogonal to others, twice, and integrates what it
// does.
func (s *Space) separate(state *selfState, others []selfState) {
	for range 2 {
		for i := range others {
			o := &others[i]
			factor := dot(o.give, state.forces) / o.energy
			for j := range state.forces {
				state.forces[j] -= factor * o.forces[j]
			}
		}
	}
	state.give = s.give(state.forces)
	state.energy = dot(state.give, state.forces)
}

// give is how far the member and the supports give way at each column.
func (s *Space) give(forces []float64) []float64 {
	c := s.cut(&SpaceLoads{}, nil)
	s.support(c, forces)
	w := walk{member: &s.member, cuts: c}
	out := make([]float64, len(forces))
	s.moved(c.places, w.along(), out)
	s.yield(forces, out)
	return out
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// softest is the scale of energies: a unit force over the whole member, or on
// the softest support of a rigid one.
func (s *Space) softest() float64 {
	if s.member.scale > 0 {
		return s.member.scale
	}
	scale := 0.0
	for j := range s.columns {
		scale = max(scale, s.columns[j].compliance)
	}
	for k := range s.hanging {
		for a := range s.hanging[k].give {
			scale = max(scale, s.hanging[k].give[a][a])
		}
	}
	return scale
}

// opposed says that a state is two OneWay supports that press against each
// other and nothing else.
func (s *Space) opposed(state *selfState) bool {
	pressing := 0
	for j, force := range state.forces {
		if math.Abs(force) < heldBelow {
			continue
		}
		if !s.columns[j].oneWay || force < 0 {
			return false
		}
		pressing++
	}
	return pressing == 2
}

// undecided is the error that no stiffness says how supports share.
func (s *Space) undecided(state *selfState) error {
	r := &s.layout.Supports[s.columns[state.column].members[0]]
	reason := "the member and these supports are rigid"
	if s.layout.Section != nil {
		reason = "these supports and the member between them are rigid"
	}
	var others []string
	for j, force := range state.forces {
		if j != state.column && math.Abs(force) > heldBelow {
			m := s.columns[j].members[0]
			others = append(others, fmt.Sprintf("Supports[%d] %s", m, s.layout.Supports[m].place()))
		}
	}
	return fmt.Errorf("%w: Supports[%d] %s: statics does not give its share beside %s, and %s: must have a Stiffness, be in one Group, or be left out",
		ErrBeam, s.columns[state.column].members[0], r.place(), strings.Join(others, ", "), reason)
}
