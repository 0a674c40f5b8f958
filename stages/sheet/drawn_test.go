package sheet

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/stages"
)

// drawn is one path of a figure: its corners, upwards on the paper, and its pen.
type drawn struct {
	points []vg.Point
	pen    string // style of the path; "" for black filled
	ring   bool   // a circle: points has its centre
}

// Pens as a figure writes them.
const (
	inBlack   = ""
	inWhite   = "fill:#FFFFFF"
	inGrey    = "fill:#707070"
	inPale    = "fill:#E4E4E4"
	thinPen   = "fill:none;stroke:#000000;stroke-width:0.4"
	finePen   = "fill:none;stroke:#707070;stroke-width:0.35"
	leadPen   = "fill:none;stroke:#707070;stroke-width:0.3"
	gearInk   = "fill:none;stroke:#707070;stroke-width:0.8"
	thickPen  = "fill:none;stroke:#000000;stroke-width:1.1"
	dashedPen = "fill:none;stroke:#000000;stroke-width:0.7;stroke-dasharray:4,2"
	chainPen  = "fill:none;stroke:#000000;stroke-width:0.5;stroke-dasharray:7,1.6,1.2,1.6"
	limitPen  = "fill:none;stroke:#000000;stroke-width:0.8"
)

var (
	pathElement = regexp.MustCompile(`<path d="([^"]*)"(?: style="([^"]*)")?`)
	pathPoint   = regexp.MustCompile(`[ML]([-0-9.e]+),([-0-9.e]+)`)
	pathArc     = regexp.MustCompile(`^M([-0-9.e]+),([-0-9.e]+)A([-0-9.e]+),`)
)

// drawnIn are the paths of a figure in order.
func drawnIn(t *testing.T, svg string) []drawn {
	coordinate := func(text string) vg.Length {
		v, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		return vg.Length(v)
	}
	var list []drawn
	for _, m := range pathElement.FindAllStringSubmatch(svg, -1) {
		if arc := pathArc.FindStringSubmatch(m[1]); arc != nil { // it begins at the right of its circle
			list = append(list, drawn{[]vg.Point{at(coordinate(arc[1])-coordinate(arc[3]), coordinate(arc[2]))}, m[2], true})
			continue
		}
		var points []vg.Point
		for _, p := range pathPoint.FindAllStringSubmatch(m[1], -1) {
			points = append(points, at(coordinate(p[1]), coordinate(p[2])))
		}
		list = append(list, drawn{points, m[2], false})
	}
	return list
}

// count is how many paths of a pen run through just these points.
func count(list []drawn, pen string, points ...vg.Point) int {
	n := 0
	for _, d := range list {
		if d.pen != pen || len(d.points) != len(points) || d.ring {
			continue
		}
		same := true
		for i, p := range points {
			same = same && near(p, d.points[i])
		}
		if same {
			n++
		}
	}
	return n
}

// rings is how many circles of a pen have their centre at a point.
func rings(list []drawn, pen string, centre vg.Point) int {
	n := 0
	for _, d := range list {
		if d.ring && d.pen == pen && near(d.points[0], centre) {
			n++
		}
	}
	return n
}

// arrows is how many arrows of a pen go from a point to a tip: a line and a black head
// behind the tip.
func arrows(list []drawn, pen string, from, tip vg.Point) int {
	length := vg.Length(math.Hypot(float64(tip.X-from.X), float64(tip.Y-from.Y)))
	u := at((tip.X-from.X)/length, (tip.Y-from.Y)/length)
	head := []vg.Point{tip, at(tip.X-3.6*u.X-1.3*u.Y, tip.Y-3.6*u.Y+1.3*u.X), at(tip.X-3.6*u.X+1.3*u.Y, tip.Y-3.6*u.Y-1.3*u.X)}
	return min(count(list, pen, from, tip), count(list, inBlack, head...))
}

// middleOf is the middle of words that stand once in a figure.
func middleOf(t *testing.T, svg, words string) vg.Point {
	boxes := written(t, svg)[words]
	require.Len(t, boxes, 1, "%q once in the figure", words)
	return at((boxes[0].Min.X+boxes[0].Max.X)/2, boxes[0].Min.Y+letters*0.36)
}

// The elevation of [rectangle]: 524 points less 34 on each side for 20 m are 22.8
// points a metre, so 34.2 points for 1.5 m of depth; below it are 28 for the supports
// and 50 for the plan.
const (
	perMetre = 22.8
	soffitAt = 78.0
	topAt    = soffitAt + 1.5*perMetre
)

// along is the place on the paper of an x at a height.
func along(x float64, height float64) vg.Point {
	return at(vg.Length(34+x*perMetre), vg.Length(height))
}

// elevationOf is the elevation of a situation of [rectangle] with changes.
func elevationOf(t *testing.T, stage int, changes ...func(*stages.Record)) figure {
	a := passed(t, Settings{}, changes...)
	return a.elevation(a.record.Stages[stage], 0)
}

// sizeOf is the width and height of a figure in points.
func sizeOf(t *testing.T, svg string) (width, height float64) {
	m := regexp.MustCompile(`width="([-0-9.e]+)pt" height="([-0-9.e]+)pt"`).FindStringSubmatch(svg)
	require.NotNil(t, m)
	width, err := strconv.ParseFloat(m[1], 64)
	require.NoError(t, err)
	height, err = strconv.ParseFloat(m[2], 64)
	require.NoError(t, err)
	return width, height
}

// The helpers see what is drawn, and not what is not.
func TestWhatIsDrawnIsFound(t *testing.T) {
	k := newSketch(100, 50)
	k.arrow(thick, at(10, 10), at(10, 30))
	k.ring(at(60, 20), true)
	svg := k.done()
	list := drawnIn(t, svg)
	require.Equal(t, 1, arrows(list, thickPen, at(10, 10), at(10, 30)))
	require.Zero(t, arrows(list, thickPen, at(10, 30), at(10, 10)), "the other way")
	require.Zero(t, arrows(list, thinPen, at(10, 10), at(10, 30)), "another pen")
	require.Equal(t, 1, rings(list, inBlack, at(60, 20)))
	require.Equal(t, 1, rings(list, thinPen, at(60, 20)), "its edge")
	require.Zero(t, rings(list, inWhite, at(60, 20)))
	width, height := sizeOf(t, svg)
	require.Equal(t, []float64{100, 50}, []float64{width, height})
	require.False(t, strings.Contains(svg, "<?xml"), "it stands in a page")
}

// Short names for the geometry of tables of tests.
type (
	point   struct{ x, y float64 }
	vgPoint = vg.Point
)

func vgLength(v float64) vg.Length { return vg.Length(v) }
