package beam_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// hung is a deck of EI on two rigid bearings at its ends and n hangers between,
// at equal distances, all on a gantry of the same span.
func hung(n int, length, deck, gantry, k float64) beam.SpaceLayout {
	l := beam.SpaceLayout{
		Length: length, Section: uniformSection(beam.CrossSection{BendingY: deck, BendingZ: deck, Torsional: deck}),
		Supports: vertical([2]float64{0, 0}, [2]float64{length, 0}),
		Links: []beam.Link{{Name: "gantry", Layout: beam.Layout{
			Length: length, Stiffness: []beam.Stretch{{BendingStiffness: gantry}}, Supports: []beam.Support{{At: 0}, {At: length}},
		}}},
	}
	for i := range n {
		l.Supports = append(l.Supports, beam.Restraint{X: length * float64(i+1) / float64(n+1), Direction: up, Stiffness: k, Link: "gantry"})
	}
	return l
}

func total(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum
}

// A parabolic prestress that balances β of the weight takes β/(1 + EId/EIg) of it
// off the hangers: exactly, hanger by hanger, of a deck that was level on rigid
// ones; and to 4 digits of the weight between two of 12 hangers, away from the
// ends, where the deck bends to its bearing.
func TestLinkShareOfBalancedLoad(t *testing.T) {
	const length, weight, beta = 40., 240e3, .85
	for _, ratio := range []float64{.3, 1.8, 7} {
		l := hung(12, length, 1.8e11, 1.8e11/ratio, 0)
		level := l
		level.Links = nil
		level.Supports = slices.Clone(l.Supports)
		for i := range level.Supports {
			level.Supports[i].Link = ""
		}
		q := beam.SpaceLoads{Lines: []beam.SpaceLine{{To: length, Direction: r3.Vec{Z: -1}, Intensity: []float64{weight}}}}
		balanced := beam.SpaceLoads{Strains: []beam.SpaceStrain{{To: length, At: func(x float64) beam.Strain { // hogging moment of β·q: κ = −β·q·x(L−x)/2EI
			return beam.Strain{CurvatureY: -beta * weight * x * (length - x) / 2 / 1.8e11}
		}}}}
		before := inSpace(t, level, q, beam.Setting{}).Reactions()
		change := inSpace(t, l, balanced, beam.Setting{}).Reactions()
		want := beta / (1 + ratio)
		for i := 2; i < len(before); i++ {
			require.InEpsilon(t, want, -change[i]/before[i], 1e-9, "EId/EIg = %g, hanger %d", ratio, i-1)
		}
		// The end span disturbs the first hanger by 13.4 %, the next by −0.268 of that: the sixth by 0.134·0.268⁵.
		require.InEpsilon(t, want, -change[7]/(weight*length/13), 1.9e-4, "EId/EIg = %g", ratio)
		require.InDelta(t, 0, total(change), 1e-6*weight, "the bearings receive what the hangers lose")
	}
}

// plane is a deck and a link in one dense stiffness matrix: two freedoms a node,
// w up and w'. It shares no formula with the package.
type plane struct {
	k     *mat.Dense
	right *mat.VecDense
	nodes [2][]float64 // of deck and link, in the girder's x
	first [2]int       // freedom of the first node; behind both: one row for each support
}

func newPlane(deck, link []float64, extra int) *plane {
	p := &plane{nodes: [2][]float64{deck, link}}
	p.first[1] = 2 * len(deck)
	n := 2*len(deck) + 2*len(link) + extra
	p.k, p.right = mat.NewDense(n, n, nil), mat.NewVecDense(n, nil)
	return p
}

// bend adds the elements of a member of stiffness ei(x) at their middles.
func (p *plane) bend(member int, ei func(float64) float64) {
	for i := range len(p.nodes[member]) - 1 {
		h := p.nodes[member][i+1] - p.nodes[member][i]
		f := ei(p.nodes[member][i]+h/2) / (h * h * h)
		hermite := [4][4]float64{{12, 6 * h, -12, 6 * h}, {6 * h, 4 * h * h, -6 * h, 2 * h * h}, {-12, -6 * h, 12, -6 * h}, {6 * h, 2 * h * h, -6 * h, 4 * h * h}}
		at := p.first[member] + 2*i
		for a := range 4 {
			for b := range 4 {
				p.k.Set(at+a, at+b, p.k.At(at+a, at+b)+f*hermite[a][b])
			}
		}
	}
}

func (p *plane) freedom(member int, x float64) int {
	i, ok := slices.BinarySearchFunc(p.nodes[member], x, func(a, b float64) int {
		if math.Abs(a-b) < 1e-9 {
			return 0
		} else if a < b {
			return -1
		}
		return 1
	})
	if !ok {
		panic(fmt.Sprint("no node at ", x))
	}
	return p.first[member] + 2*i
}

// hold adds the row of a force unknown that pushes a freedom up.
func (p *plane) hold(row, freedom int, sign float64) {
	p.k.Set(row, freedom, p.k.At(row, freedom)+sign)
	p.k.Set(freedom, row, p.k.At(freedom, row)-sign)
}

// Both members, stepped, the link longer than the deck and on elastic supports,
// hangers of their own stiffness out of level with preloads, bearings beside them:
// forces and deflections are those of the dense model of both.
func TestLinkAgainstDenseModelOfBoth(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		const length, at, reach = 30., -4., 37.
		step, linkStep := 13., 20.
		ei, linkEI := [2]float64{s.in(1e9, 1e10), s.in(1e9, 1e10)}, [2]float64{s.in(1e9, 1e10), s.in(1e9, 1e10)}
		l := beam.SpaceLayout{
			Length: length, Breaks: []float64{step},
			Section: stepped(step, beam.CrossSection{BendingY: ei[0], BendingZ: 1e9, Torsional: 1e9}, beam.CrossSection{BendingY: ei[1], BendingZ: 1e9, Torsional: 1e9}),
			Links: []beam.Link{{Name: "g", At: at, Layout: beam.Layout{
				Length: reach, Stiffness: []beam.Stretch{{To: linkStep, BendingStiffness: linkEI[0]}, {BendingStiffness: linkEI[1]}},
				Supports: []beam.Support{{At: 2, Stiffness: s.in(1e7, 1e9)}, {At: 35}, {At: 19, Stiffness: s.in(1e7, 1e9)}},
			}}},
			Supports: vertical([2]float64{0, 0}, [2]float64{length, 0}),
		}
		l.Supports[1].Stiffness = s.in(1e7, 1e9)
		g := beam.Setting{Level: []float64{s.in(-.01, .01), s.in(-.01, .01)}, Preload: []float64{0, s.in(0, 1e5)}}
		for i := range 7 {
			r := beam.Restraint{X: 3 + 4*float64(i), Direction: up, Link: "g"}
			if i != 3 {
				r.Stiffness = s.in(1e7, 1e9)
			}
			l.Supports = append(l.Supports, r)
			g.Level, g.Preload = append(g.Level, s.in(-.01, .01)), append(g.Preload, s.in(0, 1e5))
		}
		force := s.in(-1e6, 1e6)
		r := inSpace(t, l, beam.SpaceLoads{Points: []beam.SpacePoint{{X: 17, Force: r3.Vec{Z: force}}}}, g)

		deck, link := []float64{}, []float64{at, at + reach}
		for x := range 31 {
			deck = append(deck, float64(x))
			if x%2 == 1 {
				link = append(link, float64(x))
			}
		}
		link = append(link, -2, 16, 31)
		slices.Sort(link)
		link = slices.Compact(link)
		supports := l.Links[0].Supports
		p := newPlane(deck, link, len(l.Supports)+len(supports))
		p.bend(0, func(x float64) float64 { return ei[map[bool]int{true: 1}[x > step]] })
		p.bend(1, func(x float64) float64 { return linkEI[map[bool]int{true: 1}[x > at+linkStep]] })
		p.right.SetVec(p.freedom(0, 17), force)
		row := 2 * (len(deck) + len(link))
		for i, q := range l.Supports {
			p.hold(row+i, p.freedom(0, q.X), 1)
			preload := g.Preload[i]
			p.right.SetVec(row+i, g.Level[i])
			if q.Stiffness > 0 {
				p.k.Set(row+i, row+i, 1/q.Stiffness)
				p.right.SetVec(row+i, g.Level[i]+preload/q.Stiffness)
			}
			if q.Link != "" { // the link feels what the force is more than its preload
				at := p.freedom(1, q.X)
				p.hold(row+i, at, -1)
				p.right.SetVec(at, p.right.AtVec(at)+preload)
			}
		}
		for i, q := range supports {
			j := row + len(l.Supports) + i
			p.hold(j, p.freedom(1, at+q.At), 1)
			if q.Stiffness > 0 {
				p.k.Set(j, j, 1/q.Stiffness)
			}
		}
		inGiganewtons(p.k, p.right, row)
		var x mat.VecDense
		require.NoError(t, x.SolveVec(p.k, p.right))
		want := make([]float64, len(l.Supports))
		for i := range want {
			want[i] = x.AtVec(row+i) * giganewton
		}
		largest := slices.Max(want)
		// 1e-8: rounding of an elimination of 110 unknowns.
		require.InDeltaSlice(t, want, r.Reactions(), 1e-8*largest, "seed %d", seed)
		for _, place := range []float64{0, 5, 17, 30} {
			shift, _ := r.Move(place)
			require.InDelta(t, x.AtVec(p.freedom(0, place)), shift.Z, 1e-9, "seed %d at %g m", seed, place)
		}
	}
}

// What raising one hanger does to another is what raising the other does to it,
// and a hanger of a stiff link is one of none.
func TestLinkReciprocityAndStiffLink(t *testing.T) {
	l := hung(5, 24, 3e9, 5e9, 2e8)
	l.Links[0].Supports[1].Stiffness = 3e7
	l.Supports[4].Stiffness = 0
	var by [7][]float64
	for i := range by {
		g := beam.Setting{Level: make([]float64, 7)}
		g.Level[i] = .001
		by[i] = inSpace(t, l, beam.SpaceLoads{}, g).Reactions()
	}
	for i := range by {
		require.Positive(t, by[i][i])
		for j := range i {
			require.InDelta(t, by[i][j], by[j][i], 1e-9*by[i][i])
		}
	}
	stiff, none := hung(5, 24, 3e9, 1e30, 2e8), hung(5, 24, 3e9, 5e9, 2e8)
	none.Links = nil
	for i := range none.Supports {
		none.Supports[i].Link = ""
	}
	a := weight(l, 1e5, 0)
	require.InDeltaSlice(t, inSpace(t, none, a, beam.Setting{}).Reactions(), inSpace(t, stiff, a, beam.Setting{}).Reactions(), 1e-6)
}

// gives is how far a link gives way at each restraint under the reactions.
func gives(t *testing.T, l beam.SpaceLayout, reactions []float64) []float64 {
	t.Helper()
	link := l.Links[0]
	member, err := beam.New(link.Layout)
	require.NoError(t, err)
	var on loads.Set
	for i, r := range l.Supports {
		if r.Link != "" {
			on.Points = append(on.Points, loads.Point{At: r.X - link.At, Force: reactions[i]})
		}
	}
	response, err := member.Solve(on)
	require.NoError(t, err)
	out := make([]float64, len(l.Supports))
	for i, r := range l.Supports {
		if r.Link != "" {
			out[i] = -response.Deflection(r.X - link.At)
		}
	}
	return out
}

// Hangers that go slack: of every choice of hangers the one whose forces pull and
// whose others are slack is the answer, with its gaps.
func TestLinkSlackHangersAgainstEveryChoice(t *testing.T) {
	slack, none := 0, 0
	for seed := range uint64(seeds) {
		s := seeded(seed)
		n := 4 + int(seed%4)
		l := hung(n, 30, s.in(1e9, 2e10), s.in(1e9, 2e10), s.in(5e7, 5e8))
		l.Links[0].At, l.Links[0].Length = -2, 34
		l.Links[0].Supports = []beam.Support{{At: 1, Stiffness: s.in(1e7, 1e9)}, {At: 34}}
		g := beam.Setting{Level: make([]float64, n+2)}
		if s.IntN(2) == 0 { // nothing but hangers
			l.Supports, g.Level = l.Supports[2:], g.Level[2:]
		}
		for i := range l.Supports {
			if l.Supports[i].Link != "" {
				l.Supports[i].OneWay, g.Level[i] = true, s.in(-.02, .02)
			}
		}
		a := weight(l, s.in(1e4, 4e4), 0)
		a.Points = []beam.SpacePoint{{X: s.in(0, 30), Force: r3.Vec{Z: s.in(-4e5, 4e5)}}}
		want, gaps := everyHanger(t, l, a, g)
		space, err := beam.NewSpace(l)
		require.NoError(t, err)
		got, err := space.Solve(a, g)
		if want == nil {
			require.ErrorIs(t, err, beam.ErrBeam)
			none++
			continue
		}
		require.NoError(t, err, "seed %d", seed)
		require.InDeltaSlice(t, want, got.Reactions(), 1e-8*slices.Max(want), "seed %d", seed)
		require.InDeltaSlice(t, gaps, got.Gaps(), 1e-10, "seed %d", seed)
		for _, gap := range gaps {
			if gap > 0 {
				slack++
			}
		}
	}
	require.Greater(t, slack, seeds/2)
	require.Less(t, none, seeds/2)
}

func everyHanger(t *testing.T, l beam.SpaceLayout, a beam.SpaceLoads, g beam.Setting) (forces, gaps []float64) {
	t.Helper()
	n := len(l.Supports)
	for choice := range 1 << n {
		part, set := l, beam.Setting{}
		part.Supports = nil
		var index []int
		missing := false
		for i, r := range l.Supports {
			missing = missing || !r.OneWay && choice>>i&1 == 0
			if choice>>i&1 == 1 {
				r.OneWay = false
				part.Supports, set.Level, index = append(part.Supports, r), append(set.Level, g.Level[i]), append(index, i)
			}
		}
		if missing || len(index) < 2 {
			continue
		}
		space, err := beam.NewSpace(part)
		require.NoError(t, err)
		r, err := space.Solve(a, set)
		require.NoError(t, err)
		forces, gaps = make([]float64, n), make([]float64, n)
		fits := true
		for k, i := range index {
			forces[i] = r.Reactions()[k]
			fits = fits && (!l.Supports[i].OneWay || forces[i] >= 0)
		}
		away := gives(t, l, forces)
		for i := range n {
			if choice>>i&1 == 0 {
				gaps[i] = opening(l, g, r, i) + away[i]
				fits = fits && gaps[i] >= 0
			}
		}
		if fits {
			return forces, gaps
		}
	}
	return nil, nil
}

// A determinate system has the same forces with and without a link; it moves with
// it.
func TestLinkUnderDeterminateSystem(t *testing.T) {
	l := hung(2, 24, 3e9, 5e9, 1e8)
	l.Supports = l.Supports[2:] // hangers at 8 and 16 m
	r := inSpace(t, l, weight(l, 1e5, 0), beam.Setting{})
	require.InDeltaSlice(t, []float64{12e5, 12e5}, r.Reactions(), 1e-6)
	away := gives(t, l, r.Reactions())
	for i, x := range []float64{8, 16} {
		shift, _ := r.Move(x)
		require.InDelta(t, -away[i]-12e5/1e8, shift.Z, 1e-12)
	}
}

// Hangers that start at the preloads that carry the weight of a rigid deck keep
// them; a Kept one keeps its force and the others share what is left.
func TestLinkPreloadAndKept(t *testing.T) {
	l := hung(4, 20, 1e18, 5e9, 0)
	l.Supports = l.Supports[2:]
	g := beam.Setting{Preload: []float64{4e5, 6e5, 6e5, 4e5}}
	a := weight(l, 1e5, 0)
	require.InDeltaSlice(t, g.Preload, inSpace(t, l, a, g).Reactions(), 1)
	l.Supports[1].Kept = true
	r := inSpace(t, l, a, beam.Setting{Preload: []float64{0, 3e5, 0, 0}}).Reactions()
	require.Equal(t, 3e5, r[1])
	require.InDelta(t, 20e5, total(r), 1e-3)
	// By hand: the three others on a rigid deck, C of the gantry at 4, 12 and 16 m.
	other := l
	other.Supports = []beam.Restraint{l.Supports[0], l.Supports[2], l.Supports[3]}
	a.Points = []beam.SpacePoint{{X: 8, Force: r3.Vec{Z: 3e5}}}
	require.InDeltaSlice(t, inSpace(t, other, a, beam.Setting{}).Reactions(), []float64{r[0], r[2], r[3]}, 1e-3)
}

func TestLinksThatCannotBe(t *testing.T) {
	for says, change := range map[string]func(*beam.SpaceLayout){
		"Link.Name is empty":                                       func(l *beam.SpaceLayout) { l.Links[0].Name = "" },
		`Links[1].Name = "gantry": must differ`:                    func(l *beam.SpaceLayout) { l.Links = append(l.Links, l.Links[0]) },
		`Link "gantry": At = NaN m`:                                func(l *beam.SpaceLayout) { l.Links[0].At = math.NaN() },
		`Link "gantry": Supports[0] at 0 m has Contact = true`:     func(l *beam.SpaceLayout) { l.Links[0].Supports[0].Contact = true },
		"Settlement = 0.01 m: must be false and 0":                 func(l *beam.SpaceLayout) { l.Links[0].Supports[1].Settlement = .01 },
		`Link "gantry": beam: Length = 0 m`:                        func(l *beam.SpaceLayout) { l.Links[0].Length = 0 },
		"deflects by":                                              func(l *beam.SpaceLayout) { l.Links[0].Stiffness[0].BendingStiffness = 1e-80 },
		`Supports[2].Link = "crane" at x = 4 m: must be the name`:  func(l *beam.SpaceLayout) { l.Supports[2].Link = "crane" },
		`Supports[3].X = 8 m on Link "gantry": must be between`:    func(l *beam.SpaceLayout) { l.Links[0].At = 10 },
		`Supports[3].Couple at x = 8 m on Link "gantry"`:           func(l *beam.SpaceLayout) { l.Supports[3].Couple = true },
		`Supports[4].Direction at x = 12 m on Link "gantry": must`: func(l *beam.SpaceLayout) { l.Supports[4].Direction = r3.Vec{Y: 1} },
	} {
		l := hung(4, 20, 1e9, 5e9, 1e8)
		if says[:11] == "Supports[3]" && says[12] == 'X' {
			l.Supports[2].Link = ""
		}
		change(&l)
		_, err := beam.NewSpace(l)
		require.ErrorIs(t, err, beam.ErrBeam, says)
		require.ErrorContains(t, err, says)
	}
	l := hung(4, 20, 1e9, 5e9, 1e8)
	require.NoError(t, l.Links[0].Check())
	space, err := beam.NewSpace(l)
	require.NoError(t, err)
	l.Links[0].Stiffness[0].BendingStiffness, l.Links[0].Supports[0].At = 1, 3
	require.Equal(t, 5e9, space.Layout().Links[0].Stiffness[0].BendingStiffness, "a Space never changes")
	require.Zero(t, space.Layout().Links[0].Supports[0].At)
}

func BenchmarkNewSpaceHung(b *testing.B) {
	l := hung(12, 40, 1.8e11, 1e11, 2e8)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := beam.NewSpace(l); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSpaceHungSlack(b *testing.B) {
	l := hung(12, 40, 1.8e11, 1e11, 2e8)
	g := beam.Setting{Level: make([]float64, len(l.Supports))}
	for i := range l.Supports {
		l.Supports[i].OneWay = true
	}
	g.Level[5] = -.05
	s, err := beam.NewSpace(l)
	if err != nil {
		b.Fatal(err)
	}
	a := weight(l, 240e3, 0)
	b.ReportAllocs()
	for b.Loop() {
		if r, err := s.Solve(a, g); err != nil || r.Gaps()[5] == 0 {
			b.Fatal(err)
		}
	}
}
