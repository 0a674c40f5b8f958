package stages

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// arrangement is a body on its supports, in every way in which they may share.
type arrangement struct {
	index     int // in the run
	body      *body
	supports  []Support
	level     float64       // out of level, m
	modulus   float64       // of the first piece on the day, Pa
	state     *ledger.State // of the body on the day
	ups       []r3.Vec
	suspended bool // every support is a lift point
	elastic   bool // shares by stiffness and level
	bounded   bool // nothing is stated: every statically determinate set is a way
	open      bool // a support does not touch at rest
	settled   bool
	setWith   []entry  // what it was set down with
	cast      *casting // of a body that hardened on supports of which these are left; nil for another
	rollHeld  bool
	centre    section.Point // of gravity, m
	onAxis    bool          // no two supports or groups side by side: the vertical plane only
	ways      []*way
}

// way is one way in which an arrangement acts: a direction against gravity and
// the supports that carry.
type way struct {
	up      r3.Vec
	set     []int // supports that carry
	spaces  []*spaceOf
	answers []*answer
	given   map[*part][]float64   // to each support by a part of the weight
	pulled  map[pulled][2]float64 // favourable and unfavourable
}

// spaceOf is a way as a member in space with the stiffness of a section; a
// determinate one has none.
type spaceOf struct {
	state    *ledger.State
	modulus  float64 // Pa
	contact  bool    // supports act in one sense
	held     int     // but for this one; −1 for none
	space    *beam.Space
	vertical []int     // of each support: its restraint; −1 when it does not carry
	part     []float64 // of each support: its part of that force
	hooks    []hookOf
	turns    [][]turn // of each support: the rotations that it restrains
	across   []int    // of each support: the restraint of the line in which it restrains across; −1 for none
	number   int      // of restraints
}

// turn is a rotation that a support restrains: the number of its restraint, and its axis.
type turn struct {
	number int
	about  r3.Vec
}

// answer is the effect of a load on a way.
type answer struct {
	load     *load
	state    *ledger.State
	response *beam.SpaceResponse
	slung    *beam.SpaceResponse // of inclined slings; nil for none
	vertical []float64           // of each support, N, upwards
	couples  []r3.Vec            // of each support, N·m, right hand, on the element
}

// at is the internal forces at x of the body about the fixed axis.
func (w *answer) at(x float64) section.Forces {
	f := w.response.At(x, beam.RightOf)
	if w.slung != nil {
		f = f.Plus(w.slung.At(x, beam.RightOf))
	}
	return f
}

// load is one load on a body: forces that turn with gravity, strains, levels.
type load struct {
	name    string
	at      func(up r3.Vec) beam.SpaceLoads
	level   []float64                  // of each support, m; nil for none
	rise    func() []float64           // the levels where they follow from forces of earlier loads; nil for none
	preload []float64                  // of each support, where they change, in the sense in which it acts, N; nil for none
	began   []float64                  // of each elastic support, N, with which it began under this load, cast in place; nil for none
	net     func(*way) beam.SpaceLoads // the load with what the supports that carry began with, where there are such
	held    bool                       // brings the preload of supports with a force that stays
	modulus float64                    // of the concrete on its day, Pa; 0: of the arrangement's
	parts   []part                     // of an action
}

// bodyField is the internal forces of an answer about the fixed axis.
type bodyField struct {
	answer *answer
	body   *body
}

func (f bodyField) At(x float64) section.Forces {
	if x < f.body.from || x > f.body.to {
		return section.Forces{}
	}
	forces := f.answer.at(x - f.body.from)
	if off := f.body.offset; off != nil { // from the chord to the axis beside it
		y := off(x)
		forces.Mz += forces.N * y
		forces.T += forces.Vz * y
	}
	return forces
}

// tilts are the directions against gravity that a roll and a gradient can have:
// level, and both ways of each.
func tilts(rolls, gradients []float64) []r3.Vec {
	var ups []r3.Vec
	for _, r := range rolls {
		for _, g := range gradients {
			up := r3.Vec{X: math.Sin(g), Y: math.Sin(r) * math.Cos(g), Z: math.Cos(r) * math.Cos(g)}
			if !slices.Contains(ups, up) {
				ups = append(ups, up)
			}
		}
	}
	return ups
}

// bothWays is none, and v both ways.
func bothWays(v float64) []float64 {
	if v == 0 {
		return []float64{0}
	}
	return []float64{0, -v, v}
}

// horizontal are the directions across and along, square to up.
func horizontal(up r3.Vec) (across, along r3.Vec) {
	across = r3.Unit(r3.Vec{Y: up.Z, Z: -up.Y})
	return across, r3.Cross(across, up)
}

// newArrangement is a body on supports; its ways are those of all supports, or of
// every statically determinate set of them. Where some stay from before, a level
// difference need not be stated: their forces are known, and others touch.
func newArrangement(b *body, supports []Support, level float64, ups []r3.Vec, stay bool) (*arrangement, error) {
	a := &arrangement{body: b, supports: supports, level: level, ups: ups, suspended: true}
	stiff := 0
	for _, s := range supports {
		a.suspended = a.suspended && s.suspends()
		if s.Stiffness > 0 || s.Held || s.Link != nil {
			stiff++
		}
	}
	all := a.columns(nil)
	rank := rankOf(all)
	a.rollHeld = rank == 3
	a.onAxis = !a.rollHeld && !slices.ContainsFunc(supports, func(s Support) bool { return s.Y != supports[0].Y })
	if rank < 2 {
		x := supports[0].X
		if len(all) > 0 {
			x = b.from + all[0].resultant[1]/all[0].resultant[0]
		}
		return nil, fmt.Errorf("the supports act at x = %g m alone: must be at two places along the element, or one that is fixed", x)
	}
	switch redundant := len(all) - rank; {
	case redundant == 0:
	case stiff == len(supports):
		if level == 0 && !stay && !byForce(supports) {
			return nil, fmt.Errorf("%d supports with Stiffness and OutOfLevel = 0 m: OutOfLevel must be stated, the distance of any one support from the plane of the other three, or where all are on a Link the Preload of each", len(supports))
		}
		a.elastic = true
	case stiff > 0:
		return nil, fmt.Errorf("%d of %d supports have a Stiffness and their forces do not follow from statics: must be stated for all, or for none", stiff, len(supports))
	default:
		for i, s := range supports {
			if s.Fixed {
				return nil, fmt.Errorf("support %d at x = %g m is fixed beside others and rigid: must be alone, or all must have a Stiffness, and OutOfLevel be stated", i+1, s.X)
			}
		}
		a.bounded = true
	}
	sets, err := a.sets(all, rank)
	if err != nil {
		return nil, err
	}
	for _, up := range ups {
		for _, set := range sets {
			a.ways = append(a.ways, &way{up: up, set: set})
		}
	}
	return a, nil
}
