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
	Bodies   []BodyFlow    // flows of the bodies of several pieces that act there; Cut has those of the piece alone
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
	Pieces    []int // of the girder, no two of them at one x; nil for all
	Principal bool  // principal tension; false: shear stress
	Filling   func(tendon int) section.Filling
	Cracked   float64 // tensile stress above which a section has cracked, Pa; for principal tension
	Floor     float64 // only a larger value is sought, Pa

	filling []section.Filling
}

// wallNode is what walls ask of a node: bounds on the stresses of its cuts.
type wallNode struct {
	stretch, slot, node int

	normal, shear float64 // Pa
	reached       float64 // a tensile stress that a corner has, Pa
	tensile       float64 // one that no corner exceeds, Pa
	bound         float64 // on the value sought, Pa
	cracked       bool    // for the query
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
	for i := 0; i < len(nodes); i += Nodes {
		reaches, err := d.boundNodes(&q, nodes[i:i+Nodes])
		if err != nil {
			return worst, nil, err
		}
		cracked = append(cracked, reaches...)
	}
	cracked = l.Join(cracked)
	for _, n := range nodes {
		if !n.cracked {
			list = append(list, n)
		}
	}
	slices.SortStableFunc(list, func(a, b wallNode) int { return cmp.Compare(b.bound, a.bound) })
	worst = Wall{Found: q.Floor > 0, Value: q.Floor}
	for _, n := range list {
		if worst.Found && n.bound <= worst.Value {
			break
		}
		p := &l.grid[n.stretch]
		if err := d.wallAt(&q, p, n.slot, p.At[n.node], &l.measured(d.situation, n.stretch)[n.node], &worst); err != nil {
			return worst, nil, err
		}
	}
	if err := d.between(&q, nodes, cracked, &worst); err != nil {
		return worst, nil, err
	}
	if worst.Factors == nil {
		return Wall{}, cracked, nil
	}
	return worst, cracked, d.refineWall(&q, cracked, &worst)
}

// boundNodes bounds the value sought at the nodes of a stretch and finds what of it has
// cracked.
func (d *Demand) boundNodes(q *WallQuery, nodes []wallNode) ([][2]float64, error) {
	var is [Nodes]bool
	for i := range nodes {
		n := &nodes[i]
		n.cracked = false
		if n.bound = n.shear; !q.Principal {
			continue
		}
		var err error
		if is[i], err = d.cracks(q, n); err != nil {
			return nil, err
		}
		n.cracked, n.bound = is[i], principalTension(r2.Vec{X: n.normal, Y: n.shear})
	}
	if is == ([Nodes]bool{}) {
		return nil, nil
	}
	return d.crackedReach(q, nodes[0].stretch, nodes[0].slot, &is)
}

// Join joins reaches (m) that overlap or are nearer to each other than a thousandth of
// the girder's length, from left to right.
func (l *Ledger) Join(reaches [][2]float64) [][2]float64 {
	slices.SortFunc(reaches, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var joined [][2]float64
	for _, one := range reaches {
		if n := len(joined); n > 0 && one[0] <= joined[n-1][1]+1e-3*l.Girder.Length {
			joined[n-1][1] = math.Max(joined[n-1][1], one[1])
			continue
		}
		joined = append(joined, one)
	}
	return joined
}
