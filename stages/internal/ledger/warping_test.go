package ledger

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// channel is an open section of thin walls: a web at y = 0 with slabs to one side.
func channel(t testing.TB, thickness, depth float64) section.Shape {
	h := thickness / 2
	s, err := section.New([]section.Outline{{
		{Y: -h, Z: -h}, {Y: 2, Z: -h}, {Y: 2, Z: h}, {Y: h, Z: h}, {Y: h, Z: depth - h}, {Y: 1.6, Z: depth - h}, {Y: 1.6, Z: depth + h}, {Y: -h, Z: depth + h},
	}}, nil)
	require.NoError(t, err)
	return s
}

// openLedger is a girder of one piece with at most one tendon, stressed to 1 MN all along.
func openLedger(t testing.TB, along section.Along, length float64, breaks []float64, tendons ...[2]section.Point) (*Ledger, *State) {
	l := &Ledger{Girder: Girder{Length: length, Pieces: []Piece{{To: length, Section: along}}, Breaks: breaks}}
	state := &State{Pieces: []int{0}, Ratios: []float64{1}, Bonded: make([]bool, len(tendons))}
	l.States = []*State{state}
	for i, ends := range tendons {
		line := func(a, b float64) tendon.Curve {
			return tendon.Curve{tendon.Straight(tendon.Point{Ordinate: a}, tendon.Point{X: length, Ordinate: b})}
		}
		path, err := tendon.Tendon{
			Mark: "T", Strand: tendon.Strand{Name: "invented", Area: 150e-6, Fpk: 1860e6, Fp01k: 1600e6, Modulus: 195e9}, Strands: 7, Duct: 0.05,
			Elevation: line(ends[0].Z, ends[1].Z), Plan: line(ends[0].Y, ends[1].Y), Friction: 0.2, Wobble: 0.005,
			Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
		}.Path()
		require.NoError(t, err)
		l.Girder.Tendons = append(l.Girder.Tendons, Tendon{Path: path, Area: 7 * 150e-6, Modulus: 195e9, Piece: 0})
		l.Steps = append(l.Steps, Step{
			Tendons: []int{i}, Force: []func(float64) float64{func(float64) float64 { return 1e6 }},
			States: []*State{state}, Bonded: make([]bool, len(tendons)), Modulus: func(int) float64 { return 33e9 },
		})
	}
	require.NoError(t, l.MakeGrid())
	return l, state
}

// total is B/Cw of everything at a node.
func warpingAt(l *Ledger, s *Situation, k, n int) (sum float64) {
	of := &l.measured(s, k)[n]
	for term := range len(of.products) + len(of.apart)/of.slots {
		sum += of.part(term, 0).Plane.Warping
	}
	return sum
}

// A straight tendon from end to end brings −P·ω in at both ends; from there
// B = −P·ω·cosh(k·(x − L/2))/cosh(k·L/2).
func TestWarpingByATendonAlongAnEdge(t *testing.T) {
	shape, at := channel(t, 0.12, 2), section.Point{Y: 1.8, Z: 0}
	l, _ := openLedger(t, shape, 20, nil, [2]section.Point{at, at})
	walls, err := shape.Walls()
	require.NoError(t, err)
	sectorial, err := walls.Warping()
	require.NoError(t, err)
	decay := math.Sqrt(walls.Constant / 2.4 / sectorial.Constant)
	s := &Situation{Steps: 1}
	s.Lay()
	end := -1e6 * sectorial.At(at) / sectorial.Constant
	require.Greater(t, math.Abs(end)*2, 1e5) // Pa at a tip
	for k, p := range l.Grid() {
		for n := range p.At {
			x := p.At[n].X
			require.InEpsilon(t, end*math.Cosh(decay*(x-10))/math.Cosh(decay*10), warpingAt(l, s, k, n), 1e-6, "x = %g", x)
		}
	}
	x := 7.3 // off the grid, nothing kept apart
	b, omega, constant, ok := l.Warping(s, x, 0, at, []float64{1}, nil)
	require.True(t, ok)
	require.InEpsilon(t, end*math.Cosh(decay*(x-10))/math.Cosh(decay*10), b/constant, 1e-6)
	require.Equal(t, sectorial.At(at), omega)
	var part Part
	for term := range s.products {
		part.add(l.effect(s, l.At(x)).part(term, 0), 1)
	}
	require.InEpsilon(t, b/constant, part.Plane.Warping, 1e-9)
}

// torques is a torque in the member that jumps.
type torques struct{ at, left, right, perMetre float64 }

func (f *torques) At(x float64) section.Forces {
	if x < f.at {
		return section.Forces{T: f.left + f.perMetre*x}
	}
	return section.Forces{T: f.right + f.perMetre*x}
}

// A torque at a place and one spread along the member, against the closed form of
// beam.Warping; the same shear beside the shear centre is a torque too.
func TestWarpingByTorques(t *testing.T) {
	shape := channel(t, 0.2, 2.5)
	l, state := openLedger(t, shape, 24, []float64{7})
	walls, err := shape.Walls()
	require.NoError(t, err)
	sectorial, err := walls.Warping()
	require.NoError(t, err)
	field := &torques{at: 7, left: 3e5, right: -2e5, perMetre: 1e4}
	s := &Situation{Entries: []Entry{{State: state, Field: field, Coefficient: 2, Inner: -1}}}
	s.Lay()
	b, err := beam.Warping{Length: 24, GJ: walls.Constant / 2.4, ECw: sectorial.Constant, Loads: []beam.TorqueLoad{
		{From: 7, To: 7, Torque: 3e5 + 2e5}, {From: 0, To: 24, Torque: -1e4 * 24}, // T falls by what acts
	}}.Solve()
	require.NoError(t, err)
	for k, p := range l.Grid() {
		for n := range p.At {
			want, _ := b.At(p.At[n].X)
			require.InDelta(t, 2*want/sectorial.Constant, warpingAt(l, s, k, n), 2e-6*1e5, "x = %g", p.At[n].X)
		}
	}
	c := walls.ShearCentre
	// Shear that grows along the member: through the shear centre it twists nothing, beside
	// it as the torque that it is. A torque that does not change would leave B at zero.
	require.Greater(t, math.Abs(c.Y), 0.3)
	require.Greater(t, math.Abs(c.Z), 0.3)
	by := func(field Field) float64 {
		of := &Situation{Entries: []Entry{{State: state, Field: field, Coefficient: 1, Inner: -1}}}
		of.Lay()
		return warpingAt(l, of, 0, 4)
	}
	through := &law{vz: [4]float64{0, 1e5}, vy: [4]float64{0, 6e4}, t: [4]float64{0, -1e5*c.Y + 6e4*c.Z}}
	require.InDelta(t, 0, by(through), 1e-3)
	for _, beside := range []struct{ shear, torque Field }{
		{&law{vz: [4]float64{0, 1e5}}, &law{t: [4]float64{0, 1e5 * c.Y}}}, {&law{vy: [4]float64{0, 6e4}}, &law{t: [4]float64{0, -6e4 * c.Z}}},
	} {
		require.NotZero(t, by(beside.torque))
		require.InEpsilon(t, by(beside.torque), by(beside.shear), 1e-9)
	}
}

// A tendon that slopes along the middle of a web: the bimoments at its anchors and the
// torque of its slope, in the closed form, are what it does on the warping of the web.
func TestWarpingByASlopingTendon(t *testing.T) {
	shape := channel(t, 0.1, 2)
	from, to := section.Point{Z: 0.3}, section.Point{Z: 1.7}
	l, _ := openLedger(t, shape, 20, nil, [2]section.Point{from, to})
	walls, err := shape.Walls()
	require.NoError(t, err)
	sectorial, err := walls.Warping()
	require.NoError(t, err)
	// The vertical component P·1.4/20 through y = 0 beside the shear centre: an upward
	// force on the concrete at the left, downward at the right; in between a torque
	// alone. With ends that warp B'' = k²·B and B(0) = −P·ω(0.3), B(L) = −P·ω(1.7).
	decay := math.Sqrt(walls.Constant / 2.4 / sectorial.Constant)
	force := 1e6 * 20 / math.Hypot(20, 1.4)
	left, right := -force*sectorial.At(from), -force*sectorial.At(to)
	s := &Situation{Steps: 1}
	s.Lay()
	for k, p := range l.Grid() {
		for n := range p.At {
			x := p.At[n].X
			want := (left*math.Sinh(decay*(20-x)) + right*math.Sinh(decay*x)) / math.Sinh(decay*20)
			require.InDelta(t, want, warpingAt(l, s, k, n)*sectorial.Constant, 0.01*math.Max(math.Abs(left), math.Abs(right)), "x = %g", x)
		}
	}
}

// Where a section is closed, too stocky, or joined side by side, nothing warps.
func TestWhatDoesNotWarp(t *testing.T) {
	box, err := section.New([]section.Outline{{{Y: -1}, {Y: 1}, {Y: 1, Z: 2}, {Y: -1, Z: 2}}}, []section.Outline{{{Y: -0.8, Z: 0.2}, {Y: 0.8, Z: 0.2}, {Y: 0.8, Z: 1.8}, {Y: -0.8, Z: 1.8}}})
	require.NoError(t, err)
	block, err := section.New([]section.Outline{{{Y: -0.5}, {Y: 0.5}, {Y: 0.5, Z: 1.2}, {Y: -0.5, Z: 1.2}}}, nil)
	require.NoError(t, err)
	for name, shape := range map[string]section.Shape{"box": box, "block": block} {
		l, state := openLedger(t, shape, 24, nil)
		require.Nil(t, l.member(state), name)
		s := &Situation{Entries: []Entry{{State: state, Field: &law{t: [4]float64{1e5, 1e4}}, Coefficient: 1, Inner: -1}}}
		s.Lay()
		require.Zero(t, warpingAt(l, s, 0, 4), name)
	}
	half := channel(t, 0.2, 2)
	l := &Ledger{Girder: Girder{Length: 20, Pieces: []Piece{{To: 20, Section: half}, {To: 20, Section: half.Mirrored()}}}}
	alone := &State{Pieces: []int{0}, Ratios: []float64{1}}
	joined := &State{Index: 1, Pieces: []int{0, 1}, Ratios: []float64{1, 1}}
	l.States = []*State{alone, joined}
	require.NoError(t, l.MakeGrid())
	require.NotNil(t, l.member(alone))
	require.Nil(t, l.member(joined))
}

// A tendon of the girder that runs through the second of two elements which do not act
// as one yet warps that element, not the first.
func TestWarpingOfTheElementThatATendonPasses(t *testing.T) {
	shape, at := channel(t, 0.12, 2), section.Point{Y: 1.8, Z: 0}
	line := func(v float64) tendon.Curve {
		return tendon.Curve{tendon.Straight(tendon.Point{X: 15, Ordinate: v}, tendon.Point{X: 35, Ordinate: v})}
	}
	path, err := tendon.Tendon{
		Mark: "T", Strand: tendon.Strand{Name: "invented", Area: 150e-6, Fpk: 1860e6, Fp01k: 1600e6, Modulus: 195e9}, Strands: 7, Duct: 0.05,
		Elevation: line(at.Z), Plan: line(at.Y), Friction: 0.2, Wobble: 0.005, Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}.Path()
	require.NoError(t, err)
	l := &Ledger{Girder: Girder{Length: 35, Pieces: []Piece{{To: 15, Section: shape}, {From: 15, To: 35, Section: shape}},
		Tendons: []Tendon{{Path: path, Area: 7 * 150e-6, Modulus: 195e9, Piece: -1}}}}
	first := &State{Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{false}}
	second := &State{Index: 1, Pieces: []int{1}, Ratios: []float64{1}, Bonded: []bool{false}}
	l.States = []*State{first, second}
	l.Steps = []Step{{Tendons: []int{0}, Force: []func(float64) float64{func(float64) float64 { return 1e6 }}, States: l.States, Bonded: []bool{false}, Modulus: func(int) float64 { return 33e9 }}}
	require.NoError(t, l.MakeGrid())
	walls, err := shape.Walls()
	require.NoError(t, err)
	sectorial, err := walls.Warping()
	require.NoError(t, err)
	decay := math.Sqrt(walls.Constant / 2.4 / sectorial.Constant)
	end := -1e6 * sectorial.At(at) / sectorial.Constant
	s := &Situation{Steps: 1}
	s.Lay()
	for k, p := range l.Grid() {
		for n := range p.At {
			want := 0.0
			if x := p.At[n].X; x > 15 {
				want = end * math.Cosh(decay*(x-25)) / math.Cosh(decay*10)
			}
			require.InDelta(t, want, warpingAt(l, s, k, n), 1e-6*math.Abs(end), "x = %g", p.At[n].X)
		}
	}
}

// The same numbers come out again to the last bit, whatever the number of tendons: the
// fingerprint of a record rests on it.
func TestWarpingToTheLastBit(t *testing.T) {
	shape := channel(t, 0.12, 2)
	at := func(y float64) [2]section.Point { return [2]section.Point{{Y: y}, {Y: y / 3}} }
	l, _ := openLedger(t, shape, 20, nil, at(0.3), at(0.7), at(1.1), at(1.5), at(1.9))
	var first []float64
	for range 20 {
		s := &Situation{Steps: 5}
		s.Lay()
		var all []float64
		for k, p := range l.Grid() {
			for n := range p.At {
				all = append(all, warpingAt(l, s, k, n))
			}
		}
		if first == nil {
			first = all
		}
		require.Equal(t, first, all)
	}
}
