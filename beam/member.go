package beam

import "fmt"

// member is the beam between two neighbouring nodes. The four flexibilities
// are what a cantilever fixed at its left end does at its right end:
//
//	by a moment: rotation ∫f, rise ∫(L−s)·f
//	by a shear:  rotation ∫s·f, rise ∫(L−s)·s·f − ∫g
//
// with f = 1/EI, g = 1/GA, s from the left end and M = M₀ + V₀·s.
type member struct {
	from, to     float64
	first, last  int  // its panels in Beam.panels
	leftTip      bool // its left end is free
	rightTip     bool // its right end is free
	turnM, riseM float64
	turnV, riseV float64
	inverse      float64 // 1/(turnM·riseV − turnV·riseM)
}

func (m *member) length() float64 { return m.to - m.from }

// integrate sets the flexibilities of the member from its panels, exactly.
func (m *member) integrate(panels []panel) error {
	byMoment, byShear := state{moment: 1}, state{shear: 1}
	for i := range panels {
		p := piece{from: panels[i].from, to: panels[i].to, law: &panels[i]}
		byMoment = p.at(p.to-p.from, byMoment)
		byShear = p.at(p.to-p.from, byShear)
	}
	m.turnM, m.riseM = byMoment.slope, byMoment.up
	m.turnV, m.riseV = byShear.slope, byShear.up
	determinant := m.turnM*m.riseV - m.turnV*m.riseM
	m.inverse = 1 / determinant
	if determinant == 0 || !finite(determinant) || !finite(m.inverse) {
		return fmt.Errorf("%w: stiffness between %g m and %g m: flexibility ∫1/EI = %g 1/(N·m): must be finite",
			ErrBeam, m.from, m.to, m.turnM)
	}
	return nil
}

// start is the state just inside the left end of a member whose ends move by
// moved (up left, rotation left, up right, rotation right) and whose loads, as
// on a cantilever at rest at its left end, end in particular.
func (m *member) start(moved [4]float64, particular state) state {
	if m.leftTip {
		slope := moved[3] - particular.slope
		return state{up: moved[2] - particular.up - slope*m.length(), slope: slope}
	}
	s := state{up: moved[0], slope: moved[1]}
	if m.rightTip {
		s.shear = -particular.shear
		s.moment = particular.shear*m.length() - particular.moment
		return s
	}
	turn := moved[3] - particular.slope - s.slope
	rise := moved[2] - particular.up - s.up - m.length()*s.slope
	s.moment = (m.riseV*turn - m.turnV*rise) * m.inverse
	s.shear = (m.turnM*rise - m.riseM*turn) * m.inverse
	return s
}

// forces is what the nodes must give the member, in the order of moved (N up
// and N·m anticlockwise).
func (m *member) forces(moved [4]float64, particular state) [4]float64 {
	s := m.start(moved, particular)
	return [4]float64{
		s.shear,
		-s.moment,
		-(s.shear + particular.shear),
		s.moment + s.shear*m.length() + particular.moment,
	}
}

// stiffness is the member's 4 × 4 stiffness matrix: row by row the forces that
// a unit of each movement asks for. Only its lower triangle is filled.
func (m *member) stiffness() (k [4][4]float64) {
	l := m.length()
	a, b := m.riseV*m.inverse, m.turnV*m.inverse // moment by turn, by rise
	c, d := m.turnM*m.inverse, m.riseM*m.inverse // shear by rise, by turn
	k[0][0] = -c
	k[1][0], k[1][1] = d-c*l, a-b*l
	k[2][0], k[2][1], k[2][2] = c, b, -c
	k[3][0], k[3][1], k[3][2], k[3][3] = -d, -a, d, a-d*l
	return k
}

// movements is the numbers of the unknowns of member i.
func (b *Beam) movements(i int) [4]int {
	left, right := &b.nodes[i], &b.nodes[i+1]
	return [4]int{left.up, left.right, right.up, right.left}
}
