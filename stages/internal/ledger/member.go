package ledger

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mat"

	"github.com/tempstage/tempstage/section"
)

// member is a body of open section in warping torsion (Vlasov 1940): with the twist
// θ' and E·θ' = ψ
//
//	∫(J/(2(1+ν))·ψ·δψ + Cw·ψ'·δψ') dx = ∫(T·δψ + b·δψ') dx,  B/Cw = ψ'
//
// for the torque T about the shear centre and the bimoment b that eccentric axial
// forces bring in. Its ends, and its supports, let it warp. ψ is of degree 8 in parts
// of each stretch.
type member struct {
	nodes  [][Nodes]memberNode // of each of its stretches
	at     []int               // those stretches of the grid
	slots  []int               // slot of the member in each
	parts  []memberPart
	factor mat.BandCholesky
}

type memberNode struct {
	station   *Station
	sectorial section.Sectorial
	centre    section.Point // shear centre
	twisting  float64       // J/(2(1+ν)), m⁴
}

// memberPart is an element: a part of a stretch, −1 to 1.
type memberPart struct {
	stretch  int // of the member
	from, to float64
	half     float64 // of its length, m
}

// poisson is Poisson's ratio of uncracked concrete, EN 1992-1-1:2004 3.1.3(4).
const poisson = 0.2

// reach is how far warping must reach, as a part of the larger dimension of the
// section, to be followed: what dies out sooner is a disturbance where a torque
// enters.
const reach = 0.5

// member is the body of a state as a member that warps; nil where it has voids, is
// joined side by side, or warping dies out within half a section.
func (l *Ledger) member(state *State) *member {
	if !l.open {
		return nil
	}
	m, ok := l.members[state]
	if !ok {
		m = l.newMember(state)
		l.members[state] = m
	}
	return m
}

func (l *Ledger) newMember(state *State) *member {
	m := &member{}
	reaches := false
	for k := range l.grid {
		slot := -1
		for i := range l.grid[k].At[0].Pieces {
			if state.Ratio(l.grid[k].At[0].Pieces[i].Index) == 0 {
				continue
			}
			if slot >= 0 {
				return nil
			}
			slot = i
		}
		if slot < 0 {
			continue
		}
		var nodes [Nodes]memberNode
		for n, at := range l.grid[k].At {
			piece := &at.Pieces[slot]
			sectorial, ok := l.sectorial(piece)
			if !ok {
				return nil
			}
			walls, err := l.wallsOf(piece)
			if err != nil {
				return nil
			}
			nodes[n] = memberNode{at, sectorial, walls.ShearCentre, walls.Constant / (2 * (1 + poisson))}
			g := piece.Gross
			size := math.Max(g.Top+g.Bottom, g.Left+g.Right)
			reaches = reaches || sectorial.Constant >= nodes[n].twisting*(reach*size)*(reach*size)
		}
		m.nodes, m.at, m.slots = append(m.nodes, nodes), append(m.at, k), append(m.slots, slot)
		m.cut(len(m.at)-1, l.grid[k].To-l.grid[k].From)
	}
	if !reaches || !m.lay() {
		return nil
	}
	return m
}

// cut cuts a stretch into parts in which warping decays by a factor of up to e².
func (m *member) cut(k int, length float64) {
	const decay, most = 2, 16
	steepest := 0.0
	for i := range m.nodes[k] {
		n := &m.nodes[k][i]
		steepest = math.Max(steepest, math.Sqrt(n.twisting/n.sectorial.Constant))
	}
	number := int(math.Max(1, math.Min(most, math.Ceil(steepest*length/decay))))
	for i := range number {
		m.parts = append(m.parts, memberPart{k, -1 + 2*float64(i)/float64(number), -1 + 2*float64(i+1)/float64(number), length / float64(2*number)})
	}
}

// place in the stretch of a place in the part, −1 to 1 both.
func (p *memberPart) place(t float64) float64 { return p.from + (t+1)/2*(p.to-p.from) }

// curve of a property of the nodes.
func (m *member) curve(k int, of func(*memberNode) float64) (c Curve) {
	for n := range c {
		c[n] = of(&m.nodes[k][n])
	}
	return c
}

// lay sets up and factorises the equations.
func (m *member) lay() bool {
	size := degree*len(m.parts) + 1
	band := mat.NewSymBandDense(size, degree, nil)
	for e := range m.parts {
		p := &m.parts[e]
		twisting := m.curve(p.stretch, func(n *memberNode) float64 { return n.twisting })
		warping := m.curve(p.stretch, func(n *memberNode) float64 { return n.sectorial.Constant })
		for g, w := range ruleWeights {
			t := p.place(rulePlaces[g])
			j, c := w*p.half*twisting.At(t), w/p.half*warping.At(t)
			for a := range Nodes {
				for b := a; b < Nodes; b++ {
					i, k := degree*e+a, degree*e+b
					band.SetSymBand(i, k, band.At(i, k)+j*ruleValues[g][a]*ruleValues[g][b]+c*ruleSlopes[g][a]*ruleSlopes[g][b])
				}
			}
		}
	}
	return m.factor.Factorize(band)
}

// solve is B/Cw by a torque about the shear centre (N·m) and a bimoment (N·m²) known
// at the nodes.
func (m *member) solve(acting func(at *memberNode) (torque, bimoment float64)) warped {
	torques, bimoments := make([]Curve, len(m.at)), make([]Curve, len(m.at))
	for k := range m.nodes {
		for n := range m.nodes[k] {
			torques[k][n], bimoments[k][n] = acting(&m.nodes[k][n])
		}
	}
	right := mat.NewVecDense(degree*len(m.parts)+1, nil)
	for e := range m.parts {
		p := &m.parts[e]
		for g, w := range ruleWeights {
			t := p.place(rulePlaces[g])
			torque, bimoment := w*p.half*torques[p.stretch].At(t), w*bimoments[p.stretch].At(t)
			for a := range Nodes {
				i := degree*e + a
				right.SetVec(i, right.AtVec(i)+torque*ruleValues[g][a]+bimoment*ruleSlopes[g][a])
			}
		}
	}
	var twist mat.VecDense
	if err := m.factor.SolveVecTo(&twist, right); err != nil {
		return nil
	}
	return m.slopes(&twist)
}

// slopes is ψ' at the nodes of the stretches.
func (m *member) slopes(twist *mat.VecDense) warped {
	w := make(warped, len(m.at))
	for e := range m.parts {
		p := &m.parts[e]
		c := w[m.at[p.stretch]]
		if c == nil {
			c = &warpedAt{slot: m.slots[p.stretch]}
			w[m.at[p.stretch]] = c
		}
		for n, place := range nodePlaces {
			if place < p.from || place > p.to {
				continue
			}
			slopes := slopesAt(2*(place-p.from)/(p.to-p.from) - 1)
			c.Curve[n] = 0
			for a := range Nodes {
				c.Curve[n] += slopes[a] / p.half * twist.AtVec(degree*e+a)
			}
		}
	}
	return w
}

// Gauss's rule for products of two polynomials through the nodes and a property, with
// the values and slopes of those polynomials.
const rulePoints = 12

var rulePlaces, ruleWeights, ruleValues, ruleSlopes = func() (at, weight [rulePoints]float64, value, slope [rulePoints]Curve) {
	quad.Legendre{}.FixedLocations(at[:], weight[:], -1, 1)
	for g, t := range at {
		value[g], slope[g] = shares(t), slopesAt(t)
	}
	return at, weight, value, slope
}()

// slopesAt are the slopes at t of the polynomials that are 1 at one node and 0 at the
// others: from their Bernstein coefficients.
func slopesAt(t float64) (slope Curve) {
	for j := range slope {
		var unit Curve
		unit[j] = 1
		b, _ := unit.control()
		for i := range b {
			b[i] += unit[0]
		}
		_, s, _ := b.at((t + 1) / 2)
		slope[j] = s / 2
	}
	return slope
}
