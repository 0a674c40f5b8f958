package segmental

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"github.com/tempstage/tempstage/section/concrete"
)

// byStiffness is a line of beam elements by the stiffness method, with superposition in time:
// it shares no code with the engine but the creep function.
type byStiffness struct {
	t       testing.TB
	x       []float64 // nodes, m
	cast    []float64 // of each element, d
	there   []bool    // of each element
	inertia float64
	model   concrete.TimeModel // nil: elastic
	modulus concrete.Model
	creepBy func(age float64) float64 // modulus to which φ relates, Pa
	held    map[int]bool              // freedoms: 2·node up, 2·node+1 rotation
	forces  map[int]float64           // in held freedoms
	moments [][3]float64              // left, middle and right of each element, sagging +
	history []momentsOfADay
	day     float64
}

type momentsOfADay struct {
	day     float64
	moments [][3]float64
}

// loading is loads down of elements (N/m), forces in freedoms, curvatures of elements (1/m).
type loading struct {
	lines      map[int]float64
	nodes      map[int]float64
	curvatures [][3]float64
}

func (b *byStiffness) e(element int, day float64) float64 {
	s, err := b.modulus.At(day - b.cast[element])
	require.NoError(b.t, err)
	return s.Modulus
}

// crept is the creep per stress of an element from one day to another.
func (b *byStiffness) crept(element int, to, from float64) float64 {
	if b.model == nil || to <= from || from <= b.cast[element] {
		return 0
	}
	phi, err := b.model.Creep(to-b.cast[element], from-b.cast[element])
	require.NoError(b.t, err)
	return phi / b.creepBy(from-b.cast[element])
}

// put puts a loading on the system as it is, with the moduli of the elements, on a day.
func (b *byStiffness) put(l loading, modulus func(element int) float64, day float64) {
	n := 2 * len(b.x)
	k, f := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	project := func(c [3]float64) (left, right float64) {
		mean := (c[0] + 4*c[1] + c[2]) / 6
		return mean - (c[2]-c[0])/2, mean + (c[2]-c[0])/2
	}
	curvature := func(i int) [3]float64 {
		if l.curvatures == nil {
			return [3]float64{}
		}
		return l.curvatures[i]
	}
	for i := range b.there {
		if !b.there[i] {
			continue
		}
		h, ei := b.x[i+1]-b.x[i], modulus(i)*b.inertia
		of := [4][4]float64{{12, 6 * h, -12, 6 * h}, {6 * h, 4 * h * h, -6 * h, 2 * h * h}, {-12, -6 * h, 12, -6 * h}, {6 * h, 2 * h * h, -6 * h, 4 * h * h}}
		for r := range 4 {
			for c := range 4 {
				k.Set(2*i+r, 2*i+c, k.At(2*i+r, 2*i+c)+of[r][c]*ei/h/h/h)
			}
		}
		w := l.lines[i]
		p, q := project(curvature(i))
		for r, v := range [4]float64{-w*h/2 + ei*(q-p)/h, -w*h*h/12 - ei*p, -w*h/2 - ei*(q-p)/h, w*h*h/12 + ei*q} {
			f.SetVec(2*i+r, f.AtVec(2*i+r)+v)
		}
	}
	for at, v := range l.nodes {
		f.SetVec(at, f.AtVec(at)+v)
	}
	solved := mat.DenseCopyOf(k)
	right := mat.VecDenseCopyOf(f)
	for at := range n {
		if b.held[at] || k.At(at, at) == 0 {
			for c := range n {
				solved.Set(at, c, 0)
			}
			solved.Set(at, at, 1)
			right.SetVec(at, 0)
		}
	}
	var u, r mat.VecDense
	require.NoError(b.t, u.SolveVec(solved, right))
	r.MulVec(k, &u)
	for at := range b.held {
		b.forces[at] += r.AtVec(at) - f.AtVec(at)
	}
	now := momentsOfADay{day: day, moments: make([][3]float64, len(b.there))}
	for i := range b.there {
		if !b.there[i] {
			continue
		}
		h, ei, w := b.x[i+1]-b.x[i], modulus(i)*b.inertia, l.lines[i]
		p, q := project(curvature(i))
		for n, s := range [3]float64{0, 0.5, 1} {
			bent := u.AtVec(2*i)*(12*s-6)/h/h + u.AtVec(2*i+1)*(6*s-4)/h + u.AtVec(2*i+2)*(6-12*s)/h/h + u.AtVec(2*i+3)*(6*s-2)/h
			m := ei*(bent-p-(q-p)*s) + w*(h*h*s/2-h*h*s*s/2-h*h/12)
			now.moments[i][n] = m
			b.moments[i][n] += m
		}
	}
	b.history = append(b.history, now)
}

// at puts a loading on with the moduli of a day.
func (b *byStiffness) at(day float64, l loading) {
	b.put(l, func(i int) float64 { return b.e(i, day) }, day)
}

// until lets creep go on to a day, in steps.
func (b *byStiffness) until(day float64, steps int) {
	if b.model != nil && day > b.day && len(b.history) > 0 {
		days, err := concrete.StepDays(b.day, day, steps)
		require.NoError(b.t, err)
		for n := 1; n < len(days); n++ {
			middle, curvatures := (days[n]+days[n-1])/2, make([][3]float64, len(b.there))
			for _, h := range b.history {
				for i := range curvatures {
					more := b.crept(i, days[n], h.day) - b.crept(i, days[n-1], h.day)
					for k := range curvatures[i] {
						curvatures[i][k] += more * h.moments[i][k] / b.inertia
					}
				}
			}
			b.put(loading{curvatures: curvatures}, func(i int) float64 { return 1 / (1/b.e(i, middle) + b.crept(i, days[n], middle)) }, middle)
		}
	}
	b.day = day
}

// letGo lets freedoms go on a day.
func (b *byStiffness) letGo(day float64, freedoms ...int) {
	l := loading{nodes: map[int]float64{}}
	for _, at := range freedoms {
		l.nodes[at] = -b.forces[at]
		delete(b.held, at)
		delete(b.forces, at)
	}
	b.at(day, l)
}

// splitEnds gives the first and the last element a node more, 1 m from the end, that has been put
// into x.
func (b *byStiffness) splitEnds() {
	n := len(b.there)
	b.there = append(append([]bool{b.there[0]}, b.there...), b.there[n-1])
	b.cast = append(append([]float64{b.cast[0]}, b.cast...), b.cast[n-1])
	b.moments = append(append([][3]float64{{}}, b.moments...), [3]float64{})
	held, forces := map[int]bool{}, map[int]float64{}
	for at := range b.held {
		held[at+2], forces[at+2] = true, b.forces[at]
	}
	b.held, b.forces = held, forces
}

// node is the node at x (m).
func (b *byStiffness) node(x float64) int {
	for i, at := range b.x {
		if at == x {
			return i
		}
	}
	b.t.Fatalf("no node at %g m", x)
	return -1
}

// moment is the moment at x (m), a node on the side of the middle of the deck, or the middle
// of an element.
func (b *byStiffness) moment(x float64) float64 {
	for i := range b.there {
		switch {
		case x == b.x[i] && x < 29:
			return b.moments[i][0]
		case x == (b.x[i]+b.x[i+1])/2:
			return b.moments[i][1]
		case x == b.x[i+1] && x > 29:
			return b.moments[i][2]
		}
	}
	b.t.Fatalf("no moment at %g m", x)
	return 0
}
