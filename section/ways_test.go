package section_test

import (
	"container/heap"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// way is the length between two points of a shape.
func way(t testing.TB, shape section.Shape, from, to section.Point) float64 {
	t.Helper()
	lengths, err := shape.Ways().Lengths([]section.Point{from}, []section.Point{to})
	require.NoError(t, err)
	return lengths[0]
}

func at(y, z float64) section.Point { return section.Point{Y: y, Z: z} }

func straight(p, q section.Point) float64 { return math.Hypot(p.Y-q.Y, p.Z-q.Z) }

func TestWayRoundAVoid(t *testing.T) {
	box := hollow(t) // 2 × 3 m, void 1 × 2 m in its middle
	for to, want := range map[section.Point]float64{
		at(-0.75, 2.9): 1.9,                                                   // up its own web
		at(-0.5, 2):    math.Hypot(0.25, 1),                                   // on the face of the void
		at(0.5, 0.5):   math.Hypot(0.25, 0.5) + 1,                             // along the floor of the void to its corner
		at(0.75, 1):    2*math.Hypot(0.25, 0.5) + 1,                           // under the void
		at(1, 1.25):    math.Hypot(0.25, 0.5) + 1 + 0.75*math.Hypot(2/3.0, 1), // 0.5 out, 0.75 up from the corner
		at(0.75, 2.4):  math.Hypot(0.25, 1.5) + 1 + math.Hypot(0.25, 0.1),     // over it
		at(0, 3):       math.Hypot(0.25, 1.5) + math.Hypot(0.5, 0.5),
		at(-1, 3):      math.Hypot(0.25, 2),
	} {
		require.InDelta(t, want, way(t, box, at(-0.75, 1), to), 1e-12, "to %v", to)
	}
}

func TestWayDownTheWebAndOutAlongTheSlab(t *testing.T) {
	// Slab 4 × 0.2 m over a web 0.4 × 1.8 m, off the middle.
	tee := polygon(t, 0, 0, 0.4, 0, 0.4, 1.8, 3, 1.8, 3, 2, -1, 2, -1, 1.8, 0, 1.8)
	anchor := at(0.1, 0.3)
	require.InDelta(t, math.Hypot(0.3, 1.5)+2.6, way(t, tee, anchor, at(3, 1.8)), 1e-12, "round the web's right-hand corner, along the slab's soffit")
	require.InDelta(t, math.Hypot(0.3, 1.5)+math.Hypot(2.6, 0.2), way(t, tee, anchor, at(3, 2)), 1e-12)
	require.InDelta(t, math.Hypot(0.1, 1.5)+math.Hypot(1, 0.1), way(t, tee, anchor, at(-1, 1.9)), 1e-12)
	require.InDelta(t, 1.7, way(t, tee, anchor, at(0.1, 2)), 1e-12, "straight up")
	require.InDelta(t, 4, way(t, tee, at(-1, 1.8), at(3, 1.8)), 1e-12, "over both corners of the web, between edges of one level")
	require.InDelta(t, 0.4, way(t, tee, at(0, 1.8), at(0.4, 1.8)), 1e-12)
}

func TestWayIsStraightInARectangle(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 8))
	shape := plain(t, 0.6, 1.4)
	ways := shape.Ways()
	edge := []section.Point{at(-0.3, 0), at(0.3, 1.4), at(0.3, 0.2), at(0, 0), at(-0.1, 1.4)}
	for range 20 {
		p := at(0.6*random.Float64()-0.3, 1.4*random.Float64())
		lengths, err := ways.Lengths([]section.Point{p}, edge)
		require.NoError(t, err)
		for i, length := range lengths {
			require.InDelta(t, straight(p, edge[i]), length, 1e-15)
		}
	}
}

func TestWayFromTheNearest(t *testing.T) {
	ways := hollow(t).Ways()
	from := []section.Point{at(-0.75, 1), at(0.9, 2.8)}
	to := []section.Point{at(0.75, 1), at(-0.75, 0.8), at(0.9, 2.8)}
	lengths, err := ways.Lengths(from, to)
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{math.Hypot(0.15, 1.8), 0.2, 0}, lengths, 1e-12)
	none, err := ways.Lengths(from, nil)
	require.NoError(t, err)
	require.Empty(t, none)
}

func TestNoWayOverAGap(t *testing.T) {
	halves := shapeOf(t, []section.Outline{rectangle(0, 0, 1, 2), rectangle(1.2, 0, 1, 2)})
	require.InDelta(t, 1, way(t, halves, at(0.5, 0.5), at(0.5, 1.5)), 1e-12)
	require.True(t, math.IsInf(way(t, halves, at(0.5, 0.5), at(1.5, 0.5)), 1))
	lengths, err := halves.Ways().Lengths([]section.Point{at(1.5, 0), at(0.9, 0)}, []section.Point{at(1, 2), at(1.2, 0)})
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{math.Hypot(0.1, 2), 0.3}, lengths, 1e-12)
}

func TestWayRefuses(t *testing.T) {
	box, inside := hollow(t), []section.Point{at(-0.75, 1)}
	for words, points := range map[string][2][]section.Point{
		"must be at least one":                 {nil, inside},
		"way from y = 0 m, z = 1 m: must be":   {{inside[0], at(0, 1)}, inside},
		"way to y = 0 m, z = 1 m: must be":     {inside, {at(0, 1)}},
		"way to y = 1.001 m, z = 1 m: must be": {inside, {at(1.001, 1)}},
		"way to y = NaN m":                     {inside, {at(math.NaN(), 1)}},
		"z = NaN m":                            {inside, {at(0, math.NaN())}},
		"y = -Inf m":                           {inside, {at(math.Inf(-1), 1)}},
		"z = +Inf m":                           {{at(0, math.Inf(1))}, inside},
	} {
		_, err := box.Ways().Lengths(points[0], points[1])
		require.ErrorIs(t, err, section.ErrShape, words)
		require.ErrorContains(t, err, words)
	}
	_, err := section.Shape{}.Ways().Lengths(inside, inside)
	require.ErrorIs(t, err, section.ErrShape)
	_, err = box.Ways().Lengths(inside, []section.Point{at(1+1e-9, 1), at(0.5-1e-9, 1)})
	require.NoError(t, err, "rounding does not push a point off an outline")
}

// within is points in the concrete and on its outline, with its corners.
func within(random *rand.Rand, shape section.Shape, number int) []section.Point {
	corners := shape.Corners()
	points := append([]section.Point(nil), corners...)
	low, high := corners[0], corners[0]
	for i, c := range corners {
		low, high = at(math.Min(low.Y, c.Y), math.Min(low.Z, c.Z)), at(math.Max(high.Y, c.Y), math.Max(high.Z, c.Z))
		next := corners[(i+1)%len(corners)]
		if f := random.Float64(); shape.Clearance(at(c.Y+f*(next.Y-c.Y), c.Z+f*(next.Z-c.Z))) > -1e-12 {
			points = append(points, at(c.Y+f*(next.Y-c.Y), c.Z+f*(next.Z-c.Z)))
		}
	}
	for number += len(points); len(points) < number; {
		if p := at(low.Y+random.Float64()*(high.Y-low.Y), low.Z+random.Float64()*(high.Z-low.Z)); shape.Clearance(p) > 0 {
			points = append(points, p)
		}
	}
	return points
}

// wayShapes is shapes with slopes, haunches, a void and many corners.
func wayShapes(t testing.TB) []section.Shape {
	open, err := half.Shape()
	require.NoError(t, err)
	closed := half
	closed.InnerWall, closed.TopInner = 0.2, 0.3
	cell, err := closed.Shape()
	require.NoError(t, err)
	box, err := usual.Shape()
	require.NoError(t, err)
	random := rand.New(rand.NewPCG(5, 21))
	shapes := []section.Shape{hollow(t), open, cell, box, turnedBy(t, box, 0.7, 1.3, at(3, 2)), turnedBy(t, hollow(t), math.Pi/6, 2, at(0, 7))}
	for range 6 {
		s := randomSkyline(random)
		shapes = append(shapes, shapeOf(t, []section.Outline{s.outline(0, len(s.y)-1)}))
	}
	return shapes
}

func TestWaysAreADistance(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 77))
	for k, shape := range wayShapes(t) {
		points := within(random, shape, 12)
		ways := shape.Ways()
		distance := make([][]float64, len(points))
		for i, p := range points {
			lengths, err := ways.Lengths([]section.Point{p}, points)
			require.NoError(t, err)
			distance[i] = lengths
		}
		for i, p := range points {
			require.Zero(t, distance[i][i])
			for j, q := range points {
				require.InDelta(t, distance[i][j], distance[j][i], 1e-12, "shape %d: same both ways", k)
				require.GreaterOrEqual(t, distance[i][j], straight(p, q)-1e-15, "shape %d", k)
				for m := range points {
					require.LessOrEqual(t, distance[i][j], distance[i][m]+distance[m][j]+1e-12, "shape %d: %v to %v by %v", k, p, q, points[m])
				}
			}
		}
		scale, angle, origin := 0.2+3*random.Float64(), 6*random.Float64(), at(1, -2)
		turned := turnedBy(t, shape, angle, scale, origin)
		other, err := turned.Ways().Lengths(turned.Corners()[:1], turned.Corners())
		require.NoError(t, err)
		for j, length := range distance[0][:len(other)] {
			require.InDelta(t, length*scale, other[j], 1e-8, "shape %d turned by %g", k, angle)
		}
	}
}

// polygonWith is an outline given by the y and z of its corners, with voids.
func polygonWith(t testing.TB, voids []section.Outline, pairs ...float64) section.Shape {
	t.Helper()
	return shapeOf(t, polygon(t, pairs...).Solids(), voids...)
}

// grid is the points of a square net in the concrete, joined by straight lines
// of up to three meshes either way that were sampled to lie in it.
type grid struct {
	shape  section.Shape
	mesh   float64
	points map[[2]int]float64 // distance found so far
	queue  []waiting
}

type waiting struct {
	at     [2]int
	length float64
}

func (g *grid) Len() int           { return len(g.queue) }
func (g *grid) Less(i, j int) bool { return g.queue[i].length < g.queue[j].length }
func (g *grid) Swap(i, j int)      { g.queue[i], g.queue[j] = g.queue[j], g.queue[i] }
func (g *grid) Push(x any)         { g.queue = append(g.queue, x.(waiting)) }
func (g *grid) Pop() any {
	last := g.queue[len(g.queue)-1]
	g.queue = g.queue[:len(g.queue)-1]
	return last
}

func (g *grid) point(n [2]int) section.Point { return at(float64(n[0])*g.mesh, float64(n[1])*g.mesh) }

// free samples a line.
func (g *grid) free(p, q section.Point) bool {
	for i := range 13 {
		f := float64(i) / 12
		if g.shape.Clearance(at(p.Y+f*(q.Y-p.Y), p.Z+f*(q.Z-p.Z))) < -1e-9 {
			return false
		}
	}
	return true
}

// spread runs Dijkstra's algorithm from one point of the net.
func (g *grid) spread(from [2]int) {
	done := map[[2]int]bool{}
	g.points = map[[2]int]float64{from: 0}
	heap.Push(g, waiting{from, 0})
	for g.Len() > 0 {
		here := heap.Pop(g).(waiting)
		if done[here.at] {
			continue
		}
		done[here.at] = true
		for i := -3; i <= 3; i++ {
			for j := -3; j <= 3; j++ {
				next := [2]int{here.at[0] + i, here.at[1] + j}
				length := here.length + g.mesh*math.Hypot(float64(i), float64(j))
				if old, known := g.points[next]; (known && old <= length) || !g.free(g.point(here.at), g.point(next)) {
					continue
				}
				g.points[next] = length
				heap.Push(g, waiting{next, length})
			}
		}
	}
}

// The steps of the net turn by at most 18.4° (from (3, 0) to (3, 1)): a straight
// line is at most 1/cos 9.2° = 1.3 % longer on it; each of up to four bends and
// both ends lie within a mesh and a half of a point of the net.
func TestWaysAgainstAFineNet(t *testing.T) {
	const mesh = 0.05
	for k, shape := range wayShapes(t)[:8] {
		g := &grid{shape: shape, mesh: mesh}
		var from [2]int
		for i := -200; i <= 200 && from == [2]int{}; i++ {
			for j := -200; j <= 200; j++ {
				if shape.Clearance(g.point([2]int{i, j})) > 0.02 {
					from = [2]int{i, j}
					break
				}
			}
		}
		g.spread(from)
		var points []section.Point
		var net []float64
		for n, length := range g.points {
			points, net = append(points, g.point(n)), append(net, length)
		}
		require.Greater(t, len(points), 300, "shape %d", k)
		lengths, err := shape.Ways().Lengths([]section.Point{g.point(from)}, points)
		require.NoError(t, err)
		for i, length := range lengths {
			require.LessOrEqual(t, length, net[i]+1e-9, "shape %d: %v to %v", k, g.point(from), points[i])
			require.GreaterOrEqual(t, 1.0132*length+6*1.5*mesh, net[i], "shape %d: %v to %v", k, g.point(from), points[i])
		}
	}
}

func TestWaysRoundManyCorners(t *testing.T) {
	void, err := section.Circle(at(0, 0.5), 0.6, 1e-4)
	require.NoError(t, err)
	shape := shapeOf(t, []section.Outline{rectangle(-1, 0, 2, 1)}, void)
	// Tangents to the circle and the arc between them; the polygon keeps its area,
	// so that its corners reach 1e-4 m beyond the circle at most.
	radius, off := 0.3, 0.8
	want := 2*math.Sqrt(off*off-radius*radius) + radius*(math.Pi-2*math.Acos(radius/off))
	require.InDelta(t, want, way(t, shape, at(-off, 0.5), at(off, 0.5)), 4e-4)
}

// BenchmarkWays is a deck of four cells with 40 corners.
func BenchmarkWays(b *testing.B) {
	var cells []section.Outline
	for i := range 4 {
		cell := rectangle(0.3+2.2*float64(i), 0.2, 1.9, 1.4)
		var haunched section.Outline
		for k, c := range cell {
			before, next := cell[(k+3)%4], cell[(k+1)%4]
			haunched = append(haunched, at(c.Y+0.1*(before.Y-c.Y), c.Z+0.1*(before.Z-c.Z)), at(c.Y+0.1*(next.Y-c.Y), c.Z+0.1*(next.Z-c.Z)))
		}
		cells = append(cells, haunched)
	}
	box := polygonWith(b, cells, 0, 0, 9.1, 0, 9.1, 1.6, 11, 1.7, 11, 1.8, -2, 1.8, -2, 1.7, 0, 1.6)
	points := within(rand.New(rand.NewPCG(4, 4)), box, 80)
	from, to := points[len(points)-8:], points[:60]
	b.Run("net", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			box.Ways()
		}
	})
	ways := box.Ways()
	b.Run("8 to 60 points", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := ways.Lengths(from, to); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(len(box.Corners())), "corners")
	})
}
