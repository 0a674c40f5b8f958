package ledger

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// law is internal forces that are polynomials of x.
type law struct{ my, mz, vy, vz, t [4]float64 }

func (f *law) At(x float64) section.Forces {
	at := func(c [4]float64) float64 { return c[0] + x*(c[1]+x*(c[2]+x*c[3])) }
	return section.Forces{Vy: at(f.vy), Vz: at(f.vz), T: at(f.t), My: at(f.my), Mz: at(f.mz)}
}

func randomLaw(rng *rand.Rand, size float64) *law {
	var f law
	for _, c := range []*[4]float64{&f.my, &f.mz, &f.vy, &f.vz, &f.t} {
		for k := range c {
			c[k] = size * rng.NormFloat64() * math.Pow(0.15, float64(k))
		}
	}
	return &f
}

// searched is a girder of 16 m without symmetry, constant or tapered, with three
// tendons whose anchor zones cover most of it, and a situation on it.
func searched(t testing.TB, rng *rand.Rand, tapered bool) (*Ledger, *Situation) {
	return searchedIn(t, rng, tapered, false)
}

// searchedIn is searched, with a void or open to one side.
func searchedIn(t testing.TB, rng *rand.Rand, tapered, open bool) (*Ledger, *Situation) {
	shape := func(wide float64) section.Shape {
		if open {
			s, err := section.New([]section.Outline{{{Y: -1.6 * wide}, {Y: 0.4}, {Y: 0.4, Z: 0.25}, {Y: 0.15, Z: 0.45}, {Y: 0.15, Z: 1.25}, {Y: 0.7 * wide, Z: 1.42}, {Y: 0.7 * wide, Z: 1.6}, {Y: -1.6 * wide, Z: 1.6},
				{Y: -1.6 * wide, Z: 1.4}, {Y: -0.1, Z: 1.35}, {Y: -0.1, Z: 0.25}, {Y: -1.6 * wide, Z: 0.2}}}, nil)
			require.NoError(t, err)
			return s
		}
		s, err := section.New([]section.Outline{{{Y: -0.6 * wide}, {Y: 0.4}, {Y: 0.4, Z: 0.25}, {Y: 0.15, Z: 0.45}, {Y: 0.15, Z: 1.25}, {Y: 0.7 * wide, Z: 1.42}, {Y: 0.7 * wide, Z: 1.6}, {Y: -0.6 * wide, Z: 1.6}}},
			[]section.Outline{{{Y: -0.4 * wide, Z: 0.4}, {Y: -0.1, Z: 0.4}, {Y: -0.1, Z: 1.3}, {Y: -0.4 * wide, Z: 1.3}}})
		require.NoError(t, err)
		return s
	}
	var along section.Along = shape(1)
	if tapered {
		var err error
		along, err = section.Taper{Left: shape(1), Right: shape(1.3), To: 16}.Along()
		require.NoError(t, err)
	}
	l := &Ledger{Girder: Girder{Length: 16, Pieces: []Piece{{To: 16, Section: along}}}}
	step := Step{Modulus: func(int) float64 { return 33e9 }}
	for i, p := range [][6]float64{{0, 16, 0.02, 0.3, -0.02, 0.15}, {0, 11, 0.03, 1.1, 0, 0.8}, {4, 16, 0, 0.7, 0.02, 1.2}} {
		line := func(a, b float64) tendon.Curve {
			return tendon.Curve{tendon.Straight(tendon.Point{X: p[0], Ordinate: a}, tendon.Point{X: p[1], Ordinate: b})}
		}
		strand := tendon.Strand{Name: "invented", Area: 150e-6, Fpk: 1860e6, Fp01k: 1600e6, Modulus: 195e9}
		path, err := tendon.Tendon{Mark: "T", Strand: strand, Strands: 7, Duct: 0.06, Elevation: line(p[3], p[5]), Plan: line(p[2], p[4]), Friction: 0.2, Wobble: 0.005,
			Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1}}.Path()
		require.NoError(t, err)
		l.Girder.Tendons = append(l.Girder.Tendons, Tendon{Path: path, Area: 7 * 150e-6, Modulus: 195e9, Duct: 0.06, Piece: -1})
		step.Tendons = append(step.Tendons, i)
		force := 1e6 * (0.5 + rng.Float64())
		step.Force = append(step.Force, func(x float64) float64 { return force * math.Exp(-0.01*x) })
	}
	state := &State{Pieces: []int{0}, Ratios: []float64{1}, Bonded: make([]bool, 3)}
	l.States, step.States, step.Bonded = []*State{state}, []*State{state}, make([]bool, 3)
	l.Steps = []Step{step}
	require.NoError(t, l.MakeGrid())
	s := &Situation{Steps: 1, Prestress: 0}
	for i, outer := range [][]int{nil, {1}, {0}, nil} {
		inner := []int{2, 2, -1, 3}[i]
		s.Entries = append(s.Entries, Entry{State: state, Field: randomLaw(rng, 4e5), Coefficient: 1, Inner: inner, Outer: outer})
	}
	s.Lay()
	return l, s
}

var searchedCauses = []Cause{{0.9, 1.1, true}, {0.85, 1.15, true}, {0.97, 1.03, false}, {-1, 1, false}}

// The extreme stress is what the best of all factors gives at any corner of many
// stations: every end of every range, tendons outside whose spread a corner lies with
// none or all of their part.
func TestExtremeAgainstEveryFactor(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	for n := range 12 {
		l, s := searchedIn(t, rng, n%3 == 2, n%5 < 2)
		require.Equal(t, n%5 < 2, l.member(s.Entries[0].State) != nil)
		d, err := l.Demand(s, searchedCauses)
		require.NoError(t, err)
		count := func(*Stretch, Corner) bool { return true }
		if n%4 == 3 { // corners within the hull of all may be the extreme ones of those that count
			count = func(_ *Stretch, c Corner) bool { return c.At.Z < 1.3 && c.At.Y > -0.5 }
		}
		for _, sign := range []float64{1, -1} {
			got, err := d.Extreme(sign, 0, count)
			require.NoError(t, err)
			want, scale := math.Inf(-1), 0.0
			for k := range l.grid {
				p := &l.grid[k]
				for i := range 41 {
					x := p.At[0].X + (p.At[Nodes-1].X-p.At[0].X)*float64(i)/40
					at := l.at(x, p, 1)
					of := l.measure(s, at)
					for c, corner := range at.Corners {
						if count(p, p.At[Nodes/2].Corners[c]) {
							v := sign * everyFactor(s, p, &of, d.apartAt(p, c, x), corner.Spot(), sign)
							want, scale = math.Max(want, v), math.Max(scale, math.Abs(v))
						}
					}
				}
			}
			require.GreaterOrEqual(t, sign*got.Value, want-1e-9*scale, "case %d", n)
			require.LessOrEqual(t, sign*got.Value, want+2e-3*scale, "case %d: 40 places a stretch miss that little", n)
			// The factors that it names give the value.
			p := stretchAt(l, got.X)
			at := l.at(got.X, p, 1)
			of := l.measure(s, at)
			sum, spot := 0.0, at.Corners[got.Corner].Spot()
			for g := range s.products {
				sum += s.products[g].under(got.Factors) * of.part(g, 0).Plane.At(spot)
			}
			for i, z := range p.spreading {
				factor := 1.0
				for _, a := range got.Apart {
					if a.Tendon == z.tendon {
						factor = a.Factor
					}
				}
				sum += got.Factors[0] * factor * of.part(len(s.products)+i, 0).Plane.At(spot)
			}
			require.InDelta(t, got.Value, sum, 1e-9*scale, "case %d", n)
		}
	}
}

func stretchAt(l *Ledger, x float64) *Stretch {
	for k := range l.grid {
		if p := &l.grid[k]; x >= p.At[0].X && x <= p.At[Nodes-1].X {
			return p
		}
	}
	return nil
}

// everyFactor is the extreme at a corner by trying all ends of all factors.
func everyFactor(s *Situation, p *Stretch, of *effect, apart []int, at Spot, sign float64) float64 {
	best := math.Inf(-1)
	factors := make([]float64, len(searchedCauses))
	products, near := len(s.products), len(p.spreading)
	for choice := range 1 << (len(factors) + near) {
		for i, cause := range searchedCauses {
			factors[i] = cause.Least
			if choice>>i&1 == 1 {
				factors[i] = cause.Most
			}
		}
		sum := 0.0
		for g := range s.products {
			sum += s.products[g].under(factors) * of.part(g, 0).Plane.At(at)
		}
		for i := range p.spreading {
			if !slices.Contains(apart, i) || choice>>(len(factors)+i)&1 == 1 {
				sum += factors[0] * of.part(products+i, 0).Plane.At(at)
			}
		}
		best = math.Max(best, sign*sum)
	}
	return sign * best
}

// No cut of any station has more than the worst wall by more than the places between
// the nodes can miss, and the worst wall is what its factors give.
func TestWorstWallAgainstEveryCut(t *testing.T) {
	rng := rand.New(rand.NewPCG(33, 34))
	for n := range 8 {
		l, s := searchedIn(t, rng, n == 5, n == 4)
		d, err := l.Demand(s, searchedCauses)
		require.NoError(t, err)
		for _, principal := range []bool{true, false} {
			q := WallQuery{Principal: principal, Cracked: math.Inf(1), Filling: func(i int) section.Filling { return section.Filling(i % 2) }}
			worst, cracked, err := d.WorstWall(q)
			require.NoError(t, err)
			require.Empty(t, cracked)
			most := 0.0
			for k := range l.grid {
				p := &l.grid[k]
				for i, at := range p.At {
					require.NoError(t, l.measureEnds(p, 0))
					w, err := l.wallsAt(at, 0, []section.Filling{0, 1, 0})
					require.NoError(t, err)
					of := &l.measured(s, k)[i]
					c, err := d.wallColumns(p, 0, of, w.centres())
					require.NoError(t, err)
					forces := d.wall.largest(c)
					for j := range w.net {
						v := everyWall(d, p, at.X, of, w, j, principal)
						most = math.Max(most, v)
						if !principal {
							require.LessOrEqual(t, v, w.most(j, &forces)*(1+1e-12))
						}
					}
				}
			}
			require.GreaterOrEqual(t, worst.Value, most*(1-1e-9), "case %d", n)
			require.LessOrEqual(t, worst.Value, most*1.05, "case %d: between nodes it is little more", n)
		}
	}
}

// everyWall is the largest value at the ends of a cut by trying all factors; the
// stress of tendons within whose spread an end does not lie counts or not, their shear
// does.
func everyWall(d *Demand, p *Stretch, x float64, of *effect, w *wallsAt, j int, principal bool) float64 {
	s, cut, best := d.situation, w.cut(j), 0.0
	apart := [2][]int{d.apartIn(p, 0, x, cut.From), d.apartIn(p, 0, x, cut.To)}
	factors := make([]float64, len(searchedCauses))
	for choice := range 1 << (len(factors) + len(p.spreading)) {
		for i, cause := range searchedCauses {
			factors[i] = cause.Least
			if choice>>i&1 == 1 {
				factors[i] = cause.Most
			}
		}
		var sum, from, to float64
		var f section.Forces
		for g := range len(s.products) + len(p.spreading) {
			factor, counts := factors[0], [2]float64{1, 1}
			if g < len(s.products) {
				factor = s.products[g].under(factors)
			} else {
				for end := range counts {
					if i := g - len(s.products); slices.Contains(apart[end], i) {
						counts[end] = float64(choice >> (len(factors) + i) & 1)
					}
				}
			}
			part := of.part(g, 0)
			f = f.Plus(part.Forces.Times(factor))
			from += factor * counts[0] * part.Plane.At(w.ends(j)[0])
			to += factor * counts[1] * part.Plane.At(w.ends(j)[1])
		}
		centre := w.walls.ShearCentre
		torque := f.T + centre.Y*f.Vz - centre.Z*f.Vy
		sum = f.Vy*cut.Y + f.Vz*cut.Z + torque*cut.T
		if w.taper != nil {
			sum += f.N*w.taper[j][0] + f.My*w.taper[j][1] + f.Mz*w.taper[j][2]
		}
		sum = math.Abs(sum) / w.net[j]
		if cut.Open {
			sum += math.Abs(torque) * cut.Face
		}
		if principal {
			normal := math.Max(from, to)
			sum, _ = section.PrincipalStresses(normal, sum)
		}
		best = math.Max(best, sum)
	}
	return best
}

// Coefficients narrowed to a part give the same polynomials there, and the peak above
// a floor is that of the curve, or the floor.
func TestRowsNarrowed(t *testing.T) {
	rng := rand.New(rand.NewPCG(35, 36))
	const n = 3
	var e Envelope
	for range 200 {
		var curves [n]Curve
		rows := make([]float64, Nodes*n)
		size := 0.0
		for j := range curves {
			curves[j] = randomCurve(rng, 1+rng.IntN(8), 1)
			b, span := curves[j].control()
			size += span + math.Abs(curves[j][0])
			for i, v := range b {
				rows[i*n+j] = curves[j][0] + v
			}
		}
		low := rng.Float64()
		high := low + (1-low)*(0.01+0.99*rng.Float64())
		narrow(rows, n, low, high)
		e.whole, e.at = rows, make([]float64, n)
		for _, s := range []float64{0, 0.3, 0.77, 1} {
			e.evaluate(n, s)
			for j := range curves {
				require.InDelta(t, curves[j].At(2*(low+s*(high-low))-1), e.at[j], 1e-12*size)
			}
		}
		measure := func(v []float64) float64 { return v[0] + math.Abs(v[1]) + v[2] }
		most := math.Inf(-1)
		for i := range 801 {
			e.evaluate(n, float64(i)/800)
			most = math.Max(most, measure(e.at))
		}
		at, value, bound := e.peakAbove(rows, n, math.Inf(-1), 1e-9, measure)
		require.GreaterOrEqual(t, value, most-1e-9*size)
		require.GreaterOrEqual(t, bound, most)
		e.evaluate(n, (at+1)/2)
		require.InDelta(t, measure(e.at), value, 1e-12*size)
		_, value, _ = e.peakAbove(rows, n, value+size, 1e-9, measure)
		require.InDelta(t, measure(e.at)+size, value, 1e-12*size, "nothing is above the floor")
	}
}

// Points between the corners of an edge that tapers through a multiple of its longest
// part are as many at every station of a stretch.
func TestPointsBetweenCornersOfATaper(t *testing.T) {
	plate := func(wide float64) section.Shape {
		s, err := section.New([]section.Outline{{{Y: -0.4 * wide}, {Y: 0.6 * wide}, {Y: 0.6 * wide, Z: 1.6}, {Y: -0.4 * wide, Z: 1.6}}}, nil)
		require.NoError(t, err)
		return s
	}
	l, _ := searched(t, rand.New(rand.NewPCG(41, 42)), false)
	l, near := &Ledger{States: l.States, Steps: l.Steps, Girder: l.Girder}, 0
	along, err := section.Taper{Left: plate(1.48), Right: plate(1.8), To: 16}.Along() // 1.5 m in the first zone
	require.NoError(t, err)
	l.Girder.Pieces = []Piece{{To: 16, Section: along}}
	require.NoError(t, l.MakeGrid())
	for k := range l.grid {
		p := &l.grid[k]
		for _, at := range p.At {
			require.Len(t, at.Corners, len(p.At[0].Corners))
			shape := at.Pieces[0].Shape
			for _, c := range at.Corners {
				require.InDelta(t, 0, shape.Clearance(c.At), 1e-12, "on an edge")
			}
		}
		if len(p.spreading) > 0 {
			near++
			require.GreaterOrEqual(t, len(p.At[0].Corners), 12)
		} else {
			require.Len(t, p.At[0].Corners, 4)
		}
	}
	require.NotZero(t, near)
}
