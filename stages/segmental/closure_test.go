package segmental

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// twoCantilevers is a deck of two cantilevers of five blocks, 3 × 2 m, 28 m long about piers at
// 14 and 44 m, with a closure of 2 m between them and a bottom tendon through it.
func twoCantilevers(t testing.TB, long concrete.TimeModel) Deck {
	t.Helper()
	shape, err := section.New([]section.Outline{{{Y: -1.5}, {Y: 1.5}, {Y: 1.5, Z: 2}, {Y: -1.5, Z: 2}}}, nil)
	require.NoError(t, err)
	mix := concrete.EN1992{Fck: 45e6, Cement: concrete.ClassN}
	d := Deck{Mark: "D", Dynamic: loads.AtRest()}
	add := func(mark string, length, cast float64, of Type) {
		e := stages.Element{Mark: mark, Length: length, Section: shape, Concrete: mix, LongTerm: long, WeightTolerance: loads.PlusMinus(0), Cast: cast}
		d.Segments = append(d.Segments, Segment{Element: e, Type: of, Joint: stages.Poured})
	}
	for _, p := range []string{"A", "B"} {
		for _, s := range []struct {
			mark   string
			length float64
			of     Type
		}{{"L2", 6, Typical}, {"L1", 6, Typical}, {"P", 4, OnPier}, {"R1", 6, Typical}, {"R2", 6, Typical}} {
			add(p+s.mark, s.length, 0, s.of)
		}
		if p == "A" {
			add("C", 2, 50, Closure)
		}
	}
	d.Tendons = []Tendon{{Tendon: tendon.Tendon{Mark: "CB", Strand: tendon.Y1860S7x157, Strands: 7, Duct: 0.06, NoFriction: true,
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.3, EdgeDistance: 0.2}}, First: "AR2", Last: "BL2", At: section.Point{Z: 0.3}}}
	return d
}

// fixedPiers are fixed supports at both piers.
func fixedPiers() []stages.Support {
	return []stages.Support{{X: 14, Role: stages.Pad, Fixed: true, Stiffness: 1e12}, {X: 44, Role: stages.Pad, Fixed: true, Stiffness: 1e12}}
}

// bearingsAt are the bearings of a pier.
func bearingsAt(x float64) []stages.Support {
	return []stages.Support{{X: x, Y: -1, Role: stages.Bearing, Holds: stages.HoldsBoth, Stiffness: 1e12}, {X: x, Y: 1, Role: stages.Bearing, Holds: stages.HoldsBoth, Stiffness: 1e12}}
}

// built are the steps until the closure is closed on day 60.
func built() []Step {
	var steps []Step
	for i, pair := range [][2]string{{"L1", "R1"}, {"L2", "R2"}} {
		for _, p := range []string{"A", "B"} {
			step := Step{Day: 30 + float64(i)}
			for _, s := range pair {
				step.Moves = append(step.Moves, Move{Do: Attach, Segments: []string{p + s}})
			}
			steps = append(steps, step)
		}
	}
	return append(steps, Step{Name: "pour", Day: 49.9, Moves: []Move{{Do: Pour, Segments: []string{"C"}}}}, Step{Name: "close", Day: 60, Moves: []Move{{Do: Close, Segments: []string{"C"}}}})
}

// The deck by hand: weight (N/m) and second moment of area (m⁴).
const (
	ownWeight    = 6 * 25e3
	ownInertia   = 2.0
	tendonForce  = 7 * 150e-6 * 1400e6
	tendonMoment = tendonForce * 0.7
)

// byHand is the same deck by the stiffness method, closed on day 60.
func byHand(t testing.TB, long concrete.TimeModel, modulus float64) *byStiffness {
	b := &byStiffness{t: t, x: []float64{0, 6, 12, 14, 16, 22, 28, 30, 36, 42, 44, 46, 52, 58}, inertia: ownInertia, model: long, modulus: concrete.EN1992{Fck: 45e6, Cement: concrete.ClassN},
		creepBy: func(float64) float64 { return modulus }, held: map[int]bool{}, forces: map[int]float64{}}
	b.cast, b.there, b.moments = make([]float64, 13), make([]bool, 13), make([][3]float64, 13)
	b.cast[6] = 50
	for _, x := range []float64{14, 44} {
		b.held[2*b.node(x)], b.held[2*b.node(x)+1] = true, true
	}
	add := func(day float64, elements ...int) {
		b.until(day, 20)
		l := loading{lines: map[int]float64{}}
		for _, i := range elements {
			b.there[i], l.lines[i] = true, ownWeight
		}
		b.at(day, l)
	}
	add(30, 1, 2, 3, 4, 8, 9, 10, 11)
	add(31, 0, 5, 7, 12)
	b.until(49.9, 20)
	wet := loading{nodes: map[int]float64{2 * b.node(28): -ownWeight, 2 * b.node(30): -ownWeight}}
	b.at(49.9, wet)
	b.until(60, 20)
	b.there[6] = true
	b.at(60, loading{lines: map[int]float64{6: ownWeight}, nodes: map[int]float64{2 * b.node(28): ownWeight, 2 * b.node(30): ownWeight}})
	return b
}

// stressed puts the bottom tendon on: its moment is a curvature from 22 to 36 m.
func (b *byStiffness) stressed(day float64) { b.stressedIn(day, 5, 6, 7) }

func (b *byStiffness) stressedIn(day float64, elements ...int) {
	c := make([][3]float64, len(b.there))
	for _, i := range elements {
		k := -tendonMoment / (b.e(i, day) * ownInertia)
		c[i] = [3]float64{k, k, k}
	}
	before := b.moments
	b.moments = make([][3]float64, len(b.there))
	b.at(day, loading{curvatures: c})
	for i := range before { // the restraint alone is what the beam carries; the primary moment is the tendon's
		for k := range before[i] {
			b.moments[i][k] += before[i][k]
		}
	}
}

// momentIn is the moment about the centroid at x (m), 1 m above the axis, without the primary
// moment of the tendon where it is stressed.
func momentIn(e stages.Effects, x float64) float64 {
	f := e.Forces(x)
	primary := 0.0
	if f.N < -1e3 {
		primary = f.N * 0.7
	}
	return f.My + f.N - primary
}

// sameMoments compares the moments at the piers and in the middle of the closure with those by
// hand: the supports of 1e12 N/m give way a little, the duct moves the centroid by 0.3 mm, and
// the anchors are 1e-6 m from where the tendon ends.
func sameMoments(t testing.TB, b *byStiffness, e stages.Effects) {
	t.Helper()
	for _, x := range []float64{14, 29, 44} {
		require.InDelta(t, b.moment(x), momentIn(e, x-math.Copysign(1e-6, x-29)), 2e3, "%s: x = %g m", e.Situation.Name, x)
	}
}

// effects are those of the last situation of each stage.
func effects(t testing.TB, d Deck, steps []Step) (list []stages.Effects) {
	t.Helper()
	g, err := d.Girder()
	require.NoError(t, err)
	plan, err := d.Plan(fixedPiers(), steps...)
	require.NoError(t, err)
	a, err := plan.Analyse(g, limits.EN1992{})
	require.NoError(t, err)
	for i, step := range steps {
		e, err := a.Effects(i+1, len(step.Moves))
		require.NoError(t, err)
		list = append(list, e)
	}
	return list
}

// After the closure the moments are those of the cantilevers; the form that is struck leaves
// the moment of the closure itself between its ends.
func TestClosureLeavesTheMomentsOfTheCantilevers(t *testing.T) {
	list := effects(t, twoCantilevers(t, nil), built())
	closed := list[len(list)-1]
	require.InDelta(t, -ownWeight*14*14/2, momentIn(closed, 14-1e-6), 5)
	require.InDelta(t, -ownWeight*14*14/2-ownWeight*14, momentIn(closed, 14+1e-6), 6e3, "half of the closure at the tip")
	require.InDelta(t, ownWeight*2*2/8, momentIn(closed, 29), 4e3)
	sameMoments(t, byHand(t, nil, 0), closed)
}

// The wet concrete has the weight tolerance of its segment, on each side by itself.
func TestWetConcreteHasTheToleranceOfItsSegment(t *testing.T) {
	d := twoCantilevers(t, nil)
	for i := range d.Segments {
		if d.Segments[i].Type == Closure {
			d.Segments[i].Element.WeightTolerance = loads.PlusMinus(0.05)
		}
	}
	steps := built()
	list := effects(t, d, steps[:len(steps)-1])
	for _, r := range list[len(list)-1].Reactions {
		require.InDelta(t, 29*ownWeight, r.Nominal, 1)
		require.InDelta(t, 28*ownWeight+1.05*ownWeight, r.Characteristic.Most, 1)
		require.InDelta(t, 28*ownWeight+0.95*ownWeight, r.Characteristic.Least, 1)
	}
}

// releases are the steps that put the piers on bearings, in an order, from a day on.
func releases(day float64, first string) []Step {
	fixed := fixedPiers()
	at := map[string]float64{"A": 14, "B": 44}
	other, stays := "B", fixed[1]
	if first == "B" {
		other, stays = "A", fixed[0]
	}
	return []Step{
		{Name: "release " + first, Day: day, Moves: []Move{{Do: Support, On: append(bearingsAt(at[first]), stays)}}},
		{Name: "release " + other, Day: day + 1, Moves: []Move{{Do: Support, On: append(bearingsAt(at[first]), bearingsAt(at[other])...)}}},
	}
}

// pull is the step that stresses the bottom tendon.
func pull(day float64) Step {
	return Step{Name: "continuity", Day: day, Moves: []Move{{Do: Stress, Jacking: &tendon.Jacking{Tendons: []string{"CB"}, Stress: 1400e6, Ends: tendon.BothEnds}}}}
}

// Piers are released in either order, before and after the tendon is stressed: the moments
// on the way differ, and each is that by the stiffness method. On fixed piers the tendon of
// 14 m has the restraint moment P·e·14/30, with one pier released P·e·14/30·3/2 at the other
// and half of that in the middle, and with both released none.
func TestOrderOfReleaseBringsOtherMoments(t *testing.T) {
	for words, order := range map[string][2]string{"A first": {"A", "B"}, "B first": {"B", "A"}} {
		at := map[string]float64{"A": 14, "B": 44}
		after := effects(t, twoCantilevers(t, nil), append(append(built(), pull(62)), releases(63, order[0])...))
		n := len(after) - 3
		b := byHand(t, nil, 0)
		before := b.moment(29)
		b.stressed(62)
		require.InEpsilon(t, tendonMoment*14/30, b.moment(29)-before, 0.01, words+": the closure is younger")
		sameMoments(t, b, after[n])
		for k, pier := range order {
			b.letGo(63+float64(k), 2*b.node(at[pier])+1)
			sameMoments(t, b, after[n+1+k])
		}
		require.InDelta(t, -ownWeight*14*14/2+ownWeight*30*30/8, b.moment(29), 1, "two supports and free ends: by statics")

		first := releases(61, order[0])
		steps := append(append(built(), first[0]), pull(61.5), first[1])
		between := effects(t, twoCantilevers(t, nil), steps)
		b = byHand(t, nil, 0)
		b.letGo(61, 2*b.node(at[order[0]])+1)
		sameMoments(t, b, between[n])
		before, beside := b.moment(29), b.moment(at[order[1]])
		b.stressed(61.5)
		require.InEpsilon(t, tendonMoment*14/30*3/4, b.moment(29)-before, 0.01, words+": the closure is younger")
		require.InEpsilon(t, tendonMoment*14/30*3/2, b.moment(at[order[1]])-beside, 0.01, words)
		sameMoments(t, b, between[n+1])
		b.letGo(62, 2*b.node(at[order[1]])+1)
		sameMoments(t, b, between[n+2])
		require.InDelta(t, momentIn(after[n+2], 29), momentIn(between[n+2], 29), 1e3, "elastic, and by statics in the end: no order matters")
	}
}

// Where the ends come on bearings before or after the piers are released, the moments differ
// to the end.
func TestOrderMattersWhereSupportsComeBetween(t *testing.T) {
	ends := append(bearingsAt(1), bearingsAt(57)...)
	for i := range ends {
		ends[i].OneWay = stages.PushAndPull
	}
	fixed := fixedPiers()
	onEnds := func(on ...stages.Support) []stages.Support { return append(append([]stages.Support{}, ends...), on...) }
	rest := append(bearingsAt(14), bearingsAt(44)...)
	step := func(day float64, on []stages.Support) Step {
		return Step{Day: day, Moves: []Move{{Do: Support, On: on}}}
	}
	early := append(append(built(), pull(62)), step(63, onEnds(fixed...)), step(64, onEnds(append(bearingsAt(14), fixed[1])...)), step(65, onEnds(rest...)))
	late := append(append(built(), pull(62)), step(63, append(bearingsAt(14), fixed[1])), step(64, rest), step(65, onEnds(rest...)))
	got := [2][]stages.Effects{effects(t, twoCantilevers(t, nil), early), effects(t, twoCantilevers(t, nil), late)}
	for i, hold := range []bool{true, false} {
		b := byHand(t, nil, 0)
		b.x = slices.Insert(b.x, 13, 57)
		b.x = slices.Insert(b.x, 1, 1)
		b.splitEnds()
		b.stressedIn(62, 6, 7, 8)
		if hold {
			b.held[2*b.node(1)], b.held[2*b.node(57)] = true, true
		}
		b.letGo(64, 2*b.node(14)+1)
		b.letGo(65, 2*b.node(44)+1)
		sameMoments(t, b, got[i][len(got[i])-1])
	}
	n := len(early) - 1
	require.Greater(t, math.Abs(momentIn(got[0][n], 29)-momentIn(got[1][n], 29)), 300e3)
}
