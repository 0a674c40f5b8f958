package ledger

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/section"
)

// Wall is a wall at its worst.
type Wall struct {
	Found    bool
	X        float64 // m
	Piece    int     // of the girder
	Cut      Cut
	Constant float64       // m⁴
	Centre   section.Point // shear centre of the walls
	At       section.Point // end of the cut with the larger value
	Value    float64       // Pa: principal tension, or shear stress
	Normal   float64       // σ along x at At, Pa
	Shear    float64       // |τ|, Pa
	Factors  []float64     // of each cause
	Apart    []ApartAt
}

// WallQuery is a search for the worst wall.
type WallQuery struct {
	Principal bool // principal tension; false: shear stress
	Filling   func(tendon int) section.Filling
	Cracked   float64 // tensile stress above which a section has cracked, Pa; for principal tension

	filling []section.Filling
}

// wallNode is what walls ask of a node: bounds on the stresses of its cuts.
type wallNode struct {
	stretch, node int
	normal, shear float64 // Pa
	reached       float64 // a tensile stress that a corner has, Pa
	tensile       float64 // one that no corner exceeds, Pa
	bound         float64 // on the value sought, Pa
}

// WorstWall is the wall with the largest value, and the stretches where the section
// has cracked, which are left out. Nodes are looked at in the order of a bound.
func (d *Demand) WorstWall(q WallQuery) (worst Wall, cracked [][2]float64, err error) {
	l := d.ledger
	q.filling = make([]section.Filling, len(l.Girder.Tendons))
	for i := range q.filling {
		q.filling[i] = q.Filling(i)
	}
	nodes, err := d.wallNodes(&q)
	if err != nil {
		return worst, nil, err
	}
	list := make([]wallNode, 0, len(nodes))
	for i := range nodes {
		n := nodes[i]
		p := &l.grid[n.stretch]
		n.bound = n.shear
		if q.Principal {
			is, err := d.cracks(&q, &nodes[i])
			if err != nil {
				return worst, nil, err
			}
			if is {
				cracked = note(cracked, p.At[max(n.node-1, 0)].X, p.At[min(n.node+1, Nodes-1)].X, 1e-3*l.Girder.Length)
				continue
			}
			n.bound = principalTension(r2.Vec{X: n.normal, Y: n.shear})
		}
		list = append(list, n)
	}
	slices.SortStableFunc(list, func(a, b wallNode) int { return cmp.Compare(b.bound, a.bound) })
	for _, n := range list {
		if worst.Found && n.bound <= worst.Value {
			break
		}
		p := &l.grid[n.stretch]
		if err := d.wallAt(&q, p, p.At[n.node], &l.measured(d.situation, n.stretch)[n.node], &worst); err != nil {
			return worst, nil, err
		}
	}
	if worst.Found {
		err = d.refineWall(&q, &worst)
	}
	return worst, cracked, err
}

// note joins a cracked stretch to those known.
func note(list [][2]float64, from, to, near float64) [][2]float64 {
	if n := len(list); n > 0 && from <= list[n-1][1]+near {
		list[n-1][1] = math.Max(list[n-1][1], to)
		return list
	}
	return append(list, [2]float64{from, to})
}
