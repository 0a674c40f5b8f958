package sheet

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/stages"
)

// leaders are the leaders of a figure.
func leaders(list []drawn) (found [][2]vgPoint) {
	for _, d := range list {
		if d.pen == leadPen && len(d.points) == 2 {
			found = append(found, [2]vgPoint{d.points[0], d.points[1]})
		}
	}
	return found
}

// parted is how far a stretch of a line is from a box.
func parted(box vg.Rectangle, a, b vgPoint) float64 {
	least := math.Inf(1)
	for i := range 201 {
		p := at(a.X+(b.X-a.X)*vg.Length(i)/200, a.Y+(b.Y-a.Y)*vg.Length(i)/200)
		q := nearest(p, box)
		least = math.Min(least, math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y)))
	}
	return least
}

// ownIsNearest requires that, of the marks of an elevation, that of the words at an x is
// nearest to them: by itself or by a leader that begins at it.
func ownIsNearest(t *testing.T, svg string, x map[string]float64, marks map[string][2]vgPoint) {
	list, boxes := drawnIn(t, svg), written(t, svg)
	for words := range x {
		require.Len(t, boxes[words], 1, words)
		var own float64
		others := math.Inf(1)
		for name, m := range marks {
			box := boxes[words][0]
			if strings.HasPrefix(words, "lift") || !strings.HasSuffix(words, "kN") {
				box.Min.Y -= 8.5 // its second line
			}
			from := parted(box, m[0], m[1])
			for _, l := range leaders(list) {
				if math.Abs(float64(l[0].X-m[1].X)) < 0.05 && math.Abs(float64(l[0].Y-m[1].Y)) < 0.6 {
					from = math.Min(from, parted(box, l[0], l[1]))
				}
			}
			if name == words {
				own = from
			} else {
				others = math.Min(others, from)
			}
		}
		require.Less(t, own, others, words)
	}
}

// A diaphragm between the end and the lift line has its label at its own arrow, and the
// lift point has its at its hook: they stood at each other's.
func TestLabelsOfALiftStandAtTheirArrows(t *testing.T) {
	for _, mark := range []string{"wall", "diaphragm, left", "anchor block of the tendons, left"} {
		for _, x := range []float64{0.2, 0.9, 2.5, 4.4} {
			svg := elevationOf(t, 1, func(r *stages.Record) {
				r.Weights = append(r.Weights, stages.Load{Mark: mark, From: x, To: x, Centre: x, Force: 150e3})
				r.Stages[1].Situations[0].Mass = stages.Mass{Weight: 900e3, X: (750*10 + 150*x) / 900, Y: -0.1 * 750 / 900, Z: 0.75 * 750 / 900}
			}).svg
			marks := map[string][2]vgPoint{
				"lift point 1 at x = 3 m": {along(3, hungTop), along(3, hungTop+39)}, "lift point 2 at x = 17 m": {along(17, hungTop), along(17, hungTop+39)},
			}
			at := map[string]float64{"lift point 1 at x = 3 m": 3, "lift point 2 at x = 17 m": 17}
			words := mark + " 150 kN"
			if len(written(t, svg)[words]) == 0 {
				words = mark // in two lines
			}
			at[words], marks[words] = x, [2]vgPoint{along(x, hungTop), along(x, hungTop+16)}
			ownIsNearest(t, svg, at, marks)
			noCollision(t, svg, pageWidth)
		}
	}
}

// Wherever loads and lift points are, at least 0.5 m apart: the nearest mark or leader of
// each label is its own.
func TestEachLabelIsNearestToItsOwnMark(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 9))
	for range 150 {
		var places []float64
		for range 3 + random.IntN(7) {
			x := 0.1 + 19.8*random.Float64()
			if !slices.ContainsFunc(places, func(p float64) bool { return math.Abs(p-x) < 0.5 }) {
				places = append(places, x)
			}
		}
		a := passed(t, Settings{})
		s := &a.record.Stages[1].Situations[0]
		a.record.Weights, s.Supports, s.Reactions = nil, nil, nil
		marks := map[string][2]vgPoint{}
		for i, x := range places {
			if i < 2 {
				s.Supports = append(s.Supports, stages.Support{X: x, Z: 1.5, Role: stages.LiftPoint})
				s.Reactions = append(s.Reactions, stages.Reaction{X: x, Z: 1.5, Role: stages.LiftPoint, Characteristic: stages.Range{Least: 95e3 + float64(i)*1e3, Most: 110e3}})
				marks[fmt.Sprintf("R = %d to 110 kN", 95+i)] = [2]vgPoint{along(x, hungTop-50), along(x, hungTop-50+39)}
				continue
			}
			mark := strings.Repeat("long ", random.IntN(4)) + fmt.Sprintf("block %d", i)
			a.record.Weights = append(a.record.Weights, stages.Load{Mark: mark, From: x, To: x, Centre: x, Force: 150e3})
			marks[mark+" 150 kN"] = [2]vgPoint{along(x, hungTop-50), along(x, hungTop-50+16)}
		}
		svg := a.elevation(a.record.Stages[1], 0).svg
		boxes, x := written(t, svg), map[string]float64{}
		for words := range marks {
			if mark := strings.TrimSuffix(words, " 150 kN"); len(boxes[words]) == 0 && len(boxes[mark]) == 1 { // in two lines
				marks[mark] = marks[words]
				delete(marks, words)
				words = mark
			}
			if len(boxes[words]) == 1 {
				x[words] = 0
			}
		}
		require.Greater(t, len(x), len(places)/2, "most have their words, not a key")
		ownIsNearest(t, svg, x, marks)
	}
}

// crowd is an element with loads and supports at random places, some of them near each
// other, standing or hung, some on slings to hooks.
func crowd(random *rand.Rand) func(*stages.Record) {
	x := func() float64 { return math.Round(random.Float64()*2000) / 100 }
	return func(r *stages.Record) {
		for i := range random.IntN(5) {
			at := x()
			r.Weights = append(r.Weights, stages.Load{Mark: fmt.Sprintf("block %d", i), From: at, To: at, Centre: at, Force: 150e3})
		}
		s := &r.Stages[0].Situations[0]
		for i := range random.IntN(4) {
			at := x()
			s.Loads = append(s.Loads, []stages.Load{
				{Mark: fmt.Sprintf("form %d", i), From: at, To: at, Centre: at, Force: 4e3, Presence: maybe},
				{Mark: fmt.Sprintf("couple %d", i), From: at, To: at, Centre: at, Couple: 4e3, Presence: always},
				{Mark: fmt.Sprintf("deck %d", i), From: at / 2, To: at/2 + 8, Centre: at/2 + 4, Force: 40e3, Presence: always},
				{Mark: fmt.Sprintf("pull %d", i), Direction: "along", Centre: at, Z: 1, Force: -40e3, Presence: either},
			}[random.IntN(4)])
		}
		hung := random.IntN(2) == 0
		s.Supports, s.Reactions = nil, nil
		for range 2 + random.IntN(4) {
			place := stages.Support{X: x(), Y: math.Round(random.Float64()*20)/20 - 0.6}
			if hung {
				place.Z, place.Role = 1.5, stages.LiftPoint
				if random.IntN(3) == 0 {
					place.Hook = &stages.Hook{X: place.X + random.Float64() - 0.5, Z: 4}
				}
			}
			s.Supports = append(s.Supports, place)
			s.Reactions = append(s.Reactions, stages.Reaction{X: place.X, Y: place.Y, Z: place.Z, Role: place.Role, Nominal: 100e3, Characteristic: stages.Range{Least: 95e3, Most: 110e3}})
		}
	}
}

// Whatever stands on or under the element and wherever: no leader crosses another, and
// no words hide others.
func TestNoLeadersCross(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 4))
	met := 0
	for run := range 400 {
		a := passed(t, Settings{})
		crowd(random)(&a.record)
		svg := a.elevation(a.record.Stages[0], 0).svg
		found := leaders(drawnIn(t, svg))
		met += len(found)
		for i := range found {
			for _, other := range found[:i] {
				require.False(t, meet(found[i][0], found[i][1], other[0], other[1]), "run %d: %v and %v", run, found[i], other)
			}
		}
		noCollision(t, svg, pageWidth)
	}
	require.Greater(t, met, 400, "there are leaders to cross")
	require.True(t, meet(at(0, 0), at(2, 2), at(0, 2), at(2, 0)))
	require.False(t, meet(at(0, 0), at(2, 2), at(3, 0), at(3, 2)))
}

// Where more stand than have room, letters stand at the arrows, and a key says what they
// are: nothing is left out.
func TestACrowdHasAKey(t *testing.T) {
	svg := elevationOf(t, 0, weighed(), loaded(func() (list []stages.Load) {
		for i := range 40 {
			x := 1 + float64(i)*0.45
			list = append(list, stages.Load{Mark: fmt.Sprintf("reel %d of the stressing crew", i+1), From: x, To: x, Centre: x, Force: 4e3, Presence: maybe})
		}
		return list
	}()...)).svg
	noCollision(t, svg, pageWidth)
	boxes := written(t, svg)
	for i := range 40 {
		key := letterOf(i)
		require.True(t, strings.Contains(svg, fmt.Sprintf("%s = reel %d of the stressing crew 4 kN, present or absent", key, i+1)), key)
		require.Len(t, boxes[key], 1, key)
		x := float64(boxes[key][0].Min.X+boxes[key][0].Max.X) / 2
		require.InDelta(t, float64(along(1+float64(i)*0.45, 0).X), x, 2, key)
	}
}

// Marks that nearly touch share a label.
func TestMarksThatTouchShareALabel(t *testing.T) {
	list := grouped([]tag{{x: 10, left: 9, right: 11, reach: 4, forms: [][]string{{"a"}, {"long", "a"}}, key: "a"}, {x: 15, left: 14, right: 16, reach: 9, forms: [][]string{{"b"}}, key: "b"}, {x: 40, forms: [][]string{{"c"}}}})
	require.Len(t, list, 2)
	require.Equal(t, [][]string{{"a", "b"}}, list[0].forms)
	require.Equal(t, "a, b", list[0].key)
	require.Equal(t, []vg.Length{9, 16, 9}, []vg.Length{list[0].left, list[0].right, list[0].reach})
	require.Equal(t, []string{"a", "z", "a2", "b3"}, []string{letterOf(0), letterOf(25), letterOf(26), letterOf(53)})
}

// Nor do leaders cross in any figure of a calculation: sections, diagrams, the sequence.
func TestNoLeadersCrossInAnyFigure(t *testing.T) {
	wide := rectangle()
	rich(&wide)
	sagging(&wide)
	prestressed(&wide)
	for _, record := range []stages.Record{storedRecord(t), wide} {
		for _, units := range []Units{SI, US} {
			for _, f := range everyFigure(t, units, record) {
				found := leaders(drawnIn(t, f.svg))
				for i := range found {
					for _, other := range found[:i] {
						require.False(t, meet(found[i][0], found[i][1], other[0], other[1]), "%s: %v and %v", f.name, found[i], other)
					}
				}
			}
		}
	}
}
