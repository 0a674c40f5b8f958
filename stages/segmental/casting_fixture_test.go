package segmental_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// steady is a concrete whose modulus is the same at every age, for closed forms.
type steady struct{}

const steadyModulus = 36e9

func (steady) At(age float64) (concrete.State, error) {
	return concrete.State{Age: age, Characteristic: 50e6, Mean: 58e6, TensileMean: 4e6, TensileLow: 3e6, Modulus: steadyModulus, Basis: "steady"}, nil
}
func (s steady) Shown(float64, float64) concrete.Model { return s }
func (steady) Inputs() []formula.Line                  { return nil }

// silent is a standard without limits: movements are looked at alone.
type silent struct{}

func (silent) Limits(limits.Question) ([]limits.Limit, error) { return nil, nil }

const (
	castHalf   = 2.0    // half the segment on the pier, m
	castLength = 3.0    // of a segment, m
	castWidth  = 4.0    // of its solid section, m
	castUnit   = 25e3   // N/m³
	castDuct   = 0.06   // m
	castStress = 1300e6 // Pa
)

// solid is a rectangle with its top at z = 0.
func solid(t testing.TB, depth float64) section.Shape {
	t.Helper()
	b := castWidth / 2
	shape, err := section.New([]section.Outline{{{Y: -b, Z: -depth}, {Y: b, Z: -depth}, {Y: b}, {Y: -b}}}, nil)
	require.NoError(t, err)
	return shape
}

// fan is a deck about each of some piers with n segments on each arm; its depth is a
// function of the distance from the pier axis. Its joints are poured, so that no bars are
// needed.
type fan struct {
	n, piers int
	depth    func(x float64) float64
	concrete concrete.Model
	slow     concrete.TimeModel
	tendons  bool    // a pair at the level −0.3 m for each pair of segments
	inTendon int     // strands; 0: 1
	closure  float64 // length between tips, m
}

func (f fan) deck(t testing.TB) segmental.Deck {
	t.Helper()
	d := segmental.Deck{Mark: "D", Dynamic: loads.AtRest()}
	add := func(mark string, from, to float64, of segmental.Type) {
		along, err := section.Taper{To: to - from, Left: solid(t, f.depth(from)), Right: solid(t, f.depth(to))}.Along()
		require.NoError(t, err)
		d.Segments = append(d.Segments, segmental.Segment{Type: of, Joint: stages.Poured, Element: stages.Element{
			Mark: mark, Length: to - from, Section: along, Concrete: f.concrete, LongTerm: f.slow, UnitWeight: castUnit, WeightTolerance: loads.PlusMinus(0)}})
	}
	tip := castHalf + castLength*float64(f.n)
	for p := range max(1, f.piers) {
		s := ""
		if f.piers > 1 {
			s = fmt.Sprint(p + 1)
		}
		if p > 0 {
			add(fmt.Sprintf("C%d", p), tip, tip+f.closure, segmental.Closure)
		}
		for k := f.n; k >= 1; k-- {
			x := castHalf + castLength*float64(k)
			add(fmt.Sprintf("%sL%d", s, k), -x, -x+castLength, segmental.Typical)
		}
		add("P"+s, -castHalf, castHalf, segmental.OnPier)
		for k := 1; k <= f.n; k++ {
			x := castHalf + castLength*float64(k)
			add(fmt.Sprintf("%sR%d", s, k), x-castLength, x, segmental.Typical)
		}
		for k := 1; f.tendons && k <= f.n; k++ {
			for i, y := range []float64{1, -1} {
				d.Tendons = append(d.Tendons, segmental.Tendon{
					Tendon: tendon.Tendon{Mark: fmt.Sprintf("%sT%d%c", s, k, "LR"[i]), Strand: tendon.Y1860S7x157, Strands: f.strands(), Duct: castDuct, NoFriction: true, NoWobble: true,
						Approval: tendon.Approval{Reference: "invented", MeanStrength: 30e6, AnchorSpacing: 0.3, EdgeDistance: 0.14}},
					First: fmt.Sprintf("%sL%d", s, k), Last: fmt.Sprintf("%sR%d", s, k), At: section.Point{Y: y * castSpread(f.n) * float64(k), Z: -0.3}})
			}
		}
	}
	return d
}

// strands is the number in a tendon.
func (f fan) strands() int { return max(1, f.inTendon) }

// arms is the length of one cantilever, tip to tip.
func (f fan) arms() float64 { return 2 * (castHalf + castLength*float64(f.n)) }

// on are the fixed supports of the piers.
func (f fan) on() (list []stages.Support) {
	for p := range max(1, f.piers) {
		list = append(list, stages.Support{X: (float64(p)+0.5)*f.arms() + float64(p)*f.closure, Fixed: true, Role: stages.Pad, Stiffness: 1e12})
	}
	return list
}

// steps attach the segments pair by pair, pier by pier, and stress the tendons of each pair.
func (f fan) steps(first, days float64) (steps []segmental.Step) {
	day := first
	for p := range max(1, f.piers) {
		s := ""
		if f.piers > 1 {
			s = fmt.Sprint(p + 1)
		}
		for k := 1; k <= f.n; k++ {
			step := segmental.Step{Name: fmt.Sprintf("pair %s%d", s, k), Day: day}
			for _, side := range []string{"L", "R"} {
				step.Moves = append(step.Moves, segmental.Move{Do: segmental.Attach, Segments: []string{fmt.Sprintf("%s%s%d", s, side, k)}})
			}
			if f.tendons {
				step.Moves = append(step.Moves, segmental.Move{Do: segmental.Stress, Jacking: &tendon.Jacking{Tendons: []string{fmt.Sprintf("%sT%dL", s, k), fmt.Sprintf("%sT%dR", s, k)}, Stress: castStress, Ends: tendon.BothEnds}})
			}
			steps, day = append(steps, step), day+days
		}
	}
	return steps
}

// analysed is the deck built by steps, without checks.
func analysed(t testing.TB, d segmental.Deck, on []stages.Support, steps ...segmental.Step) *stages.Analysis {
	t.Helper()
	plan, err := d.Plan(on, steps...)
	require.NoError(t, err)
	g, err := d.Girder()
	require.NoError(t, err)
	a, err := plan.Analyse(g, silent{})
	require.NoError(t, err)
	return a
}

// movedBy are the movements at the end of the last move of a step.
func movedBy(t testing.TB, a *stages.Analysis, step, move int) []*stages.Movement {
	t.Helper()
	e, err := a.Effects(step, move)
	require.NoError(t, err)
	list, err := e.Moves()
	require.NoError(t, err)
	return list
}

// level is a constant depth.
func level(depth float64) func(float64) float64 { return func(float64) float64 { return depth } }

// castSpread is the distance of tendons across, so that all fit into the width.
func castSpread(n int) float64 { return min(0.3, (castWidth/2-0.1)/float64(n)) }
