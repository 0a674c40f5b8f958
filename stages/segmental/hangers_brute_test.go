package segmental_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/segmental"
)

// dense is deck, gantry, hangers and jacks as one dense system: beams of cubic elements
// between all places, springs that push or pull in one sense only.
type dense struct {
	places       []float64 // m
	deck, gantry float64   // EI
	stands       [2]float64
	hangers      []int // places
	stiffness    []float64
	jacks        [2]int
	jack         float64
}

// solve is what changes: hanger and jack forces start at first ones, the deck gets a
// curvature (1/m, + sagging), hangers are lowered; forces that would be negative are zero.
func (d dense) solve(t *testing.T, first, firstJacks []float64, curvature float64, lowered []float64) (hangers, jacks []float64) {
	n := len(d.places)
	active, pushing := make([]bool, len(d.hangers)), []bool{true, true}
	for i := range active {
		active[i] = true
	}
	for range 60 {
		k, f := mat.NewDense(4*n, 4*n, nil), mat.NewVecDense(4*n, nil)
		add := func(i, j int, v float64) { k.Set(i, j, k.At(i, j)+v) }
		for e := range n - 1 {
			l := d.places[e+1] - d.places[e]
			for b, ei := range []float64{d.deck, d.gantry} {
				m := [4][4]float64{{12, 6 * l, -12, 6 * l}, {6 * l, 4 * l * l, -6 * l, 2 * l * l}, {-12, -6 * l, 12, -6 * l}, {6 * l, 2 * l * l, -6 * l, 4 * l * l}}
				at := [4]int{2*n*b + 2*e, 2*n*b + 2*e + 1, 2*n*b + 2*e + 2, 2*n*b + 2*e + 3}
				for i := range 4 {
					for j := range 4 {
						add(at[i], at[j], ei/(l*l*l)*m[i][j])
					}
				}
			}
			f.SetVec(2*e+1, f.AtVec(2*e+1)-d.deck*curvature)
			f.SetVec(2*e+3, f.AtVec(2*e+3)+d.deck*curvature)
		}
		for i, p := range d.hangers {
			up, down := 2*p, 2*n+2*p
			if !active[i] {
				f.SetVec(up, f.AtVec(up)-first[i])
				f.SetVec(down, f.AtVec(down)+first[i])
				continue
			}
			s := d.stiffness[i]
			add(up, up, s)
			add(down, down, s)
			add(up, down, -s)
			add(down, up, -s)
			f.SetVec(up, f.AtVec(up)-s*lowered[i])
			f.SetVec(down, f.AtVec(down)+s*lowered[i])
		}
		for j, p := range d.jacks {
			if pushing[j] {
				add(2*p, 2*p, d.jack)
			} else {
				f.SetVec(2*p, f.AtVec(2*p)-firstJacks[j])
			}
		}
		for _, x := range d.stands {
			p := 2*n + 2*slices.Index(d.places, x)
			add(p, p, 1e17)
		}
		var u mat.VecDense
		require.NoError(t, u.SolveVec(k, f))
		hangers, jacks = make([]float64, len(d.hangers)), make([]float64, 2)
		settled := true
		for i, p := range d.hangers {
			force := first[i] + d.stiffness[i]*(u.AtVec(2*n+2*p)-u.AtVec(2*p)-lowered[i])
			if force < 0 == active[i] {
				active[i], settled = !active[i], false
			}
			hangers[i] = math.Max(0, force)
		}
		for j, p := range d.jacks {
			force := firstJacks[j] - d.jack*u.AtVec(2*p)
			if force < 0 == pushing[j] {
				pushing[j], settled = !pushing[j], false
			}
			jacks[j] = math.Max(0, force)
		}
		if settled {
			return hangers, jacks
		}
	}
	t.Fatal("contact does not settle")
	return nil, nil
}

// bruteOf is the dense system of blocks on hangers.
func bruteOf(t *testing.T, g stages.Girder, h segmental.Hangers, gantry float64, ducts ...float64) dense {
	state, err := g.Pieces[0].Element.Concrete.At(28)
	require.NoError(t, err)
	inertia, _ := netInertia(ducts...)
	d := dense{deck: state.Modulus * inertia, gantry: gantry, stands: [2]float64{0, 36}, jack: jackStiff, places: []float64{0, 0.4, spanLength - 0.4, spanLength}}
	for _, one := range h.List {
		d.places = append(d.places, one.X)
	}
	slices.Sort(d.places)
	for _, one := range h.List {
		d.hangers = append(d.hangers, slices.Index(d.places, one.X))
		d.stiffness = append(d.stiffness, 2*h.Modulus*h.Area/one.Length)
	}
	d.jacks = [2]int{slices.Index(d.places, 0.4), slices.Index(d.places, spanLength-0.4)}
	return d
}

// hangerForces are the forces of pairs and of the jacks at each end.
func hangerForces(e stages.Effects, number int) (hangers, jacks []float64) {
	jacks = make([]float64, 2)
	for i, r := range e.Reactions {
		if i < number {
			hangers = append(hangers, r.Nominal)
		} else {
			jacks[(i-number)/2] += r.Nominal
		}
	}
	return hangers, jacks
}

// One stressing step while hung, then one lowering step, against the dense system: every
// force within a millionth of the weight.
func TestHungSpanByBruteForce(t *testing.T) {
	const gantry = 9e9
	for _, z := range []float64{0.3, 1.45} { // it hogs, and it sags off its jacks
		g, h := hungBlocks(t, straightAt("T", z))
		jacks := ends(jackStiff)
		hang := segmental.HangSegments{Age: 28, Hangers: h}
		closed := segmental.CloseJoints{Age: 28, Hangers: h, Jacks: jacks, Epoxy: segmental.EpoxyAASHTO, Bars: nil}
		closed.Bars = append(closed.Bars, pull(barStress, "T"))
		weight, first := blockWeight*3.6, []float64{}
		for range 10 {
			first = append(first, weight*(2.8-1.8)/2.1, weight*(1.8-0.7)/2.1)
		}
		before, _ := hangerForces(effectsOf(t, g, stages.Plan{hang}, 1, 1), 20)
		require.InDeltaSlice(t, first, before, 1e-3)
		d := bruteOf(t, g, h, gantry, z)
		_, centroid := netInertia(z)
		curvature := barStress * 12 * 150e-6 * (z - centroid) / d.deck
		want, wantJacks := d.solve(t, first, []float64{0, 0}, curvature, make([]float64, 20))
		got, gotJacks := hangerForces(effectsOf(t, g, stages.Plan{hang, closed}, 2, 1), 20)
		for i := range want {
			require.InDelta(t, want[i], got[i], 1e-6*10*weight, "z = %g m, hanger %d", z, i+1)
		}
		require.InDeltaSlice(t, wantJacks, gotJacks, 1e-6*10*weight)
		lowered := make([]float64, 20)
		for i := range lowered {
			lowered[i] = 0.02 + 0.001*float64(i)
		}
		for _, part := range []float64{0.05, 0.6, 1} { // all taut, some slack
			by := make([]float64, 20)
			for i := range by {
				by[i] = part * lowered[i]
			}
			lower := segmental.LowerSpan{Age: 28, Hangers: h, Jacks: jacks, Stroke: 0.2, Steps: []segmental.LoweringStep{{By: by}}, Strokes: make([]segmental.Stroke, 20)}
			got, gotJacks = hangerForces(effectsOf(t, g, stages.Plan{hang, closed, lower}, 3, 1), 20)
			// From the state before: hangers all taut, jacks as they are; contact on the total.
			want, wantJacks = d.solve(t, first, []float64{0, 0}, curvature, by)
			slack := 0
			for i := range want {
				require.InDelta(t, want[i], got[i], 1e-6*10*weight, "z = %g m, lowered by %g, hanger %d", z, part, i+1)
				if want[i] == 0 {
					slack++
				}
			}
			require.InDeltaSlice(t, wantJacks, gotJacks, 1e-6*10*weight)
			if part == 1 {
				require.Positive(t, slack)
				require.Less(t, slack, 20)
			}
		}
	}
}
