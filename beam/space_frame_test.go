package beam_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// frame is the same member by the direct stiffness method: elements of twelve
// freedoms between nodes on the axis, whose ends reach centroid and shear
// centre by rigid arms. It shares no formula with the package.
type frame struct {
	nodes []float64
	k     *mat.Dense
	load  *mat.VecDense
}

// eccentric takes the movements of a node on the axis to those an element
// feels: u at the centroid, v and w at the shear centre, three rotations.
func eccentric(c beam.CrossSection) *mat.Dense {
	t := mat.NewDense(6, 6, nil)
	for i := range 6 {
		t.Set(i, i, 1)
	}
	t.Set(0, 4, c.Centroid.Z) // u − θz·y + θy·z
	t.Set(0, 5, -c.Centroid.Y)
	t.Set(1, 3, -c.ShearCentre.Z)
	t.Set(2, 3, c.ShearCentre.Y)
	return t
}

// element is the stiffness of a bar about its own axes, with the 2×2 bending
// stiffness of an unsymmetrical section. Its shapes are Hermite's: w' = −θy.
func element(c beam.CrossSection, h float64) *mat.Dense {
	k := mat.NewDense(12, 12, nil)
	hermite := [4][4]float64{{12, 6 * h, -12, 6 * h}, {6 * h, 4 * h * h, -6 * h, 2 * h * h}, {-12, -6 * h, 12, -6 * h}, {6 * h, 2 * h * h, -6 * h, 4 * h * h}}
	w, v := [4]int{2, 4, 8, 10}, [4]int{1, 5, 7, 11}
	sign := [4]float64{1, -1, 1, -1}
	for i := range 4 {
		for j := range 4 {
			f := hermite[i][j] / (h * h * h)
			k.Set(w[i], w[j], f*c.BendingY*sign[i]*sign[j])
			k.Set(v[i], v[j], f*c.BendingZ)
			k.Set(w[i], v[j], f*c.BendingYZ*sign[i])
			k.Set(v[j], w[i], f*c.BendingYZ*sign[i])
		}
	}
	for _, e := range []struct {
		at int
		k  float64
	}{{0, c.Axial / h}, {3, c.Torsional / h}} {
		k.Set(e.at, e.at, e.k)
		k.Set(e.at+6, e.at+6, e.k)
		k.Set(e.at, e.at+6, -e.k)
		k.Set(e.at+6, e.at, -e.k)
	}
	return k
}

func newFrame(l beam.SpaceLayout, points []beam.SpacePoint) *frame {
	f := &frame{nodes: append([]float64{0, l.Length}, l.Breaks...)}
	for _, r := range l.Supports {
		f.nodes = append(f.nodes, r.X)
	}
	for _, p := range points {
		f.nodes = append(f.nodes, p.X)
	}
	slices.Sort(f.nodes)
	f.nodes = slices.Compact(f.nodes)
	n := 6 * len(f.nodes)
	f.k, f.load = mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	for i := range len(f.nodes) - 1 {
		h := f.nodes[i+1] - f.nodes[i]
		c := l.Section(f.nodes[i] + h/2)
		arms := mat.NewDense(12, 12, nil)
		arms.Slice(0, 6, 0, 6).(*mat.Dense).Copy(eccentric(c))
		arms.Slice(6, 12, 6, 12).(*mat.Dense).Copy(eccentric(c))
		var k mat.Dense
		k.Product(arms.T(), element(c, h), arms)
		block := f.k.Slice(6*i, 6*i+12, 6*i, 6*i+12).(*mat.Dense)
		block.Add(block, &k)
	}
	for _, p := range points {
		at := f.node(p.X)
		m := r3.Add(p.Couple, r3.Cross(r3.Vec{Y: p.Y, Z: p.Z}, p.Force))
		for i, v := range []float64{p.Force.X, p.Force.Y, p.Force.Z, m.X, m.Y, m.Z} {
			f.load.SetVec(at+i, f.load.AtVec(at+i)+v)
		}
	}
	return f
}

func (f *frame) node(x float64) int {
	i, _ := slices.BinarySearch(f.nodes, x)
	return 6 * i
}

// solve borders the stiffness with one unknown force for each restraint or
// group: directions · movements + force/k = level.
func (f *frame) solve(t *testing.T, l beam.SpaceLayout, g beam.Setting) (moved, reactions []float64) {
	t.Helper()
	n, m := f.load.Len(), len(l.Supports)
	k, right := mat.NewDense(n+m, n+m, nil), mat.NewVecDense(n+m, nil)
	k.Slice(0, n, 0, n).(*mat.Dense).Copy(f.k)
	right.SliceVec(0, n).(*mat.VecDense).CopyVec(f.load)
	groups := map[string]int{}
	for i, r := range l.Supports {
		row := n + i
		if first, known := groups[r.Group]; known && r.Group != "" { // the same unknown; its own row says that its copy is zero
			k.Set(row, row, 1)
			row = n + first
		} else {
			groups[r.Group] = i
		}
		d := r.Direction
		arm := r3.Cross(r3.Vec{Y: r.Y, Z: r.Z}, d)
		column := []float64{d.X, d.Y, d.Z, arm.X, arm.Y, arm.Z}
		if r.Couple {
			column = []float64{0, 0, 0, d.X, d.Y, d.Z}
		}
		at := f.node(r.X)
		for j, v := range column {
			k.Set(row, at+j, k.At(row, at+j)+v)
			k.Set(at+j, row, k.At(at+j, row)-v)
		}
		if r.Stiffness > 0 {
			k.Set(row, row, k.At(row, row)+1/r.Stiffness)
			if g.Preload != nil {
				right.SetVec(row, right.AtVec(row)+g.Preload[i]/r.Stiffness)
			}
		}
		if g.Level != nil {
			right.SetVec(row, right.AtVec(row)+g.Level[i])
		}
	}
	inGiganewtons(k, right, n)
	var x mat.VecDense
	require.NoError(t, x.SolveVec(k, right))
	moved, reactions = x.RawVector().Data[:n], x.RawVector().Data[n:]
	for i := range reactions {
		reactions[i] *= giganewton
	}
	for i, r := range l.Supports {
		if r.Group != "" {
			reactions[i] = reactions[groups[r.Group]]
		}
	}
	return moved, reactions
}

// giganewton is the unit in which the frame counts forces, so that its matrix
// has terms of one size.
const giganewton = 1e9

func inGiganewtons(k *mat.Dense, right *mat.VecDense, n int) {
	size, _ := k.Dims()
	for i := range size {
		for j := n; j < size; j++ {
			k.Set(i, j, k.At(i, j)*giganewton)
		}
	}
	for i := range n {
		for j := range size {
			k.Set(i, j, k.At(i, j)/giganewton)
		}
		right.SetVec(i, right.AtVec(i)/giganewton)
	}
}

// Loads at points on random members with stepped unsymmetrical sections,
// elastic and linked restraints, levels and preloads: forces and movements are
// those of the frame.
func TestSpaceAgainstFrame(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		l := s.space(6 + int(seed%6))
		a := beam.SpaceLoads{Points: s.actions(l.Length).Points}
		snap := func(x float64) float64 { return math.Round(x*20/l.Length) * l.Length / 20 } // no short elements: they spoil the frame
		l.Breaks[0] = snap(l.Breaks[0])
		l.Section = stepped(l.Breaks[0], s.crossSection(), s.crossSection())
		for i := range l.Supports {
			l.Supports[i].X = snap(l.Supports[i].X)
		}
		for i := range a.Points {
			a.Points[i].X = snap(a.Points[i].X)
		}
		g := beam.Setting{}
		for _, r := range l.Supports {
			g.Level = append(g.Level, s.in(-.01, .01))
			if r.Stiffness > 0 {
				g.Preload = append(g.Preload, s.in(0, 1e5))
			} else {
				g.Preload = append(g.Preload, 0)
			}
		}
		f := newFrame(l, a.Points)
		moved, reactions := f.solve(t, l, g)
		r := inSpace(t, l, a, g)
		largest, farthest := 0.0, 0.0
		for i := range reactions {
			largest = max(largest, reactions[i], -reactions[i])
		}
		for i := range moved {
			farthest = max(farthest, moved[i], -moved[i])
		}
		// 1e-6: rounding of the frame's element stiffnesses disturbs its equilibrium by 1e-7 where supports hardly hold a direction.
		require.InDeltaSlice(t, reactions, r.Reactions(), 1e-6*largest, "seed %d", seed)
		for i, x := range f.nodes {
			shift, turn := r.Move(x)
			require.InDeltaSlice(t, moved[6*i:6*i+6], []float64{shift.X, shift.Y, shift.Z, turn.X, turn.Y, turn.Z}, 1e-6*farthest, "seed %d at %g m", seed, x)
		}
	}
}
