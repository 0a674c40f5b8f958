package segmental

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
)

// Deck is what is built out of segments: one cantilever about its pier, or a whole deck
// with its piers, closures and parts on falsework.
type Deck struct {
	Mark     string
	Segments []Segment // from left to right
	Tendons  []Tendon
	Bars     []Bars        // temporary bars
	Keys     *Keys         // of every joint without its own; nil: the shear of joints is left to a document
	TieBack  *TieBack      // behind every anchor inside the deck without its own; nil: left to a document
	Piers    []Pier        // about which cantilevers are in balance
	Closures []ClosureWork // of closures from the lock to their first tendons; the others are left to a document
	Frames   []Frame       // lifting frames, or the trolleys of a gantry
	Radius   float64       // of the axis in plan, m, + curves to the left; 0 straight
	Rule     Rule          // of weight differences and combinations at the piers
	Epoxy    EpoxyRule
	Loads    ArmLoads
	Dynamic  loads.Dynamic // range of the factor on a segment that is lifted; must be stated
}

// ArmLoads are the construction loads on the arms of a cantilever.
type ArmLoads struct {
	Width    float64 // of the deck on which they count, m, 1 to 60
	OneArm   float64 // working load on one arm, Pa, 0 to 5e3
	OtherArm float64 // at the same time on the other, Pa, 0 to OneArm
	Uplift   float64 // of wind below one arm, Pa, 0 to 5e3

	// Wind across, on the height of the deck and Above it, from either side and characteristic:
	// Across on one arm, AcrossOther at the same time on the other, by the rule of the project
	// (0: none, the largest yaw). The force across is that of both arms under Across.
	Across      float64 // pressure with force coefficient, Pa, 0 to 5e3
	AcrossOther float64 // Pa, 0 to Across
	Above       float64 // of parapets, bundles and equipment above the deck, m, 0 to 10
}

// Girder is the deck as a girder of pieces: those on a pier and their joints from the
// beginning, all others later. The segments of each arm have a weight tolerance of their own.
// The error wraps [ErrSegmental].
func (d Deck) Girder() (stages.Girder, error) {
	if err := d.check(); err != nil {
		return stages.Girder{}, err
	}
	g := stages.Girder{Mark: d.Mark, Radius: d.Radius, Paired: true}
	at := d.at()
	for i, s := range d.Segments {
		g.Pieces = append(g.Pieces, stages.Piece{Element: s.Element, At: at[i], Later: s.Type != OnPier, Joint: d.joint(i), WeightGroup: d.group(i)})
	}
	for _, t := range d.Tendons {
		placed, err := d.placed(t)
		if err != nil {
			return g, fmt.Errorf("%w: %w", ErrSegmental, err)
		}
		g.Tendons = append(g.Tendons, placed)
	}
	for i := range d.Segments {
		bars, err := d.barsOf(i)
		if err != nil {
			return g, err
		}
		g.Tendons = append(g.Tendons, bars...)
	}
	return g, nil
}

// pier is the number of the segment on a pier from which segment i is built out; of one
// beyond a closure the nearest.
func (d Deck) pier(i int) int {
	best := -1
	for k, s := range d.Segments {
		if s.Type != OnPier {
			continue
		}
		if best < 0 || math.Abs(float64(k-i)) < math.Abs(float64(best-i)) {
			best = k
		}
	}
	return best
}

// arm is the sense in which segment i is built out: −1 left of its pier, +1 right, 0 on it.
func (d Deck) arm(i int) int {
	switch k := d.pier(i); {
	case k < 0 || k == i:
		return 0
	case i < k:
		return -1
	}
	return 1
}

// group is the weight group of segment i: of one arm.
func (d Deck) group(i int) string {
	if d.Segments[i].Type == Closure || d.Segments[i].Type == OnGround {
		return d.Segments[i].Element.Mark
	}
	k := d.pier(i)
	if k < 0 {
		return ""
	}
	return [3]string{"left arm of ", "", "right arm of "}[d.arm(i)+1] + d.Segments[k].Element.Mark
}

// barsOf are the temporary bars of segment i.
func (d Deck) barsOf(i int) (list []tendon.Tendon, err error) {
	b := d.barsFor(i)
	if b == nil {
		return nil, nil
	}
	at := d.at()
	x := at[i]
	if d.arm(i) < 0 {
		x = at[i+1]
	}
	return b.bars(d.Segments[i].Element.Mark, x, float64(d.arm(i))), nil
}

// barsFor are the bars that press the joint of segment i; nil for none.
func (d Deck) barsFor(i int) *Bars {
	s := d.Segments[i]
	for k := range d.Bars {
		b := &d.Bars[k]
		if slices.Contains(b.Of, s.Element.Mark) || len(b.Of) == 0 && s.Type == Typical && d.arm(i) != 0 {
			return b
		}
	}
	return nil
}

// jacking is the jacking of the bars of segment i.
func (d Deck) jacking(i int) *tendon.Jacking {
	b := d.barsFor(i)
	if b == nil {
		return nil
	}
	ends := tendon.RightEnd
	if d.arm(i) < 0 {
		ends = tendon.LeftEnd
	}
	j := &tendon.Jacking{Stress: b.Stress, Ends: ends, DrawIn: b.DrawIn}
	for n := range b.At {
		j.Tendons = append(j.Tendons, barMark(d.Segments[i].Element.Mark, n))
	}
	return j
}
